"""The page of numbers: how each figure came about, what was assumed, and the sources."""

from __future__ import annotations

import re
from dataclasses import dataclass

from builder.model.kit import Derivation, Input, Kit
from builder.model.source import HOW_KNOWN, Source
from builder.pages.figures import anchor, worked
from builder.pages.pieces import Cell, Piece, Table, link, table, text

_DAY = re.compile(r"days\.(\d+)\.")
_MEAL = re.compile(r"meals\.(\d+)\.")
_BATCH = re.compile(r"batches\.(\d+)\.")
_HEIGHT = ("pressure_hpa", "boiling_point_c", "time_factor")
_FIRST = ("The whole day", "Height", "Water", "Each of you")
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
class WorkedPart:
    """Figures of one thing: a meal, the water of a day, a batch."""

    title: str  # "" where the group has no parts
    anchor: str
    figures: tuple[Worked, ...]


@dataclass(frozen=True, slots=True)
class WorkedGroup:
    """Figures that belong together: of a day, of the packs, of the batches."""

    title: str
    anchor: str
    parts: tuple[WorkedPart, ...]


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
    cited = {source.id: _in_short(source) for source in kit.sources}
    groups: dict[str, dict[str, list[Worked]]] = {}
    for each in kit.derivations:
        parts = groups.setdefault(_group(each.figure), {})
        parts.setdefault(_part(kit, each.figure), []).append(_worked(each, known, cited))
    defaults = [(text(each.what), text(each.value), text(each.why)) for each in kit.defaults]
    return NumbersPage(
        tuple(
            _worked_group(title, f"group-{number}", parts)
            for number, (title, parts) in enumerate(groups.items(), start=1)
        ),
        table(("Not told", "Taken instead", "Why"), defaults) if defaults else None,
        tuple(
            Cited(f"source-{source.id}", source.citation, _web(source.url))
            for source in kit.sources
        ),
    )


def _in_short(source: Source) -> str:
    """Name a source where it is used: its whole citation stands in the list of sources."""
    if source.how == "practice":
        return source.title
    year = f", {source.year}" if source.year else ""
    return f"{source.title}{year} ({HOW_KNOWN[source.how]})"


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


def _worked_group(title: str, group_anchor: str, parts: dict[str, list[Worked]]) -> WorkedGroup:
    """Put the parts of a group in the order of _FIRST, what is not named there after it."""
    order = sorted(parts, key=lambda part: _FIRST.index(part) if part in _FIRST else len(_FIRST))
    return WorkedGroup(
        title,
        group_anchor,
        tuple(
            WorkedPart(part, f"{group_anchor}-{number}", tuple(parts[part]))
            for number, part in enumerate(order, start=1)
        ),
    )


def _part(kit: Kit, figure: str) -> str:
    """Name the part of its group that a figure belongs to."""
    if batch := _BATCH.match(figure):
        each = kit.batches[int(batch[1])]
        return f"{each.name} ({each.id})"
    day = _DAY.match(figure)
    if not day:
        return ""
    rest = figure[day.end() :]
    if meal := _MEAL.match(rest):
        cooked = kit.days[int(day[1])].meals[int(meal[1])]
        return cooked.title if cooked.recipe else "Eaten as it is"
    if rest.startswith("people."):
        return "Each of you"
    if rest.startswith("water."):
        return "Water"
    return "Height" if rest in _HEIGHT else "The whole day"


def _unit(value: float, unit: str) -> str:
    return worked(value, _UNITS.get(unit, unit))


def _worked(each: Derivation, known: dict[str, str], cited: dict[str, str]) -> Worked:
    rows = [
        (text(_name(given)), text(_value(given)), _origin(given.origin, known, cited))
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


def _name(given: Input) -> str:
    """Give a number's name; what is told in words stands beside it, not in the narrow column."""
    return f"{given.name}: {given.value}" if isinstance(given.value, str) else given.name


def _value(given: Input) -> str:
    return "" if isinstance(given.value, str) else _unit(given.value, given.unit)


def _origin(origin: str, known: dict[str, str], cited: dict[str, str]) -> Cell:
    """Say where a number is from; another figure or a source is one tap away."""
    if origin in known:
        return link(known[origin], f"numbers.md#{anchor(origin)}")
    if origin in cited:
        return link(cited[origin], f"numbers.md#source-{origin}")
    return text(origin)
