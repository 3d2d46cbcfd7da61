"""What trips promise and the stock cannot keep: packs taken twice, too late, past their date."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence

from builder.planning.stock.packs import Stock, Taking, is_overdrawn
from builder.problems import Problem, counted

MOST_MEALS_TOLD = 6


def promise_problems(stock: Stock) -> list[Problem]:
    """Give every promise of the folder's trips that cannot be kept, each told once."""
    return [
        *_overdrawn(stock),
        *_more_back(stock),
        *_too_late(stock),
        *_past_date(stock),
    ]


def _overdrawn(stock: Stock) -> Iterator[Problem]:
    """Find batches of which meals take more packs than there are, with all these meals."""
    for name, judged in stock.judged.items():
        batch, takings = judged.batch, stock.taken(name)
        if not is_overdrawn(batch, takings, stock.returned(name)):
            continue
        packs = counted(batch.pack_count, "pack")
        packs += f", {batch.used} of them eaten before" if batch.used else ""
        taken = sum(each.packs for each in takings)
        back = "".join(
            f", and {counted(each.packs, 'pack')} came back from {each.trip} after "
            f"{each.last_day.isoformat()}"
            for each in stock.returned(name)
        )
        yield Problem(
            batch.places.of("packs"),
            "batch-overdrawn",
            f"batch {name} has {packs}{back}; meals take {taken}: "
            + _said([each for each in takings if each.packs]),
            "take less of it, name another batch for one of these meals, or dry more",
        )


def _said(takings: Sequence[Taking]) -> str:
    """Tell the meals that open packs, each with its place; of very many the first and how many."""
    told = [
        f"{each.trip} day {each.day} {each.meal} {each.packs} (named at {each.place})"
        for each in takings[:MOST_MEALS_TOLD]
    ]
    if more := takings[MOST_MEALS_TOLD:]:
        packs = sum(each.packs for each in more)
        told.append(f"{counted(len(more), 'more meal')} {packs}")
    return "; ".join(told)


def _more_back(stock: Stock) -> Iterator[Problem]:
    """Find packs that cannot have come back, since the trip did not take so many."""
    for returned in stock.came_back.values():
        for back in returned:
            taken = stock.used_by(back.trip, back.batch)
            if back.packs > taken:
                yield Problem(
                    back.place,
                    "back-too-many",
                    f"{counted(back.packs, 'pack')} of batch {back.batch} came back, and the meals "
                    f"of {back.trip} take {taken or 'none'} of it",
                    f"write how many came back of the {taken} it took"
                    if taken
                    else "name the batch behind `from` of the meal that took it, or leave it out",
                )


def _too_late(stock: Stock) -> Iterator[Problem]:
    """Find batches that are dried only after a trip that eats of them began."""
    for name, judged in stock.judged.items():
        batch = judged.batch
        dried_on = batch.done or batch.planned
        if dried_on is None:
            continue
        key = "done" if batch.done else "planned"
        mend = "check both dates" if batch.done else "dry it before the trip"
        for taking in _first_of_each_trip(stock.taken(name)):
            if taking.first_day is not None and dried_on > taking.first_day:
                yield Problem(
                    taking.place,
                    "batch-too-late",
                    f"{taking.trip} begins on {taking.first_day.isoformat()}, and batch {name} is "
                    f"{key} only on {dried_on.isoformat()} ({batch.places.of(key)})",
                    f"{mend}, or name another batch",
                )


def _past_date(stock: Stock) -> Iterator[Problem]:
    """Find batches that a trip eats of on a day after their best-before."""
    for name, judged in stock.judged.items():
        until = judged.best_before or datetime.date.max
        takings = (each for each in stock.taken(name) if (each.eaten_on or until) > until)
        for taking in _first_of_each_trip(takings):
            yield Problem(
                taking.place,
                "batch-past-date",
                f"{taking.trip} eats of batch {name} on {taking.eaten_on}, and it keeps until "
                f"{until} only ({judged.batch.places.record})",
                "eat it sooner, or name another batch",
                "warning",
            )


def _first_of_each_trip(takings: Iterable[Taking]) -> Iterable[Taking]:
    """Give one meal of each trip, since each trip is told once."""
    first: dict[str, Taking] = {}
    for each in takings:
        first.setdefault(each.trip, each)
    return first.values()
