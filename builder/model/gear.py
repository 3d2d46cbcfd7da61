"""Stoves, fuels, pots, irons, packaging, dryers and sheets of labels."""

from __future__ import annotations

from typing import Literal, get_args

from builder.model.batch import Method
from builder.model.place import Places
from builder.record import dataclass, field

FuelKind = Literal["gas", "liquid", "alcohol", "solid"]
Material = Literal["aluminium", "steel", "titanium", "cast-iron", "copper", "enamel"]
Barrier = Literal["foil", "glass", "can", "vacuum-bag", "zip-bag", "paper"]
Page = Literal["a4", "letter"]  # the papers that sheets of labels are cut from

FUEL_KINDS: tuple[str, ...] = get_args(FuelKind)
MATERIALS: tuple[str, ...] = get_args(Material)
BARRIERS: tuple[str, ...] = get_args(Barrier)
PAGES: tuple[str, ...] = get_args(Page)
GASES: tuple[str, ...] = ("propane", "isobutane", "butane")

LOOSE_PACKAGING = "zip-bag"  # all food of a meal that has no packs goes in one of these


@dataclass(frozen=True, slots=True)
class StoveTest:
    """What one's own stove took to bring water to the boil."""

    boiled_ml: float
    from_c: float
    fuel_g: float
    altitude_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Stove:
    """A burner."""

    id: str
    name: str
    burns: str
    power_w: float
    efficiency_share: float | None  # None where only a test of one's own tells it
    mass_g: float
    lowest_w: float = 0.0
    liquid_feed: bool = False
    test: StoveTest | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Container:
    """A size in which a fuel is sold or carried."""

    holds_g: float
    empty_g: float


@dataclass(frozen=True, slots=True)
class Fuel:
    """What a stove burns; `mix` gives the mass share of each gas."""

    id: str
    name: str
    kind: FuelKind
    energy_mj_kg: float
    containers: tuple[Container, ...] = ()
    mix: tuple[tuple[str, float], ...] = ()
    lights_from_c: float | None = None  # its flash point
    places: Places = field(default_factory=Places, compare=False, repr=False)


# A pot of it with a lid can stand in embers with embers on it.
BAKES_IN: Material = "cast-iron"


@dataclass(frozen=True, slots=True)
class Pot:
    """A pot; `fill_share` is how full it may be.

    `gauge_kpa` is what a pressure cooker holds above the air outside.
    """

    id: str
    name: str
    holds_ml: float
    mass_g: float
    material: Material
    fill_share: float = 0.75
    loss_at_boil_w: float = 100.0
    gauge_kpa: float | None = None
    diameter_cm: float | None = None  # of its bottom
    places: Places = field(default_factory=Places, compare=False, repr=False)

    @property
    def room_ml(self) -> float:
        """What it takes at once."""
        return self.holds_ml * self.fill_share


@dataclass(frozen=True, slots=True)
class Iron:
    """A campfire iron; `presses` is how many fillings it takes at once.

    `face_cm2` is the area of one plate, which the embers heat.
    """

    id: str
    name: str
    mass_g: float
    presses: int = 1
    material: Material = "cast-iron"
    face_cm2: float | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Packaging:
    """What one pack is packed in."""

    id: str
    name: str
    mass_g: float
    barrier: Barrier
    holds_ml: float | None = None
    price: float | None = None  # of one, in the home's currency
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Dryer:
    """What dries at home, with what it takes at once."""

    id: str
    name: str
    method: Method
    load_g: float
    hours: float
    ice_g: float | None = None  # the most water that a freeze dryer takes as ice
    trays_cm2: float | None = None  # all trays together
    from_c: float | None = None  # the lowest it can be set to
    to_c: float | None = None  # the highest
    power_w: float | None = None
    price: float | None = None  # in the home's currency
    lasts_runs: float | None = None
    runs_a_year: float | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A sheet of labels as bare sizes, so that labels print where the sheet is cut."""

    id: str
    page: Page
    columns: int
    rows: int
    width_mm: float
    height_mm: float
    left_mm: float  # from the paper's edge to the first label
    top_mm: float
    across_mm: float = 0.0  # between two labels
    down_mm: float = 0.0
    places: Places = field(default_factory=Places, compare=False, repr=False)
