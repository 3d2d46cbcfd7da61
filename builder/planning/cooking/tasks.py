"""What each step of a dish asks: a pot, a heat, so many minutes, and in which potful."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.formulas.fire import EMBER_MIN, TURN_MIN
from builder.model.figure import Count, Found, add, counted, named, none, nothing
from builder.model.kit import (
    PlannedMeal,
    WorkDo,
    WorkPlace,
)
from builder.model.recipe import HEATING, OVER_FLAME
from builder.planning.cooking.camp_water import heat_of
from builder.planning.cooking.hearth import Burner, Hearth
from builder.planning.cooking.standing import measured_after, poured_off_after
from builder.record import dataclass, replace

# Common practice, no source: empty irons get hot on the first embers, within the ember time;
# small wood gives a flame for a pot.
PREHEAT_MIN = named(5.0, "preheat_min", "common-practice")
FLAMES_MIN = named(10.0, "flames_min", "common-practice")
# Common practice, no source: a mug is drunk up before it is filled again.
DRINKING_MIN = named(10.0, "drinking_min", "common-practice")
EMBERS_MIN = named(EMBER_MIN, "ember_min", "common-practice")
_TURN_MIN = named(TURN_MIN, "turn_min", "common-practice")
NO_MINUTES, NO_WATER_ML = nothing("minutes"), nothing("water_ml")
NO_PRESSES = none("presses")
ONE_POTFUL = Count(1, Found("potfuls", "counted"))
FLAMES = ("stove", "fire")  # what dishes take turns over


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do, with what it keeps busy."""

    do: WorkDo
    minutes: float = NO_MINUTES
    ingredients: tuple[str, ...] = ()
    water_ml: float = NO_WATER_ML
    presses: int = NO_PRESSES
    on: WorkPlace | None = None
    pot: str | None = None
    stir: bool = False
    lid: bool = False
    hot: bool = False
    each_side_min: float = 0.0
    step: int | None = None
    stove: str | None = None  # which one, where it is on a stove

    @property
    def heat(self) -> str | None:
        """What heats it, each stove for itself."""
        return f"stove {self.stove}" if self.on == "stove" else self.on


@dataclass(frozen=True, slots=True)
class Run:
    """Tasks that follow each other without a break."""

    tasks: tuple[Task, ...]
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
            if task.heat and task.minutes:
                yield (task.heat, begins, ends)
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
class Dish:
    """A recipe cut into runs, and what is done when all eat."""

    place: int
    runs: tuple[Run, ...]
    potfuls: int
    serve: tuple[Task, ...]
    in_mugs: bool
    put_on: bool  # it or its water is heated in a pot
    done_before_min: float = NO_MINUTES  # what is taken out of its pot needs that long after it

    @property
    def heat(self) -> str | None:
        """Over which flame it stands; one dish stands over one."""
        tasks = (task for run in self.runs for task in run.tasks)
        return next((task.heat for task in tasks if task.on in FLAMES), None)

    @property
    def minutes(self) -> float:
        """How long its runs take."""
        return add(run.minutes for run in self.runs)


def dish_of(place: int, meal: PlannedMeal, hearth: Hearth) -> Dish:
    """Cut a recipe into runs: cold soaking for all potfuls, each potful, then what is done once."""
    steps = list(meal.steps)
    last = len(steps)
    while last and steps[last - 1].do == "serve":
        last -= 1
    seen: set[str] = set()
    told = hearth.as_told(meal.cooked_on, stove=meal.stove)
    burner = told.burner_for(meal.most_ml, meal.potfuls)
    boils = _boil_minutes(meal, burner)
    tasks = [_tasks(meal, number, burner, boils, seen) for number in range(len(steps))]
    serve = tuple(task for group in tasks[last:] for task in group)
    in_turn = meal.potfuls if meal.potfuls > 1 and _holds_pot(meal) else ONE_POTFUL
    if in_turn == 1:
        in_mugs = meal.cook_in == "mug"
        mugs = meal.eaters if in_mugs else ()
        runs: tuple[Run, ...] = (Run(_joined(tasks[:last]), mugs=mugs),)
        heats = meal.cook_in != "iron" and any(task.on in FLAMES for task in runs[0].tasks)
        return Dish(place, runs, meal.potfuls or ONE_POTFUL, serve, in_mugs, heats)
    hot = [number for number, step in enumerate(steps[:last]) if step.do in HEATING or step.hot]
    first = hot[0] if hot else 0
    press = next((number for number in hot if steps[number].do == "press"), last)
    before = Run(tuple(replace(task, pot=None) for task in _joined(tasks[:first])))
    potful = tuple(_part(task, in_turn) for task in _joined(tasks[first:press]))
    after = Run(_joined(tasks[press:last]))
    runs = (before, *(Run(potful, number + 1) for number in range(in_turn)), after)
    runs = tuple(run for run in runs if run.tasks)
    return Dish(place, runs, in_turn, serve, False, meal.cook_in != "iron")


def _joined(groups: Sequence[Sequence[Task]]) -> tuple[Task, ...]:
    return tuple(task for group in groups for task in group)


def _part(task: Task, potfuls: int) -> Task:
    """Give a task for one potful of several: bringing to the boil takes its part of the time."""
    minutes = task.minutes / potfuls if task.do == "boil" else task.minutes
    return replace(task, minutes=minutes, water_ml=task.water_ml / potfuls)


def _holds_pot(meal: PlannedMeal) -> bool:
    """Tell whether the food itself is in a pot, rather than in mugs, a bowl or a bag."""
    if meal.cook_in == "pot":
        return True
    heats = any(step.do in OVER_FLAME or step.hot for step in meal.steps)
    return meal.cook_in == "iron" and heats


def _tasks(
    meal: PlannedMeal,
    number: int,
    burner: Burner | None,
    boils: Mapping[int, float],
    seen: set[str],
) -> tuple[Task, ...]:
    """Give what one step asks for; water for hot soaking is boiled before the first of them."""
    step = meal.steps[number]
    if step.together and meal.begins_in is not None:  # in the pot that it is taken out of
        seen.update(each.id for each in step.ingredients)
        return ()
    pot = meal.pot if _holds_pot(meal) else None
    heat = heat_of(burner)
    new = tuple(each.id for each in step.ingredients if each.id not in seen)
    seen.update(new)
    tasks: list[Task] = []
    if meal.parting and meal.parting.before_step == number:
        tasks.append(Task("part", pot=pot))
    water_ml = step.water_ml
    soaks_hot = step.do == "soak" and step.hot
    if soaks_hot:
        if number in boils:
            hot_ml = add(each.water_ml for each in meal.steps if each.do == "soak" and each.hot)
            tasks.append(
                Task("boil", boils[number], water_ml=hot_ml, on=heat, pot=meal.pot, hot=True)
            )
        water_ml = NO_WATER_ML
    minutes = boils[number] if step.do == "boil" else step.minutes
    busy: WorkPlace | None = None
    if step.do == "press":
        minutes, busy = step.presses * (2 * step.each_side_min + _TURN_MIN), "iron"
    elif step.do == "bake":
        busy, pot = "embers", meal.pot
    elif step.do in OVER_FLAME:
        busy, pot = heat, meal.pot
    tasks.append(
        Task(
            step.do,
            minutes or NO_MINUTES,
            new,
            water_ml or NO_WATER_ML,
            step.presses or NO_PRESSES,
            busy,
            pot,
            step.stir,
            step.lid,
            soaks_hot,
            step.each_side_min,
            number,
        )
    )
    if step.do == "boil" and step.minutes:
        tasks.append(Task("hold", step.minutes, on=busy, pot=pot, stir=step.stir, lid=step.lid))
    if number == measured_after(meal.steps) and meal.reach_c is not None:
        tasks.append(Task("measure", pot=pot))
    if number == poured_off_after(meal.steps) and meal.drain_ml:
        tasks.append(Task("drain", water_ml=meal.drain_ml, pot=pot))
    which = burner.stove if burner else None
    return tuple(replace(task, stove=which) if task.on == "stove" else task for task in tasks)


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
    minutes = burner.minutes(meal.heat_kj, meal.conditions) if burner else NO_MINUTES
    all_ml = add(fresh_ml.values())
    if all_ml <= 0:
        boils = counted(len(fresh_ml), "boils")
        return {number: minutes / boils for number in fresh_ml}
    return {number: minutes * each_ml / all_ml for number, each_ml in fresh_ml.items()}
