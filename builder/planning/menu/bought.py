"""What is bought for what is eaten: with peel, stones and cores, in packets as shops sell them."""

from __future__ import annotations

from builder.formulas.heat import whole_units
from builder.formulas.shopping import as_bought_g
from builder.model.figure import none, nothing
from builder.model.food import Food
from builder.planning.tracing import count, work
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Bought:
    """A mass as a shop sells it."""

    buy_g: float
    packets: int  # 0 where nobody told their size
    packet_g: float
    shelf: str  # where it stands in the shop; empty where nobody told


def bought(needed_g: float, food: Food | None) -> Bought:
    """Give what to buy for a mass that is cooked, dried or eaten."""
    packets: int = none("packets")
    packet_g: float = nothing("packet_g")
    buy_g = needed_g
    if food and food.refuse_share:
        buy_g = work(as_bought_g, needed_g, food.refuse_share)
    if food and food.sold_in_g:
        packet_g = food.sold_in_g
        packets = count(whole_units, buy_g, packet_g)
        buy_g = packets * packet_g
    return Bought(buy_g, packets, packet_g, food.shelf if food else "")
