"""Made-up homes that plan their drying, and an independent check of every rule of a run."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from itertools import permutations
from pathlib import Path
from typing import Any

from builder.model.content import Content
from builder.model.gear import Dryer
from builder.model.home import ALWAYS_FREE, WEEKDAYS, FreeHours, Home, NewBatch
from builder.planning.runs import DryingPlan, Run, Search, pack, plan_runs
from builder.planning.stock.checks import check
from builder.planning.stock.packs import Stock
from builder.record import replace
from tests.planning.folders import Record, day, day_trip, hand, uses

AT = datetime.date(2031, 6, 1)  # a Sunday
START = datetime.date(2031, 6, 21)
SHELF = Dryer("shelf-dryer", "Shelf dryer", "dehydrator", 3000.0, 12.0)
FREEZE = Dryer("home-freeze-dryer", "Freeze dryer", "freeze-dryer", 5000.0, 30.0, ice_g=4000.0)

# Written down anew from the design, not taken from the code.
AIR_C = {
    "herb": (35, 45), "fruit": (52, 60), "vegetable": (52, 60), "legume": (57, 65),
    "grain": (57, 65), "meal": (57, 65), "nut": (40, 60), "other": (57, 65),
    "meat": (57, 71), "poultry": (57, 71), "fish": (57, 71),
}  # fmt: skip


def trip_of(*meals: Record, start: datetime.date = START, **more: Any) -> Record:
    return day_trip(days=[day(each) for each in meals], start=start.isoformat(), **more)


def pot(**amounts: str) -> Record:
    """Give a recipe that boils all it holds."""
    lines = uses(**amounts)
    return {
        "id": "pot", "meal": ["dinner"], "serves": 2, "cook_in": "pot", "reach": "74 degC",
        "uses": lines,
        "steps": [
            {"do": "boil", "with": [each["food"] for each in lines], "water": "600 ml"},
            {"do": "simmer", "minutes": 10},
        ],
    }  # fmt: skip


def content_of(folder: Path, trip: Record, home: Home, *dryers: Dryer, **more: Any) -> Content:
    """Read a folder and put a home into it."""
    content = hand(folder, trip, **more).content
    gear = replace(content.gear, dryers={each.id: each for each in dryers})
    own = replace(home, dryers=tuple(each.id for each in dryers))
    return replace(content, gear=gear, home=own)


def planned(
    content: Content, at: datetime.date = AT, search: Search = pack
) -> tuple[DryingPlan, Stock]:
    stock, problems = check(content)
    assert not [each for each in problems if each.severity == "error"], problems
    return plan_runs(content, stock, at, search=search), stock


HOME = Home(free=dict(ALWAYS_FREE), new_batch=NewBatch("foil", True, 15.0))


def home_free(**days: tuple[int, int]) -> Home:
    """Give a home with free hours on some weekdays."""
    return replace(
        HOME,
        free={day: (FreeHours(a * 60, b * 60),) for day, (a, b) in days.items()},  # type: ignore[misc]
    )


# -- the rules, from the design alone -------------------------------------------------------------


def broken(plan: DryingPlan, content: Content, at: datetime.date = AT) -> list[str]:
    """Give every rule that a plan breaks."""
    found = []
    for run in plan.runs:
        if run.state != "new":
            continue
        found += [f"{run.id}: {each}" for each in _of_run(run, content, at)]
    for one, other in permutations(plan.runs, 2):
        at_once = one.start <= other.start < one.emptied and one.dryer == other.dryer
        if at_once and "new" in (one.state, other.state):
            found.append(f"{one.id} and {other.id} at once")
    return found


def _of_run(run: Run, content: Content, at: datetime.date) -> Iterator[str]:
    dryer = content.gear.dryers[run.dryer or ""]
    parts = run.parts
    if sum(each.fresh_g for each in parts) > dryer.load_g + 0.01:
        yield "load"
    water_g = sum(each.fresh_g - each.dried_g for each in parts)
    if dryer.ice_g is not None and water_g > dryer.ice_g + 0.01:
        yield "ice"
    if not _free_at(run.start, content.home):
        yield "not free to start"
    if not _free_at(run.emptied, content.home):
        yield "not free to empty"
    if not datetime.timedelta() <= run.emptied - run.end <= datetime.timedelta(hours=12):
        yield "waits too long"
    hours = [_hours(part.holds, dryer, content) for part in parts]
    if not math.isclose(run.hours, max(hours), abs_tol=0.02):
        yield "hours"
    if run.start < datetime.datetime.combine(at, datetime.time()):
        yield "begins in the past"
    for part in parts:
        fruit = _kind(part.holds, content) == "fruit"
        for meal in part.meals:
            start = content.trips[meal.trip].start
            assert start is not None and meal.eaten_on is not None
            before = 7 if fruit and dryer.method != "freeze-dryer" else 1
            if run.emptied.date() > start - datetime.timedelta(days=before):
                yield f"{part.holds} too late"
            if part.best_before is None or part.best_before < meal.eaten_on:
                yield f"{part.holds} expires"
        if part.method != dryer.method:
            yield "another method"
    yield from _shared(run, content)


def _shared(run: Run, content: Content) -> Iterator[str]:
    parts = run.parts
    if run.method != "freeze-dryer":
        spans = [AIR_C[_kind(each.holds, content)] for each in parts]
        if max(low for low, _ in spans) > min(high for _, high in spans):
            yield "temperatures"
    foods = [content.foods.get(each.holds) for each in parts]
    raw = [
        food
        for food, part in zip(foods, parts, strict=True)
        if food and food.is_raw_animal and part.heated is None
    ]
    if raw and len(parts) > 1:
        yield "raw not alone"
    kinds = {_kind(each.holds, content) for each in parts}
    if "fruit" in kinds and ("fish" in kinds or any("onion" in each.holds for each in parts)):
        yield "smell on fruit"
    eaten = {
        item.food
        for trip in content.trips.values()
        for each in trip.days
        for meal in each.meals
        for item in meal.items
        if item.food
    }
    flesh = [each for each in parts if _kind(each.holds, content) in ("meat", "poultry", "fish")]
    plain = [each for each in parts if each.holds in eaten and each not in flesh]
    if flesh and plain:
        yield "meat beside what is eaten as it is"


def _kind(holds: str, content: Content) -> str:
    return content.foods[holds].kind if holds in content.foods else "meal"


def _hours(holds: str, dryer: Dryer, content: Content) -> float:
    food = content.foods.get(holds)
    if dryer.method == "dehydrator" and food and food.dryer_hours:
        return food.dryer_hours
    return dryer.hours


def _free_at(at: datetime.datetime, home: Home) -> bool:
    minute = at.hour * 60 + at.minute
    return any(
        each.from_min <= minute <= each.to_min for each in home.free.get(WEEKDAYS[at.weekday()], ())
    )


def dried_for(plan: DryingPlan, trip: str) -> dict[str, float]:
    """Sum up what runs feed to the meals of a trip."""
    found: dict[str, float] = {}
    for run in plan.runs:
        for part in run.parts:
            fed = sum(meal.mass_g for meal in part.meals if meal.trip == trip)
            found[part.holds] = found.get(part.holds, 0.0) + fed
    return found
