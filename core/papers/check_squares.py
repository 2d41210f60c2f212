"""The check squares: 100 mm and 4 in, one corner in common, on every file that is drawn full size."""

from core.papers.drawing import Box, Drawing, Line, Point, Text
from core.papers.page import HEAD_SIZE, TEXT_SIZE
from core.wording import tr

HUNDRED_MM, FOUR_INCHES_MM = 100.0, 101.6


def check_squares(at: Point) -> Drawing:
    """Both squares with their words; `at` is their left top corner."""
    left, top = at
    middle = left + HUNDRED_MM / 2
    words = (
        tr("Check the printed scale"),
        tr("the inner square measures 100 mm"),
        tr("the outer square measures 4 in"),
    )
    texts = [
        Text((middle, top + 45.0 + 6.5 * i), line, HEAD_SIZE if i == 0 else TEXT_SIZE, anchor="middle", bold=i == 0)
        for i, line in enumerate(words)
    ]
    squares = [
        Line(Box(left, top, left + side, top + side).corners, "check square", closed=True)
        for side in (HUNDRED_MM, FOUR_INCHES_MM)
    ]
    return Drawing((*squares, *texts))
