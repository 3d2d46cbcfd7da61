"""Figures that follow, row by row: what a page carries that has many of them.

The same as `changing` tells by names, in a third of the room. A row is a leaf, by the key that it
is changed by, with its number; or a formula by its place, what goes in by the order of its names,
and its guards. What goes in is a number, or as text how many rows before this one it stands, or a
list of both.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeAlias

from builder.formulas.expression import names_in
from builder.model.figure import Origin, Traced
from builder.pages.trip.origins.changing import SHARED, Part
from builder.pages.trip.origins.graph_json import number
from builder.planning.graph import Graph, Node, graph_of
from builder.planning.tracing import traced
from builder.record import dataclass

# As text: how many rows before its own a figure stands.
One: TypeAlias = "float | int | str"


@dataclass(frozen=True, slots=True)
class Rows:
    """The part of some figures that rests on some leaves."""

    formulas: list[str]  # expressions, or ids of those that the scripts know
    rows: list[object]
    told: dict[str, int]  # the row of each figure that is told; what rests on no leaf is none


def rows_of(told: Mapping[str, float], keys: Mapping[Origin, str]) -> Rows:
    """Give the part of some figures that rests on some leaves, each by its key."""
    rows = _Rows(graph_of(told), keys)
    places = {name: rows.place(value) for name, value in told.items() if rows.follows(value)}
    return Rows(list(rows.formulas), rows.rows, places)


class _Rows:
    """Puts figures into rows, what goes in before what comes out."""

    def __init__(self, graph: Graph, keys: Mapping[Origin, str]) -> None:
        self.graph, self.keys, self.part = graph, keys, Part(graph, keys)
        self.rows: list[object] = []
        self.formulas: dict[str, int] = {}
        self._places: dict[str, int] = {}

    def follows(self, value: float) -> bool:
        """Tell whether a figure rests on one of the leaves."""
        return self.part.follows(value)

    def place(self, value: float) -> int:
        """Give the row of a figure that follows."""
        name = self.graph.inner_id(traced(value))
        if name not in self._places:
            row = self._row(self.graph.nodes.get(name), value)
            self._places[name] = len(self.rows)
            self.rows.append(row(len(self.rows)))
        return self._places[name]

    def _row(self, node: Node | None, value: float) -> Callable[[int], object]:
        """Put what goes into a figure into rows; give what makes its own, which comes then."""
        if node is None or not node.formula:
            leaf = traced(value)
            key = self.keys[leaf.origin]
            return lambda _: [key, number(leaf)]
        shared = SHARED.get(node.formula) if node.declared else None
        formula = shared.id if shared else node.expression
        constants = shared.constants if shared else {}
        names = [name for name in names_in(node.expression) if name not in constants]
        given = [node.inputs[name] for name in names]
        for each in (*given, node.guards):
            for one in each if isinstance(each, tuple) else (each,):
                if self.follows(one):
                    self.place(one)

        def made(here: int) -> object:
            first = self.formulas.setdefault(formula, len(self.formulas))
            row: list[object] = [first, [self._given(each, here) for each in given]]
            return [*row, self._given(node.guards, here)] if node.guards else row

        return made

    def _given(self, given: Traced | tuple[Traced, ...], here: int) -> One | list[One]:
        if isinstance(given, tuple):
            return [self._one(each, here) for each in given]
        return self._one(given, here)

    def _one(self, figure: Traced, here: int) -> One:
        return str(here - self.place(figure)) if self.follows(figure) else number(figure)
