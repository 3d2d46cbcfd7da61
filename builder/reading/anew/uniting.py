"""Unites what two trips tell of their party, their gear and all else that is told once."""

from __future__ import annotations

import textwrap
from collections.abc import Collection, Iterator, Sequence

from builder.model.place import Place
from builder.model.trip import Trip
from builder.reading.anew.cuttings import cut
from builder.reading.declared.values import has, on_one_line
from builder.reading.record_text import RecordText
from builder.reading.text.layout import (
    behind_items,
    margin_of_items,
    with_items,
    with_keys,
    with_value,
    without_key,
)
from builder.reading.text.spelling import Edit, as_yaml, edited, in_flow, plain, spelt_out
from builder.reading.text.yaml_door import Node, read_yaml
from builder.record import replace

Path = tuple[str | int, ...]
# Told once for a trip; of two that differ the first one's stands.
_ONCE = (
    "units", "language", "mug", "ladle", "washing", "shelter", "times", "utc", "picture",
)  # fmt: skip


class Draft:
    """A trip's text that is changed step by step, and read anew after each."""

    def __init__(self, record: RecordText) -> None:
        """Begin with a text in which each place stands by itself."""
        self.file = record.path
        self.text, self.node = spelt_out(record.text, record.node)

    def at(self, *path: str | int) -> Node:
        """Give the node that keys, and numbers of items, lead to."""
        return self.node.at(path)

    def change(self, *edits: Edit) -> None:
        """Make edits that do not overlap."""
        self.text = edited(self.text, edits)
        node, problems = read_yaml(self.text, self.file)
        if node is None or problems:
            raise AssertionError(f"{self.file} was not changed well")
        self.node = node

    def put(self, path: Path, key: str, value: str) -> None:
        """Put a value on one line behind a key."""
        parent = self.at(*path)
        entry = parent.entries.get(key)
        if entry is not None:
            self.change(with_value(self.text, entry, value))
        else:
            self.change(with_keys(self.text, parent, {key: value}))

    def drop(self, path: Path, key: str) -> None:
        """Take a key out."""
        self.change(without_key(self.text, self.at(*path), key))

    def add(self, path: Path, key: str, items: Sequence[str]) -> None:
        """Put items, each on one line, behind those of a list that may be missing."""
        entry = self.at(*path).entries.get(key)
        if not items:
            return
        if entry is not None and entry.node.is_list and (entry.node.items or entry.node.flow):
            self.change(*with_items(self.text, entry.node, items))
        else:
            alone = [in_flow(entry.node)] if entry is not None and entry.node.is_text else []
            self.put(path, key, f"[{', '.join([*alone, *items])}]")

    def take(self, key: str, record: RecordText, items: Sequence[Node]) -> None:
        """Put items of another text behind those of a list, each with its comments."""
        entry = self.node.entries.get(key)
        if not items:
            return
        if entry is None or entry.node.flow or not entry.node.items:
            self.add((), key, [in_flow(each) for each in items])
            return
        cuts = "".join(cut(replace(record, kept_node=each)) for each in items)
        lines = textwrap.indent(cuts, margin_of_items(self.text, entry.node))
        self.change(behind_items(self.text, entry.node, lines))


# -- the party ------------------------------------------------------------------------------------


def unite_party(base: Draft, first: Node, record: RecordText, trip: Trip) -> Iterator[str]:
    """Let all come for all days; what somebody avoids on either trip they avoid on both."""
    other = record.node
    people = {_name(each): each for each in first.entries["party"].node.items}
    for person in other.entries["party"].node.items:
        name = _name(person)
        there = {_name(each): n for n, each in enumerate(base.at("party").items)}
        if name not in there:
            base.take("party", record, [person])
            yield f"{person.place}: {name} comes on all days now"
            continue
        own = base.at("party", there[name])
        if plain(own) == plain(person):
            continue
        before = people[name].place if name in people else other.place
        avoids = dict.fromkeys([*_words(own, "avoids"), *_words(person, "avoids")])
        told = {key: in_flow(each.node) for key, each in person.entries.items()}
        told |= {key: in_flow(each.node) for key, each in own.entries.items()}
        if avoids:
            told["avoids"] = f"[{', '.join(as_yaml(each) for each in avoids)}]"
        if person.entries:
            written = f"{{{', '.join(f'{key}: {value}' for key, value in told.items())}}}"
            if own.is_map and avoids.keys() != set(_words(own, "avoids")):
                base.put(("party", there[name]), "avoids", told["avoids"])
            elif own.is_text:
                base.change(Edit(own.start, own.end, written))
        yield (
            f"{person.place}: {name} is told otherwise here than at {before}: the first stands, "
            "and all that either avoids is avoided"
        )
    yield from _new_on_old_days(first, other, trip)


def _new_on_old_days(first: Node, other: Node, trip: Trip) -> Iterator[str]:
    """Tell who comes on more days than before."""
    names = [_name(each) for each in other.entries["party"].node.items]
    for person in first.entries["party"].node.items:
        if _name(person) not in names:
            yield f"{person.place}: {_name(person)} comes on the days of {trip.id} too now"


def _name(person: Node) -> str:
    entry = person.entries.get("name")
    return on_one_line((entry.node if entry else person).text)


def _words(node: Node, key: str) -> list[str]:
    entry = node.entries.get(key)
    if entry is None:
        return []
    return [each.text for each in entry.node.items] if entry.node.is_list else [entry.node.text]


# -- gear -----------------------------------------------------------------------------------------


def unite_gear(base: Draft, record: RecordText) -> Iterator[str]:
    """Take along what either trip takes, each thing once."""
    other = record.node
    for key, lists in (("stove", ("use", "pots")), ("fire", ("irons", "pots"))):
        theirs = other.entries.get(key)
        if theirs is None or not theirs.node.is_map:
            continue
        if key not in base.node.entries:
            base.put((), key, in_flow(theirs.node))
            yield f"{theirs.place}: `{key}` holds for all days now"
            continue
        for name in lists:
            known = _words(base.at(key), name)
            base.add(
                (key,), name, [each for each in _words(theirs.node, name) if each not in known]
            )
        yield from _settle(base, (key,), theirs.node, but=lists)
    things = {_name(each): each for each in base.node.items_of("gear_shared")}
    things_more = []
    for thing in other.items_of("gear_shared"):
        there = things.get(_name(thing))
        if there is None:
            things_more.append(thing)
        elif plain(there) != plain(thing):
            yield f"{thing.place}: {_name(thing)} is told otherwise in the first trip, which stands"
    base.take("gear_shared", record, things_more)
    ties = [plain(each) for each in base.node.items_of("together")]
    base.take("together", record, [e for e in other.items_of("together") if plain(e) not in ties])


def _settle(base: Draft, path: Path, theirs: Node, but: Collection[str] = ()) -> Iterator[str]:
    """Tell what two mappings say differently; what only one tells is taken, a ban always."""
    for key, entry in theirs.entries.items():
        own = base.at(*path).entries.get(key)
        if key in but or (own is not None and plain(own.node) == plain(entry.node)):
            continue
        if own is None or (key == "allowed" and entry.node.value is False):
            base.put(path, key, in_flow(entry.node))
            yield f"{entry.place}: `{key}` holds for all days now"
        else:
            yield _other(entry.place, key, entry.node, own.node)


def _other(place: Place, key: str, theirs: Node, own: Node) -> str:
    return f"{place}: `{key}` is {in_flow(theirs)} here and {in_flow(own)} in the joined trip"


# -- all else -------------------------------------------------------------------------------------


def unite_rest(base: Draft, other: Node, before: int) -> Iterator[str]:
    """Unite what is told once for a trip; `before` are the days in front of the other's."""
    for key in _ONCE:
        yield from _settle(base, (), _only(other, key))
    for key, cautious in (("public_names", True), ("learned", False)):
        # Names are told, and what was learned is counted with, only where all trips want it.
        said = [each.entries.get(key) for each in (base.node, other)]
        wanted = [entry is not None and entry.node.value is cautious for entry in said]
        if key == "public_names" and wanted[0] and not wanted[1]:
            base.drop((), key)
            yield f"{other.place}: names stay out of public kits, as this trip has it"
        if key == "learned" and wanted[1] and not wanted[0]:
            base.put((), key, "false")
            yield f"{said[1].place if said[1] else other.place}: `learned` holds for all days now"
    base.add((), "depots", [_shifted(each, before) for each in other.items_of("depots")])
    if has(other, "notes"):
        told = [each.entries["notes"].node for each in (base.node, other) if has(each, "notes")]
        parts = [each.text.strip() for each in told]
        base.put((), "notes", as_yaml("\n\n".join(dict.fromkeys(parts))))
    for key, says in (
        ("start_camp", "the night before is that of the last day in front of it now"),
        ("chilled", "no cool bag keeps so long: tell `chilled` anew where one is filled again"),
        ("review", "what was written down after this trip is left out"),
    ):
        entry = other.entries.get(key)
        if entry is not None and entry.node.entries:
            yield f"{entry.place}: {says}"


def _only(trip: Node, key: str) -> Node:
    return replace(trip, value={key: trip.entries[key]} if key in trip.entries else {})


def _shifted(depot: Node, before: int) -> str:
    """Give a depot whose days are counted from the first trip's."""
    pairs = []
    for key, entry in depot.entries.items():
        node = entry.node
        value = in_flow(node)
        if key == "camp":
            value = str(int(node.text) + before)
        elif key == "holds":
            days = node.items if node.is_list else (node,)
            value = f"[{', '.join(str(int(each.text) + before) for each in days)}]"
        pairs.append(f"{key}: {value}")
    return f"{{{', '.join(pairs)}}}"
