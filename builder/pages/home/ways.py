"""The page of ways to dry a food: each food that this home dries, its ways side by side.

All that the ways are reckoned from stands on the page, and can be changed there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.model.figure import Origin
from builder.pages.figures import Figures
from builder.pages.home.pays_chart import PaysChart, Saving, after_said, pays_chart
from builder.pages.home.showing import figures_of_home, minutes_said, money
from builder.pages.home.ways_inputs import of_dryers, of_food, of_home
from builder.pages.pieces import Cell, Piece, Scale, Table, filled, link, stacked, table, text
from builder.pages.trip.origins.changing import part_of
from builder.planning.home import HomePlan
from builder.planning.ways import AFTER_RUNS, BOUGHT, Changeable, Input, Pays, Way, Ways, leaf
from builder.record import dataclass
from builder.speech import Speech, speech_of
from builder.units import rounded


@dataclass(frozen=True, slots=True)
class FoodWays:
    """One food: its ways, what each cannot do, and when a dryer pays."""

    name: str
    inputs: Cell  # what may be changed of this food alone
    ways: Table
    notes: tuple[Cell, ...]
    pays: tuple[Cell, ...]
    chart: PaysChart | None
    not_told: str  # which keys would tell the costs; "" where all are told


# So many foods, with all that hangs on what may be changed of them, make a page light to open.
FOODS_A_PAGE = 12


@dataclass(frozen=True, slots=True)
class WaysPage:
    """Foods that were dried here, and what all of them are reckoned from."""

    path: str
    title: str
    elsewhere: tuple[Cell, ...]  # the foods of the other pages; none where this is the only one
    inputs: tuple[Cell, ...]
    dryers: tuple[Cell, ...]
    foods: tuple[FoodWays, ...]
    figures: Mapping[str, object]  # what the script of the page works out anew


def ways_pages(plan: HomePlan) -> tuple[WaysPage, ...]:
    """Give the pages of ways, each of some foods in their order."""
    parts = [
        plan.ways[first : first + FOODS_A_PAGE] for first in range(0, len(plan.ways), FOODS_A_PAGE)
    ] or [()]
    titles = _titles(speech_of(plan.home.language), parts)
    return tuple(_page(plan, parts, titles, number) for number in range(len(parts)))


def _titles(say: Speech, parts: Sequence[Sequence[Ways]]) -> list[str]:
    """Name the pages; several go by their first and last food."""
    if len(parts) == 1:
        return [say.of("page", "Ways to dry")]
    return [" – ".join(dict.fromkeys((part[0].name, part[-1].name))) for part in parts]


def _path(number: int) -> str:
    return f"ways-{number + 1}.md" if number else "ways.md"


def _page(
    plan: HomePlan, parts: Sequence[Sequence[Ways]], titles: Sequence[str], number: int
) -> WaysPage:
    figures = figures_of_home(plan.home)
    own = parts[number]
    foods = [
        _Food(figures, place, each, plan.asked.get(each.holds), plan.home.dryers)
        for place, each in enumerate(own)
    ]
    asked = [plan.asked[each.holds] for each in own if each.holds in plan.asked]
    inputs = tuple({each.key: each for of_food in asked for each in of_food.inputs}.values())
    names = {way.dryer: way.dryer_name for food in own for way in food.ways if way.dryer}
    currency = plan.home.currency
    return WaysPage(
        path=_path(number),
        title=titles[number],
        elsewhere=tuple(
            link(titles[other], _path(other)) for other in range(len(parts)) if other != number
        ),
        inputs=of_home(figures, inputs, currency),
        dryers=of_dryers(figures, inputs, currency, names),
        foods=tuple(food.told(plan.sources) for food in foods),
        figures=_figures(foods, inputs),
    )


def _figures(foods: Iterable[_Food], inputs: Iterable[Input]) -> dict[str, object]:
    """Give the part of the figures that rests on what may be changed, each by its key."""
    keys: dict[Origin, str] = {leaf(each.key, each.value).origin: each.key for each in inputs}
    keys[leaf(AFTER_RUNS, 0.0).origin] = AFTER_RUNS
    shown = {name: value for food in foods for name, value in food.shown.items()}
    return {**part_of(shown, keys)} if shown else {}


class _Food:
    """What is told of one food; `shown` are the figures that follow what is changed, by id."""

    def __init__(
        self,
        figures: Figures,
        number: int,
        ways: Ways,
        asked: Changeable | None,
        at_home: Iterable[str],
    ) -> None:
        self.figures, self.number, self.ways, self.asked = figures, number, ways, asked
        self.at_home = frozenset(at_home)
        self.names = {way.dryer: _name(figures.say, way) for way in ways.ways}
        self.shown: dict[str, float] = {}
        # Told at once, so that the figures are known when the page asks for them.
        self.table = self._table()
        self.pays = tuple(self._pays())
        self.chart = self._chart()

    def told(self, sources: Mapping[str, str]) -> FoodWays:
        """Give all of it."""
        ways = self.ways
        untold = dict.fromkeys(key for way in ways.ways for key in way.not_told)
        inputs = self.asked.inputs if self.asked else ()
        return FoodWays(
            name=ways.name,
            inputs=of_food(self.figures, inputs, ways.currency, ways.holds),
            ways=self.table,
            notes=tuple(_notes(self.figures.say, ways, sources)),
            pays=self.pays,
            chart=self.chart,
            not_told="; ".join(untold),
        )

    def _follows(self, name: str, value: float | None) -> str:
        """Give the id of a figure that follows, and note its value; "" for one that does not."""
        if value is None:
            return ""
        self.shown[f"{self.number}.{name}"] = value
        return f"{self.number}.{name}"

    # -- ways -------------------------------------------------------------------------------------

    def _table(self) -> Table:
        say = self.figures.say
        heads = (
            say("Way"),
            say("A portion"),
            say("Gives"),
            say("Time"),
            say("Water back"),
            say("Keeps until"),
        )
        asked = self.asked.asked.ways if self.asked else (None,) * len(self.ways.ways)
        rows = [
            self._row(number, *pair)
            for number, pair in enumerate(zip(self.ways.ways, asked, strict=True))
        ]
        return stacked(table(heads, rows, "lrrrrl"))

    def _row(self, number: int, way: Way, asked: Way | None) -> tuple[Cell, ...]:
        say = self.figures.say
        cost = way.portion_cost
        currency = self.ways.currency
        id_ = self._follows(f"{number}.portion_cost", asked.portion_cost if asked else None)
        told = say("not given") if cost is None else money(say, cost, currency)
        scale = _scale(id_, "money", cost, after=f"\u00a0{currency}" if currency else "")
        dried_g = asked.dried_g if asked else None
        room_ml = asked.room_ml if asked else None
        back_ml = asked.water_back_ml if asked else None
        soak = minutes_said(say, way.soak_min) if way.soak_min else ""
        return (
            (Piece(_name(say, way), strong=True),),
            (Piece(told, scale=scale),),
            (
                *self._amount(f"{number}.dried_g", "mass_g", way.dried_g, dried_g),
                *self._small(f"{number}.room_ml", way.room_ml, room_ml),
            ),
            self._time(number, way, asked),
            (
                *self._amount(f"{number}.water_back_ml", "volume_ml", way.water_back_ml, back_ml),
                *_in_small(soak),
            ),
            text(_keeps(self.figures, way)),
        )

    def _amount(self, name: str, quantity: str, value: float | None, asked: float | None) -> Cell:
        if value is None:
            return text("–")
        kind = "g" if quantity == "mass_g" else "ml"
        scale = _scale(self._follows(name, asked), kind, value, units=self.figures.units)
        return (Piece(self.figures.plain(value, quantity), scale=scale),)

    def _small(self, name: str, value: float | None, asked: float | None) -> Cell:
        if value is None:
            return ()
        (piece,) = self._amount(name, "volume_ml", value, asked)
        return (Piece(" "), Piece(piece.text, small=True, scale=piece.scale))

    def _time(self, number: int, way: Way, asked: Way | None) -> Cell:
        say = self.figures.say
        if way.hours is None or way.runs is None:
            return text("–")
        id_ = self._follows(f"{number}.runs", asked.runs if asked else None)
        after = say(" × {hours}", hours=say.show(rounded(way.hours), "hours"))
        runs = Piece(
            f"{say.number(way.runs)}{after}", scale=_scale(id_, "whole", way.runs, after=after)
        )
        if not way.energy_kwh:
            return (runs,)
        id_ = self._follows(f"{number}.energy_kwh", asked.energy_kwh if asked else None)
        current = Piece(
            f"{say.number(rounded(way.energy_kwh, 1), 1)}\u00a0kWh",
            small=True,
            scale=_scale(id_, "kwh", way.energy_kwh, after="\u00a0kWh"),
        )
        return (runs, Piece(" "), current)

    # -- when a dryer pays ------------------------------------------------------------------------

    def _pays(self) -> Iterator[Cell]:
        say = self.figures.say
        asked = self.asked.asked.pays if self.asked else (None,) * len(self.ways.pays)
        for number, (pays, other) in enumerate(zip(self.ways.pays, asked, strict=True)):
            if other is None or not self._is_asked(pays):
                if not pays.not_told:
                    yield self._pays_line(pays, (Piece(_pays_said(say, pays)),))
                continue
            terms = other.terms
            id_ = self._follows(f"pays.{number}", terms.after_runs if terms else None)
            years = terms.after_years if terms else None
            self._follows(f"pays.{number}.years", years)
            told = say("not given") if pays.not_told else _pays_said(say, pays)
            yield self._pays_line(pays, (Piece(told, scale=_scale(id_, "pays", 0.0)),))

    def _pays_line(self, pays: Pays, told: Cell) -> Cell:
        say, names = self.figures.say, self.names
        against = say("buying dried") if pays.against == BOUGHT else names[pays.against]
        return filled(
            say("{dryer} against {other}: {pays}"),
            dryer=text(names.get(pays.dryer, pays.dryer)),
            other=text(against),
            pays=told,
        )

    def _is_asked(self, pays: Pays) -> bool:
        """Tell whether it is asked of a dryer that stands at home, or of one that could."""
        own = {pays.dryer, pays.against} - {BOUGHT}
        return own <= self.at_home if self.at_home else pays.against == BOUGHT

    def _chart(self) -> PaysChart | None:
        if self.asked is None:
            return None
        savings = []
        some = leaf(AFTER_RUNS, 1.0)
        for number, (pays, other) in enumerate(
            zip(self.ways.pays, self.asked.asked.pays, strict=True)
        ):
            if pays.against == BOUGHT and self._is_asked(pays) and other.terms:
                saved = self._follows(f"saved.{number}", other.terms.saved(some))
                name = self.names[pays.dryer]
                savings.append(Saving(name, pays.terms, f"{self.number}.pays.{number}", saved))
        return (
            pays_chart(self.figures.say, self.number, savings, self.ways.currency)
            if savings
            else None
        )


def _scale(
    figure: str, kind: str, value: float | None, units: str = "", after: str = ""
) -> Scale | None:
    if not figure:
        return None
    return Scale(kind, value or 0.0, figure, units=units, after=after)


def _in_small(words: str) -> Cell:
    return (Piece(" "), Piece(words, small=True)) if words else ()


def _name(say: Speech, way: Way) -> str:
    return say("Bought dried") if way.method == BOUGHT else way.dryer_name


def _keeps(figures: Figures, way: Way) -> str:
    say = figures.say
    if way.method == BOUGHT:
        return say("see the packet")
    if way.keeps_until is None:
        return say("not to be kept")
    return figures.until(say.short_date(way.keeps_until), way.kept_at_told)


def _pays_said(say: Speech, pays: Pays) -> str:
    if pays.runs is None or pays.years is None:
        return after_said(say, -1 if pays.runs is None else pays.runs)
    return say.count(
        "pays for itself after {n} run, {years} years",
        "pays for itself after {n} runs, {years} years",
        pays.runs,
        years=say.number(rounded(pays.years, 1), 1),
    )


def _notes(say: Speech, ways: Ways, sources: Mapping[str, str]) -> Iterator[Cell]:
    """Say what ways cannot do and what they keep; what holds for several is said once."""
    said: dict[str, list[str]] = {}
    for way in ways.ways:
        for words in (*_heat_first(say, way), *way.cannot, *_kept(say, way, sources)):
            said.setdefault(words, []).append(_name(say, way))
    for words, names in said.items():
        yield (Piece(f"{say.listed(names)}: ", strong=True), Piece(words))


def _heat_first(say: Speech, way: Way) -> Iterator[str]:
    if way.heat_first_c is not None:
        heat = say.show(way.heat_first_c, "temperature_c")
        yield say(
            "heat it to {heat} in the middle before it goes into the dryer: the date rests on that",
            heat=heat,
        )


def _kept(say: Speech, way: Way, sources: Mapping[str, str]) -> Iterator[str]:
    kept = way.vitamin_c
    if kept:
        yield say(
            "{low} to {high} of the vitamin C is kept ({source})",
            low=say.show(kept.least_share, "share"),
            high=say.show(kept.most_share, "share"),
            source=sources.get(kept.source, kept.source),
        )
