"""Which of the two rooms with the inner loops does the work."""

import importlib
import os
import stat
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from pathlib import Path
from types import ModuleType

import numpy as np

_uncompiled: ContextVar[bool] = ContextVar("uncompiled", default=False)


def loops() -> ModuleType:
    """`core.lay.kernel`, whose loops are compiled, or `core.lay.plainly` inside `uncompiled`, or where numba is not
    there, does not load, or finds no place to keep what it compiled."""
    return importlib.import_module("core.lay.plainly") if _uncompiled.get() else _compiled()


@contextmanager
def uncompiled(wanted: bool = True) -> Iterator[None]:
    """Work without compiled loops for a while: nothing has to be compiled first, but every move takes longer."""
    before = _uncompiled.set(wanted)
    try:
        yield
    finally:
        _uncompiled.reset(before)


@cache
def _compiled() -> ModuleType:
    for kept_in in (None, private_folder):
        try:
            if kept_in is not None:
                _keep_in(kept_in())
            return importlib.import_module("core.lay.kernel")
        except (ImportError, OSError, RuntimeError):
            continue
    return importlib.import_module("core.lay.plainly")


def _keep_in(folder: Path) -> None:
    """Have what is compiled kept in a folder, where there is a place neither beside the modules nor in the home."""
    from numba.core import config

    config.CACHE_DIR = str(folder)  # type: ignore[attr-defined]


def private_folder() -> Path:
    """A folder for temporary files that is this user's alone. Raises OSError if it is, or may be, another's."""
    whose = os.getuid() if hasattr(os, "getuid") else 0
    folder = Path(tempfile.gettempdir()) / f"stripewright-{whose}"
    folder.mkdir(mode=0o700, exist_ok=True)
    found = folder.lstat()
    if hasattr(os, "getuid") and (found.st_uid != whose or found.st_mode & 0o077 or not stat.S_ISDIR(found.st_mode)):
        raise PermissionError(f"{folder} is not this user's alone")
    return folder


def ready() -> None:
    """Have everything compiled, or loaded from where it was kept, by a run on one panel; seconds the first time."""
    if not _uncompiled.get():
        _tried_out()


@cache
def _tried_out() -> None:
    room = loops()
    pairs, still = np.full((1, 1, 1, 1, 2), np.inf), np.full((1, 1, 1, 2), np.inf)
    whose, other, column = (np.zeros(1, dtype=np.int64) for _ in range(3))
    least, most, v = np.zeros((1, 1)), np.ones((1, 1)), np.zeros(1)
    tables, rungs = (pairs, still, whose), np.empty((1, 1, 0))
    room.lowest(*tables, least, most, rungs, column, v, 0, 1.0)
    record, state = np.array([np.inf, 0.0]), np.ones(1, dtype=np.int64)
    places = (*tables, other, least, most, rungs, column, v)
    room.sweep(*places, np.ones((1, 2)), state, column.copy(), v.copy(), record, 1, 1)
    if hasattr(room, "hulls"):
        cuts, flat = np.array([0.0, 1.0]), np.zeros(1)
        room.hulls(cuts, flat, flat, flat, flat, cuts, flat, flat, flat, flat, np.zeros(1), np.zeros(1), np.zeros(1))
