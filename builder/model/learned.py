"""What was against what was planned, and what of it later trips are planned with."""

from __future__ import annotations

from typing import Literal

from builder.record import dataclass

Taught = Literal["fuel", "wood", "water", "food"]


@dataclass(frozen=True, slots=True)
class Against:
    """What was used, beside what was planned before anything was learned."""

    used: float
    planned: float
    ratio: float


@dataclass(frozen=True, slots=True)
class WaterAgainst:
    """All the water of one day."""

    day: int
    used_ml: float
    planned_ml: float


@dataclass(frozen=True, slots=True)
class LeftAgainst:
    """What was left of a dish or a food, of all that was planned of it."""

    title: str
    day: int | None
    left_kcal: float
    planned_kcal: float
    share: float


@dataclass(frozen=True, slots=True)
class TookAgainst:
    """How long a dish took."""

    title: str
    minutes: float
    planned_minutes: float


@dataclass(frozen=True, slots=True)
class Mark:
    """How good a dish was, 1 to 5."""

    title: str
    mark: int


@dataclass(frozen=True, slots=True)
class Reviewed:
    """What was on a trip, against its plan; None and nothing stand for what was not told."""

    fuel: Against | None = None  # g
    wood: Against | None = None  # g
    water: Against | None = None  # ml drunk besides food and hot drinks, over the days told
    food: Against | None = None  # kcal
    water_days: tuple[WaterAgainst, ...] = ()
    left: tuple[LeftAgainst, ...] = ()
    took: tuple[TookAgainst, ...] = ()
    marks: tuple[Mark, ...] = ()
    notes: str = ""

    def against(self, what: Taught) -> Against | None:
        """Give one of the four that teach."""
        found: Against | None = getattr(self, what)
        return found


@dataclass(frozen=True, slots=True)
class Factor:
    """What a plan is multiplied by, and the trips that it rests on."""

    factor: float
    ratios: tuple[float, ...]  # used over planned of each trip
    trips: tuple[str, ...]  # their titles


@dataclass(frozen=True, slots=True)
class Habit:
    """What all trips that are over teach the next one."""

    what: Taught
    factor: Factor
    stoves: tuple[str, ...] = ()  # ids, of fuel; their names where it is told


@dataclass(frozen=True, slots=True)
class Learned:
    """What earlier trips taught; None where none did."""

    fuel: Factor | None = None  # of this trip's stoves
    wood: Factor | None = None
    water: Factor | None = None
    food: Factor | None = None


NOTHING_LEARNED = Learned()
