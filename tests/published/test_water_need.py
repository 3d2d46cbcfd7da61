"""Drinking against the adequate intakes and the army's table."""

from __future__ import annotations

import pytest

from builder.formulas.water import (
    MOST_ML_DAY,
    MOST_ML_H,
    adequate_intake_ml,
    drinking_rate_ml_h,
    drunk_away_ml,
    water_need_ml,
    water_to_drink_ml,
    way_water_ml,
)

from .published import Published, check, published


# Litres with one decimal.
@published(
    Published(("male", 35.0), 2500.0, 50.0, "ml", "efsa2010", "men", "copy"),
    Published(("female", 35.0), 2000.0, 50.0, "ml", "efsa2010", "women", "copy"),
    Published(("male", 14.0), 2500.0, 50.0, "ml", "efsa2010", "boys from 14", "copy"),
    Published(("female", 14.0), 2000.0, 50.0, "ml", "efsa2010", "girls from 14", "copy"),
    Published(("male", 10.0), 2100.0, 50.0, "ml", "efsa2010", "boys 9 to 13", "copy"),
    Published(("female", 10.0), 1900.0, 50.0, "ml", "efsa2010", "girls 9 to 13", "copy"),
    Published((None, 6.0), 1600.0, 50.0, "ml", "efsa2010", "4 to 8 years", "copy"),
    Published((None, 2.5), 1300.0, 50.0, "ml", "efsa2010", "2 to 3 years", "copy"),
    # 1100 to 1200 ml in the second year of life.
    Published((None, 1.0), 1150.0, 50.0, "ml", "efsa2010", "1 year", "copy"),
    Published(("female", 30.0, True, False), 2300.0, 50.0, "ml", "efsa2010", "pregnant", "copy"),
    Published(("female", 30.0, False, True), 2700.0, 50.0, "ml", "efsa2010", "nursing", "copy"),
)
def test_adequate_intake(row: Published) -> None:
    check(row, adequate_intake_ml)


# The table goes in steps of a quarter quart (237 ml) and lets people differ by as much.
@published(
    Published(
        (27.0, 70.0),
        0.75 * 946.0,
        237.0,
        "ml/h",
        "tb-med-507",
        "26 to 28 °C, moderate work",
        "copy",
    ),
    Published(
        (30.5, 70.0),
        0.75 * 946.0,
        473.0,
        "ml/h",
        "tb-med-507",
        "29 to 31 °C, moderate work",
        "copy",
    ),
    Published(
        (35.0, 70.0), 1.0 * 946.0, 237.0, "ml/h", "tb-med-507", "above 32 °C, moderate work", "copy"
    ),
    Published(
        (20.0, 70.0), 0.50 * 946.0, 237.0, "ml/h", "tb-med-507", "under 26 °C, easy work", "copy"
    ),
)
def test_drinking_rate_lies_by_the_armys_table(row: Published) -> None:
    check(row, drinking_rate_ml_h)


@pytest.mark.parametrize("air_high_c", range(-30, 56, 5))
@pytest.mark.parametrize("mass_kg", [20.0, 60.0, 140.0])
def test_nobody_is_told_to_drink_more_than_is_safe(air_high_c: int, mass_kg: float) -> None:
    """TB MED 507: at most 1.5 quarts (1.42 l) an hour; a slow walker 0.8 to 1.0 l."""
    assert drinking_rate_ml_h(float(air_high_c), mass_kg) <= 1000.0 < MOST_ML_H


def test_eight_hot_hours_stay_under_the_armys_limit_for_a_day_and_twelve_end_at_it() -> None:
    """12 quarts, 11.4 l (TB MED 507, read in a copy): the caution on over-drinking has a use."""
    assert pytest.approx(12.0 * 946.0, abs=50.0) == MOST_ML_DAY
    assert pytest.approx(1.5 * 946.0, abs=5.0) == MOST_ML_H
    rate_ml_h = drinking_rate_ml_h(38.0, 80.0)
    assert water_need_ml(2500.0, 8.0, rate_ml_h, 2000.0, 31.0) < MOST_ML_DAY
    assert water_need_ml(2500.0, 12.0, rate_ml_h, 3000.0, 38.0) == MOST_ML_DAY


@published(
    Published(
        (2500.0, 6.0, 500.0, 500.0, 20.0),
        4750.0,
        0.5,
        "ml",
        "efsa2010",
        "man, six hours on the way",
        "calculated",
    ),
    Published(
        # 2000 (1 + 0.06 · 6 · 8/16) + 8 · 900 + 500; 9700 before heat counted in camp too.
        (2000.0, 8.0, 1000.0, 3000.0, 31.0),
        10060.0,
        0.5,
        "ml",
        "efsa2010",
        "woman, eight hot hours, high",
        "calculated",
    ),
    Published(
        (2000.0, 0.0, 500.0, 500.0, 20.0),
        2000.0,
        0.5,
        "ml",
        "efsa2010",
        "woman, at rest",
        "calculated",
    ),
)
def test_need_worked_by_hand(row: Published) -> None:
    check(row, water_need_ml)


# Food brings 20 to 30 percent: of 2500 ml up to 750 ml, of 2000 ml up to 600 ml.
@published(
    Published(
        (2500.0, 9000.0, 2500.0), 1750.0, 50.0, "ml", "efsa2010", "men, drinks alone", "copy"
    ),
    Published(
        (2000.0, 9000.0, 2000.0), 1400.0, 50.0, "ml", "efsa2010", "women, drinks alone", "copy"
    ),
    Published(
        (2500.0, 500.0, 2500.0), 2000.0, 50.0, "ml", "efsa2010", "men, a fifth from food", "copy"
    ),
    Published(
        (2000.0, 400.0, 2000.0), 1600.0, 50.0, "ml", "efsa2010", "women, a fifth from food", "copy"
    ),
)
def test_what_is_left_to_drink(row: Published) -> None:
    check(row, water_to_drink_ml)


# At rest in the shade, at a daily mean of 30 °C (a high of 36 to 38, assumed), men needed 3.8 l
# (curve of 1959) and 4.5 l (1947); with eight hours of work 9.5 to 11.4 l; with no work but
# what a camp asks, 3 l from -20 to +20 °C.
@published(
    Published(
        (2500.0, 0.0, 1000.0, 0.0, 37.0), 4150.0, 350.0, "ml", "nap-10925",
        "men at rest in the shade, mean of 30 °C, page 129", "copy",
    ),
    Published(
        (2500.0, 8.0, 1000.0, 0.0, 37.0), 10450.0, 950.0, "ml", "nap-10925",
        "men, eight hours of work, mean of 30 °C, page 130", "copy",
    ),
    Published(
        (2500.0, 1.0, 500.0, 0.0, 20.0), 3000.0, 250.0, "ml", "nap-10925",
        "active men, up to 20 °C, page 88", "copy",
    ),
    Published(
        (2500.0, 1.0, 500.0, 0.0, -20.0), 3000.0, 250.0, "ml", "nap-10925",
        "active men, cold adds nothing, page 89", "copy",
    ),
)  # fmt: skip
def test_heat_and_cold_as_they_were_measured(row: Published) -> None:
    check(row, water_need_ml)


# The formula's own values, worked out beside the table of measurements.
@published(
    *(
        Published(
            (intake, hours, rate, 0.0, high), value, 0.5, "ml", "nap-10925", place, "calculated"
        )
        for intake, hours, rate, high, value, place in (
            (2500.0, 0.0, 750.0, 30.0, 3250.0, "man at rest, 30 °C"),
            (2500.0, 0.0, 1000.0, 35.0, 4000.0, "man at rest, 35 °C"),
            (2500.0, 0.0, 1000.0, 38.0, 4450.0, "man at rest, 38 °C"),
            (2500.0, 0.0, 1000.0, 40.0, 4750.0, "man at rest, 40 °C"),
            (2500.0, 0.0, 1000.0, 43.0, 5200.0, "man at rest, 43 °C"),
            (2000.0, 0.0, 1000.0, 38.0, 3560.0, "woman at rest, 38 °C"),
            (1600.0, 0.0, 400.0, 38.0, 2848.0, "child of 4 to 8 at rest, 38 °C"),
            (2500.0, 6.0, 1000.0, 35.0, 8687.5, "man, six hours at 35 °C"),
        )
    )
)
def test_heat_worked_by_hand(row: Published) -> None:
    check(row, water_need_ml)


@published(
    Published(
        (6.0, 1000.0, 2500.0), 5250.0, 0.5, "ml", "efsa2010", "man, six hot hours", "calculated"
    ),
    Published(
        (3.0, 500.0, 2000.0), 1200.0, 0.5, "ml", "efsa2010", "woman, three hours", "calculated"
    ),
)
def test_water_of_the_way_worked_by_hand(row: Published) -> None:
    check(row, way_water_ml)


@published(
    Published(
        (4500.0, 0.35, 1500.0), 3450.0, 0.5, "ml", "common-practice", "dinner at home", "practice"
    ),
)
def test_a_dinner_at_home_takes_its_share_off_all_but_the_way(row: Published) -> None:
    check(row, drunk_away_ml)
