"""Every text of the screen can be had in another language, and the template has them all."""

import shutil
import subprocess
from pathlib import Path
from xml.etree import ElementTree

import PySide6
import pytest
from PySide6.QtCore import QCoreApplication, QLocale, QTranslator
from PySide6.QtWidgets import QAbstractButton, QLabel

import app.words
from app.action_table import MENUS, TABLE
from app.key_sheet import KeySheet
from app.languages.gather import HERE, all_texts, texts_of, translations_in, written
from app.words import speak, tr
from windows import empty_profile, whole_window

LRELEASE = Path(PySide6.__file__).parent / "lrelease"


class MadeUp(QTranslator):
    """A language in which every text stands in brackets."""

    def translate(self, context, source, disambiguation=None, n=-1) -> str:
        return f"‹{source}›" if not context else ""

    def isEmpty(self) -> bool:
        return False


@pytest.fixture
def made_up(qapp):
    translator = MadeUp()
    QCoreApplication.installTranslator(translator)
    yield translator
    QCoreApplication.removeTranslator(translator)


def test_menus_actions_keys_start_and_messages_speak_it(qtbot, tmp_path, monkeypatch, made_up):
    with whole_window(qtbot, tmp_path, monkeypatch, 1200, 800) as window:
        menus = window.menuBar().actions()
        assert [menu.text() for menu in menus] == [f"‹{name}›" for name in MENUS]
        for row in TABLE:
            if row.id not in ("undo", "redo"):
                shown = window.actions_by_id[row.id].text()
                assert shown.replace("&", "") == f"‹{row.text}›".replace("&", "")
                assert window.actions_by_id[row.id].statusTip() == f"‹{row.tip}›"
        buttons = {button.text() for button in window.start.findChildren(QAbstractButton)}
        assert {"‹Open a project…›", "‹New from measurements›"} <= buttons
        assert not window.filing.open_path(tmp_path / "nothing.stripewright")
        assert window.messages.text.startswith("‹This can't be opened: ")
        sheet = KeySheet(window)
        qtbot.addWidget(sheet)
        assert "‹Zoom in›" in {label.text() for label in sheet.findChildren(QLabel)}
        window.help.show()
        assert window.help.page.list.item(2).text() == "‹Step›"


def test_the_gatherer_finds_the_texts_of_every_room_and_writes_them_as_a_template():
    texts = all_texts()
    assert len(texts) == len(set(texts))
    for text in ("&File", "Zoom &in", "Middle button, Space + drag", "Bring back", "Along-gap", "Open a project…"):
        assert text in texts
    sources = [message.text for message in ElementTree.fromstring(written(texts, {})).iter("source")]
    assert sources == texts
    assert (HERE / "template.ts").read_bytes().startswith(b"<?xml")


def test_texts_are_gathered_where_they_stand():
    source = 'a = tr("one")\nb = [tr("two " "parts"), other("no"), self.tr("no")]\nc = tr(name)\n'
    assert texts_of(source) == ["one", "two parts"]


def test_what_is_translated_stays_when_texts_come_and_go(tmp_path):
    path = tmp_path / "stripewright_xx.ts"
    path.write_bytes(written(["a", "b & <c>"], {"b & <c>": "B"}, "xx"))
    assert translations_in(path) == {"b & <c>": "B"}
    path.write_bytes(written(["b & <c>", "d"], translations_in(path), "xx"))
    assert translations_in(path) == {"b & <c>": "B"}


@pytest.mark.skipif(not LRELEASE.exists(), reason="needs Qt's translation tools")
def test_a_translation_file_is_compiled_and_loaded_for_its_language(tmp_path, monkeypatch, qapp):
    empty_profile(tmp_path)
    source = tmp_path / "stripewright_eo.ts"
    source.write_bytes(written(["Zoom &in", "No"], {"Zoom &in": "&Pligrandigi"}, "eo"))
    subprocess.run([LRELEASE, "-silent", source], check=True)
    monkeypatch.setattr(app.words, "language_file", lambda code: tmp_path / f"stripewright_{code}.qm")
    translator = speak(qapp, QLocale("eo"))
    assert translator is not None
    try:
        assert tr("Zoom &in") == "&Pligrandigi"
        assert tr("No") == "No"
    finally:
        qapp.removeTranslator(translator)
        translator.deleteLater()
    shutil.rmtree(tmp_path / "settings", ignore_errors=True)


def test_without_a_translation_the_screen_speaks_english(qapp):
    assert speak(qapp, QLocale("zu")) is None
    assert tr("Zoom &in") == "Zoom &in"
