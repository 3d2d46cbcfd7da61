"""What is told of the ways to dry a food, and of when a dryer pays."""

from __future__ import annotations

import datetime

from builder.formulas.home_drying import pays_after_runs, saved_after_runs
from builder.model.as_data import picked
from builder.model.batch import Method
from builder.model.figure import Figure
from builder.planning.tracing import work
from builder.record import dataclass

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
    kept_at_told: bool  # whether that rests on a warmth that the home tells
    vitamin_c: VitaminC | None
    cautions: tuple[str, ...]  # ids, and each said in `cannot`
    cannot: tuple[str, ...]
    not_told: tuple[str, ...] = ()  # the keys that would tell its cost
    heat_first_c: float | None = None  # of raw meat: the date rests on it

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        kept = self.vitamin_c
        return {
            **picked(self, "method dryer dried_g room_ml water_back_ml takes_up_share"),
            "soak_least_min": self.soak_min[0] if self.soak_min else None,
            "soak_min": self.soak_min[1] if self.soak_min else None,
            **picked(self, "hours runs energy_kwh cost portion_cost keeps_until kept_at_told"),
            "heat_first_c": self.heat_first_c,
            "vitamin_c_kept": picked(kept, "least_share most_share source") if kept else None,
            **picked(self, "cautions cannot not_told"),
        }


@dataclass(frozen=True, slots=True)
class PaysTerms:
    """What decides when a dryer has paid, each without the price of a machine."""

    price: float
    own_cost: float  # of a run
    other_cost: float  # of the same food the other way
    runs_a_year: float | None

    @property
    def after_runs(self) -> Figure:
        """After how many runs; below nothing for never."""
        return work(pays_after_runs, self.price, self.own_cost, self.other_cost)

    @property
    def after_years(self) -> Figure | None:
        """After how many years, where it is told how often it runs."""
        return self.after_runs / self.runs_a_year if self.runs_a_year else None

    def saved(self, runs: float) -> Figure:
        """Give the money that it has saved after some runs."""
        return work(saved_after_runs, runs, self.price, self.own_cost, self.other_cost)


@dataclass(frozen=True, slots=True)
class Pays:
    """After how many runs a dryer has paid for itself against another way."""

    dryer: str
    against: str  # another dryer, or "bought"
    runs: int | None  # None for never, or where something was not told
    years: float | None
    not_told: tuple[str, ...] = ()
    terms: PaysTerms | None = None  # what it was worked out of, where all is told

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return picked(self, "dryer against runs years not_told")


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
            **picked(self, "name fresh_g currency"),
            "ways": [each.data() for each in self.ways],
            "pays": [each.data() for each in self.pays],
        }
