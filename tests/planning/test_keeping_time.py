"""How long a batch keeps, and why: each row of the table, each pack, each warmth."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from builder.model.batch import Batch, Heated, Stay
from builder.model.food import Composition, Food
from builder.planning.batches.keeping import Kept, Store, keeps_from, kept
from builder.planning.batches.verdict import Load, Ruling
from builder.planning.foods.substance import substance_of_food
from builder.record import replace
from builder.speech import speech_of

ENGLISH = speech_of("en")
DONE = datetime.date(2031, 1, 1)
COOL_C = 15.6
PROVEN: dict[str, Any] = {"tests": frozenset({"constant"})}


def store(
    kind: Any = "vegetable",
    state: Any = "cooked",
    method: Any = "dehydrator",
    *,
    barrier: str | None = "foil",
    absorber: bool = False,
    fat_g: float = 1.0,
    dry: bool = True,
    ruling: Ruling | None = None,
    low_oxygen: bool = False,
    in_dryer: bool = False,
    food: dict[str, Any] | None = None,
    **batch: Any,
) -> Store:
    made = replace(Food("it", "It", kind, state, Composition(water_g=90)), **(food or {}))
    told = {"done": DONE, "kept_at_c": COOL_C, "kept_at_told": True, **batch}
    load = Load(
        substance_of_food(made),
        Batch("it", method, food="it", **told),
        80.0,
        0.05,
        0.1,
        low_oxygen,
        in_dryer,
    )
    return Store(load, ruling or Ruling("dry"), barrier, absorber, fat_g, dry)


def of(store: Store) -> Kept:
    return kept(store, ENGLISH)


OVEN_AFTER = Heated(135, "after", 10)
FROZEN: dict[str, Any] = {"method": "freeze-dryer", "absorber": True, **PROVEN}

MONTHS: list[tuple[Store, float, str]] = [
    # by kind, at 15.6 °C
    (store(), 6, "vegetables, legumes, grain, herbs and meals without meat: 6 months at 15.6 °C"),
    (store("legume"), 6, "vegetables"),
    (store("fruit"), 12, "dried fruit: 12 months"),
    (store("nut"), 3, "nuts: 3 months"),
    (store("egg"), 1, "egg or dairy: 1 months"),
    (store("dairy"), 1, "egg or dairy"),
    (store("meat"), 1, "meat or fish, or a meal with it"),
    (store("fish"), 1, "meat or fish"),
    (store("meal", food={"contains": ("poultry",)}), 1, "meat or fish"),
    (store("meat", "raw"), 0.5, "raw meat or fish, dried, or jerky: 0.5 months"),
    (store("meat", "raw", heated=OVEN_AFTER), 1, "meat or fish, or a meal"),
    (store("meat", jerky=True), 0.5, "raw meat or fish, dried, or jerky"),
    (store("meat", "raw", "freeze-dryer"), 0.5, "raw meat or fish, dried"),
    (store("fish", "raw", "freeze-dryer", barrier="zip-bag"), 0.25, "raw meat or fish, dried"),
    # freeze-dried and packed tight with an absorber
    (store(**FROZEN), 120, "freeze-dried plant food: 120 months"),
    (store(**FROZEN, barrier="glass"), 120, "freeze-dried plant food"),
    (store(**FROZEN, barrier="can"), 120, "freeze-dried plant food"),
    (store("egg", **FROZEN), 36, "freeze-dried cooked meat, fish, egg or dairy: 36 months"),
    (store("dairy", **FROZEN), 36, "freeze-dried cooked meat"),
    (store("egg", "raw", **FROZEN), 12, "freeze-dried raw animal or very fat food: 12 months"),
    (store("egg", **FROZEN, fat_g=25.1), 6, "freeze-dried raw animal or very fat food"),
    (store("egg", **FROZEN, fat_g=25), 18, "freeze-dried cooked meat"),  # fat halves
    (store(**FROZEN, barrier="vacuum-bag"), 6, "vegetables"),
    (store(**FROZEN, barrier=None), 6, "vegetables"),
    (store(**FROZEN, dry=False), 6, "vegetables"),
    (store(**{**FROZEN, "absorber": False}), 6, "vegetables"),
    (store(**{**FROZEN, "method": "oven"}), 6, "vegetables"),
    # bags and fat halve, once for both
    (store(barrier="zip-bag"), 3, "a bag lets air and moisture in: half as long"),
    (store(barrier="paper"), 3, "a bag lets air and moisture in: half as long"),
    (store(barrier=None), 6, "vegetables"),
    (store(fat_g=10.1), 3, "fat (10 g in 100 g) turns rancid: half as long"),
    (store(fat_g=10), 6, "vegetables"),
    (store(barrier="paper", fat_g=40), 3, "a bag lets air"),
    (store("nut", fat_g=60), 3, "nuts: 3 months"),
    # a food's own months by the chart; freeze-dried food goes by its way of drying
    (store(food={"keeps_months": 4}), 4, "It: 4 months at 15.6 °C"),
    (store(**FROZEN, food={"keeps_months": 4}), 120, "freeze-dried plant food"),
    # half as long for each 11.1 K warmer
    (store(kept_at_c=26.7), 3, "kept at 27 °C, warmer than 15.6 °C: shorter"),
    (store(kept_at_c=20, kept_at_told=False), 6 * 2 ** (-4.4 / 11.1),
     "nobody wrote down how warm it is kept: counted with 20 °C"),
    # A fridge is not counted, a freezer is.
    (store(kept_at_c=4.5), 6, "vegetables"),
    (store(kept_at_c=-17.9), 6, "vegetables"),
    (store(kept_at_c=-18), 6 * 2 ** (33.6 / 11.1), "kept frozen at −18 °C: longer"),
]  # fmt: skip


@pytest.mark.parametrize(("store", "months", "reason"), MONTHS)
def test_a_batch_keeps_by_kind_pack_and_warmth(store: Store, months: float, reason: str) -> None:
    proven = replace(
        store,
        load=replace(store.load, batch=replace(store.load.batch, tests=frozenset({"constant"}))),
    )
    found = of(proven)
    assert found.months == pytest.approx(months, rel=1e-6)
    assert any(each.startswith(reason) for each in found.reasons), found.reasons


def test_nothing_is_given_as_a_reason_that_is_none() -> None:
    table = "vegetables, legumes, grain, herbs and meals without meat: 6 months at 15.6 °C"
    assert of(store()).reasons == (table,)
    assert of(store(fat_g=10)).reasons == (table,)
    assert of(store(kept_at_c=-17)).reasons[:1] == (table,)
    assert not any("frozen" in each for each in of(store(kept_at_c=-17)).reasons)
    assert of(store("nut", fat_g=60)).reasons == ("nuts: 3 months at 15.6 °C",)
    assert of(store(barrier="paper", fat_g=60)).reasons == (
        table,
        "a bag lets air and moisture in: half as long",
    )
    assert of(store(**FROZEN)).reasons == (
        "freeze-dried plant food: 120 months at 15.6 °C",
        "common practice names far longer; no authority vouches for it",
    )


# -- proof ----------------------------------------------------------------------------------------

MOIST = Ruling("dry", "airless-moist")
YEAR = 12.0


@pytest.mark.parametrize(
    ("store", "months", "wants_proof"),
    [
        # Frozen at −18 °C fruit would keep 12 · 2 ** (33.6 / 11.1) = 97.8 months.
        (store("fruit", kept_at_c=-18), YEAR, True),
        (store("fruit", kept_at_c=-18, **PROVEN), 97.8, False),
        (store("fruit", kept_at_c=-18, tests=frozenset({"snap"})), YEAR, True),
        (store("fruit"), 12, False),
        (store("fruit", low_oxygen=True), 12, True),
        (store(low_oxygen=True), 6, True),
        (store(low_oxygen=True, **PROVEN), 6, False),
        (store("fruit", kept_at_c=-18, low_oxygen=True, ruling=MOIST, **PROVEN), YEAR, False),
        (store("fruit", kept_at_c=15.6, low_oxygen=True, ruling=MOIST, **PROVEN), 12, False),
    ],
)
def test_more_than_a_year_wants_proof(store: Store, months: float, wants_proof: bool) -> None:
    found = of(store)
    assert found.months == pytest.approx(months, abs=0.05)
    assert found.wants_proof is wants_proof
    twice = "nobody weighed it twice to prove it dry: not longer than 12 months"
    would_be_longer = store.load.batch.kept_at_c < COOL_C
    assert (twice in found.reasons) is (wants_proof and would_be_longer)
    moist = "moist for a pack without oxygen: not longer than 12 months"
    assert (moist in found.reasons) is (store.ruling == MOIST and would_be_longer)


# -- dates ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("store", "date"),
    [
        (store(), datetime.date(2031, 7, 1)),
        (store("fruit"), datetime.date(2032, 1, 1)),
        # Half a month is 15 whole days of 30.4.
        (store("meat", "raw"), datetime.date(2031, 1, 16)),
        (store(done=None, planned=DONE), datetime.date(2031, 7, 1)),
        (store(done=None, started=datetime.datetime(2031, 1, 1, 8)), datetime.date(2031, 7, 1)),
        (store(best_before=datetime.date(2031, 6, 30)), datetime.date(2031, 6, 30)),
        (store(best_before=datetime.date(2031, 7, 1)), datetime.date(2031, 7, 1)),
        (store(best_before=datetime.date(2031, 7, 2)), datetime.date(2031, 7, 1)),
        (store(done=None), None),
        (store(done=None, best_before=DONE), DONE),
    ],
)
def test_a_date_is_its_months_on_or_an_earlier_one_of_ones_own(
    store: Store, date: datetime.date | None
) -> None:
    found = of(store)
    assert found.best_before == date
    own = store.load.batch.best_before
    is_earlier = own is not None and own < datetime.date(2031, 7, 1)
    assert ("the date you wrote is earlier" in found.reasons) is is_earlier


def test_time_runs_from_the_day_it_came_out() -> None:
    started = datetime.datetime(2030, 12, 30, 8)
    both = Batch("it", "oven", done=DONE, planned=datetime.date(2030, 12, 31), started=started)
    assert keeps_from(both) == DONE
    assert keeps_from(replace(both, done=None)) == datetime.date(2030, 12, 31)
    assert keeps_from(replace(both, done=None, planned=None)) == datetime.date(2030, 12, 30)
    assert keeps_from(Batch("it", "oven")) is None


@pytest.mark.parametrize(
    ("own", "reason"),
    [(DONE, "the date on the pack"), (None, "nobody wrote down the date on the pack")],
)
def test_bought_food_goes_by_its_pack(own: datetime.date | None, reason: str) -> None:
    bought = store(method="bought", best_before=own, ruling=Ruling("discard", "sun"))
    assert of(bought) == Kept(None, own, (reason,))


@pytest.mark.parametrize(
    ("cause", "reason"),
    [
        ("sun", "meat and fish dried in the sun are not to be kept"),
        ("raw-egg", "raw egg dried by heat is not to be kept"),
        ("raw-loose", "raw poultry and mince dried by heat alone are not to be kept"),
        ("airless-wet", "not dry, and packed without oxygen: not to be kept"),
        (
            "airless-flesh-undecided",
            "heat-dried meat or fish packed without oxygen, and not proven dry: not to be kept",
        ),
        ("wet", "not dry: not to be kept"),
    ],
)
def test_what_failed_has_no_date_and_says_why(cause: Any, reason: str) -> None:
    verdict: Any = "not-dry" if cause == "wet" else "discard"
    failed = Ruling(verdict, cause)
    assert of(store(ruling=failed, best_before=DONE)) == Kept(None, None, (reason,))
    in_dryer = store(ruling=failed, in_dryer=True)
    assert of(in_dryer) == Kept(None, None, ("still in the dryer",))


# -- places ---------------------------------------------------------------------------------------


def at(day: int, at_c: float) -> Stay:
    return Stay(at_c, DONE + datetime.timedelta(days=day))


MONTH_D = 365.25 / 12


@pytest.mark.parametrize(
    ("stays", "months"),
    [
        # 6 months at 15.6 °C, 3 at 26.7: 45 days there use 45 / 91.3 of it.
        ((at(45, 26.7),), 45 / MONTH_D + 6 * (1 - 45 / (3 * MONTH_D))),
        # 30 days of 182.6, 45 of 91.3, and the rest.
        ((at(30, 15.6), at(75, 26.7)),
         75 / MONTH_D + 6 * (1 - 30 / (6 * MONTH_D) - 45 / (3 * MONTH_D))),
        # It is used up in the first place, or in the second.
        ((at(91, 26.7),), 91 / MONTH_D + 6 * (1 - 91 / (3 * MONTH_D))),
        ((at(92, 26.7),), 3),
        ((at(30, 15.6), at(200, 26.7)), 30 / MONTH_D + 3 * (1 - 30 / (6 * MONTH_D))),
        # A place that it left before it was dried counts nothing, nor one left at once.
        ((at(-5, 35), at(0, 35)), 6),
    ],
)  # fmt: skip
def test_each_place_uses_its_part(stays: tuple[Stay, ...], months: float) -> None:
    assert of(store(stays=stays)).months == pytest.approx(months)


def test_each_place_is_told() -> None:
    found = of(store(stays=(at(1, 20), at(45, 26.7)))).reasons
    assert found[1:] == (
        "1 day at 20 °C used part of its time",
        "44 days at 27 °C used part of its time",
    )
    undated = of(store(done=None, stays=(at(45, 26.7),)))
    assert undated.months == pytest.approx(6)
    assert len(undated.reasons) == 1
    left_at_once = of(store(stays=(at(0, 35),)))
    assert len(left_at_once.reasons) == 1
