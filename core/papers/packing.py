"""Rectangles put on as few pages as can be, a quarter turn allowed."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from core.papers.drawing import Box, Drawing, Point
from core.papers.page import Page

MARGIN_MM = 7.0
"""No printer that can do A4 needs more."""

APART_MM = 3.0
LEAST_MM = 2 * APART_MM
"""What is free and narrower is not looked at."""

SLACK_MM = 1e-6
Size = tuple[float, float]


@dataclass(frozen=True)
class Put:
    """Something rectangular put on a page: which thing, the left top corner of its room there, mm, and whether it is
    turned by a quarter, clockwise."""

    index: int
    at: Point
    turned: bool = False

    def lay(self, drawing: Drawing, corner: Point, height: float) -> Drawing:
        """A drawing brought onto the page; its room, so high, has its left top corner at `corner`, mm."""
        x, y = self.at
        if self.turned:
            return drawing.moved(90.0, (x + height + corner[1], y - corner[0]))
        return drawing.moved(0.0, (x - corner[0], y - corner[1]))


Pages = tuple[tuple[Put, ...], ...]


def packed(sizes: Sequence[Size], page: Page) -> Pages:
    """Every rectangle on a page, in the best of some orders. Raises ValueError for one that no page has room for."""
    found = packed_within(sizes, page, len(sizes))
    assert found is not None
    return found


def packed_within(sizes: Sequence[Size], page: Page, most: int) -> Pages | None:
    """The same on so many pages at most, or None."""
    room = Box(MARGIN_MM, MARGIN_MM, page.width - MARGIN_MM, page.height - MARGIN_MM)
    least = math.ceil(sum(wide * high for wide, high in sizes) / room.area - SLACK_MM)
    best: Pages | None = None
    for order in _ORDERS:
        if most < least:
            break
        found = _packed(sizes, room, order, most)
        if found is not None:
            best, most = found, len(found) - 1
    return best


_ORDERS: tuple[Callable[[Size], float], ...] = (max, lambda size: size[0] * size[1], lambda size: size[1], min)
"""What goes first: the longest, the largest, the tallest, the broadest."""


def _packed(sizes: Sequence[Size], room: Box, order: Callable[[Size], float], most: int) -> Pages | None:
    """Every rectangle in one order, or None if that takes more than so many pages."""
    pages, open_pages = list[_Filling](), list[_Filling]()
    for index in sorted(range(len(sizes)), key=lambda index: (-round(order(sizes[index])), index)):
        filling = next((filling for filling in open_pages if filling.take(index, sizes[index])), None)
        if filling is None:
            if len(pages) == most:
                return None
            filling = _Filling(room)
            pages.append(filling)
            open_pages.append(filling)
            if not filling.take(index, sizes[index]):
                raise ValueError(f"{sizes[index]} mm is larger than the page")
        if not filling.free:
            open_pages.remove(filling)
    return tuple(tuple(filling.puts) for filling in sorted(pages, key=lambda one: min(put.index for put in one.puts)))


class _Filling:
    """One page being filled: what is on it, and the largest rectangles that are free, which may overlap."""

    def __init__(self, room: Box) -> None:
        self.puts: list[Put] = []
        self._set_free([Box(room.left, room.top, room.right + APART_MM, room.bottom + APART_MM)])

    def _set_free(self, free: list[Box]) -> None:
        """Remember what is free, and the longest and the broadest of it: what is more finds no room."""
        self.free = free
        self._longest = max((max(box.width, box.height) for box in free), default=0.0)
        self._broadest = max((min(box.width, box.height) for box in free), default=0.0)

    def take(self, index: int, size: Size) -> bool:
        """Put a rectangle where it leaves the narrowest rest, if there is room for it."""
        if max(size) + APART_MM > self._longest + SLACK_MM or min(size) + APART_MM > self._broadest + SLACK_MM:
            return False
        wide, high = size[0] + APART_MM, size[1] + APART_MM
        ways = [
            (min(free.width - w, free.height - h), turned, free, Box(free.left, free.top, free.left + w, free.top + h))
            for free in self.free
            for turned, w, h in ((False, wide, high), (True, high, wide))
            if w <= free.width + SLACK_MM and h <= free.height + SLACK_MM
        ]
        if not ways:
            return False
        _, turned, free, taken = min(ways, key=lambda way: way[:2])
        self.puts.append(Put(index, (free.left, free.top), turned))
        self._set_free(_maximal([part for box in self.free for part in _without(box, taken)]))
        return True


def _without(box: Box, taken: Box) -> tuple[Box, ...]:
    """The largest rectangles of a box that stay clear of another; they may overlap."""
    if min(box.right, taken.right) <= max(box.left, taken.left) or min(box.bottom, taken.bottom) <= max(
        box.top, taken.top
    ):
        return (box,)
    parts = (
        Box(box.left, box.top, taken.left, box.bottom),
        Box(taken.right, box.top, box.right, box.bottom),
        Box(box.left, box.top, box.right, taken.top),
        Box(box.left, taken.bottom, box.right, box.bottom),
    )
    return tuple(part for part in parts if min(part.width, part.height) > LEAST_MM)


def _maximal(boxes: list[Box]) -> list[Box]:
    """Without those that lie within another."""
    kept = list(dict.fromkeys(boxes))
    return [box for box in kept if not any(_holds(other, box) for other in kept if other != box)]


def _holds(outer: Box, inner: Box) -> bool:
    return (
        outer.left <= inner.left
        and outer.top <= inner.top
        and outer.right >= inner.right
        and outer.bottom >= inner.bottom
    )
