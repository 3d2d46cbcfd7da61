"""One time line for each mealtime: all its dishes, over stove, fire and embers, pots and irons.

Each potful of a dish is one unbroken run of steps, since food on the heat cannot wait. Runs are
put down backward from eating, each as late as its heat, its pot and the irons allow, and one
mug holds one drink at a time. What is heated in pots is put on in the order of the menu. Of the
orders of the dishes, the one is taken that lets ready food wait least. Water for the camp comes
before all of them: nothing soaks in snow that is not melted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise, permutations

from builder.formulas.fire import EMBER_MIN, TURN_MIN
from builder.model.figure import Count, Figure, Found, add, counted, largest, named, none, nothing
from builder.model.kit import (
    FuelDay,
    OrderOfWork,
    PlannedMeal,
    WorkDo,
    WorkPlace,
    WorkStep,
)
from builder.model.recipe import MEALS, MealName
from builder.planning.cooking.camp_water import heat_of, water_for, water_step
from builder.planning.cooking.cooking import ON_EMBERS
from builder.planning.cooking.hearth import Burner, Hearth
from builder.planning.cooking.standing import HEATS, measured_after, poured_off_after

# Common practice, no source: empty irons get hot on the first embers, within the ember time;
# small wood gives a flame for a pot.
PREHEAT_MIN = named(5.0, "preheat_min", "common-practice")
FLAMES_MIN = named(10.0, "flames_min", "common-practice")
# Common practice, no source: a mug is drunk up before it is filled again.
DRINKING_MIN = named(10.0, "drinking_min", "common-practice")
_EMBER_MIN = named(EMBER_MIN, "ember_min", "common-practice")
_TURN_MIN = named(TURN_MIN, "turn_min", "common-practice")

AT_THE_MEAL = nothing("before_min", "when all eat")
_NO_MINUTES, _NO_WATER_ML = nothing("minutes"), nothing("water_ml")
_NO_PRESSES = none("presses")
_ONE_POTFUL = Count(1, Found("potfuls", "counted"))

_FLAMES = ("stove", "fire")  # what dishes take turns over
_ALL_ORDERS_UP_TO = 4  # dishes; of more, a few good orders are tried
_TOUCHING_MIN = 1e-9
_WAITS_FROM_MIN = 0.5  # a shorter wait rounds to nothing


@dataclass(frozen=True, slots=True)
class _Task:
    """One thing to do, with what it keeps busy."""

    do: WorkDo
    minutes: float = _NO_MINUTES
    ingredients: tuple[str, ...] = ()
    water_ml: float = _NO_WATER_ML
    presses: int = _NO_PRESSES
    on: WorkPlace | None = None
    pot: str | None = None
    stir: bool = False
    lid: bool = False
    hot: bool = False
    each_side_min: float = 0.0
    step: int | None = None


@dataclass(frozen=True, slots=True)
class _Run:
    """Tasks that follow each other without a break."""

    tasks: tuple[_Task, ...]
    potful: int = 0
    mugs: tuple[str, ...] = ()  # whose mugs it fills

    @property
    def minutes(self) -> float:
        """How long it takes."""
        return add(task.minutes for task in self.tasks)

    def busy(self) -> Iterator[tuple[str, float, float]]:
        """Give what is kept busy, from how long after its begin to how long; pots while full."""
        potted: list[tuple[str, float, float]] = []
        begins: float = 0.0
        for task in self.tasks:
            ends = begins + task.minutes
            if task.on and task.minutes:
                yield (task.on, begins, ends)
            if task.pot:
                potted.append((f"pot {task.pot}", begins, ends))
            else:
                yield from ((f"mug {name}", begins, ends) for name in self.mugs)
            begins = ends
        for name in self.mugs:
            yield (f"mug {name}", begins, begins + DRINKING_MIN)
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
    put_on: bool  # it or its water is heated in a pot
    done_before_min: float = _NO_MINUTES  # what is taken out of its pot needs that long after it

    @property
    def heat(self) -> WorkPlace | None:
        """Over which flame it stands; one dish stands over one."""
        tasks = (task for run in self.runs for task in run.tasks)
        return next((task.on for task in tasks if task.on in _FLAMES), None)

    @property
    def minutes(self) -> float:
        """How long its runs take."""
        return add(run.minutes for run in self.runs)


@dataclass(slots=True)
class _Calendar:
    """What is busy from when to when, in minutes before all eat."""

    busy: dict[str, list[tuple[float, float]]] = field(default_factory=dict)

    def latest(self, run: _Run, end: float) -> Figure:
        """Give the latest begin of a run that ends in time and finds everything free."""
        start = _neat(end + run.minutes)
        while (earlier := self._clear_of(run, start)) is not None:
            start = _neat(earlier)
        return start

    def _clear_of(self, run: _Run, start: float) -> float | None:
        """Give the begin that lets the run end where something is taken; None where all is free."""
        for what, begins, ends in run.busy():
            for taken_from, taken_to in self.busy.get(what, ()):
                begins_late = float(start) - begins > taken_to + _TOUCHING_MIN
                if begins_late and float(start) - ends < taken_from - _TOUCHING_MIN:
                    return taken_from + ends
        return None

    def take(self, run: _Run, start: float) -> None:
        """Keep busy what a run needs."""
        for what, begins, ends in run.busy():
            self.busy.setdefault(what, []).append((start - begins, start - ends))


def _neat(minutes: float) -> Figure:
    """Give minutes before eating without the noise of adding up, which would sort them wrongly."""
    if not isinstance(minutes, Figure) or minutes < _TOUCHING_MIN:
        return AT_THE_MEAL
    return Figure(round(float(minutes), 12), minutes.origin)


def orders_of_work(
    meals: Sequence[PlannedMeal], hearth: Hearth, fuel: FuelDay | None = None
) -> tuple[OrderOfWork, ...]:
    """Give the order of work for each mealtime of a day that has something to cook."""
    cooked: dict[MealName, list[_Dish]] = {}
    for name in MEALS:
        for place, meal in enumerate(meals):
            if meal.meal == name and meal.recipe:
                cooked.setdefault(name, []).append(_dish(place, meal, hearth))
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


def _dish(place: int, meal: PlannedMeal, hearth: Hearth) -> _Dish:
    """Cut a recipe into runs: cold soaking for all potfuls, each potful, then what is done once."""
    steps = list(meal.steps)
    last = len(steps)
    while last and steps[last - 1].do == "serve":
        last -= 1
    seen: set[str] = set()
    told = hearth.as_told(meal.cooked_on)
    burner = told.burner_for(meal.most_ml, meal.potfuls)
    tasks = [_tasks(meal, number, burner, seen) for number in range(len(steps))]
    serve = tuple(task for group in tasks[last:] for task in group)
    in_turn = meal.potfuls if meal.potfuls > 1 and _holds_pot(meal) else _ONE_POTFUL
    if in_turn == 1:
        in_mugs = meal.cook_in == "mug"
        mugs = meal.eaters if in_mugs else ()
        runs: tuple[_Run, ...] = (_Run(_joined(tasks[:last]), mugs=mugs),)
        heats = meal.cook_in != "iron" and any(task.on in _FLAMES for task in runs[0].tasks)
        return _Dish(place, runs, meal.potfuls or _ONE_POTFUL, serve, in_mugs, heats)
    hot = [number for number, step in enumerate(steps[:last]) if step.do in HEATS or step.hot]
    first = hot[0] if hot else 0
    press = next((number for number in hot if steps[number].do == "press"), last)
    before = _Run(tuple(replace(task, pot=None) for task in _joined(tasks[:first])))
    potful = tuple(_part(task, in_turn) for task in _joined(tasks[first:press]))
    after = _Run(_joined(tasks[press:last]))
    runs = (before, *(_Run(potful, number + 1) for number in range(in_turn)), after)
    runs = tuple(run for run in runs if run.tasks)
    return _Dish(place, runs, in_turn, serve, False, meal.cook_in != "iron")


def _side_by_side(dishes: Sequence[_Dish], meals: Sequence[PlannedMeal]) -> list[_Dish]:
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
            main, done_before_min=_neat(largest(other.minutes - after, _NO_MINUTES))
        )
        beside = tuple(
            replace(run, tasks=tuple(replace(task, on=None) for task in run.tasks))
            for run in other.runs
        )
        found[number + 1] = replace(other, runs=beside, put_on=False)
    return found


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
    if step.together and meal.begins_in is not None:  # in the pot that it is taken out of
        seen.update(each.id for each in step.ingredients)
        return ()
    pot = meal.pot if _holds_pot(meal) else None
    heat = heat_of(burner)
    new = tuple(each.id for each in step.ingredients if each.id not in seen)
    seen.update(new)
    tasks: list[_Task] = []
    if meal.parting and meal.parting.before_step == number:
        tasks.append(_Task("part", pot=pot))
    water_ml = step.water_ml
    soaks_hot = step.do == "soak" and step.hot
    boils = _boil_minutes(meal, burner)
    if soaks_hot:
        if number in boils:
            hot_ml = add(each.water_ml for each in meal.steps if each.do == "soak" and each.hot)
            tasks.append(
                _Task("boil", boils[number], water_ml=hot_ml, on=heat, pot=meal.pot, hot=True)
            )
        water_ml = _NO_WATER_ML
    minutes = boils[number] if step.do == "boil" else step.minutes
    busy: WorkPlace | None = None
    if step.do == "press":
        minutes, busy = step.presses * (2 * step.each_side_min + _TURN_MIN), "iron"
    elif step.do == "bake":
        busy, pot = "embers", meal.pot
    elif step.do in ("boil", "simmer", "fry"):
        busy, pot = heat, meal.pot
    tasks.append(
        _Task(
            step.do, minutes or _NO_MINUTES, new, water_ml or _NO_WATER_ML,
            step.presses or _NO_PRESSES, busy, pot, step.stir, step.lid, soaks_hot,
            step.each_side_min, number,
        )
    )  # fmt: skip
    if step.do == "boil" and step.minutes:
        tasks.append(_Task("hold", step.minutes, on=busy, pot=pot, stir=step.stir, lid=step.lid))
    if number == measured_after(meal.steps) and meal.reach_c is not None:
        tasks.append(_Task("measure", pot=pot))
    if number == poured_off_after(meal.steps) and meal.drain_ml:
        tasks.append(_Task("drain", water_ml=meal.drain_ml, pot=pot))
    return tuple(tasks)


def _boil_minutes(meal: PlannedMeal, burner: Burner | None) -> dict[int, float]:
    """Share the meal's time to the boil among its boils, by the water each brings there."""
    fresh_ml: dict[int, float] = {}
    waiting_ml: float = 0.0
    soaked_hot = False
    for number, step in enumerate(meal.steps):
        if step.together and meal.begins_in is not None:
            continue
        if step.do == "soak" and step.hot:
            if not soaked_hot:
                hot = (each for each in meal.steps if each.do == "soak" and each.hot)
                fresh_ml[number] = waiting_ml + add(each.water_ml for each in hot)
                waiting_ml = 0.0
            soaked_hot = True
            continue
        waiting_ml += step.water_ml
        if step.do == "boil":
            fresh_ml[number] = waiting_ml
            waiting_ml = 0.0
    minutes = burner.minutes(meal.heat_kj, meal.conditions.wind) if burner else _NO_MINUTES
    all_ml = add(fresh_ml.values())
    if all_ml <= 0:
        boils = counted(len(fresh_ml), "boils")
        return {number: minutes / boils for number in fresh_ml}
    return {number: minutes * each_ml / all_ml for number, each_ml in fresh_ml.items()}


# ---------------------------------------------------------------------------------------------
# runs → a time line

_Placed = list[tuple[_Dish, list[tuple[_Run, Figure]]]]


def _best(dishes: Sequence[_Dish]) -> list[WorkStep]:
    """Take the order in which ready food waits least, then the one that begins latest."""
    if len(dishes) <= _ALL_ORDERS_UP_TO:
        orders = [list(order) for order in permutations(dishes)]
    else:
        short_first = sorted(dishes, key=lambda dish: (not dish.in_mugs, dish.minutes, dish.place))
        orders = [short_first, short_first[::-1], list(dishes)]
    orders = [_by_menu(order) for order in orders]
    lines = [_placed(order) for order in orders]
    best = min(range(len(lines)), key=lambda number: (*_cost(lines[number]), number))
    return _entries(lines[best])


def _by_menu(order: list[_Dish]) -> list[_Dish]:
    """Put what is heated in pots into the order of the menu, its last nearest to eating."""
    potted = iter(sorted((dish for dish in order if dish.put_on), key=lambda dish: -dish.place))
    return [next(potted) if dish.put_on else dish for dish in order]


def _placed(dishes: Sequence[_Dish]) -> _Placed:
    """Put dishes down backward from eating: the first nearest to it.

    What is heated in a pot is done with its heat when what follows there on the menu is put on.
    """
    calendar = _Calendar()
    placed: _Placed = []
    next_on: dict[WorkPlace | None, Figure] = {}
    for dish in dishes:
        runs: list[tuple[_Run, Figure]] = []
        heat, end = dish.heat, AT_THE_MEAL
        if dish.put_on:
            end = _neat(next_on.get(heat, AT_THE_MEAL) - _after_heat_min(dish))
        if dish.done_before_min > end:
            end = _neat(dish.done_before_min)
        for run in reversed(dish.runs):
            end = calendar.latest(run, end)
            calendar.take(run, end)
            runs.insert(0, (run, end))
        if dish.put_on:
            next_on[heat] = max(next_on.get(heat, AT_THE_MEAL), _put_on(runs))
        placed.append((dish, runs))
    return placed


def _after_heat_min(dish: _Dish) -> Figure:
    """Give how long a dish goes on without heat at its end."""
    tasks = [task for run in dish.runs for task in run.tasks]
    last = max((number for number, task in enumerate(tasks) if task.on in _FLAMES), default=-1)
    return add(task.minutes for task in tasks[last + 1 :])


def _put_on(runs: Sequence[tuple[_Run, Figure]]) -> Figure:
    """Give how long before eating a dish first comes over the heat."""
    for run, start in runs:
        for task in run.tasks:
            if task.on in _FLAMES:
                return start
            start = _neat(start - task.minutes)
    return AT_THE_MEAL


def _cost(placed: _Placed) -> tuple[float, float]:
    waits = sum(float(_ready(runs)) for _, runs in placed)
    begins = max((float(start) for _, runs in placed for _, start in runs), default=0.0)
    return round(waits, 6), round(begins, 6)


def _ready(runs: Sequence[tuple[_Run, Figure]]) -> Figure:
    """Give how long before eating a dish is ready."""
    return _neat(runs[-1][1] - runs[-1][0].minutes) if runs else AT_THE_MEAL


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
            begins = round(float(start), 9)
            entries += [
                (int(round(float(entry.before_min), 9) >= begins), entry)
                for entry in _run_entries(dish, run, start, uses)
            ]
        for run, start in runs[:-1]:
            ready = _neat(start - run.minutes)
            if run.potful and ready >= _WAITS_FROM_MIN:
                kept = _entry(dish, _Task("keep", ready), ready, potful=run.potful, frees=True)
                entries.append((_rank_of_end(run), kept))
        if dish.runs and _ready(runs) >= _WAITS_FROM_MIN:
            entries.append((_rank_of_end(runs[-1][0]), _keep(dish, _ready(runs), uses)))
        entries += [(2, _entry(dish, task, AT_THE_MEAL)) for task in dish.serve]
        found += [
            ((-round(float(entry.before_min), 9), rank, dish.place, number), entry)
            for number, (rank, entry) in enumerate(entries)
        ]
    return [entry for _, entry in sorted(found, key=lambda each: each[0])]


def _rank_of_end(run: _Run) -> int:
    """Give what comes at the end of a run its place: a run of no time begins as it ends."""
    return int(run.minutes <= _TOUCHING_MIN)


def _keep(dish: _Dish, ready: Figure, uses: Sequence[tuple[str, float, float, bool]]) -> WorkStep:
    """Keep a dish warm until all eat, out of its pot where another dish needs that."""
    pots = {task.pot for run in dish.runs for task in run.tasks if task.pot}
    after = float(ready) + _TOUCHING_MIN
    if dish.in_mugs:  # its own are drunk from at once
        pots = {f"mug {name}" for run in dish.runs for name in run.mugs}
        after = float(ready) - _TOUCHING_MIN
    frees = any(pot in pots and float(begins) <= after for pot, begins, _, _ in uses)
    return _entry(dish, _Task("keep", ready), ready, frees=frees)


def _pot_uses(placed: _Placed) -> list[tuple[str, float, float, bool]]:
    """Give each pot's uses: from when to when, and whether food is left in it."""
    return [
        (what.removeprefix("pot "), float(start) - begins, float(start) - ends, not dish.in_mugs)
        for dish, runs in placed
        for run, start in runs
        for what, begins, ends in run.busy()
        if what.startswith(("pot ", "mug ")) and ends > begins
    ]


def _run_entries(
    dish: _Dish, run: _Run, start: Figure, uses: Sequence[tuple[str, float, float, bool]]
) -> Iterator[WorkStep]:
    filled = False
    for task in run.tasks:
        empty_first = False
        if task.pot and not filled:
            filled = True
            before = [
                use for use in uses if use[0] == task.pot and use[2] >= float(start) - _TOUCHING_MIN
            ]
            empty_first = bool(before) and min(before, key=lambda use: use[2])[3]
        yield _entry(dish, task, start, potful=run.potful, empty_first=empty_first)
        if task.minutes:
            start = _neat(start - task.minutes)


def _entry(
    dish: _Dish,
    task: _Task,
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
        needed.append(largest(*on_embers) + _EMBER_MIN)
    if flames:
        needed.append(largest(*flames) + FLAMES_MIN)
    if needed:
        minutes = _EMBER_MIN if on_embers else FLAMES_MIN
        more.append(_fire_step("fire", largest(*needed), minutes, None))
    # The noise of adding up must not part what falls on one moment: that is in order already.
    joined = sorted([*more, *steps], key=lambda step: -round(float(step.before_min), 9))
    return tuple(joined)


def _fire_step(do: WorkDo, before: float, minutes: float, on: WorkPlace | None) -> WorkStep:
    return WorkStep(
        before_min=before, minutes=minutes, do=do, place=None, ingredients=(),
        water_ml=_NO_WATER_ML, potful=0, potfuls=_ONE_POTFUL, presses=_NO_PRESSES,
        on=on, pot=None, empty_first=False,
    )  # fmt: skip
