"""Puts a trip's open meals, the recipes and the free packs into the bare numbers of a task."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.model.content import Content
from builder.model.kit import Conditions
from builder.model.recipe import MealName, Recipe
from builder.model.trip import Meal, MealItem, Person, Trip
from builder.planning.batches import Judged
from builder.planning.cooking import CookingPlaces, cooking_places
from builder.planning.filling.suiting import Kitchen, obstacles
from builder.planning.filling.task import DayBounds, Dish, Filled, Line, Packs, Slot, Task
from builder.planning.foods import energy_per_100g_kcal
from builder.planning.menu import MenuItem, plan_menu
from builder.planning.stock import (
    Stock,
    amount_wanted_g,
    first_expired,
    fits,
    items_of,
    lines_of,
    may_be_offered,
)

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
class Kind:
    """A dish of the task: its recipe for so many, and the ingredient of each of its lines."""

    recipe: Recipe
    heads: int
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
    meals = tuple(_open_meals(trip, content, kitchen))
    larder = _larder(trip, content, stock)
    marks = _marks(content)
    numbers: dict[tuple[str, int], int] = {}
    kinds: list[Kind] = []
    dishes: list[Dish] = []
    recipes = list(content.recipes)
    cooked = _Cooked(trip, content, stock, kitchen)
    slots = []
    for meal in meals:
        heads = len(meal.eaters)
        fuel: list[tuple[int, float]] = []
        for name, planned in zip(meal.recipes, cooked.at(meal), strict=True):
            if (name, heads) not in numbers:
                numbers[name, heads] = len(kinds)
                recipe = content.recipes[name]
                lines, kcal_more = _lines(planned, larder, content)
                kinds.append(Kind(recipe, heads, tuple(lines)))
                dishes.append(
                    Dish(
                        recipes.index(name),
                        tuple(lines.values()),
                        float(planned.planned.nutrition.energy_kcal) + kcal_more,
                        float(planned.planned.mass_g),
                        marks.get(name, UNTOLD_MARK),
                    )
                )
            fuel.append((numbers[name, heads], float(planned.planned.fuel_heat_kj)))
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
    return Options(trip, meals, larder, tuple(kinds), task)


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
        self.found: dict[tuple[Conditions, int, tuple[str, ...]], tuple[MenuItem, ...]] = {}

    def at(self, meal: OpenMeal) -> tuple[MenuItem, ...]:
        """Give what each recipe that may fill a meal takes there."""
        day = self.trip.days[meal.day]
        key = (self.places.of_meal(day, meal.meal), len(meal.eaters), meal.recipes)
        if key not in self.found:
            names = tuple(each.name for each in meal.eaters)
            tried = Meal(
                meal.meal,
                tuple(
                    MealItem(recipe=name, eaters=names, places=day.places) for name in meal.recipes
                ),
            )
            days = (replace(day, meals=(tried,)),)
            (menu,) = plan_menu(
                replace(self.trip, days=days),
                self.content,
                self.stock.judged,
                self.places,
                self.kitchen.hearth,
            )
            self.found[key] = menu
        return self.found[key]


def _lines(planned: MenuItem, larder: Larder, content: Content) -> tuple[dict[str, Line], float]:
    """Give the lines that packs may cover, and how much more energy such packs hold, about."""
    lines: dict[str, Line] = {}
    kcal_more = 0.0
    by_line = {each.ingredient: each for each in lines_of(planned.item, content)}
    for portion in planned.portions:
        told = by_line[portion.planned.id]
        mass_g = float(portion.planned.amount_g)
        packs = tuple(
            number
            for number, judged in enumerate(larder.judged)
            if judged.batch.holds == told.holds and judged.batch.method == told.method
        )
        if not packs and not told.is_dried:
            continue
        dry_g = mass_g if told.is_dried and told.method != "bought" else 0.0
        lines[portion.planned.id] = Line(mass_g, dry_g, packs)
        if packs:
            held = [float(energy_per_100g_kcal(larder.judged[n].composition)) for n in packs]
            usual = float(energy_per_100g_kcal(portion.composition))
            kcal_more += (sum(held) / len(held) - usual) * mass_g / 100
    return lines, kcal_more


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
