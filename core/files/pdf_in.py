"""A page of a PDF whose pattern is drawn with lines and curves, at the size at which it prints."""

import ctypes
from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
import pypdfium2
import pypdfium2.raw as raw

from core.errors import BadInput
from core.files.marks import drawing_of
from core.files.outlines import MOST_SEGMENTS, Drawing, Outline
from core.files.svg_values import IDENTITY, combined
from core.files.units import unit_mm
from core.geometry.beziers import Point, Segment, transformed
from core.geometry.paths import Points
from core.seams.walk import Finding
from core.wording import later, tr

DEEPEST_FORM = 12


def read_pdf(data: bytes, page: int = 1, units: str | None = None) -> Drawing:
    """Read one page, the first being 1; a point is 1/72 inch unless `units` overrides it.

    Raises BadInput: no PDF, locked, no such page, nothing drawn as lines, more than a pattern has.
    """
    try:
        document = pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError as error:
        raise BadInput(
            tr("it is no PDF that can be opened ({error})", error=error), right=tr("an unlocked PDF is right")
        ) from None
    try:
        if not 1 <= page <= len(document):
            raise BadInput(
                tr("there is no page {page}", page=page), "page", tr("1 to {count} is right", count=len(document))
            )
        return _page(document[page - 1], tr("page {page}", page=page), unit_mm(units or "pt"))
    except pypdfium2.PdfiumError as error:
        raise BadInput(
            tr("page {page} can't be read ({error})", page=page, error=error),
            right=tr("a sound page of a PDF is right"),
        ) from None
    finally:
        document.close()


def _page(page: Any, place: str, unit: float) -> Drawing:
    matrix, size = _upright(page, unit)
    strokes: list[Outline] = []
    others: dict[str, int] = {}
    count = 0
    for item, where in _objects(_on_page(page), matrix, 0, others):
        for outline in _subpaths(item, where, tr("{place}, path {count}", place=place, count=len(strokes) + 1)):
            count += len(outline.segments)
            if count > MOST_SEGMENTS:
                raise BadInput(
                    tr("it draws more than {most_segments} lines", most_segments=MOST_SEGMENTS),
                    place,
                    tr("a drawing of the pattern alone"),
                )
            strokes.append(outline)
    remarks = [
        Finding(place, tr("{number} x {what} left out", number=number, what=what), tr("only lines count"))
        for what, number in others.items()
    ]
    return drawing_of(strokes, remarks, size)


def _upright(page: Any, unit: float) -> tuple[Points, tuple[float, float]]:
    """The map of the page's points to mm, y downwards from the upper left corner as it is shown; its size, mm."""
    left, bottom, right, top = page.get_cropbox()
    turns = {
        0: [[1.0, 0.0, -left], [0.0, -1.0, top]],
        90: [[0.0, 1.0, -bottom], [1.0, 0.0, -left]],
        180: [[-1.0, 0.0, right], [0.0, 1.0, -bottom]],
        270: [[0.0, -1.0, top], [-1.0, 0.0, right]],
    }
    rotation = page.get_rotation()
    width, height = (right - left) * unit, (top - bottom) * unit
    return np.array(turns[rotation]) * unit, (width, height) if rotation in (0, 180) else (height, width)


def _objects(items: Iterable[Any], matrix: Points, depth: int, others: dict[str, int]) -> Iterator[tuple[Any, Points]]:
    """All path objects with the map of their points to mm; everything else is counted by kind."""
    if depth > DEEPEST_FORM:
        raise BadInput(
            tr("its drawings are nested too deep"),
            right=tr("up to {deepest_form} levels are right", deepest_form=DEEPEST_FORM),
        )
    for item in items:
        kind = raw.FPDFPageObj_GetType(item)
        if kind == raw.FPDF_PAGEOBJ_PATH:
            yield item, combined(matrix, _own_matrix(item))
        elif kind == raw.FPDF_PAGEOBJ_FORM:
            yield from _objects(_in_form(item), combined(matrix, _own_matrix(item)), depth + 1, others)
        else:
            what = tr(_OTHERS.get(kind, later("other objects")))
            others[what] = others.get(what, 0) + 1


_OTHERS = {
    raw.FPDF_PAGEOBJ_TEXT: later("text"),
    raw.FPDF_PAGEOBJ_IMAGE: later("pictures"),
    raw.FPDF_PAGEOBJ_SHADING: later("shadings"),
}


def _on_page(page: Any) -> Iterator[Any]:
    for index in range(raw.FPDFPage_CountObjects(page.raw)):
        yield raw.FPDFPage_GetObject(page.raw, index)


def _in_form(form: Any) -> Iterator[Any]:
    for index in range(raw.FPDFFormObj_CountObjects(form)):
        yield raw.FPDFFormObj_GetObject(form, index)


def _own_matrix(item: Any) -> Points:
    found = raw.FS_MATRIX()
    if not raw.FPDFPageObj_GetMatrix(item, found):
        return IDENTITY
    return np.array([[found.a, found.c, found.e], [found.b, found.d, found.f]])


def _subpaths(item: Any, matrix: Points, place: str) -> Iterator[Outline]:
    """The lines that one path object draws, brought to mm."""
    segments: list[Segment] = []
    controls: list[Point] = []
    here = start = (0.0, 0.0)
    for index in range(raw.FPDFPath_CountSegments(item)):
        kind, point, closes = _segment(item, index)
        if kind == raw.FPDF_SEGMENT_MOVETO:
            yield from _stroke(segments, False, matrix, place)
            segments, here, start = [], point, point
        elif kind == raw.FPDF_SEGMENT_LINETO:
            segments.append((here, point))
            here = point
        else:
            controls.append(point)
            if len(controls) == 3:
                segments.append((here, *controls))
                here, controls = point, []
        if closes and not controls:
            yield from _stroke(segments, True, matrix, place)
            segments, here = [], start
    yield from _stroke(segments, False, matrix, place)


def _segment(item: Any, index: int) -> tuple[int, Point, bool]:
    segment = raw.FPDFPath_GetPathSegment(item, index)
    x, y = ctypes.c_float(), ctypes.c_float()
    raw.FPDFPathSegment_GetPoint(segment, x, y)
    return raw.FPDFPathSegment_GetType(segment), (x.value, y.value), bool(raw.FPDFPathSegment_GetClose(segment))


def _stroke(segments: list[Segment], closed: bool, matrix: Points, place: str) -> Iterator[Outline]:
    if segments:
        yield Outline(transformed(tuple(segments), matrix), closed, place=place)
