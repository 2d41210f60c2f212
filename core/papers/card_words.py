"""What a placement card says: the steps in order, worded for somebody who stands at the cutting table."""

from collections.abc import Mapping, Sequence

from core.papers.figures import EdgeMarks, PanelFigures
from core.papers.moved_lines import MovedEdge, moved_edges
from core.papers.neighbours import Neighbour
from core.papers.page import FINE_SIZE, HEAD_SIZE, TEXT_SIZE, Paragraph
from core.papers.patch_words import patch_step
from core.papers.words import (
    Step,
    degrees,
    expected_words,
    lead_words,
    off_lead_words,
    other_stripe_words,
    sideways,
    where_on_edge,
)
from core.seams.levels import Level
from core.units import Units
from core.wording import later, listed, localised, tr, tr_n

MOST_PLACES, MOST_BARS = 16, 4
"""So many meeting places of an edge are named on a card; its edge strip shows all."""


def card_paragraphs(
    figures: PanelFigures, laid: Sequence[Neighbour], titles: Mapping[str, str], units: Units
) -> list[Paragraph]:
    """The words of a card; `laid` are the panels that lie there already, `titles` gives every panel's full name."""
    steps = [
        _paper_step(figures),
        *_shift_step(figures, units),
        _grain_step(figures, units),
        _place_step(figures, units),
    ]
    steps += [*_stripe_step(figures, units), *_bar_step(figures, units), *_check_steps(figures, units)]
    steps += _neighbour_step(laid, units)
    steps += [_cut_step(figures), *patch_step(figures, titles, units)]
    paragraphs = _face(figures)
    for number, step in enumerate(steps, 1):
        leads = bool(step.measures)
        paragraphs.append(Paragraph(step.text, label=f"{number}", indent=6.0, hang=6.0, gap=2.2, leads=leads))
        paragraphs += [Paragraph(line, label="–", indent=9.5, hang=3.5, gap=0.4) for line in step.measures]
    return [*paragraphs, *_seams(figures, titles, units)]


def _face(figures: PanelFigures) -> list[Paragraph]:
    """How the paper lies, in the largest letters: the mistake that costs a panel."""
    paper = {"up": tr("PAPER FACE UP"), "down": tr("PAPER FACE DOWN"), "half": tr("PAPER IS HALF OF IT")}[figures.paper]
    top = tr("TURNED: TOP TO THE FAR END") if figures.at.turned else tr("TOP TO THE CUT END")
    held = [Paragraph(tr("HELD: don't move it from here"), TEXT_SIZE, bold=True, gap=0.6)] if figures.at.hold else []
    return [Paragraph(paper, 5.0, bold=True, gap=0.0), Paragraph(top, HEAD_SIZE, bold=True, gap=0.6), *held]


def _paper_step(figures: PanelFigures) -> Step:
    title = figures.panel.piece.title
    if figures.paper == "half":
        return Step(
            tr(
                "Take the paper piece {title}. It is half of the panel: mark round it, then turn it over on "
                "its fold line and mark round the other half. Don't fold the cloth.",
                title=title,
            )
        )
    laid = later("Take the paper piece {title} and lay it as it is drawn: face up.")
    if figures.paper == "down":
        laid = later("Take the paper piece {title} and lay it turned over, its drawn side to the cloth: face down.")
    return Step(tr(laid, title=title))


def _shift_step(figures: PanelFigures, units: Units) -> list[Step]:
    """Lines that were shifted to match the stripes; nothing where none was."""
    if figures.shifted_mm < units.nothing_mm:
        return []
    edges = listed(figures.lines_before)
    net = later("Its stitching line is moved by {most} at most ({edges}) to match the stripes")
    cut = later("Its cutting line is moved by {most} at most ({edges}) to match the stripes")
    which = net if figures.panel.piece.outline_is == "net" else cut
    words = tr(which, most=units.say(figures.shifted_mm), edges=edges)
    where = tr("so many {unit} out (+) or in (−)", unit=units.name) if moved_edges(figures) else tr("as drawn here")
    words = tr("{words}: mark it on the paper {where}. The fine dashes are the old line.", words=words, where=where)
    return [Step(words, tuple(_moved_words(one, units) for one in moved_edges(figures)))]


def _moved_words(one: MovedEdge, units: Units) -> str:
    """The distances of one moved edge."""
    places = (f"{units.whole(at)}: {_signed(out, units)}" for at, out in one.places)
    return tr(
        "{edge} edge, {unit} from the {other} edge: {places}.",
        edge=one.marks.edge,
        unit=units.name,
        other=one.marks.corner_with,
        places=listed(places),
    )


def _signed(mm: float, units: Units) -> str:
    """A distance with its sign, without its unit."""
    return f"{'−' if mm < 0 else '+'}{localised(units.decimal(abs(mm)))}"


def _grain_step(figures: PanelFigures, units: Units) -> Step:
    top, bottom = where_on_edge(figures.grain_top, units), where_on_edge(figures.grain_bottom, units)
    length = units.say(figures.grain_length_mm)
    return Step(
        tr("Rule its grain line, {length}, along the grain from stitching line to stitching line.", length=length),
        (tr("Top end: {top}.", top=top), tr("Bottom end: {bottom}.", bottom=bottom)),
    )


def _place_step(figures: PanelFigures, units: Units) -> Step:
    top, bottom = (
        later("Top end: {across} across, {along} along."),
        later("Bottom end: {across} across, {along} along."),
    )
    ends = ((top, figures.grain_top), (bottom, figures.grain_bottom))
    return Step(
        tr(
            "Bring the grain line to its place, measured across from the left edge and along from the "
            "cut end. {turned}",
            turned=_turn_words(figures, units),
        ),
        tuple(tr(words, across=units.bare(end.u_mm), along=units.bare(end.v_mm)) for words, end in ends),
    )


def _turn_words(figures: PanelFigures, units: Units) -> str:
    turn = figures.at.turn_deg
    if abs(figures.lean_mm) < units.nothing_mm:
        return tr("It runs straight along the cloth.")
    if abs(abs(turn) - 90.0) < 1e-6:
        if figures.grain_bottom.u_mm > figures.grain_top.u_mm:
            return tr("It runs straight across the cloth, its bottom end at the right.")
        return tr("It runs straight across the cloth, its bottom end at the left.")
    clockwise = later("It is turned {turn}° clockwise: its bottom end lies {sideways} of straight along.")
    back = later("It is turned {turn}° anticlockwise: its bottom end lies {sideways} of straight along.")
    aside = sideways(figures.lean_mm, units)
    return tr(clockwise if turn > 0 else back, turn=degrees(abs(turn)), sideways=aside)


def _stripe_step(figures: PanelFigures, units: Units) -> list[Step]:
    """Setting the grain line by the stripes; nothing where there is no lead stripe to set it by."""
    top, bottom = figures.grain_top, figures.grain_bottom
    if top.off_lead_mm is None:
        return []
    measures = [tr("Top end: {place} of the nearest one.", place=off_lead_words(top, units))]
    if bottom.off_lead_mm is not None:
        measures.append(
            tr(
                "Bottom end: {place} of {stripe}.",
                place=off_lead_words(bottom, units),
                stripe=other_stripe_words(figures, units),
            )
        )
    words = tr("Now set it by the {stripe}; here the stripe counts, not the measure.", stripe=lead_words(figures.cloth))
    return [Step(words, tuple(measures))]


def _bar_step(figures: PanelFigures, units: Units) -> list[Step]:
    """Setting the panel along the cloth by the bars; nothing where there are none."""
    if not figures.levels or figures.cloth.crosswise is None:
        return []
    name = figures.cloth.crosswise.lead_stripe.name
    words = tr(
        "Set it along the cloth by the lead bar ({name}), at the middle of its upper and lower edges.", name=name
    )
    return [Step(words, tuple(_level_words(level, units) for level in figures.levels))]


def _level_words(level: Level, units: Units) -> str:
    start = tr("Middle of the {edge} edge:", edge=level.edge)
    if abs(level.to_bar_mm) < units.nothing_mm:
        return tr("{start} on the middle of a bar.", start=start)
    hem = later("{start} the nearest bar's middle lies {far} towards the hem.")
    waist = later("{start} the nearest bar's middle lies {far} towards the waist.")
    return tr(hem if level.to_bar_mm > 0 else waist, start=start, far=units.say(abs(level.to_bar_mm)))


def _check_steps(figures: PanelFigures, units: Units) -> list[Step]:
    """Where lead stripes, and lead bars, meet the sewn edges; nothing where none does."""
    kinds = (
        (_STRIPES_MEET, MOST_PLACES, [(marks, marks.meets_mm) for marks in figures.edges]),
        (_BARS_MEET, MOST_BARS, [(marks, marks.bars_mm) for marks in figures.edges]),
    )
    return [
        _check_step(what, most, [(marks, places) for marks, places in marked if places], units)
        for what, most, marked in kinds
        if any(places for _, places in marked)
    ]


_STRIPES_MEET = later(
    "Check: the middle of a lead stripe meets the stitching line, measured along it{common}{strip}, at"
)
_BARS_MEET = later("Check: the middle of a lead bar meets the stitching line, measured along it{common}{strip}, at")


def _check_step(what: str, most: int, marked: list[tuple[EdgeMarks, tuple[float, ...]]], units: Units) -> Step:
    """The corner that places are measured from is named once if it is one with the same edge for all."""
    corners = {marks.corner_with for marks, _ in marked}
    common = tr(" from its corner with the {edge} edge", edge=min(corners)) if len(corners) == 1 else ""
    strip = tr(" (all are on its edge strip)") if any(len(places) > most for _, places in marked) else ""
    return Step(
        tr(what, common=common, strip=strip),
        tuple(_edge_words(marks, places, most, units, not common) for marks, places in marked),
    )


def _edge_words(marks: EdgeMarks, meets_mm: Sequence[float], most: int, units: Units, corner: bool) -> str:
    places = [units.bare(height) for height in meets_mm[:most]]
    more = len(meets_mm) - len(places)
    rest = tr(" and {more} more", more=more) if more else ""
    start = tr(", from its corner with the {edge} edge", edge=marks.corner_with) if corner else ""
    return tr(
        "{edge} edge ({length} long){start}: {places}{rest}.",
        edge=marks.edge,
        length=units.bare(marks.length_mm),
        start=start,
        places=listed(places),
        rest=rest,
    )


def _neighbour_step(laid: Sequence[Neighbour], units: Units) -> list[Step]:
    """The gaps to the panels that lie there already; nothing for the first panel on the cloth."""
    if not laid:
        return []
    words = tr("Check: between the cutting lines, where they come closest, there is")
    return [Step(words, tuple(_neighbour_words(one, units) for one in laid))]


def _neighbour_words(one: Neighbour, units: Units) -> str:
    gap = tr("no room") if one.gap_mm < units.nothing_mm else units.bare(one.gap_mm)
    return tr(
        "{gap} to panel {number}, {way}, {along} along.",
        gap=gap,
        number=one.figures.number,
        way=tr(one.way),
        along=units.bare(one.along_mm),
    )


def _cut_step(figures: PanelFigures) -> Step:
    count = len(figures.notches)
    notches = tr_n(", the notch", ", the {count} notches", count) if count else ""
    return Step(
        tr(
            "Weight it down. Mark the cutting line, the stitching line{notches} and the two ends of the "
            "grain line. When all panels lie right, cut this one through the single layer, face up.",
            notches=notches,
        )
    )


def _seams(figures: PanelFigures, titles: Mapping[str, str], units: Units) -> list[Paragraph]:
    if not figures.seams:
        return []
    lines = []
    for expected in figures.seams:
        panel, _, edge = expected.partner.partition("/")
        lines.append(expected_words(expected, f"{titles.get(panel, panel)} ({edge})", units))
    return [
        Paragraph(tr("Steps to expect at its seams"), TEXT_SIZE, bold=True, gap=4.0),
        *(Paragraph(line, FINE_SIZE, gap=1.0) for line in lines),
    ]
