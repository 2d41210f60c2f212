"""SVG drawings: every shape brought to mm, through transforms, units and view boxes."""

import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

import numpy as np

from core.errors import BadInput
from core.files.marks import drawing_of
from core.files.outlines import Drawing, Outline
from core.files.svg_path import Subpath, subpaths_of
from core.files.svg_values import IDENTITY, combined, fitted, numbers, pixels, transform
from core.files.svg_xml import Element, tree_of
from core.files.units import UNIT_MM, unit_mm
from core.geometry.beziers import Point, line_through, transformed
from core.geometry.paths import Points
from core.seams.walk import Finding
from core.wording import later, tr, tr_n

MOST_SHAPES = 10_000
"""More shapes than this, copies by `use` counted, are no pattern."""

DEEPEST_USE = 40

PAGE_PX = (300.0, 150.0)
"""What the web takes for the size of a drawing that gives none at all."""

_GROUPS = ("g", "a", "switch")
_UNDRAWN = ("defs", "symbol", "clipPath", "mask", "pattern", "marker", "linearGradient", "radialGradient", "filter")
_IGNORED = {
    "text": later("text"),
    "image": later("a picture"),
    "foreignObject": later("a foreign object"),
    "style": later("a style sheet"),
}
_BY_MACHINE = re.compile(r"(path|rect|polygon|polyline|line|circle|ellipse|g|use|layer|svg|group)[-_]?[\d_-]*", re.I)


def read_svg(data: bytes, units: str | None = None) -> Drawing:
    """Read a drawing; `units` overrides what one unit of it means.

    Raises BadInput: no sound XML, no SVG, a value that can't be read, more shapes than a pattern has.
    """
    root = tree_of(data)
    if root.name != "svg":
        raise BadInput(
            tr("it is XML, but no SVG drawing: it starts with <{split}>", split=root.name.split()[-1][:30]),
            right=tr("an SVG drawing"),
        )
    sheet = _sheet(root, units)
    drawer = _Drawer({element.get("id"): element for element in _all(root) if element.get("id")}, sheet.whole)
    start = _Here(sheet.matrix)
    for child in root.children:
        drawer.draw(child, start)
    return drawing_of(drawer.strokes, (*sheet.findings, *drawer.remarks()), sheet.page)


def _all(element: Element) -> Iterator[Element]:
    yield element
    for child in element.children:
        yield from _all(child)


@dataclass(frozen=True)
class _Sheet:
    """The map of user units to mm, the sheet's size in mm, and what 100 % means in user units."""

    matrix: Points
    page: tuple[float, float]
    whole: tuple[float, float]
    findings: tuple[Finding, ...] = ()


def _sheet(root: Element, units: str | None) -> _Sheet:
    box = _view_box(root)
    whole = (box[2], box[3]) if box else PAGE_PX
    stated = [root.get(name) for name in ("width", "height")]
    width, height = (_size(text, default) for text, default in zip(stated, whole, strict=True))
    if units is not None:
        scale = unit_mm(units)
        left, top = (box[0], box[1]) if box else (0.0, 0.0)
        whole = whole if box else (width, height)
        matrix = np.array([[scale, 0.0, -left * scale], [0.0, scale, -top * scale]])
        return _Sheet(matrix, (whole[0] * scale, whole[1] * scale), whole)
    inner = fitted(box, width, height, root.get("preserveAspectRatio")) if box else IDENTITY
    page = (width * UNIT_MM["px"], height * UNIT_MM["px"])
    return _Sheet(inner * UNIT_MM["px"], page, whole if box else (width, height), _about_size(stated, root))


def _size(text: str, default: float) -> float:
    """A stated size in pixels; one given in per cent, or not at all, is what the view box says."""
    size = default if not text or text.endswith("%") or text == "auto" else pixels(text, default)
    if size <= 0:
        raise BadInput(tr("its size is {given!r}", given=text), "svg", tr("a width and a height above 0 are right"))
    return size


def _view_box(element: Element) -> tuple[float, float, float, float] | None:
    if not element.get("viewBox"):
        return None
    match numbers(element.get("viewBox")):
        case [x, y, width, height] if width > 0 and height > 0:
            return x, y, width, height
    raise BadInput(
        tr("viewBox is {value!r}", value=element.get("viewBox")[:40]),
        tr("line {line}", line=element.line),
        tr("x, y, width and height are right"),
    )


def _about_size(stated: list[str], root: Element) -> tuple[Finding, ...]:
    if all(re.search(r"(mm|cm|in|pt|pc|q)$", text.lower()) for text in stated):
        return ()
    what = tr("it gives its size in pixels") if any(stated) else tr("it gives no size")
    return (
        Finding(
            "svg",
            tr("{what}, taken as 96 to the inch", what=what),
            tr("measure a known length, then state units or scale"),
        ),
    )


@dataclass(frozen=True)
class _Here:
    """Where the walk through the tree stands: the map to mm, the names of the groups round it, how deep in copies."""

    matrix: Points
    layer: str = ""
    label: str = ""
    uses: int = 0


@dataclass
class _Drawer:
    by_id: dict[str, Element]
    whole: tuple[float, float]
    strokes: list[Outline] = field(default_factory=list)
    ignored: dict[str, int] = field(default_factory=dict)
    shapes: int = 0

    def draw(self, element: Element, here: _Here) -> None:
        """Draw an element and all that is in it."""
        if element.name in _IGNORED:
            self._ignore(tr(_IGNORED[element.name]))
        if _hidden(element) or element.name in _UNDRAWN:
            return
        try:
            self._draw_shown(element, here)
        except BadInput as error:
            raise BadInput(error.what, error.place or _place(element), error.right) from None

    def _draw_shown(self, element: Element, here: _Here) -> None:
        if element.name in _SHAPES:
            self._draw_shape(element, replace(here, matrix=_transformed(element, here)))
        elif element.name in _GROUPS:
            inside = _entered(element, here)
            for child in element.children:
                self.draw(child, inside)
        elif element.name == "svg":
            self._draw_viewport(element, here, element)
        elif element.name == "use":
            self._draw_copy(element, here)

    def _draw_shape(self, element: Element, here: _Here) -> None:
        self.shapes += 1
        if self.shapes > MOST_SHAPES:
            raise BadInput(
                tr("it draws more than {most_shapes} shapes", most_shapes=MOST_SHAPES),
                right=tr("a drawing of the pattern alone is right"),
            )
        scale = float(np.hypot.reduce(here.matrix[:, :2], axis=None))
        name = _own_name(element) or here.label
        for number, subpath in enumerate(_SHAPES[element.name](element, self.whole, scale)):
            moved = transformed(subpath.segments, here.matrix)
            place = (
                _place(element)
                if number == 0
                else tr("{place}, part {number}", place=_place(element), number=number + 1)
            )
            self.strokes.append(Outline(moved, subpath.closed, name, here.layer, place))

    def _draw_copy(self, element: Element, here: _Here) -> None:
        self.shapes += 1
        if here.uses >= DEEPEST_USE or self.shapes > MOST_SHAPES:
            raise BadInput(
                tr("copies of copies go too deep or are too many"), right=tr("a drawing without nested copies")
            )
        target = self.by_id.get(element.get("href").removeprefix("#")) if element.get("href").startswith("#") else None
        if target is None:
            self._ignore(tr("a copy of something that is not in the file"))
            return
        x, y = (pixels(element.get(name, "0"), whole) for name, whole in zip("xy", self.whole, strict=True))
        inside = _entered(element, replace(here, uses=here.uses + 1))
        inside = replace(inside, matrix=combined(inside.matrix, np.array([[1.0, 0.0, x], [0.0, 1.0, y]])))
        if target.name == "symbol" or target.name == "svg":
            self._draw_viewport(target, inside, element)
        else:
            self.draw(target, inside)

    def _draw_viewport(self, element: Element, here: _Here, sized_by: Element) -> None:
        """Draw what is in a symbol or a nested svg, fitted into the size that it, or the copy of it, is given."""
        inside, box = _entered(element, here), _view_box(element)
        width, height = (
            pixels(sized_by.get(name) or element.get(name) or "100%", whole)
            for name, whole in zip(("width", "height"), self.whole, strict=True)
        )
        if element.name == "svg":
            x, y = (pixels(element.get(name, "0"), whole) for name, whole in zip("xy", self.whole, strict=True))
            inside = replace(inside, matrix=combined(inside.matrix, np.array([[1.0, 0.0, x], [0.0, 1.0, y]])))
        if box:
            fit = fitted(box, width, height, element.get("preserveAspectRatio"))
            inside = replace(inside, matrix=combined(inside.matrix, fit))
        before, self.whole = self.whole, (box[2], box[3]) if box else (width, height)
        for child in element.children:
            self.draw(child, inside)
        self.whole = before

    def _ignore(self, what: str) -> None:
        self.ignored[what] = self.ignored.get(what, 0) + 1

    def remarks(self) -> list[Finding]:
        """What was met and not drawn."""
        return [
            Finding(
                "svg",
                tr_n("{what} was left out", "{what} was left out ({count} times)", count, what=what),
                tr("only outlines count"),
            )
            for what, count in self.ignored.items()
        ]


def _hidden(element: Element) -> bool:
    style = element.get("style").replace(" ", "")
    return element.get("display") == "none" or "display:none" in style


def _entered(element: Element, here: _Here) -> _Here:
    name = _own_name(element)
    return replace(
        here,
        matrix=_transformed(element, here),
        layer=name or here.layer,
        label=name or here.label,
    )


def _transformed(element: Element, here: _Here) -> Points:
    stated = element.get("transform")
    return combined(here.matrix, transform(stated)) if stated else here.matrix


def _own_name(element: Element) -> str:
    """What a person called it: its label, its title, or an id that no machine made up."""
    titles = [child.text.strip() for child in element.children if child.name == "title"]
    own = element.get("id") if not _BY_MACHINE.fullmatch(element.get("id")) else ""
    return " ".join((element.get("label") or (titles[0] if titles else "") or own).split())[:80]


def _place(element: Element) -> str:
    name = element.get("id") or element.get("label")
    return (
        f"{element.name} {name[:40]!r}" if name else tr("{name} in line {line}", name=element.name, line=element.line)
    )


Whole = tuple[float, float]


def _path(element: Element, whole: Whole, scale: float) -> list[Subpath]:
    return subpaths_of(element.get("d"), scale)


def _line(element: Element, whole: Whole, scale: float) -> list[Subpath]:
    x1, y1, x2, y2 = (_length(element, name, whole) for name in ("x1", "y1", "x2", "y2"))
    return [Subpath(line_through(((x1, y1), (x2, y2))), False)]


def _points(element: Element) -> list[Point]:
    values = numbers(element.get("points"))
    if len(values) % 2:
        raise BadInput(tr("points has {count} numbers", count=len(values)), right=tr("two for every point are right"))
    return list(zip(values[::2], values[1::2], strict=True))


def _polyline(element: Element, whole: Whole, scale: float) -> list[Subpath]:
    return [Subpath(line_through(_points(element)), False)]


def _polygon(element: Element, whole: Whole, scale: float) -> list[Subpath]:
    return [Subpath(line_through(_points(element)), True)] if element.get("points") else []


def _rect(element: Element, whole: Whole, scale: float) -> list[Subpath]:
    x, y, width, height = (_length(element, name, whole) for name in ("x", "y", "width", "height"))
    if width < 0 or height < 0:
        raise BadInput(tr("width or height is below 0"), right=tr("0 or more is right"))
    if width == 0 or height == 0:
        return []
    rx, ry = (_length(element, name, whole) if _given(element, name) else None for name in ("rx", "ry"))
    rx, ry = (ry if rx is None else rx) or 0.0, (rx if ry is None else ry) or 0.0
    rx, ry = min(abs(rx), width / 2), min(abs(ry), height / 2)
    if rx == 0 or ry == 0:
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y))
        return [Subpath(line_through(corners), True)]
    corner = f"a{rx!r} {ry!r} 0 0 1"
    across, down = width - 2 * rx, height - 2 * ry
    data = f"M{x + rx!r} {y!r}h{across!r}{corner} {rx!r} {ry!r}v{down!r}{corner} {-rx!r} {ry!r}"
    return subpaths_of(f"{data}h{-across!r}{corner} {-rx!r} {-ry!r}v{-down!r}{corner} {rx!r} {-ry!r}z", scale)


def _given(element: Element, name: str) -> bool:
    return element.get(name) not in ("", "auto")


def _ellipse(element: Element, whole: Whole, scale: float) -> list[Subpath]:
    cx, cy = _length(element, "cx", whole), _length(element, "cy", whole)
    names = ("r", "r") if element.name == "circle" else ("rx", "ry")
    rx, ry = (_length(element, name, whole) for name in names)
    if rx < 0 or ry < 0:
        raise BadInput(tr("a radius is below 0"), right=tr("0 or more is right"))
    if rx == 0 or ry == 0:
        return []
    half = f"A{rx!r} {ry!r} 0 0 1"
    return subpaths_of(f"M{cx + rx!r} {cy!r}{half} {cx - rx!r} {cy!r}{half} {cx + rx!r} {cy!r}Z", scale)


def _length(element: Element, name: str, whole: Whole) -> float:
    if name == "r":
        hundred = math.hypot(*whole) / math.sqrt(2)
    else:
        hundred = whole[1] if name in ("y", "y1", "y2", "cy", "height", "ry") else whole[0]
    return pixels(element.get(name) or "0", hundred)


_SHAPES: dict[str, Callable[[Element, Whole, float], list[Subpath]]] = {
    "path": _path,
    "line": _line,
    "polyline": _polyline,
    "polygon": _polygon,
    "rect": _rect,
    "circle": _ellipse,
    "ellipse": _ellipse,
}
