"""Lengths as they are written down."""

import pytest

from core.draft.lengths import length_mm
from core.errors import BadInput


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("640", 640.0),
        ("0", 0.0),
        ("12.5mm", 12.5),
        ("70cm", 700.0),
        ("70,5 cm", 705.0),
        ("1.2 m", 1200.0),
        ("25in", 635.0),
        ('25"', 635.0),
        ("39 1/2in", 1003.3),
        ("1/2 in", 12.7),
        ("2 1/4yd", 2057.4),
        ("2¼ yd", 2057.4),
        ("½in", 12.7),
        ("2.25 yards", 2057.4),
        ("5ft 3in", 1600.2),
        ("2yd 9 in", 2057.4),
    ],
)
def test_a_length_is_read_as_written(text, mm):
    """1 in = 25.4 mm exactly, 12 in = 1 ft, 36 in = 1 yd (international yard and pound agreement, 1959)."""
    assert length_mm(text) == pytest.approx(mm)


@pytest.mark.parametrize(
    "text", ["", " ", "nan", "inf", "-5", "25 parsecs", "1/0in", "12 3", "1e999", "1/2/3", "5in x", "in", "9" * 30, "²"]
)
def test_anything_else_is_refused_in_one_line(text):
    with pytest.raises(BadInput) as error:
        length_mm(text)
    assert "\n" not in str(error.value)
