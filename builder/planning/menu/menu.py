"""Meals as this party eats them: amounts, packs, food value, and what cooking takes."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from builder.model.batch import Method
from builder.model.content import Content
from builder.model.figure import add, none, nothing, untraced
from builder.model.food import ALLERGENS, Composition, Food
from builder.model.gear import LOOSE_PACKAGING
from builder.model.kit import (
    Conditions,
    NutritionTotals,
    Parting,
    PlannedIngredient,
    PlannedMeal,
)
from builder.model.recipe import MealName, Recipe
from builder.model.trip import Day, Meal, MealItem, Trip
from builder.planning.batches import Judged, name_as_dried, name_now
from builder.planning.cooking import (
    NOT_COOKED,
    ON_EMBERS,
    Cooked,
    CookingPlaces,
    Hearth,
    Ready,
    Share,
    cook,
    cook_parted,
)
from builder.planning.foods import (
    Substance,
    as_usually_dried,
    called,
    energy_per_100g_kcal,
    substance_named,
    substance_of_ingredient,
    substance_of_label,
)
from builder.planning.menu.stands import Stand, as_chosen, soonest_ready, stands_of
from builder.planning.naming import told_apart
from builder.planning.refusals import told_at
from builder.planning.stock import heads, packs_more
from builder.problems import Problem, ProblemsFound
from builder.record import dataclass, replace
from builder.speech import Speech, speech_of

# Of what is eaten as it is, and of what no batch is named for.
_NO_PACKS, _NO_WATER = none("packs"), nothing("water_ml")
_BREWED_SHARE = 0.5  # a tea with more water is in the mug already
# In the three languages, also at the end of a word: Früchtetee, fruktte.
_TEA = re.compile(r"(?:\btea|tee|\bte|frukt-?te|urte-?te)\b")


@dataclass(frozen=True, slots=True)
class Portion:
    """A planned ingredient with the substance and composition behind it."""

    planned: PlannedIngredient
    substance: Substance
    composition: Composition  # of 100 g as carried
    judged: Judged | None
    auto_water_ml: float
    taken_up_ml: float  # of it


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
    say = speech_of(trip.language)
    planner = _MenuPlanner(content, judged, hearth, _batch_names(trip, judged), say)
    return tuple(
        tuple(
            replace(dish, place=place)
            for place, dish in enumerate(
                dish
                for meal in day.meals
                for dish in planner.mealtime(day, meal, places.of_meal(day, meal.meal))
            )
        )
        for day in trip.days
    )


def _batch_names(trip: Trip, judged: Mapping[str, Judged]) -> dict[str, str]:
    """Name the batches of a trip by what they are now, so that no two are called alike."""
    say = speech_of(trip.language)
    return told_apart(say, {batch: name_now(say, judged[batch]) for batch in trip.batches})


class _MenuPlanner:
    def __init__(
        self,
        content: Content,
        judged: Mapping[str, Judged],
        hearth: Hearth,
        batch_names: Mapping[str, str],
        say: Speech,
    ) -> None:
        self.content, self.judged, self.hearth = content, judged, hearth
        self.batch_names, self.say = batch_names, say
        self.opened_g: dict[str, float] = {}  # out of packs that reseal

    def on_embers(self, day: Day, item: MealItem) -> bool:
        """Tell whether something is cooked for which a fire burns down to embers."""
        if item.recipe and (item.heat or day.heat) == "embers":
            return True
        steps = self.content.dish(item).steps if item.recipe else ()
        return any(step.do in ON_EMBERS for step in steps)

    def mealtime(self, day: Day, meal: Meal, conditions: Conditions) -> Iterator[MenuItem]:
        """Plan all that is cooked or eaten together, over as many stoves as there are."""
        stands: Sequence[Stand] = [Stand() for _ in meal.items]
        if len(self.hearth.stoves) > 1:
            stands = self._stands(day, meal, conditions)
        for number, item in enumerate(meal.items):
            embers = any(self.on_embers(day, other) for other in meal.items[:number])
            yield from self.dishes(
                day, meal.meal, item, conditions, has_embers=embers, stand=stands[number]
            )

    def _stands(self, day: Day, meal: Meal, conditions: Conditions) -> Sequence[Stand]:
        """Choose the stove and the pot of each dish, so that all is ready soonest."""
        trial = _MenuPlanner(self.content, self.judged, self.hearth, self.batch_names, self.say)

        @cache
        def begun(number: int) -> tuple[MenuItem, ...]:
            item = meal.items[number]
            return trial.dishes(day, meal.meal, item, conditions, has_embers=False, stand=Stand())

        @cache
        def planned(number: int, stand: Stand) -> tuple[PlannedMeal, ...]:
            item = meal.items[number]
            dishes = begun(number)
            if stand != Stand() and len(dishes) == 1 and item.recipe:
                # The same food on another stove: only how it is cooked is otherwise.
                with told_at(item.places.record, f"{meal.meal} of day {day.number}"):
                    hearth = trial._hearth(day, item, stand)
                    cooked = trial.cooked(item, dishes[0].portions, conditions, hearth, False)
                return (replace(dishes[0].planned, **_as_cooked(as_chosen(cooked, trial.hearth))),)
            if stand != Stand():
                dishes = trial.dishes(
                    day, meal.meal, item, conditions, has_embers=False, stand=stand
                )
            return tuple(each.planned for each in dishes)

        def options(number: int) -> Sequence[Stand]:
            item = meal.items[number]
            told = item.pot or day.pot
            return stands_of(lambda stand: planned(number, stand), self.hearth, told)

        # Of all these trials nothing is told but which was chosen.
        with untraced():
            return soonest_ready(
                [options(number) for number in range(len(meal.items))], planned, self.hearth
            )

    def _hearth(self, day: Day, item: MealItem, stand: Stand) -> Hearth:
        """Give what a dish is cooked on: as the trip tells, else as was chosen for it."""
        told = item.heat or day.heat
        return self.hearth.as_told(told, item.pot or day.pot or stand.pot, stand.stove)

    def item(
        self,
        day: Day,
        meal: MealName,
        item: MealItem,
        conditions: Conditions,
        *,
        has_embers: bool,
        stand: Stand,
    ) -> MenuItem:
        """Plan one thing to cook or eat; its meal may have embers already."""
        with told_at(item.places.record, f"{meal} of day {day.number}"):
            portions = self.cooked_portions(item) if item.recipe else (self.eaten_portion(item),)
            cooked = NOT_COOKED
            if item.recipe:
                hearth = self._hearth(day, item, stand)
                cooked = as_chosen(
                    self.cooked(item, portions, conditions, hearth, has_embers), self.hearth
                )
        return MenuItem(
            self.planned_meal(meal, item, portions, cooked, conditions), portions, item, day.number
        )

    def dishes(
        self,
        day: Day,
        meal: MealName,
        item: MealItem,
        conditions: Conditions,
        *,
        has_embers: bool,
        stand: Stand,
    ) -> tuple[MenuItem, ...]:
        """Plan one thing to cook or eat: two dishes where its pot is parted."""
        if not item.parted:
            return (self.item(day, meal, item, conditions, has_embers=has_embers, stand=stand),)
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
        with told_at(item.places.record, f"{meal} of day {day.number}"):
            lines = [*self.lines(stays)]
            portions = self.packs_shared([*lines, *self.lines(taken)], item.chosen)
            main, other = portions[: len(lines)], portions[len(lines) :]
            parted = cook_parted(
                Share(self.content.dish(stays), _ready(main), heads(stays)),
                Share(self.content.dish(taken), _ready(other), heads(taken)),
                _together(_ready(main), _ready(other)),
                conditions,
                self._hearth(day, item, stand),
                others=self.hearth.pots,
                has_embers=has_embers,
            )
        if parted.pot is None:
            raise ProblemsFound([_no_pot(item, parted.taken_ml)])
        both = (as_chosen(each, self.hearth) for each in (parted.stays, parted.taken))
        stays_there, taken_out = both
        of_main = self.planned_meal(meal, stays, main, stays_there, conditions)
        of_other = self.planned_meal(meal, taken, other, taken_out, conditions)
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
            MenuItem(replace(of_main, parting=parting), main, stays, day.number),
            MenuItem(replace(of_other, begins_in=of_main.title), other, taken, day.number),
        )

    def cooked_portions(self, item: MealItem) -> tuple[Portion, ...]:
        """Scale a recipe's ingredients to those who eat."""
        return self.packs_shared(self.lines(item), item.chosen)

    def lines(self, item: MealItem) -> Iterator[Portion]:
        """Give a recipe's ingredients scaled to those who eat, before packs are opened."""
        recipe = self.content.dish(item)
        scale = heads(item) / recipe.serves
        return (
            self.portion(
                ingredient.id,
                substance_of_ingredient(ingredient, self.content),
                ingredient.amount_g * scale,
                ingredient.dried_by,
                item.batch_of(ingredient.id),
                recipe=ingredient.recipe,
            )
            for ingredient in recipe.uses
        )

    def eaten_portion(self, item: MealItem) -> Portion:
        """Give what is eaten as it is, for all who eat."""
        if item.label:
            substance = substance_of_label(item.label)
        else:
            substance = substance_named(item.food or "", self.content)
        recipe = item.food if item.food in self.content.recipes else None
        amount_g = item.each_g * heads(item)
        portion = self.portion(
            "", substance, amount_g, item.dried_by, item.batch_of(""), recipe=recipe
        )
        return self.packs_shared([portion], item.chosen)[0]

    def packs_shared(
        self, portions: Iterable[Portion], chosen: Collection[str]
    ) -> tuple[Portion, ...]:
        """Let lines of one meal that come from one batch share its packs, rounded up together.

        Packs that reseal are shared by all meals of the trip. The tool chose those of `chosen`.
        """
        amounts_g: dict[str, float] = dict(self.opened_g)
        found = []
        for portion in portions:
            planned, judged = portion.planned, portion.judged
            if judged:
                batch_id = judged.batch.id
                packs, now_g = packs_more(judged, amounts_g.get(batch_id), planned.amount_g)
                planned = replace(planned, packs=packs, chosen=planned.id in chosen)
                portion = replace(portion, planned=planned)
                amounts_g[batch_id] = now_g
                if judged.reseals:
                    self.opened_g[batch_id] = now_g
            found.append(portion)
        return tuple(found)

    def portion(
        self,
        ingredient_id: str,
        substance: Substance,
        amount_g: float,
        dried_by: Method | None,
        batch_id: str | None,
        *,
        recipe: str | None,
    ) -> Portion:
        """Give so much of a substance as it is carried."""
        judged = self.judged[batch_id] if batch_id else None
        if judged:
            name = self.batch_names[judged.batch.id]
            composition, back = judged.composition, judged.water_back
            method: Method | None = judged.batch.method
        else:
            name = name_as_dried(self.say, substance, dried_by)
            composition, back = as_usually_dried(substance, dried_by)
            method = dried_by
        known = substance.id in self.content.foods or recipe is not None
        planned = PlannedIngredient(
            id=ingredient_id,
            name=name,
            food=substance.id if known and recipe is None else None,
            recipe=recipe,
            amount_g=amount_g,
            dried_by=method,
            batch=batch_id,
            packs=_NO_PACKS,  # until it is known what the meals before opened
            density_g_ml=None if method and method != "bought" else substance.density_g_ml,
            piece_g=None if method and method != "bought" else substance.piece_g,
            is_raw_animal=judged.stays_raw if judged else substance.is_raw_animal,
            energy_kcal=energy_per_100g_kcal(composition) * amount_g / 100,
            water_ml=composition.water_g * amount_g / 100,
            steeps=bool(substance.foods) and all(_steeps(food) for food in substance.foods),
        )
        return Portion(
            planned,
            substance,
            composition,
            judged,
            back.poured_ml * amount_g,
            back.taken_up_ml * amount_g,
        )

    def cooked(
        self,
        item: MealItem,
        portions: tuple[Portion, ...],
        conditions: Conditions,
        hearth: Hearth,
        has_embers: bool,
    ) -> Cooked:
        """Walk the recipe's steps for those who eat."""
        share = Share(self.content.dish(item), _ready(portions), heads(item))
        return cook(share, conditions, hearth, has_embers=has_embers)

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

    def packaging_g(self, portions: tuple[Portion, ...]) -> float:
        """Give the mass of what a meal is packed in: its packs, and one bag for all else."""
        packaging = self.content.gear.packaging
        parts_g: list[float] = []
        loose = False
        for portion in portions:
            batch = portion.judged.batch if portion.judged else None
            if batch and batch.packs and batch.packs.packaging:
                parts_g.append(portion.planned.packs * packaging[batch.packs.packaging].mass_g)
            else:
                loose = loose or portion.planned.amount_g > 0
        return add([*parts_g, packaging[LOOSE_PACKAGING].mass_g] if loose else parts_g)

    def planned_meal(
        self,
        meal: MealName,
        item: MealItem,
        portions: tuple[Portion, ...],
        cooked: Cooked,
        conditions: Conditions,
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
            meal=meal,
            title=self.titled(recipe, item) if recipe else portions[0].planned.name,
            recipe=item.recipe,
            food=None if recipe else portions[0].substance.id,
            eaters=item.eaters,
            heads=heads(item),
            plate_shares=tuple(1 / each for each in [heads(item)] * len(item.eaters)),
            cook_in=recipe.cook_in if recipe else None,
            conditions=conditions,
            ingredients=tuple(portion.planned for portion in portions),
            mass_g=add(portion.planned.amount_g for portion in portions),
            packaging_g=self.packaging_g(portions),
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
    return {
        "cooked_on": cooked.cooked_on,
        "pot": cooked.pot.id if cooked.pot else None,
        "stove": cooked.stove,
        "steps": cooked.steps,
        "water_ml": cooked.water_ml,
        "soak_water_ml": cooked.soak_water_ml,
        "unboiled_water_ml": cooked.unboiled_water_ml,
        "potfuls": cooked.potfuls,
        "presses": cooked.presses,
        "heat_kj": cooked.heat_kj,
        "fuel_heat_kj": cooked.fuel_heat_kj,
        "wood_g": cooked.wood_g,
        "ember_wood_g": cooked.ember_wood_g,
        "minutes": cooked.minutes,
        "most_ml": cooked.most_ml,
        "embers_min": cooked.embers_min,
    }


def _ready(portions: Iterable[Portion]) -> dict[str, Ready]:
    """Give portions as the walk through the steps knows them."""
    return {
        portion.planned.id: Ready(
            portion.planned, portion.substance.kind, portion.auto_water_ml, portion.taken_up_ml
        )
        for portion in portions
    }


def _together(main: Mapping[str, Ready], other: Mapping[str, Ready]) -> dict[str, Ready]:
    """Give as much of each ingredient as both have."""
    found = dict(main)
    for name, one in main.items():
        if theirs := other.get(name):
            amount_g = one.planned.amount_g + theirs.planned.amount_g
            found[name] = Ready(
                replace(one.planned, amount_g=amount_g),
                one.kind,
                one.auto_water_ml + theirs.auto_water_ml,
                one.taken_up_ml + theirs.taken_up_ml,
            )
    return found


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


def _steeps(food: Food) -> bool:
    """Tell leaves that are drawn out by hot water from powders that melt in it, and from brews."""
    if food.kind != "drink":
        return food.kind == "herb"
    return food.per_100g.water_share < _BREWED_SHARE and bool(_TEA.search(called(food)))


def _in_order(allergens: Collection[str]) -> tuple[str, ...]:
    """Give allergens in the order of the law."""
    return tuple(name for name in ALLERGENS if name in allergens)


def nutrition_of(portions: tuple[Portion, ...]) -> NutritionTotals:
    """Add up what portions hold."""

    def total(name: str) -> float:
        return add(
            getattr(portion.composition, name) * portion.planned.amount_g / 100
            for portion in portions
        )

    return NutritionTotals(
        energy_kcal=add(portion.planned.energy_kcal for portion in portions),
        protein_g=total("protein_g"),
        fat_g=total("fat_g"),
        carbohydrate_g=total("carbohydrate_g"),
        fibre_g=total("fibre_g"),
        sodium_mg=total("sodium_mg"),
    )
