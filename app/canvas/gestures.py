"""What a hand does with the mouse: one object from press to release, which shows, keeps or takes back."""

from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QPoint, QPointF, QRect, QSize, Qt
from PySide6.QtWidgets import QRubberBand

from app.commands import Changes, free_panels, shifted, turned_to
from app.words import tr
from core.geometry.transform import rotation
from core.model.cloth import Way
from core.model.pattern import PanelName
from core.seams.stripes import wrapped

if TYPE_CHECKING:
    from app.canvas.view import CanvasView
    from core.lay.stops import Stops

SETTLE_PX = 8.0
"""A dragged panel settles on a match that is nearer than this."""
ADDING = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier
"""Keys with which a click or a band adds to what is selected."""
START_PX = 3
"""A press that wanders less is a click."""


class Gesture(Protocol):
    """Something that lasts from a press of a mouse button to its release; positions are the viewport's, px."""

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """The mouse has moved."""

    def finish(self) -> None:
        """The button was let go: keep what was done."""

    def cancel(self) -> None:
        """Leave everything as it was."""


class MovePanels:
    """Drags the selected panels that are not held; settles on matches and against neighbours.

    Nothing settles while Alt is down.
    """

    def __init__(self, view: "CanvasView", at: QPointF, grabbed: PanelName) -> None:
        self._view, self._document = view, view.document
        self._start, self._grabbed = at, grabbed
        self._kept = self._document.kept
        self._cloth = self._document.cut.cloth_of(grabbed)
        self._panels = free_panels(self._kept, self._document.selection)
        self._moving = False
        self._shifts: dict[Way, tuple[float, ...]] = {}
        self._stops: Stops | None = None
        self._following = view.edits.following(self._panels)
        self._hand: Changes = {}
        self._all = frozenset(self._panels) | self._following.panels
        view.still.hold(self._all)

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Show the panels where the mouse has taken them."""
        moved = at - self._start
        self._moving = self._moving or moved.manhattanLength() > START_PX
        if not self._moving or self._document.kept is not self._kept:
            return
        self._view.still.hold(self._all)
        du, dv = moved.x() / self._view.scale_px, moved.y() / self._view.scale_px
        if self._view.settles and not keys & Qt.KeyboardModifier.AltModifier:
            du, dv = self._to_rest(du + self._to_match("lengthwise", du, dv), dv)
        self._hand = shifted(self._kept, self._panels, du, dv)
        self._document.try_placements(self._following.places(self._hand))

    def finish(self) -> None:
        """Keep the drag as one step."""
        if self._document.kept is self._kept and self._hand:
            self._document.try_placements(self._following.last_places(self._hand))
            self._document.keep_trial(tr("Move {panels}").format(panels=self._view.edits.title_of(self._panels)))

    def cancel(self) -> None:
        """Put the panels back."""
        self._document.cancel_trial()

    def _to_rest(self, du: float, dv: float) -> tuple[float, float]:
        """The move with the panels brought along the stripes against a neighbour or the cut end, if that is near.

        On a barred cloth they come to rest where their bars match.
        """
        if self._cloth.crosswise is not None:
            across, along = self._cloth.shift_for(0.0, self._to_match("crosswise", du, dv))
            return du + across, dv + along
        if self._stops is None:
            from core.lay.stops import Stops

            self._stops = Stops.of(
                self._document.cut_of(self._kept), self._cloth, set(self._panels), self._following.panels
            )
        skew = self._cloth.skew
        rest = self._stops.nearest(du - skew * dv, dv, SETTLE_PX / self._view.scale_px)
        return du + skew * (rest - dv), rest

    def _to_match(self, way: Way, du: float, dv: float) -> float:
        """How much further across stripes or bars the nearest match lies, mm; 0 if it is too far off."""
        repeat = self._cloth.repeat_of(way)
        if repeat is None:
            return 0.0
        moved, period = self._moved_across(way, du, dv), repeat.period
        away = min((wrapped(shift - moved, period) for shift in self._matches(way)), key=abs)
        return away if abs(away) <= min(SETTLE_PX / self._view.scale_px, period / 3) else 0.0

    def _moved_across(self, way: Way, du: float, dv: float) -> float:
        """How far a move takes the middle of the grabbed panel across stripes or bars, mm."""
        at, cloth = self._kept.placement(self._grabbed), self._cloth
        across = cloth.w if way == "lengthwise" else cloth.z
        u, v = rotation(at.turn_deg, at.turned) @ self._document.panels[self._grabbed].middle + (at.u, at.v)
        return float(across(u + du, v + dv) - across(u, v))

    def _matches(self, way: Way) -> tuple[float, ...]:
        """By how much the grabbed panel would be moved across to match best; several together keep their steps by
        whole repeats."""
        if way not in self._shifts:
            from core.matching.phase import best_shifts

            alone = len(self._panels) == 1 and self._grabbed in self._document.garment.panels
            shifts = best_shifts(self._kept, self._document.garment, self._grabbed, way) if alone else ()
            self._shifts[way] = shifts or (0.0,)
        return self._shifts[way]


class TurnPanel:
    """Turns one panel by its handle, inside the grain tolerance; settles on the grain unless Alt is down."""

    def __init__(self, view: "CanvasView", at: QPointF, name: PanelName) -> None:
        self._view, self._document, self._name = view, view.document, name
        self._kept = self._document.kept
        self._cut = self._document.cut
        self._pivot = view.handle_at()
        self._following = view.edits.following((name,))
        self._hand: Changes = {}
        self._all = frozenset((name,)) | self._following.panels
        view.still.hold(self._all)
        self._from = self._kept.placement(name).turn_deg - view.handle.turn_of(at - self._pivot)

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Show the panel turned as far as the knob has come."""
        if self._document.kept is not self._kept:
            return
        self._view.still.hold(self._all)
        turn = self._from + self._view.handle.turn_of(at - self._pivot)
        if self._view.settles and not keys & Qt.KeyboardModifier.AltModifier and self._view.handle.near_grain(turn):
            turn = 0.0
        panel = self._document.panels[self._name]
        self._hand = {self._name: turned_to(self._cut, panel, turn)}
        self._document.try_placements(self._following.places(self._hand))

    def finish(self) -> None:
        """Keep the turn as one step."""
        if self._document.kept is self._kept and self._hand:
            self._document.try_placements(self._following.last_places(self._hand))
            self._document.keep_trial(tr("Turn {panels}").format(panels=self._view.edits.title_of((self._name,))))

    def cancel(self) -> None:
        """Turn the panel back."""
        self._document.cancel_trial()


class Band:
    """A rubber band: selects what it touches, added to what was selected if Shift or Ctrl is down."""

    def __init__(self, view: "CanvasView", at: QPointF, keys: Qt.KeyboardModifier) -> None:
        self._view, self._start = view, at.toPoint()
        self._before = view.document.selection
        self._first = self._before if keys & ADDING else ()
        self._band = QRubberBand(QRubberBand.Shape.Rectangle, view.viewport())
        self._band.setGeometry(QRect(self._start, QSize()))
        view.document.select(self._first)

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Select what lies under the band."""
        frame = QRect(self._start, at.toPoint()).normalized()
        self._band.setGeometry(frame)
        self._band.show()
        touched = self._view.panels_in(frame)
        self._view.document.select((*(name for name in self._first if name not in touched), *touched))

    def finish(self) -> None:
        """Take the band away."""
        self._band.hide()
        self._band.deleteLater()

    def cancel(self) -> None:
        """Select again what was selected."""
        self.finish()
        self._view.document.select(self._before)


class Pan:
    """Moves the view over the cloth."""

    def __init__(self, view: "CanvasView", at: QPointF) -> None:
        self._view, self._last = view, at.toPoint()
        view.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Follow the mouse."""
        step: QPoint = at.toPoint() - self._last
        self._last = at.toPoint()
        self._view.pan_by(-step.x(), -step.y())

    def finish(self) -> None:
        """Nothing is left to do: the view has moved already."""

    def cancel(self) -> None:
        """Leave the view where it is."""
