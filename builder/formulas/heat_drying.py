"""How warm, how long and how thick food is dried in warm air, and what goes before and after."""

from __future__ import annotations

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
