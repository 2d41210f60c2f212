"""Made-up pieces and cloths for the lay's tests. All numbers are invented."""

import json

import numpy as np
from shapely.affinity import rotate, translate
from shapely.geometry import Polygon, box

from core.files.project_file import project_from_bytes
from core.model.panel import panels_of
from core.model.project import Placement, Project
from core.seams.readings import measure
from garments import repeat


def rectangle(name: str, wide: float, tall: float, cloth: str = "cloth") -> dict:
    """A piece with its origin in its upper left corner, drawn at its cut line."""
    sides = [
        ("top", f"M 0 0 L {wide} 0"),
        ("right", f"M {wide} 0 L {wide} {tall}"),
        ("bottom", f"M {wide} {tall} L 0 {tall}"),
        ("left", f"M 0 {tall} L 0 0"),
    ]
    return {"id": name, "cloth": cloth, "edges": [{"name": edge, "path": path} for edge, path in sides]}


def triangle(name: str, wide: float, tall: float, cloth: str = "cloth") -> dict:
    """A piece that is narrow at the top, its origin there."""
    sides = [
        ("right", f"M 0 0 L {wide / 2} {tall}"),
        ("bottom", f"M {wide / 2} {tall} L {-wide / 2} {tall}"),
        ("left", f"M {-wide / 2} {tall} L 0 0"),
    ]
    return {"id": name, "cloth": cloth, "edges": [{"name": edge, "path": path} for edge, path in sides]}


def outlined(name: str, ring: np.ndarray) -> dict:
    """A piece with straight edges round a ring of corners, (n, 2)."""
    corners = zip(ring.tolist(), np.roll(ring, -1, axis=0).tolist(), strict=True)
    paths = [f"M {a[0]} {a[1]} L {b[0]} {b[1]}" for a, b in corners]
    return {"id": name, "cloth": "cloth", "edges": [{"name": str(k), "path": path} for k, path in enumerate(paths)]}


def project_of(pieces: list[dict], width: float, period: float | None = None, **cloth: object) -> Project:
    """A project on one cloth, plain or striped with an even repeat."""
    striped = {"repeat": repeat("even", period)} if period else {}
    cloths = [{"id": "cloth", "width": width, **striped, **cloth}]
    raw = {"format": "stripewright-project", "version": 1, "cloths": cloths, "pieces": pieces}
    return project_from_bytes(json.dumps(raw).encode())


def scattered(project: Project, seed: int, turn_deg: float = 0.5) -> Project:
    """The project with its panels at random phases, turns and ends."""
    rng = np.random.default_rng(seed)
    cloth = project.cloths[0]
    changes = {
        name: Placement(
            u=float(rng.uniform(0, 300)),
            v=float(rng.uniform(0, 300)),
            turn_deg=float(rng.uniform(-turn_deg, turn_deg)),
            turned=bool(rng.integers(2)) and not cloth.one_way,
        )
        for name in project.panel_names
    }
    return project.placed(changes)


def shapes_on_cloth(project: Project) -> dict[str, Polygon]:
    """The panels' cut lines where they lie, put there by shapely alone."""
    shapes = {}
    for piece in project.pieces:
        for panel in panels_of(piece):
            at = project.placement(panel.name)
            angle = at.turn_deg + (180 if at.turned else 0)
            shapes[panel.name] = translate(rotate(Polygon(panel.cut_ring), angle, origin=(0, 0)), at.u, at.v)
    return shapes


def assert_can_be_cut(project: Project) -> None:
    """No overlaps of 0.01 mm2 or more; inside the usable width, behind the cut end and off the flaws."""
    cloth, shapes = project.cloths[0], list(shapes_on_cloth(project).values())
    room = box(cloth.usable[0] - 1e-4, -1e-4, cloth.usable[1] + 1e-4, 1e6)
    for index, shape in enumerate(shapes):
        assert room.contains(shape)
        assert all(shape.intersection(box(*flaw)).area < 0.01 for flaw in cloth.flaws)
        assert all(shape.intersection(other).area < 0.01 for other in shapes[:index])


def assert_phases_kept(before: Project, after: Project) -> None:
    """Turns are as they were, and stripes lie where they lay on every panel, to 0.001 mm.

    Where the cloth is not one-way panels may lie end for end, their stripes reflected about the matched axis; panels
    that are sewn together may have shifted, if no seam has got worse.
    """
    cloth, sewn = before.cloths[0], set()
    seams = zip(*((*one.seams, *one.crosswise) for one in (measure(before), measure(after))), strict=True)
    for old, new in seams:
        if old and new:
            assert new.rms_mm <= old.rms_mm + 1e-6
            assert new.worst[0] <= old.worst[0] + 1e-6
            sewn |= set(old.line.panels)
    for name in before.panel_names:
        old, new = before.placement(name), after.placement(name)
        assert (old.turn_deg, old.hold) == (new.turn_deg, new.hold)
        assert old.turned == new.turned or not (cloth.one_way or old.hold)
        if cloth.repeat and name not in sewn:
            w_old, w_new = old.u - cloth.skew * old.v, new.u - cloth.skew * new.v
            same = w_old if old.turned == new.turned else 2 * cloth.repeat.c - w_old
            moved = (w_new - same) / cloth.repeat.period
            assert abs(moved - round(moved)) * cloth.repeat.period < 0.001
        if cloth.crosswise and name not in sewn:
            z_old, z_new = old.v - cloth.weft_skew * old.u, new.v - cloth.weft_skew * new.u
            same = z_old if old.turned == new.turned else 2 * cloth.crosswise.c - z_old
            moved = (z_new - same) / cloth.crosswise.period
            assert abs(moved - round(moved)) * cloth.crosswise.period < 0.001
