"""A second look at the plan: labels, protein and salt, other methods, standing pots, sweat."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.model.batch import Method

Span = tuple[float, float]  # least and most
Form = Literal["slices", "halves", "whole", "layer", "single"]  # as food lies in a dryer
NeedsMoreFor = Literal["cold", "height"]


@dataclass(frozen=True, slots=True)
class MealLabel:
    """What 100 g as carried hold, as the EU prints it, and a portion's calories as the US does."""

    day: int
    meal: str
    title: str
    portion_g: float
    energy_kj: int
    energy_kcal: int
    fat_g: float
    carbohydrate_g: float  # without fibre, as the EU defines it
    fibre_g: float
    protein_g: float
    salt_g: float
    us_calories: int
    us_sodium_mg: int
    density_kcal_g: float
    only_energy: bool = False  # the packet tells no more, so all else is 0


@dataclass(frozen=True, slots=True)
class PersonFood:
    """What one person eats on a mean day, against what bodies need."""

    name: str
    energy_kcal: float
    protein_g: float
    protein_need_g: float
    protein_active_g: tuple[float, float]
    salt_g: float


@dataclass(frozen=True, slots=True)
class EnergyLook:
    """One person's mean day by published methods that do not agree."""

    name: str
    kcal_by_source: tuple[tuple[str, float], ...]
    spread_share: float  # highest less lowest, over their mean


@dataclass(frozen=True, slots=True)
class Standing:
    """How hot food still is after it has stood; (least, likely, most) each time."""

    day: int
    meal: str
    title: str
    minutes: float
    lid: bool
    bare_c: tuple[float, float, float]
    cosy_c: tuple[float, float, float]
    bare_above_60_min: float
    cosy_above_60_min: float


@dataclass(frozen=True, slots=True)
class Treating:
    """What treating a day's water takes."""

    day: int
    how: str
    volume_ml: float
    drops_per_litre: int  # of plain bleach with 5 to 6 % available chlorine
    cold: bool
    contact_min: float
    boil_min: float
    strict_boil_min: float


@dataclass(frozen=True, slots=True)
class Sweating:
    """One person's planned drinking on the way, and published sweat rates in dry and damp air."""

    day: int
    name: str
    planned_ml_h: float
    dry_ml_h: float
    damp_ml_h: float


@dataclass(frozen=True, slots=True)
class SnowWork:
    """How much snow a day's water takes, from firm to fluffy."""

    day: int
    water_ml: float
    firm_l: float
    fluffy_l: float
    potfuls_firm: int
    potfuls_fluffy: int


@dataclass(frozen=True, slots=True)
class PackOxygen:
    """The oxygen in one pack of a batch, and the absorber that takes it up."""

    batch: str
    oxygen_ml: float
    absorber_ml: float


@dataclass(frozen=True, slots=True)
class DryingGuide:
    """How one food of the trip is dried in warm air, by published ranges."""

    name: str
    method: Method
    kind: str  # of the tables: fruit, vegetable, herb, jerky, cooked-meat, legume, grain, meal
    form: Form
    pieces_mm: Span | None
    air_c: Span
    hours: Span
    steam_min: Span | None  # blanching; None where it is not blanched, or nobody tells how long
    boil_min: Span | None
    heat_to_c: float | None  # raw meat, poultry and fish, all through
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DryerLoad:
    """What a load asks of the dryer that its batch names."""

    batch: str
    dryer: str
    of_limit: float  # above 1 is too much
    listed_hours: float
    layer_mm: float | None  # on the trays of a freeze dryer, where the food tells its density
    ice_gone_h: Span | None  # until a slab so thick is without ice, in a laboratory
    freezing_kwh: float | None  # that the machine takes out of a load which went in warm


@dataclass(frozen=True, slots=True)
class Soaking:
    """How long the food of a soak step usually takes, and how long it may stand wet."""

    day: int
    place: int  # of the meal in its day
    step: int
    hot: bool
    slowest: str  # the food that takes longest; "" where nothing is known
    usual_min: Span | None
    uptake_ml: Span | None  # what is usually taken up, and all that is poured
    stands_h: float | None  # None: as long as it stays as cold as it is
    in_bottle: bool  # may begin on the way
    too_long: bool = False  # by its own steps it stands longer than such food may
    overnight: bool = False  # raw plants that are boiled afterwards: no such limit


@dataclass(frozen=True, slots=True)
class ColdGas:
    """What a full can of a camp's gas gives at the coldest, before its pressure is too low."""

    day: int
    air_low_c: float
    can_kpa: float  # of a full can
    wanted_kpa: float
    usable_share: float


@dataclass(frozen=True, slots=True)
class IronHeat:
    """How long embers heat the irons of a meal, and what a first press in cold ones takes."""

    day: int
    place: int
    heats_min: Span
    cold_press_min: Span


@dataclass(frozen=True, slots=True)
class UnderPressure:
    """What a simmer with the lid on takes in a pressure cooker, instead of its planned minutes."""

    day: int
    place: int
    step: int
    boils_c: float
    minutes: float
    likely_min: Span


@dataclass(frozen=True, slots=True)
class NeedMore:
    """Energy that a person may need on top of the plan, on each of some days."""

    name: str
    why: NeedsMoreFor
    days: int
    kcal: Span
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Looks:
    """All second looks of a kit."""

    labels: tuple[MealLabel, ...] = ()
    people: tuple[PersonFood, ...] = ()
    energy: tuple[EnergyLook, ...] = ()
    standing: tuple[Standing, ...] = ()
    treating: tuple[Treating, ...] = ()
    sweating: tuple[Sweating, ...] = ()
    snow: tuple[SnowWork, ...] = ()
    oxygen: tuple[PackOxygen, ...] = ()
    guides: tuple[DryingGuide, ...] = ()
    loads: tuple[DryerLoad, ...] = ()
    soaking: tuple[Soaking, ...] = ()
    cold_gas: tuple[ColdGas, ...] = ()
    irons: tuple[IronHeat, ...] = ()
    pressure: tuple[UnderPressure, ...] = ()
    needs_more: tuple[NeedMore, ...] = ()
    wood_g: Span | None = None  # of the trip, by its species; None where no pot hangs over it
    density_kcal_g: float = 0.0  # of all food
    bags_swell_times: float = 1.0  # air closed in at sea level, at the highest camp
