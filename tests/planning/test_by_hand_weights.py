"""Packaging, loads, who carries what, packs of the stock and the shopping list, by hand."""

from __future__ import annotations

import datetime
import itertools
from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Kit
from builder.planning.carrying.sharing import share_out
from builder.problems import ProblemsFound

from .folders import Record, batch_of, boils_c, day, day_of, day_trip, hand, meal_of, uses

NEAR = pytest.approx
EXACT = 1e-6

NO_WATER = {"camp": "stream", "treat": "filter", "between_water": "0 h"}
# Long enough for a stretch without water; nobody carries any on a day of rest.
WAY = {"by": "paddling", "hours": 3}


def batch(name: str, holds: str, fresh_g: float, dried_g: float, count: int, **more: Any) -> Record:
    """Give a heat-dried batch of so many packs in foil."""
    packs = {"count": count, "in": more.pop("packaging", "foil")}
    own = {
        "id": name,
        "food": holds,
        "method": "dehydrator",
        "done": "2031-01-01",
        "fresh": f"{fresh_g} g",
        "dried": f"{dried_g} g",
        "packs": packs,
    }
    return {**own, **more}


def dish(**amounts: str) -> Record:
    """Give a recipe for one that is soaked and eaten cold."""
    lines = uses(**amounts)
    names = [line["food"] for line in lines]
    return {
        "id": "dish",
        "serves": 1,
        "cook_in": "none",
        "uses": lines,
        "steps": [{"do": "soak", "with": names, "water": "100 ml", "minutes": 20}],
    }


# -- packaging --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("amount_g", "packs"),
    [
        (50, 1),  # 100 g for two, and a pack holds 430 / 4 = 107.5 g
        (53.75, 1),  # 107.5 g, just one
        (53.8, 2),
        (107.5, 2),
        (150, 3),
    ],
)
def test_packs_of_a_batch_and_one_bag_for_the_rest(
    tmp_path: Path, amount_g: float, packs: int
) -> None:
    recipe = dish(pulse=f"{amount_g} g dehydrator", kernel="40 g", oil="5 g")
    trip = day_trip(days=[day({"dinner": [{"cook": "dish", "from": "spring"}]})])
    spring = batch("spring", "pulse", 1000, 430, 4)
    kit = hand(tmp_path, trip, [recipe], [spring]).kit()
    meal = meal_of(kit)
    assert meal.ingredients[0].packs == packs
    assert meal.packaging_g == NEAR(packs * 10 + 7, rel=EXACT)  # foil 10 g, zip bag 7 g
    assert batch_of(kit, "spring").packs_used == packs
    assert batch_of(kit, "spring").packs_left == 4 - packs
    assert batch_of(kit, "spring").pack_g == NEAR(107.5, rel=EXACT)


def test_two_lines_of_a_meal_share_the_packs_of_one_batch(tmp_path: Path) -> None:
    recipe = {
        "id": "dish", "serves": 1, "cook_in": "none",
        "uses": [
            {"id": "base", "food": "pulse", "amount": "30 g", "dried_by": "dehydrator"},
            {"id": "topping", "food": "pulse", "amount": "20 g", "dried_by": "dehydrator"},
        ],
        "steps": [{"do": "soak", "with": ["base", "topping"], "water": "9 ml", "minutes": 9}],
    }  # fmt: skip
    both = {"base": "spring", "topping": "spring"}
    trip = day_trip(days=[day({"dinner": [{"cook": "dish", "from": both}]})])
    spring = batch("spring", "pulse", 1000, 430, 4)
    kit = hand(tmp_path, trip, [recipe], [spring]).kit()
    # 60 and 40 g of 107.5 g: one pack for both.
    assert [each.packs for each in meal_of(kit).ingredients] == [1, 0]
    assert meal_of(kit).packaging_g == 10
    assert batch_of(kit, "spring").packs_used == 1


def test_a_meal_of_packs_alone_needs_no_bag(tmp_path: Path) -> None:
    trip = day_trip(days=[day({"snacks": [{"eat": "berry", "from": "rings", "each": "25 g"}]})])
    rings = batch("rings", "berry", 2000, 480, 12, packaging="jar")
    kit = hand(tmp_path, trip, None, [rings]).kit()
    assert meal_of(kit).packaging_g == NEAR(2 * 250, rel=EXACT)  # 50 g of 40 g jars


def test_each_thing_cooked_or_eaten_is_a_meal_of_its_own(tmp_path: Path) -> None:
    eat = {
        "snacks": [
            {"eat": "berry", "from": "rings", "each": "25 g", "for": ["Ea"]},
            {"eat": "berry", "from": "rings", "each": "25 g", "for": ["Bo"]},
            {"eat": "kernel-nut", "each": "30 g"},
            {"eat": "hard-cheese", "each": "30 g"},
        ]
    }
    rings = batch("rings", "berry", 2000, 480, 12)  # 40 g a pack
    kit = hand(tmp_path, day_trip(days=[day(eat)]), None, [rings]).kit()
    assert [meal.packaging_g for meal in day_of(kit).meals] == [10, 10, 7, 7]
    assert batch_of(kit, "rings").packs_used == 2  # 25 g are a pack, twice
    # What is eaten counts, not what the packs hold.
    assert kit.weights.food_g == NEAR(25 + 25 + 60 + 60, rel=EXACT)
    assert kit.weights.packaging_g == NEAR(34, rel=EXACT)


@pytest.mark.parametrize(
    ("packaging", "packs", "packaging_g"),
    [
        ("jar", [1, 1, 0], [250, 250, 0]),  # 25, 25 and 25 g out of packs of 40 g
        ("zip", [1, 1, 0], [6, 6, 0]),
        ("foil", [1, 1, 1], [10, 10, 10]),  # torn open: one meal's
    ],
)
def test_what_reseals_lasts_over_the_meals_of_the_trip(
    tmp_path: Path, packaging: str, packs: list[int], packaging_g: list[float]
) -> None:
    eat = {"snacks": [{"eat": "berry", "from": "rings", "each": "25 g", "for": ["Ea"]}]}
    rings = batch("rings", "berry", 2000, 480, 12, packaging=packaging)
    kit = hand(tmp_path, day_trip(days=[day(eat) for _ in range(3)]), None, [rings]).kit()
    meals = [one.meals[0] for one in kit.days]
    assert [meal.ingredients[0].packs for meal in meals] == packs
    assert [meal.packaging_g for meal in meals] == packaging_g
    assert batch_of(kit, "rings").packs_used == sum(packs)


def test_a_batch_kept_loose_goes_in_the_bag(tmp_path: Path) -> None:
    trip = day_trip(days=[day({"dinner": [{"cook": "dish", "from": "loose"}]})])
    loose = {**batch("loose", "pulse", 1000, 430, 1), "packs": None}
    kit = hand(tmp_path, trip, [dish(pulse="50 g dehydrator")], [loose]).kit()
    assert meal_of(kit).packaging_g == 7


# -- all weights ------------------------------------------------------------------------------


def test_all_that_is_carried(tmp_path: Path) -> None:
    recipe = {
        **dish(kernel="100 g"),
        "cook_in": "pot",
        "steps": [{"do": "boil", "with": ["kernel"], "water": "200 ml"}],
    }
    days = [
        day({"dinner": [{"cook": "dish"}], "snacks": [{"eat": "oil", "each": "20 g"}]}, travel=WAY),
        day({"dinner": [{"cook": "dish"}]}, water=NO_WATER),
    ]
    gear = [{"name": "Tarp", "mass": "780 g"}, {"name": "Map", "mass": "60 g"}]
    trip = day_trip(days=days, gear_shared=gear, fire={"irons": ["one-iron"]})
    kit = hand(tmp_path, trip, [recipe]).kit()
    weights = kit.weights
    assert weights.food_g == NEAR(200 + 40 + 200, rel=EXACT)
    assert weights.packaging_g == NEAR(3 * 7, rel=EXACT)
    assert weights.gear_g == NEAR(100 + 200 + 400 + 1500 + 780 + 60, rel=EXACT)
    assert weights.water_most_g == NEAR(2 * 1000, rel=EXACT)  # 2 h of 500 + 500 ml
    # Boiling 400 ml and 0.4 · 200 g in the small pot, 46 MJ/kg at 50 %.
    warm = boils_c(1000) - 10
    day_g = (0.480 * 4.186 + 0.2 * 0.897) * warm / 0.5 / 46
    assert 2 * day_g * 1.2 <= 100
    assert weights.fuel_g == 190
    first = 440 + 21 + 3040 + 190 + 2000
    second = 200 + 21 + 3040 + (190 - day_g) + 0
    assert weights.by_day_g == NEAR((first, second), rel=EXACT)
    # Everything is in somebody's pack, once, with 4 and 6 kg of own gear.
    assert sum(load.total_g for load in weights.people) == NEAR(first + 10_000, rel=EXACT)
    for load, limit_g in zip(weights.people, (12_000, 18_000), strict=True):
        assert load.total_g == NEAR(sum(each.mass_g for each in load.carries), rel=EXACT)
        assert load.of_limit == NEAR(load.total_g / limit_g, rel=EXACT)


def test_water_is_shared_by_the_litre(tmp_path: Path) -> None:
    water = {"camp": "stream", "treat": "filter", "between_water": "2.3 h"}
    kit = hand(tmp_path, day_trip(days=[day(water=water, travel=WAY)])).kit()
    bottles = sorted(
        each.mass_g for load in kit.weights.people for each in load.carries if each.kind == "water"
    )
    assert bottles == [NEAR(300, rel=EXACT), NEAR(1000, rel=EXACT), NEAR(1000, rel=EXACT)]


def fullest(masses: list[float], own: list[float], limits: list[float]) -> float:
    """Try every sharing: the least that the fullest pack can be, against its limit."""
    carriers = [number for number, limit in enumerate(limits) if limit > 0]
    best = float("inf")
    for owners in itertools.product(carriers, repeat=len(masses)):
        totals = list(own)
        for owner, mass in zip(owners, masses, strict=True):
            totals[owner] += mass
        best = min(best, max(totals[number] / limits[number] for number in carriers))
    return best


SHARINGS: list[tuple[list[float], list[float], list[float]]] = [
    ([5, 4, 3, 3, 3], [0, 0], [10, 10]),  # heaviest first gives 10 and 8; 9 and 9 is best
    ([7, 6, 5, 4, 3, 2], [0, 0], [10, 10]),
    ([1000, 1000, 1000, 700, 640, 90], [4000, 6000], [12000, 18000]),
    ([810, 790, 420, 330, 330, 250, 107], [0, 500], [9000, 4000]),
    ([900, 880, 610, 455, 450, 310, 209, 101], [0, 0, 0], [5000, 8000, 6000]),
    ([900, 880, 610, 455, 450, 310, 209, 101], [9000, 0, 0], [5000, 8000, 6000]),
    ([333.3, 333.3, 333.4, 500.1, 499.9], [0, 0], [1000, 1000]),
    ([120, 119, 118, 117, 116, 115, 114, 113], [0, 0, 0], [1000, 1000, 0]),
    ([2600.5, 1900.25, 190, 190, 437.125, 437.125, 62], [3100, 2900, 2800], [14, 12, 9]),
]


@pytest.mark.parametrize(("masses", "own", "limits"), SHARINGS)
def test_no_sharing_is_fairer(masses: list[float], own: list[float], limits: list[float]) -> None:
    owners = share_out([(mass,) for mass in masses], [(each,) for each in own], limits)
    assert len(owners) == len(masses)
    assert all(limits[owner] > 0 for owner in owners)
    totals = list(own)
    for owner, mass in zip(owners, masses, strict=True):
        totals[owner] += mass
    worst = max(total / limit for total, limit in zip(totals, limits, strict=True) if limit > 0)
    assert worst == NEAR(fullest(masses, own, limits), rel=EXACT)


def test_the_fullest_pack_of_any_morning_counts() -> None:
    # On the second morning 4 kg are eaten, and 3 kg of water are carried that were not before.
    things = [(4000, 0), (3000, 3000), (1000, 1000), (0, 3000)]
    owners = share_out(things, [(0, 0), (0, 0)], [10_000, 10_000])
    best = min(
        max(
            sum(mass[morning] for mass, owner in zip(things, choice, strict=True) if owner == who)
            for who in (0, 1)
            for morning in (0, 1)
        )
        for choice in itertools.product((0, 1), repeat=4)
    )
    packs = [
        sum(mass[morning] for mass, owner in zip(things, owners, strict=True) if owner == who)
        for who in (0, 1)
        for morning in (0, 1)
    ]
    # By first-morning masses and the most water, 11 kg, the best is 6 and 5 kg.
    assert max(packs) == best == 4000


def test_water_is_carried_the_day_it_is(tmp_path: Path) -> None:
    eat = {"snacks": [{"eat": "kernel-nut", "each": "500 g"}]}
    dry = {"camp": "stream", "treat": "filter", "between_water": "2.3 h"}
    wet = {"camp": "stream", "treat": "filter", "between_water": "0 h"}
    one = [{"name": "Ea", "carries_to": "12 kg", "mass": "64 kg"}]
    late = {"snacks": [{"eat": "kernel-nut", "each": "50 g"}]}
    days = [day(eat, water=wet, travel=WAY), day(late, water=dry, travel=WAY)]
    kit = hand(tmp_path, day_trip(days=days, party=one, stove=None)).kit()
    (load,) = kit.weights.people
    # 500 and 50 g of nuts in two bags on the first morning; on the second the empty bag, the
    # other nuts, and 2.3 h of 500 ml.
    assert load.by_day_g == NEAR((507 + 57, 7 + 57 + 1150), rel=EXACT)
    assert load.total_g == NEAR(1214, rel=EXACT)  # 1714 g are never in the pack at once
    assert [each.mass_g for each in load.carries if each.kind == "water"] == NEAR([1000, 150])


def test_a_trip_is_shared_as_evenly_as_can_be(tmp_path: Path) -> None:
    eat = {
        "lunch": [{"eat": "hard-cheese", "each": "73 g"}, {"eat": "kernel-nut", "each": "151 g"}],
        "snacks": [{"eat": "oil", "each": "217 g", "for": ["Bo"]}],
    }
    kit = hand(
        tmp_path,
        day_trip(days=[day(eat, travel=WAY)], gear_shared=[{"name": "Tarp", "mass": "911 g"}]),
    ).kit()
    masses = [100.0, 200, 400, 911, 146 + 7, 302 + 7, 217 + 7, 1000, 1000]
    best = fullest(masses, [4000, 6000], [12_000, 18_000])
    assert max(load.of_limit for load in kit.weights.people) == NEAR(best, rel=EXACT)


def test_where_no_limit_is_told_a_share_of_the_body_is_taken(tmp_path: Path) -> None:
    party = [
        {"name": "Ea", "sex": "female", "age": 40, "mass": "60 kg"},
        {"name": "Kid", "sex": "male", "age": 12, "mass": "40 kg"},
    ]
    kit = hand(tmp_path, day_trip(party=party)).kit()
    assert [load.limit_g for load in kit.weights.people] == NEAR([12_000, 4000], rel=EXACT)
    told = {each.what: each.value for each in kit.defaults}
    assert told["what Ea carries to"] == "20 % of body mass"
    assert told["what Kid carries to"] == "10 % of body mass"


def test_who_carries_nothing_gets_nothing(tmp_path: Path) -> None:
    party = [{"name": "Ea", "carries_to": "12 kg"}, {"name": "Kid", "carries_to": "0 kg"}]
    kit = hand(tmp_path, day_trip(party=party)).kit()
    kid = kit.weights.people[1]
    assert (kid.total_g, kid.of_limit, kid.carries) == (0, 0, ())


def test_a_party_in_which_nobody_carries_is_a_problem(tmp_path: Path) -> None:
    party = [{"name": "Ea", "carries_to": "0 kg"}, {"name": "Kid", "carries_to": "0 kg"}]
    with pytest.raises(ProblemsFound) as found:
        hand(tmp_path, day_trip(party=party)).kit()
    assert [problem.kind for problem in found.value.problems] == ["nobody-carries"]


# -- packs over several trips -----------------------------------------------------------------


def snack_trip(each: str, **more: Any) -> Record:
    """Give a trip that eats dried berries from one batch."""
    eat = {"snacks": [{"eat": "berry", "from": "rings", "each": each}]}
    return day_trip(days=[day(eat)], **more)


def test_packs_are_counted_over_all_trips(tmp_path: Path) -> None:
    rings = batch("rings", "berry", 2000, 480, 12, used=3)  # 40 g a pack
    read = hand(
        tmp_path,
        snack_trip("40 g"),  # 2 packs
        batches=[rings],
        more_trips={"autumn": snack_trip("50 g"), "winter": snack_trip("70 g")},  # 3 and 4
    )
    assert read.problems == ()
    kits = {name: read.kit(name) for name in ("hand", "autumn", "winter")}
    used = {name: batch_of(kit, "rings").packs_used for name, kit in kits.items()}
    assert used == {"hand": 2, "autumn": 3, "winter": 4}
    # 12 − 3 eaten − 2 − 3 − 4
    assert {batch_of(kit, "rings").packs_left for kit in kits.values()} == {0}


def test_more_packs_than_there_are_is_a_problem_that_names_the_trips(tmp_path: Path) -> None:
    rings = batch("rings", "berry", 2000, 480, 12, used=4)
    read = hand(
        tmp_path,
        snack_trip("40 g"),
        batches=[rings],
        more_trips={"autumn": snack_trip("50 g"), "winter": snack_trip("70 g")},
    )
    assert read.kinds() == ["batch-overdrawn"]
    problem = read.problems[0]
    assert problem.severity == "error"
    # Told once, with every meal and both places: 3, 2 and 4 packs are 9, and 8 are left.
    assert problem.place.file == "content/batches/hand.yaml"
    for word in (
        "rings",
        "12 packs, 4 of them eaten before",
        "meals take 9",
        "autumn day 1 snacks 3 (named at content/trips/autumn.yaml:",
        "hand day 1 snacks 2 (named at content/trips/hand.yaml:",
        "winter day 1 snacks 4 (named at content/trips/winter.yaml:",
    ):
        assert word in problem.says


# -- proposals and shopping -------------------------------------------------------------------


def shelf(**more: Record) -> list[Record]:
    """Give three batches of berries, 40 g a pack, done one after the other."""
    days = {"old": "2030-09-01", "middle": "2030-11-01", "new": "2031-03-01"}
    return [
        batch(name, "berry", 1000, 240, 6, done=done, **more.get(name, {}))
        for name, done in days.items()
    ]


def berries(each: str, **more: Any) -> Record:
    eat = {"snacks": [{"eat": "berry", "dried_by": "dehydrator", "each": each}]}
    return day_trip(days=[day(eat)], **more)


def proposed(kit: Kit) -> list[tuple[str, float]]:
    return [(each.batch, each.mass_g) for each in kit.proposals]


def test_what_expires_first_is_proposed_first_and_the_rest_is_to_be_dried(
    tmp_path: Path,
) -> None:
    kit = hand(tmp_path, berries("300 g"), batches=shelf(old={"used": 4})).kit()
    # 600 g wanted: 2 packs of the old ones, 240 g, 240 g.
    assert proposed(kit) == [("old", 80), ("middle", 240), ("new", 240)]
    (line,) = kit.shopping
    assert (line.food, line.dry_by) == ("berry", "dehydrator")
    assert line.dried_g == NEAR(40, rel=EXACT)
    # 80 % water before, 20 % after: four times as much fresh.
    assert line.mass_g == NEAR(40 * 0.8 / 0.2, rel=EXACT)


def test_nothing_is_proposed_that_is_wet_old_or_of_another_method(tmp_path: Path) -> None:
    wet = batch("wet", "berry", 1000, 300, 6, done="2031-03-01")  # 33 % left
    other = batch("other", "berry", 1000, 210, 6, done="2031-03-01", method="freeze-dryer")
    planned = {**batch("later", "berry", 1000, 240, 6), "done": None, "planned": "2031-05-01",
               "dried": None}  # fmt: skip
    old = batch("too-old", "berry", 1000, 240, 6, done="2029-01-01")
    good = batch("good", "berry", 1000, 240, 6, done="2031-03-01")
    empty = batch("empty", "berry", 1000, 240, 6, done="2030-11-01", used=6)
    batches = [wet, other, planned, old, empty, good]
    kit = hand(tmp_path, berries("40 g"), batches=batches).kit()
    assert proposed(kit) == [("good", 80)]
    assert kit.shopping == ()


def test_a_proposal_changes_no_figure(tmp_path: Path) -> None:
    with_stock = hand(tmp_path / "a", berries("40 g"), batches=shelf()).kit()
    without = hand(tmp_path / "b", berries("40 g")).kit()
    assert with_stock.days == without.days
    assert with_stock.weights == without.weights
    assert with_stock.batches == without.batches == ()


def test_packs_spoken_for_by_another_trip_are_not_proposed(tmp_path: Path) -> None:
    taken = day_trip(days=[day({"snacks": [{"eat": "berry", "from": "old", "each": "100 g"}]})])
    read = hand(tmp_path, berries("30 g"), batches=shelf(), more_trips={"other": taken})
    # 200 g are 5 of the 6 packs.
    assert proposed(read.kit()) == [("old", 40), ("middle", 20)]


def test_what_is_bought_is_listed_once_with_where_it_goes(tmp_path: Path) -> None:
    recipe = dish(kernel="40 g", oil="5 g", pulse="50 g dehydrator")
    eat = {"dinner": [{"cook": "dish"}], "snacks": [{"eat": "kernel", "each": "10 g"}]}
    kit = hand(tmp_path, day_trip(days=[day(eat), day(eat)]), [recipe]).kit()
    lines = {line.food: line for line in kit.shopping}
    assert lines["kernel"].mass_g == NEAR(2 * (80 + 20), rel=EXACT)
    assert lines["kernel"].used_in == ("dish", "kernel")
    assert lines["kernel"].dry_by is None
    assert lines["oil"].mass_g == NEAR(20, rel=EXACT)
    assert lines["pulse"].mass_g == NEAR(200 * 0.9 / 0.4, rel=EXACT)
    assert kit.shopping[-1].food == "pulse"


def test_what_comes_from_a_named_batch_is_not_bought(tmp_path: Path) -> None:
    rings = batch("rings", "berry", 2000, 480, 12)
    assert hand(tmp_path, snack_trip("40 g"), batches=[rings]).kit().shopping == ()


def test_a_trip_without_a_date_still_gets_proposals(tmp_path: Path) -> None:
    kit = hand(tmp_path, berries("40 g", start=None), batches=shelf()).kit()
    assert proposed(kit) == [("old", 80)]
    assert day_of(kit).date is None


# -- dates and defaults -----------------------------------------------------------------------


def test_days_are_counted_from_the_start(tmp_path: Path) -> None:
    kit = hand(tmp_path, day_trip(days=[day(), day(), day()], start="2031-12-30")).kit()
    assert [each.date for each in kit.days] == [
        datetime.date(2031, 12, 30),
        datetime.date(2031, 12, 31),
        datetime.date(2032, 1, 1),
    ]


def test_a_trip_of_almost_nothing_tells_every_default(tmp_path: Path) -> None:
    trip = {
        "title": "Bare",
        "party": [{"name": "One"}],
        "stove": {"use": "burner", "pots": ["small"]},
        "days": [
            {
                "camp_altitude": "0 m",
                "travel": {"by": "walking"},
                "meals": {"lunch": [{"eat": "oil", "each": "9 g"}]},
            }
        ],
    }
    kit = hand(tmp_path, trip).kit()
    told = {each.what: each.value for each in kit.defaults}
    assert kit.fuel is not None
    assert (kit.fuel.reserve_share, kit.mug_ml, kit.units, kit.shelter) == (
        0.15,
        300,
        "metric",
        "tent",
    )
    found = day_of(kit)
    assert (found.conditions.air_low_c, found.conditions.air_high_c) == (5, 20)
    assert (found.conditions.water_source, found.conditions.treat) == ("stream", "none")
    assert (found.conditions.wind, found.conditions.water_c) == ("sheltered", 10)
    assert (found.travel_hours, found.between_water_h) == (5, 3)
    for what in (
        "mug",
        "washing",
        "fuel reserve",
        "air on day 1",
        "water on day 1",
        "wind on day 1",
        "hours on day 1",
        "longest stretch without water on day 1",
        "own gear of One",
        "what One carries to",
    ):
        assert what in told
