"""What was, after a trip: told by those who came home, against what was planned."""

from __future__ import annotations

from builder.model.place import Places
from builder.model.recipe import MealName
from builder.record import dataclass, field


@dataclass(frozen=True, slots=True)
class WaterUsed:
    """All the water of a day."""

    day: int
    used_ml: float
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class LeftOver:
    """What was not eaten: a share of a dish, or a mass of a food."""

    recipe: str | None = None
    food: str | None = None
    day: int | None = None
    meal: MealName | None = None
    share: float | None = None
    mass_g: float | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Took:
    """How long a dish took."""

    recipe: str
    minutes: float
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Review:
    """What was; None and nothing stand for what was not told."""

    fuel_used_g: float | None = None
    wood_used_g: float | None = None
    water: tuple[WaterUsed, ...] = ()
    left: tuple[LeftOver, ...] | None = None  # () where they said that nothing was left
    back: tuple[tuple[str, int], ...] = ()  # batch → packs that came home whole
    took: tuple[Took, ...] = ()
    marks: tuple[tuple[str, int], ...] = ()  # recipe → 1 to 5
    notes: str = ""
    places: Places = field(default_factory=Places, compare=False, repr=False)

    @property
    def is_told(self) -> bool:
        """Whether anything was filled in."""
        return self != Review()
