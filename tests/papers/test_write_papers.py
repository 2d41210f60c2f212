"""Writing the papers: all or nothing, and only for a lay that can be cut."""

import csv
from pathlib import Path

import pytest

from core.errors import BadInput, CannotBeHad, Stopped
from core.model.project import Project
from core.papers import papers
from core.papers.papers import write_papers

NAMES = ["cutting-papers.pdf", "positions.csv", "stripe-marks.csv"]


def test_papers_are_written_into_a_folder_that_is_made(skirt: Project, tmp_path: Path) -> None:
    folder = tmp_path / "for" / "the table"
    written = write_papers(skirt, folder)
    assert [path.name for path in written] == NAMES
    assert sorted(path.name for path in folder.iterdir()) == NAMES
    with open(folder / "positions.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {row["panel"]: (float(row["u_mm"]), float(row["v_mm"])) for row in rows} == {
        name: (round(skirt.placement(name).u, 3), round(skirt.placement(name).v, 3)) for name in skirt.panel_names
    }


def test_writing_twice_gives_the_same_files(parasol: Project, tmp_path: Path) -> None:
    for folder in ("one", "two"):
        write_papers(parasol, tmp_path / folder)
    for name in NAMES:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


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
        write_papers(parasol, tmp_path / "papers", stop_late)
    assert seen == sorted(seen)
    assert not (tmp_path / "papers").exists()


def test_a_fault_in_the_last_table_writes_nothing(
    parasol: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(figures: object) -> bytes:
        raise CannotBeHad("no table")

    monkeypatch.setattr(papers, "stripe_marks_csv", broken)
    with pytest.raises(CannotBeHad, match="no table"):
        write_papers(parasol, tmp_path / "papers")
    assert not (tmp_path / "papers").exists()


def test_a_folder_that_is_a_file_is_refused_in_one_line(parasol: Project, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("mine")
    with pytest.raises(BadInput) as caught:
        write_papers(parasol, tmp_path / "taken")
    assert "\n" not in str(caught.value)
    assert (tmp_path / "taken").read_text() == "mine"
