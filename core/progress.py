"""The one small callback through which long jobs report and can be stopped."""

from collections.abc import Callable

Progress = Callable[[float, str], bool]
"""`progress(share, note)`: share done from 0 to 1, what is being done; returns False to stop the job."""


def silent(share: float, note: str) -> bool:
    """Report nothing, never stop."""
    return True


def part(progress: Progress, start: float, end: float) -> Progress:
    """A callback for a sub-job that covers the shares from `start` to `end` of the whole."""
    return lambda share, note: progress(start + (end - start) * share, note)
