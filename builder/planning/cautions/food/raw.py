"""Conditions of the cautions about raw animal food, and what only heat makes safe."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.safety import FISH_CENTRE_C, POULTRY_CENTRE_C
from builder.model.food import Food
from builder.model.recipe import HEATING
from builder.planning.cautions.facts import (
    Facts,
    Finding,
    at_portion,
    food_in,
    in_meal,
    is_heated,
    meal_said,
)
from builder.planning.foods import hazards_of
from builder.planning.menu import MenuItem, Portion

# As near as a thermometer at camp is read: boiling at sea level is 99.97 °C.
READ_WITHIN_K = 0.5


def raw_dried_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg dried without being heated through, and still to be cooked."""
    for meal, portion in facts.portions():
        raw = portion.planned.is_raw_animal and portion.planned.dried_by and meal.planned.recipe
        if raw and not _thrown_out(portion):
            reach = meal.planned.reach_c
            food = food_in(facts.say, _food_said(facts, portion), meal)
            says = (
                facts.say(
                    "{food}: cook it until the middle reaches {heat}.",
                    food=food,
                    heat=facts.say.show_at_least(reach, facts.trip.units),
                )
                if reach
                else facts.say("{food}.", food=food)
            )
            yield at_portion(says, portion, meal)


def _thrown_out(portion: Portion) -> bool:
    """Tell whether nobody is to eat of the batch at all, cooked or not."""
    return portion.judged is not None and portion.judged.failed


def _food_said(facts: Facts, portion: Portion) -> str:
    name, batch = portion.planned.name, portion.planned.batch
    return facts.say("{food} (batch {id})", food=name, id=batch) if batch else name


def raw_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg carried as it is, to be cooked."""
    for meal, portion in facts.portions():
        if portion.planned.is_raw_animal and not portion.planned.dried_by and meal.planned.recipe:
            food = food_in(facts.say, portion.substance.name, meal)
            says = facts.say("{food} is carried raw.", food=food)
            yield at_portion(says, portion, meal)


def raw_animal_food_eaten(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg that is eaten as it is; a recipe that does so is an error."""
    for meal, portion in facts.portions():
        raw = portion.planned.is_raw_animal and not meal.planned.recipe
        if raw and not _thrown_out(portion):
            says = facts.say(
                "{meal} is raw, and is eaten as it is.", meal=meal_said(facts.say, meal)
            )
            yield at_portion(says, portion, meal)


def game_not_heated(facts: Facts) -> Iterator[Finding]:
    """Raw or cured game that nothing heats to what kills the worms in it."""
    yield from _not_heated(facts, "game", POULTRY_CENTRE_C)


def freshwater_fish_not_heated(facts: Facts) -> Iterator[Finding]:
    """Raw, cured or cold-smoked fish from fresh water that nothing heats through."""
    yield from _not_heated(facts, "freshwater-fish", FISH_CENTRE_C)


def _not_heated(facts: Facts, hazard: str, least_c: float) -> Iterator[Finding]:
    for meal, portion in facts.portions():
        told_raw = portion.planned.is_raw_animal and not meal.planned.recipe
        if told_raw or portion.planned.recipe or _was_heated(portion):
            continue
        for food in portion.substance.foods:
            if hazard in hazards_of(food) and _may_live(food):
                yield from _at_most(facts, meal, portion, food, least_c)


def _was_heated(portion: Portion) -> bool:
    """Tell whether a batch of raw food was heated through before or after it was dried."""
    judged = portion.judged
    return bool(judged and judged.substance.is_raw_animal and not judged.stays_raw)


def _may_live(food: Food) -> bool:
    return food.state == "raw" or bool(hazards_of(food) & {"cured-raw", "raw-fish"})


def _at_most(
    facts: Facts, meal: MenuItem, portion: Portion, food: Food, least_c: float
) -> Iterator[Finding]:
    """Say how hot a meal gets where that is too little, or that nobody told."""
    reach_c = meal.planned.reach_c
    said = food_in(facts.say, food.name, meal)
    least = facts.say.show_at_least(least_c, facts.trip.units)
    if not is_heated(meal, portion):
        says = facts.say(
            "{food} is not cooked; it must reach {heat} in the middle.", food=said, heat=least
        )
    elif reach_c is None:
        says = facts.say(
            "Nobody wrote down how hot {food} gets in the middle; it must reach {heat}.",
            food=said,
            heat=least,
        )
    elif reach_c < least_c:
        says = facts.say(
            "{food} is heated to {reach} in the middle; it must reach {heat}.",
            food=said,
            reach=facts.shown(reach_c, "temperature_c"),
            heat=least,
        )
    else:
        return
    yield at_portion(says, portion, meal)


def reach_above_boiling(facts: Facts) -> Iterator[Finding]:
    """A temperature to reach that water can't give at that height, and nothing else heats."""
    for meal in facts.cooked():
        reach_c, boils_c = meal.planned.reach_c, meal.planned.conditions.boiling_point_c
        hotter = any(step.do in ("fry", "press", "bake") for step in meal.planned.steps)
        locked = any(pot.gauge_kpa for pot in facts.hearth.pots if pot.id == meal.planned.pot)
        if reach_c is None or hotter or locked or reach_c <= boils_c + READ_WITHIN_K:
            continue
        says = facts.say(
            "{meal} is to reach {heat} in the middle, and water boils at {boils} there.",
            meal=meal_said(facts.say, meal),
            heat=facts.say.show_at_least(reach_c, facts.trip.units),
            boils=facts.shown(boils_c, "temperature_c"),
        )
        heated = [place for place, step in enumerate(meal.planned.steps) if step.do in HEATING]
        yield in_meal(says, meal, step=heated[-1] if heated else None)
