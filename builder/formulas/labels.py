"""What a food label says, by the rules of the European Union and of the United States."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, declared
from builder.formulas.heat import CEILING_SLACK
from builder.formulas.nutrition import (
    CARBOHYDRATE_KCAL_G,
    FAT_KCAL_G,
    PROTEIN_KCAL_G,
    SALT_PER_SODIUM,
    salt_g,
)
from builder.formulas.ranges import require, require_above

# European Union: at or under this none, from this on by whole steps (read in a copy).
EU_NO_MASS_G = 0.5
EU_WHOLE_FROM_G = 10.0
EU_NO_SALT_G = 0.0125
EU_TENTHS_FROM_G = 1.0
# United States: under this none, up to this by the small step, above it by the large one.
US_NONE_BELOW = 5.0
US_SMALL_STEP, US_LARGE_STEP = 5.0, 10.0
US_SMALL_TO_KCAL, US_SMALL_TO_MG = 50.0, 140.0

_SLACK = {"slack": Constant(CEILING_SLACK, "common-practice")}
_NEAREST = "floor({} + 1 / 2 + slack)"
_US_STEPS = (
    "if({0} < none_below, 0, if({0} <= small_to, floor({0} / small_step + 1 / 2 + slack) "
    "* small_step, floor({0} / large_step + 1 / 2 + slack) * large_step))"
)
_SALT = "per_sodium * sodium_mg / 1000"


@declared(_NEAREST.format("energy"), _SLACK)
def eu_energy(energy: float) -> int:
    """Energy as an EU label rounds it, in kJ or in kcal.

    Parameters
    ----------
    energy : float
        Energy of 100 g, each unit from its own factors. [kJ or kcal], 0 or more

    Returns
    -------
    int
        Whole number. [kJ or kcal]

    Raises
    ------
    ValueError
        If the energy is negative.

    Notes
    -----
    To the nearest 1, halves up.

    References
    ----------
    .. [eu-tolerances-2012] European Commission, 2012, rounding guidelines (read in a copy).
    """
    require("energy", energy, "", 0.0)
    return int(_nearest(energy))


@declared("carbohydrate_g - fibre_g")
def eu_carbohydrate_g(carbohydrate_g: float, fibre_g: float) -> float:
    """Carbohydrate as an EU label means it: without fibre.

    Parameters
    ----------
    carbohydrate_g : float
        Total carbohydrate, fibre included. [g], 0 or more
    fibre_g : float
        Fibre. [g], 0 to carbohydrate_g

    Returns
    -------
    float
        Carbohydrate that the body burns. [g]

    Raises
    ------
    ValueError
        If a mass is negative, or there is more fibre than carbohydrate.

    Notes
    -----
    carbohydrate - fibre.

    References
    ----------
    .. [eu-1169-2011] Regulation (EU) No 1169/2011, Annex I (read in a copy).
    """
    require("carbohydrate", carbohydrate_g, "g", 0.0)
    require("fibre", fibre_g, "g", 0.0, carbohydrate_g)
    return carbohydrate_g - fibre_g


@declared(
    f"if(mass_g <= none_to_g, 0, if(mass_g < whole_from_g, {_NEAREST.format('mass_g * 10')} / 10, "
    f"{_NEAREST.format('mass_g')}))",
    {
        **_SLACK,
        "none_to_g": Constant(EU_NO_MASS_G, "eu-tolerances-2012"),
        "whole_from_g": Constant(EU_WHOLE_FROM_G, "eu-tolerances-2012"),
    },
)
def eu_mass_g(mass_g: float) -> float:
    """Fat, carbohydrate, sugars, protein or fibre as an EU label rounds it.

    Parameters
    ----------
    mass_g : float
        Mass in 100 g. [g], 0 to 100

    Returns
    -------
    float
        Rounded mass; 0 may also be written as less than 0.5. [g]

    Raises
    ------
    ValueError
        If the mass is outside the range above.

    Notes
    -----
    From 10 to the nearest 1, above 0.5 to the nearest 0.1, at or under 0.5 none.

    References
    ----------
    .. [eu-tolerances-2012] European Commission, 2012, rounding guidelines (read in a copy).
    """
    require("mass in 100 g", mass_g, "g", 0.0, 100.0)
    if mass_g <= EU_NO_MASS_G:
        return 0.0
    return _nearest(mass_g * 10.0) / 10.0 if mass_g < EU_WHOLE_FROM_G else _nearest(mass_g)


@declared(
    f"if({_SALT} <= none_to_g, 0, if({_SALT} < tenths_from_g, "
    f"{_NEAREST.format(f'{_SALT} * 100')} / 100, {_NEAREST.format(f'{_SALT} * 10')} / 10))",
    {
        **_SLACK,
        "per_sodium": Constant(SALT_PER_SODIUM, "eu-1169-2011"),
        "none_to_g": Constant(EU_NO_SALT_G, "eu-tolerances-2012"),
        "tenths_from_g": Constant(EU_TENTHS_FROM_G, "eu-tolerances-2012"),
    },
)
def eu_salt_g(sodium_mg: float) -> float:
    """Salt as an EU label gives it, from sodium.

    Parameters
    ----------
    sodium_mg : float
        Sodium in 100 g. [mg], 0 or more

    Returns
    -------
    float
        Rounded salt; 0 may also be written as less than 0.01. [g]

    Raises
    ------
    ValueError
        If the sodium is negative.

    Notes
    -----
    2.5 sodium: from 1 g to the nearest 0.1, above 0.0125 g to the nearest 0.01, else none.

    References
    ----------
    .. [eu-tolerances-2012] European Commission, 2012, rounding guidelines (read in a copy).
    .. [eu-1169-2011] Regulation (EU) No 1169/2011, Annex I (read in a copy).
    """
    salt = salt_g(sodium_mg)
    if salt <= EU_NO_SALT_G:
        return 0.0
    per_g = 100.0 if salt < EU_TENTHS_FROM_G else 10.0
    return _nearest(salt * per_g) / per_g


@declared(
    "protein_kcal_g * protein_g + fat_kcal_g * fat_g + carbohydrate_kcal_g * carbohydrate_g",
    {
        "protein_kcal_g": Constant(PROTEIN_KCAL_G, "cfr-101-9"),
        "fat_kcal_g": Constant(FAT_KCAL_G, "cfr-101-9"),
        "carbohydrate_kcal_g": Constant(CARBOHYDRATE_KCAL_G, "cfr-101-9"),
    },
)
def us_energy_kcal(protein_g: float, fat_g: float, carbohydrate_g: float) -> float:
    """Calories as a US label counts them, before rounding.

    Parameters
    ----------
    protein_g : float
        Protein. [g], 0 or more
    fat_g : float
        Fat. [g], 0 or more
    carbohydrate_g : float
        Total carbohydrate, fibre included. [g], 0 or more

    Returns
    -------
    float
        Energy. [kcal]

    Raises
    ------
    ValueError
        If a mass is negative.

    Notes
    -----
    4 protein + 9 fat + 4 carbohydrate.

    References
    ----------
    .. [cfr-101-9] 21 CFR 101.9 (c)(1)(i)(B), general factors 4, 4 and 9 (quoted from memory).
    """
    for what, mass_g in (("protein", protein_g), ("fat", fat_g), ("carbohydrate", carbohydrate_g)):
        require(what, mass_g, "g", 0.0)
    return PROTEIN_KCAL_G * protein_g + FAT_KCAL_G * fat_g + CARBOHYDRATE_KCAL_G * carbohydrate_g


@declared(
    _US_STEPS.format("energy_kcal"),
    {
        **_SLACK,
        "none_below": Constant(US_NONE_BELOW, "cfr-101-9"),
        "small_to": Constant(US_SMALL_TO_KCAL, "cfr-101-9"),
        "small_step": Constant(US_SMALL_STEP, "cfr-101-9"),
        "large_step": Constant(US_LARGE_STEP, "cfr-101-9"),
    },
)
def us_calories(energy_kcal: float) -> int:
    """Calories as a US label rounds them.

    Parameters
    ----------
    energy_kcal : float
        Energy of a serving. [kcal], 0 or more

    Returns
    -------
    int
        Rounded energy. [kcal]

    Raises
    ------
    ValueError
        If the energy is negative.

    Notes
    -----
    Under 5 none, to 50 the nearest 5, above 50 the nearest 10.

    References
    ----------
    .. [cfr-101-9] 21 CFR 101.9 and Food Labeling Guide, rounding table (read in a copy).
    """
    require("energy", energy_kcal, "kcal", 0.0)
    return int(_us_steps(energy_kcal, US_SMALL_TO_KCAL))


@declared(
    _US_STEPS.format("sodium_mg"),
    {
        **_SLACK,
        "none_below": Constant(US_NONE_BELOW, "cfr-101-9"),
        "small_to": Constant(US_SMALL_TO_MG, "cfr-101-9"),
        "small_step": Constant(US_SMALL_STEP, "cfr-101-9"),
        "large_step": Constant(US_LARGE_STEP, "cfr-101-9"),
    },
)
def us_sodium_mg(sodium_mg: float) -> int:
    """Sodium as a US label rounds it.

    Parameters
    ----------
    sodium_mg : float
        Sodium of a serving. [mg], 0 or more

    Returns
    -------
    int
        Rounded sodium. [mg]

    Raises
    ------
    ValueError
        If the mass is negative.

    Notes
    -----
    Under 5 none, to 140 the nearest 5, above 140 the nearest 10.

    References
    ----------
    .. [cfr-101-9] 21 CFR 101.9 and Food Labeling Guide, rounding table (read in a copy).
    """
    require("sodium", sodium_mg, "mg", 0.0)
    return int(_us_steps(sodium_mg, US_SMALL_TO_MG))


@declared("energy_kcal / mass_g")
def energy_density_kcal_g(energy_kcal: float, mass_g: float) -> float:
    """Energy in each gram of food as carried.

    Parameters
    ----------
    energy_kcal : float
        Energy. [kcal], 0 or more
    mass_g : float
        Mass that is carried. [g], above 0

    Returns
    -------
    float
        Energy density. [kcal/g]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    energy / mass.
    """
    require("energy", energy_kcal, "kcal", 0.0)
    require_above("mass", mass_g, "g", 0.0)
    return energy_kcal / mass_g


def _nearest(value: float) -> float:
    """Nearest whole number, halves up, as people round: not to the even one."""
    return float(math.floor(value + 0.5 + CEILING_SLACK))


def _us_steps(value: float, small_to: float) -> float:
    """Nearest small or large step of a US label."""
    if value < US_NONE_BELOW:
        return 0.0
    step = US_SMALL_STEP if value <= small_to else US_LARGE_STEP
    return _nearest(value / step) * step
