"""The ways into a project: from measurements, from a drawing, and the cloths of what is open. Pages come up and go."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec
from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QMessageBox, QStackedWidget, QWidget

from app.document import Document
from app.filing import DRAWINGS, Filing
from app.messages import MessageBar
from app.pages.cloth_card import STAND_IN
from app.pages.cloth_words import change_of, odd_with
from app.pages.numbers import longest_panel_mm, summary
from app.pages.page import Page
from app.window_state import note_folder
from app.words import tr
from core.draft.measures import usual_cloth
from core.files.outlines import Drawing
from core.model.cloth import Cloth
from core.model.project import Project

if TYPE_CHECKING:
    from app.pages.cloth_page import ClothPage
    from app.pages.draft_page import DraftPage
    from app.pages.import_page import ImportPage
    from app.pages.photo_page import PhotoPage
    from app.pages.swatch_page import SwatchPage


class WaysIn(QObject):
    """Brings pages up in the window's stack and takes home what they make. One page at a time is up."""

    turned = Signal()
    """A page has come up or gone."""
    looking = Signal()
    """A drawing is being looked for: what reads it will be wanted."""
    begun = Signal()
    """A new project is open, no panel of it has a place yet."""

    def __init__(
        self,
        document: Document,
        filing: Filing,
        messages: MessageBar,
        pages: QStackedWidget,
        home: Callable[[], QWidget],
        window: QWidget,
    ) -> None:
        super().__init__(window)
        self._document, self._filing, self._messages = document, filing, messages
        self._pages, self._home, self._window = pages, home, window
        self._below: list[Page] = []
        filing.may_leave_page = self.may_leave

    # --- which page is up

    @property
    def page(self) -> Page | None:
        """The page that is up, or None."""
        here = self._pages.currentWidget()
        return here if isinstance(here, Page) else None

    def _bring(self, page: Page, way: str) -> None:
        if self.page:
            self._below.append(self.page)
        self._messages.hide()
        page.begin(way)
        page.left.connect(self.leave)
        self._pages.addWidget(page)
        self._show(page)

    def _show(self, page: Page) -> None:
        self._pages.setCurrentWidget(page)
        page.show_theme()
        self.turned.emit()
        page.first_field.setFocus()

    def leave(self) -> None:
        """Go back to the page below, or to what the window shows."""
        self._drop(self.page)
        if self._below:
            self._show(self._below.pop())
        else:
            self._pages.setCurrentWidget(self._home())
            self.turned.emit()

    def _drop(self, page: Page | None) -> None:
        if page:
            page.put_away()
            self._pages.removeWidget(page)
            page.deleteLater()

    def leave_all(self) -> None:
        """Put all pages away: another project is there."""
        while self.page or self._below:
            self.leave()

    @property
    def _all(self) -> list[Page]:
        return [*self._below, *([self.page] if self.page else [])]

    def put_away_all(self) -> None:
        """End what pages have begun: the window closes."""
        for page in self._all:
            page.put_away()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        for page in self._all:
            page.show_theme()

    # --- half filled in

    def stand(self) -> list[dict[str, Any]]:
        """The pages that are up, the uppermost last, as plain data for a file; none while nothing was filled in."""
        filled_in = any(page.filled_in for page in self._all)
        return [{"way": page.way, "title": page.title.text(), **page.stands()} for page in self._all if filled_in]

    def may_leave(self) -> bool:
        """Ask whether pages half filled in may be left; those that are not go without a word."""
        title = next((page.title.text() for page in reversed(self._all) if page.filled_in), "")
        if not title:
            return True
        text = tr("Leave the page {page}? What was filled in there is lost.").format(page=title)
        buttons = QMessageBox.StandardButton
        ask = buttons.Discard | buttons.Cancel
        return QMessageBox.question(self._window, "Stripewright", text, ask, buttons.Cancel) == buttons.Discard

    def stand_again(self, stood: list[dict[str, Any]]) -> None:
        """Bring pages up again, filled in as far as they were."""
        ways = {
            "measurements": self._draft,
            "drawing": self._import,
            "photograph": self._photo,
            "pieces": self._add_from,
            "cloth": self._cloth_below,
            "cloths": self._project_cloths,
            "picture": self._swatch,
        }
        self.leave_all()
        for each in stood:
            if bring := ways.get(each["way"]):
                bring().stand_again(each)

    # --- new projects

    def from_measurements(self) -> None:
        """Draft a pattern."""
        from app.pages.draft_page import DraftPage

        if not isinstance(self.page, DraftPage):
            self.leave_all()
            self._draft()

    def _draft(self) -> "DraftPage":
        from app.pages.draft_page import DraftPage

        page = DraftPage()
        page.cloth_wanted.connect(self._cloth_below)
        page.made.connect(self._begin)
        self._bring(page, "measurements")
        return page

    def from_drawing(self) -> None:
        """Ask for a drawing and bring its pieces in as a new project."""
        if path := self._ask_drawing():
            self.open_drawing(path)

    def open_drawing(self, path: Path) -> None:
        """Bring in the pieces of a drawing as a new project."""
        self.leave_all()
        self._import().begin_with(path)

    def _import(self) -> "ImportPage":
        from app.pages.import_page import ImportPage

        page = ImportPage()
        page.cloth_wanted.connect(self._cloth_below)
        page.made.connect(self._begin)
        self._bring(page, "drawing")
        return page

    def from_photograph(self) -> None:
        """Trace pieces from a photograph; the import page then makes a new project of them."""
        from app.pages.photo_page import PhotoPage  # brings scipy with it, which takes half a second

        if not isinstance(self.page, PhotoPage):
            self.leave_all()
            self._photo()

    def _photo(self) -> "PhotoPage":
        from app.pages.photo_page import PhotoPage

        page = PhotoPage()
        page.made.connect(self._pieces_of)
        self._bring(page, "photograph")
        return page

    def _pieces_of(self, path: Path, drawing: Drawing) -> None:
        """Go on from a traced photograph; Back leads to it again."""
        self._import().open_traced(path, drawing)

    def add_drawing(self) -> None:
        """Ask for a drawing and add its pieces to the open project."""
        if path := self._ask_drawing():
            self.leave_all()
            self._add_from().begin_with(path)

    def _add_from(self) -> "ImportPage":
        from app.pages.import_page import ImportPage

        page = ImportPage(self._document.kept)
        page.made.connect(self._add)
        self._bring(page, "pieces")
        return page

    def _ask_drawing(self) -> Path | None:
        self.looking.emit()
        path, _ = QFileDialog.getOpenFileName(
            self._window, tr("Open a drawn pattern"), str(self._filing.folder()), tr(DRAWINGS)
        )
        if path:
            note_folder(Path(path).parent)
        return Path(path) if path else None

    def _begin(self, project: Project) -> None:
        if not self._filing.may_leave_project():
            return
        self.leave_all()
        self._document.begin(project)
        self.begun.emit()
        if project.cloths[0] == usual_cloth():
            self._messages.say(
                tr("{summary} Its cloth is a stand-in.").format(summary=summary(project)),
                tr("Enter the cloth…"),
                self.cloth,
            )
        else:
            self._messages.say(summary(project))

    def _add(self, project: Project) -> None:
        before = len(self._document.kept.pieces)
        self.leave_all()
        self._document.change(tr("Add pieces from a drawing"), project)
        added = len(project.pieces) - before
        self._messages.say((tr("1 piece added.") if added == 1 else tr("{count} pieces added.")).format(count=added))

    # --- cloths

    def _cloth_below(self) -> "ClothPage":
        """The cloth of a project that is only being made on the page that is up."""
        from app.pages.cloth_page import ClothPage

        page: DraftPage | ImportPage = self.page
        cloths = ClothPage()

        def keep(made: tuple[Cloth, ...]) -> None:
            self.leave()
            page.take_cloth(made[0])

        cloths.made.connect(keep)
        cloths.show_cloths((page.cloth,), frozenset(), page.longest_mm, several=False)
        self._bring(cloths, "cloth")
        if page.cloth == usual_cloth():
            cloths.words.say(tr(STAND_IN), wrong=True)
        return cloths

    def cloth(self) -> None:
        """The cloths of the open project; what is kept is one undo step."""
        from app.pages.cloth_page import ClothPage

        if not isinstance(self.page, ClothPage):
            self.leave_all()
            self._project_cloths()

    def add_cloth(self) -> None:
        """One more cloth for the open project."""
        from app.pages.cloth_page import ClothPage

        if not isinstance(self.page, ClothPage):
            self.leave_all()
            self._project_cloths().add_cloth()

    def _project_cloths(self) -> "ClothPage":
        from app.pages.cloth_page import ClothPage

        project = self._document.kept
        page = ClothPage()
        page.made.connect(self._keep_cloths)
        used = frozenset(part.cloth for part in (*project.pieces, *project.layers, *project.pockets, *project.strips))
        page.show_cloths(project.cloths, used, longest_panel_mm(project), lambda cloths: odd_with(project, cloths))
        self._bring(page, "cloths")
        return page

    def from_shelf(self, cloth_id: str) -> None:
        """Show the shelf; a cloth taken from it, in the place of the one named or as one more, is one undo step."""
        from app.safekeeping.folders import shelf_folder
        from app.shelf.dialog import ShelfDialog
        from core.derive.changes import with_cloth

        project = self._document.kept

        def take(cloth: Cloth, more: bool) -> None:
            taken = with_cloth(project, cloth, None if more else cloth_id)
            self._document.change(tr("Take {cloth} from the shelf").format(cloth=cloth.title), taken)

        ShelfDialog(shelf_folder(), take, project.cloth(cloth_id).title, parent=self._window).open()

    def repeat_from_picture(self) -> None:
        """Read a repeat from a picture for a cloth of the open project; using it is one undo step."""
        from app.pages.swatch_page import SwatchPage  # brings scipy with it, which takes half a second

        if not isinstance(self.page, SwatchPage):
            self.leave_all()
            self._swatch()

    def _swatch(self) -> "SwatchPage":
        from app.pages.swatch_page import SwatchPage

        page = SwatchPage(self._document.kept.cloths)
        page.made.connect(self._use_repeat)
        self._bring(page, "picture")
        return page

    def _use_repeat(self, changed: Cloth) -> None:
        cloths = tuple(changed if cloth.id == changed.id else cloth for cloth in self._document.kept.cloths)
        self._keep_cloths(cloths)
        self._messages.say(
            tr("{title} has a new repeat. Measure where its first one begins.").format(title=changed.title),
            tr("Cloth…"),
            self.cloth,
        )

    def _keep_cloths(self, cloths: tuple[Cloth, ...]) -> None:
        before = self._document.kept
        project = msgspec.structs.replace(before, cloths=cloths)
        self.leave_all()
        self._document.change(change_of(before.cloths, cloths), project)
