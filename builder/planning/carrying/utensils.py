"""What the dishes of a trip are cooked in and stirred with, and in whose pack each of it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.content import Content
from builder.model.kit import Carried, KitDay, PersonLoad, PlannedMeal, Utensil, Utensils
from builder.model.trip import Trip
from builder.planning.cooking import ON_EMBERS, Hearth
from builder.speech import Speech, speech_of


def utensils_of(
    trip: Trip,
    days: Sequence[KitDay],
    hearth: Hearth,
    content: Content,
    people: Sequence[PersonLoad],
) -> Utensils:
    """Give each thing that a dish needs, and the dishes that do not tell what else they need."""
    needed: dict[str, list[str]] = {}
    kinds: dict[str, str] = {}
    not_told: list[str] = []
    say = speech_of(trip.language)
    for meal in (meal for day in days for meal in day.meals if meal.recipe):
        told = content.recipes[meal.recipe or ""].utensils
        if told is None:
            not_told.append(meal.title)
        of_steps = tuple(_by_steps(meal, say))
        # "Spoon to stir with" is any spoon.
        kinds |= {each: each.split()[0] for each in of_steps}
        for name in (*_heated_in(meal, hearth), *of_steps, *(told or ())):
            needed.setdefault(name, []).append(meal.title)
    carried = [(person.name, thing) for person in people for thing in person.carries]
    return Utensils(
        tuple(
            Utensil(name, tuple(dict.fromkeys(dishes)), _carrier(kinds.get(name, name), carried))
            for name, dishes in needed.items()
        ),
        tuple(dict.fromkeys(not_told)),
    )


def _heated_in(meal: PlannedMeal, hearth: Hearth) -> Iterator[str]:
    """Name the stove, the pot and the irons of a dish, as the gear names them."""
    if meal.cooked_on == "stove" and (one := hearth.stove(meal.stove)):
        yield one.name
    yield from (pot.name for pot in hearth.pots if pot.id == meal.pot)
    if meal.presses:
        yield from (iron.name for iron in hearth.irons)


def _by_steps(meal: PlannedMeal, say: Speech) -> Iterator[str]:
    """Name what a dish's steps ask for. Common practice, no source."""
    if any(step.stir for step in meal.steps):
        yield say("Spoon to stir with")
    if meal.reach_c is not None:
        yield say("Thermometer for the middle of food")
    if any(step.do in ON_EMBERS for step in meal.steps):
        yield say("Gloves for the embers")


def _carrier(name: str, carried: Sequence[tuple[str, Carried]]) -> str | None:
    """Give who carries a thing of this name: `whisk` is the gear list's `Small whisk`, too."""
    wanted = name.casefold()
    return next(
        (who for who, thing in carried if thing.kind == "gear" and wanted in thing.what.casefold()),
        None,
    )
