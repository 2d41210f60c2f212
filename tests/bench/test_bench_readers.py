"""What the readers cost while a panel is dragged."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from itertools import cycle

import pytest
from PySide6.QtWidgets import QApplication

from app.pictures.closeup import CloseUp
from app.pictures.garment_picture import GarmentPicture
from app.pictures.opened_seam import OpenedSeam, View
from app.readings.seam_table import SeamTable
from app.theme import apply_theme
from core.model.project import Placement, Project
from core.seams.readings import Measurement, measure, remeasure
from garments import ring

PANELS = [10, 48]


def dragged(project: Project) -> list[tuple[Project, Measurement]]:
    """A garment and the same with its first panel moved, to be shown in turn."""
    first = measure(project)
    moved = project.placed({"g0.R": Placement(u=4.0)})
    return [(project, first), (moved, remeasure(first, moved, frozenset({"g0.R"})))]


@pytest.fixture(params=PANELS, ids=lambda number: f"{number} panels")
def steps(request, qapp) -> list[tuple[Project, Measurement]]:
    apply_theme(qapp, dark=False)
    return dragged(ring(1, request.param, shape="pairs"))


def test_seam_table_takes_readings(benchmark, qtbot, steps):
    table, turn = SeamTable(), cycle(steps)
    qtbot.addWidget(table)
    table.show_measurement(*steps[0])
    benchmark(lambda: table.show_measurement(*next(turn)))


@pytest.mark.parametrize("part", [SeamTable, CloseUp, GarmentPicture])
def test_a_frame_of_a_reader(benchmark, qtbot, steps, part):
    widget, turn = part(), cycle(steps)
    qtbot.addWidget(widget)
    widget.resize(520, 600)
    seam = next(i for i, line in enumerate(steps[0][1].garment.seams) if "g0.R" in line.panels)
    show = {
        SeamTable: lambda project, measurement: widget.show_measurement(project, measurement),
        CloseUp: lambda project, measurement: widget.show_seam(project, measurement.seams[seam]),
        GarmentPicture: lambda project, measurement: widget.show_garment(project, measurement),
    }[part]
    show(*steps[0])
    with qtbot.waitExposed(widget):
        widget.show()

    def frame() -> None:
        show(*next(turn))
        QApplication.processEvents()

    benchmark(frame)


def test_pixels_of_an_opened_seam(benchmark, steps):
    project, measurement = steps[0]
    seam = OpenedSeam.of(project, measurement.seams[1])
    benchmark(lambda: seam.image(View(100.0, 4.0), 200, 400, 700))
