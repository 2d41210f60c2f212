"""The program's place on the desktop, read back by the formats' own rules (freedesktop.org) and, where it is there, by
the desktop's own validator."""

import configparser
import shutil
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from app.cli import main
from app.desktop.entry import install

MIME = "{http://www.freedesktop.org/standards/shared-mime-info}"
pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="menu entries are a matter of Linux")


@pytest.fixture
def started(tmp_path, monkeypatch) -> Path:
    """A program started from a folder with an awkward name, and a user's own data folder."""
    program = tmp_path / 'a "fine" $place' / "stripewright"
    program.parent.mkdir()
    program.write_text("#!/bin/sh\n")
    program.chmod(0o755)
    monkeypatch.setattr(sys, "argv", [str(program)])
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "share"))
    return program


def test_the_entry_starts_the_program_that_installed_it(started, tmp_path, capsys):
    assert main(["desktop", "--install"]) == 0
    listed = [Path(line) for line in capsys.readouterr().out.splitlines()]
    assert all(path.is_file() for path in listed)
    entry = configparser.RawConfigParser(interpolation=None)
    entry.optionxform = str
    entry.read(tmp_path / "share" / "applications" / "stripewright.desktop", encoding="utf-8")
    keys = entry["Desktop Entry"]
    unescaped = keys["Exec"].replace("\\\\", "\\")  # a value's own escapes go first, then the quotes of Exec
    words = subprocess.run(["sh", "-c", f"printf '%s\\n' {unescaped}"], capture_output=True, check=True, text=True)
    assert words.stdout.splitlines() == [str(started), "%f"]
    kinds = ElementTree.parse(tmp_path / "share" / "mime" / "packages" / "stripewright.xml").getroot()
    kind = kinds.find(f"{MIME}mime-type")
    assert keys["MimeType"] == kind.get("type") + ";"
    assert kind.find(f"{MIME}glob").get("pattern") == "*.stripewright"
    icon = tmp_path / "share" / "icons" / "hicolor" / "scalable" / "apps" / f"{keys['Icon']}.svg"
    assert ElementTree.parse(icon).getroot().tag.endswith("svg")


def test_removing_leaves_nothing_of_it_and_says_so(started, tmp_path, capsys):
    main(["desktop", "--install"])
    written = capsys.readouterr().out
    assert main(["desktop", "--remove"]) == 0
    assert capsys.readouterr().out == written
    assert not [path for path in (tmp_path / "share").rglob("*stripewright*") if path.is_file()]
    assert main(["desktop", "--remove"]) == 0
    assert "Nothing of it" in capsys.readouterr().out


def test_a_folder_that_cannot_be_made_is_one_line(started, tmp_path, capsys):
    (tmp_path / "share").write_text("")
    assert main(["desktop", "--install"]) == 2
    assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.skipif(not shutil.which("desktop-file-validate"), reason="needs desktop-file-utils")
def test_the_validator_of_the_desktop_has_nothing_to_say(tmp_path):
    entry = next(path for path in install(Path("/usr/bin/env"), tmp_path) if path.suffix == ".desktop")
    done = subprocess.run(["desktop-file-validate", entry], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (0, "")
