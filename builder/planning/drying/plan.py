"""What is told of drying at home: runs of a dryer, and the ways to dry a food."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Literal

from builder.model.batch import Heated, Method
from builder.model.recipe import MealName

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
        return {"trip": self.trip, "day": self.day, "meal": self.meal}


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
            "name": self.name,
            "fresh_g": self.fresh_g,
            "dried_g": self.dried_g,
            "for": [each.data() for each in self.meals],
            "packs": self.packs,
            "best_before": self.best_before.isoformat() if self.best_before else None,
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
            "hours": self.hours,
            "load_g": self.load_g,
            "water_g": self.water_g,
            "day_to_spare": self.day_to_spare,
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
            "impossible": list(self.impossible),
            "remarks": list(self.remarks),
        }


def _minute(at: datetime.datetime) -> str:
    return at.isoformat(timespec="minutes")


# -- ways to dry a food ---------------------------------------------------------------------------

BOUGHT = "bought"


@dataclass(frozen=True, slots=True)
class VitaminC:
    """How much of the vitamin C a way keeps, between what, and who says so."""

    least_share: float
    most_share: float
    source: str


@dataclass(frozen=True, slots=True)
class Way:
    """One way to dry a mass of food, or to buy it dried; None stands for what was not told."""

    method: Method
    dryer: str | None
    dryer_name: str
    dried_g: float
    room_ml: float | None
    water_back_ml: float | None
    takes_up_share: float | None  # of the water that drying took out
    soak_min: tuple[float, float] | None  # in boiling water, where that is known
    hours: float | None  # of one run
    runs: int | None
    energy_kwh: float | None
    cost: float | None  # in the home's currency, for all of it
    portion_cost: float | None
    portions: float
    keeps_until: datetime.date | None
    vitamin_c: VitaminC | None
    cautions: tuple[str, ...]  # ids, and each said in `cannot`
    cannot: tuple[str, ...]
    not_told: tuple[str, ...] = ()  # the keys that would tell its cost

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        kept = self.vitamin_c
        return {
            "method": self.method,
            "dryer": self.dryer,
            "dried_g": self.dried_g,
            "room_ml": self.room_ml,
            "water_back_ml": self.water_back_ml,
            "takes_up_share": self.takes_up_share,
            "soak_least_min": self.soak_min[0] if self.soak_min else None,
            "soak_min": self.soak_min[1] if self.soak_min else None,
            "hours": self.hours,
            "runs": self.runs,
            "energy_kwh": self.energy_kwh,
            "cost": self.cost,
            "portion_cost": self.portion_cost,
            "keeps_until": self.keeps_until.isoformat() if self.keeps_until else None,
            "vitamin_c_kept": {
                "least_share": kept.least_share,
                "most_share": kept.most_share,
                "source": kept.source,
            }
            if kept
            else None,
            "cautions": list(self.cautions),
            "cannot": list(self.cannot),
            "not_told": list(self.not_told),
        }


@dataclass(frozen=True, slots=True)
class Pays:
    """After how many runs a dryer has paid for itself against another way."""

    dryer: str
    against: str  # another dryer, or "bought"
    runs: int | None  # None for never, or where something was not told
    years: float | None
    not_told: tuple[str, ...] = ()

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return {
            "dryer": self.dryer,
            "against": self.against,
            "runs": self.runs,
            "years": self.years,
            "not_told": list(self.not_told),
        }


@dataclass(frozen=True, slots=True)
class Ways:
    """All ways to dry one mass of a food, side by side, and when a dryer pays."""

    holds: str
    name: str
    fresh_g: float
    currency: str
    ways: tuple[Way, ...]
    pays: tuple[Pays, ...]

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return {
            "food": self.holds,
            "name": self.name,
            "fresh_g": self.fresh_g,
            "currency": self.currency,
            "ways": [each.data() for each in self.ways],
            "pays": [each.data() for each in self.pays],
        }
