"""Each translation that comes with the program: sound in form, up to date, and usable as it stands."""

from string import Formatter

import pytest

from app.action_table import TABLE
from app.languages import catalogues
from app.languages.gather import all_texts
from app.languages.po import Translation, compiled, read_po
from app.mnemonics import letter_of

PATHS = sorted(catalogues.folder().glob("stripewright_*.po"))


def read(path) -> tuple[str, Translation]:
    return read_po(path.read_text(encoding="utf-8"))


def places(text: str) -> list[tuple[str | None, ...]]:
    return sorted(
        ((name, how, turned) for _, name, how, turned in Formatter().parse(text) if name is not None), key=str
    )


@pytest.fixture(params=PATHS, ids=lambda path: path.stem)
def translation(request) -> Translation:
    return read(request.param)[1]


def test_there_is_a_german_one():
    assert "de" in catalogues.codes()
    assert catalogues.name_of("de") == "Deutsch"


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_the_table_loaded_is_the_text_edited(path):
    assert path.with_suffix(".mo").read_bytes() == compiled(*read(path))


def test_every_value_has_its_place_in_the_other_language(translation):
    wrong = [
        (text, form)
        for entry, forms in translation.items()
        for text, form in zip((entry[0], *entry[1:] * len(forms)), forms, strict=False)
        if places(text) != places(form)
    ]
    assert wrong == []


def test_blanks_at_the_ends_and_letters_for_the_keys_stay(translation):
    for entry, forms in translation.items():
        for form in forms:
            assert (form[:1] == " ", form[-1:] == " ") == (entry[0][:1] == " ", entry[0][-1:] == " "), form
            assert bool(letter_of(form)) == bool(letter_of(entry[0])) or "&" in form, form


def test_nothing_is_translated_that_is_not_said_any_more(translation):
    said = set(all_texts())
    assert [entry for entry in translation if entry not in said] == []


def test_no_two_entries_of_a_menu_ask_for_one_letter(translation):
    for menu in {row.menu for row in TABLE}:
        letters = [letter_of(translation.get((row.text,), (row.text,))[0]) for row in TABLE if row.menu == menu]
        assert len(set(letters)) == len(letters), (menu, letters)
