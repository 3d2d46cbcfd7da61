"""Packs that could cover what trips eat without naming a batch, each pack offered once."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence

from builder.formulas.heat import whole_units
from builder.model.content import Content
from builder.model.figure import fewest, smallest
from builder.model.trip import Trip
from builder.planning.stock.judging import Judged
from builder.planning.stock.packs import Offer, Taking, Wanted, amount_wanted_g, free_packs, in_time
from builder.planning.tracing import count


def offers_of(
    content: Content, judged: Mapping[str, Judged], takings: Mapping[str, Sequence[Taking]]
) -> dict[str, tuple[Offer, ...]]:
    """Give each trip's offers: earlier trips choose first, what expires first goes first.

    All trips of the folder choose, also when only one is built: so its kit is the same, and no
    pack stands in the kits of two trips.
    """
    free = {
        name: free_packs(each.batch, takings.get(name, ()))
        for name, each in judged.items()
        if may_be_offered(each)
    }
    shelf: dict[Wanted, list[Judged]] = {}
    for each in sorted(
        (judged[name] for name, packs in free.items() if packs > 0),
        key=lambda each: (each.best_before or datetime.date.max, each.batch.id),
    ):
        shelf.setdefault((each.batch.holds, each.batch.method), []).append(each)
    return {
        trip.id: tuple(_offers(trip, content, shelf, free)) if shelf else ()
        for trip in in_time(content)
    }


def may_be_offered(judged: Judged) -> bool:
    """Tell whether a batch is dried, has not failed, and has a date to be eaten by."""
    is_made = judged.batch.done is not None or judged.batch.method == "bought"
    return is_made and judged.fit_to_propose and judged.best_before is not None


def _offers(
    trip: Trip, content: Content, shelf: Mapping[Wanted, list[Judged]], free: dict[str, int]
) -> Iterator[Offer]:
    """Take what a trip's meals could use off the free packs, meal by meal."""
    for wanted, mass_g, eaten_on in _wants(trip, content):
        for judged in shelf.get(wanted, ()):
            batch = judged.batch
            if mass_g <= 1e-9:
                break
            if not free[batch.id] or not _fits(judged, trip, eaten_on):
                continue
            packs = fewest(count(whole_units, mass_g, judged.pack_g), free[batch.id])
            taken_g = smallest(mass_g, packs * judged.pack_g)
            free[batch.id] -= packs
            mass_g -= taken_g
            yield Offer(wanted, batch.id, packs, taken_g)


def _fits(judged: Judged, trip: Trip, eaten_on: datetime.date | None) -> bool:
    """Tell whether a batch is dried before a trip begins and still good when it is eaten."""
    if trip.start is None or eaten_on is None:
        return True
    done, best_before = judged.batch.done, judged.best_before
    return (done is None or done <= trip.start) and (best_before is None or best_before >= eaten_on)


def _wants(trip: Trip, content: Content) -> Iterator[tuple[Wanted, float, datetime.date | None]]:
    """Give what each meal eats that no batch is named for, and the day it is eaten."""
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                if item.recipe:
                    lines = [
                        (each.id, each.food or each.recipe or "", each.dried_by)
                        for each in content.recipes[item.recipe].uses
                    ]
                else:
                    lines = [("", item.food or "", item.dried_by)]
                for ingredient_id, food, dried_by in lines:
                    if item.batch_of(ingredient_id) is None:
                        yield (
                            (food, dried_by or "bought"),
                            amount_wanted_g(item, ingredient_id, content),
                            trip.date_of(day.number),
                        )
