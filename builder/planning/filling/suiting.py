"""Which recipes may fill an open meal, and what stands in the way of the others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Self

from builder.model.content import Content
from builder.model.gear import BAKES_IN
from builder.model.recipe import OVER_FLAME, MealName, Recipe
from builder.model.trip import ENGLISH, Person, Trip
from builder.planning.cooking import Hearth, hearth_of
from builder.planning.foods import substance_of_ingredient
from builder.planning.menu import avoided_said, refused_words
from builder.record import dataclass
from builder.speech import speech_of

# What a recipe is for that does not tell.
ANY_PROPER_MEAL: tuple[MealName, ...] = ("breakfast", "lunch", "dinner")


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What a trip can be cooked with."""

    hearth: Hearth
    has_fire: bool

    @classmethod
    def of(cls, trip: Trip, content: Content) -> Self:
        """Give a trip's."""
        return cls(hearth_of(trip, content), bool(trip.fire and trip.fire.allowed))


@dataclass(frozen=True, slots=True)
class Obstacle:
    """Why a recipe will not do, and what would make it do."""

    says: str
    mend: str


def obstacles(
    recipe: Recipe, meal: MealName, eaters: Sequence[Person], kitchen: Kitchen, content: Content
) -> tuple[Obstacle, ...]:
    """Give all that keeps a recipe from filling a meal; nothing where it may."""
    return (
        *_of_meal(recipe, meal),
        *_of_heat(recipe, kitchen),
        *_of_people(recipe, eaters, kitchen, content),
    )


def _of_meal(recipe: Recipe, meal: MealName) -> Iterator[Obstacle]:
    meals = recipe.meals or ANY_PROPER_MEAL
    if meal not in meals:
        yield Obstacle(f"is not for {meal}", f"if its `meal:` told {meal} too")


def _of_heat(recipe: Recipe, kitchen: Kitchen) -> Iterator[Obstacle]:
    hearth = kitchen.hearth
    doings = {step.do for step in recipe.steps}
    hot_soak = any(step.do == "soak" and step.hot for step in recipe.steps)
    if doings & OVER_FLAME or hot_soak:
        if hearth.burner is None:
            yield Obstacle("needs heat", "with a stove, or where a fire may be lit")
        if not hearth.pots:
            yield Obstacle("needs a pot", "with a pot of the trip")
    if "press" in doings and not hearth.irons:
        yield Obstacle("needs an iron over a fire", "with an iron, where a fire may be lit")
    if "bake" in doings:
        if not kitchen.has_fire:
            yield Obstacle("is baked in embers", "where a fire may be lit")
        if not any(pot.material == BAKES_IN for pot in hearth.pots):
            yield Obstacle("is baked in a cast-iron pot", "with a cast-iron pot of the trip")


def _of_people(
    recipe: Recipe, eaters: Sequence[Person], kitchen: Kitchen, content: Content
) -> Iterator[Obstacle]:
    english = speech_of(ENGLISH)
    # Theirs is taken out before those go in, where there is a pot to cook it on in.
    not_in_theirs = recipe.in_after_parting if len(kitchen.hearth.pots) > 1 else frozenset()
    for ingredient in recipe.uses:
        if ingredient.id in not_in_theirs:
            continue
        substance = substance_of_ingredient(ingredient, content)
        for person in eaters:
            words = refused_words(person, substance)
            if words:
                avoided = ", ".join(avoided_said(english, word) for word in words)
                yield Obstacle(
                    f"holds {substance.name}, which is not, or not known to be, for "
                    f"{person.name} ({avoided})",
                    f"with something else than {substance.name} (`swap:`)",
                )
