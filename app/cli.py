"""The command line. Everything but the workbench itself runs without a screen and without Qt."""

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path
from typing import Any, NoReturn

from app import __version__
from core.errors import BadInput, StripewrightError
from core.files.suffixes import SUFFIX

DONE, NOT_TO_BE_HAD, BAD_INPUT = 0, 1, 2
COMMANDS = {
    "check": "project",
    "measure": "project",
    "match": "project",
    "lay": "project",
    "papers": "project",
    "plan": "project",
    "draft": "draft",
    "import": "bring_in",
    "swatch": "swatch",
    "ease": "ease",
    "true": "truing",
    "desktop": "desktop",
    "advise": "advise",
    "forecast": "forecast",
    "shelf": "shelf",
    "list": "lists",
}
"""The module of each command: it describes the command in `add_NAME_command` and does it in `run_NAME`. Only the module
of the command that is given is read; for the help on all of them, all are."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code: 0 done, 1 can't be had, 2 bad input."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    try:
        if not words or (words[0] not in COMMANDS and not words[0].startswith("-")):
            return _workbench(words)
        options = _parser([words[0]] if words[0] in COMMANDS else list(COMMANDS)).parse_args(words)
        return _of(options.command, "run_{}")(options)
    except BadInput as error:
        return _say(str(error), BAD_INPUT)
    except StripewrightError as error:
        return _say(str(error), NOT_TO_BE_HAD)
    except KeyboardInterrupt:
        return _say("stopped", NOT_TO_BE_HAD)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except Exception as error:
        if os.environ.get("STRIPEWRIGHT_DEBUG"):
            raise
        kind = type(error).__name__
        return _say(f"something went wrong inside the program ({kind}: {error}); nothing was kept", BAD_INPUT)


def _say(message: str, code: int) -> int:
    print("stripewright:", " ".join(message.split()), file=sys.stderr)
    return code


def _workbench(words: list[str]) -> int:
    if len(words) > 1:
        raise BadInput(f"{words[0]!r} is no command", right=f"the commands are {', '.join(COMMANDS)}")
    if words and not words[0].endswith(SUFFIX) and not Path(words[0]).exists():
        raise BadInput(
            f"{words[0]!r} is neither a command nor a project file", right=f"the commands are {', '.join(COMMANDS)}"
        )
    read = None
    if words:
        from app.safekeeping.stamp import read_stamped

        read = read_stamped(Path(words[0]))
    from app.workbench import run

    return run(read)


def _of(command: str, name: str) -> Callable[[Any], Any]:
    """What a command's module holds under a name, `{}` in it standing for the command."""
    return getattr(import_module(f"app.command_line.{COMMANDS[command]}"), name.format(command))


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise BadInput(message, right="stripewright --help tells how")


def _parser(names: Sequence[str]) -> argparse.ArgumentParser:
    """Reads the options of these commands."""
    parser = _Parser(
        prog="stripewright",
        description="Cut flared, panelled garments from striped cloth so that the stripes meet at every seam. "
        "Without a command, or with a project file alone, the workbench opens.",
    )
    parser.add_argument("--version", action="version", version=f"stripewright {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for name in names:
        _of(name, "add_{}_command")(commands)
    return parser


if __name__ == "__main__":
    sys.exit(main())
