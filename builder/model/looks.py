"""A second look at the plan: labels, protein and salt, other methods, standing pots, sweat."""

from __future__ import annotations

from dataclasses import dataclass


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
    density_kcal_g: float = 0.0  # of all food
    bags_swell_times: float = 1.0  # air closed in at sea level, at the highest camp
