"""The draft page: lengths as people write them, findings, bad fields."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.pages.draft_page import DraftPage
from core.draft.measures import Allowances, SkirtMeasures
from core.draft.skirt import draft_skirt
from core.geometry.polyline import length
from core.model.panel import panels_of
from pages_hands import chosen, clicked, typed

INCH = 25.4


@pytest.fixture
def page(shown):
    return shown(DraftPage())


def lengths(project):
    """Net edges of every panel by name, mm."""
    return {
        f"{panel.name}/{edge}": length(line)
        for piece in project.pieces
        for panel in panels_of(piece)
        for edge, line in panel.net.items()
    }


def test_bennetts_hem_as_printed_is_found_an_inch_short(page):
    """Bennett, The Perfect Dressmaking System, 1914, scan 13: waist 25, hip 40 at 7, sweep 2 1/4 yd, lengths 38, 39,
    39 1/2; every gore 5 at the waist and 8 at the hip, hems 10 in front and 17 1/2 for the rest: 80, not 81."""
    chosen(page.unit_choice, page.unit_choice.itemData(2))
    skirt = page.form.chosen
    for name, text in (
        ("waist", "25"),
        ("hip", "40"),
        ("hip_depth", "7"),
        ("length_front", "38"),
        ("length_side", "39"),
        ("length_back", "39 1/2"),
        ("sweep", "2¼ yd"),
    ):
        typed(skirt.lengths[name].entry, text)
    typed(skirt.choices["gores"].entry.lineEdit(), "5")
    chosen(skirt.choices["hem_widths"].entry, "across")
    chosen(skirt.choices["sharing"].entry, "own")
    for row, hem in zip(skirt.gores.rows, ("10", "17 1/2", "17 1/2"), strict=True):
        typed(row[3], hem)
    told = [page.findings.list.item(index).text() for index in range(page.findings.list.count())]
    assert any("25.4 mm (1 in) short of the sweep" in line for line in told), told
    found = lengths(page.draft.project)
    hems = [found[f"{panel}/hem"] / INCH for panel in ("front", "side.R", "back.R")]
    assert hems == pytest.approx([10, 17.5, 17.5], abs=0.02)


def test_the_shown_findings_are_those_of_the_draft(page):
    skirt = page.form.chosen
    chosen(skirt.choices["grain"].entry, "front edge")
    typed(skirt.lengths["sweep"].entry, "4m")
    draft = draft_skirt(SkirtMeasures(waist=680, hip=960, length_front=720, sweep=4000, grain="front edge"))
    told = [page.findings.list.item(index).text() for index in range(page.findings.list.count())]
    assert told == [str(found)[:1].upper() + str(found)[1:] for found in draft.findings]
    assert told


def test_a_change_of_unit_changes_nothing(page):
    typed(page.form.chosen.lengths["waist"].entry, "683,7")
    before = page.draft.project
    for index in (1, 2, 0, 2):
        chosen(page.unit_choice, page.unit_choice.itemData(index))
        assert page.draft.project == before
    assert page.form.chosen.lengths["hip_depth"].entry.text() == "7.874"


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("waist", "tight", "'tight' is no length"),
        ("waist", "", "a length is missing"),
        ("waist", "-680", "no length"),
        ("hip", "40 furlongs", "unknown unit 'furlongs'"),
        ("sweep", "300", "at least the hip, 960 mm, is right"),
        ("hip_depth", "900", "less than the length"),
        ("length_side", "1e9", ""),
        ("length_back", "5", "20 to 20000 mm is right"),
        ("rise", "1/0in", "fraction over 0"),
        ("opening", "3m", "a shorter one is right"),
    ],
)
def test_a_bad_length_says_so_beside_its_field_and_blocks_the_way(page, name, text, says):
    field = page.form.chosen.lengths[name]
    good = page.draft.project
    typed(field.entry, text)
    assert field.problem
    assert says in field.problem
    assert "\n" not in field.problem
    assert field.entry.accessibleDescription() == field.problem
    assert not page.make.isEnabled()
    assert page.verdict.wrong
    page.made.connect(lambda project: pytest.fail("a project was made"))
    clicked(page.make)
    usual = {"waist": "680", "hip": "960", "sweep": "2400", "hip_depth": "200", "rise": "0", "opening": "0"}
    typed(field.entry, usual.get(name, ""))
    assert not field.problem
    assert page.make.isEnabled()
    assert page.draft.project == good


def test_published_proportions_ask_for_their_number_of_gores(page):
    skirt = page.form.chosen
    chosen(skirt.choices["sharing"].entry, "bennett")
    assert "5 gores, a gore in front" in skirt.choices["sharing"].problem
    assert not page.make.isEnabled()
    typed(skirt.choices["gores"].entry.lineEdit(), "5")
    assert page.make.isEnabled()


def test_every_choice_of_the_draft_reaches_it(page):
    skirt = page.form.chosen
    typed(skirt.choices["gores"].entry.lineEdit(), "7")
    chosen(skirt.choices["front"].entry, "gore")
    chosen(skirt.choices["centre_gores"].entry, "fold")
    chosen(skirt.choices["hem_widths"].entry, "across")
    chosen(skirt.choices["centre_on"].entry, "ground")
    chosen(skirt.choices["grain"].entry, "each")
    chosen(skirt.gores.rows[2][1], "back edge")
    typed(skirt.lengths["rise"].entry, "60")
    typed(skirt.lengths["top"].entry, "700")
    typed(skirt.lengths["let_out"].entry, "12")
    typed(skirt.lengths["opening"].entry, "18cm")
    chosen(skirt.choices["opening_at"].entry, "front to side front L")
    typed(skirt.turnings["hem"].entry, "0")
    wanted = SkirtMeasures(
        waist=680,
        hip=960,
        length_front=720,
        sweep=2400,
        gores=7,
        front="gore",
        centre_gores="fold",
        hem_widths="across",
        centre_on="ground",
        grain=("middle", "middle", "back edge", "middle"),
        rise=60,
        top=700,
        let_out=12,
        opening=180,
        opening_at="front to side front L",
        allowances=Allowances(hem=0),
    )
    assert page.draft.project == draft_skirt(wanted).project


def test_the_picture_shows_one_piece_large_and_all_again(page):
    picture = page.picture
    assert len(picture._places()) == 3
    picture.setFocus()
    for keys, count in ((Qt.Key.Key_Return, 1), (Qt.Key.Key_Right, 1), (Qt.Key.Key_Return, 3)):
        QTest.keyClick(picture, keys)
        assert len(picture._places()) == count
    QTest.mouseClick(picture, Qt.MouseButton.LeftButton, pos=picture._places()[1][1].center().toPoint())
    assert picture._places()[0][0] == 1
