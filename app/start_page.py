"""What the window shows before a project is open: what to do next, as buttons."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.icons import icon
from app.recent import sample_title, samples
from app.theme import ROOMY, SPACE, WIDE, Size, current
from app.words import tr

if TYPE_CHECKING:
    from app.window import Window

WIDE_PX = 300


class StartPage(QWidget):
    """Begin a project, open one, or try a sample. What the buttons need is made when they are pressed."""

    def __init__(self, window: "Window") -> None:
        super().__init__()
        self._window = window
        self.setAccessibleName(tr("Start"))
        self._mark = QLabel()
        self._title = QLabel("Stripewright")
        self._words = QLabel(tr("Match the stripes at every seam before the shears touch the cloth."))
        self._ways = (
            _wide_button(tr("New from measurements"), lambda: window.ways.from_measurements()),
            _wide_button(tr("New from a drawn pattern…"), lambda: window.ways.from_drawing()),
            _wide_button(tr("New from a photograph…"), lambda: window.ways.from_photograph()),
            _wide_button(tr("Open a project…"), lambda: window.filing.ask_open()),
        )
        self._recent_head, self._sample_head = QLabel(tr("Recent")), QLabel(tr("Samples"))
        self._recent, self._samples = QVBoxLayout(spacing=SPACE), QVBoxLayout(spacing=SPACE)
        for path in samples():
            self._samples.addWidget(_wide_button(sample_title(path), lambda path=path: window.filing.open_sample(path)))
        self._lay_out()
        window.recent.changed.connect(self.show_recent)
        self.show_recent()
        self.show_theme()

    def _lay_out(self) -> None:
        column = QVBoxLayout(spacing=SPACE)
        head = QHBoxLayout(spacing=ROOMY)
        head.addWidget(self._mark)
        head.addWidget(self._title, 1)
        column.addLayout(head)
        column.addWidget(self._words)
        column.addSpacing(WIDE)
        for button in self._ways:
            column.addWidget(button)
        column.addStretch(1)
        lists = QVBoxLayout(spacing=SPACE)
        for label, rows in ((self._recent_head, self._recent), (self._sample_head, self._samples)):
            lists.addWidget(label)
            lists.addLayout(rows)
            lists.addSpacing(ROOMY)
        lists.addStretch(1)
        middle = QHBoxLayout(spacing=2 * WIDE)
        middle.addStretch(1)
        middle.addLayout(column)
        middle.addLayout(lists)
        middle.addStretch(1)
        page = QVBoxLayout(self)
        page.addStretch(2)
        page.addLayout(middle)
        page.addStretch(3)

    def show_recent(self) -> None:
        """List the recent files."""
        while item := self._recent.takeAt(0):
            item.widget().deleteLater()
        recent = self._window.recent.paths()[:5]
        self._recent_head.setVisible(bool(recent))
        for path in recent:
            self._recent.addWidget(self._recent_button(path))

    def _recent_button(self, path: Path) -> QPushButton:
        button = _wide_button(path.stem, lambda: self._window.filing.open_path(path))
        button.setToolTip(str(path))
        return button

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        theme = current()
        self._mark.setPixmap(icon("app").pixmap(QSize(48, 48)))
        self._title.setFont(theme.font(Size.LARGE, bold=True))
        for label in (self._words, self._recent_head, self._sample_head):
            palette = label.palette()
            palette.setColor(label.foregroundRole(), theme.colour("quiet"))
            label.setPalette(palette)


def _wide_button(text: str, act: Callable[[], object]) -> QPushButton:
    button = QPushButton(text)
    button.setMinimumSize(WIDE_PX, 36)
    button.setCursor(Qt.CursorShape.PointingHandCursor)
    button.clicked.connect(lambda _=False: act())
    return button
