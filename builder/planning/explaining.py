"""Says how one figure of a kit came about, in lines for a terminal."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.model.kit import Derivation, Kit
from builder.problems import did_you_mean

MOST_CHOICES = 12
_WORD = re.compile(r"\w+")


def matching(kit: Kit, figure: str) -> tuple[Derivation, ...]:
    """Give the derivations that a text stands for: an exact address, else all words
    in a title, else a part of an address.
    """
    exact = tuple(each for each in kit.derivations if each.figure == figure)
    if exact:
        return exact
    words = set(_WORD.findall(figure.lower()))
    by_title = tuple(
        each
        for each in kit.derivations
        if words and words <= set(_WORD.findall(each.title.lower()))
    )
    return by_title or tuple(
        each for each in kit.derivations if figure.strip().lower() in each.figure.lower()
    )


def unknown_said(kit: Kit, figure: str) -> str:
    """Give a hint for a figure that no derivation stands for."""
    return did_you_mean(figure, [each.figure for each in kit.derivations])


def explained(kit: Kit, derivation: Derivation) -> Iterator[str]:
    """Give the figure, its formula, what went into it and from where, and its sources."""
    cited = {source.id: source.citation for source in kit.sources}
    yield f"{derivation.title}: {_number(derivation.value)} {derivation.unit}".rstrip()
    yield f"  {derivation.figure}"
    yield f"  = {derivation.formula}"
    for given in derivation.inputs:
        value = given.value if isinstance(given.value, str) else _number(given.value)
        unit = f" {given.unit}" if given.unit else ""
        yield f"    {given.name}: {value}{unit}   [{given.origin}]"
    for source in derivation.sources:
        yield f"  source: {cited.get(source, source)}"


def _number(value: float) -> str:
    """Give a number with the digits that tell it from its neighbours, not with noise."""
    return f"{value:.6g}"
