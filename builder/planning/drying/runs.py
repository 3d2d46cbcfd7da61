"""Plans the runs of the dryers at home for the trips ahead."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from builder.formulas.home_drying import SPARE_SHARE
from builder.model.batch import Method
from builder.model.content import Content
from builder.model.gear import Dryer
from builder.model.recipe import MEALS
from builder.planning.drying.free_time import FreeTime, Window
from builder.planning.drying.logged_runs import busy, logged_runs, run_name
from builder.planning.drying.packing import (
    Answer,
    Free,
    Packed,
    Place,
    Task,
    Thing,
    exactly,
    pack,
)
from builder.planning.drying.plan import DryingPlan, Meal, Part, Run
from builder.planning.drying.rules import FREEZER_HOURS, hours_in, may_share, most_load_g, suits
from builder.planning.drying.shortfall import what_would_do
from builder.planning.drying.steps import steps_of
from builder.planning.drying.wanted import (
    ToDry,
    absorber_for,
    best_before,
    kept_at_c,
    packs_for,
    trips_ahead,
    wanted,
)
from builder.planning.stock import Stock

# Runs are looked for in so many days before each deadline, and further back only for want of room.
NEAR_DAYS = 10
FAR_DAYS = 60
_DAY = datetime.timedelta(days=1)
_G_PER_KG = 1000.0


@dataclass(frozen=True, slots=True)
class Household:
    """What runs are planned with: dryers by id, free hours, what stands in them already."""

    content: Content
    at: datetime.date
    dryers: Mapping[str, Dryer]
    free: FreeTime
    logged: tuple[Run, ...]

    @property
    def midnight(self) -> datetime.datetime:
        """The moment that hours are counted from."""
        return datetime.datetime.combine(self.at, datetime.time())

    def hour(self, at: datetime.datetime) -> float:
        """Give a moment as hours since the first midnight."""
        return (at - self.midnight).total_seconds() / 3600

    def moment(self, hour: float) -> datetime.datetime:
        """Give the moment of an hour since the first midnight."""
        return self.midnight + datetime.timedelta(minutes=round(hour * 60))

    def day(self, date: datetime.date) -> int:
        """Give a date as days since the first one."""
        return (date - self.at).days


def plan_runs(
    content: Content, stock: Stock, at: datetime.date, trips: Sequence[str] = ()
) -> DryingPlan:
    """Give the runs still to do, as of a day, for some trips or for all that are ahead."""
    dryers = dryers_at_home(content)
    logged = tuple(logged_runs(content, stock, dryers, at))
    home = Household(content, at, dryers, FreeTime(content.home.free, at), logged)
    loads, impossible = wanted(trips_ahead(content, at, trips), content, stock, at)
    loads = list(_possible(loads, home, impossible))
    runs: list[Run] = []
    remarks: list[str] = []
    for method in sorted({each.goes.method for each in loads}):
        of_method = [each for each in loads if each.goes.method == method]
        found, cannot, more = _planned(of_method, method, home)
        runs += found
        impossible += cannot
        remarks += more
    every = [replace(run, steps=steps_of(run, home.free, content)) for run in (*logged, *runs)]
    every.sort(key=lambda run: (run.start, run.id))
    return DryingPlan(tuple(every), tuple(impossible), tuple(remarks))


def dryers_at_home(content: Content) -> dict[str, Dryer]:
    """Give the dryers that stand at home: as told, else those that batches were dried in."""
    told = content.home.dryers or tuple(
        sorted({batch.dryer for batch in content.batches.values() if batch.dryer})
    )
    return {name: content.gear.dryers[name] for name in told}


def _possible(loads: Sequence[ToDry], home: Household, impossible: list[str]) -> Iterator[ToDry]:
    """Give what some dryer dries in time; say of the rest why none does."""
    for each in loads:
        name, method = each.goes.substance.name, each.goes.method
        of_method = [dryer for dryer in home.dryers.values() if dryer.method == method]
        if not of_method:
            impossible.append(
                f"{name} for {each.trip}: no {method} stands at home; write "
                "`dryers:` in home.yaml, name another way in `dried_by:`, or buy it"
            )
        elif not any(suits(dryer, each.goes) for dryer in of_method):
            least_c, most_c = each.goes.air_c or (0.0, 0.0)
            impossible.append(
                f"{name} for {each.trip}: it takes air of {least_c:.0f} to {most_c:.0f} °C, and no "
                f"{method} at home can be set so; one that can would do, or a freeze-dryer"
            )
        elif each.last_day < home.at:
            late = (home.at - each.last_day).days
            impossible.append(
                f"{name} for {each.trip}: it had to be out of the dryer by "
                f"{each.last_day.isoformat()}; a start {late} days later would do, or buy it"
            )
        else:
            yield each


def _planned(
    loads: Sequence[ToDry], method: Method, home: Household
) -> tuple[list[Run], list[str], list[str]]:
    """Plan what is dried by one method: runs, what cannot be done, and remarks."""
    dryers = [each for each in home.dryers.values() if each.method == method]
    task = task_of(loads, dryers, home, NEAR_DAYS)
    answer = pack(task)
    further = task_of(loads, dryers, home, FAR_DAYS)
    if further.free != task.free and (answer.packed is None or answer.packed.tight):
        task = further
        answer = _better(answer, pack(further))
    remarks = []
    if not answer.is_sure:
        remarks.append(
            f"the search for the best runs of the {method} was ended after its time; there may be "
            "a plan with fewer or later ones"
        )
    if answer.packed is not None:
        return _runs(answer.packed, loads, dryers, home), [], remarks
    names = [(each.goes.substance.name, each.trip) for each in loads]
    left, says = what_would_do(task, names, home.free, home.at)
    runs = _runs(left, loads, dryers, home) if left else []
    return runs, [says], remarks


def _better(near: Answer, far: Answer) -> Answer:
    """Choose between the plan of the last days and one of more days."""
    if near.packed is None or far.packed is None:
        return far if near.packed is None else near
    keys = [(len(each.fillings), each.tight) for each in (near.packed, far.packed)]
    return far if keys[1] < keys[0] else near


def task_of(loads: Sequence[ToDry], dryers: Sequence[Dryer], home: Household, days: int) -> Task:
    """Put everything into bare numbers, with the free hours of some days before each deadline."""
    last_days = {each.last_day for each in loads}
    windows = [
        window
        for window in home.free.windows(max(last_days))
        if any(last - days * _DAY <= window.day <= last for last in last_days)
    ]
    apart = {
        (one, other)
        for one, other in combinations(range(len(loads)), 2)
        if not may_share(loads[one].goes, loads[other].goes)
    }
    return Task(
        things=tuple(_thing(each, dryers, home) for each in loads),
        apart=frozenset(apart),
        places=tuple(_place(each, home) for each in dryers),
        free=tuple(as_free(window, home.at) for window in windows),
    )


def as_free(window: Window, at: datetime.date) -> Free:
    """Give free hours in bare numbers."""
    midnight = datetime.datetime.combine(at, datetime.time())
    hours = [(each - midnight).total_seconds() / 3600 for each in (window.start, window.end)]
    return Free((window.day - at).days, hours[0], hours[1], window.extra)


def _thing(each: ToDry, dryers: Sequence[Dryer], home: Household) -> Thing:
    return Thing(
        fresh_kg=float(each.fresh_g) / _G_PER_KG,
        water_share=float(each.water_share),
        hours=tuple(
            hours_in(dryer, each.goes) if suits(dryer, each.goes) else None for dryer in dryers
        ),
        first_day=home.day(each.first_day),
        last_day=home.day(each.last_day),
        spare_day=home.day(home.free.last_day_to_spare(each.last_day)),
    )


def _place(dryer: Dryer, home: Household) -> Place:
    from_h = 0.0
    if dryer.method == "freeze-dryer":
        first = home.free.next_free(home.midnight)
        from_h = (home.hour(first) if first else 0.0) + FREEZER_HOURS
    return Place(
        load_kg=float(most_load_g(dryer)) / _G_PER_KG,
        ice_kg=None if dryer.ice_g is None else dryer.ice_g / _G_PER_KG,
        from_h=from_h,
        busy_h=tuple(
            (home.hour(busy(run)[0]), home.hour(busy(run)[1]))
            for run in home.logged
            if run.dryer == dryer.id
        ),
    )


# -- back from bare numbers -----------------------------------------------------------------------


def _runs(
    packed: Packed, loads: Sequence[ToDry], dryers: Sequence[Dryer], home: Household
) -> list[Run]:
    fresh_g = _fresh_g(packed, loads)
    meals = {number: _handed_out(loads[number], parts) for number, parts in fresh_g.items()}
    runs = []
    for place, filling in enumerate(packed.fillings):
        dryer = dryers[filling.place]
        start = home.moment(filling.start_h)
        end = start + datetime.timedelta(hours=filling.hours)
        emptied = home.free.next_free(end) or end
        parts: dict[object, list[int]] = {}
        for number, _ in filling.fresh_kg:
            parts.setdefault(loads[number].key, []).append(number)
        spare = min(
            home.free.last_day_to_spare(loads[number].last_day) for number, _ in filling.fresh_kg
        )
        runs.append(
            Run(
                id=run_name(dryer.id, start),
                dryer=dryer.id,
                dryer_name=dryer.name,
                method=dryer.method,
                start=start,
                end=end,
                emptied=emptied,
                parts=tuple(
                    _part(
                        loads[numbers[0]],
                        sum(fresh_g[number][place] for number in numbers),
                        [meal for number in numbers for meal in meals[number][place]],
                        emptied.date(),
                        home.content,
                    )
                    for numbers in parts.values()
                ),
                day_to_spare=emptied.date() <= spare,
            )
        )
    return runs


def _fresh_g(packed: Packed, loads: Sequence[ToDry]) -> dict[int, dict[int, float]]:
    """Give for each thing what goes into which filling; all of it, to the gram and beyond."""
    parts: dict[int, dict[int, float]] = {}
    for place, filling in enumerate(packed.fillings):
        for number, kg in filling.fresh_kg:
            parts.setdefault(number, {})[place] = kg
    for number, of_thing in parts.items():
        whole_kg = float(loads[number].fresh_g) / _G_PER_KG - packed.left_out_kg[number]
        exact = exactly(list(of_thing.values()), whole_kg)
        parts[number] = {place: kg * _G_PER_KG for place, kg in zip(of_thing, exact, strict=True)}
    return parts


def _handed_out(each: ToDry, parts_g: Mapping[int, float]) -> dict[int, list[Meal]]:
    """Give each part the meals that it feeds, the first meals of what is dried first."""
    found: dict[int, list[Meal]] = {}
    waiting = list(each.meals)
    for place, fresh_g in sorted(parts_g.items()):
        room_g = fresh_g * each.ratio / (1.0 + SPARE_SHARE)
        of_part = found.setdefault(place, [])
        while waiting and room_g > 1e-6:
            meal = waiting.pop(0)
            given_g = min(meal.mass_g, room_g)
            of_part.append(replace(meal, mass_g=given_g))
            room_g -= given_g
            if meal.mass_g - given_g > 1e-6:
                waiting.insert(0, replace(meal, mass_g=meal.mass_g - given_g))
    return found


def _part(
    each: ToDry, fresh_g: float, meals: Sequence[Meal], day: datetime.date, content: Content
) -> Part:
    dried_g = fresh_g * each.ratio
    in_turn = sorted(
        meals, key=lambda meal: (meal.eaten_on or day, meal.trip, MEALS.index(meal.meal))
    )
    return Part(
        holds=each.goes.substance.id,
        is_recipe=each.is_recipe,
        name=each.goes.substance.name,
        method=each.goes.method,
        fresh_g=fresh_g,
        dried_g=dried_g,
        meals=tuple(in_turn),
        packs=packs_for([meal.mass_g for meal in meals], dried_g),
        best_before=best_before(each, day, content),
        heated=each.goes.heated,
        absorber=absorber_for(each.goes, content.home),
        kept_at_c=kept_at_c(content.home),
    )
