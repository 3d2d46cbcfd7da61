"""Conditions of the cautions about food: raw, wet, old, shared, and who must not eat it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.safety import HOT_ABOVE_C
from builder.model.batch import HEAT_METHODS
from builder.model.food import Food
from builder.model.trip import Person
from builder.planning.caution_facts import Facts, Finding, days_said, listed, meal_said, page_of
from builder.planning.judging import heated_through
from builder.planning.menu import MenuItem, Portion

SMALL_CHILD_BELOW_YEARS = 5
BABY_NEAR_BELOW_YEARS = 2
OLDER_FROM_YEARS = 65
# Words that mark a gathered mushroom even where the food's `beware` was forgotten.
GATHERED_WORDS = ("wild mushroom", "chanterelle", "porcini", "bolete", "morel", "cep,")
# Nuts of these forms cannot be breathed in whole; seeds are small and soft once chewed.
MILLED_WORDS = ("butter", "ground", "powder", "flour", "paste", "milk", "cream", "seed", "dried")
SEALED_IN = {"vacuum-bag": "in a vacuum bag", "can": "in a can", "glass": "in a sealed jar"}
SEA_ALLERGENS = frozenset({"fish", "crustaceans", "molluscs"})


def raw_dried_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg that was dried without being heated through."""
    for meal, portion in facts.portions():
        if portion.planned.is_raw_animal and portion.planned.dried_by:
            batch = f" (batch {portion.planned.batch})" if portion.planned.batch else ""
            reach = meal.planned.reach_c
            until = f" Cook it until the middle reaches {reach:.0f} °C." if reach else ""
            yield Finding(
                f"{portion.substance.name}{batch} in {meal_said(meal)} was dried raw.{until}",
                page_of(meal),
            )


def raw_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg carried as it is."""
    for meal, portion in facts.portions():
        if portion.planned.is_raw_animal and not portion.planned.dried_by:
            yield Finding(
                f"{portion.substance.name} in {meal_said(meal)} is carried raw.", page_of(meal)
            )


def jerky_not_heated(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry or fish dried by heat without a heat step before."""
    for judged in facts.batches:
        substance = judged.substance
        if (
            judged.batch.method in HEAT_METHODS
            and substance.is_raw_animal
            and substance.has_flesh
            and not heated_through(judged.batch, substance)
        ):
            yield Finding(
                f"Batch {judged.batch.id} ({substance.name}) was heat-dried raw, and nobody "
                "noted that it was heated through before.",
                "drying",
            )


def two_hours(facts: Facts) -> Iterator[Finding]:
    """Food that is wet again, or cooked."""
    wet = [
        meal
        for meal in facts.meals()
        if meal.planned.recipe and meal.planned.meal != "drinks" and meal.planned.water_ml > 0
    ]
    if not wet:
        return
    hot = [day.day for day in facts.days if day.conditions.air_high_c > HOT_ABOVE_C]
    because = f"Food is soaked or cooked on {days_said(meal.day for meal in wet)}."
    if hot:
        because += f" On {days_said(hot)} the air is above 32 °C: one hour only."
    yield Finding(because, "cautions")


def not_dry_enough(facts: Facts) -> Iterator[Finding]:
    """A batch with more moisture left than its kind may keep with."""
    for judged in facts.batches:
        if not judged.dry_enough:
            target = f", dry enough at {judged.target_g:.0f} g" if judged.target_g else ""
            yield Finding(
                f"Batch {judged.batch.id} ({judged.substance.name}) weighs "
                f"{judged.dried_g:.0f} g{target}: {judged.residual_share:.0%} moisture is left, "
                f"{judged.dry_limit_share:.0%} would do.",
                "drying",
            )


def low_oxygen_wet(facts: Facts) -> Iterator[Finding]:
    """A batch packed without oxygen that is too wet for it, or heat-dried meat."""
    for judged in facts.batches:
        if judged.batch.method == "bought":
            continue
        if judged.low_oxygen and not judged.low_oxygen_is_safe:
            if judged.batch.method in HEAT_METHODS and judged.substance.has_flesh:
                why = "is heat-dried meat or fish"
            else:
                why = f"has {judged.residual_share:.0%} moisture left"
            how = "with an absorber" if judged.has_absorber else SEALED_IN[judged.barrier or ""]
            yield Finding(
                f"Batch {judged.batch.id} ({judged.substance.name}) {why} and is packed {how}.",
                "drying",
            )


def dryness_not_proven(facts: Facts) -> Iterator[Finding]:
    """A batch packed or kept so that its weight alone does not prove it dry."""
    for judged in facts.batches:
        if judged.wants_proof and judged.batch.method != "bought":
            yield Finding(
                f"Batch {judged.batch.id} ({judged.substance.name}) is packed to keep long, and "
                "no second weighing is noted.",
                "drying",
            )


def past_best_before(facts: Facts) -> Iterator[Finding]:
    """A batch eaten after its date."""
    for meal, portion in facts.portions():
        judged = portion.judged
        date = facts.trip.date_of(meal.day)
        if judged and judged.best_before and date and date > judged.best_before:
            yield Finding(
                f"Batch {judged.batch.id} ({judged.substance.name}) in {meal_said(meal)} was best "
                f"before {judged.best_before.isoformat()}.",
                page_of(meal),
            )


def no_best_before(facts: Facts) -> Iterator[Finding]:
    """Raw egg dried at home, for which no date can be given."""
    for judged in facts.batches:
        if judged.stays_raw and judged.substance.kind == "egg":
            yield Finding(
                f"Batch {judged.batch.id} ({judged.substance.name}) is raw egg dried at home.",
                "drying",
            )


def sun_dried_meat(facts: Facts) -> Iterator[Finding]:
    """Meat or fish dried in the sun."""
    for judged in facts.batches:
        if judged.batch.method == "sun" and judged.substance.has_flesh:
            yield Finding(
                f"Batch {judged.batch.id} ({judged.substance.name}) was dried in the sun.",
                "drying",
            )


def not_to_be_eaten(facts: Facts) -> Iterator[Finding]:
    """An allergen, kind or food that somebody avoids, in a meal they eat."""
    for meal in facts.meals():
        for person in facts.people(meal.planned.eaters):
            found = [
                f"{portion.substance.name} ({word})"
                for portion in meal.portions
                for word in person.avoids
                if is_avoided(portion, word)
            ]
            if found:
                yield Finding(
                    f"{person.name} must not eat {listed(sorted(set(found)))}: "
                    f"it is in {meal_said(meal)}.",
                    page_of(meal),
                )


def is_avoided(portion: Portion, word: str) -> bool:
    """Tell whether something holds what a word of `avoids` stands for."""
    substance = portion.substance
    allergens, kinds = substance.allergens, substance.kinds
    if word in ("vegetarian", "vegan"):
        flesh = substance.has_flesh or bool(allergens & SEA_ALLERGENS)
        if word == "vegetarian":
            return flesh
        honey = any("honey" in food.beware for food in substance.foods)
        animal = bool(kinds & {"egg", "dairy"}) or bool(allergens & {"eggs", "milk"})
        return flesh or honey or animal
    same_kind = {"eggs": "egg", "milk": "dairy", "fish": "fish"}.get(word)
    ids = {food.id for food in substance.foods}
    return word in allergens or word in kinds or word in ids or same_kind in kinds


def small_children(facts: Facts) -> Iterator[Finding]:
    """A child under five in the party."""
    yield from _of_age(facts, 0, SMALL_CHILD_BELOW_YEARS)


def older_people(facts: Facts) -> Iterator[Finding]:
    """Somebody of 65 or more in the party."""
    yield from _of_age(facts, OLDER_FROM_YEARS, 1000)


def _of_age(facts: Facts, least: float, below: float) -> Iterator[Finding]:
    found = [person for person in facts.trip.party if least <= person.age_years < below]
    if found:
        said = listed([f"{person.name} is {person.age_years:g}" for person in found])
        yield Finding(f"{said}.", "cautions")


def pregnancy(facts: Facts) -> Iterator[Finding]:
    """Somebody pregnant in the party."""
    found = [person.name for person in facts.trip.party if person.pregnant]
    if found:
        yield Finding(f"{listed(found)} {'is' if len(found) == 1 else 'are'} pregnant.", "cautions")


def kidney_beans(facts: Facts) -> Iterator[Finding]:
    """Kidney beans that have not been boiled yet."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            marked = "kidney-bean" in food.beware or "kidney bean" in food.name.lower()
            if marked and food.state in ("raw", "dried"):
                yield Finding(f"{food.name} in {meal_said(meal)}.", page_of(meal))


def wild_mushrooms(facts: Facts) -> Iterator[Finding]:
    """Mushrooms that somebody gathered."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            by_name = any(word in f"{food.name.lower()}," for word in GATHERED_WORDS)
            if "wild-mushroom" in food.beware or by_name:
                yield Finding(f"{food.name} in {meal_said(meal)}.", page_of(meal))


def leftovers(facts: Facts) -> Iterator[Finding]:
    """Cooked meals, of which something may be left."""
    cooked = [meal.day for meal in facts.cooked() if meal.planned.meal != "drinks"]
    if cooked:
        yield Finding(f"Meals are cooked on {days_said(cooked)}.", "cautions")


def honey_and_babies(facts: Facts) -> Iterator[Finding]:
    """Honey in the food bag, and a baby or toddler near."""
    with_honey = [
        meal
        for meal, portion in facts.portions()
        if any("honey" in food.beware for food in portion.substance.foods)
        or "honey" in portion.substance.name.lower()
    ]
    near = [p for p in facts.trip.party if p.nursing or p.age_years < BABY_NEAR_BELOW_YEARS]
    if with_honey and near:
        who = listed(
            [f"{p.name} is nursing" if p.nursing else f"{p.name} is {p.age_years:g}" for p in near]
        )
        yield Finding(
            f"There is honey in {meal_said(with_honey[0])}, and {who}.", page_of(with_honey[0])
        )


def nuts_and_small_children(facts: Facts) -> Iterator[Finding]:
    """Whole nuts in a meal of a child under five."""
    for meal, portion in facts.portions():
        whole = [food for food in portion.substance.foods if is_whole_nut(food)]
        for person in facts.people(meal.planned.eaters):
            if whole and person.age_years < SMALL_CHILD_BELOW_YEARS:
                yield Finding(_for_child(whole[0].name, meal, person), page_of(meal))


def is_whole_nut(food: Food) -> bool:
    """Tell whether a food is nuts that a child can choke on: marked so, or nuts and not milled."""
    milled = any(word in food.name.lower() for word in MILLED_WORDS)
    return "whole-nut" in food.beware or (food.kind == "nut" and not milled)


def _for_child(name: str, meal: MenuItem, person: Person) -> str:
    return f"{name} in {meal_said(meal)}, and {person.name} is {person.age_years:g}."


def clean_hands(facts: Facts) -> Iterator[Finding]:
    """Anybody eats anything."""
    if any(True for _ in facts.meals()):
        yield Finding("You handle food for others on this trip.", "cautions")
