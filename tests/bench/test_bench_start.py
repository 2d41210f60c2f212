"""From the start of a process to what is painted: an empty window, the workbench at its start page, and the workbench
with a project named on the command line, until its window and until its panels are painted.

Aim: the windows within twice the empty one, each as a ratio in one run; what reads a file first has more to do.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
EMPTY = """
import os, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
class Window(QMainWindow):
    def paintEvent(self, event):
        QTimer.singleShot(0, lambda: os._exit(0))
app = QApplication(sys.argv)
window = Window()
window.resize(1200, 800)
window.show()
app.exec()
"""
WORKBENCH = """
import os, sys
from app import cli
def leave():
    QTimer.singleShot(0, lambda: os._exit(0))
def watch():
    global QTimer
    from PySide6.QtCore import QSettings, QTimer
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
    from app import window
    class Window(window.Window):
        def paintEvent(self, event):
            super().paintEvent(event)
            if sys.argv[2] == "window":
                leave()
        def opening(self, read):
            from app.canvas.panels import PanelItem
            draw = PanelItem.draw
            PanelItem.draw = lambda self, *rest: (draw(self, *rest), leave())
            yield from super().opening(read)
    window.Window = Window
if sys.argv[3:]:
    from app.safekeeping import stamp
    read_stamped = stamp.read_stamped
    def read(path):
        found = read_stamped(path)
        watch()
        return found
    stamp.read_stamped = read
else:
    watch()
cli.main(sys.argv[3:])
"""
CASES = {
    "empty window": (EMPTY, "window", False),
    "workbench": (WORKBENCH, "window", False),
    "project named, window": (WORKBENCH, "window", True),
    "project named, panels": (WORKBENCH, "panels", True),
}


@pytest.mark.parametrize("case", CASES)
def test_bench_cold_start(benchmark, tmp_path, harbour_skirt, case):
    code, until, named = CASES[case]
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "XDG_DATA_HOME": str(tmp_path), "PYTHONPATH": str(ROOT)}
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [sys.executable, "-c", code, str(tmp_path), until, *([str(harbour_skirt)] if named else [])]
    benchmark.pedantic(lambda: subprocess.run(command, env=env, check=True, capture_output=True), rounds=7)
