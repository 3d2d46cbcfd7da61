"""Conditions of the cautions about who eats: allergens, children, the old, the pregnant."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.kit import Spot
from builder.model.trip import Person
from builder.planning.cautions.facts import Facts, Finding, in_meal, meal_said
from builder.planning.hazards import hazards_of
from builder.planning.menu import avoided_said, is_avoided

SMALL_CHILD_BELOW_YEARS = 5
BABY_NEAR_BELOW_YEARS = 2
OLDER_FROM_YEARS = 65


def not_to_be_eaten(facts: Facts) -> Iterator[Finding]:
    """An allergen, kind or food that somebody avoids, in a meal they eat."""
    for meal in facts.meals():
        for person in facts.people(meal.planned.eaters):
            found = [
                f"{portion.planned.name} ({avoided_said(facts.say, word)})"
                for portion in meal.portions
                for word in person.avoids
                if is_avoided(portion, word)
            ]
            if found:
                says = facts.say(
                    "{name} must not eat {food}: it is in {meal}.",
                    name=person.name,
                    food=facts.say.listed(sorted(set(found))),
                    meal=meal_said(facts.say, meal),
                )
                yield in_meal(says, meal, person=person.name)


def small_children(facts: Facts) -> Iterator[Finding]:
    """A child under five in the party."""
    yield from _of_age(facts, 0, SMALL_CHILD_BELOW_YEARS)


def older_people(facts: Facts) -> Iterator[Finding]:
    """Somebody of 65 or more in the party."""
    yield from _of_age(facts, OLDER_FROM_YEARS, 1000)


def _of_age(facts: Facts, least: float, below: float) -> Iterator[Finding]:
    for person in facts.trip.party:
        if least <= person.age_years < below:
            yield Finding(f"{_age_said(facts, person)}.", "cautions", Spot(person=person.name))


def _age_said(facts: Facts, person: Person) -> str:
    return facts.say(
        "{name} is {years}", name=person.name, years=facts.say.signs(f"{person.age_years:g}")
    )


def pregnancy(facts: Facts) -> Iterator[Finding]:
    """Somebody pregnant in the party."""
    for person in facts.trip.party:
        if person.pregnant:
            says = facts.say("{name} is pregnant.", name=person.name)
            yield Finding(says, "cautions", Spot(person=person.name))


def honey_and_babies(facts: Facts) -> Iterator[Finding]:
    """Honey in the food bag, and a baby or toddler near."""
    with_honey = [
        meal
        for meal, portion in facts.portions()
        if any("honey" in hazards_of(food) for food in portion.substance.foods)
    ]
    near = [p for p in facts.trip.party if p.nursing or p.age_years < BABY_NEAR_BELOW_YEARS]
    if with_honey and near:
        who = facts.say.listed(
            facts.say("{name} is nursing", name=person.name)
            if person.nursing
            else _age_said(facts, person)
            for person in near
        )
        says = facts.say(
            "There is honey in {meal}, and {who}.",
            meal=meal_said(facts.say, with_honey[0]),
            who=who,
        )
        yield in_meal(says, with_honey[0])


def nuts_and_small_children(facts: Facts) -> Iterator[Finding]:
    """Whole nuts in a meal of a child under five."""
    for meal, portion in facts.portions():
        whole = [food for food in portion.substance.foods if "whole-nut" in hazards_of(food)]
        for person in facts.people(meal.planned.eaters):
            if whole and person.age_years < SMALL_CHILD_BELOW_YEARS:
                says = facts.say(
                    "{food} in {meal}, and {who}.",
                    food=whole[0].name,
                    meal=meal_said(facts.say, meal),
                    who=_age_said(facts, person),
                )
                yield in_meal(says, meal, person=person.name)
