"""Open meals of whole trips: who may eat it, what is free, what feeds, and what is said of it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from builder.model.learned import Factor
from builder.planning.filling import Filling, Proposal, fill_trip
from builder.planning.filling.appetite import Aim
from builder.planning.foods import substance_of_ingredient
from builder.planning.kit import plan_trip
from builder.planning.menu import avoided_how
from builder.planning.stock.packs import is_overdrawn, takings_of
from tests.planning.folders import Hand, Record, day, day_trip, food, hand
from tests.planning.test_stock import berries

# 900 kcal and a little of each food: with two dishes of 700 kcal two people are fed.
GRAIN = food(
    "grain",
    "grain",
    "dried",
    "water 12 g, energy 350 kcal, protein 10 g, fat 2 g, carbohydrate 75 g",
    allergens=[],
)
FRUIT = food(
    "plum",
    "fruit",
    "raw",
    "water 80 g, energy 75 kcal, protein 1 g, carbohydrate 18 g",
    allergens=[],
)
NUTS = food(
    "hazel",
    "nut",
    "ready",
    "water 5 g, energy 600 kcal, protein 20 g, fat 50 g, carbohydrate 22 g",
    allergens=["nuts"],
)
UNTOLD = food("mystery", "grain", "dried", "water 12 g, energy 350 kcal, carbohydrate 80 g")
MEAT = food(
    "stew", "meat", "cooked", "water 60 g, energy 200 kcal, protein 32 g, fat 7 g", allergens=[]
)
FOODS = [GRAIN, FRUIT, NUTS, UNTOLD, MEAT]


def pot(name: str, more: str = "", dried: str = "", **keys: Any) -> Record:
    """Give a dinner for one of 250 g grain, and 40 g of another food or of a dried one."""
    uses: list[Record] = [{"food": "grain", "amount": "250 g"}]
    if more:
        uses.append({"food": more, "amount": "40 g"})
    if dried:
        uses.append({"food": dried, "amount": "40 g", "dried_by": "dehydrator"})
    names = [each["food"] for each in uses]
    return {
        "id": name,
        "serves": 1,
        "cook_in": "pot",
        "meal": ["dinner"],
        "uses": uses,
        "steps": [{"do": "boil", "with": names, "water": "400 ml"}],
        **keys,
    }


def plums(name: str, done: str, count: int = 12, **more: Any) -> Record:
    """Give dried plums: a pack of 40 g where there are twelve."""
    return berries(name, count, food="plum", done=done, **more)


def open_trip(days: int = 1, meals: Record | None = None, **more: Any) -> Record:
    """Give a trip of two whose dinners are open; 500 g of grain a day are told besides."""
    told = {"lunch": [{"eat": "grain", "each": "370 g"}], "dinner": "open", **(meals or {})}
    return day_trip(days=[day({**told}) for _ in range(days)], **more)


def filled(folder: Path, trip: Record, recipes: list[Record], **more: Any) -> tuple[Hand, Filling]:
    """Fill the trip of a folder."""
    read = hand(folder, trip, recipes, foods=FOODS, **more)
    assert [each for each in read.problems if each.severity == "error"] == []
    return read, fill_trip(read.content.trips["hand"], read.content, read.stock)


def names(proposal: Proposal) -> list[str]:
    return [each.recipe for each in proposal.dishes]


def keeps_every_rule(read: Hand, proposal: Proposal) -> None:
    """Hold a proposal against each rule, by the trip as it would be and by nothing else."""
    trip, content = proposal.trip, read.content
    assert not any(each.open_meals for each in trip.days)
    dinners: list[tuple[int, str]] = []
    for each in trip.days:
        for meal in each.meals:
            for item in meal.items:
                if not item.recipe:
                    continue
                recipe = content.recipes[item.recipe]
                for ingredient in recipe.uses:
                    substance = substance_of_ingredient(ingredient, content)
                    for name in item.eaters:
                        if ingredient.id in item.without or (
                            name in item.parted and ingredient.id in item.parted_without
                        ):
                            continue
                        for word in trip.person(name).avoids:
                            assert avoided_how(substance, word) is None
                if meal.meal == "dinner":
                    dinners.append((each.number, item.recipe))
    for number, (one_day, one) in enumerate(dinners):
        for other_day, other in dinners[number + 1 :]:
            assert one != other or other_day - one_day > 2
    kit = plan_trip(trip, content, read.stock)
    opened = {dish.day for dish in proposal.dishes}
    for number, share in enumerate(proposal.energy_shares, start=1):
        told = kit.days[number - 1]
        assert share == pytest.approx(told.nutrition.energy_kcal / told.energy_need_kcal)
        assert number not in opened or 0.9 <= share <= 1.15
    for taking in takings_of(trip, content, read.stock.judged):
        judged = read.stock.judged[taking.batch]
        others = [each for each in read.stock.taken(taking.batch) if each.trip != trip.id]
        own = [
            each
            for each in takings_of(trip, content, read.stock.judged)
            if each.batch == taking.batch
        ]
        back = read.stock.returned(taking.batch)
        assert not is_overdrawn(judged.batch, [*others, *own], back)
        assert not judged.failed
        assert judged.best_before
        eaten = trip.date_of(taking.day)
        assert eaten is None or judged.best_before >= eaten
    assert not proposal.dangers


def test_what_expires_first_is_cooked_and_the_reason_said(tmp_path: Path) -> None:
    recipes = [pot("plum-pot", dried="plum"), pot("plain-pot")]
    batches = [plums("new", "2031-05-01"), plums("old", "2031-03-01")]
    party = [{**each, "avoids": ["nuts"]} for each in day_trip()["party"]]
    read, found = filled(tmp_path, open_trip(party=party), recipes, batches=batches)
    first = found.proposals[0]
    (dish,) = first.dishes
    assert (dish.recipe, dish.batches) == ("plum-pot", (("plum", "old"),))
    keeps = read.stock.judged["old"].best_before
    assert keeps
    assert f"expires first, {keeps.day} {keeps:%B %Y}" in dish.because
    assert "no tree nuts for Ea" in dish.because
    assert dish.because.endswith("Gas")
    keeps_every_rule(read, first)


@pytest.mark.parametrize(
    ("avoids", "recipe", "is_proposed"),
    [
        (["nuts"], pot("pot", "hazel"), False),
        (["fish"], pot("pot", "hazel"), True),
        (["nuts"], pot("pot", "mystery"), False),  # nobody told its allergens
        (["meat"], pot("pot", "mystery"), True),
        (["vegetarian"], pot("pot", "stew"), False),
        (["meat"], pot("pot", "stew"), False),
        (["hazel"], pot("pot", "hazel"), False),
        ([], pot("pot", "hazel"), True),
    ],
)
def test_nobody_gets_what_they_must_not_eat_nor_what_is_not_told(
    avoids: list[str], recipe: Record, is_proposed: bool, tmp_path: Path
) -> None:
    party = day_trip()["party"]
    party[1]["avoids"] = avoids
    trip = open_trip(party=party, stove={"use": "burner", "pots": ["large"]})
    _, found = filled(tmp_path, trip, [recipe])
    assert bool(found.proposals) is is_proposed
    if not is_proposed:
        assert "Bo" in found.impossible
        assert "swap" in found.impossible
    # Who goes without is not asked.
    without = {**trip["days"][0], "without": {"dinner": ["Bo"]}}
    without["meals"] = {**without["meals"], "snacks": [{"eat": "grain", "each": "125 g"}]}
    _, found = filled(tmp_path / "without", {**trip, "days": [without]}, [recipe])
    assert [each.eaters for each in found.proposals[0].dishes] == [("Ea",)]


PARTED = pot("pot", "hazel") | {
    "steps": [
        {"do": "boil", "with": ["grain"], "water": "400 ml"},
        {"do": "part"},
        {"do": "mix", "with": ["hazel"]},
    ]
}


def test_a_pot_that_is_parted_feeds_also_who_avoids_what_goes_in_later(tmp_path: Path) -> None:
    party = day_trip()["party"]
    party[1]["avoids"] = ["nuts"]
    read, found = filled(tmp_path, open_trip(party=party), [PARTED])
    first = found.proposals[0]
    (item,) = first.trip.days[0].meals[-1].items
    assert (item.parted, item.parted_without) == (("Bo",), ("hazel",))
    keeps_every_rule(read, first)
    # With one pot there is nothing to cook theirs on in.
    alone = open_trip(party=party, stove={"use": "burner", "pots": ["large"]})
    _, found = filled(tmp_path / "alone", alone, [PARTED])
    assert not found.proposals
    assert "hazel" in found.impossible.lower()
    # Nor in a pot that is too small for their part.
    crowd = [{**party[1], "name": f"Guest {n}"} for n in range(8)]
    many = open_trip(party=[party[0], *crowd], stove={"use": "burner", "pots": ["large", "small"]})
    many["days"][0]["meals"]["lunch"] = [{"eat": "grain", "each": "370 g"}]
    _, found = filled(tmp_path / "many", many, [PARTED])
    assert not found.proposals
    assert "no second pot holds the part" in found.impossible
    # Where nobody avoids it, all eat of one pot.
    read, found = filled(tmp_path / "all", open_trip(), [PARTED])
    (item,) = found.proposals[0].trip.days[0].meals[-1].items
    assert item.parted == ()
    keeps_every_rule(read, found.proposals[0])


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"stove": None}, "needs heat"),
        ({"stove": {"use": "burner"}}, "needs a pot"),
    ],
)
def test_recipes_need_their_heat_and_pots(change: Record, says: str, tmp_path: Path) -> None:
    trip = {key: each for key, each in {**open_trip(), **change}.items() if each is not None}
    _, found = filled(tmp_path, trip, [pot("pot")])
    assert not found.proposals
    assert says in found.impossible
    assert "Least change" in found.impossible


@pytest.mark.parametrize("hot", [False, True])
def test_only_what_is_soaked_hot_needs_a_flame(hot: bool, tmp_path: Path) -> None:
    soak: Record = {"do": "soak", "with": ["grain"], "water": "400 ml", "minutes": 20}
    trip = {key: each for key, each in open_trip().items() if key != "stove"}
    dish = pot("muesli", steps=[{**soak, "hot": hot}, {"do": "serve"}], cook_in="mug")
    _, found = filled(tmp_path, trip, [dish])
    assert ("needs heat" in found.impossible) == hot
    assert bool(found.proposals) == (not hot)


def test_a_recipe_is_for_its_meals(tmp_path: Path) -> None:
    _, found = filled(tmp_path, open_trip(), [pot("porridge", meal=["breakfast"])])
    assert "porridge: it is not for dinner" in found.impossible


def test_no_dinner_comes_twice_in_three_days(tmp_path: Path) -> None:
    trip = open_trip(3)
    trip["days"][0]["meals"]["dinner"] = [{"cook": "one"}]
    read, found = filled(tmp_path, trip, [pot("one"), pot("two"), pot("three")])
    for each in found.proposals:
        assert "one" not in names(each)
        keeps_every_rule(read, each)
    _, found = filled(tmp_path / "few", trip, [pot("one"), pot("two")])
    assert not found.proposals
    assert "twice in three days" in found.impossible
    assert "write one more recipe" in found.impossible


@pytest.mark.parametrize(("lunch_g", "says"), [(10, "are lacking"), (900, "too much")])
def test_a_day_that_cannot_feed_says_how_much_would_mend_it(
    lunch_g: int, says: str, tmp_path: Path
) -> None:
    trip = open_trip(meals={"lunch": [{"eat": "grain", "each": f"{lunch_g} g"}]})
    _, found = filled(tmp_path, trip, [pot("pot")])
    assert not found.proposals
    assert says in found.impossible
    # The food it asks for, or tells to take out, does mend it: 3.5 kcal per gram, for two.
    kcal = float(found.impossible.split("food of ")[1].split(" kcal")[0])
    mended = lunch_g + (kcal + 30) / 3.5 / 2 * (1 if says == "are lacking" else -1)
    trip = open_trip(meals={"lunch": [{"eat": "grain", "each": f"{mended:.1f} g"}]})
    _, found = filled(tmp_path / "mended", trip, [pot("pot")])
    assert found.proposals


def test_packs_go_to_one_meal_and_never_past_their_date(tmp_path: Path) -> None:
    recipes = [pot("plum-pot", dried="plum"), pot("plum-stew", dried="plum"), pot("plain")]
    batches = [
        plums("few", "2031-03-01", used=10),  # two packs: 80 g, one dinner of two
        plums("past", "2029-03-01"),
        plums("wet", "2031-03-01", dried="1200 g"),
        plums("later", "2031-06-02"),
    ]
    read, found = filled(tmp_path, open_trip(3), recipes, batches=batches)
    assert found.proposals
    for each in found.proposals:
        keeps_every_rule(read, each)
        used = [batch for dish in each.dishes for _, batch in dish.batches]
        assert used == ["few"]
    # Another trip names them: then they are not free.
    snack = {"snacks": [{"eat": "plum", "from": "few", "each": "40 g"}]}
    more = {"other": day_trip(days=[day(snack)], start="2031-08-01")}
    _, found = filled(tmp_path / "named", open_trip(3), recipes, batches=batches, more_trips=more)
    assert not any(dish.batches for each in found.proposals for dish in each.dishes)


@pytest.mark.parametrize(("eaten_g", "covers"), [(120, True), (200, True), (201, False)])
def test_what_a_told_meal_leaves_in_an_open_pack_may_fill_another(
    eaten_g: int, covers: bool, tmp_path: Path
) -> None:
    """One pack of 480 g: two eat so much each on the way, and their dinner takes 80 g."""
    pack = plums("open", "2031-03-01", 1, packs={"count": 1, "in": "zip"})
    told = {"snacks": [{"eat": "plum", "from": "open", "each": f"{eaten_g} g"}]}
    # 4320 kcal are needed; the dinner has 2000, and 100 g of the plums 312.5.
    lunch_g = (4320 - 2000 - 2 * 3.125 * eaten_g) / 7
    trip = open_trip(meals={**told, "lunch": [{"eat": "grain", "each": f"{lunch_g:.0f} g"}]})
    recipes = [pot("plum-pot", dried="plum")]
    _, found = filled(tmp_path, trip, recipes, batches=[pack])
    assert [[batch for _, batch in each.dishes[0].batches] for each in found.proposals] == [
        ["open"] if covers else []
    ]


def test_three_proposals_differ_in_a_third_of_the_meals(tmp_path: Path) -> None:
    recipes = [pot(f"pot-{number}") for number in range(8)]
    read, found = filled(tmp_path, open_trip(4), recipes)
    assert len(found.proposals) == 3
    for number, one in enumerate(found.proposals):
        keeps_every_rule(read, one)
        for other in found.proposals[:number]:
            pairs = zip(names(one), names(other), strict=True)
            assert sum(a != b for a, b in pairs) >= 2
            assert len(set(names(one)) - set(names(other))) >= 2
    again = fill_trip(read.content.trips["hand"], read.content, read.stock)
    assert again.data() == found.data()


def test_what_is_told_for_a_script(tmp_path: Path) -> None:
    _, found = filled(tmp_path, open_trip(), [pot("pot")])
    data = json.loads(json.dumps(found.data()))
    assert data["impossible"] is None
    (proposal,) = data["proposals"]
    assert proposal["meals"][0].keys() == {"day", "meal", "recipe", "from", "because"}
    assert len(proposal["energy_share"]) == 1
    assert proposal["meals"][0]["from"] == {}


def test_fresh_meat_is_not_carried_for_days(tmp_path: Path) -> None:
    """What brings up a danger is passed over; where nothing else is there, it is told."""
    raw = {"reach": "71 degC"}
    meat = pot("meat-pot", "stew", **raw)
    read, found = filled(tmp_path, open_trip(2), [meat, pot("plain"), pot("other")])
    assert not any("meat-pot" in names(each)[1:] for each in found.proposals)
    trip = open_trip(2)
    trip["days"][0]["meals"] = {"lunch": [{"eat": "grain", "each": "600 g"}]}
    read, found = filled(tmp_path / "alone", trip, [meat])
    (proposal,) = found.proposals
    assert proposal.dangers
    assert read.content


def test_a_trip_without_a_day_has_packs_too(tmp_path: Path) -> None:
    trip = open_trip()
    del trip["start"]
    batches = [plums("new", "2031-05-01"), plums("old", "2031-03-01")]
    _, found = filled(tmp_path, trip, [pot("plum-pot", dried="plum")], batches=batches)
    assert found.proposals[0].dishes[0].batches == (("plum", "old"),)


@pytest.mark.parametrize(
    ("left", "more", "factor"),
    [
        # Of 620 g of grain a head 185 g were left: 435/620 were eaten, drawn towards 1.
        ("50 %", {}, (435 / 620) ** (1 / 3)),
        ("0 %", {}, 1.0),
        ("50 %", {"learned": False}, None),  # the trip does not want it
        (None, {}, None),  # nobody told
    ],
)
def test_days_aim_at_the_appetite_that_was_learned(
    left: str | None, more: Record, factor: float | None, tmp_path: Path
) -> None:
    told = {"lunch": [{"eat": "grain", "each": "370 g"}], "dinner": [{"cook": "plain"}]}
    review = {"left": [{"food": "grain", "meal": "lunch", "share": left}]} if left else {}
    old = day_trip(days=[day(told)], start="2030-06-01", review=review)
    read, found = filled(
        tmp_path,
        open_trip(**more),
        [pot("plain"), pot("with-oil", "oil")],
        more_trips={"old": old},
    )
    aim = Aim.of(read.content.trips["hand"], read.content, read.stock)
    assert (aim.appetite is None) is (factor is None)
    assert found.appetite == aim.appetite
    if factor is not None:
        assert aim.appetite is not None and aim.appetite.factor == pytest.approx(factor)
    times = 1.0 if factor is None else factor
    assert (aim.least_share, aim.most_share) == pytest.approx((0.9 * times, 1.15 * times))
    shares = [share for each in found.proposals for share in each.energy_shares]
    assert shares or f"{round(115 * times)} %" in found.impossible
    assert all(aim.least_share <= share <= aim.most_share for share in shares)


def test_no_appetite_lets_a_day_go_hungry() -> None:
    # The least that is learned is 0.7, and 0.63 of the need would be told of as too little.
    assert Aim.with_appetite(Factor(0.7, (0.3,), ("Old",))).least_share == 0.75


def test_nothing_is_open(tmp_path: Path) -> None:
    read = hand(tmp_path, foods=FOODS)
    found = fill_trip(read.content.trips["hand"], read.content, read.stock)
    assert found == Filling(())
