"""What the window shows before a project is open: what to do next, as buttons."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.icons import icon
from app.start.recent import sample_title, samples, what_it_shows
from app.start.start_card import PICTURE, StartCard
from app.theme import ROOMY, SPACE, WIDE, Size, current
from app.words import tr

if TYPE_CHECKING:
    from app.window import Window


SHOWN = 3
"""So many recent files have a card; the menu has them all."""


class StartPage(QWidget):
    """Begin a project, open one, or try a sample. What the buttons need is made when they are pressed."""

    def __init__(self, window: "Window") -> None:
        super().__init__()
        self._window = window
        self.setAccessibleName(tr("Start"))
        self._mark = QLabel()
        self._title = QLabel("Stripewright")
        self._words = QLabel(tr("Match the stripes at every seam before the shears touch the cloth."))
        self._ways = _ways_in(window)
        self._recent_head, self._sample_head = QLabel(tr("Recent")), QLabel(tr("Samples"))
        self._recent, self._samples = QVBoxLayout(spacing=SPACE), QVBoxLayout(spacing=SPACE)
        self._cards = {path: self._sample_card(path) for path in samples()}
        for card in self._cards.values():
            self._samples.addWidget(card)
        self._lay_out()
        window.recent.changed.connect(self.show_recent)
        self.show_theme()

    def _lay_out(self) -> None:
        column = QVBoxLayout(spacing=SPACE)
        head = QHBoxLayout(spacing=ROOMY)
        head.addWidget(self._mark)
        head.addWidget(self._title, 1)
        column.addLayout(head)
        column.addWidget(self._words)
        column.addSpacing(WIDE)
        for card in self._ways.values():
            column.addWidget(card)
        column.addSpacing(ROOMY)
        column.addWidget(self._recent_head)
        column.addLayout(self._recent)
        column.addStretch(1)
        right = QVBoxLayout(spacing=SPACE)
        right.addWidget(self._sample_head)
        right.addLayout(self._samples)
        right.addStretch(1)
        middle = QHBoxLayout(spacing=2 * WIDE)
        middle.addStretch(1)
        middle.addLayout(column)
        middle.addLayout(right)
        middle.addStretch(1)
        page = QVBoxLayout(self)
        page.addStretch(2)
        page.addLayout(middle)
        page.addStretch(3)

    def show_recent(self) -> None:
        """List the recent files."""
        while item := self._recent.takeAt(0):
            item.widget().deleteLater()
        recent = self._window.recent.paths()[:SHOWN]
        self._recent_head.setVisible(bool(recent))
        for path in recent:
            self._recent.addWidget(self._recent_card(path))

    def _sample_card(self, path: Path) -> StartCard:
        return StartCard(sample_title(path), what_it_shows(path), lambda: self._window.open_sample(path))

    def _recent_card(self, path: Path) -> StartCard:
        card = StartCard(path.stem, str(path.parent), lambda: self._window.filing.open_path(path))
        card.setIcon(icon("cloth"))
        card.setToolTip(str(path))
        return card

    def show_cloths(self) -> Iterator[object]:
        """Put the cloth of every sample on its card, one after the other."""
        from app.pages.cloth_card import swatch_pixmap
        from core.files.project_file import read_project

        for path, card in self._cards.items():
            card.show_picture(swatch_pixmap(read_project(path).cloths[0], PICTURE, self.devicePixelRatioF()))
            yield card

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        theme = current()
        self._mark.setPixmap(icon("app").pixmap(QSize(48, 48)))
        self._title.setFont(theme.font(Size.LARGE, bold=True))
        for name, card in self._ways.items():
            card.setIcon(icon(name))
        for label in (self._words, self._recent_head, self._sample_head):
            palette = label.palette()
            palette.setColor(label.foregroundRole(), theme.colour("quiet"))
            label.setPalette(palette)
        self.show_recent()


def _ways_in(window: "Window") -> dict[str, StartCard]:
    """A card for every way to begin, by its icon."""
    measured, drawn = tr("Draft a gored skirt or a canopy"), tr("Bring in a pattern drawn as SVG, DXF or PDF")
    traced, opened = tr("Trace paper pieces in a photograph"), tr("Or drop its file on this window")
    return {
        "measure": StartCard(tr("New from measurements"), measured, lambda: window.ways.from_measurements()),
        "new": StartCard(tr("New from a drawn pattern…"), drawn, lambda: window.ways.from_drawing()),
        "photograph": StartCard(tr("New from a photograph…"), traced, lambda: window.ways.from_photograph()),
        "open": StartCard(tr("Open a project…"), opened, lambda: window.filing.ask_open()),
    }
