"""Ways to true what is odd about a seam, as values that findings offer and `truing` carries out."""

from dataclasses import dataclass
from typing import Literal, get_args

from core.model.pattern import SewnSeam

Method = Literal[
    "lengthen the shorter edge at the bottom",
    "lengthen the shorter edge at the top",
    "shorten the longer edge at the bottom",
    "shorten the longer edge at the top",
    "share the difference at the bottom",
    "share the difference at the top",
    "move the notch of the right edge",
    "move the notch of the left edge",
    "mark the missing notch",
    "take the notch away",
    "smooth the run at the top",
    "smooth the run at the bottom",
    "exchange left and right",
    "end the stretch with the seam",
]

METHODS: tuple[Method, ...] = get_args(Method)

LENGTH_METHODS: tuple[Method, ...] = (
    "lengthen the shorter edge at the bottom",
    "lengthen the shorter edge at the top",
    "shorten the longer edge at the bottom",
    "shorten the longer edge at the top",
    "share the difference at the bottom",
    "share the difference at the top",
)


@dataclass(frozen=True)
class Remedy:
    """A method and the seam, as sewn, that it trues.

    For a notch `notch` gives its place along a's and b's edge from the upper end, mm, None where none is.
    """

    sewn: SewnSeam
    method: Method
    notch: tuple[float | None, float | None] | None = None
