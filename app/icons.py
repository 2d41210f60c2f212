"""The line icons: drawn on a 24 px grid with a 1.5 px stroke, tinted to the theme, sharp at 1x, 1.5x and 2x."""

from functools import lru_cache

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from app.resources import resource
from app.theme import Theme, current

_PIXELS = (16, 20, 24, 30, 32, 36, 40, 48)
"""Sizes of 16, 20 and 24 px at 1x, 1.5x and 2x."""
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


@lru_cache(maxsize=128)
def _icon(name: str, theme: Theme) -> QIcon:
    svg = resource("icons", f"{name}.svg").read_text(encoding="utf-8")
    made = QIcon()
    for mode, role in _TINTS.items():
        for pixels in _MARK_PIXELS if name == "app" else _PIXELS:
            made.addPixmap(pixmap(svg, theme.colour(role).name(), pixels), mode)
    return made
