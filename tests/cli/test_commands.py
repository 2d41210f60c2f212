"""The commands, from outside: exit codes, --json, files; on the samples and on broken input."""

import csv
import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from app.cli import main
from cloths import project_of, rectangle
from core.files.project_file import read_project, write_project
from core.lay.legal import find_faults
from core.model.project import Placement
from core.seams.readings import measure
from near_gores import near_skirt


def run(*words: object, code: int = 0) -> None:
    assert main([str(word) for word in words]) == code


def test_measure_prints_the_keys_of_the_contract(harbour_skirt, capsys):
    run("measure", harbour_skirt, "--json")
    report = json.loads(capsys.readouterr().out)
    assert {"rms_mm", "seams", "placements"} <= set(report)
    keys = "seam side a b length_mm lean rms_mm worst_mm worst_at_mm drift_mm_per_m agreement easing_ratio shift_mm"
    assert set(keys.split()) | {"readings", "crossings"} <= set(report["seams"][0])
    assert {"at_mm", "step_mm"} <= set(report["seams"][0]["readings"][0])
    assert {"stripe", "a_at_mm", "b_at_mm", "along_gap_mm", "step_mm"} == set(report["seams"][1]["crossings"][0])
    assert [s["side"] for s in report["seams"]] == [None, "R", "L", "R", "L", "R", "L", "R", "L", None]
    assert report["placements"]["side.R"] == {"u": 0, "v": 0, "turn_deg": 0, "turned": False, "hold": False}


def test_plan_writes_project_pdf_and_csv_that_agree_with_its_json(harbour_skirt, tmp_path, capsys):
    run("plan", harbour_skirt, "--to", tmp_path / "out", "--json")
    report = json.loads(capsys.readouterr().out)
    project = read_project(tmp_path / "out" / harbour_skirt.name)
    assert report["rms_mm"] == pytest.approx(measure(project).rms_mm, abs=1e-5)
    assert report["solve"]["rms_mm"] == pytest.approx(report["rms_mm"], abs=1e-5)
    assert report["solve"]["lower_bound_mm"] is None
    lay = report["lays"][0]
    assert set(lay["panels"]) == set(project.panel_names)
    lowest = max(v for panel in lay["panels"].values() for _, v in panel["cut_line"])
    assert lowest == pytest.approx(lay["length_mm"], abs=1e-3)
    assert find_faults(project, "ticking") == ()
    with (tmp_path / "out" / "positions.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == 10
    for row in rows:
        at = report["placements"][row["panel"]]
        assert float(row["u_mm"]) == pytest.approx(at["u"], abs=0.006)
        assert float(row["v_mm"]) == pytest.approx(at["v"], abs=0.006)
    assert (tmp_path / "out" / "cutting-papers.pdf").read_bytes().startswith(b"%PDF")


@pytest.fixture
def three_gores(tmp_path) -> Path:
    """A garment that is matched, laid and put on paper in no time."""
    path = tmp_path / "gores.stripewright"
    write_project(path, near_skirt(1, 3))
    return path


def test_match_then_lay_then_papers_go_one_after_the_other(three_gores, tmp_path, capsys):
    matched, laid = tmp_path / "matched.stripewright", tmp_path / "laid.stripewright"
    run("match", three_gores, "-o", matched)
    run("papers", matched, "--to", tmp_path / "papers", code=1)
    assert not (tmp_path / "papers").exists()
    run("lay", matched, "-o", laid)
    figures = [measure(read_project(path)).rms_mm for path in (matched, laid)]
    assert figures[0] == pytest.approx(figures[1], abs=1e-6)
    run("papers", laid, "--to", tmp_path / "papers")
    assert (tmp_path / "papers" / "cutting-papers.pdf").exists()
    assert "stripewright:" in capsys.readouterr().err


def test_match_updates_the_file_itself_but_not_when_the_result_goes_out_as_json(pier_parasol, tmp_path, capsys):
    path = Path(shutil.copy(pier_parasol, tmp_path / "mine.stripewright"))
    before = path.read_bytes()
    run("match", path, "--json")
    assert path.read_bytes() == before
    run("match", path)
    assert read_project(path).placements


def test_a_cloth_that_is_too_short_is_done_but_exits_1_and_tells_what_is_missing(three_gores, tmp_path, capsys):
    raw = json.loads(three_gores.read_bytes())
    raw["cloths"][0]["length"] = 900
    short = tmp_path / "short.stripewright"
    short.write_text(json.dumps(raw))
    run("plan", short, "--to", tmp_path / "out", "--json", code=1)
    lay = json.loads(capsys.readouterr().out)["lays"][0]
    assert lay["fits"] is False
    assert lay["available_mm"] == 900
    assert lay["missing_mm"] == pytest.approx(lay["length_mm"] - 900)


def test_a_panel_wider_than_the_cloth_is_told_in_one_line_and_nothing_is_written(pier_parasol, tmp_path, capsys):
    raw = json.loads(pier_parasol.read_bytes())
    raw["cloths"][0]["width"] = 400
    narrow = tmp_path / "narrow.stripewright"
    narrow.write_text(json.dumps(raw))
    commands = (["check", narrow], ["lay", narrow, "-o", tmp_path / "x"], ["plan", narrow, "--to", tmp_path / "out"])
    for command in commands:
        run(*command, code=2)
        message = capsys.readouterr().err
        assert message.count("\n") == 1
        assert "the usable width of 'Pier awning cloth' is 380.0 mm" in message
    assert [path.name for path in tmp_path.iterdir()] == ["narrow.stripewright"]


@pytest.mark.parametrize(
    "words",
    [
        ["measure", "nowhere.stripewright"],
        ["measure"],
        ["plan", "SAMPLE"],
        ["match", "SAMPLE", "--sideways"],
        ["conjure", "SAMPLE"],
        ["match", "SAMPLE", "-o", "no/such/folder/x.stripewright"],
        ["plan", "SAMPLE", "--to", "SAMPLE"],
        ["nonsense"],
    ],
    ids=lambda words: " ".join(words),
)
def test_wrong_words_get_one_line_and_exit_2(words, harbour_skirt, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    run(*[str(harbour_skirt) if word == "SAMPLE" else word for word in words], code=2)
    out, message = capsys.readouterr()
    assert out == ""
    assert message.count("\n") == 1
    assert "Traceback" not in message
    assert not list(tmp_path.iterdir())


def test_check_says_what_is_odd_about_a_pattern_that_is_in_order(harbour_skirt, tmp_path, capsys):
    run("check", harbour_skirt)
    assert "no findings" in capsys.readouterr().out
    raw = json.loads(harbour_skirt.read_bytes())
    raw["seams"][1]["b"] = "side-front.R/back"
    odd = tmp_path / "odd.stripewright"
    odd.write_text(json.dumps(raw))
    run("check", odd)
    out = capsys.readouterr().out
    assert "mm longer" in out
    assert "an edge is sewn once" in out


def test_the_thinking_needs_no_qt(three_gores, tmp_path):
    blocked = "import sys; sys.modules['PySide6'] = None; from app.cli import main; sys.exit(main(sys.argv[1:]))"
    command = [sys.executable, "-c", blocked, "plan", str(three_gores), "--to", str(tmp_path / "out"), "--json"]
    done = subprocess.run(command, capture_output=True, check=False, cwd=Path(__file__).parents[2])
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["rms_mm"] > 0
    assert done.stderr == b""


def test_no_command_reads_what_only_another_one_needs():
    code = (
        "import sys; from app.cli import main; assert 'numpy' not in sys.modules; "
        "main(['list', '--json']); assert {'app.command_line.lists', 'app.command_line.draft'} & sys.modules.keys() == "
        "{'app.command_line.lists'}"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_the_installed_program_finds_its_samples_and_icons_from_any_folder(tmp_path):
    program = shutil.which("stripewright", path=str(Path(sys.executable).parent))
    if program is None:
        pytest.skip("the program is not installed in this environment")
    script = (
        "from app.resources import resource;"
        "print(resource('sample_projects', 'harbour-skirt.stripewright').exists());"
        "print(resource('icons', 'app.svg').exists())"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, check=True, cwd=tmp_path, text=True)
    assert found.stdout.split() == ["True", "True"]
    told = subprocess.run([program, "--version"], capture_output=True, check=True, cwd=tmp_path, text=True)
    assert told.stdout.startswith("stripewright ")


def test_everything_that_is_cut_is_laid_each_on_its_cloth(three_gores, tmp_path, capsys):
    raw = json.loads(three_gores.read_bytes())
    raw["cloths"].append({"id": "muslin", "name": "Stiff muslin", "width": 1100})
    raw["layers"] = [{"kind": "interlining", "of": [piece["id"] for piece in raw["pieces"]], "cloth": "muslin"}]
    raw["strips"] = [{"id": "belt", "length": 720, "width": 80, "number": 1, "cloth": "cloth"}]
    full = tmp_path / "full.stripewright"
    full.write_text(json.dumps(raw))
    run("plan", full, "--to", tmp_path / "out", "--json")
    lays = {lay["cloth"]: lay for lay in json.loads(capsys.readouterr().out)["lays"]}
    assert len(lays["cloth"]["panels"]) == 4
    assert len(lays["muslin"]["panels"]) == 3
    run("list", tmp_path / "out" / "full.stripewright", "--json")
    listed = json.loads(capsys.readouterr().out)
    assert listed["count"] == 7
    assert {cloth["cloth"]: cloth["length_mm"] for cloth in listed["cloths"]} == {
        cloth: pytest.approx(lay["length_mm"], abs=0.01) for cloth, lay in lays.items()
    }


def test_lay_compare_prints_what_each_choice_takes_and_writes_nothing(tmp_path, capsys):
    file = tmp_path / "squares.stripewright"
    project = project_of([rectangle("a", 90, 100), rectangle("b", 90, 100)], 209.95, 60.0, one_way=True)
    write_project(file, project.placed({"a": Placement(), "b": Placement()}))
    before = file.read_bytes()
    run("lay", file, "--compare", "--json")
    choices = json.loads(capsys.readouterr().out)["choices"]
    assert [(choice["what"], choice["length_mm"], choice["cost"]) for choice in choices] == [
        ("as it is", pytest.approx(200, abs=1e-3), None),
        ("panels end for end, if the cloth allows it", pytest.approx(100, abs=1e-3), None),
        ("stripes not matched", pytest.approx(100, abs=1e-3), None),
    ]
    run("lay", file, "--compare")
    rows = capsys.readouterr().out.splitlines()
    run("lay", file, "--compare", "-o", tmp_path / "out.stripewright", code=2)
    assert not (tmp_path / "out.stripewright").exists()
    assert rows[-1].split() == ["stripes", "not", "matched", "100", "-100", "100"]
    assert file.read_bytes() == before
