"""Cloths kept for other projects."""

import json

import pytest
from PIL import Image

from app.cli import main
from conftest import SAMPLES
from core.errors import BadInput
from core.files.project_file import read_project
from core.files.shelf import from_shelf, off_shelf, on_shelf, put_on_shelf

SKIRT = SAMPLES / "harbour-skirt.stripewright"


@pytest.fixture
def cloth():
    return read_project(SKIRT).cloths[0]


def test_a_cloth_comes_off_the_shelf_as_it_was_put_there_with_its_picture(tmp_path, cloth):
    picture = tmp_path / "corner.PNG"
    Image.new("RGB", (20, 20), "#406080").save(picture)
    first = put_on_shelf(tmp_path / "shelf", cloth, "from the market", picture)
    second = put_on_shelf(tmp_path / "shelf", cloth)
    assert first.name != second.name
    again = from_shelf(tmp_path / "shelf", first.name)
    assert (again.kept.cloth, again.kept.note) == (cloth, "from the market")
    assert again.picture.read_bytes() == picture.read_bytes()
    off_shelf(tmp_path / "shelf", first.name)
    assert [one.name for one in on_shelf(tmp_path / "shelf")[0]] == [second.name]
    assert len(list((tmp_path / "shelf").iterdir())) == 1


@pytest.mark.parametrize("name", ["../elsewhere", "nothing", ""])
def test_what_is_not_on_the_shelf_is_refused(tmp_path, name):
    with pytest.raises(BadInput, match="there is no cloth"):
        from_shelf(tmp_path, name)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"format": "stripewright-project"}, "format"),
        ({"version": 2}, "newer"),
        ({"colour": 1}, "there is no key 'colour'"),
        ({"cloth": {"id": "x", "width": 0}}, "width is 0"),
        ({"cloth": {"id": "x"}}, "'width' is missing"),
    ],
)
def test_a_broken_file_is_told_in_one_line_and_the_others_still_come(tmp_path, cloth, change, said):
    put_on_shelf(tmp_path, cloth)
    broken = put_on_shelf(tmp_path, cloth)
    path = tmp_path / f"{broken.name}.stripewright-cloth"
    path.write_text(json.dumps({**json.loads(path.read_text()), **change}))
    found, faults = on_shelf(tmp_path)
    assert len(found) == 1
    assert len(faults) == 1
    assert said in faults[0]
    assert "\n" not in faults[0]


def test_from_project_to_project_by_the_command_line(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("STRIPEWRIGHT_SHELF", str(tmp_path / "shelf"))
    assert main(["shelf"]) == 0
    assert "The shelf is empty" in capsys.readouterr().out
    assert main(["shelf", "keep", str(SKIRT), "--note", "ticking"]) == 0
    name = capsys.readouterr().out.split()[-1]
    out = tmp_path / "other.stripewright"
    assert main(["shelf", "take", name, str(SAMPLES / "pier-parasol.stripewright"), "-o", str(out)]) == 0
    assert read_project(out).cloths[-1].repeat == read_project(SKIRT).cloths[0].repeat
    main(["shelf"])
    assert name in capsys.readouterr().out
    assert main(["shelf", "remove", name]) == 0
    assert main(["shelf", "remove", name]) == 2
    assert main(["shelf", "leftover", str(SKIRT)]) == 1
