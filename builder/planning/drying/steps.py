"""What is to be done before and after a run, and when."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from builder.formulas.heat_drying import BOIL_MIN, STEAM_MIN
from builder.model.batch import HEAT_METHODS
from builder.model.content import Content
from builder.planning.drying.free_time import FreeTime
from builder.planning.drying.plan import Part, Run, Step
from builder.planning.drying.rules import CONDITIONING_DAYS, FREEZER_HOURS
from builder.problems import counted

_ORDER = ("freeze", "heat", "blanch", "start", "empty", "condition", "pack")


def steps_of(run: Run, free: FreeTime, content: Content) -> tuple[Step, ...]:
    """Give the steps of a run, in the order of their times."""
    steps = [*_before(run, free, content), *_of_dryer(run), *_after(run, content)]
    return tuple(sorted(steps, key=lambda step: (step.at, _ORDER.index(step.do))))


def _before(run: Run, free: FreeTime, content: Content) -> Iterator[Step]:
    if run.state == "in-dryer":
        return
    if run.method == "freeze-dryer":
        latest = run.start - datetime.timedelta(hours=FREEZER_HOURS)
        yield Step(
            "freeze",
            free.last_free(latest) or latest,
            run.start,
            f"Spread {_names(run.parts)} on the trays and freeze them, 12 h or more",
        )
    for part in run.parts:
        if part.heated and run.method in HEAT_METHODS:
            yield Step(
                "heat",
                run.start,
                None,
                f"Heat {part.name} to {part.heated.to_c:.0f} °C all through before it goes in",
            )
        food = content.foods.get(part.holds)
        dry_as = food.dry_as if food and food.state == "raw" else None
        if dry_as in STEAM_MIN or dry_as in BOIL_MIN:
            yield Step("blanch", run.start, None, _blanching(part, dry_as or ""))


def _of_dryer(run: Run) -> Iterator[Step]:
    if run.state != "in-dryer":
        parts = ", ".join(f"{each.name} {each.fresh_g:.0f} g" for each in run.parts)
        yield Step("start", run.start, run.end, f"Start the {_dryer(run)}: {parts}")
    yield Step(
        "empty",
        run.emptied,
        None,
        f"Empty the {_dryer(run)}: weigh and test each, then log it",
    )


def _after(run: Run, content: Content) -> Iterator[Step]:
    day = datetime.timedelta(days=CONDITIONING_DAYS)
    for part in run.parts:
        food = content.foods.get(part.holds)
        pack_on = run.emptied
        if food and food.kind == "fruit" and run.method in HEAT_METHODS:
            pack_on = run.emptied + day
            yield Step(
                "condition",
                run.emptied,
                pack_on,
                f"Let {part.name} even out in a closed jar for 7 days, shake it daily; "
                "drops in the jar: dry it on",
            )
        yield Step(
            "pack", pack_on, None, f"Pack {part.name}: {counted(part.packs, 'pack')}, labelled"
        )


def _blanching(part: Part, dry_as: str) -> str:
    ways = [
        f"{_minutes(table[dry_as][:2])} min in {how}"
        for table, how in ((STEAM_MIN, "steam"), (BOIL_MIN, "boiling water"))
        if dry_as in table
    ]
    return f"Blanch {part.name}: {' or '.join(ways)}"


def _minutes(span: tuple[float, float]) -> str:
    least, most = span
    return f"{least:g}" if least == most else f"{least:g} to {most:g}"


def _names(parts: tuple[Part, ...]) -> str:
    return ", ".join(each.name for each in parts)


def _dryer(run: Run) -> str:
    return run.dryer_name or run.method
