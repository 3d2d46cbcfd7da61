"""Quantities inside a text: told twice in the file, shown in a trip's own units."""

from __future__ import annotations

import pytest

from builder.speech import speech_of
from builder.units import in_both, in_units, odd_blanks, parted, uneven

TEXT = "Heat it to {74 degC|165 degF}, {1.5 m|5 ft} off, above {2000 m|6500 ft}."


def test_a_text_shows_the_quantities_of_its_units() -> None:
    assert in_units(TEXT, "metric") == (
        "Heat it to 74\u00a0°C, 1.5\u00a0m off, above 2,000\u00a0m."
    )
    assert in_units(TEXT, "us") == "Heat it to 165\u00a0°F, 5\u00a0ft off, above 6,500\u00a0ft."


def test_paper_shows_both_at_once_with_the_other_one_in_brackets() -> None:
    assert in_both(TEXT, "metric") == (
        "Heat it to 74\u00a0°C (165\u00a0°F), 1.5\u00a0m (5\u00a0ft) off, "
        "above 2,000\u00a0m (6,500\u00a0ft)."
    )
    assert in_both("Above {2000 m|6500 ft}", "us") == "Above 6,500\u00a0ft (2,000\u00a0m)"
    assert in_both("For {2 h|2 h} or so", "us") == "For 2\u00a0h or so"  # alike in both
    assert in_both("Stir.", "us") == "Stir."
    assert speech_of("de").in_both("Über {1.5 m|5 ft}!") == "Über 1,5\u00a0m (5\u00a0ft)!"


def test_a_language_writes_the_numbers_its_own_way() -> None:
    said = speech_of("de").in_units("Bleib {1.5 m|5 ft} weg.")
    assert said == "Bleib 1,5\u00a0m weg."


@pytest.mark.parametrize(
    ("text", "odd"),
    [
        (TEXT, ()),
        ("nothing in braces", ()),
        ("{1.4 l|1.5 qt}", ()),
        ("{74 degC|165 degC}", ("{74 degC|165 degC}",)),  # one of them in the wrong unit
        ("{63 degC|165 degF}", ("{63 degC|165 degF}",)),  # not the same
        ("{100 m|300 ft}", ("{100 m|300 ft}",)),  # 91 m
        ("{74 degC}", ("{74 degC}",)),
        ("{74 degC|hot}", ("{74 degC|hot}",)),
        ("an open { alone", ("{",)),
    ],
)
def test_a_quantity_told_unequally_is_found(text: str, odd: tuple[str, ...]) -> None:
    assert odd_blanks(text) == odd


@pytest.mark.parametrize(
    ("text", "odd"),
    [
        (TEXT, ()),
        ("{{ 7*7 }}{% include 'x' %} {: b=1 } { and }", ()),  # braces of another meaning
        ("{74 degC|165 degC}", ("{74 degC|165 degC}",)),
        ("{63 degC|165 degF}", ("{63 degC|165 degF}",)),
        ("{74 degC} or {165 °F} or {1.5 l}", ("{74 degC}", "{165 °F}", "{1.5 l}")),
        ("{warm|hot}", ("{warm|hot}",)),
    ],
)
def test_in_free_words_only_what_looks_like_a_quantity_is_odd(
    text: str, odd: tuple[str, ...]
) -> None:
    assert uneven(text) == odd


def test_every_second_part_of_a_text_is_a_quantity() -> None:
    parts = parted(TEXT)
    assert parts[1::2] == ["{74 degC|165 degF}", "{1.5 m|5 ft}", "{2000 m|6500 ft}"]
    assert "".join(parts) == TEXT
