"""Plans the runs of the dryers at home for the trips ahead."""

from __future__ import annotations

import datetime
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TypeAlias

from builder.formulas.home_drying import SPARE_SHARE
from builder.model.batch import Method
from builder.model.content import Content
from builder.model.gear import Dryer
from builder.model.recipe import MEALS
from builder.model.trip import ENGLISH
from builder.planning.drying import METHOD_NAMES, suits
from builder.planning.runs.free_time import FreeTime
from builder.planning.runs.household import G_PER_KG, Household, dryers_at_home, task_of
from builder.planning.runs.logged_runs import logged_runs, run_name
from builder.planning.runs.packing import Answer, Packed, Task, exactly, pack, what_would_do
from builder.planning.runs.plan import DryingPlan, Meal, Part, Run
from builder.planning.runs.steps import steps_of
from builder.planning.runs.wanted import (
    ToDry,
    absorber_for,
    best_before,
    kept_at_c,
    packs_for,
    trips_after,
    wanted,
)
from builder.planning.stock import Stock
from builder.record import replace
from builder.speech import Speech, speech_of

# A plan that may be later by less is the latest, and by more it is not known how late it may be.
_WORTH_TELLING_H = 1.0
_NOT_KNOWN_H = 100
# Seeks runs: `pack`, or who knows what it found before.
Search: TypeAlias = Callable[[Task], Answer]


def plan_runs(
    content: Content,
    stock: Stock,
    at: datetime.date,
    trips: Sequence[str] = (),
    say: Speech | None = None,
    *,
    search: Search = pack,
) -> DryingPlan:
    """Give the runs still to do, as of a day, for some trips or for all that are ahead."""
    say = say or speech_of(ENGLISH)
    dryers = dryers_at_home(content)
    logged = tuple(logged_runs(content, stock, dryers, at))
    home = Household(content, at, dryers, FreeTime(content.home.free, at), logged, say)
    loads, impossible = wanted(trips_after(content, at, trips), content, stock, at, say)
    loads = list(_possible(loads, home, impossible))
    runs: list[Run] = []
    remarks: list[str] = []
    for method in sorted({each.goes.method for each in loads}):
        of_method = [each for each in loads if each.goes.method == method]
        found, cannot, more = _planned(of_method, method, home, search)
        runs += found
        impossible += cannot
        remarks += more
    every = [replace(run, steps=steps_of(run, home.free, content, say)) for run in (*logged, *runs)]
    every.sort(key=lambda run: (run.start, run.id))
    return DryingPlan(tuple(every), tuple(impossible), tuple(remarks))


def _possible(loads: Sequence[ToDry], home: Household, impossible: list[str]) -> Iterator[ToDry]:
    """Give what some dryer dries in time; say of the rest why none does."""
    for each in loads:
        say, method = home.say, each.goes.method
        blanks = {
            "food": each.goes.substance.name,
            "trip": home.content.trips[each.trip].title,
            "dryer": say(METHOD_NAMES[method]),
        }
        of_method = [dryer for dryer in home.dryers.values() if dryer.method == method]
        if not of_method:
            impossible.append(
                say(
                    "{food} for {trip}: no {dryer} is listed at home. Write `dryers:` in "
                    "home.yaml, name another way in `dried_by:`, or buy it.",
                    **blanks,
                )
            )
        elif not any(suits(dryer, each.goes) for dryer in of_method):
            least_c, most_c = each.goes.air_c or (0.0, 0.0)
            impossible.append(
                say(
                    "{food} for {trip}: it takes air of {least} to {most}, and no {dryer} at home "
                    "can be set so. One that can would do, or a freeze-dryer.",
                    least=say.show(least_c, "temperature_c", home.content.home.units),
                    most=say.show(most_c, "temperature_c", home.content.home.units),
                    **blanks,
                )
            )
        elif each.last_day < home.at:
            impossible.append(
                say.count(
                    "{food} for {trip}: it had to be out of the dryer by {last}. A start {n} day "
                    "later would do, or buy it.",
                    "{food} for {trip}: it had to be out of the dryer by {last}. A start {n} days "
                    "later would do, or buy it.",
                    (home.at - each.last_day).days,
                    last=say.date(each.last_day),
                    **blanks,
                )
            )
        else:
            yield each


def _planned(
    loads: Sequence[ToDry], method: Method, home: Household, search: Search
) -> tuple[list[Run], list[str], list[str]]:
    """Plan what is dried by one method: runs, what cannot be done, and remarks."""
    dryers = [each for each in home.dryers.values() if each.method == method]
    task = task_of(loads, dryers, home)
    answer = search(task)
    if answer.packed is not None:
        remarks = list(_left_open(answer, method, home.say))
        return _runs(answer.packed, loads, dryers, home), [], remarks
    names = [(each.goes.substance.name, home.content.trips[each.trip].title) for each in loads]
    left, says = what_would_do(task, names, home.at, home.say, home.content.home.units)
    runs = _runs(left, loads, dryers, home) if left else []
    # A search that was cut short may have missed a plan, also one that this second one found.
    return runs, [says] if says else [], [] if answer.is_sure else [_cut_short(method, home.say)]


def _cut_short(method: Method, say: Speech) -> str:
    return say(
        "The search for runs of the {dryer} was ended after its time: there may be a better plan.",
        dryer=say(METHOD_NAMES[method]),
    )


def _left_open(answer: Answer, method: Method, say: Speech) -> Iterator[str]:
    """Say how far from the best plan this one may be, where the search ended before it knew."""
    dryer = say(METHOD_NAMES[method])
    runs = len(answer.packed.fillings) if answer.packed else 0
    if answer.fewer_runs:
        yield say.count(
            "The search for runs of the {dryer} was ended after its time: every rule is kept, "
            "but {n} run fewer may do.",
            "The search for runs of the {dryer} was ended after its time: every rule is kept, "
            "but {n} runs fewer may do.",
            answer.fewer_runs,
            dryer=dryer,
        )
    elif answer.more_spare:
        yield say.count(
            "The runs of the {dryer} are as few as can be, but {n} more may have a day to spare: "
            "the search was ended after its time.",
            "The runs of the {dryer} are as few as can be, but {n} more may have a day to spare: "
            "the search was ended after its time.",
            answer.more_spare,
            dryer=dryer,
        )
    elif answer.later_h >= _WORTH_TELLING_H:
        later_h = math.ceil(answer.later_h / runs)
        if later_h > _NOT_KNOWN_H:
            yield _cut_short(method, say)
        else:
            yield say(
                "The runs of the {dryer} are as few as can be; a longer search might let them "
                "begin up to {hours} h later on average.",
                dryer=dryer,
                hours=say.number(later_h),
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
        whole_kg = float(loads[number].fresh_g) / G_PER_KG - packed.left_out_kg[number]
        exact = exactly(list(of_thing.values()), whole_kg)
        parts[number] = {place: kg * G_PER_KG for place, kg in zip(of_thing, exact, strict=True)}
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
