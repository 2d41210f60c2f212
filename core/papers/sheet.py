"""Part of a cloth brought to scale on a page."""

from dataclasses import dataclass

import numpy as np

from core.geometry.paths import Points
from core.papers.drawing import Box, Drawing, Point

FINEST_ON_PAPER_MM = 0.9
"""A repeat that would be narrower than this on paper is not drawn."""


@dataclass(frozen=True)
class Sheet:
    """A window of cloth, mm, shown at 1 : n with its left top corner on the page's point `at`."""

    window: Box
    n: float
    at: Point

    def on_page(self, drawing: Drawing) -> Drawing:
        """A drawing in cloth mm brought onto the page and cut to the window."""
        return drawing.within(self.window).to_scale(1 / self.n, (self.window.left, self.window.top), self.at)

    def points(self, on_cloth: Points) -> Points:
        """Places on the cloth as places on the page; shape (n, 2)."""
        return np.asarray((on_cloth - (self.window.left, self.window.top)) / self.n + np.array(self.at))

    def point(self, u: float, v: float) -> Point:
        """One place on the cloth as a place on the page."""
        ((x, y),) = self.points(np.array([[u, v]])).tolist()
        return x, y

    @property
    def frame(self) -> Box:
        """The window on the page."""
        return Box(*self.at, *self.point(self.window.right, self.window.bottom))
