"""When one eats."""

from __future__ import annotations

from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class MealTimes:
    """When one eats, in minutes of the day."""

    breakfast_min: int = 450
    lunch_min: int = 750
    dinner_min: int = 1110

    def of(self, meal: str) -> int:
        """Give when a meal is eaten; what is nibbled or drunk on the way goes with lunch."""
        own = {"breakfast": self.breakfast_min, "dinner": self.dinner_min}
        return own.get(meal, self.lunch_min)
