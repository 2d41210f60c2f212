"""Takes the README's pictures of the real program. Run from the checkout, on an X server (Xvfb will do):

xvfb-run -a -s "-screen 0 1600x1000x24" env QT_QPA_PLATFORM=xcb .venv/bin/python tests/pictures/take.py
"""

import sys
import tempfile
from pathlib import Path

import pypdfium2
from PIL import Image
from PySide6.QtCore import QSettings
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from app.pictures.worn_view import WornView
from app.theme import apply_theme
from app.window import Window
from app.workbench import application
from core.files.project_file import read_project
from core.lay.lay import lay
from core.matching.solve import match
from core.model.project import Project
from core.model.variants import keep as kept_as
from core.papers.papers import write_papers
from core.seams.readings import measure

HERE = Path(__file__).parent
SAMPLES = HERE.parent.parent / "sample_projects"
SETTLES_MS = 700
COLOURS = 256


def planned(name: str) -> Project:
    return lay(match(read_project(SAMPLES / f"{name}.stripewright")).project, seconds=30).project


def keep(widget: QWidget, name: str, few: bool = False) -> None:
    QTest.qWait(SETTLES_MS)
    widget.grab().save(str(HERE / name))
    write(Image.open(HERE / name), name, few)


def write(picture: Image.Image, name: str, few: bool) -> None:
    """A picture in true colours, or in a few where no grade has to be told by its hue."""
    whole = picture.convert("RGB")
    (whole.quantize(COLOURS, dither=Image.Dither.NONE) if few else whole).save(HERE / name, optimize=True)


def opened(dark: bool, width: int, height: int) -> Window:
    apply_theme(application(), dark)
    window = Window()
    window.resize(width, height)
    window.show()
    QTest.qWaitForWindowExposed(window)
    return window


def take_start() -> None:
    """The start page, with every sample's cloth on its card."""
    window = opened(False, 1000, 520)
    list(window.start.show_cloths())
    keep(window, "start.png", few=True)
    window.close()


def workbench(project: Project, dark: bool) -> Window:
    window = opened(dark, 1500, 940)
    window.document.open(project)
    window.desk.show_closeup()
    QTest.qWait(SETTLES_MS)
    return window


def take_worn(project: Project) -> None:
    """The garment as it hangs, alone and large."""
    view = WornView()
    view.resize(720, 720)
    view.show()
    QTest.qWaitForWindowExposed(view)
    view.show_garment(project, measure(project))
    view.look_from(0.3, 0.2)
    view.clearFocus()
    QTest.qWait(4 * SETTLES_MS)
    keep(view, "worn.png", few=True)
    view.close()


def take_variants(window: Window) -> None:
    """Variants side by side, and what would help."""
    matched, desk = window.document.kept, window.desk
    window.document.change("Try", kept_as(matched, "Matched and laid"))
    desk.show_variants()
    window.document.undo.setClean()
    desk.variants.help.advise()
    while window.jobs.busy:
        QTest.qWait(SETTLES_MS)
    desk.variants.help.take()
    keep(desk.variants, "variants.png")
    window.document.undo.setClean()


def take_papers(project: Project) -> None:
    """Cutting plan, readings and a card; the map of the full-size pattern and two of its tiles."""
    with tempfile.TemporaryDirectory() as folder:
        write_papers(project, Path(folder))
        side_by_side(Path(folder) / "cutting-papers.pdf", (2, 3, 5), "papers.png")
        side_by_side(Path(folder) / "full-size-tiles.pdf", (0, 1, 2), "full-size.png")


def side_by_side(path: Path, pages: tuple[int, ...], name: str) -> None:
    document = pypdfium2.PdfDocument(path)
    pictures = [document[page].render(scale=1.0).to_pil() for page in pages]
    document.close()
    width = sum(picture.width for picture in pictures) + 12 * (len(pictures) + 1)
    sheet = Image.new("RGB", (width, max(picture.height for picture in pictures) + 24), "#d9d2c4")
    x = 12
    for picture in pictures:
        sheet.paste(picture, (x, 12))
        x += picture.width + 12
    write(sheet, name, few=True)


def main() -> None:
    with tempfile.TemporaryDirectory() as profile:
        QSettings.setDefaultFormat(QSettings.Format.IniFormat)
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, profile)
        take_start()
        skirt = planned("harbour-skirt")
        window = workbench(skirt, dark=False)
        window.document.pick_seam(3)
        keep(window, "workbench.png")
        keep(window.desk.opened.closeup, "close-up.png")
        window.desk.show_garment()
        keep(window.desk.garment, "garment.png")
        take_worn(skirt)
        window.close()
        window = workbench(planned("boathouse-plaid"), dark=False)
        window.document.pick_seam(3)
        keep(window, "plaid.png")
        window.close()
        window = workbench(planned("ferry-apron"), dark=False)
        take_variants(window)
        window.close()
        window = workbench(planned("pier-parasol"), dark=True)
        window.document.pick_seam(1)
        keep(window, "parasol-dark.png")
        window.close()
        take_papers(skirt)


if __name__ == "__main__":
    sys.exit(main())
