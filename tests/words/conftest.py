import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from pathlib import Path

import pytest


def pytest_collection_modifyitems(items) -> None:
    """A warning of Qt fails a test; what the offscreen screen can't do is no news."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.qt_log_level_fail("WARNING"))
            item.add_marker(pytest.mark.qt_log_ignore("This plugin does not support"))
