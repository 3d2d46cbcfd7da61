"""The conditions a meal is cooked in: which camp, how high, how cold the water."""

from __future__ import annotations

from builder.formulas.air import altitude_m as altitude_of_m
from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c, time_factor
from builder.model.figure import smallest
from builder.model.kit import Conditions
from builder.model.place import Place, Places
from builder.model.recipe import MealName
from builder.model.trip import Camp, Day, Trip
from builder.planning.cooking.hearth import wind_factor
from builder.planning.refusals import told_at
from builder.planning.tracing import traced, work
from builder.problems import Problem
from builder.record import dataclass

UNTOLD_WATER_C = 10.0
SNOW_WATER_C = 0.0
# Weather moves the pressure at a height by so much, deep lows and strong highs included.
WEATHER_SHARE = 0.05


@dataclass(frozen=True, slots=True)
class CookingPlaces:
    """Where each meal of a trip is cooked."""

    start: Conditions
    by_day: tuple[Conditions, ...]

    def of_meal(self, day: Day, meal: MealName) -> Conditions:
        """Give the camp of a meal: breakfast at the last night's, all else at the day's own."""
        if meal != "breakfast":
            return self.by_day[day.number - 1]
        return self.by_day[day.number - 2] if day.number > 1 else self.start


def conditions_of(camp: Camp, altitude_m: float, wind_at: Place | None) -> Conditions:
    """Give a camp with what follows from its height; `wind_at` is where its wind was told."""
    # A number that lost its place is one figure still, wherever it is used.
    altitude_m = traced(altitude_m, "altitude_m")
    pressure = camp.barometer_hpa or work(pressure_hpa, altitude_m)
    boiling = work(boiling_point_c, pressure)
    if camp.water.camp == "snow":
        water_c = SNOW_WATER_C
    else:
        water_c = camp.water.at_c if camp.water.at_c is not None else UNTOLD_WATER_C
    return Conditions(
        altitude_m=altitude_m,
        pressure_hpa=pressure,
        boiling_point_c=boiling,
        time_factor=work(time_factor, boiling),
        air_low_c=camp.air_low_c,
        air_high_c=camp.air_high_c,
        wind=camp.wind,
        water_source=camp.water.camp,
        treat=camp.water.treat,
        water_c=smallest(water_c, boiling),
        wind_factor=wind_factor(camp.wind, wind_at),
    )


def _altitude_m(camp: Camp, places: Places, what: str) -> float | None:
    """Give the height that is told, or the one that a barometer's reading stands for."""
    if camp.altitude_m is not None or camp.barometer_hpa is None:
        return camp.altitude_m
    with told_at(places.of("barometer"), what):
        return work(altitude_of_m, camp.barometer_hpa)


def barometer_problems(trip: Trip) -> tuple[Problem, ...]:
    """Warn of a barometer's reading that no weather brings about at the height that is told."""
    camps = [(trip.start_camp, trip.places.of("start_camp"), "the start camp")] + [
        (day.camp, day.places.of("barometer"), f"day {day.number}") for day in trip.days
    ]
    found = []
    for camp, place, where in camps:
        if camp is None or camp.barometer_hpa is None or camp.altitude_m is None:
            continue
        usual_hpa = pressure_hpa(camp.altitude_m)
        if abs(camp.barometer_hpa / usual_hpa - 1) <= WEATHER_SHARE:
            continue
        found.append(
            Problem(
                place,
                "barometer-odd",
                f"the barometer of {where} reads {camp.barometer_hpa:.0f} hPa, and at "
                f"{camp.altitude_m:.0f} m it is usually {usual_hpa * (1 - WEATHER_SHARE):.0f} to "
                f"{usual_hpa * (1 + WEATHER_SHARE):.0f} hPa",
                "check both; a reading that was reduced to sea level is no use here",
                "warning",
            )
        )
    return tuple(found)


def start_altitude_m(trip: Trip) -> float | None:
    """Give how high the night before the first day is spent; None where nobody told."""
    if trip.start_camp is None:
        return None
    return _altitude_m(trip.start_camp, trip.places, "start camp")


def cooking_places(trip: Trip) -> CookingPlaces:
    """Give the conditions of every camp; a day that ends at home cooks at the last camp."""
    by_day: list[Conditions] = []
    start_altitude = start_altitude_m(trip)
    for day in trip.days:
        altitude_m = _altitude_m(day.camp, day.places, f"day {day.number}")
        if altitude_m is None:
            altitude_m = by_day[-1].altitude_m if by_day else start_altitude or 0.0
        with told_at(day.places.of("camp_altitude"), f"day {day.number}"):
            by_day.append(conditions_of(day.camp, altitude_m, day.places.fields.get("wind")))
    start = by_day[0]
    if trip.start_camp is not None:
        altitude_m = start_altitude if start_altitude is not None else start.altitude_m
        with told_at(trip.places.of("start_camp"), "start camp"):
            start = conditions_of(trip.start_camp, altitude_m, trip.places.fields.get("start_camp"))
    return CookingPlaces(start, tuple(by_day))
