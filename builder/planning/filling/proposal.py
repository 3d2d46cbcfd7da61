"""What is proposed for a trip's open meals."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.learned import Factor
from builder.model.recipe import MealName
from builder.model.trip import Trip
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class ChosenDish:
    """What an open meal is filled with, and why."""

    day: int
    meal: MealName
    place: int  # of the meal in its day, from 0
    recipe: str
    name: str
    batches: tuple[tuple[str, str], ...]  # ingredient → batch
    eaters: tuple[str, ...]
    because: str

    def data(self) -> dict[str, object]:
        """Give it for a script."""
        return {
            "day": self.day,
            "meal": self.meal,
            "recipe": self.recipe,
            "from": dict(self.batches),
            "because": self.because,
        }


@dataclass(frozen=True, slots=True)
class Proposal:
    """One way to fill all open meals."""

    dishes: tuple[ChosenDish, ...]
    trip: Trip  # as it would be
    energy_shares: tuple[float, ...]  # of the need, one a day
    dangers: tuple[str, ...]  # that its dishes bring up, in words

    def data(self) -> dict[str, object]:
        """Give it for a script."""
        return {
            "meals": [each.data() for each in self.dishes],
            "energy_share": list(self.energy_shares),
            "dangers": list(self.dangers),
        }


@dataclass(frozen=True, slots=True)
class Filling:
    """The proposals for a trip; in plain words what is in the way where there is none."""

    proposals: tuple[Proposal, ...]
    impossible: str = ""
    is_sure: bool = True  # whether the search saw all before it had to end
    appetite: Factor | None = None  # that earlier trips taught, and days aim at

    def data(self) -> Mapping[str, object]:
        """Give it for a script."""
        return {
            "proposals": [each.data() for each in self.proposals],
            "impossible": self.impossible or None,
            "sure": self.is_sure,
            "appetite": None if self.appetite is None else float(self.appetite.factor),
        }
