"""No text that a user can read goes past `tr`: found by reading the program's own source."""

import ast
import re
from collections.abc import Iterator
from typing import get_args

import pytest

from app.languages.gather import APP, CORE, FORMS
from core.papers.drawing import Role
from core.papers.layers import LAYERS
from core.papers.neighbours import WAYS
from core.seams.remedy import METHODS

NOT_THE_SCREEN = re.compile(r"(^cli|^gather|^po|^catalogues|^action_table|^theme|^entry|^resources)$")
"""The command line speaks English; the table of actions is translated row by row where it is shown."""

PASSED_OVER = {"setValue", "value", "setObjectName", "setStyle", "QKeySequence", "QShortcut", "setShortcut"}
PASSED_OVER |= {
    "ValueError",
    "isinstance",
    "cast",
    "debug",
    "exception",
    "startswith",
    "endswith",
    "partition",
    "rpartition",
    "split",
    "search",
}
"""Calls whose texts nobody reads: settings, names of keys and objects, the log, patterns."""

NAMES = {
    "Ctrl+Enter", "Ctrl+Return", "Esc", "Stripewright", "as drawn", "per pixel",
    "rim hollow", "allowance, seam", "allowance, rim", "allowance, crown", "front edge", "back edge", "left edge",
    "right edge", "0/right edge", "0/left edge", "hem facing", "top lining", "Made", "cut line", "net line",
    "line before", "put away", "cutting papers", "full size", "edge strips", "seam sheet", "full-size plan",
    "CloseUp", "SeamTable", "Inspector", "GarmentPicture", "SewingPage", "ClothPage", "SwatchPage", "CutList",
}  # fmt: skip
"""Names that are kept or compared, not read: keys, edges, kinds, roles, classes; and the program's own name."""


_KEPT = re.compile(r"(nudge|turn|repeats) 0$|0 of 0$|turn of 0$|0 tab$|0\[\*\]")
"""Made names that nobody reads: series of steps, settings; and the title of the window."""


def _is_readable(text: str) -> bool:
    letters = re.search(r"[A-Za-z]{2,}", text)
    return bool(letters) and (" " in text.strip() or bool(re.match(r"[A-Z][a-z]", text))) and text not in NAMES


def untranslated(source: str) -> Iterator[tuple[int, str]]:
    """Line and text of every readable literal outside `tr` and `later`."""
    return _in(ast.parse(source))


def _in(node: ast.AST) -> Iterator[tuple[int, str]]:
    if _nobody_reads(node):
        return
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and _is_readable(node.value):
        yield node.lineno, node.value
    if isinstance(node, ast.JoinedStr):
        words = "".join(part.value if isinstance(part, ast.Constant) else "0" for part in node.values)
        if _is_readable(words) and not _KEPT.match(words):
            yield node.lineno, words
        yield from (hit for part in node.values if isinstance(part, ast.FormattedValue) for hit in _in(part.value))
        return
    yield from (hit for child in _parts(node) for hit in _in(child))


def _nobody_reads(node: ast.AST) -> bool:
    if isinstance(node, ast.Call):
        called = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        return called in (*FORMS, *PASSED_OVER) and not any(isinstance(arg, ast.Call) for arg in node.args)
    is_docstring = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    return is_docstring or isinstance(node, ast.Compare | ast.arg | ast.Assert)


def _parts(node: ast.AST) -> list[ast.AST]:
    """Children without annotations, subscripts and keys of tables."""
    left_out = [getattr(node, name, None) for name in ("annotation", "returns")]
    if isinstance(node, ast.Subscript):
        left_out.append(node.slice)
    return [child for child in ast.iter_child_nodes(node) if child not in left_out]


SCREEN = [
    path
    for path in sorted(APP.rglob("*.py"))
    if path.parent.name != "command_line" and not NOT_THE_SCREEN.search(path.stem)
]


def test_every_readable_text_of_the_screen_goes_through_tr():
    found = [
        f"{path.relative_to(APP)}:{line}: {text[:60]!r}"
        for path in SCREEN
        for line, text in untranslated(path.read_text(encoding="utf-8"))
    ]
    assert not found, "\n".join(found)


NOT_READ = ("svg", "dxf_out", "pdf_layers", "pens", "wording", "lettering", "colour")
"""Rooms of the thinking that write formats for programs, and the one that looks the texts up."""

KEPT = {*NAMES, *get_args(Role), *METHODS, *LAYERS, *WAYS} | {
    "inner edge", "other end", "seam side", "inner side", "upper end", "lower end", "left side", "right side",
    "upper side", "lower side", "right end", "left end", "centre front", "centre back", "0 to 0", "rib 0", "0 again",
    "0 pocket bag", "hip depth", "allowance, 0", "own widths, 0", "sharing, 0", "let out", "hem widths", "mirror pairs",
    "match, centre", "0, remnant", "0, repeat", "0, crosswise", "0, stripes", "0, stripe 0", "0, on", "0, edges",
    "0, before_shift", "each way", "out of time", "share of the length", "distance from the other end",
    "Invalid enum value", "Structure", "Known", "Coordinate", "Polygon", "LineString",
    "0 is not this user's alone",
}  # fmt: skip
"""Names in the file, places in it and fields, states and kinds; and what is said of the program's own folder."""


def test_every_sentence_of_the_thinking_goes_through_tr():
    found = [
        f"{path.relative_to(CORE)}:{line}: {text[:60]!r}"
        for path in sorted(CORE.rglob("*.py"))
        if path.stem not in NOT_READ
        for line, text in untranslated(path.read_text(encoding="utf-8"))
        if text not in KEPT and not text.startswith("^")
    ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    ("source", "texts"),
    [
        ('QLabel("Two words")', ["Two words"]),
        ('QLabel(tr("Two words"))', []),
        ('TABLE = (later("Hem"), "hem")', []),
        ('button.setText("Remove")', ["Remove"]),
        ('say(f"{count} pieces cut")', ["0 pieces cut"]),
        ("say(f\"{x}{'place is' if one else more}\")", ["place is"]),
        (
            'def f(a: "Some thing") -> "Some thing":\n    """What it does."""\n    return a["Key word"] == "Key word"',
            [],
        ),
    ],
)
def test_what_counts_as_readable(source, texts):
    assert [text for _, text in untranslated(source)] == texts
