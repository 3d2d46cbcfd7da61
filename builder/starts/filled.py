"""Writes a proposal into its trip: what fills open meals, and the packs that the tool chose.

Edits by offset, as `reading/anew/rewriting.py` makes them: every byte that no edit means stays.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from builder.model.trip import MealItem, Trip
from builder.planning.filling import ChosenDish
from builder.problems import ProblemsFound, errors
from builder.reading.folder import Layer
from builder.reading.record_text import RecordText
from builder.reading.text.as_written import edited_bytes
from builder.reading.text.layout import with_text
from builder.reading.text.spelling import (
    Edit,
    Words,
    edited,
    plain,
    read_plain,
    spelt_out,
    words_in_flow,
)
from builder.reading.text.yaml_door import Node
from builder.reading.trips.helpings import AUTO
from builder.reading.trips.meals import OPEN
from builder.record import dataclass
from builder.starts.fresh import StartError
from builder.starts.reading_over import own_trip, read_over
from builder.starts.swapping import swap_in


@dataclass(frozen=True, slots=True)
class WrittenTrip:
    """A trip's file as it is now."""

    file: str
    is_spelt_out: bool  # whether what `*name` and `<<` stood for had to be written out


@dataclass(frozen=True, slots=True)
class _Put:
    """A value for one place of a trip: keys, and numbers of items, lead there."""

    path: tuple[str | int, ...]
    value: Words


def write_filled(layers: Sequence[Layer], trip: Trip, dishes: Sequence[ChosenDish]) -> WrittenTrip:
    """Write dishes and chosen packs into the file of a trip; it is read back before it is kept."""
    own = layers[-1]
    record, before = own_trip(layers, trip.id)
    puts = [*_dishes(record.node, trip, dishes), *_packs(record.node, trip)]
    edits, is_spelt_out = _edits(record, puts)
    after = edited_bytes(before, edits)
    there = read_over({record.path: after}, layers)
    if wrong := errors(there.problems):
        raise ProblemsFound(wrong)
    swap_in(own.folder / record.path, before, after)
    return WrittenTrip(f"{own.shown}/{record.path}", is_spelt_out)


# -- what goes where ------------------------------------------------------------------------------


def _dishes(root: Node, trip: Trip, dishes: Sequence[ChosenDish]) -> Iterator[_Put]:
    """Put a dish in the place of each `open`."""
    everybody = tuple(person.name for person in trip.party)
    for dish in dishes:
        path: tuple[str | int, ...] = ("days", dish.day - 1, "meals", dish.meal)
        meal = root.at(path)
        if meal.is_list:
            path = (*path, next(n for n, item in enumerate(meal.items) if _is(item, OPEN)))
        value: dict[str, Words] = {"cook": dish.recipe}
        if dish.batches:
            value["from"] = dict(dish.batches)
        if dish.eaters != everybody:
            value["for"] = list(dish.eaters)
        yield _Put(path, value)


def _packs(root: Node, trip: Trip) -> Iterator[_Put]:
    """Put the packs that were chosen in the place of each `auto`."""
    for number, day in enumerate(trip.days):
        for meal in day.meals:
            path: tuple[str | int, ...] = ("days", number, "meals", meal.meal)
            written = root.at(path)
            places = [(path, written)]
            if written.is_list:
                places = [((*path, n), item) for n, item in enumerate(written.items)]
            told = [(place, node) for place, node in places if not _is(node, OPEN)]
            for item, (place, node) in zip(meal.items, told, strict=True):
                yield from _packs_of(item, (*place, "from"), node)


def _packs_of(item: MealItem, path: tuple[str | int, ...], node: Node) -> Iterator[_Put]:
    chosen = {name: item.batch_of(name) for name in item.chosen}
    found = {name: batch for name, batch in chosen.items() if batch is not None}
    if not found:
        return
    told = node.entries["from"].node
    if told.is_map:
        for name, batch in found.items():
            yield _Put((*path, name), batch)
    elif "" in found:
        yield _Put(path, found[""])
    else:  # what no pack covers stays for the tool to choose
        yield _Put(path, {name: batch or AUTO for name, batch in chosen.items()})


def _is(node: Node, word: str) -> bool:
    return node.is_text and node.text.strip() == word


# -- edits ----------------------------------------------------------------------------------------


def _edits(record: RecordText, puts: Sequence[_Put]) -> tuple[list[Edit], bool]:
    """Give the edits of a file, and whether what stands elsewhere in it is written out.

    That is done only where a place is named in several: a change is meant for each by itself.
    """
    meant = plain(record.node)
    for put in puts:
        meant = _with(meant, put.path, _plain_of(put.value))
    edits = _edits_in(record.text, record.node, puts)
    if edits is not None and read_plain(edited(record.text, edits)) == meant:
        return edits, False
    text, node = spelt_out(record.text, record.node)
    apart = _edits_in(text, node, puts)
    if apart is None or read_plain(edited(text, apart)) != meant:
        raise StartError(
            f"{record.path} is written in a way that nothing can be put into it",
            "write the proposal in by hand",
        )
    return [Edit(0, len(record.text), edited(text, apart))], True


def _edits_in(text: str, root: Node, puts: Sequence[_Put]) -> list[Edit] | None:
    """Give an edit for each place; None where two are meant for one."""
    edits = [with_text(text, root.at(put.path), words_in_flow(put.value)) for put in puts]
    places = {(each.start, each.end) for each in edits}
    different = dict.fromkeys(edits)
    return None if len(different) > len(places) else list(different)


def _plain_of(value: Words) -> object:
    return read_plain(words_in_flow(value))


def _with(record: Any, path: Sequence[str | int], value: object) -> Any:
    """Give plain values with another at one place, and only there."""
    if not path:
        return value
    first, *rest = path
    if isinstance(record, Mapping):
        return {**record, first: _with(record[first], rest, value)}
    assert isinstance(first, int)
    return [*record[:first], _with(record[first], rest, value), *record[first + 1 :]]
