"""A bias strip on the papers: where its grain line comes to lie, to either side."""

import csv
import io
import math

import msgspec
import pytest

from core.derive.cutting import cut_project
from core.files.project_file import read_project
from core.model.project import Placement, Strip
from core.papers.card_words import card_paragraphs
from core.papers.figures import figures_of
from core.papers.tables import positions_csv
from core.seams.readings import measure
from core.units import Units


@pytest.mark.parametrize(
    ("turn_deg", "along", "words"),
    [
        (0.0, (0.0, 1.0), "It runs straight along the cloth."),
        (-90.0, (1.0, 0.0), "It runs straight across the cloth, its bottom end at the right."),
        (90.0, (-1.0, 0.0), "It runs straight across the cloth, its bottom end at the left."),
    ],
)
def test_the_grain_line_of_a_bias_strip_runs_with_the_threads(harbour_skirt, turn_deg, along, words) -> None:
    """At 45 degrees to the threads a strip takes its width times root two of them."""
    project = read_project(harbour_skirt)
    cloth = project.cloths[0].id
    strip = Strip(id="binding", length=500, width=40, number=1, cloth=cloth, grain="bias")
    cut = cut_project(msgspec.structs.replace(project, strips=(strip,)))
    cut = cut.placed({"binding": Placement(u=600, v=700, turn_deg=turn_deg)})
    figures = figures_of(cut, measure(cut))
    rows = csv.DictReader(io.StringIO(positions_csv(figures).decode("utf-8")))
    (row,) = (row for row in rows if row["panel"] == "binding")
    ends = [[float(row[f"grain_{end}_{axis}_mm"]) for axis in "uv"] for end in ("top", "bottom")]
    expected = [40 * math.sqrt(2) * part for part in along]
    assert [b - a for a, b in zip(*ends, strict=True)] == pytest.approx(expected, abs=0.11)
    (own,) = (panel for panel in figures.panels if panel.name == "binding")
    assert any(words in paragraph.text for paragraph in card_paragraphs(own, (), {}, Units()))
