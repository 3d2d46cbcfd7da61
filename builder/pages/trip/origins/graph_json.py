"""The graph of figures as data: each formula told once, each figure with what went into it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from math import isfinite

from builder.formulas.declaring import FORMULAS, unit_of_name
from builder.formulas.expression import names_in
from builder.model.figure import Count, Found, Named, Told, Traced
from builder.model.kit import Kit
from builder.pages.trip.origins import alike
from builder.pages.trip.origins.alike import Data
from builder.pages.trip.origins.leaves import inside
from builder.planning.graph import Graph, Node, is_inner
from builder.planning.tracing import TOLD_BY_PARTY

# A trip of two weeks for twelve has about as many; one of months for dozens is folded.
MOST_TOLD_SINGLY = 20_000
_DIGITS = re.compile(r"\d+")


def graph_data(kit: Kit, graph: Graph, part: Graph | None = None) -> Data:
    """Give `formulas`, `figures` and `alike` as `kit.schema.json` describes them.

    A part of the graph is told figure by figure: an address leads nowhere without its file. So is
    that of a trip of some days, which is then read without more.
    """
    # Figures of one kind lie side by side, which packs into much less.
    nodes = sorted((part or graph).nodes.values(), key=_kind)
    is_folded = part is None and len(nodes) > MOST_TOLD_SINGLY
    inner = _by_what_they_go_into(graph) if is_folded else _by_their_order(nodes)
    teller = _Teller(kit, graph, inner)
    figures = {teller.told(node.id): teller.figure(node) for node in nodes}
    formulas = {teller.formulas[node.formula]: node for node in nodes if node.expression}
    told: Data = {"formulas": {name: _formula(formulas[name]) for name in sorted(formulas)}}
    if is_folded:
        single, many = alike.folded(figures)
        return {**told, "figures": single, "alike": many}
    told["figures"] = {name: figure.data() for name, figure in figures.items()}
    return told if part is not None else {**told, "alike": []}


def _by_their_order(nodes: Iterable[Node]) -> Mapping[str, str]:
    """Number the figures on the way by where they stand in the data."""
    inner = (node.id for node in nodes if is_inner(node.id))
    return {name: f"#{number}" for number, name in enumerate(inner, start=1)}


def _by_what_they_go_into(graph: Graph) -> Mapping[str, str]:
    """Name the figures on the way by what they go into: alike for all that came about alike."""
    named: dict[str, str] = {}

    def name_below(name: str, told: str) -> None:
        for symbol, given in _led_from(graph.nodes[name]):
            inner = graph.id_of(given)
            if inner is not None and is_inner(inner) and inner not in named:
                named[inner] = f"{told}/{symbol}"
                name_below(inner, named[inner])

    for name in graph.nodes:
        if not is_inner(name):
            name_below(name, f"#{name}")
    return named


def _kind(node: Node) -> tuple[str, str]:
    return node.formula, _DIGITS.sub("", node.id)


def _formula(node: Node) -> Data:
    sources = FORMULAS[node.declared].sources if node.declared else ()
    return {
        "expression": node.expression,
        "symbols": {name: unit_of_name(name) for name in names_in(node.expression)},
        "sources": list(sources),
    }


class _Teller:
    """Tells figures by their addresses, and those on the way by the names given to them."""

    def __init__(self, kit: Kit, graph: Graph, inner: Mapping[str, str]) -> None:
        self.kit, self.graph, self._inner = kit, graph, inner
        self.formulas = _formula_ids(graph)

    def id_of(self, figure: Traced) -> str:
        """Give the id of a figure that goes in somewhere."""
        name = self.graph.id_of(figure)
        assert name is not None
        return self.told(name)

    def told(self, name: str) -> str:
        """Give the id as it is told."""
        return self._inner.get(name, name)

    def figure(self, node: Node) -> alike.Figure:
        """Tell one figure."""
        if node.leaf is not None:
            return self._leaf(node.value, node.leaf)
        given = self._given
        inputs = tuple([(symbol, given(each)) for symbol, each in node.inputs.items()])
        guards = tuple(map(self.id_of, node.guards))
        return alike.Reasoned(number(node.value), self.formulas[node.formula], inputs, guards)

    def _given(self, given: Traced | tuple[Traced, ...]) -> alike.Given:
        if isinstance(given, tuple):
            return tuple(map(self.id_of, given))
        name = self.graph.id_of(given)
        if name is not None:
            return self.told(name)
        assert isinstance(given.origin, (Told, Named, Found))
        return self._leaf(given, given.origin)

    def _leaf(self, value: float, leaf: Told | Named | Found) -> alike.Leaf:
        plain = number(value)
        if self.kit.public and not isinstance(leaf, Named):
            return alike.Leaf(plain, origin=(("method", TOLD_BY_PARTY),))
        if isinstance(leaf, Told):
            return alike.Leaf(plain, inside(self.kit, leaf.place))
        if isinstance(leaf, Named):
            return alike.Leaf(plain, origin=(("name", leaf.name), ("source", leaf.source)))
        sources = (("sources", leaf.sources),) if leaf.sources else ()
        found = (("name", leaf.name), ("method", leaf.method), *sources)
        return alike.Leaf(plain, origin=found)


def _led_from(node: Node) -> Iterator[tuple[str, Traced]]:
    for symbol, given in node.inputs.items():
        if isinstance(given, tuple):
            yield from ((f"{symbol}.{place}", each) for place, each in enumerate(given))
        else:
            yield symbol, given
    yield from ((f"guard.{place}", each) for place, each in enumerate(node.guards))


def _formula_ids(graph: Graph) -> Mapping[str, str]:
    """Give the id of each formula: a declared one's own, a number for plain arithmetic."""
    ids: dict[str, str] = {}
    for node in graph.nodes.values():
        if node.expression and node.formula not in ids:
            ids[node.formula] = node.formula if node.declared else f"f{len(ids)}"
    return ids


def number(value: float) -> float | int:
    """Give a plain number, without decimals where it has none.

    Raises ValueError for one without end, which JSON has no sign for.
    """
    if isinstance(value, Count) or value.is_integer():
        return int(value)
    if not isfinite(value):
        raise ValueError("a kit tells no number without end")
    return float(value)
