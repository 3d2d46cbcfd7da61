"""What is known while a trip is read: what was read before it, and what it says of itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.model.food import Food
from builder.model.home import Home
from builder.model.recipe import Recipe
from builder.reading.yaml_door import Node


@dataclass(frozen=True, slots=True)
class AtHand:
    """What the keys of a trip are held against; empty while no trip is read."""

    foods: Mapping[str, Food] = field(default_factory=dict)
    recipes: Mapping[str, Recipe] = field(default_factory=dict)
    home: Home = field(default_factory=Home)
    names: tuple[str, ...] = ()  # of the party, also of those of whom something is wrong
    days: tuple[Node, ...] = ()

    def number_of(self, day: Node) -> int:
        """Give the number of a day, counted from 1."""
        return next(number for number, each in enumerate(self.days, start=1) if each is day)
