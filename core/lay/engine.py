"""Which of the two rooms with the inner loops does the work."""

import importlib
from functools import cache
from types import ModuleType

import numpy as np


@cache
def loops() -> ModuleType:
    """`core.lay.kernel`, whose loops are compiled, or `core.lay.plainly` where numba is not there, does not load, or
    finds no place to keep what it compiled."""
    try:
        return importlib.import_module("core.lay.kernel")
    except (ImportError, OSError, RuntimeError):
        return importlib.import_module("core.lay.plainly")


@cache
def ready() -> None:
    """Have everything compiled, or loaded from where it was kept, by a run on one panel; seconds the first time."""
    room = loops()
    pairs, still = np.full((1, 1, 1, 1, 2), np.inf), np.full((1, 1, 1, 2), np.inf)
    whose, twin, column = (np.full(1, value, dtype=np.int64) for value in (0, -1, 0))
    least, most, v = np.zeros((1, 1)), np.ones((1, 1)), np.zeros(1)
    tables = pairs, still, whose
    room.lowest(*tables, least, most, column, v, 0, 1.0)
    record, state = np.array([np.inf, 0.0]), np.ones(1, dtype=np.int64)
    room.sweep(*tables, twin, least, most, column, v, np.ones((1, 2)), state, column.copy(), v.copy(), record, 1, 1)
    if hasattr(room, "hulls"):
        cuts, flat = np.array([0.0, 1.0]), np.zeros(1)
        room.hulls(cuts, flat, flat, flat, flat, cuts, flat, flat, flat, flat, np.zeros(1), np.zeros(1), np.zeros(1))
