"""Conditions of the cautions about foods that are not for the small, the pregnant or the old."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator

from builder.model.batch import HEAT_METHODS
from builder.model.food import FLESH_KINDS, Food
from builder.model.kit import KitDay, Spot
from builder.model.recipe import HEATING
from builder.model.trip import GROWN_UP_YEARS, Person
from builder.planning.cautions.facts import (
    Facts,
    Finding,
    food_in,
    in_meal,
    is_heated,
    meal_said,
    step_with,
)
from builder.planning.cautions.outdoors.people import (
    OLDER_FROM_YEARS,
    SMALL_CHILD_BELOW_YEARS,
    age_said,
)
from builder.planning.foods import hazards_of
from builder.planning.menu import MenuItem, Portion, plate_share

# EFSA 2015: what is of no concern in a day.
CAFFEINE_MOST_MG = 200.0  # for two: pregnant or nursing
CAFFEINE_CHILD_MG_PER_KG = 3.0
# Whoever is under eighteen and was not weighed counts as light as a child of two or three.
UNTOLD_CHILD_KG = 10.0


def nuts_and_small_children(facts: Facts) -> Iterator[Finding]:
    """Whole nuts in a meal of a child under five."""
    yield from _eaten(facts, {"whole-nut"}, _is_small, heated_too=True)


def choking(facts: Facts) -> Iterator[Finding]:
    """Hard, round or dry pieces on the plate of a child under five."""
    for meal, portion, person in _plates(facts, _is_small):
        found = [food for food in portion.substance.foods if "choking" in hazards_of(food)]
        dry = portion.planned.dried_by in HEAT_METHODS and bool(
            portion.substance.kinds & (FLESH_KINDS | {"fruit"})
        )
        # Fruit and roots get soft, also in an iron; sausage and jerky stay as they are.
        if any(step.do in HEATING for step in meal.planned.steps[step_with(meal, portion) or 0 :]):
            found = [food for food in found if food.kind in FLESH_KINDS]
            dry = False
        if found or dry:
            name = found[0].name if found else portion.planned.name
            yield _for_them(facts, name, meal, person)


def liver(facts: Facts) -> Iterator[Finding]:
    """Liver for somebody pregnant or a small child, however it is cooked."""
    yield from _eaten(facts, {"liver"}, _is_pregnant_or_small, heated_too=True)


def alcohol(facts: Facts) -> Iterator[Finding]:
    """Alcohol for somebody pregnant or under eighteen."""
    yield from _eaten(facts, {"alcohol"}, _is_pregnant_or_young, heated_too=True)


def raw_milk_and_soft_cheese(facts: Facts) -> Iterator[Finding]:
    """Raw milk or soft cheese, not heated, for who falls ill of listeria."""
    yield from _eaten(facts, {"raw-milk", "soft-cheese"}, _is_frail)


def cured_raw(facts: Facts) -> Iterator[Finding]:
    """Cured raw sausage or ham, not heated, for somebody pregnant or a small child."""
    yield from _eaten(facts, {"cured-raw"}, _is_pregnant_or_small)


def raw_fish(facts: Facts) -> Iterator[Finding]:
    """Raw or cold-smoked fish, not heated, for who falls ill of listeria."""
    yield from _eaten(facts, {"raw-fish"}, _is_frail)


def caffeine(facts: Facts) -> Iterator[Finding]:
    """More caffeine in a day than is of no concern for a child, or for two; or nobody told it."""
    for person in facts.trip.party:
        most_mg = caffeine_most_mg(person)
        if most_mg is None:
            continue
        for day, menu in zip(facts.days, facts.menus, strict=True):
            mass_mg = sum(_caffeine_mg(day, meal, person) for meal in menu)
            if mass_mg > most_mg:
                says = facts.say(
                    "{who}, and day {n} gives {amount} of caffeine: {most} would do.",
                    who=_who(facts, person),
                    n=day.day,
                    amount=_mg(facts, mass_mg),
                    most=_mg(facts, most_mg),
                )
                at = Spot(person=person.name, days=(day.day,))
                yield Finding(says, f"day-{day.day}", at)
        untold = dict.fromkeys(
            food.name
            for meal, portion in facts.portions()
            if person.name in meal.planned.eaters
            for food in portion.substance.foods
            if "caffeine" in hazards_of(food) and food.per_100g.caffeine_mg is None
        )
        if untold:
            says = facts.say(
                "{who}. Caffeine not given: {foods}.",
                who=_who(facts, person),
                foods="; ".join(untold),  # their names hold commas
            )
            yield Finding(says, "shopping", Spot(person=person.name))


def caffeine_most_mg(person: Person) -> float | None:
    """Give the caffeine of a day that is of no concern; None for grown-ups, who need no telling."""
    young = person.age_years < GROWN_UP_YEARS
    mass_kg = person.mass_kg if "mass" in person.places.fields else UNTOLD_CHILD_KG
    by_mass_mg = CAFFEINE_CHILD_MG_PER_KG * mass_kg if young else None
    if person.pregnant or person.nursing:
        return min(CAFFEINE_MOST_MG, by_mass_mg) if by_mass_mg is not None else CAFFEINE_MOST_MG
    return by_mass_mg


def _caffeine_mg(day: KitDay, meal: MenuItem, person: Person) -> float:
    in_pot_mg = sum(
        (portion.composition.caffeine_mg or 0.0) * portion.planned.amount_g / 100
        for portion in meal.portions
    )
    return in_pot_mg * plate_share(day.meals[meal.place], person.name)


def _mg(facts: Facts, mass_mg: float) -> str:
    return f"{facts.say.number(round(mass_mg))}\u00a0mg"


def _eaten(
    facts: Facts,
    hazards: Collection[str],
    concerns: Callable[[Person], bool],
    heated_too: bool = False,
) -> Iterator[Finding]:
    """Find foods with a hazard on the plates of those whom it concerns."""
    for meal, portion, person in _plates(facts, concerns):
        found = _with_hazard(portion.substance.foods, hazards)
        if found and (heated_too or not is_heated(meal, portion)):
            yield _for_them(facts, found[0].name, meal, person)


def _plates(
    facts: Facts, concerns: Callable[[Person], bool]
) -> Iterator[tuple[MenuItem, Portion, Person]]:
    concerned = {person.name: person for person in facts.trip.party if concerns(person)}
    for meal, portion in facts.portions() if concerned else ():
        for name in meal.planned.eaters:
            if name in concerned:
                yield meal, portion, concerned[name]


def _with_hazard(foods: Iterable[Food], hazards: Collection[str]) -> list[Food]:
    return [food for food in foods if hazards_of(food) & set(hazards)]


def _for_them(facts: Facts, food: str, meal: MenuItem, person: Person) -> Finding:
    said = food_in(facts.say, food, meal) if meal.planned.recipe else meal_said(facts.say, meal)
    says = facts.say("{food}, and {who}.", food=said, who=_who(facts, person))
    return in_meal(says, meal, person=person.name)


def _who(facts: Facts, person: Person) -> str:
    if person.pregnant:
        return facts.say("{name} is pregnant", name=person.name)
    if person.nursing:
        return facts.say("{name} is nursing", name=person.name)
    return age_said(facts, person)


def _is_small(person: Person) -> bool:
    return person.age_years < SMALL_CHILD_BELOW_YEARS


def _is_pregnant_or_small(person: Person) -> bool:
    return bool(person.pregnant) or _is_small(person)


def _is_pregnant_or_young(person: Person) -> bool:
    return bool(person.pregnant) or person.age_years < GROWN_UP_YEARS


def _is_frail(person: Person) -> bool:
    return _is_pregnant_or_small(person) or person.age_years >= OLDER_FROM_YEARS
