"""All papers of a project, written into a folder."""

from pathlib import Path

from core.errors import BadInput, CannotBeHad, Stopped
from core.files.atomic import write_atomically
from core.model.project import Project
from core.papers.cards import card_pages
from core.papers.choices import PaperChoices
from core.papers.cover import cover_pages
from core.papers.figures import Figures, figures_of
from core.papers.measures import Units
from core.papers.page import WRITTEN_ON, Leaf, with_feet
from core.papers.pdf import pdf_bytes
from core.papers.plan import plan_pages
from core.papers.readings_page import readings_pages
from core.papers.tables import positions_csv, stripe_marks_csv
from core.progress import Progress, silent
from core.seams.readings import measure

DEFAULT = PaperChoices()

PAPERS_NAME, POSITIONS_NAME, MARKS_NAME = "cutting-papers.pdf", "positions.csv", "stripe-marks.csv"


def write_papers(project: Project, folder: Path, progress: Progress = silent) -> tuple[Path, ...]:
    """Write the papers of a laid project into a folder, which is made if it is missing; returns the files written.

    Nothing is written before everything is made. Raises CannotBeHad if the panels can't be cut as they lie, BadInput
    if the folder can't be written to, Stopped if `progress` says so.
    """
    _say(progress, 0.0, "looking whether the panels can be cut as they lie")
    refuse_unlaid(project)
    _say(progress, 0.2, "reading seams and places")
    figures = figures_of(project, measure(project))
    _say(progress, 0.4, "drawing the pages")
    pages = paper_pages(figures)
    _say(progress, 0.7, "printing them")
    files = {
        PAPERS_NAME: pdf_bytes(pages, _title(project)),
        POSITIONS_NAME: positions_csv(figures),
        MARKS_NAME: stripe_marks_csv(figures),
    }
    _say(progress, 0.95, "writing the files")
    written = _written(folder, files)
    progress(1.0, "papers written")
    return written


def paper_pages(figures: Figures, choices: PaperChoices = DEFAULT) -> tuple[Leaf, ...]:
    """The cutting papers in order: first page, plan of every cloth, seam readings, cards."""
    page, units = WRITTEN_ON[choices.paper], Units(choices.units)
    plans = [drawing for cloth in figures.cloths for drawing in plan_pages(cloth, page, units)]
    readings = readings_pages(figures, page, units)
    cards = card_pages(figures, page, units)
    number = len(cover_pages(figures, {}, page, units)) + len(plans) + len(readings) + 1
    found: dict[int, int] = {}
    for panel, pages in cards.items():
        found[panel] = number
        number += len(pages)
    each = [drawing for pages in cards.values() for drawing in pages]
    cover = cover_pages(figures, found, page, units)
    return with_feet(page, [*cover, *plans, *readings, *each], _title(figures.project))


def refuse_unlaid(project: Project) -> None:
    """Raises CannotBeHad, naming the first fault, unless the panels can be cut as they lie."""
    from core.lay.legal import find_faults

    faults = [fault for cloth in project.cloths for fault in find_faults(project, cloth.id)]
    if faults:
        more = f", and {len(faults) - 1} more" if len(faults) > 1 else ""
        raise CannotBeHad(f"no papers: the panels can't be cut as they lie ({faults[0]}{more}); run lay first")


def _title(project: Project) -> str:
    return project.title or "Cutting papers"


def _say(progress: Progress, share: float, note: str) -> None:
    if not progress(share, note):
        raise Stopped("the papers were stopped; nothing was written")


def _written(folder: Path, files: dict[str, bytes]) -> tuple[Path, ...]:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        right = "a folder that can be made and written to"
        raise BadInput(f"the folder can't be made ({error.strerror})", str(folder), right) from None
    for name, data in files.items():
        write_atomically(folder / name, data)
    return tuple(folder / name for name in files)
