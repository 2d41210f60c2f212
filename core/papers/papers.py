"""All papers of a project, written into a folder."""

from collections.abc import Callable
from pathlib import Path

from core.derive.count import cutting_list
from core.errors import BadInput, CannotBeHad, Stopped
from core.files.atomic import write_atomically
from core.model.project import Project
from core.papers.cards import card_pages
from core.papers.choices import PaperChoices, Part
from core.papers.cover import cover_pages
from core.papers.edge_strips import strip_pages
from core.papers.figures import Figures, figures_of
from core.papers.full_size import plan_files, roll_files, tiles_pdf
from core.papers.lists_page import list_pages, lists_csv
from core.papers.page import DRAWN_ON, WRITTEN_ON, Leaf, with_feet
from core.papers.pdf import pdf_bytes
from core.papers.pieces import LaidProject, laid_project, pattern_pieces
from core.papers.plan import plan_pages
from core.papers.readings_page import readings_pages
from core.papers.seam_sheet import seam_pages
from core.papers.tables import positions_csv, stripe_marks_csv
from core.progress import Progress, silent
from core.seams.readings import measure
from core.units import MM, Units
from core.wording import later, tr

DEFAULT = PaperChoices()
PAPERS_NAME, POSITIONS_NAME, MARKS_NAME = "cutting-papers.pdf", "positions.csv", "stripe-marks.csv"
TILES_NAME, STRIPS_NAME, SEAMS_NAME, LISTS_NAME = (
    "full-size-tiles.pdf",
    "edge-strips.pdf",
    "seam-sheet.pdf",
    "lists.csv",
)

Files = dict[str, bytes]
Made = tuple[LaidProject, Figures, PaperChoices]


def write_papers(
    project: Project, folder: Path, progress: Progress = silent, choices: PaperChoices = DEFAULT
) -> tuple[Path, ...]:
    """Write the papers of a laid project into a folder, which is made if it is missing; returns the files written.

    Nothing is written before everything is made. Raises CannotBeHad if the panels can't be cut as they lie, BadInput
    if the folder can't be written to, Stopped if `progress` says so.
    """
    _say(progress, 0.0, tr("looking whether the panels can be cut as they lie"))
    laid = laid_project(project)
    refuse_unlaid(laid.project, Units(choices.units))
    _say(progress, 0.1, tr("reading seams and places"))
    figures = figures_of(laid.project, measure(laid.project))
    files: Files = {}
    parts = [(part, note, make) for part, note, make in _PARTS if part in choices.parts]
    for index, (_, note, make) in enumerate(parts):
        _say(progress, 0.2 + 0.7 * index / len(parts), tr(note))
        files |= make((laid, figures, choices))
    _say(progress, 0.95, tr("writing the files"))
    written = _written(folder, files)
    progress(1.0, tr("papers written"))
    return written


def paper_pages(figures: Figures, choices: PaperChoices = DEFAULT, laid: LaidProject | None = None) -> tuple[Leaf, ...]:
    """The cutting papers in order: first page, lists, plan of every cloth, seam readings, cards."""
    page, units = WRITTEN_ON[choices.paper], Units(choices.units)
    laid = laid or laid_project(figures.project)
    lists = list_pages(cutting_list(laid.given), laid.title, page, units) if "lists" in choices.parts else ()
    plans = [drawing for cloth in figures.cloths for drawing in plan_pages(cloth, page, units)]
    readings = readings_pages(figures, page, units)
    cards = card_pages(figures, page, units, laid.has_card)
    before = [*lists, *plans, *readings]
    number = len(cover_pages(figures, dict.fromkeys(cards, 0), page, units)) + len(before) + 1
    found: dict[int, int] = {}
    for panel, pages in cards.items():
        found[panel] = number
        number += len(pages)
    each = [drawing for pages in cards.values() for drawing in pages]
    return with_feet(page, [*cover_pages(figures, found, page, units), *before, *each], laid.title)


def refuse_unlaid(project: Project, units: Units = MM) -> None:
    """Raises CannotBeHad, naming the first fault, unless the panels can be cut as they lie."""
    from core.lay.legal import find_faults

    faults = [fault for cloth in project.cloths for fault in find_faults(project, cloth.id, units)]
    if faults:
        more = tr(", and {count} more", count=len(faults) - 1) if len(faults) > 1 else ""
        raise CannotBeHad(
            tr(
                "no papers: the panels can't be cut as they lie ({fault}{more}); run lay first",
                fault=faults[0],
                more=more,
            )
        )


def _cutting_papers(made: Made) -> Files:
    laid, figures, choices = made
    return {
        PAPERS_NAME: pdf_bytes(paper_pages(figures, choices, laid), laid.title),
        POSITIONS_NAME: positions_csv(figures, Units(choices.units)),
        MARKS_NAME: stripe_marks_csv(figures, Units(choices.units)),
    }


def _lists(made: Made) -> Files:
    laid, _, choices = made
    return {LISTS_NAME: lists_csv(cutting_list(laid.given), Units(choices.units))}


def _seam_sheet(made: Made) -> Files:
    laid, figures, choices = made
    leaves = seam_pages(figures, WRITTEN_ON[choices.paper], Units(choices.units))
    return {SEAMS_NAME: pdf_bytes(leaves, laid.title)} if leaves else {}


def _edge_strips(made: Made) -> Files:
    laid, figures, choices = made
    leaves = strip_pages(figures, DRAWN_ON[choices.paper], WRITTEN_ON[choices.paper], Units(choices.units))
    return {STRIPS_NAME: pdf_bytes(leaves, laid.title)} if leaves else {}


def _full_size(made: Made) -> Files:
    laid, figures, choices = made
    pieces = pattern_pieces(laid, figures, choices.lines)
    return {TILES_NAME: tiles_pdf(pieces, laid.title, choices), **roll_files(pieces, laid.title, choices.roll_mm)}


def _full_size_plan(made: Made) -> Files:
    _, figures, choices = made
    return plan_files(figures, choices)


_PARTS: tuple[tuple[Part, str, Callable[[Made], Files]], ...] = (
    ("cutting papers", later("drawing plan, readings and cards"), _cutting_papers),
    ("lists", later("listing what to cut and to buy"), _lists),
    ("seam sheet", later("drawing the seam sheet"), _seam_sheet),
    ("edge strips", later("drawing the edge strips"), _edge_strips),
    ("full size", later("drawing the pattern full size"), _full_size),
    ("full-size plan", later("drawing the plan full size"), _full_size_plan),
)


def _say(progress: Progress, share: float, note: str) -> None:
    if not progress(share, note):
        raise Stopped(tr("the papers were stopped; nothing was written"))


def _written(folder: Path, files: Files) -> tuple[Path, ...]:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        right = tr("a folder that can be made and written to")
        raise BadInput(
            tr("the folder can't be made ({strerror})", strerror=error.strerror), str(folder), right
        ) from None
    for name, data in files.items():
        write_atomically(folder / name, data)
    return tuple(folder / name for name in files)
