"""Guides for warm air and loads of dryers, on paper."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.formulas.safety import HEATED_BEFORE_DRYING_C, POULTRY_HEATED_BEFORE_DRYING_C
from builder.model.kit import Kit
from tests.planning.folders import GEAR, Record, day, day_trip, food, hand, looks_at, uses

ROOT: Record = food(
    "root",
    "vegetable",
    "raw",
    "water 88 g, protein 1 g, carbohydrate 10 g, fibre 3 g",
    dry_as="carrot",
    density="0.5 g/ml",
)
BULB: Record = food(
    "bulb",
    "vegetable",
    "raw",
    "water 89 g, protein 1 g, carbohydrate 9 g, fibre 2 g",
    dry_as="onion",
)
STONE: Record = food(
    "stone-fruit", "fruit", "raw", "water 86 g, protein 1 g, carbohydrate 12 g", dry_as="apricot"
)
POT: Record = {
    "id": "pot", "serves": 2, "cook_in": "pot",
    "steps": [{"do": "boil", "water": "400 ml"}, {"do": "simmer", "minutes": 5}],
}  # fmt: skip


def kit_of(folder: Path, amounts: Record, batches: list[Record] | None = None) -> Kit:
    """Plan a pot of foods; the steps put all of them in."""
    lines = uses(**amounts)
    steps = [{**POT["steps"][0], "with": [line["food"] for line in lines]}, POT["steps"][1]]
    recipe = {**POT, "uses": lines, "steps": steps, "reach": "74 degC"}
    dinner: Record = {"cook": "pot"}
    if batches:
        dinner["from"] = {batch["food"]: batch["id"] for batch in batches}
    return hand(
        folder,
        day_trip(days=[day({"dinner": dinner})]),
        [recipe],
        batches,
        foods=[ROOT, BULB, STONE],
    ).kit()


def test_what_is_still_to_dry_has_its_guide(tmp_path: Path) -> None:
    (guide,) = kit_of(tmp_path, {"root": "40 g dehydrator"}).guides
    # Extension: 130 to 140 degF, steam 3 to 4 min, boil 3 to 3.5, 6 to 10 h.
    assert (guide.name, guide.method, guide.kind, guide.form) == (
        "root",
        "dehydrator",
        "vegetable",
        "slices",
    )
    assert guide.air_c == (54.4, 60)
    assert guide.hours == (6, 10)
    assert (guide.steam_min, guide.boil_min) == ((3, 4), (3, 3.5))
    assert guide.pieces_mm == (3, 6)
    assert guide.heat_to_c is None
    assert set(guide.sources) == {
        "nchfp-packaging",
        "uga-drying-hours",
        "common-practice",
        "extension-blanching",
    }


def test_an_onion_is_not_blanched_and_a_kind_stands_in_where_no_food_is_told(
    tmp_path: Path,
) -> None:
    kit = kit_of(
        tmp_path, {"bulb": "20 g oven", "leaf": "20 g dehydrator", "berry": "20 g dehydrator"}
    )
    guides = {each.name: each for each in kit.guides}
    assert guides["bulb"].steam_min is None and guides["bulb"].hours == (3, 10)
    assert "extension-blanching" in guides["bulb"].sources
    assert guides["leaf"].hours == (6, 16)
    assert "extension-blanching" not in guides["leaf"].sources
    assert guides["berry"].hours == (6, 36)


def test_what_is_cooked_goes_by_its_kind_and_is_not_blanched(tmp_path: Path) -> None:
    """The rows of a food are those of raw pieces."""
    boiled = {**ROOT, "id": "root-boiled", "state": "cooked"}
    told = [
        {"food": name, "amount": "20 g", "dried_by": "dehydrator"}
        for name in ("root", "root-boiled")
    ]
    steps = [{"do": "boil", "water": "400 ml", "with": ["root", "root-boiled"]}]
    trip = day_trip(days=[day({"dinner": {"cook": "pot"}})])
    kit = hand(tmp_path, trip, [{**POT, "uses": told, "steps": steps}], foods=[ROOT, boiled]).kit()
    raw, cooked = sorted(kit.guides, key=lambda each: each.steam_min is None)
    assert (raw.steam_min, raw.boil_min, raw.hours) == ((3, 4), (3, 3.5), (6, 10))
    assert (cooked.steam_min, cooked.boil_min, cooked.hours) == (None, None, (6, 16))
    assert "extension-blanching" not in cooked.sources


def test_halves_have_no_thickness(tmp_path: Path) -> None:
    (guide,) = kit_of(tmp_path, {"stone_fruit": "30 g dehydrator"}).guides
    assert (guide.form, guide.pieces_mm, guide.hours) == ("halves", None, (24, 36))


@pytest.mark.parametrize(
    ("name", "kind", "form", "heat_to_c"),
    [
        ("mince_raw", "jerky", "layer", HEATED_BEFORE_DRYING_C),
        ("deer_raw", "jerky", "slices", POULTRY_HEATED_BEFORE_DRYING_C),
        ("hen_raw", "jerky", "slices", POULTRY_HEATED_BEFORE_DRYING_C),
        ("trout_raw", "jerky", "slices", HEATED_BEFORE_DRYING_C),
        ("stew_meat", "cooked-meat", "slices", None),
        ("pulse", "legume", "single", None),
        ("mint", "herb", "single", None),
    ],
)
def test_each_kind_has_its_rows(
    name: str, kind: str, form: str, heat_to_c: float | None, tmp_path: Path
) -> None:
    (guide,) = kit_of(tmp_path, {name: "40 g dehydrator"}).guides
    assert (guide.kind, guide.form, guide.heat_to_c) == (kind, form, heat_to_c)
    assert ("umn-jerky" in guide.sources) == (kind == "jerky")


@pytest.mark.parametrize("amounts", [{"root": "40 g freeze-dryer"}, {"egg_raw": "40 g dehydrator"}])
def test_no_guide_for_freeze_drying_nor_for_what_warm_air_is_no_way_to_dry(
    amounts: Record, tmp_path: Path
) -> None:
    assert kit_of(tmp_path, amounts).guides == ()


def test_a_whole_meal_is_spread_thin(tmp_path: Path) -> None:
    stew = {
        **POT,
        "id": "stew",
        "uses": uses(pulse="200 g"),
        "steps": [
            {"do": "boil", "with": ["pulse"], "water": "200 ml"},
        ],
    }
    recipe = {
        **POT,
        "uses": [{"recipe": "stew", "amount": "80 g", "dried_by": "dehydrator"}],
        "steps": [{"do": "boil", "with": ["stew"], "water": "300 ml"}],
    }
    trip = day_trip(days=[day({"dinner": {"cook": "pot"}})])
    (guide,) = hand(tmp_path, trip, [stew, recipe]).kit().guides
    assert (guide.kind, guide.form, guide.pieces_mm) == ("meal", "layer", (3, 6))


def test_a_food_dried_twice_is_told_once(tmp_path: Path) -> None:
    batch = {"id": "roots", "food": "root", "method": "dehydrator", "done": "2031-05-01",
             "fresh": "1000 g", "dried": "128 g", "packs": {"count": 4}}  # fmt: skip
    kit = kit_of(tmp_path, {"root": "20 g dehydrator", "bulb": "9 g dehydrator"}, [batch])
    assert [guide.name for guide in kit.guides] == ["bulb", "root"]


def loaded(folder: Path, shelf: Record, **changes: object) -> Kit:
    batch = {"id": "roots", "food": "root", "method": shelf["method"], "done": "2031-05-01",
             "fresh": "3000 g", "dried": "380 g", "packs": {"count": 4}, "dryer": shelf["id"],
             **changes}  # fmt: skip
    recipe = {
        **POT,
        "uses": [{"food": "root", "amount": "40 g", "dried_by": shelf["method"]}],
        "steps": [{"do": "boil", "with": ["root"], "water": "300 ml"}],
    }
    trip = day_trip(days=[day({"dinner": {"cook": "pot", "from": "roots"}})])
    gear = {**GEAR, "dryers": [shelf]}
    return hand(folder, trip, [recipe], [batch], foods=[ROOT], gear=gear).kit()


SHELF: Record = {
    "id": "shelf",
    "name": "Shelf",
    "method": "dehydrator",
    "load": "2.5 kg",
    "hours": 12,
}
COLD: Record = {"id": "cold", "name": "Cold", "method": "freeze-dryer", "load": "4 kg",
                "hours": 30, "ice": "2.5 kg", "trays": "0.48 m2"}  # fmt: skip


def test_a_load_is_held_against_its_dryer(tmp_path: Path) -> None:
    (load,) = looks_at(loaded(tmp_path, SHELF), "load")
    assert load.of_limit == pytest.approx(3000 / 2500)
    assert (load.dryer, load.listed_hours) == ("Shelf", 12)
    assert (load.layer_mm, load.ice_gone_h, load.freezing_kwh) == (None, None, None)


def test_a_freeze_dryer_is_full_of_ice_before_its_trays_are(tmp_path: Path) -> None:
    (load,) = looks_at(loaded(tmp_path, COLD, loaded_at="15 degC"), "load")
    # 2620 g of water against 2.5 kg of ice; 3000 g against 4 kg of load.
    assert load.of_limit == pytest.approx(2620 / 2500)
    # 3000 g at 0.5 g/ml are 6000 ml on 4800 cm²: 1.25 cm, which took 14 to 18 h.
    assert load.layer_mm == pytest.approx(12.5)
    assert load.ice_gone_h == pytest.approx((14, 18))
    # Siebel, 88 % water: to 0 °C, to ice, to -20 °C.
    water = 0.88
    kj = 3 * ((3.35 * water + 0.84) * 15 + 333.55 * water + (1.26 * water + 0.84) * 20)
    assert load.freezing_kwh == pytest.approx(kj / 3600, rel=1e-6)


def test_a_frozen_load_costs_the_machine_no_freezing_and_a_thick_one_no_hours(
    tmp_path: Path,
) -> None:
    thick = {**COLD, "trays": "0.1 m2"}
    (load,) = looks_at(loaded(tmp_path, thick, loaded_at="-18 degC"), "load")
    assert load.layer_mm == pytest.approx(60)
    assert (load.ice_gone_h, load.freezing_kwh) == (None, None)


def test_a_batch_that_names_no_dryer_has_no_load(tmp_path: Path) -> None:
    assert looks_at(loaded(tmp_path, SHELF, dryer=None), "load") == ()


def test_guides_and_loads_name_their_sources(tmp_path: Path) -> None:
    kit = loaded(tmp_path, SHELF)
    named = {source.id for source in kit.sources}
    assert {"nchfp-packaging", "extension-blanching", "csu-drying-vegetables"} <= named
    assert {"siebel1892", "freeze-drying-chapter"} <= named
