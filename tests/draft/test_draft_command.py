"""`stripewright draft` from outside: the file it writes, what it says, exit codes."""

import pytest

from app.cli import main
from core.files.project_file import read_project

SKIRT = "draft skirt --waist 70cm --hip 100cm --length 90cm --sweep 260cm"


def run(words: str, *more: object) -> int:
    return main([*words.split(), *map(str, more)])


def test_a_skirt_is_written_and_checks_clean(tmp_path, capsys):
    target = tmp_path / "skirt.stripewright"
    assert run(SKIRT, "--gores", 7, "--centre-gores", "fold", "--opening", "18cm", "-o", target) == 0
    assert capsys.readouterr().out.splitlines()[-1] == f"{target}: 7 panels, 7 seams, no findings"
    assert run("check", target) == 0
    assert "no findings" in capsys.readouterr().out


def test_bennetts_measures_typed_in_inches_and_yards(tmp_path, capsys):
    """Bennett, The Perfect Dressmaking System, 1914, scan 13; her printed hems come to 80 in of 81."""
    words = "--waist 25in --hip 40in --hip-depth 7in --length 38in --length-side 39in --gores 5 --sharing bennett"
    more = ["--length-back", "39 1/2in", "--sweep", "2 1/4yd", "--hem-widths", "10in", "17.5in", "17 1/2 in"]
    assert run(f"draft skirt {words}", *more, "-o", tmp_path / "b.stripewright") == 0
    out = capsys.readouterr().out
    assert "25.4 mm (1 in) short of the sweep of 2057.4 mm" in out
    assert "5 panels, 5 seams, 1 findings" in out


def test_a_canopy_is_written_and_checks_clean(tmp_path, capsys):
    target = tmp_path / "canopy.stripewright"
    assert run("draft canopy --radius 55cm --rise 22cm --ribs 10 --hole 8 --rim-hollow 3cm -o", target) == 0
    assert capsys.readouterr().out.splitlines()[-1] == f"{target}: 10 panels, 10 seams, no findings"
    assert run("check", target) == 0


def test_the_cloth_is_set_by_options_and_has_plain_defaults(tmp_path):
    target = tmp_path / "skirt.stripewright"
    assert run(SKIRT, "-o", target) == 0
    assert read_project(target).cloths[0].repeat is not None
    cloth = "--cloth-width 54in --selvedge 1/2in --repeat 30 --stripe-width 6,5 --tolerance 0.5 --cloth-length 4m"
    assert run(f"{SKIRT} {cloth} --two-way --stripe-colour #112233 --ground #fefefe -o", target) == 0
    found = read_project(target).cloths[0]
    assert (found.width, found.selvedge, found.length) == (pytest.approx(1371.6), (12.7, 12.7), 4000.0)
    assert (found.one_way, found.grain_tolerance_deg) == (False, 0.5)
    assert (found.repeat.width, found.repeat.ground, found.repeat.lead_stripe.width) == (30.0, "#fefefe", 6.5)


def test_choices_reach_the_pattern(tmp_path):
    target = tmp_path / "skirt.stripewright"
    words = "--gores 6 --grain front-edge --seam-allowance 15 --hem-allowance 0 --opening 18cm --opening-at"
    assert run(f"{SKIRT} {words}", "front to side L", "-o", target) == 0
    project = read_project(target)
    assert {(e.name, e.allowance) for p in project.pieces for e in p.edges if e.name in ("front", "hem")} == {
        ("front", 15.0),
        ("hem", 0.0),
    }
    assert [seam.label for seam in project.sewn if seam.seam.open] == ["front to side L"]


@pytest.mark.parametrize(
    "words",
    [
        "draft",
        "draft hat",
        "draft skirt --waist 70cm -o OUT",
        "draft canopy --radius 50cm --rise 60cm -o OUT",
        f"{SKIRT} --sweep 90cm -o OUT",
        f"{SKIRT} --hip-depth 95cm -o OUT",
        f"{SKIRT} --gores 3 -o OUT",
        f"{SKIRT} --gores many -o OUT",
        f"{SKIRT} --waist nan -o OUT",
        f"{SKIRT} --waist -5 -o OUT",
        f"{SKIRT} --tolerance nan -o OUT",
        f"{SKIRT} --tolerance 90 -o OUT",
        f"{SKIRT} --stripe-width 50 -o OUT",
        f"{SKIRT} --stripe-colour blue -o OUT",
        f"{SKIRT} --repeat 0 -o OUT",
        f"{SKIRT} -o OUT/in/no/folder.stripewright",
    ],
)
def test_bad_input_is_one_line_exit_2_and_nothing_written(words, tmp_path, capsys):
    assert run(words.replace("OUT", str(tmp_path / "x.stripewright"))) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert len(said.err.splitlines()) == 1
    assert list(tmp_path.iterdir()) == []
