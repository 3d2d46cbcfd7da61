"""Second looks on paper: labels, protein, other methods, standing pots, treatment, snow, packs."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from builder.model.kit import Kit
from tests.planning.folders import FOODS, GEAR, Record, boils_c, day, day_trip, hand, looks_at

STEW: Record = {
    "id": "stew",
    "serves": 2,
    "cook_in": "pot",
    "uses": [{"food": "pulse", "amount": "200 g"}, {"food": "oil", "amount": "20 g"}],
    "steps": [
        {"do": "boil", "with": ["pulse", "oil"], "water": "400 ml"},
        {"do": "rest", "minutes": 10, "lid": True},
    ],
}


def stew_kit(folder: Path, **changes: object) -> Kit:
    dinner = {"dinner": {"cook": "stew"}}
    return hand(folder, day_trip(days=[day(dinner, **changes)]), [STEW]).kit()


def test_a_label_is_that_of_100_g_as_carried(tmp_path: Path) -> None:
    (label,) = looks_at(stew_kit(tmp_path), "label")
    # 200 g pulse (10 p, 1 f, 28 c with 8 fibre, 10 mg Na) and 20 g oil (100 f) are 220 g.
    protein, fat = 20 / 2.2, (2 + 20) / 2.2
    carbohydrate, fibre = 56 / 2.2, 16 / 2.2
    # EU 1169/2011, Annex XIV: 17, 37, 17, 8 kJ.
    kj = 17 * protein + 37 * fat + 17 * (carbohydrate - fibre) + 8 * fibre
    assert label.energy_kj == round(kj)
    assert label.portion_g == 110
    assert label.protein_g == pytest.approx(protein, abs=0.05)
    assert label.carbohydrate_g == pytest.approx(carbohydrate - fibre, abs=0.5)
    assert label.salt_g == pytest.approx(20 / 2.2 * 2.5 / 1000, abs=0.005)
    # US: 4, 9, 4 on all carbohydrate, to the next 10.
    assert label.us_calories == round((4 * 20 + 9 * 22 + 4 * 56) / 2 / 10) * 10


def test_protein_is_shared_as_plates_are(tmp_path: Path) -> None:
    kit = stew_kit(tmp_path)
    shares = {person.name: person.energy_share / 2 for person in kit.party}
    eaten = {person.name: person.food for person in kit.party if person.food}
    for name, food in eaten.items():
        assert food.protein_g == pytest.approx(20 * shares[name])
    # 0.83 g for each kg.
    needs = {name: round(food.protein_need_g, 1) for name, food in eaten.items()}
    assert needs == {"Ea": 49.8, "Bo": 66.4}


def test_energy_is_told_by_three_methods_with_their_spread(tmp_path: Path) -> None:
    kit = stew_kit(tmp_path)
    for person in kit.party:
        look = person.energy_by_method
        assert look is not None
        found = dict(look.kcal_by_source)
        assert set(found) == {"schofield1985", "nasem2023", "mifflin1990"}
        own = kit.days[0].person(person.name)
        assert found["schofield1985"] == pytest.approx(own.energy_need_kcal)
        mean = sum(found.values()) / 3
        assert look.spread_share == pytest.approx(
            (max(found.values()) - min(found.values())) / mean
        )


def test_a_pot_cools_by_newton_and_slower_in_a_cosy(tmp_path: Path) -> None:
    kit = stew_kit(tmp_path)
    look = kit.days[0].meals[0].steps[1].keeps_hot
    minutes = 10 * kit.days[0].conditions.time_factor
    assert look is not None
    # 620 g: pulse 200 · 60 % water and 400 ml make 520 g of water. Siebel: 3.35 w + 0.84.
    mass_g, water_g = 620.0, 520.0
    specific = 3.35 * water_g / mass_g + 0.84
    # A lidded pot of 600 g loses 1.0 W/K, its surface grows with mass to the power 2/3.
    loss = 1.0 * (mass_g / 600) ** (2 / 3)
    tau_min = mass_g * specific / loss / 60
    start = boils_c(1000)
    assert look.bare_c[1] == pytest.approx(5 + (start - 5) * math.exp(-minutes / tau_min), abs=0.05)
    assert look.bare_c[0] < look.bare_c[1] < look.bare_c[2] < look.cosy_c[1]
    assert look.bare_above_60_min == pytest.approx(
        tau_min * math.log((start - 5) / (60 - 5)), rel=1e-3
    )


def test_what_stands_before_it_is_boiled_is_not_said_to_keep_hot(tmp_path: Path) -> None:
    wet = {"do": "mix", "with": ["pulse"], "water": "200 ml"}
    rest = {"do": "rest", "minutes": 90}
    soaked = {**STEW, "steps": [wet, rest, {"do": "boil"}, rest]}
    kit = hand(tmp_path, day_trip(days=[day({"dinner": {"cook": "stew"}})]), [soaked]).kit()
    steps = kit.days[0].meals[0].steps
    assert [each.keeps_hot is not None for each in steps] == [False, False, False, True]


def test_a_mug_and_a_cold_pot_do_not_stand(tmp_path: Path) -> None:
    mug = {**STEW, "cook_in": "mug"}
    kit = hand(tmp_path, day_trip(days=[day({"dinner": {"cook": "stew"}})]), [mug]).kit()
    assert looks_at(kit, "keeps_hot") == ()


@pytest.mark.parametrize(("at", "drops", "contact"), [("8 degC", 4, 60.0), ("12 degC", 2, 30.0)])
def test_treatment_amounts_follow_the_cold_of_the_water(
    at: str, drops: int, contact: float, tmp_path: Path
) -> None:
    water = {"camp": "lake", "treat": "chemical", "at": at, "between_water": "2 h"}
    (look,) = looks_at(stew_kit(tmp_path, water=water), "treating")
    assert (look.drops_per_litre, look.contact_min) == (drops, contact)
    # 1000 m: one minute by the CDC; the EPA's leaflet asks three above 1000 m.
    assert (look.boil_min, look.strict_boil_min) == (1.0, 1.0)


def test_tap_water_and_filtered_water_need_no_drops(tmp_path: Path) -> None:
    for source, treat in (("tap", "chemical"), ("lake", "filter")):
        water = {"camp": source, "treat": treat, "between_water": "2 h"}
        assert looks_at(stew_kit(tmp_path / source, water=water), "treating") == ()


def test_snow_fills_many_pots(tmp_path: Path) -> None:
    water = {"camp": "snow", "treat": "none", "between_water": "2 h"}
    kit = stew_kit(tmp_path, water=water, air={"low": "-8 degC", "high": "-2 degC"})
    (look,) = looks_at(kit, "snow")
    litres = kit.days[0].water.total_ml / 1000
    assert look.firm_l == pytest.approx(litres * 1000 / 350)
    assert look.fluffy_l == pytest.approx(litres * 1000 / 70)
    # The larger pot takes 2 l at once.
    assert look.potfuls_fluffy == math.ceil(look.fluffy_l / 2 - 1e-9)


def test_sweat_is_told_only_within_its_equation(tmp_path: Path) -> None:
    warm = stew_kit(
        tmp_path / "warm",
        air={"low": "15 degC", "high": "28 degC"},
        travel={"by": "walking", "hours": 5, "distance": "14 km", "ascent": "300 m"},
    )
    assert [own.name for own in warm.days[0].people if own.sweat] == ["Ea", "Bo"]
    assert all(0 < look.dry_ml_h < look.damp_ml_h < 1500 for look in looks_at(warm, "sweat"))
    assert looks_at(stew_kit(tmp_path / "rest"), "sweat") == ()


def test_the_absorber_takes_the_oxygen_of_the_void(tmp_path: Path) -> None:
    pouch = {"id": "pouch", "name": "Pouch", "mass": "9 g", "barrier": "foil", "holds": "0.9 l"}
    gear = {**GEAR, "packaging": [*GEAR["packaging"], pouch]}
    batch = {"id": "dry-pulse", "food": "pulse", "method": "freeze-dryer", "done": "2031-05-01",
             "fresh": "1000 g", "dried": "410 g",
             "packs": {"count": 4, "in": "pouch", "absorber": True}}  # fmt: skip
    recipe = {
        **STEW,
        "uses": [{"food": "pulse", "amount": "100 g", "dried_by": "freeze-dryer"}],
        "steps": [{"do": "boil", "with": ["pulse"], "water": "400 ml"}],
    }
    dinner = {"dinner": {"cook": "stew", "from": "dry-pulse"}}
    kit = hand(tmp_path, day_trip(days=[day(dinner)]), [recipe], [batch], gear=gear).kit()
    (look,) = looks_at(kit, "oxygen")
    # 102.5 g at 1 − 0.4 · 1000/410 = 2.44 % moisture; dry solids weigh 1.5 g/ml.
    moisture = 1 - 0.4 * 1000 / 410
    solid_ml = 102.5 * ((1 - moisture) / 1.5 + moisture)
    assert look.oxygen_ml == pytest.approx(0.2095 * (900 - solid_ml), rel=1e-6)
    assert look.absorber_ml == 200


def test_bags_swell_as_the_air_gets_thin(tmp_path: Path) -> None:
    # ISO 2533: 1013.25 hPa at the sea, 898.76 hPa at 1000 m.
    assert stew_kit(tmp_path).bags_swell_times == pytest.approx(1013.25 / 898.76, rel=1e-4)


def test_a_packet_that_tells_only_its_energy_is_not_said_to_hold_nothing(tmp_path: Path) -> None:
    snack = {"eat": "Fudge", "each": "40 g", "energy": "430 kcal"}
    days = [day({"dinner": {"cook": "stew"}, "snacks": snack})]
    kit = hand(tmp_path, day_trip(days=days), [STEW]).kit()
    labels = {meal.title: meal.label for meal in kit.days[0].meals if meal.label}
    fudge = labels["Fudge"]
    assert fudge.only_energy and not labels["stew"].only_energy
    assert (fudge.energy_kcal, fudge.energy_kj) == (430, round(430 * 4.184))
    assert fudge.us_calories == 170  # 172, to the next 10
    # 200 g of pulse at 160 kcal, 20 g of oil at 900 kcal, and 80 g of fudge.
    assert kit.density_kcal_g == pytest.approx((320 + 180 + 344) / 300)


def test_looks_name_their_sources(tmp_path: Path) -> None:
    named = {source.id for source in stew_kit(tmp_path).sources}
    assert {"eu-1169-2011", "cfr-101-9", "efsa-protein-2012", "nasem2023"} <= named


def frozen_kit(folder: Path, **changes: object) -> Kit:
    root = {**FOODS[0], "id": "root", "name": "root", "sorption": "starchy"}
    batch = {"id": "dry-root", "food": "root", "method": "freeze-dryer", "done": "2031-05-01",
             "fresh": "1000 g", "dried": "418 g", "packs": {"count": 4}, **changes}  # fmt: skip
    recipe = {
        **STEW,
        "uses": [{"food": "root", "amount": "100 g", "dried_by": batch["method"]}],
        "steps": [{"do": "boil", "with": ["root"], "water": "400 ml"}],
    }
    dinner = {"dinner": {"cook": "stew", "from": "dry-root"}}
    trip = day_trip(days=[day(dinner)])
    return hand(folder, trip, [recipe], [batch], foods=[root]).kit()


@pytest.mark.parametrize(("loaded_at", "warmed_k"), [("-30 degC", 10.0), (None, 0.0)])
def test_a_freeze_dryer_takes_at_least_the_heat_of_its_ice(
    loaded_at: str | None, warmed_k: float, tmp_path: Path
) -> None:
    changes = {"loaded_at": loaded_at} if loaded_at else {}
    (batch,) = frozen_kit(tmp_path, **changes).batches
    # 582 g of ice: 2.09 kJ/(kg K) to warm it to -20 degC, there 2838 kJ/kg to vapour.
    assert batch.sublimation_kwh == pytest.approx(0.582 * (2.09 * warmed_k + 2838) / 3600, rel=1e-3)
    assert batch.loaded_at_c == (-30.0 if loaded_at else None)


def test_a_load_that_is_not_frozen_counts_from_its_ice(tmp_path: Path) -> None:
    (batch,) = frozen_kit(tmp_path, loaded_at="5 degC").batches
    assert batch.sublimation_kwh == pytest.approx(0.582 * (2838 - 2.09 * 20) / 3600, rel=1e-3)


def test_heat_drying_sublimes_nothing(tmp_path: Path) -> None:
    assert frozen_kit(tmp_path, method="dehydrator").batches[0].sublimation_kwh == 0


def test_water_activity_is_told_with_the_doubt_of_the_moisture(tmp_path: Path) -> None:
    (batch,) = frozen_kit(tmp_path).batches
    assert batch.water_activity is not None
    assert batch.water_activity_low is not None and batch.water_activity_high is not None
    assert batch.water_activity_low < batch.water_activity < batch.water_activity_high
    # GAB with Xm 0.065, C 14, K 0.80 gives back the water of each gram of solids.
    reduced = 0.80 * batch.water_activity
    held = 0.065 * 14 * reduced / ((1 - reduced) * (1 - reduced + 14 * reduced))
    moisture = 1 - 0.4 * 1000 / 418
    assert held == pytest.approx(moisture / (1 - moisture), rel=1e-6)


def test_wetter_than_the_isotherm_has_no_water_activity(tmp_path: Path) -> None:
    (batch,) = frozen_kit(tmp_path, method="dehydrator", dried="900 g").batches
    assert batch.water_activity is None and batch.water_activity_high is None


def test_a_lid_saves_a_tenth_to_a_fifth(tmp_path: Path) -> None:
    fuel = stew_kit(tmp_path).fuel
    assert fuel is not None
    assert fuel.no_lid_low_g == pytest.approx(fuel.likely_g / 0.9)
    assert fuel.no_lid_high_g == pytest.approx(fuel.likely_g / 0.8)
