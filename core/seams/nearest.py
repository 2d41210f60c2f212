"""The edges of all panels as they lie on a cloth, to be found by a place near them."""

from dataclasses import dataclass

import shapely
from shapely import STRtree

from core.geometry.paths import Points
from core.geometry.transform import placed
from core.model.pattern import EdgeRef
from core.model.project import Project
from core.seams.garment import Garment


@dataclass(frozen=True, eq=False)
class EdgesOnCloth:
    """The stitching lines on one cloth, u and v in mm, by their references."""

    lines: dict[EdgeRef, Points]
    _tree: STRtree

    @classmethod
    def of(cls, project: Project, garment: Garment, cloth_id: str) -> "EdgesOnCloth":
        """The edges of the panels that are cut from a cloth, where the project places them."""
        lines: dict[EdgeRef, Points] = {}
        for name, panel in garment.panels.items():
            if panel.piece.cloth == cloth_id:
                at = project.placement(name)
                for edge, line in panel.net.items():
                    lines[f"{name}/{edge}"] = placed(line, at.u, at.v, at.turn_deg, at.turned)
        return cls(lines, STRtree([shapely.LineString(line) for line in lines.values()]))

    def nearest(self, u: float, v: float, within_mm: float) -> EdgeRef | None:
        """The edge nearest to a place and no farther from it than so many mm; None if there is none."""
        found = self._tree.query_nearest(shapely.Point(u, v), max_distance=within_mm, all_matches=False)
        return list(self.lines)[int(found[0])] if len(found) else None
