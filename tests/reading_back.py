"""Printed files read back: the lines of PDF pages, SVG files and DXF blocks as points in mm, y downwards."""

import ctypes
import io
import re
from xml.etree import ElementTree

import ezdxf.recover
import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import svgpathtools

POINTS_PER_MM = 72 / 25.4
SVG = "{http://www.w3.org/2000/svg}"


def stroked_paths(page: pypdfium2.PdfPage) -> list[np.ndarray]:
    """Points of all stroked paths of a PDF page in the order painted, in points."""
    return [points for points, _, _ in _stroked(page)]


def _stroked(page: pypdfium2.PdfPage) -> list[tuple[np.ndarray, str, float]]:
    """Every stroked path with its mark and the width of its pen, in points."""
    found = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        fill, stroke = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDFPath_GetDrawMode(item.raw, fill, stroke)
        if stroke.value:
            points = [_point_of(item.raw, i) for i in range(pdfium.FPDFPath_CountSegments(item.raw))]
            width = ctypes.c_float()
            pdfium.FPDFPageObj_GetStrokeWidth(item.raw, width)
            found.append((np.array(points), mark_of(item.raw), width.value))
    return found


def _point_of(path: object, index: int) -> tuple[float, float]:
    x, y = ctypes.c_float(), ctypes.c_float()
    pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(path, index), x, y)
    return x.value, y.value


def mark_of(item: object) -> str:
    """The kind of content that an object is marked as: OC is optional content."""
    if not pdfium.FPDFPageObj_CountMarks(item):
        return ""
    buffer, size = ctypes.create_string_buffer(64), ctypes.c_ulong()
    pdfium.FPDFPageObjMark_GetName(
        pdfium.FPDFPageObj_GetMark(item, 0), ctypes.cast(buffer, ctypes.POINTER(ctypes.c_ushort)), 64, size
    )
    return buffer.raw[: size.value].decode("utf-16-le").rstrip("\0")


def pdf_lines(data: bytes, pen_mm: float | None = None) -> list[list[np.ndarray]]:
    """For every page its stroked paths, or those drawn with one pen, in mm from the page's left top corner."""
    document = pypdfium2.PdfDocument(data)
    try:
        return [
            [
                np.column_stack([path[:, 0], page.get_height() - path[:, 1]]) / POINTS_PER_MM
                for path, _, pen in _stroked(page)
                if pen_mm is None or abs(pen / POINTS_PER_MM - pen_mm) < 1e-3
            ]
            for page in document
        ]
    finally:
        document.close()


def pdf_marks(data: bytes) -> set[str]:
    """How the stroked paths of all pages are marked."""
    document = pypdfium2.PdfDocument(data)
    try:
        return {mark for page in document for _, mark, _ in _stroked(page)}
    finally:
        document.close()


def pdf_texts(data: bytes) -> list[str]:
    """The words of every page."""
    document = pypdfium2.PdfDocument(data)
    try:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]
    finally:
        document.close()


def svg_lines(data: bytes) -> dict[str, list[np.ndarray]]:
    """The stroked paths of an SVG file by the id of their group, read by svgpathtools."""
    root = ElementTree.fromstring(data)
    return {
        group.get("id", ""): [
            _path_points(path.get("d", "")) for path in group.iter(f"{SVG}path") if path.get("stroke")
        ]
        for group in root.iter(f"{SVG}g")
    }


def _path_points(d: str) -> np.ndarray:
    path = svgpathtools.parse_path(d)
    ends = [path[0].start, *(part.end for part in path)]
    return np.array([(end.real, end.imag) for end in ends])


def svg_size_mm(data: bytes) -> tuple[float, float, list[float]]:
    """Width and height in mm, and the four numbers of the view box."""
    root = ElementTree.fromstring(data)
    sides = [re.fullmatch(r"([\d.]+)mm", root.get(name, "")) for name in ("width", "height")]
    width, height = (float(side[1]) for side in sides if side)
    return width, height, [float(number) for number in root.get("viewBox", "").split()]


def dxf_blocks(data: bytes) -> dict[str, dict[str, list[np.ndarray]]]:
    """For every panel named in a block the lines by layer where the block is put, y downwards; points as (1, 2)."""
    document, auditor = ezdxf.recover.read(io.BytesIO(data))
    assert not auditor.errors
    found = {}
    for insert in document.modelspace().query("INSERT"):
        lines: dict[str, list[np.ndarray]] = {}
        name = ""
        for entity in insert.virtual_entities():
            kind, layer = entity.dxftype(), entity.dxf.layer
            if kind == "TEXT":
                name = entity.dxf.text.removeprefix("PANEL: ") if entity.dxf.text.startswith("PANEL: ") else name
            else:
                lines.setdefault(layer, []).append(_entity_points(entity, kind))
        found[name] = lines
    return found


def _entity_points(entity: object, kind: str) -> np.ndarray:
    if kind == "POINT":
        places = [entity.dxf.location]
    elif kind == "LINE":
        places = [entity.dxf.start, entity.dxf.end]
    else:
        places = [vertex.dxf.location for vertex in entity.vertices]
        places += places[:1] if entity.is_closed else []
    return np.array([(place.x, -place.y) for place in places])
