"""`stripewright draft`: a pattern from measurements, written as a project that is ready to match."""

import argparse
import math
from collections.abc import Callable
from typing import Any

import msgspec

from core.draft.canopy import CanopyMeasures, draft_canopy
from core.draft.lengths import length_mm
from core.draft.measures import USUAL_CLOTH, USUAL_REPEAT, USUAL_STRIPE, Allowances, SkirtMeasures
from core.draft.result import Draft
from core.draft.skirt import draft_skirt
from core.errors import BadInput
from core.files.project_file import write_project
from core.geometry.polyline import length
from core.model.cloth import Cloth, Repeat, Stripe
from core.model.panel import panels_of
from core.model.pattern import Piece
from core.model.validate import validate

_DOES = "draft a pattern from measurements"
_LENGTHS = "Lengths are in mm, or with a unit: 70cm, 25in, '2 1/4yd'."


def add_draft_command(commands: Any) -> None:
    """Add `draft` with its kinds to the commands of the command line."""
    command = commands.add_parser("draft", help=_DOES, description=f"{_DOES.capitalize()}. {_LENGTHS}")
    kinds = command.add_subparsers(dest="kind", metavar="KIND", required=True)
    _add_skirt(_kind(kinds, "skirt", "a gored skirt of 4 to 24 gores", _skirt))
    _add_canopy(_kind(kinds, "canopy", "the gores of a canopy or parasol", _canopy))


def run_draft(options: argparse.Namespace) -> int:
    """Draft, write the project to -o, say what was drafted; returns the exit code."""
    draft: Draft = options.drafts(options)
    validate(draft.project)
    write_project(options.output, draft.project)
    for finding in draft.findings:
        print(finding)
    for titles, told in _alike(draft.project.pieces):
        print(f"{titles[0]} to {titles[-1]}: {told}" if len(titles) > 1 else f"{titles[0]}: {told}")
    panels, seams = len(draft.project.panel_names), len(draft.project.sewn)
    print(f"{options.output}: {panels} panels, {seams} seams, {len(draft.findings) or 'no'} findings")
    return 0


def _alike(pieces: tuple[Piece, ...]) -> list[tuple[list[str], str]]:
    """Pieces with the same things told of them, by their titles, each group with what is told."""
    groups: dict[str, list[str]] = {}
    for piece in pieces:
        groups.setdefault(_piece_text(piece), []).append(piece.title)
    return [(titles, told) for told, titles in groups.items()]


def _piece_text(piece: Piece) -> str:
    names = [edge.name for edge in piece.edges if edge.name != piece.fold]
    return f"{piece.cut}, " + ", ".join(f"{name} {_edge_length(piece, name):.1f} mm" for name in names)


def _edge_length(piece: Piece, name: str) -> float:
    """Length of an edge; of a gore on the fold the whole waist or hem, but one of its two like seam edges."""
    lengths = [length(line) for key, line in panels_of(piece)[0].net.items() if key in (name, f"{name}.R", f"{name}.L")]
    return sum(lengths) if name in ("waist", "hem") else lengths[0]


def _kind(kinds: Any, name: str, does: str, drafts: Callable[[argparse.Namespace], Draft]) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = kinds.add_parser(
        name, help=does, description=f"Draft {does}. {_LENGTHS}", allow_abbrev=False
    )
    parser.set_defaults(drafts=drafts)
    parser.add_argument("-o", dest="output", metavar="FILE", required=True, help="the project file to write")
    return parser


def _add_skirt(parser: argparse.ArgumentParser) -> None:
    body = parser.add_argument_group("measurements")
    _length(body, "--waist", "round the waist", required=True)
    _length(body, "--hip", "round the hip", required=True)
    _length(body, "--hip-depth", "from waist down to hip (default: 200 mm)")
    _length(body, "--length", "from waist to hem in front", "length_front", required=True)
    _length(body, "--length-side", "at the side; the difference goes in at the top")
    _length(body, "--length-back", "behind")
    _length(body, "--sweep", "round the hem", required=True)
    _length(body, "--rise", "above the waist, for a high-waisted cut")
    _length(body, "--top", "round the upper edge of a high-waisted cut (default: the waist)")
    _length(body, "--let-out", "added to the waist at the back edges of the gores behind the front")
    gores = parser.add_argument_group("gores")
    gores.add_argument("--gores", type=_whole, metavar="NUMBER", help="4 to 24 (default: 8)")
    gores.add_argument(
        "--front", choices=("gore", "seam"), help="what lies on the centre front (default: by the number)"
    )
    gores.add_argument("--back", choices=("gore", "seam"), help="what lies on the centre back (default: by the number)")
    gores.add_argument(
        "--centre-gores", choices=("single", "fold"), help="how a gore on a centre is cut (default: single)"
    )
    gores.add_argument(
        "--sharing",
        choices=("equal", "bennett", "ingalls", "baldt"),
        help="how the width is shared out (default: equal)",
    )
    for line in ("waist", "hip", "hem"):
        told = f"own widths of the gores at the {line}, one a piece, front to back"
        gores.add_argument(f"--{line}-widths", dest=f"own_{line}", type=_mm, nargs="+", metavar="LENGTH", help=told)
    gores.add_argument("--straight-from", choices=("waist", "hip"), help="where the flare begins (default: hip)")
    gores.add_argument(
        "--hem-laid",
        dest="hem_widths",
        choices=("across", "curve"),
        help="hem widths straight across, or along the hem",
    )
    told = "where the grain lies: one choice, or one a piece (default: middle)"
    gores.add_argument("--grain", nargs="+", choices=("middle", "front-edge", "back-edge"), help=told)
    gores.add_argument("--centre-on", choices=("lead", "ground", "free"), help="what lies on the centre front")
    _length(gores, "--opening", "length of the opening; without it the ring is closed")
    gores.add_argument("--opening-at", metavar="SEAM", help="the seam it is in (default: centre back, or on the left)")
    for kind in ("seam", "centre", "waist", "hem"):
        _length(gores, f"--{kind}-allowance", f"turning at {_KINDS[kind]}")
    _add_cloth(parser)


_KINDS = {"seam": "the seams", "centre": "a seam on the centre", "waist": "the upper edge", "hem": "the hem"}


def _add_canopy(parser: argparse.ArgumentParser) -> None:
    canopy = parser.add_argument_group("measurements")
    _length(canopy, "--radius", "from the middle to the rim, level", required=True)
    _length(canopy, "--rise", "from the rim's level up to the crown", required=True)
    canopy.add_argument("--ribs", type=_whole, metavar="NUMBER", help="3 to 64 (default: 8)")
    _length(canopy, "--hole", "radius of the hole at the crown")
    _length(canopy, "--rim-hollow", "how far the rim is hollowed out between the ribs (default: a smooth rim)")
    for kind in ("seam", "rim", "crown"):
        _length(canopy, f"--{kind}-allowance", f"turning at the {kind}")
    _add_cloth(parser)


def _add_cloth(parser: argparse.ArgumentParser) -> None:
    cloth = parser.add_argument_group("cloth")
    cloth.add_argument("--cloth-name", metavar="NAME")
    _length(cloth, "--cloth-width", "selvedges included")
    _length(cloth, "--selvedge", "on either side")
    _length(cloth, "--cloth-length", "all there is (default: as much as it takes)")
    _length(cloth, "--repeat", "width of one repeat of the stripes")
    _length(cloth, "--stripe-width", "width of the stripe in it")
    cloth.add_argument("--stripe-colour", metavar="#RRGGBB")
    cloth.add_argument("--ground", metavar="#RRGGBB")
    cloth.add_argument("--tolerance", type=_number, metavar="DEGREES", help="how far a panel may turn (default: 0.25)")
    cloth.add_argument("--two-way", action="store_true", help="panels may lie end for end")


def _length(group: Any, option: str, told: str, dest: str | None = None, required: bool = False) -> None:
    dest = dest or option.removeprefix("--").replace("-", "_")
    group.add_argument(option, dest=dest, type=_mm, metavar="LENGTH", required=required, help=told)


def _mm(text: str) -> float:
    try:
        return length_mm(text)
    except BadInput as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def _number(text: str) -> float:
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise argparse.ArgumentTypeError(f"{text[:40]!r} is no number")
    return value


def _whole(text: str) -> int:
    if not text.isdecimal() or len(text) > 9:
        raise argparse.ArgumentTypeError(f"{text[:40]!r} is no whole number")
    return int(text)


def _given(options: argparse.Namespace, names: tuple[str, ...]) -> dict[str, Any]:
    """The options of these names that were given; the others keep their defaults."""
    return {name: value for name in names if (value := getattr(options, name)) is not None}


_SKIRT = (
    *("waist", "hip", "hip_depth", "sweep", "length_front", "length_side", "length_back", "gores", "front", "back"),
    *("centre_gores", "sharing", "straight_from", "hem_widths", "rise", "top", "let_out", "opening", "opening_at"),
    "centre_on",
)


def _skirt(options: argparse.Namespace) -> Draft:
    given = _given(options, _SKIRT)
    given |= {name: tuple(widths) for name, widths in _given(options, ("own_waist", "own_hip", "own_hem")).items()}
    if options.grain is not None:
        grain = tuple(choice.replace("-", " ") for choice in options.grain)
        given["grain"] = grain[0] if len(grain) == 1 else grain
    turnings = _given(options, tuple(f"{kind}_allowance" for kind in _KINDS))
    allowances = Allowances(**{name.removesuffix("_allowance"): value for name, value in turnings.items()})
    return draft_skirt(SkirtMeasures(allowances=allowances, cloth=_cloth(options), **given))


def _canopy(options: argparse.Namespace) -> Draft:
    names = ("radius", "rise", "ribs", "hole", "rim_hollow", "seam_allowance", "rim_allowance", "crown_allowance")
    return draft_canopy(CanopyMeasures(cloth=_cloth(options), **_given(options, names)))


def _cloth(options: argparse.Namespace) -> Cloth:
    given = {name.removeprefix("cloth_"): value for name, value in _given(options, _CLOTH).items()}
    if options.selvedge is not None:
        given["selvedge"] = (options.selvedge, options.selvedge)
    if options.tolerance is not None:
        given["grain_tolerance_deg"] = options.tolerance
    return msgspec.structs.replace(USUAL_CLOTH, one_way=not options.two_way, repeat=_repeat(options), **given)


_CLOTH = ("cloth_name", "cloth_width", "cloth_length")


def _repeat(options: argparse.Namespace) -> Repeat:
    width = USUAL_REPEAT.width if options.repeat is None else options.repeat
    stripe = Stripe(
        name=USUAL_STRIPE.name,
        at=width / 2,
        width=width * USUAL_STRIPE.width / USUAL_REPEAT.width if options.stripe_width is None else options.stripe_width,
        colour=options.stripe_colour or USUAL_STRIPE.colour,
    )
    return Repeat(width=width, ground=options.ground or USUAL_REPEAT.ground, stripes=(stripe,))
