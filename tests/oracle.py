"""An independent reading of seams, straight from the file and the formulas, with svgpathtools and scipy.

It shares no code with core: paths, arc lengths, panel transform, lean, step and integration are done again here.
"""

import json
import math

import numpy as np
from scipy.optimize import brentq
from svgpathtools import parse_path

from core.files.project_file import project_to_bytes
from core.model.project import Project


def seam_figures(project: Project, bars: bool = False) -> dict[tuple[str, str], tuple[float, float]]:
    """(a, b) -> (rms, largest |step|) in mm of every seam as sewn, read from the project's own JSON.

    Of the crosswise bars, or else of the lengthwise stripes.
    """
    raw = json.loads(project_to_bytes(project))
    return {(a, b): _figures(raw, seam, a, b, bars) for seam, a, b in _sewn(raw)}


def _sewn(raw):
    for seam in raw["seams"]:
        yield seam, seam["a"], seam["b"]
        if seam.get("both_sides"):
            yield seam, _swap(seam["b"]), _swap(seam["a"])


def _swap(ref):
    return ref.replace(".R", ".#").replace(".L", ".R").replace(".#", ".L")


def _edge(raw, ref, downwards):
    """A function from the share of arc length down the edge to (x, y) in the panel's frame, and the edge's length."""
    panel, edge = ref.split("/")
    piece = next(p for p in raw["pieces"] if panel.split(".")[0] == p["id"])
    flip = piece.get("cut") == "pair" and not panel.endswith(".R" if piece.get("drawn", "right") == "right" else ".L")
    if piece.get("cut") == "fold":
        flip = edge.endswith(".L")
        edge = edge[:-2]
    path = parse_path(next(e["path"] for e in piece["edges"] if e["name"] == edge))
    total = path.length(error=1e-9)
    t = np.linspace(0, 1, 1201)
    points = np.array([path.point(x) for x in t])
    lengths = np.concatenate([[0], np.cumsum(np.abs(np.diff(points)))])
    backwards = flip ^ (not downwards)

    def at(share):
        s = (1 - share if backwards else share) * lengths[-1]
        x, y = np.interp(s, lengths, points.real), np.interp(s, lengths, points.imag)
        return (-x if flip else x), y

    return at, total


def _across(raw, panel, point, bars=False):
    at = raw["placements"].get(panel, {"u": 0, "v": 0, "turn_deg": 0, "turned": False})
    piece = next(p for p in raw["pieces"] if panel.split(".")[0] == p["id"])
    cloth = next(c for c in raw["cloths"] if c["id"] == piece["cloth"])
    t = math.radians(at["turn_deg"] + (180 if at["turned"] else 0))
    x, y = point
    u = math.cos(t) * x - math.sin(t) * y + at["u"]
    v = math.sin(t) * x + math.cos(t) * y + at["v"]
    if not bars:
        return u - cloth.get("skew_mm_per_m", 0) / 1000 * v
    wide, bow = cloth["width"], cloth.get("bow_percent", 0) / 100
    from_middle = (u - wide / 2) / (wide / 2)
    ahead = cloth.get("weft_skew_percent", 0) / 100 * u + bow * wide * (1 - from_middle**2)
    return v - ahead


def matched_axis(repeat):
    """(c, P, even): by brute force over candidate shifts and axes on the stripes' centres."""
    width, stripes = repeat["width"], repeat["stripes"]

    def seen(where):
        return sorted((round(where(s["at"]) % width, 6) % width, s["width"], s["colour"]) for s in stripes)

    period = min(width / n for n in range(1, 9) if seen(lambda x, n=n: x + width / n) == seen(lambda x: x))
    lead = next(s for s in stripes if s["name"] == repeat["lead"])
    sums = {round((a["at"] + b["at"]) / 2 + half, 9) for a in stripes for b in stripes for half in (0, width / 2)}
    axes = [s for s in sums if seen(lambda x, s=s: 2 * s - x) == seen(lambda x: x)]
    if not axes:
        return repeat["origin"] + lead["at"], period, False
    near = min((a + k * period / 2 for a in axes for k in range(-8, 9)), key=lambda a: abs(a - lead["at"]))
    return repeat["origin"] + near, period, True


def _figures(raw, seam, a, b, bars):
    step, length = step_function(raw, seam, a, b, bars)
    low, high = seam.get("seen", [0, length])
    low, high = max(low, 0), min(high, length)
    cut = seam.get("open", [0, 0])
    h = np.linspace(low, high, 40001)
    middle = (h[:-1] + h[1:]) / 2
    middle = middle[(middle < cut[0]) | (middle > cut[1])]
    steps = step(middle)
    return float(np.sqrt(np.mean(steps**2))), float(np.abs(steps).max())


def step_function(raw, seam, a, b, bars=False):
    """step(h) of a seam, and its length, mm."""
    edge_a, length_a = _edge(raw, a, True)
    edge_b, length_b = _edge(raw, b, False)
    piece = next(p for p in raw["pieces"] if a.split("/")[0].split(".")[0] == p["id"])
    repeat = next(c for c in raw["cloths"] if c["id"] == piece["cloth"])["crosswise" if bars else "repeat"]
    c, period, _ = matched_axis(repeat)
    join = seam.get("join", "spread")
    length = length_a if join == "spread" else min(length_a, length_b)

    def side(edge, ref, own, h):
        if join == "spread":
            share = h / length
        else:
            share = (h + (own - length if join == "bottom" else 0)) / own
        return _across(raw, ref.split("/")[0], edge(share), bars)

    def w_a(h):
        return side(edge_a, a, length_a, h)

    def w_b(h):
        return side(edge_b, b, length_b, h)

    change_a, change_b = w_a(length) - w_a(0.0), w_b(length) - w_b(0.0)
    alike = change_a * change_b > 0 or min(abs(change_a), abs(change_b)) < 1e-6

    def step(h):
        p_a, p_b = w_a(h) - c, w_b(h) - c
        return (p_a - p_b + period / 2 if alike else p_a + p_b + period / 2) % period - period / 2

    return step, length


def crossing_height(raw, ref, downwards, place):
    """The height, mm, at which the line w = place meets a monotone edge."""
    edge, length = _edge(raw, ref, downwards)
    return brentq(lambda share: _across(raw, ref.split("/")[0], edge(share)) - place, 0, 1) * length
