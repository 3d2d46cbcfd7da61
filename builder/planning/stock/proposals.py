"""Packs that could cover what trips eat without naming a batch, each pack offered once."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Sequence

from builder.formulas.heat import whole_units
from builder.model.content import Content
from builder.model.figure import add, fewest, smallest
from builder.model.recipe import MealName
from builder.model.trip import Trip
from builder.planning.batches import Judged
from builder.planning.stock.packs import Offer, Stock, Wanted, amount_wanted_g, in_time, packs_more
from builder.planning.tracing import count
from builder.record import dataclass, replace

SLACK_G = 1e-9


@dataclass(frozen=True, slots=True)
class Want:
    """What a meal eats that no batch is named for."""

    wanted: Wanted
    mass_g: float
    trip: str
    day: int
    meal: MealName
    eaten_on: datetime.date | None
    recipe: str | None  # that it is cooked in; None for what is eaten as it is
    ingredient: str


def offers_of(content: Content, stock: Stock) -> dict[str, tuple[Offer, ...]]:
    """Give each trip's offers: earlier trips choose first, what expires first goes first.

    All trips of the folder choose, also when only one is built: so its kit is the same, and no
    pack stands in the kits of two trips.
    """
    shelf = Shelf(stock, may_be_offered)
    return {
        trip.id: tuple(_offers(trip, content, shelf)) if shelf else () for trip in in_time(content)
    }


def lacks_of(trips: Sequence[Trip], content: Content, stock: Stock) -> list[Want]:
    """Give what some trips want that no free pack covers, also of what is planned or drying."""
    shelf = Shelf(stock, will_be_offered)
    lacks = []
    for trip in trips:
        for want in wants_of(trip, content):
            taken_g = [offer.mass_g for offer in shelf.offers(want, trip)]
            rest_g = want.mass_g - add(taken_g) if taken_g else want.mass_g
            if rest_g > SLACK_G:
                lacks.append(replace(want, mass_g=rest_g))
    return lacks


def coming_for(content: Content, stock: Stock) -> dict[str, tuple[Offer, ...]]:
    """Give by trip what batches that are planned or in the dryer will cover of its wants.

    As with what lies in stock, all trips of the folder choose.
    """
    if not any(each.batch.is_planned for each in stock.judged.values()):
        return {}
    shelf = Shelf(stock, will_be_offered)
    return {
        trip.id: tuple(
            offer
            for want in wants_of(trip, content)
            for offer in shelf.offers(want, trip)
            if stock.judged[offer.batch].batch.is_planned
        )
        for trip in in_time(content)
    }


def will_be_offered(judged: Judged) -> bool:
    """Tell whether a batch may be offered, or may once it is dried as it is planned."""
    dated = judged.best_before is not None or judged.batch.in_dryer
    return judged.fit_to_propose and dated


def may_be_offered(judged: Judged) -> bool:
    """Tell whether a batch is dried, has not failed, and has a date to be eaten by."""
    is_made = judged.batch.done is not None or judged.batch.method == "bought"
    return is_made and judged.fit_to_propose and judged.best_before is not None


class Shelf:
    """Free packs by what they hold and how it was dried; what is offered of them is gone."""

    def __init__(self, stock: Stock, may_lie: Callable[[Judged], bool]) -> None:
        """Lay out what meals leave of some batches, those that expire first in front."""
        self._stock = stock
        self._of: dict[Wanted, list[Judged]] = {}
        self._free: dict[str, int] = {}  # without what came back: no trip before may take it
        self._opened_g: dict[tuple[str, str], float] = {}  # a trip's out of packs that reseal
        for each in sorted(filter(may_lie, stock.judged.values()), key=first_expired):
            self._of.setdefault((each.batch.holds, each.batch.method), []).append(each)
            self._free[each.batch.id] = stock.free_unless_back(each.batch)

    def __bool__(self) -> bool:
        """Tell whether a pack is left."""
        return any(self._free_for(name, None) > 0 for name in self._free)

    def offers(self, want: Want, trip: Trip) -> Iterator[Offer]:
        """Take what a meal could use off the free packs, first what an open one still holds."""
        mass_g = want.mass_g
        for judged in self._of.get(want.wanted, ()):
            batch = judged.batch
            if mass_g <= SLACK_G:
                break
            before_g = self._opened_g.get((trip.id, batch.id))
            free = max(self._free_for(batch.id, trip.start), 0)
            if (free == 0 and before_g is None) or not fits(judged, trip, want.eaten_on):
                continue
            opened, _ = packs_more(judged, before_g, mass_g)
            packs = fewest(opened, free)
            taken_g = smallest(mass_g, _held_g(judged, before_g, packs))
            if taken_g <= SLACK_G:
                continue
            if judged.reseals:
                self._opened_g[trip.id, batch.id] = taken_g + before_g if before_g else taken_g
            self._free[batch.id] -= packs
            mass_g -= taken_g
            yield Offer(want.wanted, batch.id, packs, taken_g)

    def _free_for(self, batch: str, start: datetime.date | None) -> int:
        """Give the free packs for a trip that begins on a day; without a date it is to come."""
        back = self._stock.back_before(batch, start or datetime.date.max)
        return self._free[batch] + back if back else self._free[batch]


def _held_g(judged: Judged, before_g: float | None, packs: int) -> float:
    """Give what more packs of a batch hold, with what is left in those opened before."""
    if before_g is None:
        return packs * judged.pack_g
    opened = count(whole_units, before_g, judged.pack_g)
    return (opened + packs) * judged.pack_g - before_g


def first_expired(judged: Judged) -> tuple[datetime.date, str]:
    """Give what batches are sorted by: those that expire first come first."""
    return judged.best_before or datetime.date.max, judged.batch.id


def _offers(trip: Trip, content: Content, shelf: Shelf) -> Iterator[Offer]:
    """Take what a trip's meals could use off the free packs, meal by meal."""
    for want in wants_of(trip, content):
        yield from shelf.offers(want, trip)


def fits(judged: Judged, trip: Trip, eaten_on: datetime.date | None) -> bool:
    """Tell whether a batch is dried before a trip begins and still good when it is eaten."""
    if trip.start is None or eaten_on is None:
        return True
    dried_on, best_before = judged.keeps_from, judged.best_before
    return (dried_on is None or dried_on <= trip.start) and (
        best_before is None or best_before >= eaten_on
    )


def wants_of(trip: Trip, content: Content) -> Iterator[Want]:
    """Give what each meal eats that no batch is named for."""
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                if item.recipe:
                    lines = [
                        (each.id, each.food or each.recipe or "", each.dried_by)
                        for each in content.dish(item).uses
                    ]
                else:
                    lines = [("", item.food or "", item.dried_by)]
                for ingredient_id, food, dried_by in lines:
                    if item.batch_of(ingredient_id) is None:
                        yield Want(
                            (food, dried_by or "bought"),
                            amount_wanted_g(item, ingredient_id, content),
                            trip.id,
                            day.number,
                            meal.meal,
                            trip.date_of(day.number),
                            item.recipe,
                            ingredient_id,
                        )
