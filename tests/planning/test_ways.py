"""The ways to dry a food, against a sheet worked by hand: three kilograms of apples as bought.

2.70 kg of them go into the dryer (a tenth is core and stem) with 85.56 % of water; the sheet takes
200 runs of a heat dryer for 150, 400 of a freeze dryer for 3000, a tariff of 0.30.
"""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from builder.formulas.safety import HEATED_BEFORE_DRYING_C, POULTRY_HEATED_BEFORE_DRYING_C
from builder.model.content import Content
from builder.model.figure import Count, Figure, Found, Reckoned, Worked
from builder.model.gear import Dryer, Packaging
from builder.model.home import Home, NewBatch
from builder.planning.stock.checks import check
from builder.planning.ways import Pays, Way, Ways, ways_to_change, ways_to_dry
from builder.record import replace
from tests.planning.folders import Record, food, hand

TODAY = datetime.date(2031, 6, 1)
APPLE = food("apple", "fruit", "raw", "water 85.56 g, carbohydrate 14 g", dry_as="apple")
HEAT = Dryer(
    "shelf-dryer",
    "Shelf dryer",
    "dehydrator",
    3000.0,
    12.0,
    price=150.0,
    lasts_runs=200.0,
    runs_a_year=20.0,
)
FREEZE = Dryer(
    "home-freeze-dryer",
    "Freeze dryer",
    "freeze-dryer",
    5000.0,
    30.0,
    ice_g=4000.0,
    price=3000.0,
    lasts_runs=400.0,
    runs_a_year=40.0,
)
BAG = Packaging("bag", "Bag", 8.0, "zip-bag", price=0.25)


def content(
    folder: Path,
    *dryers: Dryer,
    home: Home | None = None,
    batches: list[Record] | None = None,
    **told: Any,
) -> Content:
    """Give a home where apples cost 2.40 a kilogram, and 36.11 dried."""
    known = hand(folder, foods=[APPLE], batches=batches).content
    prices = {"refuse_share": 0.1, "price_per_kg": 2.4, "dried_price_per_kg": 36.1127, **told}
    apple = replace(known.foods["apple"], **prices)
    usual = Home(
        dryers=tuple(each.id for each in dryers),
        electricity_per_kwh=0.30,
        currency="EUR",
        new_batch=NewBatch("bag", kept_at_c=15.0),
        portion_g=487.35 / 8,
    )
    gear = replace(known.gear, dryers={each.id: each for each in dryers}, packaging={"bag": BAG})
    return replace(known, foods={**known.foods, "apple": apple}, gear=gear, home=home or usual)


def ways(known: Content, holds: str = "apple", fresh_g: float = 2700.0) -> Ways:
    return ways_to_dry(holds, fresh_g, known, check(known)[0], TODAY)


def way(found: Ways, name: str) -> Way:
    return next(each for each in found.ways if name in (each.dryer, each.dryer_name))


def pays(found: Ways, dryer: str, against: str) -> Pays:
    (only,) = (each for each in found.pays if (each.dryer, each.against) == (dryer, against))
    return only


def test_a_heat_dryer_costs_what_the_sheet_says(tmp_path: Path) -> None:
    heat = way(ways(content(tmp_path, HEAT)), "shelf-dryer")
    assert heat.dried_g == pytest.approx(487.35, abs=0.01)
    assert heat.energy_kwh == pytest.approx(4.4253, abs=1e-3)  # 2.21265 kg of water, 2 kWh/kg
    # 7.20 of apples, 1.3276 of current, 8 bags for 2.00, 0.75 of the dryer.
    assert heat.cost == pytest.approx(7.2 + 1.3276 + 2.0 + 0.75, abs=1e-3)
    assert heat.portion_cost == pytest.approx(11.2776 / 8, abs=1e-3)
    assert (heat.runs, heat.hours) == (1, 12)
    assert heat.room_ml == pytest.approx(487.35 / 0.364, abs=0.1)


def test_a_freeze_dryer_costs_what_the_sheet_says(tmp_path: Path) -> None:
    freeze = way(ways(content(tmp_path, FREEZE)), "home-freeze-dryer")
    assert freeze.dried_g == pytest.approx(397.84, abs=0.01)
    assert freeze.energy_kwh == pytest.approx(11.511, abs=1e-3)
    # 7.20 of apples, 3.453 of current, 7 bags for 1.75, 7.50 of the dryer.
    assert freeze.cost == pytest.approx(7.2 + 3.4532 + 1.75 + 7.5, abs=1e-3)
    # What it lost is 2302.16 ml; 0.9 of it comes back, and all of it is poured.
    assert freeze.water_back_ml == pytest.approx(2302.16, abs=0.01)
    assert freeze.soak_min == (2, 10)


def test_a_dryer_pays_against_buying_and_against_the_other(tmp_path: Path) -> None:
    found = ways(content(tmp_path, HEAT, FREEZE))
    # Bought: 0.48735 kg at 36.1127 are 17.60; own cost without the dryer is 10.5276.
    assert way(found, "bought").cost == pytest.approx(17.60, abs=1e-3)
    against_shop = pays(found, "shelf-dryer", "bought")
    assert against_shop.runs == 22 and against_shop.years == pytest.approx(1.1)
    # A freeze dryer's load costs 12.40 without the machine: more than the shelf dryer's.
    assert pays(found, "home-freeze-dryer", "shelf-dryer").runs is None
    # 3000 over 17.60 - 12.4032.
    assert pays(found, "home-freeze-dryer", "bought").runs == 578


def test_a_power_that_is_told_stands_for_the_guess(tmp_path: Path) -> None:
    heat = way(ways(content(tmp_path, replace(HEAT, power_w=500.0))), "shelf-dryer")
    assert heat.energy_kwh == pytest.approx(6.0)


@pytest.mark.parametrize(("fresh_g", "runs"), [(3000.0, 1), (3000.1, 2), (6000.1, 3)])
def test_runs_by_the_load(tmp_path: Path, fresh_g: float, runs: int) -> None:
    assert way(ways(content(tmp_path, HEAT), fresh_g=fresh_g), "shelf-dryer").runs == runs


@pytest.mark.parametrize(("ice_g", "runs"), [(2303.0, 1), (2302.0, 2)])
def test_runs_by_the_ice(tmp_path: Path, ice_g: float, runs: int) -> None:
    dryer = replace(FREEZE, ice_g=ice_g)
    assert way(ways(content(tmp_path, dryer)), "home-freeze-dryer").runs == runs


@pytest.mark.parametrize(
    ("told", "missing"),
    [
        ({"price_per_kg": None}, "price of apple"),
        ({"dryer": replace(HEAT, price=None)}, "price and lasts of shelf-dryer"),
        ({"dryer": replace(HEAT, lasts_runs=None)}, "price and lasts of shelf-dryer"),
        ({"home": Home(dryers=("shelf-dryer",), electricity_per_kwh=0.3)}, "price of zip-bag"),
        (
            {"home": Home(dryers=("shelf-dryer",), new_batch=NewBatch("bag"))},
            "electricity of home.yaml",
        ),
    ],
)
def test_what_was_not_told_is_never_nothing(
    tmp_path: Path, told: dict[str, Any], missing: str
) -> None:
    dryer = told.pop("dryer", HEAT)
    heat = way(ways(content(tmp_path, dryer, **told)), "shelf-dryer")
    assert heat.cost is None and heat.portion_cost is None
    assert heat.not_told == (missing,)


def test_nothing_pays_against_a_price_that_was_not_told(tmp_path: Path) -> None:
    found = ways(content(tmp_path, HEAT, dried_price_per_kg=None))
    only = pays(found, "shelf-dryer", "bought")
    assert (only.runs, only.years, only.not_told) == (None, None, ("dried_price of apple",))


@pytest.mark.parametrize(
    ("told", "missing"),
    [
        ({"price": None}, ("price of lasts-long", "price and lasts of shelf-dryer")),
        ({"lasts_runs": None}, ("price of lasts-long",)),
    ],
)
def test_whether_it_pays_waits_for_each_price_but_not_for_the_life_of_a_machine(
    tmp_path: Path, told: dict[str, Any], missing: tuple[str, ...]
) -> None:
    bag = replace(BAG, id="lasts-long", price=None)
    home = Home(dryers=("shelf-dryer",), electricity_per_kwh=0.3, new_batch=NewBatch(bag.id))
    known = content(tmp_path, replace(HEAT, **told), home=home)
    found = ways(replace(known, gear=replace(known.gear, packaging={bag.id: bag})))
    only = pays(found, "shelf-dryer", "bought")
    assert (only.runs, only.not_told) == (None, missing)


def test_a_machine_whose_life_was_not_told_may_still_pay(tmp_path: Path) -> None:
    found = ways(content(tmp_path, replace(HEAT, lasts_runs=None, runs_a_year=None)))
    only = pays(found, "shelf-dryer", "bought")
    assert (only.runs, only.years) == (22, None)


def test_own_batches_tell_what_comes_out(tmp_path: Path) -> None:
    own: Record = {"id": "own", "food": "apple", "method": "dehydrator", "done": "2031-01-01",
                   "fresh": "1000 g", "dried": "200 g", "packs": {"count": 1}}  # fmt: skip
    heat = way(ways(content(tmp_path, HEAT, batches=[own])), "shelf-dryer")
    # (0.1805^2 * 0.2) ^ (1/3) = 0.186779
    assert heat.dried_g == pytest.approx(2700 * 0.186779, abs=0.02)


def test_vitamin_c_is_a_range_with_its_source_and_of_fruit_and_vegetables_only(
    tmp_path: Path,
) -> None:
    known = content(tmp_path, HEAT, FREEZE)
    heat, freeze = (way(ways(known), name).vitamin_c for name in ("shelf-dryer", FREEZE.id))
    assert heat and (heat.least_share, heat.most_share, heat.source) == (0.01, 0.36, "usda-sr28")
    assert freeze and (freeze.least_share, freeze.most_share) == (0.44, 1.0)
    assert way(ways(known, "pulse"), "shelf-dryer").vitamin_c is None


@pytest.mark.parametrize(
    ("holds", "method", "cautions"),
    [
        ("apple", "dehydrator", ()),
        ("apple", "sun", ()),
        ("leaf", "sun", ("sun-dried-vegetables",)),
        ("stew-meat", "sun", ("sun-dried-meat",)),
        ("steak-raw", "dehydrator", ("jerky-not-heated",)),
        ("steak-raw", "sun", ("sun-dried-meat",)),
        ("mince-raw", "oven", ("raw-loose-dried",)),
        ("hen-raw", "dehydrator", ("raw-loose-dried",)),
        ("steak-raw", "freeze-dryer", ("raw-dried-animal-food",)),
        ("stew-meat", "freeze-dryer", ()),
        ("egg-cooked", "dehydrator", ("egg-and-dairy-by-heat",)),
        ("egg-cooked", "freeze-dryer", ()),
    ],
)
def test_each_way_says_what_it_cannot_do(
    tmp_path: Path, holds: str, method: Any, cautions: tuple[str, ...]
) -> None:
    dryer = replace(HEAT, id="it", method=method)
    found = way(ways(content(tmp_path, dryer), holds), "it")
    assert found.cautions == cautions
    assert len(found.cannot) == len(cautions)


@pytest.mark.parametrize(
    ("holds", "method", "heat_c"),
    [
        ("mince-raw", "oven", HEATED_BEFORE_DRYING_C),
        ("hen-raw", "dehydrator", POULTRY_HEATED_BEFORE_DRYING_C),
        ("mince-raw", "sun", None),  # no heat makes that good
        ("mince-raw", "freeze-dryer", None),
        ("stew-meat", "oven", None),
    ],
)
def test_raw_meat_is_heated_first_and_the_date_rests_on_it(
    tmp_path: Path, holds: str, method: Any, heat_c: float | None
) -> None:
    dryer = replace(HEAT, id="it", method=method)
    assert way(ways(content(tmp_path, dryer), holds), "it").heat_first_c == heat_c


def test_it_keeps_as_long_as_the_home_packs_and_keeps_it(tmp_path: Path) -> None:
    # Fruit keeps 12 months at 15 degC; a zip bag halves that.
    heat = way(ways(content(tmp_path, HEAT)), "shelf-dryer")
    assert heat.keeps_until == datetime.date(2031, 12, 1)


def test_water_gets_into_a_meal_as_labels_tell_it(tmp_path: Path) -> None:
    """Mushrooms soak as mushrooms; a meal that holds some, and what was bought, go by no food."""
    mushroom = food(
        "mushroom", "vegetable", "raw", "water 92 g, carbohydrate 6 g", dry_as="mushroom"
    )
    stew = {"id": "stew", "meal": ["dinner"], "serves": 2, "cook_in": "pot",
            "uses": [{"id": "mushroom", "food": "mushroom", "amount": "200 g"}],
            "steps": [{"do": "boil", "with": ["mushroom"], "water": "100 ml"}]}  # fmt: skip
    known = hand(tmp_path, foods=[mushroom], recipes=[stew]).content
    known = replace(known, gear=replace(known.gear, dryers={HEAT.id: HEAT}))
    assert way(ways(known, "mushroom"), HEAT.id).soak_min == (10, 30)
    assert way(ways(known, "mushroom"), "bought").soak_min is None
    assert way(ways(known, "stew"), HEAT.id).soak_min is None


# -- what may be changed --------------------------------------------------------------------------


def test_every_number_that_costs_hang_on_may_be_changed(tmp_path: Path) -> None:
    known = content(tmp_path, replace(HEAT, power_w=500.0), price_per_kg=None)
    found = ways_to_change("apple", 2700.0, known, check(known)[0], TODAY)
    told = {each.key: each.value for each in found.inputs}
    assert told == {
        "mass": 2700.0, "portion": 487.35 / 8, "electricity": 0.30, "bag": 0.25,
        "shelf-dryer price": 150.0, "shelf-dryer lasts": 200.0, "shelf-dryer runs-a-year": 20.0,
        "shelf-dryer power": 500.0, "apple food-price": None, "apple refuse": 0.1,
        "apple dried-price": 36.1127,
    }  # fmt: skip
    # Where a price is not told the way is not either, but hangs on it all the same.
    assert way(found.ways, "shelf-dryer").cost is None
    assert rests_on(way(found.asked, "shelf-dryer").portion_cost) == set(told) - {
        "shelf-dryer runs-a-year",
        "apple dried-price",
    }


def test_what_is_asked_is_what_is_told_where_all_is_told(tmp_path: Path) -> None:
    known = content(tmp_path, HEAT, FREEZE)
    found = ways_to_change("apple", 2700.0, known, check(known)[0], TODAY)
    assert found.ways == ways(known)
    for one, other in zip(found.ways.ways, found.asked.ways, strict=True):
        assert (one.cost, one.portion_cost, one.runs) == (
            other.cost,
            other.portion_cost,
            other.runs,
        )
    terms = pays(found.asked, "shelf-dryer", "bought").terms
    assert terms is not None and terms.after_runs == 22.0
    # After 22 runs the next 7.07 has just made up for 150.
    assert terms.saved(22.0) == pytest.approx(22 * (17.60 - 10.5276) - 150.0, abs=0.05)


def rests_on(value: object) -> set[str]:
    """Give the keys of the leaves that a figure rests on."""
    if isinstance(value, tuple):
        return set().union(*map(rests_on, value)) if value else set()
    if not isinstance(value, (Figure, Count)):
        return set()
    origin = value.origin
    if isinstance(origin, Found):
        return {origin.name} if origin.method == "asked on the page" else set()
    if isinstance(origin, Worked):
        return rests_on(tuple(given for _, given in origin.inputs))
    return rests_on(origin.parts) if isinstance(origin, Reckoned) else set()
