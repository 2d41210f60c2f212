"""Panels moved by hand: what overlaps, how long the lay is, and where panels come to rest, against shapely."""

from itertools import combinations

import msgspec
import numpy as np
import pytest
from shapely.affinity import translate
from shapely.geometry import box

from cloths import scattered, shapes_on_cloth
from core.lay.legal import find_faults
from core.lay.lying import Lying
from core.lay.stops import Stops
from core.model.project import Placement, Project
from garments import ring


def crowded(seed: int, **cloth: object) -> Project:
    project = scattered(ring(seed, number=6), seed)
    return msgspec.structs.replace(project, cloths=(msgspec.structs.replace(project.cloths[0], **cloth),))


@pytest.mark.parametrize("seed", range(4))
def test_move_after_move_overlaps_and_length_are_those_of_shapely(seed: int) -> None:
    project, rng = crowded(seed), np.random.default_rng(seed)
    lying = Lying.of(project, project.cloths[0])
    for _ in range(8):
        moved = frozenset(rng.choice(project.panel_names, 2, replace=False).tolist())
        at = {name: project.placement(name) for name in moved}
        project = project.placed(
            {name: msgspec.structs.replace(one, u=float(rng.uniform(0, 900)), v=float(rng.uniform(0, 900)))
             for name, one in at.items()}
        )  # fmt: skip
        lying = lying.after(project, moved)
        shapes = shapes_on_cloth(project)
        common = {two: shapes[two[0]].intersection(shapes[two[1]]).area for two in combinations(shapes, 2)}
        assert lying.clashes.keys() == {two for two, area in common.items() if area > 0.01}
        assert {two: part.area for two, part in lying.clashes.items()} == pytest.approx(
            {two: area for two, area in common.items() if area > 0.01}, rel=1e-6
        )
        least, most = project.cloths[0].usable
        out = {name for name, shape in shapes.items() if not box(least - 1e-3, -1e-3, most + 1e-3, 1e5).contains(shape)}
        assert lying.off(project.cloths[0]) == out
        assert lying.length_mm == pytest.approx(max(shape.bounds[3] for shape in shapes.values()), abs=1e-9)


def test_a_panel_without_a_place_lies_nowhere_until_it_has_one() -> None:
    project = crowded(1)
    name, *others = project.panel_names
    some = msgspec.structs.replace(project, placements={other: project.placement(other) for other in others})
    lying = Lying.of(some, some.cloths[0])
    assert lying.boxes.keys() == set(others)
    assert not any(name in two for two in lying.clashes)
    placed, whole = lying.after(project, frozenset([name])), Lying.of(project, project.cloths[0])
    assert placed.boxes == whole.boxes
    assert placed.clashes.keys() == whole.clashes.keys()
    again = placed.after(some, frozenset([name]))
    assert again.boxes == lying.boxes
    assert again.clashes.keys() == lying.clashes.keys()


def test_panels_on_one_spot_are_a_heap_and_two_that_overlap_are_none() -> None:
    project = crowded(2)
    names, cloth = project.panel_names, project.cloths[0]
    far = {name: Placement(u=600.0 * number) for number, name in enumerate(names)}
    assert Lying.of(project.placed(dict.fromkeys(names, Placement())), cloth).heaped
    assert not Lying.of(project.placed(far), cloth).heaped
    assert not Lying.of(project.placed(far | {names[0]: far[names[1]]}), cloth).heaped


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("skew", [0.0, 25.0])
def test_at_rest_a_panel_touches_and_a_little_nearer_it_overlaps(seed: int, skew: float) -> None:
    """The shapes are taken 0.02 mm wider along than they are, where they curve."""
    project, rng = crowded(seed, skew_mm_per_m=skew), np.random.default_rng(seed)
    stops = Stops.of(project, project.cloths[0], {"g2"}, set())
    shapes = shapes_on_cloth(project)
    others = [shape for name, shape in shapes.items() if name != "g2"]
    found = 0
    for dw, dv in rng.uniform([-500, -300], [500, 700], (12, 2)).tolist():
        rest = stops.nearest(dw, dv, 1500.0)
        lies = translate(shapes["g2"], dw + skew / 1000 * rest, rest)
        if rest == dv:
            continue
        assert all(lies.intersection(other).area < 0.01 for other in others)
        assert lies.bounds[1] > -1e-6
        if lies.bounds[1] < 0.05:
            continue
        found += 1
        pushed = [translate(lies, skew / 1000 * by, by) for by in (-0.1, 0.1)]
        assert any(one.intersection(other).area > 0 for one in pushed for other in others)
    assert found > 2


def test_nothing_within_reach_leaves_the_panel_where_the_hand_has_it() -> None:
    project = crowded(1)
    stops = Stops.of(project, project.cloths[0], {"g2"}, set())
    assert stops.nearest(5000.0, 123.0, 8.0) == 123.0
    assert stops.nearest(5000.0, -shapes_on_cloth(project)["g2"].bounds[1] + 3, 8.0) == pytest.approx(
        -shapes_on_cloth(project)["g2"].bounds[1], abs=1e-9
    )


def test_a_margin_that_is_spared_is_kept_at_rest() -> None:
    project = crowded(2, spare_mm=12.0)
    stops = Stops.of(project, project.cloths[0], {"g2"}, {"g0", "g1"})
    rest = stops.nearest(0.0, 0.0, 2000.0)
    at = project.placement("g2")
    moved = project.placed({"g2": msgspec.structs.replace(at, v=at.v + rest)})
    own = [fault for fault in find_faults(moved, "cloth") if fault.startswith("panels") and "'g2'" in fault]
    assert not [fault for fault in own if "'g0'" not in fault and "'g1'" not in fault]
    assert rest != 0.0
