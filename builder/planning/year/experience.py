"""What the home learned of its own batches: the weight that a food has once it is dry."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.batches import Learned, learned_of, own_batches
from builder.planning.stock import Stock
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Experience:
    """A food dried in one way, with what the table and one's own batches give."""

    name: str
    method: str
    learned: Learned


def experiences(stock: Stock) -> tuple[Experience, ...]:
    """Give every food that was dried before, each way by itself, by name."""
    return tuple(sorted(_experiences(stock), key=lambda each: (each.name, each.method)))


def _experiences(stock: Stock) -> Iterator[Experience]:
    own = own_batches(stock.judged.values())
    for (_, method), batches in own.items():
        substance = batches[0].substance
        yield Experience(substance.name, method, learned_of(substance, method, own))
