"""An XML document read as a tree of elements; one that declares entities or nests too deep is refused unread."""

from dataclasses import dataclass, field
from typing import NoReturn
from xml.parsers import expat

from core.errors import BadInput
from core.wording import tr

DEEPEST = 200
"""Elements nest to this depth at most."""

MOST_ELEMENTS = 200_000

SVG_SPACE = "http://www.w3.org/2000/svg"
_PARTED = "\n"


@dataclass
class Element:
    """One element: its name without the SVG name space, its attributes (of other name spaces: label, href)."""

    name: str
    attributes: dict[str, str]
    line: int
    children: list["Element"] = field(default_factory=list)
    text: str = ""

    def get(self, name: str, default: str = "") -> str:
        """The value of an attribute, without blanks round it."""
        return self.attributes.get(name, default).strip()


def tree_of(data: bytes) -> Element:
    """The outermost element of a document. Raises BadInput: not XML, entities declared, too deep, too large."""
    builder = _Builder()
    parser = expat.ParserCreate(namespace_separator=_PARTED)
    parser.buffer_text = True
    parser.StartElementHandler = lambda name, attributes: builder.start(name, attributes, parser.CurrentLineNumber)
    parser.EndElementHandler = builder.end
    parser.CharacterDataHandler = builder.text
    parser.EntityDeclHandler = _refuse_entities
    try:
        parser.Parse(data, True)
    except (expat.ExpatError, ValueError, LookupError) as error:
        if isinstance(error, BadInput):
            raise
        raise BadInput(tr("it is not sound XML ({error})", error=error), right=tr("an SVG drawing is right")) from None
    return builder.root


def _refuse_entities(*_: object) -> NoReturn:
    raise BadInput(tr("it declares entities"), tr("XML header"), tr("save it as plain SVG, without them"))


class _Builder:
    def __init__(self) -> None:
        self._holder = Element("", {}, 0)
        self._open = [self._holder]
        self._count = 0

    @property
    def root(self) -> Element:
        return self._holder.children[0]

    def start(self, name: str, attributes: dict[str, str], line: int) -> None:
        self._count += 1
        if len(self._open) > DEEPEST or self._count > MOST_ELEMENTS:
            what = tr("elements nest too deep") if self._count <= MOST_ELEMENTS else tr("it has too many elements")
            raise BadInput(
                what,
                tr("line {line}", line=line),
                tr("{deepest} deep and {most_elements} in all are right", deepest=DEEPEST, most_elements=MOST_ELEMENTS),
            )
        element = Element(_plain_name(name), _plain_attributes(attributes), line)
        self._open[-1].children.append(element)
        self._open.append(element)

    def end(self, _: str) -> None:
        self._open.pop()

    def text(self, words: str) -> None:
        element = self._open[-1]
        if element.name == "title" and len(element.text) < 200:
            element.text += words[:200]


def _plain_name(name: str) -> str:
    """The bare name of an SVG element or one without a name space; others keep theirs, so that they mean nothing."""
    space, _, bare = name.rpartition(_PARTED)
    return bare if space in ("", SVG_SPACE) else name


def _plain_attributes(attributes: dict[str, str]) -> dict[str, str]:
    own = {key: value for key, value in attributes.items() if _PARTED not in key}
    foreign = {key.rpartition(_PARTED)[2]: value for key, value in attributes.items() if _PARTED in key}
    return {key: foreign[key] for key in ("label", "href") if key in foreign} | own
