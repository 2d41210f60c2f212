"""DXF drawings: plain lines and curves, or the open sewn-products layout with one block a piece."""

import io
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from core.errors import BadInput
from core.files.chaining import closed_up
from core.files.dxf_lines import DRAWN, entities_within, strokes_of
from core.files.marks import drawing_of, nearer
from core.files.outlines import Drawing, Line, Outline, checked
from core.files.units import unit_mm
from core.geometry.beziers import Point, transformed
from core.seams.walk import Finding

BOUNDARY, CURVE_POINTS, NOTCHES, MIRROR, GRAIN, SEW = "1", "3", "4", "6", "7", "14"
"""Layers of the open layout of sewn products (ASTM D6673, ANSI/AAMA 292; from memory)."""

_LEFT_OUT = {"8": "internal lines", "9": "stripe marks", "10": "plaid marks", "11": "cut-outs", "13": "drill holes"}

_INSUNITS = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 8: 25.4e-6, 9: 0.0254, 10: 914.4, 13: 1e-3, 14: 100.0}
"""Millimetres in a unit of the header variable $INSUNITS."""


def read_dxf(data: bytes, units: str | None = None) -> Drawing:
    """Read a drawing; `units` overrides what one unit of it means.

    Raises BadInput: no DXF, nothing drawn, more than a pattern has, a number out of bounds.
    """
    from ezdxf.lldxf.const import DXFError

    try:
        document = _document(data)
        size, findings = _size(document, units)
        blocks = _pieces(document)
        if blocks:
            return _drawing_of_pieces(blocks, size, findings)
        return _plain_drawing(document, size, findings)
    except (DXFError, LookupError, TypeError, AttributeError, ArithmeticError, RecursionError, ValueError) as error:
        if isinstance(error, BadInput):
            raise
        what = " ".join(str(error).split())[:120] or type(error).__name__
        raise BadInput(
            f"it is no sound DXF drawing ({what})", right="a DXF file of lines and curves is right"
        ) from None


def _document(data: bytes) -> Any:
    """The document, mended as far as the reader can."""
    from ezdxf import recover

    document, _ = recover.read(io.BytesIO(data))
    return document


def _size(document: Any, units: str | None) -> tuple[float, list[Finding]]:
    """Millimetres in one unit of the drawing."""
    if units is not None:
        return unit_mm(units), []
    code = int(document.header.get("$INSUNITS", 0))
    if code in _INSUNITS:
        return _INSUNITS[code], []
    system = _stated_system(document)
    if system is not None:
        return (25.4, []) if system == "english" else (1.0, [])
    what = (
        "it does not say its unit, taken as mm" if code == 0 else f"its unit (number {code}) is not known, taken as mm"
    )
    return 1.0, [Finding("DXF header", what, "state units if the sizes are wrong")]


def _stated_system(document: Any) -> str | None:
    """`english` (inches) or `metric` (mm), where the text of a sewn-products file says which."""
    for text in document.modelspace().query("TEXT"):
        words = text.dxf.get("text", "").lower().replace(" ", "")
        if words.startswith("units:"):
            return "english" if "english" in words else "metric"
    return None


def _moved(strokes: Iterable[Outline], size: float) -> list[Outline]:
    """Strokes brought to mm, y downwards."""
    matrix = np.array([[size, 0.0, 0.0], [0.0, -size, 0.0]])
    return [replace(stroke, segments=transformed(stroke.segments, matrix)) for stroke in strokes]


def _plain_drawing(document: Any, size: float, findings: Sequence[Finding]) -> Drawing:
    strokes, left_out = [], dict[str, int]()
    for number, entity in enumerate(entities_within(document.modelspace())):
        kind = entity.dxftype()
        if kind in DRAWN and not _frozen(document, entity):
            strokes.append(_stroke(entity, size, f"{kind} number {number + 1}"))
        elif kind not in ("INSERT", "ATTRIB", "POINT"):
            left_out[kind] = left_out.get(kind, 0) + 1
    remarks = [Finding("DXF", f"{count} x {kind} left out", "only outlines count") for kind, count in left_out.items()]
    return drawing_of(_moved(strokes, size), (*findings, *remarks))


def _frozen(document: Any, entity: Any) -> bool:
    name = entity.dxf.get("layer", "0")
    layer = document.layers.get(name) if document.layers.has_entry(name) else None
    return layer is not None and (layer.is_off() or layer.is_frozen())


def _stroke(entity: Any, size: float, place: str) -> Outline:
    segments, closed = strokes_of(entity, size)
    layer = entity.dxf.get("layer", "0")
    return Outline(segments, closed, layer="" if layer == "0" else layer, place=place)


def _pieces(document: Any) -> list[tuple[str, list[Any]]]:
    """Names and entities of the blocks that hold a piece, in the order in which they are put into the drawing."""
    found: dict[str, list[Any]] = {}
    for insert in document.modelspace().query("INSERT"):
        name = insert.dxf.name
        if name not in found and name in document.blocks and _holds_piece(document.blocks.get(name)):
            found[name] = list(entities_within([insert]))[1:]
    for block in document.blocks:
        if block.name not in found and not block.name.startswith("*") and not found and _holds_piece(block):
            found[block.name] = list(entities_within(block))
    return list(found.items())


def _holds_piece(block: Any) -> bool:
    drawn = [entity.dxf.get("layer", "") for entity in block if entity.dxftype() in DRAWN]
    return BOUNDARY in drawn


def _drawing_of_pieces(blocks: list[tuple[str, list[Any]]], size: float, findings: Sequence[Finding]) -> Drawing:
    names = _piece_names(blocks)
    outlines: list[Outline] = []
    remarks = list(findings)
    for (block, entities), name in zip(blocks, names, strict=True):
        piece, found = _piece(block, name, entities, size)
        outlines += piece
        remarks += found
    return Drawing(tuple(outlines), tuple(remarks), all_pieces=True)


def _piece_names(blocks: list[tuple[str, list[Any]]]) -> list[str]:
    """What the pieces are called: their own name where it tells them apart, else the block's."""
    named = [_named_in(entities) or block for block, entities in blocks]
    return [name if named.count(name) == 1 else block for name, (block, _) in zip(named, blocks, strict=True)]


def _named_in(entities: Iterable[Any]) -> str:
    for entity in entities:
        if entity.dxftype() == "TEXT":
            key, _, value = entity.dxf.get("text", "").partition(":")
            if key.strip().lower() == "piece name" and value.strip():
                return " ".join(value.split())
    return ""


def _piece(block: str, name: str, entities: Sequence[Any], size: float) -> tuple[list[Outline], list[Finding]]:
    place = f"block {block!r}"
    boundary, findings = _ring(entities, BOUNDARY, size, place)
    if boundary is None:
        return [], findings
    sewn, more = _ring(entities, SEW, size, place)
    outline = replace(
        boundary,
        label=name,
        layer="",
        place=place,
        sew=sewn.segments if sewn is not None and sewn.closed else (),
        smooth=tuple(_points_on(entities, CURVE_POINTS, size)),
        grain=_line_on(entities, GRAIN, size),
        mirror=_line_on(entities, MIRROR, size),
    )
    findings += more
    if sewn is not None and not sewn.closed:
        findings.append(Finding(place, "its sew line is not closed and was left out", "state the allowance instead"))
    return [replace(outline, notches=tuple(_notches(outline, entities, size)))], findings + _remarks(entities, place)


def _ring(entities: Sequence[Any], layer: str, size: float, place: str) -> tuple[Outline | None, list[Finding]]:
    """The largest closed line on a layer, else the longest open one; and what was mended."""
    strokes = [_stroke(entity, size, place) for entity in _on(entities, layer) if entity.dxftype() in DRAWN]
    if not any(stroke.segments for stroke in strokes):
        return None, []
    closed, loose, findings = closed_up(checked(_moved(strokes, size)))
    if closed:
        return max(closed, key=lambda outline: abs(outline.area_mm2)), findings
    return max(loose, key=lambda outline: outline.length_mm), findings


def _on(entities: Iterable[Any], layer: str) -> list[Any]:
    return [entity for entity in entities if entity.dxf.get("layer", "") == layer]


def _points_on(entities: Sequence[Any], layer: str, size: float) -> list[Point]:
    places = [entity.dxf.location for entity in _on(entities, layer) if entity.dxftype() == "POINT"]
    return [(place.x * size, -place.y * size) for place in places]


def _line_on(entities: Sequence[Any], layer: str, size: float) -> Line | None:
    """Both ends of the first straight line on a layer."""
    for entity in _on(entities, layer):
        if entity.dxftype() in DRAWN:
            segments = _moved([_stroke(entity, size, "")], size)[0].segments
            if segments:
                return segments[0][0], segments[-1][-1]
    return None


def _notches(outline: Outline, entities: Sequence[Any], size: float) -> list[Point]:
    points = _points_on(entities, NOTCHES, size)
    lines = [_stroke(entity, size, "") for entity in _on(entities, NOTCHES) if entity.dxftype() in DRAWN]
    for line in _moved(lines, size):
        if line.segments:
            points.append(nearer(outline, (line.segments[0][0], line.segments[-1][-1])))
    return points


def _remarks(entities: Sequence[Any], place: str) -> list[Finding]:
    return [
        Finding(place, f"its {what} were left out", "only outline, notches, grain, mirror and sew line count")
        for layer, what in _LEFT_OUT.items()
        if _on(entities, layer)
    ]
