"""What cooking takes, or eating something as it is."""

from __future__ import annotations

from builder.model.figure import none, nothing
from builder.model.gear import Pot
from builder.model.kit import PlannedStep
from builder.model.trip import Heat
from builder.record import dataclass

NO_WATER: float = nothing("water_ml")
NO_WOOD: float = nothing("wood_g")


@dataclass(frozen=True, slots=True)
class Cooked:
    """What cooking one recipe takes."""

    steps: tuple[PlannedStep, ...]
    water_ml: float
    soak_water_ml: float
    unboiled_water_ml: float
    pot: Pot | None
    potfuls: int
    most_ml: float  # in them all together
    presses: int
    heat_kj: float
    fuel_heat_kj: float
    wood_g: float  # under the pot and for embers
    ember_wood_g: float  # of it, for irons and what is baked
    minutes: float
    embers_min: float  # before anything is pressed or baked, apart from the minutes
    cooked_on: Heat | None
    stove: str | None  # which of the trip's, by its key


# What eating something as it is takes.
NOT_COOKED = Cooked(
    steps=(),
    water_ml=NO_WATER,
    soak_water_ml=NO_WATER,
    unboiled_water_ml=NO_WATER,
    pot=None,
    potfuls=none("potfuls"),
    most_ml=0.0,
    presses=none("presses"),
    heat_kj=nothing("heat_kj"),
    fuel_heat_kj=nothing("heat_kj"),
    wood_g=NO_WOOD,
    ember_wood_g=NO_WOOD,
    minutes=nothing("minutes"),
    embers_min=nothing("ember_min"),
    cooked_on=None,
    stove=None,
)
