"""One time line for each mealtime: all its dishes, over one burner, the pots and the irons.

Each potful of a dish is one unbroken run of steps, since food on the heat cannot wait. Runs are
put down backward from eating, each as late as the burner, its pot and the irons allow. Of the
orders of the dishes, the one is taken that lets ready food wait least.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import permutations

from builder.formulas.fire import EMBER_MIN, TURN_MIN
from builder.model.kit import OrderOfWork, PlannedMeal, PlannedStep, WorkDo, WorkPlace, WorkStep
from builder.model.recipe import MEALS
from builder.planning.cooking.hearth import Burner, Hearth

# Common practice, no source: empty irons get hot on the first embers, within the ember time;
# small wood gives a flame for a pot.
PREHEAT_MIN = 5.0
FLAMES_MIN = 10.0

_HEATED = ("boil", "simmer", "fry", "press")
_ALL_ORDERS_UP_TO = 4  # dishes; of more, a few good orders are tried
_TOUCHING_MIN = 1e-9
_WAITS_FROM_MIN = 0.5  # a shorter wait rounds to nothing


@dataclass(frozen=True, slots=True)
class _Task:
    """One thing to do, with what it keeps busy."""

    do: WorkDo
    minutes: float = 0.0
    ingredients: tuple[str, ...] = ()
    water_ml: float = 0.0
    presses: int = 0
    on: WorkPlace | None = None
    pot: str | None = None
    stir: bool = False
    lid: bool = False
    hot: bool = False
    each_side_min: float = 0.0


@dataclass(frozen=True, slots=True)
class _Run:
    """Tasks that follow each other without a break."""

    tasks: tuple[_Task, ...]
    potful: int = 0

    @property
    def minutes(self) -> float:
        """How long it takes."""
        return sum(task.minutes for task in self.tasks)

    def busy(self, start: float) -> Iterator[tuple[str, float, float]]:
        """Give what is kept busy from when to when; the pot for as long as there is food in it."""
        potted: list[tuple[str, float, float]] = []
        for task in self.tasks:
            end = start + task.minutes
            if task.on and task.minutes:
                yield ("iron" if task.on == "iron" else "heat", start, end)
            if task.pot:
                potted.append((f"pot {task.pot}", start, end))
            start = end
        if potted:
            yield (potted[0][0], potted[0][1], potted[-1][2])


@dataclass(frozen=True, slots=True)
class _Dish:
    """A recipe cut into runs, and what is done when all eat."""

    place: int
    runs: tuple[_Run, ...]
    potfuls: int
    serve: tuple[_Task, ...]
    in_mugs: bool

    @property
    def minutes(self) -> float:
        """How long its runs take."""
        return sum(run.minutes for run in self.runs)


@dataclass(slots=True)
class _Calendar:
    """What is busy when; times are minutes, and 0 is when all eat."""

    busy: dict[str, list[tuple[float, float]]] = field(default_factory=dict)

    def latest(self, run: _Run, end: float) -> float:
        """Give the latest start of a run that ends in time and finds everything free."""
        start = end - run.minutes
        while (back := self._too_late_by(run, start)) > 0:
            start -= back
        return start

    def _too_late_by(self, run: _Run, start: float) -> float:
        for what, begins, ends in run.busy(start):
            for taken_from, taken_to in self.busy.get(what, ()):
                if begins < taken_to - _TOUCHING_MIN and ends > taken_from + _TOUCHING_MIN:
                    return ends - taken_from
        return 0.0

    def take(self, run: _Run, start: float) -> None:
        """Keep busy what a run needs."""
        for what, begins, ends in run.busy(start):
            self.busy.setdefault(what, []).append((begins, ends))


def orders_of_work(meals: Sequence[PlannedMeal], hearth: Hearth) -> tuple[OrderOfWork, ...]:
    """Give the order of work for each mealtime of a day that has something to cook."""
    orders = []
    for name in MEALS:
        dishes = [
            _dish(place, meal, hearth)
            for place, meal in enumerate(meals)
            if meal.meal == name and meal.recipe
        ]
        if dishes:
            steps = _with_fire(_best(dishes), hearth.burner)
            orders.append(OrderOfWork(name, max(step.before_min for step in steps), steps))
    return tuple(orders)


# ---------------------------------------------------------------------------------------------
# a recipe → runs


def _dish(place: int, meal: PlannedMeal, hearth: Hearth) -> _Dish:
    """Cut a recipe into runs: cold soaking for all potfuls, each potful, then what is done once."""
    steps = list(meal.steps)
    last = len(steps)
    while last and steps[last - 1].do == "serve":
        last -= 1
    seen: set[str] = set()
    most_ml = meal.heating.most_ml if meal.heating else 0.0
    burner = hearth.burner_for(most_ml, meal.potfuls)
    tasks = [_tasks(meal, number, burner, seen) for number in range(len(steps))]
    serve = tuple(task for group in tasks[last:] for task in group)
    in_turn = meal.potfuls if meal.potfuls > 1 and _holds_pot(meal) else 1
    if in_turn == 1:
        runs: tuple[_Run, ...] = (_Run(_joined(tasks[:last])),)
        return _Dish(place, runs, max(meal.potfuls, 1), serve, meal.cook_in == "mug")
    hot = [number for number, step in enumerate(steps[:last]) if step.do in _HEATED or step.hot]
    first = hot[0] if hot else 0
    press = next((number for number in hot if steps[number].do == "press"), last)
    before = _Run(tuple(replace(task, pot=None) for task in _joined(tasks[:first])))
    potful = tuple(_part(task, in_turn) for task in _joined(tasks[first:press]))
    after = _Run(_joined(tasks[press:last]))
    runs = (before, *(_Run(potful, number + 1) for number in range(in_turn)), after)
    return _Dish(place, tuple(run for run in runs if run.tasks), in_turn, serve, False)


def _joined(groups: Sequence[Sequence[_Task]]) -> tuple[_Task, ...]:
    return tuple(task for group in groups for task in group)


def _part(task: _Task, potfuls: int) -> _Task:
    """Give a task for one potful of several: bringing to the boil takes its part of the time."""
    minutes = task.minutes / potfuls if task.do == "boil" else task.minutes
    return replace(task, minutes=minutes, water_ml=task.water_ml / potfuls)


def _holds_pot(meal: PlannedMeal) -> bool:
    """Tell whether the food itself is in a pot, rather than in mugs, a bowl or a bag."""
    if meal.cook_in == "pot":
        return True
    heats = any(step.do in ("boil", "simmer", "fry") or step.hot for step in meal.steps)
    return meal.cook_in == "iron" and heats


def _tasks(
    meal: PlannedMeal, number: int, burner: Burner | None, seen: set[str]
) -> tuple[_Task, ...]:
    """Give what one step asks for; water for hot soaking is boiled before the first of them."""
    step = meal.steps[number]
    pot = meal.pot if _holds_pot(meal) else None
    on = burner.on if burner else None
    heat: WorkPlace | None = "stove" if on == "stove" else "fire" if on == "fire" else None
    new = tuple(each.id for each in step.ingredients if each.id not in seen)
    seen.update(new)
    tasks: list[_Task] = []
    water_ml = step.water_ml
    soaks_hot = step.do == "soak" and step.hot
    boils = _boil_minutes(meal, burner)
    if soaks_hot:
        if number in boils:
            hot_ml = sum(each.water_ml for each in meal.steps if each.do == "soak" and each.hot)
            tasks.append(
                _Task("boil", boils[number], water_ml=hot_ml, on=heat, pot=meal.pot, hot=True)
            )
        water_ml = 0.0
    minutes = boils[number] if step.do == "boil" else step.minutes
    busy: WorkPlace | None = None
    if step.do == "press":
        minutes, busy = step.presses * (2 * step.each_side_min + TURN_MIN), "iron"
    elif step.do in ("boil", "simmer", "fry"):
        busy, pot = heat, meal.pot
    tasks.append(
        _Task(
            step.do, minutes, new, water_ml, step.presses, busy, pot,
            step.stir, step.lid, soaks_hot, step.each_side_min,
        )
    )  # fmt: skip
    if step.do == "boil" and step.minutes:
        tasks.append(_Task("hold", step.minutes, on=busy, pot=pot, stir=step.stir, lid=step.lid))
    if number == _last_heated(meal.steps):
        if meal.reach_c is not None:
            tasks.append(_Task("measure", pot=pot))
        if meal.drain_ml:
            tasks.append(_Task("drain", water_ml=meal.drain_ml, pot=pot))
    return tuple(tasks)


def _last_heated(steps: Sequence[PlannedStep]) -> int:
    """Give the step after which the middle is measured: the last heat, else the last at the pot."""
    heated = [number for number, step in enumerate(steps) if step.do in _HEATED]
    done = [number for number, step in enumerate(steps) if step.do != "serve"]
    return (heated or done or [-1])[-1]


def _boil_minutes(meal: PlannedMeal, burner: Burner | None) -> dict[int, float]:
    """Share the meal's time to the boil among its boils, by the water each brings there."""
    fresh_ml: dict[int, float] = {}
    waiting_ml = 0.0
    soaked_hot = False
    for number, step in enumerate(meal.steps):
        if step.do == "soak" and step.hot:
            if not soaked_hot:
                hot = (each for each in meal.steps if each.do == "soak" and each.hot)
                fresh_ml[number] = waiting_ml + sum(each.water_ml for each in hot)
                waiting_ml = 0.0
            soaked_hot = True
            continue
        waiting_ml += step.water_ml
        if step.do == "boil":
            fresh_ml[number] = waiting_ml
            waiting_ml = 0.0
    minutes = burner.minutes(meal.heat_kj, meal.conditions.wind) if burner else 0.0
    all_ml = sum(fresh_ml.values())
    if all_ml <= 0:
        return {number: minutes / len(fresh_ml) for number in fresh_ml}
    return {number: minutes * each_ml / all_ml for number, each_ml in fresh_ml.items()}


# ---------------------------------------------------------------------------------------------
# runs → a time line

_Placed = list[tuple[_Dish, list[tuple[_Run, float]]]]


def _best(dishes: Sequence[_Dish]) -> list[WorkStep]:
    """Take the order in which ready food waits least, then the one that begins latest."""
    if len(dishes) <= _ALL_ORDERS_UP_TO:
        orders = [list(order) for order in permutations(dishes)]
    else:
        short_first = sorted(dishes, key=lambda dish: (not dish.in_mugs, dish.minutes, dish.place))
        orders = [short_first, short_first[::-1], list(dishes)]
    lines = [_placed(order) for order in orders]
    best = min(range(len(lines)), key=lambda number: (*_cost(lines[number]), number))
    return _entries(lines[best])


def _placed(dishes: Sequence[_Dish]) -> _Placed:
    """Put dishes down backward from eating: the first nearest to it."""
    calendar = _Calendar()
    placed: _Placed = []
    for dish in dishes:
        runs: list[tuple[_Run, float]] = []
        end = 0.0
        for run in reversed(dish.runs):
            end = calendar.latest(run, end)
            calendar.take(run, end)
            runs.insert(0, (run, end))
        placed.append((dish, runs))
    return placed


def _cost(placed: _Placed) -> tuple[float, float]:
    waits = sum(-_ready(runs) for _, runs in placed)
    begins = min((start for _, runs in placed for _, start in runs), default=0.0)
    return round(waits, 6), round(-begins, 6)


def _ready(runs: Sequence[tuple[_Run, float]]) -> float:
    return runs[-1][1] + runs[-1][0].minutes if runs else 0.0


def _entries(placed: _Placed) -> list[WorkStep]:
    """Give the time line: what begins first comes first, a dish's own steps in their order.

    Of what falls on one moment, what ends a run comes before what begins one: the pot is emptied
    before it is filled. Sharing out comes last.
    """
    uses = _pot_uses(placed)
    found: list[tuple[tuple[float, int, int, int], WorkStep]] = []
    for dish, runs in placed:
        entries: list[tuple[int, WorkStep]] = []
        for run, start in runs:
            begins = max(round(-start, 9), 0.0) + 0.0
            entries += [
                (int(entry.before_min >= begins), entry)
                for entry in _run_entries(dish, run, start, uses)
            ]
        if dish.runs and -_ready(runs) >= _WAITS_FROM_MIN:
            entries.append((0, _keep(dish, _ready(runs), uses)))
        entries += [(2, _entry(dish, task, 0.0)) for task in dish.serve]
        found += [
            ((-entry.before_min, rank, dish.place, number), entry)
            for number, (rank, entry) in enumerate(entries)
        ]
    return [entry for _, entry in sorted(found, key=lambda each: each[0])]


def _keep(dish: _Dish, ready: float, uses: Sequence[tuple[str, float, float, bool]]) -> WorkStep:
    """Keep a dish warm until all eat, out of its pot where another dish needs that."""
    pots = {task.pot for run in dish.runs for task in run.tasks if task.pot}
    frees = not dish.in_mugs and any(
        pot in pots and begins >= ready - _TOUCHING_MIN for pot, begins, _, _ in uses
    )
    return _entry(dish, _Task("keep", -ready), ready, frees=frees)


def _pot_uses(placed: _Placed) -> list[tuple[str, float, float, bool]]:
    """Give each pot's uses: from when to when, and whether food is left in it."""
    return [
        (what.removeprefix("pot "), begins, ends, not dish.in_mugs)
        for dish, runs in placed
        for run, start in runs
        for what, begins, ends in run.busy(start)
        if what.startswith("pot ")
    ]


def _run_entries(
    dish: _Dish, run: _Run, start: float, uses: Sequence[tuple[str, float, float, bool]]
) -> Iterator[WorkStep]:
    filled = False
    for task in run.tasks:
        empty_first = False
        if task.pot and not filled:
            filled = True
            before = [use for use in uses if use[0] == task.pot and use[2] <= start + _TOUCHING_MIN]
            empty_first = bool(before) and max(before, key=lambda use: use[2])[3]
        yield _entry(dish, task, start, potful=run.potful, empty_first=empty_first)
        start += task.minutes


def _entry(
    dish: _Dish,
    task: _Task,
    start: float,
    potful: int = 0,
    empty_first: bool = False,
    frees: bool = False,
) -> WorkStep:
    return WorkStep(
        before_min=max(round(-start, 9), 0.0) + 0.0,  # never a negative nought
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
    )


def _with_fire(steps: Sequence[WorkStep], burner: Burner | None) -> tuple[WorkStep, ...]:
    """Light one fire in time for the first flame or press, and heat the irons before that press."""
    presses = [step.before_min for step in steps if step.do == "press"]
    flames = [step.before_min for step in steps if step.on == "fire"]
    more: list[WorkStep] = []
    if presses:
        more.append(_fire_step("preheat", max(presses) + PREHEAT_MIN, PREHEAT_MIN, "iron"))
    if presses or flames:
        embers = max(presses) + EMBER_MIN if presses else 0.0
        flame = max(flames) + FLAMES_MIN if flames else 0.0
        minutes = EMBER_MIN if presses else FLAMES_MIN
        more.append(_fire_step("fire", max(embers, flame), minutes, None))
    joined = sorted([*more, *steps], key=lambda step: -step.before_min)
    return tuple(joined)


def _fire_step(do: WorkDo, before: float, minutes: float, on: WorkPlace | None) -> WorkStep:
    return WorkStep(
        before_min=before, minutes=minutes, do=do, place=None, ingredients=(), water_ml=0.0,
        potful=0, potfuls=1, presses=0, on=on, pot=None, empty_first=False,
    )  # fmt: skip
