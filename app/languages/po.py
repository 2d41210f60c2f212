"""Translations as text to be edited (`.po`) and as tables to be loaded (`.mo`), in the formats of GNU gettext.

Formats: GNU gettext manual, "The Format of PO Files" and "The Format of GNU MO Files".
"""

import ast
import json
import re
import struct
from collections.abc import Iterable

Entry = tuple[str, ...]
"""A text, or its form for one and its form for more."""

Translation = dict[Entry, tuple[str, ...]]
"""Texts, and each in the forms of another language: one form, or as many as the language counts in."""

_LINE = re.compile(r'^(msgid|msgid_plural|msgstr(?:\[\d+\])?)?\s*("(?:[^"\\]|\\.)*")\s*$')
_MAGIC = 0x950412DE


def written(entries: Iterable[Entry], head: str, known: Translation) -> str:
    """A file to be edited: every text, with its translation where there is one."""
    return "\n".join([_block(("",), (head,)), *(_block(entry, known.get(entry, ())) for entry in entries)])


def _block(entry: Entry, forms: tuple[str, ...]) -> str:
    lines = [f"{name} {_quoted(text)}" for name, text in zip(("msgid", "msgid_plural"), entry, strict=False)]
    if len(entry) == 1:
        return "\n".join([*lines, f"msgstr {_quoted(forms[0] if forms else '')}", ""])
    shown = forms or ("", "")
    return "\n".join([*lines, *(f"msgstr[{n}] {_quoted(form)}" for n, form in enumerate(shown)), ""])


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def read_po(text: str) -> tuple[str, Translation]:
    """The head of a file, and the translations in it that are there."""
    known: Translation = {}
    for block in re.split(r"\n\s*\n", text):
        fields = _fields(block)
        entry = tuple(fields[name] for name in ("msgid", "msgid_plural") if name in fields)
        forms = tuple(value for name, value in fields.items() if name.startswith("msgstr"))
        if entry and all(forms):
            known[entry] = forms
    return known.pop(("",), ("",))[0], known


def _fields(block: str) -> dict[str, str]:
    """The strings of one block by their names; a string may run over several lines."""
    fields: dict[str, str] = {}
    name = ""
    for found in filter(None, map(_LINE.match, block.splitlines())):
        name = found[1] or name
        fields[name] = fields.get(name, "") + ast.literal_eval(found[2])
    return fields


def compiled(head: str, known: Translation) -> bytes:
    """The table that is loaded: keys sorted, then their offsets, then the strings, each ended by a zero byte."""
    table = {"": head, **{"\0".join(entry): "\0".join(forms) for entry, forms in known.items()}}
    keys = sorted(table, key=lambda key: key.encode())
    strings = [part.encode() for part in (*keys, *(table[key] for key in keys))]
    at, places = 28 + 8 * len(strings), []
    for string in strings:
        places += [len(string), at]
        at += len(string) + 1
    first = struct.pack("<7I", _MAGIC, 0, len(keys), 28, 28 + 8 * len(keys), 0, 0)
    return first + struct.pack(f"<{len(places)}I", *places) + b"".join(string + b"\0" for string in strings)
