"""What the help says about its little seams is so, and its pages can be found and read."""

import math
import re

import numpy as np
import pytest
import shiboken6
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

import app.help.topics as topics
from app.help.place import PAGES, topic_for
from app.help.seams import HIGH_MM, MadeUp, closed_by_moving, read
from app.help.topics import TOPICS, topic
from app.help.window import HelpWindow
from app.pictures.closeup import CloseUp
from core.model.validate import validate
from windows import whole_window

SEAMS = [made for one in TOPICS for made in one.shows()]


def step_by_hand(made: MadeUp, project, share: float) -> float:
    """|step| at a share of the seam's height, from the formulas alone: two points and the lead's axis."""
    ends = {"left": ((made.moved, 0.0), (made.moved + made.lean_a, HIGH_MM))}
    high = HIGH_MM * (1 + made.longer)
    ends["right"] = ((made.moved, 0.0), (made.moved + made.lean_b * (1 + made.longer), high))
    places = []
    for name, (top, bottom) in ends.items():
        at = project.placements[name]
        x, y = np.array(top) + share * (np.array(bottom) - np.array(top))
        turn = math.radians(at.turn_deg + 180 * at.turned)
        places.append(x * math.cos(turn) - y * math.sin(turn) + at.u)
    c = project.cloths[0].repeat.origin
    alike = np.sign(made.lean_a) == np.sign(made.lean_b) * (-1 if made.turned else 1)
    a, b = (place - c for place in places)
    raw = a - b if alike else a + b
    return abs((raw + 12) % 24 - 12)


@pytest.mark.parametrize("made", SEAMS, ids=lambda made: made.name)
def test_every_seam_shown_is_read_as_the_formulas_have_it(made):
    project, reading = read(made)
    validate(project)
    for share in (0.0, 0.37, 1.0):
        height = share * reading.line.length
        assert abs(float(reading.step_at(height))) == pytest.approx(step_by_hand(made, project, share), abs=1e-6)


def test_the_figures_in_the_words_are_those_of_the_pictures():
    assert read(topics._OFF)[1].rms_mm == pytest.approx(3.0)
    assert read(closed_by_moving(topics._OFF))[1].rms_mm == pytest.approx(0.0, abs=1e-9)
    assert abs(closed_by_moving(topics._OFF).moved) == 1.5
    assert read(topics._EASED)[1].rms_mm == pytest.approx(0.0, abs=1e-9)
    assert read(topics._UNEASED)[1].easing_ratio == pytest.approx(topics._EASED.longer)
    assert read(topics._TURNED)[1].rms_mm < 0.05
    assert math.tan(math.radians(0.25)) * 700 == pytest.approx(3, abs=0.06)
    drift = read(topics._DRIFTING)[1].drift_mm_per_m
    assert f"{drift:.1f} mm per metre" in topic("drift").says()[-1]
    shared, met = read(topics._SHARED)[1].rms_mm, read(topics._DRIFTING)[1].rms_mm
    assert shared == pytest.approx(met / 2, rel=0.01)
    gap = 3.0 / math.tan(math.atan2(24.0, HIGH_MM))
    assert f"gaps of {gap:.0f} mm" in topic("along-gap").says()[-1]


def test_what_is_said_of_uneven_repeats_is_so():
    plain, turned = topic("one-way").shows()
    assert not read(plain)[1].all_stripes_meet_at_zero
    assert read(plain)[1].agreement < 0.9
    assert read(turned)[1].all_stripes_meet_at_zero
    assert read(turned)[1].agreement == pytest.approx(1.0)


@pytest.fixture
def help_window(qtbot):
    window = HelpWindow()
    qtbot.addWidget(window)
    window.show_topic("step")
    window.show()
    qtbot.waitExposed(window)
    return window


def test_keys_go_from_page_to_page(help_window):
    QTest.keyClick(help_window.list, Qt.Key.Key_Down)
    assert help_window.topic == "lean"
    titles = [label.text() for label in help_window.page.findChildren(QLabel)]
    assert titles[0] == "Lean"
    pictures = help_window.page.findChildren(CloseUp)
    assert [picture.accessibleName() for picture in pictures] == [
        "Picture of a seam: Opposite ways",
        "Picture of a seam: Alike",
    ]
    assert all(picture.view.top_mm < 0 for picture in pictures)  # the whole seam is in view


def test_words_find_pages(help_window):
    help_window.search.setText("chevron UNEVEN")
    left = [item for row in range(len(TOPICS)) if not (item := help_window.list.item(row)).isHidden()]
    assert [item.text() for item in left] == ["Even and uneven repeats"]
    assert help_window.topic == "even"
    help_window.search.setText("xylophone")
    assert help_window.topic == ""
    assert help_window.page.widget().text() == "No page has these words."
    help_window.search.clear()
    assert help_window.topic == "steps"


def test_no_page_leaves_a_gap_in_its_words():
    for one in TOPICS:
        for words in one.says():
            assert not re.search(r"[{}]|nan|None", words), one.id
            assert words.endswith((".", "!"))


def test_every_place_has_its_page():
    assert set(PAGES.values()) <= {one.id for one in TOPICS}


def test_f1_opens_the_page_of_what_has_the_keys(qtbot, tmp_path, monkeypatch, harbour_skirt):
    with whole_window(qtbot, tmp_path, monkeypatch, 1200, 800) as window:
        window.filing.open_sample(harbour_skirt)
        window.edits.spread_new()
        window.desk.opened.closeup.setFocus()
        window.actions_by_id["help"].trigger()
        assert window.help.page.isVisible()
        assert window.help.page.topic == "step"
        assert topic_for(window.desk.inspector.turn) == "turn"
        assert topic_for(window.desk.view) == "steps"
        window.set_dark(True)
        window.set_dark(False)
        shown = window.help.page
    assert not shiboken6.isValid(shown)
