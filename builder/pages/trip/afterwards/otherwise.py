"""If it is otherwise at camp: what one may change on the page, and all figures that follow."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence

from builder.formulas.heat import WIND_FACTOR
from builder.model.figure import Origin, Told
from builder.model.kit import Kit, KitDay, PlannedMeal
from builder.model.mishaps import Otherwise
from builder.pages import words
from builder.pages.figures import Figures, figures_of, number
from builder.pages.pieces import Cell, Piece, Scale, Table, filled, table, text
from builder.pages.trip.origins.leaves import inside
from builder.pages.trip.origins.rows import rows_of
from builder.planning.mishaps import START_CAMP, Leaf, Live, live
from builder.record import dataclass
from builder.speech import Speech, later

# A trip of weeks for dozens would make the page heavy: it is planned anew at home.
_MOST_ROWS = 4000
_OTHERS, _FUEL_LEFT = "others", "fuel left"
_HEADS: dict[Otherwise, str] = {
    "height": later("How high the camps lie"),
    "coldest": later("The coldest air"),
    "warmest": later("The warmest air"),
    "wind": later("The wind"),
}
_KIND_OF = {"mass_g": "g", "volume_ml": "ml", "duration_min": "min"}
_KINDS: dict[Otherwise, str] = {"height": "m", "coldest": "celsius", "warmest": "celsius"}


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the values that may be chosen."""

    value: str
    says: str
    planned: bool


@dataclass(frozen=True, slots=True)
class Control:
    """One number that may be otherwise."""

    key: str
    label: str
    kind: str  # m, celsius or g; "" for a choice
    planned: str
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True)
class Group:
    """What may be otherwise of one kind."""

    title: str
    controls: tuple[Control, ...]


@dataclass(frozen=True, slots=True)
class Person:
    """One who may stay away."""

    name: str
    key: str


@dataclass(frozen=True, slots=True)
class Watch:
    """What is to be heeded where a figure is no longer 1."""

    figure: str
    says: str


@dataclass(frozen=True, slots=True)
class DayAnew:
    """The figures of a day that follow."""

    number: int
    title: str
    dishes: Table
    lines: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class OtherwisePage:
    """What may be changed, what follows, and what is to be heeded then."""

    units: str
    people: tuple[Person, ...]
    groups: tuple[Group, ...]
    fuel: Control | None
    from_days: tuple[Choice, ...]
    watched: tuple[Watch, ...]
    days: tuple[DayAnew, ...]
    figures: Mapping[str, object]


def otherwise_page(kit: Kit) -> OtherwisePage | None:
    """Give what follows what one changes; None where that would be too much for a page.

    A kit for everybody has none: what follows who comes would tell of each of them.
    """
    if kit.public:
        return None
    figures, may = figures_of(kit), live(kit)
    say, keys = figures.say, _keys(kit, may)
    watches = {f"watch.{place}": each.figure for place, each in enumerate(may.watched)}
    data = rows_of({**may.figures, **watches}, keys)
    if len(data.rows) > _MOST_ROWS:
        return None
    shows = _Shows(figures, data.told, may.figures)
    return OtherwisePage(
        kit.units,
        tuple(Person(name, keys[each.origin]) for name, each in may.people.items()),
        tuple(_groups(say, may, keys)),
        _fuel(say, may, keys),
        tuple(
            Choice(keys[each.origin], words.numbered_day(say, day), day == kit.days[0].day)
            for day, each in may.to_come.items()
        ),
        tuple(_watched(kit, say, may)),
        tuple(shows.day(kit, place) for place in range(len(kit.days))),
        {
            "formulas": data.formulas,
            "rows": data.rows,
            "told": data.told,
            "eaters": {
                keys[each]: [place for place, name in enumerate(may.people) if name in who]
                for each, who in may.eaters.items()
            },
            "all": len(may.people),
        },
    )


def _keys(kit: Kit, may: Live) -> dict[Origin, str]:
    """Give the keys that leaves are changed by: where they are told, else what they are."""
    keys: dict[Origin, str] = {may.others.origin: _OTHERS}
    for place, each in enumerate(may.people.values(), start=1):
        keys[each.origin] = f"comes {place}"
    for place, origin in enumerate(may.eaters, start=1):
        keys[origin] = f"eaters {place}"
    for day, each in may.to_come.items():
        keys[each.origin] = f"to come {day}"
    if may.fuel_left is not None:
        keys[may.fuel_left.origin] = _FUEL_LEFT
    for leaf in may.leaves:
        keys[leaf.figure.origin] = _place(kit, leaf)
    return keys


def _place(kit: Kit, leaf: Leaf) -> str:
    origin = leaf.figure.origin
    told = origin.place if isinstance(origin, Told) else getattr(origin, "chosen_at", None)
    return inside(kit, told) if told else f"{leaf.kind} {leaf.days[0]}"


# -- what may be changed ---------------------------------------------------------------------------


def _groups(say: Speech, may: Live, keys: Mapping[Origin, str]) -> Iterator[Group]:
    for kind, head in _HEADS.items():
        controls = tuple(
            _control(say, leaf, keys[leaf.figure.origin])
            for leaf in may.leaves
            if leaf.kind == kind
        )
        if controls:
            yield Group(say(head), controls)


def _control(say: Speech, leaf: Leaf, key: str) -> Control:
    planned = number(leaf.figure)
    choices = (
        ()
        if leaf.kind != "wind"
        else tuple(
            Choice(number(factor), say(words.WINDS[wind]), factor == leaf.figure)
            for wind, factor in WIND_FACTOR.items()
        )
    )
    return Control(key, _days(say, leaf.days), _KINDS.get(leaf.kind, ""), planned, choices)


def _days(say: Speech, days: Sequence[int]) -> str:
    if days[0] == START_CAMP:
        return say("Start camp")
    if len(days) == 1:
        return words.numbered_day(say, days[0])
    return say("Days {list}", list=say.listed(say.number(day) for day in days))


def _fuel(say: Speech, may: Live, keys: Mapping[Origin, str]) -> Control | None:
    left = may.fuel_left
    return Control(keys[left.origin], say("Fuel left"), "g", number(left)) if left else None


# -- what is to be heeded then ---------------------------------------------------------------------


def _watched(kit: Kit, say: Speech, may: Live) -> Iterator[Watch]:
    for place, each in enumerate(may.watched):
        turn = each.turn
        says = say(
            "{level}: {title} ({days}).",
            level=say(words.LEVELS[turn.level]),
            title=turn.title,
            days=_days(say, each.days),
        )
        yield Watch(f"watch.{place}", says)
    for place, day in enumerate(kit.days):
        if f"lasts.{place}" in may.figures:
            says = say(
                "The fuel does not last day {n}: cook less, or soak cold what can be.", n=day.day
            )
            yield Watch(f"lasts.{place}", says)
    for place, fuel in enumerate(kit.fuels):
        if f"carried.{place}" in may.figures:
            says = say(
                "With its reserve that is more {fuel} than you take.", fuel=say.name(fuel.name)
            )
            yield Watch(f"carried.{place}", says)


# -- what follows ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Shows:
    """Shows figures; those that follow say which they are."""

    figures: Figures
    follow: Container[str]
    left: Mapping[str, float]

    def day(self, kit: Kit, place: int) -> DayAnew:
        """Give the figures of a day."""
        day, say = kit.days[place], self.figures.say
        rows = [self._dish(meal, f"days.{place}.meals.{at}") for at, meal in enumerate(day.meals)]
        heads = (say("Dish"), say("Amount"), say("Water"), say("Time"))
        return DayAnew(
            day.day,
            words.numbered_day(say, day.day),
            table(heads, rows, "lrrr"),
            tuple(self._lines(day, f"days.{place}", place)),
        )

    def _dish(self, meal: PlannedMeal, at: str) -> tuple[Cell, ...]:
        return (
            text(meal.title),
            self._shown(meal.mass_g, "mass_g", f"{at}.mass_g"),
            self._shown(meal.water_ml, "volume_ml", f"{at}.water_ml") if meal.water_ml else (),
            self._shown(meal.minutes, "duration_min", f"{at}.minutes") if meal.minutes else (),
        )

    def _lines(self, day: KitDay, at: str, place: int) -> Iterator[Cell]:
        say, water = self.figures.say, day.water
        yield filled(
            say("Water: {total} in all, of it {drinking} to drink. Carry at most {carry} at once."),
            total=self._shown(water.total_ml, "volume_ml", f"{at}.water.total_ml"),
            drinking=self._shown(water.drinking_ml, "volume_ml", f"{at}.water.drinking_ml"),
            carry=self._shown(water.carry_ml, "volume_ml", f"{at}.water.carry_ml"),
        )
        left = f"left.{place}"
        if left in self.left:
            yield filled(
                say("Fuel: {fuel} likely burnt. In the evening {left} are left."),
                fuel=self._shown(day.fuel.fuel_g, "mass_g", f"{at}.fuel_g"),
                left=self._shown(self.left[left], "mass_g", left),
            )
        elif day.fuel.fuel_g:
            fuel = self._shown(day.fuel.fuel_g, "mass_g", f"{at}.fuel_g")
            yield filled(say("Fuel: {fuel} likely burnt."), fuel=fuel)
        if day.fuel.wood_g:
            wood = self._shown(day.fuel.wood_g, "mass_g", f"{at}.wood_g")
            yield filled(say("Wood: {wood} likely burnt."), wood=wood)

    def _shown(self, value: float, quantity: str, figure: str) -> Cell:
        """Give a figure in the trip's units; the script gives it in those that are chosen."""
        kind = _KIND_OF[quantity]
        scale = Scale(kind, value, figure) if figure in self.follow else None
        return (Piece(self.figures.plain(value, quantity), scale=scale),)
