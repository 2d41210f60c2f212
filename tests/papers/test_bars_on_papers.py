"""Bars on the papers: they lie on drawings and in words where the formula puts them, z = v - s u - q u (W - u)."""

import csv
import io

import msgspec
import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from core.model.cloth import Repeat, Stripe
from core.model.project import Project
from core.papers.cards import card_pages
from core.papers.cloth_drawing import cloth_drawing, lead_lines
from core.papers.drawing import Area, Box, Line, Text
from core.papers.edge_strips import strip_pages
from core.papers.figures import Figures, figures_of
from core.papers.lettering import text_box
from core.papers.page import A4, LETTER, Page
from core.papers.papers import paper_pages
from core.papers.tables import stripe_marks_csv
from core.seams.levels import find_rounds
from core.seams.readings import measure
from core.units import UnitName, Units

BARS = Repeat(
    width=40,
    origin=5,
    stripes=(
        Stripe(name="rust", at=10, width=7, colour="#8c4a2f"),
        Stripe(name="fine", at=30, width=2, colour="#23304d"),
    ),
)
SKEW, BOW = 1.0, 1.5
TENTH_MM = 0.1


@pytest.fixture(scope="module")
def checked(skirt: Project) -> Figures:
    """The sample in rows, on a cloth with bars that lean and are bowed."""
    (cloth,) = skirt.cloths
    barred = msgspec.structs.replace(cloth, crosswise=BARS, weft_skew_percent=SKEW, bow_percent=BOW)
    project = msgspec.structs.replace(skirt, cloths=(barred,))
    return figures_of(project, measure(project))


def along_bars(figures: Figures, points: np.ndarray) -> np.ndarray:
    """The v at which the bar through a place meets the left selvedge, from the definition of skew and bow."""
    width, (u, v) = figures.cloths[0].cloth.width, points.T
    bow = BOW / 100 * width * 4 * (u / width) * (1 - u / width)
    return v - SKEW / 100 * u - bow


def from_bar(figures: Figures, points: np.ndarray, at: float) -> np.ndarray:
    """Distances along the cloth to the nearest bar whose middle is `at` in the repeat."""
    return (along_bars(figures, points) - BARS.origin - at + BARS.width / 2) % BARS.width - BARS.width / 2


def test_bars_are_drawn_where_they_lie(checked: Figures) -> None:
    cloth = checked.cloths[0].cloth
    window = Box(30.0, 40.0, 700.0, 300.0)
    bars = [
        part
        for part in cloth_drawing(cloth, window).of("stripe").parts
        if isinstance(part, Area) and np.ptp(part.points[:, 0]) == pytest.approx(window.width)
    ]
    assert len(bars) >= 10
    for bar in bars:
        inner = bar.points[(bar.points[:, 1] > window.top + 0.01) & (bar.points[:, 1] < window.bottom - 0.01)]
        off = np.minimum(
            np.abs(np.abs(from_bar(checked, inner, 10)) - 3.5), np.abs(np.abs(from_bar(checked, inner, 30)) - 1.0)
        )
        assert off.max(initial=0.0) < TENTH_MM
    flat = [line for line in lead_lines(cloth, window).parts if np.ptp(line.points[:, 0]) > 300]  # type: ignore[union-attr]
    assert len(flat) >= 6
    assert all(np.abs(from_bar(checked, line.points, 10)).max() < TENTH_MM for line in flat if isinstance(line, Line))


def test_the_table_tells_where_bars_meet_the_edges(checked: Figures) -> None:
    rows = list(csv.DictReader(io.StringIO(stripe_marks_csv(checked).decode())))
    by_name = {panel.name: panel for panel in checked.panels}
    told = [row for row in rows if row["way"] == "crosswise"]
    assert len(told) > 10 * 2 * 15
    for row in told[::7]:
        panel = by_name[row["panel"]]
        marks = next(marks for marks in panel.edges if marks.edge == row["edge"])
        place = LineString(panel.edge_line(marks)).interpolate(float(row["at_mm"]))
        assert abs(from_bar(checked, np.array(place.coords), 10)[0]) < TENTH_MM


def test_cards_tell_how_far_waist_and_hem_lie_from_a_bar(checked: Figures) -> None:
    pages = paper_pages(checked)
    words = [" ".join(part.text for part in leaf.drawing.parts if isinstance(part, Text)) for leaf in pages]
    for panel in checked.panels:
        card = next(text for text in words if text.startswith(f"{panel.number} · {panel.title} "))
        for edge in ("waist", "hem"):
            middle = np.array(LineString(panel.net[edge]).interpolate(0.5, normalized=True).coords)
            assert f"{abs(from_bar(checked, middle, 10)[0]):.1f} mm towards the" in card


@pytest.mark.parametrize(("page", "unit"), [(A4, "mm"), (LETTER, "in")])
def test_every_card_is_one_page_whatever_it_has_to_tell(checked: Figures, page: Page, unit: UnitName) -> None:
    """Words that find no room beside the picture stand under it, and lie neither on it nor on each other."""
    cards = card_pages(checked, page, Units(unit), lambda _: True)
    assert {len(pages) for pages in cards.values()} == {1}
    for (card,) in cards.values():
        texts = [part for part in card.parts if isinstance(part, Text)]
        rooms = [Polygon(text_box(text, -0.05)) for text in texts]
        assert not [1 for i, room in enumerate(rooms) for other in rooms[:i] if room.intersects(other)]
        cloth = np.concatenate([part.points for part in card.parts if isinstance(part, Area)])
        below, right = cloth[:, 1].max(), cloth[:, 0].max()
        words = [text for text in texts if not text.halo]
        assert all(t.at[1] < 29.0 or t.at[0] > right or t.at[1] - t.size > below for t in words)


def test_seams_have_a_second_reading_of_their_bars(checked: Figures) -> None:
    words = [part.text for leaf in paper_pages(checked) for part in leaf.drawing.parts if isinstance(part, Text)]
    assert sum(text.startswith("bars, ") for text in words) == len(checked.measurement.garment.seams)


def test_cards_tell_the_steps_of_bars_too(checked: Figures) -> None:
    for panel in checked.panels:
        told = {expected.seam: expected for expected in panel.seams}
        for reading in checked.measurement.read:
            if panel.name in reading.line.panels:
                assert told[reading.label].rms_mm == reading.rms_mm
        assert len(told) == 4


def test_readings_tell_the_figures_of_stripes_and_bars_apart(checked: Figures) -> None:
    words = " ".join(
        part.text for leaf in paper_pages(checked) for part in leaf.drawing.parts if isinstance(part, Text)
    )
    stripes, bars = (checked.measurement.rms_of(way) for way in ("lengthwise", "crosswise"))
    assert f"Stripes alone {stripes:.2f} mm, bars alone {bars:.2f} mm." in words


def test_readings_tell_how_evenly_bars_fall_round_the_garment(checked: Figures) -> None:
    words = [part.text for leaf in paper_pages(checked) for part in leaf.drawing.parts if isinstance(part, Text)]
    rounds = find_rounds(checked.project, [level for panel in checked.panels for level in panel.levels])
    assert [one.side for one in rounds] == ["top", "hem"]
    assert {one.words(Units("mm")) for one in rounds} <= set(words)


def test_edge_strips_show_bars(checked: Figures) -> None:
    leaf = strip_pages(checked, A4, A4, Units("mm"))[1]
    leads = [line for line in leaf.drawing.of("lead stripe").parts if isinstance(line, Line)]
    strips = [Polygon(line.points) for line in leaf.drawing.of("strip").parts if isinstance(line, Line)]
    across = [line for line in leads if abs(line.points[-1] - line.points[0])[0] > 25]
    assert len(across) >= 4 * len(strips)
