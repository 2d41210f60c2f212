"""The cloth that a new project is cut from, in a few words, with the way to its page."""

from typing import Any

import msgspec
from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.canvas.cloth import paint_stripes
from app.pages.cloth_words import cloth_in_words
from app.pages.form import Note
from app.pages.lengths import MM, LengthUnit
from app.theme import GRID, SPACE, TARGET, TIGHT, Size, current
from app.words import later, tr
from core.draft.measures import usual_cloth
from core.model.cloth import Cloth

STAND_IN = later("A stand-in: enter your own cloth before you match.")


class ClothCard(QWidget):
    """Shows a cloth; `wanted` asks for its page."""

    wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.cloth, self._unit = usual_cloth(), MM
        self.swatch = Swatch()
        self.name, self.words, self.warning = QLabel(), Note(), Note()
        self.name.setFont(current().font(Size.NORMAL, bold=True))
        self.enter = QPushButton(tr("Enter the cloth…"))
        self.enter.clicked.connect(self.wanted)
        self.enter.setMinimumHeight(TARGET)
        words = QVBoxLayout(spacing=TIGHT)
        for label in (self.name, self.words, self.warning):
            words.addWidget(label)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(SPACE)
        row.addWidget(self.swatch)
        row.addLayout(words, 1)
        row.addWidget(self.enter)
        self.show_cloth(self.cloth)

    def show_cloth(self, cloth: Cloth) -> None:
        """Show a cloth."""
        self.cloth = cloth
        self.swatch.show_cloth(cloth)
        self.name.setText(cloth.title)
        self.words.say(cloth_in_words(cloth, self._unit))
        self.warning.say(tr(STAND_IN) if cloth == usual_cloth() else "", wrong=True)
        self.warning.setVisible(cloth == usual_cloth())

    def show_unit(self, unit: LengthUnit) -> None:
        """Tell lengths in another unit."""
        self._unit = unit
        self.show_cloth(self.cloth)

    def stands(self) -> Any:
        """The cloth, plain."""
        return msgspec.to_builtins(self.cloth)

    def stand_again(self, stood: Any) -> None:
        """Show the cloth again."""
        self.show_cloth(msgspec.convert(stood, Cloth))


class Swatch(QWidget):
    """A small piece of a cloth, three repeats wide."""

    def __init__(self) -> None:
        super().__init__()
        self._cloth: Cloth | None = None
        self.setFixedSize(QSize(18 * GRID, 14 * GRID))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_cloth(self, cloth: Cloth) -> None:
        """Show a cloth."""
        self._cloth = cloth
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Its stripes and bars."""
        painter = QPainter(self)
        if self._cloth:
            paint_swatch(painter, self._cloth, QRectF(self.rect()))
        painter.end()


def swatch_pixmap(cloth: Cloth, size: QSize, ratio: float) -> QPixmap:
    """A small piece of a cloth for a screen that has `ratio` pixels to one of the size's."""
    pixmap = QPixmap(size * ratio)
    pixmap.setDevicePixelRatio(ratio)
    painter = QPainter(pixmap)
    paint_swatch(painter, cloth, QRectF(0, 0, size.width(), size.height()))
    painter.end()
    return pixmap


def paint_swatch(painter: QPainter, cloth: Cloth, room: QRectF) -> None:
    """Three repeats of a cloth in a frame."""
    repeat = cloth.repeat or cloth.crosswise
    across = 3 * repeat.width if repeat else 100.0
    scale = room.width() / across
    painter.save()
    painter.scale(scale, scale)
    paint_stripes(painter, cloth, QRectF(0, 0, across, room.height() / scale), scale)
    painter.restore()
    painter.setPen(current().colour("edge"))
    painter.drawRect(room.adjusted(0, 0, -1, -1))
