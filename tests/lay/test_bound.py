"""What no lay can beat: bounds worked out by hand, and never above what was found or proved."""

import numpy as np
import pytest

from cloths import outlined, project_of, rectangle, scattered, triangle
from core.lay.bound import least_length
from core.lay.lay import lay
from core.lay.legal import cut_lines
from garments import ring

SQUARE = np.array([[0, 0], [100, 0], [100, 100], [0, 100.0]])
GORE = np.array([[-50, 0], [50, 0], [200, 300], [-200, 300.0]])
"""100 wide at its top and a millimetre wider with each millimetre down, 300 long."""


def test_rectangles_of_which_two_have_room_abreast_take_half_their_lengths() -> None:
    """Four of 320 by 740 on 680: 340 each would let two abreast, never three; the area alone asks for 1393 mm."""
    gore = SQUARE * [3.2, 7.4]
    assert least_length([gore] * 4, 680) == pytest.approx(2 * 740)
    assert least_length([gore] * 3, 680) == pytest.approx(1.5 * 740)


def test_one_alone_takes_its_length_and_full_rows_take_their_area() -> None:
    assert least_length([SQUARE], 1000) == pytest.approx(100)
    assert least_length([SQUARE] * 30, 1000) == pytest.approx(300)


def test_of_gores_the_part_counts_that_is_too_wide_for_another_beside_it() -> None:
    """On 450 no two can lie abreast where both are over 225 wide: the last 175 mm of each. The area asks for 500; three
    abreast would have to be under 150: 250 mm of each in two lanes, 375 in all."""
    assert least_length([GORE] * 3, 450) == pytest.approx(3 * 175)
    assert least_length([-GORE] * 3, 450) == pytest.approx(3 * 175)


def test_a_margin_between_panels_lets_fewer_lie_abreast() -> None:
    """Ten squares of 100 fill 1000 in one row; with a margin of 1 mm nine of them would, so that ten need more."""
    assert least_length([SQUARE] * 10, 1000) == pytest.approx(100)
    assert least_length([SQUARE] * 10, 1000, 1.0) == pytest.approx(1000 / 9)


def test_what_lies_between_the_legs_of_a_piece_is_not_counted() -> None:
    legs = np.array([[0, 0], [300, 0], [300, 200], [200, 200], [200, 100], [100, 100], [100, 200], [0, 200.0]])
    assert least_length([legs], 300) == pytest.approx(200)
    assert least_length([legs, legs], 400) == pytest.approx(2 * (300 * 100 + 200 * 100) / 400)


@pytest.mark.parametrize("seed", range(6))
def test_no_lay_is_shorter_than_the_bound(seed: int) -> None:
    project = scattered(ring(seed, number=5, width=12.0 + 9 * seed), seed)
    cloth = project.cloths[0]
    found = lay(project, seconds=0.2, seed=seed)
    rings = cut_lines(found.project, cloth).values()
    assert found.lays[0].length_mm >= least_length(rings, cloth.usable[1] - cloth.usable[0], cloth.spare_mm) - 1e-6


def test_a_lay_as_short_as_the_bound_is_told_to_be_the_shortest_there_is() -> None:
    proved = lay(project_of([rectangle(f"r{i}", 500, 300) for i in range(6)], 1500)).lays[0]
    assert proved.length_mm == pytest.approx(600)
    assert proved.proof() == "no lay is shorter"
    nested = lay(project_of([triangle(f"t{i}", 400, 800) for i in range(3)], 1000, 100.0, one_way=True)).lays[0]
    assert nested.length_mm == pytest.approx(1200)
    assert nested.proof() == ""


def test_whether_a_short_cloth_might_do_after_all_is_told() -> None:
    gores = [outlined(f"g{i}", SQUARE * [3.2, 7.4]) for i in range(4)]
    surely = lay(project_of(gores, 680, length=1400)).lays[0]
    assert surely.proof() == "no lay is shorter"
    tips = [triangle(f"t{i}", 400, 800) for i in range(3)]
    perhaps = lay(project_of(tips, 1000, 100.0, one_way=True, length=1150)).lays[0]
    assert perhaps.proof() == "a shorter lay than the one found is not ruled out"
    never = lay(project_of(tips, 1000, 100.0, one_way=True, length=790)).lays[0]
    assert never.proof() == "no lay takes less than 800.0 mm"
