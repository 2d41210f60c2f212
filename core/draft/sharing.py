"""How the girths of a skirt are shared out among its gores."""

from collections.abc import Callable
from dataclasses import dataclass

from core.draft.lengths import MM_PER_INCH
from core.draft.measures import Centre, SkirtMeasures
from core.errors import BadInput
from core.seams.walk import Finding
from core.wording import later, tr

Numbers = tuple[float, ...]

AGREE_MM = 0.5
"""Sums that differ by no more than this agree."""

NARROWEST_MM = 5.0


@dataclass(frozen=True)
class Widths:
    """The whole width of one gore at the waist, the hip and the hem, mm."""

    waist: float
    hip: float
    hem: float


def gore_widths(measures: SkirtMeasures) -> tuple[tuple[Widths, ...], tuple[Finding, ...]]:
    """The widths of every piece from front to back, and findings where own widths don't add up to the girth.

    Raises BadInput where the proportions don't go with the number of gores or leave a gore no width.
    """
    waist, hip, hem = _SHARED[measures.sharing](measures)
    lines = (measures.own_waist or waist, measures.own_hip or hip, measures.own_hem or hem)
    for line, widths in zip(("waist", "hip", "hem"), lines, strict=True):
        if min(widths) < NARROWEST_MM:
            raise BadInput(
                tr("a gore comes to {min:.1f} mm at the {line}", min=min(widths), line=tr(line)),
                "widths",
                tr("other proportions, or fewer gores"),
            )
    return tuple(Widths(*gore) for gore in zip(*lines, strict=True)), _sums(measures)


def _sums(measures: SkirtMeasures) -> tuple[Finding, ...]:
    asked = (
        ("waist", measures.own_waist, "waist", measures.waist),
        ("hip", measures.own_hip, "hip", measures.hip),
        ("hem", measures.own_hem, "sweep", measures.sweep),
    )
    return tuple(
        _sum_finding(line, _total(widths, measures), girth, wanted)
        for line, widths, girth, wanted in asked
        if widths is not None and abs(_total(widths, measures) - wanted) > AGREE_MM
    )


def _total(widths: Numbers, measures: SkirtMeasures) -> float:
    return sum(width * copies for width, copies in zip(widths, measures.copies, strict=True))


def _sum_finding(line: str, total: float, girth: str, wanted: float) -> Finding:
    by_mm = abs(total - wanted)
    by = tr("{mm:.1f} mm ({inches:.3g} in)", mm=by_mm, inches=by_mm / MM_PER_INCH)
    short = later("the gores come to {total:.1f} mm, {by} short of the {girth} of {wanted:.1f} mm")
    over = later("the gores come to {total:.1f} mm, {by} over the {girth} of {wanted:.1f} mm")
    what = tr(short if total < wanted else over, total=total, by=by, girth=tr(girth), wanted=wanted)
    right = tr("widths that add up, or a {girth} of {total:.1f} mm", girth=tr(girth), total=total)
    return Finding(tr("{line} widths", line=tr(line)), what, right)


def _equal(measures: SkirtMeasures) -> tuple[Numbers, Numbers, Numbers]:
    waist, hip, hem = (
        (girth / measures.gores,) * measures.pieces for girth in (measures.waist, measures.hip, measures.sweep)
    )
    return waist, hip, hem


def _bennett(measures: SkirtMeasures) -> tuple[Numbers, Numbers, Numbers]:
    """Five gores alike at waist and hip; the front's hem is twice its waist (The Perfect Dressmaking System, 1914)."""
    _goes_with(measures, {5: ("gore", "seam")})
    waist, hip, _ = _equal(measures)
    front = 2 * waist[0]
    rest = (measures.sweep - front) / 4
    return waist, hip, (front, rest, rest)


def _ingalls(measures: SkirtMeasures) -> tuple[Numbers, Numbers, Numbers]:
    """Five or nine gores (Text-Book on Domestic Art, c. 1911).

    There straight lines through waist and hip give the hem, so each gore takes a share of the flare in proportion to
    what it gains from waist to hip.
    """
    _goes_with(measures, {5: ("gore", "seam"), 9: ("gore", "seam")})
    waist, hip = (_ingalls_five if measures.gores == 5 else _ingalls_nine)(measures.waist / 2, measures.hip / 2)
    gain = measures.hip - measures.waist
    if gain <= 0:
        raise BadInput(tr("the hip is no larger than the waist"), "sharing", tr("these proportions need a larger hip"))
    flare = (measures.sweep - measures.hip) / gain
    hem = tuple(wide + (wide - narrow) * flare for narrow, wide in zip(waist, hip, strict=True))
    return _front_doubled(waist), _front_doubled(hip), _front_doubled(hem)


def _ingalls_five(waist: float, hip: float) -> tuple[Numbers, Numbers]:
    front, side = waist / 4, waist / 3
    front_hip, side_hip = front + MM_PER_INCH, 1.5 * side
    return (front, side, waist - front - side), (front_hip, side_hip, hip - front_hip - side_hip)


def _ingalls_nine(waist: float, hip: float) -> tuple[Numbers, Numbers]:
    front, back, side = (waist / 3 - MM_PER_INCH) / 2, (waist / 3 + MM_PER_INCH) / 2, waist * 2 / 9
    front_hip, side_hip = front + 0.75 * MM_PER_INCH, 1.5 * side
    return (front, *[side] * 3, back), (front_hip, *[side_hip] * 3, hip - front_hip - 3 * side_hip)


def _baldt(measures: SkirtMeasures) -> tuple[Numbers, Numbers, Numbers]:
    """Six or seven gores (Clothing for Women, 1916); the waist is shared in proportion to the hip."""
    _goes_with(measures, {6: ("gore", "gore"), 7: ("gore", "seam")})
    hip, hem = (_baldt_six if measures.gores == 6 else _baldt_seven)(measures.hip, measures.sweep / 2)
    hip, hem = _front_doubled(hip), _front_doubled(hem)
    if measures.gores == 6:
        hip, hem = (*hip[:-1], 2 * hip[-1]), (*hem[:-1], 2 * hem[-1])
    return tuple(width * measures.waist / measures.hip for width in hip), hip, hem


def _baldt_six(hip: float, half_hem: float) -> tuple[Numbers, Numbers]:
    front, side = hip / 12, hip / 6
    side_hem = (half_hem - 4 * front) / 2
    return (front, side, side, front), (2 * front, side_hem, side_hem, 2 * front)


def _baldt_seven(hip: float, half_hem: float) -> tuple[Numbers, Numbers]:
    front, side, back = hip / 12, hip / 6 - MM_PER_INCH / 2, hip / 12 + MM_PER_INCH
    front_hem = 1.5 * front
    side_hem = (half_hem - front_hem + 3 * MM_PER_INCH) / 3
    return (front, side, side, back), (front_hem, side_hem, side_hem, side_hem - 3 * MM_PER_INCH)


def _front_doubled(half: Numbers) -> Numbers:
    """The widths of a half draft, its first gore drawn to the fold, as whole gores."""
    return (2 * half[0], *half[1:])


def _goes_with(measures: SkirtMeasures, drafts: dict[int, tuple[Centre, Centre]]) -> None:
    """Check that the number of gores, and what lies on the centres, are those of a published draft."""
    front, back = measures.centres
    if drafts.get(measures.gores) != (front, back):
        raise BadInput(
            tr(
                "there are {gores} gores, a {front} in front and a {back} behind",
                gores=measures.gores,
                front=tr(front),
                back=tr(back),
            ),
            f"sharing, {measures.sharing}",
            tr(" or ").join(
                tr(
                    "{number} gores, a {front} in front, a {back} behind",
                    number=number,
                    front=tr(on[0]),
                    back=tr(on[1]),
                )
                for number, on in drafts.items()
            ),
        )


_SHARED: dict[str, Callable[[SkirtMeasures], tuple[Numbers, Numbers, Numbers]]] = {
    "equal": _equal,
    "bennett": _bennett,
    "ingalls": _ingalls,
    "baldt": _baldt,
}
