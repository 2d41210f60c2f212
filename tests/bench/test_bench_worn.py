"""Frames of the turning worn view. Run: pytest tests/bench/test_bench_worn.py --benchmark-only --benchmark-enable."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from itertools import count

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.pictures.worn_view import WornView
from app.workbench import application
from core.files.project_file import read_project
from core.seams.readings import measure


@pytest.mark.parametrize("sample", ["harbour-skirt", "pier-parasol"])
def test_turning_at_800_by_800(benchmark, qtbot, harbour_skirt, sample):
    """From the mouse's move to the end of the repaint that it causes; 15 frames a second are 66 ms."""
    application()
    view = WornView()
    qtbot.addWidget(view)
    view.resize(800, 800)
    view.show()
    qtbot.waitExposed(view)
    project = read_project(harbour_skirt.with_name(f"{sample}.stripewright"))
    view.show_garment(project, measure(project))
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=QPoint(400, 400))
    number = count()

    def frame() -> None:
        QTest.mouseMove(view, QPoint(200 + next(number) * 7 % 400, 400))
        QApplication.processEvents()

    benchmark.pedantic(frame, rounds=60, iterations=1, warmup_rounds=5)
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=QPoint(400, 400))
