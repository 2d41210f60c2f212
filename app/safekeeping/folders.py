"""Where the program keeps what it needs for itself."""

import os
from pathlib import Path

import platformdirs


def state_folder() -> Path:
    """The folder of the program's own."""
    return Path(platformdirs.user_data_dir("stripewright", appauthor=False))


def recovery_folder() -> Path:
    """Where recovery files lie."""
    return state_folder() / "recovery"


def shelf_folder() -> Path:
    """Where kept cloths lie: the folder that STRIPEWRIGHT_SHELF names, or one of the program's own."""
    named = os.environ.get("STRIPEWRIGHT_SHELF")
    return Path(named) if named else state_folder() / "shelf"
