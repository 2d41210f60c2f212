"""Gathers every text that a user reads into the template, and brings the translations up to date with it.

`python -m app.languages.gather` writes `template.pot`, updates each `stripewright_CODE.po`, and compiles it into the
`.mo` that the program loads. Texts are the literals in `tr`, `tr_n` and `later`, and what stands in the tables of
actions and keys, which go through `tr` when they are shown.
"""

import ast
from collections.abc import Iterable
from pathlib import Path

from app.languages import catalogues
from app.languages.po import Entry, Translation, compiled, read_po, written

APP = Path(__file__).resolve().parents[1]
CORE = APP.parent / "core"
FORMS = {"tr": 1, "later": 1, "tr_n": 2}
"""What marks a text, and how many literals it takes."""


def texts_of(source: str) -> list[Entry]:
    """The marked literals in a module's source, in order."""
    calls = (node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call))
    found = [(call.lineno, call.col_offset, entry) for call in calls for entry in _entries(call)]
    return [entry for *_, entry in sorted(found)]


def _entries(call: ast.Call) -> list[Entry]:
    """The text of a call, its two forms, or each of two texts between which it chooses."""
    forms = FORMS.get(call.func.id, 0) if isinstance(call.func, ast.Name) else 0
    texts = [_literals(arg) for arg in call.args[:forms]]
    if forms == 1 and texts:
        return [(text,) for text in texts[0]]
    return [(one, more) for one, more in zip(*texts, strict=False)] if len(texts) == 2 else []


def _literals(arg: ast.expr) -> list[str]:
    if isinstance(arg, ast.IfExp):
        return [*_literals(arg.body), *_literals(arg.orelse)]
    return [arg.value] if isinstance(arg, ast.Constant) and isinstance(arg.value, str) else []


def texts_of_tables() -> list[str]:
    """The texts of actions, menus and hands, the titles of the help, the ways to true a seam, and colours."""
    from app.action_table import HANDS, MENUS, TABLE
    from app.help.topics import TOPICS
    from core.seams.remedy import METHODS
    from core.swatch.colour import PLAIN_NAMES

    rows = [text for row in TABLE for text in (row.text, row.tip)]
    return [
        *MENUS,
        *rows,
        *(text for pair in HANDS for text in pair),
        *(topic.title for topic in TOPICS),
        *METHODS,
        *PLAIN_NAMES,
    ]


def all_texts() -> list[Entry]:
    """Every text once; one that is counted somewhere has both its forms."""
    paths = [*sorted(APP.rglob("*.py")), *sorted(CORE.rglob("*.py"))]
    found = [entry for path in paths for entry in texts_of(path.read_text(encoding="utf-8"))]
    entries: dict[str, Entry] = {}
    for entry in (*((text,) for text in texts_of_tables()), *found):
        if entry[0] and len(entry) > len(entries.get(entry[0], ())):
            entries[entry[0]] = entry
    return list(entries.values())


def update(path: Path, entries: Iterable[Entry]) -> None:
    """Bring a translation up to date and compile it."""
    head, known = read_po(path.read_text(encoding="utf-8"))
    path.write_text(written(entries, head, known), encoding="utf-8")
    path.with_suffix(".mo").write_bytes(compiled(head, known))


def main() -> None:
    """Write the template and update the translations."""
    entries = all_texts()
    head = "Content-Type: text/plain; charset=UTF-8\nPlural-Forms: nplurals=2; plural=(n != 1);\n"
    nothing: Translation = {}
    (catalogues.folder() / "template.pot").write_text(written(entries, head, nothing), encoding="utf-8")
    for path in catalogues.folder().glob("stripewright_*.po"):
        update(path, entries)


if __name__ == "__main__":
    main()
