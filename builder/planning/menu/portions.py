"""What a meal is made of: so much of each food, out of which packs, and what it holds."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from copy import copy

from builder.model.batch import Method
from builder.model.content import Content
from builder.model.figure import add, none
from builder.model.food import Composition, Food
from builder.model.gear import LOOSE_PACKAGING, Packaging
from builder.model.kit import NutritionTotals, PlannedIngredient
from builder.model.trip import MealItem, Trip
from builder.planning.batches import Judged, name_as_dried, name_now
from builder.planning.cooking import Ready
from builder.planning.foods import (
    Substance,
    as_usually_dried,
    called,
    energy_per_100g_kcal,
    substance_named,
    substance_of_ingredient,
    substance_of_label,
)
from builder.planning.naming import told_apart
from builder.planning.stock import heads, packs_more
from builder.record import dataclass, names_of, replace
from builder.speech import speech_of

_NO_PACKS = none("packs")  # of what is eaten as it is, and of what no batch is named for
_BREWED_SHARE = 0.5  # a tea with more water is in the mug already
# In the three languages, also at the end of a word: Früchtetee, fruktte.
_TEA = re.compile(r"(?:\btea|tee|\bte|frukt-?te|urte-?te)\b")


@dataclass(frozen=True, slots=True)
class Portion:
    """A planned ingredient with the substance and composition behind it."""

    planned: PlannedIngredient
    substance: Substance
    composition: Composition  # of 100 g as carried
    judged: Judged | None
    auto_water_ml: float
    taken_up_ml: float  # of it


class Larder:
    """What the meals of a trip are taken from: foods, judged batches, and packs that stand open."""

    def __init__(self, trip: Trip, content: Content, judged: Mapping[str, Judged]) -> None:
        """Begin with all packs closed."""
        self.content, self.judged = content, judged
        self.say = speech_of(trip.language)
        # By what they are now, so that no two are called alike.
        names = {batch: name_now(self.say, judged[batch]) for batch in trip.batches}
        self.batch_names = told_apart(self.say, names)
        self.opened_g: dict[str, float] = {}  # out of packs that reseal

    def closed(self) -> Larder:
        """Give the same with all packs closed, to try something."""
        other = copy(self)
        other.opened_g = {}
        return other

    def of_dish(self, item: MealItem) -> tuple[Portion, ...]:
        """Scale a recipe's ingredients to those who eat."""
        return self.packs_shared(self.lines(item), item.chosen)

    def of_two_dishes(
        self, one: MealItem, other: MealItem
    ) -> tuple[tuple[Portion, ...], tuple[Portion, ...]]:
        """Scale the ingredients of two dishes that share the packs they open."""
        lines = [*self.lines(one)]
        portions = self.packs_shared([*lines, *self.lines(other)], one.chosen)
        return portions[: len(lines)], portions[len(lines) :]

    def lines(self, item: MealItem) -> Iterator[Portion]:
        """Give a recipe's ingredients scaled to those who eat, before packs are opened."""
        recipe = self.content.dish(item)
        scale = heads(item) / recipe.serves
        return (
            self.portion(
                ingredient.id,
                substance_of_ingredient(ingredient, self.content),
                ingredient.amount_g * scale,
                ingredient.dried_by,
                item.batch_of(ingredient.id),
                recipe=ingredient.recipe,
            )
            for ingredient in recipe.uses
        )

    def eaten_as_it_is(self, item: MealItem) -> Portion:
        """Give what is eaten as it is, for all who eat."""
        if item.label:
            substance = substance_of_label(item.label)
        else:
            substance = substance_named(item.food or "", self.content)
        recipe = item.food if item.food in self.content.recipes else None
        amount_g = item.each_g * heads(item)
        portion = self.portion(
            "", substance, amount_g, item.dried_by, item.batch_of(""), recipe=recipe
        )
        return self.packs_shared([portion], item.chosen)[0]

    def packs_shared(
        self, portions: Iterable[Portion], chosen: Collection[str]
    ) -> tuple[Portion, ...]:
        """Let lines of one meal that come from one batch share its packs, rounded up together.

        Packs that reseal are shared by all meals of the trip. The tool chose those of `chosen`.
        """
        amounts_g: dict[str, float] = dict(self.opened_g)
        found = []
        for portion in portions:
            planned, judged = portion.planned, portion.judged
            if judged:
                batch_id = judged.batch.id
                packs, now_g = packs_more(judged, amounts_g.get(batch_id), planned.amount_g)
                planned = replace(planned, packs=packs, chosen=planned.id in chosen)
                portion = replace(portion, planned=planned)
                amounts_g[batch_id] = now_g
                if judged.reseals:
                    self.opened_g[batch_id] = now_g
            found.append(portion)
        return tuple(found)

    def portion(
        self,
        ingredient_id: str,
        substance: Substance,
        amount_g: float,
        dried_by: Method | None,
        batch_id: str | None,
        *,
        recipe: str | None,
    ) -> Portion:
        """Give so much of a substance as it is carried."""
        judged = self.judged[batch_id] if batch_id else None
        if judged:
            name = self.batch_names[judged.batch.id]
            composition, back = judged.composition, judged.water_back
            method: Method | None = judged.batch.method
        else:
            name = name_as_dried(self.say, substance, dried_by)
            composition, back = as_usually_dried(substance, dried_by)
            method = dried_by
        known = substance.id in self.content.foods or recipe is not None
        planned = PlannedIngredient(
            id=ingredient_id,
            name=name,
            food=substance.id if known and recipe is None else None,
            recipe=recipe,
            amount_g=amount_g,
            dried_by=method,
            batch=batch_id,
            packs=_NO_PACKS,  # until it is known what the meals before opened
            density_g_ml=None if method and method != "bought" else substance.density_g_ml,
            piece_g=None if method and method != "bought" else substance.piece_g,
            is_raw_animal=judged.stays_raw if judged else substance.is_raw_animal,
            energy_kcal=energy_per_100g_kcal(composition) * amount_g / 100,
            water_ml=composition.water_g * amount_g / 100,
            steeps=bool(substance.foods) and all(_steeps(food) for food in substance.foods),
        )
        return Portion(
            planned,
            substance,
            composition,
            judged,
            back.poured_ml * amount_g,
            back.taken_up_ml * amount_g,
        )


def packaging_g(portions: Iterable[Portion], packaging: Mapping[str, Packaging]) -> float:
    """Give the mass of what a meal is packed in: its packs, and one bag for all else."""
    parts_g: list[float] = []
    loose = False
    for portion in portions:
        batch = portion.judged.batch if portion.judged else None
        if batch and batch.packs and batch.packs.packaging:
            parts_g.append(portion.planned.packs * packaging[batch.packs.packaging].mass_g)
        else:
            loose = loose or portion.planned.amount_g > 0
    return add([*parts_g, packaging[LOOSE_PACKAGING].mass_g] if loose else parts_g)


def nutrition_of(portions: tuple[Portion, ...]) -> NutritionTotals:
    """Add up what portions hold."""

    def total(name: str) -> float:
        return add(
            getattr(portion.composition, name) * portion.planned.amount_g / 100
            for portion in portions
        )

    held = [total(name) for name in names_of(NutritionTotals) if name != "energy_kcal"]
    return NutritionTotals(add(each.planned.energy_kcal for each in portions), *held)


def ready_of(portions: Iterable[Portion]) -> dict[str, Ready]:
    """Give portions as the walk through the steps knows them."""
    return {
        portion.planned.id: Ready(
            portion.planned, portion.substance.kind, portion.auto_water_ml, portion.taken_up_ml
        )
        for portion in portions
    }


def together(main: Mapping[str, Ready], other: Mapping[str, Ready]) -> dict[str, Ready]:
    """Give as much of each ingredient as both have."""
    found = dict(main)
    for name, one in main.items():
        if theirs := other.get(name):
            amount_g = one.planned.amount_g + theirs.planned.amount_g
            found[name] = Ready(
                replace(one.planned, amount_g=amount_g),
                one.kind,
                one.auto_water_ml + theirs.auto_water_ml,
                one.taken_up_ml + theirs.taken_up_ml,
            )
    return found


def _steeps(food: Food) -> bool:
    """Tell leaves that are drawn out by hot water from powders that melt in it, and from brews."""
    if food.kind != "drink":
        return food.kind == "herb"
    return food.per_100g.water_share < _BREWED_SHARE and bool(_TEA.search(called(food)))
