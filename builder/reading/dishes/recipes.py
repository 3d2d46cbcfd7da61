"""Recipes: the keys of a recipe, and what hangs on several of them.

Foods must be known already, since they turn cups and pieces into grams.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated

from builder.model.batch import METHODS, Method
from builder.model.place import Place
from builder.model.recipe import MEALS, OVER_FLAME, VESSELS, Ingredient, MealName, Recipe, Vessel
from builder.problems import Problem, food_meant
from builder.reading.checks.eaten import check_eaten
from builder.reading.checks.plausible import check_serving_water
from builder.reading.declared.amounts import Amount
from builder.reading.declared.declaring import (
    AlreadyNoted,
    Check,
    Here,
    Record,
    judging_at,
    key,
    read_as,
)
from builder.reading.declared.measures import Number, Quantity
from builder.reading.declared.values import can_be_id, has
from builder.reading.declared.vocabulary import Choice, Id, Items, Line, Text, Words
from builder.reading.declared.which_keys import just_one
from builder.reading.dishes.steps import AnyStep, PartStep, WrittenStep, names_in, steps_done
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.pictures.written import PICTURE, APicture, picture_of
from builder.reading.text.yaml_door import Node, quoted


def _it_is_there(here: Here) -> None:
    if here.value not in here.notes.foods:
        says = f"there is no food {quoted(here.value)}"
        refuse("food-unknown", says, food_meant(here.value, here.notes.foods))


class WrittenUse(Record, title="line of uses", json_schema_extra=just_one("food", "recipe")):
    """So much of a food, or of a whole dried meal."""

    id: Annotated[str, Id()] = key(
        "By which steps name it; left out, the id of its food or recipe.",
        default="",
        example="beans",
    )
    food: Annotated[str, Text(), Check(_it_is_there)] = key(
        "The food.", default="", example="black-beans-cooked"
    )
    recipe: Annotated[str, Text()] = key(
        "Instead of a food: a whole meal that was cooked and dried.",
        default="",
        example="smoky-bean-pot",
    )
    dried_by: Annotated[Method | None, Choice(METHODS)] = key(
        "How it was dried, where it was dried at home.", example="freeze-dryer"
    )
    amount: Annotated[float, Amount()] = key(
        "How much is carried: a mass, a volume where the food tells its density, pieces where it "
        "tells what one weighs.",
        required=True,
        example="80 g",
    )

    @classmethod
    def amiss_among(cls, told: Mapping[str, Node], place: Place, notes: Notes) -> Iterator[Problem]:
        """Ask for one thing that it holds."""
        if ("food" in told) == ("recipe" in told):
            says = "a line of uses names one food or one dried meal"
            mend = "write `food: <id>` or `recipe: <id>`"
            yield Problem(place, "food-or-recipe", says, mend)

    @property
    def called(self) -> str:
        """By which steps name it."""
        return self.id or self.food or self.recipe

    def ingredient(self) -> Ingredient:
        """Give what planning reckons with."""
        return Ingredient(
            id=self.called,
            amount_g=self.amount,
            food=self.food or None,
            recipe=self.recipe or None,
            dried_by=self.dried_by or ("dehydrator" if self.recipe else None),
            places=self.places(),
        )


def _they_can_be_told_apart_and_eaten(here: Here) -> None:
    uses: tuple[WrittenUse, ...] = here.value
    if not uses:
        refuse("empty", "this recipe uses nothing", "name at least one food")
    _check_names(here, uses)
    serves = here.above.get("serves")
    if serves is not None:
        _check_servings(here, uses, serves)


def _check_names(here: Here, uses: tuple[WrittenUse, ...]) -> None:
    first: dict[str, WrittenUse] = {}
    for each in uses:
        before = first.setdefault(each.called, each)
        if before is not each:
            line = before.places().record.line
            says = f"two lines of uses are called {quoted(each.called)} (first on line {line})"
            mend = "give one of them an `id:` of its own"
            here.notes.append(Problem(each.places().record, "id-twice", says, mend))
    if len(first) < len(uses):
        raise AlreadyNoted


def _check_servings(here: Here, uses: tuple[WrittenUse, ...], serves: float) -> None:
    """Compare what a serving holds with what anybody eats; the whole only where no line is odd."""
    odd = wrong = False
    for each in uses:
        food = here.notes.foods.get(each.food)
        judge = judging_at(here.notes, None, each.place_of("amount"))
        of = food.per_100g if food else None
        try:
            odd |= check_eaten(judge, "amount", each.amount / serves, of)
        except AlreadyNoted:
            wrong = True
    if wrong:
        raise AlreadyNoted
    if not odd:
        together_g = sum(each.amount for each in uses)
        check_eaten(here.judging(None), "uses", together_g / serves)


def _all_is_used_and_not_drowned(here: Here) -> None:
    steps = here.value
    if not steps:
        refuse("empty", "this recipe has no steps", "write at least `- {do: serve}`")
    _parted_once(steps)
    done = [each for each in steps if isinstance(each, WrittenStep)]
    used = {name for each in done for name in (*each.with_, *names_in(each.say))}
    for use in here.above.get("uses", ()):
        if use.called not in used:
            says, mend = f"no step takes {use.called!r}", "name it in a step's `with`"
            amiss = Amiss("ingredient-unused", says, mend)
            here.notes.append(amiss.at(use.places().record, "warning"))
    serves = here.above.get("serves")
    for water_ml in (each.water_told_ml for each in done):
        if water_ml and serves is not None and "uses" in here.above:
            check_serving_water(here.judging(water_ml), water_ml, serves)


def _parted_once(steps: Sequence[Record]) -> None:
    """Refuse what nobody can divide: an empty pot, or one that was divided before."""
    parts = [n for n, each in enumerate(steps) if isinstance(each, PartStep)]
    if len(parts) > 1:
        refuse("part", "this recipe is parted twice", "part it once, before what all of them avoid")
    if parts == [0] or parts == [len(steps) - 1]:
        says = "there is nothing to part" if parts == [0] else "nothing goes in after it is parted"
        refuse("part", says, "put `part` between what all eat and what somebody avoids")


def _so_much_goes_in(here: Here) -> None:
    if "steps" not in here.above:
        return
    steps = [each for each in here.above["steps"] if isinstance(each, WrittenStep)]
    told_ml = sum(each.water_told_ml for each in steps)
    if here.value > told_ml and not any(each.is_auto for each in steps):
        says = f"{here.value:.0f} ml are poured away, but only {told_ml:.0f} ml go in"
        refuse("drain", says, "write less, or tell the water of the steps")


def _it_takes_these_steps(here: Here) -> None:
    vessel: Vessel = here.value
    steps = [each for each in here.above.get("steps", ()) if isinstance(each, WrittenStep)]
    doings = {each.do for each in steps}
    if vessel == "iron" and steps and "press" not in doings:
        says = "this recipe is for the iron and has no press step"
        refuse("vessel", says, "add `- {do: press, with: […], each_side: 4 min}`")
    if vessel != "iron" and "press" in doings:
        says = f"a press step needs an iron, and cook_in is {vessel}"
        refuse("vessel", says, "write `cook_in: iron`")
    parts = [each for each in here.above.get("steps", ()) if isinstance(each, PartStep)]
    if vessel != "pot" and parts:
        says = f"a part step divides what is in a pot, and cook_in is {vessel}"
        refuse("vessel", says, "write `cook_in: pot`")
    if vessel != "pot" and "bake" in doings:
        says = f"a bake step needs a pot with a lid, and cook_in is {vessel}"
        refuse("vessel", says, "write `cook_in: pot`")
    heated = [each for each in steps if each.do in OVER_FLAME or vars(each).get("hot")]
    if vessel == "none" and heated:
        for each in heated:
            says = f"there is nothing to {each.do} in: cook_in is none"
            mend = "write `cook_in: pot` (or mug)"
            here.notes.append(Problem(each.places().record, "vessel", says, mend))
        raise AlreadyNoted


class WrittenRecipe(Record, title="recipe"):
    """Foods, amounts and steps for a number of servings."""

    id: Annotated[str, Id()] = key(
        "By which trips name it; the file is called so.", required=True, example="smoky-bean-pot"
    )
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Smoky bean pot"
    )
    meal: Annotated[tuple[MealName, ...], Words(MEALS)] = key(
        "For which meals it is.", default=(), example="[dinner]"
    )
    serves: Annotated[float, Number(more_than=0, at_most=1000)] = key(
        "For how many the amounts are.", required=True, example="2"
    )
    uses: Annotated[tuple[WrittenUse, ...], Items(), Check(_they_can_be_told_apart_and_eaten)] = (
        key(
            "What goes in, as it is carried.",
            required=True,
            example="[{id: beans, food: black-beans-cooked, dried_by: freeze-dryer, amount: 80 g}]",
        )
    )
    steps: Annotated[tuple[AnyStep, ...], Items(), Check(_all_is_used_and_not_drowned)] = key(
        "What is done, in order; which keys a step takes hangs on what it does.",
        required=True,
        example="[{do: soak, with: [beans], water: auto, minutes: 10}]",
    )
    cook_in: Annotated[Vessel, Choice(VESSELS), Check(_it_takes_these_steps)] = key(
        "What it is cooked in.", required=True, example="pot"
    )
    reach: Annotated[float | None, Quantity("temperature_c")] = key(
        "How hot its middle must get; needed with raw meat, poultry, fish or egg.",
        example="74 degC",
    )
    drain: Annotated[float, Quantity("volume_ml"), Check(_so_much_goes_in)] = key(
        "Cooking water that is poured away.", default="0 ml", example="0 ml"
    )
    cooked: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "What the pot holds when it is done; tells the water of a meal that is dried.",
        example="2.3 kg",
    )
    utensils: Annotated[tuple[str, ...] | None, Words()] = key(
        "What it takes besides pot, stove and spoon; `[]` says nothing.", example="[whisk, sieve]"
    )
    picture: APicture = key("What it looks like when it is done.", example=PICTURE)
    note: Annotated[str, Text()] = key(
        "What you want to remember.", default="", example="Salt at the end."
    )

    def recipe(self) -> Recipe:
        """Give what planning reckons with."""
        parts = [n for n, each in enumerate(self.steps) if isinstance(each, PartStep)]
        return Recipe(
            id=self.id,
            name=self.name,
            serves=self.serves,
            cook_in=self.cook_in,
            uses=tuple(each.ingredient() for each in self.uses),
            steps=steps_done(self.steps),
            meals=self.meal,
            reach_c=self.reach,
            drain_ml=self.drain,
            cooked_g=self.cooked,
            utensils=self.utensils,
            part_before=parts[0] if parts else None,
            picture=picture_of(self.picture),
            note=self.note,
            places=self.places(),
        )


def _word_of(node: Node, name: str) -> str:
    entry = node.entries.get(name)
    return entry.node.text.strip() if entry and entry.node.is_text else ""


def _ingredients_of(node: Node, notes: Notes) -> Mapping[str, bool] | None:
    """Give the names that steps may take, and whether each is dried; None where one is unknown."""
    uses = node.items_of("uses")
    found: dict[str, bool] = {}
    for line in uses:
        name, food, recipe = (_word_of(line, each) for each in ("id", "food", "recipe"))
        called = name or food or recipe
        if bool(food) == bool(recipe) or (food and food not in notes.foods):
            return None
        if has(line, "id") and not can_be_id(name):
            return None
        found[called] = bool(recipe) or has(line, "dried_by")
    return found or None


def read_recipe(node: Node, notes: Notes) -> Recipe | None:
    """Read one recipe; None where it has errors."""
    notes.ingredients = _ingredients_of(node, notes)
    found = read_as(WrittenRecipe, node, notes)
    notes.ingredients = None
    if found is None:
        return None
    return found.recipe()
