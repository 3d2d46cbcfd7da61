"""How sums, counts and times came about: of each meal, each day, the packs and the whole trip."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.formulas.fire import EMBER_WOOD_G, KEEPING_WOOD_G_PER_H, TURN_MIN
from builder.formulas.heat import FOOD_ROOM_ML_PER_G
from builder.model.kit import Derivation, Input, Kit, KitBatch, KitDay, PersonLoad, PlannedMeal

PRACTICE = ("common-practice",)
ARITHMETIC: tuple[str, ...] = ()  # a sum needs no source
# The kinds of things in a pack, as they are named to people.
_KINDS = {
    "own": "own gear", "gear": "shared gear", "fuel": "fuel and containers", "food": "food",
    "water": "water",
}  # fmt: skip


def meal_totals(base: str, day: KitDay, meal: PlannedMeal, kit: Kit) -> Iterator[Derivation]:
    """Give how long a cooked meal takes, in how many potfuls and presses."""
    said = f"{meal.title}, day {day.day}"
    if meal.minutes:
        yield Derivation(
            f"{base}.minutes",
            f"Time to cook {said}",
            meal.minutes,
            "min",
            "heat / (η · wind · power) + soaking + (simmering + standing) · height + frying "
            "+ presses · (2 · side + 1)",
            (
                *_heating(base, meal),
                *(
                    Input(f"{step.do}", step.minutes, "min", _by_height(step.minutes, each))
                    for step, each in (
                        (step, step.minutes_at_sea_level) for step in meal.steps if step.minutes
                    )
                ),
                *(
                    Input(
                        "pressing", step.presses * (2 * step.each_side_min + TURN_MIN), "min",
                        f"{base}.presses",
                    )
                    for step in meal.steps
                    if step.presses
                ),
            ),
            ("mansfield1962", *PRACTICE),
        )  # fmt: skip
    if meal.potfuls and meal.cooked_on:
        rooms = {pot_id: (name, room_ml) for pot_id, name, room_ml in kit.pots}
        name, room_ml = rooms.get(meal.pot or "", ("pot", 0.0))
        yield Derivation(
            f"{base}.potfuls",
            f"Potfuls of {said}",
            meal.potfuls,
            "",
            "the most in the pot at once / what the pot takes, rounded up; "
            f"food takes {FOOD_ROOM_ML_PER_G:g} ml for a gram",
            (
                Input("water", meal.water_ml, "ml", meal.place),
                Input("food", meal.mass_g, "g", meal.place),
                Input(f"{name} takes at once", room_ml, "ml", "its size, not filled to the brim"),
            ),
            PRACTICE,
        )
    if meal.presses:
        yield Derivation(
            f"{base}.presses",
            f"Presses of {said}",
            meal.presses,
            "",
            "pieces / what the irons take at once, rounded up",
            (
                Input("pieces", sum(step.pieces for step in meal.steps), "", meal.place),
                Input("irons", ", ".join(kit.irons), "", "the trip's fire"),
            ),
            ARITHMETIC,
        )


def _heating(base: str, meal: PlannedMeal) -> Iterator[Input]:
    if meal.heat_kj > 0:
        yield Input("heat into the pot", meal.heat_kj, "kJ", f"{base}.heat_kj")
    if meal.heating and meal.heating.kj_per_min:
        what = "what the flame brings into the pot (η · wind · power)"
        yield Input(what, meal.heating.kj_per_min, "kJ/min", "stove or fire, and the wind")


def _by_height(minutes: float, at_sea_level: float) -> str:
    if minutes == at_sea_level:
        return "the recipe"
    return f"{at_sea_level:g} min in the recipe, longer at this height"


def day_totals(number: int, day: KitDay) -> Iterator[Derivation]:
    """Give the sums of a day: food energy, time at the pot, each use of water, wood."""
    base = f"days.{number}"
    yield Derivation(
        f"{base}.energy_kcal",
        f"Food energy, day {day.day}",
        day.nutrition.energy_kcal,
        "kcal",
        "sum of the meals",
        tuple(
            Input(
                meal.title, meal.nutrition.energy_kcal, "kcal", f"{base}.meals.{place}.energy_kcal"
            )
            for place, meal in enumerate(day.meals)
        ),
        ARITHMETIC,
    )
    if day.minutes:
        yield Derivation(
            f"{base}.minutes",
            f"Time at the pot, day {day.day}",
            day.minutes,
            "min",
            "sum of the meals + melting snow, one after the other",
            (
                *(
                    Input(meal.title, meal.minutes, "min", f"{base}.meals.{place}.minutes")
                    for place, meal in enumerate(day.meals)
                    if meal.minutes
                ),
                Input("melting snow", day.fuel.melting_minutes, "min", "0 where there is water"),
            ),
            ARITHMETIC,
        )
    yield from _water_uses(base, day)
    if day.fuel.wood_g:
        yield Derivation(
            f"{base}.wood_g",
            f"Wood, day {day.day}",
            day.fuel.wood_g,
            "g",
            "what heats pots / heating value of the wood; for irons "
            f"{EMBER_WOOD_G:g} + {KEEPING_WOOD_G_PER_H:g} g/h for each meal; melting snow and "
            "boiling water safe",
            (
                *(
                    Input(meal.title, meal.wood_g, "g", meal.place)
                    for meal in day.meals
                    if meal.wood_g
                ),
                Input("melting snow", day.fuel.melting_kj, "kJ", "0 where there is water"),
                Input("boiling water safe", day.fuel.boiling_water_kj, "kJ", "treat: boil"),
            ),
            PRACTICE,
        )


def _water_uses(base: str, day: KitDay) -> Iterator[Derivation]:
    water = day.water
    cooked = [(place, meal) for place, meal in enumerate(day.meals) if meal.water_ml]
    for field, title, volume_ml, drinks in (
        ("cooking_ml", "Water to cook with", water.cooking_ml, False),
        ("drinks_ml", "Water for hot drinks", water.drinks_ml, True),
    ):
        if volume_ml:
            yield Derivation(
                f"{base}.water.{field}",
                f"{title}, day {day.day}",
                volume_ml,
                "ml",
                "sum of the soak, boil and mix water of the recipes, for those who eat",
                tuple(
                    Input(meal.title, meal.water_ml, "ml", meal.place)
                    for _, meal in cooked
                    if (meal.meal == "drinks") == drinks
                ),
                ARITHMETIC,
            )
    yield Derivation(
        f"{base}.water.drinking_ml",
        f"Water to drink besides food and hot drinks, day {day.day}",
        water.drinking_ml,
        "ml",
        "what each one drinks, less their hot drinks, never below 0",
        (
            *(
                Input(
                    each.name, each.to_drink_ml, "ml", f"{base}.people.{each.name}.to_drink_ml"
                )
                for each in day.people
            ),
            Input(
                "hot drinks of all", water.drinks_ml, "ml",
                f"{base}.water.drinks_ml" if water.drinks_ml else "none on this day",
            ),
        ),
        ("efsa2010",),
    )  # fmt: skip
    yield Derivation(
        f"{base}.water.treat_ml",
        f"Water to make safe, day {day.day}",
        water.treat_ml,
        "ml",
        "what is drunk cold + what is soaked or mixed in and not boiled after; none from a tap",
        (
            Input("to drink", water.drinking_ml, "ml", f"{base}.water.drinking_ml"),
            *(
                Input(f"not boiled in {meal.title}", meal.unboiled_water_ml, "ml", meal.place)
                for _, meal in cooked
                if meal.unboiled_water_ml
            ),
        ),
        ARITHMETIC,
    )
    if water.washing_ml:
        yield Derivation(
            f"{base}.water.washing_ml",
            f"Water to wash with, day {day.day}",
            water.washing_ml,
            "ml",
            "the trip's washing water, at a camp where something is cooked",
            (Input("washing", water.washing_ml, "ml", "washing in the trip file"),),
            PRACTICE,
        )


def trip_totals(kit: Kit) -> Iterator[Derivation]:
    """Give the sums over the trip: energy, wood, all weights, each pack."""
    yield _over_days(
        "energy_need_kcal", "What all need, over the trip", kit.energy_need_kcal, "kcal",
        [(day.energy_need_kcal, f"days.{number}.energy_need_kcal")
         for number, day in enumerate(kit.days)],
    )  # fmt: skip
    yield _over_days(
        "nutrition.energy_kcal", "Food energy of the trip", kit.nutrition.energy_kcal, "kcal",
        [(day.nutrition.energy_kcal, f"days.{number}.energy_kcal")
         for number, day in enumerate(kit.days)],
    )  # fmt: skip
    if kit.wood_g:
        yield _over_days(
            "wood.likely_g", "Wood of the trip", kit.wood_g, "g",
            [
                (day.fuel.wood_g, f"days.{number}.wood_g" if day.fuel.wood_g else "no fire")
                for number, day in enumerate(kit.days)
            ],
        )  # fmt: skip
    yield from _weights(kit)
    for person in kit.weights.people:
        yield _pack(person)


def _over_days(
    figure: str, title: str, value: float, unit: str, days: Sequence[tuple[float, str]]
) -> Derivation:
    return Derivation(
        figure,
        title,
        value,
        unit,
        "sum of the days",
        tuple(
            Input(f"day {number}", each, unit, origin)
            for number, (each, origin) in enumerate(days, start=1)
        ),
        ARITHMETIC,
    )


def _weights(kit: Kit) -> Iterator[Derivation]:
    weights = kit.weights
    food = [(sum(meal.mass_g for meal in day.meals), "amounts of the meals") for day in kit.days]
    packed = [
        (sum(meal.packaging_g for meal in day.meals), "packs of batches; one bag for all else")
        for day in kit.days
    ]
    yield _over_days("weights.food_g", "Food of the trip", weights.food_g, "g", food)
    yield _over_days(
        "weights.packaging_g", "What the food is packed in", weights.packaging_g, "g", packed
    )
    if kit.fuel:
        yield Derivation(
            "weights.fuel_g",
            "Fuel with its containers, full",
            weights.fuel_g,
            "g",
            "containers · (what they hold + what they weigh empty)",
            tuple(
                Input(
                    f"{each.count} × {each.holds_g:g} g",
                    each.count * (each.holds_g + each.empty_g), "g", "fuel.carry_g",
                )
                for each in kit.fuel.containers
            ) or (Input("fuel to take", kit.fuel.carry_g, "g", "fuel.carry_g"),),
            ARITHMETIC,
        )  # fmt: skip
    gear = [thing for person in weights.people for thing in person.carries if thing.kind == "gear"]
    yield Derivation(
        "weights.gear_g",
        "Shared gear, stove, pots and irons",
        weights.gear_g,
        "g",
        "sum of the things",
        tuple(Input(thing.what, thing.mass_g, "g", "gear of the trip") for thing in gear),
        ARITHMETIC,
    )
    yield Derivation(
        "weights.water_most_g",
        "Most water carried at once, over the trip",
        weights.water_most_g,
        "g",
        "the largest of the days; a millilitre weighs a gram",
        tuple(
            Input(f"day {day.day}", day.water.carry_ml, "ml", f"days.{number}.water.carry_ml")
            for number, day in enumerate(kit.days)
        ),
        ARITHMETIC,
    )


def _pack(person: PersonLoad) -> Derivation:
    kinds = {kind: 0.0 for kind in _KINDS}
    for thing in person.carries:
        kinds[thing.kind] += thing.mass_g
    return Derivation(
        f"weights.people.{person.name}.total_g",
        f"Pack of {person.name} at its heaviest",
        person.total_g,
        "g",
        "sum of what is in it; all things are shared out whole, so that the fullest pack "
        "against its limit is as light as can be",
        (
            *(Input(_KINDS[kind], mass_g, "g", "packing list") for kind, mass_g in kinds.items()),
            Input("limit", person.limit_g, "g", "what they carry to, else a share of body mass"),
        ),
        PRACTICE,
    )


def batch_totals(base: str, batch: KitBatch) -> Iterator[Derivation]:
    """Give the water that drying took out, and the weight of a pack."""
    if batch.fresh_g is None or batch.dried_g is None:
        return
    yield Derivation(
        f"{base}.water_removed_g",
        f"Water out of {batch.name} ({batch.id})",
        batch.water_removed_g,
        "g",
        "weight before − weight after: the most that it takes up again",
        (
            Input("weight before", batch.fresh_g, "g", f"{base}.residual_moisture"),
            Input("weight after", batch.dried_g, "g", f"{base}.residual_moisture"),
        ),
        ARITHMETIC,
    )
    packs = batch.dried_g / batch.pack_g if batch.pack_g else 0.0
    if packs:
        yield Derivation(
            f"{base}.pack_g",
            f"A pack of {batch.name} ({batch.id})",
            batch.pack_g,
            "g",
            "weight after / packs",
            (
                Input("weight after", batch.dried_g, "g", f"{base}.residual_moisture"),
                Input("packs", packs, "", "packs of the batch"),
            ),
            ARITHMETIC,
        )
