from collections.abc import Iterator

import msgspec
import pytest
from PySide6.QtWidgets import QApplication

from core.files.project_file import read_project
from core.model.project import Match
from skirts import full_skirt
from straight_gores import gore, sewn
from windows import whole_window


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch) -> Iterator["Window"]:  # noqa: F821
    """A whole window on an empty profile; nothing of it may be left when the test is over."""
    with whole_window(qtbot, tmp_path, monkeypatch, 1400, 900) as window:
        yield window


def opened(window, project, show):
    window.document.open(project)
    window.edits.spread_new()
    show()
    QApplication.processEvents()
    return window


@pytest.fixture
def gores(window):
    """Three pairs of straight gores in a row, one of them longer, with notches; on the sewing page."""
    first = gore("a", cut="pair", notches=[{"edge": "r", "at": 200}, {"edge": "r", "at": 500}])
    second = gore("b", cut="pair", length=809.0, notches=[{"edge": "l", "at": 606}])
    return opened(window, sewn(first, second, gore("c", cut="pair")), window.desk.show_sewing)


@pytest.fixture
def unsewn(window, harbour_skirt):
    """The ten-panel skirt without its seams, on the sewing page."""
    project = msgspec.structs.replace(read_project(harbour_skirt), seams=(), match=Match())
    return opened(window, project, window.desk.show_sewing)


@pytest.fixture
def full(window):
    """The ten-panel skirt with layers and strips, on the cut list."""
    return opened(window, full_skirt(), window.desk.show_cut_list)
