"""Second looks on the pages: ranges, where they are from, and what to do about them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.model.kit import Kit
from builder.model.looks import Looks, Sweating, Treating
from builder.pages.book import Book, write_book
from builder.pages.charts import half_hours, run_chart
from builder.pages.figures import figures_of
from builder.planning.public import public_kit
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import apple_run, sample_kit
from tests.pages.seen import seen_in


def words_of(book: Book, path: str) -> str:
    return seen_in(book.markdown[path]).words.replace("\u00a0", " ")


def page(kit: Kit, path: str) -> str:
    return words_of(write_book(kit, TEMPLATES), path)


def with_looks(**changes: object) -> Kit:
    kit = sample_kit()
    return replace(kit, looks=replace(kit.looks, **changes))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("path", "says"),
    [
        ("drying.md", "2 %; the table leaves open 2 % to 6 %. Limit 5 %"),
        ("drying.md", "1.2 kg 2.63 lb of water drawn out. That takes at least 0.94 kWh"),
        ("drying.md", "The load went in at −18 °C 0 °F"),
        ("drying.md", "200 ml for each pack, which holds about 177 ml oxygen"),
        ("drying.md", "about 0.72, between 0.66 and 0.76; moulds can grow"),
        ("drying.md", "dry enough after about 12 h, between 11 h and 13 h."),
        ("drying.md", "by the Page curve"),
        ("drying.md", "1,900 m 6,234 ft, the air in a bag takes about 1.3 times the room"),
        ("fuel.md", "58 g 2.1 oz between 52 g and 64 g"),
        ("fuel.md", "48 % your own test: 1 l from 9 °C with 14 g"),
        ("fuel.md", "without lids this trip burns 65 to 73 g"),
        ("fuel.md", "Day 2 8.76 l water 25 to 125 l 17 to 84"),
        ("water.md", "Day 1: 4 drops of bleach for each litre (the dose for cold water)"),
        ("water.md", "Stir, then wait 1 h."),
        ("water.md", "pour off the clear part, and take 4 drops for each litre"),
        ("water.md", "Day 2: bring the water to a rolling boil and hold it for 1 min."),
        ("water.md", "3 min by the stricter rule, which begins at 1,000 m"),
        ("water.md", "Ash day 2 750 ml 590 to 720 ml"),
        ("water.md", "more than 1.42 l in an hour, at an easy pace no more than 1 l"),
        ("cook/smoky-bean-pot.md", "Wrap the pot, or eat sooner. Then still about 65 °C hot"),
        ("cook/smoky-bean-pot.md", "between 58 °C and 70 °C; wrapped up about 84 °C."),
        ("food.md", "All food of the trip gives 3.5 kcal in a gram."),
        ("food.md", "Ash 2,680 89 g need 53 g hard days 77 to 128 g 7 g"),
        ("food.md", "Rowan 3,230 108 g need 68 g 8.6 g"),
        ("food.md", "Rowan 4 % apart 3,020 3,134 –"),
        ("food.md", "Apple oats: 1,568 kJ / 375 kcal; fat 17 g, carbohydrate 40 g, fibre 7.9 g"),
        ("food.md", "US portion: 760 Calories, 1,110 mg sodium"),
        ("food.md", "Nut mix: 2,510 kJ / 600 kcal; its packet tells no more"),
        ("food.md", "Some packets tell only their energy"),
    ],
)
def test_pages_tell_what_was_found(book: Book, path: str, says: str) -> None:
    assert says in words_of(book, path)


def test_a_label_that_comes_again_is_told_once(book: Book) -> None:
    assert words_of(book, "food.md").count("Apple oats: 1,568 kJ") == 1


def test_most_energy_for_its_weight_comes_first(book: Book) -> None:
    told = words_of(book, "food.md").partition("Most energy for its weight")[2]
    assert told.index("Nut mix 6.0 kcal") < told.index("Apple oats 3.9 kcal")


def test_a_pot_that_stays_hot_asks_for_nothing() -> None:
    (stand,) = sample_kit().looks.standing
    warm = page(
        with_looks(standing=(replace(stand, bare_c=(60.0, 65.0, 70.0)),)), "cook/smoky-bean-pot.md"
    )
    assert "Wrap the pot" not in warm and "Then still about 65 °C hot" in warm


def test_a_rest_of_another_day_says_nothing_here() -> None:
    (stand,) = sample_kit().looks.standing
    other = page(with_looks(standing=(replace(stand, day=2),)), "cook/smoky-bean-pot.md")
    assert "Then still" not in other


def test_the_listed_efficiency_is_named_as_such() -> None:
    kit = sample_kit()
    assert kit.fuel is not None
    listed = page(replace(kit, fuel=replace(kit.fuel, test=None)), "fuel.md")
    assert "48 % as listed for it" in listed


def test_a_range_without_width_is_no_range() -> None:
    kit = sample_kit()
    assert kit.fuel is not None
    sure = replace(kit.fuel, low_g=kit.fuel.likely_g, high_g=kit.fuel.likely_g)
    assert "between" not in page(replace(kit, fuel=sure), "fuel.md").partition("By day")[0]


def test_days_that_treat_water_alike_are_told_together() -> None:
    warm = tuple(Treating(day, "chemical", 6000, 2, False, 30, 1, 1) for day in (1, 2))
    told = page(with_looks(treating=warm), "water.md")
    assert "Day 1 and Day 2: 2 drops of bleach for each litre. Stir, then wait 30 min." in told


def test_plain_water_needs_no_words_about_treating() -> None:
    told = page(with_looks(treating=(), sweating=()), "water.md")
    assert "bleach" not in told and "Drinking on the way" not in told
    assert "Never drink more than" in told


def test_of_each_person_the_day_with_most_sweat_is_told() -> None:
    days = tuple(Sweating(day, "Ash", 500, 300 + day, 400 - 10 * day) for day in (1, 2))
    assert "Ash day 1 500 ml 300 to 390 ml" in page(with_looks(sweating=days), "water.md")


def test_swelling_nobody_sees_is_not_told() -> None:
    told = page(with_looks(bags_swell_times=1.04), "drying.md")
    assert "What to look for" in told and "the air in a bag takes" not in told


def test_a_load_that_went_in_warm_had_to_be_frozen() -> None:
    kit = sample_kit()
    warm = replace(kit.batches[0], loaded_at_c=5.0)
    told = page(replace(kit, batches=(warm,)), "drying.md")
    assert "went in at 5 °C 41 °F, so the machine had to freeze it first" in told


@pytest.mark.parametrize(
    ("likely", "high", "says"),
    [
        (0.3, 0.5, "should be too dry for moulds"),
        (0.5, 0.65, "should be too dry for moulds; prove it"),
        (0.65, 0.7, "some moulds can grow"),
        (0.9, 0.95, "moulds and germs can grow"),
    ],
)
def test_water_activity_says_what_it_means(likely: float, high: float, says: str) -> None:
    kit = sample_kit()
    batch = replace(
        kit.batches[1], water_activity=likely, water_activity_low=0.1, water_activity_high=high
    )
    told = page(replace(kit, batches=(batch,)), "drying.md")
    assert f"between 0.1 and {high:g}; {says} Puts" in told.replace("\n", " ")


def test_a_curve_is_drawn_with_its_weighings_and_its_table() -> None:
    chart = run_chart(figures_of(sample_kit()), "apples", apple_run())
    assert len(chart.dots) == 3 and len(chart.line.split()) == 5
    assert chart.behind is not None and len(chart.behind.rows) == 4
    heights = [float(dot.y) for dot in chart.dots]
    target, ground = (float(level.y) for level in chart.levels)
    # Lighter lies lower on the page, and all that is not dry yet over the line.
    assert heights == sorted(heights) and heights[-1] < target < ground
    (across, _) = chart.bars
    assert float(across.x) < float(chart.line.split()[-1].partition(",")[0])
    assert "After 2 h: 1.4 kg" in chart.text.replace("\u00a0", " ")


@pytest.mark.parametrize(("minutes", "shown"), [(716, 720), (662, 660), (14, 0), (45, 60)])
def test_forecasts_are_rounded_to_half_hours(minutes: float, shown: float) -> None:
    assert half_hours(minutes) == shown


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [(288, 346, "288 to 346 g"), (894, 1190, "894 g to 1.19 kg"), (50, 50.2, "50 g")],
)
def test_a_span_tells_its_unit_once(low: float, high: float, shown: str) -> None:
    assert figures_of(sample_kit()).span(low, high, "mass_g").replace("\u00a0", " ") == shown


def test_a_public_kit_tells_nobodys_protein() -> None:
    told = page(public_kit(sample_kit()), "food.md")
    assert "Protein" not in told and "Apple oats" in told


def test_a_kit_without_looks_still_reads_well() -> None:
    book = write_book(replace(sample_kit(), looks=Looks()), TEMPLATES)
    told = words_of(book, "food.md")
    assert "Labels" not in told and "Each of you" not in told
