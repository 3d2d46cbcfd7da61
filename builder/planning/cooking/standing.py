"""How long a recipe's own steps leave food wet or cooked before it is heated again or eaten."""

from __future__ import annotations

import math
from collections.abc import Sequence

from builder.formulas.rehydration import standing_hours
from builder.formulas.safety import HOT_ABOVE_C
from builder.model.content import Content
from builder.model.food import ANIMAL_KINDS, Food
from builder.model.kit import PlannedStep
from builder.model.recipe import HEATING, Ingredient, Recipe
from builder.record import dataclass

_BOILS = frozenset({"boil", "simmer"})
# Plants that spoil once they are wet; sugar, fat, herbs and drinks are too little for germs.
_SPOILS = frozenset({"fruit", "vegetable", "legume", "grain"})


@dataclass(frozen=True, slots=True)
class Wait:
    """The longest that one ingredient stands wet without being heated."""

    name: str  # the ingredient's id
    step: int  # in which its time is up
    minutes: float
    cold: bool  # it was not heated before, only wetted


def poured_off_after(steps: Sequence[PlannedStep]) -> int:
    """Give the step after which water is poured off: the last heat, else the last at the pot."""
    heated = [number for number, step in enumerate(steps) if step.do in HEATING]
    done = [number for number, step in enumerate(steps) if step.do != "serve"]
    return (heated or done or [-1])[-1]


def measured_after(steps: Sequence[PlannedStep]) -> int:
    """Give the step after which the middle is measured: the last that heats, or soaks hot food."""
    last = poured_off_after(steps)
    soaked = [
        number
        for number, step in enumerate(steps)
        if step.do == "soak" and step.hot and step.ingredients and number > last
    ]
    return (soaked or [last])[-1]


def waits(recipe: Recipe, minutes: Sequence[float]) -> list[Wait]:
    """Give how long each ingredient stands, cold and after heat; `minutes` are of the steps."""
    stood_min: dict[str, float] = {}
    longest: dict[tuple[str, bool], Wait] = {}
    wet = False
    cold: dict[str, bool] = {}
    for number, step in enumerate(recipe.steps):
        for name in step.uses:
            stood_min.setdefault(name, 0.0)
            cold.setdefault(name, True)
        wet = wet or step.water_auto or step.water_ml > 0 or step.do in HEATING
        if step.do in HEATING or (step.do == "soak" and step.hot):
            heated = step.uses if step.do == "press" else tuple(stood_min)
            stood_min.update(dict.fromkeys(heated, 0.0))
            cold.update(dict.fromkeys(heated, False))
        if step.do in HEATING or not wet:
            continue
        for name in stood_min:
            stood_min[name] += minutes[number]
            before = longest.get((name, cold[name]))
            if stood_min[name] > (before.minutes if before else 0.0):
                longest[name, cold[name]] = Wait(name, number, stood_min[name], cold[name])
    return list(longest.values())


def foods_of(ingredient: Ingredient, content: Content) -> tuple[Food, ...]:
    """Give the foods of an ingredient; those of a whole dried meal are all in it."""
    if ingredient.recipe:
        inner = content.recipes.get(ingredient.recipe)
        parts = inner.uses if inner else ()
        return tuple(food for each in parts for food in foods_of(each, content))
    food = content.foods.get(ingredient.food or "")
    return (food,) if food else ()


def animal_food_in(wait: Wait, recipe: Recipe, content: Content) -> Food | None:
    """Give the meat, poultry, fish, egg or dairy that stands, if there is any."""
    foods = foods_of(recipe.ingredient(wait.name), content)
    return next((food for food in foods if food.kinds & ANIMAL_KINDS), None)


def plant_that_spoils(wait: Wait, recipe: Recipe, content: Content, air_c: float) -> Food | None:
    """Give the plant food that must not stand so in such air, if there is any.

    What is raw, or was dried raw, and is boiled afterwards may soak overnight; in heat it ferments.
    """
    ingredient = recipe.ingredient(wait.name)
    boiled_after = wait.cold and any(step.do in _BOILS for step in recipe.steps[wait.step + 1 :])
    to_be_boiled = boiled_after and air_c <= HOT_ABOVE_C
    for food in foods_of(ingredient, content):
        cooked = food.state == "cooked" or bool(ingredient.recipe)
        if (food.kind in _SPOILS and not (to_be_boiled and not cooked)) or (
            food.kind in ("meal", "other") and cooked
        ):
            return food
    return None


def stands_at_most_min(air_c: float) -> float:
    """Give how long wet food may stand in such air; endless where that is as cold as a fridge."""
    hours = standing_hours(min(max(air_c, 0.0), 100.0), air_c)
    return hours * 60 if math.isfinite(hours) else math.inf


def may_stand_overnight(recipe: Recipe, number: int, content: Content, air_c: float) -> bool:
    """Tell whether all that a step wets is raw plant food that may soak overnight in such air."""
    before = recipe.steps[: number + 1]
    if any(step.do in HEATING or step.hot for step in before):
        return False
    inside = dict.fromkeys(name for step in before for name in step.uses)
    waiting = [Wait(name, number, 0.0, True) for name in inside]
    return not any(
        animal_food_in(wait, recipe, content) or plant_that_spoils(wait, recipe, content, air_c)
        for wait in waiting
    )


def stands_min(recipe: Recipe, number: int, minutes: Sequence[float]) -> float:
    """Give how long what a step wets stands until it is heated or eaten."""
    total_min = 0.0
    for place, step in enumerate(recipe.steps[number:], start=number):
        if step.do in HEATING:
            break
        total_min += minutes[place]
    return total_min
