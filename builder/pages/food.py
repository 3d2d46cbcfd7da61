"""The page of food value: labels, protein and salt, energy by its weight, and the need."""

from __future__ import annotations

from dataclasses import dataclass

from builder.formulas.needs import ACTIVE_PROTEIN_G_KG, PROTEIN_G_KG, SALT_G_DAY
from builder.model.kit import Kit, PlannedMeal
from builder.model.looks import EnergyLook, MealLabel, PersonFood
from builder.pages.figures import Figures, figures_of, percent, worked
from builder.pages.pieces import Cell, Piece, Table, table, text
from builder.units import rounded

# The methods of the energy need: their source, and a name short enough for a narrow column.
_METHODS = (
    ("schofield1985", "By the hours"),
    ("nasem2023", "US, 2023"),
    ("mifflin1990", "Rest × activity"),
)
_ADULTS_ONLY = "mifflin1990"  # tells who is grown up, since it is for 19 years and more


@dataclass(frozen=True, slots=True)
class LabelLine:
    """The label of one meal in a line."""

    title: Cell
    says: str
    us: str


@dataclass(frozen=True, slots=True)
class FoodPage:
    """What the food of the trip gives."""

    density: str  # kcal in a gram, of all food
    people: Table | None
    rules: tuple[str, ...]
    needs: Table | None
    sources: tuple[Cell, ...]  # of the methods, in the order of their columns
    by_weight: Table | None
    labels: tuple[LabelLine, ...]
    only_energy: bool  # whether a packet of the trip tells its energy alone


def food_page(kit: Kit) -> FoodPage:
    """Give the food value of the trip."""
    figures, looks = figures_of(kit), kit.looks
    labels = _distinct(looks.labels)
    grown = {each.name for each in looks.energy if _ADULTS_ONLY in dict(each.kcal_by_source)}
    methods = [
        (source, head)
        for source, head in _METHODS
        if any(source in dict(each.kcal_by_source) for each in looks.energy)
    ]
    rows = [_person(each, each.name in grown) for each in looks.people]
    needs = [_need(each, methods) for each in looks.energy]
    return FoodPage(
        f"{looks.density_kcal_g:.1f}" if looks.density_kcal_g else "",
        table(("Who", "kcal", "Protein", "Salt"), rows, "lrrr") if rows else None,
        _rules() if rows else (),
        table(("Who", *(head for _, head in methods)), needs, "l" + "r" * len(methods))
        if needs
        else None,
        tuple(_source(kit, source, head) for source, head in methods),
        _by_weight(kit, figures, labels) if labels else None,
        tuple(_label(kit, each) for each in labels),
        any(each.only_energy for each in labels),
    )


def _distinct(labels: tuple[MealLabel, ...]) -> tuple[MealLabel, ...]:
    """Give each label once, in the order of first eating; another batch has another label."""
    found: dict[tuple[object, ...], MealLabel] = {}
    for each in labels:
        held = (each.title, each.energy_kj, each.fat_g, each.carbohydrate_g, each.fibre_g,
                each.protein_g, each.salt_g)  # fmt: skip
        found.setdefault(held, each)
    return tuple(found.values())


def grams(mass_g: float) -> str:
    """Give a mass as labels do: in grams, in every country."""
    return worked(mass_g, "g")


def _person(each: PersonFood, is_grown: bool) -> tuple[Cell, ...]:
    said = [f"need {grams(rounded(each.protein_need_g))}"]
    if is_grown:
        low, high = (f"{rounded(end):.0f}" for end in each.protein_active_g)
        said += ["hard days", f"{low} to {high}\u00a0g"]
    protein = [Piece(grams(rounded(each.protein_g)))]
    for part in said:
        protein += [Piece(" "), Piece(part, small=True)]
    return (
        text(each.name),
        text(_kcal(each.energy_kcal)),
        tuple(protein),
        text(grams(rounded(each.salt_g, 1))),
    )


def _kcal(energy_kcal: float) -> str:
    """Give kilocalories for a column whose head names them."""
    return f"{rounded(energy_kcal):,.0f}"


def _rules() -> tuple[str, ...]:
    low, high = (worked(end) for end in ACTIVE_PROTEIN_G_KG)
    return (
        f"Protein: {worked(PROTEIN_G_KG, 'g')} a day for each kilogram of body is enough for "
        f"nearly all; more when pregnant or nursing. On hard days grown-ups do well with {low} "
        f"to {high}\u00a0g.",
        f"Salt: for everyday life less than {worked(SALT_G_DAY, 'g')} a day is advised. Sweat "
        "takes salt out, so hard and hot days ask for more.",
    )


def _need(each: EnergyLook, methods: list[tuple[str, str]]) -> tuple[Cell, ...]:
    found = dict(each.kcal_by_source)
    apart = Piece(f"{percent(each.spread_share)} apart", small=True)
    return (
        (Piece(each.name), Piece(" "), apart),
        *(text(_kcal(found[source]) if source in found else "–") for source, _ in methods),
    )


def _source(kit: Kit, source: str, head: str) -> Cell:
    for each in kit.sources:
        if each.id == source:
            return (
                Piece(head, strong=True),
                Piece(": "),
                Piece(each.citation, href=f"numbers.md#source-{source}"),
            )
    return (Piece(head, strong=True), Piece(f": {source}"))


def _by_weight(kit: Kit, figures: Figures, labels: tuple[MealLabel, ...]) -> Table:
    """Give the food that weighs least for its energy first."""
    rows = [
        (
            _title(kit, each),
            text(f"{rounded(each.density_kcal_g, 1):.1f}\u00a0kcal"),
            text(figures.plain(each.portion_g, "mass_g")),
        )
        for each in sorted(labels, key=lambda each: -each.density_kcal_g)
    ]
    return table(("Food", "In a gram", "A portion"), rows, "lrr")


def _label(kit: Kit, each: MealLabel) -> LabelLine:
    energy = f"{each.energy_kj:,}\u00a0kJ / {each.energy_kcal:,}\u00a0kcal"
    if each.only_energy:
        return LabelLine(
            _title(kit, each),
            f"{energy}; its packet tells no more",
            f"{each.us_calories:,} Calories",
        )
    parts = (
        ("fat", each.fat_g),
        ("carbohydrate", each.carbohydrate_g),
        ("fibre", each.fibre_g),
        ("protein", each.protein_g),
        ("salt", each.salt_g),
    )
    held = ", ".join(f"{name} {grams(mass_g)}" for name, mass_g in parts)
    us = f"{each.us_calories:,} Calories, {each.us_sodium_mg:,}\u00a0mg sodium"
    return LabelLine(_title(kit, each), f"{energy}; {held}", us)


def _title(kit: Kit, label: MealLabel) -> Cell:
    """Name a meal; what is cooked leads to its page."""
    recipe = next((meal.recipe for meal in _meals(kit, label) if meal.recipe), None)
    return (Piece(label.title, href=f"cook/{recipe}.md" if recipe else ""),)


def _meals(kit: Kit, label: MealLabel) -> list[PlannedMeal]:
    return [
        meal
        for day in kit.days
        if day.day == label.day
        for meal in day.meals
        if (meal.meal, meal.title) == (label.meal, label.title)
    ]
