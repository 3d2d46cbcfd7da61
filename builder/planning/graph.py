"""The figures of a kit and how each came about: one graph, from what pages tell to its leaves."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import count
from typing import Any, TypeVar

from builder.formulas.declaring import FORMULAS, ending_of_name
from builder.formulas.expression import names_in
from builder.model.figure import (
    Count,
    Figure,
    Found,
    Named,
    Origin,
    Reckoned,
    Told,
    Traced,
    Worked,
    behind,
)
from builder.record import dataclass, field, names_of

Kind = TypeVar("Kind")

_BINDS = {"<": 0, "<=": 0, "+": 1, "-": 1, "*": 2, "/": 2}
# A longer expression is cut: what stands deepest becomes a figure of its own.
_LONGEST_EXPRESSION = 160
_NO_NAME = re.compile(r"[^a-z0-9_]+")


@dataclass(frozen=True, slots=True)
class Node:
    """One figure of the graph: its value, how a person would write it, and what went in."""

    id: str
    value: Traced
    top: str  # the told figure that it is, or first led to
    formula: str = ""  # "" for a leaf
    expression: str = ""
    inputs: Mapping[str, Traced | tuple[Traced, ...]] = field(default_factory=dict)
    guards: tuple[Figure, ...] = ()
    declared: Callable[..., Any] | None = None
    leaf: Told | Named | Found | None = None


@dataclass(slots=True)
class Ways:
    """Numbers the ways in which figures came about: what came about alike is one figure."""

    numbers: dict[object, int] = field(default_factory=dict)
    known: dict[int, int] = field(default_factory=dict)  # by number in memory
    _kept: list[Traced] = field(default_factory=list)  # so that no other takes its place in memory

    def of(self, figure: Traced) -> int:
        """Give the number of the way in which a figure came about."""
        at = id(figure)
        known = self.known.get(at)
        if known is not None:
            return known
        way: object
        if _is_nothing(figure):
            way = (at,)  # nothing of this is not nothing of that
        else:
            way = (float(figure), type(figure) is Count, self._parts(figure.origin))
        number = self.known[at] = self.numbers.setdefault(way, len(self.numbers))
        self._kept.append(figure)
        return number

    def _parts(self, origin: Origin) -> object:
        of = self.of
        if isinstance(origin, Worked):
            given = [
                (name, tuple(map(of, each)) if isinstance(each, tuple) else of(each))
                for name, each in origin.inputs
            ]
            return (origin.formula, *given)
        if isinstance(origin, Reckoned):
            parts = [
                ("figure", of(each)) if isinstance(each, (Figure, Count)) else each
                for each in origin.parts
            ]
            return (origin.do, tuple(parts), tuple(map(of, origin.guards)))
        return origin


@dataclass(slots=True)
class Graph:
    """All figures of a kit by their ids; an input that has an id is a figure of its own."""

    nodes: dict[str, Node] = field(default_factory=dict)
    ids: dict[int, str] = field(default_factory=dict)  # by the way a figure came about
    ways: Ways = field(default_factory=lambda: Ways())
    _inner: count[int] = field(default_factory=lambda: count(1))

    def id_of(self, figure: Traced) -> str | None:
        """Give the id of a figure that is told; a leaf that no page tells has none."""
        way = self.ways.known.get(id(figure))  # nearly always
        return self.ids.get(self.ways.of(figure) if way is None else way)

    def inner_id(self, figure: Traced) -> str:
        """Give the id of a figure that no page tells: a number of its own."""
        way = self.ways.of(figure)
        if way not in self.ids:
            self.ids[way] = f"#{next(self._inner)}"
        return self.ids[way]

    def below(self, nodes: Iterable[Node]) -> Graph:
        """Give the part of the graph that some figures rest on."""
        part = Graph(ids=self.ids, ways=self.ways)
        waiting = list(nodes)
        while waiting:
            node = waiting.pop()
            if node.id in part.nodes:
                continue
            part.nodes[node.id] = node
            for given in (*node.inputs.values(), node.guards):
                for each in given if isinstance(given, tuple) else (given,):
                    name = self.id_of(each)
                    if name in self.nodes:
                        waiting.append(self.nodes[name])
        return part


def graph_of(data: object) -> Graph:
    """Give the graph of all figures in nested data; ids are their addresses there."""
    graph = Graph()
    told: list[tuple[str, Traced]] = []
    _add_told(data, "", told)
    at_several = set()
    for name, figure in told:
        way = graph.ways.of(figure)
        if graph.ids.setdefault(way, name) != name and _is_nothing(figure):
            at_several.add(way)
    for way in at_several:  # no meal's nothing is that of another
        del graph.ids[way]
    for name, figure in told:
        first = graph.id_of(figure)
        if name == first or isinstance(figure.origin, (Told, Named, Found)):
            _note(graph, name, figure, name)
        else:
            # It came about like another one that is told: it is that one.
            same = name_of(graph, figure)
            graph.nodes[name] = Node(name, figure, name, same, same, {same: figure})
    return graph


def _is_nothing(figure: Traced) -> bool:
    """Tell a zero that nothing gave."""
    return not figure and isinstance(figure.origin, Found)


def _add_told(data: Any, path: str, told: list[tuple[str, Traced]]) -> None:
    """Add the figures in nested data by their addresses; most of it is words, which have none."""
    for key, each in data.items() if isinstance(data, Mapping) else enumerate(data):
        kind = type(each)
        if kind is Figure or kind is Count:
            told.append((f"{path}{key}", each))
        elif kind not in _PLAIN and isinstance(each, (Mapping, tuple, list)):
            _add_told(each, f"{path}{key}.", told)


def _note(graph: Graph, name: str, figure: Traced, top: str) -> None:
    """Note a figure and all that it was worked out of."""
    if name in graph.nodes:
        return
    top = top if is_inner(name) else name
    origin = figure.origin
    if isinstance(origin, (Told, Named, Found)):
        graph.nodes[name] = Node(name, figure, top, leaf=origin)
        return
    if isinstance(origin, Worked):
        formula = FORMULAS[origin.formula]
        node = Node(
            name,
            figure,
            top,
            formula.id,
            formula.expression,
            dict(origin.inputs),
            declared=origin.formula,
        )
    else:
        writer = _Writer(graph)
        expression = writer.write(figure, 0, True)
        node = Node(name, figure, top, expression, expression, writer.inputs, origin.guards)
    graph.nodes[name] = node
    for given in (*node.inputs.values(), node.guards):
        if isinstance(given, tuple):
            for each in given:
                _note(graph, graph.inner_id(each), each, top)
        elif isinstance(given.origin, (Worked, Reckoned)):
            _note(graph, graph.inner_id(given), given, top)


def sources_of(record: object) -> set[str]:
    """Give the ids of all sources that the figures in a record rest on."""
    found: set[str] = set()
    formulas: set[Callable[..., Any]] = set()
    for origin in origins_of(record):
        if isinstance(origin, Worked):
            formulas.add(origin.formula)
        elif isinstance(origin, Named):
            found.add(origin.source)
        elif isinstance(origin, Found):
            found.update(origin.sources)
    return found.union(*(FORMULAS[each].sources for each in formulas))


def origins_of(record: object) -> Iterator[Origin]:
    """Give the origins of the figures in a record, and of what these were made of, each once."""
    seen: set[int] = set()
    waiting: list[Any] = [record]
    while waiting:
        each = waiting.pop()
        kind: Any = type(each)
        if kind is Figure or kind is Count:
            origin = each.origin
            if id(origin) not in seen:
                seen.add(id(origin))
                waiting += behind(origin)
                yield origin
        elif kind in _PLAIN:
            continue
        elif isinstance(each, (tuple, list)):
            waiting += each
        elif names := names_of(kind):
            waiting += [getattr(each, name) for name in names]
        elif isinstance(each, Mapping):
            waiting += each.values()


# Most of a record is words and numbers without an origin: asked first, and by their kind.
_PLAIN = frozenset({str, float, int, bool, type(None)})


def held_in(record: object, kinds: tuple[type[Kind], ...]) -> Iterator[Kind]:
    """Give all of some kinds that a record holds, in its order, and not what these hold."""
    waiting = [record]
    while waiting:
        each = waiting.pop()
        kind: Any = type(each)
        if kind in _PLAIN:
            continue
        if isinstance(each, kinds):
            yield each
        elif isinstance(each, (tuple, list)):
            waiting += reversed(each)
        else:
            waiting += [getattr(each, name) for name in reversed(names_of(kind))]


class _Writer:
    """Writes plain arithmetic as one expression, down to what has a name of its own."""

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.inputs: dict[str, Traced | tuple[Traced, ...]] = {}
        self._names: dict[int, str] = {}
        self.length = 0

    def write(self, value: float, binds: int, whole: bool = False) -> str:
        """Write a figure where an operator binds so tightly; the whole itself is taken apart."""
        if not isinstance(value, (Figure, Count)):
            return _number(value)
        origin = value.origin
        if not isinstance(origin, Reckoned):
            return self._symbol(value)
        # What rests on a choice is a figure of its own, so that its guards stand beside it.
        is_own = origin.guards or self.graph.id_of(value) is not None
        if (is_own or self.length > _LONGEST_EXPRESSION) and not whole:
            return self._symbol(value)
        if not origin.do or (origin.do in ("sum", "min", "max") and len(origin.parts) == 1):
            return self.write(origin.parts[0], binds)
        if origin.do in ("sum", "min", "max"):
            return self._function(origin)
        own = _BINDS[origin.do]
        left = self.write(origin.parts[0], own)
        right = self.write(origin.parts[1], own + (origin.do in "-/"))
        text = f"{left} {origin.do} {right}"
        self.length += len(origin.do) + 2
        return f"({text})" if own < binds else text

    def _function(self, origin: Reckoned) -> str:
        if origin.do != "sum" and len(origin.parts) <= 3:
            return f"{origin.do}({', '.join(self.write(each, 0) for each in origin.parts)})"
        if not origin.parts:
            return "0"
        before = (dict(self.inputs), dict(self._names))
        listed = self._list(origin.parts, 0)
        # Of parts that are all alike no list would be left to run over.
        if not any(isinstance(self.inputs[name], tuple) for name in names_in(listed)):
            self.inputs, self._names = before
            listed = self._named(origin.parts)
        return f"{origin.do}({listed})"

    def _list(self, parts: Sequence[float], binds: int) -> str:
        """Write parts as one list: those of one shape element by element, `sum(a * b)`."""
        first = parts[0]
        if all(each is first for each in parts):
            return self.write(first, binds)
        if not any(isinstance(each, (Figure, Count)) for each in parts) and len(set(parts)) == 1:
            return _number(first)
        operands = self._operands(parts)
        if operands is not None:
            do, columns = operands
            own = _BINDS[do]
            left = self._list(columns[0], own)
            text = f"{left} {do} {self._list(columns[1], own + (do in '-/'))}"
            return f"({text})" if own < binds else text
        return self._named(parts)

    def _named(self, parts: Sequence[float]) -> str:
        """Write parts as one list of figures."""
        figures = tuple(
            each if isinstance(each, (Figure, Count)) else Figure(each, Found("part", "as told"))
            for each in parts
        )
        name = self._free(_common(name_of(self.graph, each) for each in figures))
        self.inputs[name] = figures
        return name

    def _operands(self, parts: Sequence[float]) -> tuple[str, list[tuple[float, ...]]] | None:
        """Give the operator that all parts share, and their operands side by side."""
        signs: set[str] = set()
        rows = []
        for each in parts:
            if not isinstance(each, (Figure, Count)):
                return None
            origin = each.origin
            if not isinstance(origin, Reckoned) or origin.do not in _BINDS:
                return None
            signs.add(origin.do)
            if len(signs) > 1 or self.graph.id_of(each) is not None:
                return None
            rows.append(origin.parts)
        columns = list(zip(*rows, strict=True))
        # A bare number beside figures would be a figure that nobody said the origin of.
        kinds = [{isinstance(each, (Figure, Count)) for each in column} for column in columns]
        return (signs.pop(), columns) if all(len(each) == 1 for each in kinds) else None

    def _symbol(self, figure: Traced) -> str:
        way = self.graph.ways.of(figure)
        known = self._names.get(way)
        if known is None:
            known = self._names[way] = self._free(name_of(self.graph, figure))
            self.inputs[known] = figure
        self.length += len(known)
        return known

    def _free(self, name: str) -> str:
        number, free = 1, name
        ending = ending_of_name(name)
        head = name.removesuffix(ending).rstrip("_")
        while free in self.inputs:
            number += 1
            free = f"{head}_{number}_{ending}" if head and ending else f"{name}_{number}"
        return free


def is_inner(name: str) -> bool:
    """Tell whether an id is that of a figure on the way to one that is told."""
    return name[:1] == "#"


def name_of(graph: Graph, figure: Traced) -> str:
    """Give the name that stands for a figure in an expression, its unit at the end."""
    address = graph.id_of(figure)
    if address is not None and not is_inner(address):
        return _name_at(address)
    origin: Origin = figure.origin
    if isinstance(origin, Worked):
        return _plain(origin.formula.__name__)
    if isinstance(origin, Reckoned):
        # A guarded figure goes by the name of what it guards.
        guarded = origin.parts[0] if not origin.do else None
        return name_of(graph, guarded) if isinstance(guarded, (Figure, Count)) else "part"
    return _plain(origin.name.partition(" (")[0])


@lru_cache(maxsize=8192)
def _name_at(address: str) -> str:
    """Give the name that an address ends in."""
    return _plain([part for part in address.split(".") if not part.isdigit()][-1])


@lru_cache(maxsize=4096)
def _plain(name: str) -> str:
    plain = _NO_NAME.sub("_", name.lower()).strip("_")
    return plain if plain and plain[0].isalpha() else f"x_{plain}".rstrip("_")


def _common(names: Iterator[str]) -> str:
    """Give the name that all parts share, else "parts" with the unit they share."""
    each = list(dict.fromkeys(names))
    if len(each) == 1:
        return each[0]
    if not each:
        return "parts"
    endings = {ending_of_name(name) for name in each} - {""}
    return f"parts_{endings.pop()}" if len(endings) == 1 else "parts"


def _number(value: float) -> str:
    text = repr(float(value))
    return text.removesuffix(".0") if value >= 0 else f"(0 - {_number(-value)})"
