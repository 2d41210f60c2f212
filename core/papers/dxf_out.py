"""The full-size plan as DXF in the open layout of sewn products: one block a panel, what a line is told by its layer.

Layers (ASTM D6673, ANSI/AAMA 292, from memory): 1 cutting line, 4 notches, 7 grain, 8 internal lines, 9 stripe
reference, 14 sew line, 15 text. Units are mm and y runs upwards: a drawing's (x, y) becomes (x, -y).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString

from core.papers.drawing import Drawing, Line, Point, Role
from core.papers.lettering import printable

LAYER_OF: dict[Role, str] = {
    "cut line": "1",
    "notch": "4",
    "grain": "7",
    "stripe edge": "8",
    "lead stripe": "9",
    "net line": "14",
}
TEXT_LAYER = "15"
Tag = tuple[int, str | int]

TEXT_MM, ROW_MM = 6.0, 9.0
STRAIGHT_MM = 0.01
"""Points of a line that lie closer than this to the straight way past them are left out."""


@dataclass(frozen=True, eq=False)
class DxfBlock:
    """One panel: its name, the piece's title, where its origin lies, and its lines, all in cloth mm."""

    name: str
    title: str
    origin: Point
    drawing: Drawing


def dxf_bytes(blocks: Sequence[DxfBlock], title: str) -> bytes:
    """A DXF file (release 12) of panels as they lie on the cloth. The same blocks give the same bytes."""
    names = [f"PANEL_{number}" for number in range(1, len(blocks) + 1)]
    tags: list[Tag] = [*_section("HEADER", [(9, "$ACADVER"), (1, "AC1009")]), *_section("TABLES", _tables())]
    tags += _section("BLOCKS", [tag for name, block in zip(names, blocks, strict=True) for tag in _block(name, block)])
    words = ("UNITS: METRIC", f"STYLE NAME: {title}")
    entities = [tag for row, line in enumerate(words) for tag in _text(line, (0.0, ROW_MM * (2 - row)))]
    for name, block in zip(names, blocks, strict=True):
        entities += [(0, "INSERT"), (8, "1"), (2, name), *_point(10, (block.origin[0], -block.origin[1]))]
    tags += [*_section("ENTITIES", entities), (0, "EOF")]
    return "".join(f"{code}\n{value}\n" for code, value in tags).encode("ascii", "replace")


def _section(name: str, tags: Sequence[Tag]) -> list[Tag]:
    return [(0, "SECTION"), (2, name), *tags, (0, "ENDSEC")]


def _tables() -> list[Tag]:
    """One line type and the layers."""
    layers = ("0", *LAYER_OF.values(), TEXT_LAYER)
    plain: list[Tag] = [(0, "TABLE"), (2, "LTYPE"), (70, 1), (0, "LTYPE"), (2, "CONTINUOUS"), (70, 0)]
    tags = [*plain, (3, "Solid line"), (72, 65), (73, 0), (40, "0.0"), (0, "ENDTAB")]
    tags += [(0, "TABLE"), (2, "LAYER"), (70, len(layers))]
    for layer in layers:
        tags += [(0, "LAYER"), (2, layer), (70, 0), (62, 7), (6, "CONTINUOUS")]
    return [*tags, (0, "ENDTAB")]


def _block(name: str, block: DxfBlock) -> list[Tag]:
    """A panel's lines, measured from its origin."""
    x, y = block.origin
    tags: list[Tag] = [(0, "BLOCK"), (8, "0"), (2, name), (70, 0), *_point(10, (0.0, 0.0)), (3, name)]
    for part in block.drawing.moved(0.0, (-x, -y)).parts:
        if isinstance(part, Line) and part.role in LAYER_OF:
            tags += _line(part, LAYER_OF[part.role])
    for row, words in enumerate((f"PIECE NAME: {block.title}", f"PANEL: {block.name}", "QUANTITY: 1")):
        tags += _text(words, (0.0, -ROW_MM * row))
    return [*tags, (0, "ENDBLK"), (8, "0")]


def _line(line: Line, layer: str) -> list[Tag]:
    ring = np.vstack([line.points, line.points[:1]]) if line.closed else line.points
    points = [(x, -y) for x, y in LineString(ring).simplify(STRAIGHT_MM).coords]
    at: list[Tag] = [(8, layer)]
    if layer == LAYER_OF["notch"]:
        return [(0, "POINT"), *at, *_point(10, points[-1])]
    if len(points) == 2:
        return [(0, "LINE"), *at, *_point(10, points[0]), *_point(11, points[1])]
    tags: list[Tag] = [(0, "POLYLINE"), *at, (66, 1), (70, 1 if line.closed else 0), *_point(10, (0.0, 0.0))]
    for point in points[:-1] if line.closed else points:
        tags += [(0, "VERTEX"), *at, *_point(10, point)]
    return [*tags, (0, "SEQEND"), *at]


def _text(words: str, at: Point) -> list[Tag]:
    return [(0, "TEXT"), (8, TEXT_LAYER), *_point(10, at), (40, f"{TEXT_MM}"), (1, printable(words))]


def _point(code: int, at: Point) -> list[Tag]:
    return [(code, f"{at[0]:.4f}"), (code + 10, f"{at[1]:.4f}"), (code + 20, "0.0")]
