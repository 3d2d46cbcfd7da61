"""kit.json: the names that stay, unrounded numbers, and the schema that describes them."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest

from builder.model import looks
from builder.model.kit import Kit
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.origins.kit_json import kit_data
from builder.record import MISSING, fields, replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit

SCHEMA = json.loads((TEMPLATES / "kit.schema.json").read_text(encoding="utf-8"))

# The names that every version of a kit keeps, as promised to whoever reads kit.json.
KEPT: dict[str, object] = {
    "format": 0, "version": 0,
    "trip": {"id": 0, "title": 0, "start": 0, "party": [{"name": 0, "energy_share": 0}]},
    "days": [{
        "day": 0, "date": 0, "camp_altitude_m": 0, "pressure_hpa": 0, "boiling_point_c": 0,
        "time_factor": 0,
        "meals": [{
            "meal": 0, "recipe": 0, "food": 0, "eaters": 0, "mass_g": 0, "energy_kcal": 0,
            "water_ml": 0, "soak_water_ml": 0, "potfuls": 0, "presses": 0, "heat_kj": 0,
            "fuel_heat_kj": 0, "minutes": 0,
        }],
        "energy_kcal": 0, "energy_need_kcal": 0,
        "water": {
            "cooking_ml": 0, "drinks_ml": 0, "drinking_ml": 0, "washing_ml": 0, "total_ml": 0,
            "carry_ml": 0, "treat_ml": 0,
        },
        "fuel_g": 0, "wood_g": 0,
    }],
    "fuel": {"id": 0, "likely_g": 0, "carry_g": 0, "containers": [{"holds_g": 0, "count": 0}]},
    "wood": {"likely_g": 0},
    "batches": [{
        "id": 0, "water_removed_g": 0, "residual_moisture": 0, "dry_enough": 0, "best_before": 0,
        "packs_left": 0,
    }],
    "weights": {
        "food_g": 0, "packaging_g": 0, "fuel_g": 0, "gear_g": 0, "water_most_g": 0,
        "people": [{
            "name": 0, "total_g": 0, "of_limit": 0, "carries": [{"what": 0, "mass_g": 0}],
        }],
        "by_day_g": [0],
    },
    "cautions": [{"id": 0, "level": 0, "text": 0, "because": 0, "where": 0, "sources": [0]}],
    "shopping": [{"food": 0, "mass_g": 0}],
}  # fmt: skip


def assert_holds(data: object, kept: object, at: str = "") -> None:
    """Fail where a promised name is missing."""
    if isinstance(kept, dict):
        assert isinstance(data, dict), at
        for name, inner in kept.items():
            assert name in data, f"{at}.{name}"
            assert_holds(data[name], inner, f"{at}.{name}")
    elif isinstance(kept, list):
        assert isinstance(data, list), at
        for each in data:
            assert_holds(each, kept[0], f"{at}[]")


def assert_described(schema: dict[str, Any], kept: object, at: str = "") -> None:
    """Fail where the schema does not require a promised name."""
    if "$ref" in schema:
        schema = SCHEMA["$defs"][schema["$ref"].rpartition("/")[2]]
    if isinstance(kept, dict):
        for name, inner in kept.items():
            assert name in schema["required"], f"{at}.{name}"
            assert_described(schema["properties"][name], inner, f"{at}.{name}")
    elif isinstance(kept, list):
        assert_described(schema["items"], kept[0], f"{at}[]")


def without_dates(kit: Kit) -> Kit:
    days = tuple(replace(day, date=None) for day in kit.days)
    return replace(kit, start=None, days=days)


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize(
    "kit",
    [
        sample_kit(),
        without_dates(sample_kit()),
        replace(sample_kit(), fuels=(), batches=(), cautions=(), shopping=()),
    ],
    ids=["whole", "no dates", "no fuel"],
)
def test_data_is_as_the_schema_says_and_keeps_its_names(kit: Kit) -> None:
    data = json.loads(write_book(kit, TEMPLATES).files["kit.json"])
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert_holds(data, KEPT)


def test_the_schema_requires_the_names_that_stay() -> None:
    assert_described(SCHEMA, KEPT)


def test_a_name_that_the_schema_does_not_know_is_refused() -> None:
    data = {**kit_data(sample_kit()), "extra": 1}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(SCHEMA).validate(data)


def test_numbers_are_not_rounded_and_dates_are_iso(book: Book) -> None:
    data = json.loads(book.files["kit.json"])
    assert data["days"][0]["meals"][2]["soak_water_ml"] == 290.5
    assert data["weights"]["people"][0]["of_limit"] == 11800 / 14000
    assert data["trip"]["start"] == "2031-09-04"
    assert data["batches"][0]["best_before"] == "2041-03-14"
    assert data["batches"][1]["best_before"] is None


def test_a_trip_without_a_start_has_null_dates() -> None:
    data = kit_data(without_dates(sample_kit()))
    trip, days = data["trip"], data["days"]
    assert isinstance(trip, dict) and isinstance(days, list)
    assert trip["start"] is None
    assert {day["date"] for day in days} == {None}


def test_second_looks_are_told_whole(book: Book) -> None:
    data = json.loads(book.files["kit.json"])
    (ash, _), (first, _) = data["trip"]["party"], data["days"]
    oats, nuts, beans = first["meals"]
    assert ash["energy_by_method"]["kcal_by_source"]["nasem2023"] == 2386.3
    assert beans["steps"][3]["keeps_hot"]["bare_c"] == [57.6, 64.7, 69.8]
    assert "keeps_hot" not in beans["steps"][0]
    assert nuts["label"]["only_energy"] is True and "only_energy" in oats["label"]


def test_batches_and_fuel_tell_how_sure_they_are(book: Book) -> None:
    data = json.loads(book.files["kit.json"])
    beans, apples = data["batches"]
    assert (beans["residual_low"], beans["residual_high"]) == (0.02, 0.0606)
    assert beans["run"] is None and beans["water_activity"] is None
    assert apples["run"]["weighed"][0] == {"at_min": 120, "mass_g": 1402}
    assert (data["fuel"]["low_g"], data["fuel"]["high_g"]) == (52.4, 64.1)
    assert data["fuel"]["test"]["from_c"] == 9


@pytest.mark.parametrize(
    ("name", "look"),
    [
        ("label", looks.MealLabel),
        ("person_food", looks.PersonFood),
        ("sweat", looks.Sweating),
        ("energy_by_method", looks.EnergyLook),
        ("keeps_hot", looks.KeepsHot),
        ("treating", looks.Treating),
        ("snow", looks.SnowWork),
        ("oxygen", looks.PackOxygen),
        ("guide", looks.DryingGuide),
        ("dryer_load", looks.DryerLoad),
        ("soaking", looks.Soaking),
        ("cold_gas", looks.ColdGas),
        ("irons", looks.IronHeat),
        ("needs_more", looks.NeedMore),
        ("under_pressure", looks.UnderPressure),
    ],
)
def test_the_schema_knows_every_name_of_the_looks(name: str, look: type) -> None:
    described = SCHEMA["$defs"][name]
    told = {each.name: each for each in fields(look)}
    assert set(described["properties"]) == set(told)
    always = {key for key, each in told.items() if each.default is MISSING}
    assert always <= set(described["required"])
