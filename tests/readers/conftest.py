import os
from collections.abc import Iterator
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from PySide6.QtWidgets import QApplication

from app.theme import Theme, apply_theme
from core.files.project_file import read_project
from core.model.project import Placement, Project
from core.seams.readings import Measurement, measure


@pytest.fixture
def light(qapp: QApplication) -> Iterator[Theme]:
    return apply_theme(qapp, dark=False)


@pytest.fixture
def dark(qapp: QApplication) -> Iterator[Theme]:
    yield apply_theme(qapp, dark=True)
    apply_theme(qapp, dark=False)


def scattered(project: Project) -> Project:
    """Every panel somewhere else, a little turned, so that seams differ."""
    names = enumerate(project.panel_names)
    return project.placed({n: Placement(u=100 + 37.3 * i, v=11.0 * i, turn_deg=0.2 * (i % 3 - 1)) for i, n in names})


@pytest.fixture
def skirt(harbour_skirt: Path) -> Project:
    return scattered(read_project(harbour_skirt))


@pytest.fixture
def parasol(pier_parasol: Path) -> Project:
    return scattered(read_project(pier_parasol))


@pytest.fixture
def skirt_readings(skirt: Project) -> Measurement:
    return measure(skirt)
