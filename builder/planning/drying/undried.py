"""Foods that recipes use as they are, though the log dries them: which is meant nobody can know."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.content import Content
from builder.model.recipe import Ingredient
from builder.planning.stock import items_of
from builder.problems import Problem


def undried_problems(content: Content) -> Iterator[Problem]:
    """Warn of cooked food that a trip's recipe does not call dried, and this home dries.

    Left out, `dried_by` means that it is carried as it is listed. Raw and ready food often is;
    what was cooked at home hardly is, and then neither runs nor shopping would know of it.
    """
    dried = {
        batch.food: batch.method
        for batch in content.batches.values()
        if batch.food and not batch.is_bought
    }
    for name, each in _used(content):
        food = content.foods.get(each.food or "")
        if food is None or food.state != "cooked" or food.id not in dried:
            continue
        yield Problem(
            each.places.of("food"),
            "dried-by-not-told",
            f"recipe {name} uses {food.id} as it is listed, wet, and your log dries it",
            f"write `dried_by: {dried[food.id]}` beside it if it is carried dry; as it stands, "
            "no run and no pack is planned for it",
            "warning",
        )


def _used(content: Content) -> Iterator[tuple[str, Ingredient]]:
    """Give what recipes of trips use without a way to dry it or a batch, each once."""
    seen: set[tuple[str, str]] = set()
    items = (at.item for trip in content.trips.values() for at in items_of(trip))
    for item in items:
        recipe = content.recipes.get(item.recipe or "")
        named = {ingredient for ingredient, _ in item.batches}
        for each in recipe.uses if recipe else ():
            key = (item.recipe or "", each.id)
            if each.dried_by is None and each.id not in named and key not in seen:
                seen.add(key)
                yield key[0], each
