"""How each figure came about: its formula, this trip's numbers, where they were written, sources.

One mechanism for all figures: a `Derivation` is built from values that planning has computed
already, so the formulas stay plain functions and nothing is computed twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.formulas.heat import WIND_FACTOR
from builder.model.content import Content
from builder.model.gear import Stove
from builder.model.kit import (
    Derivation,
    Input,
    Kit,
    KitBatch,
    KitDay,
    KitFuel,
    PersonDay,
    PlannedIngredient,
    PlannedMeal,
)
from builder.model.place import Places
from builder.model.trip import Trip
from builder.planning.cooking import Hearth
from builder.planning.derivations_looks import look_figures
from builder.planning.derivations_totals import (
    batch_name,
    batch_totals,
    day_totals,
    meal_totals,
    trip_totals,
)
from builder.planning.naming import travel_said
from builder.planning.stock import DRYING_ICE_C, Judged
from builder.speech import Speech, later, speech_of

DEFAULT = "default"  # a key: the page says it
_WINDS = {
    "sheltered": later("sheltered, common practice"),
    "breezy": later("breezy, common practice"),
    "windy": later("windy, common practice"),
}
_ISOTHERMS = {
    "starchy": later("starchy"),
    "root-vegetable": later("root-vegetable"),
    "sweet-fruit": later("sweet-fruit"),
    "lean-meat": later("lean-meat"),
    "mushroom": later("mushroom"),
}


@dataclass(frozen=True, slots=True)
class _Origins:
    """Says where a figure was written, or that it is a default."""

    trip: Trip
    content: Content

    def of(self, places: Places, field: str) -> str:
        """Give the place of a field, or "default" where it was left out."""
        return str(places.fields[field]) if field in places.fields else DEFAULT

    def of_trip(self, field: str) -> str:
        """Give the place of a field of the trip."""
        return self.of(self.trip.places, field)


def derive(
    kit: Kit, trip: Trip, content: Content, judged: Mapping[str, Judged], hearth: Hearth
) -> tuple[Derivation, ...]:
    """Give the derivations of a kit's figures, in the order of kit.json."""
    say = speech_of(kit.language)
    origins = _Origins(trip, content)
    found: list[Derivation] = []
    for number, day in enumerate(kit.days):
        found += _height(say, number, day, origins)
        for position, meal in enumerate(day.meals):
            found += _meal(say, number, position, day, meal, hearth, origins)
            found += meal_totals(say, f"days.{number}.meals.{position}", day, meal, kit)
        found += _energy(say, number, day, origins)
        found += _water(say, number, day, origins)
        found += _day_fuel(say, number, day, kit, hearth)
        found += day_totals(say, number, day)
    found += _fuel(say, kit, hearth, origins)
    for number, batch in enumerate(kit.batches):
        found += _batch(say, number, batch, judged[batch.id], origins)
        found += batch_totals(say, f"batches.{number}", batch)
    found += _weights(say, kit, origins)
    found += trip_totals(say, kit)
    found += look_figures(say, kit, trip, content, judged, hearth)
    return tuple(found)


def _height(say: Speech, number: int, day: KitDay, origins: _Origins) -> Iterator[Derivation]:
    at = day.conditions
    places = origins.trip.days[number].places
    base = f"days.{number}"
    yield Derivation(
        f"{base}.pressure_hpa",
        say("Air pressure, day {n}", n=day.day),
        at.pressure_hpa,
        "hPa",
        say.signs("p = 1013.25 · (1 − 0.0065 · h / 288.15)^5.2559"),
        (Input(say("height h"), at.altitude_m, "m", origins.of(places, "camp_altitude")),),
        ("iso2533",),
    )
    yield Derivation(
        f"{base}.boiling_point_c",
        say("Water boils, day {n}", n=day.day),
        at.boiling_point_c,
        "°C",
        say("T = saturation temperature at p (region 4, closed form)"),
        (Input(say("pressure p"), at.pressure_hpa, "hPa", f"{base}.pressure_hpa"),),
        ("iapws-if97",),
    )
    yield Derivation(
        f"{base}.time_factor",
        say("Cooking takes so many times longer, day {n}", n=day.day),
        at.time_factor,
        "×",
        say("factor = 10^((99.97 − T) / 33)"),
        (Input(say("boiling point T"), at.boiling_point_c, "°C", f"{base}.boiling_point_c"),),
        ("mansfield1962",),
    )


def _meal(
    say: Speech,
    number: int,
    position: int,
    day: KitDay,
    meal: PlannedMeal,
    hearth: Hearth,
    origins: _Origins,
) -> Iterator[Derivation]:
    base = f"days.{number}.meals.{position}"
    yield Derivation(
        f"{base}.energy_kcal",
        say("Energy of {meal}, day {n}", meal=meal.title, n=day.day),
        meal.nutrition.energy_kcal,
        "kcal",
        say("sum of amount · energy of 100 g / 100"),
        tuple(
            Input(_amount(say, each), each.energy_kcal, "kcal", meal.place)
            for each in meal.ingredients
        ),
        _food_sources(meal, origins.content),
    )
    if not meal.recipe or not meal.cooked_on:
        return
    at = meal.conditions
    if meal.heat_kj > 0:
        snow = at.water_source == "snow"
        formula = (
            say("Q = V/1000 · (2.09 · (0 − air) + 333.55 + 4.186 · T) + pot and food from 0 °C")
            if snow
            else say(
                "Q = (V + 0.4 · food)/1000 · 4.186 · (T − t) + potfuls · pot mass · c · (T − t)"
            )
        )
        yield Derivation(
            f"{base}.heat_kj",
            say("Heat into the pot for {meal}, day {n}", meal=meal.title, n=day.day),
            meal.heat_kj,
            "kJ",
            formula,
            (
                Input(say("water of the recipe"), meal.water_ml, "ml", meal.place),
                Input(say("water starts at t"), at.water_c, "°C", _water_origin(number, origins)),
                Input(say("boiling point T"), at.boiling_point_c, "°C", say("height of that camp")),
                Input(say("potfuls"), meal.potfuls, "", f"{base}.potfuls"),
                Input(say("pot"), meal.pot or say.of("pot", "none"), "", origins.of_trip("stove")),
            ),
            ("crc-handbook",),
        )
    burner = hearth.burner
    if burner is not None and meal.fuel_heat_kj > 0:
        yield Derivation(
            f"{base}.fuel_heat_kj",
            say("Heat out of the fuel for {meal}, day {n}", meal=meal.title, n=day.day),
            meal.fuel_heat_kj,
            "kJ",
            say(
                "Q / (η · wind) + boiling hard and simmering: max(loss / η, lowest) · min · "
                "60/1000 for each potful + frying: half power"
            ),
            (
                Input(say("heat into the pot Q"), meal.heat_kj, "kJ", f"{base}.heat_kj"),
                Input(
                    say("efficiency η"), burner.efficiency_share, "", _burner_origin(say, hearth)
                ),
                Input(say("wind factor"), WIND_FACTOR[at.wind], "", say(_WINDS[at.wind])),
                Input(
                    say("boiling hard and simmering"),
                    _minutes(meal, "boil") + _minutes(meal, "simmer"),
                    "min",
                    meal.place,
                ),
                Input(say("frying"), _minutes(meal, "fry"), "min", meal.place),
            ),
            ("common-practice",),
        )
    if meal.presses:
        yield Derivation(
            f"{base}.wood_g",
            say("Wood for {meal}, day {n}", meal=meal.title, n=day.day),
            meal.wood_g,
            "g",
            say("3 kg for embers + 2 kg/h until the last press (+ what heats the pot)"),
            (
                Input(say("presses"), meal.presses, "", f"{base}.presses"),
                Input(
                    say("each press"),
                    2 * _side(meal) + 1,
                    "min",
                    say("both sides and a minute to turn"),
                ),
            ),
            ("common-practice",),
        )


def _amount(say: Speech, ingredient: PlannedIngredient) -> str:
    amount = say.signs(f"{ingredient.amount_g:.0f}")
    return f"{ingredient.name}, {amount} g"


def _food_sources(meal: PlannedMeal, content: Content) -> tuple[str, ...]:
    names = {
        content.foods[each.food].source
        for each in meal.ingredients
        if each.food and each.food in content.foods
    }
    return tuple(sorted(name for name in names if name))


def _water_origin(number: int, origins: _Origins) -> str:
    return origins.of(origins.trip.days[number].places, "water")


def _burner_origin(say: Speech, hearth: Hearth) -> str:
    return "fuel.efficiency_share" if hearth.stove else say("open fire, memory")


def _minutes(meal: PlannedMeal, do: str) -> float:
    return sum(step.minutes for step in meal.steps if step.do == do)


def _side(meal: PlannedMeal) -> float:
    return next(step.each_side_min for step in meal.steps if step.do == "press")


def _energy(say: Speech, number: int, day: KitDay, origins: _Origins) -> Iterator[Derivation]:
    base = f"days.{number}"
    for person in day.people:
        yield Derivation(
            f"{base}.people.{person.name}.energy_need_kcal",
            say("What {name} needs, day {n}", name=person.name, n=day.day),
            person.energy_need_kcal,
            "kcal",
            say("BMR/24 · (8 · 0.95 + (16 − h) · 1.6) + travel, less meals at home"),
            (
                Input(
                    say("basal rate BMR"),
                    person.basal_kcal,
                    say("kcal/day"),
                    str(origins.trip.person(person.name).places.record),
                ),
                Input(
                    say("hours on the way h"),
                    day.travel_hours,
                    "h",
                    origins.of(origins.trip.days[number].places, "travel"),
                ),
                Input(
                    say("load on the way"), person.load_g / 1000, "kg", f"weights.by_day_g.{number}"
                ),
                Input(say("travel"), person.travel_kcal, "kcal", _travel_rule(say, day)),
                Input(
                    say("share of meals at home"),
                    origins.trip.days[number].home_share,
                    "",
                    origins.of(origins.trip.days[number].places, "home"),
                ),
            ),
            _travel_sources(day),
        )
    yield Derivation(
        f"{base}.energy_need_kcal",
        say("What all need, day {n}", n=day.day),
        day.energy_need_kcal,
        "kcal",
        say("sum of each one's need"),
        tuple(
            Input(
                each.name,
                each.energy_need_kcal,
                "kcal",
                f"{base}.people.{each.name}.energy_need_kcal",
            )
            for each in day.people
        ),
        ("schofield1985",),
    )


def _travel_rule(say: Speech, day: KitDay) -> str:
    if not day.travel_by or not day.travel_hours:
        return say("no travel")
    if day.travel_by == "walking" and day.distance_m is not None:
        return say("walking with a load: level and uphill, downhill")
    return say(
        "{travel}: activity table · body mass · hours",
        travel=travel_said(say, day.travel_by),
    )


def _travel_sources(day: KitDay) -> tuple[str, ...]:
    if not day.travel_hours:
        return ("schofield1985", "fao-energy-2004")
    if day.travel_by == "walking" and day.distance_m is not None:
        return ("schofield1985", "fao-energy-2004", "pandolf1977", "santee2001", "soule1972")
    return ("schofield1985", "fao-energy-2004", "compendium2011")


def _water(say: Speech, number: int, day: KitDay, origins: _Origins) -> Iterator[Derivation]:
    base = f"days.{number}"
    places = origins.trip.days[number].places
    for person in day.people:
        yield _drink(say, base, number, day, person, origins)
    water = day.water
    yield Derivation(
        f"{base}.water.total_ml",
        say("All water, day {n}", n=day.day),
        water.total_ml,
        "ml",
        say("cooking + hot and cold drinks + drinking + washing"),
        (
            Input(say("cooking"), water.cooking_ml, "ml", say("water of soak, boil and mix steps")),
            Input(say("drinks"), water.drinks_ml, "ml", say("water of the day's drinks")),
            Input(say("drinking"), water.drinking_ml, "ml", say("to drink, less the drinks")),
            Input(say("washing"), water.washing_ml, "ml", origins.of_trip("washing")),
        ),
        ("efsa2010",),
    )
    formula = (
        say(
            "longest stretch without water · what all drink in an hour + cooking, drinks, "
            "washing and the night at a camp without water"
        )
        if day.conditions.water_source == "none" and not day.ends_home
        else say("longest stretch without water · what all drink in an hour")
    )
    yield Derivation(
        f"{base}.water.carry_ml",
        say("Most water carried at once, day {n}", n=day.day),
        water.carry_ml,
        "ml",
        formula,
        (
            Input(say("longest stretch"), day.between_water_h, "h", origins.of(places, "water")),
            Input(
                say("all drink"),
                sum(each.rate_ml_h for each in day.people),
                "ml/h",
                say("by the day's highest air"),
            ),
        ),
        ("common-practice",),
    )


def _drink(
    say: Speech, base: str, number: int, day: KitDay, person: PersonDay, origins: _Origins
) -> Derivation:
    return Derivation(
        f"{base}.people.{person.name}.to_drink_ml",
        say("What {name} drinks, day {n}", name=person.name, n=day.day),
        person.to_drink_ml,
        "ml",
        say(
            "max(AI + h · (rate − 0.8 · AI/16) (+ 500 above 2500 m) − food water, 1000), "
            "less meals at home"
        ),
        (
            Input(
                say("adequate intake AI"),
                person.intake_ml,
                "ml",
                str(origins.trip.person(person.name).places.record),
            ),
            Input(
                say("hours on the way h"),
                day.travel_hours,
                "h",
                origins.of(origins.trip.days[number].places, "travel"),
            ),
            Input(
                say("rate on the way"), person.rate_ml_h, "ml/h", say("by the day's highest air")
            ),
            Input(
                say("water in food"),
                person.water_from_food_ml,
                "ml",
                say("at most 0.3 · AI counts"),
            ),
        ),
        ("efsa2010", "tb-med-507"),
    )


def _day_fuel(
    say: Speech, number: int, day: KitDay, kit: Kit, hearth: Hearth
) -> Iterator[Derivation]:
    base = f"days.{number}"
    if kit.fuel is None or hearth.fuel is None:
        return
    yield Derivation(
        f"{base}.fuel_g",
        say("Fuel, day {n}", n=day.day),
        day.fuel.fuel_g,
        "g",
        say("(meals + melting snow + boiling water safe) / heating value"),
        (
            *(
                Input(meal.title, meal.fuel_heat_kj, "kJ", f"{base}.meals.{place}.fuel_heat_kj")
                for place, meal in enumerate(day.meals)
                if meal.fuel_heat_kj
            ),
            Input(say("melting snow"), day.fuel.melting_kj, "kJ", say("0 where there is water")),
            Input(say("boiling water safe"), day.fuel.boiling_water_kj, "kJ", "treat: boil"),
            Input(
                say("heating value"),
                kit.fuel.energy_mj_kg,
                "MJ/kg",
                str(hearth.fuel.places.of("energy")),
            ),
        ),
        ("harc-heating-values",),
    )


def _fuel(say: Speech, kit: Kit, hearth: Hearth, origins: _Origins) -> Iterator[Derivation]:
    if kit.fuel is None or hearth.stove is None or hearth.fuel is None:
        return
    heating_place = str(hearth.fuel.places.of("energy"))
    yield _efficiency(say, kit.fuel, origins.trip, hearth.stove, heating_place)
    yield Derivation(
        "fuel.likely_g",
        say("{fuel}, likely", fuel=kit.fuel.name),
        kit.fuel.likely_g,
        "g",
        say("sum of the days"),
        tuple(
            Input(say("day {n}", n=day.day), day.fuel.fuel_g, "g", f"days.{number}.fuel_g")
            for number, day in enumerate(kit.days)
        ),
        ("common-practice",),
    )
    yield Derivation(
        "fuel.carry_g",
        say("{fuel} to take, with the reserve", fuel=kit.fuel.name),
        kit.fuel.carry_g,
        "g",
        say("likely · (1 + reserve), in whole containers of the least mass"),
        (
            Input(say("likely"), kit.fuel.likely_g, "g", "fuel.likely_g"),
            Input(say("reserve"), kit.fuel.reserve_share, "", origins.of_trip("stove")),
        ),
        ("common-practice",),
    )


def _efficiency(
    say: Speech, fuel: KitFuel, trip: Trip, stove: Stove, fuel_place: str
) -> Derivation:
    """Say where the stove's efficiency is from: the list of gear, or one's own test."""
    test = fuel.test
    if test is None:
        place = str(stove.places.of("efficiency"))
        return Derivation(
            "fuel.efficiency_share",
            say("Efficiency of {stove}", stove=fuel.stove),
            fuel.efficiency_share,
            "",
            say("as listed for the stove"),
            (Input(say("efficiency η"), fuel.efficiency_share, "", place),),
            ("common-practice",),
        )
    tested = trip.places.of("stove") if trip.stove_test else stove.places.of("boiled")
    return Derivation(
        "fuel.efficiency_share",
        say("Efficiency of {stove}, by your own test", stove=fuel.stove),
        fuel.efficiency_share,
        "",
        say("η = V/1000 · 4.186 · (boiling point at that height − t) / (fuel · heating value)"),
        (
            Input(say("water boiled V"), test.boiled_ml, "ml", str(tested)),
            Input(say("from t"), test.from_c, "°C", str(tested)),
            Input(say("fuel burnt"), test.fuel_g, "g", str(tested)),
            Input(say("height of the test"), test.altitude_m, "m", str(tested)),
            Input(say("heating value"), fuel.energy_mj_kg, "MJ/kg", fuel_place),
        ),
        ("jetter2009",),
    )


def _batch(
    say: Speech, number: int, batch: KitBatch, judged: Judged, origins: _Origins
) -> Iterator[Derivation]:
    base = f"batches.{number}"
    places = judged.batch.places
    if batch.fresh_g is None or batch.dried_g is None:
        return
    weighed = (
        Input(say("weight before"), batch.fresh_g, "g", origins.of(places, "fresh")),
        Input(say("weight after"), batch.dried_g, "g", origins.of(places, "dried")),
        Input(say("listed water of the food"), batch.listed_water_share, "", say("food table")),
    )
    yield Derivation(
        f"{base}.residual_moisture",
        say("Moisture left in {batch}", batch=batch_name(batch)),
        batch.residual_moisture,
        "",
        say("w = 1 − (1 − listed water) · before / after; never below what the method leaves"),
        weighed,
        ("usu-dryness",),
    )
    if batch.target_g is not None:
        yield Derivation(
            f"{base}.target_g",
            say("{batch} is dry enough at", batch=batch_name(batch)),
            batch.target_g,
            "g",
            say("before · (1 − water) / (1 − limit)"),
            (
                weighed[0],
                Input(
                    say("water of this load"), batch.water_share, "", f"{base}.residual_moisture"
                ),
                Input(say("limit"), batch.dry_limit, "", say("by kind and method")),
            ),
            ("usu-dryness",),
        )
    if batch.water_activity is not None and judged.substance.sorption:
        yield Derivation(
            f"{base}.water_activity",
            say("Water activity of {batch}", batch=batch_name(batch)),
            batch.water_activity,
            "",
            say(
                "isotherm X = Xm·C·K·a / ((1 − K·a)(1 − K·a + C·K·a)) solved for a, X = w / (1 − w)"
            ),
            (
                Input(say("moisture w"), batch.residual_moisture, "", f"{base}.residual_moisture"),
                Input(
                    say("isotherm of"),
                    say(_ISOTHERMS[judged.substance.sorption]),
                    "",
                    say("food list"),
                ),
            ),
            ("van-den-berg1981",),
        )
    if batch.sublimation_kwh:
        loaded = origins.of(places, "loaded_at")
        yield Derivation(
            f"{base}.sublimation_kwh",
            say("Least energy to freeze-dry {batch}", batch=batch_name(batch)),
            batch.sublimation_kwh,
            "kWh",
            say("ice · (2.09 · (−20 − loaded at) + heat of sublimation at −20 °C) / 3600"),
            (
                Input(
                    say("water drawn out, as ice"),
                    batch.water_removed_g,
                    "g",
                    f"{base}.water_removed_g",
                ),
                Input(say("loaded at, 0 at most"), _loaded_c(batch), "°C", loaded),
            ),
            ("murphy-koop2005", "crc-handbook"),
        )
    if batch.run is not None:
        run = batch.run
        yield Derivation(
            f"{base}.run.dry_after_min",
            say("{batch} dry enough after", batch=batch_name(batch)),
            run.dry_after_min,
            "min",
            say("t = (−ln(moisture ratio at the limit) / k)^(1/n); n = 1 is the Lewis model"),
            (
                Input(say("rate k, fitted"), run.rate_per_min, "", origins.of(places, "weighings")),
                Input(say("exponent n, fitted"), run.exponent, "", origins.of(places, "weighings")),
                Input(say("dry enough at"), run.target_g, "g", f"{base}.target_g"),
            ),
            ("lewis1921", "page1949"),
        )
    if batch.months is not None:
        yield Derivation(
            f"{base}.best_before",
            say("{batch} keeps, as a guideline", batch=batch_name(batch)),
            batch.months,
            say("months"),
            say(
                "months of the table · 2^((15.6 − kept at) / 11.1), "
                "not above the table unless frozen"
            ),
            (
                Input(say("kept at"), judged.batch.kept_at_c, "°C", origins.of(places, "kept_at")),
                *(Input(say("because"), reason, "", say("rule")) for reason in batch.reasons),
            ),
            ("uga-drying", "nchfp-jerky"),
        )


def _loaded_c(batch: KitBatch) -> float:
    return DRYING_ICE_C if batch.loaded_at_c is None else min(batch.loaded_at_c, 0.0)


def _weights(say: Speech, kit: Kit, origins: _Origins) -> Iterator[Derivation]:
    weights = kit.weights
    for number, mass_g in enumerate(weights.by_day_g):
        yield Derivation(
            f"weights.by_day_g.{number}",
            say("What the party carries on the morning of day {n}, own gear apart", n=number + 1),
            mass_g,
            "g",
            say(
                "food not yet eaten + packaging + gear + fuel not yet burnt, with containers "
                "+ water"
            ),
            (
                Input(say("food of the trip"), weights.food_g, "g", "weights.food_g"),
                Input(say("packaging"), weights.packaging_g, "g", "weights.packaging_g"),
                Input(say("gear"), weights.gear_g, "g", origins.of_trip("gear_shared")),
                Input(
                    say("fuel and containers"),
                    weights.fuel_g,
                    "g",
                    "weights.fuel_g" if kit.fuel else say("no stove"),
                ),
                Input(
                    say("water"),
                    kit.days[number].water.carry_ml,
                    "g",
                    f"days.{number}.water.carry_ml",
                ),
            ),
            ("common-practice",),
        )
