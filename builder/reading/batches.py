"""Reads the drying log."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Literal, cast

from builder.model.batch import (
    DRY_TESTS,
    METHODS,
    Batch,
    DryTest,
    Heated,
    Method,
    Packs,
    Stay,
    Weighing,
)
from builder.model.gear import Dryer
from builder.model.place import Place
from builder.problems import did_you_mean
from builder.reading.fields import Fields, taken
from builder.reading.yaml_door import quoted

STYLES = ("jerky",)
DEFAULT_KEPT_AT_C = 20.0


def read_batch(fields: Fields, dryers: Mapping[str, Dryer]) -> Batch | None:
    """Read one batch; None where it has errors."""
    dryer = fields.text("dryer")
    method = _method(fields, dryer, dryers)
    bought = method == "bought"
    food, recipe = fields.text("food"), fields.text("recipe")
    if bool(food) == bool(recipe) and fields.node.is_map:
        fields.problem(
            fields.node.place,
            "food-or-recipe",
            "a batch holds one food or one recipe" + (", not both" if food else ", found neither"),
            "write `food: <id>` or `recipe: <id>`",
        )
    done, planned = fields.date("done"), fields.date("planned")
    started = _started(fields, done)
    day = done or planned or (started.date() if started else None)
    batch_id = _id(fields, method, food or recipe, day)
    packs, inner = _packs(fields, method)
    best_before = fields.date("best_before")
    fresh_g = fields.maybe_quantity("fresh", "mass_g", positive=True)
    dried_g = fields.maybe_quantity("dried", "mass_g", positive=True)
    if bought:
        if packs and packs.of_g is None:
            fields.problem(
                fields.place("packs"),
                "missing",
                "a bought batch must tell what a pack holds",
                "write `packs: {count: 3, of: 120 g}`",
            )
    elif method:
        _check_own(fields)
    kept_at_c, stays = _kept_at(fields)
    batch = Batch(
        id=batch_id,
        method=method,
        food=food or None,
        recipe=recipe or None,
        done=done,
        planned=planned,
        fresh_g=fresh_g,
        dried_g=dried_g,
        packs=packs,
        kept_at_c=kept_at_c,
        stays=stays,
        used=fields.count("used"),
        heated=_heated(fields),
        jerky=fields.choice("style", STYLES) == "jerky",
        tests=_tests(fields),
        started=started,
        run=fields.id("run", required=False),
        ice_g=_ice(fields, method),
        best_before=best_before,
        weighings=_weighings(fields, fresh_g),
        loaded_at_c=_loaded_at(fields, method),
        dryer=dryer or None,
        notes=fields.text("notes"),
        places=fields.places(inner),
    )
    return batch if fields.done() else None


def _method(fields: Fields, dryer: str, dryers: Mapping[str, Dryer]) -> Method:
    """Read how it was dried; left out, the dryer tells it."""
    if not dryer or fields.has("method"):
        return cast(Method, fields.choice("method", METHODS, required=True))
    if dryer not in dryers:
        says, mend = f"there is no dryer {quoted(dryer)}", did_you_mean(dryer, dryers)
        fields.problem(fields.place("dryer"), "dryer-unknown", says, mend)
        return cast(Method, "")
    return dryers[dryer].method


def _check_own(fields: Fields) -> None:
    """Check what a batch of one's own must tell; what is told but wrong was noted before."""
    done = fields.has("done")
    planned = fields.has("planned") or (fields.has("started") and not done)
    if done == planned and fields.node.is_map:
        fields.problem(
            fields.node.place,
            "missing",
            "a batch is done or planned" + (", not both" if done else ", found neither"),
            "write `done: 2031-03-14` or `planned: 2031-03-14`; while it is in the dryer "
            "`started: 2031-03-13T18:00`",
        )
    if not fields.has("fresh") and fields.node.is_map:
        fields.problem(
            fields.node.place,
            "missing",
            "this batch does not tell its weight before drying",
            "write `fresh: 1850 g`",
        )
    if done and not fields.has("dried"):
        fields.problem(
            fields.node.place,
            "missing",
            "this batch is done but does not tell its dry weight",
            "write `dried: 655 g`",
        )


def _id(fields: Fields, method: str, holds: str, day: datetime.date | None) -> str:
    """Read a batch's id; one left out is what the batch holds, and its day."""
    if fields.has("id"):
        return fields.id()
    if holds and day is not None:
        return f"{holds}-{day.isoformat()}"
    # Of one's own batches the day is missing too, and gives the id once it stands there.
    return fields.id(required=method == "bought")


def _started(fields: Fields, done: datetime.date | None) -> datetime.datetime | None:
    started = fields.moment("started")
    if started and done and started.date() > done:
        fields.problem(
            fields.place("started"),
            "started-late",
            "this run started after the day it was done",
            "check both dates",
        )
    return started


def _tests(fields: Fields) -> frozenset[DryTest]:
    """Read what was done to prove it dry; `constant: true` is the first of the tests."""
    tests = frozenset(cast(tuple[DryTest, ...], fields.words("tests", DRY_TESTS)))
    return tests | {"constant"} if fields.flag("constant") else tests


def _ice(fields: Fields, method: str) -> float | None:
    ice_g = fields.maybe_quantity("ice", "mass_g", positive=True)
    if ice_g is not None and method not in ("", "freeze-dryer"):
        fields.problem(
            fields.place("ice"),
            "ice",
            "only a freeze dryer draws the water out as ice",
            "leave `ice` out",
        )
    return ice_g


def _packs(fields: Fields, method: str) -> tuple[Packs | None, dict[str, Place]]:
    bought = method == "bought"
    record = fields.record("packs", "packs", bought, "{count: 3, of: 120 g}")
    if record is None:
        return None, {}
    packs = Packs(
        count=record.count("count", required=True, default=1, at_least=1),
        packaging=record.text("in") or None,
        absorber=record.flag("absorber"),
        of_g=record.maybe_quantity("of", "mass_g", positive=True),
        shelf=record.line("shelf"),
    )
    if packs.of_g is not None and method and not bought:
        record.problem(
            record.place("of"),
            "packs-of",
            "only a bought batch tells what a pack holds",
            "leave `of` out: dried weight over count gives it",
        )
    record.done()
    return packs, {"packs/in": record.place("in")}


def _kept_at(fields: Fields) -> tuple[float, tuple[Stay, ...]]:
    """Read where packs are kept: one temperature, or places with the day they were left."""
    node = fields.value("kept_at")
    if node is None or not node.is_list:
        return fields.quantity("kept_at", "kept_c", default=DEFAULT_KEPT_AT_C), ()
    stays: list[Stay] = []
    kept_at_c: float = taken(DEFAULT_KEPT_AT_C, "kept_at_c")
    for number, each in enumerate(node.items, start=1):
        place = Fields(each, fields.problems, "place")
        at_c = place.quantity("at", "kept_c", required=True, default=DEFAULT_KEPT_AT_C)
        last = number == len(node.items)
        until = place.date("until", required=not last)
        if last:
            kept_at_c = at_c
            if until is not None:
                place.problem(
                    place.place("until"),
                    "place-ends",
                    "the last place has no end: that is where the packs are now",
                    "leave `until` out",
                )
        elif until is not None:
            if stays and until <= stays[-1].until:
                place.problem(
                    place.place("until"),
                    "place-order",
                    "the packs left this place before the one above it",
                    "write the places in the order of time",
                )
            stays.append(Stay(at_c, until))
        place.done()
    if not node.items:
        fields.problem(node.place, "empty", "no place is told", "write `kept_at: 15 degC`")
    return kept_at_c, tuple(stays)


def _weighings(fields: Fields, fresh_g: float | None) -> tuple[Weighing, ...]:
    """Read the weighings of a run, in the order of time."""
    found: list[Weighing] = []
    for node in fields.list("weighings"):
        line = Fields(node, fields.problems, "weighing")
        at_min = line.maybe_quantity("at", "duration_min", required=True, positive=True)
        mass_g = line.maybe_quantity("mass", "mass_g", required=True, positive=True)
        line.done()
        if at_min is None or mass_g is None:
            continue
        before = found[-1] if found else None
        if before and at_min <= before.at_min:
            line.problem(
                line.place("at"),
                "weighing-order",
                f"this weighing, after {at_min / 60:g} h, is not later than the one above it",
                "write them in the order of time, counted from the start of drying",
            )
        elif mass_g > (before.mass_g if before else fresh_g or mass_g):
            line.problem(
                line.place("mass"),
                "weighing-heavier",
                f"{mass_g:g} g is more than it weighed before",
                "check the weight and take the tare off each time",
            )
        else:
            found.append(Weighing(at_min, mass_g))
    return tuple(found)


def _loaded_at(fields: Fields, method: str) -> float | None:
    loaded_at_c = fields.maybe_quantity("loaded_at", "air_c")
    if loaded_at_c is not None and method not in ("", "freeze-dryer"):
        fields.problem(
            fields.place("loaded_at"),
            "loaded-at",
            "only a load for the freeze dryer tells how cold it went in",
            "leave `loaded_at` out",
        )
    return loaded_at_c


def _heated(fields: Fields) -> Heated | None:
    record = fields.record("heated", "heat step")
    if record is None:
        return None
    heated = Heated(
        to_c=record.quantity("to", "temperature_c", required=True),
        when=cast(
            Literal["before", "after"],
            record.choice("when", ("before", "after"), required=True, default="after"),
        ),
        minutes=record.number("minutes", at_most=24 * 60, more_than=0),
    )
    record.done()
    return heated
