import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the program has it, before numpy is read
os.environ["STRIPEWRIGHT_LANGUAGE"] = "en"

from functools import cache
from pathlib import Path

import pytest

from core.lay import budget

HINTS = "This plugin does not support propagateSizeHints"
SCREEN_ROOMS = dict.fromkeys(("app", "help", "pages", "safekeeping", "words"), HINTS)
SCREEN_ROOMS |= dict.fromkeys(("app", "sewing_app"), "This plugin does not support")
"""The rooms of tests that drive the workbench, and what Qt may say there, since the offscreen platform can't do it."""

FULL_SEARCH = Path(__file__).parent / "lay", Path(__file__).parent / "bench"
SAMPLES = Path(__file__).resolve().parent.parent / "sample_projects"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Whatever Qt warns of fails a test of the workbench, but for what the offscreen platform can't do."""
    for item in items:
        for room, allowed in SCREEN_ROOMS.items():
            if Path(__file__).parent / room in item.path.parents:
                item.add_marker(pytest.mark.qt_log_level_fail("WARNING"))
                item.add_marker(pytest.mark.qt_log_ignore(allowed))


@pytest.fixture
def harbour_skirt() -> Path:
    return SAMPLES / "harbour-skirt.stripewright"


@pytest.fixture
def pier_parasol() -> Path:
    return SAMPLES / "pier-parasol.stripewright"


@cache
def whole_work() -> tuple[float, float]:
    """The work of a lay, and of a quick one, as the project has them."""
    return budget.WORK, budget.QUICK_WORK


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item: pytest.Item) -> None:
    """Only the lay's own tests search in full: elsewhere a lay has to be legal and repeatable, not short."""
    full = any(folder in item.path.parents for folder in FULL_SEARCH)
    budget.WORK, budget.QUICK_WORK = (work if full else work / 20 for work in whole_work())
