"""What waits at a camp, what somebody is told to carry and what goes together, on paper.

Ea carries to 12 kg and has 4 kg of her own, Bo to 18 kg and 6 kg. An each of 50 g is 100 g for
both, in one zip-bag.
"""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from builder.model.kit import Kit, PersonLoad
from builder.planning.carrying.sharing import share_out
from tests.planning.folders import Hand, Record, day, day_trip, hand, uses

NEAR = pytest.approx


def nuts(each_g: int, **more: object) -> Record:
    return {"snacks": [{"eat": "kernel-nut", "each": f"{each_g} g", **more}]}


def trip(folder: Path, *meals: Record, **more: object) -> Hand:
    days = [day(each, water={"camp": "stream", "between_water": "0 h"}) for each in meals]
    return hand(folder, day_trip(days=days, stove=None, **more))


def bag_g(kit: Kit) -> float:
    """Give what one meal's zip-bag weighs."""
    return kit.days[0].meals[0].packaging_g


def pack_of(kit: Kit, name: str) -> PersonLoad:
    return next(each for each in kit.weights.people if each.name == name)


def test_what_waits_at_a_camp_is_not_carried_before_it(tmp_path: Path) -> None:
    kit = trip(
        tmp_path, nuts(50), nuts(60), nuts(70), nuts(80), depots=[{"camp": 2, "holds": [3, 4]}]
    ).kit()
    bag = bag_g(kit)
    # 100 + 120 g; 120 g; then 140 + 160 g from the camp of day 2; 160 g. Bags stay when empty.
    assert kit.weights.food_left_g == NEAR((220, 120, 300, 160))
    assert kit.weights.by_day_g == NEAR(
        (220 + 2 * bag, 120 + 2 * bag, 300 + 4 * bag, 160 + 4 * bag)
    )
    assert kit.weights.food_g == NEAR(520), "all that is eaten"
    (depot,) = kit.weights.depots
    assert (depot.camp, depot.holds) == (2, (3, 4))
    assert depot.mass_g == NEAR(300 + 2 * bag)


def test_the_packs_of_all_add_up_to_the_load_of_each_morning(tmp_path: Path) -> None:
    kit = trip(tmp_path, nuts(50), nuts(60), nuts(70), depots=[{"camp": 1, "holds": [3]}]).kit()
    for number, load_g in enumerate(kit.weights.by_day_g):
        packs_g = sum(person.by_day_g[number] for person in kit.weights.people)
        assert packs_g - 10_000 == NEAR(load_g)


def test_of_the_camps_own_day_the_dinner_waits(tmp_path: Path) -> None:
    meals = {**nuts(50), "dinner": [{"eat": "kernel-nut", "each": "90 g"}]}
    kit = trip(tmp_path, meals, nuts(60), depots=[{"camp": 1, "holds": [1]}]).kit()
    assert kit.weights.food_left_g == NEAR((100 + 120, 120))
    assert kit.weights.depots[0].mass_g == NEAR(180 + bag_g(kit))


def test_walking_is_reckoned_without_what_waits(tmp_path: Path) -> None:
    walk: Record = {"by": "walking", "hours": 4, "distance": "10 km"}
    days = [day(nuts(50), travel=walk), day(nuts(2000), travel=walk)]
    carried = hand(tmp_path / "a", day_trip(days=days)).kit()
    waiting = hand(tmp_path / "b", day_trip(days=days, depots=[{"camp": 1, "holds": [2]}])).kit()
    bag = bag_g(carried)
    for one, other in zip(carried.days[0].people, waiting.days[0].people, strict=True):
        share = {"Ea": 12 / 30, "Bo": 18 / 30}[one.name]
        assert one.load_g - other.load_g == NEAR(share * (4000 + bag))
    assert [each.load_g for each in carried.days[1].people] == NEAR(
        [each.load_g for each in waiting.days[1].people]
    )


@pytest.mark.parametrize(
    ("depots", "kinds"),
    [
        ([{"camp": 2, "holds": [2]}], []),
        ([{"camp": 2, "holds": [1]}], ["depot-late"]),
        ([{"camp": 1, "holds": [2]}, {"camp": 1, "holds": [2]}], ["depot-twice"]),
        ([{"camp": 1, "holds": [3]}], ["day-unknown"]),
    ],
)
def test_depots_that_cannot_be(depots: list[Record], kinds: list[str], tmp_path: Path) -> None:
    found = trip(tmp_path, nuts(50), nuts(60), depots=depots).problems
    assert [each.kind for each in found if each.severity == "error"] == kinds


# -- carried by, together -------------------------------------------------------------------------

TARP: Record = {"name": "Tarp", "mass": "900 g"}
ROPE: Record = {"name": "Rope", "mass": "1500 g"}
AXE: Record = {"name": "Axe", "mass": "700 g"}


@pytest.mark.parametrize("who", ["Ea", "Bo"])
def test_who_is_told_to_carry_a_thing_carries_it(tmp_path: Path, who: str) -> None:
    kit = trip(
        tmp_path, nuts(50, carried_by=who), gear_shared=[{**ROPE, "carried_by": who}, TARP, AXE]
    ).kit()
    carried = {thing.what for thing in pack_of(kit, who).carries}
    assert "Rope" in carried
    assert any(thing.kind == "food" for thing in pack_of(kit, who).carries)


def test_what_goes_together_is_in_one_pack(tmp_path: Path) -> None:
    alone = trip(tmp_path / "a", nuts(50), gear_shared=[TARP, ROPE]).kit()
    split = [{"Tarp", "Rope"} & {each.what for each in one.carries} for one in alone.weights.people]
    assert sorted(map(len, split)) == [1, 1], "else this shows nothing"
    kit = trip(
        tmp_path / "b", nuts(50), gear_shared=[TARP, ROPE], together=[["Tarp", "Rope"]]
    ).kit()
    split = [{"Tarp", "Rope"} & {each.what for each in one.carries} for one in kit.weights.people]
    assert sorted(map(len, split)) == [0, 2]


def test_stove_fuel_and_pot_go_to_who_carries_one_of_them(tmp_path: Path) -> None:
    dish: Record = {
        "id": "dish", "serves": 1, "cook_in": "pot", "uses": uses(kernel="100 g"),
        "steps": [{"do": "boil", "with": ["kernel"], "water": "300 ml"}],
    }  # fmt: skip
    shared = [{**AXE, "carried_by": "Ea"}]
    more = {"gear_shared": shared, "together": [["stove", "small", "fuel"], ["Axe", "stove"]]}
    kit = hand(tmp_path, day_trip(days=[day({"dinner": [{"cook": "dish"}]})], **more), [dish]).kit()
    carried = [thing.what for thing in pack_of(kit, "Ea").carries]
    assert {"Axe", "Burner", "Small pot"} <= set(carried)
    assert any(thing.kind == "fuel" for thing in pack_of(kit, "Ea").carries)


@pytest.mark.parametrize(
    ("more", "kinds"),
    [
        ({"together": [["Tarp", "Rope"]]}, []),
        ({"together": [["Tarp", "Sail"]]}, ["thing-unknown"]),
        ({"together": [["Tarp", "stove"]]}, ["thing-unknown"]),  # the trip has none
        (
            {
                "gear_shared": [{**TARP, "carried_by": "Ea"}, {**ROPE, "carried_by": "Bo"}],
                "together": [["Tarp", "Rope"]],
            },
            ["together-apart"],
        ),
    ],
)
def test_groups_that_cannot_be(more: Record, kinds: list[str], tmp_path: Path) -> None:
    told = {"gear_shared": [TARP, ROPE], **more}
    found = trip(tmp_path, nuts(50), **told).problems
    assert [each.kind for each in found if each.severity == "error"] == kinds


MORNINGS = [
    # Food that goes, food that waits, gear, and what somebody is told to carry, by morning.
    ([(900, 200, 0), (0, 1400, 300), (700, 700, 700), (800, 800, 800)], [(0, 0, 0), (0, 0, 0)]),
    ([(900, 0), (0, 900), (450, 450), (300, 20)], [(4000, 4000), (3000, 3900)]),
    ([(500, 10, 10), (0, 800, 10), (0, 0, 900), (400, 400, 400)],
     [(100, 900, 100), (0, 0, 700), (300, 0, 0)]),
]  # fmt: skip


@pytest.mark.parametrize(("things", "own"), MORNINGS)
def test_no_sharing_is_fairer_on_its_fullest_morning(
    things: list[tuple[float, ...]], own: list[tuple[float, ...]]
) -> None:
    limits = [9000.0, 7000.0, 8000.0][: len(own)]

    def fullest(owners: tuple[int, ...]) -> float:
        return max(
            (
                own[who][morning]
                + sum(
                    mass[morning]
                    for mass, owner in zip(things, owners, strict=True)
                    if owner == who
                )
            )
            / limits[who]
            for who in range(len(own))
            for morning in range(len(things[0]))
        )

    found = share_out(things, own, limits)
    every = itertools.product(range(len(own)), repeat=len(things))
    assert fullest(tuple(found)) == NEAR(min(map(fullest, every)), rel=1e-9)
