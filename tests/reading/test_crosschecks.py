# ruff: noqa: E501 - the lines that people read stand whole
"""Checks between records."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.reading.folder_builder import (
    BEAN_POT,
    BEANS_IN_MAY,
    GOOD,
    SMALL,
    TRIP,
    Spoilt,
    changed,
    dangling,
    lines,
    read,
    told,
)

SPOILT = (
    Spoilt(
        "unknown stove",
        "trips/tarrow.yaml",
        (("use: burner", "use: burnr"),),
        (
            "trips/tarrow.yaml:4:14: error: there is no stove 'burnr' — did you mean burner? [stove-unknown]",
        ),
    ),
    Spoilt(
        "unknown pot",
        "trips/tarrow.yaml",
        (("[pot]", "[pot, pan]"),),
        ("trips/tarrow.yaml:4:34: error: there is no pot 'pan' — did you mean pot? [pot-unknown]",),
    ),
    Spoilt(
        "unknown iron",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nfire: {irons: [iron, irn]}"),),
        (
            "trips/tarrow.yaml:2:22: error: there is no iron 'irn' — did you mean iron? [iron-unknown]",
        ),
    ),
    Spoilt(
        "unknown pot of a fire",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nfire: {pots: [billy]}"),),
        (
            "trips/tarrow.yaml:2:15: error: there is no pot 'billy' — did you mean pot? [pot-unknown]",
        ),
    ),
    Spoilt(
        "a pot unknown to stove and fire is told once",
        "trips/tarrow.yaml",
        (
            ("[pot]", "[pot, pan]"),
            ("title: Tarrow Tops", "title: Tarrow Tops\nfire: {pots: [pan]}"),
        ),
        ("trips/tarrow.yaml:5:34: error: there is no pot 'pan' — did you mean pot? [pot-unknown]",),
    ),
    Spoilt(
        "no heat",
        "trips/tarrow.yaml",
        (("stove: {use: burner, pots: [pot]}\n", "stove: {pots: [pot]}\n"),),
        (
            "trips/tarrow.yaml:8:23: error: bean-pot needs heat, and this trip has neither stove nor fire — name a stove (`stove: {use: …}`) or allow a fire [no-heat]",
        ),
    ),
    Spoilt(
        "no pot",
        "trips/tarrow.yaml",
        ((", pots: [pot]", ""),),
        (
            "trips/tarrow.yaml:8:23: error: bean-pot needs a pot, and this trip has none — name one in `stove: {pots: […]}` or `fire: {pots: […]}` [no-pot]",
        ),
    ),
    Spoilt(
        "a fire that is not allowed",
        "trips/tarrow.yaml",
        (("stove: {use: burner, pots: [pot]}", "fire: {allowed: false, pots: [pot]}"),),
        (
            "trips/tarrow.yaml:8:23: error: bean-pot needs heat, and this trip has neither stove nor fire — name a stove (`stove: {use: …}`) or allow a fire [no-heat]",
        ),
    ),
    Spoilt(
        "no fire for a press",
        "recipes/bean-pot.yaml",
        (
            ("cook_in: pot", "cook_in: iron"),
            ("{do: simmer, minutes: 8}", "{do: press, each_side: 4 min}"),
        ),
        (
            "trips/tarrow.yaml:8:23: error: bean-pot needs embers, and this trip allows no fire — cook another dish [no-fire]",
        ),
    ),
    Spoilt(
        "a batch that holds something else",
        "batches/beans.yaml",
        (("food: beans", "food: rice"),),
        (
            "trips/tarrow.yaml:8:39: error: batch 'beans-may' holds 'rice', not 'beans' — no batch holds 'beans' [batch-holds-other]",
        ),
    ),
    Spoilt(
        "a batch that holds a meal",
        "batches/beans.yaml",
        (("food: beans", "recipe: bean-pot"),),
        (
            "trips/tarrow.yaml:8:39: error: batch 'beans-may' holds 'bean-pot', not 'beans' — no batch holds 'beans' [batch-holds-other]",
        ),
    ),
    Spoilt(
        "a batch of something else among many",
        "trips/tarrow.yaml",
        (("from: beans-may", "from: {rice: beans-may}"),),
        (
            "trips/tarrow.yaml:8:46: error: batch 'beans-may' holds 'beans', not 'rice' — no batch holds 'rice' [batch-holds-other]",
        ),
    ),
    Spoilt(
        "one batch for none dried",
        "recipes/bean-pot.yaml",
        (
            ("dried_by: dehydrator, ", ""),
            ("water: auto, ", ""),
        ),
        (
            "trips/tarrow.yaml:8:39: error: which ingredient of bean-pot comes from this batch is not told: no ingredient of it is dried — write `from: {beans: beans-may}` [from]",
        ),
    ),
    Spoilt(
        "one batch for two dried",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount", "{food: rice, dried_by: oven, amount"),),
        (
            "trips/tarrow.yaml:8:39: error: which ingredient of bean-pot comes from this batch is not told: 2 of its ingredients are dried — write `from: {beans: beans-may}` [from]",
        ),
    ),
    Spoilt(
        "eaten from a batch of something else",
        "trips/tarrow.yaml",
        (("each: 30 g", "each: 30 g, from: beans-may"),),
        (
            "trips/tarrow.yaml:9:45: error: batch 'beans-may' holds 'beans', not 'rice' — no batch holds 'rice' [batch-holds-other]",
        ),
    ),
    Spoilt(
        "a label from a batch",
        "trips/tarrow.yaml",
        (
            (
                "{eat: rice, each: 30 g}",
                "{eat: Chews, each: 30 g, energy: 300 kcal, from: beans-may}",
            ),
        ),
        (
            "trips/tarrow.yaml:9:64: error: batch 'beans-may' holds 'beans', not 'Chews' — no batch holds 'Chews' [batch-holds-other]",
        ),
    ),
)


@pytest.mark.parametrize("spoilt", SPOILT, ids=str)
def test_each_mistake_is_told_at_its_place_with_what_would_do(
    spoilt: Spoilt, tmp_path: Path
) -> None:
    assert told(tmp_path, GOOD, spoilt) == spoilt.expected


PRESSED = BEAN_POT.replace("cook_in: pot", "cook_in: iron").replace(
    "{do: simmer, minutes: 8}", "{do: press, each_side: 4 min}"
)


@pytest.mark.parametrize(
    ("fire", "expected"),
    [
        ("fire: {irons: [iron]}", []),
        (
            "fire: {allowed: true}",
            [
                "trips/tarrow.yaml:9:23: error: bean-pot needs an iron, and this trip has none — name one in `fire: {irons: […]}` [no-iron]"
            ],
        ),
        (
            "fire: {allowed: false, irons: [iron]}",
            [
                "trips/tarrow.yaml:9:23: error: bean-pot needs embers, and this trip allows no fire — cook another dish [no-fire]"
            ],
        ),
    ],
)
def test_a_press_needs_a_fire_and_an_iron(fire: str, expected: list[str], tmp_path: Path) -> None:
    trip = changed(TRIP, "days:", f"{fire}\ndays:")
    files = {**GOOD, "recipes/bean-pot.yaml": PRESSED, "trips/tarrow.yaml": trip}
    assert lines(read(tmp_path, files)) == expected


BAKED = BEAN_POT.replace("{do: simmer, minutes: 8}", "{do: bake, minutes: 30, at: 180 degC}")


@pytest.mark.parametrize(
    ("fire", "material", "expected"),
    [
        ("fire: {allowed: true}", "cast-iron", []),
        (
            "fire: {allowed: true}",
            "aluminium",
            [
                "trips/tarrow.yaml:9:23: error: bean-pot is baked in a cast-iron pot, and this trip has none — name one in `stove: {pots: […]}` or `fire: {pots: […]}` [no-pot]"
            ],
        ),
        (
            "fire: {allowed: false}",
            "cast-iron",
            [
                "trips/tarrow.yaml:9:23: error: bean-pot is baked in embers, and this trip allows no fire — bake at home [no-fire]"
            ],
        ),
    ],
)
def test_what_is_baked_needs_a_fire_and_a_pot_of_cast_iron(
    fire: str, material: str, expected: list[str], tmp_path: Path
) -> None:
    trip = changed(TRIP, "days:", f"{fire}\ndays:")
    files = {**GOOD, "recipes/bean-pot.yaml": BAKED, "trips/tarrow.yaml": trip}
    gear = changed(SMALL["gear/all.yaml"], "material: aluminium", f"material: {material}")
    assert lines(read(tmp_path, files, {**SMALL, "gear/all.yaml": gear})) == expected


STOVE = "stove: {use: burner, pots: [pot]}"
FIRE = "fire: {allowed: true, pots: [pot]}"
NO_STOVE = "heat: stove, and this trip has no stove — name one (`stove: {use: …}`), or leave it out [no-such-heat]"
NO_FIRE = "and this trip allows no fire — tell `fire: {…}`, or leave it out [no-such-heat]"


@pytest.mark.parametrize(
    ("heats", "of_day", "of_dish", "expected"),
    [
        (STOVE, "", "stove", []),
        (STOVE, "", "fire", [f"8:56: error: heat: fire, {NO_FIRE}"]),
        (STOVE, "", "embers", [f"8:56: error: heat: embers, {NO_FIRE}"]),
        (f"{STOVE}\nfire: {{allowed: false}}", "", "fire", [f"9:56: error: heat: fire, {NO_FIRE}"]),
        (FIRE, "", "fire", []),
        (FIRE, "", "stove", [f"8:56: error: {NO_STOVE}"]),
        # What the dish tells goes before what the day does.
        (FIRE, "stove", "", [f"7:11: error: {NO_STOVE}"]),
        (FIRE, "stove", "embers", []),
        (STOVE, "stove", "", []),
    ],
)  # fmt: skip
def test_a_dish_is_cooked_on_a_heat_that_is_there(
    heats: str, of_day: str, of_dish: str, expected: list[str], tmp_path: Path
) -> None:
    trip = changed(TRIP, STOVE, heats)
    if of_day:
        trip = changed(trip, "    meals:", f"    heat: {of_day}\n    meals:")
    if of_dish:
        trip = changed(trip, "from: beans-may", f"from: beans-may, heat: {of_dish}")
    found = lines(read(tmp_path, {**GOOD, "trips/tarrow.yaml": trip}))
    assert [each.removeprefix("trips/tarrow.yaml:") for each in found] == expected


@pytest.mark.parametrize(
    ("of_day", "of_dish"), [("", "pot"), ("pot", ""), ("oven", "pot"), ("pot", "oven")]
)
def test_what_is_baked_is_told_a_pot_that_bakes(of_day: str, of_dish: str, tmp_path: Path) -> None:
    oven = "{id: oven, name: Oven, holds: 4 l, mass: 5 kg, material: cast-iron}"
    gear = changed(SMALL["gear/all.yaml"], "pots: [", f"pots: [{oven}, ")
    trip = changed(TRIP, STOVE, "fire: {allowed: true, pots: [pot, oven]}")
    if of_day:
        trip = changed(trip, "    meals:", f"    in: {of_day}\n    meals:")
    if of_dish:
        trip = changed(trip, "from: beans-may", f"from: beans-may, in: {of_dish}")
    files = {**GOOD, "recipes/bean-pot.yaml": BAKED, "trips/tarrow.yaml": trip}
    found = lines(read(tmp_path, files, {**SMALL, "gear/all.yaml": gear}))
    if "oven" in (of_dish or of_day):
        assert found == []
    else:
        at = "8:54" if not of_day else "9:54" if of_dish else "7:9"
        assert found == [
            f"trips/tarrow.yaml:{at}: error: bean-pot is baked in a cast-iron pot, and 'pot' is none — name another one, or leave `in` out [no-pot]"
        ]


def test_a_pot_over_an_allowed_fire_needs_no_stove(tmp_path: Path) -> None:
    trip = changed(TRIP, "stove: {use: burner, pots: [pot]}", "fire: {pots: [pot]}")
    assert lines(read(tmp_path, {**GOOD, "trips/tarrow.yaml": trip})) == []


def test_cold_food_needs_neither_stove_nor_pot(tmp_path: Path) -> None:
    cold = changed(
        BEAN_POT,
        "  - {do: boil, with: [beans, rice], water: 260 ml}\n  - {do: simmer, minutes: 8}\n",
        "  - {do: mix, with: [rice]}\n",
    )
    trip = changed(TRIP, "stove: {use: burner, pots: [pot]}\n", "")
    files = {
        **GOOD,
        "recipes/bean-pot.yaml": changed(cold, "cook_in: pot", "cook_in: none"),
        "trips/tarrow.yaml": trip,
    }
    assert lines(read(tmp_path, files)) == []


def test_a_batch_with_errors_is_not_called_missing_as_well(tmp_path: Path) -> None:
    files = {**GOOD, "batches/beans.yaml": GOOD["batches/beans.yaml"].replace("900 g", "900")}
    found = read(tmp_path, files)
    assert [problem.kind for problem in found.problems] == ["unit-missing"]
    assert (found.content.batches, found.content.trips) == ({}, {})


def test_a_food_with_errors_is_not_called_missing_by_all_who_name_it(tmp_path: Path) -> None:
    broken = "- {id: beans, name: Beans, kind: legumes, state: cooked, per_100g: {water: 90 g}}"
    trip = changed(TRIP, "own_gear: 6 kg", "avoids: beans")
    own = {
        **GOOD,
        "foods/mine.yaml": broken.replace("id: beans", "id: peas"),
        "trips/tarrow.yaml": trip,
    }
    own["recipes/bean-pot.yaml"] = BEAN_POT.replace("food: beans,", "food: peas, id: beans,")
    own["batches/beans.yaml"] = own["batches/beans.yaml"].replace("food: beans", "food: peas")
    own["trips/tarrow.yaml"] = trip.replace("avoids: beans", "avoids: peas").replace(
        "eat: rice", "eat: peas"
    )
    found = read(tmp_path, own)
    assert lines(found) == [
        "foods/mine.yaml:1:33: error: kind cannot be 'legumes' — did you mean legume? [word-unknown]"
    ]
    assert (found.content.recipes, found.content.batches, found.content.trips) == ({}, {}, {})


def test_the_zip_bag_that_all_loose_food_goes_in_must_be_there(tmp_path: Path) -> None:
    found = read(tmp_path, GOOD)
    assert "zip-bag" in found.content.gear.packaging
    bare = read(tmp_path / "bare", GOOD, low=None)
    assert "packaging-unknown" in {problem.kind for problem in bare.problems}


def test_what_is_left_names_only_what_is_there(tmp_path: Path) -> None:
    files = {
        **GOOD,
        "foods/mine.yaml": "- {id: peas, name: Peas, kind: legume, state: dried, source: hearsay, per_100g: {water: 92 g}}",
        "cautions/mine.yaml": "- {id: two-hours, level: note, title: T, text: Eat, sources: [hearsay, own-scales]}",
    }
    found = read(tmp_path, files)
    assert lines(found) == [
        "cautions/mine.yaml:1:63: error: there is no source 'hearsay' — known are: own-scales [source-unknown]",
        "foods/mine.yaml:1:62: error: there is no source 'hearsay' — known are: own-scales [source-unknown]",
    ]
    assert dangling(found.content) == []
    assert found.content.cautions["two-hours"].sources == ("own-scales",)
    assert found.content.foods["peas"].source is None


def test_a_source_of_allergens_that_is_not_there_is_told_at_its_word(tmp_path: Path) -> None:
    peas = "id: peas, name: Peas, kind: legume, state: dried, per_100g: {water: 92 g}"
    sources = "allergen_source: [own-scales, hearsay]"
    found = read(tmp_path, {**GOOD, "foods/mine.yaml": f"- {{{peas}, {sources}}}"})
    assert [
        (each.kind, each.place.column) for each in found.problems if each.severity == "error"
    ] == [("source-unknown", len(f"- {{{peas}, allergen_source: [own-scales, ") + 1)]
    assert found.content.foods["peas"].allergen_source == ("own-scales",)


@pytest.mark.parametrize(
    ("steps", "uses", "kinds"),
    [
        ("[{do: boil, with: [rice], water: 200 ml}, {do: serve}]", "pot", ["no-heat", "no-pot"]),
        ("[{do: simmer, with: [rice], minutes: 5}, {do: serve}]", "pot", ["no-heat", "no-pot"]),
        ("[{do: fry, with: [rice], minutes: 5}, {do: serve}]", "pot", ["no-heat", "no-pot"]),
        (
            "[{do: soak, with: [rice], water: 200 ml, minutes: 5, hot: true}, {do: serve}]",
            "pot",
            ["no-heat", "no-pot"],
        ),
        ("[{do: soak, with: [rice], water: 200 ml, minutes: 5}, {do: serve}]", "none", []),
        ("[{do: mix, with: [rice], water: 200 ml}, {do: serve}]", "none", []),
        ("[{do: press, with: [rice], each_side: 4 min}, {do: serve}]", "iron", ["no-fire"]),
    ],
)
def test_what_is_hot_needs_heat_and_a_pot(
    steps: str, uses: str, kinds: list[str], tmp_path: Path
) -> None:
    recipe = (
        f"id: dish\nname: Dish\nserves: 1\ncook_in: {uses}\n"
        f"uses: [{{food: rice, amount: 80 g}}]\nsteps: {steps}\n"
    )
    trip = (
        "title: Bare\nparty: [{name: Ash}]\ndays:\n"
        "  - {camp_altitude: 640 m, meals: {dinner: [{cook: dish}]}}\n"
    )
    found = read(tmp_path, {"recipes/dish.yaml": recipe, "trips/bare.yaml": trip})
    assert [each.kind for each in found.problems if each.severity == "error"] == kinds
    assert ("bare" in found.content.trips) is (not kinds)


def test_a_batch_in_unknown_packaging_takes_its_trip_along_and_is_told_once(tmp_path: Path) -> None:
    batch = changed(BEANS_IN_MAY, "in: zip-bag", "in: sack")
    found = read(tmp_path, {**GOOD, "batches/beans.yaml": batch})
    (said,) = lines(found)
    assert said.startswith("batches/beans.yaml:7:23: error: there is no packaging 'sack'")
    assert found.content.batches == {} and found.content.trips == {}


def test_a_batch_of_another_food_spoils_the_trip_that_names_it(tmp_path: Path) -> None:
    batch = changed(BEANS_IN_MAY, "food: beans", "food: rice")
    found = read(tmp_path, {**GOOD, "batches/beans.yaml": batch})
    (said,) = lines(found)
    assert "batch 'beans-may' holds 'rice', not 'beans' — no batch holds 'beans'" in said
    assert set(found.content.batches) == {"beans-may"} and found.content.trips == {}


def test_a_dryer_of_another_way_without_a_fitting_one_is_left_out(tmp_path: Path) -> None:
    dryers = "dryers: [{id: cold, name: Cold, method: freeze-dryer, load: 3 kg, hours: 30}]"
    batch = BEANS_IN_MAY + "dryer: cold\n"
    found = read(tmp_path, {"batches/b.yaml": batch, "gear/d.yaml": dryers})
    assert lines(found) == [
        "batches/b.yaml:8:8: error: cold is a freeze-dryer, and this batch says "
        "`method: dehydrator` — leave `dryer` out [dryer-method]"
    ]
    assert found.content.batches == {}
