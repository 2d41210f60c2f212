"""What a forecast comes to, in words."""

from collections.abc import Callable

from core.forecast.errors import WORDS
from core.forecast.forecast import TENTH_MM, Forecast


def verdict(found: Forecast, shown: Callable[[float], str] = lambda mm: f"{mm:.2f} mm") -> tuple[str, ...]:
    """The figure to expect, whether a better plan is worth chasing, and what would help; empty if nothing is matched.

    `shown` writes a length in mm.
    """
    planned, expected, tenth = found.planned.rms_mm, found.rms_mm, found.tenth_mm
    if planned is None or expected is None or tenth is None:
        return ()
    most, share = next(iter(found.shares.items()))
    matters = (f"What matters most: {WORDS[most]}.",) if share > 0 else ()
    return (
        f"Planned {shown(planned)} rms; to be expected {shown(expected)}.",
        *matters,
        f"A tenth of a millimetre off the plan takes {shown(tenth)} off what is to be expected: {_worth(tenth)}.",
        *_help(most),
    )


def _worth(tenth: float) -> str:
    if tenth >= TENTH_MM / 2:
        return "worth chasing"
    return "hardly worth chasing" if tenth >= TENTH_MM / 5 else "not worth chasing"


def _help(most: str) -> tuple[str, ...]:
    if most != "cutting_mm":
        return ()
    return ("Sewn along thread-marked stitching lines, stripe pinned to stripe, the cut edge no longer counts.",)
