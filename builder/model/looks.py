"""Second looks at the plan, by other methods; each hangs on the step, meal or day it is of."""

from __future__ import annotations

from typing import Literal

from builder.model.batch import Method
from builder.record import dataclass

Span = tuple[float, float]  # least and most
Form = Literal["slices", "halves", "whole", "layer", "single"]  # as food lies in a dryer
NeedsMoreFor = Literal["cold", "height"]


@dataclass(frozen=True, slots=True)
class MealLabel:
    """What 100 g as carried hold, as the EU prints it, and a portion's calories as the US does."""

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

    energy_kcal: float
    protein_g: float
    protein_need_g: float
    protein_active_g: tuple[float, float]
    salt_g: float


@dataclass(frozen=True, slots=True)
class EnergyLook:
    """One person's mean day by published methods that do not agree."""

    kcal_by_source: tuple[tuple[str, float], ...]
    spread_share: float  # highest less lowest, over their mean


@dataclass(frozen=True, slots=True)
class KeepsHot:
    """How hot a boiled pot still is after a rest; (least, likely, most) each time."""

    bare_c: tuple[float, float, float]
    cosy_c: tuple[float, float, float]
    bare_above_60_min: float
    cosy_above_60_min: float


@dataclass(frozen=True, slots=True)
class Treating:
    """What making a day's water safe takes."""

    drops_per_litre: int  # of plain bleach with 5 to 6 % available chlorine
    cold: bool
    contact_min: float
    boil_min: float
    strict_boil_min: float


@dataclass(frozen=True, slots=True)
class Sweating:
    """Published sweat rates of one person on the way, in dry and in damp air."""

    dry_ml_h: float
    damp_ml_h: float


@dataclass(frozen=True, slots=True)
class SnowWork:
    """How much snow a day's water takes, from firm to fluffy."""

    firm_l: float
    fluffy_l: float
    potfuls_firm: int
    potfuls_fluffy: int


@dataclass(frozen=True, slots=True)
class PackOxygen:
    """The oxygen in one pack of a batch, and the absorber that takes it up."""

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

    dryer: str
    of_limit: float  # above 1 is too much
    listed_hours: float
    layer_mm: float | None  # on the trays of a freeze dryer, where the food tells its density
    ice_gone_h: Span | None  # until a slab so thick is without ice, in a laboratory
    freezing_kwh: float | None  # that the machine takes out of a load which went in warm


@dataclass(frozen=True, slots=True)
class Soaking:
    """How long the food of a soak step usually takes, and how long it may stand wet."""

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

    can_kpa: float  # of a full can
    wanted_kpa: float
    usable_share: float
    fuel: str  # id


@dataclass(frozen=True, slots=True)
class IronHeat:
    """How long embers heat the irons of a meal, and what a first press in cold ones takes."""

    heats_min: Span
    cold_press_min: Span


@dataclass(frozen=True, slots=True)
class UnderPressure:
    """What a simmer with the lid on takes in a pressure cooker, instead of its planned minutes."""

    boils_c: float
    minutes: float
    likely_min: Span


@dataclass(frozen=True, slots=True)
class NeedMore:
    """Energy that a person may need on top of the plan, on each of some days."""

    why: NeedsMoreFor
    days: int
    kcal: Span
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Light:
    """From when to when the sun is up, in minutes of the local day; None where it stays."""

    rises_min: float | None
    sets_min: float | None
    is_up_at_noon: bool
