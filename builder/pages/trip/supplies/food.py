"""The page of food value: labels, protein and salt, energy by its weight, and the need."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.formulas.needs import ACTIVE_PROTEIN_G_KG, PROTEIN_G_KG, SALT_G_DAY
from builder.model.kit import Kit, KitPerson, PlannedMeal
from builder.model.looks import MealLabel, NeedMore, PersonFood
from builder.pages.charts import Chart, energy_chart
from builder.pages.citing import citation, citation_in_short
from builder.pages.figures import Figures, figures_of, worked
from builder.pages.pieces import Cell, Piece, Table, filled, join, lines, table, text
from builder.pages.trip.cautions import Box
from builder.pages.trip.placing import boxes_at
from builder.record import dataclass, replace
from builder.speech import Speech, later
from builder.units import rounded

# The methods of the energy need: their source, and a name short enough for a narrow column.
_METHODS = (
    ("schofield1985", later("By the hours")),
    ("nasem2023", later("US, 2023")),
    ("mifflin1990", later("Rest × activity")),
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

    boxes: tuple[Box, ...]
    chart: Chart
    density: str  # kcal in a gram, of all food
    people: Table | None
    rules: tuple[str, ...]
    needs: Table | None
    sources: tuple[Cell, ...]  # of the methods, in the order of their columns
    more: tuple[Cell, ...]  # what some need on top of it
    more_sources: Cell
    by_weight: Table | None
    labels: tuple[LabelLine, ...]
    only_energy: bool  # whether a packet of the trip tells its energy alone


def food_page(kit: Kit) -> FoodPage:
    """Give the food value of the trip."""
    figures = figures_of(kit)
    say = figures.say
    labels = _distinct(kit)
    methods = [
        (source, say(head))
        for source, head in _METHODS
        if any(source in _methods_of(person) for person in kit.party)
    ]
    rows = [
        _person(figures, person, person.food, f"trip.party.{number}.food.protein_need_g")
        for number, person in enumerate(kit.party)
        if person.food
    ]
    needs = [_need(figures, person, methods) for person in kit.party if person.energy_by_method]
    more = [
        (person, each, f"trip.party.{number}.needs_more.{place}.kcal.1")
        for number, person in enumerate(kit.party)
        for place, each in enumerate(person.needs_more)
    ]
    return FoodPage(
        boxes_at(kit, "food.md"),
        energy_chart(kit),
        say.number(kit.density_kcal_g, 1) if kit.density_kcal_g else "",
        table((say("Who"), "kcal", say("Protein"), say("Salt")), rows, "lrrr") if rows else None,
        _rules(say) if rows else (),
        table((say("Who"), *(head for _, head in methods)), needs, "l" + "r" * len(methods))
        if needs
        else None,
        tuple(_source(say, kit, source, head) for source, head in methods),
        tuple(_more(figures, person.name, each, figure) for person, each, figure in more),
        _named(say, kit, {source: None for _, each, _ in more for source in each.sources}),
        _by_weight(figures, labels) if labels else None,
        tuple(_label(say, meal, each) for meal, each in labels),
        any(each.only_energy for _, each in labels),
    )


def _distinct(kit: Kit) -> list[tuple[PlannedMeal, MealLabel]]:
    """Give each label once, in the order of first eating; another batch has another label."""
    found: dict[tuple[object, ...], tuple[PlannedMeal, MealLabel]] = {}
    for day in kit.days:
        for meal in day.meals:
            if each := meal.label:
                held = (
                    meal.title,
                    each.energy_kj,
                    each.fat_g,
                    each.carbohydrate_g,
                    each.fibre_g,
                    each.protein_g,
                    each.salt_g,
                )
                found.setdefault(held, (meal, each))
    return list(found.values())


def _methods_of(person: KitPerson) -> Mapping[str, float]:
    """Give what a person needs by the source of each method."""
    return dict(person.energy_by_method.kcal_by_source) if person.energy_by_method else {}


def grams(say: Speech, mass_g: float) -> str:
    """Give a mass as labels do: in grams, in every country."""
    return worked(say, mass_g, "g")


def _person(figures: Figures, person: KitPerson, each: PersonFood, figure: str) -> tuple[Cell, ...]:
    say = figures.say
    need = grams(say, rounded(each.protein_need_g))
    said = say("need {protein}", protein=need)
    if _ADULTS_ONLY in _methods_of(person):
        low, high = (rounded(end) for end in each.protein_active_g)
        said = say(
            "need {protein}\nhard days\n{low} to {high}",
            protein=need,
            low=say.number(low),
            high=grams(say, high),
        )
    space, needed, *rest = lines(said)
    traced = replace(needed, href=figures.how(figure))
    return (
        text(person.name),
        text(_kcal(say, each.energy_kcal)),
        (Piece(grams(say, rounded(each.protein_g))), space, traced, *rest),
        text(grams(say, rounded(each.salt_g, 1))),
    )


def _kcal(say: Speech, energy_kcal: float) -> str:
    """Give kilocalories for a column whose head names them."""
    return say.number(rounded(energy_kcal))


def _rules(say: Speech) -> tuple[str, ...]:
    low, high = ACTIVE_PROTEIN_G_KG
    return (
        say(
            "Protein: {enough} a day for each kilogram of body is enough for nearly all; more "
            "when pregnant or nursing. On hard days grown-ups do well with {low} to {high}.",
            enough=worked(say, PROTEIN_G_KG, "g"),
            low=worked(say, low),
            high=worked(say, high, "g"),
        ),
        say(
            "Salt: for everyday life less than {most} a day is advised. Sweat takes salt out, so "
            "hard and hot days ask for more.",
            most=worked(say, SALT_G_DAY, "g"),
        ),
    )


def _need(figures: Figures, person: KitPerson, methods: list[tuple[str, str]]) -> tuple[Cell, ...]:
    say, found = figures.say, _methods_of(person)
    return (
        text(person.name),
        *(text(_kcal(say, found[source]) if source in found else "–") for source, _ in methods),
    )


def _source(say: Speech, kit: Kit, source: str, head: str) -> Cell:
    for each in kit.sources:
        if each.id == source:
            return (
                Piece(head, strong=True),
                Piece(": "),
                Piece(citation(say, each), href=f"numbers.md#source-{source}"),
            )
    return (Piece(head, strong=True), Piece(f": {source}"))


def _more(figures: Figures, name: str, each: NeedMore, figure: str) -> Cell:
    """Say what somebody may need on top of the plan."""
    say = figures.say
    low, high = each.kcal
    # Parts of the need: to the next ten is exact enough.
    low, high = rounded(low, -1), rounded(high, -1)
    energy = Piece(figures.span(low, high, "energy_kcal"), href=figures.how(figure))
    return filled(_more_said(say, each), name=text(name), energy=(energy,))


def _more_said(say: Speech, each: NeedMore) -> str:
    """Give the sentence, with its name and its energy left open."""
    blanks = {"name": "{name}", "energy": "{energy}"}
    if each.why == "cold":
        return say.count(
            "{name}, on {n} day of frost: {energy}.",
            "{name}, on {n} days of frost: {energy} a day.",
            each.days,
            **blanks,
        )
    return say.count(
        "{name}, on {n} day so high up: {energy}.",
        "{name}, on {n} days so high up: {energy} a day.",
        each.days,
        **blanks,
    )


def _named(say: Speech, kit: Kit, sources: Mapping[str, None]) -> Cell:
    """Name sources, each leading to the list of them."""
    return join(
        [
            (Piece(citation_in_short(say, each), href=f"numbers.md#source-{each.id}"),)
            for each in kit.sources
            if each.id in sources
        ],
        "; ",
    )


def _by_weight(figures: Figures, labels: Sequence[tuple[PlannedMeal, MealLabel]]) -> Table:
    """Give the food that weighs least for its energy first."""
    say = figures.say
    rows = [
        (
            _title(meal),
            text(f"{say.number(rounded(each.density_kcal_g, 1), 1)}\u00a0kcal"),
            text(figures.plain(each.portion_g, "mass_g")),
        )
        for meal, each in sorted(labels, key=lambda pair: -pair[1].density_kcal_g)
    ]
    return table((say("Food"), say("Per gram"), say("A portion")), rows, "lrr")


def _label(say: Speech, meal: PlannedMeal, each: MealLabel) -> LabelLine:
    energy = f"{say.number(each.energy_kj)}\u00a0kJ / {say.number(each.energy_kcal)}\u00a0kcal"
    calories = say.number(each.us_calories)
    if each.only_energy:
        return LabelLine(
            _title(meal),
            say("{energy}; its packet tells no more", energy=energy),
            say("{calories} Calories", calories=calories),
        )
    held = say(
        "{energy}; fat {fat}, carbohydrate {carbohydrate}, fibre {fibre}, protein {protein}, "
        "salt {salt}",
        energy=energy,
        fat=grams(say, each.fat_g),
        carbohydrate=grams(say, each.carbohydrate_g),
        fibre=grams(say, each.fibre_g),
        protein=grams(say, each.protein_g),
        salt=grams(say, each.salt_g),
    )
    sodium = f"{say.number(each.us_sodium_mg)}\u00a0mg"
    us = say("{calories} Calories, {sodium} sodium", calories=calories, sodium=sodium)
    return LabelLine(_title(meal), held, us)


def _title(meal: PlannedMeal) -> Cell:
    """Name a meal; what is cooked leads to its page."""
    return (Piece(meal.title, href=f"cook/{meal.recipe}.md" if meal.recipe else ""),)
