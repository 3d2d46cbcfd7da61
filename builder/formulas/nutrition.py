"""Energy and salt from what a food is made of."""

from __future__ import annotations

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require

# General factors, FAO Food and Nutrition Paper 77, table 3.1 (quoted from memory).
PROTEIN_KCAL_G = 4.0
FAT_KCAL_G = 9.0
CARBOHYDRATE_KCAL_G = 4.0
FIBRE_KCAL_G = 2.0
ALCOHOL_KCAL_G = 7.0

# Regulation (EU) No 1169/2011, Annex XIV (read in a copy).
LABEL_PROTEIN_KJ_G = 17.0
LABEL_FAT_KJ_G = 37.0
LABEL_CARBOHYDRATE_KJ_G = 17.0
LABEL_FIBRE_KJ_G = 8.0
LABEL_ALCOHOL_KJ_G = 29.0
LABEL_PROTEIN_KCAL_G = 4.0
LABEL_FAT_KCAL_G = 9.0
LABEL_CARBOHYDRATE_KCAL_G = 4.0
LABEL_FIBRE_KCAL_G = 2.0
LABEL_ALCOHOL_KCAL_G = 7.0

# Same regulation, Annex I: salt is sodium times 2.5.
SALT_PER_SODIUM = 2.5

_MG_PER_G = 1000.0


@declared(
    "protein_kcal_g * protein_g + fat_kcal_g * fat_g + carbohydrate_kcal_g "
    "* (carbohydrate_g - fibre_g) + fibre_kcal_g * fibre_g + alcohol_kcal_g * alcohol_g",
    {
        "protein_kcal_g": Constant(PROTEIN_KCAL_G, "fao77"),
        "fat_kcal_g": Constant(FAT_KCAL_G, "fao77"),
        "carbohydrate_kcal_g": Constant(CARBOHYDRATE_KCAL_G, "fao77"),
        "fibre_kcal_g": Constant(FIBRE_KCAL_G, "fao77"),
        "alcohol_kcal_g": Constant(ALCOHOL_KCAL_G, "fao77"),
    },
)
def energy_kcal(
    protein_g: float,
    fat_g: float,
    carbohydrate_g: float,
    fibre_g: float,
    alcohol_g: float = 0.0,
) -> float:
    """Energy of a food by the general Atwater factors.

    Parameters
    ----------
    protein_g : float
        Protein. [g], 0 or more
    fat_g : float
        Fat. [g], 0 or more
    carbohydrate_g : float
        Total carbohydrate, fibre included. [g], 0 or more
    fibre_g : float
        Fibre. [g], 0 to carbohydrate_g
    alcohol_g : float
        Alcohol. [g], 0 or more

    Returns
    -------
    float
        Energy. [kcal]

    Raises
    ------
    ValueError
        If a mass is negative, or there is more fibre than carbohydrate.

    Notes
    -----
    4 protein + 9 fat + 4 (carbohydrate - fibre) + 2 fibre + 7 alcohol.

    References
    ----------
    .. [fao77] FAO Food and Nutrition Paper 77, 2003, table 3.1 (quoted from memory).
    """
    _require_parts(protein_g, fat_g, carbohydrate_g, fibre_g, alcohol_g)
    return (
        PROTEIN_KCAL_G * protein_g
        + FAT_KCAL_G * fat_g
        + CARBOHYDRATE_KCAL_G * (carbohydrate_g - fibre_g)
        + FIBRE_KCAL_G * fibre_g
        + ALCOHOL_KCAL_G * alcohol_g
    )


@declared(
    "protein_kj_g * protein_g + fat_kj_g * fat_g + carbohydrate_kj_g "
    "* (carbohydrate_g - fibre_g) + fibre_kj_g * fibre_g + alcohol_kj_g * alcohol_g",
    {
        "protein_kj_g": Constant(LABEL_PROTEIN_KJ_G, "eu-1169-2011"),
        "fat_kj_g": Constant(LABEL_FAT_KJ_G, "eu-1169-2011"),
        "carbohydrate_kj_g": Constant(LABEL_CARBOHYDRATE_KJ_G, "eu-1169-2011"),
        "fibre_kj_g": Constant(LABEL_FIBRE_KJ_G, "eu-1169-2011"),
        "alcohol_kj_g": Constant(LABEL_ALCOHOL_KJ_G, "eu-1169-2011"),
    },
)
def label_energy_kj(
    protein_g: float,
    fat_g: float,
    carbohydrate_g: float,
    fibre_g: float,
    alcohol_g: float = 0.0,
) -> float:
    """Energy of a food in kilojoules as an EU label gives it.

    Parameters
    ----------
    protein_g : float
        Protein. [g], 0 or more
    fat_g : float
        Fat. [g], 0 or more
    carbohydrate_g : float
        Total carbohydrate, fibre included (a label's own excludes it). [g], 0 or more
    fibre_g : float
        Fibre. [g], 0 to carbohydrate_g
    alcohol_g : float
        Alcohol. [g], 0 or more

    Returns
    -------
    float
        Energy. [kJ]

    Raises
    ------
    ValueError
        If a mass is negative, or there is more fibre than carbohydrate.

    Notes
    -----
    17 protein + 37 fat + 17 (carbohydrate - fibre) + 8 fibre + 29 alcohol; not 4.184 times
    the label's kilocalories, which have factors of their own.

    References
    ----------
    .. [eu-1169-2011] Regulation (EU) No 1169/2011, Annex XIV (read in a copy).
    """
    _require_parts(protein_g, fat_g, carbohydrate_g, fibre_g, alcohol_g)
    return (
        LABEL_PROTEIN_KJ_G * protein_g
        + LABEL_FAT_KJ_G * fat_g
        + LABEL_CARBOHYDRATE_KJ_G * (carbohydrate_g - fibre_g)
        + LABEL_FIBRE_KJ_G * fibre_g
        + LABEL_ALCOHOL_KJ_G * alcohol_g
    )


@declared(
    "protein_kcal_g * protein_g + fat_kcal_g * fat_g + carbohydrate_kcal_g "
    "* (carbohydrate_g - fibre_g) + fibre_kcal_g * fibre_g + alcohol_kcal_g * alcohol_g",
    {
        "protein_kcal_g": Constant(LABEL_PROTEIN_KCAL_G, "eu-1169-2011"),
        "fat_kcal_g": Constant(LABEL_FAT_KCAL_G, "eu-1169-2011"),
        "carbohydrate_kcal_g": Constant(LABEL_CARBOHYDRATE_KCAL_G, "eu-1169-2011"),
        "fibre_kcal_g": Constant(LABEL_FIBRE_KCAL_G, "eu-1169-2011"),
        "alcohol_kcal_g": Constant(LABEL_ALCOHOL_KCAL_G, "eu-1169-2011"),
    },
)
def label_energy_kcal(
    protein_g: float,
    fat_g: float,
    carbohydrate_g: float,
    fibre_g: float,
    alcohol_g: float = 0.0,
) -> float:
    """Energy of a food in kilocalories as an EU label gives it.

    Parameters
    ----------
    protein_g : float
        Protein. [g], 0 or more
    fat_g : float
        Fat. [g], 0 or more
    carbohydrate_g : float
        Total carbohydrate, fibre included (a label's own excludes it). [g], 0 or more
    fibre_g : float
        Fibre. [g], 0 to carbohydrate_g
    alcohol_g : float
        Alcohol. [g], 0 or more

    Returns
    -------
    float
        Energy. [kcal]

    Raises
    ------
    ValueError
        If a mass is negative, or there is more fibre than carbohydrate.

    Notes
    -----
    4 protein + 9 fat + 4 (carbohydrate - fibre) + 2 fibre + 7 alcohol.

    References
    ----------
    .. [eu-1169-2011] Regulation (EU) No 1169/2011, Annex XIV (read in a copy).
    """
    _require_parts(protein_g, fat_g, carbohydrate_g, fibre_g, alcohol_g)
    return (
        LABEL_PROTEIN_KCAL_G * protein_g
        + LABEL_FAT_KCAL_G * fat_g
        + LABEL_CARBOHYDRATE_KCAL_G * (carbohydrate_g - fibre_g)
        + LABEL_FIBRE_KCAL_G * fibre_g
        + LABEL_ALCOHOL_KCAL_G * alcohol_g
    )


@declared(
    "per_sodium * sodium_mg / 1000", {"per_sodium": Constant(SALT_PER_SODIUM, "eu-1169-2011")}
)
def salt_g(sodium_mg: float) -> float:
    """Salt that a label names for an amount of sodium.

    Parameters
    ----------
    sodium_mg : float
        Sodium. [mg], 0 or more

    Returns
    -------
    float
        Salt. [g]

    Raises
    ------
    ValueError
        If the mass is negative.

    Notes
    -----
    2.5 sodium / 1000.

    References
    ----------
    .. [eu-1169-2011] Regulation (EU) No 1169/2011, Annex I (read in a copy).
    """
    require("sodium", sodium_mg, "mg", 0.0)
    return SALT_PER_SODIUM * sodium_mg / _MG_PER_G


def _require_parts(
    protein_g: float, fat_g: float, carbohydrate_g: float, fibre_g: float, alcohol_g: float
) -> None:
    """Raise ValueError unless the parts can be those of a food."""
    for what, part_g in (
        ("protein", protein_g),
        ("fat", fat_g),
        ("carbohydrate", carbohydrate_g),
        ("fibre", fibre_g),
        ("alcohol", alcohol_g),
    ):
        require(what, part_g, "g", 0.0)
    if fibre_g > carbohydrate_g:
        raise ValueError(
            f"fibre is {fibre_g:.10g} g; it is part of the total carbohydrate, "
            f"which is {carbohydrate_g:.10g} g"
        )
