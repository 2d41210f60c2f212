"""A real window on an X server, driven from outside with xdotool."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from windows import ON_X_SERVER

ROOT = Path(__file__).resolve().parents[2]

pytestmark = ON_X_SERVER

DRIVEN = """
import sys
from pathlib import Path
from PySide6.QtCore import QPointF, QSettings, QTimer
from app.workbench import application
from app.window import Window
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[2])
app = application()
window = Window()
window.filing.open_path(Path(sys.argv[1]))
window.edits.spread_new()
window.setGeometry(0, 0, 1200, 800)
window.show()
def tell():
    view = window.desk.view
    box = view.scene_here.panels["side.R"].outline().boundingRect()
    spot = QPointF(box.center().x() + 0.08 * box.width(), box.top() + 0.8 * box.height())
    at = view.viewport().mapToGlobal(view.mapFromScene(spot))
    print(at.x(), at.y(), view.scale_px, window.document.kept.placement("side.R").u, flush=True)
QTimer.singleShot(700, tell)
window.document.undo.indexChanged.connect(
    lambda _: print(window.document.kept.placement("side.R").u, window.document.undo.undoText(), flush=True)
)
app.exec()
"""


def xdotool(*words: object) -> None:
    subprocess.run(["xdotool", *map(str, words)], check=True, timeout=10)


@pytest.fixture
def driven(tmp_path, harbour_skirt):
    path = tmp_path / "skirt.stripewright"
    shutil.copy(harbour_skirt, path)
    env = {**os.environ, "QT_QPA_PLATFORM": "xcb", "PYTHONPATH": str(ROOT), "XDG_DATA_HOME": str(tmp_path)}
    command = [sys.executable, "-c", DRIVEN, str(path), str(tmp_path / "settings")]
    with subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True) as process:
        yield process
        process.kill()


def test_a_drag_with_the_real_mouse_moves_the_panel_as_far_as_the_mouse(driven):
    x, y, scale, u = (float(word) for word in driven.stdout.readline().split())
    xdotool("mousemove", round(x), round(y), "keydown", "alt", "mousedown", 1)
    for step in range(1, 9):
        xdotool("mousemove", round(x) + 5 * step, round(y) + step)
    xdotool("mouseup", 1, "keyup", "alt")
    moved, what = driven.stdout.readline().strip().split(" ", 1)
    assert what == "Move Side gore R"
    assert float(moved) - u == pytest.approx(40 / scale, abs=1.0 / scale)


def test_real_keys_nudge_and_take_back(driven):
    x, y, _, u = (float(word) for word in driven.stdout.readline().split())
    xdotool("mousemove", round(x), round(y), "click", 1)
    xdotool("key", "shift+Right")
    assert float(driven.stdout.readline().split()[0]) == pytest.approx(u + 10)
    xdotool("key", "ctrl+z")
    assert float(driven.stdout.readline().split()[0]) == pytest.approx(u)


def test_a_menu_opens_and_acts_by_letters_alone(driven):
    x, y, _, u = (float(word) for word in driven.stdout.readline().split())
    xdotool("mousemove", round(x), round(y), "click", 1)
    xdotool("key", "shift+Right")
    assert float(driven.stdout.readline().split()[0]) == pytest.approx(u + 10)
    xdotool("key", "--delay", "150", "alt+e", "u")
    assert float(driven.stdout.readline().split()[0]) == pytest.approx(u)
