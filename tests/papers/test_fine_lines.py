"""Fine lines on cards and patterns: where a line ran before it was shifted, and where a patch is sewn on."""

import re

import msgspec
import numpy as np
import pytest
from shapely.geometry import LinearRing, LineString, Polygon

from core.derive.matched import with_patches
from core.geometry.paths import flatten
from core.model.cloth import Repeat, Stripe
from core.model.pattern import Edge, On, Piece
from core.model.project import Placement, Project
from core.papers.drawing import Line, Text
from core.papers.figures import Figures, PanelFigures, figures_of
from core.papers.papers import paper_pages
from core.papers.patch_words import meeting
from core.papers.pattern import pattern_piece
from core.seams.patch import patches
from core.seams.readings import measure

TENTH_MM = 0.1
SIDES = ("M -40 -50 L 40 -50", "M 40 -50 L 40 50", "M 40 50 L -40 50", "M -40 50 L -40 -50")
POCKET = Piece(
    id="pocket",
    name="Patch pocket",
    cloth="ticking",
    on=On(panel="front.R", at=(20.0, 300.0), turn_deg=5.0),
    edges=tuple(Edge(name=name, path=path) for name, path in zip("abcd", SIDES, strict=True)),
)


@pytest.fixture(scope="module")
def figures(skirt: Project) -> Figures:
    """The sample with a patch on its front, whose straight back edge was 3 mm further in before."""
    front = next(piece for piece in skirt.pieces if piece.id == "front")
    edges = tuple(
        msgspec.structs.replace(edge, before_shift=" ".join(moved(edge.path))) if edge.name == "back" else edge
        for edge in front.edges
    )
    shifted = msgspec.structs.replace(front, edges=edges)
    pieces = tuple(shifted if piece is front else piece for piece in skirt.pieces)
    cloth = msgspec.structs.replace(skirt.cloths[0], length=None)
    pocket = msgspec.structs.replace(POCKET, cloth=cloth.id)
    far = Placement(u=400.0, v=4000.0)
    project = msgspec.structs.replace(skirt, cloths=(cloth,), pieces=(*pieces, pocket)).placed({"pocket": far})
    project = with_patches(project)
    return figures_of(project, measure(project))


def moved(path: str) -> list[str]:
    """Every x of a path's points 3 mm less."""
    words, found, count = path.replace(",", " ").split(), list[str](), 0
    for word in words:
        if word.isalpha():
            found.append(word)
        else:
            found.append(f"{float(word) - 3:g}" if count % 2 == 0 else word)
            count += 1
    return found


def panel(figures: Figures, name: str) -> PanelFigures:
    return next(one for one in figures.panels if one.name == name)


def words_of(figures: Figures, one: PanelFigures) -> str:
    cards = [leaf.drawing for leaf in paper_pages(figures)]
    texts = ([part.text for part in card.parts if isinstance(part, Text)] for card in cards)
    return " ".join(next(text for text in texts if text[0] == f"{one.number} · {one.title}"))


def test_the_old_line_is_drawn_and_the_largest_shift_told(figures: Figures) -> None:
    one = panel(figures, "front.R")
    drawn = [
        part for part in pattern_piece(one, "both").lines_drawing.of("line before").parts if isinstance(part, Line)
    ]
    edge = next(edge for edge in one.panel.piece.edges if edge.before_shift)
    old = LineString(one.on_cloth(flatten(edge.before_shift or "")))
    assert len(drawn) == 1
    assert old.hausdorff_distance(LineString(drawn[0].points)) < TENTH_MM
    assert "moved by 3.0 mm at most (back)" in words_of(figures, one)


def test_a_patch_is_drawn_on_its_panel_where_it_is_sewn_on(figures: Figures) -> None:
    host = panel(figures, "front.R")
    (outline,) = (
        part for part in pattern_piece(host, "both").lines_drawing.of("patch").parts if isinstance(part, Line)
    )
    t = np.radians(5.0)
    corners = np.array([(-40, -50), (40, -50), (40, 50), (-40, 50)]) @ np.array(
        [[np.cos(t), np.sin(t)], [-np.sin(t), np.cos(t)]]
    ) + (20.0, 300.0)
    model = LinearRing(host.on_cloth(corners))
    assert LinearRing(outline.points).hausdorff_distance(model) < TENTH_MM
    assert not pattern_piece(panel(figures, "front.L"), "both").lines_drawing.of("patch").parts


def test_the_card_of_a_patch_tells_where_it_goes_and_how_well_it_matches(figures: Figures) -> None:
    words = words_of(figures, panel(figures, "pocket"))
    ring = panel(figures, "front.R").panel.net_ring
    middle = (ring[:, 0].min() + ring[:, 0].max()) / 2
    top = LineString([(middle, -1e4), (middle, 1e4)]).intersection(Polygon(ring)).bounds[1]
    side = "right" if middle < 20 else "left"
    assert f"{abs(20 - middle):.1f} mm to the {side} of the panel's grain line, {300 - top:.1f} mm below" in words
    assert "Front gore, right" in words
    assert "Largest step between the two: 0.00 mm" in words


def test_the_card_of_a_patch_says_which_stripe_of_the_panel_its_lead_stripe_lies_on(figures: Figures) -> None:
    """Both places are taken to the cloth by the formulas of a panel's frame: a lead stripe runs through each."""
    one, host = panel(figures, "pocket"), panel(figures, "front.R")
    found = re.search(
        r"lead stripe \(([^)]+)\), ([\d.]+) mm from its left edge at half its height, lies on the panel's, "
        r"([\d.]+) mm to the (left|right) of the panel's grain line",
        words_of(figures, one),
    )
    assert found is not None
    repeat = one.cloth.repeat
    assert repeat is not None
    assert found[1] == repeat.lead_stripe.name
    on_patch = (-40.0 + float(found[2]), 0.0)
    ring = host.panel.net_ring
    x = (ring[:, 0].min() + ring[:, 0].max()) / 2 + float(found[3]) * (1 if found[4] == "right" else -1)
    on_host = (x, 300.0 + (x - 20.0) * np.tan(np.radians(5.0)))
    assert np.hypot(on_host[0] - 20.0, on_host[1] - 300.0) == pytest.approx(abs(on_patch[0]), abs=2 * TENTH_MM)
    for at, place in ((one.at, on_patch), (host.at, on_host)):
        t = np.radians(at.turn_deg + (180.0 if at.turned else 0.0))
        u = at.u + np.cos(t) * place[0] - np.sin(t) * place[1]
        v = at.v + np.sin(t) * place[0] + np.cos(t) * place[1]
        off = (u - one.cloth.skew_mm_per_m / 1000 * v - repeat.origin - repeat.lead_stripe.at) % repeat.width
        assert min(off, repeat.width - off) < TENTH_MM


def test_a_bar_of_a_patch_is_named_from_the_tops_of_both(skirt: Project) -> None:
    """A patch that lies straight: its lead bar is as far below its middle as the panel's is below the same place."""
    bars = Repeat(width=60, origin=0, stripes=(Stripe(name="rust", at=10, width=7, colour="#8c4a2f"),))
    cloth = msgspec.structs.replace(skirt.cloths[0], length=None, crosswise=bars)
    pocket = msgspec.structs.replace(POCKET, cloth=cloth.id, on=On(panel="front.R", at=(20.0, 300.0)))
    project = msgspec.structs.replace(skirt, cloths=(cloth,), pieces=(*skirt.pieces, pocket))
    project = with_patches(project.placed({"pocket": Placement(u=400.0, v=4000.0)}))
    patch = next(patch for patch in patches(project) if patch.name == "pocket")
    met = meeting(patch, "crosswise")
    assert met is not None
    assert met.on_panel[1] - 300.0 == pytest.approx(met.at_mm - 50.0, abs=TENTH_MM)
    at = project.placement("pocket")
    t = np.radians(at.turn_deg + (180.0 if at.turned else 0.0))
    v = at.v + np.cos(t) * (met.at_mm - 50.0)
    assert abs((v - 10.0 + 30.0) % 60.0 - 30.0) < TENTH_MM
