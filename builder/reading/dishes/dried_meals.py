"""Dried meals that recipes name: they must exist, and may not hold themselves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.model.recipe import Recipe
from builder.problems import Problem, did_you_mean
from builder.reading.text.yaml_door import quoted


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
