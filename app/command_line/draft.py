"""`stripewright draft`: a pattern from measurements, written as a project that is ready to match."""

import argparse
from collections.abc import Callable
from typing import Any

from app.command_line.cloth_options import add_cloth_options, cloth_of
from app.command_line.option_values import add_length, length_value, stated_in, whole_number
from core.draft.canopy import CanopyMeasures, draft_canopy
from core.draft.measures import Allowances, SkirtMeasures
from core.draft.result import Draft
from core.draft.skirt import draft_skirt
from core.files.project_file import write_project
from core.geometry.polyline import length
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
    return f"{piece.cut}, " + ", ".join(f"{name} {_edgeadd_length(piece, name):.1f} mm" for name in names)


def _edgeadd_length(piece: Piece, name: str) -> float:
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
    add_length(body, "--waist", "round the waist", required=True)
    add_length(body, "--hip", "round the hip", required=True)
    add_length(body, "--hip-depth", "from waist down to hip (default: 200 mm)")
    add_length(body, "--length", "from waist to hem in front", "length_front", required=True)
    add_length(body, "--length-side", "at the side; the difference goes in at the top")
    add_length(body, "--length-back", "behind")
    add_length(body, "--sweep", "round the hem", required=True)
    add_length(body, "--rise", "above the waist, for a high-waisted cut")
    add_length(body, "--top", "round the upper edge of a high-waisted cut (default: the waist)")
    add_length(body, "--let-out", "added to the waist at the back edges of the gores behind the front")
    _add_gores(parser)
    add_cloth_options(parser)


def _add_gores(parser: argparse.ArgumentParser) -> None:
    gores = parser.add_argument_group("gores")
    gores.add_argument("--gores", type=whole_number, metavar="NUMBER", help="4 to 24 (default: 8)")
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
    _add_widths(gores)
    told = "where the grain lies: one choice, or one a piece (default: middle)"
    gores.add_argument("--grain", nargs="+", choices=("middle", "front-edge", "back-edge"), help=told)
    gores.add_argument("--centre-on", choices=("lead", "ground", "free"), help="what lies on the centre front")
    add_length(gores, "--opening", "length of the opening; without it the ring is closed")
    gores.add_argument("--opening-at", metavar="SEAM", help="the seam it is in (default: centre back, or on the left)")
    for kind in ("seam", "centre", "waist", "hem"):
        add_length(gores, f"--{kind}-allowance", f"turning at {_KINDS[kind]}")


def _add_widths(gores: Any) -> None:
    """How wide the gores are, line by line, and where they flare."""
    for line in ("waist", "hip", "hem"):
        told = f"own widths of the gores at the {line}, one a piece, front to back"
        gores.add_argument(
            f"--{line}-widths", dest=f"own_{line}", type=length_value, nargs="+", metavar="LENGTH", help=told
        )
    gores.add_argument("--straight-from", choices=("waist", "hip"), help="where the flare begins (default: hip)")
    gores.add_argument(
        "--hem-laid",
        dest="hem_widths",
        choices=("across", "curve"),
        help="hem widths straight across, or along the hem",
    )


_KINDS = {"seam": "the seams", "centre": "a seam on the centre", "waist": "the upper edge", "hem": "the hem"}


def _add_canopy(parser: argparse.ArgumentParser) -> None:
    canopy = parser.add_argument_group("measurements")
    add_length(canopy, "--radius", "from the middle to the rim, level", required=True)
    add_length(canopy, "--rise", "from the rim's level up to the crown", required=True)
    canopy.add_argument("--ribs", type=whole_number, metavar="NUMBER", help="3 to 64 (default: 8)")
    add_length(canopy, "--hole", "radius of the hole at the crown")
    add_length(canopy, "--rim-hollow", "how far the rim is hollowed out between the ribs (default: a smooth rim)")
    for kind in ("seam", "rim", "crown"):
        add_length(canopy, f"--{kind}-allowance", f"turning at the {kind}")
    add_cloth_options(parser)


_SKIRT = (
    *("waist", "hip", "hip_depth", "sweep", "length_front", "length_side", "length_back", "gores", "front", "back"),
    *("centre_gores", "sharing", "straight_from", "hem_widths", "rise", "top", "let_out", "opening", "opening_at"),
    "centre_on",
)


def _skirt(options: argparse.Namespace) -> Draft:
    given = stated_in(options, _SKIRT)
    given |= {name: tuple(widths) for name, widths in stated_in(options, ("own_waist", "own_hip", "own_hem")).items()}
    if options.grain is not None:
        grain = tuple(choice.replace("-", " ") for choice in options.grain)
        given["grain"] = grain[0] if len(grain) == 1 else grain
    turnings = stated_in(options, tuple(f"{kind}_allowance" for kind in _KINDS))
    allowances = Allowances(**{name.removesuffix("_allowance"): value for name, value in turnings.items()})
    return draft_skirt(SkirtMeasures(allowances=allowances, cloth=cloth_of(options), **given))


def _canopy(options: argparse.Namespace) -> Draft:
    names = ("radius", "rise", "ribs", "hole", "rim_hollow", "seam_allowance", "rim_allowance", "crown_allowance")
    return draft_canopy(CanopyMeasures(cloth=cloth_of(options), **stated_in(options, names)))
