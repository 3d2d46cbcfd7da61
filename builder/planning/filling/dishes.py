"""Puts a trip's open meals, the recipes and the free packs into the bare numbers of a task."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from typing import Self

from builder.model.content import Content
from builder.model.recipe import MealName, Recipe
from builder.model.trip import Day, Meal, MealItem, Person, Trip
from builder.planning.batches import Judged
from builder.planning.cooking import CookingPlaces, cooking_places
from builder.planning.filling.suiting import Kitchen, obstacles
from builder.planning.filling.task import DayBounds, Dish, Filled, Line, Packs, Slot, Task
from builder.planning.foods import energy_per_100g_kcal
from builder.planning.menu import MenuItem, Portion, parted, plan_menu
from builder.planning.stock import (
    IngredientLine,
    Stock,
    amount_wanted_g,
    first_expired,
    fits,
    items_of,
    lines_of,
    may_be_offered,
)
from builder.problems import ProblemsFound
from builder.record import dataclass, replace

UNTOLD_MARK = 3.0  # of a recipe that no review tells: in the middle


@dataclass(frozen=True, slots=True)
class OpenMeal:
    """A meal that is to be filled, and who eats of it."""

    day: int  # from 0
    place: int  # of the meal in its day
    meal: MealName
    eaters: tuple[Person, ...]
    recipes: tuple[str, ...]  # that may fill it


@dataclass(frozen=True, slots=True)
class Larder:
    """Free packs that may be taken, first-expired first, with what the task tells of them."""

    judged: tuple[Judged, ...]
    packs: tuple[Packs, ...]


@dataclass(frozen=True, slots=True)
class Parts:
    """Who gets theirs out of a dish before something goes in, and what all go without."""

    parted: tuple[str, ...]
    parted_without: tuple[str, ...]
    without: tuple[str, ...]

    @classmethod
    def of(cls, item: MealItem) -> Self:
        """Give those of a dish."""
        return cls(item.parted, item.parted_without, item.without)


@dataclass(frozen=True, slots=True)
class Kind:
    """A dish of the task: its recipe for so many, and the ingredient of each of its lines."""

    recipe: Recipe
    heads: int
    parts: Parts
    ingredients: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Options:
    """All that may fill a trip's open meals."""

    trip: Trip
    meals: tuple[OpenMeal, ...]
    larder: Larder
    kinds: tuple[Kind, ...]  # by dish of the task
    task: Task  # its days are still unbounded

    def trip_with(self, filled: Filled) -> Trip:
        """Give the trip with its open meals filled."""
        trip = self.trip
        for open_meal, dish, packs in zip(self.meals, filled.dishes, filled.packs, strict=True):
            trip = with_dish(trip, open_meal, self.item(open_meal, dish, packs))
        return trip

    def item(self, meal: OpenMeal, dish: int, packs: Sequence[int | None]) -> MealItem:
        """Give what a dish is to a trip."""
        kind = self.kinds[dish]
        return MealItem(
            recipe=kind.recipe.id,
            batches=self.batches(dish, packs),
            eaters=tuple(each.name for each in meal.eaters),
            parted=kind.parts.parted,
            parted_without=kind.parts.parted_without,
            without=kind.parts.without,
            places=self.trip.days[meal.day].places,
        )

    def batches(self, dish: int, packs: Sequence[int | None]) -> tuple[tuple[str, str], ...]:
        """Give the batch of each ingredient that packs cover."""
        return tuple(
            (ingredient, self.larder.judged[pack].batch.id)
            for ingredient, pack in zip(self.kinds[dish].ingredients, packs, strict=True)
            if pack is not None
        )


def with_dish(trip: Trip, at: OpenMeal, item: MealItem) -> Trip:
    """Give a trip with one open meal filled."""
    day = trip.days[at.day]
    meal = day.meals[at.place]
    filled = replace(meal, items=(*meal.items, item), is_open=False)
    day = replace(day, meals=(*day.meals[: at.place], filled, *day.meals[at.place + 1 :]))
    return replace(trip, days=(*trip.days[: at.day], day, *trip.days[at.day + 1 :]))


def options_of(trip: Trip, content: Content, stock: Stock) -> Options:
    """Give what may fill the open meals of a trip; its days are bounded once needs are known."""
    kitchen = Kitchen.of(trip, content)
    meals = []
    larder = _larder(trip, content, stock)
    marks = _marks(content)
    numbers: dict[tuple[str, int, Parts], int] = {}
    kinds: list[Kind] = []
    dishes: list[Dish] = []
    recipes = list(content.recipes)
    cooked = _Cooked(trip, content, stock, kitchen)
    slots = []
    for meal in _open_meals(trip, content, kitchen):
        heads = len(meal.eaters)
        fuel: list[tuple[int, float]] = []
        names = []
        for item, pots in cooked.at(meal):
            name, parts = item.recipe or "", Parts.of(item)
            names.append(name)
            if (name, heads, parts) not in numbers:
                numbers[name, heads, parts] = len(kinds)
                lines, kcal_more = _lines(pots, larder, content)
                kinds.append(Kind(content.recipes[name], heads, parts, tuple(lines)))
                dishes.append(
                    Dish(
                        recipes.index(name),
                        tuple(lines.values()),
                        sum(float(each.planned.nutrition.energy_kcal) for each in pots) + kcal_more,
                        sum(float(each.planned.mass_g) for each in pots),
                        marks.get(name, UNTOLD_MARK),
                    )
                )
            fuel_kj = sum(float(each.planned.fuel_heat_kj) for each in pots)
            fuel.append((numbers[name, heads, parts], fuel_kj))
        meals.append(replace(meal, recipes=tuple(names)))
        slots.append(Slot(meal.day + 1, meal.meal == "dinner", tuple(fuel)))
    days = sorted({meal.day + 1 for meal in meals})
    task = Task(
        tuple(slots),
        tuple(dishes),
        larder.packs,
        tuple(DayBounds(day, 0.0, float("inf")) for day in days),
        tuple(
            (day.number, recipes.index(item.recipe))
            for day in trip.days
            for meal in day.meals
            if meal.meal == "dinner"
            for item in meal.items
            if item.recipe
        ),
    )
    return Options(trip, tuple(meals), larder, tuple(kinds), task)


def _open_meals(trip: Trip, content: Content, kitchen: Kitchen) -> list[OpenMeal]:
    found = []
    for number, day in enumerate(trip.days):
        for place, meal in enumerate(day.meals):
            if meal.is_open:
                without = day.without_of(meal.meal)
                eaters = tuple(each for each in trip.party if each.name not in without)
                suit = tuple(
                    name
                    for name, recipe in content.recipes.items()
                    if not obstacles(recipe, meal.meal, eaters, kitchen, content)
                )
                found.append(OpenMeal(number, place, meal.meal, eaters, suit))
    return found


class _Cooked:
    """What recipes take at a camp; meals under the same conditions are cooked once."""

    def __init__(self, trip: Trip, content: Content, stock: Stock, kitchen: Kitchen) -> None:
        self.trip, self.content, self.stock, self.kitchen = trip, content, stock, kitchen
        self.places: CookingPlaces = cooking_places(trip)
        self.found: dict[object, tuple[tuple[MenuItem, ...], ...]] = {}

    def at(self, meal: OpenMeal) -> Iterator[tuple[MealItem, tuple[MenuItem, ...]]]:
        """Give each recipe that may fill a meal with the pots it is cooked in: two where parted.

        One that is to be parted, and for whose part no pot is large enough, is left out.
        """
        day = self.trip.days[meal.day]
        names = tuple(each.name for each in meal.eaters)
        items = [
            parted(MealItem(recipe=name, eaters=names, places=day.places), self.trip, self.content)
            for name in meal.recipes
        ]
        key = (
            self.places.of_meal(day, meal.meal),
            len(names),
            tuple((each.recipe, Parts.of(each)) for each in items),
        )
        if key not in self.found:
            whole = iter(self._menu(day, meal.meal, [each for each in items if not each.parted]))
            self.found[key] = tuple(
                self._in_two_pots(day, meal.meal, each) if each.parted else (next(whole),)
                for each in items
            )
        yield from ((each, pots) for each, pots in zip(items, self.found[key], strict=True) if pots)

    def _in_two_pots(self, day: Day, meal: MealName, item: MealItem) -> tuple[MenuItem, ...]:
        try:
            return self._menu(day, meal, [item])
        except ProblemsFound:
            return ()

    def _menu(self, day: Day, meal: MealName, items: Sequence[MealItem]) -> tuple[MenuItem, ...]:
        (menu,) = plan_menu(
            replace(self.trip, days=(replace(day, meals=(Meal(meal, tuple(items)),)),)),
            self.content,
            self.stock.judged,
            self.places,
            self.kitchen.hearth,
        )
        return menu


def _lines(
    pots: Sequence[MenuItem], larder: Larder, content: Content
) -> tuple[dict[str, Line], float]:
    """Give the lines that packs may cover, and how much more energy such packs hold, about."""
    lines: dict[str, Line] = {}
    kcal_more = 0.0
    for told, portion in _lines_of_pots(pots, content):
        mass_g = float(portion.planned.amount_g)
        packs = tuple(
            number
            for number, judged in enumerate(larder.judged)
            if judged.batch.holds == told.holds and judged.batch.method == told.method
        )
        if not packs and not told.is_dried:
            continue
        before = lines.get(portion.planned.id, Line(0.0, 0.0, packs))
        dry_g = mass_g if told.is_dried and told.method != "bought" else 0.0
        lines[portion.planned.id] = Line(before.mass_g + mass_g, before.dry_g + dry_g, packs)
        if packs:
            held = [float(energy_per_100g_kcal(larder.judged[n].composition)) for n in packs]
            usual = float(energy_per_100g_kcal(portion.composition))
            kcal_more += (sum(held) / len(held) - usual) * mass_g / 100
    return lines, kcal_more


def _lines_of_pots(
    pots: Sequence[MenuItem], content: Content
) -> Iterator[tuple[IngredientLine, Portion]]:
    for pot in pots:
        by_line = {each.ingredient: each for each in lines_of(pot.item, content)}
        yield from ((by_line[each.planned.id], each) for each in pot.portions)


def _larder(trip: Trip, content: Content, stock: Stock) -> Larder:
    """Give the free packs that keep until the trip at least, and are made before it."""
    opened_g = _opened_g(trip, content)
    judged = [
        each
        for each in sorted(filter(may_be_offered, stock.judged.values()), key=first_expired)
        if fits(each, trip, trip.start)
        and (_free(each, trip, stock) > 0 or (each.reseals and each.batch.id in opened_g))
    ]
    first = min((each.best_before for each in judged if each.best_before), default=None)
    packs = []
    for each in judged:
        begins = trip.start or first
        left = (each.best_before - begins).days if each.best_before and begins else 0
        packs.append(
            Packs(
                free=max(_free(each, trip, stock), 0),
                pack_g=float(each.pack_g),
                days_left=float(left),
                last_day=left + 1 if trip.start else len(trip.days),
                reseals=each.reseals,
                opened_g=opened_g.get(each.batch.id, 0.0) if each.reseals else 0.0,
            )
        )
    return Larder(tuple(judged), tuple(packs))


def _free(judged: Judged, trip: Trip, stock: Stock) -> int:
    """Give the packs of a batch that no trip takes, for a trip that begins on its day."""
    back = stock.back_before(judged.batch.id, trip.start or datetime.date.max)
    return stock.free_unless_back(judged.batch) + back


def _opened_g(trip: Trip, content: Content) -> dict[str, float]:
    """Give how much the meals that are not open take of each batch."""
    found: dict[str, float] = {}
    for at in items_of(trip):
        for ingredient, batch in at.item.batches:
            mass_g = float(amount_wanted_g(at.item, ingredient, content))
            found[batch] = found.get(batch, 0.0) + mass_g
    return found


def _marks(content: Content) -> dict[str, float]:
    """Give the mean of what reviews of trips think of each recipe, in halves."""
    told: dict[str, list[int]] = {}
    for trip in content.trips.values():
        for recipe, mark in trip.review.marks if trip.review else ():
            told.setdefault(recipe, []).append(mark)
    return {name: round(2 * sum(each) / len(each)) / 2 for name, each in told.items()}
