"""Rewrites a trip's file for a new trip: only what must change, every comment kept."""

from __future__ import annotations

import datetime
import textwrap
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from builder.reading.cuttings import cut, last_offset, line_end
from builder.reading.folder import RecordText
from builder.reading.spelling import Edit, edited, quoted, spelt_out
from builder.reading.yaml_door import Node, read_yaml


@dataclass(frozen=True, slots=True)
class Changes:
    """What the new trip says otherwise."""

    title: str
    start: datetime.date | None
    party: tuple[str, ...]  # empty: as before
    gone: Mapping[str, str]  # batches that are eaten up or too old, with their method


def rewritten(trip: RecordText, changes: Changes) -> str:
    """Give the text of the new trip."""
    # What stands for several places at once cannot be changed in one of them.
    text, node = spelt_out(trip.text, trip.node)
    trip = replace(trip, text=text, node=node)
    edits = [
        *_title(node, changes),
        *_start(text, node, changes),
        *_review(text, node),
        *_party(trip, changes),
        *_meals(text, node, changes),
    ]
    return edited(text, edits)


def _title(node: Node, changes: Changes) -> Iterator[Edit]:
    title = node.entries.get("title")
    if title is not None:
        yield Edit(title.node.start, title.node.end, quoted(changes.title))


def _start(text: str, node: Node, changes: Changes) -> Iterator[Edit]:
    start = node.entries.get("start")
    if start is not None and changes.start is not None:
        yield Edit(start.node.start, start.node.end, changes.start.isoformat())
    elif start is not None:
        # The old date would be wrong for the new trip; it stays as a reminder.
        line = text.rfind("\n", 0, start.node.start) + 1
        yield Edit(line, line, "# was: ")
    elif changes.start is not None:
        title = node.entries.get("title")
        place = line_end(text, title.node.end) if title else 0
        yield Edit(place, place, f"start: {changes.start.isoformat()}\n")


def _review(text: str, node: Node) -> Iterator[Edit]:
    review = node.entries.get("review")
    if review is not None and review.node.entries:
        before = "" if review.node.flow else " "
        start = review.node.start if review.node.flow else _after_key(text, review.node)
        yield Edit(start, last_offset(review.node), f"{before}{{}}")


def _after_key(text: str, node: Node) -> int:
    """Give the place right after the colon of the key that a block value belongs to."""
    return text.rfind(":", 0, node.start) + 1


def _party(trip: RecordText, changes: Changes) -> Iterator[Edit]:
    party = trip.node.entries.get("party")
    if not changes.party or party is None:
        return
    by_name = {_name(person): person for person in party.node.items}
    lines = []
    for name in changes.party:
        if name in by_name:
            record = RecordText(trip.path, trip.text, by_name[name])
            lines.append(cut(record))
        else:
            lines.append(f"- {{name: {quoted(name)}}}\n")
    start = _after_key(trip.text, party.node)
    end = last_offset(party.node)
    if not party.node.flow:
        end = line_end(trip.text, end)
    elif trip.text[end : end + 1] == "\n":
        end += 1
    yield Edit(start, end, "\n" + textwrap.indent("".join(lines), "  "))


def _name(person: Node) -> str:
    entry = person.entries.get("name")
    return str(entry.node.value) if entry else ""


def _meals(text: str, node: Node, changes: Changes) -> Iterator[Edit]:
    old = {_name(person) for person in _items(node, "party")}
    away = old - set(changes.party) if changes.party else set()
    for day in _items(node, "days"):
        meals = day.entries.get("meals")
        for entry in meals.node.entries.values() if meals else ():
            items = entry.node.items if entry.node.is_list else (entry.node,)
            for item in items:
                yield from _eaters(item, away, changes.party)
                yield from _batches(text, item, changes.gone)


def _items(node: Node, key: str) -> Sequence[Node]:
    entry = node.entries.get(key)
    return entry.node.items if entry else ()


def _eaters(item: Node, away: Collection[str], party: Sequence[str]) -> Iterator[Edit]:
    eaters = item.entries.get("for")
    if eaters is None or not away:
        return
    names = [str(each.value) for each in eaters.node.items or (eaters.node,)]
    # What was for somebody who stays at home goes to those who come.
    left = [name for name in names if name not in away] or list(party)
    if left != names:
        said = ", ".join(quoted(name) for name in left)
        yield Edit(eaters.node.start, last_offset(eaters.node), f"[{said}]")


def _batches(text: str, item: Node, gone: Mapping[str, str]) -> Iterator[Edit]:
    entry = item.entries.get("from")
    if entry is None:
        return
    key_start = text.rfind("from", 0, entry.node.start)
    end = last_offset(entry.node)
    if entry.node.is_map:
        named = {key: str(each.node.value) for key, each in entry.node.entries.items()}
        kept = {key: batch for key, batch in named.items() if batch not in gone}
        if kept and kept != named:
            said = ", ".join(f"{key}: {batch}" for key, batch in kept.items())
            start = entry.node.start if entry.node.flow else _after_key(text, entry.node)
            yield Edit(start, end, f"{'' if entry.node.flow else ' '}{{{said}}}")
        if kept:
            return
    elif str(entry.node.value) not in gone:
        return
    method = gone.get(str(entry.node.value), "bought")
    if "eat" in item.entries and method != "bought":
        yield Edit(key_start, end, f"dried_by: {method}")
    elif item.flow:
        yield _without(text, key_start, end)
    else:
        yield Edit(text.rfind("\n", 0, key_start) + 1, line_end(text, end), "")


def _without(text: str, start: int, end: int) -> Edit:
    """Take one entry out of a flow mapping, with the comma that parted it from the others."""
    before = start
    while before > 0 and text[before - 1] in " \n":
        before -= 1
    if before > 0 and text[before - 1] == ",":
        return Edit(before - 1, end, "")
    after = end
    while after < len(text) and text[after] in " \n":
        after += 1
    if after < len(text) and text[after] == ",":
        after += 1
        while after < len(text) and text[after] == " ":
            after += 1
    return Edit(start, after, "")


def with_entry(cutting: str, key: str, value: str) -> str:
    """Give a record, cut out as a list item, with one key set to a value on one line."""
    node, problems = read_yaml(cutting, "")
    if node is None or problems or len(node.items) != 1:
        return cutting
    record = node.items[0]
    entry = record.entries.get(key)
    if entry is not None and not entry.merged:
        end = last_offset(entry.node)
        if entry.node.flow or entry.node.alias or not entry.node.is_list:
            return cutting[: entry.node.start] + value + cutting[end:]
        return f"{cutting[: _after_key(cutting, entry.node)]} {value}{cutting[end:]}"
    if record.flow:
        return cutting[: record.end - 1] + f", {key}: {value}" + cutting[record.end - 1 :]
    return cutting.rstrip("\n") + f"\n  {key}: {value}\n"
