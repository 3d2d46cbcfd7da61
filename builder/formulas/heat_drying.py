"""How warm, how long and how thick food is dried in warm air, and what goes before and after."""

from __future__ import annotations

from builder.formulas.ranges import require, require_known

# Each row: least, most, and the source of both.
Row = tuple[float, float, str]

# Air in the dryer [degC], by what lies in it.
AIR_C: dict[str, Row] = {
    "fruit": (54.4, 60.0, "nchfp-packaging"),
    "vegetable": (54.4, 60.0, "nchfp-packaging"),
    "herb": (35.0, 46.1, "psu-herbs"),
    "jerky": (54.4, 60.0, "fsis-jerky"),
    "cooked-meat": (60.0, 70.0, "common-practice"),
    "legume": (54.4, 60.0, "common-practice"),
    "grain": (54.4, 60.0, "common-practice"),
    "meal": (54.4, 60.0, "common-practice"),
}

# Thickness of slices, dice or a spread layer [mm]; what has none goes on in one layer.
PIECES_MM: dict[str, Row] = {
    "fruit": (3.0, 6.0, "common-practice"),
    "vegetable": (3.0, 6.0, "common-practice"),
    "jerky": (3.0, 6.0, "nchfp-jerky"),
    "cooked-meat": (3.0, 6.0, "common-practice"),
    "meal": (3.0, 6.0, "common-practice"),
}

# Hours in warm air for such pieces: first by the food, else by its kind [h].
HOURS: dict[str, Row] = {
    "apple": (6.0, 12.0, "uga-drying-hours"),
    "apricot": (24.0, 36.0, "uga-drying-hours"),
    "banana": (8.0, 16.0, "uga-drying-hours"),
    "peach": (6.0, 12.0, "uga-drying-hours"),
    "pear": (24.0, 36.0, "uga-drying-hours"),
    "broccoli": (12.0, 15.0, "uga-drying-hours"),
    "cabbage": (10.0, 12.0, "uga-drying-hours"),
    "carrot": (6.0, 10.0, "uga-drying-hours"),
    "celery": (10.0, 16.0, "uga-drying-hours"),
    "courgette": (10.0, 12.0, "uga-drying-hours"),
    "garlic": (6.0, 8.0, "uga-drying-hours"),
    "green-bean": (8.0, 14.0, "uga-drying-hours"),
    "leaf-vegetable": (8.0, 10.0, "uga-drying-hours"),
    "mushroom": (8.0, 10.0, "uga-drying-hours"),
    "onion": (3.0, 10.0, "uga-drying-hours"),
    "pea": (8.0, 10.0, "uga-drying-hours"),
    "pepper": (8.0, 12.0, "uga-drying-hours"),
    "potato": (8.0, 12.0, "uga-drying-hours"),
    "sweetcorn": (6.0, 10.0, "uga-drying-hours"),
    "tomato": (10.0, 18.0, "uga-drying-hours"),
}
KIND_HOURS: dict[str, Row] = {
    "fruit": (6.0, 36.0, "uga-drying-hours"),
    "vegetable": (6.0, 16.0, "msu-drying-vegetables"),
    "herb": (1.0, 4.0, "uga-drying-hours"),
    "jerky": (4.0, 10.0, "common-practice"),
    "cooked-meat": (6.0, 12.0, "common-practice"),
    "legume": (6.0, 10.0, "common-practice"),
    "grain": (6.0, 10.0, "common-practice"),
    "meal": (6.0, 14.0, "common-practice"),
}

# Halves lie longer than slices; the hours of these are for halves.
IN_HALVES = frozenset({"apricot", "pear"})
# Small enough as they grow.
WHOLE = frozenset({"pea", "sweetcorn", "leaf-vegetable"})

# Minutes of blanching in steam and in boiling water.
STEAM_MIN: dict[str, Row] = {
    "broccoli": (3.0, 3.5, "nchfp-drying-vegetables"),
    "cabbage": (2.5, 3.0, "nchfp-drying-vegetables"),
    "carrot": (3.0, 4.0, "extension-blanching"),
    "celery": (2.0, 2.0, "nchfp-drying-vegetables"),
    "courgette": (2.5, 3.0, "nchfp-drying-vegetables"),
    "green-bean": (4.0, 6.0, "extension-blanching"),
    "leaf-vegetable": (2.0, 2.5, "nchfp-drying-vegetables"),
    "pea": (3.0, 3.0, "extension-blanching"),
    "potato": (6.0, 8.0, "nchfp-drying-vegetables"),
    "sweetcorn": (3.0, 3.0, "extension-blanching"),
}
BOIL_MIN: dict[str, Row] = {
    "broccoli": (2.0, 2.0, "nchfp-drying-vegetables"),
    "cabbage": (1.5, 2.0, "nchfp-drying-vegetables"),
    "carrot": (3.0, 3.5, "extension-blanching"),
    "celery": (1.0, 2.0, "extension-blanching"),
    "courgette": (1.5, 1.5, "nchfp-drying-vegetables"),
    "green-bean": (3.0, 4.0, "extension-blanching"),
    "leaf-vegetable": (1.5, 1.5, "nchfp-drying-vegetables"),
    "pea": (2.0, 2.0, "extension-blanching"),
    "potato": (5.0, 6.0, "nchfp-drying-vegetables"),
}
# Onion, mushroom, pepper, tomato: an extension chart (read in a copy); garlic goes with onion.
NOT_BLANCHED = frozenset({"garlic", "mushroom", "onion", "pepper", "tomato"})
# Water boils colder up high (Colorado State University Extension, from memory).
BLANCH_LONGER_ABOVE_M = 1524.0
BLANCH_LONGER_MIN = 1.0

# Afterwards: fruit evens out in a jar, and what lay in the sun is made free of insects.
CONDITIONING_DAYS = (7.0, 10.0)
FREEZING_C = -18.0
FREEZING_H = 48.0
PASTEURISING_C = 71.1
PASTEURISING_MIN = 30.0

# Or jerky dried warmer, then heated in the oven (University of Minnesota Extension, 145 to
# 155 degF and 275 degF, read in a copy).
JERKY_WARM_AIR_C = (62.8, 68.3)
JERKY_OVEN_C = 135.0
JERKY_OVEN_MIN = 10.0

# Sun: days at least this warm and drier than this (University of Georgia and Virginia
# extension, read in copies).
SUN_AIR_C = 30.0
SUN_HUMIDITY_SHARE = 0.60


def air_range_c(kind: str) -> tuple[float, float]:
    """How warm the air of a dryer is set.

    Parameters
    ----------
    kind : str
        A key of AIR_C.

    Returns
    -------
    tuple of float
        Least and most temperature. [degC]

    Raises
    ------
    ValueError
        If the kind is not known.

    References
    ----------
    .. [nchfp-packaging] National Center for Home Food Preservation, 130 to 140 degF
       (read in a copy).
    .. [psu-herbs] Penn State Extension, herbs at 95 to 115 degF (read in a copy).
    .. [fsis-jerky] USDA FSIS, jerky at 130 to 140 degF once it was heated (read in a copy).
    .. [common-practice] Common practice, no source, for all that was cooked before.
    """
    require_known("kind to dry", kind, AIR_C)
    return AIR_C[kind][:2]


def pieces_range_mm(kind: str) -> tuple[float, float]:
    """How thick pieces or a spread layer are.

    Parameters
    ----------
    kind : str
        A key of PIECES_MM.

    Returns
    -------
    tuple of float
        Least and most thickness. [mm]

    Raises
    ------
    ValueError
        If the kind is not known.

    References
    ----------
    .. [nchfp-jerky] National Center for Home Food Preservation, jerky at most a quarter inch
       (quoted from memory).
    .. [common-practice] Common practice, no source, for all else.
    """
    require_known("kind to cut", kind, PIECES_MM)
    return PIECES_MM[kind][:2]


def hours_range(kind: str, dry_as: str | None = None) -> tuple[float, float]:
    """Hours that food takes in warm air.

    Parameters
    ----------
    kind : str
        A key of KIND_HOURS, taken where nothing is known of the food itself.
    dry_as : str or None
        A key of HOURS; a name that has no row counts as None.

    Returns
    -------
    tuple of float
        Fewest and most hours, by the air outside, the load and the pieces. [h]

    Raises
    ------
    ValueError
        If the kind is not known.

    References
    ----------
    .. [uga-drying-hours] University of Georgia, So Easy to Preserve, drying tables
       (quoted from memory).
    .. [msu-drying-vegetables] Michigan State University Extension, vegetables 6 to 16 h
       (read in a copy).
    .. [common-practice] Common practice, no source, for cooked food and jerky.
    """
    require_known("kind to dry", kind, KIND_HOURS)
    return HOURS.get(dry_as or "", KIND_HOURS[kind])[:2]


def blanching_range_min(dry_as: str, way: str, altitude_m: float = 0.0) -> tuple[float, float]:
    """Minutes that a vegetable is blanched before it is dried.

    Parameters
    ----------
    dry_as : str
        A key of STEAM_MIN or BOIL_MIN.
    way : str
        steam or boil.
    altitude_m : float
        Altitude of the kitchen. [m], -500 to 9000

    Returns
    -------
    tuple of float
        Fewest and most minutes, one more above 1524 m. [min]

    Raises
    ------
    ValueError
        If the vegetable or the way is not known, or the altitude is outside its range.

    References
    ----------
    .. [extension-blanching] Blanching chart of an extension service (read in a copy).
    .. [nchfp-drying-vegetables] National Center for Home Food Preservation, Drying
       Vegetables (quoted from memory).
    .. [csu-drying-vegetables] Colorado State University Extension, a minute more above
       5000 ft (quoted from memory).
    """
    require_known("way to blanch", way, ("steam", "boil"))
    table = STEAM_MIN if way == "steam" else BOIL_MIN
    require_known(f"vegetable to {way}", dry_as, table)
    require("altitude", altitude_m, "m", -500.0, 9000.0)
    more = BLANCH_LONGER_MIN if altitude_m > BLANCH_LONGER_ABOVE_M else 0.0
    fewest, most, _ = table[dry_as]
    return fewest + more, most + more


def sun_dries(kind: str, air_c: float, humidity_share: float) -> bool:
    """Whether a day is warm and dry enough to dry food in the sun.

    Parameters
    ----------
    kind : str
        Kind of the food; only fruit is dried in the sun.
    air_c : float
        Warmest air of the day. [degC], -90 to 60
    humidity_share : float
        Humidity of that air. [share], 0 to 1

    Returns
    -------
    bool
        Whether it is fruit, 30 degC or warmer, under 60 percent of humidity.

    Raises
    ------
    ValueError
        If a value is outside its range.

    References
    ----------
    .. [uga-drying] University of Georgia, 86 degF; no vegetables or meat in the sun
       (read in a copy).
    .. [vce-sun] Virginia Cooperative Extension, 348-597, 1999: under 60 percent
       (read in a copy).
    """
    require("air temperature", air_c, "°C", -90.0, 60.0)
    require("humidity", humidity_share, "", 0.0, 1.0)
    return kind == "fruit" and air_c >= SUN_AIR_C and humidity_share < SUN_HUMIDITY_SHARE
