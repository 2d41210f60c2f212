"""The help window: topics at the left, found by words in them, and the page at the right."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.help.seams import read
from app.help.topics import TOPICS, Topic, topic
from app.pictures.closeup import CloseUp
from app.theme import GRID, ROOMY, SPACE, TARGET, WIDE, Size, current
from app.words import tr
from core.model.project import Project
from core.seams.readings import SeamReading

LIST_WIDE = 66 * GRID
PICTURE_HIGH = 72 * GRID
PICTURE_WIDE = 80 * GRID
WORDS_WIDE = 170 * GRID


class HelpWindow(QDialog):
    """Stays open beside the work."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Help"))
        self.setAccessibleName(tr("Help"))
        self.search = QLineEdit(placeholderText=tr("Find"), clearButtonEnabled=True)
        self.search.setAccessibleName(tr("Find in the help"))
        self.search.setMinimumHeight(TARGET + GRID)
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Topics"))
        self.page = QScrollArea(widgetResizable=True)
        self.page.setFrameShape(QFrame.Shape.NoFrame)
        self.page.setAccessibleName(tr("What the topic says"))
        for one in TOPICS:
            item = QListWidgetItem(tr(one.title), self.list)
            item.setData(Qt.ItemDataRole.UserRole, one.id)
            item.setSizeHint(QSize(0, TARGET + GRID))
        self._lay_out()
        self.search.textChanged.connect(self._find)
        self.search.returnPressed.connect(self.list.setFocus)
        self.list.currentItemChanged.connect(lambda item, _: self._show_page(item))
        self.resize(LIST_WIDE + 200 * GRID, 170 * GRID)

    def _lay_out(self) -> None:
        left = QVBoxLayout(spacing=SPACE)
        left.addWidget(self.search)
        left.addWidget(self.list, 1)
        side = QWidget()
        side.setLayout(left)
        side.setFixedWidth(LIST_WIDE)
        left.setContentsMargins(SPACE, SPACE, 0, SPACE)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(0)
        across.addWidget(side)
        across.addWidget(self.page, 1)

    @property
    def topic(self) -> str:
        """The id of the page that is shown, or nothing."""
        item = self.list.currentItem()
        return str(item.data(Qt.ItemDataRole.UserRole)) if item else ""

    def show_topic(self, id_: str) -> None:
        """Bring a page up."""
        self.search.clear()
        row = next(row for row, one in enumerate(TOPICS) if one.id == id_)
        self.list.setCurrentRow(row)

    def _find(self, words: str) -> None:
        """Leave the topics that have the words; show the first of them."""
        for row, one in enumerate(TOPICS):
            self.list.item(row).setHidden(not one.found_by(words))
        here = self.list.currentItem()
        if here is None or here.isHidden():
            left = (self.list.item(row) for row in range(len(TOPICS)))
            self.list.setCurrentItem(next((item for item in left if not item.isHidden()), None))

    def _show_page(self, item: QListWidgetItem | None) -> None:
        shown = _page(topic(item.data(Qt.ItemDataRole.UserRole))) if item else QLabel(tr("No page has these words."))
        if item is None:
            shown.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.page.setWidget(shown)

    def showEvent(self, event: QShowEvent) -> None:
        """The list has the keys."""
        super().showEvent(event)
        self.list.setFocus()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self._show_page(self.list.currentItem())


def _page(one: Topic) -> QWidget:
    """Title, paragraphs and pictures of a topic."""
    page = QWidget()
    page.setAccessibleName(tr(one.title))
    column = QVBoxLayout(page)
    column.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
    column.setSpacing(ROOMY)
    title = QLabel(tr(one.title))
    title.setFont(current().font(Size.LARGE, bold=True))
    column.addWidget(title)
    for words in one.says():
        column.addWidget(_paragraph(words))
    if seams := one.shows():
        row = QHBoxLayout(spacing=WIDE)
        for made in seams:
            row.addWidget(_picture(*read(made)))
        column.addLayout(row, 1)
    else:
        column.addStretch(1)
    return page


def _paragraph(words: str) -> QLabel:
    label = QLabel(words, wordWrap=True)
    label.setMaximumWidth(WORDS_WIDE)
    label.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label


def _picture(project: Project, reading: SeamReading) -> CloseUp:
    """A seam as the close-up shows it, all of it in view."""
    picture = _WholeSeam()
    picture.setMinimumSize(PICTURE_WIDE, PICTURE_HIGH)
    picture.show_seam(project, reading)
    picture.setAccessibleName(tr("Picture of a seam: {name}").format(name=reading.line.sewn.label))
    return picture


class _WholeSeam(CloseUp):
    """A close-up that shows all of its seam until somebody comes nearer."""

    def sizeHint(self) -> QSize:
        """As much as a page can spare."""
        return QSize(PICTURE_WIDE, PICTURE_HIGH)

    def showEvent(self, event: QShowEvent) -> None:
        """Begin with the whole seam."""
        super().showEvent(event)
        self.fit()
