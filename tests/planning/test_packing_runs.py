"""Fewest runs, latest times: the model against every possible plan, and against each rule."""

from __future__ import annotations

import random
from itertools import combinations
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.planning.runs.packing import Free, Place, Task, Thing, exactly, pack, search
from builder.planning.runs.packing.search import least_extra, least_left_out
from builder.record import replace
from tests.planning.every_plan import best, faults, lateness

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]


def day(number: int, from_h: int = 7, to_h: int = 22) -> Free:
    return Free(number, 24.0 * number + from_h, 24.0 * number + to_h)


def thing(kg: float = 1.0, **more: Any) -> Thing:
    usual: dict[str, Any] = {
        "water_share": 0.8, "hours": (10.0,), "first_day": 0, "last_day": 3, "spare_day": 2,
    }  # fmt: skip
    return Thing(kg, **{**usual, **more})


def task(*things: Thing, **more: Any) -> Task:
    usual: dict[str, Any] = {
        "apart": frozenset(),
        "places": (Place(3.0),),
        "free": tuple(day(number) for number in range(4)),
    }
    return Task(things, **{**usual, **more})


# -- by hand --------------------------------------------------------------------------------------


def test_one_load_ends_with_a_day_to_spare_and_as_late_as_may_be() -> None:
    found = pack(task(thing())).packed
    assert found is not None
    (only,) = found.fillings
    # Emptied on day 2 at 22:00 at the latest, so started at 12:00.
    assert (only.start_h, only.hours, found.tight) == (48 + 12, 10.0, 0)
    assert [(number, round(kg, 6)) for number, kg in only.fresh_kg] == [(0, 1.0)]


def test_the_day_to_spare_is_given_up_before_a_run_is_added() -> None:
    two = task(thing(2.0, last_day=0, spare_day=-1), thing(1.0, first_day=0))
    found = pack(two).packed
    assert found is not None and lateness(found)[:2] == (1, 1)


def test_what_fits_no_dryer_at_once_is_split() -> None:
    found = pack(task(thing(4.0))).packed
    assert found is not None and len(found.fillings) == 2
    assert sum(kg for each in found.fillings for _, kg in each.fresh_kg) == pytest.approx(4.0)


@pytest.mark.parametrize(
    ("given_task", "runs"),
    [
        (task(thing(1.5), thing(1.5)), 1),
        (task(thing(1.5), thing(1.6)), 2),  # above the load
        (task(thing(1.0), thing(1.0), apart=frozenset({(0, 1)})), 2),
        (task(thing(1.5), thing(1.5), places=(Place(3.0, ice_kg=2.4),)), 1),
        (task(thing(1.5), thing(1.5), places=(Place(3.0, ice_kg=2.3),)), 2),  # above the ice
        (task(thing(1.0, last_day=1), thing(1.0, first_day=1)), 1),
        (task(thing(1.0, last_day=1), thing(1.0, first_day=2)), 2),  # would expire
    ],
)
def test_runs_are_as_few_as_the_limits_let_them_be(given_task: Task, runs: int) -> None:
    found = pack(given_task).packed
    assert found is not None and len(found.fillings) == runs
    assert faults(given_task, found) == []


def test_a_run_lasts_as_long_as_its_slowest_food() -> None:
    found = pack(task(thing(1.0, hours=(6.0,)), thing(1.0, hours=(14.0,)))).packed
    assert found is not None and [each.hours for each in found.fillings] == [14.0]


@pytest.mark.parametrize(
    ("hours", "possible"), [(23.9, False), (24.0, True), (36.0, True), (36.1, False)]
)
def test_what_is_dry_waits_twelve_hours_at_most(hours: float, possible: bool) -> None:
    # Started on day 0 at 8; the only other free moment is on day 1 at 20, 36 h later.
    free = (day(0, 8, 8), day(1, 20, 20))
    found = pack(task(thing(hours=(hours,)), free=free)).packed
    assert (found is not None) is possible


@pytest.mark.parametrize(("busy_h", "possible"), [((0.0, 17.0), True), ((0.0, 20.0), False)])
def test_a_dryer_that_is_taken_takes_no_more(busy_h: tuple[float, float], possible: bool) -> None:
    place = Place(3.0, busy_h=(busy_h,))
    found = pack(
        task(thing(hours=(2.0,), last_day=0), places=(place,), free=(day(0, 7, 21),))
    ).packed
    assert (found is not None) is possible


@pytest.mark.parametrize(("from_h", "possible"), [(12.0, True), (12.5, False)])
def test_nothing_starts_before_it_is_frozen(from_h: float, possible: bool) -> None:
    place = Place(3.0, from_h=from_h)
    found = pack(task(thing(last_day=0), places=(place,), free=(day(0),))).packed
    assert (found is not None) is possible


def test_the_same_task_gives_the_same_plan() -> None:
    again = task(thing(2.0), thing(1.7, hours=(8.0,)), thing(1.1, last_day=2))
    assert pack(again) == pack(again)


def test_what_can_not_be_dried_is_as_little_as_may_be() -> None:
    short = task(thing(4.4, last_day=0), free=(day(0, 7, 17),))
    assert pack(short).packed is None
    found = least_left_out(short)
    assert found is not None and sum(found.left_out_kg) == pytest.approx(1.4)


def test_as_few_more_evenings_as_would_do() -> None:
    short = task(thing(last_day=2), free=(day(0, 7, 8),))
    assert pack(short).packed is None
    evenings = tuple(replace(day(number, 17, 22), extra=True) for number in range(3))
    found = least_extra(replace(short, free=(*short.free, *evenings)))
    # Started in the morning of day 0, it is emptied in the evening of that day.
    assert found == [0]


def test_nothing_to_dry_needs_no_run() -> None:
    assert exactly([], 0.0) == []
    assert exactly([1.0, 1.0], 3.0) == [1.5, 1.5]


# -- against every plan ---------------------------------------------------------------------------


@st.composite
def small_tasks(draw: st.DrawFn) -> Task:
    """Draw up to three things, one or two dryers, three days of free hours."""
    places = draw(st.lists(st.sampled_from([2.0, 3.0]), min_size=1, max_size=2))
    ice = draw(st.sampled_from([None, 1.6]))
    things = [
        Thing(
            fresh_kg=draw(st.sampled_from([0.5, 1.0, 1.5, 2.5])),
            water_share=draw(st.sampled_from([0.7, 0.9])),
            hours=tuple(draw(st.sampled_from([6.0, 10.0, 16.0, None])) for _ in places),
            first_day=draw(st.sampled_from([0, 0, 1])),
            last_day=(last := draw(st.integers(1, 2))),
            spare_day=last - 1,
        )
        for _ in range(draw(st.integers(1, 3)))
    ]
    pairs = [(a, b) for a in range(len(things)) for b in range(a + 1, len(things))]
    apart = draw(st.lists(st.sampled_from(pairs), unique=True)) if pairs else []
    hours = draw(st.sampled_from([(7, 22), (17, 22), (8, 10)]))
    busy = draw(st.sampled_from([(), ((20.0, 32.0),)]))
    return Task(
        things=tuple(things),
        apart=frozenset(apart),
        places=tuple(Place(load, ice, busy_h=busy) for load in places),
        free=tuple(day(number, *hours) for number in range(3)),
    )


MOST_RUNS = 3


@settings(max_examples=40, deadline=None, suppress_health_check=SLOW)
@given(small_tasks())
def test_no_plan_is_better(small: Task) -> None:
    answer = pack(small)
    known = best(small, MOST_RUNS)
    if answer.packed is None:
        assert known is None
        return
    assert faults(small, answer.packed) == []
    if len(answer.packed.fillings) <= MOST_RUNS:
        assert lateness(answer.packed) == pytest.approx(known, abs=1e-3)
    else:
        assert known is None


# -- a whole household ----------------------------------------------------------------------------

FAMILIES = {  # what may not share a run, as the rules have it: warmth, and smell on fruit
    "vegetable": {"herb"},
    "fruit": {"herb", "legume", "onion"},
    "legume": {"herb", "fruit"},
    "onion": {"herb", "fruit"},
    "herb": {"vegetable", "fruit", "legume", "onion"},
}


def household(seed: int, kg: float, hours: tuple[int, int], *places: Place) -> Task:
    """Give what five trips of two months want of fourteen foods, in so many kilograms."""
    chance = random.Random(seed)
    foods = [
        (chance.choice(list(FAMILIES)), chance.choice([8.0, 10.0, 12.0, 14.0])) for _ in range(14)
    ]
    starts = [*sorted(chance.sample(range(10, 59), 4)), 60]
    things: list[Thing] = []
    families: list[str] = []
    for start in starts:
        for family, of_food_h in foods:
            last = start - (7 if family == "fruit" else 1)
            if chance.random() < 0.7:
                things.append(
                    thing(
                        chance.choice([0.3, 0.8, 1.2, 1.9, 2.6]),
                        hours=(of_food_h,) * len(places),
                        last_day=last,
                        spare_day=last - 1,
                    )
                )
                families.append(family)
    whole_kg = sum(each.fresh_kg for each in things)
    return task(
        *(replace(each, fresh_kg=each.fresh_kg * kg / whole_kg) for each in things),
        apart=frozenset(
            pair
            for pair in combinations(range(len(things)), 2)
            if families[pair[1]] in FAMILIES[families[pair[0]]]
        ),
        places=places,
        free=tuple(day(number, *hours) for number in range(60)),
    )


@pytest.mark.parametrize(
    ("big", "least_runs"),
    [
        (household(7, 60.0, (17, 22), Place(3.0), Place(2.5)), 20),  # 60 kg in loads of 3
        (household(3, 80.0, (7, 22), Place(3.0), Place(2.5), Place(4.0)), 20),  # 80 kg, of 4
    ],
    ids=["two-dryers-evenings", "three-dryers"],
)
def test_the_runs_of_two_months_are_found(
    monkeypatch: pytest.MonkeyPatch, big: Task, least_runs: int
) -> None:
    monkeypatch.setattr(search, "ALL_SECONDS", 240.0)  # a busy machine is no matter of the model
    answer = pack(big)
    packed = answer.packed
    assert packed is not None and faults(big, packed) == []
    assert len(packed.fillings) >= least_runs
    assert (answer.fewer_runs, answer.more_spare) == (0, 0)
    assert answer.later_h <= search.LATE_ENOUGH_H * len(packed.fillings)
    # Nobody cuts a food into more parts than there are foods and runs together.
    parts = sum(len(each.fresh_kg) for each in packed.fillings)
    assert parts <= len(big.things) + len(packed.fillings)
    assert all(
        kg >= 0.0999 or kg == pytest.approx(big.things[n].fresh_kg)
        for each in packed.fillings
        for n, kg in each.fresh_kg
    )


def test_a_search_that_ends_early_gives_a_plan_that_keeps_every_rule(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    big = household(7, 30.0, (7, 22), Place(3.0), Place(2.5))
    monkeypatch.setattr(search, "ALL_SECONDS", 1.0)
    packed = pack(big).packed
    assert packed is None or faults(big, packed) == []
