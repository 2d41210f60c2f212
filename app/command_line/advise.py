"""`stripewright advise`: why the seams are left with steps, and what would lessen them."""

import argparse
from typing import TYPE_CHECKING, Any

from app.command_line.console import print_json, progress_bar, table
from core.errors import BadInput, CannotBeHad
from core.files.project_file import read_project, write_project
from core.files.reports import rounded
from core.model.variants import tried

if TYPE_CHECKING:
    from core.matching.advice import Advice, Change, SeamReasons
    from core.matching.reasons import Reason


def add_advise_command(commands: Any) -> None:
    """Add the command to the parser's."""
    does = "why each seam is left with steps, and what each change worth trying would gain"
    command = commands.add_parser("advise", help=does, description=does)
    command.add_argument("file", metavar="FILE", help="a project file")
    command.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
    command.add_argument(
        "--take", type=int, metavar="NUMBER", help="write the project with the change of this number, both as variants"
    )
    command.add_argument("-o", dest="output", metavar="OUT", help="where --take writes to")


def run_advise(options: argparse.Namespace) -> int:
    """Work it out and print it, as text or as one JSON object; returns the exit code."""
    from core.matching.advice import advise

    if (options.take is None) != (options.output is None):
        raise BadInput("--take and -o go together", right="the number of a change, and a file to write to")
    project = read_project(options.file)
    advice = advise(project, progress_bar(options.json))
    if advice is None:
        raise CannotBeHad(
            f"{options.file}: no seam joins two panels of one striped cloth, so there is nothing to match"
        )
    if options.json:
        print_json(advice_report(advice))
    else:
        print(advice_text(advice))
    if options.take is not None:
        change = _chosen(advice, options.take)
        write_project(options.output, tried(project, change.project, change.what))
    return 0


def _chosen(advice: "Advice", number: int) -> "Change":
    if not 1 <= number <= len(advice.changes):
        raise BadInput(f"--take is {number}", right=f"the changes are numbered 1 to {len(advice.changes)}")
    return advice.changes[number - 1]


def advice_text(advice: "Advice") -> str:
    """The reasons seam by seam, then the changes as a table, the largest gain first."""
    from core.matching.advice import LEAST_GAIN_MM

    seams = [_seam_text(seam) for seam in advice.seams]
    figures = f"The garment: {advice.now_mm:.3f} mm rms as it lies, {advice.matched_mm:.3f} mm matched"
    numbered = list(enumerate(advice.changes, 1))
    telling = [(n, one) for n, one in numbered if abs(one.gain_mm) > LEAST_GAIN_MM]
    rows = [(one.what, str(n), f"{one.rms_mm:.3f}", f"{one.gain_mm:+.3f}") for n, one in telling]
    changes = table([("change", "no.", "rms mm", "gain mm"), *rows]) if rows else "No change makes any difference."
    idle = [f"{one.what} ({n})" for n, one in numbered if (n, one) not in telling]
    rest = ["No difference: " + "; ".join(idle)] if idle else []
    return "\n".join((*seams, "", figures, "", changes, "", *rest, *_cautions(telling)))


def _cautions(telling: "list[tuple[int, Change]]") -> list[str]:
    """What to mind with the changes that gain, each said once."""
    said: dict[str, list[str]] = {}
    for number, change in telling:
        if change.caution and change.gain_mm > 0:
            said.setdefault(change.caution, []).append(str(number))
    return [f"{', '.join(numbers)}: {caution}." for caution, numbers in said.items()]


def _seam_text(seam: "SeamReasons") -> str:
    from core.matching.reasons import in_words

    words = [f"{in_words(reason)} ({100 * reason.share:.0f} %)" for reason in seam.reasons]
    return "\n  - ".join((f"{seam.label}: {seam.rms_mm:.2f} mm rms", *words))


def advice_report(advice: "Advice") -> dict[str, Any]:
    """What `advise --json` prints: lengths mm, angles degrees, shares of a seam's mean squared step from 0 to 1."""
    return {
        "rms_mm": rounded(advice.now_mm),
        "matched_rms_mm": rounded(advice.matched_mm),
        "seams": [_seam_report(seam) for seam in advice.seams],
        "changes": [_change_report(change) for change in advice.changes],
    }


def _seam_report(seam: "SeamReasons") -> dict[str, Any]:
    return {
        "seam": seam.line.sewn.seam.name,
        "side": seam.line.sewn.side,
        "way": seam.way,
        "rms_mm": rounded(seam.rms_mm),
        "reasons": [_reason_report(reason) for reason in seam.reasons],
    }


def _reason_report(reason: "Reason") -> dict[str, Any]:
    from core.matching.reasons import in_words

    figures = {"deg": reason.deg, "mm": reason.mm, "drift_mm": reason.drift_mm}
    known = {key: rounded(value) for key, value in figures.items() if value is not None}
    panels = {"panels": list(reason.panels)} if reason.panels else {}
    return {"what": reason.what, "share": rounded(reason.share), **known, **panels, "words": in_words(reason)}


def _change_report(change: "Change") -> dict[str, Any]:
    return {
        "kind": change.kind,
        "what": change.what,
        "rms_mm": rounded(change.rms_mm),
        "gain_mm": rounded(change.gain_mm),
        "caution": change.caution,
    }
