"""Reading one of our own files, JSON with a format and a version, into a structure; what is wrong, in our words."""

import re
import types
import typing
from typing import Any, TypeVar

import msgspec

from core.errors import BadInput
from core.wording import later, listed, tr

_LOCATED = re.compile(r"^(?P<what>.*?)(?: - at `(?P<place>.*)`)?$", re.DOTALL)


Structure = TypeVar("Structure", bound=msgspec.Struct)


def structure_from(
    data: bytes, root: type[Structure], file_format: str, what: str = later("Stripewright project")
) -> Structure:
    """The content of a file of a format, version 1, as a structure; `what` it is called. Raises BadInput."""
    raw = _json(data, what)
    _check_header(raw, file_format)
    try:
        return msgspec.convert(raw, root)
    except (msgspec.ValidationError, OverflowError, RecursionError) as error:
        raise _in_words(str(error), root) from None


def _json(data: bytes, what: str) -> dict[str, Any]:
    try:
        raw = msgspec.json.decode(data.removeprefix(b"\xef\xbb\xbf"))
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, ValueError) as error:
        raise BadInput(
            tr("it is not JSON ({error})", error=_one_line(str(error))), right=tr("a {what} in UTF-8", what=tr(what))
        ) from None
    if not isinstance(raw, dict):
        raise BadInput(tr("it holds no JSON object"), right=tr("a {what} starts with {{", what=tr(what)))
    return raw


def _check_header(raw: dict[str, Any], wanted: str) -> None:
    if raw.get("format") != wanted:
        raise BadInput(
            tr("its format is {value}", value=_short(raw.get("format"))),
            "format",
            tr('"{wanted}" is right', wanted=wanted),
        )
    version = raw.get("version")
    if isinstance(version, int) and not isinstance(version, bool) and version > 1:
        raise BadInput(
            tr("version {value} is newer than this program", value=_short(version)),
            "version",
            tr("1 is what it reads; update it"),
        )
    if version != 1 or isinstance(version, bool):
        raise BadInput(tr("the version is {value}", value=_short(version)), "version", tr("1 is right"))


def _short(value: object) -> str:
    text = repr(value) if value is not None else tr("missing")
    return text if len(text) <= 40 else text[:37] + "..."


def _in_words(message: str, root: type) -> BadInput:
    """An error of the validation library, found while it read a structure of type `root`, as a BadInput."""
    found = _LOCATED.match(message)
    what, path = (found["what"], found["place"] or "") if found else (message, "")
    place = path.removeprefix("$").removeprefix(".").replace("[...]", tr(" (an entry)"))
    said = _of_a_key(what, path, root) or _of_a_value(what, path, root)
    wrong, right = said or (_one_line(what), tr("see the file format in the README"))
    return BadInput(wrong, place, right)


def _of_a_key(what: str, path: str, root: type) -> tuple[str, str] | None:
    """What is wrong with a key, and what would be right; None where it is something else."""
    key = re.search(r"`([^`]*)`", what)
    if "unknown field" in what and key:
        keys = listed(_keys_at(path, root))
        return tr("there is no key {key!r}", key=key[1]), tr("the keys here are {keys}", keys=keys)
    if "missing required field" in what and key:
        return tr("the key {key!r} is missing", key=key[1]), tr("it must be given")
    return None


def _of_a_value(what: str, path: str, root: type) -> tuple[str, str] | None:
    """What is wrong with a value, and what would be right; None where it is something else."""
    if what.startswith("Invalid enum value"):
        wrong = _short(what.removeprefix("Invalid enum value").strip().strip("'"))
        return tr("{value} stands there", value=wrong), tr("{choices} is right", choices=_choices_at(path, root))
    if "out of range" in what:
        return tr("the number is too large"), tr("a number of mm that a garment can have")
    if kinds := re.search(r"Expected `([^`]*)`, got `([^`]*)`", what):
        right, wrong = _plain(kinds[1]), _plain(kinds[2])
        return tr("{kind} stands there", kind=wrong), tr("{kind} is right", kind=right)
    if (
        counts := re.search(r"Expected `array` of (?:length|at least length|at most length) (\d+), got (\d+)", what)
    ) is not None:
        right, wrong = counts[1], counts[2]
        return tr("a list of {number} stands there", number=wrong), tr("a list of {number} is right", number=right)
    return None


_PLAIN = {
    "float": later("a number"),
    "int": later("a whole number"),
    "str": later("a text"),
    "bool": later("true or false"),
    "array": later("a list"),
    "object": later("an object with keys"),
    "null": "null",
}


def _plain(kinds: str) -> str:
    return tr(" or ").join(tr(_PLAIN.get(kind.strip(), kind.strip())) for kind in kinds.split("|"))


def _keys_at(path: str, root: type) -> tuple[str, ...]:
    """The keys of the structure at a path such as `$.cloths[0].repeat`."""
    return tuple(field.encode_name for field in msgspec.structs.fields(_struct_at(path, root)))


def _struct_at(path: str, root: type) -> Any:
    here: Any = root
    for name, _ in re.findall(r"\.(\w+)|(\[[^\]]*\])", path):
        here = _struct_in(typing.get_type_hints(here)[name]) if name else here
    return here


def _choices_at(path: str, root: type) -> str:
    """The values that a key may have that takes one of a few."""
    holder, _, name = path.rpartition(".")
    hint = typing.get_type_hints(_struct_at(holder, root))[name]
    options = [str(option) for option in typing.get_args(hint) if option is not type(None)]
    return " or ".join([", ".join(options[:-1]), options[-1]] if len(options) > 1 else options)


def _struct_in(hint: Any) -> Any:
    if isinstance(hint, type) and issubclass(hint, msgspec.Struct):
        return hint
    arguments = typing.get_args(hint) if typing.get_origin(hint) or isinstance(hint, types.UnionType) else ()
    return next((found for argument in arguments if (found := _struct_in(argument)) is not None), None)


def _one_line(text: str) -> str:
    return " ".join(text.split())[:200]
