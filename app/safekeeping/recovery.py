"""Recovery files: unsaved work, kept in a folder of the program's own, each window's by itself.

A window has a name that no other has. `NAME.stripewright` holds the project as it was kept last, if there is one;
`NAME.json` says what it was, and what stood in pages half filled in; and `NAME.lock` is locked by the system for as
long as the window's process lives. A lock that can be had belongs to nobody any more, whichever process has the old
one's number by now.
"""

import contextlib
import os
import secrets
from datetime import datetime
from pathlib import Path
from typing import Any

import msgspec
from PySide6.QtCore import QLockFile

from app.safekeeping.stamp import Stamp
from app.words import tr
from core.errors import BadInput
from core.files.atomic import write_atomically
from core.files.project_file import project_to_bytes, read_project
from core.files.suffixes import SUFFIX
from core.model.project import Project

PUT_AWAY = "put away"
LEFT = 10
"""So many files that were put away are left, the last ones."""
_ANY_AGE_MS = 1
"""A lock counts by whether the system holds it, not by its age."""


class Origin(msgspec.Struct, frozen=True):
    """What a recovery file was: title, the project's own file with its stamp, steps not saved, local time, process.

    Without a project there is no title. `saved` says that the file has all of it. `pages` are those half filled in, the
    uppermost last.
    """

    title: str
    path: str | None = None
    stamp: Stamp | None = None
    changes: int = 0
    when: str = ""
    pid: int = 0
    saved: bool = False
    pages: list[dict[str, Any]] = []

    @property
    def moment(self) -> datetime | None:
        """When it was kept."""
        try:
            return datetime.fromisoformat(self.when)
        except ValueError:
            return None


class OwnFile:
    """The recovery file of one window. Nothing is on disk until something was written."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._name = f"{os.getpid()}-{secrets.token_hex(4)}"
        self._lock: QLockFile | None = None

    @property
    def path(self) -> Path:
        """Where the project is kept."""
        return self._folder / f"{self._name}{SUFFIX}"

    def write(self, project: Project | None, origin: Origin) -> None:
        """Keep a project, unless the one kept before still counts, and what it was.

        Raises BadInput if it can't be written; what was kept before is then still there.
        """
        self._claim()
        if project is not None:
            write_atomically(self.path, project_to_bytes(project))
        write_atomically(self.path.with_suffix(".json"), msgspec.json.encode(origin))

    def _claim(self) -> None:
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise BadInput(
                tr("it can't be made ({why})").format(why=error.strerror), str(self._folder), tr("a folder")
            ) from None
        if self._lock is None:
            lock = _lock(self.path)
            if not lock.tryLock(0):
                raise BadInput(tr("it can't be locked"), str(self._folder), tr("a folder that can be written to"))
            self._lock = lock

    def remove(self) -> None:
        """Nothing needs to be kept any more."""
        _remove(self.path)

    def close(self) -> None:
        """Let go of what is kept, if anything: the next start may offer it."""
        if self._lock:
            self._lock.unlock()
            self._lock = None


class Orphan:
    """A recovery file whose window is gone, held against other windows while this one asks what becomes of it."""

    def __init__(self, path: Path, lock: QLockFile) -> None:
        self.path, self._lock = path, lock
        self.origin = _origin(path)

    def read(self) -> Project | None:
        """The project; None where only pages were kept. Raises BadInput if it can't be read."""
        return read_project(self.path) if self.origin.title or self.path.exists() else None

    def remove(self) -> None:
        """It is kept elsewhere now."""
        _remove(self.path)
        self.let_go()

    def put_away(self) -> None:
        """Never offer it again; the last few stay in a folder of their own."""
        away = self.path.parent / PUT_AWAY
        try:
            away.mkdir(exist_ok=True)
            for file in _parts(self.path):
                file.replace(away / file.name)
            for old in _names(away)[LEFT:]:
                _remove(old)
        except OSError:
            pass  # it stays where it is and is offered once more
        else:
            _remove(self.path)
        self.let_go()

    def let_go(self) -> None:
        """Leave it for the next start."""
        self._lock.unlock()


def find_orphans(folder: Path) -> list[Orphan]:
    """What windows left behind that are gone, the latest first. All of it is held until it is let go."""
    found = []
    for path in _names(folder):
        lock = _lock(path)
        if lock.tryLock(0):
            found.append(Orphan(path, lock))
    return found


def _names(folder: Path) -> list[Path]:
    """Where all projects in a folder are kept, or would be, the latest first."""
    files = [*folder.glob(f"*{SUFFIX}"), *folder.glob("*.json")]
    return list(dict.fromkeys(file.with_suffix(SUFFIX) for file in sorted(files, key=_age, reverse=True)))


def _parts(path: Path) -> list[Path]:
    """The files that are there of one recovery file."""
    return [file for file in (path, path.with_suffix(".json")) if file.exists()]


def _lock(path: Path) -> QLockFile:
    lock = QLockFile(str(path.with_suffix(".lock")))
    lock.setStaleLockTime(_ANY_AGE_MS)
    return lock


def _age(path: Path) -> int:
    try:
        return path.stat().st_mtime_ns
    except OSError:
        return 0


def _origin(path: Path) -> Origin:
    try:
        return msgspec.json.decode(path.with_suffix(".json").read_bytes(), type=Origin)
    except (OSError, msgspec.DecodeError):
        when = datetime.fromtimestamp(_age(path) / 1e9).isoformat(timespec="seconds")
        return Origin(tr("Untitled"), when=when)


def _remove(path: Path) -> None:
    """Remove a recovery file, what belongs to it, and what an interrupted writing of it left."""
    for file in (path, path.with_suffix(".json"), *path.parent.glob(f".{path.stem}.*")):
        with contextlib.suppress(OSError):  # a file too many is no reason to disturb the work
            file.unlink(missing_ok=True)
