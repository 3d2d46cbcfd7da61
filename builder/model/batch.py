"""One drying run: what, how, the weight before and after, the packs made."""

from __future__ import annotations

import datetime
from typing import Literal, get_args

from builder.model.figure import counted
from builder.model.picture import Picture
from builder.model.place import Places
from builder.record import dataclass, field

Method = Literal["dehydrator", "freeze-dryer", "oven", "sun", "bought"]
METHODS: tuple[Method, ...] = get_args(Method)
WAYS_TO_DRY = tuple(method for method in METHODS if method != "bought")  # what one does oneself
# What the tool says of a batch.
Verdict = Literal["dry", "not-dry", "undecided", "discard"]
# What may be done to prove a batch dry: its weight stays constant, a cold piece snaps, no drops
# show in a jar.
DryTest = Literal["constant", "snap", "jar"]
DRY_TESTS: tuple[DryTest, ...] = get_args(DryTest)
# Of a heat step: before drying or after it.
When = Literal["before", "after"]
WHENS: tuple[When, ...] = get_args(When)
HEAT_METHODS = frozenset({"dehydrator", "oven", "sun"})


@dataclass(frozen=True, slots=True)
class Heated:
    """The heat step that drying itself does not give."""

    to_c: float
    when: When
    minutes: float = 0.0  # how long it was held there; 0 where nobody told


@dataclass(frozen=True, slots=True)
class Packs:
    """The sealed portions of a batch; `of_g` is told only for bought ones."""

    count: int
    packaging: str | None = None
    absorber: bool = False
    of_g: float | None = None
    shelf: str = ""  # where they lie at home, such as "cellar"


@dataclass(frozen=True, slots=True)
class Weighing:
    """What the load weighed at a time since drying began."""

    at_min: float
    mass_g: float


@dataclass(frozen=True, slots=True)
class Stay:
    """A place where packs were kept before the last one, until the day they left it."""

    at_c: float
    until: datetime.date


# What packs are counted with whose place nobody told: a room.
UNTOLD_KEPT_AT_C = 20.0


@dataclass(frozen=True, slots=True)
class Batch:
    """A drying run that was done or is planned, or something bought dried."""

    id: str
    method: Method
    food: str | None = None
    recipe: str | None = None
    done: datetime.date | None = None
    planned: datetime.date | None = None
    fresh_g: float | None = None
    dried_g: float | None = None
    packs: Packs | None = None
    kept_at_c: float = UNTOLD_KEPT_AT_C  # in the last place
    kept_at_told: bool = False  # whether somebody wrote down how warm that is
    stays: tuple[Stay, ...] = ()  # the places before it, in order
    used: int = 0
    heated: Heated | None = None
    jerky: bool = False
    tests: frozenset[DryTest] = frozenset()
    started: datetime.datetime | None = None
    run: str = ""  # what shared the dryer bears the same name
    ice_g: float | None = None  # that a freeze dryer drew out, weighed
    best_before: datetime.date | None = None
    weighings: tuple[Weighing, ...] = ()
    loaded_at_c: float | None = None  # how cold the load went into the freeze dryer
    dryer: str | None = None  # the id of what it was dried in
    notes: str = ""
    picture: Picture | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)

    @property
    def holds(self) -> str:
        """The id of the food or recipe that was dried."""
        return self.food or self.recipe or ""

    @property
    def in_dryer(self) -> bool:
        """Whether its run has begun and not ended."""
        return self.started is not None and self.done is None

    @property
    def is_bought(self) -> bool:
        """Whether somebody else dried it."""
        return self.method == "bought"

    @property
    def is_planned(self) -> bool:
        """Whether it is still to be dried, or not out of the dryer yet."""
        return self.done is None and not self.is_bought

    @property
    def pack_count(self) -> int:
        """How many packs were made; a batch kept loose counts as one."""
        return self.packs.count if self.packs else counted(1, "packs")
