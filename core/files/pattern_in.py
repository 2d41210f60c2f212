"""A pattern file of any kind that can be read, told by what is in it."""

from pathlib import Path

from core.errors import BadInput, inside
from core.files.outlines import Drawing
from core.files.reading import bytes_of
from core.wording import tr

_PICTURES = (b"\x89PNG", b"\xff\xd8\xff", b"II*\x00", b"MM\x00*", b"RIFF")
"""How files of pictures begin: PNG, JPEG, TIFF, WebP."""


def read_drawing(path: Path | str, units: str | None = None, page: int = 1) -> Drawing:
    """The outlines of an SVG, a DXF or a page of a PDF, in mm; `units` overrides what one unit of it means.

    Raises BadInput: one line with file, place, what is wrong, what would be right.
    """
    path = Path(path)
    with inside(str(path)):
        return drawing_in(bytes_of(path, tr("the path of an SVG, DXF or PDF file")), units, page)


def drawing_in(data: bytes, units: str | None = None, page: int = 1) -> Drawing:
    """The outlines in the content of a file. Raises BadInput."""
    start = data[:1024].removeprefix(b"\xef\xbb\xbf").lstrip()
    if b"%PDF-" in start:
        from core.files.pdf_in import read_pdf

        return read_pdf(data, page, units)
    if start.startswith(b"<") or data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        from core.files.svg_in import read_svg

        return read_svg(data, units)
    if start.startswith(b"AutoCAD Binary DXF") or _looks_like_dxf(start):
        from core.files.dxf_in import read_dxf

        return read_dxf(data, units)
    if data.startswith(_PICTURES):
        right = tr("state the corners and the size of a rectangle that lies beside the paper")
        raise BadInput(tr("it is a picture, whose scale is not known"), right=right)
    what = tr("the file is empty") if not data.strip() else tr("it is neither SVG nor DXF nor PDF")
    raise BadInput(what, right=tr("a pattern drawn as lines in one of the three is right"))


def _looks_like_dxf(start: bytes) -> bool:
    """Whether the first line that counts is a group code."""
    lines = start.split(b"\n", 1)
    return lines[0].strip() in (b"0", b"999") and len(lines) > 1
