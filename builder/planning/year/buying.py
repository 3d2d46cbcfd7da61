"""What to buy for all trips ahead: with refuse, in whole packets, less what the stock gives."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet

from builder.model.content import Content
from builder.model.figure import add
from builder.model.food import Food
from builder.planning.at_home import Shopper
from builder.planning.foods import cooked_g, substance_of_ingredient
from builder.planning.menu import bought
from builder.planning.runs import DryingPlan
from builder.record import dataclass

NO_RUNS = DryingPlan()


@dataclass(frozen=True, slots=True)
class Purchase:
    """One thing to buy, for all trips ahead together."""

    food: str
    name: str
    shelf: str  # where it stands in the shop; empty where nobody told
    needed_g: float  # what is cooked, dried or eaten
    buy_g: float  # with peel, stones and cores, in whole packets
    packets: int  # 0 where nobody told the size
    packet_g: float
    needed_on: datetime.date | None  # the first day it is dried or carried away
    to_dry: bool  # whether some of it is for the dryer
    trips: tuple[str, ...]  # ids


@dataclass(frozen=True, slots=True)
class TakenFromStock:
    """Free packs that a trip could take, so that less need be bought."""

    trip: str
    batch: str
    name: str
    packs: int
    best_before: datetime.date | None


@dataclass(slots=True)
class _Need:
    name: str
    masses_g: list[float]
    days: list[datetime.date]
    trips: list[str]
    to_dry: bool = False


def purchases(
    kits: Sequence[Shopper],
    content: Content,
    drying: DryingPlan = NO_RUNS,
) -> tuple[Purchase, ...]:
    """Give what is to be bought for some trips, by shelf and name.

    A load still to dry is bought for once, however many trips eat of it; one that a run is
    planned for by the weight and the day of that run. A whole meal is bought by its ingredients.
    """
    needs: dict[str, _Need] = {}
    of_runs = _of_runs(drying, {kit.id for kit in kits})
    for want in (*of_runs, *_of_kits(kits, drying)):
        for food, name, mass_g in _ingredients(want, content):
            need = needs.setdefault(food, _Need(name, [], [], []))
            need.masses_g.append(mass_g)
            need.trips += [trip for trip in want.trips if trip not in need.trips]
            need.days += [want.on] if want.on else []
            need.to_dry |= want.to_dry
    found = [_purchase(food, need, content.foods.get(food)) for food, need in needs.items()]
    return tuple(sorted(found, key=lambda each: (each.shelf == "", each.shelf, each.name)))


@dataclass(frozen=True, slots=True)
class _Want:
    """A mass of a food or a whole meal, for some trips, on a day."""

    holds: str
    name: str
    mass_g: float
    on: datetime.date | None
    trips: tuple[str, ...]
    to_dry: bool


def _of_runs(drying: DryingPlan, asked: AbstractSet[str]) -> Iterator[_Want]:
    """Give the loads of the runs that are proposed.

    What feeds several trips is one load, and is bought whole for whichever of them is asked.
    """
    for run in drying.runs:
        for part in run.parts:
            trips = tuple(dict.fromkeys(meal.trip for meal in part.meals))
            if not part.batch and not asked.isdisjoint(trips):
                yield _Want(part.holds, part.name, part.fresh_g, run.start.date(), trips, True)


def _of_kits(kits: Sequence[Shopper], drying: DryingPlan) -> Iterator[_Want]:
    in_runs = {
        (part.holds, part.method, meal.trip)
        for run in drying.runs
        for part in run.parts
        if not part.batch
        for meal in part.meals
    }
    loads: dict[tuple[str, str], list[str]] = {}
    for kit in kits:
        for line in kit.shopping:
            if line.batch is not None:
                loads.setdefault((line.batch, line.food), []).append(kit.id)
    for kit in kits:
        for line in kit.shopping:
            in_run = line.batch is None and (line.food, line.dry_by, kit.id) in in_runs
            if line.mass_g <= 0 or in_run:
                continue
            trips: tuple[str, ...] = (kit.id,)
            if line.batch is not None:
                trips = tuple(loads.pop((line.batch, line.food), ()))
                if not trips:
                    continue
            on = line.dry_on or kit.start
            yield _Want(line.food, line.name, line.mass_g, on, trips, line.to_dry)


def _ingredients(want: _Want, content: Content) -> Iterator[tuple[str, str, float]]:
    """Give what is bought of a want: the food itself, or all that a whole meal is cooked of."""
    recipe = content.recipes.get(want.holds) if want.to_dry else None
    if recipe is None:
        yield want.holds, want.name, want.mass_g
        return
    times = want.mass_g / cooked_g(recipe, content)
    for each in recipe.uses:
        substance = substance_of_ingredient(each, content)
        yield substance.id, substance.name, each.amount_g * times


def _purchase(name: str, need: _Need, food: Food | None) -> Purchase:
    needed_g = add(need.masses_g)
    as_sold = bought(needed_g, food)
    return Purchase(
        food=name,
        name=need.name,
        shelf=as_sold.shelf,
        needed_g=needed_g,
        buy_g=as_sold.buy_g,
        packets=as_sold.packets,
        packet_g=as_sold.packet_g,
        needed_on=min(need.days, default=None),
        to_dry=need.to_dry,
        trips=tuple(need.trips),
    )


def taken_from_stock(kits: Iterable[Shopper]) -> tuple[TakenFromStock, ...]:
    """Give the free packs that kits propose, which the shopping has taken off already."""
    return tuple(
        TakenFromStock(kit.id, each.batch, each.name, each.packs, each.best_before)
        for kit in kits
        for each in kit.proposals
    )
