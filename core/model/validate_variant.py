"""What a variant of a project must satisfy."""

from collections.abc import Callable, Iterable, Sequence

from core.errors import BadInput, inside
from core.model.project import Project, Variant
from core.model.variants import alike, in_force
from core.wording import later, listed, tr


def check_variant(project: Project, variant: Variant, check: Callable[[Project], None]) -> None:
    """Check that a variant names what is there, and with `check` the project with it in force. Raises BadInput."""
    with inside(tr("variant {name!r}", name=variant.name)):
        _check_names(variant.grain_tolerance_deg, _NO_CLOTH, [cloth.id for cloth in project.cloths])
        _check_names(variant.weights, _NO_SEAM, [seam.name for seam in project.seams])
        _check_replaced(project, variant)
        check(in_force(project, variant))


_NO_CLOTH = (later("there is no cloth {name!r}"), later("the cloths are {names}"))
_NO_SEAM = (later("there is no seam {name!r}"), later("the seams are {names}"))
_NO_PIECE = (later("there is no piece {name!r}"), later("the pieces are {names}"))


def _check_names(given: Iterable[str], said: tuple[str, str], known: Sequence[str]) -> None:
    for name in given:
        if name not in known:
            raise BadInput(tr(said[0], name=name), right=tr(said[1], names=listed(known)))


def _check_replaced(project: Project, variant: Variant) -> None:
    pieces = {piece.id: piece for piece in project.pieces}
    ids = [piece.id for piece in variant.pieces]
    _check_names(ids, _NO_PIECE, list(pieces))
    for piece in variant.pieces:
        if ids.count(piece.id) > 1:
            raise BadInput(
                tr("{id!r} stands {count} times", id=piece.id, count=ids.count(piece.id)),
                "pieces",
                tr("each needs one of its own"),
            )
        if not alike(piece, pieces[piece.id]):
            right = tr("the cut, fold, cloth and names of edges that the project's own piece has")
            raise BadInput(tr("it can't stand for the project's own piece"), tr("piece {id!r}", id=piece.id), right)
