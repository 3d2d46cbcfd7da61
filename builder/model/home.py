"""The home: what is the same for every trip, and when and in what food can be dried."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

from builder.model.place import Places
from builder.model.trip import ENGLISH, Person, Units
from builder.record import dataclass, field

AT_HOME = "at-home"  # the folder of its site among the kits, which no trip may be called

Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WEEKDAYS: tuple[Weekday, ...] = get_args(Weekday)  # as datetime.date.weekday() counts them


@dataclass(frozen=True, slots=True)
class FreeHours:
    """A stretch of a day in which a run can be started or emptied, in minutes after midnight."""

    from_min: int
    to_min: int


EVERY_DAY = FreeHours(7 * 60, 22 * 60)
ALWAYS_FREE: dict[Weekday, tuple[FreeHours, ...]] = dict.fromkeys(WEEKDAYS, (EVERY_DAY,))


@dataclass(frozen=True, slots=True)
class NewBatch:
    """What a new batch has unless it says otherwise."""

    packaging: str | None = None
    absorber: bool = False
    kept_at_c: float | None = None


@dataclass(frozen=True, slots=True)
class Home:
    """What belongs to no single trip; a folder without `home.yaml` has the defaults."""

    people: tuple[Person, ...] = ()
    dryers: tuple[str, ...] = ()  # of the gear, those that stand here
    free: Mapping[Weekday, tuple[FreeHours, ...]] = field(default_factory=ALWAYS_FREE.copy)
    electricity_per_kwh: float | None = None
    currency: str = ""
    new_batch: NewBatch = field(default_factory=NewBatch)
    label_sheet: str | None = None
    mug_ml: float = 300.0
    units: Units = "metric"
    language: str = ENGLISH
    portion_g: float = 50.0  # dried, for what a portion costs
    is_told: bool = False  # whether there is a home.yaml
    places: Places = field(default_factory=Places, compare=False, repr=False)
