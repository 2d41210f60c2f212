"""A ten-panel skirt with everything that is cut besides its panels. All numbers are invented."""

import msgspec

from conftest import SAMPLES
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.model.cloth import Cloth
from core.model.project import Layer, Pocket, Project, Strip

ALL = ("front", "side-front", "side", "side-back", "back")
MUSLIN = Cloth(id="muslin", name="Stiff muslin", width=1100, selvedge=(5, 5), shrinkage_percent=4, price_per_m=6.5)
SATEEN = Cloth(id="sateen", width=1400, selvedge=(8, 8))
LAYERS = (
    Layer(kind="interlining", of=ALL, cloth="muslin"),
    Layer(kind="hem facing", of=ALL, cloth="sateen", edge="hem", depth=200),
    Layer(kind="top lining", of=ALL, cloth="sateen", edge="waist", depth=180),
)
STRIPS = (
    Strip(id="placket", name="Placket", length=500, width=63.5, number=1, cloth="sateen"),
    Strip(id="belt", name="Belt", length=735.4, width=90, number=2, cloth="muslin"),
    Strip(id="binding", name="Binding", length=900, width=40, number=3, cloth="sateen", grain="bias"),
)
POCKETS = (
    Pocket(
        id="pocket", seam="side to side back", opening=(60, 220), width=150, depth=120, cloth="sateen", allowance=10
    ),
)


def plain_skirt() -> Project:
    return read_project(SAMPLES / "harbour-skirt.stripewright")


def changed(project: Project, **keys: object) -> Project:
    """A project with other keys, through the file format so that it is validated."""
    return project_from_bytes(project_to_bytes(msgspec.structs.replace(project, **keys)))


def full_skirt() -> Project:
    plain = plain_skirt()
    cloths = (*plain.cloths, MUSLIN, SATEEN)
    seams = tuple(
        msgspec.structs.replace(seam, open=POCKETS[0].opening) if seam.name == POCKETS[0].seam else seam
        for seam in plain.seams
    )
    return changed(plain, cloths=cloths, seams=seams, layers=LAYERS, strips=STRIPS, pockets=POCKETS)
