"""DXF drawings: plain lines and curves, or the open sewn-products layout with one block a piece."""

import io
import logging
from collections.abc import Sequence
from typing import Any

from core.errors import BadInput
from core.files.dxf_lines import DRAWN, entities_within, stroke_of
from core.files.dxf_pieces import piece_blocks, pieces_drawing
from core.files.marks import drawing_of
from core.files.outlines import Drawing
from core.files.units import unit_mm
from core.seams.walk import Finding
from core.wording import tr, tr_n

_INSUNITS = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 8: 25.4e-6, 9: 0.0254, 10: 914.4, 13: 1e-3, 14: 100.0}
"""Millimetres in a unit of the header variable $INSUNITS."""


_READER_FAILS = (LookupError, TypeError, AttributeError, ArithmeticError, AssertionError, RecursionError, ValueError)
"""What the reader raises besides its own errors when a file is broken in ways that it does not foresee."""

logging.getLogger("ezdxf").addHandler(logging.NullHandler())


def read_dxf(data: bytes, units: str | None = None) -> Drawing:
    """Read a drawing; `units` overrides what one unit of it means.

    Raises BadInput: no DXF, nothing drawn, more than a pattern has, a number out of bounds.
    """
    from ezdxf.lldxf.const import DXFError

    try:
        document, mended = _document(data)
        size, findings = _size(document, units)
        findings = mended + findings
        blocks = piece_blocks(document, size)
        if blocks:
            return pieces_drawing(blocks, findings)
        return _plain_drawing(document, size, findings)
    except BadInput:
        raise
    except (DXFError, *_READER_FAILS) as error:
        what = " ".join(str(error).split())[:120] or type(error).__name__
        raise BadInput(
            tr("it is no sound DXF drawing ({what})", what=what), right=tr("a DXF file of lines and curves is right")
        ) from None


def _document(data: bytes) -> tuple[Any, list[Finding]]:
    """The document, mended as far as the reader can, and a word on that."""
    from ezdxf import recover

    document, auditor = recover.read(io.BytesIO(data))
    errors = len(auditor.errors)
    if not errors:
        return document, []
    what = tr_n("{count} fault in the file had to be mended", "{count} faults in the file had to be mended", errors)
    return document, [Finding("DXF", what, tr("look whether every piece is whole"))]


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
        tr("it does not say its unit, taken as mm")
        if code == 0
        else tr("its unit (number {code}) is not known, taken as mm", code=code)
    )
    return 1.0, [Finding(tr("DXF header"), what, tr("state units if the sizes are wrong"))]


def _stated_system(document: Any) -> str | None:
    """`english` (inches) or `metric` (mm), where the text of a sewn-products file says which."""
    for text in document.modelspace().query("TEXT"):
        words = text.dxf.get("text", "").lower().replace(" ", "")
        if words.startswith("units:"):
            return "english" if "english" in words else "metric"
    return None


def _plain_drawing(document: Any, size: float, findings: Sequence[Finding]) -> Drawing:
    strokes, left_out = [], dict[str, int]()
    for number, entity in enumerate(entities_within(document.modelspace())):
        kind = entity.dxftype()
        if kind in DRAWN and not _frozen(document, entity):
            strokes.append(stroke_of(entity, size, tr("{kind} number {number}", kind=kind, number=number + 1)))
        elif kind not in ("INSERT", "ATTRIB", "POINT"):
            left_out[kind] = left_out.get(kind, 0) + 1
    remarks = [
        Finding("DXF", tr("{count} x {kind} left out", count=count, kind=kind), tr("only outlines count"))
        for kind, count in left_out.items()
    ]
    return drawing_of(strokes, (*findings, *remarks))


def _frozen(document: Any, entity: Any) -> bool:
    name = entity.dxf.get("layer", "0")
    layer = document.layers.get(name) if document.layers.has_entry(name) else None
    return layer is not None and (layer.is_off() or layer.is_frozen())
