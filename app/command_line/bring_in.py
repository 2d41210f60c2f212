"""`stripewright import`: a pattern drawn as SVG, DXF or PDF becomes a project whose pieces are ready to sew."""

import argparse
from pathlib import Path
from typing import Any

from app.command_line.cloth_options import add_cloth_options, cloth_of
from app.command_line.console import table
from app.command_line.option_values import length_value, number, whole_number
from core.draft.lengths import length_mm
from core.errors import BadInput, inside
from core.files.outlines import Drawing
from core.files.pattern_in import read_drawing
from core.files.project_file import read_project, write_project
from core.files.to_pieces import Wishes, project_from
from core.files.units import UNIT_MM
from core.geometry.polyline import length
from core.model.panel import drawn_edges, ring_of
from core.model.pattern import Piece

_DOES = "bring in a pattern drawn as lines (SVG, DXF, a page of a PDF), or a photograph of paper"


def add_import_command(commands: Any) -> None:
    """Add `import` to the commands of the command line."""
    parser = commands.add_parser(
        "import", help=_DOES, description=f"{_DOES[0].upper()}{_DOES[1:]}.", allow_abbrev=False
    )
    parser.add_argument("source", metavar="SOURCE", help="the drawing")
    parser.add_argument("-o", dest="output", metavar="FILE", required=True, help="the project file to write")
    parser.add_argument("--title", help="what the project is called (default: the name of the drawing)")
    _add_drawing(parser.add_argument_group("the drawing"))
    _add_photo(parser.add_argument_group("a photograph"))
    _add_pieces(parser.add_argument_group("the pieces"))
    told = "take the first cloth of another project, whatever the options below say"
    parser.add_argument("--cloth-from", metavar="PROJECT", help=told)
    add_cloth_options(parser)


def _add_drawing(group: Any) -> None:
    group.add_argument(
        "--units", choices=tuple(UNIT_MM), help="what one unit of the drawing is, whatever the file says"
    )
    group.add_argument("--scale", type=_positive, default=1.0, metavar="FACTOR", help="multiply all lengths")
    told = "the drawing has a square of this side to check the scale by: scale it until that is true"
    group.add_argument("--check-square", type=length_value, metavar="LENGTH", help=told)
    group.add_argument("--page", type=whole_number, default=1, metavar="NUMBER", help="page of a PDF (default: 1)")
    told = "take the outline of this name (or layer, or number such as piece-2); again for more, in the order wanted"
    group.add_argument("--only", action="append", default=[], metavar="NAME", help=told)
    told = "leave out outlines with less area, mm2 (default: 2000)"
    group.add_argument("--smallest", type=_positive, default=2000.0, metavar="AREA", help=told)


def _add_photo(group: Any) -> None:
    told = "pixels of the corners of a rectangle beside the paper: upper left, upper right, lower right, lower left"
    group.add_argument("--corners", type=_pixel, nargs=4, metavar="X,Y", help=told)
    told = "width and height of that rectangle"
    group.add_argument("--rectangle", type=length_value, nargs=2, metavar="LENGTH", help=told)


def _add_pieces(group: Any) -> None:
    told = "whether the lines drawn are stitching lines (net, the default) or cutting lines"
    group.add_argument("--outline", choices=("net", "cut"), default="net", help=told)
    told = "allowance of all edges (default: 12.7), or of those of one name; again for more"
    group.add_argument("--allowance", action="append", default=[], metavar="[EDGE=]LENGTH", help=told)
    group.add_argument("--cut", choices=("single", "pair"), default="single", help="how each piece is cut")
    told = "an edge ends where the outline turns by more than this (default: 20)"
    group.add_argument("--corner-angle", type=_positive, default=20.0, metavar="DEGREES", help=told)
    told = "turn the pieces clockwise, after those with a grain line were turned upright"
    group.add_argument("--turn", type=number, default=0.0, metavar="DEGREES", help=told)
    told = "give an edge another name, on all pieces or on one; again for more"
    group.add_argument("--name", action="append", default=[], metavar="[PIECE/]EDGE=NAME", help=told)
    group.add_argument("--ring", action="store_true", help="sew the pieces to a ring, in their order")


def run_import(options: argparse.Namespace) -> int:
    """Read the drawing, write the project to -o, say what came in; returns the exit code."""
    drawing = _drawing(options)
    wishes = _wishes(options)
    with inside(options.source):
        project, findings = project_from(drawing, wishes)
    write_project(options.output, project)
    print(table([("edge", "mm", "allowance"), *(row for piece in project.pieces for row in _rows(piece))]))
    for finding in findings:
        print(finding)
    seams = _counted(len(project.sewn), "seam")
    print(f"{options.output}: {_counted(len(project.pieces), 'piece')}, {seams}, {_counted(len(findings), 'finding')}")
    return 0


def _drawing(options: argparse.Namespace) -> Drawing:
    if options.corners is None and options.rectangle is None:
        return read_drawing(options.source, options.units, options.page)
    if options.corners is None or options.rectangle is None:
        raise BadInput("of --corners and --rectangle only one is given", right="a photograph needs both")
    from core.files.photo_in import read_photo
    from core.swatch.scale import Corners

    return read_photo(options.source, Corners(tuple(options.corners), *options.rectangle))


def _counted(number: int, one: str, more: str | None = None) -> str:
    return f"{number or 'no'} {one if number == 1 else more or one + 's'}"


def _rows(piece: Piece) -> list[tuple[str, str, str]]:
    lines = drawn_edges(piece)
    width, height = ring_of(lines).max(axis=0) - ring_of(lines).min(axis=0)
    which = "stitching line" if piece.outline_is == "net" else "cutting line"
    notches = f", {_counted(len(piece.notches), 'notch', 'notches')}" if piece.notches else ""
    head = (f"{piece.id} ({piece.cut}): {which} {width:.1f} x {height:.1f} mm{notches}", "", "")
    edges = [
        (f"  {edge.name}", f"{length(line):.2f}", f"{edge.allowance:.2f}")
        for edge, line in zip(piece.edges, lines, strict=True)
    ]
    return [head, *edges]


def _wishes(options: argparse.Namespace) -> Wishes:
    if options.check_square is not None and options.scale != 1.0:
        raise BadInput("--scale and --check-square are both given", right="one of the two is right")
    stated = dict(_pair(text) for text in options.allowance)
    allowance = stated.pop("", "12.7")
    return Wishes(
        cloth=read_project(options.cloth_from).cloths[0] if options.cloth_from else cloth_of(options),
        title=options.title if options.title is not None else Path(options.source).stem,
        scale=options.scale,
        square_mm=options.check_square,
        only=tuple(options.only),
        smallest_mm2=options.smallest,
        outline_is=options.outline,
        allowance=length_mm(allowance),
        allowances={edge: length_mm(text) for edge, text in stated.items()},
        corner_deg=options.corner_angle,
        turn_deg=options.turn,
        cut=options.cut,
        names=dict(_renaming(text) for text in options.name),
        ring=options.ring,
    )


def _pair(text: str) -> tuple[str, str]:
    """An edge and what is stated for it; the edge is empty where it is stated for all."""
    edge, _, value = text.rpartition("=")
    return edge.strip(), value.strip()


def _renaming(text: str) -> tuple[str, str]:
    old, new = _pair(text)
    if not old or not new:
        raise BadInput(f"{text[:40]!r} gives no edge another name", "--name", "EDGE=NAME is right")
    return old, new


def _pixel(text: str) -> tuple[float, float]:
    x, _, y = text.partition(",")
    return number(x), number(y)


def _positive(text: str) -> float:
    value = number(text)
    if not 1e-6 <= value <= 1e9:
        raise argparse.ArgumentTypeError(f"{text[:40]!r} is not above 0")
    return value
