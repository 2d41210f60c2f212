"""The project's own family of errors. Every message is one line that a maker can act on."""

from collections.abc import Iterator
from contextlib import contextmanager


class StripewrightError(Exception):
    """Root of all errors that the project raises on purpose."""


class BadInput(StripewrightError, ValueError):
    """Something that was read is wrong: says what, where, and what would be right."""

    def __init__(self, what: str, place: str = "", right: str = "") -> None:
        self.what, self.place, self.right = what, place, right
        super().__init__("; ".join(part for part in (f"{place}: {what}" if place else what, right) if part))


@contextmanager
def inside(place: str) -> Iterator[None]:
    """Put a file, or a larger place, before the place that a BadInput raised in the block names."""
    try:
        yield
    except BadInput as error:
        raise BadInput(error.what, f"{place}, {error.place}" if error.place else place, error.right) from None


class CannotBeHad(StripewrightError):
    """The input is sound, but what was asked for does not exist (it does not fit the cloth, say)."""


class Stopped(StripewrightError):
    """The job was stopped from outside before it had a result to give."""
