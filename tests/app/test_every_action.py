"""Every action of the table that changes a project is a step: taken back to the start and done again to the end, the
file is the same, byte by byte. So is everything that changes it from the lists, the pages and the cloth itself."""

from collections.abc import Callable

import msgspec
import pytest
from PIL import Image
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QFileDialog, QLineEdit

from app.action_table import TABLE
from app.pages.swatch_form import DPI
from app.remedies.bar import SHIFTED
from core.draft.measures import USUAL_CLOTH
from core.files.project_file import project_to_bytes, write_project
from core.files.shelf import put_on_shelf
from core.model.pattern import On
from core.model.project import Strip
from core.seams.joining import free_edges
from pages_hands import clicked
from swatch.made import Made, picture

FABRIC = Made(20, ((5, 5, "#23304d"), (13, 2, "#b8282e")), size=(600, 400), angle_deg=1.5, noise=4, even=False)
GORE = """<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="900mm" viewBox="0 0 300 900">
<path id="godet" d="M 60 60 Q 100 68 140 60 L 190 760 Q 100 790 10 760 Z"/></svg>"""
NEW = "draft drawing photograph open save save-as quit undo redo keep-left compare papers stop-lay cancel"
SHOWING = (
    "all settle follow zoom-in zoom-out fit fit-width fit-panel true-size closeup garment worn panels sewing cut-list "
    "variants as-sewn next-seam last-seam mm cm in dark help keys"
)
NO_CHANGE = [*NEW.split(), *SHOWING.split()]
"""What shows, asks, opens, saves, or takes up another project."""


class Hands:
    """Does an action, and what it then asks for."""

    def __init__(self, window, mouse, qtbot, folder, monkeypatch) -> None:
        self.window, self.mouse, self.qtbot, self.folder = window, mouse, qtbot, folder
        monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(folder / "godet.svg"), ""))

    def __call__(self, action: str) -> None:
        """As from the menu, then as each asks; every action of another panel, so that no two become one step."""
        document = self.window.document
        names = document.kept.panel_names
        document.select((names[document.undo.index() % len(names)],))
        self.window.actions_by_id[action].trigger()
        getattr(self, action.replace("-", "_"), lambda: None)()

    @property
    def dialog(self) -> QDialog:
        """What is asked just now."""
        return next(one for one in self.window.findChildren(QDialog) if one.isVisible())

    def answered(self) -> None:
        QTest.keyClick(self.dialog, Qt.Key.Key_Return)

    def made(self) -> None:
        """The page that is up does what it is for."""
        self.qtbot.waitUntil(self.window.ways.page.make.isEnabled, timeout=60_000)
        clicked(self.window.ways.page.make)

    def worked_out(self) -> None:
        self.qtbot.waitUntil(lambda: not self.window.jobs.busy, timeout=60_000)

    match = lay = worked_out
    add_drawing = add_cloth = made
    shelf = answered

    def cloth(self) -> None:
        form = self.window.ways.page.form
        form.wide.entry.setText("1612")
        form.one_way.entry.setChecked(False)
        self.made()

    def swatch(self) -> None:
        page = self.window.ways.page
        page.open(self.folder / "cloth.png")
        page.form.way.entry.show_value(DPI)
        page.form.dpi.entry.show_value(127.0)
        page.form.find.click()
        self.made()

    def what_counts(self) -> None:
        self.dialog.on.show_value("lead")
        self.answered()

    def move_by(self) -> None:
        QTest.keyClicks(self.dialog.across, "12,5")
        self.answered()

    def shift(self) -> None:
        self.answered()
        self.worked_out()

    def sew(self) -> None:
        bar, kept = self.window.desk.sewing.bar, self.window.document.kept
        self.window.desk.sewing.remove(kept.seams[0].name)
        one = free_edges(self.window.document.kept)[0]
        bar.one.setCurrentIndex(bar.one.findData(one))
        bar.sew_button.click()

    def keep_variant(self) -> None:
        QTest.keyClick(self.window.desk.variants.table.findChild(QLineEdit), Qt.Key.Key_Return)
        self.qtbot.wait(1)

    def advise(self) -> None:
        self.worked_out()
        self.window.desk.variants.help.try_it.click()


@pytest.fixture
def hands(skirt, mouse, qtbot, tmp_path, monkeypatch) -> Hands:
    monkeypatch.setenv("STRIPEWRIGHT_SHELF", str(tmp_path / "shelf"))
    put_on_shelf(tmp_path / "shelf", msgspec.structs.replace(USUAL_CLOTH, name="Market ticking"))
    (tmp_path / "godet.svg").write_text(GORE)
    Image.fromarray(picture(FABRIC)).save(tmp_path / "cloth.png")
    kept = skirt.document.kept
    on = On(panel="back.R", at=(0.0, 150.0))
    placket = Strip(id="placket", length=180.0, width=40.0, number=1, cloth=kept.cloths[0].id, on=on)
    skirt.document.open(msgspec.structs.replace(kept, strips=(placket,)))
    skirt.edits.spread_new()
    return Hands(skirt, mouse, qtbot, tmp_path, monkeypatch)


def assert_taken_back_and_done_again(document, start: bytes) -> None:
    end, measured = project_to_bytes(document.kept), document.measurement.rms_mm
    while document.undo.canUndo():
        document.undo_step()
    assert project_to_bytes(document.kept) == start
    while document.undo.canRedo():
        document.redo_step()
    assert project_to_bytes(document.kept) == end
    assert document.measurement.rms_mm == pytest.approx(measured, abs=1e-9)


def test_every_action_of_the_table_that_changes_the_project_is_taken_back_and_done_again(hands):
    document = hands.window.document
    document.undo.clear()
    start = project_to_bytes(document.kept)
    changing = [row.id for row in TABLE if row.id not in NO_CHANGE]
    assert len(changing) == len(TABLE) - len(NO_CHANGE)
    first = ("cloth", "shift", "match", "lay", "advise")  # these want the project as the sample has it
    last = ("hold", "add-drawing")  # after these a panel can't be moved, or is not sewn
    for action in sorted(changing, key=lambda one: (one in last) - (one in first)):
        count, before = document.undo.index(), document.kept
        hands(action)
        assert document.undo.index() > count, action
        assert document.kept != before, action
    assert_taken_back_and_done_again(document, start)


def typed(box, text: str) -> None:
    box.selectAll()
    QTest.keyClicks(box, text)
    QTest.keyClick(box, Qt.Key.Key_Return)


def on_the_cloth(hands) -> dict[str, Callable[[], object]]:
    """What changes the project on the cloth, in the strip above it and in the close-up, by what it would be called."""
    window, mouse, view = hands.window, hands.mouse, hands.window.desk.view
    strip, pane = window.desk.inspector, window.desk.opened

    def turned() -> None:
        window.document.select(("side.L",))
        mouse.drag(view.handle_at() + view.handle.knob(), QPointF(25, 4))

    def shifted() -> None:
        window.document.pick_seam(1)
        pane.bar._group.button(SHIFTED).click()
        hands.qtbot.waitUntil(lambda: not pane.jobs.busy, timeout=60_000)
        pane.bar.apply_button.click()

    return {
        "shift one seam": shifted,
        "drag": lambda: mouse.drag(mouse.on("side.R"), QPointF(40, 9)),
        "turn": turned,
        "nudge": lambda: QTest.keyClick(view, Qt.Key.Key_Down),
        "type across": lambda: typed(strip.u, "700"),
        "type along": lambda: typed(strip.v, "88,5"),
        "type a turn": lambda: typed(strip.turn, "0,15"),
        "hold in the strip": strip.hold.click,
        "let go": strip.hold.click,
    }


def of_variants(hands) -> dict[str, Callable[[], object]]:
    """What is done to variants."""
    desk = hands.window.desk
    page = desk.variants

    def renamed() -> None:
        page.rename.click()
        typed(page.table.findChildren(QLineEdit)[-1], "by hand")
        hands.qtbot.waitUntil(lambda: page.table.name == "by hand", timeout=60_000)

    return {
        "keep a variant": lambda: (desk.keep_variant(), hands.keep_variant()),
        "rename it": renamed,
        "move on": lambda: QTest.keyClick(desk.view, Qt.Key.Key_Left),
        "go to it": lambda: (page.table.pick("by hand"), page.go.click()),
        "delete it": lambda: (page.table.pick("by hand"), page.delete.click()),
    }


def in_the_lists(hands) -> dict[str, Callable[[], object]]:
    """What is done in the lists of seams and of what is cut, and to the file on disk."""
    window = hands.window
    sewing, cut_list = window.desk.sewing, window.desk.cut_list
    seam = window.document.kept.seams[1].name

    def lined() -> None:
        window.desk.show_cut_list()
        cut_list.add_layer("interlining")
        hands.answered()

    def strip() -> None:
        cut_list.add_strip()
        hands.dialog.name.setText("Hanger loop")
        for field in (hands.dialog.length, hands.dialog.width):
            QTest.keyClicks(field, "60")
        hands.answered()

    def unlined() -> None:
        rows = (item for item in cut_list.tree._all())
        cut_list.tree.setCurrentItem(next(item for item in rows if "interlining" in item.text(0)))
        cut_list.remove.click()

    def changed_outside() -> None:
        path = hands.folder / "mine.stripewright"
        window.document.save(path)
        write_project(path, msgspec.structs.replace(window.document.kept, title="Changed outside"))
        assert window.filing.read_again()

    return {
        "show a seam more": lambda: sewing.change(seam, {"weight": 2.5}),
        "see part of a seam": lambda: sewing.change(seam, {"seen": (0.0, 300.0)}),
        "unsew": lambda: sewing.form.removed.emit(seam),
        "sew a ring": sewing.bar.ring_button.click,
        "line it": lined,
        "add a strip": strip,
        "tick a piece off": lambda: cut_list.tick(("side.L",), True),
        "take the lining out": unlined,
        "read the file again": changed_outside,
    }


def test_what_changes_the_project_by_hand_is_taken_back_and_done_again(hands):
    document = hands.window.document
    document.undo.clear()
    start = project_to_bytes(document.kept)
    for name, do in (on_the_cloth(hands) | of_variants(hands) | in_the_lists(hands)).items():
        before = document.kept
        do()
        assert document.kept != before, name
    assert_taken_back_and_done_again(document, start)
