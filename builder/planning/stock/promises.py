"""What trips promise and the stock cannot keep: packs taken twice, batches that come too late."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.batch import Batch
from builder.model.content import Content
from builder.planning.stock.packs import Stock, Taking
from builder.problems import Problem


def promise_problems(stock: Stock, content: Content) -> list[Problem]:
    """Give every promise of the folder's trips that cannot be kept, each told once."""
    return [*_overdrawn(stock), *_too_late(stock, content)]


def _overdrawn(stock: Stock) -> Iterator[Problem]:
    """Find batches of which meals take more packs than there are, with all these meals."""
    for name, judged in stock.judged.items():
        batch, takings = judged.batch, stock.taken(name)
        if not takings or stock.free(batch) >= 0:
            continue
        packs = "1 pack" if batch.pack_count == 1 else f"{batch.pack_count} packs"
        eaten = f", {batch.used} of them eaten before" if batch.used else ""
        yield Problem(
            batch.places.of("packs"),
            "batch-overdrawn",
            f"batch {name} has {packs}{eaten}; meals take {sum(each.packs for each in takings)}: "
            + "; ".join(_said(each) for each in takings),
            "take less of it, name another batch for one of these meals, or dry more",
        )


def _said(taking: Taking) -> str:
    return f"{taking.trip} day {taking.day} {taking.meal} {taking.packs} (named at {taking.place})"


def _too_late(stock: Stock, content: Content) -> Iterator[Problem]:
    """Find batches that are dried only after a trip that eats of them began."""
    for name, judged in stock.judged.items():
        batch = judged.batch
        dried_on = batch.done or batch.planned
        if dried_on is None:
            continue
        told: set[str] = set()
        for taking in stock.taken(name):
            start = content.trips[taking.trip].start
            if start is None or dried_on <= start or taking.trip in told:
                continue
            told.add(taking.trip)
            key = "done" if batch.done else "planned"
            yield Problem(
                taking.place,
                "batch-too-late",
                f"{taking.trip} begins on {start.isoformat()}, and batch {name} is {key} only on "
                f"{dried_on.isoformat()} ({batch.places.of(key)})",
                _mend_too_late(batch),
            )


def _mend_too_late(batch: Batch) -> str:
    check = "check both dates" if batch.done else "dry it before the trip"
    return f"{check}, or name another batch"
