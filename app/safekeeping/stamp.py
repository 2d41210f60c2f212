"""Whether a file on disk is still the one that was read or written."""

import hashlib
import os
from pathlib import Path
from typing import NamedTuple

import msgspec

from core.files.project_file import read_with_bytes
from core.model.project import Project


class Stamp(msgspec.Struct, frozen=True):
    """What tells one content of a file from another."""

    mtime_ns: int
    size: int
    sha256: str


def stamp_of(path: Path) -> Stamp | None:
    """The stamp of a file; None where there is none that can be read."""
    try:
        return _stamp(path.stat(), path.read_bytes())
    except OSError:
        return None


def _stamp(at: os.stat_result, data: bytes) -> Stamp:
    return Stamp(at.st_mtime_ns, at.st_size, hashlib.sha256(data).hexdigest())


class FileRead(NamedTuple):
    """A project file as it was read."""

    path: Path
    project: Project
    stamp: Stamp | None


def read_stamped(path: Path) -> FileRead:
    """Read a project file once, for the project and for the stamp. Raises BadInput as `read_project` does."""
    try:
        at = path.stat()
    except OSError:
        at = None
    project, data = read_with_bytes(path)
    return FileRead(path, project, _stamp(at, data) if at else None)


class DiskCopy:
    """The file that a project came from or was saved to, as it was then."""

    def __init__(self) -> None:
        self.path: Path | None = None
        self.stamp: Stamp | None = None
        self._told: Stamp | None = None

    def note(self, path: Path | None, stamp: Stamp | None) -> None:
        """From now on `path` with this content is the file that is known."""
        self.path, self.stamp, self._told = path, stamp, stamp

    def now(self) -> Stamp | None:
        """The stamp of the file as it is now; None where it is gone. Reads it only if time or size are others."""
        if self.path is None:
            return None
        try:
            at = self.path.stat()
        except OSError:
            return None
        known = (self._told, self.stamp)
        same = (it for it in known if it and (it.mtime_ns, it.size) == (at.st_mtime_ns, at.st_size))
        return next(same, None) or stamp_of(self.path)

    def changed(self) -> bool:
        """Whether another content stands there now. A file that is gone, or can't be read, is none."""
        now = self.now()
        return now is not None and self.stamp is not None and now.sha256 != self.stamp.sha256

    def news(self) -> bool:
        """Whether another content stands there that was not told of yet; from now on it counts as told."""
        now = self.now()
        if now is None or self._told is None or now.sha256 == self._told.sha256:
            return False
        self._told = now
        return True
