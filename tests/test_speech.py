"""Words, dates and numbers as each language says them."""

from __future__ import annotations

import datetime
import gettext
import io

import pytest
from babel.messages.pofile import read_po

from builder.model.trip import LANGUAGES
from builder.speech import Speech, catalogues, read_words, speech_of, spoken

CATALOGUE = """
msgid ""
msgstr ""
"Language: de\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"

msgid "Carry {water} to {camp}."
msgstr "Nach {camp} tragen: {water}."

msgid "{n} drop"
msgid_plural "{n} drops"
msgstr[0] "{n} Tropfen von einem"
msgstr[1] "{n} Tropfen"

msgctxt "page"
msgid "Water"
msgstr "Wasser"

msgctxt "name"
msgid "Rice"
msgstr "Reis"
"""


# What our own catalogues have none of, or seldom.
ODD_CATALOGUE = (
    CATALOGUE
    + r"""
#, fuzzy
msgid "Doubtful"
msgstr "Zweifelhaft"

msgid "Not translated"
msgstr ""

# A remark "with" quotes
#: builder/x.py
msgid ""
"Over "
"lines\n\"quoted\" \\ #, fuzzy"
msgstr "Über\tZeilen"

#~ msgid "Gone"
#~ msgstr "Weg"
"""
)


@pytest.mark.parametrize(
    "catalogue",
    [
        ODD_CATALOGUE.encode(),
        *((catalogues() / f"{each}.po").read_bytes() for each in LANGUAGES if each != "en"),
    ],
)
def test_a_catalogue_is_read_as_babel_reads_it(catalogue: bytes) -> None:
    ours, told = read_words(catalogue), 0
    for each in read_po(io.BytesIO(catalogue)):
        if not each.id:
            continue
        one, many = each.id if isinstance(each.id, (list, tuple)) else (each.id, "")
        forms = each.string if isinstance(each.string, (list, tuple)) else (each.string or "",)
        known = not each.fuzzy and any(forms)
        for n, form in zip((1, 2), forms, strict=False):
            if each.context:
                said = ours.pgettext(each.context, one)
            else:
                said = ours.ngettext(one, many, n) if many else ours.gettext(one)
            assert said == (form if known else one)
        told += known
    assert told >= 5
    assert ours.gettext("Gone") == "Gone"


@pytest.fixture
def german() -> Speech:
    return spoken(read_words(CATALOGUE.encode()), "de")


def test_a_text_is_said_with_its_blanks_in_the_order_of_the_language(german: Speech) -> None:
    assert german("Carry {water} to {camp}.", water="2 l", camp="A") == "Nach A tragen: 2 l."
    assert speech_of("en")("Carry {water} to {camp}.", water="2 l", camp="A") == "Carry 2 l to A."


def test_what_a_catalogue_lacks_is_said_in_english(german: Speech) -> None:
    assert german("Stir it.") == "Stir it."
    assert german.name("Somebody's own bread") == "Somebody's own bread"


def test_what_fills_a_blank_is_never_read_as_a_blank(german: Speech) -> None:
    assert german("Carry {water} to {camp}.", water="{camp}", camp="{x}") == (
        "Nach {x} tragen: {camp}."
    )


def test_one_and_many_and_meanings(german: Speech) -> None:
    assert german.count("{n} drop", "{n} drops", 1) == "1 Tropfen von einem"
    assert german.count("{n} drop", "{n} drops", 1200) == "1.200 Tropfen"
    assert german.forms("{n} drop", "{n} drops") == ("{n} Tropfen von einem", "{n} Tropfen")
    assert german.of("page", "Water") == "Wasser"
    assert german("Water") == "Water"
    assert german.name("Rice") == "Reis"
    assert speech_of("en").count("{n} batch", "{n} batches", 1) == "1 batch"


@pytest.mark.parametrize(
    ("language", "metres", "litres"),
    [
        ("en", "1,480\u00a0m", "2.25\u00a0l"),
        ("de", "1.480\u00a0m", "2,25\u00a0l"),
        ("nb", "1\u00a0480\u00a0m", "2,25\u00a0l"),
    ],
)
def test_numbers_are_written_as_in_the_language(language: str, metres: str, litres: str) -> None:
    say = spoken(gettext.NullTranslations(), language)
    assert say.show(1480, "altitude_m") == metres
    assert say.show(2250, "volume_ml") == litres
    assert say.number(-1234.56, 1).endswith("6")


def test_a_time_and_spoons_are_said_part_by_part() -> None:
    say = spoken(gettext.NullTranslations(), "nb")
    assert say.show(70, "duration_min") == "1\u00a0h 10\u00a0min"
    assert say.show(100, "volume_ml", "us") == "3,4\u00a0fl oz"
    assert say.mugs(450, 300) == "1½\u00a0mugs"


@pytest.mark.parametrize(
    ("day", "shown"),
    [
        (datetime.date(2031, 9, 4), "Thu 4 Sep 2031"),
        (datetime.date(2032, 2, 29), "Sun 29 Feb 2032"),
    ],
)
def test_dates_read_the_same_everywhere(day: datetime.date, shown: str) -> None:
    assert speech_of("en").date(day) == shown
    assert speech_of("en").short_date(day).replace("\u00a0", " ") == shown.split(" ", 1)[1]


def test_lists_read_as_sentences() -> None:
    say = speech_of("en")
    assert say.listed([]) == ""
    assert say.listed(["Ash"]) == "Ash"
    assert say.listed(["Ash", "Bram", "Tove"]) == "Ash, Bram and Tove"


def test_names_inside_a_sentence_keep_abbreviations_and_german_nouns(german: Speech) -> None:
    say = speech_of("en")
    assert (say.inside("Rice"), say.inside("UHT milk"), say.inside("")) == ("rice", "UHT milk", "")
    assert german.inside("Reis") == "Reis"


def test_every_language_that_a_trip_may_name_has_its_words() -> None:
    for language in LANGUAGES:
        assert speech_of(language).language == language
    with pytest.raises(KeyError):
        speech_of("qq")
