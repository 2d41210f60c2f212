"""The project file: read, refused with one clear line, written whole or not at all."""

import copy
import json
import os

import pytest

from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, read_project, write_project
from core.model.validate import validate


def changed(raw: dict, *path_and_value) -> bytes:
    raw = copy.deepcopy(raw)
    *path, last, value = path_and_value
    here = raw
    for key in path:
        here = here[key]
    if value is None:
        del here[last]
    else:
        here[last] = value
    return json.dumps(raw).encode()


@pytest.fixture
def raw(harbour_skirt) -> dict:
    return json.loads(harbour_skirt.read_bytes())


def test_save_and_load_is_identity(harbour_skirt, pier_parasol, tmp_path):
    for path in (harbour_skirt, pier_parasol):
        project = read_project(path)
        write_project(tmp_path / "copy.stripewright", project)
        assert read_project(tmp_path / "copy.stripewright") == project
        assert project_to_bytes(project) == path.read_bytes()


BROKEN = {
    "a missing key": (("cloths", 0, "width", None), "'width' is missing"),
    "an extra key": (("cloths", 0, "sparkle", 1), "no key 'sparkle'"),
    "an extra key deep down": (("cloths", 0, "repeat", "stripes", 0, "shade", 1), "no key 'shade'"),
    "an extra key of a placement": (("placements", {"front.R": {"w": 1}}), "no key 'w'"),
    "a text for a number": (("cloths", 0, "width", "wide"), "a number is right"),
    "a number beyond all measure": (("cloths", 0, "width", 1e308), "1 to 100000 is right"),
    "an integer beyond all floats": (("cloths", 0, "width", 10**400), "cloths[0].width: the number is too large"),
    "a repeat of zero width": (("cloths", 0, "repeat", "width", 0), "repeat: width is 0"),
    "a stripe outside the repeat": (("cloths", 0, "repeat", "stripes", 0, "at", 22), "stripe 'indigo': at is 22"),
    "a stripe of no width": (("cloths", 0, "repeat", "stripes", 0, "width", 0), "above 0"),
    "no stripe at all": (("cloths", 0, "repeat", "stripes", []), "at least one stripe"),
    "a lead that is no stripe": (("cloths", 0, "repeat", "lead", "puce"), "lead is 'puce'"),
    "a colour that is none": (("cloths", 0, "repeat", "ground", "cream"), "such as #23304d"),
    "selvedges wider than the cloth": (("cloths", 0, "selvedge", [800, 800]), "no usable width"),
    "a flaw of no area": (("cloths", 0, "flaws", [[5, 5, 5, 9]]), "flaw 1 has no area"),
    "two cloths of one id": (("cloths", 1, "id", "ticking"), "stands 2 times"),
    "a cloth that is not there": (("pieces", 0, "cloth", "velvet"), "the cloths are"),
    "a cut of no known kind": (
        ("pieces", 0, "cut", "double"),
        "pieces[0].cut: 'double' stands there; pair, single or fold is right",
    ),
    "a word of many letters": (("pieces", 0, "cut", "double" * 500), "pair, single or fold is right"),
    "a stretch of three heights": (("seams", 0, "seen", [0, 1, 2]), "a list of 3 stands there; a list of 2 is right"),
    "an open outline": (("pieces", 0, "edges", 0, "path", "M -30 0 L 29 0"), "the outline is open"),
    "an edge that crosses another": (("pieces", 0, "edges", 0, "path", "M -30 -1 L 0 900 L 30 0"), "crosses itself"),
    "a path with a relative command": (("pieces", 0, "edges", 0, "path", "M -30 1 l 60 -1"), "path command 'l'"),
    "a path that lacks numbers": (("pieces", 0, "edges", 0, "path", "M -30 1 L 30"), "lacks numbers"),
    "a path with rubbish in it": (("pieces", 0, "edges", 0, "path", "M -30 1 L 30 zero"), "front"),
    "a path beyond all measure": (("pieces", 0, "edges", 0, "path", "M -30 1 L 1e300 0"), "path coordinate"),
    "an allowance wider than the piece": (("pieces", 0, "outline_is", "cut"), None),
    "a notch beyond its edge": (("pieces", 0, "notches", [{"edge": "hem", "at": 9999}]), "notch on 'hem'"),
    "a fold on a pair": (("pieces", 0, "fold", "centre"), '"cut": "fold" is right'),
    "a seam to an edge that is not there": (("seams", 0, "a", "front.R/side"), "no edge 'side'"),
    "a seam to a panel that is not there": (("seams", 0, "a", "frunt.R/side"), "the panels are front.R"),
    "a seam that is its own mirror image": (("seams", 0, "both_sides", True), "same two edges"),
    "an edge sewn to itself": (("seams", 0, "b", "front.R/centre"), "sewn to itself"),
    "a negative weight": (("seams", 0, "weight", -1), "weight is -1"),
    "a seen stretch upside down": (("seams", 0, "seen", [300, 100]), "[from, to]"),
    "a placement of no panel": (("placements", {"sleeve": {"u": 1}}), "no such panel"),
    "a centre that is not there": (("match", "centre", {"seam": "inseam", "on": "lead"}), "no seam 'inseam'"),
    "a newer version": (("version", 2), "version 2 is newer"),
    "a version that is none": (("version", True), "1 is right"),
    "another format": (("format", "shopping-list"), "format"),
    "no pieces": (("pieces", []), "at least one piece"),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_each_kind_of_broken_project_gets_one_clear_line(raw, kind):
    raw["cloths"].append({"id": "muslin", "width": 1100})
    path, expected = BROKEN[kind]
    if kind == "an allowance wider than the piece":
        raw["pieces"][0]["edges"][1]["allowance"] = raw["pieces"][0]["edges"][3]["allowance"] = 200
        path, expected = ("pieces", 0, "outline_is", "cut"), "front"
    with pytest.raises(BadInput) as error:
        project_from_bytes(changed(raw, *path))
    message = str(error.value)
    assert expected in message
    assert "\n" not in message
    assert len(message) < 500


@pytest.mark.parametrize(
    "data",
    [b"", b"{", b"null", b"[1]", b'{"a":' * 60_000, b"\xff\xfe\x00", b'{"format": NaN}', b"{}", b'"text"'],
    ids=["empty", "cut off", "null", "list", "nested too deep", "not UTF-8", "NaN", "empty object", "text"],
)
def test_what_is_no_project_at_all_gets_one_clear_line(data):
    with pytest.raises(BadInput) as error:
        project_from_bytes(data)
    assert "\n" not in str(error.value)


def test_nan_and_infinity_are_refused(raw):
    for value in ("NaN", "Infinity", "-Infinity", "1e999"):
        text = json.dumps(raw).replace('"width": 1480', f'"width": {value}')
        with pytest.raises(BadInput):
            project_from_bytes(text.encode())


def test_a_file_of_a_hundred_megabytes_is_refused_before_it_is_read(tmp_path):
    path = tmp_path / "huge.stripewright"
    with path.open("wb") as file:
        file.truncate(100 * 1024 * 1024)
    with pytest.raises(BadInput, match="105 MB"):
        read_project(path)


def test_a_mark_of_byte_order_is_forgiven(harbour_skirt):
    assert project_from_bytes(b"\xef\xbb\xbf" + harbour_skirt.read_bytes()) == read_project(harbour_skirt)


def test_every_key_of_the_format_is_read():
    raw = {
        "format": "stripewright-project",
        "version": 1,
        "title": "Every key",
        "cloths": [
            {
                "id": "main",
                "name": "Deck ticking",
                "width": 1500,
                "selvedge": [15, 15],
                "length": None,
                "one_way": True,
                "skew_mm_per_m": 0,
                "grain_tolerance_deg": 1.0,
                "flaws": [[200, 900, 260, 940]],
                "repeat": {
                    "width": 24,
                    "origin": 3.5,
                    "ground": "#e9e1cf",
                    "lead": "navy",
                    "stripes": [{"name": "navy", "at": 0, "width": 6, "colour": "#23304d"}],
                },
            },
            {"id": "stiffening", "name": "Stiff muslin", "width": 1100, "selvedge": [5, 5]},
        ],
        "pieces": [
            {
                "id": "front",
                "name": "Front gore",
                "cloth": "main",
                "cut": "pair",
                "drawn": "right",
                "outline_is": "net",
                "edges": [
                    {"name": "waist", "path": "M -45 0 Q 0 6 45 0", "allowance": 12.7},
                    {"name": "centre", "path": "M 45 0 L 60 900", "allowance": 12.7},
                    {"name": "hem", "path": "M 60 900 Q -30 925 -120 905", "allowance": 40},
                    {"name": "side", "path": "M -120 905 L -45 0", "allowance": 12.7},
                ],
                "notches": [{"edge": "side", "at": 200}],
            }
        ],
        "seams": [
            {
                "name": "centre front",
                "a": "front.R/centre",
                "b": "front.L/centre",
                "weight": 3,
                "join": "top",
                "seen": [0, 600],
                "open": [0, 150],
                "both_sides": False,
            }
        ],
        "match": {"mirror_pairs": True, "centre": {"seam": "centre front", "on": "free"}},
        "placements": {"front.R": {"u": 412.5, "v": 130, "turn_deg": 0.4, "turned": False, "hold": False}},
        "heights": [0, 100, 200],
        "layers": [
            {"kind": "interlining", "of": ["front"], "cloth": "stiffening"},
            {"kind": "hem facing", "of": ["front"], "cloth": "main", "edge": "hem", "depth": 200},
        ],
        "strips": [
            {
                "id": "belt",
                "name": "Belt",
                "length": 700,
                "width": 80,
                "number": 1,
                "cloth": "main",
                "grain": "straight",
            }
        ],
    }
    project = project_from_bytes(json.dumps(raw).encode())
    validate(project)
    assert json.loads(project_to_bytes(project))["seams"][0]["seen"] == [0, 600]


def test_a_failed_save_leaves_the_old_file_as_it_was(harbour_skirt, tmp_path, monkeypatch):
    target = tmp_path / "kept.stripewright"
    target.write_bytes(b"what was there")

    def refuse(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(BadInput, match="No space left"):
        write_project(target, read_project(harbour_skirt))
    assert target.read_bytes() == b"what was there"
    assert [path.name for path in tmp_path.iterdir()] == ["kept.stripewright"]
