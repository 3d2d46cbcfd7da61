"""Every figure can be followed: from the page to its derivation, and on to what it rests on."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Derivation, Kit
from builder.pages.figures import anchor
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.kit_json import kit_data
from tests.pages.conftest import TEMPLATES
from tests.planning.folders import Record, day, day_trip, hand, uses

STEW: Record = {
    "id": "stew", "serves": 2, "cook_in": "pot",
    "uses": uses(pulse="160 g dehydrator", kernel="200 g", oil="20 g"),
    "steps": [
        {"do": "soak", "with": ["pulse"], "water": "auto", "minutes": 10},
        {"do": "boil", "with": ["kernel", "oil"], "water": "1500 ml"},
        {"do": "simmer", "minutes": 10},
    ],
}  # fmt: skip
POCKETS: Record = {
    "id": "pockets", "serves": 2, "cook_in": "iron", "uses": uses(kernel="200 g"),
    "steps": [
        {"do": "mix", "with": ["kernel"], "water": "100 ml"},
        {"do": "press", "each_side": "3 min", "pieces": 2},
    ],
}  # fmt: skip
TEA: Record = {
    "id": "tea", "serves": 1, "cook_in": "mug", "uses": uses(tea_leaf="2 g"),
    "steps": [{"do": "soak", "with": ["tea-leaf"], "water": "250 ml", "hot": True, "minutes": 3}],
}  # fmt: skip
PULSE: Record = {
    "id": "pulse-box", "food": "pulse", "method": "dehydrator", "done": "2031-05-01",
    "fresh": "1000 g", "dried": "430 g", "packs": {"count": 4, "in": "foil"},
}  # fmt: skip


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> Kit:
    """Give a kit with a stove and a fire, a batch, snow and a stream, walking and rest."""
    first: Record = {
        "dinner": [{"cook": "stew", "from": {"pulse": "pulse-box"}}, {"cook": "pockets"}],
        "drinks": [{"cook": "tea"}],
        "snacks": [{"eat": "kernel-nut", "each": "50 g"}],
    }
    walk = {"by": "walking", "hours": 5, "distance": "12 km", "ascent": "500 m"}
    snow = {"camp": "snow", "treat": "boil", "between_water": "3 h"}
    trip = day_trip(
        fire={"allowed": True, "irons": ["one-iron"], "wood_moisture": "20 %"},
        days=[day(first, travel=walk), day({"breakfast": [{"cook": "tea"}]}, water=snow)],
    )
    folder = tmp_path_factory.mktemp("traced")
    return hand(Path(folder), trip, [STEW, POCKETS, TEA], [PULSE]).kit()


@pytest.fixture(scope="module")
def whole(kit: Kit) -> Book:
    return write_book(kit, TEMPLATES)


def found_at(data: Any, address: str) -> Any:
    """Follow an address such as `days.0.people.Ea.to_drink_ml` through kit.json."""
    for part in address.split("."):
        if isinstance(data, dict):
            data = data[part]
        elif part.isdigit():
            data = data[int(part)]
        else:
            data = next(each for each in data if each["name"] == part)
    return data


def figures(kit: Kit) -> dict[str, Derivation]:
    return {each.figure: each for each in kit.derivations}


def test_each_derivation_is_of_a_figure_in_the_data_and_has_its_value(kit: Kit) -> None:
    data = kit_data(kit)
    assert len(figures(kit)) == len(kit.derivations) > 50
    for figure, each in figures(kit).items():
        if figure.endswith(".best_before"):
            assert each.value == found_at(data, figure.replace("best_before", "months"))
        else:
            assert each.value == found_at(data, figure), figure


def test_what_calls_itself_a_sum_is_one(kit: Kit) -> None:
    sums = [each for each in kit.derivations if each.formula.startswith("sum of")]
    assert len(sums) > 10
    for each in sums:
        weighed = [one for one in each.inputs if one.name != "limit"]
        if each.figure.endswith("minutes"):
            continue
        total = sum(one.value for one in weighed if not isinstance(one.value, str))
        assert total == pytest.approx(each.value), each.figure


@pytest.mark.parametrize("place", [0, 1, 2])
def test_the_minutes_of_a_meal_follow_from_their_inputs(kit: Kit, place: int) -> None:
    inputs = {one.name: one for one in figures(kit)[f"days.0.meals.{place}.minutes"].inputs}
    minutes = sum(float(one.value) for one in inputs.values() if one.unit == "min")
    if "heat into the pot" in inputs:
        flame = next(one for name, one in inputs.items() if one.unit == "kJ/min")
        minutes += float(inputs["heat into the pot"].value) / float(flame.value)
    assert minutes == pytest.approx(kit.days[0].meals[place].minutes)


def test_an_input_that_is_a_figure_itself_has_its_value_and_can_be_followed(kit: Kit) -> None:
    known = figures(kit)
    followed = 0
    for each in kit.derivations:
        for one in each.inputs:
            assert not re.match(r"(days|weights|batches|fuel|wood)\.", one.origin) or (
                one.origin in known
            ), (each.figure, one.origin)
            if one.origin in known and known[one.origin].unit == one.unit:
                followed += one.value == known[one.origin].value
    assert followed > 20


# A sum, a count or the largest of several rests on arithmetic alone.
ARITHMETIC = ("sum of ", "the largest of ", "weight ", "pieces /", "containers ·", "what is drunk")


def test_each_derivation_rests_on_a_source_that_is_listed(kit: Kit) -> None:
    listed = {source.id for source in kit.sources}
    for each in kit.derivations:
        assert set(each.sources) <= listed
        assert each.sources or each.formula.startswith(ARITHMETIC), each.figure


def test_each_derivation_is_one_tap_from_a_figure_on_a_page_or_from_another(
    kit: Kit, whole: Book
) -> None:
    linked = {
        found
        for text in whole.markdown.values()
        for found in re.findall(r"numbers\.md#(how-[^)]+)\)", text)
    }
    assert not [figure for figure in figures(kit) if anchor(figure) not in linked]


@pytest.mark.parametrize(
    ("page", "wanted"),
    [
        ("index.md", ["weights.food_g", "weights.water_most_g", "fuel.likely_g", "wood.likely_g",
                      "energy_need_kcal", "nutrition.energy_kcal", "weights.people.Bo.total_g"]),
        ("day-1.md", ["days.0.minutes", "days.0.energy_kcal", "days.0.energy_need_kcal",
                      "days.0.fuel_g", "days.0.wood_g", "days.0.boiling_point_c",
                      "days.0.time_factor", "days.0.water.drinking_ml", "days.0.water.drinks_ml",
                      "days.0.water.cooking_ml", "days.0.water.washing_ml",
                      "days.0.water.total_ml", "days.0.water.treat_ml", "days.0.water.carry_ml",
                      "days.0.people.Ea.to_drink_ml", "days.0.meals.0.minutes"]),
        ("cook/stew.md", ["days.0.meals.0.minutes", "days.0.meals.0.potfuls",
                          "days.0.meals.0.heat_kj", "days.0.meals.0.fuel_heat_kj"]),
        ("cook/pockets.md", ["days.0.meals.1.presses", "days.0.meals.1.wood_g"]),
        ("water.md", ["days.0.water.drinking_ml", "days.1.water.cooking_ml",
                      "days.0.people.Bo.to_drink_ml"]),
        ("fuel.md", ["fuel.likely_g", "fuel.carry_g", "wood.likely_g", "days.1.minutes"]),
        ("carry.md", ["weights.food_g", "weights.packaging_g", "weights.fuel_g",
                      "weights.gear_g", "weights.water_most_g", "weights.by_day_g.1",
                      "weights.people.Ea.total_g"]),
        ("drying.md", ["batches.0.residual_moisture", "batches.0.target_g",
                       "batches.0.water_removed_g", "batches.0.pack_g", "batches.0.best_before"]),
        ("person-ea.md", ["weights.people.Ea.total_g", "days.0.people.Ea.to_drink_ml"]),
    ],
)  # fmt: skip
def test_the_figures_of_a_page_lead_to_how_they_came_about(
    whole: Book, page: str, wanted: list[str]
) -> None:
    text = whole.markdown[page]
    missing = [figure for figure in wanted if f"numbers.md#{anchor(figure)})" not in text]
    assert not missing
