"""Numbers and words of the pages."""

from __future__ import annotations

import datetime

import pytest

from builder.pages.figures import Figures, anchor, worked
from builder.pages.words import carried, counted, date, in_a_sentence, listed
from tests.pages.sample_kit import ingredient

METRIC = Figures("metric", 300, frozenset({"fuel.likely_g"}))


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (0.0, "g", "0\u00a0g"),
        (66.9875, "g", "66.988\u00a0g"),
        (1.0725, "", "1.0725"),
        (938.8, "hPa", "938.8\u00a0hPa"),
        (123456.7, "kJ", "123,457\u00a0kJ"),
        (-2.5, "°C", "−2.5\u00a0°C"),
        (0.000012345, "", "0.00001235"),
        (float("inf"), "months", "without limit"),
    ],
)
def test_worked_numbers_keep_enough_digits(value: float, unit: str, shown: str) -> None:
    assert worked(value, unit) == shown


@pytest.mark.parametrize(
    ("volume_ml", "shown"),
    [(300, "1\u00a0mug"), (40, "¼\u00a0mug"), (5, "1\u00a0tsp"), (20, "")],
)
def test_too_little_for_a_mug_is_told_in_spoons_or_not(volume_ml: float, shown: str) -> None:
    assert "".join(piece.text for piece in METRIC.spooned(volume_ml, 2)) == shown


def test_a_figure_leads_to_how_it_came_about() -> None:
    assert METRIC.both(58.25, "mass_g", "fuel.likely_g")[0].href == "numbers.md#how-fuel-likely_g"
    assert METRIC.both(58.25, "mass_g", "fuel.carry_g")[0].href == ""
    assert anchor("days.0.water.total_ml") == "how-days-0-water-total_ml"
    assert anchor("people.Åsa.x") != anchor("people.Ösa.x") != anchor("people.sa.x")


def test_units_of_the_trip_come_first_and_the_others_in_small() -> None:
    first, _, other = METRIC.both(1000, "mass_g")
    assert (first.text, first.small, other.small) == ("1\u00a0kg", False, True)
    assert Figures("us", 300, frozenset()).both(1000, "mass_g")[0].text.endswith("lb")


def test_a_pinch_is_not_told_as_nothing() -> None:
    assert [piece.text for piece in METRIC.both(1, "mass_g")] == ["1\u00a0g"]
    assert [piece.text for piece in Figures("us", 300, frozenset()).both(1, "mass_g")] == [
        "1\u00a0g"
    ]
    (pinch,) = Figures("us", 300, frozenset()).scaled(1, "mass_g", 4)
    assert pinch.scale is not None
    assert pinch.scale.units == "metric"
    assert Figures("us", 300, frozenset()).plain(1, "mass_g") == "1\u00a0g"
    assert METRIC.plain(1, "mass_g") == "1\u00a0g"


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("quantity", ["mass_g", "volume_ml"])
def test_nothing_is_said_in_a_word_and_once(units: str, quantity: str) -> None:
    figures = Figures(units, 300, frozenset())
    assert [piece.text for piece in figures.both(0, quantity)] == ["none"]
    assert figures.plain(0, quantity) == "none"
    assert figures.plain(0, "temperature_c").startswith(("0", "32"))


@pytest.mark.parametrize(
    ("day", "shown"),
    [
        (datetime.date(2031, 9, 4), "Thu 4 Sep 2031"),
        (datetime.date(2032, 2, 29), "Sun 29 Feb 2032"),
    ],
)
def test_dates_read_the_same_everywhere(day: datetime.date, shown: str) -> None:
    assert date(day) == shown


def test_lists_and_counts_read_as_sentences() -> None:
    assert listed([]) == ""
    assert listed(["Ash"]) == "Ash"
    assert listed(["Ash", "Bram", "Tove"]) == "Ash, Bram and Tove"
    assert (counted(1, "batch", "batches"), counted(2, "batch", "batches")) == (
        "1 batch",
        "2 batches",
    )


@pytest.mark.parametrize(
    ("name", "dried_by", "shown"),
    [
        ("Black beans, cooked", "freeze-dryer", "Black beans, cooked — freeze-dried"),
        ("Apple", "dehydrator", "Apple — dried"),
        ("Pears, bought dried", "bought", "Pears, bought dried"),
        ("Olive oil", None, "Olive oil"),
    ],
)
def test_food_is_named_as_it_is_carried(name: str, dried_by: str | None, shown: str) -> None:
    assert carried(ingredient("x", name, 1, dried_by=dried_by)) == shown


def test_names_inside_a_sentence_keep_abbreviations() -> None:
    assert in_a_sentence("Rice") == "rice"
    assert in_a_sentence("UHT milk") == "UHT milk"
    assert in_a_sentence("") == ""
