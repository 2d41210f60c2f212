"""Lettering that fits its room, whatever the name."""

from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth
from shapely.geometry import Polygon, box

from core.papers.drawing import Text
from core.papers.labels import Labels, block
from core.papers.lettering import printable, shortened, text_box, width_of, wrapped_lines

NAMES = st.text(alphabet=st.characters(codec="utf-8"), max_size=60)


@settings(max_examples=50, deadline=None)
@given(NAMES, st.floats(1.0, 80.0))
def test_a_shortened_name_fits_its_room(name: str, room: float) -> None:
    short = shortened(name, 3.0, room)
    assert short == name or short == "" or short.endswith("…")
    assert width_of(short, 3.0) <= room


@settings(max_examples=50, deadline=None)
@given(NAMES, st.floats(5.0, 80.0))
def test_wrapped_lines_fit_and_lose_no_word_that_fits(text: str, room: float) -> None:
    lines = wrapped_lines(text, 3.0, room)
    assert all(width_of(line, 3.0) <= room for line in lines)
    kept = [word for word in text.split() if width_of(word, 3.0) <= room]
    assert [word for word in " ".join(lines).split() if word in kept] == kept


def test_printed_text_has_no_tabs_breaks_or_letters_without_a_shape() -> None:
    assert printable("a\tb\nc") == "a b c"
    assert printable("Größe 12×7 – 3.2° …") == "Größe 12×7 – 3.2° …"
    assert printable("ő Ж") == "o ?"


def test_the_room_of_a_text_is_as_wide_as_its_letters() -> None:
    text = Text((10, 20), "Front gore", 3.5, anchor="middle")
    left, top, right, bottom = Polygon(text_box(text)).bounds
    assert abs(right - left - stringWidth("Front gore", "Vera", 3.5)) < 1e-6
    assert (left + right) / 2 == 10
    assert top < 20 < bottom


def test_turned_lettering_takes_the_same_room_turned() -> None:
    level = Polygon(text_box(Text((0, 0), "waist", 3.0)))
    upright = Polygon(text_box(Text((0, 0), "waist", 3.0, angle_deg=-90)))
    assert abs(level.area - upright.area) < 1e-9
    assert upright.bounds[1] < -5


def test_labels_never_share_room_and_stay_inside() -> None:
    labels = Labels()
    inside = box(0, 0, 60, 30)
    places = [(x, y) for y in range(2, 30, 2) for x in range(5, 60, 5)]
    placed = [labels.place((block((x, y), [("gore", 3.0, False)]) for x, y in places), inside) for _ in range(40)]
    rooms = [Polygon(text_box(texts[0])) for texts in placed if texts]
    assert 10 < len(rooms) < 40
    assert all(inside.contains(room) for room in rooms)
    assert not any(a.intersects(b) for i, a in enumerate(rooms) for b in rooms[:i])
