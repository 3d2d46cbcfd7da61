"""The page of ways to dry a food: each food that this home dries, its ways side by side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.pages.figures import Figures
from builder.pages.home.showing import figures_of_home, minutes_said
from builder.pages.pieces import Cell, Piece, Table, table, text
from builder.planning.drying import BOUGHT, Pays, Way, Ways
from builder.planning.home import WAYS_OF_G, HomePlan
from builder.speech import Speech


@dataclass(frozen=True, slots=True)
class FoodWays:
    """One food: its ways, what each cannot do, and when a dryer pays."""

    name: str
    ways: Table
    notes: tuple[Cell, ...]
    pays: tuple[str, ...]
    not_told: str  # which keys would tell the costs; "" where all are told


@dataclass(frozen=True, slots=True)
class WaysPage:
    """All foods that were dried here."""

    fresh: str
    foods: tuple[FoodWays, ...]


def ways_page(plan: HomePlan) -> WaysPage:
    """Give the page of ways."""
    figures = figures_of_home(plan.home)
    return WaysPage(
        figures.plain(WAYS_OF_G, "mass_g"),
        tuple(_food(figures, each, plan.sources) for each in plan.ways),
    )


def _food(figures: Figures, ways: Ways, sources: Mapping[str, str]) -> FoodWays:
    say = figures.say
    heads = (
        say("Way"),
        say("Gives"),
        say("Water back"),
        say("Time"),
        say("A portion"),
        say("Keeps until"),
    )
    names = {way.dryer: _name(say, way) for way in ways.ways}
    untold = dict.fromkeys(key for way in ways.ways for key in way.not_told)
    return FoodWays(
        name=ways.name,
        ways=table(heads, [_row(figures, way, ways.currency) for way in ways.ways], "lrrrrl"),
        notes=tuple(_notes(say, ways, sources)),
        pays=tuple(_pays(say, each, names) for each in ways.pays if not each.not_told),
        not_told="; ".join(untold),
    )


def _name(say: Speech, way: Way) -> str:
    return say("Bought dried") if way.method == BOUGHT else way.dryer_name


def _row(figures: Figures, way: Way, currency: str) -> tuple[Cell, ...]:
    say = figures.say
    untold = say("not told")
    return (
        (Piece(_name(say, way), strong=True),),
        _with_small(figures.plain(way.dried_g, "mass_g"), _volume(figures, way.room_ml)),
        _with_small(_volume(figures, way.water_back_ml) or "–", _soak(say, way)),
        _with_small(_time(say, way) or "–", _current(say, way)),
        text(untold if way.portion_cost is None else money(say, way.portion_cost, currency)),
        text(_keeps(say, way)),
    )


def _with_small(first: str, small: str) -> Cell:
    return (Piece(first), Piece(" "), Piece(small, small=True)) if small else (Piece(first),)


def _volume(figures: Figures, volume_ml: float | None) -> str:
    return "" if volume_ml is None else figures.plain(volume_ml, "volume_ml")


def _soak(say: Speech, way: Way) -> str:
    return minutes_said(say, way.soak_min) if way.soak_min else ""


def _time(say: Speech, way: Way) -> str:
    if way.hours is None or way.runs is None:
        return ""
    return say("{n} × {hours} h", n=say.number(way.runs), hours=say.number(way.hours))


def _current(say: Speech, way: Way) -> str:
    return f"{say.number(way.energy_kwh, 1)}\u00a0kWh" if way.energy_kwh else ""


def _keeps(say: Speech, way: Way) -> str:
    if way.method == BOUGHT:
        return say("see the packet")
    return say("not to be kept") if way.keeps_until is None else say.short_date(way.keeps_until)


def money(say: Speech, amount: float, currency: str) -> str:
    """Give an amount of money, with the currency where it is told."""
    return f"{say.number(amount, 2)}\u00a0{currency}" if currency else say.number(amount, 2)


def _notes(say: Speech, ways: Ways, sources: Mapping[str, str]) -> Iterator[Cell]:
    """Say what ways cannot do and what they keep; what holds for several is said once."""
    said: dict[str, list[str]] = {}
    for way in ways.ways:
        for words in (*way.cannot, *_kept(say, way, sources)):
            said.setdefault(words, []).append(_name(say, way))
    for words, names in said.items():
        yield (Piece(f"{say.listed(names)}: ", strong=True), Piece(words))


def _kept(say: Speech, way: Way, sources: Mapping[str, str]) -> Iterator[str]:
    kept = way.vitamin_c
    if kept:
        yield say(
            "{low} to {high} of the vitamin C is kept ({source})",
            low=say.show(kept.least_share, "share"),
            high=say.show(kept.most_share, "share"),
            source=sources.get(kept.source, kept.source),
        )


def _pays(say: Speech, pays: Pays, names: Mapping[str | None, str]) -> str:
    own = names.get(pays.dryer, pays.dryer)
    other = say("buying dried") if pays.against == BOUGHT else names.get(pays.against, pays.against)
    if pays.runs is None:
        return say("{dryer} never pays against {other}.", dryer=own, other=other)
    runs = say.count("{n} run", "{n} runs", pays.runs)
    if pays.years is None:
        return say("{dryer} pays against {other} after {runs}.", dryer=own, other=other, runs=runs)
    return say(
        "{dryer} pays against {other} after {runs}, {years} years.",
        dryer=own,
        other=other,
        runs=runs,
        years=say.number(pays.years, 1),
    )
