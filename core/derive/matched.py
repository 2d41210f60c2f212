"""Patches laid on their cloth where the stripes of the panels that they lie on go on."""

from core.derive.cutting import cut_project
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.patch import patches

SAME_MM = 0.005
"""What lies no farther than this from where its stripes continue lies right."""


def with_patches(project: Project) -> Project:
    """The project in which whatever lies on a panel lies on its cloth where its stripes go on from the panel's.

    Raises BadInput for a layer or pocket that can't be had, if anything lies on a panel.
    """
    if not any(piece.on for piece in project.pieces) and not any(strip.on for strip in project.strips):
        return project
    return project.placed(continued(cut_project(project)))


def continued(cut: Project) -> dict[PanelName, Placement]:
    """New places for what lies on panels that have one, so that its stripes go on; what is held or lies right stays."""
    return {
        patch.name: patch.nearest
        for patch in patches(cut)
        if patch.under.name in cut.placements
        and not patch.at.hold
        and (patch.name not in cut.placements or patch.apart_mm > SAME_MM)
    }
