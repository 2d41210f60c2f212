"""Numbers on the cloth that would cover each other, or a panel's name, are left out until there is room."""

from collections.abc import Iterable

from PySide6.QtCore import QRectF

from app.canvas.edges import StepBadge
from app.canvas.item import CanvasItem


def thin_out(badges: Iterable[StepBadge], names: Iterable[CanvasItem], scale_px: float) -> None:
    """Leave the badges that have room at a scale, px per mm: names first, then the worst steps; the picked stay."""
    taken = [_on_screen(name, scale_px) for name in names]
    for badge in sorted(badges, key=lambda one: (not one.picked, -one.step_mm)):
        box = _on_screen(badge, scale_px)
        badge.make_room(not badge.picked and any(box.intersects(other) for other in taken))
        if badge.isVisible():
            taken.append(box)


def _on_screen(item: CanvasItem, scale_px: float) -> QRectF:
    """Where an item that keeps its size lies, px from the cloth's corner."""
    return item.boundingRect().translated(item.scenePos() * scale_px)
