"""The bar that offers what a window that is gone has left unsaved."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from PySide6.QtWidgets import QPushButton, QWidget

from app.document import Document
from app.filing import Filing
from app.messages import Bar, MessageBar
from app.safekeeping.folders import recovery_folder
from app.safekeeping.keeper import Keeper, Pages
from app.safekeeping.recovery import Origin, Orphan, find_orphans
from app.safekeeping.stamp import stamp_of
from app.theme import TARGET
from app.words import tr
from core.errors import StripewrightError
from core.model.project import Project


class RescuedBar(Bar):
    """One thing after another: bring it back, or put it away."""

    def __init__(
        self,
        document: Document,
        filing: Filing,
        keeper: Keeper,
        messages: MessageBar,
        bring_pages: Callable[[Pages], None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._bring_pages = bring_pages
        self.setAccessibleName(tr("Work that was not saved"))
        self._document, self._filing, self._keeper, self._messages = document, filing, keeper, messages
        self._orphans: list[Orphan] = []
        self.back, self.away = _button(tr("Bring back"), self.bring_back), _button(tr("Put away"), self.put_away)
        for button in (self.back, self.away):
            self.row.addWidget(button)
        self.show_theme()
        self.hide()

    def look(self, folder: Path | None = None) -> None:
        """Offer what is there."""
        self._orphans += find_orphans(folder or recovery_folder())
        self._show_next()

    def _show_next(self) -> None:
        self.setVisible(bool(self._orphans))
        if self._orphans:
            text = in_words(self._orphans[0].origin, date.today())
            self.words.setText(text)
            self.words.setAccessibleName(text)

    def bring_back(self) -> None:
        """Make what is offered the open project, unsaved as it was, and bring up the pages half filled in."""
        orphan = self._orphans[0]
        try:
            project = orphan.read()
        except StripewrightError as error:
            self._messages.warn(tr("This can't be brought back: {error}").format(error=error))
            self._drop(orphan.let_go)
            return
        if not (self._filing.may_leave_page() and (project is None or self._filing.may_leave_project())):
            return
        if project is not None:
            self._take(project, orphan.origin)
        self._bring_pages(orphan.origin.pages)
        self._keeper.take_over(orphan.origin.changes)
        self._drop(orphan.remove)

    def _take(self, project: Project, origin: Origin) -> None:
        path = Path(origin.path) if origin.path else None
        path = path if path and path.is_file() else None
        same = origin.saved and (path is None or stamp_of(path) == origin.stamp)
        (self._document.open if same else self._document.begin)(project, path)
        self._filing.disk.note(path, origin.stamp)

    def put_away(self) -> None:
        """Never offer this again."""
        self._drop(self._orphans[0].put_away)

    def _drop(self, how: Callable[[], None]) -> None:
        how()
        del self._orphans[0]
        self._show_next()

    def let_go(self) -> None:
        """Leave what was not decided on for the next start."""
        for orphan in self._orphans:
            orphan.let_go()
        self._orphans.clear()


def in_words(origin: Origin, today: date) -> str:
    """What was not saved, since when."""
    at = origin.moment
    when = "" if at is None else f"{at:%H:%M}" if at.date() == today else f"{at:%Y-%m-%d, %H:%M}"
    page = origin.pages[-1]["title"] if origin.pages else ""
    named = origin.title or tr("the page {page}").format(page=page)
    parts = [tr("{title} from {time}").format(title=named, time=when) if when else named]
    if origin.changes == 1:
        parts.append(tr("1 change not saved"))
    elif origin.changes > 1:
        parts.append(tr("{count} changes not saved").format(count=origin.changes))
    if page:
        half = tr("the page {page} half filled in") if origin.title else tr("half filled in")
        parts.append(half.format(page=page))
    return tr("The program ended before this was saved: {what}.").format(what=", ".join(parts))


def _button(text: str, act: Callable[[], None]) -> QPushButton:
    button = QPushButton(text)
    button.clicked.connect(act)
    button.setMinimumHeight(TARGET)
    return button
