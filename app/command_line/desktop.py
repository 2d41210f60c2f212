"""`stripewright desktop`: the program in the desktop's menu, and project files opened by it."""

import argparse
import shutil
import sys
from pathlib import Path
from typing import Any

from app.desktop.entry import data_folder, install, remove
from core.errors import BadInput, CannotBeHad


def add_desktop_command(commands: Any) -> None:
    """Describe the command."""
    does = "put the program into the desktop's menu and have it open project files, for this user (Linux)"
    desktop: argparse.ArgumentParser = commands.add_parser("desktop", help=does, description=does)
    way = desktop.add_mutually_exclusive_group(required=True)
    way.add_argument("--install", action="store_true", help="menu entry, icon and kind of file")
    way.add_argument("--remove", action="store_true", help="take all of it away again")


def run_desktop(options: argparse.Namespace) -> int:
    """Install or remove; prints every file that was written or removed. Returns the exit code."""
    if not sys.platform.startswith("linux"):
        raise CannotBeHad("menu entries are made on Linux only; elsewhere make a shortcut to the program")
    folder = data_folder()
    done = install(program(), folder) if options.install else remove(folder)
    print(*(done or [f"Nothing of it is in {folder}."]), sep="\n")
    return 0


def program() -> Path:
    """The program that was started, which the menu entry is to start as well. Raises BadInput if it can't be told."""
    started = Path(sys.executable if getattr(sys, "frozen", False) else sys.argv[0])
    beside = Path(sys.executable).with_name("stripewright")
    found = shutil.which("stripewright")
    for path in (started, beside, *([Path(found)] if found else [])):
        if path.stem == "stripewright" and path.is_file():
            return path.absolute()
    raise BadInput("the program is not installed", "stripewright", "pipx install . makes a program to start")
