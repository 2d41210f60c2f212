"""The other free panels while a hand moves some: they follow to where they match best, if that was asked for."""

import time
from collections.abc import Iterable
from typing import TYPE_CHECKING

from app.document import Document
from core.model.pattern import PanelName

if TYPE_CHECKING:
    from core.matching.follow import Changes, Followers

LONG_S = 0.025
"""After solving that took longer than this, moves are let pass without it for as long as it took."""


class Following:
    """Those that follow some panels from where everything lies now; made once a drag."""

    def __init__(self, document: Document, moved: Iterable[PanelName]) -> None:
        self._groups = _groups(document, tuple(moved))
        self._hand: Changes = {}
        self._others: Changes = {}
        self._rest_until = 0.0

    @property
    def panels(self) -> frozenset[PanelName]:
        """The panels that may move."""
        return frozenset(name for group in self._groups for name in group.panels)

    def places(self, hand: "Changes") -> "Changes":
        """All places while the hand's panels lie as given; the others keep theirs while solving would be too slow."""
        began = time.perf_counter()
        if began >= self._rest_until:
            self._solve(hand)
            spent = time.perf_counter() - began
            self._rest_until = began + spent + (spent if spent > LONG_S else 0.0)
        return {**self._others, **hand}

    def last_places(self, hand: "Changes") -> "Changes":
        """All places at the end of a drag, whatever was skipped on the way."""
        self._solve(hand)
        return {**self._others, **hand}

    def _solve(self, hand: "Changes") -> None:
        if hand != self._hand:
            self._hand = hand
            self._others = {name: at for group in self._groups for name, at in group.places(hand).items()}


def _groups(document: Document, moved: tuple[PanelName, ...]) -> "list[Followers]":
    """One group of followers for each cloth with stripes or bars that panels are moved on."""
    from core.matching.follow import Followers

    kept, garment = document.kept, document.garment
    mine = [name for name in moved if name in garment.panels and kept.cloth_of(name).ways]
    cloths = dict.fromkeys(kept.cloth_of(name).id for name in mine)
    return [Followers(kept, garment, [name for name in mine if kept.cloth_of(name).id == id_]) for id_ in cloths]
