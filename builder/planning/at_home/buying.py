"""What to buy for all trips ahead: with refuse, in whole packets, less what the stock gives."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.formulas.heat import whole_units
from builder.formulas.shopping import as_bought_g
from builder.model.content import Content
from builder.model.figure import add, none, nothing
from builder.model.food import Food
from builder.model.kit import Kit, ShoppingLine
from builder.planning.tracing import count, work


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
    line: ShoppingLine
    masses_g: list[float]
    days: list[datetime.date]
    trips: list[str]
    to_dry: bool


def purchases(kits: Sequence[Kit], content: Content) -> tuple[Purchase, ...]:
    """Give what is to be bought for some trips, by shelf and name.

    A batch still to dry is bought for once, however many trips eat of it.
    """
    needs: dict[str, _Need] = {}
    loads: set[tuple[str, str]] = set()
    for kit in kits:
        for line in kit.shopping:
            if line.mass_g <= 0:
                continue
            need = needs.setdefault(line.food, _Need(line, [], [], [], False))
            if kit.id not in need.trips:
                need.trips.append(kit.id)
            if line.batch is not None:
                if (line.batch, line.food) in loads:
                    continue
                loads.add((line.batch, line.food))
            need.masses_g.append(line.mass_g)
            need.to_dry |= line.batch is not None or line.dry_by is not None
            if (day := line.dry_on or kit.start) is not None:
                need.days.append(day)
    bought = [_purchase(need, content.foods.get(food)) for food, need in needs.items()]
    return tuple(sorted(bought, key=lambda each: (each.shelf == "", each.shelf, each.name)))


def _purchase(need: _Need, food: Food | None) -> Purchase:
    needed_g = add(need.masses_g)
    buy_g: float = needed_g
    packets: int = none("packets")
    packet_g: float = nothing("packet_g")
    if food and food.refuse_share:
        buy_g = work(as_bought_g, needed_g, food.refuse_share)
    if food and food.sold_in_g:
        packet_g = food.sold_in_g
        packets = count(whole_units, buy_g, packet_g)
        buy_g = packets * packet_g
    return Purchase(
        food=need.line.food,
        name=need.line.name,
        shelf=food.shelf if food else "",
        needed_g=needed_g,
        buy_g=buy_g,
        packets=packets,
        packet_g=packet_g,
        needed_on=min(need.days, default=None),
        to_dry=need.to_dry,
        trips=tuple(need.trips),
    )


def taken_from_stock(kits: Iterable[Kit]) -> tuple[TakenFromStock, ...]:
    """Give the free packs that kits propose, which the shopping has taken off already."""
    return tuple(
        TakenFromStock(kit.id, each.batch, each.name, each.packs, each.best_before)
        for kit in kits
        for each in kit.proposals
    )
