"""The project file, version 1: UTF-8 JSON, suffix `.stripewright`."""

from pathlib import Path

import msgspec

from core.errors import inside
from core.files.atomic import write_atomically
from core.files.reading import bytes_of
from core.files.structure import structure_from
from core.model.project import Project
from core.model.validate import validate
from core.wording import tr

FORMAT = "stripewright-project"
_LEFT_OUT_EMPTY = ("pockets", "variants")


def read_project(path: Path | str) -> Project:
    """Read and validate a project file. Raises BadInput: one line with file, place, what is wrong, what is right."""
    return read_with_bytes(Path(path))[0]


def read_with_bytes(path: Path) -> tuple[Project, bytes]:
    """As `read_project`, and the bytes that were read."""
    with inside(str(path)):
        data = bytes_of(path, tr("the path of a project file"))
        return project_from_bytes(data), data


def project_from_bytes(data: bytes) -> Project:
    """Read and validate the content of a project file. Raises BadInput."""
    project = structure_from(data, Project, FORMAT)
    validate(project)
    return project


def project_to_bytes(project: Project) -> bytes:
    """The content of the file that holds a project."""
    raw = msgspec.to_builtins(project)
    for key in _LEFT_OUT_EMPTY:
        if not raw[key]:
            del raw[key]
    return msgspec.json.format(msgspec.json.encode(raw), indent=2) + b"\n"


def write_project(path: Path | str, project: Project) -> None:
    """Write a project file in one step. Raises BadInput if the place can't be written to."""
    write_atomically(Path(path), project_to_bytes(project))
