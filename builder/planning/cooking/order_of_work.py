"""One time line for each mealtime: all its dishes, over stove, fire and embers, pots and irons.

Each potful of a dish is one unbroken run of steps, since food on the heat cannot wait. Runs are
put down backward from eating, each as late as its heat, its pot and the irons allow, and one
mug holds one drink at a time. What is heated in pots is put on in the order of the menu. Of the
orders of the dishes, the one is taken that lets ready food wait least. Water for the camp comes
before all of them: nothing soaks in snow that is not melted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise, permutations

from builder.model.figure import Figure, add, largest
from builder.model.kit import (
    FuelDay,
    OrderOfWork,
    PlannedMeal,
    WorkDo,
    WorkPlace,
    WorkStep,
)
from builder.model.recipe import MEALS, MealName
from builder.planning.cooking.camp_water import water_for, water_step
from builder.planning.cooking.hearth import Hearth
from builder.planning.cooking.heating import ON_EMBERS
from builder.planning.cooking.placing import (
    AT_THE_MEAL,
    TOUCHING_MIN,
    Placed,
    cost_of,
    neat,
    placed_in_turn,
    ready_before,
)
from builder.planning.cooking.tasks import (
    EMBERS_MIN,
    FLAMES_MIN,
    NO_MINUTES,
    NO_PRESSES,
    NO_WATER_ML,
    ONE_POTFUL,
    PREHEAT_MIN,
    Dish,
    Run,
    Task,
    dish_of,
)
from builder.record import replace

_ALL_ORDERS_UP_TO = 4  # dishes; of more, a few good orders are tried
_WAITS_FROM_MIN = 0.5  # a shorter wait rounds to nothing


def orders_of_work(
    meals: Sequence[PlannedMeal],
    hearth: Hearth,
    fuel: FuelDay | None = None,
    cut: Callable[[int, PlannedMeal, Hearth], Dish] = dish_of,
) -> tuple[OrderOfWork, ...]:
    """Give the order of work for each mealtime of a day that has something to cook.

    Who tries many ways to cook the same dishes gives a `cut` that remembers them.
    """
    cooked: dict[MealName, list[Dish]] = {}
    for name in MEALS:
        for place, meal in enumerate(meals):
            if meal.meal == name and meal.recipe:
                cooked.setdefault(name, []).append(cut(place, meal, hearth))
    orders = []
    for name, dishes in cooked.items():
        steps = _best(_side_by_side(dishes, meals))
        for heating, do, volume_ml in water_for(name, list(cooked), fuel):
            steps.insert(0, water_step(heating, do, volume_ml, steps[0].before_min, hearth))
        lit = _with_fire(steps)
        orders.append(OrderOfWork(name, lit[0].before_min, lit))
    return tuple(orders)


# ---------------------------------------------------------------------------------------------
# a recipe → runs


def _side_by_side(dishes: Sequence[Dish], meals: Sequence[PlannedMeal]) -> list[Dish]:
    """Let what was taken out of a pot stand beside it on a fire: one fire reaches round both."""
    found = list(dishes)
    for number, (main, other) in enumerate(pairwise(dishes)):
        parted = meals[main.place].parting and meals[other.place].begins_in is not None
        runs = [run for each in (main, other) for run in each.runs]
        on_fire = all(task.on in (None, "fire") for run in runs for task in run.tasks)
        if not (parted and on_fire and len(main.runs) == 1):
            continue
        tasks = main.runs[0].tasks
        then = [task.do for task in tasks].index("part")
        after = add(task.minutes for task in tasks[then:])
        found[number] = replace(
            main, done_before_min=neat(largest(other.minutes - after, NO_MINUTES))
        )
        beside = tuple(
            replace(run, tasks=tuple(replace(task, on=None) for task in run.tasks))
            for run in other.runs
        )
        found[number + 1] = replace(other, runs=beside, put_on=False)
    return found


# ---------------------------------------------------------------------------------------------
# runs → a time line


def _best(dishes: Sequence[Dish]) -> list[WorkStep]:
    """Take the order in which ready food waits least, then the one that begins latest."""
    if len(dishes) <= _ALL_ORDERS_UP_TO:
        orders = [list(order) for order in permutations(dishes)]
    else:
        short_first = sorted(dishes, key=lambda dish: (not dish.in_mugs, dish.minutes, dish.place))
        orders = [short_first, short_first[::-1], list(dishes)]
    # Where the menu has a say many of them are one.
    different: dict[tuple[int, ...], list[Dish]] = {}
    for order in map(_by_menu, orders):
        different.setdefault(tuple(dish.place for dish in order), order)
    lines = [placed_in_turn(order) for order in different.values()]
    best = min(range(len(lines)), key=lambda number: (*cost_of(lines[number]), number))
    return _entries(lines[best])


def _by_menu(order: list[Dish]) -> list[Dish]:
    """Put what is heated in pots into the order of the menu, its last nearest to eating."""
    potted = iter(sorted((dish for dish in order if dish.put_on), key=lambda dish: -dish.place))
    return [next(potted) if dish.put_on else dish for dish in order]


def _entries(placed: Placed) -> list[WorkStep]:
    """Give the time line: what begins first comes first, a dish's own steps in their order.

    Of what falls on one moment, what ends a run comes before what begins one: the pot is emptied
    before it is filled. Sharing out comes last.
    """
    uses = _pot_uses(placed)
    found: list[tuple[tuple[float, int, int, int], WorkStep]] = []
    for dish, runs in placed:
        entries: list[tuple[int, WorkStep]] = []
        for run, start in runs:
            begins = round(float(start), 9)
            entries += [
                (int(round(float(entry.before_min), 9) >= begins), entry)
                for entry in _run_entries(dish, run, start, uses)
            ]
        for run, start in runs[:-1]:
            ready = neat(start - run.minutes)
            if run.potful and ready >= _WAITS_FROM_MIN:
                kept = _entry(dish, Task("keep", ready), ready, potful=run.potful, frees=True)
                entries.append((_rank_of_end(run), kept))
        if dish.runs and ready_before(runs) >= _WAITS_FROM_MIN:
            entries.append((_rank_of_end(runs[-1][0]), _keep(dish, ready_before(runs), uses)))
        entries += [(2, _entry(dish, task, AT_THE_MEAL)) for task in dish.serve]
        found += [
            ((-round(float(entry.before_min), 9), rank, dish.place, number), entry)
            for number, (rank, entry) in enumerate(entries)
        ]
    return [entry for _, entry in sorted(found, key=lambda each: each[0])]


def _rank_of_end(run: Run) -> int:
    """Give what comes at the end of a run its place: a run of no time begins as it ends."""
    return int(run.minutes <= TOUCHING_MIN)


def _keep(dish: Dish, ready: Figure, uses: Sequence[tuple[str, float, float, bool]]) -> WorkStep:
    """Keep a dish warm until all eat, out of its pot where another dish needs that."""
    pots = {task.pot for run in dish.runs for task in run.tasks if task.pot}
    after = float(ready) + TOUCHING_MIN
    if dish.in_mugs:  # its own are drunk from at once
        pots = {f"mug {name}" for run in dish.runs for name in run.mugs}
        after = float(ready) - TOUCHING_MIN
    frees = any(pot in pots and float(begins) <= after for pot, begins, _, _ in uses)
    return _entry(dish, Task("keep", ready), ready, frees=frees)


def _pot_uses(placed: Placed) -> list[tuple[str, float, float, bool]]:
    """Give each pot's uses: from when to when, and whether food is left in it."""
    return [
        (what.removeprefix("pot "), float(start) - begins, float(start) - ends, not dish.in_mugs)
        for dish, runs in placed
        for run, start in runs
        for what, begins, ends in run.busy()
        if what.startswith(("pot ", "mug ")) and ends > begins
    ]


def _run_entries(
    dish: Dish, run: Run, start: Figure, uses: Sequence[tuple[str, float, float, bool]]
) -> Iterator[WorkStep]:
    filled = False
    for task in run.tasks:
        empty_first = False
        if task.pot and not filled:
            filled = True
            before = [
                use for use in uses if use[0] == task.pot and use[2] >= float(start) - TOUCHING_MIN
            ]
            empty_first = bool(before) and min(before, key=lambda use: use[2])[3]
        yield _entry(dish, task, start, potful=run.potful, empty_first=empty_first)
        if task.minutes:
            start = neat(start - task.minutes)


def _entry(
    dish: Dish,
    task: Task,
    before_min: Figure,
    potful: int = 0,
    empty_first: bool = False,
    *,
    frees: bool = False,
) -> WorkStep:
    return WorkStep(
        before_min=before_min,
        minutes=task.minutes,
        do=task.do,
        place=dish.place,
        ingredients=task.ingredients,
        water_ml=task.water_ml,
        potful=potful,
        potfuls=dish.potfuls,
        presses=task.presses,
        on=task.on,
        pot=task.pot,
        empty_first=empty_first,
        stir=task.stir,
        lid=task.lid,
        hot=task.hot,
        each_side_min=task.each_side_min,
        frees=frees,
        step=task.step,
        stove=task.stove,
    )


def _with_fire(steps: Sequence[WorkStep]) -> tuple[WorkStep, ...]:
    """Light one fire in time for flames and embers, and heat the irons before the first press."""
    presses = [step.before_min for step in steps if step.do == "press"]
    flames = [step.before_min for step in steps if step.on == "fire"]
    on_embers = [step.before_min for step in steps if step.do in ON_EMBERS or step.on == "embers"]
    more: list[WorkStep] = []
    needed = []
    if presses:
        more.append(_fire_step("preheat", largest(*presses) + PREHEAT_MIN, PREHEAT_MIN, "iron"))
    if on_embers:
        needed.append(largest(*on_embers) + EMBERS_MIN)
    if flames:
        needed.append(largest(*flames) + FLAMES_MIN)
    if needed:
        minutes = EMBERS_MIN if on_embers else FLAMES_MIN
        more.append(_fire_step("fire", largest(*needed), minutes, None))
    # The noise of adding up must not part what falls on one moment: that is in order already.
    joined = sorted([*more, *steps], key=lambda step: -round(float(step.before_min), 9))
    return tuple(joined)


def _fire_step(do: WorkDo, before: float, minutes: float, on: WorkPlace | None) -> WorkStep:
    return WorkStep(
        before_min=before,
        minutes=minutes,
        do=do,
        place=None,
        ingredients=(),
        water_ml=NO_WATER_ML,
        potful=0,
        potfuls=ONE_POTFUL,
        presses=NO_PRESSES,
        on=on,
        pot=None,
        empty_first=False,
    )
