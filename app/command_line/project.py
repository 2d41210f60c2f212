"""The commands that work on a project as it stands: check, measure, match, lay, papers and plan."""

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from app.command_line.compare import add_compare_option, choices_report, choices_text
from app.command_line.console import lay_text, measurement_text, print_json, progress_bar, stoppable
from app.command_line.paper_options import add_paper_options, paper_choices
from app.command_line.proof_option import add_prove_option, proof_text, proved
from app.command_line.shift_option import add_shift_options, shift_keys, shift_text, shifted
from app.command_line.variant_option import add_variant_option, variant_in, variants_text
from core.errors import BadInput, inside
from core.files.project_file import read_project, write_project
from core.files.suffixes import SUFFIX
from core.model.project import Project
from core.model.validate import check_fits
from core.seams.garment import Garment
from core.seams.readings import measure
from core.wording import speaking

if TYPE_CHECKING:
    from gettext import GNUTranslations

DONE, NOT_TO_BE_HAD = 0, 1


def add_check_command(commands: Any) -> None:
    """Add `check`."""
    _command(commands, "check", "read and validate a project, walk its seams, say what is wrong where")


def add_measure_command(commands: Any) -> None:
    """Add `measure`."""
    does = "the mismatch at every seam for the placements in the file"
    add_variant_option(_json(_command(commands, "measure", does)))


def add_match_command(commands: Any) -> None:
    """Add `match`."""
    matching = _output(_json(_command(commands, "match", "find the placement in which all seams match best")))
    add_prove_option(add_shift_options(matching))


def add_lay_command(commands: Any) -> None:
    """Add `lay`."""
    does = "keep phases and turns, find the panels' places on each cloth"
    add_compare_option(_output(_json(_command(commands, "lay", does))))


def add_papers_command(commands: Any) -> None:
    """Add `papers`."""
    add_paper_options(_to(_command(commands, "papers", "write all papers")))


def add_plan_command(commands: Any) -> None:
    """Add `plan`."""
    add_paper_options(_to(_json(_command(commands, "plan", "match, lay and papers in one go: the main job"))))


def run_check(options: argparse.Namespace) -> int:
    """Read and validate a project, walk its seams, print what is wrong where; returns the exit code."""
    from core.derive.findings import find_odd
    from core.seams.walk import walk

    project = read_project(options.file)
    _check_fits_in(options.file, project)
    garment = Garment.of(project)
    findings = (*find_odd(project), *walk(project, garment))
    for finding in findings:
        print(finding)
    seams, panels = len(garment.seams), len(garment.panels)
    print(f"{options.file}: {panels} panels, {seams} seams, {len(findings) or 'no'} findings")
    return DONE


def run_measure(options: argparse.Namespace) -> int:
    """Print the mismatch at every seam for the placements in the file; returns the exit code."""
    from core.files.reports import measurement_report

    project = variant_in(options, read_project(options.file))
    measurement = measure(project)
    if options.json:
        return print_json(measurement_report(project, measurement))
    print(measurement_text(project, measurement))
    if project.variants:
        print("", variants_text(project), sep="\n")
    return DONE


def run_match(options: argparse.Namespace) -> int:
    """Find the placement in which all seams match best, and keep it; returns the exit code."""
    from core.derive.matched import with_patches
    from core.files.reports import measurement_report, solve_report
    from core.matching.solve import match

    if options.shift_mm is not None:
        return _match_and_shift(options)
    project = read_project(options.file)
    garment = Garment.of(project)
    result = match(project, progress_bar(options.json), garment)
    bound = proved(options, project, result)
    result = bound.result if bound else result
    _keep(options, with_patches(result.project))
    measurement = measure(result.project, garment)
    if options.json:
        return print_json({**measurement_report(result.project, measurement), "solve": solve_report(result)})
    print(measurement_text(result.project, measurement))
    print(f"Solved in {result.seconds:.2f} s. {_by_hand(project, garment)}")
    if bound:
        print(proof_text(bound))
    return DONE


def _match_and_shift(options: argparse.Namespace) -> int:
    from core.derive.matched import with_patches
    from core.files.reports import measurement_report

    if options.prove is not None:
        raise BadInput("--prove and --shift-mm stand together", right="a proof holds for the lines as they are drawn")
    result = shifted(options, read_project(options.file))
    _keep(options, with_patches(result.project))
    measurement = measure(result.project)
    if options.json:
        return print_json({**measurement_report(result.project, measurement), **shift_keys(result)})
    print(shift_text(result))
    print(f"Solved in {result.seconds:.2f} s.")
    return DONE


def _by_hand(project: Project, garment: Garment) -> str:
    from core.matching.byhand import by_hand

    figure = measure(by_hand(project, garment), garment).rms_mm
    return "" if figure is None else f"Laid by hand, each panel against its cut neighbour: {figure:.3f} mm rms."


def run_lay(options: argparse.Namespace) -> int:
    """Find the panels' places on each cloth, and keep them; returns the exit code."""
    from core.derive.cutting import cut_project
    from core.derive.matched import with_patches
    from core.files.reports import lays_report, measurement_report
    from core.lay.lay import lay

    project = with_patches(read_project(options.file))
    _check_fits_in(options.file, cut_project(project))
    if options.compare:
        return _compare(options, project)
    with stoppable(progress_bar(options.json)) as progress:
        result = lay(cut_project(project), progress)
    if result.status == "stopped":
        print("stopped early: the shortest lay so far is taken", file=sys.stderr)
    laid = project.placed(result.project.placements)
    _keep(options, laid)
    code = DONE if all(found.fits for found in result.lays) else NOT_TO_BE_HAD
    if options.json:
        report = measurement_report(laid, measure(laid))
        print_json({**report, "lays": lays_report(result)})
        return code
    for found in result.lays:
        print(lay_text(found))
    return code


def _compare(options: argparse.Namespace, project: Project) -> int:
    from core.derive.choices import compared

    if options.output is not None:
        raise BadInput("--compare writes nothing", "-o", "leave one of the two out")
    choices = compared(project, progress_bar(options.json))
    if options.json:
        return print_json(choices_report(choices))
    print(choices_text(choices))
    return DONE


def run_papers(options: argparse.Namespace) -> int:
    """Write the papers that were asked for; returns the exit code."""
    from core.papers.papers import write_papers

    project = read_project(options.file)
    _check_fits_in(options.file, project)
    with speaking(_language()):
        papers = write_papers(project, _folder(options.to), progress_bar(False), paper_choices(options))
    print(*papers, sep="\n")
    return DONE


def _language() -> "GNUTranslations | None":
    """That of the papers: chosen in the workbench, or the desktop's. The command line itself speaks English."""
    from app.languages import catalogues

    return catalogues.catalogue(catalogues.wanted(catalogues.of_the_environment()))


def run_plan(options: argparse.Namespace) -> int:
    """Match, lay and write papers in one go; returns the exit code."""
    from core.derive.cutting import cut_project
    from core.derive.matched import with_patches
    from core.files.reports import lays_report, measurement_report, solve_report
    from core.lay.lay import quick_lay
    from core.matching.solve import match
    from core.papers.papers import write_papers
    from core.progress import part

    project = read_project(options.file)
    _check_fits_in(options.file, cut_project(project))
    folder, garment, progress = _folder(options.to), Garment.of(project), progress_bar(options.json)
    matched = match(project, part(progress, 0.0, 0.3), garment)
    result = quick_lay(cut_project(with_patches(matched.project)), part(progress, 0.3, 0.8))
    laid = matched.project.placed(result.project.placements)
    fits = all(found.fits for found in result.lays)
    with speaking(_language()):
        papers = write_papers(laid, folder, part(progress, 0.8, 1.0), paper_choices(options)) if fits else ()
    progress(1.0, "done")
    kept = _kept_in(folder, options.file, laid)
    measurement = measure(laid, garment)
    if options.json:
        report = measurement_report(laid, measurement)
        print_json({**report, "solve": solve_report(matched), "lays": lays_report(result)})
    else:
        print(measurement_text(laid, measurement))
        print(_by_hand(project, garment), *(lay_text(found) for found in result.lays), *papers, kept, sep="\n")
        if not fits:
            print("No papers: there is nothing to cut from while the cloth is too short.")
    return DONE if fits else NOT_TO_BE_HAD


def _kept_in(folder: Path, source: str, project: Project) -> Path:
    """Write a project into a folder, under the name of the file it came from; where it is now."""
    folder.mkdir(parents=True, exist_ok=True)
    kept = folder / f"{Path(source).stem}{SUFFIX}"
    write_project(kept, project)
    return kept


def _check_fits_in(path: str, project: Project) -> None:
    """Check that every panel fits across its cloth. Raises BadInput that names the file as well."""
    with inside(path):
        check_fits(project)


def _folder(path: str) -> Path:
    folder = Path(path)
    if folder.exists() and not folder.is_dir():
        raise BadInput("it is a file", str(folder), "the name of a folder is right")
    return folder


def _keep(options: argparse.Namespace, project: Project) -> None:
    """Write the project to -o; without it, update the file itself, unless the result goes out as JSON."""
    if options.output is not None:
        write_project(options.output, project)
    elif not options.json:
        write_project(options.file, project)


def _command(commands: Any, name: str, does: str) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = commands.add_parser(name, help=does, description=does)
    command.add_argument("file", metavar="FILE", help="a project file")
    return command


def _json(command: argparse.ArgumentParser) -> argparse.ArgumentParser:
    command.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
    return command


def _output(command: argparse.ArgumentParser) -> argparse.ArgumentParser:
    command.add_argument(
        "-o", dest="output", metavar="OUT", help="write the project here (else FILE; with --json nowhere)"
    )
    return command


def _to(command: argparse.ArgumentParser) -> argparse.ArgumentParser:
    command.add_argument("--to", required=True, metavar="DIR", help="the folder to write to")
    return command
