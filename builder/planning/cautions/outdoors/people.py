"""Conditions of the cautions about who eats: allergens, children, the old, the pregnant."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.food import ALLERGENS
from builder.model.kit import How, Spot
from builder.model.trip import Person
from builder.planning.cautions.facts import Facts, Finding, in_meal, meal_said
from builder.planning.foods import hazards_of
from builder.planning.menu import MenuItem, avoided_in, avoided_said
from builder.speech import Speech, later

SMALL_CHILD_BELOW_YEARS = 5
BABY_NEAR_BELOW_YEARS = 2
OLDER_FROM_YEARS = 65

_AVOIDS = {
    "may-contain": later("{name} avoids {allergens}. Traces may be in: {foods}."),
    "not-told": later("{name} avoids {allergens}. Nobody told if that is in: {foods}."),
}


def not_to_be_eaten(facts: Facts) -> Iterator[Finding]:
    """An allergen, kind or food that somebody avoids, in a meal they eat."""
    avoiding = {person.name: person for person in facts.trip.party if person.avoids}
    for meal in facts.meals() if avoiding else ():
        for person in (avoiding[name] for name in meal.planned.eaters if name in avoiding):
            found = sorted(
                {
                    (portion.planned.name, avoided_said(facts.say, word))
                    for portion in meal.portions
                    for word in avoided_in(person, portion.substance, "told")
                }
            )
            if found:
                says = _must_not_eat(facts.say, person.name, meal, found)
                yield in_meal(says, meal, person=person.name)


def _must_not_eat(say: Speech, name: str, meal: MenuItem, found: Sequence[tuple[str, str]]) -> str:
    """Say of somebody what they must not eat; what is eaten by itself is named once."""
    said = meal_said(say, meal)
    if {food for food, _ in found} == {meal.planned.title}:
        words = say.listed([word for _, word in found])
        return say("{name} must not eat {meal}: {what}.", name=name, meal=said, what=words)
    foods = say.listed([f"{food} ({word})" for food, word in found])
    return say("{name} must not eat {food}: it is in {meal}.", name=name, food=foods, meal=said)


def may_contain(facts: Facts) -> Iterator[Finding]:
    """Traces of what somebody avoids, in what they eat."""
    yield from _perhaps(facts, "may-contain")


def allergens_not_told(facts: Facts) -> Iterator[Finding]:
    """Somebody avoids something, and eats what nobody told the contents of."""
    yield from _perhaps(facts, "not-told")


def _perhaps(facts: Facts, how: How) -> Iterator[Finding]:
    """Find the foods of each person together: their packets are read at one time, at home."""
    for person in facts.trip.party:
        if not person.avoids:
            continue
        words: dict[str, None] = {}
        foods: dict[str, None] = {}
        for meal, portion in facts.portions():
            if person.name not in meal.planned.eaters:
                continue
            for word in avoided_in(person, portion.substance, how):
                words[avoided_said(facts.say, word)] = None
                foods[portion.planned.name] = None
        if foods:
            says = facts.say(
                _AVOIDS[how],
                name=person.name,
                allergens=facts.say.listed(words),
                foods="; ".join(foods),  # their names hold commas
            )
            yield Finding(says, "shopping", Spot(person=person.name))


def allergen_beside(facts: Facts) -> Iterator[Finding]:
    """An allergen that somebody avoids, in what only others eat: pots and spoons carry it on."""
    for person in facts.trip.party:
        words: dict[str, None] = {}
        foods: dict[str, None] = {}
        for meal, portion in facts.portions() if person.avoids else ():
            if person.name in meal.planned.eaters:
                continue
            for word in avoided_in(person, portion.substance, "told"):
                if word in ALLERGENS:
                    words[avoided_said(facts.say, word)] = None
                    foods[portion.planned.name] = None
        if foods:
            says = facts.say(
                "{name} must not eat {allergens}. Others eat: {foods}.",
                name=person.name,
                allergens=facts.say.listed(words),
                foods="; ".join(foods),  # their names hold commas
            )
            yield Finding(says, "cautions", Spot(person=person.name))


def small_children(facts: Facts) -> Iterator[Finding]:
    """A child under five in the party."""
    yield from _of_age(facts, 0, SMALL_CHILD_BELOW_YEARS)


def older_people(facts: Facts) -> Iterator[Finding]:
    """Somebody of 65 or more in the party."""
    yield from _of_age(facts, OLDER_FROM_YEARS, 1000)


def _of_age(facts: Facts, least: float, below: float) -> Iterator[Finding]:
    for person in facts.trip.party:
        if least <= person.age_years < below:
            yield Finding(f"{age_said(facts, person)}.", "cautions", Spot(person=person.name))


def age_said(facts: Facts, person: Person) -> str:
    """Say how old somebody is."""
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
            else age_said(facts, person)
            for person in near
        )
        says = facts.say(
            "There is honey in {meal}, and {who}.",
            meal=meal_said(facts.say, with_honey[0]),
            who=who,
        )
        yield in_meal(says, with_honey[0])
