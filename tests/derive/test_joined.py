"""Facings joined across panels: areas and lengths against their parts, straight gores against trigonometry."""

import json
import math

import msgspec
import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from core.derive.count import cutting_list
from core.derive.cutting import cut_project, layer_pieces
from core.derive.findings import find_odd
from core.derive.joined import joints_apart
from core.derive.layers import layer_piece
from core.errors import BadInput
from core.files.project_file import project_from_bytes
from core.geometry.polyline import length
from core.lay.lay import quick_lay
from core.lay.legal import find_faults
from core.model.panel import net_and_cut, panels_of
from core.model.project import Layer
from skirts import ALL, LAYERS, changed, full_skirt, plain_skirt

LEAN = math.radians(6.0)


def gore(name: str, lean: float = LEAN, top: float = 100.0, long: float = 800.0, **keys) -> dict:
    """A straight gore, its hem square to its middle, its sides of one length leaning outwards."""
    x, y = top / 2 + long * math.sin(lean), long * math.cos(lean)
    corners = [(-top / 2, 0.0), (top / 2, 0.0), (x, y), (-x, y)]
    names = ["waist", "right", "hem", "left"]
    edges = [
        {"name": n, "path": f"M {a[0]!r} {a[1]!r} L {b[0]!r} {b[1]!r}", "allowance": 12}
        for n, a, b in zip(names, corners, corners[1:] + corners[:1], strict=True)
    ]
    return {"id": name, "cloth": "main", "edges": edges, **keys}


def skirt(number: int, *, ring: bool = True, width: float = 3000.0, layer=None, seam=None):
    """Gores sewn in a row or a ring, with a joined hem facing of 120 mm; `seam` gives keys of single seams."""
    pieces = [gore(f"g{i}") for i in range(number)]
    seams = [
        {"name": f"s{i}", "a": f"g{i}/right", "b": f"g{(i + 1) % number}/left", **(seam or {}).get(i, {})}
        for i in range(number if ring else number - 1)
    ]
    facing = {"kind": "hem facing", "of": [p["id"] for p in pieces], "cloth": "main", "edge": "hem", "depth": 120}
    raw = {
        "format": "stripewright-project",
        "version": 1,
        "cloths": [{"id": "main", "width": width}],
        "pieces": pieces,
        "seams": seams,
        "layers": [{**facing, "joined": True, **(layer or {})}],
    }
    return project_from_bytes(json.dumps(raw).encode())


def net_of(piece) -> dict[str, np.ndarray]:
    return net_and_cut(piece)[0]


def shape(piece) -> Polygon:
    return Polygon(np.concatenate([line[:-1] for line in net_of(piece).values()]))


def parts_of(project) -> list:
    layer = project.layers[0]
    return [layer_piece(layer, piece) for piece in project.pieces if piece.id in layer.of]


def one_side(lines: np.ndarray) -> np.ndarray:
    step = lines[-1] - lines[0]
    return step / np.hypot(*step)


@pytest.mark.parametrize("number", [1, 2, 5, 8])
def test_straight_gores_join_to_a_sector_of_a_ring(number):
    """Plane geometry: n gores whose sides lean by a make a sector of angle 2 n a; the side, 120 / cos a long
    within the depth, takes 120 tan a off each end of the hem."""
    project = skirt(number, ring=False)
    (piece,) = layer_pieces(project.layers[0], project)
    net = net_of(piece)
    hem = 100 + 2 * 800 * math.sin(LEAN)
    assert length(net["hem"]) == pytest.approx(number * hem, abs=1e-4)
    assert length(net["inner edge"]) == pytest.approx(number * (hem - 2 * 120 * math.tan(LEAN)), abs=1e-4)
    ends = [length(net["end"]), length(net["other end"])]
    assert ends == pytest.approx([120 / math.cos(LEAN)] * 2, abs=1e-5)
    ahead, behind = one_side(net["end"]), one_side(net["other end"])
    between = math.degrees(math.atan2(ahead[0] * -behind[1] - ahead[1] * -behind[0], float(-ahead @ behind)))
    assert abs(between) % 360 == pytest.approx(math.degrees(2 * number * LEAN), abs=1e-6)
    assert shape(piece).area == pytest.approx(sum(shape(part).area for part in parts_of(project)), abs=0.001)


def test_the_seams_are_marked_on_the_hem_and_the_grain_runs_down_the_middle():
    project = skirt(4, ring=False)
    (piece,) = layer_pieces(project.layers[0], project)
    hem = 100 + 2 * 800 * math.sin(LEAN)
    assert [notch.at for notch in piece.notches] == pytest.approx([hem, 2 * hem, 3 * hem])
    left, _, right, _ = shape(piece).bounds
    middle = panels_of(piece)[0].net_ring
    assert shape(piece).centroid.x == pytest.approx((left + right) / 2, abs=1e-6)
    assert len(middle) >= 8


def test_a_ring_is_cut_at_the_seam_that_shows_least():
    project = skirt(5, seam={1: {"weight": 3.0}, 2: {"weight": 0.5}})
    (piece,) = layer_pieces(project.layers[0], project)
    assert len(piece.notches) == 4
    assert sorted(seam for seam, _ in joints_apart(project.layers[0], project)) == ["s0", "s1", "s3", "s4"]


def test_a_seam_that_is_open_at_the_hem_parts_the_facing_and_one_open_higher_does_not():
    at_hem = skirt(4, ring=False, seam={1: {"open": [600, 800]}})
    assert len(layer_pieces(at_hem.layers[0], at_hem)) == 2
    higher = skirt(4, ring=False, seam={1: {"open": [100, 600]}})
    assert len(layer_pieces(higher.layers[0], higher)) == 1
    at_top = {"kind": "top lining", "edge": "waist", "depth": 150}
    placket = skirt(4, seam={3: {"open": [0, 200]}}, layer=at_top)
    (lining,) = layer_pieces(placket.layers[0], placket)
    assert length(net_of(lining)["waist"]) == pytest.approx(400, abs=1e-6)


def test_a_narrow_cloth_gets_as_few_pieces_as_fit_it_and_a_full_circle_does_not_lie_on_itself():
    whole = skirt(6, width=3000)
    (piece,) = layer_pieces(whole.layers[0], whole)
    wide = np.ptp(panels_of(piece)[0].cut_ring[:, 0])
    narrow = skirt(6, width=wide - 1)
    halves = layer_pieces(narrow.layers[0], narrow)
    assert [piece.id for piece in halves] == ["hem facing 1", "hem facing 2"]
    assert all(np.ptp(panels_of(half)[0].cut_ring[:, 0]) <= wide - 1 for half in halves)
    full = skirt(36, width=20_000)
    assert 36 * 12 > 360
    pieces = layer_pieces(full.layers[0], full)
    assert len(pieces) == 2
    assert all(shape(piece).is_valid for piece in pieces)


def test_the_facing_of_a_drafted_skirt_with_pairs_is_the_sum_of_its_parts():
    plain = full_skirt()
    joined = changed(plain, layers=(LAYERS[0], msgspec.structs.replace(LAYERS[1], joined=True), LAYERS[2]))
    layer = joined.layers[1]
    pieces = layer_pieces(layer, joined)
    parts = [layer_piece(layer, piece) for piece in joined.pieces]
    both = sum(shape(part).area * len(part.panel_names) for part in parts)
    assert sum(shape(piece).area for piece in pieces) == pytest.approx(both, rel=2e-4)
    hems = sum(length(net_of(part)["hem"]) * len(part.panel_names) for part in parts)
    assert sum(length(net_of(piece)["hem"]) for piece in pieces) == pytest.approx(hems, abs=0.05)
    for piece in pieces:
        hem, inner = (LineString(net_of(piece)[edge]) for edge in ("hem", "inner edge"))
        assert inner.hausdorff_distance(hem) < layer.depth * 1.05
        assert hem.distance(inner) == pytest.approx(layer.depth, abs=0.5)
    assert cutting_list(joined).count == 50 - 10 + len(pieces)
    assert set(cut_project(joined).panel_names) <= {*joined.panel_names, *joined.derived_panel_names}


def test_halves_of_a_fold_stay_together():
    half = {
        **gore("front"),
        "cut": "fold",
        "fold": "left",
        "edges": [
            {"name": "waist", "path": "M 0 0 L 50 0"},
            {"name": "right", "path": "M 50 0 L 134 796"},
            {"name": "hem", "path": "M 134 796 L 0 796"},
            {"name": "left", "path": "M 0 796 L 0 0"},
        ],
    }
    raw = {
        "format": "stripewright-project",
        "version": 1,
        "cloths": [{"id": "main", "width": 2000}],
        "pieces": [half, gore("back")],
        "seams": [
            {"name": "a", "a": "front/right.R", "b": "back/left"},
            {"name": "b", "a": "back/right", "b": "front/right.L"},
        ],
        "layers": [
            {"kind": "hem facing", "of": ["front", "back"], "cloth": "main", "edge": "hem", "depth": 90, "joined": True}
        ],
    }
    project = project_from_bytes(json.dumps(raw).encode())
    (piece,) = layer_pieces(project.layers[0], project)
    back = 100 + 2 * 800 * math.sin(LEAN)
    assert length(net_of(piece)["hem"]) == pytest.approx(2 * 134 + back, abs=1e-4)


def test_a_joined_facing_is_listed_and_laid():
    project = skirt(5, width=1400)
    rows = [row for row in cutting_list(project).pieces if "joined" in row.name]
    pieces = layer_pieces(project.layers[0], project)
    assert [(row.name, row.number, row.of, row.mirrored) for row in rows] == [(p.title, 1, None, False) for p in pieces]
    laid = quick_lay(cut_project(project)).project
    assert find_faults(laid, "main") == ()
    assert project_from_bytes(json.dumps(msgspec.to_builtins(project.placed(laid.placements))).encode())


def test_sides_that_do_not_lie_flat_together_are_told():
    """Two sides that bulge by 6 mm each: laid chord on chord they lie 12 mm over one another."""
    raw = msgspec.to_builtins(skirt(2, ring=False))
    x, y = 50 + 800 * math.sin(LEAN), 800 * math.cos(LEAN)
    up = 120 / math.cos(LEAN)
    kx, ky = x - up * math.sin(LEAN), y - up * math.cos(LEAN)
    raw["pieces"][0]["edges"][1]["path"] = f"M 50 0 L {kx} {ky} L {(kx + x) / 2 + 6} {(ky + y) / 2} L {x} {y}"
    raw["pieces"][1]["edges"][3]["path"] = f"M {-x} {y} L {-(kx + x) / 2 - 6} {(ky + y) / 2} L {-kx} {ky} L -50 0"
    project = project_from_bytes(json.dumps(raw).encode())
    found = [str(finding) for finding in find_odd(project) if "laid flat" in str(finding)]
    assert len(found) == 1
    assert float(found[0].split("up to ")[1].split(" ")[0]) == pytest.approx(12, abs=1.0)
    assert [finding for finding in find_odd(skirt(5)) if "laid flat" in str(finding)] == []


def test_only_what_follows_an_edge_can_be_joined():
    with pytest.raises(BadInput, match="joined but follows no edge"):
        changed(
            plain_skirt(), layers=(Layer(kind="interlining", of=ALL, cloth=plain_skirt().cloths[0].id, joined=True),)
        )
