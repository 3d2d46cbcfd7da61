"""Checks of a folder that need formulas: heat for raw animal food, weighings, packs taken."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from builder.formulas.safety import (
    HOURS_OUT_OF_COLD,
    MINCED_CENTRE_C,
    WHOLE_CUT_CENTRE_C,
    WHOLE_CUT_REST_MIN,
    centre_temperature_c,
)
from builder.model.batch import Batch
from builder.model.content import Content
from builder.model.food import Food
from builder.model.home import AT_HOME
from builder.model.on_asking import AllOnAsking
from builder.model.recipe import HEATING, Ingredient, Recipe
from builder.model.trip import ENGLISH
from builder.planning.batches import (
    Judged,
    batch_problems,
    judge,
    learned_of,
    name_now,
    own_batches,
)
from builder.planning.cooking import Wait, animal_food_in, waits
from builder.planning.foods import is_game, is_minced, substance_named
from builder.planning.stock.packs import Stock, all_takings, all_that_came_back
from builder.planning.stock.promises import promise_problems
from builder.planning.stock.proposals import coming_for, offers_of
from builder.problems import Problem, ProblemsFound, in_order
from builder.record import replace
from builder.speech import Speech, speech_of


def check(content: Content) -> tuple[Stock, tuple[Problem, ...]]:
    """Give the folder's stock, and every problem that formulas find in it."""
    judged, problems = judge_all(content, speech_of(ENGLISH))
    stock = stock_of(content, judged)
    problems += promise_problems(stock)
    problems += taken_name_problems(content)
    problems += told_twice_problems(content)
    for recipe in content.recipes.values():
        problems += raw_food_problems(recipe, content.foods)
        problems += auto_water_problems(recipe)
        problems += standing_problems(recipe, content)
    problems += swapped_problems(content)
    for each in judged.values():
        problems += batch_problems(each)
    return stock, in_order(problems)


def stock_of(content: Content, judged: Mapping[str, Judged]) -> Stock:
    """Give what lies in stock; who chooses which packs is worked out where a kit tells it."""
    stock = Stock(judged, all_takings(content, judged), all_that_came_back(content))
    return replace(
        stock,
        offers=AllOnAsking(lambda: offers_of(content, stock)),
        coming=AllOnAsking(lambda: coming_for(content, stock)),
    )


def stock_said(content: Content, language: str) -> Stock:
    """Give the folder's stock, said in a language."""
    judged, _ = judge_all(content, speech_of(language))
    return stock_of(content, judged)


def swapped_problems(content: Content) -> list[Problem]:
    """Check each dish with another food in it as if it were a recipe of its own."""
    return [
        replace(problem, place=item.places.of("swap"))
        for trip in content.trips.values()
        for day in trip.days
        for meal in day.meals
        for item in meal.items
        if item.swaps
        for problem in (
            *raw_food_problems(content.dish(item), content.foods),
            *standing_problems(content.dish(item), content),
        )
    ]


def taken_name_problems(content: Content) -> list[Problem]:
    """Refuse a trip of the name that the site of the home has among the kits."""
    trip = content.trips.get(AT_HOME)
    if trip is None:
        return []
    return [
        Problem(
            trip.places.record,
            "name-taken",
            f"a trip cannot be called {AT_HOME}: the site of your home lies there among the kits",
            "give its file another name",
        )
    ]


def told_twice_problems(content: Content) -> list[Problem]:
    """Ask about loads that were logged twice: packs that nobody has would count as stock."""
    first: dict[object, Batch] = {}
    problems = []
    for batch in content.batches.values():
        # Two packets may be alike, and so may two loads that are only planned.
        if batch.is_bought or (batch.is_planned and not batch.in_dryer):
            continue
        day = batch.done or batch.started
        weights = (batch.fresh_g, batch.dried_g, batch.packs)
        load = (batch.holds, batch.method, batch.dryer, day, *weights, batch.notes)
        before = first.setdefault(load, batch)
        if before is not batch:
            problems.append(
                Problem(
                    batch.places.record,
                    "batch-told-twice",
                    f"batch {batch.id} tells the same food, day and weights as batch {before.id} "
                    f"({before.places.record}): its packs count twice",
                    "keep one of them; if there were two such loads, say so in `notes` of one",
                    "warning",
                )
            )
    return problems


def judge_all(content: Content, say: Speech) -> tuple[dict[str, Judged], list[Problem]]:
    """Judge every batch and say why; one whose weighings cannot be gives a problem instead."""
    judged: dict[str, Judged] = {}
    problems: list[Problem] = []
    planned = [batch for batch in content.batches.values() if batch.is_planned]
    for batch in content.batches.values():
        if not batch.is_planned:
            try:
                judged[batch.id] = judge(batch, content, say)
            except ProblemsFound as found:
                problems += found.problems
    # What is done teaches what to expect of what is planned.
    own = own_batches(judged.values()) if planned else {}
    for batch in planned:
        learned = learned_of(substance_named(batch.holds, content), batch.method, own)
        try:
            judged[batch.id] = judge(batch, content, say, learned=learned)
        except ProblemsFound as found:
            problems += found.problems
    return {name: judged[name] for name in content.batches if name in judged}, problems


def batch_names(content: Content, says: Sequence[Speech]) -> list[dict[str, str]]:
    """Name the food of every batch that can be judged by what it is now, in each language."""
    judged, _ = judge_all(content, speech_of(ENGLISH))
    return [{name: _name_in(say, each) for name, each in judged.items()} for say in says]


def _name_in(say: Speech, judged: Judged) -> str:
    said = replace(judged.substance, name=say.name(judged.substance.name))
    return name_now(say, replace(judged, substance=said))


def without_broken(content: Content, judged: Mapping[str, Judged]) -> Content:
    """Give the content with only those trips whose batches could all be judged."""
    trips = {
        name: trip
        for name, trip in content.trips.items()
        if all(batch in judged for batch in trip.batches)
    }
    return replace(content, trips=trips)


def least_reach_c(ingredient: Ingredient, food: Food) -> float:
    """Give the centre temperature that a raw animal food must reach."""
    minced = is_minced(food) or bool(ingredient.dried_by)
    return centre_temperature_c(food.kind, minced, is_game(food))


def raw_food_problems(recipe: Recipe, foods: Mapping[str, Food]) -> list[Problem]:
    """Check that raw animal food is heated through, hot enough, after it was wetted."""
    problems: list[Problem] = []
    for ingredient in recipe.uses:
        food = foods.get(ingredient.food or "")
        if food is None or not food.is_raw_animal:
            continue
        least_c = least_reach_c(ingredient, food)
        place = recipe.places.of("reach")
        if recipe.reach_c is None:
            problems.append(
                Problem(
                    ingredient.places.record,
                    "reach-missing",
                    f"{recipe.id} uses {food.name}, which is raw, and tells no centre temperature",
                    f"write `reach: {_rounded_up(least_c)}`",
                )
            )
        elif recipe.reach_c < least_c - 1e-9:
            problems.append(
                Problem(
                    place,
                    "reach-too-low",
                    f"{recipe.reach_c:.4g} °C in the middle is too little for {food.name}",
                    f"write `reach: {_rounded_up(least_c)}`" + _whole_cut_hint(food, least_c),
                )
            )
        elif least_c == WHOLE_CUT_CENTRE_C and food.kind == "meat":
            problems += _rest_problems(recipe, food)
        if not heated_after_wetting(recipe, ingredient.id):
            problems.append(
                Problem(
                    ingredient.places.record,
                    "not-heated",
                    f"no step of {recipe.id} heats {food.name} once it is in",
                    "add a boil, simmer, fry or press step with it or after it",
                )
            )
    return problems


def _rounded_up(least_c: float) -> str:
    """Give a limit as one writes it, in whole degrees."""
    return f"{math.ceil(least_c)} degC"


def _whole_cut_hint(food: Food, least_c: float) -> str:
    if food.kind == "meat" and food.cut is None and least_c == MINCED_CENTRE_C:
        return ", or tell the food's `cut: whole` if it is carried in one piece"
    return ""


def _rest_problems(recipe: Recipe, food: Food) -> list[Problem]:
    """Check the rest that a whole cut needs below the temperature of minced meat."""
    assert recipe.reach_c is not None
    if recipe.reach_c >= MINCED_CENTRE_C:
        return []
    heats = [number for number, step in enumerate(recipe.steps) if step.do in HEATING]
    rests = [
        step.minutes
        for number, step in enumerate(recipe.steps)
        if step.do == "rest" and heats and number > heats[-1]
    ]
    if sum(rests) >= WHOLE_CUT_REST_MIN:
        return []
    return [
        Problem(
            recipe.places.of("steps"),
            "rest-missing",
            f"{food.name} at {recipe.reach_c:.4g} °C must rest {WHOLE_CUT_REST_MIN:.0f} min "
            "after the heat",
            f"add `- {{do: rest, minutes: {WHOLE_CUT_REST_MIN:.0f}}}` at the end, or "
            f"write `reach: {_rounded_up(MINCED_CENTRE_C)}`",
        )
    ]


def heated_after_wetting(recipe: Recipe, ingredient_id: str) -> bool:
    """Tell whether a step heats an ingredient, at or after the last step that wets it."""
    entered = [number for number, step in enumerate(recipe.steps) if ingredient_id in step.uses]
    wetted = [number for number in entered if recipe.steps[number].do in ("soak", "mix", "boil")]
    start = wetted[-1] if wetted else (entered[0] if entered else len(recipe.steps))
    return any(step.do in HEATING for step in recipe.steps[start:])


def standing_problems(recipe: Recipe, content: Content) -> list[Problem]:
    """Check that no step leaves animal food wet or cooked for longer than it may stand."""
    minutes = [step.minutes for step in recipe.steps]
    problems = {}
    for wait in waits(recipe, minutes):
        food = animal_food_in(wait, recipe, content)
        if food and wait.minutes > HOURS_OUT_OF_COLD * 60:
            problems[wait.step] = Problem(
                recipe.steps[wait.step].places.of("minutes"),
                "stands-too-long",
                f"{_as_it_stands(recipe, wait, food, content)} stands wet for "
                f"{wait.minutes:g} min in {recipe.id}: animal food spoils within "
                f"{HOURS_OUT_OF_COLD * 60:g} min",
                "soak it for a shorter time, soak it in boiled water (`hot: true`), or put it in "
                "later, just before it is boiled",
            )
    return list(problems.values())


def _as_it_stands(recipe: Recipe, wait: Wait, food: Food, content: Content) -> str:
    """Name what stands: a whole dried meal is called what it is, not what it was cooked of."""
    meal = content.recipes.get(recipe.ingredient(wait.name).recipe or "")
    return meal.name if meal else food.name


def auto_water_problems(recipe: Recipe) -> list[Problem]:
    """Warn where auto water gives nothing, since what is dried was bought dried."""
    problems = []
    for step in recipe.steps:
        dried = [recipe.ingredient(name) for name in step.uses]
        if step.water_auto and all(each.dried_by in (None, "bought") for each in dried):
            problems.append(
                Problem(
                    step.places.of("water"),
                    "auto-water",
                    "auto gives 0 ml here: nobody knows what a bought food lost",
                    "write the water the packet tells, such as `water: 250 ml`",
                    "warning",
                )
            )
    return problems
