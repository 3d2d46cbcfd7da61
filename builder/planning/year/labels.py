"""What stands on the label of a pack: facts of its batch, before any words or layout."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from builder.formulas.rehydration import SOAK_MIN, soak_range_min
from builder.formulas.safety import centre_temperature_c
from builder.planning.batches import Judged, name_now
from builder.planning.foods import is_game, soaks_as
from builder.planning.stock import Stock, act_on, is_waste
from builder.record import dataclass
from builder.speech import Speech

# Any dried meat lies like minced meat once it is wet, as recipes reckon too.
_LIES_LIKE_MINCED = True


@dataclass(frozen=True, slots=True)
class Soak:
    """How long it usually takes water up: fewest and most minutes; None where nobody knows."""

    cold_min: tuple[float, float] | None
    hot_min: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class PackLabel:
    """All that one pack of a batch should tell whoever opens it."""

    batch: str
    name: str
    kind: str
    state: str  # as it went into the dryer
    packs: int  # that are left
    pack_g: float
    made_on: datetime.date | None
    best_before: datetime.date | None
    kept_at_told: bool  # whether that rests on a warmth that somebody told
    kept_at_c: float | None  # in the last place; None where it was bought
    water_ml: float  # that puts a pack back; 0 where nobody knows or none is needed
    soak: Soak
    allergens: tuple[str, ...]
    may_contain: tuple[str, ...]
    not_told: tuple[str, ...]  # names of what nobody told the allergens of
    is_raw: bool  # raw meat, fish or egg
    reach_c: float  # in the middle, where it is raw
    is_bought: bool
    failed: bool  # then there is no label, but what to do
    act: str
    why: str = ""  # there is none: it is thrown out


def labels_of(stock: Stock, at: datetime.date, say: Speech) -> tuple[PackLabel, ...]:
    """Give the labels of every batch that was made and has packs left, by name and date."""
    found = [_label(judged, stock.left(judged.batch, at), at, say) for judged in _made(stock, at)]
    return tuple(sorted(found, key=lambda each: (each.name, each.made_on or at, each.batch)))


def _made(stock: Stock, at: datetime.date) -> Iterable[Judged]:
    for judged in stock.judged.values():
        batch = judged.batch
        is_made = batch.is_bought or (batch.done is not None and batch.done <= at)
        if is_made and stock.left(batch, at) > 0:
            yield judged


def _label(judged: Judged, packs: int, at: datetime.date, say: Speech) -> PackLabel:
    substance, batch = judged.substance, judged.batch
    return PackLabel(
        batch=batch.id,
        name=name_now(say, judged),
        kind=substance.kind,
        state=substance.state,
        packs=packs,
        pack_g=judged.pack_g,
        made_on=batch.done,
        best_before=judged.best_before,
        kept_at_told=judged.kept_at_told,
        kept_at_c=None if batch.is_bought else batch.kept_at_c,
        water_ml=judged.water_back.poured_ml * judged.pack_g,
        soak=_soak(judged),
        allergens=tuple(sorted(substance.allergens)),
        may_contain=tuple(sorted(substance.may_contain)),
        not_told=tuple(food.name for food in substance.untold),
        is_raw=judged.stays_raw,
        reach_c=_reach_c(judged) if judged.stays_raw else 0.0,
        is_bought=batch.is_bought,
        failed=judged.failed or is_waste(judged, at),
        act=act_on(judged, at, say),
        why=judged.why_thrown_out(at),
    )


def _soak(judged: Judged) -> Soak:
    # A whole meal goes by no food of it.
    food = judged.substance.foods[0] if judged.batch.food else None
    key = soaks_as(food, judged.batch.method)
    return Soak(_range(key, "cold"), _range(key, "boiling"))


def _range(key: str, water: str) -> tuple[float, float] | None:
    return soak_range_min(key, water) if (key, water) in SOAK_MIN else None


def _reach_c(judged: Judged) -> float:
    """Give the temperature in the middle that the raw food of a batch must reach."""
    return max(
        centre_temperature_c(food.kind, _LIES_LIKE_MINCED, is_game(food))
        for food in judged.substance.foods
        if food.is_raw_animal
    )
