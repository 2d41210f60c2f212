"""Which outlines of a drawing are pieces, and at what scale."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.validation import explain_validity

from core.errors import BadInput
from core.files.marks import polygon_of
from core.files.outlines import REPAIR_MM, Drawing, Outline
from core.seams.walk import Finding
from core.wording import later, tr, tr_n

MOST_PIECES = 300
"""More pieces than this come from no one pattern."""

LARGEST_SQUARE_MM = 130.0
"""A check square is no larger than this."""

_SAME_MM = 0.05
_FRAME_MM = 1.0


def chosen(
    drawing: Drawing, only: Sequence[str], smallest_mm2: float, scale: float, square_mm: float | None
) -> tuple[list[Outline], list[Finding]]:
    """The outlines to make pieces of, scaled, each with a label, and what was left out.

    Raises BadInput: none is there, one is open or crosses itself, a label of `only` is not there, no check square.
    """
    findings = list(drawing.findings)
    factor = _factor(drawing, scale, square_mm, findings)
    scaled = _scaled(drawing, factor)
    closed = [outline for outline in scaled if outline.closed]
    if not closed and not only:
        raise _none_closed(scaled)
    said = findings if not only else []
    if drawing.all_pieces:
        candidates = _large_enough(closed, smallest_mm2, said)
        _check_simple(candidates)
    else:
        candidates = _candidates(closed, drawing.page, factor, smallest_mm2, said)
    labelled = _labelled(candidates)
    taken = _by_label(labelled, scaled, only, findings) if only else labelled
    if not taken:
        raise _too_small(closed, smallest_mm2)
    if len(taken) > MOST_PIECES:
        raise BadInput(
            tr("it has {count} outlines to take", count=len(taken)),
            right=tr("up to {most_pieces}; name those that are pieces", most_pieces=MOST_PIECES),
        )
    if not only:
        _say_open([outline for outline in scaled if not outline.closed], findings)
    return taken, findings


def _scaled(drawing: Drawing, factor: float) -> list[Outline]:
    if factor == 1.0:
        return list(drawing.outlines)
    matrix = np.array([[factor, 0.0, 0.0], [0.0, factor, 0.0]])
    return [outline.moved(matrix) for outline in drawing.outlines]


def _factor(drawing: Drawing, scale: float, square_mm: float | None, findings: list[Finding]) -> float:
    """By what the drawing is multiplied; says how large the check square is where there is one."""
    sides = [side for outline in drawing.outlines if (side := square_side(outline)) is not None]
    likely = [side for side in sides if side * scale <= LARGEST_SQUARE_MM]
    if square_mm is None:
        for told in dict.fromkeys(f"{side * scale:.2f}" for side in likely):
            what = tr("a square of {told} mm is on the sheet", told=told)
            findings.append(
                Finding(tr("scale"), what, tr("compare it with what is written beside it, then state its true size"))
            )
        return scale
    if not sides:
        raise BadInput(tr("no check square is drawn on it"), tr("scale"), tr("state the scale as a factor instead"))
    side = min(sides, key=lambda side: abs(math.log(side / square_mm)))
    findings.append(
        Finding(
            tr("scale"),
            tr("a square of {side:.2f} mm was taken for {square_mm:g} mm", side=side, square_mm=square_mm),
            f"x {square_mm / side:.5f}",
        )
    )
    return square_mm / side


def square_side(outline: Outline) -> float | None:
    """The side of a closed outline that is a square standing upright, mm; None for any other."""
    if not outline.closed or any(len(segment) > 2 for segment in outline.segments):
        return None
    left, top, right, bottom = outline.box
    side = (right - left + bottom - top) / 2
    upright = abs((right - left) - (bottom - top)) < 0.005 * side
    return side if upright and abs(abs(outline.area_mm2) - side * side) < 0.01 * side * side else None


def _candidates(
    closed: Sequence[Outline],
    page: tuple[float, float] | None,
    factor: float,
    smallest_mm2: float,
    findings: list[Finding],
) -> list[Outline]:
    """The closed outlines that are pieces as long as nobody says otherwise."""
    large = [outline for outline in closed if _box_area(outline) >= smallest_mm2]
    sizes = [(width * factor, height * factor) for width, height in [page] if page] if page else []
    plain = [outline for outline in large if not _is_frame(outline, sizes) and not _is_check_square(outline)]
    single = _without_doubles(plain or large)
    outer = _outermost(single)
    _check_simple(outer)
    tiny = [outline for outline in closed if _box_area(outline) < smallest_mm2 and square_side(outline) is None]
    kept = _large_enough([*tiny, *outer], smallest_mm2, findings)
    _say(findings, sum(_is_frame(outline, sizes) for outline in large) if plain else 0, tr("as large as the sheet"))
    _say(findings, len(plain or large) - len(single), tr("drawn twice"))
    _say(findings, len(single) - len(outer), tr("inside others"))
    return kept


def _large_enough(outlines: Sequence[Outline], smallest_mm2: float, findings: list[Finding]) -> list[Outline]:
    kept = [outline for outline in outlines if abs(outline.area_mm2) >= smallest_mm2]
    _say(findings, len(outlines) - len(kept), tr("smaller than {smallest_mm2:g} mm2", smallest_mm2=smallest_mm2))
    return kept


def _say(findings: list[Finding], count: int, why: str) -> None:
    if count:
        what = tr_n("{count} outline {why} left out", "{count} outlines {why} left out", count, why=why)
        findings.append(Finding(tr("outlines"), what, tr("name those that are pieces after all")))


def _box_area(outline: Outline) -> float:
    left, top, right, bottom = outline.box
    return (right - left) * (bottom - top)


def _is_frame(outline: Outline, sizes: Sequence[tuple[float, float]]) -> bool:
    """Whether it is the rectangle of the sheet itself."""
    left, top, right, bottom = outline.box
    full = abs(outline.area_mm2) > 0.99 * _box_area(outline)
    return full and any(
        max(abs(left), abs(top), abs(right - width), abs(bottom - height)) < _FRAME_MM for width, height in sizes
    )


def _is_check_square(outline: Outline) -> bool:
    side = square_side(outline)
    return side is not None and side <= LARGEST_SQUARE_MM


def _without_doubles(outlines: Sequence[Outline]) -> list[Outline]:
    """The outlines without those that only repeat another, as a fill and a stroke of one shape do."""
    kept: dict[tuple[int, ...], Outline] = {}
    for outline in outlines:
        key = tuple(round(value / _SAME_MM / 2) for value in (*outline.box, outline.length_mm))
        if key not in kept or (outline.label and not kept[key].label):
            kept[key] = outline if key not in kept else replace(kept[key], label=outline.label)
    return list(kept.values())


def _outermost(outlines: Sequence[Outline]) -> list[Outline]:
    """The outlines that lie in no other; of one that crosses itself its box must."""
    if not outlines:
        return []
    shapes = [polygon_of(outline.points) for outline in outlines]
    sound = [shape if shape.is_valid else shapely.box(*shape.bounds) for shape in shapes]
    tree = shapely.STRtree(sound)
    inner, outer = tree.query(sound, predicate="within")
    nested = {i for i, j in zip(inner.tolist(), outer.tolist(), strict=True) if i != j and shapes[j].is_valid}
    return [outline for index, outline in enumerate(outlines) if index not in nested]


def _check_simple(outlines: Sequence[Outline]) -> None:
    for outline in outlines:
        shape = polygon_of(outline.points)
        if not shape.is_valid:
            raise BadInput(
                tr(
                    "the outline {title} crosses itself ({explain_validity})",
                    title=outline.title,
                    explain_validity=explain_validity(shape),
                ),
                outline.place,
                tr("an outline whose lines don't cross is right"),
            )


def _labelled(outlines: Sequence[Outline]) -> list[Outline]:
    """The outlines, those without a label called after their layer, or by their number."""
    layers = [outline.layer for outline in outlines]
    named = []
    for index, outline in enumerate(outlines):
        layer = outline.layer if layers.count(outline.layer) == 1 else ""
        named.append(replace(outline, label=outline.label or layer or tr("piece {index}", index=index + 1)))
    return named


def _by_label(
    labelled: Sequence[Outline], scaled: Sequence[Outline], only: Sequence[str], findings: list[Finding]
) -> list[Outline]:
    """The outlines of certain labels, layers or numbers, in the order in which those are named."""
    taken: list[Outline] = []
    for wanted in only:
        called = _called(wanted)
        found = [outline for outline in labelled if called(outline)]
        found = found or [outline for outline in scaled if called(outline) and outline.closed]
        if not found:
            raise _not_there(wanted, labelled, [outline for outline in scaled if called(outline)])
        taken += [replace(outline, label=outline.label or wanted) for outline in found if outline not in taken]
    _check_simple(taken)
    return taken


def _called(wanted: str) -> Callable[[Outline], bool]:
    plain = wanted.strip().lower().replace("-", " ")
    return lambda outline: plain in (outline.label.lower().replace("-", " "), outline.layer.lower().replace("-", " "))


def _not_there(wanted: str, labelled: Sequence[Outline], still_open: Sequence[Outline]) -> BadInput:
    if still_open:
        return _none_closed(still_open)
    labels = ", ".join(outline.label for outline in labelled[:12]) or "none"
    return BadInput(
        tr("no outline is called {wanted!r}", wanted=wanted[:40]),
        right=tr("those to choose from are {labels}", labels=labels),
    )


_CLOSED_IS_RIGHT = later("closed outlines are right; gaps up to {mm:g} mm are closed")


def _none_closed(outlines: Sequence[Outline]) -> BadInput:
    longest = max(outlines, key=lambda outline: outline.length_mm)
    start, end = longest.segments[0][0], longest.segments[-1][-1]
    if longest.gap_mm <= REPAIR_MM:
        what = tr(
            "no line encloses anything; the longest comes back to ({x:.1f}, {y:.1f})",
            x=start[0],
            y=start[1],
        )
        return BadInput(
            tr("{what}, but crosses itself or goes back the way it came", what=what),
            longest.place,
            tr(_CLOSED_IS_RIGHT, mm=REPAIR_MM),
        )
    what = tr(
        "no outline is closed; the longest line starts at ({x:.1f}, {y:.1f})",
        x=start[0],
        y=start[1],
    )
    ends = tr(
        "{what} and ends {gap_mm:.1f} mm from there, at ({x:.1f}, {y:.1f})",
        what=what,
        gap_mm=longest.gap_mm,
        x=end[0],
        y=end[1],
    )
    return BadInput(ends, longest.place, tr(_CLOSED_IS_RIGHT, mm=REPAIR_MM))


def _too_small(closed: Sequence[Outline], smallest_mm2: float) -> BadInput:
    largest = max(closed, key=_box_area)
    left, top, right, bottom = largest.box
    what = tr("its largest outline is {width:.1f} x {height:.1f} mm", width=right - left, height=bottom - top)
    return BadInput(
        what,
        largest.place,
        tr("at least {smallest_mm2:g} mm2 is right; state units or scale", smallest_mm2=smallest_mm2),
    )


def _say_open(outlines: Sequence[Outline], findings: list[Finding]) -> None:
    if outlines:
        longest = max(outlines, key=lambda outline: outline.length_mm)
        count = len(outlines)
        what = tr_n(
            "{count} line that encloses nothing left out, the longest {length_mm:.0f} mm",
            "{count} lines that enclose nothing left out, the longest {length_mm:.0f} mm",
            count,
            length_mm=longest.length_mm,
        )
        findings.append(Finding(tr("outlines"), what, tr("close those that are pieces")))
