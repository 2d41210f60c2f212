"""The desk: the cloth with its strip at the left, readings, pictures and lists at its right.

What can wait until somebody looks is made then, or in idle time: see `app/later.py`.
"""

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QSplitter, QTabWidget, QVBoxLayout, QWidget

from app.canvas.pane import CanvasPane
from app.canvas.view import CanvasView
from app.document import Document
from app.edits import Edits
from app.errands import Errands
from app.inspector import Inspector
from app.jobs import JobRunner
from app.later import Made, Place, made
from app.messages import MessageBar, OfferBar
from app.proving import Proving
from app.readings.seam_table import SeamTable
from app.status import Status
from app.words import later, tr
from core.model.pattern import PanelName

if TYPE_CHECKING:
    from app.as_sewn.page import AsSewnPage
    from app.cut_list import CutList
    from app.panel_list import PanelList
    from app.pictures.garment_picture import GarmentPicture
    from app.pictures.worn_view import WornView
    from app.remedies.pane import RemedyPane
    from app.sewing.page import SewingPage
    from app.variants.page import VariantsPage
    from core.shifting.wish import ShiftWish

SEAMS_WIDE_PX = 460
PICTURES_EVERY_MS = 33
"""Close-up and garment follow a drag no faster than this; the readings follow every move."""
PICTURES = {"opened": later("Close-up"), "garment": later("Garment"), "worn": later("Worn")}
"""What the tabs below the readings hold, with their titles."""
LISTS = {
    "panel_list": later("Panels"),
    "sewing": later("Sewing"),
    "cut_list": later("Cut list"),
    "variants": later("Variants"),
    "as_sewn": later("As sewn"),
}
"""What the tabs beside the readings hold, with their titles."""


TABLE_AND_PICTURES = (4, 5)
"""How the height is shared, on small screens too."""


class Desk(QSplitter):
    """All that shows the document, and follows it."""

    def __init__(
        self,
        document: Document,
        edits: Edits,
        errands: Errands,
        proving: Proving,
        jobs: JobRunner,
        messages: MessageBar,
    ) -> None:
        super().__init__(Qt.Orientation.Horizontal, childrenCollapsible=False)
        self._document, self._edits, self._errands = document, edits, errands
        self._proving, self._jobs, self._messages = proving, jobs, messages
        self._moved: frozenset[PanelName] = frozenset()
        self._pictures_due = QTimer(self, singleShot=True, interval=PICTURES_EVERY_MS)
        self._pictures_due.timeout.connect(self._show_moved)
        self.pane = CanvasPane(document, edits)
        self.inspector = Inspector(document, edits)
        self.unplaced = OfferBar(
            tr("No places yet: until then all panels are read at the corner of the cloth."),
            {tr("Match stripes"): errands.match, tr("Spread out"): edits.spread_new},
        )
        self.heaped = OfferBar(
            tr("The panels lie on one heap: how they match is known, not yet where each is cut."),
            {tr("Lay on the cloth"): errands.lay, tr("Spread out"): edits.spread_out},
        )
        self.table = SeamTable()
        self.status = Status(document, self.view, jobs)
        self.places = {name: Place(lambda name=name: getattr(self, name)) for name in (*PICTURES, *LISTS)}
        self._lay_out()
        self._connect()
        self._show_all()
        self._show_seam()

    @property
    def view(self) -> CanvasView:
        """The view on the cloth."""
        return self.pane.view

    # --- what is made when it is wanted

    @cached_property
    def opened(self) -> "RemedyPane":
        """The close-up with its remedies."""
        from app.pictures.closeup import CloseUp
        from app.remedies.pane import RemedyPane

        pane = self._take("opened", RemedyPane(CloseUp()))
        pane.wanted.connect(self._errands.take_shift)
        return pane

    @cached_property
    def garment(self) -> "GarmentPicture":
        """The panels side by side as worn."""
        from app.pictures.garment_picture import GarmentPicture

        return self.places["garment"].take(GarmentPicture())

    @cached_property
    def worn(self) -> "WornView":
        """The garment as it hangs."""
        from app.pictures.worn_view import WornView

        view = self.places["worn"].take(WornView())
        view.panel_clicked.connect(lambda name: self._document.select((name,)))
        return view

    @cached_property
    def panel_list(self) -> "PanelList":
        """The list of panels."""
        from app.panel_list import PanelList

        return self._take("panel_list", PanelList(self._document, self._edits))

    @cached_property
    def sewing(self) -> "SewingPage":
        """The sewing page."""
        from app.sewing.page import SewingPage

        return self._take("sewing", SewingPage(self._document, self.view, self._messages))

    @cached_property
    def cut_list(self) -> "CutList":
        """The cut list."""
        from app.cut_list import CutList

        return self._take("cut_list", CutList(self._document, self._messages))

    @cached_property
    def variants(self) -> "VariantsPage":
        """The variants, and what would help."""
        from app.variants.page import VariantsPage

        return self._take("variants", VariantsPage(self._document, self._errands, self._jobs, self._messages))

    @cached_property
    def as_sewn(self) -> "AsSewnPage":
        """What to expect once it is sewn."""
        from app.as_sewn.page import AsSewnPage

        return self._take("as_sewn", AsSewnPage(self._document))

    def _take(self, name: str, part: Made) -> Made:
        """Give a part its place; it loses the fonts it was given before."""
        self.places[name].take(part)
        part.show_theme()
        return part

    # --- making

    def _lay_out(self) -> None:
        cloth = QWidget()
        column = QVBoxLayout(cloth)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for part in (self.unplaced, self.heaped, self.inspector, self.pane):
            column.addWidget(part, 1 if part is self.pane else 0)
        self.pictures = QTabWidget(documentMode=True)
        self.pictures.setAccessibleName(tr("Pictures"))
        self.pictures.tabBar().setAccessibleName(tr("Which picture"))
        for name, title in PICTURES.items():
            self.pictures.addTab(self.places[name], tr(title))
        self.right = QSplitter(Qt.Orientation.Vertical, childrenCollapsible=False)
        self.right.addWidget(self.table)
        self.right.addWidget(self.pictures)
        for index, share in enumerate(TABLE_AND_PICTURES):
            self.right.setStretchFactor(index, share)
        self.right.setSizes([share * 100 for share in TABLE_AND_PICTURES])
        self.side = QTabWidget(documentMode=True)
        self.side.setAccessibleName(tr("Beside the cloth"))
        self.side.tabBar().setAccessibleName(tr("What is beside the cloth"))
        self.side.addTab(self.right, tr("Readings"))
        for name, title in LISTS.items():
            self.side.addTab(self.places[name], tr(title))
        for tabs, names in ((self.pictures, PICTURES), (self.side, LISTS)):
            for name in names:
                self.places[name].after = tabs.tabBar()
        self.addWidget(cloth)
        self.addWidget(self.side)
        self.setStretchFactor(0, 1)
        self.setSizes([1000, SEAMS_WIDE_PX])

    def _connect(self) -> None:
        document = self._document
        document.project_changed.connect(self._show_all)
        document.placements_changed.connect(self._follow)
        document.seam_changed.connect(self._show_seam)
        document.selection_changed.connect(self._show_selected)
        self._proving.told.connect(self._show_proof)
        self._errands.growing.shown.connect(self.view.keep_all_seen)
        for laid_anew in (self._errands.matched, self._errands.laid, self._edits.spread):
            laid_anew.connect(self.view.fit_again)
        self.table.seam_picked.connect(document.pick_seam)
        self.table.view.way_clicked.connect(lambda way: self.opened.show_way(way))
        self.table.sewing_wanted.connect(self.show_sewing)
        self.inspector.cloths.activated.connect(self._show_cloth)
        self.pictures.currentChanged.connect(self._turn_page)

    # --- following the document

    def _show_all(self) -> None:
        self._follow(frozenset(self._document.panels))

    def _follow(self, moved: frozenset[PanelName]) -> None:
        document = self._document
        self.table.show_measurement(document.project, document.measurement)
        self._show_proof()
        self._moved |= moved
        if not document.trying:
            self._offer_places()
            self._show_moved()
            return
        self._messages.give_way()
        if not self._pictures_due.isActive():
            self._pictures_due.start()

    def _offer_places(self) -> None:
        """Offer to place panels that have no places yet, or lie on one heap; never while they are moved."""
        new = not self._document.project.placements.keys() >= self._document.panels.keys()
        self.unplaced.setVisible(new)
        self.heaped.setVisible(not new and self.view.scene_here.lying.heaped)

    def _show_proof(self) -> None:
        words = self._proving.words
        self.table.figure.show_proof(words)
        self.status.show_proof(words)

    def _show_moved(self) -> None:
        """Show the pictures of what has moved since they were shown last."""
        self._pictures_due.stop()
        moved, self._moved = self._moved, frozenset()
        self._show_pictures(moved)

    def _show_pictures(self, moved: frozenset[PanelName] | None = None) -> None:
        document, here = self._document, self.pictures.currentWidget()
        if here is self.places["garment"]:
            self.garment.show_garment(document.project, document.measurement)
        elif here is self.places["worn"]:
            self.worn.show_garment(document.project, document.measurement)
        elif moved is None or document.reading is None or moved & set(document.reading.line.panels):
            self.opened.show_seam(document.project, document.reading, document.trying)

    def _turn_page(self) -> None:
        """Show the picture that has come up."""
        self._show_pictures()

    def _show_seam(self) -> None:
        self.table.pick(self._document.seam)
        if self._document.seam >= 0:
            self.pictures.setCurrentWidget(self.places["opened"])
            self._show_cloth_of(self._document.garment.seams[self._document.seam].panels[0])
        self._show_pictures()

    def _show_selected(self) -> None:
        """Follow the selection, to another cloth if it lies on one."""
        if self._document.current and self._document.current not in self.view.scene_here.panels:
            self._show_cloth_of(self._document.current)

    def _show_cloth_of(self, panel: PanelName) -> None:
        """Bring the cloth of a panel up."""
        index = self.inspector.cloths.findData(self._document.cut.cloth_of(panel).id)
        if index != self.inspector.cloths.currentIndex():
            self.inspector.cloths.setCurrentIndex(index)
            self._show_cloth()

    def _show_cloth(self) -> None:
        self.view.show_cloth(self.inspector.cloths.currentData())
        self._offer_places()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        lists = made(self, "opened", *LISTS)
        for part in (self.pane, self.inspector, self.table, *lists, self.status):
            part.show_unit()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        lists = made(self, "opened", *LISTS)
        for part in (self.view, self.unplaced, self.heaped, self.inspector, self.status, *lists):
            part.show_theme()

    def end(self) -> None:
        """Leave no thread and no timer behind."""
        self._pictures_due.stop()
        for opened in made(self, "opened"):
            opened.close_jobs()

    # --- what actions do

    def select_all(self) -> None:
        """Select all panels on the cloth that is shown."""
        self._document.select(tuple(self.view.scene_here.panels))

    def set_settling(self, settles: bool) -> None:
        """Let dragged panels settle on matches, or not."""
        self.view.settles = settles

    def ask_shift(self) -> None:
        """Ask how far stitching lines may be moved, and move them."""
        from app.remedies.form import ShiftForm

        ShiftForm(self.opened.wish, self._shift, self.window()).open()

    def _shift(self, wish: "ShiftWish") -> None:
        self.opened.wish = wish
        self._errands.shift(wish)

    def _show_picture(self, name: str) -> None:
        self.side.setCurrentWidget(self.right)
        self.pictures.setCurrentWidget(self.places[name])

    def show_closeup(self) -> None:
        """Show the close-up."""
        self._show_picture("opened")

    def show_garment(self) -> None:
        """Show the garment picture."""
        self._show_picture("garment")

    def show_worn(self) -> None:
        """Show the garment as it hangs."""
        self._show_picture("worn")

    def show_panels(self) -> None:
        """Show the list of panels, with the keys in it."""
        self.side.setCurrentWidget(self.places["panel_list"])
        self.panel_list.table.setFocus()

    def show_sewing(self) -> None:
        """Show the sewing page."""
        self.side.setCurrentWidget(self.places["sewing"])

    def show_cut_list(self) -> None:
        """Show the cut list."""
        self.side.setCurrentWidget(self.places["cut_list"])

    def show_as_sewn(self) -> None:
        """Show what to expect once it is sewn."""
        self.side.setCurrentWidget(self.places["as_sewn"])

    def show_variants(self) -> None:
        """Show the variants."""
        self.side.setCurrentWidget(self.places["variants"])

    def show_advice(self) -> None:
        """Work out what would help, and show it."""
        self.show_variants()
        self.variants.help.advise()

    def keep_variant(self) -> None:
        """Keep how things stand as a variant."""
        self.show_variants()
        self.variants.keep()

    def pick_edges(self) -> None:
        """Begin picking edges on the cloth to sew them together, or end it."""
        self.show_sewing()
        self.sewing.pick_on_cloth()

    def next_seam(self) -> None:
        """Pick the next seam."""
        self._step_seam(1)

    def seam_before(self) -> None:
        """Pick the seam before."""
        self._step_seam(-1)

    def _step_seam(self, step: int) -> None:
        if count := len(self._document.garment.seams):
            here = self._document.seam if self._document.seam >= 0 or step > 0 else 0
            self._document.pick_seam((here + step) % count)
