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
    PlannedMeal,
)
from builder.model.place import Places
from builder.model.trip import Trip
from builder.planning.derivations_totals import (
    batch_totals,
    day_totals,
    meal_totals,
    trip_totals,
)
from builder.planning.hearth import Hearth
from builder.planning.judging import Judged
from builder.planning.stock import DRYING_ICE_C

DEFAULT = "default"


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
    origins = _Origins(trip, content)
    found: list[Derivation] = []
    for number, day in enumerate(kit.days):
        found += _height(number, day, origins)
        for position, meal in enumerate(day.meals):
            found += _meal(number, position, day, meal, hearth, origins)
            found += meal_totals(f"days.{number}.meals.{position}", day, meal, kit)
        found += _energy(number, day, origins)
        found += _water(number, day, origins)
        found += _day_fuel(number, day, kit, hearth)
        found += day_totals(number, day)
    found += _fuel(kit, hearth, origins)
    for number, batch in enumerate(kit.batches):
        found += _batch(number, batch, judged[batch.id], origins)
        found += batch_totals(f"batches.{number}", batch)
    found += _weights(kit, origins)
    found += trip_totals(kit)
    return tuple(found)


def _height(number: int, day: KitDay, origins: _Origins) -> Iterator[Derivation]:
    at = day.conditions
    places = origins.trip.days[number].places
    base = f"days.{number}"
    yield Derivation(
        f"{base}.pressure_hpa",
        f"Air pressure, day {day.day}",
        at.pressure_hpa,
        "hPa",
        "p = 1013.25 · (1 − 0.0065 · h / 288.15)^5.2559",
        (Input("height h", at.altitude_m, "m", origins.of(places, "camp_altitude")),),
        ("iso2533",),
    )
    yield Derivation(
        f"{base}.boiling_point_c",
        f"Water boils, day {day.day}",
        at.boiling_point_c,
        "°C",
        "T = saturation temperature at p (region 4, closed form)",
        (Input("pressure p", at.pressure_hpa, "hPa", f"{base}.pressure_hpa"),),
        ("iapws-if97",),
    )
    yield Derivation(
        f"{base}.time_factor",
        f"Cooking takes so many times longer, day {day.day}",
        at.time_factor,
        "×",
        "factor = 10^((99.97 − T) / 33)",
        (Input("boiling point T", at.boiling_point_c, "°C", f"{base}.boiling_point_c"),),
        ("mansfield1962",),
    )


def _meal(
    number: int,
    position: int,
    day: KitDay,
    meal: PlannedMeal,
    hearth: Hearth,
    origins: _Origins,
) -> Iterator[Derivation]:
    base = f"days.{number}.meals.{position}"
    said = f"{meal.title}, day {day.day}"
    yield Derivation(
        f"{base}.energy_kcal",
        f"Energy of {said}",
        meal.nutrition.energy_kcal,
        "kcal",
        "sum of amount · energy of 100 g / 100",
        tuple(
            Input(f"{each.name}, {each.amount_g:.0f} g", each.energy_kcal, "kcal", meal.place)
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
            "Q = V/1000 · (2.09 · (0 − air) + 333.55 + 4.186 · T) + pot and food from 0 °C"
            if snow
            else "Q = (V + 0.4 · food)/1000 · 4.186 · (T − t) + potfuls · pot mass · c · (T − t)"
        )
        yield Derivation(
            f"{base}.heat_kj",
            f"Heat into the pot for {said}",
            meal.heat_kj,
            "kJ",
            formula,
            (
                Input("water of the recipe", meal.water_ml, "ml", meal.place),
                Input("water starts at t", at.water_c, "°C", _water_origin(number, origins)),
                Input("boiling point T", at.boiling_point_c, "°C", "height of that camp"),
                Input("potfuls", meal.potfuls, "", f"{base}.potfuls"),
                Input("pot", meal.pot or "none", "", origins.of_trip("stove")),
            ),
            ("crc-handbook",),
        )
    burner = hearth.burner
    if burner is not None and meal.fuel_heat_kj > 0:
        yield Derivation(
            f"{base}.fuel_heat_kj",
            f"Heat out of the fuel for {said}",
            meal.fuel_heat_kj,
            "kJ",
            "Q / (η · wind) + simmering: max(loss / η, lowest) · min · 60/1000 for each potful "
            "+ frying: half power",
            (
                Input("heat into the pot Q", meal.heat_kj, "kJ", f"{base}.heat_kj"),
                Input("efficiency η", burner.efficiency_share, "", _burner_origin(hearth)),
                Input("wind factor", WIND_FACTOR[at.wind], "", f"{at.wind}, common practice"),
                Input("simmering", _minutes(meal, "simmer"), "min", meal.place),
                Input("frying", _minutes(meal, "fry"), "min", meal.place),
            ),
            ("common-practice",),
        )
    if meal.presses:
        yield Derivation(
            f"{base}.wood_g",
            f"Wood for {said}",
            meal.wood_g,
            "g",
            "3 kg for embers + 2 kg/h until the last press (+ what heats the pot)",
            (
                Input("presses", meal.presses, "", f"{base}.presses"),
                Input("each press", 2 * _side(meal) + 1, "min", "both sides and a minute to turn"),
            ),
            ("common-practice",),
        )


def _food_sources(meal: PlannedMeal, content: Content) -> tuple[str, ...]:
    names = {
        content.foods[each.food].source
        for each in meal.ingredients
        if each.food and each.food in content.foods
    }
    return tuple(sorted(name for name in names if name))


def _water_origin(number: int, origins: _Origins) -> str:
    return origins.of(origins.trip.days[number].places, "water")


def _burner_origin(hearth: Hearth) -> str:
    return "fuel.efficiency_share" if hearth.stove else "open fire, memory"


def _minutes(meal: PlannedMeal, do: str) -> float:
    return sum(step.minutes for step in meal.steps if step.do == do)


def _side(meal: PlannedMeal) -> float:
    return next(step.each_side_min for step in meal.steps if step.do == "press")


def _energy(number: int, day: KitDay, origins: _Origins) -> Iterator[Derivation]:
    base = f"days.{number}"
    for person in day.people:
        yield Derivation(
            f"{base}.people.{person.name}.energy_need_kcal",
            f"What {person.name} needs, day {day.day}",
            person.energy_need_kcal,
            "kcal",
            "BMR/24 · (8 · 0.95 + (16 − h) · 1.6) + travel, less meals at home",
            (
                Input(
                    "basal rate BMR", person.basal_kcal, "kcal/day",
                    str(origins.trip.person(person.name).places.record),
                ),
                Input(
                    "hours on the way h", day.travel_hours, "h",
                    origins.of(origins.trip.days[number].places, "travel"),
                ),
                Input("load on the way", person.load_g / 1000, "kg", f"weights.by_day_g.{number}"),
                Input("travel", person.travel_kcal, "kcal", _travel_rule(day)),
                Input(
                    "share of meals at home", origins.trip.days[number].home_share, "",
                    origins.of(origins.trip.days[number].places, "home"),
                ),
            ),
            _travel_sources(day),
        )  # fmt: skip
    yield Derivation(
        f"{base}.energy_need_kcal",
        f"What all need, day {day.day}",
        day.energy_need_kcal,
        "kcal",
        "sum of each one's need",
        tuple(
            Input(
                each.name, each.energy_need_kcal, "kcal",
                f"{base}.people.{each.name}.energy_need_kcal",
            )
            for each in day.people
        ),
        ("schofield1985",),
    )  # fmt: skip


def _travel_rule(day: KitDay) -> str:
    if not day.travel_hours:
        return "no travel"
    if day.travel_by == "walking" and day.distance_m is not None:
        return "walking with a load: level and uphill, downhill"
    return f"{day.travel_by}: activity table · body mass · hours"


def _travel_sources(day: KitDay) -> tuple[str, ...]:
    if not day.travel_hours:
        return ("schofield1985", "fao-energy-2004")
    if day.travel_by == "walking" and day.distance_m is not None:
        return ("schofield1985", "fao-energy-2004", "pandolf1977", "santee2001", "soule1972")
    return ("schofield1985", "fao-energy-2004", "compendium2011")


def _water(number: int, day: KitDay, origins: _Origins) -> Iterator[Derivation]:
    base = f"days.{number}"
    places = origins.trip.days[number].places
    for person in day.people:
        yield _drink(base, number, day, person, origins)
    water = day.water
    yield Derivation(
        f"{base}.water.total_ml",
        f"All water, day {day.day}",
        water.total_ml,
        "ml",
        "cooking + hot and cold drinks + drinking + washing",
        (
            Input("cooking", water.cooking_ml, "ml", "water of soak, boil and mix steps"),
            Input("drinks", water.drinks_ml, "ml", "water of the day's drinks"),
            Input("drinking", water.drinking_ml, "ml", "to drink, less the drinks"),
            Input("washing", water.washing_ml, "ml", origins.of_trip("washing")),
        ),
        ("efsa2010",),
    )
    formula = "longest stretch without water · what all drink in an hour"
    if day.conditions.water_source == "none" and not day.ends_home:
        formula += " + cooking, drinks, washing and the night at a camp without water"
    yield Derivation(
        f"{base}.water.carry_ml",
        f"Most water carried at once, day {day.day}",
        water.carry_ml,
        "ml",
        formula,
        (
            Input("longest stretch", day.between_water_h, "h", origins.of(places, "water")),
            Input(
                "all drink", sum(each.rate_ml_h for each in day.people), "ml/h",
                "by the day's highest air",
            ),
        ),
        ("common-practice",),
    )  # fmt: skip


def _drink(base: str, number: int, day: KitDay, person: PersonDay, origins: _Origins) -> Derivation:
    return Derivation(
        f"{base}.people.{person.name}.to_drink_ml",
        f"What {person.name} drinks, day {day.day}",
        person.to_drink_ml,
        "ml",
        "max(AI + h · (rate − 0.8 · AI/16) (+ 500 above 2500 m) − food water, 1000), less meals "
        "at home",
        (
            Input(
                "adequate intake AI", person.intake_ml, "ml",
                str(origins.trip.person(person.name).places.record),
            ),
            Input(
                "hours on the way h", day.travel_hours, "h",
                origins.of(origins.trip.days[number].places, "travel"),
            ),
            Input("rate on the way", person.rate_ml_h, "ml/h", "by the day's highest air"),
            Input("water in food", person.water_from_food_ml, "ml", "at most 0.3 · AI counts"),
        ),
        ("efsa2010", "tb-med-507"),
    )  # fmt: skip


def _day_fuel(number: int, day: KitDay, kit: Kit, hearth: Hearth) -> Iterator[Derivation]:
    base = f"days.{number}"
    if kit.fuel is None or hearth.fuel is None:
        return
    yield Derivation(
        f"{base}.fuel_g",
        f"Fuel, day {day.day}",
        day.fuel.fuel_g,
        "g",
        "(meals + melting snow + boiling water safe) / heating value",
        (
            *(
                Input(meal.title, meal.fuel_heat_kj, "kJ", f"{base}.meals.{place}.fuel_heat_kj")
                for place, meal in enumerate(day.meals)
                if meal.fuel_heat_kj
            ),
            Input("melting snow", day.fuel.melting_kj, "kJ", "0 where there is water"),
            Input("boiling water safe", day.fuel.boiling_water_kj, "kJ", "treat: boil"),
            Input(
                "heating value", kit.fuel.energy_mj_kg, "MJ/kg",
                str(hearth.fuel.places.of("energy")),
            ),
        ),
        ("harc-heating-values",),
    )  # fmt: skip


def _fuel(kit: Kit, hearth: Hearth, origins: _Origins) -> Iterator[Derivation]:
    if kit.fuel is None or hearth.stove is None or hearth.fuel is None:
        return
    heating_place = str(hearth.fuel.places.of("energy"))
    yield _efficiency(kit.fuel, origins.trip, hearth.stove, heating_place)
    yield Derivation(
        "fuel.likely_g",
        f"{kit.fuel.name}, likely",
        kit.fuel.likely_g,
        "g",
        "sum of the days",
        tuple(
            Input(f"day {day.day}", day.fuel.fuel_g, "g", f"days.{number}.fuel_g")
            for number, day in enumerate(kit.days)
        ),
        ("common-practice",),
    )
    yield Derivation(
        "fuel.carry_g",
        f"{kit.fuel.name} to take, with the reserve",
        kit.fuel.carry_g,
        "g",
        "likely · (1 + reserve), in whole containers of the least mass",
        (
            Input("likely", kit.fuel.likely_g, "g", "fuel.likely_g"),
            Input("reserve", kit.fuel.reserve_share, "", origins.of_trip("stove")),
        ),
        ("common-practice",),
    )


def _efficiency(fuel: KitFuel, trip: Trip, stove: Stove, fuel_place: str) -> Derivation:
    """Say where the stove's efficiency is from: the list of gear, or one's own test."""
    title = f"Efficiency of {stove.name}"
    test = fuel.test
    if test is None:
        place = str(stove.places.of("efficiency"))
        return Derivation(
            "fuel.efficiency_share",
            title,
            fuel.efficiency_share,
            "",
            "as listed for the stove",
            (Input("efficiency η", fuel.efficiency_share, "", place),),
            ("common-practice",),
        )
    tested = trip.places.of("stove") if trip.stove_test else stove.places.of("boiled")
    return Derivation(
        "fuel.efficiency_share",
        f"{title}, by your own test",
        fuel.efficiency_share,
        "",
        "η = V/1000 · 4.186 · (boiling point at that height − t) / (fuel · heating value)",
        (
            Input("water boiled V", test.boiled_ml, "ml", str(tested)),
            Input("from t", test.from_c, "°C", str(tested)),
            Input("fuel burnt", test.fuel_g, "g", str(tested)),
            Input("height of the test", test.altitude_m, "m", str(tested)),
            Input("heating value", fuel.energy_mj_kg, "MJ/kg", fuel_place),
        ),
        ("jetter2009",),
    )


def _batch(number: int, batch: KitBatch, judged: Judged, origins: _Origins) -> Iterator[Derivation]:
    base = f"batches.{number}"
    places = judged.batch.places
    if batch.fresh_g is None or batch.dried_g is None:
        return
    weighed = (
        Input("weight before", batch.fresh_g, "g", origins.of(places, "fresh")),
        Input("weight after", batch.dried_g, "g", origins.of(places, "dried")),
        Input("listed water of the food", batch.listed_water_share, "", "food table"),
    )
    yield Derivation(
        f"{base}.residual_moisture",
        f"Moisture left in {batch.name} ({batch.id})",
        batch.residual_moisture,
        "",
        "w = 1 − (1 − listed water) · before / after; never below what the method leaves",
        weighed,
        ("usu-dryness",),
    )
    if batch.target_g is not None:
        yield Derivation(
            f"{base}.target_g",
            f"{batch.name} ({batch.id}) is dry enough at",
            batch.target_g,
            "g",
            "before · (1 − water) / (1 − limit)",
            (
                weighed[0],
                Input("water of this load", batch.water_share, "", f"{base}.residual_moisture"),
                Input("limit", batch.dry_limit, "", "by kind and method"),
            ),
            ("usu-dryness",),
        )
    if batch.water_activity is not None:
        yield Derivation(
            f"{base}.water_activity",
            f"Water activity of {batch.name} ({batch.id})",
            batch.water_activity,
            "",
            "isotherm X = Xm·C·K·a / ((1 − K·a)(1 − K·a + C·K·a)) solved for a, X = w / (1 − w)",
            (
                Input("moisture w", batch.residual_moisture, "", f"{base}.residual_moisture"),
                Input("isotherm of", str(judged.substance.sorption), "", "food list"),
            ),
            ("van-den-berg1981",),
        )
    if batch.sublimation_kwh:
        loaded = origins.of(places, "loaded_at")
        yield Derivation(
            f"{base}.sublimation_kwh",
            f"Least energy to freeze-dry {batch.name} ({batch.id})",
            batch.sublimation_kwh,
            "kWh",
            "ice · (2.09 · (−20 − loaded at) + heat of sublimation at −20 °C) / 3600",
            (
                Input("water drawn out, as ice", batch.water_removed_g, "g",
                      f"{base}.water_removed_g"),
                Input("loaded at, 0 at most", _loaded_c(batch), "°C", loaded),
            ),
            ("murphy-koop2005", "crc-handbook"),
        )  # fmt: skip
    if batch.run is not None:
        run = batch.run
        yield Derivation(
            f"{base}.run.dry_after_min",
            f"{batch.name} ({batch.id}) dry enough after",
            run.dry_after_min,
            "min",
            "t = (−ln(moisture ratio at the limit) / k)^(1/n); n = 1 is the Lewis model",
            (
                Input("rate k, fitted", run.rate_per_min, "", origins.of(places, "weighings")),
                Input("exponent n, fitted", run.exponent, "", origins.of(places, "weighings")),
                Input("dry enough at", run.target_g, "g", f"{base}.target_g"),
            ),
            ("lewis1921", "page1949"),
        )
    if batch.months is not None:
        yield Derivation(
            f"{base}.best_before",
            f"{batch.name} ({batch.id}) keeps, as a guideline",
            batch.months,
            "months",
            "months of the table · 2^((15.6 − kept at) / 11.1), not above the table unless frozen",
            (
                Input("kept at", judged.batch.kept_at_c, "°C", origins.of(places, "kept_at")),
                *(Input("because", reason, "", "rule") for reason in batch.reasons),
            ),
            ("uga-drying", "nchfp-jerky"),
        )


def _loaded_c(batch: KitBatch) -> float:
    return DRYING_ICE_C if batch.loaded_at_c is None else min(batch.loaded_at_c, 0.0)


def _weights(kit: Kit, origins: _Origins) -> Iterator[Derivation]:
    weights = kit.weights
    for number, mass_g in enumerate(weights.by_day_g):
        yield Derivation(
            f"weights.by_day_g.{number}",
            f"What the party carries on the morning of day {number + 1}, own gear apart",
            mass_g,
            "g",
            "food not yet eaten + packaging + gear + fuel not yet burnt, with containers + water",
            (
                Input("food of the trip", weights.food_g, "g", "weights.food_g"),
                Input("packaging", weights.packaging_g, "g", "weights.packaging_g"),
                Input("gear", weights.gear_g, "g", origins.of_trip("gear_shared")),
                Input(
                    "fuel and containers", weights.fuel_g, "g",
                    "weights.fuel_g" if kit.fuel else "no stove",
                ),
                Input(
                    "water", kit.days[number].water.carry_ml, "g",
                    f"days.{number}.water.carry_ml",
                ),
            ),
            ("common-practice",),
        )  # fmt: skip
