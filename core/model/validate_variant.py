"""What a variant of a project must satisfy."""

from collections.abc import Callable, Iterable, Sequence

from core.errors import BadInput, inside
from core.model.project import Project, Variant
from core.model.variants import alike, in_force


def check_variant(project: Project, variant: Variant, check: Callable[[Project], None]) -> None:
    """Check that a variant names what is there, and with `check` the project with it in force. Raises BadInput."""
    with inside(f"variant {variant.name!r}"):
        _check_names(variant.grain_tolerance_deg, "cloth", [cloth.id for cloth in project.cloths])
        _check_names(variant.weights, "seam", [seam.name for seam in project.seams])
        _check_replaced(project, variant)
        check(in_force(project, variant))


def _check_names(given: Iterable[str], what: str, known: Sequence[str]) -> None:
    for name in given:
        if name not in known:
            raise BadInput(f"there is no {what} {name!r}", right=f"the {what}s are {', '.join(known)}")


def _check_replaced(project: Project, variant: Variant) -> None:
    pieces = {piece.id: piece for piece in project.pieces}
    ids = [piece.id for piece in variant.pieces]
    _check_names(ids, "piece", list(pieces))
    for piece in variant.pieces:
        if ids.count(piece.id) > 1:
            raise BadInput(f"{piece.id!r} stands {ids.count(piece.id)} times", "pieces", "each needs one of its own")
        if not alike(piece, pieces[piece.id]):
            right = "the cut, fold, cloth and names of edges that the project's own piece has"
            raise BadInput("it can't stand for the project's own piece", f"piece {piece.id!r}", right)
