"""Which packs a new trip takes: those of the old one where enough are left, else others.

What stands in the folder today decides: trips in it have eaten theirs, or are promised them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.model.content import Content
from builder.model.trip import MealItem, Trip
from builder.planning.batches import Judged
from builder.planning.menu import with_parts
from builder.planning.stock import (
    ItemAt,
    Stock,
    check,
    items_of,
    packs_of_trip,
    with_chosen_packs,
    with_item,
)
from builder.problems import counted
from builder.reading.anew.rewriting import PacksNow, PlaceOfPacks
from builder.record import dataclass, replace


@dataclass(frozen=True, slots=True)
class PacksAnew:
    """What a new trip eats out of, where that is not what the old one ate out of."""

    trip: Trip  # as it names its batches then; what `auto` leaves open stays open
    gone: Mapping[str, str]  # batches that are not taken again for all, with their method
    chosen: Mapping[PlaceOfPacks, PacksNow]
    notes: tuple[str, ...]


def packs_anew(name: str, content: Content) -> PacksAnew:
    """Choose packs for what a trip, written as the old one was, names and cannot have.

    Those that expire first are chosen, as where a trip says `from: auto`; what no single batch
    covers is left open.
    """
    content = with_parts(content)
    trip = content.trips[name]
    others = {other: each for other, each in content.trips.items() if other != name}
    stock, _ = check(with_chosen_packs(replace(content, trips=others)))
    why = dict(_not_again(trip, content, stock))
    if not why:
        return PacksAnew(trip, {}, {}, ())
    opened = trip
    for at in items_of(trip):
        opened = with_item(opened, at, _opened(at.item, why))
    filled = with_chosen_packs(replace(content, trips={**others, name: opened})).trips[name]
    chosen: dict[PlaceOfPacks, PacksNow] = {}
    helped: set[str] = set()
    for at, now in zip(items_of(trip), items_of(filled), strict=True):
        batches = []
        for ingredient, old in at.item.batches:
            new = now.item.batch_of(ingredient) if old in why else old
            if new is not None:
                batches.append((ingredient, new))
            if new is not None and old in why:
                helped.add(old)
                chosen[_place(trip, at, ingredient)] = _packs_now(stock.judged[new])
        trip = with_item(trip, at, replace(at.item, batches=tuple(batches)))
    gone = {batch: stock.judged[batch].batch.method for batch in why}
    notes = tuple(
        f"{'Chose packs anew for' if batch in helped else 'Left open'} what came from batch "
        f"{batch}: {reason}."
        for batch, reason in why.items()
    )
    return PacksAnew(trip, gone, chosen, notes)


def _not_again(trip: Trip, content: Content, stock: Stock) -> Iterator[tuple[str, str]]:
    """Give the batches that cannot give a trip all that it names of them, and why."""
    for batch_id, packs in packs_of_trip(trip, content, stock.judged).items():
        judged = stock.judged[batch_id]
        left = max(stock.free(judged.batch), 0)
        if trip.start and judged.keeps_from and trip.start < judged.keeps_from:
            yield batch_id, "not dried by then"
        elif _is_late(trip, judged):
            yield batch_id, "past its date by then"
        elif left < packs:
            yield batch_id, f"{counted(left, 'pack')} left, {packs} needed"


def _is_late(trip: Trip, judged: Judged) -> bool:
    """Tell whether a meal would eat of a batch after its date."""
    until = judged.best_before
    days = [
        trip.date_of(at.day + 1)
        for at in items_of(trip)
        if judged.batch.id in dict(at.item.batches).values()
    ]
    return until is not None and any(day is not None and day > until for day in days)


def _opened(item: MealItem, gone: Mapping[str, str]) -> MealItem:
    """Leave to the tool what came from batches that are not taken again."""
    kept = tuple(each for each in item.batches if each[1] not in gone)
    left = tuple(ingredient for ingredient, batch in item.batches if batch in gone)
    return replace(item, batches=kept, chosen=(*item.chosen, *left)) if left else item


def _place(trip: Trip, at: ItemAt, ingredient: str) -> PlaceOfPacks:
    return PlaceOfPacks(at.day, trip.days[at.day].meals[at.meal].meal, at.place, ingredient)


def _packs_now(judged: Judged) -> PacksNow:
    until = judged.best_before
    return PacksNow(judged.batch.id, until.isoformat() if until else "")
