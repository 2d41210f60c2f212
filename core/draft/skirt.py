"""A gored skirt from measurements: gores whose sewn edges are of one length, as a project with its seams joined up."""

import itertools
from dataclasses import dataclass

from core.draft.curves import CLOSE_MM
from core.draft.gore import Gore, GoreSpec, Pair, draft_gore, hem_length
from core.draft.measures import SkirtMeasures, check_measures
from core.draft.result import Draft, fit_findings
from core.draft.sharing import AGREE_MM, Widths, gore_widths
from core.draft.skirt_pieces import GoreNames, cut_width_mm, named_gores, skirt_piece
from core.draft.skirt_seams import skirt_seams
from core.errors import BadInput
from core.model.project import Centre, Match, Project
from core.seams.propose import CENTRE_FRONT
from core.seams.walk import Finding
from core.wording import listed, tr

HIP_MOVES_MM = 10.0
"""A hip that comes this much higher than asked is worth a word."""

_ROUNDS = 40
_MIDDLE_CLOSE_MM = 1e-3


def draft_skirt(measures: SkirtMeasures) -> Draft:
    """A gored skirt as a project, with findings about measurements and choices that don't agree.

    Raises BadInput where no skirt can be drafted from them.
    """
    check_measures(measures)
    widths, findings = gore_widths(measures)
    plan = _Plan.of(measures, widths)
    gores = _drafted(plan)
    project = Project(
        title=tr("Skirt of {gores} gores", gores=measures.gores),
        cloths=(measures.cloth,),
        pieces=tuple(skirt_piece(measures, names, gore) for names, gore in zip(plan.names, gores, strict=True)),
        seams=skirt_seams(measures, plan.names, gores),
        match=Match(centre=_centre(measures)),
    )
    hips, grains, wide = _hip_findings(plan, gores), _grain_findings(plan.names), _wide_findings(plan, gores)
    return Draft(project, (*findings, *hips, *grains, *wide))


def _centre(measures: SkirtMeasures) -> Centre:
    if measures.centres[0] == "gore":
        return Centre(panel="front", on=measures.centre_on or "lead")
    return Centre(seam=tr(CENTRE_FRONT), on=measures.centre_on or "free")


@dataclass(frozen=True)
class _Plan:
    """All that is settled before the gores are drawn, front to back.

    `places` are the seams' places round the hip, from 0 at the centre front to 1 at the centre back, the centres
    included; `below` is the length of every edge below the hip, mm.
    """

    measures: SkirtMeasures
    widths: tuple[Widths, ...]
    names: tuple[GoreNames, ...]
    places: tuple[float, ...]
    below: float

    @classmethod
    def of(cls, measures: SkirtMeasures, widths: tuple[Widths, ...]) -> "_Plan":
        hips = [width.hip * copies for width, copies in zip(widths, measures.copies, strict=True)]
        places = tuple(place / sum(hips) for place in itertools.accumulate(hips, initial=0.0))
        plan = cls(measures, widths, named_gores(measures), places, measures.below_hip)
        if plan.depth is None:
            return plan
        return cls(measures, widths, plan.names, places, _below_hip(plan))

    @property
    def depth(self) -> float | None:
        """The depth over which the flare is laid off on paper, if it is, mm."""
        return self.measures.below_hip if self.measures.laid_across else None

    def spec(self, index: int, lengths: tuple[float, float, float], below: float | None = None) -> GoreSpec:
        """What a gore must come to if the lengths at front, side and back are these, mm."""
        m, widths, names = self.measures, self.widths[index], self.names[index]
        down = (_length_at(self.places[index], lengths), _length_at(self.places[index + 1], lengths))
        if names.on_centre:
            down = (down[1], down[1]) if index == 0 else (down[0], down[0])
        return GoreSpec(
            place=tr("piece {id!r}", id=names.id),
            waist=widths.waist,
            hip=widths.hip,
            hem=widths.hem,
            top=widths.waist * (m.top or m.waist) / m.waist,
            shares=_SHARES[names.grain],
            down=down,
            below=self.below if below is None else below,
            depth=self.depth,
            straight=m.straight_from == "waist",
            rise=m.rise,
            let_out=self._let_out(index),
        )

    def _let_out(self, index: int) -> float:
        """What is let out at the waist of one gore's back edge: pairs behind the front share it."""
        let_out = self.measures.let_out
        if let_out == 0:
            return 0.0
        pairs = [place for place, names in enumerate(self.names) if place > 0 and not names.on_centre]
        if not pairs:
            raise BadInput(
                tr("there is no pair of gores behind the front"), "let out", tr("more gores, or another waist")
            )
        return let_out / 2 / len(pairs) if index in pairs else 0.0


_SHARES: dict[str, Pair] = {"middle": (0.5, 0.5), "front edge": (0.0, 1.0), "back edge": (1.0, 0.0)}


def _length_at(place: float, lengths: tuple[float, float, float]) -> float:
    """The length at a place round the hip: from front to side over the first half, to the back over the second."""
    front, side, back = lengths
    if place <= 0.5:
        return front + (side - front) * 2 * place
    return side + (back - side) * (2 * place - 1)


def _below_hip(plan: _Plan) -> float:
    """How far the edges run below the hip so that hems with leans laid off on paper keep the sweep, mm."""
    wanted = sum(width.hem * copies for width, copies in zip(plan.widths, plan.measures.copies, strict=True))
    below = plan.measures.below_hip
    for _ in range(_ROUNDS):
        error = wanted - _sweep(plan, below)
        if abs(error) < CLOSE_MM:
            break
        below += error / (_sweep(plan, below + 1.0) - _sweep(plan, below))
    if below - plan.measures.below_hip > plan.measures.hip_depth / 3:
        raise BadInput(
            tr(
                "hems this wide laid off straight across put the hip {below:.0f} mm higher",
                below=below - plan.measures.below_hip,
            ),
            "hem widths",
            tr("lay them along the curve, or take more gores or less sweep"),
        )
    return below


def _sweep(plan: _Plan, below: float) -> float:
    copies = plan.measures.copies
    return sum(
        number * hem_length(plan.spec(index, plan.measures.lengths, below)) for index, number in enumerate(copies)
    )


def _drafted(plan: _Plan) -> tuple[Gore, ...]:
    """All gores; the ends of the run of lengths are set so that gores on a centre are as long there as was asked."""
    lengths, last = plan.measures.lengths, len(plan.names) - 1
    if plan.names[0].on_centre:
        lengths = _with_middle(plan, 0, lengths)
    if plan.names[last].on_centre:
        lengths = _with_middle(plan, last, lengths)
    return tuple(draft_gore(plan.spec(index, lengths)) for index in range(last + 1))


def _with_middle(plan: _Plan, index: int, lengths: tuple[float, float, float]) -> tuple[float, float, float]:
    """The lengths with the front's or the back's changed so that the gore there has the length asked for in its middle.

    A gore is shorter down its middle than along its edges, which swing out over the hip.
    """
    wanted = lengths[0] if index == 0 else lengths[2]
    weight = 1 - 2 * plan.places[1] if index == 0 else 2 * plan.places[index] - 1
    if weight < 0.05:
        raise BadInput(
            tr("it takes in half of the hip or more"), tr("piece {id!r}", id=plan.names[index].id), tr("a narrower one")
        )
    for _ in range(_ROUNDS):
        error = wanted - draft_gore(plan.spec(index, lengths)).middle_mm
        if abs(error) < _MIDDLE_CLOSE_MM:
            break
        step = error / weight
        lengths = (lengths[0] + step, *lengths[1:]) if index == 0 else (*lengths[:2], lengths[2] + step)
    return lengths


def _hip_findings(plan: _Plan, gores: tuple[Gore, ...]) -> list[Finding]:
    measures, found = plan.measures, []
    girth = sum(gore.hip_mm * copies for gore, copies in zip(gores, measures.copies, strict=True))
    if measures.straight_from == "waist" and girth < measures.hip - AGREE_MM:
        what = tr(
            "straight from the waist the gores come to {girth:.1f} mm, {hip:.1f} mm less",
            girth=girth,
            hip=measures.hip - girth,
        )
        found.append(Finding(tr("hip"), what, tr("flare from the hip, or more sweep")))
    higher = plan.below - measures.below_hip
    if higher > HIP_MOVES_MM:
        what = tr(
            "it lies {higher:.0f} mm higher than asked, for the hem's widths are laid off straight across",
            higher=higher,
        )
        found.append(Finding(tr("hip"), what, tr("lay them along the curve")))
    return found


def _grain_findings(names: tuple[GoreNames, ...]) -> list[Finding]:
    """One finding for each edge that gores have their grain on."""
    found = []
    for grain in ("front edge", "back edge"):
        ids = [gore.id for gore in names if gore.grain == grain]
        if ids:
            what = tr(
                "it lies on the {grain} of {ids}: stripes run along that edge and cross the other only",
                grain=tr(grain),
                ids=listed(ids),
            )
            right = tr(
                "no placement makes a chevron at a seam that stripes cross on one side; lay the grain in the middle"
            )
            found.append(Finding(tr("grain"), what, right))
    return found


def _wide_findings(plan: _Plan, gores: tuple[Gore, ...]) -> list[Finding]:
    return [
        finding
        for names, gore in zip(plan.names, gores, strict=True)
        for finding in fit_findings(plan.measures.cloth, names.id, cut_width_mm(plan.measures, names, gore))
    ]
