"""The shelf: cloths kept for other projects, each in a file of its own, with a picture beside it if there is one."""

import re
import shutil
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Literal

import msgspec

from core.errors import BadInput, inside
from core.files.atomic import write_atomically
from core.files.reading import bytes_of
from core.files.structure import structure_from
from core.model.cloth import Cloth
from core.model.validate_cloth import check_cloth
from core.wording import later, listed, tr

SUFFIX = ".stripewright-cloth"
FORMAT = "stripewright-cloth"
_PICTURES = (".png", ".jpg", ".jpeg", ".tif", ".tiff", ".bmp", ".webp")


class KeptCloth(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The content of one file on the shelf; `kept` is the day, `picture` the name of a file beside it."""

    format: Literal["stripewright-cloth"] = "stripewright-cloth"
    version: Literal[1] = 1
    cloth: Cloth
    kept: str
    note: str = ""
    picture: str | None = None


@dataclass(frozen=True)
class OnShelf:
    """A cloth on the shelf: the name it lies there under, what is kept, where its picture is."""

    name: str
    kept: KeptCloth
    picture: Path | None


def on_shelf(shelf: Path) -> tuple[tuple[OnShelf, ...], tuple[str, ...]]:
    """All cloths on a shelf by name, and a line about each file that can't be read; both empty without a shelf."""
    found, faults = [], []
    for path in sorted(shelf.glob(f"*{SUFFIX}")):
        try:
            found.append(_read(path))
        except BadInput as error:
            faults.append(str(error))
    return tuple(found), tuple(faults)


def from_shelf(shelf: Path, name: str) -> OnShelf:
    """The cloth that lies on a shelf under a name. Raises BadInput if there is none."""
    path = shelf / f"{name}{SUFFIX}"
    if Path(name).name != name or not path.is_file():
        names = ", ".join(one.name for one in on_shelf(shelf)[0]) or "empty"
        raise BadInput(
            tr("there is no cloth {name!r}", name=name),
            tr("shelf {shelf}", shelf=shelf),
            tr("on it are: {names}", names=names),
        )
    return _read(path)


def put_on_shelf(shelf: Path, cloth: Cloth, note: str = "", picture: Path | None = None) -> OnShelf:
    """Keep a cloth under a free name made from its title. Raises BadInput where that can't be written."""
    check_cloth(cloth)
    if picture is not None and (picture.suffix.lower() not in _PICTURES or not picture.is_file()):
        raise BadInput(
            tr("it is no picture that can be kept"), str(picture), tr("a file {pictures}", pictures=listed(_PICTURES))
        )
    name = _free_name(shelf, cloth.title)
    beside = None if picture is None else f"{name}{picture.suffix.lower()}"
    kept = KeptCloth(cloth=cloth, kept=date.today().isoformat(), note=note, picture=beside)
    try:
        shelf.mkdir(parents=True, exist_ok=True)
        if picture is not None:
            shutil.copyfile(picture, shelf / str(beside))
    except OSError as error:
        raise BadInput(
            tr("it can't be written to ({strerror})", strerror=error.strerror), str(shelf), tr("a folder of your own")
        ) from None
    write_atomically(shelf / f"{name}{SUFFIX}", msgspec.json.format(msgspec.json.encode(kept), indent=2) + b"\n")
    return OnShelf(name, kept, None if beside is None else shelf / beside)


def off_shelf(shelf: Path, name: str) -> None:
    """Take a cloth off a shelf for good, its picture too. Raises BadInput if there is none."""
    gone = from_shelf(shelf, name)
    (shelf / f"{name}{SUFFIX}").unlink(missing_ok=True)
    if gone.picture is not None:
        gone.picture.unlink(missing_ok=True)


def _read(path: Path) -> OnShelf:
    with inside(str(path)):
        kept = structure_from(bytes_of(path, tr("a cloth kept on the shelf")), KeptCloth, FORMAT, later("kept cloth"))
        check_cloth(kept.cloth)
    beside = path.parent / Path(kept.picture).name if kept.picture else None
    return OnShelf(path.name.removesuffix(SUFFIX), kept, beside if beside and beside.is_file() else None)


def _free_name(shelf: Path, title: str) -> str:
    plain = re.sub(r"[^\w]+", "-", title.lower()).strip("-")[:40] or "cloth"
    names = [plain, *(f"{plain}-{number}" for number in range(2, 1000))]
    return next(name for name in names if not (shelf / f"{name}{SUFFIX}").exists())
