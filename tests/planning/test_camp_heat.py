"""Gas in the cold and irons on embers, on paper."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.formulas.gas_canister import left_pressure_kpa
from builder.model.kit import Kit
from builder.model.looks import ColdGas
from tests.planning.folders import GEAR, Record, day, day_trip, food, hand, looks_at, uses

COFFEE: Record = {
    "id": "coffee", "serves": 2, "cook_in": "pot", "uses": uses(tea_leaf="5 g"),
    "steps": [{"do": "boil", "with": ["tea-leaf"], "water": "500 ml"}],
}  # fmt: skip


def gas_kit(folder: Path, low: str, gear: Record | None = None, **changes: object) -> Kit:
    air = {"low": low, "high": "-50 degC" if low == "-68 degC" else "20 degC"}
    trip = day_trip(days=[day({"drinks": {"cook": "coffee"}}, air=air)], **changes)
    return hand(folder, trip, [COFFEE], gear=gear).kit()


def cold_gases(kit: Kit) -> list[ColdGas]:
    return [each for day in kit.days for each in day.cold_gases]


def test_a_cold_can_keeps_its_butane(tmp_path: Path) -> None:
    (look,) = cold_gases(gas_kit(tmp_path, "-5 degC"))
    mix = {"propane": 0.3, "butane": 0.7}
    # 1000 m: 89.9 kPa outside and 30 to spare.
    assert look.wanted_kpa == pytest.approx(119.9, abs=0.05)
    # Raoult at -10 °C: propane 345.3, butane 69.6 kPa; 30 % of the mass are 36.1 % of the moles.
    assert look.can_kpa == pytest.approx(0.361 * 345.3 + 0.639 * 69.6, rel=0.01)
    assert 0 < look.usable_share < 0.5
    # When so much is burnt, the pressure has just come down to what the burner wants.
    left = left_pressure_kpa(mix, look.usable_share, -10.0)
    assert left == pytest.approx(look.wanted_kpa, rel=1e-6)


def test_so_cold_that_nothing_comes(tmp_path: Path) -> None:
    (look,) = cold_gases(gas_kit(tmp_path, "-25 degC"))
    assert look.usable_share == 0


def liquid_fed() -> Record:
    burner: dict[str, Any] = {**GEAR["stoves"][0], "liquid_feed": True}
    return {**GEAR, "stoves": [burner]}


@pytest.mark.parametrize(
    ("low", "gear", "changes"),
    [
        ("20 degC", None, {}),
        ("-5 degC", liquid_fed(), {}),
        ("-68 degC", None, {}),  # beyond what was ever measured
        ("-5 degC", None, {"stove": {"use": "spirit-burner", "pots": ["small"]}}),
        ("-5 degC", None, {"stove": {"pots": ["small"]}, "fire": {"allowed": True}}),
    ],
)
def test_warmth_liquid_feed_and_other_fuels_leave_nothing_behind(
    low: str, gear: Record | None, changes: Record, tmp_path: Path
) -> None:
    assert cold_gases(gas_kit(tmp_path, low, gear, **changes)) == []


def test_a_day_that_ends_at_home_has_no_camp(tmp_path: Path) -> None:
    days = [
        day({"drinks": {"cook": "coffee"}}, air={"low": "-5 degC", "high": "0 degC"}, ends="home")
    ]
    assert cold_gases(hand(tmp_path, day_trip(days=days), [COFFEE]).kit()) == []


BREAD: Record = food("bread", "grain", "ready", "water 37 g, energy 260 kcal, carbohydrate 60 g")
TOAST: Record = {
    "id": "toast", "serves": 2, "cook_in": "iron", "uses": uses(bread="140 g"),
    "steps": [{"do": "press", "with": ["bread"], "each_side": "3 min", "pieces": 2}],
}  # fmt: skip


def irons_kit(folder: Path, irons: list[Record]) -> Kit:
    names = [iron["id"] for iron in irons]
    trip = day_trip(
        days=[day({"dinner": {"cook": "toast"}}, air={"low": "10 degC", "high": "20 degC"})],
        fire={"allowed": True, "irons": names},
    )
    return hand(folder, trip, [TOAST], foods=[BREAD], gear={**GEAR, "irons": irons}).kit()


IRON: Record = {"id": "one-iron", "name": "Iron", "mass": "1900 g", "face": "145 cm2"}


def test_embers_heat_an_iron_within_a_range(tmp_path: Path) -> None:
    (look,) = looks_at(irons_kit(tmp_path, [IRON]), "irons")
    # 1.9 kg · 0.46 kJ/(kg K) · 190 K = 166 kJ; 25 and 8 kW/m² on 0.0145 m².
    heat_kj = 1.9 * 0.46 * 190
    quick, slow = heat_kj / (25 * 0.0145) / 60, heat_kj / (8 * 0.0145) / 60
    assert look.heats_min == pytest.approx((quick, slow))
    # Two sides of 3 min, one to turn, and the heating that was left out.
    assert look.cold_press_min == pytest.approx((7 + quick, 7 + slow))


def test_the_slowest_of_several_irons_counts(tmp_path: Path) -> None:
    heavy = {**IRON, "id": "heavy", "mass": "3800 g"}
    (look,) = looks_at(irons_kit(tmp_path, [IRON, heavy]), "irons")
    heat_kj = 1.9 * 0.46 * 190
    assert look.heats_min == pytest.approx(
        (heat_kj / (25 * 0.0145) / 60, 2 * heat_kj / (8 * 0.0145) / 60)
    )


@pytest.mark.parametrize("changes", [{"face": None}, {"material": "aluminium"}])
def test_an_iron_that_tells_no_face_or_is_not_of_cast_iron_has_no_time(
    changes: Record, tmp_path: Path
) -> None:
    assert looks_at(irons_kit(tmp_path, [{**IRON, **changes}]), "irons") == ()


def test_irons_that_press_nothing_are_not_heated(tmp_path: Path) -> None:
    trip = day_trip(fire={"allowed": True, "irons": ["one-iron"]})
    kit = hand(tmp_path, trip, gear={**GEAR, "irons": [IRON]}).kit()
    assert looks_at(kit, "irons") == ()


BILLY: Record = {
    "id": "porridge", "serves": 2, "cook_in": "pot", "uses": uses(kernel="100 g"),
    "steps": [{"do": "boil", "with": ["kernel"], "water": "800 ml"}],
}  # fmt: skip


def fire_kit(folder: Path, press: bool = False, **fire: object) -> Kit:
    meals: Record = {"breakfast": {"cook": "porridge"}}
    recipes = [BILLY]
    if press:
        meals["dinner"] = {"cook": "toast"}
        recipes.append(TOAST)
    told = {"allowed": True, "pots": ["large"], "irons": ["one-iron"], **fire}
    trip = day_trip(days=[day(meals)], stove=None, fire=told)
    return hand(folder, trip, recipes, foods=[BREAD]).kit()


def test_wood_differs_by_its_tree(tmp_path: Path) -> None:
    kit = fire_kit(tmp_path, wood_moisture="15 %")
    heat_kj = kit.days[0].fuel.meals_kj
    # The design's 18.5 MJ/kg at 15 %; logs at 15 %: willow 3.76 and spruce 4.49 kWh/kg.
    assert kit.wood_g == pytest.approx(heat_kj / (18.5 * 0.85 - 2.443 * 0.15))
    assert kit.wood_by_species_g == pytest.approx((heat_kj / (4.49 * 3.6), heat_kj / (3.76 * 3.6)))


def test_embers_for_irons_go_by_weight_whatever_the_tree(tmp_path: Path) -> None:
    pot, both = fire_kit(tmp_path / "pot"), fire_kit(tmp_path / "both", press=True)
    embers_g = both.wood_g - pot.wood_g
    assert pot.wood_by_species_g is not None
    assert both.wood_by_species_g == pytest.approx(
        tuple(end + embers_g for end in pot.wood_by_species_g)
    )
    low, high = pot.wood_by_species_g
    assert low < pot.wood_g < high


def test_a_tree_that_is_told_gives_its_own_heat_and_no_range(tmp_path: Path) -> None:
    kit = fire_kit(tmp_path, wood="birch", wood_moisture="15 %")
    assert kit.wood_g == pytest.approx(kit.days[0].fuel.meals_kj / (4.01 * 3.6))
    assert kit.wood_by_species_g is None


def test_irons_alone_leave_no_range(tmp_path: Path) -> None:
    assert irons_kit(tmp_path, [IRON]).wood_by_species_g is None
