"""What the dishes of a trip are cooked in and stirred with, and in whose pack each of it is."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import chain

from builder.model.content import Content
from builder.model.kit import Carried, KitDay, PersonLoad, PlannedMeal, Utensil, Utensils
from builder.model.trip import Trip
from builder.planning.cooking import ON_EMBERS, Hearth
from builder.speech import later, speech_of

SPOON = later("Spoon to stir with")
THERMOMETER = later("Thermometer for the middle of food")
GLOVES = later("Gloves for the embers")
# A list of gear is in its writer's language, whatever language the kit is in: any spoon will do.
_CALLED = {
    SPOON: {"spoon", "löffel", "skje", "sleiv"},
    THERMOMETER: {"thermometer", "termometer"},
    GLOVES: {"glove", "handschuh", "hanske"},
}


def utensils_of(
    trip: Trip,
    days: Sequence[KitDay],
    hearth: Hearth,
    content: Content,
    people: Sequence[PersonLoad],
) -> Utensils:
    """Give each thing that a dish needs, and the dishes that do not tell what else they need."""
    needed: dict[str, list[str]] = {}
    not_told: list[str] = []
    say = speech_of(trip.language)
    for meal in (meal for day in days for meal in day.meals if meal.recipe):
        told = content.recipes[meal.recipe or ""].utensils
        if told is None:
            not_told.append(meal.title)
        of_steps = (say(each) for each in _by_steps(meal))
        for name in (*_heated_in(meal, hearth), *of_steps, *(told or ())):
            needed.setdefault(name, []).append(meal.title)
    carried = [(person.name, thing) for person in people for thing in person.carries]
    known_as = {say(thing): words for thing, words in _CALLED.items()}
    return Utensils(
        tuple(
            Utensil(
                name, tuple(dict.fromkeys(dishes)), _carrier(known_as.get(name, {name}), carried)
            )
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


def _by_steps(meal: PlannedMeal) -> Iterator[str]:
    """Name what a dish's steps ask for. Common practice, no source."""
    if any(step.stir for step in meal.steps):
        yield SPOON
    if meal.reach_c is not None:
        yield THERMOMETER
    if any(step.do in ON_EMBERS for step in meal.steps):
        yield GLOVES


def _carrier(names: Collection[str], carried: Sequence[tuple[str, Carried]]) -> str | None:
    """Give who carries a thing of such a name: `whisk` is the gear list's `Small whisk`, too.

    A thing of the very name comes first: of two stoves the second is called the first's, and (2).
    """
    wanted = {name.casefold() for name in names}
    gear = [(who, thing.what.casefold()) for who, thing in carried if thing.kind == "gear"]
    of_the_name = (who for who, what in gear if what in wanted)
    holding_it = (who for who, what in gear if any(name in what for name in wanted))
    return next(chain(of_the_name, holding_it), None)
