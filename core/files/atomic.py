"""Writing a file whole or not at all."""

import os
import tempfile
from pathlib import Path

from core.errors import BadInput
from core.wording import tr


def write_atomically(path: Path, data: bytes) -> None:
    """Replace a file by new content in one step; a failure leaves the old file as it was. Raises BadInput.

    Where the path is a link, what it leads to is replaced; a file that may not be written to is left alone.
    """
    path = path.resolve()
    if path.exists() and not os.access(path, os.W_OK):
        raise BadInput(tr("it is read-only"), str(path), tr("another name, or another folder"))
    try:
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        raise BadInput(
            tr("it can't be written ({strerror})", strerror=error.strerror),
            str(path),
            tr("a folder that can be written to"),
        ) from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, _mode_for(path))
        os.replace(temporary, path)
    except OSError as error:
        Path(temporary).unlink(missing_ok=True)
        raise BadInput(
            tr("it can't be written ({strerror})", strerror=error.strerror),
            str(path),
            tr("a file that can be written to"),
        ) from None


def _mode_for(path: Path) -> int:
    if path.exists():
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
