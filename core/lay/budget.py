"""How much work the search may still do."""

import time
from dataclasses import dataclass, field
from typing import Literal

from core.lay.task import Task
from core.progress import Progress, part
from core.wording import tr

WORK = 9e8
"""Intervals looked at in all moves of one lay; compiled moves look at some two hundred millions in a second."""

BESIDES = 29
"""What a move has to do besides takes as long as so many more columns would."""

MORE_FROM = 10
"""From so many panels on the work grows with their number, to 1.9 times as much at most."""

EASIER = 0.7
"""The share of it that is enough where panels may also lie in other ways."""

QUICK_WORK = 3.3e6
"""The same for a quick lay, whose moves are not compiled: a second or two for ten panels."""

ENOUGH = 5400
"""Moves after which a lay of one panel would be no better; with n panels n^2.5 times as many."""


def moves_for(task: Task, quick: bool = False) -> int:
    """How many single moves a task is worth: few for a few panels, fewer where one move is dear."""
    count, panels = len(task.loose), task.panels
    work = WORK * min(max(panels / MORE_FROM, 1.0), 1.9) * (1.0 if count == panels else EASIER)
    each = (task.columns + BESIDES) * (count + 2)
    return int(min((QUICK_WORK if quick else work) / each, ENOUGH * count**2.5))


@dataclass
class Budget:
    """Moves that are left, counted so that a run can be repeated; the clock and the caller only cut it short.

    `limit` is a time of `time.monotonic`, s. `ended` says what cut the work short, None while nothing did.
    """

    moves: int
    limit: float
    progress: Progress
    title: str
    left: int = field(init=False)
    length_mm: float = 0.0
    ended: Literal["stopped", "out of time"] | None = None

    def __post_init__(self) -> None:
        self.left = self.moves

    def portion(self, number: int, of: int) -> "Budget":
        """One of several equal portions of this work, counted from 0."""
        progress = part(self.progress, number / of, (number + 1) / of)
        return Budget(max(self.moves // of, 1), self.limit, progress, self.title)

    def spend(self, moves: int) -> None:
        """Count moves, and report."""
        self.left -= moves
        self._report()

    def goes_on(self, length_mm: float | None = None) -> bool:
        """Whether there is work left to do; takes note of the best length so far."""
        if length_mm is not None and length_mm != self.length_mm:
            self.length_mm = length_mm
            self._report()
        return self.left > 0 and self.ended is None

    def _report(self) -> None:
        share = 1 - max(self.left, 0) / max(self.moves, 1)
        if not self.progress(
            share, tr("laying {title}: {length_mm:.0f} mm", title=self.title, length_mm=self.length_mm)
        ):
            self.ended = self.ended or "stopped"
        if time.monotonic() > self.limit:
            self.ended = self.ended or "out of time"
