"""Projects whose panels lie side by side in rows, at places and turns that nobody has matched."""

import itertools
import math
from pathlib import Path

import pytest

from core.derive.cutting import cut_project
from core.files.project_file import read_project
from core.geometry.transform import placed
from core.model.cloth import Cloth, Repeat, Stripe
from core.model.panel import panels_of
from core.model.pattern import Edge, Notch, Piece, Seam
from core.model.project import Placement, Project
from core.papers.figures import figures_of
from core.papers.page import Leaf
from core.papers.papers import paper_pages
from core.seams.readings import measure
from skirts import full_skirt

SAMPLES = Path(__file__).parents[2] / "sample_projects"
TURNS = (0.0, 0.31, -0.42, 0.17, -0.08)
GAP_MM = 7.3


def laid_in_rows(project: Project, turned: frozenset[str] = frozenset()) -> Project:
    """Every panel beside the one before it, a new row where the width or a flaw says so; turns from a fixed list."""
    turns = itertools.cycle(TURNS)
    changes: dict[str, Placement] = {}
    for cloth in project.cloths:
        left, right = cloth.usable
        u, v, deepest = left + 1.7, 2.4, 2.4
        for piece in (piece for piece in project.pieces if piece.cloth == cloth.id):
            for panel in panels_of(piece):
                turn, over = next(turns) if piece.grain == "straight" else 0.0, panel.name in turned
                ring = placed(panel.cut_ring, 0.0, 0.0, turn, over)
                (low_u, low_v), (high_u, high_v) = ring.min(axis=0), ring.max(axis=0)
                if u + high_u - low_u > right:
                    u, v = left + 1.7, deepest + GAP_MM
                while any(_touches(flaw, (u, v, u + high_u - low_u, v + high_v - low_v)) for flaw in cloth.flaws):
                    u += 5.0
                    if u + high_u - low_u > right:
                        u, v = left + 1.7, deepest + GAP_MM
                changes[panel.name] = Placement(u=float(u - low_u), v=float(v - low_v), turn_deg=turn, turned=over)
                u, deepest = u + high_u - low_u + GAP_MM, max(deepest, v + high_v - low_v)
    return project.placed(changes)


def _touches(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def gored(count: int, cloth: Cloth, lining: Cloth | None = None) -> Project:
    """A ring of single gores sewn side by side, each a little broader than the last; a lining piece on the fold."""
    pieces = tuple(_gore(i, cloth.id) for i in range(count))
    seams = tuple(
        Seam(name=f"seam {i + 1}", a=f"gore-{i + 1}/right", b=f"gore-{(i + 1) % count + 1}/left") for i in range(count)
    )
    if lining:
        pieces = (*pieces, _lining(lining.id))
    return Project(
        title=f"Skirt of {count} gores", cloths=(cloth, *((lining,) if lining else ())), pieces=pieces, seams=seams
    )


def _gore(index: int, cloth: str) -> Piece:
    top, hem, long = 28.0 + index % 3, 88.0 + 3 * (index % 4), 860.0
    return Piece(
        id=f"gore-{index + 1}",
        name=f"Gore {index + 1}" if index != 4 else "Gore at the side with a name that goes on and on, for the pocket",
        cloth=cloth,
        edges=(
            Edge(name="waist", path=f"M {-top} 0 Q 0 5 {top} 0", allowance=12),
            Edge(name="right", path=f"M {top} 0 L {hem} {long}", allowance=15),
            Edge(name="hem", path=f"M {hem} {long} Q 0 {long + 25} {-hem} {long}", allowance=40),
            Edge(name="left", path=f"M {-hem} {long} L {-top} 0", allowance=15),
        ),
        notches=(Notch(edge="right", at=200), Notch(edge="left", at=math.hypot(hem - top, long) - 200)),
    )


def _lining(cloth: str) -> Piece:
    return Piece(
        id="lining",
        name="Lining",
        cloth=cloth,
        cut="fold",
        fold="middle",
        edges=(
            Edge(name="top", path="M 0 0 L 150 -8", allowance=12),
            Edge(name="side", path="M 150 -8 L 260 500", allowance=15),
            Edge(name="bottom", path="M 260 500 Q 130 525 0 525", allowance=20),
            Edge(name="middle", path="M 0 525 L 0 0"),
        ),
    )


STRIPED = Cloth(
    id="ticking",
    name="Narrow ticking",
    width=1400,
    selvedge=(10, 10),
    skew_mm_per_m=4,
    grain_tolerance_deg=1,
    repeat=Repeat(
        width=18,
        origin=2.5,
        ground="#20304a",
        stripes=(
            Stripe(name="chalk", at=5, width=4, colour="#f4efe2"),
            Stripe(name="sky", at=13, width=1.5, colour="#6f9bd1"),
        ),
    ),
)
PLAIN = Cloth(id="lining", name="Plain lining", width=1100, selvedge=(5, 5))


@pytest.fixture(scope="session")
def skirt() -> Project:
    """The ten-panel sample in rows."""
    return laid_in_rows(read_project(SAMPLES / "harbour-skirt.stripewright"))


@pytest.fixture(scope="session")
def parasol() -> Project:
    """The eight-gore sample in rows, two gores end for end."""
    return laid_in_rows(read_project(SAMPLES / "pier-parasol.stripewright"), frozenset({"gore-2", "gore-7"}))


@pytest.fixture(scope="session")
def many_gores() -> Project:
    """Twenty-four gores on a leaning, dark cloth with light stripes, and a lining on a plain one."""
    return laid_in_rows(gored(24, STRIPED, PLAIN), frozenset({"gore-9"}))


@pytest.fixture(scope="session")
def leaning() -> Project:
    """Seven gores on the dark cloth whose stripes lean, one of them end for end."""
    return laid_in_rows(gored(7, STRIPED), frozenset({"gore-3"}))


@pytest.fixture(scope="session")
def full() -> Project:
    """The ten-panel sample with interlining, facing, lining and strips, everything in rows."""
    project = full_skirt()
    return project.placed(laid_in_rows(cut_project(project)).placements)


@pytest.fixture(scope="session")
def many_pages(many_gores: Project) -> tuple[Leaf, ...]:
    """All pages of the twenty-four gores."""
    return paper_pages(figures_of(many_gores, measure(many_gores)))


@pytest.fixture(scope="session", params=["skirt", "parasol", "many_gores"])
def laid(request: pytest.FixtureRequest) -> Project:
    """Each of the three in turn."""
    project: Project = request.getfixturevalue(request.param)
    return project
