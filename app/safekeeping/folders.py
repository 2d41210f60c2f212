"""Where the program keeps what it needs for itself."""

from pathlib import Path

import platformdirs


def state_folder() -> Path:
    """The folder of the program's own."""
    return Path(platformdirs.user_data_dir("stripewright", appauthor=False))


def recovery_folder() -> Path:
    """Where recovery files lie."""
    return state_folder() / "recovery"
