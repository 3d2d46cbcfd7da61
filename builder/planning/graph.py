"""The figures of a kit and how each came about: one graph, from what pages tell to its leaves."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from builder.formulas.declaring import FORMULAS, unit_of_name
from builder.model.figure import Count, Figure, Found, Named, Origin, Reckoned, Told, Traced, Worked

_BINDS = {"+": 1, "-": 1, "*": 2, "/": 2}
# A longer expression is cut: what stands deepest becomes a figure of its own.
_LONGEST_EXPRESSION = 160
_NO_NAME = re.compile(r"[^a-z0-9_]+")


@dataclass(frozen=True, slots=True)
class Node:
    """One figure of the graph: its value, how a person would write it, and what went in."""

    id: str
    value: float
    formula: str = ""  # "" for a leaf
    expression: str = ""
    inputs: Mapping[str, Traced | tuple[Traced, ...]] = field(default_factory=dict)
    guards: tuple[Figure, ...] = ()
    leaf: Told | Named | Found | None = None


@dataclass(slots=True)
class Graph:
    """All figures of a kit by their ids; an input that has an id is a figure of its own."""

    nodes: dict[str, Node] = field(default_factory=dict)
    ids: dict[int, str] = field(default_factory=dict)  # by the figure's number in memory

    def id_of(self, figure: Traced) -> str | None:
        """Give the id of a figure that is told; a leaf that no page tells has none."""
        return self.ids.get(id(figure))


def graph_of(data: object) -> Graph:
    """Give the graph of all figures in nested data; ids are their addresses there."""
    graph = Graph()
    told = list(_told(data, ""))
    for name, figure in told:
        graph.ids.setdefault(id(figure), name)
    for name, figure in told:
        _note(graph, name, figure)
    return graph


def _told(data: object, path: str) -> Iterator[tuple[str, Traced]]:
    if isinstance(data, (Figure, Count)):
        yield path, data
    elif isinstance(data, Mapping):
        for key, each in data.items():
            yield from _told(each, f"{path}.{key}" if path else str(key))
    elif isinstance(data, (tuple, list)):
        for number, each in enumerate(data):
            yield from _told(each, f"{path}.{number}")


def _note(graph: Graph, name: str, figure: Traced) -> None:
    """Note a figure and all that it was worked out of."""
    if name in graph.nodes:
        return
    origin = figure.origin
    if isinstance(origin, (Told, Named, Found)):
        graph.nodes[name] = Node(name, figure, leaf=origin)
        return
    if isinstance(origin, Worked):
        formula = FORMULAS[origin.formula]
        node = Node(name, figure, formula.id, formula.expression, dict(origin.inputs))
    else:
        writer = _Writer(graph)
        expression = writer.write(figure, 0, True)
        node = Node(name, figure, expression, expression, writer.inputs, origin.guards)
    graph.nodes[name] = node
    for symbol, given in node.inputs.items():
        if isinstance(given, tuple):
            for number, each in enumerate(given):
                _note_inner(graph, f"{name}/{symbol}.{number}", each)
        else:
            _note_inner(graph, f"{name}/{symbol}", given)
    for number, guard in enumerate(node.guards):
        _note_inner(graph, f"{name}/guard.{number}", guard)


def _note_inner(graph: Graph, name: str, figure: Traced) -> None:
    """Note an input that was worked out itself, under the id it has or one of its own."""
    if isinstance(figure.origin, (Worked, Reckoned)):
        _note(graph, graph.ids.setdefault(id(figure), name), figure)


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
        has_name = self.graph.id_of(value) is not None or self.length > _LONGEST_EXPRESSION
        if not isinstance(origin, Reckoned) or (has_name and not whole):
            return self._symbol(value)
        if not origin.do:
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
        figures = [
            each if isinstance(each, (Figure, Count)) else Figure(each, Found("part", "as told"))
            for each in origin.parts
        ]
        name = self._free(_common(name_of(self.graph, each) for each in figures) or "parts")
        self.inputs[name] = tuple(figures)
        self.length += len(name) + 5
        return f"{origin.do}({name})"

    def _symbol(self, figure: Traced) -> str:
        known = self._names.get(id(figure))
        if known is None:
            known = self._names[id(figure)] = self._free(name_of(self.graph, figure))
            self.inputs[known] = figure
        self.length += len(known)
        return known

    def _free(self, name: str) -> str:
        number, free = 1, name
        while free in self.inputs:
            number += 1
            head, _, unit = name.rpartition("_")
            keeps_unit = bool(head) and unit_of_name(name) != ""
            free = f"{head}_{number}_{unit}" if keeps_unit else f"{name}_{number}"
        return free


def name_of(graph: Graph, figure: Traced) -> str:
    """Give the name that stands for a figure in an expression, its unit at the end."""
    address = graph.id_of(figure)
    if address is not None and "/" not in address:
        names = [part for part in address.split(".") if not part.isdigit()]
        return _plain(names[-1])
    origin: Origin = figure.origin
    if isinstance(origin, Worked):
        return _plain(origin.formula.__name__)
    if isinstance(origin, Reckoned):
        return _plain((address or "part").rpartition("/")[2].partition(".")[0])
    return _plain(origin.name.partition(" (")[0])


def _plain(name: str) -> str:
    plain = _NO_NAME.sub("_", name.lower()).strip("_")
    return plain if plain and plain[0].isalpha() else f"x_{plain}".rstrip("_")


def _common(names: Iterator[str]) -> str:
    """Give the name that all parts share, else "parts" with the unit they share."""
    each = list(dict.fromkeys(names))
    if len(each) == 1:
        return each[0]
    units = {name.rpartition("_")[2] for name in each if unit_of_name(name)}
    return f"parts_{units.pop()}" if len(units) == 1 else "parts"


def _number(value: float) -> str:
    text = repr(float(value))
    return text.removesuffix(".0") if value >= 0 else f"(0 - {_number(-value)})"
