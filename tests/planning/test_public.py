"""A public kit is planned from what may leave: nothing else can be worked back from it."""

from __future__ import annotations

import datetime
import itertools
import typing
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.model.batch import Batch, Heated, Packs, Stay, Weighing
from builder.model.content import Content, Gear
from builder.model.figure import Figure, Found, Told
from builder.model.food import Composition, Food, Perishable
from builder.model.gear import (
    Container,
    Dryer,
    Fuel,
    Iron,
    LabelSheet,
    Packaging,
    Pot,
    Stove,
    StoveTest,
)
from builder.model.home import FreeHours, Home, NewBatch
from builder.model.kit import Kit
from builder.model.meal_times import MealTimes
from builder.model.picture import Picture
from builder.model.place import Place, Places
from builder.model.public import LEAVES, ROUNDED_UP_TO
from builder.model.recipe import Ingredient, Recipe, Step, Swap
from builder.model.review import LeftOver, Review, Took, WaterUsed
from builder.model.source import CautionText, Source
from builder.model.track import DayTrack
from builder.model.trip import (
    Camp,
    Chilled,
    Day,
    DefaultUsed,
    Depot,
    Fire,
    Label,
    Meal,
    MealItem,
    Person,
    SharedGear,
    Travel,
    Trip,
    WaterPlace,
)
from builder.planning.kit import plan_trip
from builder.planning.names_left import names_left
from builder.planning.public import public_kit, public_trip
from builder.planning.stock import check
from builder.planning.tracing import TOLD_BY_PARTY
from builder.record import fields, is_dataclass, replace
from tests.planning.folders import Hand, Record, day, day_trip, hand, uses
from tests.planning.test_cautions import dried

# What stays at home, so that a new field is decided and not forgotten: list it here, or in LEAVES
# with the reason why it may leave.
STAYS: Mapping[type, set[str]] = {
    Trip: {
        "party",
        "start",
        "notes",
        "public_names",
        "defaults",
        "together",
        "track",
        "tracks",
        "utc_h",
        "times",
        "learned",
        "picture",
        "review",
    },
    Person: {
        "name",
        "sex",
        "age_years",
        "mass_kg",
        "height_cm",
        "carries_to_g",
        "own_gear_g",
        "avoids",
        "pregnant",
        "nursing",
    },
    Day: {"without", "title", "notes", "picture"},
    Camp: {"barometer_hpa", "at_deg"},
    Meal: {"is_open"},
    MealItem: {"without", "chosen", "carried_by"},
    Travel: {"load_g", "goers"},
    SharedGear: {"name", "carried_by"},
    DefaultUsed: {"what", "value", "why", "blanks"},
    Batch: {
        "id",
        "done",
        "planned",
        "started",
        "run",
        "ice_g",
        "stays",
        "used",
        "best_before",
        "weighings",
        "loaded_at_c",
        "dryer",
        "notes",
        "picture",
    },
    Packs: {"shelf"},
    Weighing: {"at_min", "mass_g"},
    Stay: {"at_c", "until"},
    Food: {
        "ndb",
        "dryer_hours",
        "refuse_share",
        "price_per_kg",
        "dried_price_per_kg",
        "sold_in_g",
        "shelf",
    },
    Recipe: {"note", "cooked_g", "picture", "utensils"},
    Step: {"picture"},
    Packaging: {"price"},
    **{
        kind: {each.name for each in fields(kind)} - {"places"}
        for kind in (
            Picture,
            Dryer,
            LabelSheet,
            Home,
            FreeHours,
            NewBatch,
            MealTimes,
            DayTrack,
            Review,
            WaterUsed,
            LeftOver,
            Took,
        )
    },
}
RECORDS = (
    Trip,
    Person,
    Day,
    Camp,
    WaterPlace,
    Travel,
    Meal,
    MealItem,
    Label,
    SharedGear,
    DefaultUsed,
    Chilled,
    Fire,
    Batch,
    Heated,
    Packs,
    Weighing,
    Stay,
    Food,
    Composition,
    Perishable,
    Recipe,
    Ingredient,
    Step,
    Swap,
    Stove,
    StoveTest,
    Container,
    Fuel,
    Pot,
    Iron,
    Packaging,
    Dryer,
    Source,
    CautionText,
    LabelSheet,
    DayTrack,
    Home,
    FreeHours,
    NewBatch,
    Depot,
    MealTimes,
    Review,
    WaterUsed,
    LeftOver,
    Took,
    Picture,
)


def test_every_record_of_the_content_is_asked_about() -> None:
    """Whatever a trip holds, however deep: found by the types of the fields."""
    found: set[type] = set()
    todo: list[Any] = [Content]
    while todo:
        kind = todo.pop()
        todo += typing.get_args(kind)
        if is_dataclass(kind) and kind not in {*found, Place, Places}:
            found.add(typing.cast(type, kind))
            todo += typing.get_type_hints(kind).values()
    assert found - {Content, Gear} == set(RECORDS)
    assert set(LEAVES) <= set(RECORDS)


@pytest.mark.parametrize("kind", RECORDS)
def test_every_field_is_decided(kind: type) -> None:
    every = {each.name for each in fields(kind)} - {"places"}
    leaves, stays = set(LEAVES.get(kind, {})), STAYS.get(kind, set())
    assert leaves | stays == every, "decide it in builder/model/public.py, or in STAYS above"
    assert not leaves & stays
    assert all(LEAVES.get(kind, {}).values())


def private_trip(**changes: object) -> Record:
    """Give a trip that tells all that a trip can tell; names and ids bear a mark."""
    party = [
        {"name": "zqEa", "sex": "female", "age": 41, "mass": "62.3 kg", "height": "165.7 cm",
         "carries_to": "12.7 kg", "own_gear": "4.3 kg", "avoids": ["nuts"], "nursing": True},
        {"name": "zqBo", "sex": "male", "age": 43, "mass": "81.9 kg", "height": "181.3 cm",
         "carries_to": "18.1 kg", "own_gear": "6.7 kg"},
    ]  # fmt: skip
    travel = {"by": "walking", "hours": 4, "distance": "11.37 km", "ascent": "437 m",
              "descent": "213 m", "load": "9.1 kg"}  # fmt: skip
    meals = {
        "lunch": [{"eat": "kernel-nut", "each": "50 g", "for": ["zqBo"]},
                  {"eat": "Crackers", "each": "40 g", "energy": "450 kcal"}],
        "dinner": [{"cook": "stew", "from": {"pulse": "zqpulse"}}],
    }  # fmt: skip
    trip = day_trip(
        party=party,
        days=[
            day(meals, title="zqTitle", notes="zqDayNotes", travel=travel, camp_altitude="1213 m"),
            day({"dinner": [{"cook": "stew"}], "snacks": [{"eat": "leaf", "each": "90 g"}]},
                barometer="871.3 hPa", camp_altitude=None, travel=travel),
        ],
        gear_shared=[{"name": "zqTarp", "mass": "780 g"}],
        notes="zqNotes",
    )  # fmt: skip
    del trip["days"][1]["camp_altitude"]
    return {**trip, **changes}


STEW = {
    "id": "stew", "serves": 2, "cook_in": "pot", "note": "zqRecipeNote",
    "uses": uses(pulse="80 g dehydrator", kernel="90 g"),
    "steps": [{"do": "boil", "with": ["pulse", "kernel"], "water": "500 ml"},
              {"do": "simmer", "minutes": 12}, {"do": "serve", "say": "Share it."}],
}  # fmt: skip
BATCH = {
    "id": "zqpulse", "food": "pulse", "method": "dehydrator", "done": "2031-03-14",
    "fresh": "1000 g", "dried": "430 g", "packs": {"count": 4, "in": "foil"}, "used": 1,
    "kept_at": "15 degC", "notes": "zqBatchNotes",
    "weighings": [{"at": "3 h", "mass": "700.7 g"}, {"at": "6 h", "mass": "500.3 g"}],
}  # fmt: skip


def read(folder: Path, trip: Record | None = None) -> Hand:
    return hand(folder, trip or private_trip(), [STEW], [BATCH])


def kit_of(content: Content) -> Kit:
    stock, _ = check(content)
    return plan_trip(content.trips["hand"], content, stock)


def public_of(content: Content) -> Kit:
    return public_kit(kit_of(content), content)


# -- what does not leave changes nothing ----------------------------------------------------------


def marks() -> Iterator[int]:
    return itertools.count(1)


def marked(record: Any, count: Iterator[int], stays_only: bool) -> Any:
    """Give a record with a mark in each text and number: in all, or in those that stay at home."""
    kind = type(record)
    hints = typing.get_type_hints(kind)
    values: dict[str, Any] = {}
    for each in fields(record):
        value = getattr(record, each.name)
        stays = each.name not in LEAVES.get(kind, {})
        if each.name == "places":
            values["places"] = Places(Place("zqfile.yaml", 7_654_321, 1), value.fields)
        elif isinstance(value, Mapping):
            values[each.name] = {
                key: marked(one, count, stays_only) if is_dataclass(one) else one
                for key, one in value.items()
            }
        elif is_dataclass(value):
            values[each.name] = marked(value, count, stays_only)
        elif isinstance(value, tuple):
            values[each.name] = tuple(
                marked(one, count, stays_only) if is_dataclass(one) else one for one in value
            )
        elif stays_only and not stays:
            values[each.name] = value
        elif isinstance(value, float) and value and each.name not in ("pieces", "serves"):
            # Seven digits that nothing else has, and so near that no step is crossed.
            values[each.name] = round(value * (1 + next(count) * 1e-6) + 1.3e-5, 9)
        elif hints[each.name] in (str, str | None) and (kind, each.name) not in _NAMES:
            values[each.name] = f"zq{kind.__name__}{each.name}{next(count)}" if value else value
    return replace(record, **values)


# Ids that other records name, and words of a list: these bear their mark from the start.
_NAMES = {
    (Trip, "id"),
    (Trip, "language"),
    (Trip, "stove"),
    (Person, "name"),
    (Batch, "id"),
    (Batch, "food"),
    (Batch, "recipe"),
    (Batch, "dryer"),
    (Packs, "packaging"),
    (MealItem, "recipe"),
    (MealItem, "food"),
    (Food, "id"),
    (Food, "source"),
    (Recipe, "id"),
    (Ingredient, "id"),
    (Ingredient, "food"),
    (Ingredient, "recipe"),
    (Stove, "id"),
    (Stove, "burns"),
    (Fuel, "id"),
    (Pot, "id"),
    (Iron, "id"),
    (Packaging, "id"),
    (Dryer, "id"),
    (Source, "id"),
    (Home, "language"),
    (Home, "units"),
    (Home, "label_sheet"),
    (NewBatch, "packaging"),
    (CautionText, "id"),
    (CautionText, "text"),
    (Fire, "wood"),
    (DefaultUsed, "what"),
    (DefaultUsed, "value"),
    (DefaultUsed, "why"),
    (Person, "sex"),
}


def test_what_stays_at_home_changes_nothing(tmp_path: Path) -> None:
    content = read(tmp_path).content
    private, public = kit_of(content), public_of(content)
    changed = marked(content, marks(), stays_only=True)
    assert changed.trips["hand"].party[0].mass_kg != content.trips["hand"].party[0].mass_kg
    assert kit_of(changed) != private
    assert public_of(changed) == public
    # Nor does planning get to see it: what a page shows one day is no more than this.
    assert public_trip(kit_of(changed), changed) == public_trip(private, content)


def test_only_what_is_listed_is_in_a_public_kit(tmp_path: Path) -> None:
    content = marked(read(tmp_path).content, marks(), stays_only=False)
    listed, hidden = texts_and_numbers(content)
    told = repr(public_of(content))
    assert not [each for each in hidden if each in told]
    # It would find them: the private kit tells many, and what is listed is told.
    private = repr(kit_of(content))
    assert sum(each in private for each in hidden) > 15
    assert sum(each in told for each in listed) > 20


def test_no_number_knows_where_it_was_told(tmp_path: Path) -> None:
    told = Told(Place("zqfile.yaml", 1, 1), "mass_g")
    content = read(tmp_path).content
    (tarp,) = content.trips["hand"].gear_shared
    trip = replace(
        content.trips["hand"],
        gear_shared=(replace(tarp, mass_g=Figure(tarp.mass_g, told)),),
    )
    traced = replace(content, trips={"hand": trip})
    public = public_trip(kit_of(traced), traced)
    # It is a figure, so that kit.json can tell its origin, and the origin is no place.
    tarp_g = public.trip.gear_shared[0].mass_g
    assert isinstance(tarp_g, Figure) and tarp_g.origin == Found("mass_g", TOLD_BY_PARTY)
    assert {type(public.needs.energy_kcal), type(public.needs.to_drink_ml)} == {float}


def texts_and_numbers(content: Content) -> tuple[set[str], set[str]]:
    """Give what may be told and what may not, as it would be printed."""
    listed: set[str] = set()
    hidden: set[str] = {"zqfile", "7654321", "zqEa", "zqBo", "zqpulse", "date(2031", "date(2001"}

    def walk(record: Any) -> None:
        kind = type(record)
        for each in fields(record):
            value = getattr(record, each.name)
            if isinstance(value, Mapping):
                value = tuple(value.values())
            for one in value if isinstance(value, tuple) else (value,):
                if is_dataclass(one):
                    walk(one) if not isinstance(one, Places) else None
                elif isinstance(one, float) or (isinstance(one, str) and one.startswith("zq")):
                    leaves = each.name in LEAVES.get(kind, {})
                    in_steps = (kind, each.name) in ROUNDED_UP_TO
                    (listed if leaves and not in_steps else hidden).add(str(one))

    walk(replace(content.trips["hand"], defaults=()))
    for each in (*content.recipes.values(), *content.batches.values()):
        walk(each)
    return listed, {each for each in hidden - listed if len(each.strip("0.")) > 3}


# -- attacks --------------------------------------------------------------------------------------


def with_person(content: Content, number: int, **changes: Any) -> Content:
    trip = content.trips["hand"]
    party = list(trip.party)
    party[number] = replace(party[number], **changes)
    return replace(content, trips={"hand": replace(trip, party=tuple(party))})


ALONE = [{"name": "Ea", "sex": "female", "age": 40, "mass": "60 kg"}]


@pytest.mark.parametrize("alone", [True, False])
def test_a_mass_cannot_be_worked_back_within_a_step(tmp_path: Path, alone: bool) -> None:
    """From what one eats, drinks and carries a companion could reckon the other's mass."""
    trip = private_trip()
    if alone:
        trip["party"] = ALONE
        trip["days"][0]["meals"]["lunch"] = [{"eat": "kernel-nut", "each": "50 g"}]
    content = read(tmp_path, trip).content
    kits = {
        mass_kg: public_of(with_person(content, 0, mass_kg=mass_kg))
        for mass_kg in (56.0, 57.0, 58.0, 59.0, 60.0, 61.0, 62.0)
    }
    private = {
        kit_of(with_person(content, 0, mass_kg=mass_kg)).energy_need_kcal for mass_kg in kits
    }
    assert len(private) == len(kits)
    # Seven bodies, and at most one step of energy and one of water lies between them.
    assert len({repr(kit) for kit in kits.values()}) <= 3
    for kit in kits.values():
        assert all(each.energy_need_kcal % 500 == 0 for each in kit.days)
        assert all(each.water.drinking_ml % 500 == 0 for each in kit.days)
        assert not any(each.people for each in kit.days) and not kit.weights.people


@pytest.mark.parametrize(
    "changes",
    [
        {"carries_to_g": 5000.0},
        {"own_gear_g": 500.0},
        {"avoids": ("milk", "vegan")},
        {"height_cm": 150.0},
    ],
)
def test_what_one_carries_and_avoids_is_not_in_it_at_all(
    tmp_path: Path, changes: dict[str, Any]
) -> None:
    content = read(tmp_path).content
    assert public_of(with_person(content, 1, **changes)) == public_of(content)


def test_two_of_one_mass_sum_may_be_swapped(tmp_path: Path) -> None:
    """Who of two eats the lunch, and who weighs what, is the same from outside."""
    content = read(
        tmp_path,
        private_trip(
            party=[
                {"name": "Ea", "sex": "male", "age": 40, "mass": "60 kg"},
                {"name": "zqBo", "sex": "male", "age": 40, "mass": "80 kg"},
            ]
        ),
    ).content
    swapped = with_person(with_person(content, 0, mass_kg=80.0), 1, mass_kg=60.0)
    assert public_of(swapped) == public_of(content)


def test_heights_and_ways_are_rounded_up(tmp_path: Path) -> None:
    content = read(tmp_path).content
    kit = public_of(content)
    first, second = kit.days
    assert first.conditions.altitude_m == 1300  # 1213 m
    # 871.3 hPa stand for 1254 m in the standard atmosphere, and the reading itself stays at home.
    assert second.conditions.altitude_m == 1300
    assert second.conditions.pressure_hpa == first.conditions.pressure_hpa
    assert (first.distance_m, first.ascent_m, first.descent_m) == (12_000, 500, 300)
    trip = content.trips["hand"]
    camp = replace(trip.days[0].camp, altitude_m=1299.0)
    low = replace(trip.days[0], camp=camp)
    moved = replace(trip, days=(low, trip.days[1]))
    assert public_of(replace(content, trips={"hand": moved})) == kit


def test_what_is_on_a_step_stays_there(tmp_path: Path) -> None:
    trip = private_trip()
    trip["days"][0]["camp_altitude"] = "1200 m"
    assert public_of(read(tmp_path, trip).content).days[0].conditions.altitude_m == 1200


def test_a_way_too_short_for_a_full_kilometre_is_still_planned(tmp_path: Path) -> None:
    trip = private_trip()
    trip["days"][0]["travel"] = {"by": "walking", "hours": 0.1, "distance": "300 m"}
    kit = public_of(read(tmp_path, trip).content)
    assert kit.days[0].distance_m is None and kit.days[0].travel_hours == 0.1


# -- people ---------------------------------------------------------------------------------------


def test_people_are_numbered_unless_the_trip_says_otherwise(tmp_path: Path) -> None:
    kit = public_of(read(tmp_path / "a").content)
    assert [each.name for each in kit.party] == ["Person 1", "Person 2"]
    named = read(tmp_path / "b", private_trip(public_names=True)).content
    kit = public_of(named)
    assert [each.name for each in kit.party] == ["zqEa", "zqBo"]
    # Told on the first page, and nowhere with what somebody eats, so that nothing follows from it.
    assert {name for meal in kit.days[0].meals for name in meal.eaters} == {"Person 1", "Person 2"}


def test_a_public_kit_says_what_it_does_not_tell(tmp_path: Path) -> None:
    kit = public_of(read(tmp_path).content)
    assert kit.notes.startswith("A kit for everybody: who must not eat what")
    private = {each.id for each in kit_of(read(tmp_path).content).cautions}
    assert "not-to-be-eaten" not in {each.id for each in kit.cautions}
    assert {each.id for each in kit.cautions} <= private


def test_batches_are_numbered_and_have_no_days(tmp_path: Path) -> None:
    content = read(tmp_path).content
    (batch,) = public_of(content).batches
    assert (batch.id, batch.dried_on, batch.best_before) == ("batch-1", None, None)
    assert batch.residual_moisture == pytest.approx(1 - 0.4 * 1000 / 430)
    later = replace(content.batches["zqpulse"], done=datetime.date(2031, 5, 1), used=3)
    changed = replace(content, batches={"zqpulse": later})
    assert public_of(changed) == public_of(content)
    kits = kit_of(changed), kit_of(content)
    assert public_trip(kits[0], changed) == public_trip(kits[1], content)


def test_a_kit_for_everybody_asks_for_no_dates_that_it_does_not_tell(tmp_path: Path) -> None:
    found = hand(tmp_path, **dried("berry", start=None))
    assert "start-not-told" in {each.id for each in found.kit().cautions}
    public = public_kit(found.kit(), found.content)
    assert "start-not-told" not in {each.id for each in public.cautions}


def test_needs_are_one_number_of_the_whole_trip(tmp_path: Path) -> None:
    """A step for each day would narrow a body down; one for the trip does not."""
    content = read(tmp_path).content
    kit = kit_of(content)
    needs = public_trip(kit, content).needs
    mean_kcal = kit.energy_need_kcal / 2
    mean_ml = sum(one.to_drink_ml for each in kit.days for one in each.people) / 2
    assert needs.energy_kcal % 500 == 0 and 0 <= needs.energy_kcal - mean_kcal < 500
    assert needs.to_drink_ml % 500 == 0 and 0 <= needs.to_drink_ml - mean_ml < 500


def test_a_name_in_words_that_leave_is_warned_of(tmp_path: Path) -> None:
    def told(folder: str, **trip: object) -> list[str]:
        boil = {"do": "boil", "with": ["pulse", "kernel"], "water": "500 ml"}
        steps = [boil, {"do": "serve", "say": "ZQBO's bowl first."}]
        stew = {**STEW, "name": "zqEas stew", "steps": steps}
        found = hand(tmp_path / folder, private_trip(**trip), [stew], [BATCH])
        return [each.says for each in names_left(found.content.trips["hand"], found.content)]

    assert told("dish") == [
        "zqEa stands in 'zqEas stew', which a public kit tells",
        'zqBo stands in "ZQBO\'s bowl first.", which a public kit tells',
    ]
    assert told("title", title="With zqBo")[0] == (
        "zqBo stands in 'With zqBo', which a public kit tells"
    )
    assert told("all", public_names=True) == []
    # What only begins so is another word; notes and titles of days stay at home anyway.
    assert list(names_left(*_of(read(tmp_path / "none", private_trip(title="zqBoat"))))) == []


def _of(found: Hand) -> tuple[Any, Content]:
    return found.content.trips["hand"], found.content
