"""Hundreds of small random lays, in both engines, finished or stopped: each can be cut, as shapely sees it."""

import json

import numpy as np
import pytest
from shapely.geometry import Polygon, box

from cloths import assert_phases_kept, rectangle, shapes_on_cloth, triangle
from core.files.project_file import project_from_bytes
from core.lay import engine
from core.lay.lay import lay
from core.model.project import Placement, Project
from garments import repeat

TOGETHER = 50
"""Lays in one test."""


def random_project(rng: np.random.Generator) -> Project:
    """Two to five small pieces on a striped, plain, skewed, flawed or left-over cloth; all numbers invented."""
    width = float(rng.uniform(250, 600))
    cloth: dict = {"id": "cloth", "width": width, "one_way": bool(rng.integers(2))}
    if rng.random() < 0.8:
        cloth["repeat"] = repeat(str(rng.choice(["even", "uneven"])), float(rng.uniform(5, 70)))
    if rng.random() < 0.3:
        cloth["skew_mm_per_m"] = float(rng.uniform(-40, 40))
    if rng.random() < 0.3:
        cloth["spare_mm"] = float(rng.uniform(1, 12))
    if rng.random() < 0.4:
        u, v = rng.uniform(0, width - 60), rng.uniform(0, 500)
        cloth["flaws"] = [[u, v, u + float(rng.uniform(5, 60)), v + float(rng.uniform(5, 200))]]
    if rng.random() < 0.3:
        bite = float(rng.uniform(0.2, 0.6)) * width
        cloth["remnant"] = {
            "outline": [[0, 0], [width, 0], [width, 300], [width - bite, 420], [width, 500], [width, 900], [0, 900]]
        }
    pieces = [
        (rectangle if rng.random() < 0.5 else triangle)(f"p{i}", *rng.uniform([40, 60], [170, 280]).tolist())
        for i in range(int(rng.integers(2, 6)))
    ]
    raw = {"format": "stripewright-project", "version": 1, "cloths": [cloth], "pieces": pieces}
    project = project_from_bytes(json.dumps(raw).encode())
    return project.placed({name: Placement(u=float(rng.uniform(0, 300))) for name in project.panel_names})


def faults(project: Project) -> list[str]:
    """What shapely alone has against a lay."""
    cloth, shapes = project.cloths[0], shapes_on_cloth(project)
    room = box(cloth.usable[0] - 1e-3, -1e-3, cloth.usable[1] + 1e-3, 1e6)
    spots = [Polygon(flaw) for flaw in cloth.flaw_outlines]
    if cloth.remnant:
        spots.append(box(0, 0, cloth.width, 900).difference(Polygon(cloth.remnant.outline)))
    found = [name for name, shape in shapes.items() if not room.contains(shape)]
    found += [name for name, shape in shapes.items() if any(shape.intersection(spot).area > 0.01 for spot in spots)]
    for number, (name, shape) in enumerate(shapes.items()):
        for other in list(shapes.values())[:number]:
            near = shape.distance(other) < cloth.spare_mm - 1e-3
            found += [f"{name} and another"] * (near or shape.intersection(other).area > 0.01)
    return found


@pytest.mark.parametrize("plain", [False, True], ids=["compiled", "numpy alone"])
@pytest.mark.parametrize("seed", range(2))
def test_random_lays_can_be_cut(seed: int, plain: bool) -> None:
    rng = np.random.default_rng([seed, plain])
    with engine.uncompiled(plain):
        for _ in range(TOGETHER):
            project, calls = random_project(rng), int(rng.choice([0, 1, 4, 10**9]))

            def goes_on(share: float, note: str) -> bool:
                nonlocal calls
                calls -= 1
                return calls >= 0

            laid = lay(project, goes_on, seconds=0.01, seed=seed).project
            assert faults(laid) == []
            assert_phases_kept(project, laid)
