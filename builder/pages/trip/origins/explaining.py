"""Says how one figure of a kit came about, in lines for a terminal: the graph, walked downward."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from builder.formulas.declaring import FORMULAS, unit_of_name
from builder.model.figure import Found, Named, Told, Traced
from builder.model.kit import Kit
from builder.model.trip import ENGLISH
from builder.pages.citing import citation
from builder.pages.trip.origins.leaves import inside
from builder.pages.trip.origins.titles import title_of
from builder.planning.graph import Graph, Node, is_inner
from builder.speech import speech_of

MOST_CHOICES = 12  # as many figures are explained at once
MOST_LISTED = 40
_WORD = re.compile(r"\w+")


def matching(kit: Kit, graph: Graph, figure: str) -> tuple[Node, ...]:
    """Give the figures that a text stands for: an exact address, else all words in a title,
    else a part of an address.
    """
    wanted = figure.strip().lower()
    told = [node for name, node in graph.nodes.items() if not is_inner(name)]
    exact = tuple(node for name, node in graph.nodes.items() if name.lower() == wanted)
    if exact:
        return exact
    words = set(_WORD.findall(wanted))
    by_title = tuple(node for node in told if words and words <= set(_words_of(kit, node)))
    return by_title or tuple(node for node in told if wanted in node.id.lower())


def _words_of(kit: Kit, node: Node) -> list[str]:
    """Give the words of a figure's title, with its day as people count it."""
    title = full_title(kit, node)
    return _WORD.findall(title.lower())


def full_title(kit: Kit, node: Node) -> str:
    """Give what a figure is called, with the day, the meal or the person it is of."""
    parts = node.id.split(".")
    title = title_of(speech_of(kit.language), node.id)
    if parts[:2] == ["trip", "party"]:
        return f"{title}, {kit.party[int(parts[2])].name}"
    if parts[0] != "days":
        return title
    day = kit.days[int(parts[1])]
    of = ""
    if parts[2] == "meals":
        of = f", {day.meals[int(parts[3])].title}"
    elif parts[2] == "people":
        of = f", {kit.party[int(parts[3])].name}"
    return f"{title}{of}, day {day.day}"


_NEAR_PERCENT = 72.0  # of a title's words as they were asked for: a slip in each is forgiven
_MOST_NEAR = 6
_AS_NEAR_PERCENT = 12.0  # less than the nearest: no longer told
_SMALL_WORDS = frozenset(
    ["a", "an", "and", "at", "by", "for", "from", "in", "is", "of", "on", "the", "to", "with"]
)


def near(kit: Kit, graph: Graph, figure: str) -> tuple[Node, ...]:
    """Give the figures whose words are spelt most like those asked for, the nearest first."""
    from rapidfuzz import fuzz, process  # needed for mistakes only, and slow to load

    wanted = [each for each in _WORD.findall(figure.lower()) if each not in _SMALL_WORDS]
    scored: list[tuple[float, int, str]] = []
    for name, node in graph.nodes.items():
        if is_inner(name) or not wanted:
            continue
        for words in (_words_of(kit, node), _WORD.findall(name.lower().replace("_", " "))):
            # Another number is another day, however much the rest is alike.
            if all(each in words for each in wanted if each.isdigit()):
                best = (process.extractOne(each, words, scorer=fuzz.ratio)[1] for each in wanted)
                scored.append((-sum(best) / len(wanted), len(words), name))
    scored.sort()
    least = max(_NEAR_PERCENT, -scored[0][0] - _AS_NEAR_PERCENT) if scored else 0.0
    names = dict.fromkeys(name for score, _, name in scored if -score >= least)
    return tuple(graph.nodes[name] for name in [*names][:_MOST_NEAR])


def unknown_said(kit: Kit, graph: Graph, figure: str) -> list[str]:
    """Give hints for words that stand for no figure: those that are near, or what to try."""
    found = near(kit, graph, figure)
    if not found:
        return ["try fewer words, such as `fuel`, `water`, `weight` or `boils day 2`"]
    return ["did you mean one of these?", *(f"  {line}" for line in listed(kit, found))]


def listed(kit: Kit, nodes: Sequence[Node]) -> Iterator[str]:
    """Give a line for each figure: its address and what it is called."""
    width = max(len(node.id) for node in nodes)
    for node in nodes:
        yield f"{node.id:<{width}}  {full_title(kit, node)}"


def explained(kit: Kit, graph: Graph, node: Node, deep: bool = False) -> Iterator[str]:
    """Give a figure, its formula, what went in and from where, and its sources.

    With `deep` each input is taken apart too, down to files, tables and constants.
    """
    yield f"{full_title(kit, node)}: {_number(node.value)} {_unit(node.id)}".rstrip()
    yield f"  {node.id}"
    yield from _parts(kit, graph, node, deep, "  ", told={node.id})
    say = speech_of(ENGLISH)  # as the words around it
    cited = {source.id: citation(say, source) for source in kit.sources}
    for source in FORMULAS[node.declared].sources if node.declared else ():
        yield f"  source: {cited.get(source, source)}"


def _parts(
    kit: Kit, graph: Graph, node: Node, deep: bool, indent: str, *, told: set[str]
) -> Iterator[str]:
    if node.leaf is not None:
        yield f"{indent}{_origin(kit, node.leaf)}"
        return
    yield f"{indent}= {node.expression}"
    for symbol, given in node.inputs.items():
        for each in given if isinstance(given, tuple) else (given,):
            name = graph.id_of(each)
            inner = graph.nodes.get(name) if name else None
            where = name if inner and inner.leaf is None else _leaf(kit, each, inner)
            yield f"{indent}  {symbol}: {_number(each)} {_unit(symbol)}".rstrip() + f"   [{where}]"
            if deep and inner and inner.leaf is None and inner.id not in told:
                told.add(inner.id)
                yield from _parts(kit, graph, inner, deep, indent + "    ", told=told)


def _leaf(kit: Kit, figure: Traced, inner: Node | None) -> str:
    leaf = inner.leaf if inner else figure.origin
    assert isinstance(leaf, (Told, Named, Found))
    return _origin(kit, leaf)


def _origin(kit: Kit, leaf: Told | Named | Found) -> str:
    if isinstance(leaf, Told):
        return inside(kit, leaf.place)
    if isinstance(leaf, Named):
        return f"{leaf.name}, source {leaf.source}"
    return f"{leaf.name}: {leaf.method}"


def _unit(name: str) -> str:
    unit = unit_of_name(re.split(r"[./]", name)[-1])
    return "" if unit == "share" else unit


def _number(value: float) -> str:
    """Give a number with the digits that tell it from its neighbours, not with noise."""
    return f"{value:.6g}"
