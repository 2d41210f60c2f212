"""Lengths as they are written, against exact fractions."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.units import Units

INCH = Fraction(254, 10)
LENGTHS = st.floats(-5000.0, 5000.0)


def inches(text: str) -> Fraction:
    """The number that a text such as "-3 5/16" stands for."""
    sign = -1 if text.startswith("-") else 1
    return sign * sum((Fraction(part) for part in text.lstrip("-").split()), Fraction(0))


@given(LENGTHS)
def test_inches_are_the_nearest_sixteenth_in_lowest_terms(value: float) -> None:
    text = Units("in").bare(value)
    assert abs(inches(text) - Fraction(value) / INCH) <= Fraction(1, 32)
    fraction = re.search(r"(\d+)/(\d+)", text)
    if fraction:
        assert int(fraction[2]) in (2, 4, 8, 16)
        assert int(fraction[1]) % 2 == 1
        assert int(fraction[1]) < int(fraction[2])


@given(LENGTHS)
def test_millimetres_and_centimetres_say_the_same_length(value: float) -> None:
    assert float(Units("mm").bare(value)) == pytest.approx(value, abs=0.0501)
    assert float(Units("cm").bare(value)) * 10 == pytest.approx(value, abs=0.0501)
    assert not any(Units(name).bare(value).startswith("-0.0") and abs(value) < 0.04 for name in ("mm", "cm"))


@pytest.mark.parametrize(
    ("value", "words"),
    [(25.4, "1 in"), (12.7, "1/2 in"), (84.1375, "3 5/16 in"), (-19.05, "-3/4 in"), (0.3, "0 in"), (-0.3, "0 in")],
)
def test_fractions_as_a_ruler_has_them(value: float, words: str) -> None:
    assert Units("in").say(value) == words


def test_a_drift_of_a_millimetre_in_a_metre_is_36_thousandths_of_an_inch_in_a_yard() -> None:
    assert Units("in").rate(1.0) == "0.036"
    assert Units("mm").rate(1.0) == "1.0"
    assert Units("cm").rate(1.0) == "0.10"


def test_steps_keep_their_hundredths_of_a_millimetre() -> None:
    assert [Units(name).fine(1.247) for name in ("mm", "cm", "in")] == ["1.25", "0.125", "0.049"]
