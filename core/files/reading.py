"""Reading a file into memory, never more of it than is sound."""

from pathlib import Path

from core.errors import BadInput
from core.wording import tr

LARGEST_BYTES = 16 * 1024 * 1024


def bytes_of(path: Path, right: str) -> bytes:
    """The content of a file. Raises BadInput: it can't be read (`right` says what would do), it is too large."""
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
        size = max(len(data), path.stat().st_size)
    except OSError as error:
        raise BadInput(tr("it can't be read ({strerror})", strerror=error.strerror), right=right) from None
    if size > LARGEST_BYTES:
        raise BadInput(
            tr("the file has {size:.0f} MB", size=size / 1000000.0),
            right=tr("up to {largest_bytes:.0f} MB is right", largest_bytes=LARGEST_BYTES / 1000000.0),
        )
    return data
