"""Who comes on a new trip: its party, and every place of its file that names one of the old."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence

from builder.reading.anew.cuttings import cut
from builder.reading.record_text import RecordText
from builder.reading.text.layout import (
    with_items,
    with_text,
    with_value,
    without_items,
    without_key,
)
from builder.reading.text.spelling import Edit, Left, as_yaml
from builder.reading.text.yaml_door import Entry, Node
from builder.record import dataclass

# Keys below which nobody is named as one of the party of the days to come.
_ELSEWHERE = frozenset({"party", "review"})
_SHOWN = 60


@dataclass(frozen=True, slots=True)
class People:
    """Who came before and who comes now."""

    before: tuple[str, ...]
    now: tuple[str, ...]
    instead: Mapping[str, str]  # whose place somebody takes: old name → new
    known: frozenset[str]

    @classmethod
    def of(
        cls, trip: Node, party: Sequence[str], instead: Mapping[str, str], known: frozenset[str]
    ) -> People:
        """Read who came before; without a new party those come again, but for who is replaced.

        Who is new stands behind the others, so that those stay where they are.
        """
        entry = trip.entries.get("party")
        before = tuple(_name(person) for person in entry.node.items) if entry else ()
        staying = [name for name in before if name not in instead]
        now = tuple(party) or tuple(dict.fromkeys([*staying, *instead.values()]))
        return cls(before, now, instead, known)

    @property
    def away(self) -> frozenset[str]:
        """Who came before and does not come now."""
        return frozenset(self.before) - frozenset(self.now)

    def name_now(self, name: str) -> str | None:
        """Give who stands where somebody was named; None where nobody does."""
        return self.instead.get(name) if name in self.away else name


def _name(person: Node) -> str:
    entry = person.entries.get("name")
    if entry is not None:
        return entry.node.text
    return person.text if person.is_text else ""


# -- the party ------------------------------------------------------------------------------------


def party_changed(trip: RecordText, people: People) -> Iterator[Edit | Left]:
    """Take out who does not come, and add who is new behind the others."""
    text, entry = trip.text, trip.node.entries.get("party")
    if entry is None or people.before == people.now:
        return
    party = entry.node
    by_name = dict(zip(people.before, party.items, strict=True))
    staying = [name for name in people.before if name in people.now]
    new = [name for name in people.now if name not in by_name]
    written = [_person(name, people) for name in new]
    for name in new:
        if name not in people.known:
            says = f"{as_yaml(name)} is new: tell age, mass, height and what they avoid"
            yield Left(entry.start, says)
    if not staying:
        whole = f"[{', '.join(written)}]" if party.flow or party.alias else _lines(written)
        yield Edit(*_span_of_value(text, entry), whole)
    elif (*staying, *new) == people.now:
        gone = {number for number, name in enumerate(people.before) if name not in staying}
        yield from without_items(text, party, gone)
        yield from with_items(text, party, written)
    elif party.flow:
        said = [
            text[by_name[n].start : by_name[n].end] if n in by_name else _person(n, people)
            for n in people.now
        ]
        yield Edit(party.start, party.end, f"[{', '.join(said)}]")
    else:
        # In another order than before: each with the comments that belong to it.
        records = (
            cut(RecordText(trip.path, text, by_name[name]))
            if name in by_name
            else f"- {_person(name, people)}\n"
            for name in people.now
        )
        said_all = textwrap.indent("".join(records), "  ").rstrip("\n")
        yield Edit(*_span_of_value(text, entry), f"\n{said_all}")


def _person(name: str, people: People) -> str:
    return as_yaml(name) if name in people.known else f"{{name: {as_yaml(name)}}}"


def _lines(written: Sequence[str]) -> str:
    return "".join(f"\n  - {each}" for each in written)


def _span_of_value(text: str, entry: Entry) -> tuple[int, int]:
    edit = with_value(text, entry, "")
    return edit.start, edit.end


# -- everybody else who is named ------------------------------------------------------------------


def names_changed(
    text: str, trip: Node, people: People, leave_named: bool
) -> Iterator[Edit | Left]:
    """Change who is named in `for`, `without` and `carried_by`, wherever those stand.

    With `leave_named` each `*name` stays, and says what now stands where it was given that name.
    """
    if not people.away:
        return
    named = {(node.start, node.end) for node in _aliases(trip)} if leave_named else set()
    for each in _named_below(text, trip, people):
        if isinstance(each, Left) or (each.start, each.end) not in named:
            yield each


def _aliases(node: Node) -> Iterator[Node]:
    if node.alias:
        yield node
        return
    for entry in node.entries.values():
        if not entry.merged:
            yield from _aliases(entry.node)
    for item in node.items:
        yield from _aliases(item)


def _named_below(text: str, node: Node, people: People) -> Iterator[Edit | Left]:
    for key, entry in node.entries.items():
        if entry.merged or key in _ELSEWHERE:
            continue
        if key == "for":
            yield from _for(text, entry, people)
        elif key == "without" and entry.node.is_map:
            yield from _without(text, node, entry, people)
        elif key == "carried_by":
            yield from _carried_by(text, node, entry, people)
        else:
            yield from _named_below(text, entry.node, people)
    for item in node.items:
        yield from _named_below(text, item, people)


def _for(text: str, entry: Entry, people: People) -> Iterator[Edit | Left]:
    lost, left = _lost_and_left(entry, people)
    if left:
        yield from _names(text, entry, people)
        if lost:
            yield Left(entry.start, f"`for` no longer names {_listed(lost)}")
        return
    # What was for somebody who stays at home goes to those who come.
    yield with_value(text, entry, f"[{', '.join(as_yaml(name) for name in people.now)}]")
    yield Left(entry.start, f"`for` named only {_listed(lost)}: it goes to all who come now")


def _without(text: str, day: Node, entry: Entry, people: People) -> Iterator[Edit | Left]:
    emptied = []
    nobody_left = all(not _lost_and_left(each, people)[1] for each in entry.node.entries.values())
    for meal, each in entry.node.entries.items():
        lost, left = _lost_and_left(each, people)
        if lost:
            place = day.start if nobody_left else entry.start
            yield Left(place, f"`without` no longer names {_listed(lost)} for {meal}")
        if left:
            yield from _names(text, each, people)
        else:
            emptied.append(meal)
    if emptied and nobody_left:
        yield without_key(text, day, "without")
    else:
        yield from (without_key(text, entry.node, meal) for meal in emptied)


def _carried_by(text: str, item: Node, entry: Entry, people: People) -> Iterator[Edit | Left]:
    name = entry.node.text
    now = people.name_now(name)
    if now is None:
        yield without_key(text, item, "carried_by")
        yield Left(item.start, f"{as_yaml(name)} carried this; nobody is named now")
    elif now != name:
        yield with_text(text, entry.node, as_yaml(now))


def _nodes(entry: Entry) -> tuple[Node, ...]:
    return entry.node.items if entry.node.is_list else (entry.node,)


def _lost_and_left(entry: Entry, people: People) -> tuple[list[str], list[str]]:
    """Give who of those named nobody stands for any more, and who is named then."""
    names = [each.text for each in _nodes(entry)]
    now = [people.name_now(name) for name in names]
    lost = [name for name, new in zip(names, now, strict=True) if new is None]
    return lost, [name for name in now if name is not None]


def _names(text: str, entry: Entry, people: People) -> Iterator[Edit]:
    """Change names where they stand, and take out those that nobody stands for."""
    nodes = _nodes(entry)
    there: set[str] = {each.text for each in nodes if each.text not in people.away}
    gone = set()
    for number, node in enumerate(nodes):
        if node.text not in people.away:
            continue
        now = people.name_now(node.text)
        if now is None or now in there:
            gone.add(number)
        else:
            there.add(now)
            yield with_text(text, node, as_yaml(now))
    if gone:
        yield from without_items(text, entry.node, gone)


def left_over(text: str, people: People) -> Iterator[Left]:
    """Give each place, a comment or a note, that still names somebody who does not come."""
    for name in sorted(people.away):
        pattern = re.compile(rf"(?<![\w-]){re.escape(name)}(?![\w-])")
        for match in pattern.finditer(text) if name else ():
            start = text.rfind("\n", 0, match.start()) + 1
            line = text[start:].split("\n", 1)[0].strip()
            shown = line if len(line) <= _SHOWN else f"{line[: _SHOWN - 1]}…"
            yield Left(match.start(), f"{as_yaml(name)} is still named here: {shown}")


def _listed(names: Sequence[str]) -> str:
    return ", ".join(as_yaml(name) for name in names)
