"""Meals as this party eats them: on which stove each dish is cooked, what that takes and gives."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from builder.model.content import Content
from builder.model.figure import add, nothing, untraced
from builder.model.food import ALLERGENS
from builder.model.kit import Conditions, Parting, PlannedMeal
from builder.model.recipe import MealName, Recipe
from builder.model.trip import Day, MealItem, Trip
from builder.planning.batches import Judged
from builder.planning.cooking import (
    NOT_COOKED,
    ON_EMBERS,
    Cooked,
    CookingPlaces,
    Hearth,
    Share,
    cook,
    cook_parted,
)
from builder.planning.foods import substance_of_ingredient
from builder.planning.menu.portions import (
    Larder,
    Portion,
    nutrition_of,
    packaging_g,
    ready_of,
    together,
)
from builder.planning.menu.stands import Stand, as_chosen, soonest_ready, stands_of
from builder.planning.refusals import told_at
from builder.planning.stock import heads
from builder.problems import Problem, ProblemsFound
from builder.record import dataclass, names_of, replace

_NO_WATER = nothing("water_ml")


@dataclass(frozen=True, slots=True)
class MenuItem:
    """A planned meal with the portions behind it, for cautions, stock and shopping."""

    planned: PlannedMeal
    portions: tuple[Portion, ...]
    item: MealItem
    day: int
    place: int = 0  # in its day


def plan_menu(
    trip: Trip,
    content: Content,
    judged: Mapping[str, Judged],
    places: CookingPlaces,
    hearth: Hearth,
) -> tuple[tuple[MenuItem, ...], ...]:
    """Plan every meal of every day, in file order."""
    planner = _MenuPlanner(Larder(trip, content, judged), hearth)
    return tuple(
        tuple(
            replace(dish, place=place)
            for place, dish in enumerate(
                dish
                for meal in day.meals
                for dish in planner.dishes_of(
                    Mealtime(day, meal.meal, places.of_meal(day, meal.meal)), meal.items
                )
            )
        )
        for day in trip.days
    )


@dataclass(frozen=True, slots=True)
class Mealtime:
    """One meal of a day, and how it is at the camp where it is cooked."""

    day: Day
    meal: MealName
    conditions: Conditions

    @property
    def said(self) -> str:
        """Name it in a message."""
        return f"{self.meal} of day {self.day.number}"


class _MenuPlanner:
    def __init__(self, larder: Larder, hearth: Hearth) -> None:
        self.larder, self.hearth = larder, hearth
        self.content, self.say = larder.content, larder.say

    def on_embers(self, day: Day, item: MealItem) -> bool:
        """Tell whether something is cooked for which a fire burns down to embers."""
        if item.recipe and (item.heat or day.heat) == "embers":
            return True
        steps = self.content.dish(item).steps if item.recipe else ()
        return any(step.do in ON_EMBERS for step in steps)

    def dishes_of(self, at: Mealtime, items: Sequence[MealItem]) -> Iterator[MenuItem]:
        """Plan all that is cooked or eaten together, over as many stoves as there are."""
        stands: Sequence[Stand] = [Stand() for _ in items]
        if len(self.hearth.stoves) > 1:
            stands = self._stands(at, items)
        for number, (item, stand) in enumerate(zip(items, stands, strict=True)):
            embers = any(self.on_embers(at.day, other) for other in items[:number])
            yield from self.dishes(at, item, stand, has_embers=embers)

    def _stands(self, at: Mealtime, items: Sequence[MealItem]) -> Sequence[Stand]:
        """Choose the stove and the pot of each dish, so that all is ready soonest."""
        trial = _MenuPlanner(self.larder.closed(), self.hearth)

        @cache
        def begun(number: int) -> tuple[MenuItem, ...]:
            return trial.dishes(at, items[number], Stand(), has_embers=False)

        @cache
        def planned(number: int, stand: Stand) -> tuple[PlannedMeal, ...]:
            item, dishes = items[number], begun(number)
            if stand != Stand() and len(dishes) == 1 and item.recipe:
                # The same food on another stove: only how it is cooked is otherwise.
                with told_at(item.places.record, at.said):
                    cooked = trial.cooked(at, item, stand, dishes[0].portions, has_embers=False)
                return (replace(dishes[0].planned, **_as_cooked(cooked)),)
            if stand != Stand():
                dishes = trial.dishes(at, item, stand, has_embers=False)
            return tuple(each.planned for each in dishes)

        def options(number: int) -> Sequence[Stand]:
            told = items[number].pot or at.day.pot
            return stands_of(lambda stand: planned(number, stand), self.hearth, told)

        # Of all these trials nothing is told but which was chosen.
        with untraced():
            return soonest_ready(
                [options(number) for number in range(len(items))], planned, self.hearth
            )

    def _hearth(self, day: Day, item: MealItem, stand: Stand) -> Hearth:
        """Give what a dish is cooked on: as the trip tells, else as was chosen for it."""
        told = item.heat or day.heat
        return self.hearth.as_told(told, item.pot or day.pot or stand.pot, stand.stove)

    def item(self, at: Mealtime, item: MealItem, stand: Stand, *, has_embers: bool) -> MenuItem:
        """Plan one thing to cook or eat; its meal may have embers already."""
        with told_at(item.places.record, at.said):
            if item.recipe:
                portions = self.larder.of_dish(item)
                cooked = self.cooked(at, item, stand, portions, has_embers=has_embers)
            else:
                portions, cooked = (self.larder.eaten_as_it_is(item),), NOT_COOKED
        planned = self.planned_meal(at, item, portions, cooked)
        return MenuItem(planned, portions, item, at.day.number)

    def dishes(
        self, at: Mealtime, item: MealItem, stand: Stand, *, has_embers: bool
    ) -> tuple[MenuItem, ...]:
        """Plan one thing to cook or eat: two dishes where its pot is parted."""
        if not item.parted:
            return (self.item(at, item, stand, has_embers=has_embers),)
        stays = replace(
            item,
            eaters=tuple(name for name in item.eaters if name not in item.parted),
            parted=(),
            parted_without=(),
        )
        taken = replace(
            item,
            eaters=item.parted,
            parted=(),
            parted_without=(),
            without=(*item.without, *item.parted_without),
        )
        with told_at(item.places.record, at.said):
            main, other = self.larder.of_two_dishes(stays, taken)
            parted = cook_parted(
                self._share(stays, main),
                self._share(taken, other),
                together(ready_of(main), ready_of(other)),
                at.conditions,
                self._hearth(at.day, item, stand),
                others=self.hearth.pots,
                has_embers=has_embers,
            )
        if parted.pot is None:
            raise ProblemsFound([_no_pot(item, parted.taken_ml)])
        both = (as_chosen(each, self.hearth) for each in (parted.stays, parted.taken))
        stays_there, taken_out = both
        of_main = self.planned_meal(at, stays, main, stays_there)
        of_other = self.planned_meal(at, taken, other, taken_out)
        parting = Parting(
            self.content.dish(stays).part_before or 0,
            of_other.heads,
            parted.taken_g,
            of_other.mass_g,
            of_other.water_ml,
            of_other.minutes,
            parted.pot.name,
            of_other.title,
        )
        return (
            MenuItem(replace(of_main, parting=parting), main, stays, at.day.number),
            MenuItem(replace(of_other, begins_in=of_main.title), other, taken, at.day.number),
        )

    def cooked(
        self,
        at: Mealtime,
        item: MealItem,
        stand: Stand,
        portions: tuple[Portion, ...],
        *,
        has_embers: bool,
    ) -> Cooked:
        """Walk the recipe's steps for those who eat."""
        hearth = self._hearth(at.day, item, stand)
        share = self._share(item, portions)
        return as_chosen(cook(share, at.conditions, hearth, has_embers=has_embers), self.hearth)

    def _share(self, item: MealItem, portions: tuple[Portion, ...]) -> Share:
        return Share(self.content.dish(item), ready_of(portions), heads(item))

    def titled(self, recipe: Recipe, item: MealItem) -> str:
        """Give a dish's name, and what is in it instead of something else."""
        foods = self.content.foods
        left_out = set(item.without)
        swaps = [each for each in item.swaps if each.ingredient not in left_out]
        instead = ", ".join(foods[each.food].name for each in swaps)
        title = f"{recipe.name} ({instead})" if instead else recipe.name
        if not left_out:
            return title
        whole = self.content.recipes[item.recipe or ""].swapped(item.swaps)
        gone = [
            substance_of_ingredient(each, self.content).name
            for each in whole.uses
            if each.id in left_out
        ]
        return self.say("{dish} without {food}", dish=title, food=self.say.listed(gone))

    def planned_meal(
        self, at: Mealtime, item: MealItem, portions: tuple[Portion, ...], cooked: Cooked
    ) -> PlannedMeal:
        """Bring all figures of one meal together; plates are shared out later, by need."""
        recipe = self.content.dish(item) if item.recipe else None
        drain_ml: float = _NO_WATER
        if recipe and recipe.drain_ml:
            drain_ml = recipe.drain_ml * heads(item) / recipe.serves
        own_water_ml = add(portion.planned.water_ml for portion in portions)
        told = {name for portion in portions for name in portion.substance.allergens}
        traces = {name for portion in portions for name in portion.substance.may_contain}
        return PlannedMeal(
            meal=at.meal,
            title=self.titled(recipe, item) if recipe else portions[0].planned.name,
            recipe=item.recipe,
            food=None if recipe else portions[0].substance.id,
            eaters=item.eaters,
            heads=heads(item),
            plate_shares=tuple(1 / each for each in [heads(item)] * len(item.eaters)),
            cook_in=recipe.cook_in if recipe else None,
            conditions=at.conditions,
            ingredients=tuple(portion.planned for portion in portions),
            mass_g=add(portion.planned.amount_g for portion in portions),
            packaging_g=packaging_g(portions, self.content.gear.packaging),
            nutrition=nutrition_of(portions),
            food_water_ml=_drunk_ml(own_water_ml, cooked, drain_ml),
            drain_ml=drain_ml,
            reach_c=recipe.reach_c if recipe else None,
            serves=recipe.serves if recipe else 1.0,
            note=recipe.note if recipe else "",
            picture=recipe.picture if recipe else None,
            place=str(item.places.record),
            allergens=_in_order(told),
            may_contain=_in_order(traces - told),
            not_told=tuple(
                dict.fromkeys(food.name for each in portions for food in each.substance.untold)
            ),
            **_as_cooked(cooked),
        )


def _as_cooked(cooked: Cooked) -> dict[str, Any]:
    """Give what of a meal hangs on what it is cooked on and in."""
    told = {name: getattr(cooked, name) for name in names_of(Cooked)}
    return told | {"pot": cooked.pot.id if cooked.pot else None}


def _no_pot(item: MealItem, volume_ml: float) -> Problem:
    names = ", ".join(item.parted)
    return Problem(
        item.places.record,
        "no-other-pot",
        f"what is parted for {names} asks for another pot that holds {volume_ml:.0f} ml, and this "
        "trip has none",
        "name one in `stove: {pots: […]}` or `fire: {pots: […]}`, or cook a dish of their own "
        "for them (`for:`)",
    )


def _drunk_ml(own_ml: float, cooked: Cooked, drain_ml: float) -> float:
    """Give what is drunk with the food: its own water and what is cooked into it."""
    drunk_ml = own_ml + cooked.water_ml if cooked.water_ml else own_ml
    return drunk_ml - drain_ml if drain_ml else drunk_ml


def _in_order(allergens: Collection[str]) -> tuple[str, ...]:
    """Give allergens in the order of the law."""
    return tuple(name for name in ALLERGENS if name in allergens)
