"""Patches that continue the stripes of the panel they lie on: the cloth under random points of both, by brute force."""

import json
import math

import numpy as np
import pytest

from app import cli
from core.derive.count import cutting_list
from core.derive.cutting import cut_project
from core.derive.findings import find_odd
from core.derive.matched import with_patches
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.lay.lay import quick_lay
from core.lay.legal import find_faults
from core.seams.patch import patches

STRIPES = {
    "even": [("lead", 2.0, 8.0, "#223344"), ("fine", 15.0, 2.0, "#aa3322")],
    "uneven": [("lead", 2.0, 5.0, "#223344"), ("second", 9.0, 3.0, "#aa3322"), ("third", 16.0, 1.0, "#227744")],
}
STRIPES["even"][1] = ("fine", 2.0 + 24.0 / 2, 2.0, "#aa3322")


def repeat(kind: str, width: float, origin: float) -> dict:
    stripes = [
        {"name": name, "at": at * width / 24, "width": wide * width / 24, "colour": colour}
        for name, at, wide, colour in STRIPES[kind]
    ]
    return {"width": width, "origin": origin, "stripes": stripes}


def gore(name: str, cut: str) -> dict:
    corners = [(-60, 0), (60, 0), (190, 700), (-150, 700)]
    names = ["waist", "right", "hem", "left"]
    edges = [
        {"name": n, "path": f"M {a[0]} {a[1]} L {b[0]} {b[1]}", "allowance": 10}
        for n, a, b in zip(names, corners, corners[1:] + corners[:1], strict=True)
    ]
    return {"id": name, "cloth": "main", "cut": cut, "edges": edges}


FLAP = {
    "id": "flap",
    "cloth": "main",
    "cut": "pair",
    "on": {"panel": "front.R", "at": [20, 150], "turn_deg": 3},
    "edges": [
        {"name": "top", "path": "M 0 0 L 110 0", "allowance": 6},
        {"name": "round", "path": "M 110 0 Q 105 70 55 70 Q 5 70 0 0", "allowance": 6},
    ],
}


def garment(kind: str = "uneven", *, places: dict | None = None, **cloth) -> object:
    """A pair of gores and a single one, with a flap on both fronts, a patch on the back and four tabs on the fronts."""
    main = {"id": "main", "width": 1500, "one_way": False, "repeat": repeat(kind, 24, 3.5), "grain_tolerance_deg": 1}
    raw = {
        "format": "stripewright-project",
        "version": 1,
        "cloths": [{**main, **cloth}],
        "pieces": [gore("front", "pair"), gore("back", "single"), FLAP],
        "seams": [{"name": "centre", "a": "front.R/right", "b": "front.L/right"}],
        "strips": [
            {"id": "patch", "length": 160, "width": 130, "number": 1, "cloth": "main", "allowance": 8,
             "on": {"panel": "back", "at": [30, 420]}},
            {"id": "tab", "length": 60, "width": 40, "number": 4, "cloth": "main",
             "on": {"panel": "front.L", "at": [-15, 500], "turn_deg": -20}},
        ],
        "placements": places
        if places is not None
        else {
            "front.R": {"u": 333.3, "v": 100, "turn_deg": 0.7, "turned": False, "hold": False},
            "front.L": {"u": 801.9, "v": 41, "turn_deg": -0.4, "turned": kind == "even", "hold": False},
            "back": {"u": 1200.2, "v": 77, "turn_deg": 0.2, "turned": True, "hold": False},
        },
    }  # fmt: skip
    return project_from_bytes(json.dumps(raw).encode())


def seen(raw: dict, u: float, v: float) -> tuple[str, str]:
    """What stripe lies at a place of the cloth, lengthwise and crosswise, straight from the file."""
    cloth = raw["cloths"][0]
    q = 4 * cloth.get("bow_percent", 0) / 100 / cloth["width"]
    places = {
        "repeat": u - cloth.get("skew_mm_per_m", 0) / 1000 * v,
        "crosswise": v - cloth.get("weft_skew_percent", 0) / 100 * u - q * u * (cloth["width"] - u),
    }
    return tuple(_band(cloth[key], at) if key in cloth else "" for key, at in places.items())


def _band(repeat: dict, w: float) -> str:
    for stripe in reversed(repeat["stripes"]):
        off = (w - repeat["origin"] - stripe["at"] + repeat["width"] / 2) % repeat["width"] - repeat["width"] / 2
        if abs(off) < stripe["width"] / 2:
            return stripe["colour"]
    return "ground"


def on_cloth(at: dict, x: float, y: float) -> tuple[float, float]:
    t = math.radians(at["turn_deg"] + (180 if at["turned"] else 0))
    return math.cos(t) * x - math.sin(t) * y + at["u"], math.sin(t) * x + math.cos(t) * y + at["v"]


# where each patch lies, by hand: its panel, middle on it, turn, and its own outline's box (left, top, right, bottom)
BY_HAND = {
    "flap.R": ("front.R", (20, 150), 3, (0, 0, 110, 70)),
    "flap.L": ("front.L", (-20, 150), -3, (-110, 0, 0, 70)),
    "patch": ("back", (30, 420), 0, (0, 0, 130, 160)),
    "tab 1": ("front.L", (-15, 500), -20, (0, 0, 40, 60)),
    "tab 2": ("front.R", (15, 500), 20, (0, 0, 40, 60)),
    "tab 3": ("front.L", (-15, 500), -20, (0, 0, 40, 60)),
    "tab 4": ("front.R", (15, 500), 20, (0, 0, 40, 60)),
}


def share_alike(project, name: str, number: int = 400) -> float:
    """The share of random points of a patch at which it shows what the panel shows under it."""
    raw = json.loads(project_to_bytes(project))
    panel, (px, py), turn, (left, top, right, bottom) = BY_HAND[name]
    rng = np.random.default_rng(7)
    t, alike = math.radians(turn), 0
    for x, y in zip(rng.uniform(left, right, number), rng.uniform(top, bottom, number), strict=True):
        dx, dy = x - (left + right) / 2, y - (top + bottom) / 2
        under = math.cos(t) * dx - math.sin(t) * dy + px, math.sin(t) * dx + math.cos(t) * dy + py
        here = seen(raw, *on_cloth(raw["placements"][name], x, y))
        alike += here == seen(raw, *on_cloth(raw["placements"][panel], *under))
    return alike / number


PLAID = {"crosswise": repeat("uneven", 31, 4.0)}
CLOTHS = [{}, {"skew_mm_per_m": 12}, PLAID, {**PLAID, "skew_mm_per_m": 8, "weft_skew_percent": 2}]


@pytest.mark.parametrize("kind", STRIPES)
@pytest.mark.parametrize("cloth", CLOTHS)
def test_the_cloth_on_a_patch_is_the_cloth_under_it(kind, cloth):
    project = with_patches(garment(kind, **cloth))
    assert min(share_alike(project, name) for name in BY_HAND) > 0.99
    assert all(patch.apart_mm < 0.01 for patch in patches(cut_project(project)))


def test_a_patch_moved_by_a_repeat_stays_and_any_other_shift_is_told():
    project = with_patches(garment())
    at = project.placements["patch"]
    for by, told in ((24.0, 0), (-72.0, 0), (5.0, 1)):
        moved = project.placed({"patch": type(at)(u=at.u + by, v=at.v + 13.7, turn_deg=at.turn_deg, turned=True)})
        found = [finding for finding in find_odd(moved) if "its stripes miss" in str(finding)]
        assert len(found) == told
    assert "panel 'patch': its stripes miss those of 'back' by up to 5.00 mm across" in str(found[0])
    again = with_patches(moved)
    assert again.placements["patch"].u == pytest.approx(at.u, abs=2e-3)


def test_a_held_patch_stays_and_a_moved_panel_takes_the_others_with_it_by_less_than_half_a_repeat():
    project = with_patches(garment())
    at, tab = project.placements["back"], project.placements["tab 1"]
    held = project.placed({"tab 1": type(tab)(u=tab.u, v=tab.v, turn_deg=tab.turn_deg, turned=tab.turned, hold=True)})
    moved = held.placed({"back": type(at)(u=at.u + 91.0, v=at.v, turn_deg=at.turn_deg, turned=at.turned)})
    after = with_patches(moved)
    changes = {name for name, place in after.placements.items() if place != moved.placements[name]}
    assert changes == {"patch"}
    assert after.placements["patch"].u - project.placements["patch"].u == pytest.approx(91 - 4 * 24, abs=2e-3)
    front = held.placements["front.L"]
    away = held.placed({"front.L": type(front)(u=front.u + 3, v=front.v, turn_deg=front.turn_deg)})
    assert with_patches(away).placements["tab 1"] == held.placements["tab 1"]
    assert with_patches(away).placements["tab 3"] != held.placements["tab 3"]


@pytest.mark.parametrize("kind", STRIPES)
def test_the_lay_keeps_patches_on_their_stripes(kind):
    laid = quick_lay(cut_project(with_patches(garment(kind)))).project
    assert find_faults(laid, "main") == ()
    assert [finding for finding in find_odd(laid) if "miss" in str(finding)] == []
    project = garment(kind).placed(laid.placements)
    shares = {name: share_alike(project, name) for name in BY_HAND}
    ends = {name for name in BY_HAND if laid.placements[name].turned != laid.placements[BY_HAND[name][0]].turned}
    assert kind == "even" or not ends
    assert min(shares.values()) > 0.99


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"panel": "side"}, "no panel 'side' to lie on"),
        ({"panel": "flap.R"}, "lies on another itself"),
        ({"at": [1e308, 0]}, "at is 1e\\+308"),
        ({"turn_deg": 400}, "turn_deg is 400"),
    ],
)
def test_a_patch_that_lies_nowhere_is_refused(change, told):
    raw = json.loads(project_to_bytes(garment()))
    raw["strips"][0]["on"] |= change
    with pytest.raises(BadInput, match=f"strip 'patch', on: .*{told}"):
        project_from_bytes(json.dumps(raw).encode())


def test_a_pair_needs_a_pair_to_lie_on_and_another_cloth_is_told():
    raw = json.loads(project_to_bytes(garment()))
    raw["pieces"][2]["on"]["panel"] = "back"
    with pytest.raises(BadInput, match="it is a pair and panel 'back' is not"):
        project_from_bytes(json.dumps(raw).encode())
    raw = json.loads(project_to_bytes(garment()))
    raw["cloths"].append({"id": "other", "width": 900})
    raw["strips"][0]["cloth"] = "other"
    found = find_odd(project_from_bytes(json.dumps(raw).encode()))
    assert any("which is cut from another cloth" in str(finding) for finding in found)


def test_what_to_buy_has_a_repeat_of_bars_and_one_each_way_for_patches():
    """Vilumsone-Nemes 2018, p. 228: one repeat of matching allowance each way round pockets and welts."""
    project = garment(**PLAID, one_way=True)
    laid = quick_lay(cut_project(with_patches(project)))
    (need,) = cutting_list(project.placed(laid.project.placements)).cloths
    assert need.buy_mm == 10 * math.ceil((laid.lays[0].length_mm + 3 * 31) / 10)
    plain = garment(one_way=True)
    (need,) = cutting_list(plain).cloths
    assert need.matching_mm == 0


def test_match_on_the_command_line_places_patches_and_files_come_back_unchanged(tmp_path, capsys):
    path = tmp_path / "patched.stripewright"
    path.write_bytes(project_to_bytes(garment(places={})))
    assert cli.main(["match", str(path)]) == 0
    assert cli.main(["check", str(path)]) == 0
    assert "miss" not in capsys.readouterr().out
    project = read_project(path)
    assert min(share_alike(project, name) for name in BY_HAND) > 0.99
    assert project_to_bytes(project) == path.read_bytes()
