"""Rewrites a trip's file for a new trip: only what must change, all else as it was written.

Edits by offset, not a library that reads a file and writes it anew: those lay out brackets,
quotes and indentation in their own way, and here every byte that no edit means stays.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence

from builder.reading.anew.renaming import People, left_over, names_changed, party_changed
from builder.reading.record_text import RecordText
from builder.reading.text.as_written import edited_bytes
from builder.reading.text.layout import (
    first_key,
    last_offset,
    own_entries,
    with_keys,
    with_text,
    with_value,
    without_key,
)
from builder.reading.text.spelling import Edit, Left, as_yaml, edited, read_plain, spelt_out
from builder.reading.text.yaml_door import Node, read_yaml
from builder.record import dataclass, field, replace


@dataclass(frozen=True, slots=True)
class PlaceOfPacks:
    """A place of a trip that may name a batch."""

    day: int  # from 0
    meal: str
    item: int  # from 0, of what is told; a dish that is still open is none
    ingredient: str  # "" for what is eaten as it is


@dataclass(frozen=True, slots=True)
class PacksNow:
    """The batch that takes the place of another."""

    batch: str
    until: str  # its best-before date; "" where it has none


@dataclass(frozen=True, slots=True)
class Changes:
    """What the new trip says otherwise."""

    title: str
    start: datetime.date | None
    party: tuple[str, ...]  # empty: as before
    gone: Mapping[str, str]  # batches that are eaten up or too old, with their method
    instead: Mapping[str, str] = field(default_factory=dict)  # whose place somebody takes
    known: frozenset[str] = frozenset()  # whose bodies stand elsewhere, so that a name will do
    packs: Mapping[PlaceOfPacks, PacksNow] = field(default_factory=dict)  # for what is gone


@dataclass(frozen=True, slots=True)
class Rewritten:
    """A new trip's text, and what of the old one could not be carried over."""

    text: str
    edits: tuple[Edit, ...]  # of the old text
    left: tuple[Left, ...]  # each with its offset in the new text

    def as_bytes(self, raw: bytes) -> bytes:
        """Give the new file, with the line ends of the old one."""
        return edited_bytes(raw, self.edits)

    def told(self, file: str, lines_above: int = 0) -> list[str]:
        """Say what could not be carried over, each with its place in the new file."""
        found = []
        for each in self.left:
            line = self.text.count("\n", 0, each.offset) + 1 + lines_above
            column = each.offset - self.text.rfind("\n", 0, each.offset)
            found.append(f"{file}:{line}:{column}: {each.says}")
        return found


def rewritten(trip: RecordText, changes: Changes) -> Rewritten:
    """Give the new trip; what stands for several places at once stays that where it can."""
    text, node = spelt_out(trip.text, trip.node)
    # With each place written out by itself every change means just that place.
    apart = _changed(replace(trip, text=text, kept_node=node), changes)
    if text == trip.text:
        return apart
    meant = read_plain(apart.text)
    for leave_named in (True, False):
        found = _changed(trip, changes, leave_named)
        if meant is not None and read_plain(found.text) == meant:
            return found
    says = "wrote out what `*name` and `<<` stood for: a change was not meant for all of it"
    edits = (Edit(0, len(trip.text), apart.text),)
    return Rewritten(apart.text, edits, (Left(0, says), *apart.left))


def _changed(trip: RecordText, changes: Changes, leave_named: bool = False) -> Rewritten:
    text, node = trip.text, trip.node
    people = People.of(node, changes.party, changes.instead, changes.known)
    found: list[Edit | Left] = [
        *_title(text, node, changes),
        *_start(text, node, changes),
        *_review(text, node),
        *party_changed(trip, people),
        *names_changed(text, node, people, leave_named),
        *_batches(text, node, changes),
    ]
    # What is named in several places is changed once, where it stands.
    edits = list(dict.fromkeys(each for each in found if isinstance(each, Edit)))
    left = [each for each in found if isinstance(each, Left)]
    new = edited(text, edits)
    moved = {Left(_moved(each.offset, edits), each.says) for each in left}
    told = sorted({*moved, *left_over(new, people)}, key=lambda each: (each.offset, each.says))
    return Rewritten(new, tuple(edits), tuple(told))


def _moved(offset: int, edits: Sequence[Edit]) -> int:
    """Give where a place of the old text lies in the new one."""
    before = [each for each in edits if each.end <= offset]
    return offset + sum(len(each.text) - (each.end - each.start) for each in before)


def _title(text: str, node: Node, changes: Changes) -> Iterator[Edit]:
    title = node.entries.get("title")
    if title is not None:
        yield with_value(text, title, as_yaml(changes.title))


def _start(text: str, node: Node, changes: Changes) -> Iterator[Edit | Left]:
    start = node.entries.get("start")
    if changes.start is not None:
        day = changes.start.isoformat()
        if start is not None:
            yield with_text(text, start.node, day)
        elif "title" in node.entries:
            yield with_keys(text, node, {"start": day}, "title")
        else:
            yield first_key(text, node, "start", day)
    elif start is not None and start.node.value is not None:
        # The old date would be wrong for the new trip.
        yield Left(start.start, f"the first day is left open; it was {start.node.text}")
        if node.flow:
            yield without_key(text, node, "start")
        else:
            line = text.rfind("\n", 0, start.start) + 1
            yield Edit(line, line, "# was: ")


def _review(text: str, node: Node) -> Iterator[Edit | Left]:
    review = node.entries.get("review")
    if review is not None and review.node.entries:
        yield with_value(text, review, "{}")
        yield Left(review.start, "what was written down after the old trip is left out")


# -- batches --------------------------------------------------------------------------------------


def _batches(text: str, node: Node, changes: Changes) -> Iterator[Edit | Left]:
    if not changes.gone:
        return
    for number, day in enumerate(node.items_of("days")):
        meals = day.entries.get("meals")
        for meal, entry in meals.node.entries.items() if meals else ():
            items = entry.node.items if entry.node.is_list else (entry.node,)
            for place, item in enumerate(each for each in items if each.is_map):
                packs = {
                    at.ingredient: now
                    for at, now in changes.packs.items()
                    if (at.day, at.meal, at.item) == (number, meal, place)
                }
                yield from _batches_of(text, item, changes.gone, packs, bool(changes.packs))


def _batches_of(
    text: str,
    item: Node,
    gone: Mapping[str, str],
    packs: Mapping[str, PacksNow],
    tell: bool,  # whether other places of the trip have other packs now
) -> Iterator[Edit | Left]:
    entry = item.entries.get("from")
    if entry is None or entry.merged:
        return
    inner = entry.node.entries
    told = {key: each.node for key, each in inner.items()} if inner else {"": entry.node}
    leaving = {key: node for key, node in told.items() if node.text in gone}
    # Where one batch is named for a dish, it is of the one ingredient that is dried.
    found = packs if inner else {key: now for key in told for now in packs.values()}
    for key, node in leaving.items():
        if key in found and found[key].batch == node.text:
            continue  # there is enough of it for this meal
        if key in found:
            yield with_text(text, node, as_yaml(found[key].batch))
            yield Left(node.start, _now_from(key, node.text, found[key]))
        elif tell:
            yield Left(item.start, f"no free pack covers {key or 'this'}: left open")
    open_ones = [key for key in leaving if key not in found]
    if inner and len(open_ones) < len(own_entries(entry.node)):
        yield from (without_key(text, entry.node, key) for key in open_ones)
    elif open_ones:
        method = "bought" if inner else gone[entry.node.text]
        if "eat" in item.entries and method != "bought":
            yield Edit(entry.start, last_offset(entry.node), f"dried_by: {method}")
        else:
            yield without_key(text, item, "from")


def _now_from(ingredient: str, old: str, now: PacksNow) -> str:
    what = f"{ingredient} comes" if ingredient else "this comes"
    until = f", which keeps until {now.until}" if now.until else ""
    return f"{what} from {now.batch} now{until}; it was {old}"


# -- one key of a record that is handed on --------------------------------------------------------


def with_entry(cutting: str, key: str, value: str) -> str:
    """Give a record, cut out as a list item, with one key set to a value on one line."""
    node, problems = read_yaml(cutting, "")
    if node is None or problems or len(node.items) != 1:
        return cutting
    record = node.items[0]
    entry = record.entries.get(key)
    if entry is not None and not entry.merged:
        return edited(cutting, [with_value(cutting, entry, value)])
    whole = cutting if record.flow else cutting.rstrip("\n") + "\n"
    return edited(whole, [with_keys(whole, record, {key: value})])
