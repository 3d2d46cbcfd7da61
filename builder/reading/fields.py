"""Reads the fields of one mapping, noting every problem and every key nobody asked for."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Iterable, Mapping, Sequence

from builder.model.figure import Figure, Told, named, nothing, whole
from builder.model.place import Place, Places
from builder.problems import Problem, did_you_mean, nearest
from builder.reading.usual import Range, usual_of
from builder.reading.yaml_door import Entry, Node, quoted
from builder.units import DIMENSIONS, QuantityError, range_like, read_quantity

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_ID = 60
# Windows takes these for devices, whatever ending follows: nobody there could unpack con.html.
DEVICES = frozenset(
    {"aux", "con", "nul", "prn", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
)
LONGEST_TEXT = 4000
LONGEST_LINE = 200
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[T ][0-9]{2}:[0-9]{2}")
_YEARS = (1900, 2200)
# Signs that turn the direction of what follows; in a name they would turn the line around it.
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")
# Words for a part of a record that read better without "a".
_NO_ARTICLE = frozenset(
    {"air", "water", "travel", "meals", "packs", "without", "every_day", "review"}
)

_ODD = ("unusual", "out-of-range")  # kinds of problem: the warning and the error


def can_be_id(text: str) -> bool:
    """Tell whether a text is of the form of an id; see `DEVICES` for those that are and cannot."""
    return bool(ID.fullmatch(text)) and len(text) <= LONGEST_ID


class Fields:
    """One mapping while it is read; problems go to the list shared by the whole folder."""

    def __init__(self, node: Node, problems: list[Problem], what: str) -> None:
        """Open a mapping; `what` names the record for messages, such as "food"."""
        self.node, self.problems, self.what = node, problems, what
        self._asked: set[str] = set()
        self._before = _count_errors(problems)
        if not node.is_map:
            self.problem(
                node.place,
                "not-a-mapping",
                f"{_a(what)} is written as `key: value` lines, found {node.described()}",
                "write it as {key: value, …}, or as lines indented below",
            )

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
                near = nearest(key, self._asked)
                mend = f"did you mean {near}?" if near else f"known are: {_listed(self._asked)}"
                says = f"{_a(self.what)} has no field {quoted(key)}"
                self.problem(entry.place, "key-unknown", says, mend)
        return _count_errors(self.problems) == self._before

    # -- access -------------------------------------------------------------------------------

    def has(self, key: str) -> bool:
        """Tell whether a field stands there with something in it."""
        self._asked.add(key)
        entry = self.node.entries.get(key)
        value = entry.node.value if entry else None
        return value is not None and not (isinstance(value, str) and not value.strip())

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
            mend = f"write `{key}: {example}`" if example else f"write `{key}:`"
            this = self.what if self.what in _NO_ARTICLE else f"this {self.what}"
            self.problem(self.node.place, "missing", f"{this} has no `{key}`", mend)
        return None

    # -- plain values -------------------------------------------------------------------------

    def text(self, key: str, required: bool = False, default: str = "", example: str = "…") -> str:
        """Read a text."""
        node = self.value(key, required, example)
        return self.text_of(node, key) if node else default

    def text_of(self, node: Node, key: str) -> str:
        """Read a node that must be a text; numbers are taken as they were written."""
        if not node.is_text:
            self.problem(
                node.place,
                "not-text",
                f"{key} must be a text, found {node.described()}",
                "write one text" if node.is_map or node.is_list else "put it in quotes",
            )
            return ""
        text = node.text.strip()
        if len(text) > LONGEST_TEXT:
            self.problem(
                node.place,
                "text-too-long",
                f"{key} has {len(text)} characters",
                f"keep it under {LONGEST_TEXT}",
            )
            return ""
        return text

    def line(self, key: str, required: bool = False, default: str = "", example: str = "…") -> str:
        """Read a text that must stay on one line, such as a name: breaks become spaces."""
        text = _TURNS.sub("", " ".join(self.text(key, required, default, example).split()))
        if len(text) > LONGEST_LINE:
            says = f"{key} has {len(text)} characters"
            self.problem(self.place(key), "text-too-long", says, f"keep it under {LONGEST_LINE}")
            return ""
        return text

    def id(self, key: str = "id", required: bool = True) -> str:
        """Read an id: lower-case letters, digits and hyphens."""
        node = self.value(key, required, "some-id")
        return self.id_of(node, key) if node else ""

    def id_of(self, node: Node, key: str) -> str:
        """Read a node that must be an id."""
        text = self.text_of(node, key)
        if text in DEVICES:
            says = f"{quoted(text)} is no id: Windows can have no file of that name"
            self.problem(node.place, "id", says, f"write {text}-1, or another word")
            return ""
        if text and not can_be_id(text):
            suggestion = re.sub(r"[^a-z0-9]+", "-", text.lower())[:LONGEST_ID].strip("-")
            self.problem(
                node.place,
                "id",
                f"{quoted(text)} is no id",
                f"write {suggestion or 'some-id'} (lower-case letters, digits, single hyphens)",
            )
            return ""
        return text

    def choice(
        self, key: str, options: Sequence[str], required: bool = False, default: str = ""
    ) -> str:
        """Read one of a few known words."""
        node = self.value(key, required, options[0])
        return self.choice_of(node, key, options) or default if node else default

    def choice_of(self, node: Node, key: str, options: Sequence[str]) -> str:
        """Read a node that must be one of a few known words; "" where it is not."""
        text = self.text_of(node, key)
        if text and text not in options:
            says = f"{key} cannot be {quoted(text)}"
            self.problem(node.place, "word-unknown", says, did_you_mean(text, options))
            return ""
        return text

    def flag(self, key: str, default: bool = False) -> bool:
        """Read true or false."""
        node = self.value(key)
        if node is None:
            return default
        if not isinstance(node.value, bool):
            self.problem(
                node.place,
                "not-a-flag",
                f"{key} must be true or false, found {node.described()}",
                f"write `{key}: true` or `{key}: false`",
            )
            return default
        return node.value

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
        value = node.value
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            self.problem(
                node.place,
                "not-a-number",
                f"{key} takes a bare number, found {node.described()}",
                f"write the number alone, such as `{key}: 2`",
            )
            return default
        number = float(value)
        low = more_than is not None and number <= more_than
        if not math.isfinite(number) or number < at_least or number > at_most or low:
            bound = f"above {more_than:g}, up" if more_than is not None else f"from {at_least:g}"
            self.problem(
                node.place,
                "out-of-range",
                f"{key} cannot be {node.described()}",
                f"write a number {bound} to {at_most:g}",
            )
            return default
        if whole and number != int(number):
            self.problem(
                node.place,
                "not-whole",
                f"{key} counts, so it cannot be {node.described()}",
                f"write a whole number such as {round(number)}",
            )
            return default
        usual = usual_of(self.what, key)
        if usual is not None:
            found = f"{key}: {node.described()}"
            self.judge(usual, number, node.place, found, usual.usual_in(""))
        return Figure(number, Told(node.place, key))

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
        example = DIMENSIONS[quantity].examples.split(",")[0].split(" or ")[0]
        node = self.value(key, required, example)
        return self.quantity_of(node, key, quantity, positive) if node else None

    def quantity_of(
        self, node: Node, key: str, quantity: str, positive: bool = False
    ) -> float | None:
        """Read a node that must be a text with a unit; None with a problem where it is not."""
        dimension = DIMENSIONS[quantity]
        if not node.is_text:
            says = f"{key} must be {_a(dimension.name)}, found {node.described()}"
            self.problem(node.place, "quantity", says, f"write {dimension.examples}")
            return None
        try:
            value = read_quantity(node.text, quantity)
        except QuantityError as error:
            self.problem(node.place, error.kind, f"{key}: {error.says}", error.mend)
            return None
        if positive and value <= 0:
            says = f"{key} must be more than nothing, found {node.described()}"
            self.problem(node.place, "out-of-range", says, f"write {dimension.examples}")
            return None
        usual = usual_of(self.what, key)
        if usual is not None:
            shown = range_like(node.text, quantity, *usual.usual)
            self.judge(usual, value, node.place, f"{key}: {node.described()}", shown)
        return Figure(value, Told(node.place, told_name(key, quantity)))

    def judge(self, among: Range, value: float, place: Place, found: str, usual: str) -> bool:
        """Warn of an unusual value, refuse one that cannot be; tell whether it was either."""
        judged = among.judge(value)
        told = [each for each in self.problems if each.place == place and each.kind in _ODD]
        if judged == "unusual" and not told:
            mend = "check the number and its unit; if it is meant, leave it"
            self.warn(place, _ODD[0], f"{found} is unusual: usual is {usual}", mend)
        elif judged == "impossible" and not any(each.kind == _ODD[1] for each in told):
            for each in told:
                self.problems.remove(each)  # told once, by what is graver
            mend = f"check the number and its unit: usual is {usual}"
            self.problem(place, _ODD[1], f"{found} cannot be", mend)
        return bool(judged)

    def date(self, key: str, required: bool = False) -> datetime.date | None:
        """Read a calendar date such as 2031-09-04."""
        node = self.value(key, required, "2031-09-04")
        if node is None:
            return None
        found = self._on_calendar(node, key, _DATE, "date", "year-month-day, such as 2031-09-04")
        return found.date() if found else None

    def moment(self, key: str) -> datetime.datetime | None:
        """Read a local date and time such as 2031-03-13T18:00."""
        node = self.value(key)
        if node is None:
            return None
        return self._on_calendar(node, key, _MOMENT, "time", "date and time, as 2031-03-13T18:00")

    def _on_calendar(
        self, node: Node, key: str, form: re.Pattern[str], what: str, write: str
    ) -> datetime.datetime | None:
        text = self.text_of(node, key)
        try:
            if not form.fullmatch(text):
                raise ValueError
            found = datetime.datetime.fromisoformat(text)
            if not _YEARS[0] <= found.year <= _YEARS[1]:
                raise ValueError
        except ValueError:
            if text:
                says = f"{key}: {quoted(text)} is no {what}"
                self.problem(node.place, "date", says, f"write {write}")
            return None
        return found

    # -- lists and records --------------------------------------------------------------------

    def list(self, key: str, required: bool = False, lone_item: bool = False) -> tuple[Node, ...]:
        """Read a list; with `lone_item`, one thing alone needs no list."""
        node = self.value(key, required, "[…]")
        if node is None:
            return ()
        if node.is_list:
            return node.items
        if lone_item:
            return (node,)
        self.problem(
            node.place,
            "not-a-list",
            f"{key} must be a list, found {node.described()}",
            f"write `{key}: [{echoed(node)}]`",
        )
        return ()

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


def told_name(key: str, quantity: str) -> str:
    """Give the name of a told number, the unit that it is computed in at its end."""
    unit = "share" if quantity.endswith("share") else quantity.partition("_")[2]
    return f"{key}_{unit}"


def taken(default: float, name: str) -> Figure:
    """Give what is taken where a file tells nothing: a figure of its own, or nothing at all."""
    if isinstance(default, Figure):
        return default
    return named(default, name, "common-practice") if default else nothing(name, "not told")


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


def echoed(node: Node) -> str:
    """Give what was written, for an example of what would do, where it is short and plain."""
    plain = node.is_text and len(node.text) <= 60 and node.text.isprintable()
    return node.text if plain else "…"


def _a(what: str) -> str:
    """Put the article before a word."""
    if what in _NO_ARTICLE:
        return what
    return f"{'an' if what[0] in 'aeiou' else 'a'} {what}"


def _count_errors(problems: Iterable[Problem]) -> int:
    return sum(problem.severity == "error" for problem in problems)


def _listed(words: Iterable[str]) -> str:
    return ", ".join(sorted(words))
