"""The whole job through a real window, by mouse and keys alone: from the empty window to the papers."""

import os
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest

from core.files.project_file import read_project
from windows import ON_X_SERVER

ROOT = Path(__file__).resolve().parents[2]

pytestmark = ON_X_SERVER

DRIVEN = """
import sys
from PySide6.QtCore import QPointF, QSettings, QTimer
from PySide6.QtWidgets import QApplication
from app.workbench import application
from app.window import Window
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
app = application()
window = Window()
window.setGeometry(0, 0, 1280, 720)
window.show()
def say(*words):
    print(*words, flush=True)
def place():
    view = window.desk.view
    name = next(iter(view.scene_here.panels))
    box = view.scene_here.panels[name].outline().boundingRect()
    spot = QPointF(box.center().x() + 0.08 * box.width(), box.top() + 0.8 * box.height())
    at = view.viewport().mapToGlobal(view.mapFromScene(spot))
    say("panel", at.x(), at.y())
def later(*words):
    QTimer.singleShot(400, lambda: say(*words))
def dialogs():
    top = QApplication.activeModalWidget()
    if top is not seen[0]:
        seen[0] = top
        if top is not None:
            later("dialog", type(top).__name__)
seen = [None]
watch = QTimer(interval=100, timeout=dialogs)
watch.start()
window.ways.turned.connect(lambda: later("page", type(window.pages.currentWidget()).__name__))
def did(_):
    if not window.document.is_empty:
        later("did", window.document.undo.undoText())
window.document.undo.indexChanged.connect(did)
window.document.project_changed.connect(lambda: later("project"))
window.document.title_changed.connect(lambda: window.document.path and later("saved", window.document.path))
window.jobs.ended.connect(lambda: (later("ended"), QTimer.singleShot(600, place)))
QTimer.singleShot(700, lambda: say("ready"))
app.exec()
"""


def xdotool(*words: object) -> None:
    subprocess.run(["xdotool", *map(str, words)], check=True, timeout=20)


def heard(driven, *words: str) -> str:
    """Read on until the window says something that begins with some words; the rest of it."""
    for line in driven.stdout:
        said = line.split()
        if said[: len(words)] == list(words):
            return " ".join(said[len(words) :])
    raise AssertionError(f"the window never said {words}")


@pytest.fixture
def driven(tmp_path):
    env = {**os.environ, "QT_QPA_PLATFORM": "xcb", "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", DRIVEN, str(tmp_path / "settings")]
    with subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True, cwd=tmp_path) as process:
        yield process
        process.kill()


def test_from_the_empty_window_to_the_papers(driven, tmp_path):
    heard(driven, "ready")
    xdotool("mousemove", 1200, 690, "click", 1, "key", "ctrl+n")
    heard(driven, "page", "DraftPage")
    xdotool("key", "ctrl+Return")
    heard(driven, "project")
    xdotool("key", "ctrl+m")
    heard(driven, "did", "Match", "stripes")
    x, y = (int(word) for word in heard(driven, "panel").split())
    xdotool("mousemove", x, y, "keydown", "alt", "mousedown", 1)
    for step in range(1, 7):
        xdotool("mousemove", x + 4 * step, y + step)
    xdotool("mouseup", 1, "keyup", "alt")
    heard(driven, "did", "Move")
    xdotool("key", "ctrl+z")
    heard(driven, "did", "Match", "stripes")
    xdotool("key", "ctrl+s")
    heard(driven, "dialog")
    xdotool("key", "ctrl+a", "type", "--delay", "20", str(tmp_path / "skirt.stripewright"))
    xdotool("key", "Return")
    saved = read_project(Path(heard(driven, "saved")))
    assert saved.placements.keys() == set(saved.panel_names)
    xdotool("mousemove", x, y, "click", 1, "key", "ctrl+p")
    heard(driven, "dialog", "PapersForm")
    xdotool("key", "Return")
    heard(driven, "dialog")
    (tmp_path / "papers").mkdir()
    xdotool("key", "ctrl+a", "type", "--delay", "20", str(tmp_path / "papers"))
    xdotool("key", "Return")
    heard(driven, "ended")
    (papers,) = (tmp_path / "papers").glob("cutting-papers*.pdf")
    assert len(pypdfium2.PdfDocument(papers)) >= 5
