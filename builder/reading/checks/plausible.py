"""Values that fit one another: speed by way of travel, body by age, minutes by what is done.

Each warns of what is unusual and refuses what cannot be; the ranges stand beside their reasons.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from builder.model.gear import FuelKind
from builder.model.place import Places
from builder.model.trip import Travel, TravelBy
from builder.reading.checks.usual import Range
from builder.reading.notes import Judge, Notes, judge
from builder.units import plain

# km/h over a whole day with its halts, and what is beyond everybody; where the walking formula
# ends the trip refuses a walk by itself.
SPEEDS_KM_H: dict[TravelBy, Range] = {
    "walking": Range((0.3, 6.5), (0.05, 1e4), "a stroll with children to a forced march"),
    "snowshoeing": Range((0.2, 5), (0.05, 10), "as walking, slower"),
    "skiing": Range((0.5, 14), (0.05, 30), "deep snow to a prepared track"),
    "paddling": Range((0.5, 9), (0.05, 20), "against wind to with the river"),
    "cycling": Range((3, 28), (0.3, 50), "loaded on tracks to unloaded on roads"),
}
# Metres up in a day, and in an hour: the fastest kilometre ever climbed takes about half an hour.
ASCENTS_M: dict[TravelBy, Range] = {
    "walking": Range((0, 2200), (0, 5500), "a very long day to a record"),
    "snowshoeing": Range((0, 1800), (0, 5000), "as walking, slower"),
    "skiing": Range((0, 2200), (0, 6000), "a long tour to a race"),
    "paddling": Range((0, 500), (0, 2500), "portages"),
    "cycling": Range((0, 3000), (0, 9000), "a mountain stage to a record"),
}
ASCENT_M_PER_H = Range((0, 800), (0, 1900), "600 m in an hour after Naismith; a record 2000")
DESCENTS_M: dict[TravelBy, Range] = {
    "walking": Range((0, 2500), (0, 6000), "a very long day to a record"),
    "snowshoeing": Range((0, 2200), (0, 6000), "as walking"),
    "skiing": Range((0, 5000), (0, 15_000), "a tour to a day of lifts"),
    "paddling": Range((0, 800), (0, 3000), "a steep river and portages"),
    "cycling": Range((0, 4000), (0, 12_000), "a mountain stage to a record"),
}

# Mass and height by age (usual low, high, possible low, high), straight lines between the ages.
# From memory: the 1st and 99th percentiles of growth charts, widened; beyond them, extremes.
MASS_KG_BY_AGE: dict[float, tuple[float, float, float, float]] = {
    1: (6.5, 14, 4.5, 22), 2: (8.5, 18, 6, 28), 3: (10, 23, 7, 36), 4: (11, 28, 8, 45),
    5: (12.5, 33, 9, 55), 6: (14, 39, 10, 65), 8: (17, 54, 12, 90), 10: (20, 70, 14, 115),
    12: (25, 88, 17, 145), 14: (32, 105, 21, 180), 16: (37, 120, 24, 220), 18: (38, 150, 25, 300),
}  # fmt: skip
HEIGHT_CM_BY_AGE: dict[float, tuple[float, float, float, float]] = {
    1: (66, 86, 58, 95), 2: (76, 99, 66, 110), 3: (83, 109, 72, 122), 4: (90, 118, 76, 132),
    5: (96, 126, 80, 142), 6: (102, 134, 84, 152), 8: (112, 148, 90, 170), 10: (121, 161, 96, 184),
    12: (130, 176, 100, 198), 14: (140, 192, 104, 214), 16: (143, 200, 106, 228),
    18: (143, 208, 106, 255),
}  # fmt: skip
BODY_MASS_INDEX = Range((14, 50), (9, 110), "kg/m², grown-up; from memory: extremes of record")
EXPECTING_YEARS = Range((13, 52), (8, 70), "from memory: records are 5 and 74 years")
CARRIED_OF_BODY = Range((0, 0.6), (0, 1.5), "a third of one's mass; soldiers and porters more")

# MJ/kg, net: what is sold for stoves.
FUEL_ENERGIES_MJ_KG: dict[FuelKind, Range] = {
    "gas": Range((42, 51), (35, 56), "butane 45.7, propane 46.4; gross 50"),
    "liquid": Range((36, 48), (30, 52), "petrol and paraffin 43; plant oil 37"),
    "alcohol": Range((18, 32), (12, 35), "methanol 19.9, ethanol 26.8, isopropanol 30"),
    "solid": Range((13, 32), (8, 40), "hexamine 30; gel and wax-bound wood less"),
}
AIR_SPAN_K = Range((0, 30), (0, 60), "a clear desert day and its night")
EMPTY_OF_FULL = Range((0, 4), (0, 20), "a 100 g can weighs about as much empty")

# By what is done; a soak and a rest may take a night.
STEP_MINUTES: dict[str, Range] = {
    "soak": Range((0, 1440), (0, 2880), "a night and a day"),
    "boil": Range((0, 180), (0, 720), "beans that were never soaked"),
    "simmer": Range((0, 240), (0, 1440), "a bone broth"),
    "fry": Range((0, 60), (0, 480), "pancakes one by one"),
    "bake": Range((0, 180), (0, 480), "flat bread to a roast"),
    "rest": Range((0, 1440), (0, 2880), "dough overnight"),
}
WATER_ML_A_SERVING = Range((0, 2500), (0, 15_000), "pasta takes a litre for 100 g")


def check_way(notes: Notes, places: Places, travel: Travel, tells_hours: bool) -> None:
    """Compare distance, climb and hours with what the way of travel allows."""
    if travel.by not in SPEEDS_KM_H:
        return
    found: list[tuple[str, float, Range, str]] = [
        ("ascent", travel.ascent_m, ASCENTS_M[travel.by], "m"),
        ("descent", travel.descent_m, DESCENTS_M[travel.by], "m"),
    ]
    hours = float(travel.hours)
    if tells_hours and hours > 0:
        if travel.distance_m is not None:
            speed_km_h = float(travel.distance_m) / 1000 / hours
            found.append(("distance", speed_km_h, SPEEDS_KM_H[travel.by], "km/h"))
        found.append(("ascent", float(travel.ascent_m) / hours, ASCENT_M_PER_H, "m in an hour"))
    for key, value, among, unit in found:
        if among.judge(value):
            said = f"{key}: {plain(value)} {unit} {travel.by}", among.usual_in(unit)
            judge(notes, among, value, places.of(key), said)


def _by_age(table: Mapping[float, tuple[float, float, float, float]], age_years: float) -> Range:
    """Give the range at an age, on straight lines between the ages of the table."""
    ages = sorted(table)
    age = min(max(age_years, ages[0]), ages[-1])
    for younger, older in pairwise(ages):
        if age <= older:
            part = (age - younger) / (older - younger)
            low, high, least, most = (
                a + part * (b - a) for a, b in zip(table[younger], table[older], strict=True)
            )
            return Range((low, high), (least, most), "by age")
    raise AssertionError("the last age ends the table")  # pragma: no cover


def check_mass(judge: Judge, age_years: float, mass_kg: float) -> None:
    """Compare somebody's mass with their age."""
    among = _by_age(MASS_KG_BY_AGE, age_years)
    if among.judge(mass_kg):
        found = f"mass: {plain(mass_kg)} kg at {plain(age_years)} years"
        judge(among, mass_kg, found, among.usual_in("kg"))


def check_height(judge: Judge, age_years: float, height_cm: float) -> None:
    """Compare somebody's height with their age."""
    among = _by_age(HEIGHT_CM_BY_AGE, age_years)
    if among.judge(height_cm):
        found = f"height: {plain(height_cm)} cm at {plain(age_years)} years"
        judge(among, height_cm, found, among.usual_in("cm"))


def check_index(judge: Judge, age_years: float, mass_kg: float, height_cm: float) -> None:
    """Compare the mass of somebody grown up with their height."""
    if age_years >= max(MASS_KG_BY_AGE):
        square_m2 = (height_cm / 100) ** 2
        found = f"mass: {plain(mass_kg)} kg at a height of {plain(height_cm)} cm"
        shown = BODY_MASS_INDEX.usual_in("kg", of=square_m2)
        judge(BODY_MASS_INDEX, mass_kg / square_m2, found, shown)


def check_expecting(judge: Judge, state: str, age_years: float) -> None:
    """Compare the age of somebody pregnant or nursing with those at which people are."""
    among = EXPECTING_YEARS
    if among.judge(age_years):
        found = f"{state} at {plain(age_years)} years"
        judge(among, age_years, found, among.usual_in("years"))


def check_carried(judge: Judge, key: str, mass_kg: float, carried_g: float) -> None:
    """Compare what somebody carries with their own mass."""
    carried_kg, of_body_kg = float(carried_g) / 1000, float(mass_kg)
    if CARRIED_OF_BODY.judge(carried_kg / of_body_kg):
        found = f"{key}: {plain(carried_kg)} kg on a body of {plain(of_body_kg)} kg"
        shown = CARRIED_OF_BODY.usual_in("kg", of=of_body_kg)
        judge(CARRIED_OF_BODY, carried_kg / of_body_kg, found, shown)


def check_fuel_energy(judge: Judge, kind: FuelKind, energy_mj_kg: float) -> None:
    """Compare the heating value with those of its kind of fuel."""
    among = FUEL_ENERGIES_MJ_KG[kind]
    found = f"energy: {plain(energy_mj_kg)} MJ/kg of {kind} fuel"
    judge(among, energy_mj_kg, found, among.usual_in("MJ/kg"))


def check_air(judge: Judge, low_c: float, high_c: float) -> None:
    """Compare the warmest of a day with its coldest."""
    span_k = float(high_c) - float(low_c)
    if AIR_SPAN_K.judge(span_k):
        found = f"high: {plain(high_c)} °C is {plain(span_k)} K above the low and"
        judge(AIR_SPAN_K, span_k, found, f"up to {plain(AIR_SPAN_K.usual[1])} K")


def check_container(judge: Judge, holds_g: float, empty_g: float) -> None:
    """Compare what a container weighs empty with what it holds."""
    share = empty_g / holds_g
    found = f"empty: {plain(empty_g)} g for {plain(holds_g)} g of fuel"
    judge(EMPTY_OF_FULL, share, found, EMPTY_OF_FULL.usual_in("g", of=holds_g))


def check_step_minutes(judge: Judge, do: str, minutes: float) -> None:
    """Compare the minutes of a step with those that such a step takes."""
    among = STEP_MINUTES.get(do)
    if among is not None and among.judge(minutes):
        judge(among, minutes, f"minutes: {plain(minutes)} min of {do}", among.usual_in("min"))


def check_serving_water(judge: Judge, water_ml: float, serves: float) -> None:
    """Compare the water of a step with the servings it is for."""
    among = WATER_ML_A_SERVING
    if among.judge(water_ml / serves):
        found = f"water: {plain(water_ml / serves)} ml for each serving"
        judge(among, water_ml / serves, found, among.usual_in("ml"))
