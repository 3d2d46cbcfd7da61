"""Dried meals that recipes name: they must exist, and may not hold themselves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from graphlib import TopologicalSorter

from builder.model.recipe import Recipe
from builder.problems import Problem, did_you_mean
from builder.reading.text.yaml_door import quoted

# With all that its dried meals hold; nobody weighs as much for one pot.
MOST_LINES = 1000
DEEPEST = 8


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
    for recipe_id, says in _told_too_often(recipes, bad):
        bad.add(recipe_id)
        problems.append(
            Problem(
                recipes[recipe_id].places.record,
                "recipe-too-large",
                says,
                "name fewer dried meals in it, or write what they hold as foods",
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


def _told_too_often(recipes: Mapping[str, Recipe], bad: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Give recipes that come to too much with all that is in them, and what is said of each.

    Whoever takes a meal twice that takes another twice soon asks for millions of weighings. What
    holds one of these is not told of: it is too large for the same reason.
    """
    named = {
        each.id: {line.recipe for line in each.uses if line.recipe and line.recipe in recipes}
        for each in recipes.values()
        if each.id not in bad
    }
    lines: dict[str, int] = {}
    depths: dict[str, int] = {}
    for name in TopologicalSorter(named).static_order():
        inside = [line.recipe for line in recipes[name].uses if line.recipe]
        if name not in named or any(each not in lines for each in inside):
            continue
        many = len(recipes[name].uses) + sum(lines[each] for each in inside)
        deep = 1 + max((depths[each] for each in inside), default=0)
        if many > MOST_LINES:
            yield name, f"recipe {name!r} comes to {many} ingredients with all its dried meals"
        elif deep > DEEPEST:
            yield name, f"recipe {name!r} holds dried meals more than {DEEPEST} deep"
        else:
            lines[name], depths[name] = many, deep


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
