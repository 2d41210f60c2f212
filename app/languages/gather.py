"""Gathers every text that the screen shows into the template, and brings the translations up to date with it.

`python -m app.languages.gather` writes `template.ts` and updates each `stripewright_CODE.ts`; then
`pyside6-lrelease app/languages/stripewright_CODE.ts` makes the file that the program loads.

Texts are the literals in `tr` and `later`, and what stands in the tables of actions and keys, which go through `tr`
when they are shown.
"""

import ast
from pathlib import Path
from xml.etree import ElementTree

APP = Path(__file__).resolve().parents[1]
HERE = Path(__file__).resolve().parent


def texts_of(source: str) -> list[str]:
    """The literals in `tr` and `later` in a module's source, in order."""
    calls = (node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call))
    firsts = [call.args[0] for call in calls if _called(call) in ("tr", "later") and call.args]
    literals = [first for first in firsts if isinstance(first, ast.Constant) and isinstance(first.value, str)]
    return [one.value for one in sorted(literals, key=lambda one: (one.lineno, one.col_offset))]


def _called(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else ""


def texts_of_tables() -> list[str]:
    """The texts of actions, menus and hands, and the titles of the help."""
    from app.action_table import HANDS, MENUS, TABLE
    from app.help.topics import TOPICS
    from core.derive.choices import AS_IT_IS, CENTRES, END_FOR_END, NOT_MATCHED, ONE_WAY

    rows = [text for row in TABLE for text in (row.text, row.tip)]
    choices = (AS_IT_IS, END_FOR_END, ONE_WAY, NOT_MATCHED, *CENTRES.values())
    return [*MENUS, *rows, *choices, *(text for pair in HANDS for text in pair), *(topic.title for topic in TOPICS)]


def all_texts() -> list[str]:
    """Every text once."""
    found = [text for path in sorted(APP.rglob("*.py")) for text in texts_of(path.read_text(encoding="utf-8"))]
    return list(dict.fromkeys(text for text in (*texts_of_tables(), *found) if text))


def translations_in(path: Path) -> dict[str, str]:
    """What a translation file has already: texts with their translations."""
    if not path.exists():
        return {}
    messages = ElementTree.parse(path).getroot().iter("message")
    pairs = ((message.findtext("source", ""), message.findtext("translation", "")) for message in messages)
    return {source: translation for source, translation in pairs if translation}


def written(texts: list[str], known: dict[str, str], language: str = "") -> bytes:
    """A translation file of the texts, with the translations that are known."""
    root = ElementTree.Element("TS", {"version": "2.1", **({"language": language} if language else {})})
    context = ElementTree.SubElement(root, "context")
    ElementTree.SubElement(context, "name")
    for text in texts:
        message = ElementTree.SubElement(context, "message")
        ElementTree.SubElement(message, "source").text = text
        translation = ElementTree.SubElement(message, "translation", {} if text in known else {"type": "unfinished"})
        translation.text = known.get(text)
    ElementTree.indent(root)
    head = b'<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE TS>\n'
    return head + ElementTree.tostring(root, encoding="utf-8") + b"\n"


def main() -> None:
    """Write the template and update the translations."""
    texts = all_texts()
    (HERE / "template.ts").write_bytes(written(texts, {}))
    for path in HERE.glob("stripewright_*.ts"):
        language = path.stem.partition("_")[2]
        path.write_bytes(written(texts, translations_in(path), language))


if __name__ == "__main__":
    main()
