# ruff: noqa: E501 - the lines that people read stand whole
"""What a trip tells and this version does not use yet: checked, kept, told once, never planned wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.meal_times import MealTimes
from builder.model.place import Place
from builder.model.review import LeftOver, Review, Took, WaterUsed
from builder.model.trip import Depot, Trip
from builder.reading.notes import Notes
from tests.reading.folder_builder import GOOD, TRIP, changed, lines, read

ASH = "{name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}"
REVIEW = """\
review:
  fuel_used: 310 g
  wood_used: 6 kg
  water: [{day: 1, used: 9 l}]
  left: [{day: 1, meal: dinner, recipe: bean-pot, share: 20 %}, {food: rice, mass: 120 g}]
  back: {beans-may: 1}
  took: [{recipe: bean-pot, minutes: 34}]
  marks: {bean-pot: 4}
  notes: Too salty.
"""


def folder_lines(folder: Path, text: str) -> list[str]:
    return lines(read(folder, {**GOOD, "trips/tarrow.yaml": text}))


def trip_of(folder: Path, text: str) -> Trip:
    found = read(folder, {**GOOD, "trips/tarrow.yaml": text})
    assert [str(each) for each in found.problems if each.severity == "error"] == []
    return found.content.trips["tarrow"]


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("depots", "depots: [{camp: 1, holds: [1]}]\n", (Depot(1, (1,)),)),
        ("together", "together: [[stove, pot]]\n", (("stove", "pot"),)),
        ("utc_h", "utc: +2\n", 2.0),
        ("times", 'times: {lunch: "13:00"}\n', MealTimes(450, 780, 1110)),
    ],
)
def test_a_key_of_the_trip_that_is_used_is_told_nothing_of(
    key: str, text: str, value: object, tmp_path: Path
) -> None:
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": text + TRIP})
    assert lines(found) == []
    assert getattr(found.content.trips["tarrow"], key) == value


def test_keys_of_days_and_dishes_and_shared_things_are_kept(tmp_path: Path) -> None:
    text = changed(
        TRIP,
        "  - camp_altitude: 640 m\n",
        "  - camp_altitude: 640 m\n    at: [57.0, -2.5]\n    heat: stove\n    in: pot\n",
    )
    text = changed(text, "from: beans-may", "from: beans-may, heat: fire, in: pot, carried_by: Ash")
    text = changed(
        text,
        "days:",
        "gear_shared: [{name: Tarp, mass: 780 g, carried_by: Ash}]\nfire: {allowed: true}\ndays:",
    )
    trip = trip_of(tmp_path, text)
    (day,) = trip.days
    item = day.meals[0].items[0]
    assert (day.camp.at_deg, day.heat, day.pot) == ((57.0, -2.5), "stove", "pot")
    assert (item.heat, item.pot, item.carried_by) == ("fire", "pot", "Ash")
    assert trip.gear_shared[0].carried_by == "Ash"


def test_a_review_is_kept(tmp_path: Path) -> None:
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": TRIP + REVIEW})
    assert found.problems == ()
    assert found.content.trips["tarrow"].review == Review(
        fuel_used_g=310,
        wood_used_g=6000,
        water=(WaterUsed(1, 9000),),
        left=(
            LeftOver(recipe="bean-pot", day=1, meal="dinner", share=0.2),
            LeftOver(food="rice", mass_g=120),
        ),
        back=(("beans-may", 1),),
        took=(Took("bean-pot", 34),),
        marks=(("bean-pot", 4),),
        notes="Too salty.",
    )


SHEET = """\
review:
  fuel_used:
  water: [{day: 1, used: }]
  left:
    - {day: 1, meal: dinner, recipe: bean-pot, share: }
    - {food: rice, mass: 120 g}
  took: [{recipe: bean-pot, minutes: }]
  marks: {bean-pot: }
  notes:
"""


def test_blanks_of_a_sheet_are_not_told(tmp_path: Path) -> None:
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": TRIP + SHEET})
    assert found.problems == ()
    trip = found.content.trips["tarrow"]
    assert trip.review == Review(left=(LeftOver(food="rice", mass_g=120),))
    # Nothing at all filled in is nothing told; that nothing was left has to be said.
    empty = changed(SHEET, "    - {food: rice, mass: 120 g}\n", "")
    found = read(tmp_path / "empty", {**GOOD, "trips/tarrow.yaml": TRIP + empty})
    review = found.content.trips["tarrow"].review
    assert review == Review() and not review.is_told
    none = changed(empty, "    - {day: 1, meal: dinner, recipe: bean-pot, share: }\n", "    []\n")
    found = read(tmp_path / "none", {**GOOD, "trips/tarrow.yaml": TRIP + none})
    assert found.content.trips["tarrow"].review == Review(left=())


@pytest.mark.parametrize(
    ("lines_of", "said"),
    [
        ((7, 8), "; it stands 2 times, also at trips/tarrow.yaml:8:1"),
        ((7, 7), ""),  # an anchor leads to one place twice
    ],
)
def test_each_place_of_a_key_of_no_use_yet_is_said_once(
    lines_of: tuple[int, ...], said: str
) -> None:
    notes = Notes()
    for line in lines_of:
        notes.not_used_yet("day", "at", Place("trips/tarrow.yaml", line, 1))
    (found,) = notes.unused("trips/")
    assert found.says == (
        f"`at` of a day is read and kept, but this version does not use it yet{said}"
    )
    assert found.place.line == 7


WRONG = (
    ("days:", "depots: [{camp: 2, holds: [1]}]\ndays:", "5:17", "this trip has no day 2", "write a day from 1 to 1 [day-unknown]"),
    ("days:", "together: [[stove]]\ndays:", "5:12", "one thing alone is carried together with nothing", "write two or more in it, such as `[stove, pot-2l]` [together]"),
    ("days:", "times: {lunch: noon}\ndays:", "5:16", "lunch: 'noon' is no time of the day", 'write it in quotes, as `lunch: "18:30"` [clock]'),
    ("days:", "utc: 15\ndays:", "5:6", "utc: '15' is no offset of the local time", "write hours from -12 to +14, as `utc: +2` [utc]"),
    ("- camp_altitude: 640 m", "- camp_altitude: 640 m\n    at: [91, 0]", "7:9", "at cannot be '91'", "write a number from -90 to 90 [out-of-range]"),
    ("- camp_altitude: 640 m", "- camp_altitude: 640 m\n    at: here", "7:9", "at must be latitude and longitude, found 'here'", "write it as `at: [57.0, 2.5]` [position]"),
    ("each: 30 g", "each: 30 g, carried_by: Rowan", "9:51", "nobody in the party is called 'Rowan'", "known are: Ash [person-unknown]"),
    ("each: 30 g", "each: 30 g, for: [not xyz]", "9:45", "'xyz' is no diet, allergen, kind of food or food", "write `not vegetarian`, or `not nuts` [avoids-unknown]"),
    ("use: burner", "use: [burner, other]", "4:23", "there is no stove 'other'", "known are: burner [stove-unknown]"),
    ("days:", "review: {water: [{day: 3, used: 9 l}]}\ndays:", "5:24", "this trip has no day 3", "write a day from 1 to 1 [day-unknown]"),
    ("days:", "review: {back: {beans-june: 1}}\ndays:", "5:17", "there is no batch 'beans-june'", "did you mean beans-may? [batch-unknown]"),
    ("days:", "review: {marks: {bean-pt: 4}}\ndays:", "5:18", "there is no recipe 'bean-pt'", "did you mean bean-pot? [recipe-unknown]"),
    ("days:", "review: {marks: {bean-pot: 6}}\ndays:", "5:28", "marks cannot be '6'", "write a number from 1 to 5 [out-of-range]"),
    ("days:", "review: {left: [{food: rices, share: 5 %}]}\ndays:", "5:24", "there is no food 'rices'", "did you mean rice? [food-unknown]"),
    ("days:", "review: {left: [{food: rice}]}\ndays:", "5:17", "what was left tells neither `share` nor `mass`", "write `share: 20 %`, or `mass: 120 g` [left-how-much]"),
)  # fmt: skip


@pytest.mark.parametrize(("old", "new", "at", "says", "mend"), WRONG)
def test_what_is_wrong_in_it_is_told(
    old: str, new: str, at: str, says: str, mend: str, tmp_path: Path
) -> None:
    found = folder_lines(tmp_path, changed(TRIP, old, new))
    assert [line for line in found if "[not-used-yet]" not in line] == [
        f"trips/tarrow.yaml:{at}: error: {says} — {mend}"
    ]


@pytest.mark.parametrize("told", [["burner"], ["burner", "burner"]])
def test_one_stove_may_stand_in_a_list_and_two_that_are_alike(
    told: list[str], tmp_path: Path
) -> None:
    several = changed(TRIP, "use: burner", f"use: [{', '.join(told)}]")
    assert trip_of(tmp_path, several).stoves == tuple(told)


@pytest.mark.parametrize(
    ("written", "cooked"), [("open", 0), ("[open]", 0), ("[{cook: bean-pot}, open]", 1)]
)
def test_a_meal_may_be_left_open(written: str, cooked: int, tmp_path: Path) -> None:
    text = changed(TRIP, "[{cook: bean-pot, from: beans-may}]", written)
    (day,) = trip_of(tmp_path, text).days
    assert day.open_meals == ("dinner",)
    assert [(len(meal.items), meal.is_open) for meal in day.meals] == [(cooked, True), (1, False)]


def test_a_meal_is_left_open_once(tmp_path: Path) -> None:
    text = changed(TRIP, "[{cook: bean-pot, from: beans-may}]", "[open, open]")
    assert folder_lines(tmp_path, text) == [
        "trips/tarrow.yaml:8:15: error: one meal is left open twice — write `open` once: it is one "
        "dish [open-twice]"
    ]


def test_an_open_meal_feeds_all_but_who_goes_without(tmp_path: Path) -> None:
    """Nobody is told to starve for a meal that is not chosen yet."""
    text = changed(TRIP, "[{cook: bean-pot, from: beans-may}]", "open")
    text = changed(text, "own_gear: 6 kg}", "own_gear: 6 kg}\n  - {name: Wren, carries_to: 9 kg}")
    text = changed(text, "each: 30 g", "each: 30 g, for: [Ash]")
    assert not [line for line in folder_lines(tmp_path, text) if "not-fed" in line]
    without = changed(text, "    meals:", "    without: {dinner: [Wren]}\n    meals:")
    assert [line for line in folder_lines(tmp_path, without) if "not-fed" in line]


@pytest.mark.parametrize(
    ("recipe", "food"), [("from: auto", ("",)), ("from: {beans: auto}", ("beans",))]
)
def test_packs_that_the_tool_is_to_choose_are_as_if_no_batch_was_named(
    recipe: str, food: tuple[str, ...], tmp_path: Path
) -> None:
    text = changed(TRIP, "from: beans-may", recipe)
    (item,) = trip_of(tmp_path, text).days[0].meals[0].items
    assert (item.batches, item.chosen) == ((), food)
    assert folder_lines(tmp_path, text) == []


@pytest.mark.parametrize(
    ("wanted", "eaters"),
    [
        ("[not vegetarian]", ("Ash", "Bram")),  # vegans neither
        ("[not vegan]", ("Ash", "Rowan", "Bram")),
        ("[not nuts]", ("Ash", "Rowan", "Wren")),
        ("[not nuts, not vegan]", ("Ash", "Rowan")),
        ("[not vegetarian, Wren]", ("Ash", "Bram", "Wren")),
        ("not rice", ("Ash", "Rowan", "Bram", "Wren")),
    ],
)
def test_who_avoids_it_is_left_out(wanted: str, eaters: tuple[str, ...], tmp_path: Path) -> None:
    party = (
        "[{name: Ash}, {name: Rowan, avoids: vegetarian}, {name: Bram, avoids: [nuts]}, "
        "{name: Wren, avoids: [vegan]}]"
    )
    text = changed(TRIP, f"\n  - {ASH}", f" {party}")
    text = changed(text, "each: 30 g", f"each: 30 g, for: {wanted}")
    assert trip_of(tmp_path, text).days[0].meals[1].items[0].eaters == eaters


def test_what_all_avoid_feeds_nobody(tmp_path: Path) -> None:
    text = changed(TRIP, "own_gear: 6 kg}", "own_gear: 6 kg, avoids: [vegan]}")
    text = changed(text, "each: 30 g", "each: 30 g, for: not vegetarian")
    assert folder_lines(tmp_path, text) == [
        "trips/tarrow.yaml:9:44: error: nobody eats this — name somebody, or leave `for` out: then all eat [empty]"
    ]
