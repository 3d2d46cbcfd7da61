"""Adds new runs to the drying log, as planned batches."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.home import Home
from builder.planning.runs import DryingPlan, Part, Run
from builder.reading.drying.log_files import Record
from builder.reading.folder import Layer
from builder.reading.text.spelling import Words
from builder.starts.batches.log import log_batches
from builder.starts.batches.writing import Logged


def plan_batches(layers: Sequence[Layer], plan: DryingPlan, home: Home) -> list[Logged]:
    """Add each part of the new runs to the log: all of them, or none."""
    new = [(run, part) for run in plan.runs if run.state == "new" for part in run.parts]
    records = [(record_of(run, part, home), run.emptied.date()) for run, part in new]
    return log_batches(layers, records)


def record_of(run: Run, part: Part, home: Home) -> Record:
    """Give a planned batch as people write it; its run's name tells when it starts."""
    packs: dict[str, Words] = {"count": part.packs}
    if home.new_batch.packaging:
        packs["in"] = home.new_batch.packaging
        packs["absorber"] = part.absorber
    record: dict[str, Words] = {
        ("recipe" if part.is_recipe else "food"): part.holds,
        "method": part.method,
        "planned": run.emptied.date().isoformat(),
        "fresh": f"{part.fresh_g:.0f} g",
        "packs": packs,
        "run": run.id,
    }
    if run.dryer:
        record["dryer"] = run.dryer
    if part.kept_at_c is not None:
        record["kept_at"] = f"{part.kept_at_c:g} degC"
    if part.heated:
        record["heated"] = {"to": f"{part.heated.to_c:g} degC", "when": part.heated.when}
    return record
