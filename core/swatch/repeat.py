"""From stretches of colour to a repeat: ground, stripes, their names; even where the cloth is."""

from collections import Counter

import numpy as np
import numpy.typing as npt

from core.model.cloth import Repeat, Stripe
from core.swatch.colour import difference, hex_of, lab_of, plain_name
from core.swatch.stripes import Segments

Array = npt.NDArray[np.float64]

TOLERANCE_MM = 0.1
TOLERANCE_PX = 0.5
_DIGITS = 4


def repeat_of(segments: Segments, mm_per_px: float) -> tuple[Repeat, float]:
    """The repeat, mm, and where it starts, px of the profile: in the middle of the widest stretch of ground.

    The colour that covers most is the ground. Stripes that are mirror images of each other within 0.1 mm or half a
    pixel are made exactly that, and widths of one colour that differ by less are made one.
    """
    tolerance = max(TOLERANCE_PX, TOLERANCE_MM / mm_per_px)
    ground = ground_of(segments)
    centres, widths = _mirrored(segments, tolerance)
    widths = _levelled_widths(segments.kind, widths, tolerance / 2)
    start = _start(segments, centres, widths, ground)
    at = (centres - start) % segments.width
    order = [index for index in np.argsort(at) if segments.kind[index] != ground]
    names = _names([plain_name(segments.light[index]) for index in order])
    stripes = tuple(
        Stripe(
            name=name,
            at=round(float(at[index]) * mm_per_px, _DIGITS),
            width=round(float(widths[index]) * mm_per_px, _DIGITS),
            colour=hex_of(segments.light[index]),
        )
        for name, index in zip(names, order, strict=True)
    )
    light = segments.light[int(np.argmax(segments.kind == ground))]
    lead = stripes[_most_seen(segments, np.array(order), light)].name
    width = round(float(segments.width) * mm_per_px, _DIGITS)
    return Repeat(width=width, ground=hex_of(light), stripes=stripes, lead=lead), start


def ground_of(segments: Segments) -> int:
    """The kind that covers most; of two that cover the same, the lighter one."""
    cover = np.bincount(segments.kind, weights=segments.widths)
    most = np.nonzero(cover > 0.98 * cover.max())[0]
    bright = [segments.light[segments.kind == kind][0].sum() for kind in most]
    return int(most[int(np.argmax(bright))])


def _most_seen(segments: Segments, order: npt.NDArray[np.intp], ground: Array) -> int:
    """Which stripe the eye follows: the one whose width times its contrast to the ground is greatest."""
    contrast = difference(lab_of(segments.light[order]), lab_of(ground))
    return int(np.argmax(np.round(contrast * segments.widths[order], 3)))


def _names(words: list[str]) -> list[str]:
    """Names of their own for stripes: their colours, numbered where there are several of one."""
    many, seen, names = Counter(words), Counter[str](), []
    for word in words:
        seen[word] += 1
        names.append(f"{word} {seen[word]}" if many[word] > 1 else word)
    return names


def _start(segments: Segments, centres: Array, widths: Array, ground: int) -> float:
    """The middle of the widest stretch of ground, px; of several the first."""
    mine = segments.kind == ground
    widest = widths[mine].max()
    return float(centres[mine & (widths > widest - 1e-6)].min())


def _mirrored(segments: Segments, tolerance: float) -> tuple[Array, Array]:
    """Centres and widths, exactly mirrored if they are nearly so."""
    found = [(worst, axis, partner) for axis, worst, partner in _axes(segments) if worst <= tolerance]
    if not found:
        return segments.centres, segments.widths
    _, axis, partner = min(found, key=lambda one: one[0])
    width, centres, widths = segments.width, segments.centres, segments.widths
    off = (centres - axis + width / 2) % width - width / 2
    other = off[partner]
    apart = (off + other + width / 2) % width - width / 2
    return (axis + off - apart / 2) % width, (widths + widths[partner]) / 2


def _axes(segments: Segments) -> list[tuple[float, float, npt.NDArray[np.intp]]]:
    """(axis, worst misfit, each segment's mirror image) for every way of pairing the segments' order with itself."""
    number, width = len(segments.edges), segments.width
    order = np.arange(number)
    found = []
    for total in range(number):
        partner = (total - order) % number
        if (segments.kind[partner] != segments.kind).any():
            continue
        sums = (segments.centres + segments.centres[partner]) % width
        first = sums[0]
        off = (sums - first + width / 2) % width - width / 2
        axis = ((first + off.mean()) / 2) % width
        worst = max(np.abs(off - off.mean()).max(), np.abs(segments.widths - segments.widths[partner]).max())
        found.append((float(axis), float(worst), partner))
    return found


def _levelled_widths(kind: npt.NDArray[np.intp], widths: Array, tolerance: float) -> Array:
    """Widths of one kind that differ by less than the tolerance made one."""
    out = widths.copy()
    for one in np.unique(kind):
        mine = np.nonzero(kind == one)[0]
        order = mine[np.argsort(widths[mine])]
        for group in np.split(order, np.nonzero(np.diff(widths[order]) > tolerance)[0] + 1):
            out[group] = widths[group].mean()
    return out
