"""The line icons: drawn on a 24 px grid with a 1.5 px stroke, tinted to the theme, sharp at 1x, 1.5x and 2x."""

from functools import lru_cache
from pathlib import Path

from PySide6.QtCore import QByteArray, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QIconEngine, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from app.resources import resource
from app.theme import Theme, current

_MARK_PIXELS = (16, 24, 32, 48, 64, 128, 256)
_TINTS = {QIcon.Mode.Normal: "text", QIcon.Mode.Disabled: "disabled", QIcon.Mode.Selected: "on_accent"}


def icon(name: str) -> QIcon:
    """The icon in `icons/NAME.svg`, in the colours of the current theme. Raises CannotBeHad for an unknown name."""
    return _icon(name, current())


def pixmap(svg: str, tint: str, pixels: int) -> QPixmap:
    """A square picture of an SVG drawing, its currentColor replaced by `tint` (#rrggbb)."""
    picture = QPixmap(pixels, pixels)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    QSvgRenderer(QByteArray(svg.replace("currentColor", tint).encode())).render(painter, QRectF(0, 0, pixels, pixels))
    painter.end()
    return picture


class _Drawn(QIconEngine):
    """Draws an icon in the size that is asked for, when it is asked for."""

    def __init__(self, path: Path, theme: Theme) -> None:
        super().__init__()
        self._path, self._theme = path, theme
        self._made: dict[tuple[int, QIcon.Mode], QPixmap] = {}

    def clone(self) -> QIconEngine:
        """Another one of the same."""
        return _Drawn(self._path, self._theme)

    def pixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State) -> QPixmap:
        """The picture in so many pixels."""
        mode = mode if mode in _TINTS else QIcon.Mode.Normal
        pixels = min(size.width(), size.height())
        if (pixels, mode) not in self._made:
            svg = self._path.read_text(encoding="utf-8")
            self._made[pixels, mode] = pixmap(svg, self._theme.colour(_TINTS[mode]).name(), pixels)
        return self._made[pixels, mode]

    def scaledPixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State, scale: float) -> QPixmap:
        """The same on a screen that has `scale` pixels to one of the size's."""
        return self.pixmap(size * scale, mode, state)

    def paint(self, painter: QPainter, rect: QRect, mode: QIcon.Mode, state: QIcon.State) -> None:
        """Draw it as sharp as the painter's device is."""
        ratio = painter.device().devicePixelRatioF()
        picture = QPixmap(self.pixmap(rect.size() * ratio, mode, state))
        picture.setDevicePixelRatio(ratio)
        side = picture.width() / ratio
        corner = QRectF(rect).center() - QPointF(side / 2, side / 2)
        painter.drawPixmap(corner, picture)


@lru_cache(maxsize=128)
def _icon(name: str, theme: Theme) -> QIcon:
    path = resource("icons", f"{name}.svg")
    if name == "app":  # desktops ask for its sizes
        made, svg = QIcon(), path.read_text(encoding="utf-8")
        for pixels in _MARK_PIXELS:
            made.addPixmap(pixmap(svg, theme.colour("text").name(), pixels))
        return made
    return QIcon(_Drawn(path, theme))
