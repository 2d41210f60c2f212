"""What every draft yields."""

from dataclasses import dataclass

from core.model.cloth import Cloth
from core.model.project import Project
from core.seams.walk import Finding
from core.wording import tr


@dataclass(frozen=True)
class Draft:
    """A drafted project, ready to be matched, and what is odd about the measurements or choices it was drafted from."""

    project: Project
    findings: tuple[Finding, ...]


def fit_findings(cloth: Cloth, piece: str, wide_mm: float) -> list[Finding]:
    """A finding if a piece, its cutting line `wide_mm` wide, does not fit across its cloth."""
    room = cloth.usable[1] - cloth.usable[0]
    if wide_mm <= room:
        return []
    what = tr(
        "its cutting line is {wide_mm:.1f} mm wide, the usable width of {title!r} is {room:.1f} mm",
        wide_mm=wide_mm,
        title=cloth.title,
        room=room,
    )
    return [Finding(tr("piece {piece!r}", piece=piece), what, tr("more gores, or a wider cloth"))]
