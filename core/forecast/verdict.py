"""What a forecast comes to, in words."""

from collections.abc import Callable

from core.forecast.errors import WORDS
from core.forecast.forecast import TENTH_MM, Forecast
from core.wording import tr


def verdict(found: Forecast, shown: Callable[[float], str] = lambda mm: tr("{mm:.2f} mm", mm=mm)) -> tuple[str, ...]:
    """The figure to expect, whether a better plan is worth chasing, and what would help; empty if nothing is matched.

    `shown` writes a length in mm.
    """
    planned, expected, tenth = found.planned.rms_mm, found.rms_mm, found.tenth_mm
    if planned is None or expected is None or tenth is None:
        return ()
    most, share = next(iter(found.shares.items()))
    matters = (tr("What matters most: {what}.", what=tr(WORDS[most])),) if share > 0 else ()
    return (
        tr("Planned {planned} rms; to be expected {expected}.", planned=shown(planned), expected=shown(expected)),
        *matters,
        tr(
            "A tenth of a millimetre off the plan takes {tenth} off what is to be expected: {worth}.",
            tenth=shown(tenth),
            worth=_worth(tenth),
        ),
        *_help(most),
    )


def _worth(tenth: float) -> str:
    if tenth >= TENTH_MM / 2:
        return tr("worth chasing")
    return tr("hardly worth chasing") if tenth >= TENTH_MM / 5 else tr("not worth chasing")


def _help(most: str) -> tuple[str, ...]:
    if most != "cutting_mm":
        return ()
    return (tr("Sewn along thread-marked stitching lines, stripe pinned to stripe, the cut edge no longer counts."),)
