"""What people eat against what anybody eats, and the energy of food against what it holds.

Each warns of what is unusual and refuses what cannot be; the ranges stand beside their reasons.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.model.food import Composition, Food
from builder.model.recipe import Recipe
from builder.model.trip import MealItem, Trip
from builder.problems import Problem, Severity
from builder.reading.checks.usual import Range
from builder.reading.notes import Judge
from builder.reading.text.yaml_door import quoted
from builder.record import names_of
from builder.units import plain

# What one eater gets of one dish or thing, and in a day, as it is carried.
EATEN_G_AT_ONCE = Range((0.02, 1500), (0.001, 5000), "a pinch to a large plate with its drink")
EATEN_KCAL_AT_ONCE = Range((0, 2500), (0, 15_000), "a whole day's food")
EATEN_SODIUM_MG_AT_ONCE = Range((0, 8000), (0, 40_000), "20 g of salt; 100 g of salt kills")
EATEN_FAT_G_AT_ONCE = Range((0, 150), (0, 5000), "of oil or butter: what is fried in is not eaten")
ALL_FAT_FROM_G = 80.0  # of 100 g; butter holds 81
EATEN_G_A_DAY = Range((0, 4000), (0, 12_000), "0.6 to 1 kg dry, 3 kg fresh")
EATEN_KCAL_A_DAY = Range((0, 9000), (0, 25_000), "a racer's 8000")

# Energy against Atwater's factors (4, 9, 4, fibre 2, alcohol 7): sweeteners, gums, leavenings and
# cocoa lie furthest off among the 5,514 foods of SR28; fibre counts anywhere from 0 to 4.
ATWATER_OFF_SHARE = 0.25
ATWATER_OFF_KCAL = 25.0
ATWATER_OFF_KCAL_PER_G_FIBRE = 2.0
# Beyond doubt: more than any burning gives, or less than half of what protein and fat must.
ATWATER_MOST_SHARE = 1.5
ATWATER_LEAST_SHARE = 0.5
BEYOND_DOUBT_KCAL = 50.0


def check_eaten(
    judge: Judge, key: str, mass_g: float, composition: Composition | None = None
) -> bool:
    """Compare what one eater gets at once with what anybody eats; tell whether it was odd."""
    values = [(mass_g, EATEN_G_AT_ONCE, "g")]
    if composition is not None:
        of_100g = mass_g / 100
        values += [
            (energy_kcal_of(composition) * of_100g, EATEN_KCAL_AT_ONCE, "kcal"),
            (composition.sodium_mg * of_100g, EATEN_SODIUM_MG_AT_ONCE, "mg of sodium"),
        ]
        if composition.fat_g >= ALL_FAT_FROM_G:
            values.append((mass_g, EATEN_FAT_G_AT_ONCE, "g of fat that is eaten"))
    odd = False
    for value, among, unit in values:
        if among.judge(value):
            found = f"{key}: {plain(value)} {unit} for one eater"
            odd |= judge(among, value, found, among.usual_in(unit))
    return odd


def eaten_in_a_day(
    trip: Trip, foods: Mapping[str, Food], recipes: Mapping[str, Recipe]
) -> list[Problem]:
    """Compare what each person gets in a day, as carried and in equal parts, with what one eats."""
    problems: list[Problem] = []
    for day in trip.days:
        eaten_g = dict.fromkeys((person.name for person in trip.party), 0.0)
        eaten_kcal = dict(eaten_g)
        for item in (item for meal in day.meals for item in meal.items):
            for mass_g, of in _servings(item, foods, recipes):
                kcal = mass_g / 100 * float(energy_kcal_of(of)) if of else 0.0
                for name in item.eaters:
                    eaten_g[name] += mass_g
                    eaten_kcal[name] += kcal
        for eaten, among, unit in (
            (eaten_g, EATEN_G_A_DAY, "g"),
            (eaten_kcal, EATEN_KCAL_A_DAY, "kcal"),
        ):
            name, most = max(eaten.items(), key=lambda each: each[1])
            judged = among.judge(most)
            if judged:
                says = f"day {day.number} gives {quoted(name)} {plain(most)} {unit} to eat"
                usual = f"usual is up to {plain(among.usual[1])} {unit}"
                mend = f"check the amounts of its meals: {usual}"
                kind = "out-of-range" if judged == "impossible" else "unusual"
                severity: Severity = "error" if judged == "impossible" else "warning"
                problems.append(Problem(day.places.record, kind, says, mend, severity))
                break
    return problems


def _servings(
    item: MealItem, foods: Mapping[str, Food], recipes: Mapping[str, Recipe]
) -> Iterable[tuple[float, Composition | None]]:
    if recipe := recipes.get(item.recipe or ""):
        for each in recipe.swapped(item.swaps).uses:
            food = foods.get(each.food or "")
            yield float(each.amount_g) / float(recipe.serves), food.per_100g if food else None
    elif item.label:
        yield float(item.each_g), item.label.per_100g
    elif not item.recipe:
        eaten = foods.get(item.food or "")
        yield float(item.each_g), eaten.per_100g if eaten else None


_PARTS = names_of(Composition)


def untraced(of: Composition) -> Composition:
    """Give bare numbers: what is only checked need not know where it came from, and is quick."""
    bare = {part: float(getattr(of, part) or 0.0) for part in _PARTS}
    return Composition(**bare)


def energy_kcal_of(composition: Composition) -> float:
    """Give the energy of 100 g that is told, or what its parts give."""
    if composition.energy_kcal is not None:
        return composition.energy_kcal
    return _atwater_kcal(composition)


def _atwater_kcal(of: Composition) -> float:
    """Give what `formulas.nutrition` gives, which reading may not ask; a test holds them equal."""
    return (
        4 * of.protein_g
        + 9 * of.fat_g
        + 4 * (of.carbohydrate_g - of.fibre_g)
        + 2 * of.fibre_g
        + 7 * of.alcohol_g
    )


def check_energy(
    judge: Judge, of: Composition, all_told: bool = True, all_eaten: bool = True
) -> None:
    """Compare the energy that is told with what the parts give.

    Parts that are not told can only add energy, so then only too little is told; what is not all
    eaten can only give less, so then only too much.
    """
    if of.energy_kcal is None:
        return
    energy_kcal = float(of.energy_kcal)
    of = untraced(of)
    by_parts_kcal = _atwater_kcal(of)
    off_kcal = (
        ATWATER_OFF_KCAL
        + ATWATER_OFF_SHARE * by_parts_kcal
        + ATWATER_OFF_KCAL_PER_G_FIBRE * of.fibre_g
    )
    burnt_kcal = by_parts_kcal + 2 * of.fibre_g
    least_kcal = ATWATER_LEAST_SHARE * (2 * of.protein_g + 8 * of.fat_g) - BEYOND_DOUBT_KCAL
    most_kcal = ATWATER_MOST_SHARE * burnt_kcal + BEYOND_DOUBT_KCAL
    low_kcal = by_parts_kcal - off_kcal
    high_kcal = by_parts_kcal + off_kcal
    if not all_told:
        high_kcal = most_kcal = float("inf")
    if not all_eaten:
        low_kcal = least_kcal = 0.0
    among = Range((low_kcal, high_kcal), (least_kcal, most_kcal), "Atwater")
    if among.judge(energy_kcal):
        shown = f"about {plain(by_parts_kcal)} kcal by protein, fat, carbohydrate and alcohol"
        judge(among, energy_kcal, f"energy: {plain(energy_kcal)} kcal", shown)
