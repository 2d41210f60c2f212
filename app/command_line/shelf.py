"""`stripewright shelf`: cloths kept for other projects."""

import argparse
from pathlib import Path
from typing import Any

from app.command_line.console import table
from app.safekeeping.folders import shelf_folder
from core.derive.changes import with_cloth
from core.errors import inside
from core.files.project_file import read_project, write_project
from core.files.shelf import OnShelf, from_shelf, off_shelf, on_shelf, put_on_shelf
from core.model.cloth import Cloth
from core.model.project import Project
from core.model.validate import validate


def add_shelf_command(commands: Any) -> None:
    """Describe the command and what it does by its second word."""
    does = "cloths kept for other projects: with nothing more said, what is on the shelf"
    shelf: argparse.ArgumentParser = commands.add_parser("shelf", help=does, description=does)
    ways = shelf.add_subparsers(dest="way", metavar="WHAT")
    keep = ways.add_parser("keep", help="keep a cloth of a project")
    left = ways.add_parser("leftover", help="keep what is left of a cloth once a project is cut from it")
    for way in (keep, left):
        way.add_argument("file", metavar="FILE", help="a project file")
        way.add_argument("--cloth", metavar="ID", help="which of its cloths (else the first)")
        way.add_argument("--note", default="", metavar="TEXT", help="what to remember about it")
    keep.add_argument("--picture", type=Path, metavar="IMAGE", help="a picture of it")
    take = ways.add_parser("take", help="give a cloth from the shelf to a project")
    take.add_argument("name", metavar="NAME", help="its name on the shelf")
    take.add_argument("file", metavar="FILE", help="a project file")
    take.add_argument("--cloth", metavar="ID", help="the cloth that it takes the place of (else it is added)")
    take.add_argument("-o", dest="output", metavar="OUT", help="write the project here (else FILE)")
    away = ways.add_parser("remove", help="take a cloth off the shelf for good")
    away.add_argument("name", metavar="NAME", help="its name on the shelf")


def run_shelf(options: argparse.Namespace) -> int:
    """Do what the second word says; returns the exit code."""
    return {None: _show, "keep": _keep, "leftover": _keep_leftover, "take": _take, "remove": _remove}[options.way](
        options
    )


def _show(options: argparse.Namespace) -> int:
    found, faults = on_shelf(shelf_folder())
    print(table([("name", "cloth", "width mm", "length", "repeat", "kept"), *(_row(one) for one in found)]))
    print(*faults, *([] if found else [f"The shelf is empty: {shelf_folder()}"]), sep="\n")
    return 0


def _row(one: OnShelf) -> tuple[str, ...]:
    cloth = one.kept.cloth
    length = "remnant" if cloth.remnant else "-" if cloth.length is None else f"{cloth.length:.0f} mm"
    return one.name, cloth.title, f"{cloth.width:g}", length, _repeats(cloth), one.kept.kept


def _repeats(cloth: Cloth) -> str:
    stripes = [f"{cloth.repeat.width:g} mm"] if cloth.repeat else []
    bars = [f"bars {cloth.crosswise.width:g} mm"] if cloth.crosswise else []
    return ", ".join([*stripes, *bars]) or "plain"


def _keep(options: argparse.Namespace) -> int:
    return _kept(
        put_on_shelf(shelf_folder(), _cloth(read_project(options.file), options), options.note, options.picture)
    )


def _keep_leftover(options: argparse.Namespace) -> int:
    from core.derive.cutting import cut_project
    from core.lay.leftover import leftover

    project = cut_project(read_project(options.file))
    return _kept(put_on_shelf(shelf_folder(), leftover(project, _cloth(project, options).id), options.note))


def _kept(one: OnShelf) -> int:
    print(f"kept as {one.name}")
    return 0


def _take(options: argparse.Namespace) -> int:
    project = read_project(options.file)
    kept = from_shelf(shelf_folder(), options.name).kept
    with inside(options.file):
        taken = with_cloth(project, kept.cloth, options.cloth)
        validate(taken)
    write_project(options.output or options.file, taken)
    return 0


def _remove(options: argparse.Namespace) -> int:
    off_shelf(shelf_folder(), options.name)
    return 0


def _cloth(project: Project, options: argparse.Namespace) -> Cloth:
    with inside(options.file):
        return project.cloth(options.cloth or project.cloths[0].id)
