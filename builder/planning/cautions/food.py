"""Conditions of the cautions about food: raw, wet, old, shared, and who must not eat it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.safety import HOT_ABOVE_C
from builder.model.batch import HEAT_METHODS
from builder.model.food import Food
from builder.model.trip import Person
from builder.planning.cautions.facts import Facts, Finding, days_said, meal_said, page_of
from builder.planning.menu import MenuItem, Portion, avoided_said, is_avoided
from builder.planning.stock import Judged, heated_through
from builder.speech import later

SMALL_CHILD_BELOW_YEARS = 5
BABY_NEAR_BELOW_YEARS = 2
OLDER_FROM_YEARS = 65
# Words that mark a gathered mushroom even where the food's `beware` was forgotten.
GATHERED_WORDS = ("wild mushroom", "chanterelle", "porcini", "bolete", "morel", "cep,")
# Nuts of these forms cannot be breathed in whole; seeds are small and soft once chewed.
MILLED_WORDS = ("butter", "ground", "powder", "flour", "paste", "milk", "cream", "seed", "dried")
# Of batches that keep too much water to be packed without air, by what they are packed with.
_TOO_WET = {
    "absorber": later("{batch} has {moisture} moisture left and is packed with an absorber."),
    "vacuum-bag": later("{batch} has {moisture} moisture left and is packed in a vacuum bag."),
    "can": later("{batch} has {moisture} moisture left and is packed in a can."),
    "glass": later("{batch} has {moisture} moisture left and is packed in a sealed jar."),
}
_FLESH = {
    "absorber": later("{batch} is heat-dried meat or fish and is packed with an absorber."),
    "vacuum-bag": later("{batch} is heat-dried meat or fish and is packed in a vacuum bag."),
    "can": later("{batch} is heat-dried meat or fish and is packed in a can."),
    "glass": later("{batch} is heat-dried meat or fish and is packed in a sealed jar."),
}


def raw_dried_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg that was dried without being heated through."""
    for meal, portion in facts.portions():
        if portion.planned.is_raw_animal and portion.planned.dried_by:
            food = portion.planned.name
            if portion.planned.batch:
                food = facts.say("{food} (batch {id})", food=food, id=portion.planned.batch)
            reach = meal.planned.reach_c
            dish = meal_said(facts.say, meal)
            says = (
                facts.say(
                    "{food} in {meal} was dried raw. Cook it until the middle reaches {heat}.",
                    food=food,
                    meal=dish,
                    heat=facts.say.show_at_least(reach, facts.trip.units),
                )
                if reach
                else facts.say("{food} in {meal} was dried raw.", food=food, meal=dish)
            )
            yield Finding(says, page_of(meal))


def raw_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg carried as it is."""
    for meal, portion in facts.portions():
        if portion.planned.is_raw_animal and not portion.planned.dried_by:
            yield _in_meal(facts, later("{food} in {meal} is carried raw."), portion, meal)


def _in_meal(facts: Facts, says: str, portion: Portion, meal: MenuItem) -> Finding:
    dish = meal_said(facts.say, meal)
    return Finding(facts.say(says, food=portion.substance.name, meal=dish), page_of(meal))


def _of_batch(facts: Facts, says: str, judged: Judged, **blanks: str) -> Finding:
    return Finding(facts.say(says, batch=_batch_said(facts, judged), **blanks), "drying")


def _batch_said(facts: Facts, judged: Judged) -> str:
    return facts.say("Batch {id} ({food})", id=judged.batch.id, food=judged.substance.name)


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
            says = later(
                "{batch} was heat-dried raw, and nobody noted that it was heated through before."
            )
            yield _of_batch(facts, says, judged)


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
    because = facts.say(
        "Food is soaked or cooked on {days}.", days=days_said(facts.say, (meal.day for meal in wet))
    )
    if hot:
        hour = facts.say(
            "The air is above {limit} on {days}: one hour only.",
            limit=facts.shown(HOT_ABOVE_C, "temperature_c"),
            days=days_said(facts.say, hot),
        )
        because = f"{because} {hour}"
    yield Finding(because, "cautions")


def not_dry_enough(facts: Facts) -> Iterator[Finding]:
    """A batch with more moisture left than its kind may keep with."""
    for judged in facts.batches:
        if not judged.dry_enough:
            left = facts.shown(judged.residual_share, "share")
            limit = facts.shown(judged.dry_limit_share, "share")
            weighs = facts.shown(judged.dried_g, "mass_g")
            says = (
                facts.say(
                    "{batch} weighs {mass}, dry enough at {target}: "
                    "{moisture} moisture is left, {limit} would do.",
                    batch=_batch_said(facts, judged),
                    mass=weighs,
                    target=facts.shown(judged.target_g, "mass_g"),
                    moisture=left,
                    limit=limit,
                )
                if judged.target_g
                else facts.say(
                    "{batch} weighs {mass}: {moisture} moisture is left, {limit} would do.",
                    batch=_batch_said(facts, judged),
                    mass=weighs,
                    moisture=left,
                    limit=limit,
                )
            )
            yield Finding(says, "drying")


def low_oxygen_wet(facts: Facts) -> Iterator[Finding]:
    """A batch packed without oxygen that is too wet for it, or heat-dried meat."""
    for judged in facts.batches:
        if judged.batch.method == "bought":
            continue
        if judged.low_oxygen and not judged.low_oxygen_is_safe:
            flesh = judged.batch.method in HEAT_METHODS and judged.substance.has_flesh
            packed = "absorber" if judged.has_absorber else judged.barrier or ""
            moisture = facts.shown(judged.residual_share, "share")
            says = _FLESH[packed] if flesh else _TOO_WET[packed]
            yield _of_batch(facts, says, judged, moisture=moisture)


def dryness_not_proven(facts: Facts) -> Iterator[Finding]:
    """A batch packed or kept so that its weight alone does not prove it dry."""
    for judged in facts.batches:
        if judged.wants_proof and judged.batch.method != "bought":
            says = later("{batch} is packed to keep long, and no second weighing is noted.")
            yield _of_batch(facts, says, judged)


def past_best_before(facts: Facts) -> Iterator[Finding]:
    """A batch eaten after its date."""
    for meal, portion in facts.portions():
        judged = portion.judged
        date = facts.trip.date_of(meal.day)
        if judged and judged.best_before and date and date > judged.best_before:
            says = facts.say(
                "{batch} in {meal} was best before {date}.",
                batch=_batch_said(facts, judged),
                meal=meal_said(facts.say, meal),
                date=facts.say.short_date(judged.best_before),
            )
            yield Finding(says, page_of(meal))


def no_best_before(facts: Facts) -> Iterator[Finding]:
    """Raw egg dried at home, for which no date can be given."""
    for judged in facts.batches:
        if judged.stays_raw and judged.substance.kind == "egg":
            yield _of_batch(facts, later("{batch} is raw egg dried at home."), judged)


def sun_dried_meat(facts: Facts) -> Iterator[Finding]:
    """Meat or fish dried in the sun."""
    for judged in facts.batches:
        if judged.batch.method == "sun" and judged.substance.has_flesh:
            yield _of_batch(facts, later("{batch} was dried in the sun."), judged)


def not_to_be_eaten(facts: Facts) -> Iterator[Finding]:
    """An allergen, kind or food that somebody avoids, in a meal they eat."""
    for meal in facts.meals():
        for person in facts.people(meal.planned.eaters):
            found = [
                f"{portion.substance.name} ({avoided_said(facts.say, word)})"
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
                yield Finding(says, page_of(meal))


def small_children(facts: Facts) -> Iterator[Finding]:
    """A child under five in the party."""
    yield from _of_age(facts, 0, SMALL_CHILD_BELOW_YEARS)


def older_people(facts: Facts) -> Iterator[Finding]:
    """Somebody of 65 or more in the party."""
    yield from _of_age(facts, OLDER_FROM_YEARS, 1000)


def _of_age(facts: Facts, least: float, below: float) -> Iterator[Finding]:
    found = [person for person in facts.trip.party if least <= person.age_years < below]
    if found:
        said = facts.say.listed(_age_said(facts, person) for person in found)
        yield Finding(f"{said}.", "cautions")


def _age_said(facts: Facts, person: Person) -> str:
    return facts.say(
        "{name} is {years}", name=person.name, years=facts.say.signs(f"{person.age_years:g}")
    )


def pregnancy(facts: Facts) -> Iterator[Finding]:
    """Somebody pregnant in the party."""
    found = [person.name for person in facts.trip.party if person.pregnant]
    if found:
        said = facts.say.listed(found)
        says = (
            facts.say("{name} is pregnant.", name=said)
            if len(found) == 1
            else facts.say("{names} are pregnant.", names=said)
        )
        yield Finding(says, "cautions")


def kidney_beans(facts: Facts) -> Iterator[Finding]:
    """Kidney beans that have not been boiled yet."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            marked = "kidney-bean" in food.beware or "kidney bean" in _called(food)
            if marked and food.state in ("raw", "dried"):
                yield _holds(facts, food, meal)


def _called(food: Food) -> str:
    """Give a food's id and name as words: the name may stand in another language."""
    return f"{food.id.replace('-', ' ')}, {food.name}".lower()


def _holds(facts: Facts, food: Food, meal: MenuItem) -> Finding:
    says = facts.say("{food} in {meal}.", food=food.name, meal=meal_said(facts.say, meal))
    return Finding(says, page_of(meal))


def wild_mushrooms(facts: Facts) -> Iterator[Finding]:
    """Mushrooms that somebody gathered."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            by_name = any(word in f"{_called(food)}," for word in GATHERED_WORDS)
            if "wild-mushroom" in food.beware or by_name:
                yield _holds(facts, food, meal)


def leftovers(facts: Facts) -> Iterator[Finding]:
    """Cooked meals, of which something may be left."""
    cooked = [meal.day for meal in facts.cooked() if meal.planned.meal != "drinks"]
    if cooked:
        days = days_said(facts.say, cooked)
        yield Finding(facts.say("Meals are cooked on {days}.", days=days), "cautions")


def honey_and_babies(facts: Facts) -> Iterator[Finding]:
    """Honey in the food bag, and a baby or toddler near."""
    with_honey = [
        meal
        for meal, portion in facts.portions()
        if any("honey" in food.beware for food in portion.substance.foods)
        or "honey" in f"{portion.substance.id} {portion.substance.name}".lower()
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
        yield Finding(says, page_of(with_honey[0]))


def nuts_and_small_children(facts: Facts) -> Iterator[Finding]:
    """Whole nuts in a meal of a child under five."""
    for meal, portion in facts.portions():
        whole = [food for food in portion.substance.foods if is_whole_nut(food)]
        for person in facts.people(meal.planned.eaters):
            if whole and person.age_years < SMALL_CHILD_BELOW_YEARS:
                says = facts.say(
                    "{food} in {meal}, and {who}.",
                    food=whole[0].name,
                    meal=meal_said(facts.say, meal),
                    who=_age_said(facts, person),
                )
                yield Finding(says, page_of(meal))


def is_whole_nut(food: Food) -> bool:
    """Tell whether a food is nuts that a child can choke on: marked so, or nuts and not milled."""
    milled = any(word in _called(food) for word in MILLED_WORDS)
    return "whole-nut" in food.beware or (food.kind == "nut" and not milled)


def clean_hands(facts: Facts) -> Iterator[Finding]:
    """Anybody eats anything."""
    if any(True for _ in facts.meals()):
        yield Finding(facts.say("You handle food for others on this trip."), "cautions")
