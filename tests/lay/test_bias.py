"""Strips on the bias lie at 45 degrees to the threads, anywhere across the cloth, and are checked for it."""

import json
import math

import msgspec
import numpy as np
import pytest

from cloths import rectangle, shapes_on_cloth
from core.derive.cutting import cut_project
from core.files.project_file import project_from_bytes
from core.lay.lay import lay
from core.lay.legal import find_faults
from core.model.project import Placement, Project
from garments import repeat

INCH = 25.4


def with_strips(
    usable: float, period: float | None, pieces: tuple = (), one_way: bool = False, way: str = "repeat", **strip
) -> Project:
    striped = {way: repeat("even", period)} if period else {}
    raw = {
        "format": "stripewright-project",
        "version": 1,
        "cloths": [{"id": "cloth", "width": usable, "one_way": one_way, **striped}, {"id": "spare", "width": 500}],
        "pieces": list(pieces) or [rectangle("other", 100, 100, "spare")],
        "strips": [{"id": "binding", "cloth": "cloth", "grain": "bias", **strip}],
    }
    return cut_project(project_from_bytes(json.dumps(raw).encode()))


def leans(project: Project) -> dict[str, float]:
    """The direction of each panel's longest side on the cloth, degrees off the length of the cloth, in [0, 180)."""
    found = {}
    strips = {name: shape for name, shape in shapes_on_cloth(project).items() if name.startswith("binding")}
    for name, shape in strips.items():
        sides = np.diff(np.array(shape.exterior.coords), axis=0)
        across, along = sides[np.argmax(np.hypot(*sides.T))]
        found[name] = math.degrees(math.atan2(across, along)) % 180
    return found


@pytest.mark.parametrize(
    ("period", "one_way", "way"),
    [
        (None, False, "repeat"),
        (None, True, "repeat"),
        (37.0, False, "repeat"),
        (160.0, True, "repeat"),
        (37.0, False, "crosswise"),
    ],
)
def test_bias_strips_lie_at_45_degrees_on_any_cloth(period, one_way, way) -> None:
    project = with_strips(800, period, one_way=one_way, way=way, length=500, width=40, number=6)
    laid = lay(project, seconds=2.0).project
    assert find_faults(laid, "cloth") == ()
    found = [round(lean, 6) for lean in leans(laid).values()]
    assert set(found) <= {45.0, 135.0}
    assert (period is None and not one_way) or len(set(found)) == 1


def test_a_bias_strip_across_54_inches_is_76_37_inches_long_and_takes_root_two_of_its_width() -> None:
    """D in the list of check values: width times root two of selvedge; across 54 in of cloth 76.37 in long."""
    project = with_strips(54 * INCH, None, length=76.367 * INCH, width=2 * INCH, number=3)
    found = lay(project).lays[0]
    first = lay(with_strips(54 * INCH, None, length=76.367 * INCH, width=2 * INCH, number=1)).lays[0]
    assert found.length_mm - first.length_mm == pytest.approx(2 * 2 * math.sqrt(2) * INCH, abs=1e-3)
    assert first.length_mm == pytest.approx((54 + 2 * math.sqrt(2)) * INCH, abs=0.2)


def test_stripes_do_not_keep_a_bias_strip_from_the_only_place_there_is() -> None:
    """The panel lies 2 to 72 mm from the selvedge, and the strip needs the rest but 4 mm; 0, 60, 120 are in the way."""
    strip = {"length": 100 * math.sqrt(2), "width": 20, "number": 1}
    project = with_strips(176, 60.0, (rectangle("panel", 70, 300),), **strip)
    project = project.placed({"panel": Placement(u=2), "binding": Placement(u=0, v=0)})
    laid = lay(project)
    assert laid.lays[0].length_mm == pytest.approx(300, abs=1e-6)
    assert (laid.project.placement("binding").u % 60) > 1


def test_beside_a_strip_to_one_side_another_lies_to_the_same() -> None:
    """A held strip from the lower left to the upper right leaves room for another like it, across it for none."""
    project = with_strips(740, None, length=700, width=30, number=2)
    other_way = msgspec.structs.replace(project.placement("binding 1"), u=200, v=600, turn_deg=-90.0, hold=True)
    laid = lay(project.placed({"binding 1": other_way})).project
    assert find_faults(laid, "cloth") == ()
    assert lay(laid).lays[0].length_mm == pytest.approx(shapes_on_cloth(laid)["binding 1"].bounds[3], abs=1e-6)
    assert leans(laid)["binding 2"] == pytest.approx(leans(laid)["binding 1"])


def test_a_strip_off_the_bias_is_a_fault() -> None:
    project = with_strips(1000, 20.0, length=300, width=40, number=2)
    placed = {"binding 1": Placement(u=300, v=300, turn_deg=5), "binding 2": Placement(u=700, v=300, turn_deg=-90)}
    assert find_faults(project.placed(placed), "cloth") == ("panel 'binding 1' lies 5.00° off the bias",)
