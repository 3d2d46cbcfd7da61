"""Reads recipes; foods must be known already, since they turn cups and pieces into grams."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import cast

from builder.model.batch import METHODS, Method
from builder.model.figure import Figure, Told, nothing
from builder.model.food import Composition, Food
from builder.model.place import Place
from builder.model.recipe import (
    DOINGS,
    MEALS,
    VESSELS,
    Do,
    Ingredient,
    MealName,
    Recipe,
    Step,
    Vessel,
)
from builder.problems import Problem, did_you_mean
from builder.reading.eaten import check_eaten
from builder.reading.fields import Fields, taken
from builder.reading.notes import Amiss, refuse
from builder.reading.plausible import (
    check_serving_water,
    check_step_minutes,
)
from builder.reading.yaml_door import Node, quoted
from builder.units import (
    LONGEST_QUANTITY,
    QuantityError,
    ask_for_thousand,
    read_number,
    read_quantity,
)

# Which fields a step takes besides `do`, `with` and `say`.
STEP_FIELDS: dict[str, tuple[str, ...]] = {
    "soak": ("water", "minutes", "hot", "stir", "lid"),
    "boil": ("water", "minutes", "stir", "lid"),
    "simmer": ("minutes", "stir", "lid"),
    "fry": ("minutes", "stir", "lid"),
    "press": ("each_side", "pieces"),
    "bake": ("minutes", "at"),
    "rest": ("minutes", "lid", "stir"),
    "mix": ("water", "stir", "lid"),
    "serve": (),
}
NEEDS_MINUTES = ("soak", "simmer", "fry", "bake", "rest")
NEEDS_POT_HEAT = ("boil", "simmer", "fry")
NAMED_IN_TEXT = re.compile(r"<([a-z0-9-]+)>")

_SOME_FOOD = Food("", "", "other", "ready", Composition(), density_g_ml=1.0, piece_g=1.0)
_AMOUNTS = "write a mass (250 g), a volume (2 cups) or pieces (2 pieces)"
_NO_FOOD = "only a food with an entry of its own is told in volumes or pieces"
_PIECES = re.compile(r"(?P<number>.*[0-9¼½¾⅓⅔⅛⅜⅝⅞])\s*(?:piece|pieces)")


def read_recipe(fields: Fields, foods: Mapping[str, Food]) -> Recipe | None:
    """Read one recipe; None where it has errors."""
    recipe_id = fields.id()
    meals = fields.words("meal", MEALS)
    before = len(fields.problems)
    uses = _ingredients(fields, foods)
    # Where a line of uses could not be read, nobody knows which names the steps may take.
    uses_are_good = len(fields.problems) == before
    known = {ingredient.id for ingredient in uses} if uses_are_good else None
    vessel = cast(Vessel, fields.choice("cook_in", VESSELS, required=True))
    steps = _steps(fields, known, {each.id for each in uses if each.dried_by or each.recipe})
    recipe = Recipe(
        id=recipe_id,
        name=fields.line("name", required=True),
        serves=fields.number("serves", required=True, default=1.0, more_than=0, at_most=1000),
        cook_in=vessel,
        uses=uses,
        steps=steps,
        meals=cast(tuple[MealName, ...], meals),
        reach_c=fields.maybe_quantity("reach", "temperature_c"),
        drain_ml=fields.quantity("drain", "volume_ml"),
        note=fields.text("note"),
        places=fields.places(),
    )
    _check_steps(fields, recipe, known)
    if known is not None and fields.has("serves"):
        _check_servings(fields, recipe, foods)
    if known is not None and len(steps) == len(fields.list("steps")):
        # A step that could not be read would be missed here, and told a second time.
        _check_vessel(fields, recipe)
        _check_used(fields, recipe)
        _check_drain(fields, recipe)
    return recipe if fields.done() else None


def _ingredients(fields: Fields, foods: Mapping[str, Food]) -> tuple[Ingredient, ...]:
    found: dict[str, Ingredient] = {}
    for node in fields.list("uses", required=True):
        line = Fields(node, fields.problems, "line of uses")
        food, recipe = line.text("food"), line.text("recipe")
        if bool(food) == bool(recipe) and node.is_map:
            line.problem(
                node.place,
                "food-or-recipe",
                "a line of uses names one food or one dried meal",
                "write `food: <id>` or `recipe: <id>`",
            )
        if food and food not in foods:
            line.problem(
                line.place("food"),
                "food-unknown",
                f"there is no food {quoted(food)}",
                did_you_mean(food, foods),
            )
        ingredient_id = line.id(required=False) or food or recipe
        dried_by = line.choice("dried_by", METHODS)
        if recipe and not dried_by:
            dried_by = "dehydrator"
        amount = line.value("amount", required=True, example="80 g")
        ingredient = Ingredient(
            id=ingredient_id,
            amount_g=amount_g(line, amount, "amount", food, foods) if amount else 0.0,
            food=food or None,
            recipe=recipe or None,
            dried_by=cast(Method | None, dried_by or None),
            places=line.places(),
        )
        line.done()
        if ingredient_id in found:
            first = found[ingredient_id].places.record
            line.problem(
                node.place,
                "id-twice",
                f"two lines of uses are called {quoted(ingredient_id)} (first on line "
                f"{first.line})",
                "give one of them an `id:` of its own",
            )
        elif ingredient_id:
            found[ingredient_id] = ingredient
    if fields.is_empty_list("uses"):
        fields.problem(
            fields.place("uses"), "empty", "this recipe uses nothing", "name at least one food"
        )
    return tuple(found.values())


def amount_g(
    fields: Fields, node: Node, key: str, food_id: str, foods: Mapping[str, Food]
) -> float:
    """Read an amount of food; 0 g where it is wrong."""
    return fields.got(lambda: amount_of(node, key, food_id, foods), node.place) or 0.0


def amount_of(node: Node, key: str, food_id: str, foods: Mapping[str, Food]) -> float:
    """Read an amount of food told as a mass, a volume or in pieces; give grams.

    A food that is not there is told elsewhere; what stands for it has a density and pieces.
    """
    if not node.is_text:
        refuse("quantity", f"{key} must be an amount, found {node.described()}", _AMOUNTS)
    food = foods.get(food_id, _SOME_FOOD) if food_id else None
    try:
        return _amount_g(node.text, food, key, node.place)
    except QuantityError as error:
        raise Amiss(error.kind, f"{key}: {error.says}", error.mend) from error


def _amount_g(text: str, food: Food | None, key: str, place: Place) -> float:
    if len(text) <= LONGEST_QUANTITY and (match := _PIECES.fullmatch(text.strip())):
        if food is None or food.piece_g is None:
            if food is None:
                raise QuantityError("piece-missing", f"{text!r}: {_NO_FOOD}", "write the mass")
            raise QuantityError(
                "piece-missing",
                f"{text!r}: nobody told what a piece of {quoted(food.name)} weighs",
                "write the mass, or tell the food's `piece: 120 g`",
            )
        ask_for_thousand(match["number"], "pieces")
        pieces = Figure(read_number(match["number"]), Told(place, f"{key}_pieces"))
        return _more_than_nothing(pieces * food.piece_g, text)
    try:
        mass_g = Figure(read_quantity(text, "mass_g"), Told(place, f"{key}_g"))
        return _more_than_nothing(mass_g, text)
    except QuantityError as as_mass:
        if as_mass.kind == "unit-missing":
            raise QuantityError(as_mass.kind, as_mass.says, _AMOUNTS) from None
        if as_mass.kind != "unit-unknown":
            raise
    try:
        volume_ml = Figure(read_quantity(text, "volume_ml"), Told(place, f"{key}_ml"))
    except QuantityError as as_volume:
        if as_volume.kind != "unit-unknown":
            raise
        raise QuantityError("unit-unknown", f"{text!r} is no amount of food", _AMOUNTS) from None
    if food is None or food.density_g_ml is None:
        if food is None:
            raise QuantityError("density-missing", f"{text!r}: {_NO_FOOD}", "write the mass")
        raise QuantityError(
            "density-missing",
            f"{text!r} is a volume, and nobody told the density of {quoted(food.name)}",
            "write the mass, or tell the food's `density: 0.72 g/ml`",
        )
    return _more_than_nothing(volume_ml * food.density_g_ml, text)


def _more_than_nothing(mass_g: float, text: str) -> float:
    if mass_g <= 0:
        raise QuantityError("out-of-range", f"{text!r} is nothing", "write an amount, or drop it")
    return mass_g


def _steps(fields: Fields, known: set[str] | None, dried: set[str]) -> tuple[Step, ...]:
    found = []
    for node in fields.list("steps", required=True):
        line = Fields(node, fields.problems, "step")
        do = line.choice("do", DOINGS, required=True)
        if not do:
            continue
        step = _step(line, cast(Do, do), known, dried)
        if line.done():
            found.append(step)
    if fields.is_empty_list("steps"):
        fields.problem(
            fields.place("steps"),
            "empty",
            "this recipe has no steps",
            "write at least `- {do: serve}`",
        )
    return tuple(found)


def _step(line: Fields, do: Do, known: set[str] | None, dried: set[str]) -> Step:
    allowed = STEP_FIELDS[do]
    uses = line.words("with")
    for node in line.list("with", lone_item=True):
        if known is not None and node.is_text and node.text.strip() not in known:
            line.problem(
                node.place,
                "ingredient-unknown",
                f"this recipe uses no {node.described()}",
                did_you_mean(node.text, known),
            )
    minutes: float = nothing("minutes")
    each_side_min: float = nothing("each_side_min")
    if "minutes" in allowed:
        minutes = line.number("minutes", required=do in NEEDS_MINUTES, at_most=2880)
        check_step_minutes(line, do, minutes)
    if "each_side" in allowed:
        each_side_min = line.quantity("each_side", "duration_min", required=True, positive=True)
    baking_c: float = nothing("baking_c")
    if "at" in allowed:
        baking_c = line.quantity("at", "temperature_c", required=True)
    water_ml: float = nothing("water_ml")
    auto = False
    if "water" in allowed:
        water = line.value("water")
        if water is not None and water.value == "auto":
            auto = True
            if known is not None and not set(uses) & dried:
                line.problem(
                    water.place,
                    "auto-water",
                    "auto gives back what drying took out, and nothing here is dried",
                    "write the water, or name what is dried in `with`",
                )
        elif water is not None:
            water_ml = line.quantity("water", "volume_ml")
    return Step(
        do=do,
        uses=uses,
        water_ml=water_ml,
        water_auto=auto,
        minutes=minutes,
        stir=line.flag("stir") if "stir" in allowed else False,
        lid=line.flag("lid") if "lid" in allowed else False,
        hot=line.flag("hot") if "hot" in allowed else False,
        say=line.text("say"),
        each_side_min=each_side_min,
        pieces=line.number("pieces", default=1.0, more_than=0, at_most=100)
        if "pieces" in allowed
        else taken(1.0, "pieces"),
        baking_c=baking_c,
        places=line.places(),
    )


def _check_servings(fields: Fields, recipe: Recipe, foods: Mapping[str, Food]) -> None:
    """Compare what a serving holds with what anybody eats; the whole only where no line is odd."""
    odd = False
    for node, each in zip(fields.list("uses"), recipe.uses, strict=True):
        line = Fields(node, fields.problems, "line of uses")
        food = foods.get(each.food or "")
        serving_g = each.amount_g / recipe.serves
        odd |= check_eaten(
            line.judging("amount"), "amount", serving_g, food.per_100g if food else None
        )
    if not odd:
        mass_g = sum(each.amount_g for each in recipe.uses) / recipe.serves
        check_eaten(fields.judging("uses"), "uses", mass_g)
    for step, node in zip(recipe.steps, fields.list("steps"), strict=False):
        if step.water_ml:
            line = Fields(node, fields.problems, "step")
            check_serving_water(line, step.water_ml, recipe.serves)


def _check_vessel(fields: Fields, recipe: Recipe) -> None:
    doings = {step.do for step in recipe.steps}
    pressed = "press" in doings
    if recipe.cook_in == "iron" and recipe.steps and not pressed:
        fields.problem(
            fields.place("cook_in"),
            "vessel",
            "this recipe is for the iron and has no press step",
            "add `- {do: press, with: […], each_side: 4 min}`",
        )
    if pressed and recipe.cook_in not in ("iron", ""):
        fields.problem(
            fields.place("cook_in"),
            "vessel",
            f"a press step needs an iron, and cook_in is {recipe.cook_in}",
            "write `cook_in: iron`",
        )
    if "bake" in doings and recipe.cook_in not in ("pot", ""):
        fields.problem(
            fields.place("cook_in"),
            "vessel",
            f"a bake step needs a pot with a lid, and cook_in is {recipe.cook_in}",
            "write `cook_in: pot`",
        )


def _check_steps(fields: Fields, recipe: Recipe, known: set[str] | None) -> None:
    for step in recipe.steps:
        hot = step.do in NEEDS_POT_HEAT or (step.do == "soak" and step.hot)
        if recipe.cook_in == "none" and hot:
            fields.problem(
                step.places.record,
                "vessel",
                f"there is nothing to {step.do} in: cook_in is none",
                "write `cook_in: pot` (or mug)",
            )
        for name in NAMED_IN_TEXT.findall(step.say):
            if known is not None and name not in known:
                fields.problem(
                    step.places.of("say"),
                    "ingredient-unknown",
                    f"this recipe uses no <{name}>",
                    did_you_mean(name, known),
                )


def _check_used(fields: Fields, recipe: Recipe) -> None:
    used = {name for step in recipe.steps for name in step.uses}
    used.update(name for step in recipe.steps for name in NAMED_IN_TEXT.findall(step.say))
    for ingredient in recipe.uses:
        if recipe.steps and ingredient.id not in used:
            fields.warn(
                ingredient.places.record,
                "ingredient-unused",
                f"no step takes {ingredient.id!r}",
                "name it in a step's `with`",
            )


def _check_drain(fields: Fields, recipe: Recipe) -> None:
    told_ml = sum(step.water_ml for step in recipe.steps)
    auto = any(step.water_auto for step in recipe.steps)
    if recipe.drain_ml > told_ml and not auto:
        fields.problem(
            fields.place("drain"),
            "drain",
            f"{recipe.drain_ml:.0f} ml are poured away, but only {told_ml:.0f} ml go in",
            "write less, or tell the water of the steps",
        )


def check_nested(
    recipes: Mapping[str, Recipe], all_ids: Iterable[str]
) -> tuple[set[str], list[Problem]]:
    """Check dried meals named by recipes: they must exist and may not hold themselves.

    Gives the ids of recipes that cannot be used, and the problems.
    """
    known = set(all_ids)
    bad: set[str] = set()
    problems: list[Problem] = []
    for recipe in recipes.values():
        for each in recipe.uses:
            if each.recipe and each.recipe not in known:
                bad.add(recipe.id)
                problems.append(
                    Problem(
                        each.places.of("recipe"),
                        "recipe-unknown",
                        f"there is no recipe {quoted(each.recipe)}",
                        did_you_mean(each.recipe, known),
                    )
                )
        if _holds_itself(recipe.id, recipes):
            bad.add(recipe.id)
            problems.append(
                Problem(
                    recipe.places.record,
                    "recipe-circle",
                    f"recipe {recipe.id!r} holds itself",
                    "take the dried meal out of its own list",
                )
            )
    # What holds a meal that cannot be used cannot be used either; told once, where it began.
    waiting = True
    while waiting:
        waiting = False
        for recipe in recipes.values():
            named = {each.recipe for each in recipe.uses if each.recipe}
            if recipe.id not in bad and (named & bad or named - recipes.keys()):
                bad.add(recipe.id)
                waiting = True
    return bad, problems


def _holds_itself(recipe_id: str, recipes: Mapping[str, Recipe]) -> bool:
    seen: set[str] = set()
    waiting = [recipe_id]
    while waiting:
        recipe = recipes.get(waiting.pop())
        for each in recipe.uses if recipe else ():
            if each.recipe == recipe_id:
                return True
            if each.recipe and each.recipe not in seen:
                seen.add(each.recipe)
                waiting.append(each.recipe)
    return False
