"""How long a batch keeps, and why: a guideline, and none for what failed."""

from __future__ import annotations

import datetime

from dateutil.relativedelta import relativedelta

from builder.formulas.keeping import (
    BAG_OR_FAT_FACTOR,
    FAT_HALVES_ABOVE_G,
    FAT_RICH_ABOVE_G,
    FROZEN_C,
    TABLE_KEPT_AT_C,
    TABLE_MONTHS,
    UNPROVEN_MOST_MONTHS,
    months_kept,
    table_months,
)
from builder.formulas.packing import DAYS_PER_MONTH, days_left, life_used
from builder.model.batch import Batch
from builder.model.figure import add, counted, named, smallest
from builder.model.food import ANIMAL_KINDS, EGG_AND_DAIRY
from builder.planning.batches.verdict import SLACK, Cause, Load, Ruling, stays_raw
from builder.planning.tracing import work
from builder.record import dataclass
from builder.speech import Speech, later
from builder.units import System

_DAYS_A_MONTH = named(DAYS_PER_MONTH, "days_per_month", "common-practice")
_UNPROVEN_MOST_MONTHS = named(UNPROVEN_MOST_MONTHS, "unproven_most_months", "common-practice")
# Whose months stand in the table; where nobody is named, they are cautious figures of the trade.
_MONTHS_BY = {"fruit": "uga-drying", "plant": "umn-months", "jerky": "nchfp-jerky"}
BAG_BARRIERS = frozenset({"zip-bag", "paper"})
TIGHT_BARRIERS = frozenset({"foil", "glass", "can"})

# Why no date is given.
_NO_DATE: dict[Cause, str] = {
    "sun": later("meat and fish dried in the sun are not to be kept"),
    "raw-egg": later("raw egg dried by heat is not to be kept"),
    "raw-loose": later("raw poultry and mince dried by heat alone are not to be kept"),
    "airless-wet": later("not dry, and packed without oxygen: not to be kept"),
    "airless-flesh-undecided": later(
        "heat-dried meat or fish packed without oxygen, and not proven dry: not to be kept"
    ),
    "wet": later("not dry: not to be kept"),
}


@dataclass(frozen=True, slots=True)
class Store:
    """What a batch's keeping time goes by."""

    load: Load
    ruling: Ruling
    barrier: str | None
    has_absorber: bool
    fat_g: float  # in 100 g as dried
    dry_enough: bool


@dataclass(frozen=True, slots=True)
class Kept:
    """How long a batch keeps, and why."""

    months: float | None
    best_before: datetime.date | None
    reasons: tuple[str, ...]
    wants_proof: bool = False  # it would keep longer if it had been weighed twice


def kept(store: Store, say: Speech, units: System = "metric") -> Kept:
    """Give until when a batch keeps."""
    load, ruling = store.load, store.ruling
    batch = load.batch
    if batch.is_bought:
        if batch.best_before is None:
            return Kept(None, None, (say("nobody wrote down the date on the pack"),))
        return Kept(None, batch.best_before, (say("the date on the pack"),))
    if ruling.failed:
        why = say("still in the dryer") if load.in_dryer else say(_NO_DATE[ruling.cause])
        return Kept(None, None, (why,))
    group = _group(store)
    months, reasons = _warmed(store, group, say, units)
    wants_proof = (
        load.low_oxygen or months > UNPROVEN_MOST_MONTHS + SLACK
    ) and "constant" not in batch.tests
    if months > UNPROVEN_MOST_MONTHS:
        if wants_proof:
            months = smallest(months, _UNPROVEN_MOST_MONTHS)
            reasons.append(
                say("nobody weighed it twice to prove it dry: not longer than 12 months")
            )
        elif ruling.cause == "airless-moist":
            months = smallest(months, _UNPROVEN_MOST_MONTHS)
            reasons.append(say("moist for a pack without oxygen: not longer than 12 months"))
    if group.startswith("freeze-dried"):
        reasons.append(say("common practice names far longer; no authority vouches for it"))
    start = keeps_from(batch)
    date = start + _months_long(months) if start else None
    if batch.best_before is not None and (date is None or batch.best_before < date):
        date = batch.best_before
        reasons.append(say("the date you wrote is earlier"))
    return Kept(months, date, tuple(reasons), wants_proof)


def keeps_from(batch: Batch) -> datetime.date | None:
    """Give the day a batch's time starts to run."""
    return batch.done or batch.planned or (batch.started.date() if batch.started else None)


def _warmed(store: Store, group: str, say: Speech, units: System) -> tuple[float, list[str]]:
    """Give the months in this pack at this warmth, and why."""
    batch = store.load.batch
    own = None if group.startswith("freeze-dried") else store.load.substance.keeps_months
    in_bag = store.barrier in BAG_BARRIERS
    table = _table_months(group, in_bag, store.fat_g, own)
    cool = _warmth(say, TABLE_KEPT_AT_C, units, 1)
    reasons = [
        say(
            "{food}: {n} months at {cool}",
            food=say(_GROUPS[group]) if own is None else say.name(store.load.substance.name),
            n=say.signs(f"{TABLE_MONTHS[group] if own is None else own:g}"),
            cool=cool,
        )
    ]
    if in_bag:
        reasons.append(say("a bag lets air and moisture in: half as long"))
    elif store.fat_g > FAT_HALVES_ABOVE_G and group != "nut":
        reasons.append(
            say("fat ({n} g in 100 g) turns rancid: half as long", n=say.number(store.fat_g))
        )
    stays = _stays(batch)
    for days, at_c in stays:
        reasons.append(
            say.count(
                "{n} day at {warmth} used part of its time",
                "{n} days at {warmth} used part of its time",
                round(days),
                warmth=_warmth(say, at_c, units),
            )
        )
    warmth = _warmth(say, batch.kept_at_c, units)
    if not batch.kept_at_told:
        reasons.append(
            say("nobody wrote down how warm it is kept: counted with {warmth}", warmth=warmth)
        )
    elif batch.kept_at_c > TABLE_KEPT_AT_C:
        reasons.append(
            say("kept at {warmth}, warmer than {cool}: shorter", warmth=warmth, cool=cool)
        )
    elif batch.kept_at_c <= FROZEN_C:
        reasons.append(say("kept frozen at {warmth}: longer", warmth=warmth))
    return _months_in_places(table, stays, batch.kept_at_c), reasons


def _table_months(group: str, in_bag: bool, fat_g: float, own: float | None) -> float:
    """Give the months at the warmth of the table: of the group or of this very food, packed so."""
    months = table_months(group, in_bag, float(fat_g), own)
    if own is None:
        source = _MONTHS_BY.get(group, "common-practice")
        own = named(TABLE_MONTHS[group], f"group_months ({group})", source)
    if months == own:
        return own
    return own * named(BAG_OR_FAT_FACTOR, "bag_or_fat_factor", "common-practice")


def _stays(batch: Batch) -> list[tuple[float, float]]:
    """Give the days in each place before the last, and how warm it was."""
    start = keeps_from(batch)
    stays: list[tuple[float, float]] = []
    for stay in batch.stays:
        if start is None or stay.until <= start:
            continue
        stays.append((counted((stay.until - start).days, "days"), stay.at_c))
        start = stay.until
    return stays


def _months_in_places(table: float, stays: list[tuple[float, float]], kept_at_c: float) -> float:
    """Give the months until its time is used up, over all places in turn."""
    if not stays:
        return work(months_kept, table, kept_at_c)
    gone: list[float] = []
    used: list[float] = []
    for days, at_c in stays:
        left = work(days_left, table, add(used), at_c)
        if left <= days:
            return add([*gone, left]) / _DAYS_A_MONTH
        gone.append(days)
        used.append(work(life_used, table, days, at_c))
    return add([*gone, work(days_left, table, add(used), kept_at_c)]) / _DAYS_A_MONTH


def _months_long(months: float) -> relativedelta:
    """Give whole calendar months, and the rest in days of a mean month."""
    whole = int(months + SLACK)
    return relativedelta(months=whole, days=int((months - whole) * _DAYS_A_MONTH + SLACK))


_GROUPS = {  # rows of the table of months, as people call them
    "freeze-dried-raw-or-fat": later("freeze-dried raw animal or very fat food"),
    "freeze-dried-animal": later("freeze-dried cooked meat, fish, egg or dairy"),
    "freeze-dried-plant": later("freeze-dried plant food"),
    "jerky": later("raw meat or fish, dried, or jerky"),
    "cooked-meat": later("meat or fish, or a meal with it"),
    "egg-dairy": later("egg or dairy"),
    "nut": later("nuts"),
    "fruit": later("dried fruit"),
    "plant": later("vegetables, legumes, grain, herbs and meals without meat"),
}


def _warmth(say: Speech, temperature_c: float, units: System, decimals: int = 0) -> str:
    if units != "metric":
        return say.show(temperature_c, "temperature_c", units)
    return f"{say.number(temperature_c, decimals).replace('-', '−')} °C"


def _group(store: Store) -> str:
    """Give the row of the table of months."""
    batch, substance = store.load.batch, store.load.substance
    raw = stays_raw(batch, substance)
    if (
        batch.method == "freeze-dryer"
        and store.dry_enough
        and store.barrier in TIGHT_BARRIERS
        and store.has_absorber
    ):
        if raw or store.fat_g > FAT_RICH_ABOVE_G:
            return "freeze-dried-raw-or-fat"
        if substance.kinds & ANIMAL_KINDS:
            return "freeze-dried-animal"
        return "freeze-dried-plant"
    if substance.has_flesh:
        return "jerky" if batch.jerky or raw else "cooked-meat"
    if substance.kind in EGG_AND_DAIRY:
        return "egg-dairy"
    if substance.kind == "nut":
        return "nut"
    if substance.kind == "fruit":
        return "fruit"
    return "plant"
