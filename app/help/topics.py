"""What the help says, one topic a page, with the seams that it shows."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from app.figures import figure
from app.help.seams import HIGH_MM, MadeUp, closed_by_moving, closed_by_turning, read
from app.words import later, tr


@dataclass(frozen=True)
class Topic:
    """A page: what it is called, what it says paragraph by paragraph, and the seams drawn below the words."""

    id: str
    title: str
    says: Callable[[], tuple[str, ...]]
    shows: Callable[[], tuple[MadeUp, ...]] = tuple

    def found_by(self, words: str) -> bool:
        """Whether the page has all of some words."""
        text = " ".join((tr(self.title), *self.says())).casefold()
        return all(word in text for word in words.casefold().split())


def _six_steps() -> tuple[str, ...]:
    return (
        tr(
            "1. Bring the pattern in: draft it from measurements, or bring in one that is drawn, scanned or "
            "photographed. Take it back to its stitching line, and sew the edges together on the sewing page, so that"
            " the two edges of every seam are of one length."
        ),
        tr(
            "2. Describe the cloth: its width, its true repeat measured over many repeats, whether it has a nap, how "
            "far panels may be turned off the grain, its flaws, and how much of it there is."
        ),
        tr(
            "3. Match the stripes. The program finds the places and turns at which all seams together match best, the"
            " seams that show most first, and says in millimetres what is left over at every seam."
        ),
        tr(
            "4. Lay the panels on the cloth. They keep their places across the stripes, and are moved by whole "
            "repeats and along the cloth until they take little length."
        ),
        tr(
            "5. See to the rest: interlining, facings, linings, strips. The cut list counts every piece, and says "
            "what to buy."
        ),
        tr(
            "6. Write the papers and take them to the table: a card for each panel that says how it lies on the "
            "stripes, the cutting plan, and the full-size pattern with the stripes on it."
        ),
    )


def _cautions() -> tuple[str, ...]:
    return (
        tr(
            "Measure the square on the first page of the papers. If it is not true to size, print again without "
            "scaling."
        ),
        tr("Shrink and press the cloth before you measure its repeat. It will not be the same afterwards."),
        tr("Measure the repeat over ten repeats or more and divide: a tenth of a millimetre adds up across the cloth."),
        tr("Lay everything out before the first cut. Cutting is final."),
        tr("Cut every panel singly, face up. Two layers of striped cloth never lie stripe on stripe."),
        tr(
            "Baste along the stitching line through matching stripes before you sew: the machine's feed moves the "
            "layers."
        ),
        tr(
            "Stiff open-weave cottons and full hems burn readily. Near flames or stage effects follow the local fire "
            "code."
        ),
    )


def _step() -> tuple[str, ...]:
    return (
        tr(
            "The step is how far the stripes of the two panels miss each other at a seam, measured square across the "
            "stripes. It has a height: at one place of a seam it may be nothing, and further down it may be a lot."
        ),
        tr(
            "The rms of a seam stands for the step over its whole length, large steps weighing more than small ones. "
            "The worst is the largest step, with the height at which it lies. The figure of the garment puts all "
            "seams together, each by how much it shows."
        ),
        tr(
            "Below, the same two gores: stripes that meet, and stripes that miss by 4 mm. A step of up to 2 mm is "
            "marked by a plain line, of up to 3 mm by dashes, a larger one by heavy dots."
        ),
    )


def _lean() -> tuple[str, ...]:
    return (
        tr(
            "The lean of an edge is the way it carries you across the stripes as you go down it. A gore that flares "
            "has one edge that leans left and one that leans right."
        ),
        tr(
            "Where the two edges of a seam lean opposite ways, as in the first picture, the stripes meet in a "
            "chevron. Where they lean alike, as in the second, they run on across the seam."
        ),
        tr(
            "It decides what can be done about a step. Moving the stitching line closes a step where the edges lean "
            "opposite ways. Where they lean alike it does nothing, since both panels' stripes move alike."
        ),
    )


def _drift() -> tuple[str, ...]:
    _, reading = read(_DRIFTING)
    return (
        tr(
            "Where one edge leans more than the other, the stripes of a seam can meet at one height only. From there "
            "on the step grows. How fast is the drift, in millimetres of step for every metre of seam."
        ),
        tr(
            "No placement takes a drift away. The best that can be done is to share it out: a step one way at the "
            "top, none in the middle, and one the other way at the bottom. That is what matching does. Turning a "
            "panel, easing and moving the seam change the drift itself."
        ),
        tr("Below, the same seam met at the top, and shared out. It drifts {drift} mm per metre.").format(
            drift=figure(abs(reading.drift_mm_per_m))
        ),
    )


def _along_gap() -> tuple[str, ...]:
    _, reading = read(_OFF)
    return (
        tr(
            "A stripe that crosses a seam reaches it at one height on the left panel and at another on the right one."
            " The difference, measured along the seam, is the along-gap. The close-up writes it beside each crossing."
        ),
        tr(
            "It is what you see when you lay the two edges together: how far one would have to slide on the other. "
            "The steeper the stripes lie to the seam, the longer the gap that one step makes: in the picture a step "
            "of {step} mm makes gaps of {gap} mm."
        ).format(step=figure(reading.worst[0]), gap=figure(abs(reading.crossings[0].along_gap_mm), decimals=0)),
    )


def _easing() -> tuple[str, ...]:
    _, reading = read(_UNEASED)
    ratio = reading.easing_ratio or 0.0
    return (
        tr(
            "Easing is sewing a longer edge to a shorter one so that no pleat shows. It brings stripes together that "
            "reach the seam at different heights."
        ),
        tr(
            "The seam in the first picture drifts. With the right edge {share} longer and eased in, as in the second,"
            " every stripe meets. Wool shrinks to it under the iron, firm cotton takes hardly any, and easing that is"
            " forced puckers the seam: more often than not what a step asks for can't be had."
        ).format(share=f"{ratio:.0%}"),
    )


def _seam_shift() -> tuple[str, ...]:
    return (
        tr(
            "A seam shift moves the stitching line between two panels: a little out on one, as much in on the other. "
            "The girth stays the same at every height, and so does the fit, as nearly as anybody can tell."
        ),
        tr(
            "Where the edges lean opposite ways the step changes by twice the shift. A step of 3 mm, in the first "
            "picture, is closed by a shift of 1.5 mm, in the second. The shift may change down the seam, and so take "
            "a drift away as well."
        ),
    )


def _turn() -> tuple[str, ...]:
    turned = _TURNED.turn_deg
    return (
        tr(
            "A panel may be turned off the grain by a little, which changes how its edges lean. How much is the grain"
            " tolerance of the cloth: a quarter of a degree is 3 mm over 700 mm of length."
        ),
        tr(
            "More than that shows in how the skirt hangs, before it shows in the stripes. A panel that is held is not"
            " turned at all."
        ),
        tr(
            "The seam in the first picture drifts. In the second the right panel is turned by {turn}°, which is {mm} "
            "mm over its height of {high} mm."
        ).format(
            turn=figure(abs(turned), decimals=2),
            mm=figure(abs(_DRIFTING_ALIKE.lean_b - _DRIFTING_ALIKE.lean_a)),
            high=f"{HIGH_MM:.0f}",
        ),
    )


def _even() -> tuple[str, ...]:
    return (
        tr(
            "A repeat is even if it is its own mirror image about some stripe or gap: turn the cloth over or round, "
            "and it looks the same. If it isn't, it is uneven."
        ),
        tr(
            "In a chevron the stripes of one panel are the mirror image of the other's. With an even repeat all of "
            "them meet, as in the first picture. With an uneven one only the lead stripe can, as in the second, "
            "whatever anybody does: the fine stripe is on the wrong side of it."
        ),
    )


def _one_way() -> tuple[str, ...]:
    return (
        tr(
            "A cloth is one-way if it has a nap, or a pattern with a top and a bottom. All panels must then lie the "
            "same way up."
        ),
        tr(
            "Where it is not, a panel may be laid end for end. That exchanges its right and left as far as the "
            "stripes are concerned, and so mends what an uneven repeat spoils: in the first picture both panels lie "
            "the same way, in the second the right one lies end for end, and all stripes meet."
        ),
    )


_DRIFTING = MadeUp(later("Met at the top"), 26.0, -17.0)
_SHARED = MadeUp(later("Shared out"), 26.0, -17.0, step=-4.5)
_UNEASED = MadeUp(later("One length"), 26.4, 24.0)
_EASED = MadeUp(later("Eased in"), 26.4, 24.0, longer=0.1)
_OFF = MadeUp(later("3 mm off"), step=3.0)
_DRIFTING_ALIKE = MadeUp(later("On the grain"), 24.0, 27.0)
_TURNED = replace(closed_by_turning(_DRIFTING_ALIKE), name=later("Turned"))
_UNEVEN = MadeUp(later("Uneven: the same way up"), uneven=True)

TOPICS = (
    Topic("steps", later("The job in six steps"), _six_steps),
    Topic("cautions", later("Before you cut"), _cautions),
    Topic("step", later("Step"), _step, lambda: (MadeUp(tr("They meet")), MadeUp(tr("4 mm off"), step=4.0))),
    Topic("lean", later("Lean"), _lean, lambda: (MadeUp(tr("Opposite ways")), MadeUp(tr("Alike"), 24.0, 24.0))),
    Topic("drift", later("Drift"), _drift, lambda: (_DRIFTING, _SHARED)),
    Topic("along-gap", later("Along-gap"), _along_gap, lambda: (_OFF,)),
    Topic("easing", later("Easing"), _easing, lambda: (_UNEASED, _EASED)),
    Topic(
        "shift",
        later("Seam shift"),
        _seam_shift,
        lambda: (_OFF, replace(closed_by_moving(_OFF), name=tr("Moved 1.5 mm"))),
    ),
    Topic("turn", later("Turn and tolerance"), _turn, lambda: (_DRIFTING_ALIKE, _TURNED)),
    Topic(
        "even",
        later("Even and uneven repeats"),
        _even,
        lambda: (MadeUp(tr("Even")), replace(_UNEVEN, name=tr("Uneven"))),
    ),
    Topic(
        "one-way",
        later("One-way cloth, and end for end"),
        _one_way,
        lambda: (_UNEVEN, replace(_UNEVEN, name=tr("Right one end for end"), turned=True)),
    ),
)


def topic(id_: str) -> Topic:
    """The page with an id."""
    return next(one for one in TOPICS if one.id == id_)
