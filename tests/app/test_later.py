"""What is made when it is wanted is the same whoever wants it first, and the start needs little."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QObject

from app.desk import LISTS, PICTURES
from app.later import IdleTime, made
from app.safekeeping.stamp import read_stamped
from core.files.project_file import read_project

ROOT = Path(__file__).resolve().parents[2]
PARTS = (*PICTURES, *LISTS)
NAMED = """
import os, sys
file = sys.argv[1]
sys.addaudithook(lambda what, about: what == "open" and str(about[0]) == file and print("read", flush=True))
from app import cli, window
class Window(window.Window):
    seen = False
    def paintEvent(self, event):
        if not self.seen:
            print("painted", flush=True)
        self.seen = True
        super().paintEvent(event)
    def _show_project(self):
        print("opened", flush=True)
        os._exit(0)
window.Window = Window
cli.main([file])
"""
START = """
import sys
from PySide6.QtWidgets import QApplication
from app.workbench import application
from app.window import Window
app = application()
window = Window()
window.show()
window.grab()
heavy = {"numpy", "scipy", "shapely", "msgspec", "numba"} & set(sys.modules)
assert not heavy, heavy
"""


@pytest.fixture
def own_copy(tmp_path, harbour_skirt) -> Path:
    return Path(shutil.copy(harbour_skirt, tmp_path / "own.stripewright"))


def told(window) -> list[str]:
    """What lists and pages say of the project, each once somebody looks at it."""
    desk, words = window.desk, []
    for show in (desk.show_panels, desk.show_sewing, desk.show_cut_list, desk.show_as_sewn, desk.show_variants):
        show()
        words.append(desk.side.tabText(desk.side.currentIndex()))
    desk.show_closeup()
    return [
        *words,
        desk.sewing.figure.text(),
        desk.cut_list.summary.text(),
        desk.as_sewn.told.text(),
        str(desk.panel_list.model.names),
        str(desk.variants.keep_it.isEnabled()),
        desk.status.figure.text(),
        desk.table.figure.accessibleDescription(),
        desk.opened.closeup.accessibleDescription(),
    ]


def test_a_project_looks_the_same_whether_its_pages_were_there_or_are_made_for_it(window, harbour_skirt):
    assert not made(window, "document", "desk")
    assert window.filing.open_sample(harbour_skirt)
    assert set(PARTS) - vars(window.desk).keys() >= set(LISTS)
    window.document.pick_seam(1)
    wanted = told(window)
    kept = {name: getattr(window.desk, name) for name in PARTS}
    assert window.filing.open_sample(harbour_skirt)
    window.document.pick_seam(1)
    assert told(window) == wanted
    assert {name: getattr(window.desk, name) for name in PARTS} == kept


def test_idle_time_makes_all_the_rest_and_an_empty_desk_is_no_project(window, harbour_skirt):
    list(window.rest())
    assert set(PARTS) <= vars(window.desk).keys()
    assert window.pages.currentWidget() is window.start
    assert not window.desk.status.isVisible()
    assert not window.tools.isVisible()
    desk = window.desk
    assert window.filing.open_sample(harbour_skirt)
    assert window.pages.currentWidget() is desk
    assert window.tools.isVisible()
    assert len(desk.view.scene_here.panels) == 10


def test_slices_are_worked_through_in_order_after_the_beginning_and_not_after_the_end(qtbot):
    owner, done = QObject(), []
    idle = IdleTime(owner)
    idle.add(done.append(number) for number in range(3))
    qtbot.wait(30)
    assert done == []
    idle.begin()
    qtbot.waitUntil(lambda: done == [0, 1, 2], timeout=60_000)
    idle.add(done.append(number) for number in range(3, 9))
    idle.end()
    qtbot.wait(30)
    assert done == [0, 1, 2]


def test_the_start_page_is_painted_without_any_heavy_library(tmp_path):
    env = {"QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path)}
    done = subprocess.run([sys.executable, "-c", START], cwd=ROOT, env=env, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr


def test_a_project_named_on_the_command_line_is_read_once_and_opened_after_the_window_is_painted(tmp_path, own_copy):
    env = {"QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path)}
    command = [sys.executable, "-c", NAMED, str(own_copy)]
    done = subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    assert done.stdout.split() == ["read", "painted", "opened"], done.stderr


def test_what_was_begun_before_the_named_project_was_ready_stays(window, own_copy, harbour_skirt):
    opening = window.opening(read_stamped(own_copy))
    next(opening)
    assert window.filing.open_sample(harbour_skirt)
    list(opening)
    assert window.document.path is None
    assert window.document.kept.title == read_project(harbour_skirt).title


def test_a_file_that_is_no_project_opens_no_window(tmp_path):
    broken = tmp_path / "broken.stripewright"
    broken.write_text('{"format": "stripewright-project", "version": 1}')
    env = {"QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path)}
    code = "import sys; sys.modules['PySide6'] = None; from app.cli import main; sys.exit(main(sys.argv[1:]))"
    command = [sys.executable, "-c", code, str(broken)]
    done = subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout) == (2, "")
    assert len(done.stderr.splitlines()) == 1
    assert "broken.stripewright" in done.stderr
