"""The graph of figures as data: each formula told once, each figure with what went into it."""

from __future__ import annotations

import re
from collections.abc import Mapping

from builder.formulas.declaring import FORMULAS, unit_of_name
from builder.formulas.expression import names_in
from builder.model.figure import Count, Found, Named, Told, Traced
from builder.model.kit import Kit
from builder.pages.trip.leaves import inside
from builder.planning.graph import Graph, Node

Data = dict[str, object]

_DIGITS = re.compile(r"\d+")


def graph_data(kit: Kit, graph: Graph) -> Data:
    """Give `formulas` and `figures` as `kit.schema.json` describes them."""
    formulas: dict[str, Data] = {}
    figures: dict[str, Data] = {}
    ids = _formula_ids(graph)
    # Figures of one kind lie side by side, which packs into much less.
    for name, node in sorted(graph.nodes.items(), key=lambda each: _kind(*each)):
        if node.expression and ids[node.formula] not in formulas:
            formulas[ids[node.formula]] = _formula(node)
        figures[name] = _figure(kit, graph, node, ids)
    return {"formulas": dict(sorted(formulas.items())), "figures": figures}


def _formula_ids(graph: Graph) -> dict[str, str]:
    """Give the id of each formula: a declared one's own, a number for plain arithmetic."""
    ids: dict[str, str] = {}
    for node in graph.nodes.values():
        if node.expression and node.formula not in ids:
            ids[node.formula] = node.formula if node.declared else f"f{len(ids)}"
    return ids


def _kind(name: str, node: Node) -> tuple[str, str]:
    return node.formula, _DIGITS.sub("", name)


def _formula(node: Node) -> Data:
    sources = FORMULAS[node.declared].sources if node.declared else ()
    return {
        "expression": node.expression,
        "symbols": {name: unit_of_name(name) for name in names_in(node.expression)},
        "sources": list(sources),
    }


def _figure(kit: Kit, graph: Graph, node: Node, ids: Mapping[str, str]) -> Data:
    if node.leaf is not None:
        return _leaf(kit, node.value, node.leaf)
    told: Data = {
        "formula": ids[node.formula],
        "inputs": {symbol: _input(kit, graph, given) for symbol, given in node.inputs.items()},
        "value": number(node.value),
    }
    if node.guards:
        told["guards"] = [graph.id_of(guard) for guard in node.guards]
    return told


def _input(kit: Kit, graph: Graph, given: Traced | tuple[Traced, ...]) -> Data:
    if isinstance(given, tuple):
        return {"figures": [graph.id_of(each) for each in given]}
    name = graph.id_of(given)
    if name is not None:
        return {"figure": name}
    assert isinstance(given.origin, (Told, Named, Found))
    return _leaf(kit, given, given.origin)


def _leaf(kit: Kit, value: float, leaf: Told | Named | Found) -> Data:
    if kit.public and not isinstance(leaf, Named):
        return {"value": number(value), "method": "told by the party"}
    if isinstance(leaf, Told):
        return {"value": number(value), "place": inside(kit, leaf.place)}
    if isinstance(leaf, Named):
        return {"value": number(value), "name": leaf.name, "source": leaf.source}
    found: Data = {"value": number(value), "name": leaf.name, "method": leaf.method}
    return {**found, "sources": list(leaf.sources)} if leaf.sources else found


def number(value: float) -> float | int:
    """Give a plain number, without the ".0" of a whole one."""
    return int(value) if isinstance(value, Count) or value.is_integer() else float(value)
