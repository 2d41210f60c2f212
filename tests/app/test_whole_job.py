"""The whole job in the real program, by mouse and keys alone: from the empty window to the papers.

What runs inside the program only watches, and tells what has come up and where a panel lies.
"""

import os
import subprocess
import sys
import threading
import time
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from core.files.project_file import read_project
from core.lay.legal import find_faults
from core.model.panel import panels_of
from windows import ON_X_SERVER

ROOT = Path(__file__).resolve().parents[2]

pytestmark = ON_X_SERVER
PATIENCE_S = 240.0
"""A program that has not said by then what is waited for is ended, which fails the test."""

DRIVEN = """
import sys
from PySide6.QtCore import QPointF, QSettings, QTimer
from PySide6.QtWidgets import QApplication
from app.workbench import application, run
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
application()
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
def did(_):
    if not window.document.is_empty:
        later("did", window.document.undo.undoText())
def begin():
    global window
    window = next(it for it in QApplication.topLevelWidgets() if hasattr(it, "keeper"))
    window.setGeometry(0, 0, 1280, 720)
    watch.start()
    window.ways.turned.connect(lambda: later("page", type(window.pages.currentWidget()).__name__))
    window.document.undo.indexChanged.connect(did)
    window.document.project_changed.connect(lambda: later("project"))
    window.document.title_changed.connect(lambda: window.document.path and later("saved", window.document.path))
    window.jobs.ended.connect(lambda: (later("ended"), QTimer.singleShot(600, place)))
    QTimer.singleShot(700, lambda: say("ready"))
QTimer.singleShot(0, begin)
run()
"""


def xdotool(*words: object) -> None:
    subprocess.run(["xdotool", *map(str, words)], check=True, timeout=20)


def typed(*texts: str) -> None:
    """Type into one field after the other; nothing: leave it as it is."""
    for text in texts:
        if text:
            xdotool("key", "ctrl+a", "type", "--delay", "20", text)
        xdotool("key", "Tab")


def garment_height(project) -> float:
    """Length of the longest stitching line along the grain, mm."""
    return max(float(np.ptp(panel.net_ring[:, 1])) for piece in project.pieces for panel in panels_of(piece))


def heard(driven, *words: str) -> str:
    """Read on until the window says something that begins with some words; the rest of it."""
    for line in driven.stdout:
        said = line.split()
        if said[: len(words)] == list(words):
            return " ".join(said[len(words) :])
    raise AssertionError(f"the window never said {words}")


@pytest.fixture
def driven(tmp_path):
    folders = {"XDG_DATA_HOME": str(tmp_path / "data"), "HOME": str(tmp_path)}
    env = {**os.environ, "QT_QPA_PLATFORM": "xcb", "PYTHONPATH": str(ROOT), **folders}
    command = [sys.executable, "-c", DRIVEN, str(tmp_path / "settings")]
    with subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True, cwd=tmp_path) as process:
        patience = threading.Timer(PATIENCE_S, process.kill)
        patience.start()
        yield process
        patience.cancel()
        process.kill()


def test_from_the_empty_window_to_the_papers(driven, tmp_path):
    heard(driven, "ready")
    xdotool("mousemove", 1200, 690, "click", 1, "key", "ctrl+n")
    heard(driven, "page", "DraftPage")
    xdotool("key", "Tab", "key", "space")  # Enter the cloth…
    heard(driven, "page", "ClothPage")
    typed("Deck stripe", "1400")
    xdotool("key", "ctrl+Return")
    heard(driven, "page", "DraftPage")
    xdotool("key", "Tab", "key", "Tab")
    typed("70,5 cm", "98 cm", "", "27 1/2in")
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
    xdotool("key", "ctrl+l")
    time.sleep(3)
    xdotool("key", "ctrl+shift+period")  # what is found by now will do
    heard(driven, "did", "Lay", "on", "the", "cloth")
    xdotool("key", "ctrl+s")
    heard(driven, "dialog")
    xdotool("key", "ctrl+a", "type", "--delay", "20", str(tmp_path / "skirt.stripewright"))
    xdotool("key", "Return")
    saved = read_project(Path(heard(driven, "saved")))
    assert saved.placements.keys() == set(saved.panel_names)
    assert (saved.cloths[0].name, saved.cloths[0].width) == ("Deck stripe", 1400)
    assert not find_faults(saved, saved.cloths[0].id)
    assert garment_height(saved) == pytest.approx(27.5 * 25.4, abs=15)
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
