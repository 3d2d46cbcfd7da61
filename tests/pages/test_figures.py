"""Numbers and words of the pages."""

from __future__ import annotations

import sys

import pytest

from builder.model.figure import Figure, Named
from builder.pages.figures import Figures, anchor, worked
from builder.speech import speech_of
from builder.units import System

ENGLISH = speech_of("en")
METRIC = Figures("metric", 300, frozenset({"fuel.likely_g"}), ENGLISH)
US = Figures("us", 300, frozenset(), ENGLISH)


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
    assert worked(ENGLISH, value, unit) == shown


def test_what_is_shown_does_not_keep_what_it_was_worked_out_of() -> None:
    figure = Figure(412.25, Named("mass of a pack", "a-source"))
    before = sys.getrefcount(figure)
    assert worked(ENGLISH, figure, "g") == "412.25\u00a0g"
    assert sys.getrefcount(figure) == before


@pytest.mark.parametrize(
    ("volume_ml", "shown"),
    [
        (300, "1\u00a0mug"),
        (75, "¼\u00a0mug"),
        (40, ""),
        (5, "1\u00a0tsp"),
        (6, "1¼\u00a0tsp"),
        (0.5, "⅛\u00a0tsp"),
        (0.25, ""),  # less than a spoon measures is not told as none
        (20, ""),
        (260, ""),
    ],
)
def test_what_no_quarter_mug_comes_near_is_told_in_spoons_or_not(
    volume_ml: float, shown: str
) -> None:
    assert "".join(piece.text for piece in METRIC.spooned(volume_ml, "")) == shown


def test_a_figure_leads_to_how_it_came_about() -> None:
    assert METRIC.both(58.25, "mass_g", "fuel.likely_g")[0].href == "numbers.md#how-fuel-likely_g"
    assert METRIC.both(58.25, "mass_g", "fuel.carry_g")[0].href == ""
    assert anchor("days.0.water.total_ml") == "how-days-0-water-total_ml"
    assert anchor("people.Åsa.x") != anchor("people.Ösa.x") != anchor("people.sa.x")


def test_units_of_the_trip_come_first_and_the_others_in_small() -> None:
    first, _, other = METRIC.both(1000, "mass_g")
    assert (first.text, first.small, other.small) == ("1\u00a0kg", False, True)
    assert US.both(1000, "mass_g")[0].text.endswith("lb")


def test_a_pinch_is_not_told_as_nothing() -> None:
    assert [piece.text for piece in METRIC.both(1, "mass_g")] == ["1\u00a0g"]
    assert [piece.text for piece in US.both(1, "mass_g")] == ["1\u00a0g"]
    (pinch,) = US.scaled(1, "mass_g", "days.0.meals.0.ingredients.0.amount_g")
    assert pinch.scale is not None
    assert pinch.scale.units == "metric"
    assert US.plain(1, "mass_g") == "1\u00a0g"
    assert METRIC.plain(1, "mass_g") == "1\u00a0g"


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("quantity", ["mass_g", "volume_ml"])
def test_nothing_is_said_in_a_word_and_once(units: System, quantity: str) -> None:
    figures = Figures(units, 300, frozenset(), ENGLISH)
    assert [piece.text for piece in figures.both(0, quantity)] == ["none"]
    assert figures.plain(0, quantity) == "none"
    assert figures.plain(0, "temperature_c").startswith(("0", "32"))


def test_a_range_names_its_unit_once_also_where_thousands_stand_apart_by_a_space() -> None:
    norwegian = Figures("metric", 300, frozenset(), speech_of("nb"))
    assert METRIC.span(1480, 2600, "altitude_m") == "1,480 to 2,600\u00a0m"
    assert norwegian.span(1480, 2600, "altitude_m").startswith("1\u00a0480 ")
    assert METRIC.span(0.9, 1200, "mass_g") == "0.9\u00a0g to 1.2\u00a0kg"
