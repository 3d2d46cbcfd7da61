"""What is told of drying at home: runs of a dryer, and the ways to dry a food."""

from __future__ import annotations

import datetime
from typing import Literal

from builder.model.as_data import picked
from builder.model.batch import Heated, Method
from builder.model.recipe import MealName
from builder.record import dataclass

# What is to be done for a run besides drying, in the order of its days.
Doing = Literal[
    "freeze",  # in the freezer for 12 h, before freeze-drying
    "heat",  # raw meat, poultry and fish, all through
    "blanch",
    "start",
    "empty",
    "condition",  # fruit evens out in a jar for 7 days
    "pack",
]


@dataclass(frozen=True, slots=True)
class Meal:
    """A meal of a trip that eats of what is dried."""

    trip: str
    day: int
    meal: MealName
    mass_g: float  # dried, what it eats
    eaten_on: datetime.date | None

    def data(self) -> dict[str, object]:
        """Give where it is for a script."""
        return picked(self, "trip day meal")


@dataclass(frozen=True, slots=True)
class Part:
    """A planned batch: what of one food, or of one whole meal, goes into a run."""

    holds: str  # the id of the food or recipe
    is_recipe: bool
    name: str
    method: Method
    fresh_g: float
    dried_g: float
    meals: tuple[Meal, ...]
    packs: int
    best_before: datetime.date | None
    heated: Heated | None = None  # the step that drying itself does not give
    absorber: bool = False
    kept_at_c: float | None = None
    batch: str = ""  # its id where the log holds it already

    @property
    def water_g(self) -> float:
        """What the dryer takes out of it."""
        return self.fresh_g - self.dried_g

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return {
            ("recipe" if self.is_recipe else "food"): self.holds,
            **picked(self, "name fresh_g dried_g"),
            "for": [each.data() for each in self.meals],
            **picked(self, "packs best_before"),
            "batch": self.batch or None,
        }


@dataclass(frozen=True, slots=True)
class Step:
    """Something to do for a run, at a time of the home."""

    do: Doing
    at: datetime.datetime
    until: datetime.datetime | None  # of what lasts by itself: the freezer, the jar
    says: str

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return {
            "do": self.do,
            "at": _minute(self.at),
            "until": _minute(self.until) if self.until else None,
            "says": self.says,
        }


@dataclass(frozen=True, slots=True)
class Run:
    """One filling of a dryer, from start to end."""

    id: str
    dryer: str | None  # None where a planned batch names none, and the home has several
    dryer_name: str
    method: Method
    start: datetime.datetime
    end: datetime.datetime
    emptied: datetime.datetime
    parts: tuple[Part, ...]
    steps: tuple[Step, ...] = ()
    state: Literal["new", "planned", "in-dryer"] = "new"  # proposed now, or as the log has it
    day_to_spare: bool = True  # whether it could be dried on before the deadline

    @property
    def hours(self) -> float:
        """How long it dries."""
        return (self.end - self.start).total_seconds() / 3600

    @property
    def load_g(self) -> float:
        """All that goes in, fresh."""
        return sum(each.fresh_g for each in self.parts)

    @property
    def water_g(self) -> float:
        """All that the dryer takes out."""
        return sum(each.water_g for each in self.parts)

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return {
            "run": self.id,
            "dryer": self.dryer,
            "state": self.state,
            "start": _minute(self.start),
            "end": _minute(self.end),
            "emptied": _minute(self.emptied),
            **picked(self, "hours load_g water_g day_to_spare"),
            "batches": [each.data() for each in self.parts],
            "steps": [each.data() for each in self.steps],
        }


@dataclass(frozen=True, slots=True)
class DryingPlan:
    """The runs to do, by their start, and what cannot be done, in plain words."""

    runs: tuple[Run, ...] = ()
    impossible: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()  # what else is to be known, such as a search that was cut short

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return {
            "runs": [each.data() for each in self.runs],
            **picked(self, "impossible remarks"),
        }


def _minute(at: datetime.datetime) -> str:
    return at.isoformat(timespec="minutes")
