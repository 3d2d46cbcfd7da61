"""The figures of a kit and how each came about: one graph, from what pages tell to its leaves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass

from builder.formulas.declaring import FORMULAS, Formula
from builder.model.figure import Count, Figure, Origin, Worked
from builder.model.kit import Kit

# What a kit holds besides its own figures.
_NOT_TOLD = frozenset({"sources", "cautions", "standing", "defaults"})


@dataclass(frozen=True, slots=True)
class Node:
    """One figure of the graph: its value, its origin, and the ids of what it was worked out of."""

    id: str
    value: float
    origin: Origin
    inputs: Mapping[str, str | tuple[str, ...]]  # ids, for what a formula gave
    guards: tuple[str, ...] = ()


def figures_of_kit(kit: Kit) -> dict[str, Node]:
    """Give every figure of a kit by its id: its address in the kit, or below the one it led to."""
    graph: dict[str, Node] = {}
    names: dict[int, str] = {}
    kept: list[Figure | Count] = []  # a figure's number in memory is its own only while it lives
    told = list(_told(kit, ""))
    for name, figure in told:
        names.setdefault(id(figure), name)
    for name, figure in told:
        if name not in graph:
            _note(name, figure, graph, names, kept)
    return graph


def formulas_of(graph: Mapping[str, Node]) -> dict[str, Formula]:
    """Give the formulas of a graph by id, each once."""
    found = {
        FORMULAS[node.origin.formula] for node in graph.values() if isinstance(node.origin, Worked)
    }
    return {formula.id: formula for formula in sorted(found, key=lambda each: each.id)}


def _told(record: object, path: str) -> Iterator[tuple[str, Figure | Count]]:
    """Go through a record; addresses are those of kit.json."""
    if isinstance(record, (Figure, Count)):
        yield path, record
    elif is_dataclass(record):
        for field in fields(record):
            if path or field.name not in _NOT_TOLD:
                inner = f"{path}.{field.name}" if path else field.name
                yield from _told(getattr(record, field.name), inner)
    elif isinstance(record, (tuple, list)):
        for number, each in enumerate(record):
            yield from _told(each, f"{path}.{number}")


def _note(
    name: str,
    figure: Figure | Count,
    graph: dict[str, Node],
    names: dict[int, str],
    kept: list[Figure | Count],
) -> str:
    """Note a figure and all that it was worked out of; give its id."""
    known = names.setdefault(id(figure), name)
    if known != name and known in graph:
        graph.setdefault(name, graph[known])
        return known
    kept.append(figure)
    origin = figure.origin
    if not isinstance(origin, Worked):
        graph[name] = Node(name, figure, origin, {})
        return name
    inputs: dict[str, str | tuple[str, ...]] = {}
    for symbol, given in origin.inputs:
        if isinstance(given, tuple):
            inputs[symbol] = tuple(
                _inner(f"{name}/{symbol}.{number}", each, graph, names, kept)
                for number, each in enumerate(given)
            )
        else:
            inputs[symbol] = _inner(f"{name}/{symbol}", given, graph, names, kept)
    guards = tuple(
        _inner(f"{name}/guard.{number}", each, graph, names, kept)
        for number, each in enumerate(origin.guards)
    )
    graph[name] = Node(name, figure, origin, inputs, guards)
    return name


def _inner(
    name: str,
    figure: Figure | Count,
    graph: dict[str, Node],
    names: dict[int, str],
    kept: list[Figure | Count],
) -> str:
    """Note an input under the name it is known by, or one below the figure it led to."""
    known = names.get(id(figure), name)
    if known not in graph:
        _note(known, figure, graph, names, kept)
    return known
