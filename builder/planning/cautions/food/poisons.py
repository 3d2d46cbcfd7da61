"""Conditions of the cautions about foods that are poisonous, or spoil unseen."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.formulas.safety import (
    BEANS_BOIL_MIN,
    BEANS_SOAK_MIN,
    BEANS_UP_TO_M,
    home_canned_boil_min,
)
from builder.model.food import Food
from builder.model.recipe import HEATING, Recipe
from builder.planning.cautions.facts import (
    Facts,
    Finding,
    at_portion,
    food_in,
    holds,
    is_heated,
    step_with,
)
from builder.planning.foods import called, hazards_of
from builder.planning.menu import MenuItem, Portion

# Beans of the kidney bean's own species, which hold its poison too: English, German, Norwegian.
_BEANS = re.compile(
    r"\b(black|white|navy|haricot|pinto|cannellini|borlotti|great northern|turtle|red|common)"
    r"[- ]beans?|cannellini|borlotti"
    r"|\b(schwarze|weiße|rote|braune)[a-z]* bohnen?|pintobohne|wachtelbohne"
    r"|\b(svarte|hvite|røde|brune) bønner|pintobønne"
)
_POISON_STATES = ("raw", "dried")
# What is not eaten uncooked: pulses, green beans, and flour that no heat made safe.
_UNCOOKED = re.compile(
    r"lentil|chickpea|soya? ?beans?\b|(broad|fava|mung|adzuki|lima|butter) beans?|lupin"
    r"|black-eyed pea|split pea|(green|wax|runner|french) beans?|\bflour"
    r"|linse|kichererbse|soja ?bohne|(acker|mung|adzuki|wachs|busch|stangen|lima)-?bohne"
    r"|(dicke|grüne)n? bohne|(schäl|augen)erbse|halberbse|mehl\b"
    r"|kikert|soyabønne|(bonde|mung|adzuki|voks|brekk)-?bønne|grønne bønner|[a-zæøå]mel\b"
)
_OTHER_THAN_RAW = re.compile(
    r"carob|potato|masa\b|toasted|sprout|noodle|johannisbrot|kartoffel|geröstet|spross|nudel"
    r"|potet|ristet|spire"
)
# Of 100 g; what is sold ready to drink holds more, and is free of germs until it is opened.
_POWDER_BELOW_G = 20.0
_UNCOOKED_KINDS = frozenset({"grain", "legume", "vegetable"})


def raw_beans(facts: Facts) -> Iterator[Finding]:
    """Beans with lectin that were dried raw, and are not soaked and boiled hard for long enough."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            if not _holds_lectin(food):
                continue
            says = _too_little(facts, meal, portion, food)
            if says:
                yield at_portion(says, portion, meal)


def uncooked(facts: Facts) -> Iterator[Finding]:
    """Raw pulses, green beans or flour that no step cooks; beans with lectin are told apart."""
    for meal, portion in facts.portions():
        steps = meal.planned.steps[step_with(meal, portion) or 0 :]
        if portion.planned.recipe or any(step.do in HEATING for step in steps):
            continue
        for food in portion.substance.foods:
            if never_raw(food) and not _holds_lectin(food):
                yield holds(facts, food, portion, meal)


def never_raw(food: Food) -> bool:
    """Tell whether nobody is to eat it uncooked, as its name tells in any language."""
    if food.kind not in _UNCOOKED_KINDS or food.state not in _POISON_STATES:
        return False
    words = called(food)
    return bool(_UNCOOKED.search(words)) and not _OTHER_THAN_RAW.search(words)


def _holds_lectin(food: Food) -> bool:
    if food.state not in _POISON_STATES:
        return False
    by_name = food.kind == "legume" and _BEANS.search(called(food))
    return "kidney-bean" in hazards_of(food) or bool(by_name)


def _too_little(facts: Facts, meal: MenuItem, portion: Portion, food: Food) -> str:
    """Say what the beans' soak and boil lack; "" where they lack nothing."""
    said, here = food_in(facts.say, food.name, meal), meal.planned.conditions
    if portion.planned.recipe:
        inner = facts.content.recipes[portion.planned.recipe]
        lines = [line.id for line in inner.uses if line.food == food.id]
        times = [_times(inner, [step.minutes for step in inner.steps], each) for each in lines]
        soak_min, boil_min = min(times, default=(0.0, 0.0))
    elif meal.planned.recipe:
        recipe = facts.content.dish(meal.item)
        # A boil that lasts longer only because it is cooler up there does no more.
        minutes = [step.minutes_at_sea_level for step in meal.planned.steps]
        soak_min, boil_min = _times(recipe, minutes, portion.planned.id)
    else:
        soak_min = boil_min = 0.0
    if here.altitude_m > BEANS_UP_TO_M and not portion.planned.recipe:
        return facts.say(
            "{food}: at {height} water boils at {boils}, and no time is known there that is long "
            "enough.",
            food=said,
            height=facts.shown(here.altitude_m, "altitude_m"),
            boils=facts.shown(here.boiling_point_c, "temperature_c"),
        )
    if soak_min >= BEANS_SOAK_MIN and boil_min >= BEANS_BOIL_MIN:
        return ""
    return facts.say(
        "{food}: by the recipe soaked for {soak} and boiled hard for {boil}. They want "
        "{least_soak} and {least_boil}.",
        food=said,
        soak=facts.shown(soak_min, "duration_min"),
        boil=facts.shown(boil_min, "duration_min"),
        least_soak=facts.shown(BEANS_SOAK_MIN, "duration_min"),
        least_boil=facts.shown(BEANS_BOIL_MIN, "duration_min"),
    )


def _times(recipe: Recipe, minutes: list[float], name: str) -> tuple[float, float]:
    """Give how long an ingredient soaks before any heat, and boils hard after it."""
    soak_min = boil_min = 0.0
    inside = heated = False
    for number, step in enumerate(recipe.steps):
        inside = inside or name in step.uses
        if not inside:
            continue
        heated = heated or step.do in HEATING
        if step.do == "soak" and not heated:
            soak_min += minutes[number]
        elif step.do == "boil":
            boil_min += minutes[number]
    return soak_min, boil_min


def infant_formula(facts: Facts) -> Iterator[Finding]:
    """Powder for a baby's bottle that no boiled water gets onto: it is not free of germs."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            is_powder = food.per_100g.water_g < _POWDER_BELOW_G
            if is_powder and "infant-formula" in hazards_of(food) and not _scalded(meal, portion):
                yield holds(facts, food, portion, meal)


def _scalded(meal: MenuItem, portion: Portion) -> bool:
    """Tell whether an ingredient is boiled, or goes into water that was, and none that was not."""
    place = step_with(meal, portion)
    if place is None:
        return False
    steps = meal.planned.steps
    if is_heated(meal, portion) or (steps[place].do == "soak" and steps[place].hot):
        return True
    poured_on = next((step for step in reversed(steps[: place + 1]) if step.water_ml > 0), None)
    return poured_on is not None and poured_on.do == "boil"


def gathered_mushrooms(facts: Facts) -> Iterator[Finding]:
    """Mushrooms that somebody gathered."""
    yield from _all_with(facts, "mushroom-gathered")


def gathered_plants(facts: Facts) -> Iterator[Finding]:
    """Plants that somebody gathered."""
    yield from _all_with(facts, "wild-plant")


def gathered_shellfish(facts: Facts) -> Iterator[Finding]:
    """Mussels and the like that nobody bought ready to eat."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            bought = portion.planned.dried_by == "bought" or food.state in ("ready", "dried")
            if "shellfish" in hazards_of(food) and not bought:
                yield holds(facts, food, portion, meal)


def raw_sprouts(facts: Facts) -> Iterator[Finding]:
    """Sprouts that no step cooks."""
    for meal, portion in facts.portions():
        if portion.planned.recipe or is_heated(meal, portion):
            continue
        for food in portion.substance.foods:
            if "sprouts" in hazards_of(food) and food.state != "cooked":
                yield holds(facts, food, portion, meal)


def garlic_in_oil(facts: Facts) -> Iterator[Finding]:
    """Garlic or herbs in oil."""
    yield from _all_with(facts, "garlic-in-oil")


def _all_with(facts: Facts, hazard: str) -> Iterator[Finding]:
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            if hazard in hazards_of(food):
                yield holds(facts, food, portion, meal)


def home_canned(facts: Facts) -> Iterator[Finding]:
    """Food canned at home, which nothing boils for long enough before it is tasted."""
    for meal, portion in facts.portions():
        least_min = home_canned_boil_min(meal.planned.conditions.altitude_m)
        boil_min = 0.0
        if meal.planned.recipe and not portion.planned.recipe:
            recipe = facts.content.dish(meal.item)
            minutes = [step.minutes for step in meal.planned.steps]
            _, boil_min = _times(recipe, minutes, portion.planned.id)
        for food in portion.substance.foods:
            if "home-canned" in hazards_of(food) and boil_min < least_min:
                says = facts.say(
                    "{food} is boiled for {boil}. At {height} it wants {least}.",
                    food=food_in(facts.say, food.name, meal),
                    boil=facts.shown(boil_min, "duration_min"),
                    height=facts.shown(meal.planned.conditions.altitude_m, "altitude_m"),
                    least=facts.shown(least_min, "duration_min"),
                )
                yield at_portion(says, portion, meal)
