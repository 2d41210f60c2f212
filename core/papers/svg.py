"""Painting a drawing as SVG, full size: one user unit is one millimetre, one group a layer."""

import io
from xml.sax.saxutils import escape, quoteattr

from core.geometry.paths import Points
from core.papers.arrows import arrowhead
from core.papers.drawing import Area, Line, Primitive, Spot, Text
from core.papers.layers import in_layers
from core.papers.lettering import printable, text_box
from core.papers.page import Leaf
from core.papers.pens import HALO_MM, LABEL_GROUND, PENS


def svg_bytes(leaf: Leaf, title: str) -> bytes:
    """One page as an SVG file of its size in mm. The same drawing gives the same bytes."""
    width, height = f"{leaf.page.width:g}", f"{leaf.page.height:g}"
    out = io.StringIO()
    out.write('<?xml version="1.0" encoding="UTF-8"?>\n')
    out.write(f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm"')
    out.write(f' viewBox="0 0 {width} {height}" fill="none" stroke-linejoin="round">\n')
    out.write(f"<title>{escape(printable(title))}</title>\n")
    for layer, parts in in_layers(leaf.drawing):
        out.write(f"<g id={quoteattr(layer.replace(' ', '-'))}>\n")
        out.writelines(f"{_element(part)}\n" for part in parts)
        out.write("</g>\n")
    out.write("</svg>\n")
    return out.getvalue().encode("utf-8")


def _element(part: Primitive) -> str:
    if isinstance(part, Line):
        return _line(part)
    if isinstance(part, Area):
        return _filled(part.points, part.colour)
    if isinstance(part, Spot):
        colour = PENS[part.role].colour
        return f'<circle cx="{_number(part.at[0])}" cy="{_number(part.at[1])}" r="{part.radius:g}" fill="{colour}"/>'
    return _text(part)


def _line(line: Line) -> str:
    pen = PENS[line.role]
    dashes = f' stroke-dasharray="{" ".join(f"{dash:g}" for dash in pen.dashes)}"' if pen.dashes else ""
    path = f'<path d="{_path(line.points, line.closed)}" stroke="{pen.colour}" stroke-width="{pen.width:g}"{dashes}/>'
    return path + _filled(arrowhead(line.points), pen.colour) if line.arrow else path


def _filled(points: Points, colour: str) -> str:
    return f'<path d="{_path(points, True)}" fill="{colour}"/>'


def _path(points: Points, closed: bool) -> str:
    pairs = " ".join(f"{_number(x)} {_number(y)}" for x, y in points.tolist())
    return f"M {pairs}{' Z' if closed else ''}"


def _text(text: Text) -> str:
    x, y = _number(text.at[0]), _number(text.at[1])
    turn = f' transform="rotate({text.angle_deg:g} {x} {y})"' if text.angle_deg else ""
    weight = ' font-weight="bold"' if text.bold else ""
    halo = _filled(text_box(text, HALO_MM), LABEL_GROUND) if text.halo else ""
    return (
        f'{halo}<text x="{x}" y="{y}" font-family="Bitstream Vera Sans, DejaVu Sans, Verdana, sans-serif"'
        f' font-size="{text.size:g}"{weight} text-anchor="{text.anchor}" fill="{PENS[text.role].colour}"'
        f"{turn}>{escape(printable(text.text))}</text>"
    )


def _number(value: float) -> str:
    """Coordinates to a thousandth of a millimetre."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")
