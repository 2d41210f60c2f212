"""What can be done to the selected panels, each as one undo step; used by canvas, strip and menus alike."""

import msgspec
from PySide6.QtCore import QObject, Signal

from app.commands import (
    Changes,
    by_repeats,
    can_be_turned,
    clamped_turn,
    end_for_end,
    free_panels,
    holding,
    moved_to,
    shifted,
    spread_out,
    to_other_side,
    turn_in_mm,
    turned_to,
    without_places,
)
from app.document import Document
from app.figures import step, unit
from app.following import Following
from app.words import tr
from core.derive.matched import continued
from core.model.pattern import PanelName

TURN_STEP_DEG = 0.05


class Edits(QObject):
    """Changes the document by intents of the hand. What can't be done is said through `told`."""

    told = Signal(str)
    spread = Signal()
    """Panels were spread out."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self._document = document
        self.others_follow = False
        """Whether the other free panels take their best places whenever some are moved or turned."""

    def set_following(self, follows: bool) -> None:
        """Let the other free panels follow those that are moved, or not."""
        self.others_follow = follows

    def following(self, moved: tuple[PanelName, ...]) -> Following:
        """Those that follow some panels; nobody unless that was asked for."""
        return Following(self._document, moved if self.others_follow else ())

    def title_of(self, panels: tuple[PanelName, ...]) -> str:
        """What to call some panels in a sentence."""
        if len(panels) == 1:
            return panel_title(self._document, panels[0])
        return tr("{count} panels").format(count=len(panels))

    def free(self) -> tuple[PanelName, ...]:
        """The selected panels that are not held; says so if all are."""
        chosen = self._document.selection
        free = free_panels(self._document.kept, chosen)
        if chosen and not free:
            self.tell_held(chosen)
        return free

    def tell_held(self, panels: tuple[PanelName, ...]) -> None:
        """Say that held panels stay where they are."""
        one = len(panels) == 1
        told = tr("{panels} is held. Press H to let go.") if one else tr("{panels} are held. Press H to let go.")
        self.told.emit(told.format(panels=self.title_of(panels)))

    def _lay(self, text: str, changes: Changes, series: str = "") -> None:
        """Lay panels elsewhere as one step, the others following if they are to."""
        self._document.cancel_trial()
        places = self.following(tuple(changes)).last_places(changes)
        self._document.place(text, places, series)

    def nudge(self, du: float, dv: float) -> None:
        """Move the selected panels by du across and dv along, mm; nudges that follow one another are one step."""
        if panels := self.free():
            changes = shifted(self._document.kept, panels, du, dv)
            self._lay(tr("Nudge {panels}").format(panels=self.title_of(panels)), changes, f"nudge {panels}")

    def nudge_by_repeats(self, repeats: int) -> None:
        """Move the selected panels across by whole repeats of their cloths; no step changes."""
        kept = self._document.cut_of(self._document.kept)
        striped = [name for name in self.free() if kept.cloth_of(name).repeat]
        changes = {name: by_repeats(kept, name, repeats) for name in striped}
        if changes:
            panels = tuple(changes)
            self._document.place(
                tr("Move {panels} by a repeat").format(panels=self.title_of(panels)), changes, f"repeats {panels}"
            )

    def move_by(self, du: float, dv: float, turn_deg: float) -> None:
        """Move the selected panels by du across and dv along, mm, and turn them on by degrees; one step."""
        kept = self._document.cut_of(self._document.kept)
        if panels := self.free():
            turns = {name: kept.placement(name).turn_deg + turn_deg for name in panels}
            turned = {name: turned_to(kept, self._document.panels[name], turns[name]) for name in panels if turn_deg}
            changes = {name: moved_to(turned.get(name, kept.placement(name)), du, dv) for name in panels}
            self._lay(tr("Move {panels}").format(panels=self.title_of(panels)), changes)
            if turn_deg:
                self._tell_limit(changes, turns)

    def repeat_left(self) -> None:
        """Move the selected panels a repeat to the left."""
        self.nudge_by_repeats(-1)

    def repeat_right(self) -> None:
        """Move the selected panels a repeat to the right."""
        self.nudge_by_repeats(1)

    def to_other_side(self) -> None:
        """Send the selected panels to the other side of their cloths' middles; no step changes."""
        kept = self._document.cut_of(self._document.kept)
        if panels := self.free():
            changes = {name: to_other_side(kept, self._document.panels[name]) for name in panels}
            self._document.place(tr("Send {panels} to the other side").format(panels=self.title_of(panels)), changes)

    def turn_by(self, steps: int) -> None:
        """Turn the selected panels by steps of 0.05 degrees about their middles, inside the tolerance."""
        kept = self._document.cut_of(self._document.kept)
        if panels := self.free():
            turns = {name: kept.placement(name).turn_deg + steps * TURN_STEP_DEG for name in panels}
            changes = {name: turned_to(kept, self._document.panels[name], turns[name]) for name in panels}
            self._lay(tr("Turn {panels}").format(panels=self.title_of(panels)), changes, f"turn {panels}")
            self._tell_limit(changes, turns)

    def turn_left(self) -> None:
        """Turn the selected panels a step anticlockwise."""
        self.turn_by(-1)

    def turn_right(self) -> None:
        """Turn the selected panels a step clockwise."""
        self.turn_by(1)

    def _tell_limit(self, changes: Changes, wanted: dict[PanelName, float]) -> None:
        stuck = tuple(name for name, at in changes.items() if abs(wanted[name]) > abs(at.turn_deg) + 1e-6)
        if stuck:
            self.tell_limit(stuck)

    def tell_limit(self, panels: tuple[PanelName, ...]) -> None:
        """Say how far panels may be turned off the grain, and what that is over the length of the first of them."""
        limit = self._document.cut.cloth_of(panels[0]).grain_tolerance_deg
        over = f"{step(turn_in_mm(self._document.panels[panels[0]], limit))} {unit()}"
        told = tr(
            "{panels}: this cloth allows a turn of {limit:g}° off the grain, {mm} over the panel's length.",
            panels=self.title_of(panels),
            limit=limit,
            mm=over,
        )
        self.told.emit(told)

    def turn_end_for_end(self) -> None:
        """Turn the selected panels end for end, unless their cloth is one-way."""
        document = self._document
        panels, kept = self.free(), document.cut_of(document.kept)
        allowed = tuple(name for name in panels if can_be_turned(kept.cloth_of(name)))
        if panels and not allowed:
            cloth = kept.cloth_of(panels[0]).title
            self.told.emit(tr("{cloth} is one-way: no panel may lie end for end.").format(cloth=cloth))
        if allowed:
            changes = {name: end_for_end(kept, document.panels[name]) for name in allowed}
            document.place(tr("Turn {panels} end for end").format(panels=self.title_of(allowed)), changes)

    def switch_hold(self) -> None:
        """Hold the selected panels, or let them go if all are held."""
        chosen = self._document.selection
        if chosen:
            changes = holding(self._document.kept, chosen)
            held = any(at.hold for at in changes.values())
            told = tr("Hold {panels}") if held else tr("Let go of {panels}")
            self._document.place(told.format(panels=self.title_of(chosen)), changes)

    def spread_out(self) -> None:
        """Lay all free panels side by side by whole repeats, so that no step changes."""
        document = self._document
        kept = document.cut_of(document.kept)
        changes = spread_out(kept, document.panels, kept.panel_names)
        document.place(tr("Spread panels out"), changes)
        self.spread.emit()

    def spread_new(self) -> None:
        """Lay the panels that have no places yet side by side."""
        document = self._document
        kept = document.cut_of(document.kept)
        if new := without_places(kept):
            kept = kept.placed({name: at for name, at in continued(kept).items() if name in new})
            document.place(tr("Spread panels out"), spread_out(kept, document.panels, new))
            self.spread.emit()

    def match_patches(self) -> None:
        """Move what lies on panels, as little as may be, to where its stripes continue theirs."""
        changes = continued(self._document.cut_of(self._document.kept))
        placed = {name: at for name, at in changes.items() if name in self._document.kept.placements}
        if not placed:
            self.told.emit(tr("There is no patch to move: none lies on a panel, or all continue its stripes."))
            return
        self._document.place(tr("Match patches"), placed)

    def type_place(self, name: PanelName, what: str, mm: float) -> None:
        """Set u or v of one panel by its number."""
        at = msgspec.structs.replace(self._document.kept.placement(name), **{what: round(mm, 3)})
        self._lay(tr("Move {panels}").format(panels=self.title_of((name,))), {name: at}, f"{what} of {name}")

    def type_turn(self, name: PanelName, turn_deg: float) -> None:
        """Set the turn of one panel by its number; its origin stays where it is."""
        turn = clamped_turn(turn_deg, self._document.cut, self._document.panels[name])
        at = msgspec.structs.replace(self._document.kept.placement(name), turn_deg=turn)
        self._lay(tr("Turn {panels}").format(panels=self.title_of((name,))), {name: at}, f"turn of {name}")
        self._tell_limit({name: at}, {name: turn_deg})


def panel_title(document: Document, name: PanelName) -> str:
    """What a panel is called on the screen: its piece's name, and R or L in a pair."""
    piece = document.panels[name].piece
    return f"{piece.title} {name[-1]}" if piece.cut == "pair" else piece.title
