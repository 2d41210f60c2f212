"""Every place of the workbench, brought up one after the other, for tests that look at all of them."""

import json
import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import msgspec
import numpy as np
from PIL import Image, ImageDraw
from PySide6.QtWidgets import QApplication, QDialog, QWidget

from app.pages.skirt_form import EACH, OWN
from app.pages.swatch_form import DPI
from app.remedies.bar import AS_IT_IS, EASED, SHIFTED
from core.files.project_file import project_from_bytes
from core.model.cloth import Cloth
from core.model.project import Layer, Pocket, Project, Strip
from core.papers.choices import PaperChoices
from core.shifting.wish import ShiftWish

Place = tuple[str, QWidget]
"""What a place is called in a test's report, and the widget that shows it."""

WAITS_MS = 60_000
GORE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="400mm" viewBox="0 0 200 400">'
    '<path id="q1" d="M 60 10 L 140 10 L 190 390 L 10 390 Z"/></svg>'
)
_NAMES = ("id", "name", "title", "cloth", "edge", "lead", "fold", "seam", "panel", "a", "b", "of", "placements")
_FORM = re.compile(r"[^./]+(?=$|[./])")


def nameless(path: Path) -> Project:
    """A project of which every name is a letter and a number: whatever else is read is the program's own."""
    names: dict[str, str] = {}

    def new(name: str) -> str:
        return _FORM.sub(
            lambda part: part[0] if part[0] in ("R", "L") else names.setdefault(part[0], f"q{len(names) + 1}"), name
        )

    def walk(value: object, key: str = "") -> object:
        if isinstance(value, dict):
            return {new(k) if key == "placements" else k: walk(v, k) for k, v in value.items()}
        if isinstance(value, list):
            return [walk(one, key) for one in value]
        return new(value) if isinstance(value, str) and key in _NAMES else value

    return project_from_bytes(json.dumps(walk(json.loads(path.read_text(encoding="utf-8")))).encode())


def furnished(project: Project) -> Project:
    """A project with one of everything that is cut besides its pieces, on a second cloth."""
    piece, seam = project.pieces[0].id, project.seams[0].name
    edge = next(edge for edge in project.pieces[0].edges).name
    facing = Layer(kind="hem facing", of=(piece,), cloth="q0", edge=edge, depth=80.0)
    return msgspec.structs.replace(
        project,
        cloths=(*project.cloths, Cloth(id="q0", name="q0", width=1500.0)),
        layers=(Layer(kind="interlining", of=(piece,), cloth="q0"), facing),
        pockets=(Pocket(id="q98", name="q98", seam=seam, opening=(60, 200), width=120, depth=80, cloth="q0"),),
        strips=(Strip(id="q99", name="q99", length=700.0, width=40.0, number=2, cloth="q0"),),
    )


class Places:
    """Brings up what a window can show, one place at a time. What is shown is put away before the next comes."""

    def __init__(self, window: "Window", folder: Path, qtbot: object) -> None:  # noqa: F821
        self.window, self.folder, self.bot = window, folder, qtbot

    def settle(self) -> None:
        """Let what is due happen."""
        for _ in range(3):
            QApplication.processEvents()

    def until_idle(self, jobs: object) -> None:
        """Wait for work that goes on behind the window."""
        self.bot.waitUntil(lambda: not jobs.busy, timeout=WAITS_MS)
        self.settle()

    def every(self) -> Iterator[Place]:
        """All of them, on the project that is open."""
        yield from self.sides()
        yield from self.dialogs()
        yield from self.pages()

    def sides(self) -> Iterator[Place]:
        """The desk, with each of its pictures and lists."""
        document, desk = self.window.document, self.window.desk
        document.select((next(iter(document.panels)),))
        document.pick_seam(0)
        for name in ("closeup", "garment", "worn", "panels", "sewing", "cut_list", "variants", "as_sewn"):
            getattr(desk, f"show_{name}")()
            self.settle()
            yield f"desk with {name}", self.window
        desk.show_sewing()
        desk.sewing.tree.choose(document.kept.seams[0].name)
        self.settle()
        yield "desk with sewing, a seam chosen", self.window
        desk.show_closeup()

    def dialogs(self) -> Iterator[Place]:
        """What comes up over the window."""
        for name in ("move-by", "keys", "papers", "what-counts", "shift", "shelf", "compare"):
            yield from self._dialog(name, self.window.actions_by_id[name].trigger)
        desk = self.window.desk
        desk.show_cut_list()
        for name, ask in (
            ("interlining", lambda: desk.cut_list.add_layer("interlining")),
            ("hem facing", lambda: desk.cut_list.add_layer("hem facing")),
            ("pocket", desk.cut_list.add_pocket),
            ("strip", desk.cut_list.add_strip),
        ):
            yield from self._dialog(name, ask)
        desk.show_closeup()
        self.window.help.show()
        for row in range(self.window.help.page.list.count()):
            self.window.help.page.list.setCurrentRow(row)
            self.settle()
            yield f"help, {row}", self.window.help.page
        self.window.help.close()

    def _dialog(self, name: str, ask: Callable[[], object]) -> Iterator[Place]:
        ask()
        self.settle()
        found = [dialog for dialog in self.window.findChildren(QDialog) if dialog.isVisible()]
        assert found, name
        self.until_idle(self.window.jobs)
        for dialog in found:
            yield f"dialog {name}", dialog
            dialog.close()
        self.settle()

    def pages(self) -> Iterator[Place]:
        """The ways in."""
        ways = self.window.ways
        ways.from_measurements()
        skirt = ways.page.form.kinds["skirt"].choices
        for choice, value in (("sharing", OWN), ("grain", EACH), ("sharing", "equal"), ("grain", "middle")):
            skirt[choice].entry.show_value(value)
            yield from self._page(f"draft a skirt, {choice} {value}")
        for kind in ("skirt", "canopy"):
            ways.page.form.kind.entry.show_value(kind)
            yield from self._page(f"draft a {kind}")
        drawing = self.folder / "q1.svg"
        drawing.write_text(GORE)
        ways.open_drawing(drawing)
        yield from self._page("drawing")
        ways.from_photograph()
        yield from self._page("photograph, none yet")
        ways.page.open(photograph(self.folder))
        self.until_idle(ways.page.jobs)
        yield from self._page("photograph")
        ways.cloth()
        yield from self._page("cloth")
        ways.repeat_from_picture()
        yield from self._page("swatch, none yet")
        ways.page.open(swatch(self.folder))
        ways.page.form.way.entry.show_value(DPI)
        ways.page.form.dpi.entry.show_value(127.0)
        ways.page.form.find.click()
        yield from self._page("swatch")
        ways.leave_all()

    def deeds(self) -> Iterator[Place]:
        """What is said of what was done, in messages, status and lists, and of jobs behind the window."""
        window, desk = self.window, self.window.desk
        window.document.select((next(iter(window.document.panels)),))
        window.document.pick_seam(0)
        for name, deed in self._jobs_of(window):
            deed()
            self.until_idle(window.jobs)
            yield f"after {name}", window
        window.proving.close()
        for choice in (EASED, SHIFTED):
            desk.opened.bar.choose(choice)
            desk.opened.bar.chosen.emit(choice)
            self.until_idle(desk.opened.jobs)
            yield f"close-up with remedy {choice}", window
        desk.opened.bar.choose(AS_IT_IS)
        for name in DEEDS:
            window.actions_by_id[name].trigger()
            self.settle()
            yield f"after {name}", window
        for unit in ("cm", "in", "mm"):
            window.actions_by_id[unit].trigger()
            self.settle()
            yield f"in {unit}", window

    def _jobs_of(self, window: "Window") -> Sequence[tuple[str, Callable[[], object]]]:  # noqa: F821
        act = window.actions_by_id
        return (
            ("match", act["match"].trigger),
            ("lay", act["lay"].trigger),
            ("help", act["advise"].trigger),
            ("shift", lambda: window.errands.shift(ShiftWish())),
            ("papers", lambda: window.errands.papers(self.folder, PaperChoices(parts=frozenset({"lists"})))),
            ("keep what is left", act["keep-left"].trigger),
        )

    def failures(self) -> Iterator[str]:
        """What is said of files that can't be opened."""
        bad = self.folder / "q5.stripewright"
        for text in ("{", '{"format": "stripewright-project", "version": 1, "q6": 7}'):
            bad.write_text(text)
            assert not self.window.filing.open_path(bad)
            yield self.window.messages.text

    def _page(self, name: str) -> Iterator[Place]:
        page = self.window.ways.page
        for section in page.form.sections + [s for f in getattr(page.form, "kinds", {}).values() for s in f.sections]:
            section.unfold()
        self.settle()
        yield f"page {name}", self.window


DEEDS = ("turn-on", "turn-back", "repeat-left", "other-side", "hold", "turn-on", "hold", "turned", "spread")
DEEDS += ("keep-variant", "sew")
"""Actions done one after the other on the panel selected."""


def photograph(folder: Path) -> Path:
    """A sheet of A4 and a gore on a dark table."""
    image = Image.new("L", (1300, 1000), 60)
    draw = ImageDraw.Draw(image)
    for shape in ([(60, 80), (654, 80), (654, 500), (60, 500)], [(820, 100), (1000, 100), (1140, 900), (700, 900)]):
        draw.polygon(shape, fill=215)
    image.convert("RGB").save(folder / "q2.png")
    return folder / "q2.png"


def swatch(folder: Path) -> Path:
    """Stripes of 20 mm at 5 px to the mm."""
    row = np.full((600, 3), 230, np.uint8)
    row[np.arange(600) % 100 < 25] = (35, 48, 77)
    Image.fromarray(np.tile(row, (400, 1, 1))).save(folder / "q3.png")
    return folder / "q3.png"


@contextmanager
def places_of(window: "Window", folder: Path, qtbot: object) -> Iterator[Places]:  # noqa: F821
    """Places of a window; none is left up."""
    places = Places(window, folder, qtbot)
    try:
        yield places
    finally:
        window.ways.leave_all()
        window.help.close()
