"""Files that come with the program: icons and sample projects."""

from pathlib import Path

from core.errors import CannotBeHad

_HERE = Path(__file__).resolve().parent
_ROOTS = (_HERE / "_bundled", _HERE.parent)
"""Where an installed program keeps its folders, and where a checkout does."""


def resource(folder: str, name: str) -> Path:
    """Path of a file or folder `name` in `icons` or `sample_projects`. Raises CannotBeHad where it is missing."""
    for root in _ROOTS:
        path = root / folder / name
        if path.exists():
            return path
    raise CannotBeHad(f"{folder}/{name} is missing from this installation; installing again mends it")
