"""What is to be done before and after a run, and when."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import get_args

from builder.formulas.heat_drying import BOIL_MIN, STEAM_MIN, Row
from builder.model.batch import HEAT_METHODS
from builder.model.content import Content
from builder.planning.drying import CONDITIONING_DAYS, FREEZER_HOURS, METHOD_NAMES, evens_out
from builder.planning.runs.free_time import FreeTime
from builder.planning.runs.plan import Doing, Part, Run, Step
from builder.speech import Speech

_ORDER = get_args(Doing)


def steps_of(run: Run, free: FreeTime, content: Content, say: Speech) -> tuple[Step, ...]:
    """Give the steps of a run, in the order of their times."""
    steps = [
        *_before(run, free, content, say),
        *_of_dryer(run, content, say),
        *_after(run, content, say),
    ]
    return tuple(sorted(steps, key=lambda step: (step.at, _ORDER.index(step.do))))


def _before(run: Run, free: FreeTime, content: Content, say: Speech) -> Iterator[Step]:
    if run.state == "in-dryer":
        return
    if run.method == "freeze-dryer":
        latest = run.start - datetime.timedelta(hours=FREEZER_HOURS)
        says = say(
            "Spread {foods} on the trays and freeze them, 12 h or more",
            foods=say.listed(each.name for each in run.parts),
        )
        yield Step("freeze", free.last_free(latest) or latest, run.start, says)
    for part in run.parts:
        if part.heated and run.method in HEAT_METHODS:
            heat = say.show_at_least(part.heated.to_c, content.home.units)
            says = say(
                "Heat {food} to {heat} all through before it goes in", food=part.name, heat=heat
            )
            yield Step("heat", run.start, None, says)
        food = content.foods.get(part.holds)
        dry_as = (food.dry_as or "") if food and food.state == "raw" else ""
        if dry_as in STEAM_MIN or dry_as in BOIL_MIN:
            yield Step("blanch", run.start, None, _blanching(part, dry_as, say))


def _of_dryer(run: Run, content: Content, say: Speech) -> Iterator[Step]:
    dryer = run.dryer_name or say(METHOD_NAMES[run.method])
    if run.state != "in-dryer":
        foods = say.listed(
            say(
                "{mass} {food}",
                mass=say.show(part.fresh_g, "mass_g", content.home.units),
                food=part.name,
            )
            for part in run.parts
        )
        says = say("Start the dryer ({dryer}) with {foods}", dryer=dryer, foods=foods)
        yield Step("start", run.start, run.end, says)
    says = say("Empty the dryer ({dryer}): weigh and test all of it, then log it", dryer=dryer)
    yield Step("empty", run.emptied, None, says)


def _after(run: Run, content: Content, say: Speech) -> Iterator[Step]:
    for part in run.parts:
        food = content.foods.get(part.holds)
        pack_on = run.emptied
        if food and evens_out(food.kind, run.method):
            pack_on += datetime.timedelta(days=CONDITIONING_DAYS)
            says = say(
                "Condition {food} in a closed jar for 7 days, shake it daily; drops in the jar: "
                "dry it again",
                food=part.name,
            )
            yield Step("condition", run.emptied, pack_on, says)
        says = say.count(
            "Pack {food}: {n} pack, labelled",
            "Pack {food}: {n} packs, labelled",
            part.packs,
            food=part.name,
        )
        yield Step("pack", pack_on, None, says)


def _blanching(part: Part, dry_as: str, say: Speech) -> str:
    steam, boil = (_minutes(table.get(dry_as), say) for table in (STEAM_MIN, BOIL_MIN))
    if steam and boil:
        return say(
            "Blanch {food}: {steam} min in steam, or {boil} min in boiling water",
            food=part.name,
            steam=steam,
            boil=boil,
        )
    if steam:
        return say("Blanch {food}: {steam} min in steam", food=part.name, steam=steam)
    return say("Blanch {food}: {boil} min in boiling water", food=part.name, boil=boil)


def _minutes(row: Row | None, say: Speech) -> str:
    if row is None:
        return ""
    least, most, _ = row
    if least == most:
        return say.signs(f"{least:g}")
    return say("{least} to {most}", least=say.signs(f"{least:g}"), most=say.signs(f"{most:g}"))
