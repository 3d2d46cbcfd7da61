"""The page of numbers: how each figure came about, what was assumed, and the sources."""

from __future__ import annotations

import re
from dataclasses import dataclass

from builder.model.kit import Derivation, Input, Kit
from builder.pages.figures import anchor, worked
from builder.pages.pieces import Cell, Piece, Table, link, table, text

_DAY = re.compile(r"days\.(\d+)\.")
_UNITS = {"": "", "share": "", "degC": "°C", "°C": "°C"}


@dataclass(frozen=True, slots=True)
class Worked:
    """How one figure came about."""

    anchor: str
    title: str
    value: str
    formula: str
    inputs: Table | None
    sources: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class WorkedGroup:
    """Figures that belong together."""

    title: str
    anchor: str
    figures: tuple[Worked, ...]


@dataclass(frozen=True, slots=True)
class Cited:
    """A source with its address."""

    anchor: str
    citation: str
    url: str


@dataclass(frozen=True, slots=True)
class NumbersPage:
    """Where all numbers come from."""

    groups: tuple[WorkedGroup, ...]
    defaults: Table | None
    sources: tuple[Cited, ...]


def numbers_page(kit: Kit) -> NumbersPage:
    """Give how each figure came about."""
    known = {each.figure: each.title for each in kit.derivations}
    cited = {source.id: source.citation for source in kit.sources}
    groups: dict[str, list[Worked]] = {}
    for each in kit.derivations:
        groups.setdefault(_group(each.figure), []).append(_worked(each, known, cited))
    defaults = [(text(each.what), text(each.value), text(each.why)) for each in kit.defaults]
    return NumbersPage(
        tuple(
            WorkedGroup(title, f"group-{number}", tuple(figures))
            for number, (title, figures) in enumerate(groups.items(), start=1)
        ),
        table(("Not told", "Taken instead", "Why"), defaults) if defaults else None,
        tuple(
            Cited(f"source-{source.id}", source.citation, _web(source.url))
            for source in kit.sources
        ),
    )


def _web(url: str) -> str:
    """Give an address only where it is one of the web: people's own sources may hold anything."""
    return url if re.fullmatch(r"https?://[A-Za-z0-9._~:/?#@%&=+,;-]+", url) else ""


def _group(figure: str) -> str:
    """Name the group that a figure belongs to."""
    if day := _DAY.match(figure):
        return f"Day {int(day[1]) + 1}"
    first = figure.partition(".")[0]
    return {"weights": "Packs", "fuel": "Fuel", "wood": "Wood", "batches": "Batches"}.get(
        first, "The trip"
    )


def _unit(value: float, unit: str) -> str:
    return worked(value, _UNITS.get(unit, unit))


def _worked(each: Derivation, known: dict[str, str], cited: dict[str, str]) -> Worked:
    rows = [
        (text(given.name), text(_value(given)), _origin(given.origin, known, cited))
        for given in each.inputs
    ]
    return Worked(
        anchor(each.figure),
        each.title,
        _unit(each.value, each.unit),
        each.formula,
        table(("Number", "Here", "From"), rows, "lrl") if rows else None,
        tuple(
            (Piece(cited[source], href=f"numbers.md#source-{source}"),)
            if source in cited
            else text(source)
            for source in each.sources
        ),
    )


def _value(given: Input) -> str:
    return given.value if isinstance(given.value, str) else _unit(given.value, given.unit)


def _origin(origin: str, known: dict[str, str], cited: dict[str, str]) -> Cell:
    """Say where a number is from; another figure or a source is one tap away."""
    if origin in known:
        return link(known[origin], f"numbers.md#{anchor(origin)}")
    if origin in cited:
        return link(cited[origin], f"numbers.md#source-{origin}")
    return text(origin)
