"""The stock: packs used and left, what covers a meal, and what is still to buy or dry."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.formulas.drying import least_residual_share
from builder.formulas.freeze_drying import sublimation_floor_kj
from builder.formulas.heat import whole_units
from builder.formulas.sorption import MOST_WATER_ACTIVITY
from builder.model.batch import Batch
from builder.model.content import Content
from builder.model.kit import DryingRun, KitBatch
from builder.model.trip import Trip
from builder.planning.refusals import told_at
from builder.planning.stock.drying_run import drying_run, residual_range
from builder.planning.stock.dryness import water_activity_at
from builder.planning.stock.judging import Judged, judge
from builder.problems import Problem, ProblemsFound
from builder.speech import Speech, speech_of

# What ice has while food dries in a chamber, about (common practice).
DRYING_ICE_C = -20.0
KJ_PER_KWH = 3600.0


def judge_all(content: Content, say: Speech) -> tuple[dict[str, Judged], list[Problem]]:
    """Judge every batch and say why; one whose weighings cannot be gives a problem instead."""
    judged: dict[str, Judged] = {}
    problems: list[Problem] = []
    for batch in content.batches.values():
        try:
            judged[batch.id] = judge(batch, content, say)
        except ProblemsFound as found:
            problems += found.problems
    return judged, problems


def packs_of_trip(trip: Trip, content: Content, judged: Mapping[str, Judged]) -> Counter[str]:
    """Count the packs that a trip's meals take of each batch, rounded up for each meal."""
    taken: Counter[str] = Counter()
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                from_packs: dict[str, float] = {}
                for ingredient_id, batch_id in item.batches:
                    amount_g = item.each_g * len(item.eaters)
                    if item.recipe:
                        recipe = content.recipes[item.recipe]
                        scale = len(item.eaters) / recipe.serves
                        amount_g = recipe.ingredient(ingredient_id).amount_g * scale
                    from_packs[batch_id] = from_packs.get(batch_id, 0.0) + amount_g
                for batch_id, amount_g in from_packs.items():
                    if batch_id in judged:
                        taken[batch_id] += whole_units(amount_g, judged[batch_id].pack_g)
    return taken


@dataclass(frozen=True, slots=True)
class Stock:
    """All packs of the folder, with those that trips have spoken for taken off."""

    judged: Mapping[str, Judged]
    taken: Mapping[str, Mapping[str, int]]  # by batch, then by trip

    def left(self, batch: Batch) -> int:
        """Give the packs of a batch that no one has eaten or spoken for."""
        return batch.pack_count - batch.used - sum(self.taken.get(batch.id, {}).values())

    def problems(self) -> list[Problem]:
        """Give a problem for each batch of which trips take more packs than there are."""
        found = []
        for name, judged in self.judged.items():
            batch, trips = judged.batch, self.taken.get(name, {})
            if trips and self.left(batch) < 0:
                by_trip = ", ".join(f"{trip} {count}" for trip, count in sorted(trips.items()))
                eaten = f", {batch.used} eaten before" if batch.used else ""
                found.append(
                    Problem(
                        batch.places.of("packs"),
                        "batch-overdrawn",
                        f"batch {name} has {batch.pack_count} packs, and trips take "
                        f"{sum(trips.values())} ({by_trip}{eaten})",
                        "take less of it, name another batch, or dry more",
                    )
                )
        return found


def stock_of(content: Content, judged: Mapping[str, Judged]) -> Stock:
    """Give the stock of a folder."""
    taken: dict[str, dict[str, int]] = {}
    for trip in content.trips.values():
        for batch_id, count in packs_of_trip(trip, content, judged).items():
            taken.setdefault(batch_id, {})[trip.id] = count
    return Stock(judged, taken)


def kit_batches(trip: Trip, names: Iterable[str], stock: Stock) -> tuple[KitBatch, ...]:
    """Give the batches with these ids, as the kit of a trip tells them."""
    return tuple(_kit_batch(stock.judged[name], trip, stock) for name in names)


def _kit_batch(judged: Judged, trip: Trip, stock: Stock) -> KitBatch:
    batch = judged.batch
    target_g = judged.target_g
    low, high = _residual_range(judged)
    to_go_g = max(judged.dried_g - target_g, 0.0) if target_g is not None else 0.0
    return KitBatch(
        id=batch.id,
        name=judged.substance.name,
        method=batch.method,
        food=batch.food,
        recipe=batch.recipe,
        fresh_g=batch.fresh_g,
        dried_g=judged.dried_g,
        listed_water_share=judged.listed_water_share,
        water_share=judged.water_share,
        water_removed_g=judged.water_removed_g,
        residual_moisture=judged.residual_share,
        dry_limit=judged.dry_limit_share,
        dry_enough=judged.dry_enough,
        target_g=target_g,
        to_go_g=0.0 if judged.dry_enough else to_go_g,
        dried_on=batch.done,
        planned=batch.done is None and batch.method != "bought",
        best_before=judged.best_before,
        months=judged.months,
        reasons=judged.reasons,
        packs_used=stock.taken.get(batch.id, {}).get(trip.id, 0),
        packs_left=stock.left(batch),
        pack_g=judged.pack_g,
        packaging=batch.packs.packaging if batch.packs else None,
        raw_animal=judged.stays_raw,
        notes=tuple(_notes(judged, speech_of(trip.language))),
        residual_low=low,
        residual_high=high,
        run=_run(judged),
        water_activity=(activity := _activity(judged, judged.residual_share)),
        water_activity_low=None if activity is None else _activity(judged, low),
        water_activity_high=None
        if activity is None
        else _activity(judged, high) or MOST_WATER_ACTIVITY,
        loaded_at_c=batch.loaded_at_c,
        sublimation_kwh=_sublimation_kwh(judged),
    )


def _activity(judged: Judged, moisture_share: float) -> float | None:
    if judged.batch.method == "bought":
        return None
    return water_activity_at(judged.substance, moisture_share)


def _sublimation_kwh(judged: Judged) -> float:
    """Give the least energy that turns a load's ice to vapour; a load not frozen counts as ice."""
    batch = judged.batch
    if batch.method != "freeze-dryer" or judged.water_removed_g <= 0:
        return 0.0
    loaded_c = DRYING_ICE_C if batch.loaded_at_c is None else min(batch.loaded_at_c, 0.0)
    with told_at(batch.places.of("loaded_at"), f"batch {batch.id}"):
        return sublimation_floor_kj(judged.water_removed_g, loaded_c, DRYING_ICE_C) / KJ_PER_KWH


def _residual_range(judged: Judged) -> tuple[float, float]:
    """Give the moisture that may be left, from the doubt in the listed water."""
    batch = judged.batch
    if batch.fresh_g is None or batch.dried_g is None:
        return judged.residual_share, judged.residual_share
    return residual_range(
        batch.fresh_g, batch.dried_g, judged.water_share, least_residual_share(batch.method)
    )


def _run(judged: Judged) -> DryingRun | None:
    """Give the curve through a batch's weighings, where there are enough of them."""
    batch = judged.batch
    if batch.fresh_g is None or judged.water_share <= judged.dry_limit_share:
        return None
    with told_at(batch.places.of("weighings"), f"batch {batch.id}"):
        return drying_run(
            batch.fresh_g, judged.water_share, judged.dry_limit_share, batch.weighings
        )


def _notes(judged: Judged, say: Speech) -> Iterable[str]:
    if judged.corrected:
        yield say(
            "It lost more water than the table lists for {food} ({listed} %). The scale is right: "
            "this load held {held} %, and {left} % moisture is taken as left.",
            food=judged.substance.name,
            listed=say.number(judged.listed_water_share * 100, 1),
            held=say.number(judged.water_share * 100, 1),
            left=say.number(judged.residual_share * 100),
        )
    if judged.batch.done is None and judged.batch.method != "bought":
        yield say("Not dried yet: its figures are what drying should give.")
    if judged.batch.notes:
        yield judged.batch.notes


# -- the shelf ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StockLine:
    """A batch on the shelf with packs left."""

    batch: str
    name: str
    method: str
    packs_left: int
    pack_g: float
    best_before: datetime.date | None
    remark: str

    def data(self) -> dict[str, str | int | float | None]:
        """Give all of it for a script."""
        return {
            "batch": self.batch,
            "name": self.name,
            "method": self.method,
            "packs_left": self.packs_left,
            "pack_g": self.pack_g,
            "best_before": self.best_before.isoformat() if self.best_before else None,
            "remark": self.remark,
        }


def stock_lines(stock: Stock, at: datetime.date) -> list[StockLine]:
    """Give what is left of every batch, first-expired first; undated ones come last."""
    lines = [
        StockLine(
            batch=name,
            name=judged.substance.name,
            method=judged.batch.method,
            packs_left=stock.left(judged.batch),
            pack_g=judged.pack_g,
            best_before=judged.best_before,
            remark=_remark(judged, at),
        )
        for name, judged in stock.judged.items()
        if stock.left(judged.batch) > 0
    ]
    lines.sort(key=lambda line: (line.best_before or datetime.date.max, line.name, line.batch))
    return lines


def _remark(judged: Judged, at: datetime.date) -> str:
    if not judged.dry_enough:
        return "NOT DRY ENOUGH: dry it on, or eat it now"
    if judged.batch.done is None and judged.batch.method != "bought":
        return "planned, not dried yet"
    if judged.best_before and judged.best_before < at:
        return "PAST ITS DATE: smell, look, and when in doubt throw it out"
    if judged.stays_raw:
        return "dried raw: cook it through"
    return ""
