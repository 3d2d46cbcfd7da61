"""Second looks on the pages: ranges, where they are from, and what to do about them."""

from __future__ import annotations

from typing import Any

import pytest

from builder.model.batch import DryTest, Verdict
from builder.model.kit import Kit, PlannedMeal
from builder.model.looks import (
    ColdGas,
    DryerLoad,
    DryingGuide,
    KeepsHot,
    NeedMore,
    Soaking,
    Sweating,
    Treating,
    UnderPressure,
)
from builder.pages.charts import half_hours, run_chart
from builder.pages.figures import figures_of
from builder.pages.trip.book import Book, write_book
from builder.planning.public import without_people
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import apple_run, sample_kit, without_looks
from tests.pages.seen import seen_in


def words_of(book: Book, path: str) -> str:
    return seen_in(book.markdown[path]).words.replace("\u00a0", " ")


def page(kit: Kit, path: str) -> str:
    return words_of(write_book(kit, TEMPLATES), path)


def on_days(kit: Kit, **changes: object) -> Kit:
    """Give the kit with each day changed, one value after the other."""
    told = {name: each if isinstance(each, list) else [each] * 2 for name, each in changes.items()}
    days = (
        replace(day, **{name: each[place] for name, each in told.items()})  # type: ignore[arg-type]
        for place, day in enumerate(kit.days)
    )
    return replace(kit, days=tuple(days))


def with_step(do: str, **changes: object) -> Kit:
    """Give the sample with the steps of a kind in the bean pot changed."""
    kit = sample_kit()

    def changed(meal: PlannedMeal) -> PlannedMeal:
        if meal.recipe != "smoky-bean-pot":
            return meal
        steps = (replace(step, **changes) if step.do == do else step for step in meal.steps)  # type: ignore[arg-type]
        return replace(meal, steps=tuple(steps))

    return on_days(kit, meals=[tuple(changed(meal) for meal in day.meals) for day in kit.days])


def with_person(**changes: object) -> Kit:
    """Give the sample with the first of its party changed."""
    kit = sample_kit()
    return replace(kit, party=(replace(kit.party[0], **changes), *kit.party[1:]))  # type: ignore[arg-type]


def sweating(*looks: Sweating | None) -> Kit:
    """Give the sample with the sweat of its first person, day by day."""
    kit = sample_kit()
    people = [
        tuple(replace(own, sweat=look if own.name == "Ash" else None) for own in day.people)
        for day, look in zip(kit.days, looks, strict=True)
    ]
    return on_days(kit, people=people)


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
        ("drying.md", "what such food usually takes up again, and a quarter more"),
        ("drying.md", "Apple, raw: Cut it 3 to 6 mm thin. Dry it at 54 to 60 °C for 6 to 12 h."),
        ("drying.md", "Blanch it 3 to 4 min in steam or 3 to 3.5 min in boiling water. Dry it"),
        ("drying.md", "6 to 10 h. Sources: 2"),
        ("drying.md", "a jar two thirds full. Shake the jar every day for 7 to 10 days."),
        ("drying.md", "Above 1,524 m it takes a minute longer."),
        ("drying.md", "In the dryer: 34 % of what it takes at once (Cold box). It lies about 6 mm"),
        ("drying.md", "in a laboratory the ice of such a slab is gone after 3 to 4 h"),
        ("drying.md", "12.5 mm 14 to 18 h"),
        ("drying.md", "50 Pa 380 mTorr −27 °C −17 °F"),
        (
            "fuel.md",
            "Day 1, at 4 °C: a full canister gives about 58 % of its gas, and 42 % stay in it",
        ),
        ("fuel.md", "It begins with 230 kPa; the burner wants 124 kPa."),
        ("fuel.md", "Day 2, at −2 °C: a canister gives no gas until you warm it."),
        ("fuel.md", "the gas you take would give none of the 58 g you are likely to burn."),
        ("fuel.md", "4 to 5 s medium 145 to 200 °C"),
        # What its columns are stands in each line, for phones.
        (
            "fuel.md",
            "Day 2 Egg toasties Irons get hot 8 to 24 min First press, irons cold 17 to 33 min",
        ),
        ("water.md", "In a whole day, however hot and hard, stay below 11.4 l."),
        ("water.md", "Chlorine dioxide does, after 4 h;"),
        ("food.md", "Ash, on 2 days so high up: 330 to 510 kcal a day."),
        ("food.md", "Rowan, on 1 day of frost: 180 to 750 kcal."),
        (
            "cook/smoky-bean-pot.md",
            "On the way: soak it in a bottle that closes tight, and walk on.",
        ),
        (
            "cook/smoky-bean-pot.md",
            "Black beans, cooked and freeze-dried: usually 5 to 30 min in cold water. Cooking "
            "softens what is still hard. Once it is wet, eat it within 2 h, or keep it at 4 °C or "
            "colder.",
        ),
        (
            "cook/egg-toasties.md",
            "Heat the empty irons on the embers: 8 to 24 min. Hot enough: a drop of water dances "
            "on them. In cold ones the first round takes 17 to 33 min.",
        ),
        ("day-1.md", "Soak on the way: Smoky bean pot, in a bottle that closes tight, at most 2 h"),
        (
            "meals/day-2-dinner.md",
            "Lay the irons on the embers to get hot. They take 8 to 24 min, so lay",
        ),
        ("fuel.md", "58 g 2.1 oz between 52 g and 64 g"),
        ("fuel.md", "48 % your own test: 1 l from 9 °C with 14 g"),
        ("fuel.md", "without lids this trip burns 65 to 73 g"),
        ("fuel.md", "Day 2 8.76 l water 25 to 125 l 17 to 84"),
        ("water.md", "Day 1: 4 drops of bleach for each litre (the dose for cold water)"),
        ("water.md", "Stir, then wait 1 h."),
        ("water.md", "pour off the clear part, and take 4 drops for each litre"),
        ("water.md", "Day 2: bring the water to a rolling boil and hold it for 1 min."),
        ("water.md", "3 min by the stricter rule, which begins at 1,000 m"),
        ("water.md", "Ash day 2 500 ml 590 to 720 ml"),
        ("water.md", "more than 1.42 l in an hour, at an easy pace no more than 1 l"),
        ("cook/smoky-bean-pot.md", "Wrap the pot, or eat sooner. Then still about 65 °C hot"),
        ("cook/smoky-bean-pot.md", "between 58 °C and 70 °C; wrapped up about 84 °C."),
        ("food.md", "All food of the trip gives 3.5 kcal per gram."),
        ("food.md", "Ash 2,680 89 g need 53 g hard days 77 to 128 g 7 g"),
        ("food.md", "Rowan 3,230 108 g need 68 g 8.6 g"),
        ("food.md", "Rowan 3,020 3,134 –"),
        ("food.md", "Apple oats: 1,568 kJ / 375 kcal; fat 17 g, carbohydrate 40 g, fibre 7.9 g"),
        ("food.md", "US serving: 760 Calories, 1,110 mg sodium"),
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
    still = KeepsHot((60.0, 65.0, 70.0), (79.6, 84.4, 87.0), 13.5, 44.0)
    warm = page(with_step("rest", keeps_hot=still), "cook/smoky-bean-pot.md")
    assert "Wrap the pot" not in warm and "Then still about 65 °C hot" in warm


def test_a_rest_that_nobody_looked_at_says_nothing() -> None:
    other = page(with_step("rest", keeps_hot=None), "cook/smoky-bean-pot.md")
    assert "Then still" not in other


def test_the_listed_efficiency_is_named_as_such() -> None:
    kit = sample_kit()
    assert kit.fuel is not None
    listed = page(replace(kit, fuels=(replace(kit.fuel, test=None),)), "fuel.md")
    assert "48 % as listed for it" in listed


def test_a_range_without_width_is_no_range() -> None:
    kit = sample_kit()
    assert kit.fuel is not None
    sure = replace(kit.fuel, low_g=kit.fuel.likely_g, high_g=kit.fuel.likely_g)
    assert "between" not in page(replace(kit, fuels=(sure,)), "fuel.md").partition("By day")[0]


def test_days_that_treat_water_alike_are_told_together() -> None:
    kit = sample_kit()
    here = replace(kit.days[0].conditions, treat="chemical")
    warm = on_days(kit, treating=Treating(2, False, 30, 1, 1), conditions=here)
    told = page(warm, "water.md")
    assert "Day 1 and Day 2: 2 drops of bleach for each litre. Stir, then wait 30 min." in told


def test_plain_water_needs_no_words_about_treating() -> None:
    told = page(on_days(sweating(None, None), treating=None), "water.md")
    assert "bleach" not in told and "Drinking on the way" not in told
    assert "Never drink more than" in told


def test_of_each_person_the_day_with_most_sweat_is_told() -> None:
    days = (Sweating(300 + day, 400 - 10 * day) for day in (1, 2))
    assert "Ash day 1 500 ml 300 to 390 ml" in page(sweating(*days), "water.md")


def test_swelling_nobody_sees_is_not_told() -> None:
    told = page(replace(sample_kit(), bags_swell_times=1.04), "drying.md")
    assert "What to look for" in told and "the air in a bag takes" not in told


def test_a_load_that_went_in_warm_had_to_be_frozen() -> None:
    kit = sample_kit()
    warm = replace(kit.batches[0], loaded_at_c=5.0)
    told = page(replace(kit, batches=(warm,)), "drying.md")
    assert "went in at 5 °C 41 °F, so the machine had to freeze it first" in told


@pytest.mark.parametrize(
    ("likely", "high", "verdict", "tests", "says"),
    [
        (0.3, 0.5, "undecided", (), "should be too dry for moulds"),
        (0.3, 0.5, "dry", ("snap",), "should be too dry for moulds"),
        (0.5, 0.65, "undecided", (), "should be too dry for moulds; prove it"),
        (0.5, 0.65, "dry", (), "should be too dry for moulds; prove it"),
        (0.5, 0.95, "dry", ("snap",), "its test says dry"),
        (0.5, 0.95, "undecided", ("jar",), "should be too dry for moulds; prove it"),
        (0.65, 0.7, "dry", ("snap",), "some moulds can grow"),
        (0.9, 0.95, "undecided", (), "moulds and germs can grow"),
    ],
)
def test_water_activity_says_what_it_means(
    likely: float, high: float, verdict: Verdict, tests: tuple[DryTest, ...], says: str
) -> None:
    kit = sample_kit()
    batch = replace(
        kit.batches[1],
        water_activity=likely,
        water_activity_low=0.1,
        water_activity_high=high,
        verdict=verdict,
        tests=tests,
    )
    told = page(replace(kit, batches=(batch,)), "drying.md")
    # A batch that is thrown out puts nothing back, so its date follows.
    assert f"between 0.1 and {high:g}; {says} Best before: none" in told.replace("\n", " ")


def test_a_curve_is_drawn_with_its_weighings_and_its_table() -> None:
    chart = run_chart(figures_of(sample_kit()), "apples", apple_run())
    assert len(chart.dots) == 3 and len(chart.lines[0].split()) == 5
    assert chart.behind is not None and len(chart.behind.rows) == 4
    heights = [float(dot.y) for dot in chart.dots]
    target, ground = (float(level.y) for level in chart.levels)
    # Lighter lies lower on the page, and all that is not dry yet over the line.
    assert heights == sorted(heights) and heights[-1] < target < ground
    (across,) = chart.bars
    (lead,) = chart.leads
    assert float(across.x) < float(lead.x) < float(across.x) + float(across.width)
    assert float(across.x) < float(chart.lines[0].split()[-1].partition(",")[0])
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


def guided(*guides: DryingGuide, **changes: object) -> str:
    return page(replace(sample_kit(), guides=guides, **changes), "drying.md")  # type: ignore[arg-type]


MINCE = DryingGuide(
    "Mince", "dehydrator", "jerky", "layer", (3, 6), (54.4, 60), (4, 10), None, None, 71, ()
)


@pytest.mark.parametrize(
    ("guide", "says"),
    [
        (MINCE, "Mince: Spread it 3 to 6 mm thin. Heat it to 71 °C all through before it goes in."),
        (replace(MINCE, form="slices"), "Mince: Cut it 3 to 6 mm thin. Heat it to 71 °C"),
        (replace(MINCE, form="halves", pieces_mm=None), "Mince: Halve it, take the stone or core"),
        (replace(MINCE, form="whole", pieces_mm=None), "Mince: Leave it whole. Heat it"),
        (replace(MINCE, form="single", pieces_mm=None), "Mince: Spread it in one layer. Heat it"),
        (replace(MINCE, steam_min=(3, 3)), "thin. Blanch it 3 min in steam. Heat it"),
        (
            MINCE,
            "Or dry meat at 63 to 68 °C, then put it at once for 10 min into an oven of 135 °C",
        ),
        (replace(MINCE, method="sun"), "Not in the sun: dry it at 54 to 60 °C in a dryer."),
        (replace(MINCE, method="sun", kind="fruit"), "in the sun for some days, or at 54 to 60 °C"),
        (replace(MINCE, method="sun"), "Freeze it at −18 °C or colder for 48 h, or heat it in an"),
        (replace(MINCE, method="sun"), "on days of 30 °C and more with less than 60 % humidity"),
    ],
)
def test_a_guide_says_what_is_done_in_its_order(guide: DryingGuide, says: str) -> None:
    assert says in guided(guide)


def test_inches_and_fahrenheit_where_a_trip_measures_so() -> None:
    told = guided(MINCE, units="us")
    assert "Spread it 0.12 to 0.24 in thin. Heat it to 160 °F all through" in told
    assert "Dry it at 130 to 140 °F for 4 to 10 h." in told


def test_what_is_not_dried_is_not_told() -> None:
    told = guided(batches=(), shopping=())
    assert "How to dry it" not in told and "Freeze-drying" not in told


def test_too_much_for_a_dryer_is_told_with_what_freezing_it_costs() -> None:
    kit = sample_kit()
    beans = replace(kit.batches[0], load=DryerLoad("Cold box", 1.05, 30, 60, None, 0.3244))
    told = page(replace(kit, batches=(beans,)), "drying.md")
    assert "In the dryer: TOO MUCH: 105 % of what it takes at once (Cold box)." in told
    assert "It lies about 60 mm thick. To freeze it the machine had to take out 0.32 kWh" in told


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"stands_h": None, "in_bottle": False}, "it keeps only as long as it stays at 4 °C"),
        ({"stands_h": 1.0, "in_bottle": False}, "Once it is wet, eat it within 1 h"),
        ({"hot": True, "in_bottle": False}, "usually 5 to 30 min in boiling water. Still hard?"),
        ({"usual_min": (30, 90)}, "freeze-dried: usually 30 min to 1 h 30 min in cold water."),
        ({"overnight": True, "in_bottle": False}, "It may soak overnight, cool and covered"),
        ({"too_long": True, "stands_h": 1.0, "in_bottle": False},
         "That is longer than it may stand wet here (1 h): pour boiling water on it instead"),
        ({"usual_min": (120, 180)}, "freeze-dried: cooking softens what is still hard. Once it is"),
    ],
)  # fmt: skip
def test_a_soak_says_how_long_and_until_when(changes: dict[str, Any], says: str) -> None:
    beans = "Black beans, cooked and freeze-dried"
    soak = Soaking(beans, (5, 30), (174, 261), 2.0, True)
    hot = changes.get("hot", False)
    look = replace(soak, **{name: each for name, each in changes.items() if name != "hot"})
    told = page(with_step("soak", soaking=look, hot=hot), "cook/smoky-bean-pot.md")
    assert says in told
    assert ("On the way" in told) == changes.get("in_bottle", True)
    assert ("Once it is wet" in told) == (says.startswith("Once") or "usual_min" in changes)


def test_a_pressure_cooker_tells_its_own_minutes() -> None:
    look = UnderPressure(117.1, 2.4, (1.1, 3.0))
    told = page(with_step("simmer", under_pressure=look), "cook/smoky-bean-pot.md")
    assert (
        "In the pressure cooker it boils at 117 °C: lid locked, about 2 min from when it is at "
        "pressure, between 1 min and 3 min. Fill it half at most" in told
    )


def test_wood_stands_with_the_range_of_open_fires_which_holds_that_of_the_trees() -> None:
    kit = replace(
        sample_kit(), wood_by_species_g=(3400, 3950), wood_low_g=1800.0, wood_high_g=7200.0
    )
    assert "Dry wood 3.6 kg 7.94 lb between 1.8 kg and 7.2 kg" in page(kit, "fuel.md")


def test_not_all_food_slows_alike(book: Book) -> None:
    # 93.65 °C: 10^(6.32/40) and 10^(6.32/20).
    assert (
        "Simmer and soak 1.55 times as long between 1.44 and 2.07, depending on the food"
        in words_of(book, "day-2.md")
    )


def test_cans_that_give_enough_warn_nobody() -> None:
    warm = on_days(sample_kit(), cold_gases=[(ColdGas(230.2, 123.9, 0.6, "gas-mix"),), ()])
    told = page(warm, "fuel.md")
    assert "Gas in the cold" in told and "would give" not in told


@pytest.mark.parametrize(
    ("why", "days", "says"),
    [
        ("cold", 2, "Ash, on 2 days of frost: 450 to 500 kcal a day."),
        ("height", 1, "Ash, on 1 day so high up: 450 to 500 kcal."),
        ("height", 3, "Ash, on 3 days so high up: 450 to 500 kcal a day."),
    ],
)
def test_what_somebody_needs_more_is_told_beside_the_plan(why: Any, days: int, says: str) -> None:
    more = NeedMore(why, days, (452, 500), ())
    told = page(with_person(needs_more=(more,)), "food.md")
    assert says in told and "The plan does not count this" in told


def test_a_public_kit_tells_nobodys_protein() -> None:
    told = page(without_people(sample_kit()), "food.md")
    assert "Protein" not in told and "Apple oats" in told


def test_a_kit_without_looks_still_reads_well() -> None:
    told = page(without_looks(sample_kit()), "food.md")
    assert "Labels" not in told and "Each of you" not in told


@pytest.mark.parametrize("path", ["day-1.md", "fuel.md"])
def test_a_days_fuel_and_wood_never_stand_without_their_range(path: str) -> None:
    kit = sample_kit()
    fuel = replace(
        kit.days[0].fuel,
        fuel_g=120.0,
        low_g=96.0,
        high_g=174.0,
        wood_g=900.0,
        wood_low_g=450.0,
        wood_high_g=1800.0,
    )
    told = replace(kit, days=(replace(kit.days[0], fuel=fuel), *kit.days[1:]), wood_g=900.0)
    words = page(told, path)
    assert "120 g 4.2 oz between 96 g and 174 g" in words
    assert "900 g 1.98 lb between 450 g and 1.8 kg" in words


@pytest.mark.parametrize(("boil_ml", "is_told"), [(3000.0, True), (2040.0, False), (0.0, False)])
def test_what_is_boiled_to_be_carried_on_is_told_beside_what_is_drunk(
    boil_ml: float, is_told: bool
) -> None:
    kit = sample_kit()
    water = replace(kit.days[0].water, treat_ml=2000.0, boil_ml=boil_ml)
    told = replace(kit, days=(replace(kit.days[0], water=water), *kit.days[1:]))
    says = "Day 1: boil 3 l there. What you carry on the next day is in it."
    assert (says in page(told, "water.md")) == is_told


def test_a_dry_camp_says_what_its_water_is_for() -> None:
    kit = sample_kit()

    def dry(place: int) -> str:
        days = list(kit.days)
        here = replace(days[place].conditions, water_source="none")
        water = replace(days[place].water, carry_ml=9000.0)
        days[place] = replace(days[place], conditions=here, water=water)
        return page(replace(kit, days=tuple(days)), "water.md")

    assert "a dry camp" not in page(kit, "water.md")
    first = "Day 1: a dry camp. Carry 9 l: for the way there, the evening, the night, breakfast and"
    assert first in dry(0)
    assert "Day 2: a dry camp. Carry 9 l: for the way there, the evening and the night." in dry(1)


def test_where_nobody_told_when_the_trip_starts_its_packs_dates_are_to_be_looked_at() -> None:
    says = "Not given: when the trip starts. Hold each date against the day you eat it."
    assert says in page(replace(sample_kit(), start=None), "drying.md")
    assert says not in page(sample_kit(), "drying.md")


@pytest.mark.parametrize(("high_g", "is_told"), [(1.1, True), (1.0, False)])
def test_fuel_that_may_not_last_is_told_beside_what_to_take(high_g: float, is_told: bool) -> None:
    kit = sample_kit()
    (fuel,) = kit.fuels
    held_g = sum(each.holds_g * each.count for each in fuel.containers)
    told = page(replace(kit, fuels=(replace(fuel, high_g=high_g * held_g),)), "fuel.md")
    assert ("take a container more, or soak cold" in told) == is_told
