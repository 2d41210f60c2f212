"""Which of the two rooms with the inner loops does the work."""

import importlib
from functools import cache
from types import ModuleType


@cache
def loops() -> ModuleType:
    """`core.lay.kernel`, whose loops are compiled, or `core.lay.plainly` where numba is not there, does not load, or
    finds no place to keep what it compiled."""
    try:
        return importlib.import_module("core.lay.kernel")
    except (ImportError, OSError, RuntimeError):
        return importlib.import_module("core.lay.plainly")
