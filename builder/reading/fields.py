"""Reads the fields of one mapping, noting every problem and every key nobody asked for."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping, Sequence
from itertools import islice
from typing import TypeVar

from builder.model.figure import whole
from builder.model.place import Place, Places
from builder.problems import Problem
from builder.reading.notes import Amiss, Judge, judge
from builder.reading.usual import Range, usual_of
from builder.reading.values import (
    DEVICES,
    can_be_id,
    check_is_record,
    choice_of,
    echoed,
    flag_of,
    id_of,
    is_blank,
    items_of,
    line_of,
    missing,
    number_of,
    quantity_of,
    taken,
    text_of,
    time_of,
    told,
    told_name,
    unknown_key,
)
from builder.reading.yaml_door import Entry, Node
from builder.units import DIMENSIONS, range_like

__all__ = ["DEVICES", "Fields", "can_be_id", "echoed", "overlaid", "taken", "told_name", "usual_of"]

Value = TypeVar("Value")


class Fields:
    """One mapping while it is read; problems go to the list shared by the whole folder."""

    def __init__(self, node: Node, problems: list[Problem], what: str) -> None:
        """Open a mapping; `what` names the record for messages, such as "food"."""
        self.node, self.problems, self.what = node, problems, what
        self._asked: set[str] = set()
        self._before = len(problems)
        self.got(lambda: check_is_record(node, what), node.place)

    # -- problems -----------------------------------------------------------------------------

    def problem(self, place: Place, kind: str, says: str, mend: str) -> None:
        """Note an error."""
        self.problems.append(Problem(place, kind, says, mend))

    def warn(self, place: Place, kind: str, says: str, mend: str) -> None:
        """Note a warning."""
        self.problems.append(Problem(place, kind, says, mend, "warning"))

    def done(self) -> bool:
        """Note the keys that nobody asked for; tell whether the record is free of errors."""
        for key, entry in self.node.entries.items():
            if key not in self._asked:
                self.problems.append(unknown_key(self.what, key, self._asked).at(entry.place))
        found = islice(self.problems, self._before, None)
        return all(problem.severity != "error" for problem in found)

    def got(self, read: Callable[[], Value], place: Place) -> Value | None:
        """Give a value, or None with an error where it is wrong."""
        try:
            return read()
        except Amiss as amiss:
            self.problems.append(amiss.at(place))
            return None

    # -- access -------------------------------------------------------------------------------

    def has(self, key: str) -> bool:
        """Tell whether a field stands there with something in it."""
        self._asked.add(key)
        entry = self.node.entries.get(key)
        return entry is not None and not is_blank(entry.node)

    def place(self, key: str) -> Place:
        """Give the place of a field's value, or of the record where it was left out."""
        entry = self.node.entries.get(key)
        return entry.node.place if entry else self.node.place

    def places(self, inner: Mapping[str, Place] | None = None) -> Places:
        """Give the places of all fields, and of things inside them, for the record to keep."""
        fields = {key: entry.node.place for key, entry in self.node.entries.items()}
        return Places(self.node.place, {**fields, **(inner or {})})

    def places_of_words(self, key: str, name: str = "") -> dict[str, Place]:
        """Give the place of each word of a list, as `key/word`."""
        nodes = self.list(key, lone_item=True)
        return {f"{name or key}/{node.text.strip()}": node.place for node in nodes if node.is_text}

    def value(self, key: str, required: bool = False, example: str = "") -> Node | None:
        """Give the node behind a key; note a problem where it is required and missing."""
        if self.has(key):
            return self.node.entries[key].node
        if required and self.node.is_map:
            self.problems.append(missing(self.what, key, example).at(self.node.place))
        return None

    # -- plain values -------------------------------------------------------------------------

    def text(self, key: str, required: bool = False, default: str = "", example: str = "…") -> str:
        """Read a text."""
        node = self.value(key, required, example)
        return self.text_of(node, key) if node else default

    def text_of(self, node: Node, key: str) -> str:
        """Read a node that must be a text; numbers are taken as they were written."""
        return self.got(lambda: text_of(node, key), node.place) or ""

    def line(self, key: str, required: bool = False, default: str = "", example: str = "…") -> str:
        """Read a text that must stay on one line, such as a name: breaks become spaces."""
        node = self.value(key, required, example)
        if node is None:
            return default
        return self.got(lambda: line_of(node, key), node.place) or ""

    def id(self, key: str = "id", required: bool = True) -> str:
        """Read an id: lower-case letters, digits and hyphens."""
        node = self.value(key, required, "some-id")
        return self.id_of(node, key) if node else ""

    def id_of(self, node: Node, key: str) -> str:
        """Read a node that must be an id."""
        return self.got(lambda: id_of(node, key), node.place) or ""

    def choice(
        self, key: str, options: Sequence[str], required: bool = False, default: str = ""
    ) -> str:
        """Read one of a few known words."""
        node = self.value(key, required, options[0])
        return self.choice_of(node, key, options) or default if node else default

    def choice_of(self, node: Node, key: str, options: Sequence[str]) -> str:
        """Read a node that must be one of a few known words; "" where it is not."""
        return self.got(lambda: choice_of(node, key, options), node.place) or ""

    def flag(self, key: str, default: bool = False) -> bool:
        """Read true or false."""
        node = self.value(key)
        found = self.got(lambda: flag_of(node, key), node.place) if node else None
        return default if found is None else found

    def number(
        self,
        key: str,
        required: bool = False,
        default: float = 0.0,
        at_least: float = 0.0,
        at_most: float = 1e6,
        more_than: float | None = None,
        whole: bool = False,
    ) -> float:
        """Read a bare number, for keys that count or name their unit."""
        node = self.value(key, required, "2")
        if node is None:
            return taken(default, key)
        number = self.got(
            lambda: number_of(node, key, at_least, at_most, more_than, whole), node.place
        )
        if number is None:
            return default
        usual = usual_of(self.what, key)
        if usual is not None and usual.judge(number):
            found = f"{key}: {node.described()}"
            self.judge(usual, number, node.place, found, usual.usual_in(""))
        return told(number, node, key)

    def count(self, key: str, required: bool = False, default: int = 0, at_least: int = 0) -> int:
        """Read a whole number."""
        return whole(
            self.number(key, required, default, at_least=at_least, at_most=10_000, whole=True)
        )

    # -- quantities ---------------------------------------------------------------------------

    def quantity(
        self,
        key: str,
        quantity: str,
        required: bool = False,
        default: float = 0.0,
        positive: bool = False,
    ) -> float:
        """Read a text with a unit as a float of the named quantity."""
        found = self.maybe_quantity(key, quantity, required, positive)
        return taken(default, told_name(key, quantity)) if found is None else found

    def maybe_quantity(
        self, key: str, quantity: str, required: bool = False, positive: bool = False
    ) -> float | None:
        """Read a text with a unit, or give None where it was left out or is wrong."""
        node = self.value(key, required, DIMENSIONS[quantity].example)
        return self.quantity_of(node, key, quantity, positive) if node else None

    def quantity_of(
        self, node: Node, key: str, quantity: str, positive: bool = False
    ) -> float | None:
        """Read a node that must be a text with a unit; None with a problem where it is not."""
        value = self.got(lambda: quantity_of(node, key, quantity, positive), node.place)
        if value is None:
            return None
        usual = usual_of(self.what, key)
        if usual is not None and usual.judge(value):
            shown = range_like(node.text, quantity, *usual.usual)
            self.judge(usual, value, node.place, f"{key}: {node.described()}", shown)
        return told(value, node, told_name(key, quantity))

    def judge(self, among: Range, value: float, place: Place, found: str, usual: str) -> bool:
        """Warn of an unusual value, refuse one that cannot be; tell whether it was either."""
        return judge(self.problems, among, value, place, (found, usual))

    def judging(self, key: str) -> Judge:
        """Give what judges the value behind a key."""
        return lambda among, value, found, usual: self.judge(
            among, value, self.place(key), found, usual
        )

    def date(self, key: str, required: bool = False) -> datetime.date | None:
        """Read a calendar date such as 2031-09-04."""
        node = self.value(key, required, "2031-09-04")
        if node is None:
            return None
        found = self.got(lambda: time_of(node, key, "date"), node.place)
        return found.date() if found else None

    def moment(self, key: str) -> datetime.datetime | None:
        """Read a local date and time such as 2031-03-13T18:00."""
        node = self.value(key)
        return self.got(lambda: time_of(node, key, "time"), node.place) if node else None

    # -- lists and records --------------------------------------------------------------------

    def list(self, key: str, required: bool = False, lone_item: bool = False) -> tuple[Node, ...]:
        """Read a list; with `lone_item`, one thing alone needs no list."""
        node = self.value(key, required, "[…]")
        if node is None:
            return ()
        return self.got(lambda: items_of(node, key, lone_item), node.place) or ()

    def is_empty_list(self, key: str) -> bool:
        """Tell whether a list stands there with nothing in it."""
        node = self.value(key)
        return node is not None and node.is_list and not node.items

    def words(self, key: str, options: Sequence[str] | None = None) -> tuple[str, ...]:
        """Read a list of words, of known ones where `options` are given."""
        found = []
        for node in self.list(key, lone_item=True):
            word = self.choice_of(node, key, options) if options else self.text_of(node, key)
            if word and word not in found:
                found.append(word)
        return tuple(found)

    def told_words(self, key: str, options: Sequence[str]) -> tuple[str, ...] | None:
        """Read a list of known words; None where the key was left out, which is not "none"."""
        return self.words(key, options) if self.value(key) is not None else None

    def record(
        self, key: str, what: str, required: bool = False, example: str = "{…}"
    ) -> Fields | None:
        """Open a mapping inside this one."""
        node = self.value(key, required, example)
        return Fields(node, self.problems, what) if node else None


def overlaid(under: Node | None, over: Node | None) -> Node | None:
    """Lay one mapping over another, field by field; other values replace what is under them."""
    if under is None or not under.is_map:
        return over if over is not None else under
    if over is None:
        return under
    if not over.is_map:
        return over
    entries = dict(under.entries)
    for key, entry in over.entries.items():
        below = entries.get(key)
        node = overlaid(below.node, entry.node) if below and entry.node.is_map else entry.node
        entries[key] = Entry(entry.place, node or entry.node)
    return Node(over.place, entries, over.start, over.end, over.size, over.flow)
