"""The page of numbers: how each figure came about, what was assumed, and the sources."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from builder.model.kit import Derivation, Input, Kit
from builder.pages.citing import citation, citation_in_short
from builder.pages.figures import anchor, worked
from builder.pages.pieces import Cell, Piece, Table, link, table, text
from builder.pages.trip.sources import Checked, checked_at
from builder.planning.derivations import DEFAULT
from builder.speech import Speech, later, speech_of

_DAY = re.compile(r"days\.(\d+)\.")
_MEAL = re.compile(r"meals\.(\d+)\.")
_BATCH = re.compile(r"batches\.(\d+)\.")
_HEIGHT = ("pressure_hpa", "boiling_point_c", "time_factor")
_WHOLE_DAY, _BY_HEIGHT, _WATER, _EACH = (
    later("The whole day"), later("Height"), later("Water"), later("Each of you"),
)  # fmt: skip
_FIRST = (_WHOLE_DAY, _BY_HEIGHT, _WATER, _EACH)
_GROUPS = {
    "weights": later("Packs"),
    "fuel": later("Fuel"),
    "wood": later("Wood"),
    "batches": later("Batches"),
    "looks": later("A second look"),
}
_UNITS = {"share": "", "degC": "°C"}
# Units that are words, and not signs.
_UNIT_WORDS = {"months": later("months"), "kcal/day": later("kcal/day")}


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
    checks: str  # where the page of sources tells what it checks; "" where it checks nothing


@dataclass(frozen=True, slots=True)
class NumbersPage:
    """Where all numbers come from."""

    groups: tuple[WorkedGroup, ...]
    defaults: Table | None
    sources: tuple[Cited, ...]


def numbers_page(kit: Kit, checked: Sequence[Checked]) -> NumbersPage:
    """Give how each figure came about."""
    say = speech_of(kit.language)
    known = {each.figure: each.title for each in kit.derivations}
    cited = {source.id: citation_in_short(say, source) for source in kit.sources}
    groups: dict[str, dict[str, list[Worked]]] = {}
    for each in kit.derivations:
        parts = groups.setdefault(_group(say, each.figure), {})
        parts.setdefault(_part(say, kit, each.figure), []).append(_worked(say, each, known, cited))
    defaults = [(text(each.what), text(each.value), text(each.why)) for each in kit.defaults]
    return NumbersPage(
        tuple(
            _worked_group(say, title, f"group-{number}", parts)
            for number, (title, parts) in enumerate(groups.items(), start=1)
        ),
        table((say("Not told"), say("Taken instead"), say("Why")), defaults) if defaults else None,
        tuple(
            Cited(
                f"source-{source.id}",
                citation(say, source),
                _web(source.url),
                checked_at(source, checked),
            )
            for source in kit.sources
        ),
    )


def _web(url: str) -> str:
    """Give an address only where it is one of the web: people's own sources may hold anything."""
    return url if re.fullmatch(r"https?://[A-Za-z0-9._~:/?#@%&=+,;-]+", url) else ""


def _group(say: Speech, figure: str) -> str:
    """Name the group that a figure belongs to."""
    if day := _DAY.match(figure):
        return say("Day {n}", n=int(day[1]) + 1)
    first = figure.partition(".")[0]
    return say(_GROUPS[first]) if first in _GROUPS else say("The trip")


def _worked_group(
    say: Speech, title: str, group_anchor: str, parts: dict[str, list[Worked]]
) -> WorkedGroup:
    """Put the parts of a group in the order of _FIRST, what is not named there after it."""
    first = [say(part) for part in _FIRST]
    order = sorted(parts, key=lambda part: first.index(part) if part in first else len(first))
    return WorkedGroup(
        title,
        group_anchor,
        tuple(
            WorkedPart(part, f"{group_anchor}-{number}", tuple(parts[part]))
            for number, part in enumerate(order, start=1)
        ),
    )


def _part(say: Speech, kit: Kit, figure: str) -> str:
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
        return cooked.title if cooked.recipe else say("Eaten as it is")
    if rest.startswith("people."):
        return say(_EACH)
    if rest.startswith("water."):
        return say(_WATER)
    return say(_BY_HEIGHT if rest in _HEIGHT else _WHOLE_DAY)


def _unit(say: Speech, value: float, unit: str) -> str:
    shown = say(_UNIT_WORDS[unit]) if unit in _UNIT_WORDS else _UNITS.get(unit, unit)
    return worked(say, value, shown)


def _worked(say: Speech, each: Derivation, known: dict[str, str], cited: dict[str, str]) -> Worked:
    rows = [
        (
            text(_name(say, given)),
            text(_value(say, given)),
            _origin(say, given.origin, known, cited),
        )
        for given in each.inputs
    ]
    return Worked(
        anchor(each.figure),
        each.title,
        _unit(say, each.value, each.unit),
        each.formula,
        table((say("Number"), say("Here"), say.of("where it is from", "From")), rows, "lrl")
        if rows
        else None,
        tuple(
            (Piece(cited[source], href=f"numbers.md#source-{source}"),)
            if source in cited
            else text(source)
            for source in each.sources
        ),
    )


def _name(say: Speech, given: Input) -> str:
    """Give a number's name; what is told in words stands beside it, not in the narrow column."""
    if isinstance(given.value, str):
        return say("{name}: {value}", name=given.name, value=given.value)
    return given.name


def _value(say: Speech, given: Input) -> str:
    return "" if isinstance(given.value, str) else _unit(say, given.value, given.unit)


def _origin(say: Speech, origin: str, known: dict[str, str], cited: dict[str, str]) -> Cell:
    """Say where a number is from; another figure or a source is one tap away."""
    if origin in known:
        return link(known[origin], f"numbers.md#{anchor(origin)}")
    if origin in cited:
        return link(cited[origin], f"numbers.md#source-{origin}")
    return text(say("default") if origin == DEFAULT else origin)
