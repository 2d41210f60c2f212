"""What a Linux desktop reads about the program: entry in its menu, kind of file, icons. All for one user.

The formats are those of freedesktop.org: Desktop Entry 1.5, Shared MIME-info, Icon Theme.
"""

import contextlib
import os
import shutil
import subprocess
from pathlib import Path

from app.resources import resource
from core.errors import BadInput, CannotBeHad
from core.files.atomic import write_atomically
from core.files.suffixes import SUFFIX

KIND = "application/x-stripewright+json"
"""The MIME type of a project file."""
APPLICATIONS, PACKAGES, ICONS = "applications", "mime/packages", "icons/hicolor/scalable"
_ENTRY = """[Desktop Entry]
Type=Application
Name=Stripewright
GenericName=Stripe matching for panelled garments
GenericName[de]=Streifen an Nähten zusammenbringen
Comment=Cut flared, panelled garments from striped cloth so that the stripes meet at every seam
Comment[de]=Ausgestellte Bahnenschnitte so aus Streifenstoff zuschneiden, dass sich die Streifen an jeder Naht treffen
Exec={command} %f
TryExec={program}
Icon=stripewright
Terminal=false
Categories=Graphics;2DGraphics;
Keywords=sewing;cloth;stripes;pattern;cutting;gores;
MimeType={kind};
StartupNotify=true
StartupWMClass=stripewright
"""
_PACKAGE = """<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="{kind}">
    <comment>Stripewright project</comment>
    <comment xml:lang="de">Stripewright-Projekt</comment>
    <sub-class-of type="application/json"/>
    <icon name="stripewright"/>
    <glob pattern="*{suffix}"/>
  </mime-type>
</mime-info>
"""


def data_folder() -> Path:
    """Where the desktop looks for what one user has installed."""
    named = os.environ.get("XDG_DATA_HOME", "")
    return Path(named) if Path(named).is_absolute() else Path.home() / ".local" / "share"


def files(program: Path) -> dict[str, bytes]:
    """Content of every file, by its path in the data folder. `program` is what the entry starts."""
    entry = _ENTRY.format(command=_quoted(program), program=program, kind=KIND)
    icon = resource("icons", "app.svg").read_bytes()
    return {
        f"{APPLICATIONS}/stripewright.desktop": entry.encode(),
        f"{PACKAGES}/stripewright.xml": _PACKAGE.format(kind=KIND, suffix=SUFFIX).encode(),
        f"{ICONS}/apps/stripewright.svg": icon,
        f"{ICONS}/mimetypes/{KIND.replace('/', '-')}.svg": icon,
    }


def _quoted(program: Path) -> str:
    """A path as the Exec key wants it."""
    escaped = "".join(f"\\{letter}" if letter in '"`$\\' else letter for letter in str(program))
    return '"' + escaped.replace("\\", "\\\\").replace("%", "%%") + '"'


def install(program: Path, folder: Path) -> list[Path]:
    """Write the files and tell the desktop; returns their paths. Raises BadInput where they can't be written."""
    written = []
    for name, content in files(program).items():
        path = folder / name
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise BadInput(f"it can't be made ({error.strerror})", str(path.parent), "a folder of your own") from None
        write_atomically(path, content)
        written.append(path)
    _tell(folder)
    return written


def remove(folder: Path) -> list[Path]:
    """Take the files away and tell the desktop; returns the paths of those that were there. Raises CannotBeHad."""
    gone = []
    for name in files(Path("stripewright")):
        path = folder / name
        try:
            path.unlink()
        except FileNotFoundError:
            continue
        except OSError as error:
            raise CannotBeHad(f"{path} can't be removed ({error.strerror})") from None
        gone.append(path)
    _tell(folder)
    return gone


def _tell(folder: Path) -> None:
    """Have the desktop read what has changed, where it has the tools for it."""
    commands = (
        ("update-mime-database", folder / "mime"),
        ("update-desktop-database", folder / APPLICATIONS),
        ("gtk-update-icon-cache", "-q", "-t", "-f", folder / "icons" / "hicolor"),
    )
    for tool, *words in commands:
        if (found := shutil.which(tool)) and Path(str(words[-1])).is_dir():
            with contextlib.suppress(OSError, subprocess.TimeoutExpired):
                subprocess.run([found, *map(str, words)], capture_output=True, check=False, timeout=60)
