"""What may be otherwise at camp, and the figures that follow from it.

Everything here is built of the figures of the plan: who reads a page of it works out the same
expressions, with other leaves. What must not be worked out so carries a guard, which turns.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.model.figure import (
    Count,
    Figure,
    Found,
    Origin,
    Reckoned,
    Told,
    Traced,
    Worked,
    add,
    behind,
    found,
    holds,
)
from builder.model.kit import Conditions, Kit, PlannedMeal
from builder.model.mishaps import OTHERWISE, Otherwise, Turn
from builder.planning.tracing import traced
from builder.record import dataclass

_COLDER: frozenset[Otherwise] = frozenset({"coldest", "wind"})  # the less, the worse
_EATERS = "eaters"
START_CAMP = 0  # in place of a day
NOBODY = found(0.0, "others_come", "as told")


@dataclass(frozen=True, slots=True)
class Leaf:
    """A number of the plan that may be otherwise, and the days whose camps have it."""

    kind: Otherwise
    figure: Figure
    days: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Watched:
    """A caution that is needed where its figure is no longer 1."""

    turn: Turn
    days: tuple[int, ...]
    figure: Figure


@dataclass(frozen=True, slots=True)
class Live:
    """What may be otherwise, and all that follows, by the ids of the figures."""

    leaves: tuple[Leaf, ...]
    people: Mapping[str, Figure]  # 1 for who comes
    others: Figure  # how many come besides
    eaters: Mapping[Origin, tuple[str, ...]]  # who eats, by the leaf that counts them
    to_come: Mapping[int, Figure]  # by day: 1 for what is still to come
    fuel_left: Figure | None
    figures: Mapping[str, float]
    watched: tuple[Watched, ...]


def live(kit: Kit) -> Live:
    """Give what may be otherwise on a trip, and what follows."""
    people = {each.name: found(1.0, f"comes ({each.name})", "as told") for each in kit.party}
    eaters, unsure = _eaters(kit)
    anew = _Anew(people=people, unsure=unsure)
    to_come = {day.day: found(1.0, f"to_come (day {day.day})", "as told") for day in kit.days}
    figures = {name: anew.of(traced(value)) for name, value in _told(kit)}
    fuel_left = None
    # Of several fuels none takes the place of another: what is left is asked of one alone.
    if len(kit.fuels) == 1 and kit.fuels[0].likely_g:
        (fuel,) = kit.fuels
        held_g = sum(float(each.holds_g * each.count) for each in fuel.containers)
        fuel_left = found(held_g or float(fuel.carry_g), "fuel_left_g", "as told")
        figures |= _of_fuel(kit, anew, fuel_left, to_come)
    leaves = tuple(_leaves(kit))
    watched = tuple(_watched(kit, leaves))
    return Live(leaves, people, NOBODY, eaters, to_come, fuel_left, figures, watched)


def _told(kit: Kit) -> Iterator[tuple[str, float]]:
    """Give the figures of a plan that one asks for anew at camp."""
    for place, day in enumerate(kit.days):
        at = f"days.{place}"
        for number, meal in enumerate(day.meals):
            yield f"{at}.meals.{number}.mass_g", meal.mass_g
            if meal.recipe:
                yield f"{at}.meals.{number}.water_ml", meal.water_ml
                yield f"{at}.meals.{number}.minutes", meal.minutes
        yield f"{at}.water.total_ml", day.water.total_ml
        yield f"{at}.water.drinking_ml", day.water.drinking_ml
        yield f"{at}.water.carry_ml", day.water.carry_ml
        yield f"{at}.fuel_g", day.fuel.fuel_g
        if day.fuel.wood_g:
            yield f"{at}.wood_g", day.fuel.wood_g
    for place, fuel in enumerate(kit.fuels):
        if fuel.containers:
            held_g = add(each.holds_g * each.count for each in fuel.containers)
            yield f"carried.{place}", holds(fuel.carry_g, "<=", held_g)


def _of_fuel(
    kit: Kit, anew: _Anew, left: Figure, to_come: Mapping[int, Figure]
) -> Iterator[tuple[str, Figure]]:
    """Give what is left of the fuel each evening, and whether it lasts; all of it from a day on."""
    burnt: list[Figure] = []
    for place, day in enumerate(kit.days):
        burnt.append(to_come[day.day] * anew.of(traced(day.fuel.fuel_g)))
        left_g = left - add(burnt)
        yield f"left.{place}", left_g
        yield f"lasts.{place}", holds(0.0, "<=", left_g)


def _eaters(kit: Kit) -> tuple[dict[Origin, tuple[str, ...]], frozenset[Origin]]:
    """Give who eats by the leaf that counts them, and the leaves that nobody here can count."""
    counted: dict[Origin, set[float]] = {}
    unsure: set[Origin] = set()
    eaters: dict[Origin, tuple[str, ...]] = {}
    for day in kit.days:
        for meal in day.meals:
            parted = meal.parting is not None or meal.begins_in is not None
            for leaf in _counts(meal):
                counted.setdefault(leaf.origin, set()).add(float(leaf))
                if parted:
                    unsure.add(leaf.origin)
            if isinstance(meal.heads, (Figure, Count)):
                eaters[meal.heads.origin] = meal.eaters
    unsure |= {origin for origin, values in counted.items() if len(values) > 1}
    unsure |= counted.keys() - eaters.keys()
    return {each: who for each, who in eaters.items() if each not in unsure}, frozenset(unsure)


def _counts(meal: PlannedMeal) -> Iterator[Traced]:
    """Give the leaves that count eaters, of all that a meal is worked out of."""
    seen: set[int] = set()
    told = (meal.heads, meal.mass_g, meal.water_ml, meal.fuel_heat_kj, meal.minutes)
    waiting: list[float] = list(told)
    while waiting:
        each = waiting.pop()
        if not isinstance(each, (Figure, Count)) or id(each) in seen:
            continue
        seen.add(id(each))
        waiting += behind(each.origin)
        if _counts_eaters(each):
            yield each


class _Rebuilt:
    """Builds figures again of other leaves."""

    def __init__(self) -> None:
        self._built: dict[int, tuple[Traced, Traced]] = {}

    def of(self, figure: Traced) -> Traced:
        """Give a figure built again; one that nothing changes stays itself."""
        known = self._built.get(id(figure))
        if known is None:
            known = self._built[id(figure)] = (figure, self._build(figure))
        return known[1]

    def _build(self, figure: Traced) -> Traced:
        origin = figure.origin
        if isinstance(origin, Worked):
            inputs = tuple(
                (name, tuple(map(self.of, each)) if isinstance(each, tuple) else self.of(each))
                for name, each in origin.inputs
            )
            is_same = all(map(_is_same, inputs, origin.inputs))
            return figure if is_same else _come_from(figure, Worked(origin.formula, inputs))
        return self.reckoned(figure, origin) if isinstance(origin, Reckoned) else self.leaf(figure)

    def reckoned(self, figure: Traced, origin: Reckoned) -> Traced:
        """Give plain arithmetic with its parts built again."""
        parts = tuple(
            self.of(each) if isinstance(each, (Figure, Count)) else each for each in origin.parts
        )
        guards = tuple(each for each in map(self.of, origin.guards) if isinstance(each, Figure))
        is_same = _is_same(parts, origin.parts) and _is_same(guards, origin.guards)
        return figure if is_same else _come_from(figure, Reckoned(origin.do, parts, guards))

    def leaf(self, figure: Traced) -> Traced:
        """Give what stands in place of a leaf."""
        return figure


class _OfOne(_Rebuilt):
    """What is one person's own: it does not hang on how many share a meal with them."""

    def leaf(self, figure: Traced) -> Traced:
        """Count those who eat as planned, whoever comes."""
        if not _counts_eaters(figure):
            return figure
        return _come_from(figure, Found(_EATERS, "as planned"))


class _Anew(_Rebuilt):
    """Builds figures again so that they follow who comes."""

    def __init__(self, people: Mapping[str, Figure], unsure: frozenset[Origin]) -> None:
        super().__init__()
        self.people, self.unsure = people, unsure
        self._own = _OfOne()

    def reckoned(self, figure: Traced, origin: Reckoned) -> Traced:
        """Count in a sum over people those who come; what others would need nobody told."""
        if not origin.whose:
            return super().reckoned(figure, origin)
        parts = tuple(
            self.people[name] * self._own.of(traced(part))
            for name, part in zip(origin.whose, origin.parts, strict=True)
        )
        return _come_from(figure, Reckoned(origin.do, parts, (self._nobody_else(),)))

    def leaf(self, figure: Traced) -> Traced:
        """Hold a number of eaters that nobody here can count to the plan."""
        if figure.origin not in self.unsure:
            return figure
        everybody = holds(float(len(self.people)), "<=", add(self.people.values()))
        return _come_from(figure, Reckoned("", (figure,), (everybody, self._nobody_else())))

    def _nobody_else(self) -> Figure:
        return holds(NOBODY, "<=", 0.0)


def _counts_eaters(figure: Traced) -> bool:
    return isinstance(figure.origin, Told) and figure.origin.name == _EATERS


def _come_from(figure: Traced, origin: Origin) -> Traced:
    """Give the same number with another origin."""
    if isinstance(figure, Count):
        return Count(int(figure), origin)
    return Figure(float(figure), origin)


def _is_same(built: object, before: object) -> bool:
    """Tell whether nothing in it was built anew."""
    if isinstance(built, tuple) and isinstance(before, tuple):
        return len(built) == len(before) and all(map(_is_same, built, before))
    return built is before or isinstance(built, str)


def _leaves(kit: Kit) -> Iterator[Leaf]:
    """Give what may be otherwise of the camps, each number once, with the days that have it."""
    camps = [(day.day, day.conditions) for day in kit.days]
    # The first breakfast may be cooked at a camp of its own.
    first = next((meal for meal in kit.days[0].meals if meal.meal == "breakfast"), None)
    if first is not None and first.conditions != kit.days[0].conditions:
        camps.insert(0, (START_CAMP, first.conditions))
    for kind in OTHERWISE:
        found_at: dict[Origin, tuple[Figure, list[int]]] = {}
        for day, here in camps:
            value = value_of(kind, here)
            if isinstance(value, Figure) and not isinstance(value.origin, (Worked, Reckoned)):
                found_at.setdefault(value.origin, (value, []))[1].append(day)
        for figure, days in found_at.values():
            yield Leaf(kind, figure, tuple(days))


def value_of(kind: Otherwise, here: Conditions) -> float:
    """Give what of a camp may be otherwise; a height that a barometer told is none of it."""
    if kind == "height":
        is_told = isinstance(here.pressure_hpa, Figure) and isinstance(
            here.pressure_hpa.origin, (Worked, Reckoned)
        )
        return here.altitude_m if is_told else float(here.altitude_m)
    if kind == "wind":
        return here.wind_factor
    return here.air_low_c if kind == "coldest" else here.air_high_c


def _watched(kit: Kit, leaves: Sequence[Leaf]) -> Iterator[Watched]:
    """Give each caution that would be needed, for each camp that is not beyond its limit yet."""
    for turn in kit.turns:
        for leaf in leaves:
            days = tuple(day for day in leaf.days if day in turn.days)
            if leaf.kind != turn.kind or not days:
                continue
            limit = Figure(turn.limit, Found(f"limit ({turn.caution})", "found by trying"))
            ends = (limit, leaf.figure) if turn.kind in _COLDER else (leaf.figure, limit)
            is_well = holds(ends[0], "<=", ends[1])
            if is_well:
                yield Watched(turn, days, is_well)
