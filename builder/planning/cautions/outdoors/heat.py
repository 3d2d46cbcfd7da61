"""Conditions of the cautions about fire, shelters and hot things."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.cautions.facts import Facts, Finding, first_step, in_meal, meal_said, on_days
from builder.speech import later

_STOVE, _FIRE = frozenset({"stove"}), frozenset({"fire"})
# Where one sleeps, and what one cooks on.
_SLEEP_AND_COOK = {
    ("tent", _STOVE): later("You sleep in a tent and cook on a stove."),
    ("tent", _FIRE): later("You sleep in a tent and cook on a fire."),
    ("tent", _STOVE | _FIRE): later("You sleep in a tent and cook on a stove and a fire."),
    ("tarp", _STOVE): later("You sleep under a tarp and cook on a stove."),
    ("tarp", _FIRE): later("You sleep under a tarp and cook on a fire."),
    ("tarp", _STOVE | _FIRE): later("You sleep under a tarp and cook on a stove and a fire."),
    ("hut", _STOVE): later("You sleep in a hut and cook on a stove."),
    ("hut", _FIRE): later("You sleep in a hut and cook on a fire."),
    ("hut", _STOVE | _FIRE): later("You sleep in a hut and cook on a stove and a fire."),
    ("snow", _STOVE): later("You sleep in a snow shelter and cook on a stove."),
    ("snow", _FIRE): later("You sleep in a snow shelter and cook on a fire."),
    ("snow", _STOVE | _FIRE): later("You sleep in a snow shelter and cook on a stove and a fire."),
    ("open", _STOVE): later("You sleep in the open and cook on a stove."),
    ("open", _FIRE): later("You sleep in the open and cook on a fire."),
    ("open", _STOVE | _FIRE): later("You sleep in the open and cook on a stove and a fire."),
}


def carbon_monoxide(facts: Facts) -> Iterator[Finding]:
    """A stove or embers, and a shelter near."""
    on = _burning(facts)
    if on:
        yield Finding(facts.say(_SLEEP_AND_COOK[facts.trip.shelter, on]), "fuel")


def hut_flue(facts: Facts) -> Iterator[Finding]:
    """A hut, and something that burns."""
    on = _burning(facts)
    if on and facts.trip.shelter == "hut":
        yield Finding(facts.say(_SLEEP_AND_COOK["hut", on]), "fuel")


def _burning(facts: Facts) -> frozenset[str]:
    """Give what burns on this trip: a stove, a fire, or both."""
    on = {str(meal.planned.cooked_on) for meal in facts.cooked()}
    if "embers" in on:
        on |= _FIRE
    burner = facts.hearth.burner
    if burner and any(day.fuel.melting_kj + day.fuel.boiling_water_kj > 0 for day in facts.days):
        on.add(burner.on)
    return frozenset(on & (_STOVE | _FIRE))


def fire_and_embers(facts: Facts) -> Iterator[Finding]:
    """Something is cooked over a wood fire."""
    days = [meal.day for meal in facts.meals() if meal.planned.wood_g > 0]
    days += [day.day for day in facts.days if day.fuel.wood_g > 0]
    if days:
        yield on_days(facts, later("A wood fire burns on {days}."), days, "fuel")
        if facts.trip.fire and not facts.trip.fire.allowed_told:
            says = later("Nobody wrote down whether a fire is allowed on {days}.")
            yield on_days(facts, says, days, "fuel")


def hot_fat(facts: Facts) -> Iterator[Finding]:
    """Something is fried, or fat goes into an iron, where it runs out into the embers."""
    for meal in facts.steps("fry"):
        said = meal_said(facts.say, meal)
        yield in_meal(facts.say("You fry {meal}.", meal=said), meal, step=first_step(meal, "fry"))
    for meal in facts.steps("press"):
        if any("fat" in portion.substance.kinds for portion in meal.portions):
            said = meal_said(facts.say, meal)
            because = facts.say("Fat goes into the iron with {meal}.", meal=said)
            yield in_meal(because, meal, step=first_step(meal, "press"))


def hot_iron(facts: Facts) -> Iterator[Finding]:
    """Something is pressed in an iron, or baked in a pot among embers."""
    for meal in facts.steps("press"):
        said = meal_said(facts.say, meal)
        yield in_meal(
            facts.say("You cook {meal} in an iron.", meal=said),
            meal,
            step=first_step(meal, "press"),
        )
    for meal in facts.steps("bake"):
        said = meal_said(facts.say, meal)
        because = facts.say("You bake {meal} in embers.", meal=said)
        yield in_meal(because, meal, step=first_step(meal, "bake"))
