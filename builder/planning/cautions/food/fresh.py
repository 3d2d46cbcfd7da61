"""Conditions of the cautions about fresh food that is carried warm for longer than it bears."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from builder.formulas.keeping import HALVING_K
from builder.formulas.nutrition import salt_g
from builder.formulas.rehydration import COLD_UP_TO_C
from builder.formulas.safety import hours_out_of_cold
from builder.model.food import BY_CENTRE_TEMPERATURE, FLESH_KINDS, Composition, Food
from builder.model.meal_times import MealTimes
from builder.model.trip import Trip
from builder.planning.carrying import waits_at
from builder.planning.cautions.facts import Facts, Finding, at_portion, food_in
from builder.planning.foods import called, hazards_of
from builder.planning.menu import MenuItem, Portion
from builder.record import dataclass
from builder.speech import later


def meal_at_h(trip: Trip, day: int, meal: str) -> float:
    """Give when a meal is eaten, in hours since the first midnight: as told, or as is usual."""
    return (day - 1) * 24 + (trip.times or MealTimes()).of(meal) / 60


@dataclass(frozen=True, slots=True)
class Bears:
    """So many hours out of the cold, in air below this."""

    hours: float
    below_c: float


TWO_HOURS = Bears(0.0, -math.inf)
# Days are practice of rations managers, who keep them so in highs up to 26 °C.
WEEK = Bears(168.0, 26.0)
CURED = Bears(120.0, 26.0)

_UNOPENED = (
    "canned", "tinned", "pouch", "long-life", "uht", "h-milch", "konserve", "dose", "haltbar",
    "hermetisk", "boks", "langtidsholdbar",
)  # fmt: skip
_CUT = (
    " cut",
    "sliced",
    "diced",
    "purée",
    "puree",
    "salad",
    "schnitten",
    "würfel",
    "salat",
    "skåret",
    "biter",
    "terning",
)

# Acid, salt or sugar keep these: of `other` all else that is wet is asked about.
_SEASONING = (
    "vinegar", "mustard", "ketchup", "sauce", "extract", "horseradish", "miso", "tamari",
    "essig", "senf", "soße", "extrakt", "meerrettich",
    "eddik", "sennep", "ketsjup", "saus", "ekstrakt", "pepperrot",
)  # fmt: skip
_ANIMAL_ALLERGENS = frozenset({"fish", "eggs", "milk", "crustaceans", "molluscs"})
# Shares of water: drier food of a kind does not spoil within a trip, wetter food is soft.
_DRY_SHARE = 0.25
_HARD_CHEESE_SHARE = 0.42
_SOFT_SHARE = 0.50


def bears(food: Food) -> Bears | None:
    """Give what a fresh food bears, told or by its kind; None for what does not perish so soon."""
    if food.perishable:
        return Bears(food.perishable.hours, food.perishable.below_c)
    return _by_kind(food)


def _by_kind(food: Food) -> Bears | None:
    water_share = food.per_100g.water_share
    if food.state == "dried" or water_share <= _DRY_SHARE or _called_one_of(food, _UNOPENED):
        return None
    if food.kind in FLESH_KINDS:
        return CURED if _is_dry_cured(food) else TWO_HOURS
    if food.kind == "dairy":
        return WEEK if water_share <= _HARD_CHEESE_SHARE else TWO_HOURS
    if food.kind in ("fat", "sugar", "herb", "drink", "nut"):
        return None
    if food.state == "cooked" or food.kind == "egg":
        return TWO_HOURS
    if food.kind == "fruit":
        return TWO_HOURS if food.state == "ready" or _called_one_of(food, _CUT) else WEEK
    if food.kind == "vegetable" and food.state == "ready" and _called_one_of(food, _CUT):
        return TWO_HOURS
    if food.kind == "grain":
        return TWO_HOURS if water_share > _SOFT_SHARE else WEEK
    if food.state == "ready" and food.kind in ("legume", "meal"):
        return TWO_HOURS
    return None


def keeps_untold(food: Food) -> bool:
    """Tell whether a wet food is of a kind that tells nothing: a sandwich, a salad, a spread."""
    if food.kind != "other" or food.state == "dried" or bears(food) is not None:
        return False
    if _least_water_share(food.per_100g) <= _DRY_SHARE:
        return False
    return not (_called_one_of(food, _UNOPENED) or _called_one_of(food, _SEASONING))


def _least_water_share(of: Composition) -> float:
    """Give the water that is told, or that is left where a label tells all else but it."""
    parts_g = (of.protein_g, of.fat_g, of.carbohydrate_g)
    if of.water_g or not all(parts_g):
        return of.water_share
    return 1 - (sum(parts_g) + of.alcohol_g + (of.ash_g or salt_g(of.sodium_mg))) / 100


def _is_dry_cured(food: Food) -> bool:
    return food.state == "ready" and food.kind != "fish" and "cured-raw" in hazards_of(food)


def _called_one_of(food: Food, words: tuple[str, ...]) -> bool:
    return any(word in f" {called(food)}" for word in words)


def animal_food_carried_warm(facts: Facts) -> Iterator[Finding]:
    """Fresh meat, fish, egg or soft dairy carried for longer than it bears."""
    yield from _carried_too_long(facts, animal=True)


def plant_food_carried_warm(facts: Facts) -> Iterator[Finding]:
    """Bread, fruit, hard cheese and cooked plants carried for longer than they bear."""
    yield from _carried_too_long(facts, animal=False)


def kept_cold(trip: Trip, menus: Sequence[Sequence[MenuItem]]) -> tuple[tuple[int, int], ...]:
    """Give the meals with fresh food that perishes, eaten while the cool bag holds."""
    until = trip.chilled_until
    if until is None:
        return ()
    warms_at_h = meal_at_h(trip, until.day, until.meal)
    return tuple(
        (each.day, each.place)
        for menu in menus
        for each in menu
        if meal_at_h(trip, each.day, each.planned.meal) <= warms_at_h
        and waits_at(trip.depots, each.day, each.planned.meal) is None
        and any(_perishes(portion) for portion in each.portions)
    )


def _perishes(portion: Portion) -> bool:
    if portion.planned.dried_by or portion.judged:
        return False
    return any(_wants_cold(food) for food in portion.substance.foods)


def _wants_cold(food: Food) -> bool:
    """Tell whether it belongs into a cool bag: bread and whole fruit bear a week without."""
    kept = bears(food)
    if kept is None:
        return keeps_untold(food)
    return kept is not WEEK or food.kind == "dairy"


def _carried_too_long(facts: Facts, animal: bool) -> Iterator[Finding]:
    for meal, portion in facts.portions():
        if portion.planned.dried_by or portion.judged:
            continue
        for food in portion.substance.foods:
            kept = bears(food)
            if kept is None:
                if not keeps_untold(food) or _may_hold_animal(food) != animal:
                    continue
            elif _is_risky(food, kept) != animal:
                continue
            because = _too_long(facts, meal, food, kept)
            if because:
                yield at_portion(because, portion, meal)


def _is_risky(food: Food, kept: Bears) -> bool:
    """Tell whether it is animal food that makes ill, not only spoils."""
    if food.kind in BY_CENTRE_TEMPERATURE:
        return True
    return food.kind == "dairy" and kept is not WEEK


def _may_hold_animal(food: Food) -> bool:
    """Tell whether there is animal food in what is of no kind, as its allergens and name tell."""
    hazards = hazards_of(food) & {"cured-raw", "raw-fish", "liver", "game", "shellfish"}
    return bool(hazards or _ANIMAL_ALLERGENS.intersection(food.allergens or ()))


def _too_long(facts: Facts, meal: MenuItem, food: Food, kept: Bears | None) -> str:
    """Say for how long it is carried and what it bears; "" where that is not too long."""
    depot = waits_at(facts.trip.depots, meal.day, meal.planned.meal)
    if depot is not None:
        return facts.say(
            "{food} waits at the camp of day {n}. Nobody wrote down since when, and how warm.",
            food=food_in(facts.say, food.name, meal),
            n=depot,
        )
    air_c = max(day.conditions.air_high_c for day in facts.days[: meal.day])
    if air_c <= COLD_UP_TO_C:
        return ""
    at_most_h = hours_out_of_cold(air_c)
    says = later(
        "Nobody wrote down how long {food} keeps; it is carried for {time}. In air of {air} fresh "
        "food bears {limit} out of the cold."
    )
    if kept is not None:
        at_most_h = max(at_most_h, _hours_at(food, kept, air_c))
        says = later(
            "{food} is carried for {time}. In air of {air} it bears {limit} out of the cold."
        )
    carried_h = meal_at_h(facts.trip, meal.day, meal.planned.meal) - _warms_at_h(facts)
    if carried_h <= at_most_h:
        return ""
    return facts.say(
        says,
        food=food_in(facts.say, food.name, meal),
        time=facts.shown(carried_h, "hours"),
        air=facts.shown(air_c, "temperature_c"),
        limit=facts.shown(at_most_h, "hours"),
    )


def _hours_at(food: Food, kept: Bears, air_c: float) -> float:
    """Give the hours that are told; in warmer air fewer, and none where germs make ill."""
    if air_c < kept.below_c:
        return kept.hours
    if _by_kind(food) is TWO_HOURS:
        return 0.0
    return float(math.floor(kept.hours * 2 ** ((kept.below_c - air_c) / HALVING_K)))


def _warms_at_h(facts: Facts) -> float:
    """Give when the food gets warm: at breakfast, after the last meal at home, or in the bag."""
    chilled = facts.trip.chilled_until
    if chilled:
        return meal_at_h(facts.trip, chilled.day, chilled.meal)
    return max(
        (meal_at_h(facts.trip, 1, name) for name in facts.days[0].home),
        default=meal_at_h(facts.trip, 1, "breakfast"),
    )
