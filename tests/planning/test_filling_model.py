"""Open meals in bare numbers: every small case against all there is, large ones against greed."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.planning.filling.model import FillingModel
from builder.planning.filling.task import (
    DayBounds,
    Dish,
    Filled,
    Line,
    Packs,
    Slot,
    Task,
    whole,
)

SECONDS = 30.0
SLACK_KCAL = 1e-3  # of rounding


def keeps_the_rules(filled: Filled, task: Task) -> bool:
    """Tell whether a proposal breaks no rule: allowed dishes, energy, dinners, packs and dates."""
    kcal: dict[int, float] = {}
    for slot, dish, packs in zip(task.slots, filled.dishes, filled.packs, strict=True):
        lines = task.dishes[dish].lines
        if dish not in dict(slot.fuel_kj) or len(packs) != len(lines):
            return False
        kcal[slot.day] = kcal.get(slot.day, 0.0) + task.dishes[dish].kcal
        for line, pack in zip(lines, packs, strict=True):
            if pack is not None and (
                pack not in line.packs or task.packs[pack].last_day < slot.day
            ):
                return False
    for each in task.days:
        given = kcal.get(each.day, 0.0)
        if not each.least_kcal - SLACK_KCAL <= given <= each.most_kcal + SLACK_KCAL:
            return False
    dinners = [
        (slot.day, task.dishes[dish].recipe)
        for slot, dish in zip(task.slots, filled.dishes, strict=True)
        if slot.is_dinner
    ]
    for number, (day, recipe) in enumerate(dinners):
        for other, same in (*task.dinners, *dinners[number + 1 :]):
            if recipe == same and abs(day - other) <= 2:
                return False
    return all(count <= task.packs[pack].free for pack, count in filled.used(task).items())


def every(task: Task) -> Iterator[Filled]:
    """Give every way to fill the open meals that keeps the rules."""
    for dishes in itertools.product(*[[dish for dish, _ in slot.fuel_kj] for slot in task.slots]):
        lines = [task.dishes[dish].lines for dish in dishes]
        packs = [list(itertools.product(*[(None, *each.packs) for each in own])) for own in lines]
        for chosen in itertools.product(*packs):
            filled = Filled(dishes, chosen)
            if keeps_the_rules(filled, task):
                yield filled


@st.composite
def tasks(draw: st.DrawFn) -> Task:
    """Draw up to three days of one open meal, three dishes, three batches."""
    rng = random.Random(draw(st.integers(0, 2**32)))
    packs = tuple(
        Packs(
            free=rng.randint(0, 3),
            pack_g=rng.choice((50.0, 80.0, 100.0)),
            days_left=float(rng.randint(0, 60)),
            last_day=rng.choice((1, 2, 3, 9, 9)),
            reseals=rng.random() < 0.3,
            opened_g=rng.choice((0.0, 30.0)),
        )
        for _ in range(rng.randint(1, 3))
    )
    dishes = tuple(
        Dish(
            number,
            tuple(
                Line(
                    float(rng.randint(30, 160)),
                    rng.choice((0.0, 50.0)),
                    tuple(sorted(rng.sample(range(len(packs)), rng.randint(0, len(packs))))),
                )
                for _ in range(rng.randint(0, 2))
            ),
            kcal=float(rng.randint(500, 1500)),
            mass_g=float(rng.randint(100, 400)),
            mark=rng.randint(2, 10) / 2,
        )
        for number in range(rng.randint(2, 3))
    )
    slots = tuple(
        Slot(
            day,
            rng.random() < 0.5,
            tuple(
                (dish, float(rng.randint(50, 300)))
                for dish in range(len(dishes))
                if rng.random() < 0.9 or dish == 0
            ),
        )
        for day in range(1, rng.randint(1, 3) + 1)
    )
    days = tuple(
        DayBounds(slot.day, rng.choice((0.0, 700.0)), rng.choice((1200.0, 9000.0)))
        for slot in slots
    )
    return Task(slots, dishes, packs, days, ((1, 0),) if rng.random() < 0.1 else ())


@settings(deadline=None, max_examples=60)
@given(tasks())
def test_nothing_is_better_by_any_order_in_turn(task: Task) -> None:
    best = min((each.orders(task) for each in every(task)), default=None)
    found = FillingModel(task).solved(0, SECONDS)
    assert found.is_sure
    if found.filled is None or best is None:
        assert found.filled is None
        assert best is None
        return
    assert keeps_the_rules(found.filled, task)
    assert found.filled.orders(task) == pytest.approx(best)


@settings(deadline=None, max_examples=40)
@given(tasks(), st.booleans())
def test_a_second_one_differs_in_a_third_of_the_meals(task: Task, anew: bool) -> None:
    first = FillingModel(task).solved(0, SECONDS).filled
    if first is None:
        return
    least = math.ceil(len(task.slots) / 3)

    def differs(other: Filled) -> bool:
        before = set(first.dishes)
        pairs = zip(first.dishes, other.dishes, strict=True)
        return sum(b not in before if anew else a != b for a, b in pairs) >= least

    others = [each.orders(task) for each in every(task) if differs(each)]
    found = FillingModel(task, [first.dishes], anew=anew).solved(0, SECONDS).filled
    if found is None:
        assert not others
        return
    assert differs(found)
    assert found.orders(task) == pytest.approx(min(others))


def test_the_seed_decides_where_all_is_equal_and_always_in_the_same_way() -> None:
    dishes = tuple(Dish(number, (), 1000.0, 300.0) for number in range(6))
    options = tuple((dish, 100.0) for dish in range(6))
    slots = tuple(Slot(day, True, options) for day in (1, 2, 3))
    task = Task(slots, dishes, (), (DayBounds(1, 0.0, 2000.0),))
    found = [FillingModel(task).solved(seed, SECONDS).filled for seed in (1, 1, 2, 3, 4, 5)]
    chosen = [each.dishes for each in found if each]
    assert chosen[0] == chosen[1]
    assert len(set(chosen)) > 1


def test_a_mark_decides_before_the_seed() -> None:
    dishes = tuple(Dish(n, (), 1000.0, 300.0, mark=3.5 if n == 4 else 3.0) for n in range(6))
    slot = Slot(1, True, tuple((dish, 100.0) for dish in range(6)))
    task = Task((slot,), dishes, (), (DayBounds(1, 0.0, 2000.0),))
    for seed in range(8):
        found = FillingModel(task).solved(seed, SECONDS).filled
        assert found
        assert found.dishes == (4,)


@pytest.mark.parametrize(("days", "together"), [((1, 2), True), ((1, 3), True), ((1, 4), False)])
def test_a_dinner_comes_again_on_the_fourth_day_at_the_soonest(
    days: tuple[int, int], together: bool
) -> None:
    task = Task(
        tuple(Slot(day, True, ((0, 1.0),)) for day in days), (Dish(0, (), 900.0, 300.0),), (), ()
    )
    assert (FillingModel(task).solved(0, SECONDS).filled is None) is together
    lunches = Task(
        tuple(Slot(day, False, ((0, 1.0),)) for day in days), (Dish(0, (), 900.0, 300.0),), (), ()
    )
    assert FillingModel(lunches).solved(0, SECONDS).filled is not None


@pytest.mark.parametrize(("least", "most", "short", "over"), [
    (1000.0, 1200.0, 200.0, 0.0), (100.0, 700.0, 0.0, 100.0), (700.0, 900.0, 0.0, 0.0),
])  # fmt: skip
def test_bent_days_tell_the_least_that_is_lacking_or_too_much(
    least: float, most: float, short: float, over: float
) -> None:
    task = Task(
        (Slot(1, True, ((0, 1.0),)),),
        (Dish(0, (), 800.0, 300.0),),
        (),
        (DayBounds(1, least, most),),
    )
    found = FillingModel(task, bend_days=True).relaxed(SECONDS)
    assert found
    assert (*found.short_kcal, *found.over_kcal) == pytest.approx((short, over))


# -- large ----------------------------------------------------------------------------------------


def large(seed: int) -> Task:
    """Give 14 dinners, 80 recipes of one to three dried foods of 30, and 200 batches."""
    rng = random.Random(seed)
    packs = tuple(
        Packs(rng.randint(2, 8), rng.uniform(250, 500), float(rng.randint(10, 900)), 99)
        for _ in range(200)
    )
    dishes = tuple(
        Dish(
            number,
            tuple(
                Line(float(rng.randint(300, 700)), 500.0, tuple(range(food, 200, 30)))
                for food in rng.sample(range(30), rng.randint(1, 3))
            ),
            float(rng.randint(3500, 8500)),
            float(rng.randint(1200, 2400)),
        )
        for number in range(80)
    )
    options = tuple((dish, rng.uniform(500, 3000)) for dish in range(80))
    slots = tuple(Slot(day, True, options) for day in range(1, 15))
    return Task(slots, dishes, packs, tuple(DayBounds(day, 5000.0, 8000.0) for day in range(1, 15)))


def greedy(task: Task) -> Filled | None:
    """Fill meal by meal with what is allowed and opens those packs that expire first."""
    left = [each.free for each in task.packs]
    dishes: list[int] = []
    packs: list[tuple[int | None, ...]] = []
    for slot, bounds in zip(task.slots, task.days, strict=True):
        best: tuple[float, int, tuple[int, ...]] | None = None
        for dish, _ in slot.fuel_kj:
            one = task.dishes[dish]
            if dish in dishes[-2:] or not bounds.least_kcal <= one.kcal <= bounds.most_kcal:
                continue
            taken: list[int] = []
            for line in one.lines:
                fits = [
                    n
                    for n in line.packs
                    if left[n] >= whole(line.mass_g, task.packs[n]) and n not in taken
                ]
                if fits:
                    taken.append(min(fits, key=lambda n: task.packs[n].days_left))
            if len(taken) < len(one.lines):
                continue
            days = sum(
                task.packs[n].days_left * whole(line.mass_g, task.packs[n])
                for n, line in zip(taken, one.lines, strict=True)
            )
            if best is None or days < best[0]:
                best = days, dish, tuple(taken)
        if best is None:
            return None
        _, dish, chosen = best
        for pack, line in zip(chosen, task.dishes[dish].lines, strict=True):
            left[pack] -= whole(line.mass_g, task.packs[pack])
        dishes.append(dish)
        packs.append(chosen)
    return Filled(tuple(dishes), tuple(packs))


@pytest.mark.parametrize("seed", [1, 2])
def test_of_many_it_is_at_least_as_good_as_taking_the_first_expired(seed: int) -> None:
    task = large(seed)
    taken = greedy(task)
    assert taken
    assert keeps_the_rules(taken, task)
    found = FillingModel(task).solved(0, SECONDS).filled
    assert found
    assert keeps_the_rules(found, task)
    assert found.orders(task)[:2] <= taken.orders(task)[:2]
