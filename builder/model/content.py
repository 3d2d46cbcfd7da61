"""All records of a content folder, by id."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.batch import Batch
from builder.model.food import Food
from builder.model.gear import Dryer, Fuel, Iron, LabelSheet, Packaging, Pot, Stove
from builder.model.home import Home
from builder.model.recipe import Recipe
from builder.model.source import CautionText, Source
from builder.model.trip import MealItem, Trip
from builder.record import dataclass, field


@dataclass(frozen=True, slots=True)
class Gear:
    """All gear, by kind and id."""

    stoves: Mapping[str, Stove]
    fuels: Mapping[str, Fuel]
    pots: Mapping[str, Pot]
    irons: Mapping[str, Iron]
    packaging: Mapping[str, Packaging]
    dryers: Mapping[str, Dryer]
    sheets: Mapping[str, LabelSheet] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Content:
    """A checked content folder; every id that a record names exists."""

    foods: Mapping[str, Food]
    batches: Mapping[str, Batch]
    recipes: Mapping[str, Recipe]
    gear: Gear
    trips: Mapping[str, Trip]
    cautions: Mapping[str, CautionText]
    sources: Mapping[str, Source]
    home: Home = field(default_factory=Home)
    folders: tuple[str, ...] = ()  # it was read from, as people are shown them
    listed_as: str = ""  # a hash of the shipped list of foods, where those are read on asking

    def dish(self, item: MealItem) -> Recipe:
        """Give the recipe of what is cooked, as its eaters have it."""
        return self.recipes[item.recipe or ""].swapped(item.swaps).without(item.without)
