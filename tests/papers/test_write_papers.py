"""Writing the papers: all or nothing, and only for a lay that can be cut."""

import csv
import subprocess
import sys
from pathlib import Path

import pytest

from core.errors import BadInput, CannotBeHad, Stopped
from core.files.project_file import write_project
from core.model.project import Project
from core.papers import papers
from core.papers.choices import PaperChoices
from core.papers.papers import write_papers

NAMES = [
    "cutting-papers.pdf",
    "positions.csv",
    "stripe-marks.csv",
    "lists.csv",
    "seam-sheet.pdf",
    "edge-strips.pdf",
    "full-size-tiles.pdf",
    "full-size-roll.pdf",
    "full-size.svg",
    "plan-full-size.pdf",
    "plan-full-size.svg",
    "plan-full-size.dxf",
]
TABLES = PaperChoices(parts=frozenset({"cutting papers", "lists"}))


def test_papers_are_written_into_a_folder_that_is_made_the_same_in_every_run(parasol: Project, tmp_path: Path) -> None:
    folder = tmp_path / "for" / "the table"
    written = write_papers(parasol, folder)
    assert [path.name for path in written] == NAMES
    assert sorted(path.name for path in folder.iterdir()) == sorted(NAMES)
    with open(folder / "positions.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {row["panel"]: (float(row["u_mm"]), float(row["v_mm"])) for row in rows} == {
        name: (round(parasol.placement(name).u, 3), round(parasol.placement(name).v, 3)) for name in parasol.panel_names
    }
    write_project(tmp_path / "p.stripewright", parasol)
    run_alone(tmp_path / "p.stripewright", tmp_path / "papers")
    for path in written:
        assert (tmp_path / "papers" / path.name).read_bytes() == path.read_bytes()


def run_alone(project: Path, folder: Path) -> str:
    """Write all papers of a project file in a process of its own; returns the memory it took at most, MB."""
    script = (
        "import sys; from pathlib import Path; from core.files.project_file import read_project;"
        "from core.papers.papers import write_papers;"
        "write_papers(read_project(Path(sys.argv[1])), Path(sys.argv[2]));"
        "status = Path('/proc/self/status').read_text();"
        "print(int(status.split('VmHWM:')[1].split()[0]) / 1024)"
    )
    command = [sys.executable, "-c", script, str(project), str(folder)]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def test_panels_that_lie_on_each_other_get_no_papers(parasol: Project, tmp_path: Path) -> None:
    heaped = parasol.placed({"gore-1": parasol.placement("gore-2")})
    with pytest.raises(CannotBeHad, match="run lay first"):
        write_papers(heaped, tmp_path / "papers")
    assert not (tmp_path / "papers").exists()


def test_a_stopped_job_writes_nothing(parasol: Project, tmp_path: Path) -> None:
    seen: list[float] = []

    def stop_late(share: float, note: str) -> bool:
        seen.append(share)
        return share < 0.9

    with pytest.raises(Stopped):
        write_papers(parasol, tmp_path / "papers", stop_late, TABLES)
    assert seen == sorted(seen)
    assert not (tmp_path / "papers").exists()


def test_a_fault_in_the_last_table_writes_nothing(
    parasol: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> bytes:
        raise CannotBeHad("no table")

    monkeypatch.setattr(papers, "stripe_marks_csv", broken)
    with pytest.raises(CannotBeHad, match="no table"):
        write_papers(parasol, tmp_path / "papers", choices=TABLES)
    assert not (tmp_path / "papers").exists()


def test_a_folder_that_is_a_file_is_refused_in_one_line(parasol: Project, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("mine")
    with pytest.raises(BadInput) as caught:
        write_papers(parasol, tmp_path / "taken", choices=TABLES)
    assert "\n" not in str(caught.value)
    assert (tmp_path / "taken").read_text() == "mine"


def test_only_the_parts_chosen_are_written(parasol: Project, tmp_path: Path) -> None:
    written = write_papers(parasol, tmp_path / "papers", choices=TABLES)
    assert [path.name for path in written] == NAMES[:4]


def test_the_ten_panel_sample_with_all_layers_takes_little_memory(full: Project, tmp_path: Path) -> None:
    """All papers at once in a process of its own stay under 400 MB."""
    write_project(tmp_path / "full.stripewright", full)
    megabytes = run_alone(tmp_path / "full.stripewright", tmp_path / "papers")
    assert float(megabytes) < 400
    names = {path.name for path in (tmp_path / "papers").iterdir()}
    assert {f"plan-full-size-{cloth.id}.dxf" for cloth in full.cloths} < names
