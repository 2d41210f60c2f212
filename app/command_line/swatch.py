"""`stripewright swatch`: the repeat of a cloth from a picture of it."""

import argparse
from typing import TYPE_CHECKING, Any

import msgspec

from app.command_line.console import print_json, progress_bar, table
from app.command_line.option_values import length_value, number
from core.errors import BadInput
from core.files.project_file import read_project, write_project
from core.model.project import Project

if TYPE_CHECKING:
    from core.swatch.scale import Scale
    from core.swatch.swatch import Swatch

_DOES = "the repeat of a striped cloth from a picture of it"


def add_swatch_command(commands: Any) -> None:
    """Add `swatch` to the commands of the command line."""
    told = f"{_DOES.capitalize()}. Places in the picture are pixels from its upper left corner, right and down: 120,45."
    parser = commands.add_parser("swatch", help=_DOES, description=told, allow_abbrev=False)
    parser.add_argument("image", metavar="IMAGE", help="a scan, or a photograph of the cloth lying flat")
    scale = parser.add_argument_group("how large it is (one of these)").add_mutually_exclusive_group(required=True)
    scale.add_argument("--mm-per-px", type=number, metavar="MM", help="what one pixel is on the cloth")
    scale.add_argument("--dpi", type=number, metavar="NUMBER", help="resolution of a scan")
    told = "two places on a ruler, and how far apart they are"
    scale.add_argument("--marks", nargs=3, metavar=("X,Y", "X,Y", "LENGTH"), help=told)
    told = "four corners of a rectangle lying on the cloth, clockwise from the upper left one, its width and height"
    scale.add_argument("--corners", nargs=6, metavar=("X,Y",) * 4 + ("WIDTH", "HEIGHT"), help=told)
    told = "the part of the picture that shows nothing but cloth: two opposite corners (default: all of it)"
    parser.add_argument("--part", nargs=2, metavar=("X,Y", "X,Y"), help=told)
    parser.add_argument("--into", metavar="PROJECT", help="give the repeat to a cloth of this project")
    parser.add_argument("--cloth", metavar="ID", help="which cloth of the project (default: its first)")
    parser.add_argument("-o", dest="output", metavar="OUT", help="write that project here instead")
    parser.add_argument("--json", action="store_true", help="print one JSON object and nothing else")


def run_swatch(options: argparse.Namespace) -> int:
    """Read the picture, say what was found, give it to a project if that is wanted; returns the exit code."""
    from core.swatch.picture import open_picture
    from core.swatch.swatch import read_swatch

    _check_goal(options)
    scale, part = _scale(options), _part(options)
    project = read_project(options.into) if options.into else None
    if project is not None:
        _cloth_index(project, options)
    picture = open_picture(options.image)
    try:
        swatch = read_swatch(picture, scale, part, progress_bar(options.json))
    except BadInput as error:
        raise BadInput(error.what, options.image, error.right) from None
    if project is not None:
        write_project(options.output or options.into, _with_repeats(project, options, swatch))
    if options.json:
        return print_json(swatch_report(swatch))
    print(swatch_text(swatch))
    return 0


_ORIGINS = {"stripe": "left selvedge", "bar": "cut end"}


def swatch_report(swatch: "Swatch") -> dict[str, Any]:
    """What `--json` prints; what is said of bars only where there are any."""
    report = {
        "repeat": msgspec.to_builtins(swatch.repeat),
        "width_sd_mm": swatch.width_sd_mm,
        "angle_deg": swatch.angle_deg,
        "even": swatch.even,
        "confidence": swatch.confidence,
    }
    if swatch.crosswise is None:
        return report
    bars = {"crosswise": msgspec.to_builtins(swatch.crosswise.repeat), "weft_skew_percent": swatch.weft_skew_percent}
    return {**report, **bars, "crosswise_width_sd_mm": swatch.crosswise.width_sd_mm}


def swatch_text(swatch: "Swatch") -> str:
    """The repeat in words, and its stripes as a table; the same of bars where there are any."""
    if swatch.crosswise is None:
        return _way_text(swatch, "stripe")
    skew = f"The bars are skewed by {swatch.weft_skew_percent:+.2f} % against the stripes."
    return "\n".join([_way_text(swatch, "stripe"), "", _way_text(swatch.crosswise, "bar"), skew])


def _way_text(swatch: "Swatch", kind: str) -> str:
    repeat = swatch.repeat
    rows = [(kind, "centre mm", "width mm", "colour")]
    rows += [(s.name, f"{s.at:.2f}", f"{s.width:.2f}", s.colour) for s in repeat.stripes]
    shape = f"even, mirrored about {repeat.axis % repeat.width:.2f} mm" if swatch.even else "uneven"
    lines = [
        table(rows),
        "",
        f"The repeat: {repeat.width:.3f} mm (standard deviation {swatch.width_sd_mm:.3f} mm), {shape}; "
        f"ground {repeat.ground}; the eye follows {repeat.lead_stripe.name}",
        f"{swatch.repeats:.1f} repeats in view, leaning {swatch.angle_deg:+.2f} degrees; "
        f"confidence {100 * swatch.confidence:.0f} %",
        *swatch.notes,
        f"Still to be measured on the cloth: how far from the {_ORIGINS[kind]} a repeat starts (its origin).",
    ]
    return "\n".join(lines)


def _check_goal(options: argparse.Namespace) -> None:
    for name in ("cloth", "output"):
        if getattr(options, name) is not None and options.into is None:
            option = "-o" if name == "output" else f"--{name}"
            raise BadInput(f"{option} is given without a project", right="--into PROJECT names the project")


def _scale(options: argparse.Namespace) -> "Scale":
    from core.swatch.scale import Corners, PerPixel, by_dpi, by_marks

    if options.mm_per_px is not None:
        return PerPixel(options.mm_per_px)
    if options.dpi is not None:
        return by_dpi(options.dpi)
    if options.marks is not None:
        a, b, apart = options.marks
        return by_marks(_point("--marks", a), _point("--marks", b), _length("--marks", apart))
    *points, width, height = options.corners
    a, b, c, d = (_point("--corners", text) for text in points)
    return Corners((a, b, c, d), _length("--corners", width), _length("--corners", height))


def _part(options: argparse.Namespace) -> tuple[float, float, float, float] | None:
    if options.part is None:
        return None
    (x0, y0), (x1, y1) = (_point("--part", text) for text in options.part)
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _point(option: str, text: str) -> tuple[float, float]:
    parts = text.split(",")
    try:
        if len(parts) == 2:
            return number(parts[0]), number(parts[1])
    except argparse.ArgumentTypeError:
        pass
    raise BadInput(f"{text[:40]!r} is no place in a picture", option, "pixels right and down, such as 120,45")


def _length(option: str, text: str) -> float:
    try:
        return length_value(text)
    except argparse.ArgumentTypeError as error:
        raise BadInput(str(error), option) from None


def _cloth_index(project: Project, options: argparse.Namespace) -> int:
    ids = [cloth.id for cloth in project.cloths]
    if options.cloth is None:
        return 0
    if options.cloth not in ids:
        raise BadInput(f"there is no cloth {options.cloth[:40]!r}", options.into, f"its cloths are {', '.join(ids)}")
    return ids.index(options.cloth)


def _with_repeats(project: Project, options: argparse.Namespace, swatch: "Swatch") -> Project:
    """The project with what was read on the cloth named; bars that were not seen stay as they are."""
    index = _cloth_index(project, options)
    cloth = msgspec.structs.replace(project.cloths[index], repeat=swatch.repeat)
    if swatch.crosswise is not None:
        bars = swatch.crosswise.repeat
        cloth = msgspec.structs.replace(cloth, crosswise=bars, weft_skew_percent=swatch.weft_skew_percent)
    cloths = (*project.cloths[:index], cloth, *project.cloths[index + 1 :])
    return msgspec.structs.replace(project, cloths=cloths)
