"""The worn view: the garment sewn up and hung, seen from any side, with the true stripes of its panels."""

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QHideEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.pictures.worn_colours import Palette, SeenColours, drawn
from app.stripe_colours import Pixels
from app.theme import GRID, SPACE, WIDE, Size, current
from app.words import later, tr
from core.errors import CannotBeHad
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.readings import Measurement
from core.worn.body import WornBody, worn_body
from core.worn.places import Stripes
from core.worn.sight import Frame, fitted, look

EMPTY = later("Open a project to see it as it will be worn.")
FIRST_TILT = math.radians(12)
MOST_TILT = math.radians(80)
TURN_STEP = math.radians(5)
LARGEST_ZOOM = 12.0
_ZOOM_STEP = 1.2
_TILT_PER_PX = 0.006
_STILL_MS, _SLICES, _FINE = 160, 10, 2
_CLICK_PX = 3

Layers = tuple[SeenColours, ...]


class WornView(QWidget):
    """Dragging turns the garment; what stands still is drawn again more finely, a slice at a time."""

    panel_clicked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project: Project | None = None
        self._made_for: Garment | None = None
        self._body: WornBody | None = None
        self._stripes: Stripes | None = None
        self._words = tr(EMPTY)
        self.turn, self.tilt = 0.0, FIRST_TILT
        self._zoom, self._shift_px = 1.0, 0.0
        self._layers: tuple[Frame, Layers] | None = None
        self._palette: tuple[tuple[object, ...], Palette] | None = None
        self._picture: QImage | None = None
        self._grip: tuple[QPointF, float, float] | None = None
        self._slices: Iterator[QImage | None] | None = None
        self._still = QTimer(self, singleShot=True, interval=_STILL_MS, timeout=self._begin_fine)
        self._work = QTimer(self, interval=0, timeout=self._refine)
        self.setMinimumSize(60 * GRID, 50 * GRID)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("The garment as it hangs"))
        self.setToolTip(tr("Drag to turn; wheel to come nearer"))
        self._tell()

    def sizeHint(self) -> QSize:
        """Room for a whole garment."""
        return QSize(130 * GRID, 150 * GRID)

    def show_garment(self, project: Project | None, measurement: Measurement | None) -> None:
        """Show a project's garment with the stripes of its placements."""
        garment = measurement.garment if project and measurement else None
        if garment is not self._made_for:
            self._made_for, self._layers = garment, None
            self._make(project, garment)
        elif self._stripes and project and project is not self._project:
            self._stripes = self._stripes.moved(project)
        self._project = project
        self._show()

    def _make(self, project: Project | None, garment: Garment | None) -> None:
        self._body, self._stripes, self._words = None, None, tr(EMPTY)
        if not project or not garment or not garment.panels:
            return
        try:
            self._body = worn_body(project, garment)
        except CannotBeHad as error:
            self._words = tr("It can't be hung up: {why}.").format(why=error)
            return
        self._stripes = Stripes.of(self._body, project)

    # --- looking

    def look_from(self, turn: float, tilt: float) -> None:
        """Look at the garment turned by `turn` to the left, from `tilt` above; radians."""
        self.turn = math.remainder(turn, math.tau)
        self.tilt = min(max(tilt, -MOST_TILT), MOST_TILT)
        self._show()

    def fit(self) -> None:
        """Show the whole garment."""
        self._zoom, self._shift_px = 1.0, 0.0
        self._show()

    def zoom(self, factor: float, y: float) -> None:
        """Magnify about the axis and a place `y` px below the upper border."""
        before = self._zoom
        self._zoom = min(max(before * factor, 1.0), LARGEST_ZOOM)
        factor = self._zoom / before
        self._shift_px = self._shift_px * factor + (y - self.height() / 2) * (1 - factor)
        self._show()

    def scroll(self, px: float) -> None:
        """Move along the garment; it stays in sight."""
        self._shift_px += px
        self._show()

    def frame(self, fine: float = 1.0) -> Frame:
        """The picture that is asked for, `fine` pixels to one of the screen's."""
        ratio = self.devicePixelRatioF() * fine
        wide, high = (max(round(side * ratio), 8) for side in (self.width(), self.height()))
        assert self._body is not None
        whole = fitted(self._body, wide, high, self.tilt, 2 * WIDE * ratio)
        most = self.height() / 2 * (self._zoom - 1)
        self._shift_px = min(max(self._shift_px, -most), most)
        middle = high / 2
        top = middle + (whole.top - middle) * self._zoom + self._shift_px * ratio
        return Frame(wide, high, whole.scale * self._zoom, top, self.tilt)

    def _show(self) -> None:
        self._picture, self._slices = None, None
        self._work.stop()
        self._tell()
        self.update()

    def _tell(self) -> None:
        self.setAccessibleDescription(self.words())

    def words(self) -> str:
        """From where the garment is seen, or why it is not."""
        if self._body is None:
            return self._words
        above = round(math.degrees(self.tilt))
        words = tr("{angle}° from above") if above > 0 else tr("{angle}° from below")
        parts = [self._side(), *([words.format(angle=abs(above))] if above else [])]
        left_out = tr("not shown: {panels}").format(panels=", ".join(self._body.left_out))
        return "  ·  ".join([", ".join(parts), *([left_out] if self._body.left_out else [])])

    def _side(self) -> str:
        turned = round(math.degrees(self.turn))
        if not self._known().sided:
            words = tr("Turned {angle}° to the left") if turned > 0 else tr("Turned {angle}° to the right")
            return words.format(angle=abs(turned)) if turned else tr("Not turned")
        if turned % 180 == 0:
            return tr("From the back") if turned else tr("From the front")
        words = tr("{angle}° round to the wearer's left") if turned > 0 else tr("{angle}° round to the wearer's right")
        return words.format(angle=abs(turned))

    # --- painting

    def paintEvent(self, event: QPaintEvent) -> None:
        """The garment, and from where it is seen."""
        painter, theme = QPainter(self), current()
        painter.fillRect(self.rect(), theme.colour("surface"))
        words = self.rect().adjusted(WIDE, SPACE, -WIDE, -SPACE)
        painter.setPen(theme.colour("quiet"))
        if self._body is None:
            painter.drawText(words, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self._words)
        else:
            painter.drawImage(QRectF(self.rect()), self._picture or self._coarse())
            painter.setFont(theme.font(Size.SMALL))
            top = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap
            painter.drawText(words, top, self.words())
        if self.hasFocus():
            painter.setPen(QPen(theme.colour("accent"), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _coarse(self) -> QImage:
        """The picture pixel for pixel, as long as it moves."""
        frame = self.frame()
        if self._layers is None or self._layers[0] != frame:
            self._layers = frame, tuple(SeenColours.of(sight, frame) for sight in look(self._known(), frame))
        self._picture = self._image(self._drawn(frame, self._layers[1]), frame)
        self._still.start()
        return self._picture

    def _known(self) -> WornBody:
        assert self._body is not None
        return self._body

    def _drawn(self, frame: Frame, layers: Layers) -> Pixels:
        assert self._stripes is not None
        return drawn(self._palette_for(frame), self._stripes, layers, frame, self.turn)

    def _palette_for(self, frame: Frame) -> Palette:
        assert self._project is not None
        key = (frame.scale, self._project.cloths)
        if self._palette is None or self._palette[0] != key:
            self._palette = key, Palette.of(self._project, self._known().panels, 1 / frame.scale)
        return self._palette[1]

    def _image(self, pixels: Pixels, frame: Frame) -> QImage:
        picture = QImage(pixels.data, frame.wide, frame.high, 4 * frame.wide, QImage.Format.Format_ARGB32_Premultiplied)
        return picture.copy()

    def _begin_fine(self) -> None:
        if self._body is not None and self._grip is None and self.isVisible():
            self._slices = self._fine_slices()
            self._work.start()

    def _refine(self) -> None:
        """One more slice of the fine picture; all of it is shown when it is there."""
        picture = next(self._slices, None) if self._slices else None
        if picture is not None:
            self._picture = picture
            self.update()
        if picture is not None or self._slices is None:
            self._slices = None
            self._work.stop()

    def _fine_slices(self) -> Iterator[QImage | None]:
        """Works at the picture of four pixels to one; None until it is done."""
        frame = self.frame(_FINE)
        whole = np.zeros(frame.wide * frame.high, np.uint32)
        ends = np.linspace(0, frame.high, _SLICES + 1).astype(int).tolist()
        for rows in pairwise(ends):
            layers = tuple(SeenColours.of(sight, frame) for sight in look(self._known(), frame, rows))
            whole |= self._drawn(frame, layers)
            yield None
        picture = self._image(whole, frame)
        way = Qt.TransformationMode.SmoothTransformation
        yield picture.scaled(frame.wide // _FINE, frame.high // _FINE, Qt.AspectRatioMode.IgnoreAspectRatio, way)

    def showEvent(self, event: QShowEvent) -> None:
        """What was left unfinished is drawn finely after all."""
        super().showEvent(event)
        self._still.start()

    def hideEvent(self, event: QHideEvent) -> None:
        """Nothing is worked out for nobody."""
        self._still.stop()
        self._work.stop()
        super().hideEvent(event)

    # --- hands

    def panel_at(self, at: QPointF) -> str | None:
        """The name of the panel seen at a place of the widget."""
        if self._layers is None or self._stripes is None:
            return None
        frame, layers = self._layers
        ratio = self.devicePixelRatioF()
        pixel = int(at.y() * ratio) * frame.wide + int(at.x() * ratio)
        for seen in reversed(layers):
            found = np.flatnonzero(seen.sight.pixel == pixel)
            panel = int(self._stripes.seen(seen.sight, self.turn).panel[found[0]]) if len(found) else -1
            if panel >= 0:
                return self._known().panels[panel]
        return None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the garment."""
        if event.button() == Qt.MouseButton.LeftButton and self._body is not None:
            self._grip = event.position(), self.turn, self.tilt
            self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Turn it: cloth under the cursor goes with it."""
        if self._grip:
            start, turn, tilt = self._grip
            moved = event.position() - start
            frame = self.frame()
            round_px = frame.scale / self.devicePixelRatioF() * float(self._known().radius.max())
            self.look_from(turn - moved.x() / max(round_px, 1.0), tilt + moved.y() * _TILT_PER_PX)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go; a click selects the panel."""
        if self._grip:
            moved = (event.position() - self._grip[0]).manhattanLength()
            self._grip = None
            self.unsetCursor()
            self._still.start()
            if moved <= _CLICK_PX and (name := self.panel_at(event.position())):
                self.panel_clicked.emit(name)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Come nearer at the cursor; with Shift, move along the garment."""
        turn = event.angleDelta().y() or event.angleDelta().x()
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.scroll(turn / 2)
        else:
            self.zoom(_ZOOM_STEP ** (turn / 120), event.position().y())
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Show the whole garment."""
        self.fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows turn and tilt, Home shows the front, End the back, plus and minus come nearer, 0 shows it whole."""
        if self._body is None or not self._press(event.key(), event.modifiers()):
            super().keyPressEvent(event)

    def _press(self, key: int, keys: Qt.KeyboardModifier) -> bool:
        step = TURN_STEP * (9 if keys & Qt.KeyboardModifier.ShiftModifier else 1)
        ways = {Qt.Key.Key_Left: (1, 0), Qt.Key.Key_Right: (-1, 0), Qt.Key.Key_Up: (0, 1), Qt.Key.Key_Down: (0, -1)}
        zooms = {Qt.Key.Key_Plus: _ZOOM_STEP, Qt.Key.Key_Equal: _ZOOM_STEP, Qt.Key.Key_Minus: 1 / _ZOOM_STEP}
        pages = {Qt.Key.Key_PageUp: 1, Qt.Key.Key_PageDown: -1}
        sides = {Qt.Key.Key_Home: 0.0, Qt.Key.Key_End: math.pi}
        if key in ways:
            self.look_from(self.turn + step * ways[key][0], self.tilt + TURN_STEP * ways[key][1])
        elif key in zooms:
            self.zoom(zooms[key], self.height() / 2)
        elif key in pages:
            self.scroll(pages[key] * self.height() / 2)
        elif key in sides:
            self.look_from(sides[key], self.tilt)
        elif key == Qt.Key.Key_0:
            self.fit()
        return key in ways or key in zooms or key in pages or key in sides or key == Qt.Key.Key_0
