"""The measurements and choices that a gored skirt is drafted from."""

import math
from dataclasses import dataclass, fields
from typing import Literal

import msgspec

from core.errors import BadInput
from core.model.cloth import Cloth, Repeat, Stripe
from core.wording import later, tr

Grain = Literal["middle", "front edge", "back edge"]
Centre = Literal["gore", "seam"]
Sharing = Literal["equal", "bennett", "ingalls", "baldt"]

FEWEST_GORES, MOST_GORES = 4, 24
SMALLEST_MM, LARGEST_MM = 20.0, 20_000.0

USUAL_STRIPE = Stripe(name="stripe", at=12.0, width=10.0, colour="#2f4a6b")
USUAL_REPEAT = Repeat(width=24.0, ground="#efe7d6", stripes=(USUAL_STRIPE,))
USUAL_CLOTH = Cloth(
    id="main", name=later("Striped cloth"), width=1500.0, selvedge=(10.0, 10.0), one_way=True, repeat=USUAL_REPEAT
)
"""What a draft is cut from until the real cloth is entered."""


def usual_cloth() -> Cloth:
    """The stand-in for the real cloth, called by its name in the language set."""
    return msgspec.structs.replace(USUAL_CLOTH, name=tr(USUAL_CLOTH.name))


@dataclass(frozen=True, kw_only=True)
class Allowances:
    """Turnings beyond the stitching line for each kind of edge, mm; half an inch is usual at seams and waist."""

    seam: float = 12.7
    centre: float = 12.7
    waist: float = 12.7
    hem: float = 40.0


@dataclass(frozen=True, kw_only=True)
class SkirtMeasures:
    """A gored skirt: lengths in mm, numbers of gores front to back.

    `length_side` and `length_back` default to `length_front`; what they are more goes in at the top, and the side
    length holds half way round from front to back. `front` and `back` say what lies on the centre, a gore or a seam;
    left None they follow from the number: two seams where it is even (two gores in Baldt's draft), a front gore and a
    back seam where it is odd.

    `sharing` tells how waist, hip and sweep are shared out; `own_waist`, `own_hip` and `own_hem` give the width of
    every gore instead, one number a piece from front to back, whole gores. `straight_from` the waist, or flared from
    the `hip`. There `hem_widths` are laid off along the `curve` (the lean is what the hem needs), or `across`, as on
    paper: half the difference between hem and hip over the depth between them gives the lean; the rounded hem
    then keeps the sweep, and the hip moves up a little. None: across for published proportions, else the curve.

    `rise` is how far the skirt stands above the waist, `top` its girth there (None: that of the waist). `let_out` is
    added to the waist at the back edges of the pairs behind the front, which stays as it was. `grain` is one choice
    for all pairs, or one for every piece. `opening` is the length of the placket, 0 for a closed ring, in the seam
    `opening_at` (None: the centre back, else the last seam on the left side).
    """

    waist: float
    hip: float
    sweep: float
    length_front: float
    hip_depth: float = 200.0
    length_side: float | None = None
    length_back: float | None = None
    gores: int = 8
    front: Centre | None = None
    back: Centre | None = None
    centre_gores: Literal["single", "fold"] = "single"
    sharing: Sharing = "equal"
    own_waist: tuple[float, ...] | None = None
    own_hip: tuple[float, ...] | None = None
    own_hem: tuple[float, ...] | None = None
    straight_from: Literal["waist", "hip"] = "hip"
    hem_widths: Literal["across", "curve"] | None = None
    rise: float = 0.0
    top: float | None = None
    let_out: float = 0.0
    grain: Grain | tuple[Grain, ...] = "middle"
    opening: float = 0.0
    opening_at: str | None = None
    allowances: Allowances = Allowances()
    cloth: Cloth = USUAL_CLOTH
    centre_on: Literal["lead", "ground", "free"] | None = None

    @property
    def lengths(self) -> tuple[float, float, float]:
        """Front, side and back length, mm."""
        side = self.length_front if self.length_side is None else self.length_side
        back = self.length_front if self.length_back is None else self.length_back
        return self.length_front, side, back

    @property
    def below_hip(self) -> float:
        """From the hip down to the hem, the same all round, mm."""
        return self.length_front - self.hip_depth

    @property
    def laid_across(self) -> bool:
        """Whether the flare is laid off straight across, over the depth below the hip."""
        asked = self.hem_widths or ("curve" if self.sharing == "equal" else "across")
        return self.straight_from == "hip" and asked == "across"

    @property
    def centres(self) -> tuple[Centre, Centre]:
        """What lies on the centre front and on the centre back.

        Raises BadInput if the number of gores can't have it.
        """
        unlike: dict[Centre, Centre] = {"gore": "seam", "seam": "gore"}
        odd = self.gores % 2 == 1
        front = self.front or ("gore" if odd or self.sharing == "baldt" else "seam")
        if self.front is None and self.back is not None:
            front = unlike[self.back] if odd else self.back
        back = self.back or (unlike[front] if odd else front)
        if (front != back) != odd:
            right = tr("one gore and one seam") if odd else tr("two gores or two seams")
            raise BadInput(
                tr(
                    "{gores} gores can't have a {front} in front and a {back} behind",
                    gores=self.gores,
                    front=tr(front),
                    back=tr(back),
                ),
                "gores",
                right,
            )
        return front, back

    @property
    def pieces(self) -> int:
        """How many pieces there are from front to back: pairs and the gores that lie on a centre."""
        return (self.gores + self.centres.count("gore")) // 2

    @property
    def copies(self) -> tuple[int, ...]:
        """How many times each piece is in the skirt: 1 on a centre, 2 for a pair; front to back."""
        front, back = self.centres
        between = self.pieces - 2
        return (1 if front == "gore" else 2, *[2] * between, 1 if back == "gore" else 2)


def check_measures(measures: SkirtMeasures) -> None:
    """Check that a skirt can be drafted from the measurements. Raises BadInput: what, and what would be right."""
    _check_numbers(measures)
    if measures.sweep < measures.hip:
        raise BadInput(
            tr("it is {sweep:g} mm", sweep=measures.sweep),
            "sweep",
            tr("at least the hip, {hip:g} mm, is right", hip=measures.hip),
        )
    _check_lengths(measures)
    _check_choices(measures)


def _check_lengths(measures: SkirtMeasures) -> None:
    for name, length in zip(("front", "side", "back"), measures.lengths, strict=True):
        if measures.hip_depth >= length - SMALLEST_MM:
            raise BadInput(
                tr(
                    "it is {hip_depth:g} mm, but the skirt is {length:g} mm long ({name})",
                    hip_depth=measures.hip_depth,
                    length=length,
                    name=tr(name),
                ),
                "hip depth",
                tr("less than the length by {smallest_mm:g} mm or more is right", smallest_mm=SMALLEST_MM),
            )
    shortest = min(measures.lengths)
    if measures.below_hip >= shortest - SMALLEST_MM / 2:
        raise BadInput(
            tr(
                "the front is {below_hip:g} mm long below the hip, the shortest length is {shortest:g} mm in all",
                below_hip=measures.below_hip,
                shortest=shortest,
            ),
            "lengths",
            tr("lengths that differ by less than the hip depth are right"),
        )


def _check_numbers(measures: SkirtMeasures) -> None:
    if isinstance(measures.gores, bool) or not isinstance(measures.gores, int):
        raise BadInput(tr("it is {gores!r}", gores=measures.gores), "gores", tr("a whole number is right"))
    within("gores", measures.gores, FEWEST_GORES, MOST_GORES, unit="")
    for name in ("waist", "hip", "sweep", "hip_depth", "length_front", "length_side", "length_back", "top"):
        value = getattr(measures, name)
        if value is not None:
            within(name.replace("_", " "), value, SMALLEST_MM, LARGEST_MM)
    for name in ("rise", "let_out", "opening"):
        within(name.replace("_", " "), getattr(measures, name), 0, LARGEST_MM)
    for field in fields(measures.allowances):
        within(f"allowance, {field.name}", getattr(measures.allowances, field.name), 0, 300)
    for name in ("own_waist", "own_hip", "own_hem"):
        _check_own(name.removeprefix("own_"), getattr(measures, name), measures.pieces)


def within(place: str, value: float, low: float, high: float, unit: str = " mm") -> None:
    """Check a number. Raises BadInput if it is no finite number from low to high."""
    if not (math.isfinite(value) and low <= value <= high):
        raise BadInput(
            tr("it is {value:g}{unit}", value=value, unit=unit),
            place,
            tr("{low:g} to {high:g}{unit} is right", low=low, high=high, unit=unit),
        )


def _check_own(line: str, widths: tuple[float, ...] | None, pieces: int) -> None:
    if widths is None:
        return
    if len(widths) != pieces:
        raise BadInput(
            tr("{count} numbers are given", count=len(widths)),
            f"own widths, {line}",
            tr("{pieces} are right, one a piece, front to back", pieces=pieces),
        )
    for width in widths:
        within(f"own widths, {line}", width, 1, LARGEST_MM)


def _check_choices(measures: SkirtMeasures) -> None:
    if measures.top is not None and measures.rise == 0:
        raise BadInput(
            tr("it is given, but the skirt ends at the waist"), "top", tr("a rise above the waist goes with it")
        )
    if not isinstance(measures.grain, str):
        _check_grain(measures, measures.grain)


_SHOWN = (
    *(later("gore"), later("seam"), later("front"), later("side"), later("back")),
    *(later("front edge"), later("back edge"), later("waist"), later("hip"), later("hem")),
)
"""Words of the measures that are told in findings."""


def _check_grain(measures: SkirtMeasures, grain: tuple[Grain, ...]) -> None:
    if len(grain) != measures.pieces:
        raise BadInput(
            tr("{count} choices are given", count=len(grain)),
            "grain",
            tr("one, or {pieces}, front to back, is right", pieces=measures.pieces),
        )
    for choice, copies in zip(grain, measures.copies, strict=True):
        if copies == 1 and choice != "middle":
            raise BadInput(
                tr("it lies on the {choice} of a gore on the centre", choice=tr(choice)),
                "grain",
                tr("the middle is right there"),
            )
