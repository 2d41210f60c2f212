"""Every text that a user reads can be had in another language, and the template has them all."""

import gettext

import pytest
from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QAbstractButton, QLabel, QMenu

from app.action_table import MENUS, TABLE
from app.cli import main
from app.key_sheet import KeySheet
from app.languages import catalogues
from app.languages.gather import all_texts, texts_of, update
from app.languages.po import compiled, read_po, written
from app.words import speak, wanted
from conftest import SAMPLES
from core.errors import BadInput
from core.files.project_file import project_from_bytes
from core.wording import listed, number, speaking, tr, tr_n
from made_up import bare_words, bracketed, made_up
from windows import empty_profile, whole_window

HEAD = (
    "Content-Type: text/plain; charset=UTF-8\n"
    "Plural-Forms: nplurals=3; plural=(n%10==1 && n%100!=11 ? 0 : n%10>=2 && n%10<=4 ? 1 : 2);\n"
    "X-Decimal-Mark: ,\nX-Language-Name: Esperanto\n"
)
GORES = ("{count} gore", "{count} gores")
KNOWN = {("Zoom &in",): ("&Pligrandigi",), GORES: ("unu {count}", "kelkaj {count}", "m {count}")}


@pytest.fixture
def esperanto(tmp_path, monkeypatch, qapp):
    """A language that comes with the program, for once."""
    (tmp_path / "stripewright_eo.mo").write_bytes(compiled(HEAD, KNOWN))
    monkeypatch.setattr(catalogues, "folder", lambda: tmp_path)
    monkeypatch.delenv(catalogues.VARIABLE, raising=False)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    empty_profile(tmp_path)
    yield "eo"
    speak(qapp, "en")


def test_menus_actions_keys_start_and_messages_speak_it(qtbot, tmp_path, monkeypatch):
    monkeypatch.setattr("app.workbench.speak", lambda *_: None)
    with made_up(), whole_window(qtbot, tmp_path, monkeypatch, 1200, 800) as window:
        menus = window.menuBar().actions()
        assert [menu.text() for menu in menus] == [bracketed(name) for name in MENUS]
        for row in TABLE:
            if row.id not in ("undo", "redo"):
                shown = window.actions_by_id[row.id].text()
                assert shown.replace("&", "") == bracketed(row.text).replace("&", "")
                assert window.actions_by_id[row.id].statusTip() == bracketed(row.tip)
        buttons = {button.text() for button in window.start.findChildren(QAbstractButton)}
        assert {bracketed("Open a project…"), bracketed("New from measurements")} <= buttons
        assert not window.filing.open_path(tmp_path / "nothing.stripewright")
        assert not bare_words(
            window.messages.text, (str(tmp_path / "nothing.stripewright"), "No such file or directory")
        )
        sheet = KeySheet(window)
        qtbot.addWidget(sheet)
        assert bracketed("Zoom in") in {label.text() for label in sheet.findChildren(QLabel)}
        window.help.show()
        assert window.help.page.list.item(2).text() == bracketed("Step")


def test_the_gatherer_finds_the_texts_of_every_room_and_writes_them_as_a_template():
    entries = all_texts()
    assert len({entry[0] for entry in entries}) == len(entries)
    texts = {text for entry in entries for text in entry}
    for text in ("&File", "Zoom &in", "Middle button, Space + drag", "Bring back", "Along-gap", "Open a project…"):
        assert text in texts
    assert {"the edges go round anticlockwise", "Before you cut", "take the notch away"} <= texts
    head, known = read_po(written(entries, HEAD, {entry: entry for entry in entries}))
    assert head == HEAD
    assert list(known) == entries
    there = catalogues.folder() / "template.pot"
    assert there.read_text(encoding="utf-8").count("msgid ") > 1500


def test_texts_are_gathered_where_they_stand():
    source = (
        'a = tr("one")\nb = [tr("two " "parts"), other("no"), self.tr("no")]\nc = tr(name)\n'
        'd = tr_n("{count} gore", "{count} gores", n)\ne = tr("up" if x else "down", a=1)\n'
    )
    assert texts_of(source) == [("one",), ("two parts",), ("{count} gore", "{count} gores"), ("down",), ("up",)]


def test_what_is_translated_stays_when_texts_come_and_go(tmp_path):
    path = tmp_path / "stripewright_xx.po"
    path.write_text(written([("a",), ('b & "c"\n',)], HEAD, {('b & "c"\n',): ("B\\ ä",)}), encoding="utf-8")
    update(path, [('b & "c"\n',), ("d",)])
    assert read_po(path.read_text(encoding="utf-8")) == (HEAD, {('b & "c"\n',): ("B\\ ä",)})
    with path.with_suffix(".mo").open("rb") as file:
        assert gettext.GNUTranslations(file).gettext('b & "c"\n') == "B\\ ä"


def test_a_translation_is_compiled_and_loaded_for_its_language(esperanto, qapp):
    speak(qapp, esperanto)
    assert tr("Zoom &in") == "&Pligrandigi"
    assert tr("No") == "No"
    assert [tr_n(*GORES, n) for n in (1, 3, 11)] == ["unu 1", "kelkaj 3", "m 11"]
    assert (number(1.25, 2), QLocale().decimalPoint()) == ("1,25", ",")
    assert tr("it is {value:g} mm, not {other}", value=2.5, other="2.5") == "it is 2,5 mm, not 2.5"


def test_the_language_is_that_of_the_variable_else_the_chosen_one_else_the_desktops(esperanto, monkeypatch):
    monkeypatch.setattr(QLocale, "uiLanguages", lambda self: ["eo-XX", "en"])
    assert wanted() == "eo"
    catalogues.choose("en")
    assert wanted() == "en"
    catalogues.choose("nonsense")
    assert wanted() == "eo"
    catalogues.choose("")
    assert wanted() == "eo"
    monkeypatch.setenv(catalogues.VARIABLE, "en")
    assert wanted() == "en"
    assert (catalogues.codes(), catalogues.name_of("eo")) == (["en", "eo"], "Esperanto")
    assert catalogues.best_of(["de_AT.UTF-8", "eo.UTF-8"]) == "eo"


def test_the_menu_of_languages_chooses_the_one_spoken_from_the_next_start_on(qtbot, esperanto, tmp_path, monkeypatch):
    with whole_window(qtbot, tmp_path, monkeypatch, 1200, 800) as window:
        (menu,) = (one for one in window.findChildren(QMenu) if one.title().replace("&", "") == "Language")
        names = {action.text().replace("&", ""): action for action in menu.actions()}
        assert list(names) == ["As the desktop", "English", "Esperanto"]
        assert names["As the desktop"].isChecked()
        for name, code in (("Esperanto", "eo"), ("English", "en"), ("As the desktop", "")):
            names[name].trigger()
            assert catalogues.chosen() == code
            assert name in window.messages.text
        monkeypatch.setattr(catalogues, "_kept", lambda: tmp_path / "stripewright_eo.mo" / "language")
        names["Esperanto"].trigger()
        assert "can't be written to" in window.messages.text


def test_there_is_no_menu_of_languages_where_there_is_english_alone(qtbot, tmp_path, monkeypatch):
    monkeypatch.setattr(catalogues, "folder", lambda: tmp_path)
    with whole_window(qtbot, tmp_path, monkeypatch, 1200, 800) as window:
        assert "Language" not in {menu.title().replace("&", "") for menu in window.findChildren(QMenu)}


def test_papers_of_the_command_line_speak_the_language_chosen_else_the_desktops(esperanto, monkeypatch, tmp_path):
    spoken = []
    monkeypatch.setattr("core.papers.papers.write_papers", lambda *_: spoken.append(tr("Zoom &in")) or ())
    papers = ["papers", str(SAMPLES / "harbour-skirt.stripewright"), "--to", str(tmp_path / "papers")]
    for name in ("LC_ALL", "LC_MESSAGES", "LANG"):
        monkeypatch.delenv(name, raising=False)
    main(papers)
    monkeypatch.setenv("LANG", "eo.UTF-8")
    main(papers)
    monkeypatch.setenv("LC_ALL", "C")
    main(papers)
    catalogues.choose("eo")
    main(papers)
    assert spoken == ["Zoom &in", "&Pligrandigi", "Zoom &in", "&Pligrandigi"]


def test_without_a_translation_the_screen_speaks_english(qapp):
    speak(qapp, catalogues.best_of(["zu"]))
    assert tr("Zoom &in") == "Zoom &in"
    assert number(-0.001, 1) == "0.0"


def test_what_the_thinking_says_is_in_the_language_too():
    with made_up(), pytest.raises(BadInput) as caught:
        project_from_bytes(b'{"format": "stripewright-project", "version": 7}')
    assert str(caught.value).startswith(
        f"version: {bracketed('version {value} is newer than this program').format(value=7)}"
    )
    with speaking(None):
        assert listed(["a", "b"]) == "a, b"
