"""Made-up garments for tests: rings, chains and branches of gores on cloths of every kind. All numbers are invented."""

import json
import math

import numpy as np

from core.files.project_file import project_from_bytes
from core.model.project import Placement, Project

BLACK, RED, GREEN = "#111111", "#aa2211", "#117744"


def repeat(kind: str, width: float) -> dict:
    """A repeat: `even`, `uneven`, `half` (true period half the nominal), `fine pair` (even, lead one of two lines)."""
    stripes = {
        "even": [("lead", 0.1, 0.3, BLACK)],
        "uneven": [("lead", 0.1, 0.2, BLACK), ("second", 0.4, 0.1, RED), ("third", 0.62, 0.04, GREEN)],
        "half": [("lead", 0.1, 0.2, BLACK), ("again", 0.6, 0.2, BLACK)],
        "fine pair": [("lead", 0.4, 0.05, RED), ("other line", 0.6, 0.05, RED), ("broad", 0.0, 0.3, BLACK)],
    }[kind]
    return {
        "width": width,
        "origin": 3.7,
        "ground": "#ffffff",
        "lead": "lead",
        "stripes": [{"name": n, "at": at * width, "width": w * width, "colour": c} for n, at, w, c in stripes],
    }


def gore(name: str, rng: np.random.Generator, cut: str = "single", curved: bool = True, length: float = 850.0) -> dict:
    """A gore with its grain near its middle; edges top, r (right), hem and l (left)."""
    half = rng.uniform(20, 45)
    flare = rng.uniform(40, 180, 2)
    bend = rng.uniform(-12, 18, 2) if curved else np.zeros(2)
    x, right, left = half, half + flare[0], -half - flare[1]
    if curved:
        r = f"M {x} 0 C {x + bend[0]} {length * 0.25} {x + flare[0] * 0.55 + bend[0]} {length * 0.6} {right} {length}"
        to_top = f"{left + flare[1] * 0.45 - bend[1]} {length * 0.6} {-x - bend[1]} {length * 0.25} {-x} 0"
        l_ = f"M {left} {length} C {to_top}"
    else:
        r, l_ = f"M {x} 0 L {right} {length}", f"M {left} {length} L {-x} 0"
    sag = length + rng.uniform(5, 30)
    return {
        "id": name,
        "cloth": "cloth",
        "cut": cut,
        "edges": [
            {"name": "top", "path": f"M {-x} 0 L {x} 0", "allowance": 10},
            {"name": "r", "path": r, "allowance": 10},
            {
                "name": "hem",
                "path": f"M {right} {length} Q {(right + left) / 2} {sag} {left} {length}",
                "allowance": 20,
            },
            {"name": "l", "path": l_, "allowance": 10},
        ],
    }


def ring(
    seed: int,
    number: int = 8,
    kind: str = "even",
    width: float = 20.0,
    tolerance: float = 0.5,
    *,
    curved: bool = True,
    shape: str = "ring",
    skew: float = 0.0,
    one_way: bool = True,
    match: dict | None = None,
    **cloth_keys,
) -> Project:
    """A garment of unlike gores: `ring`, `chain`, `branch` (a yoke over two), `pairs` or `fold` (front on the fold).

    Further keys are the cloth's.
    """
    rng = np.random.default_rng(seed)
    cloth = {
        "id": "cloth",
        "width": 2000,
        "one_way": one_way,
        "skew_mm_per_m": skew,
        "grain_tolerance_deg": tolerance,
        "repeat": repeat(kind, width),
        **cloth_keys,
    }
    pieces, seams = {"pairs": _pairs, "fold": _on_fold}.get(shape, _singles)(rng, number, curved, shape)
    raw = {
        "format": "stripewright-project",
        "version": 1,
        "cloths": [cloth],
        "pieces": pieces,
        "seams": seams,
        "match": match or {},
    }
    return project_from_bytes(json.dumps(raw).encode())


STRIPE_20 = repeat("even", 20.0)


def gores(leans_deg: list[tuple[float, float]], length: float = 800.0, stripes: dict = STRIPE_20, **cloth) -> Project:
    """Gores in a chain with straight edges that lean by (left, right) degrees, 100 mm wide at the top."""
    pieces = []
    for index, (left, right) in enumerate(leans_deg):
        y_l, y_r = length * math.cos(math.radians(left)), length * math.cos(math.radians(right))
        x_l, x_r = -50 - length * math.sin(math.radians(left)), 50 + length * math.sin(math.radians(right))
        edges = [
            {"name": "top", "path": "M -50 0 L 50 0"},
            {"name": "r", "path": f"M 50 0 L {x_r!r} {y_r!r}"},
            {"name": "hem", "path": f"M {x_r!r} {y_r!r} L {x_l!r} {y_l!r}"},
            {"name": "l", "path": f"M {x_l!r} {y_l!r} L -50 0"},
        ]
        pieces.append({"id": f"g{index}", "cloth": "cloth", "edges": edges})
    raw = {
        "format": "stripewright-project",
        "version": 1,
        "cloths": [{"id": "cloth", "width": 3000, "repeat": stripes, **cloth}],
        "pieces": pieces,
        "seams": [{"name": f"s{i}", "a": f"g{i}/r", "b": f"g{i + 1}/l"} for i in range(len(pieces) - 1)],
    }
    return project_from_bytes(json.dumps(raw).encode())


def scattered(project: Project, seed: int) -> Project:
    """Every panel somewhere else, a little turned, some end for end where the cloth allows it."""
    rng = np.random.default_rng(seed)
    one_way = project.cloths[0].one_way
    reach = project.cloths[0].grain_tolerance_deg
    return project.placed(
        {
            name: Placement(
                u=float(rng.uniform(0, 1500)),
                v=float(rng.uniform(0, 3000)),
                turn_deg=float(rng.uniform(-reach, reach)),
                turned=bool(not one_way and rng.random() < 0.5),
            )
            for name in project.panel_names
        }
    )


def _singles(rng: np.random.Generator, number: int, curved: bool, shape: str) -> tuple[list[dict], list[dict]]:
    pieces = [gore(f"g{i}", rng, "single", curved) for i in range(number)]
    count = number - 1 if shape == "chain" else number
    seams = [
        {"name": f"s{i}", "a": f"g{i}/r", "b": f"g{(i + 1) % number}/l", "weight": float(rng.integers(1, 4))}
        for i in range(count)
    ]
    if shape == "branch":
        pieces += [gore("yoke", rng, "single", curved)]
        seams += [{"name": "y0", "a": "yoke/r", "b": "g0/top"}, {"name": "y1", "a": "yoke/l", "b": "g1/top"}]
    return pieces, seams


def _pairs(rng: np.random.Generator, number: int, curved: bool, shape: str) -> tuple[list[dict], list[dict]]:
    half = number // 2
    pieces = [gore(f"g{i}", rng, "pair", curved) for i in range(half)]
    seams = [{"name": "front", "a": "g0.R/r", "b": "g0.L/r", "weight": 3}]
    seams += [
        {
            "name": f"s{i}",
            "a": f"g{i + 1}.R/r",
            "b": f"g{i}.R/l",
            "both_sides": True,
            "weight": float(rng.integers(1, 4)),
        }
        for i in range(half - 1)
    ]
    return pieces, [*seams, {"name": "back", "a": f"g{half - 1}.L/l", "b": f"g{half - 1}.R/l"}]


def _on_fold(rng: np.random.Generator, number: int, curved: bool, shape: str) -> tuple[list[dict], list[dict]]:
    front = {
        "id": "front",
        "cloth": "cloth",
        "cut": "fold",
        "fold": "middle",
        "edges": [
            {"name": "top", "path": "M -40 0 L 0 0", "allowance": 10},
            {"name": "middle", "path": "M 0 0 L 0 850"},
            {"name": "hem", "path": "M 0 850 Q -60 850 -110 845", "allowance": 20},
            {"name": "side", "path": "M -110 845 L -40 0", "allowance": 10},
        ],
    }
    pieces, seams = _pairs(rng, number - 1, curved, shape)
    side = {"name": "side front", "a": "g0.R/r", "b": "front/side.R", "both_sides": True, "weight": 2}
    return [front, *pieces], [side, *seams[1:]]


EVERY_KIND = [
    {"number": 6, "width": 20.0},
    {"number": 7, "width": 24.0, "tolerance": 0.25},
    {"number": 8, "kind": "uneven", "width": 12.0, "tolerance": 1.0, "one_way": False},
    {"number": 10, "shape": "pairs", "width": 22.0},
    {"number": 10, "kind": "uneven", "width": 30.0, "tolerance": 1.0, "curved": False},
    {"number": 8, "kind": "half", "width": 16.0, "tolerance": 1.0, "skew": 8.0},
    {"number": 7, "kind": "fine pair", "width": 40.0, "tolerance": 1.5},
    {"number": 10, "shape": "pairs", "width": 20.0, "tolerance": 1.0, "skew": 10.0},
    {"number": 8, "shape": "chain", "width": 18.0, "tolerance": 0.7},
    {"number": 6, "shape": "branch", "width": 18.0, "tolerance": 0.7},
    {"number": 7, "shape": "fold", "width": 26.0},
    {"number": 24, "width": 20.0, "curved": False},
]
"""Keywords for `ring` that cover cloths even, uneven, half-period and skewed, and 6 to 24 panels."""
