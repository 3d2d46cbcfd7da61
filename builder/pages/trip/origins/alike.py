"""Figures that came about alike, told once for all of them, so that a large trip stays small.

A trip of 60 days and 30 people has 1,800 figures of one kind: they differ only by the numbers in
their ids and in those of their inputs. These numbers are told as columns, the rest as one pattern.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from string import ascii_lowercase
from typing import TypeAlias

from builder.planning.graph import is_inner
from builder.record import dataclass, field

Data: TypeAlias = "dict[str, object]"

# Fewer are told each by itself, as anybody reads them.
LEAST_ALIKE = 3
# The numbers of an id such as days.2.water.total_ml, and those of a place: its line and column.
_IN_ID = re.compile(r"(?<=[./])(\d+)(?=[./]|$)")
_IN_PLACE = re.compile(r"(?<=:)\d+(?=:|$)")
# Stands in a pattern where figures differ by a number.
_SLOT = "\0"


@dataclass(frozen=True, slots=True)
class Leaf:
    """A number that no formula gave, with what tells where it is from."""

    value: float | int
    place: str = ""
    origin: tuple[tuple[str, str | tuple[str, ...]], ...] = ()

    def data(self) -> Data:
        """Give it as `kit.schema.json` describes it."""
        return {"value": self.value, **self.where()}

    def where(self) -> Data:
        """Give where it is from."""
        told: Data = {"place": self.place} if self.place else {}
        for key, each in self.origin:
            told[key] = list(each) if isinstance(each, tuple) else each
        return told


@dataclass(frozen=True, slots=True)
class Many:
    """Ids of a list that differ by numbers alone."""

    id: str
    columns: tuple[str, ...]


# What goes in: another figure by its id, a list of them, or a leaf.
Given: TypeAlias = "str | tuple[str | Many, ...] | Leaf"


@dataclass(frozen=True, slots=True)
class Reasoned:
    """A figure that a formula gave, with its inputs."""

    value: float | int
    formula: str
    inputs: tuple[tuple[str, Given], ...]
    guards: tuple[str, ...] = ()

    def data(self) -> Data:
        """Give it as `kit.schema.json` describes it."""
        return {**self.way(), "value": self.value}

    def way(self) -> Data:
        """Give how it came about."""
        inputs = {symbol: _input(given) for symbol, given in self.inputs}
        told: Data = {"formula": self.formula, "inputs": inputs}
        return {**told, "guards": list(self.guards)} if self.guards else told


Figure: TypeAlias = "Leaf | Reasoned"


def _input(given: Given) -> Data:
    if isinstance(given, Leaf):
        return given.data()
    if isinstance(given, str):
        return {"figure": given}
    return {
        "figures": [
            {"id": each.id, "for": list(each.columns)} if isinstance(each, Many) else each
            for each in given
        ]
    }


def folded(figures: Mapping[str, Figure]) -> tuple[dict[str, Data], list[Data]]:
    """Give the figures that are told each by itself, and those told once for many."""
    fold = _Fold()
    for kind in _by_kind(figures, fold.ids):
        fold.add(kind)
    for kind in _by_kind({name: leaf for leaf, name in fold.leaves.items()}, fold.ids):
        fold.add(kind)
    return fold.single, fold.alike


class Ids(dict[str, tuple[str, tuple[int, ...]]]):
    """What ids are without their numbers, and these: each is asked for at all that it goes into."""

    def __missing__(self, name: str) -> tuple[str, tuple[int, ...]]:
        """Take one apart."""
        parts = _IN_ID.split(name)
        cut = self[name] = _SLOT.join(parts[::2]), tuple(map(int, parts[1::2]))
        return cut


def _by_kind(figures: Mapping[str, Figure], ids: Ids) -> Iterable[dict[str, Figure]]:
    """Part figures by all but numbers, leaves and what lists hold."""
    kinds: dict[object, dict[str, Figure]] = defaultdict(dict)
    for name, figure in figures.items():
        kind: object = ids[name][0]
        if isinstance(figure, Reasoned):
            kind = (kind, figure.formula, *((symbol, type(each)) for symbol, each in figure.inputs))
        kinds[kind][name] = figure
    return kinds.values()


@dataclass(slots=True)
class _Fold:
    """Folds figures kind by kind."""

    single: dict[str, Data] = field(default_factory=dict)
    alike: list[Data] = field(default_factory=list)
    # Those that differ from figure to figure become figures of their own: #mass_kg.0 and so on.
    leaves: dict[Leaf, str] = field(default_factory=dict)
    ids: Ids = field(default_factory=lambda: Ids())
    _of_symbol: dict[str, int] = field(default_factory=lambda: defaultdict(int))

    def add(self, kind: Mapping[str, Figure]) -> None:
        """Add the figures of a kind."""
        told: set[str] = set()
        for pattern, rows in self._by_pattern(kind) if len(kind) >= LEAST_ALIKE else ():
            if len(rows) >= LEAST_ALIKE:
                rows.sort(key=lambda each: each[1])
                told.update(name for name, _ in rows)
                values = [kind[name].value for name, _ in rows]
                self.alike.append(_told_once(*pattern, [numbers for _, numbers in rows], values))
        self.single |= {
            name: _with_short_lists(each, self.ids).data()
            for name, each in kind.items()
            if name not in told
        }

    def _by_pattern(
        self, kind: Mapping[str, Figure]
    ) -> Iterable[tuple[tuple[str, Figure], list[tuple[str, list[int]]]]]:
        """Part figures by their patterns: beside each, its id and the numbers taken out of it."""
        shared = _shared_leaves(kind.values())
        patterns: dict[tuple[str, Figure], list[tuple[str, list[int]]]] = defaultdict(list)
        for name, figure in kind.items():
            cutter = _Cutter(self.ids)
            pattern = cutter.cut(name), self._cut(cutter, figure, shared)
            patterns[pattern].append((name, cutter.numbers))
        return patterns.items()

    def _cut(self, cutter: _Cutter, figure: Figure, shared: frozenset[str]) -> Figure:
        if isinstance(figure, Leaf):
            return Leaf(0, cutter.cut_by(_IN_PLACE, figure.place), figure.origin)
        inputs: list[tuple[str, Given]] = []
        for symbol, given in figure.inputs:
            if isinstance(given, tuple):
                inputs.append((symbol, cutter.cut_list(given)))
            elif isinstance(given, str):
                inputs.append((symbol, cutter.cut(given)))
            else:
                own = given if symbol in shared else cutter.cut(self._leaf(symbol, given))
                inputs.append((symbol, own))
        return Reasoned(0, figure.formula, tuple(inputs), tuple(map(cutter.cut, figure.guards)))

    def _leaf(self, symbol: str, leaf: Leaf) -> str:
        if leaf not in self.leaves:
            self.leaves[leaf] = f"#{symbol}.{self._of_symbol[symbol]}"
            self._of_symbol[symbol] += 1
        return self.leaves[leaf]


def _shared_leaves(figures: Iterable[Figure]) -> frozenset[str]:
    """Give the symbols that stand for one and the same leaf in all figures."""
    seen: dict[str, set[Leaf]] = defaultdict(set)
    for figure in figures:
        for symbol, given in figure.inputs if isinstance(figure, Reasoned) else ():
            if isinstance(given, Leaf):
                seen[symbol].add(given)
    return frozenset(symbol for symbol, each in seen.items() if len(each) == 1)


@dataclass(slots=True)
class _Cutter:
    """Takes the numbers out of a figure, and keeps them in the order in which they stood."""

    ids: Ids
    numbers: list[int] = field(default_factory=list)

    def cut(self, name: str) -> str:
        """Take the numbers out of an id."""
        shape, numbers = self.ids[name]
        self.numbers += numbers
        return shape

    def cut_by(self, which: re.Pattern[str], text: str) -> str:
        """Take the numbers out of a place, or out of numbers told in runs."""
        self.numbers += map(int, which.findall(text))
        return which.sub(_SLOT, text)

    def cut_list(self, names: Iterable[str | Many]) -> tuple[str | Many, ...]:
        """Take the numbers out of a list of ids, those that differ by numbers told as one."""
        return tuple(map(self._cut_many, in_short(names, self.ids)))

    def _cut_many(self, each: str | Many) -> str | Many:
        if isinstance(each, str):
            return self.cut(each)
        own = self.cut(each.id)
        return Many(own, tuple(self.cut_by(_IN_RUNS, column) for column in each.columns))


def _told_once(
    own: str, figure: Figure, rows: Sequence[Sequence[int]], values: Sequence[float | int]
) -> Data:
    """Tell figures of one pattern as one, each number that differs by the name of its column."""
    slots, columns = _columns(rows, [str(number) for number in range(1, len(rows[0]) + 1)])
    put = _Filler(iter(slots))
    data: Data = {"id": put.text(own), "for": [numbers_told(column) for column in columns]}
    data |= put.figure(figure)
    # What stands at an address is told there, and what leads from figure to figure follows.
    if is_inner(own) and isinstance(figure, Leaf):
        data["values"] = list(values)
    return data


def _columns(
    rows: Sequence[Sequence[int]], names: Sequence[str]
) -> tuple[list[str], list[tuple[int, ...]]]:
    """Give what stands for each number that was taken out, and the columns that have a name."""
    columns: dict[tuple[int, ...], str] = {}
    slots = []
    for column in zip(*rows, strict=True):
        if len(set(column)) == 1:
            slots.append(str(column[0]))
        else:
            slots.append(columns.setdefault(column, f"${names[len(columns)]}"))
    return slots, list(columns)


@dataclass(frozen=True, slots=True)
class _Filler:
    """Puts the names of columns into a pattern, in the order in which numbers were taken out."""

    slots: Iterator[str]

    def text(self, pattern: str) -> str:
        """Fill one id, place or column."""
        return re.sub(_SLOT, lambda _: next(self.slots), pattern)

    def figure(self, figure: Figure) -> Data:
        """Fill what a figure is made of."""
        if isinstance(figure, Leaf):
            return Leaf(0, self.text(figure.place), figure.origin).where()
        inputs = tuple((symbol, self._given(given)) for symbol, given in figure.inputs)
        return Reasoned(0, figure.formula, inputs, tuple(map(self.text, figure.guards))).way()

    def _given(self, given: Given) -> Given:
        if isinstance(given, tuple):
            return tuple(map(self._each, given))
        return self.text(given) if isinstance(given, str) else given

    def _each(self, each: str | Many) -> str | Many:
        if isinstance(each, str):
            return self.text(each)
        return Many(self.text(each.id), tuple(map(self.text, each.columns)))


def _with_short_lists(figure: Figure, ids: Ids) -> Figure:
    """Tell the long lists of a figure in short."""
    if isinstance(figure, Leaf):
        return figure
    inputs = tuple(
        (
            symbol,
            in_short(each, ids) if isinstance(each, tuple) and len(each) >= LEAST_ALIKE else each,
        )
        for symbol, each in figure.inputs
    )
    return Reasoned(figure.value, figure.formula, inputs, figure.guards)


def in_short(names: Iterable[str | Many], ids: Ids) -> tuple[str | Many, ...]:
    """Tell a list of ids in short: those that follow each other and differ by numbers as one."""
    cut = [ids[name] for name in names if isinstance(name, str)]
    return tuple(
        _many(shape, [numbers for _, numbers in run])
        for shape, run in groupby(cut, key=lambda each: each[0])
    )


def _many(shape: str, rows: Sequence[tuple[int, ...]]) -> str | Many:
    slots, columns = _columns(rows, ascii_lowercase)
    text = _Filler(iter(slots)).text(shape)
    if len(rows) == 1:
        return text
    # The same id again and again is told by how often.
    told = tuple(map(numbers_told, columns)) or (f"0x{len(rows)}",)
    return Many(text, told)


_IN_RUNS = re.compile(r"\d+")


def numbers_told(column: Iterable[int]) -> str:
    """Tell whole numbers in runs: `0-3` goes up, `0-3x2` is each of them twice, `0-3*2` all twice.

    The signs may stand together: `0-1x3*2` is 0 0 0 1 1 1 0 0 0 1 1 1.
    """
    runs: list[tuple[int, int, int]] = []  # first, last, how often each
    for number, same in groupby(column):
        often = len(list(same))
        if runs and runs[-1][1] + 1 == number and runs[-1][2] == often:
            runs[-1] = (runs[-1][0], number, often)
        else:
            runs.append((number, number, often))
    told = []
    for (first, last, often), again in groupby(runs):
        up = f"-{last}" if last > first else ""
        each = f"x{often}" if often > 1 else ""
        times = len(list(again))
        told.append(f"{first}{up}{each}" + (f"*{times}" if times > 1 else ""))
    return ",".join(told)
