"""How sums, counts and times came about: of each meal, each day, the packs and the whole trip."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.formulas.fire import EMBER_WOOD_G, KEEPING_WOOD_G_PER_H, TURN_MIN
from builder.formulas.heat import FOOD_ROOM_ML_PER_G
from builder.model.kit import Derivation, Input, Kit, KitBatch, KitDay, PersonLoad, PlannedMeal
from builder.model.recipe import Do
from builder.speech import Speech, later

PRACTICE = ("common-practice",)
ARITHMETIC: tuple[str, ...] = ()  # a sum needs no source
# The kinds of things in a pack, as they are named to people.
_KINDS = {
    "own": later("own gear"),
    "gear": later("shared gear"),
    "fuel": later("fuel and containers"),
    "food": later("food"),
    "water": later("water"),
}


def meal_totals(
    say: Speech, base: str, day: KitDay, meal: PlannedMeal, kit: Kit
) -> Iterator[Derivation]:
    """Give how long a cooked meal takes, in how many potfuls and presses."""
    if meal.minutes:
        yield Derivation(
            f"{base}.minutes",
            say("Time to cook {meal}, day {n}", meal=meal.title, n=day.day),
            meal.minutes,
            "min",
            say(
                "heat / (η · wind · power) + soaking + (boiling hard + simmering + standing) · "
                "height + frying + presses · (2 · side + 1)"
            ),
            (
                *_heating(say, base, meal),
                *(
                    Input(
                        _step(say, step.do),
                        step.minutes,
                        "min",
                        _by_height(say, step.minutes, each),
                    )
                    for step, each in (
                        (step, step.minutes_at_sea_level) for step in meal.steps if step.minutes
                    )
                ),
                *(
                    Input(
                        say("pressing"),
                        step.presses * (2 * step.each_side_min + TURN_MIN),
                        "min",
                        f"{base}.presses",
                    )
                    for step in meal.steps
                    if step.presses
                ),
            ),
            ("mansfield1962", *PRACTICE),
        )
    if meal.potfuls and meal.cooked_on:
        rooms = {pot_id: (name, room_ml) for pot_id, name, room_ml in kit.pots}
        name, room_ml = rooms.get(meal.pot or "", (say("pot"), 0.0))
        yield Derivation(
            f"{base}.potfuls",
            say("Potfuls of {meal}, day {n}", meal=meal.title, n=day.day),
            meal.potfuls,
            "",
            say(
                "the most in the pot at once / what the pot takes, rounded up; "
                "food takes {room} ml for a gram",
                room=say.signs(f"{FOOD_ROOM_ML_PER_G:g}"),
            ),
            (
                Input(say("water"), meal.water_ml, "ml", meal.place),
                Input(say("food"), meal.mass_g, "g", meal.place),
                Input(
                    say("{pot} takes at once", pot=name),
                    room_ml,
                    "ml",
                    say("its size, not filled to the brim"),
                ),
            ),
            PRACTICE,
        )
    if meal.presses:
        yield Derivation(
            f"{base}.presses",
            say("Presses of {meal}, day {n}", meal=meal.title, n=day.day),
            meal.presses,
            "",
            say("pieces / what the irons take at once, rounded up"),
            (
                Input(say("pieces"), sum(step.pieces for step in meal.steps), "", meal.place),
                Input(say("irons"), ", ".join(kit.irons), "", say("the trip's fire")),
            ),
            ARITHMETIC,
        )


def _heating(say: Speech, base: str, meal: PlannedMeal) -> Iterator[Input]:
    if meal.heat_kj > 0:
        yield Input(say("heat into the pot"), meal.heat_kj, "kJ", f"{base}.heat_kj")
    if meal.heating and meal.heating.kj_per_min:
        what = say("what the flame brings into the pot (η · wind · power)")
        yield Input(what, meal.heating.kj_per_min, "kJ/min", say("stove or fire, and the wind"))


def _step(say: Speech, do: Do) -> str:
    """Name a step that takes minutes."""
    named: dict[Do, str] = {
        "soak": say.of("step", "soak"),
        "boil": say.of("step", "boil hard"),
        "simmer": say.of("step", "simmer"),
        "fry": say.of("step", "fry"),
        "rest": say.of("step", "rest"),
    }
    return named[do]


def _by_height(say: Speech, minutes: float, at_sea_level: float) -> str:
    if minutes == at_sea_level:
        return say("the recipe")
    return say(
        "{minutes} min in the recipe, longer at this height",
        minutes=say.signs(f"{at_sea_level:g}"),
    )


def day_totals(say: Speech, number: int, day: KitDay) -> Iterator[Derivation]:
    """Give the sums of a day: food energy, time at the pot, each use of water, wood."""
    base = f"days.{number}"
    yield Derivation(
        f"{base}.energy_kcal",
        say("Food energy, day {n}", n=day.day),
        day.nutrition.energy_kcal,
        "kcal",
        say("sum of the meals"),
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
            say("Time at the pot, day {n}", n=day.day),
            day.minutes,
            "min",
            say("sum of the meals + melting snow, one after the other"),
            (
                *(
                    Input(meal.title, meal.minutes, "min", f"{base}.meals.{place}.minutes")
                    for place, meal in enumerate(day.meals)
                    if meal.minutes
                ),
                Input(
                    say("melting snow"),
                    day.fuel.melting_minutes,
                    "min",
                    say("0 where there is water"),
                ),
            ),
            ARITHMETIC,
        )
    yield from _water_uses(say, base, day)
    if day.fuel.wood_g:
        yield Derivation(
            f"{base}.wood_g",
            say("Wood, day {n}", n=day.day),
            day.fuel.wood_g,
            "g",
            say(
                "what heats pots / heating value of the wood; for irons {embers} + {keeping} g/h "
                "for each meal; melting snow and boiling water safe",
                embers=say.signs(f"{EMBER_WOOD_G:g}"),
                keeping=say.signs(f"{KEEPING_WOOD_G_PER_H:g}"),
            ),
            (
                *(
                    Input(meal.title, meal.wood_g, "g", meal.place)
                    for meal in day.meals
                    if meal.wood_g
                ),
                Input(
                    say("melting snow"), day.fuel.melting_kj, "kJ", say("0 where there is water")
                ),
                Input(say("boiling water safe"), day.fuel.boiling_water_kj, "kJ", "treat: boil"),
            ),
            PRACTICE,
        )


def _water_uses(say: Speech, base: str, day: KitDay) -> Iterator[Derivation]:
    water = day.water
    cooked = [(place, meal) for place, meal in enumerate(day.meals) if meal.water_ml]
    for field, title, volume_ml, drinks in (
        ("cooking_ml", say("Water to cook with, day {n}", n=day.day), water.cooking_ml, False),
        ("drinks_ml", say("Water for hot drinks, day {n}", n=day.day), water.drinks_ml, True),
    ):
        if volume_ml:
            yield Derivation(
                f"{base}.water.{field}",
                title,
                volume_ml,
                "ml",
                say("sum of the soak, boil and mix water of the recipes, for those who eat"),
                tuple(
                    Input(meal.title, meal.water_ml, "ml", meal.place)
                    for _, meal in cooked
                    if (meal.meal == "drinks") == drinks
                ),
                ARITHMETIC,
            )
    yield Derivation(
        f"{base}.water.drinking_ml",
        say("Water to drink besides food and hot drinks, day {n}", n=day.day),
        water.drinking_ml,
        "ml",
        say("what each one drinks, less their hot drinks, never below 0"),
        (
            *(
                Input(each.name, each.to_drink_ml, "ml", f"{base}.people.{each.name}.to_drink_ml")
                for each in day.people
            ),
            Input(
                say("hot drinks of all"),
                water.drinks_ml,
                "ml",
                f"{base}.water.drinks_ml" if water.drinks_ml else say("none on this day"),
            ),
        ),
        ("efsa2010",),
    )
    yield Derivation(
        f"{base}.water.treat_ml",
        say("Water to make safe, day {n}", n=day.day),
        water.treat_ml,
        "ml",
        say(
            "what is drunk cold + what is soaked or mixed in and not boiled after; none from a tap"
        ),
        (
            Input(say("to drink"), water.drinking_ml, "ml", f"{base}.water.drinking_ml"),
            *(
                Input(
                    say("not boiled in {meal}", meal=meal.title),
                    meal.unboiled_water_ml,
                    "ml",
                    meal.place,
                )
                for _, meal in cooked
                if meal.unboiled_water_ml
            ),
        ),
        ARITHMETIC,
    )
    if water.washing_ml:
        yield Derivation(
            f"{base}.water.washing_ml",
            say("Water to wash with, day {n}", n=day.day),
            water.washing_ml,
            "ml",
            say("the trip's washing water, at a camp where something is cooked"),
            (Input(say("washing"), water.washing_ml, "ml", say("washing in the trip file")),),
            PRACTICE,
        )


def trip_totals(say: Speech, kit: Kit) -> Iterator[Derivation]:
    """Give the sums over the trip: energy, wood, all weights, each pack."""
    yield _over_days(
        say,
        "energy_need_kcal",
        say("What all need, over the trip"),
        kit.energy_need_kcal,
        "kcal",
        [
            (day.energy_need_kcal, f"days.{number}.energy_need_kcal")
            for number, day in enumerate(kit.days)
        ],
    )
    yield _over_days(
        say,
        "nutrition.energy_kcal",
        say("Food energy of the trip"),
        kit.nutrition.energy_kcal,
        "kcal",
        [
            (day.nutrition.energy_kcal, f"days.{number}.energy_kcal")
            for number, day in enumerate(kit.days)
        ],
    )
    if kit.wood_g:
        yield _over_days(
            say,
            "wood.likely_g",
            say("Wood of the trip"),
            kit.wood_g,
            "g",
            [
                (day.fuel.wood_g, f"days.{number}.wood_g" if day.fuel.wood_g else say("no fire"))
                for number, day in enumerate(kit.days)
            ],
        )
    yield from _weights(say, kit)
    for person in kit.weights.people:
        yield _pack(say, person)


def _over_days(
    say: Speech, figure: str, title: str, value: float, unit: str, days: Sequence[tuple[float, str]]
) -> Derivation:
    return Derivation(
        figure,
        title,
        value,
        unit,
        say("sum of the days"),
        tuple(
            Input(say("day {n}", n=number), each, unit, origin)
            for number, (each, origin) in enumerate(days, start=1)
        ),
        ARITHMETIC,
    )


def _weights(say: Speech, kit: Kit) -> Iterator[Derivation]:
    weights = kit.weights
    food = [
        (sum(meal.mass_g for meal in day.meals), say("amounts of the meals")) for day in kit.days
    ]
    packed = [
        (sum(meal.packaging_g for meal in day.meals), say("packs of batches; one bag for all else"))
        for day in kit.days
    ]
    yield _over_days(say, "weights.food_g", say("Food of the trip"), weights.food_g, "g", food)
    yield _over_days(
        say,
        "weights.packaging_g",
        say("What the food is packed in"),
        weights.packaging_g,
        "g",
        packed,
    )
    if kit.fuel:
        yield Derivation(
            "weights.fuel_g",
            say("Fuel with its containers, full"),
            weights.fuel_g,
            "g",
            say("containers · (what they hold + what they weigh empty)"),
            tuple(
                Input(
                    say.signs(f"{each.count} × {each.holds_g:g} g"),
                    each.count * (each.holds_g + each.empty_g),
                    "g",
                    "fuel.carry_g",
                )
                for each in kit.fuel.containers
            )
            or (Input(say("fuel to take"), kit.fuel.carry_g, "g", "fuel.carry_g"),),
            ARITHMETIC,
        )
    gear = [thing for person in weights.people for thing in person.carries if thing.kind == "gear"]
    yield Derivation(
        "weights.gear_g",
        say("Shared gear, stove, pots and irons"),
        weights.gear_g,
        "g",
        say("sum of the things"),
        tuple(Input(thing.what, thing.mass_g, "g", say("gear of the trip")) for thing in gear),
        ARITHMETIC,
    )
    yield Derivation(
        "weights.water_most_g",
        say("Most water carried at once, over the trip"),
        weights.water_most_g,
        "g",
        say("the largest of the days; a millilitre weighs a gram"),
        tuple(
            Input(
                say("day {n}", n=day.day), day.water.carry_ml, "ml", f"days.{number}.water.carry_ml"
            )
            for number, day in enumerate(kit.days)
        ),
        ARITHMETIC,
    )


def _pack(say: Speech, person: PersonLoad) -> Derivation:
    kinds = {kind: 0.0 for kind in _KINDS}
    for thing in person.carries:
        kinds[thing.kind] += thing.mass_g
    return Derivation(
        f"weights.people.{person.name}.total_g",
        say("Pack of {name} at its heaviest", name=person.name),
        person.total_g,
        "g",
        say(
            "sum of what is in it; all things are shared out whole, so that the fullest pack "
            "against its limit is as light as can be"
        ),
        (
            *(
                Input(say(_KINDS[kind]), mass_g, "g", say("packing list"))
                for kind, mass_g in kinds.items()
            ),
            Input(
                say("limit"),
                person.limit_g,
                "g",
                say("what they carry to, else a share of body mass"),
            ),
        ),
        PRACTICE,
    )


def batch_name(batch: KitBatch) -> str:
    """Name a batch so that it can be told from another of the same food."""
    return f"{batch.name} ({batch.id})"


def batch_totals(say: Speech, base: str, batch: KitBatch) -> Iterator[Derivation]:
    """Give the water that drying took out, and the weight of a pack."""
    if batch.fresh_g is None or batch.dried_g is None:
        return
    yield Derivation(
        f"{base}.water_removed_g",
        say("Water out of {batch}", batch=batch_name(batch)),
        batch.water_removed_g,
        "g",
        say("weight before − weight after: the most that it takes up again"),
        (
            Input(say("weight before"), batch.fresh_g, "g", f"{base}.residual_moisture"),
            Input(say("weight after"), batch.dried_g, "g", f"{base}.residual_moisture"),
        ),
        ARITHMETIC,
    )
    packs = batch.dried_g / batch.pack_g if batch.pack_g else 0.0
    if packs:
        yield Derivation(
            f"{base}.pack_g",
            say("A pack of {batch}", batch=batch_name(batch)),
            batch.pack_g,
            "g",
            say("weight after / packs"),
            (
                Input(say("weight after"), batch.dried_g, "g", f"{base}.residual_moisture"),
                Input(say("packs"), packs, "", say("packs of the batch")),
            ),
            ARITHMETIC,
        )
