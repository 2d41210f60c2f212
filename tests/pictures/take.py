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

from app.theme import apply_theme
from app.window import Window
from app.workbench import application
from app.worn_view import WornView
from core.files.project_file import read_project
from core.lay.lay import lay
from core.matching.solve import match
from core.model.project import Project
from core.papers.papers import write_papers
from core.seams.readings import measure

HERE = Path(__file__).parent
SAMPLES = HERE.parent.parent / "sample_projects"
SETTLES_MS = 700


def planned(name: str) -> Project:
    return lay(match(read_project(SAMPLES / f"{name}.stripewright")).project, seconds=60).project


def keep(widget: QWidget, name: str) -> None:
    QTest.qWait(SETTLES_MS)
    widget.grab().save(str(HERE / name))
    Image.open(HERE / name).convert("RGB").save(HERE / name, optimize=True)


def workbench(project: Project, dark: bool) -> Window:
    app = application()
    apply_theme(app, dark)
    window = Window()
    window.resize(1500, 940)
    window.show()
    QTest.qWaitForWindowExposed(window)
    window.document.open(project)
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
    keep(view, "worn.png")
    view.close()


def take_papers(project: Project, pages: tuple[int, ...]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        write_papers(project, Path(folder))
        document = pypdfium2.PdfDocument(Path(folder) / "cutting-papers.pdf")
        pictures = [document[page].render(scale=1.0).to_pil() for page in pages]
        document.close()
    width = sum(picture.width for picture in pictures) + 12 * (len(pictures) + 1)
    sheet = Image.new("RGB", (width, max(picture.height for picture in pictures) + 24), "#d9d2c4")
    x = 12
    for picture in pictures:
        sheet.paste(picture, (x, 12))
        x += picture.width + 12
    sheet.save(HERE / "papers.png", optimize=True)


def main() -> None:
    with tempfile.TemporaryDirectory() as profile:
        QSettings.setDefaultFormat(QSettings.Format.IniFormat)
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, profile)
        skirt = planned("harbour-skirt")
        window = workbench(skirt, dark=False)
        window.document.pick_seam(3)
        keep(window, "workbench.png")
        keep(window.desk.opened.closeup, "close-up.png")
        window.desk.show_garment()
        keep(window.desk.garment, "garment.png")
        take_worn(skirt)
        window.close()
        window = workbench(planned("pier-parasol"), dark=True)
        window.document.pick_seam(1)
        keep(window, "parasol-dark.png")
        window.close()
        take_papers(skirt, (1, 2, 5))


if __name__ == "__main__":
    sys.exit(main())
