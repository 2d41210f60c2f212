"""Named variants of a project: other placements, pieces, tolerances or weights that it may be brought back to."""

import msgspec

from core.errors import BadInput
from core.model.pattern import Piece
from core.model.project import Centre, Project, Variant
from core.wording import tr


def variant_of(project: Project, name: str) -> Variant:
    """The variant with a name. Raises BadInput if there is none."""
    for variant in project.variants:
        if variant.name == name:
            return variant
    names = ", ".join(variant.name for variant in project.variants)
    raise BadInput(
        tr("no variant {name!r}", name=name),
        right=tr("the variants are {names}", names=names) if names else tr("the project has none"),
    )


def as_it_stands(project: Project, name: str, note: str = "") -> Variant:
    """A variant of how things stand: placements, match, tolerances of the striped and barred cloths, all weights."""
    return Variant(
        name=name,
        placements=project.placements,
        match=project.match,
        grain_tolerance_deg={c.id: c.grain_tolerance_deg for c in project.cloths if c.ways},
        weights={seam.name: seam.weight for seam in project.seams},
        note=note,
    )


def keep(project: Project, name: str, note: str = "") -> Project:
    """The project with a variant more, of how things stand. Raises BadInput where the name is empty or taken."""
    _check_new(project, name)
    return _with(project, (*project.variants, as_it_stands(project, name, note)))


def renamed(project: Project, name: str, new: str) -> Project:
    """The project with a variant called otherwise. Raises BadInput where the new name is empty or taken."""
    variant_of(project, name)
    if new != name:
        _check_new(project, new)
    return _with(
        project,
        tuple(msgspec.structs.replace(v, name=new) if v.name == name else v for v in project.variants),
    )


def without(project: Project, name: str) -> Project:
    """The project without a variant."""
    gone = variant_of(project, name)
    return _with(project, tuple(variant for variant in project.variants if variant is not gone))


def taken(project: Project, name: str) -> Project:
    """The project with a variant in force.

    Pieces that it replaces are given to the other variants that don't replace them, so that each still stands for what
    it did when it was kept.
    """
    variant = variant_of(project, name)
    return replaced(in_force(project, variant), project)


def in_force(project: Project, variant: Variant) -> Project:
    """The project as a variant wants it; its list of variants stays."""
    pieces = {piece.id: piece for piece in variant.pieces}
    limits, weights = variant.grain_tolerance_deg, variant.weights
    return msgspec.structs.replace(
        project,
        placements=variant.placements,
        match=variant.match or project.match,
        pieces=tuple(pieces.get(piece.id, piece) for piece in project.pieces),
        cloths=tuple(
            msgspec.structs.replace(cloth, grain_tolerance_deg=limits.get(cloth.id, cloth.grain_tolerance_deg))
            for cloth in project.cloths
        ),
        seams=tuple(
            msgspec.structs.replace(seam, weight=weights.get(seam.name, seam.weight)) for seam in project.seams
        ),
    )


def replaced(after: Project, before: Project) -> Project:
    """`after`, in which variants keep the pieces of `before` that are others now and that they don't replace."""
    now = {piece.id: piece for piece in after.pieces}
    old = tuple(piece for piece in before.pieces if piece.id in now and now[piece.id] != piece)
    return _with(after, tuple(_with_pieces(variant, old) for variant in after.variants))


def tried(project: Project, changed: Project, name: str) -> Project:
    """`changed`, a project that came of this one by a change, and both of them among its variants.

    How things stood is kept as "As it stood" unless a variant has that already; the change gets the name given, with a
    number where that is taken.
    """
    known = any(stands(project, variant) for variant in project.variants)
    kept = project if known else keep(project, _fresh(project, tr("As it stood")))
    after = replaced(msgspec.structs.replace(changed, variants=kept.variants), project)
    return keep(after, _fresh(after, name))


def _fresh(project: Project, name: str) -> str:
    """The name, or the first numbered one that no variant has."""
    names = {variant.name for variant in project.variants}
    return next(one for one in (name, *(f"{name} ({n})" for n in range(2, len(names) + 3))) if one not in names)


def stands(project: Project, variant: Variant) -> bool:
    """Whether the project stands as a variant has it: taking it would change nothing."""
    return in_force(project, variant) == project


def fitting(project: Project) -> Project:
    """The project, its variants without what names panels, cloths, seams or edges that are there no longer."""
    if not project.variants:
        return project
    variants = tuple(_fitted(project, variant) for variant in project.variants)
    return project if variants == project.variants else _with(project, variants)


def _fitted(project: Project, variant: Variant) -> Variant:
    pieces = {piece.id: piece for piece in project.pieces}
    panels = {*project.panel_names, *project.derived_panel_names}
    cloths, seams = {cloth.id for cloth in project.cloths}, {seam.name for seam in project.seams}
    centre = variant.match.centre if variant.match else Centre()
    lost = centre.seam not in {*seams, None} or centre.panel not in {*project.panel_names, None}
    return msgspec.structs.replace(
        variant,
        placements={name: at for name, at in variant.placements.items() if name in panels},
        match=None if lost else variant.match,
        grain_tolerance_deg={id_: deg for id_, deg in variant.grain_tolerance_deg.items() if id_ in cloths},
        weights={name: weight for name, weight in variant.weights.items() if name in seams},
        pieces=tuple(piece for piece in variant.pieces if piece.id in pieces and alike(piece, pieces[piece.id])),
    )


def alike(piece: Piece, other: Piece) -> bool:
    """Whether two pieces can stand for one another in every seam, layer and placement."""
    return (
        piece.cut == other.cut
        and piece.fold == other.fold
        and piece.cloth == other.cloth
        and [edge.name for edge in piece.edges] == [edge.name for edge in other.edges]
    )


def _with_pieces(variant: Variant, old: tuple[Piece, ...]) -> Variant:
    own = {piece.id for piece in variant.pieces}
    more = tuple(piece for piece in old if piece.id not in own)
    return msgspec.structs.replace(variant, pieces=(*variant.pieces, *more)) if more else variant


def _check_new(project: Project, name: str) -> None:
    if not name.strip():
        raise BadInput(tr("the name is empty"), "variant", tr("a name that tells what is tried"))
    if any(variant.name == name for variant in project.variants):
        raise BadInput(tr("there is a variant {name!r} already", name=name), "variant", tr("another name"))


def _with(project: Project, variants: tuple[Variant, ...]) -> Project:
    return msgspec.structs.replace(project, variants=variants)
