"""The batches of a trip as its kit tells them."""

from __future__ import annotations

from collections.abc import Iterable

from builder.formulas.freeze_drying import sublimation_floor_kj
from builder.formulas.sorption import MOST_WATER_ACTIVITY
from builder.model.batch import DRY_TESTS
from builder.model.figure import named, nothing, smallest
from builder.model.kit import DryingRun, KitBatch
from builder.model.trip import Trip
from builder.planning.batches import Judged, Learned, drying_run, name_now
from builder.planning.foods import water_activity_at
from builder.planning.refusals import told_at
from builder.planning.stock.packs import Stock
from builder.planning.tracing import work
from builder.speech import Speech, speech_of

# What ice has while food dries in a chamber, about (common practice).
DRYING_ICE_C = named(-20.0, "drying_ice_c", "common-practice")
KJ_PER_KWH = 3600.0
_MOST_WATER_ACTIVITY = named(MOST_WATER_ACTIVITY, "most_water_activity", "van-den-berg1981")


def kit_batches(trip: Trip, names: Iterable[str], stock: Stock) -> tuple[KitBatch, ...]:
    """Give the batches with these ids, as the kit of a trip tells them."""
    return tuple(_kit_batch(stock.judged[name], trip, stock) for name in names)


def _kit_batch(judged: Judged, trip: Trip, stock: Stock) -> KitBatch:
    batch, say = judged.batch, speech_of(trip.language)
    target_g = judged.target_g
    low, high = judged.ruling.low_share, judged.ruling.high_share
    return KitBatch(
        id=batch.id,
        name=name_now(say, judged),
        fresh_name=judged.substance.name,
        method=batch.method,
        food=batch.food,
        recipe=batch.recipe,
        fresh_g=batch.fresh_g,
        dried_g=judged.dried_g,
        listed_water_share=judged.listed_water_share,
        water_share=judged.water_share,
        water_removed_g=judged.water_removed_g,
        water_back_ml=judged.water_back.poured_ml * judged.dried_g,
        taken_up_ml=judged.water_back.taken_up_ml * judged.dried_g,
        residual_moisture=judged.residual_share,
        dry_limit=judged.dry_limit_share,
        dry_enough=judged.dry_enough,
        target_g=target_g,
        to_go_g=judged.to_go_g,
        verdict=judged.verdict,
        act=judged.act(say, trip.start, trip.units),
        dried_on=batch.done,
        planned=batch.is_planned,
        planned_for=batch.planned if batch.done is None else None,
        best_before=judged.best_before,
        kept_at_told=judged.kept_at_told,
        months=judged.months,
        reasons=judged.reasons(say, trip.units),
        packs_used=stock.used_by(trip.id, batch.id),
        packs_left=stock.free(batch),
        pack_g=judged.pack_g,
        packaging=batch.packs.packaging if batch.packs else None,
        notes=(*_chosen(batch.id, trip, say), *_notes(judged, say)),
        residual_low=low,
        residual_high=high,
        run=run_of(judged),
        water_activity=(activity := _activity(judged, judged.residual_share)),
        water_activity_low=None if activity is None else _activity(judged, low),
        water_activity_high=None
        if activity is None
        else _activity(judged, high) or _MOST_WATER_ACTIVITY,
        loaded_at_c=batch.loaded_at_c,
        sublimation_kwh=_sublimation_kwh(judged),
        in_dryer=batch.in_dryer,
        tests=tuple(test for test in DRY_TESTS if test in batch.tests),
    )


def _activity(judged: Judged, moisture_share: float) -> float | None:
    if judged.batch.is_bought:
        return None
    return water_activity_at(judged.substance, moisture_share)


def _sublimation_kwh(judged: Judged) -> float:
    """Give the least energy that turns a load's ice to vapour; a load not frozen counts as ice."""
    batch = judged.batch
    if batch.method != "freeze-dryer" or judged.water_removed_g <= 0:
        return nothing("sublimation_kwh")
    loaded_c = DRYING_ICE_C
    if batch.loaded_at_c is not None:
        loaded_c = smallest(batch.loaded_at_c, 0.0)
    with told_at(batch.places.of("loaded_at"), f"batch {batch.id}"):
        floor_kj = work(sublimation_floor_kj, judged.water_removed_g, loaded_c, DRYING_ICE_C)
        return floor_kj / KJ_PER_KWH


def run_of(judged: Judged) -> DryingRun | None:
    """Give the curve through a batch's weighings, where there are enough of them."""
    batch = judged.batch
    if batch.fresh_g is None or judged.water_share <= judged.dry_limit_share:
        return None
    with told_at(batch.places.of("weighings"), f"batch {batch.id}"):
        return drying_run(
            batch.fresh_g,
            judged.water_share,
            judged.dry_limit_share,
            batch.weighings,
            judged.load.spread_share,
        )


def _learned_said(learned: Learned, say: Speech) -> str:
    """Say what a planned weight rests on: the table, one's own batches, and how many."""
    return say.count(
        "{n} batch of your own moves its planned weight: 1 kg fresh gives {learned} g dried, "
        "where the table has {table} g and yours gave {own} g.",
        "{n} batches of your own move its planned weight: 1 kg fresh gives {learned} g dried, "
        "where the table has {table} g and yours gave {own} g.",
        learned.count,
        learned=say.number(learned.ratio * 1000),
        table=say.number(learned.table_ratio * 1000),
        own=say.number((learned.own_ratio or 0.0) * 1000),
    )


def _chosen(batch: str, trip: Trip, say: Speech) -> Iterable[str]:
    """Say that the tool chose it, and why, where the trip leaves that open."""
    if any(
        batch == item.batch_of(ingredient)
        for day in trip.days
        for meal in day.meals
        for item in meal.items
        for ingredient in item.chosen
    ):
        yield say(
            "The tool chose it, since the trip leaves the packs open (from: auto): of the free "
            "ones that hold enough and keep until that day, it expires first."
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
    if judged.batch.is_planned:
        yield say("Not dried yet: its figures are what drying should give.")
    if judged.learned:
        yield _learned_said(judged.learned, say)
    if judged.batch.notes:
        yield judged.batch.notes
