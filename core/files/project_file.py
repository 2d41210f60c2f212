"""The project file, version 1: UTF-8 JSON, suffix `.stripewright`."""

import re
import types
import typing
from pathlib import Path
from typing import Any

import msgspec

from core.errors import BadInput
from core.files.atomic import write_atomically
from core.files.reading import bytes_of
from core.model.project import Project
from core.model.validate import validate

SUFFIX = ".stripewright"
_LEFT_OUT_EMPTY = ("variants",)
_LOCATED = re.compile(r"^(?P<what>.*?)(?: - at `(?P<place>.*)`)?$", re.DOTALL)


def read_project(path: Path | str) -> Project:
    """Read and validate a project file. Raises BadInput: one line with file, place, what is wrong, what is right."""
    path = Path(path)
    try:
        return project_from_bytes(bytes_of(path, "the path of a project file"))
    except BadInput as error:
        place = f"{path}, {error.place}" if error.place else str(path)
        raise BadInput(error.what, place, error.right) from None


def project_from_bytes(data: bytes) -> Project:
    """Read and validate the content of a project file. Raises BadInput."""
    raw = _json(data)
    _check_header(raw)
    try:
        project = msgspec.convert(raw, Project)
    except (msgspec.ValidationError, OverflowError, RecursionError) as error:
        raise _readable(str(error)) from None
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


def _json(data: bytes) -> dict[str, Any]:
    try:
        raw = msgspec.json.decode(data.removeprefix(b"\xef\xbb\xbf"))
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, ValueError) as error:
        raise BadInput(f"it is not JSON ({_one_line(str(error))})", right="a Stripewright project in UTF-8") from None
    if not isinstance(raw, dict):
        raise BadInput("it holds no JSON object", right="a Stripewright project starts with {")
    return raw


def _check_header(raw: dict[str, Any]) -> None:
    if raw.get("format") != "stripewright-project":
        raise BadInput(f"its format is {_short(raw.get('format'))}", "format", '"stripewright-project" is right')
    version = raw.get("version")
    if isinstance(version, int) and not isinstance(version, bool) and version > 1:
        raise BadInput(
            f"version {_short(version)} is newer than this program", "version", "1 is what it reads; update it"
        )
    if version != 1 or isinstance(version, bool):
        raise BadInput(f"the version is {_short(version)}", "version", "1 is right")


def _readable(message: str) -> BadInput:
    """An error of the validation library in this project's words."""
    found = _LOCATED.match(message)
    what, path = (found["what"], found["place"] or "") if found else (message, "")
    key = re.search(r"`([^`]*)`", what)
    place = path.removeprefix("$").removeprefix(".").replace("[...]", " (an entry)")
    if "unknown field" in what and key:
        return BadInput(f"there is no key {key[1]!r}", place, f"the keys here are {', '.join(_keys_at(path))}")
    if "missing required field" in what and key:
        return BadInput(f"the key {key[1]!r} is missing", place, "it must be given")
    if what.startswith("Invalid enum value"):
        wrong = what.removeprefix("Invalid enum value").strip()
        return BadInput(f"{wrong} stands there", place, f"{_choices_at(path)} is right")
    if "out of range" in what:
        return BadInput("the number is too large", place, "a number of mm that a garment can have")
    expected = re.search(r"Expected `([^`]*)`(?:, got `([^`]*)`)?", what)
    if expected and expected[2]:
        return BadInput(f"{_plain(expected[2])} stands there", place, f"{_plain(expected[1])} is right")
    return BadInput(_one_line(what), place, "see the file format in the README")


_PLAIN = {
    "float": "a number",
    "int": "a whole number",
    "str": "a text",
    "bool": "true or false",
    "array": "a list",
    "object": "an object with keys",
    "null": "null",
}


def _plain(kinds: str) -> str:
    return " or ".join(_PLAIN.get(kind.strip(), kind.strip()) for kind in kinds.split("|"))


def _keys_at(path: str) -> tuple[str, ...]:
    """The keys of the structure at a path such as `$.cloths[0].repeat`."""
    return tuple(field.encode_name for field in msgspec.structs.fields(_struct_at(path)))


def _struct_at(path: str) -> Any:
    here: Any = Project
    for name, _ in re.findall(r"\.(\w+)|(\[[^\]]*\])", path):
        here = _struct_in(typing.get_type_hints(here)[name]) if name else here
    return here


def _choices_at(path: str) -> str:
    """The values that a key may have that takes one of a few."""
    holder, _, name = path.rpartition(".")
    hint = typing.get_type_hints(_struct_at(holder))[name]
    options = [str(option) for option in typing.get_args(hint) if option is not type(None)]
    return " or ".join([", ".join(options[:-1]), options[-1]] if len(options) > 1 else options)


def _struct_in(hint: Any) -> Any:
    if isinstance(hint, type) and issubclass(hint, msgspec.Struct):
        return hint
    arguments = typing.get_args(hint) if typing.get_origin(hint) or isinstance(hint, types.UnionType) else ()
    return next((found for argument in arguments if (found := _struct_in(argument)) is not None), None)


def _short(value: object) -> str:
    text = repr(value) if value is not None else "missing"
    return text if len(text) <= 40 else text[:37] + "..."


def _one_line(text: str) -> str:
    return " ".join(text.split())[:200]
