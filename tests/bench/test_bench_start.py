"""From the start of a process to a painted window: an empty one, and the workbench at its start page."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
EMPTY = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
class Window(QMainWindow):
    def paintEvent(self, event):
        QTimer.singleShot(0, QApplication.quit)
app = QApplication(sys.argv)
window = Window()
window.resize(1200, 800)
window.show()
app.exec()
"""
WORKBENCH = """
import sys
from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
from app import workbench
class Window(workbench.Window):
    def paintEvent(self, event):
        super().paintEvent(event)
        QTimer.singleShot(0, lambda: QApplication.exit(0))
workbench.Window = Window
workbench.run()
"""


@pytest.mark.parametrize("code", [EMPTY, WORKBENCH], ids=["empty window", "workbench"])
def test_bench_cold_start(benchmark, tmp_path, code):
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "XDG_DATA_HOME": str(tmp_path), "PYTHONPATH": str(ROOT)}
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [sys.executable, "-c", code, str(tmp_path)]
    benchmark.pedantic(lambda: subprocess.run(command, env=env, check=True, capture_output=True), rounds=5)
