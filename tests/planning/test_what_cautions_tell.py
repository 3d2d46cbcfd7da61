"""What each caution tells, where and how gravely, on a trip of two days, worked out on paper.

The first day is the usual one. On the second somebody eats nuts before what brings the caution up,
so that neither the first day nor the first meal can be told by mistake.
"""

from __future__ import annotations

import copy
from pathlib import Path

import pytest

from builder.model.kit import NOWHERE, Spot
from builder.planning.cautions.table import PREDICATES

from .caution_cases import Folder
from .every_caution import EVERY
from .folders import day, hand

# caution, level, page, where one must act, reason
TOLD: list[tuple[str, str, str, Spot, str]] = [
    ("not-to-be-eaten", "danger", "day-1", Spot((1, 0), person="Ea"),
     "Ea must not eat kernel-nut (day 1, snacks): tree nuts."),
    ("not-to-be-eaten", "danger", "day-2", Spot((2, 1), person="Ea"),
     "Ea must not eat kernel-nut (day 2, snacks): tree nuts."),
    ("raw-dried-animal-food", "danger", "cook/dish", Spot((2, 1), 0, batch="batch", pack="food"),
     "steak-raw, dried raw (batch batch) in dish (day 2, dinner): cook it until the middle "
     "reaches 74\u00a0°C."),
    ("raw-animal-food", "danger", "cook/dish", Spot((2, 1), 0, pack="food"),
     "egg-raw in dish (day 2, dinner) is carried raw."),
    ("jerky-not-heated", "danger", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (steak-raw, dried raw) was dried raw by heat, and no heat step is noted that"
     " makes it safe."),
    ("raw-loose-dried", "danger", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (hen-raw, dried raw) was dried raw by heat, and no heat step is noted that "
     "makes it safe."),
    ("low-oxygen-wet", "danger", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (berry, dried) is packed with an absorber; 20\u00a0% to 41\u00a0% moisture "
     "is left in it."),
    ("low-oxygen-meat", "care", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (lean-meat, cooked and dried) is heat-dried meat or fish, packed in a vacuum"
     " bag."),
    ("low-oxygen-moist", "note", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (berry, dried) is packed with an absorber; 0\u00a0% to 24\u00a0% moisture is"
     " left in it."),
    ("not-dry-enough", "danger", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (leaf, dried) weighs 145\u00a0g, dry at 111\u00a0g: at least 10\u00a0% "
     "moisture is left, 10\u00a0% would do."),
    ("dry-it-on", "danger", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (leaf, dried) weighs 167\u00a0g, dry at 111\u00a0g: at least 22\u00a0% "
     "moisture is left, 10\u00a0% would do."),
    ("not-dried-yet", "care", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (leaf, dried) is to be dry on 10\u00a0Jan 2031."),
    ("sun-dried-meat", "danger", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (lean-meat, cooked and sun-dried) was dried in the sun."),
    ("no-best-before", "danger", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (egg-raw, dried raw) is raw egg dried by heat."),
    ("egg-and-dairy-by-heat", "care", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (egg-cooked, cooked and oven-dried) was dried by heat."),
    ("past-best-before", "care", "day-2", Spot((2, 1), batch="batch", pack="food"),
     "berry, dried (day 2, snacks): batch batch was best before 1\u00a0Jan 2032."),
    ("dryness-not-proven", "care", "drying", Spot(batch="batch", days=(2,)),
     "Batch batch (leaf, dried) is packed with an absorber; 0\u00a0% to 33\u00a0% moisture is "
     "left in it."),
    ("kidney-beans", "danger", "cook/dish", Spot((2, 1), 0, pack="food"),
     "bean-raw in dish (day 2, dinner): by the recipe soaked for 0\u00a0min and boiled hard "
     "for 0\u00a0min. They want 5\u00a0h and 10\u00a0min."),
    ("not-cooked", "danger", "cook/dish", Spot((2, 1), 0, pack="food"),
     "lentil in dish (day 2, dinner)."),
    ("wild-mushrooms", "danger", "cook/dish", Spot((2, 1), 0, pack="food"),
     "found-mushroom in dish (day 2, dinner)."),
    ("honey-and-babies", "danger", "day-2", Spot((2, 1)),
     "There is honey in sweet (day 2, snacks), and Ea is nursing."),
    ("nuts-and-small-children", "danger", "day-1", Spot((1, 0), person="Ea"),
     "kernel-nut (day 1, snacks), and Ea is 4.9."),
    ("nuts-and-small-children", "danger", "day-2", Spot((2, 1), person="Ea"),
     "kernel-nut (day 2, snacks), and Ea is 4.9."),
    ("small-children", "care", "cautions", Spot(person="Ea"),
     "Ea is 4.9."),
    ("older-people", "care", "cautions", Spot(person="Ea"),
     "Ea is 65."),
    ("pregnancy", "care", "cautions", Spot(person="Ea"),
     "Ea is pregnant."),
    ("two-hours", "care", "cautions", NOWHERE,
     "Food is soaked or cooked on day 2."),
    ("leftovers", "note", "cautions", NOWHERE,
     "Meals are cooked on day 2."),
    ("clean-hands", "care", "cautions", NOWHERE,
     "You handle food for others on this trip."),
    ("carbon-monoxide", "danger", "fuel", NOWHERE,
     "You sleep in a tent and cook on a stove."),
    ("fire-and-embers", "danger", "fuel", Spot(days=(2,)),
     "A wood fire burns on day 2."),
    ("fire-and-embers", "danger", "fuel", Spot(days=(2,)),
     "Nobody wrote down whether a fire is allowed on day 2."),
    ("hot-fat", "care", "cook/dish", Spot((2, 1), 0),
     "You fry dish (day 2, dinner)."),
    ("hot-iron", "care", "cook/dish", Spot((2, 1), 0),
     "You cook dish (day 2, dinner) in an iron."),
    ("gas-in-the-cold", "care", "fuel", Spot(days=(2,)),
     "On day 2 the air falls to −15\u00a0°C, and Gas gives little pressure then."),
    ("gas-and-heat", "danger", "fuel", Spot(pack="fuel"),
     "You carry Gas."),
    ("windscreen-and-gas", "danger", "fuel", Spot(days=(2,)),
     "Wind is expected on day 2."),
    ("refuelling", "danger", "fuel", Spot(pack="fuel"),
     "You carry Alcohol."),
    ("untreated-water", "danger", "water", Spot(days=(2,)),
     "Nobody planned to treat the water of day 2."),
    ("filter-limits", "care", "water", Spot(days=(1, 2)),
     "Water is filtered on days 1 and 2."),
    ("chemical-limits", "care", "water", Spot(days=(2,)),
     "Water is treated with drops or tablets on day 2."),
    ("boil-water", "note", "water", Spot(days=(2,)),
     "Water is boiled on day 2."),
    ("frozen-filter", "danger", "water", Spot(days=(2,)),
     "Frost is expected on day 2."),
    ("weather-not-told", "care", "fuel", Spot(days=(2,)),
     "Nobody wrote down how cold it gets on day 2; 5\u00a0°C is taken."),
    ("long-dry-stretch", "care", "day-2", Spot(days=(2,)),
     "Day 2: 4\u00a0h without water. Carry 4\u00a0l between you."),
    ("melting-snow", "care", "water", Spot(days=(2,)),
     "Snow is melted on day 2: up to 27\u00a0min a day at full flame."),
    ("over-drinking", "note", "water", Spot(days=(2,)),
     "The plan gives 750\u00a0ml an hour or more on day 2."),
    ("animals-and-food", "care", "cautions", Spot(days=(1, 2)),
     "You camp with food on days 1 and 2."),
    ("dishwater", "note", "water", Spot(days=(2,)),
     "You wash up on day 2."),
    ("heavy-load", "care", "carry", Spot(person="Ea"),
     "Ea would carry 5.78\u00a0kg and said 5.71\u00a0kg."),
    ("energy-short", "care", "food", NOWHERE,
     "The menu gives 2,019\u00a0kcal, these days take 3,688\u00a0kcal (55\u00a0%)."),
    ("energy-short-day", "care", "day-1", Spot(days=(1,)),
     "Day 1 gives 300\u00a0kcal and takes 1,844\u00a0kcal (16\u00a0%)."),
    ("raw-animal-food-eaten", "danger", "day-2", Spot((2, 1), pack="food"),
     "steak-raw (day 2, snacks) is raw, and is eaten as it is."),
    ("game-not-heated", "danger", "day-2", Spot((2, 1), pack="food"),
     "bear-ham-cured (day 2, snacks) is not cooked; it must reach 74\u00a0°C"
     " in the middle."),
    ("freshwater-fish-not-heated", "danger", "day-2", Spot((2, 1), pack="food"),
     "pike-cured (day 2, snacks) is not cooked; it must reach 63\u00a0°C in the "
     "middle."),
    ("raw-and-cooked-in-one-run", "danger", "drying", Spot(batch="berries", days=(2,)),
     "Batch berries (berry, dried) shared the dryer with raw food: Batch hens (hen-raw, dried "
     "raw)."),
    ("overloaded-dryer", "care", "drying", Spot(batch="berries"),
     "Batch berries (berry, dried): 3\u00a0kg at once in Shelf, which takes 3\u00a0kg."),
    ("sun-dried-vegetables", "care", "drying", Spot(batch="berries", days=(2,)),
     "Batch berries (leaf, sun-dried) was dried in the sun."),
    ("reach-above-boiling", "care", "cook/dish", Spot((2, 1), 0),
     "dish (day 2, dinner) is to reach 94\u00a0°C in the middle, and water boils at 93\u00a0°C"
     " there."),
    ("wild-plants", "danger", "cook/dish", Spot((2, 1), 0, pack="food"),
     "nettle-leaves in dish (day 2, dinner)."),
    ("gathered-shellfish", "danger", "cook/dish", Spot((2, 1), 0, pack="food"),
     "mussels in dish (day 2, dinner)."),
    ("garlic-in-oil", "danger", "day-2", Spot((2, 1), pack="food"),
     "garlic-oil (day 2, snacks)."),
    ("raw-sprouts", "care", "day-2", Spot((2, 1), pack="food"),
     "mung-sprouts (day 2, snacks)."),
    ("home-canned", "danger", "cook/dish", Spot((2, 1), 0, pack="food"),
     "home-beans in dish (day 2, dinner) is boiled for 0\u00a0min. At 1,000\u00a0m it wants "
     "13\u00a0min."),
    ("animal-food-carried-warm", "danger", "day-2", Spot((2, 1), pack="food"),
     "brie (day 2, lunch) is carried for 29\u00a0h. In air of 20\u00a0°C it bears "
     "2\u00a0h out of the cold."),
    ("depot", "care", "carry", Spot(days=(1,)), "Food of day 1 waits at the camp of day 1."),
    ("plant-food-carried-warm", "care", "day-2", Spot((2, 1), pack="food"),
     "pulse (day 2, lunch) is carried for 29\u00a0h. In air of 20\u00a0°C it bears "
     "2\u00a0h out of the cold."),
    ("boil-longer", "care", "water", Spot(days=(2,)),
     "The camp lies at up to 2,001\u00a0m on day 2."),
    ("algae", "care", "water", Spot(days=(1,)), "The lake at the start camp is at 15\u00a0°C."),
    ("chemicals-near", "danger", "water", Spot(days=(1,)),
     "Mines lie near the water of the start camp."),
    ("thin-air", "care", "day-2", Spot(days=(2,)),
     "You sleep at up to 2,501\u00a0m on day 2."),
    ("height-gained-fast", "danger", "day-2", Spot(days=(2,)),
     "Day 2: you sleep at 3,001\u00a0m, and at 1,000\u00a0m the night before."),
    ("infant-formula", "danger", "day-2", Spot((2, 1), pack="food"),
     "infant-milk (day 2, snacks)."),
    ("heat-illness", "care", "water", Spot(days=(2,)),
     "The air reaches up to 30\u00a0°C on day 2."),
    ("hut-flue", "note", "fuel", NOWHERE,
     "You sleep in a hut and cook on a stove."),
    ("gas-left-in-the-can", "note", "fuel", Spot(days=(2,)),
     "On day 2 the air falls to 0\u00a0°C: about 51\u00a0% of a full canister of Gas stays in it."),
    ("fuel-too-cold", "care", "fuel", Spot(days=(1, 2)),
     "Alcohol lights from 38\u00a0°C on, and the air falls to 5\u00a0°C (days 1 and 2)."),
    ("may-contain", "care", "shopping", Spot(person="Ea"),
     "Ea avoids tree nuts. Traces may be in: traces."),
    ("allergen-beside", "care", "cautions", Spot(person="Ea"),
     "Ea must not eat tree nuts. Others eat: sure."),
    ("start-not-told", "care", "drying", NOWHERE,
     "Nobody wrote down when the trip starts. The first pack is best before "
     "1\u00a0Feb 2031."),
    ("allergens-not-told", "care", "shopping", Spot(person="Ea"),
     "Ea avoids tree nuts. Nobody told if that is in: kernel-nut; untold."),
    ("alcohol", "danger", "day-2", Spot((2, 1), person="Ea"),
     "punch (day 2, snacks), and Ea is pregnant."),
    ("liver", "danger", "day-2", Spot((2, 1), person="Ea"),
     "spread-of-it (day 2, snacks), and Ea is pregnant."),
    ("raw-milk-and-soft-cheese", "danger", "day-2", Spot((2, 1), person="Ea"),
     "ripe-cheese (day 2, snacks), and Ea is pregnant."),
    ("cured-raw", "danger", "day-2", Spot((2, 1), person="Ea"),
     "sausage-dry (day 2, snacks), and Ea is pregnant."),
    ("raw-fish", "danger", "day-2", Spot((2, 1), person="Ea"),
     "cold-fillet (day 2, snacks), and Ea is pregnant."),
    ("choking", "care", "day-2", Spot((2, 1), person="Ea"),
     "hard-bits (day 2, snacks), and Ea is 4.9."),
    ("caffeine", "care", "day-2", Spot(person="Ea", days=(2,)),
     "Ea is pregnant, and day 2 gives 200\u00a0mg of caffeine: 200\u00a0mg would do."),
    ("animal-food-standing", "danger", "cook/dish", Spot((2, 1), 0),
     "lean-meat, cooked and dried in dish (day 2, dinner) stands wet for 1\u00a0h 1\u00a0min. "
     "In air of 32\u00a0°C wet food keeps 1\u00a0h."),
    ("plant-food-standing", "care", "cook/dish", Spot((2, 1), 0),
     "pulse, cooked and dried in dish (day 2, dinner) stands wet for 2\u00a0h 1\u00a0min. "
     "In air of 20\u00a0°C wet food keeps 2\u00a0h."),
    ("animal-food-past-best-before", "danger", "day-2", Spot((2, 1), batch="batch", pack="food"),
     "lean-meat, cooked and dried (day 2, snacks): batch batch was best before 1\u00a0Feb 2031."),
]  # fmt: skip


def a_day_later(folder: Folder) -> Folder:
    """Give the same trip with a usual day before it, and nuts before its meals."""
    folder = copy.deepcopy(folder)
    trip = folder["trip"]
    (own,) = trip["days"]
    last = trip["party"][-1]["name"]
    nuts = {"eat": "kernel-nut", "each": "10 g", "for": [last]}
    own["meals"] = {"breakfast": [nuts], **own["meals"]}
    trip["days"] = [day(), own]
    return folder


@pytest.mark.parametrize("name", dict.fromkeys(row[0] for row in TOLD))
def test_a_caution_tells_what_where_and_how_gravely(tmp_path: Path, name: str) -> None:
    shown = EVERY[name]
    kit = hand(tmp_path, foods=shown.foods, **a_day_later(shown.folder)).kit()
    found = [
        (each.id, each.level, each.where, each.at, each.because)
        for each in kit.cautions
        if each.id == name
    ]
    assert found == [row for row in TOLD if row[0] == name]


def test_each_caution_has_its_row() -> None:
    assert {row[0] for row in TOLD} == set(PREDICATES)
