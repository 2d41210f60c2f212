"""A ring of gores whose sewn edges lean nearly alike: what a hair of shift can close. All numbers are invented."""

import json
import math

import numpy as np

from core.files.project_file import project_from_bytes
from core.model.project import Project

STRIPE = {"name": "line", "at": 0, "width": 6, "colour": "#203050"}


def near_skirt(
    seed: int = 1, number: int = 10, tolerance: float = 0.25, apart_deg: float = 1.5, bend: float = 0.0, **keys: object
) -> Project:
    """Gores whose edges lean 8 degrees, give or take half of `apart_deg`; `bend` bows the edges out at the hip, mm."""
    rng = np.random.default_rng(seed)
    pieces = [gore(f"g{i}", *(8 + rng.uniform(-apart_deg / 2, apart_deg / 2, 2)), bend, **keys) for i in range(number)]
    seams = [{"name": f"s{i}", "a": f"g{i}/r", "b": f"g{(i + 1) % number}/l"} for i in range(number)]
    return made(pieces, seams, tolerance)


def gore(name: str, right_deg: float, left_deg: float, bend: float = 0.0, allowance: float = 12.0, **keys) -> dict:
    """A gore 850 mm long with edges top, r, hem and l, and a notch 300 mm down its right edge."""
    reach = [(850 * math.sin(math.radians(a)), 850 * math.cos(math.radians(a))) for a in (right_deg, left_deg)]
    right, left = (45 + reach[0][0], reach[0][1]), (-45 - reach[1][0], reach[1][1])
    edges = {
        "top": "M -45 0 L 45 0",
        "r": f"M 45 0 {_side(45, 0, *right, bend)}",
        "hem": f"M {right[0]!r} {right[1]!r} Q 0 870 {left[0]!r} {left[1]!r}",
        "l": f"M {left[0]!r} {left[1]!r} {_side(*left, -45, 0, bend)}",
    }
    widths = {"top": 10.0, "hem": 40.0}
    return {
        "id": name,
        "cloth": "cloth",
        "edges": [{"name": n, "path": p, "allowance": widths.get(n, allowance)} for n, p in edges.items()],
        "notches": [{"edge": "r", "at": 300.0}],
        **keys,
    }


def _side(x0: float, y0: float, x1: float, y1: float, bend: float) -> str:
    if not bend:
        return f"L {x1!r} {y1!r}"
    out = math.copysign(bend, x0 + x1)
    upper = 0.25 if y1 > y0 else 0.45
    bows = [(x0 + (x1 - x0) * t + out * (t if y1 < y0 else 1 - t), y0 + (y1 - y0) * t) for t in (upper, upper + 0.3)]
    return "C " + " ".join(f"{x!r} {y!r}" for x, y in (*bows, (x1, y1)))


def made(pieces: list[dict], seams: list[dict], tolerance: float = 0.25) -> Project:
    cloth = {
        "id": "cloth",
        "width": 2000,
        "one_way": True,
        "grain_tolerance_deg": tolerance,
        "repeat": {"width": 24, "origin": 3.5, "lead": "line", "stripes": [STRIPE]},
    }
    raw = {"format": "stripewright-project", "version": 1, "cloths": [cloth], "pieces": pieces, "seams": seams}
    return project_from_bytes(json.dumps(raw).encode())
