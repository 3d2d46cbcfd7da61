"""Drying and soaking against fresh and dried, dry and cooked rows of one food table."""

from __future__ import annotations

import pytest

from builder.formulas.drying import dried_mass_g, rehydration_water_ml, solids_factor

from .published import Published, check, published

# NDB numbers, water in g per 100 g fresh and dried, dried grams of 1000 g fresh.
# The masses follow from the two listed waters and are given to 0.1 g.
_PAIRS: tuple[tuple[str, float, float, float], ...] = (
    ("09003 to 09011, apples", 85.56, 31.76, 211.6),
    ("09003 to 09009, apples", 85.56, 3.0, 148.9),
    ("09021 to 09032, apricots", 86.35, 30.89, 197.5),
    ("09021 to 09030, apricots", 86.35, 7.5, 147.6),
    ("09040 to 09041, bananas", 74.91, 3.0, 258.7),
    ("09236 to 09246, peaches", 88.87, 31.8, 163.2),
    ("09236 to 09244, peaches", 88.87, 7.5, 120.3),
    ("09252 to 09259, pears", 83.96, 26.69, 218.8),
    ("09279 to 09291, plums", 87.23, 30.92, 184.9),
    ("09279 to 09289, plums", 87.23, 4.0, 133.0),
    ("09132 to 09298, grapes", 80.54, 15.43, 230.1),
    ("09089 to 09094, figs", 79.11, 30.05, 298.6),
    ("11124 to 11683, carrots", 88.29, 4.0, 122.0),
    ("11282 to 11284, onions", 89.11, 3.93, 113.4),
    ("11352 to 11378, potatoes", 79.25, 6.58, 222.1),
    ("11529 to 11955, tomatoes", 94.52, 14.56, 64.1),
    ("11333 to 11634, green peppers", 93.89, 2.0, 62.3),
    ("11238 to 11268, shiitake", 89.74, 9.5, 113.4),
    ("11246 to 11624, leeks", 83.0, 2.0, 173.5),
    ("11156 to 11615, chives", 90.65, 2.0, 95.4),
    ("11297 to 11625, parsley", 87.71, 2.0, 125.4),
    ("11215 to 02020, garlic", 58.58, 6.45, 442.8),
    ("02044 to 02003, basil", 92.06, 10.35, 88.6),
    ("01123 to 01133, egg", 76.15, 2.78, 245.3),
    ("01077 to 01212, whole milk", 88.13, 2.47, 121.7),
    ("01085 to 01091, skimmed milk", 90.84, 3.16, 94.6),
    ("16126 to 16128, tofu", 82.93, 5.78, 181.2),
    ("12104 to 12108, coconut", 46.99, 3.0, 546.5),
)


@published(
    *(
        Published(
            (1000.0, fresh / 100, dry / 100), g, 0.06, "g", "usda-sr28", f"NDB {pair}", "copy"
        )
        for pair, fresh, dry, g in _PAIRS
    )
)
def test_a_kilogram_dries_to_what_the_listed_waters_say(row: Published) -> None:
    check(row, dried_mass_g)


def _dried_energy_kcal(fresh_kcal: float, water_share: float, residual_share: float) -> float:
    """Energy of 100 g dried, when the solids are those of the fresh food."""
    return fresh_kcal * solids_factor(water_share, residual_share)


# The dried samples were other samples: 5 percent, so far as one food differs from another.
@published(
    *(
        Published(
            (kcal, fresh / 100, dry / 100),
            dried_kcal,
            0.05 * dried_kcal,
            "kcal",
            "usda-sr28",
            f"NDB {pair}, energy",
            "copy",
        )
        for pair, kcal, fresh, dry, dried_kcal in (
            ("09003 to 09011, apples", 52.0, 85.56, 31.76, 243.0),
            ("09021 to 09032, apricots", 48.0, 86.35, 30.89, 241.0),
            ("09040 to 09041, bananas", 89.0, 74.91, 3.0, 346.0),
            ("09236 to 09246, peaches", 39.0, 88.87, 31.8, 239.0),
            ("09252 to 09259, pears", 57.0, 83.96, 26.69, 262.0),
            ("09132 to 09298, grapes", 69.0, 80.54, 15.43, 299.0),
            ("11124 to 11683, carrots", 41.0, 88.29, 4.0, 341.0),
            ("11282 to 11284, onions", 40.0, 89.11, 3.93, 349.0),
            ("11238 to 11268, shiitake", 34.0, 89.74, 9.5, 296.0),
            ("01123 to 01133, egg", 143.0, 76.15, 2.78, 592.0),
            ("01077 to 01212, whole milk", 61.0, 88.13, 2.47, 496.0),
        )
    )
)
def test_energy_concentrates_as_the_solids_do(row: Published) -> None:
    check(row, _dried_energy_kcal)


# Water taken up by 100 g dry, from the listed waters of the dry and the cooked food; the
# table gives two decimals of g per g, half of the last being 0.5 g.
@published(
    *(
        Published(
            (100.0, cooked / 100, dry / 100), ml, 0.6, "ml", "usda-sr28", f"NDB {pair}", "copy"
        )
        for pair, dry, cooked, ml in (
            ("16014 to 16015, black beans", 11.02, 65.74, 160.0),
            ("16027 to 16028, kidney beans", 11.75, 66.94, 167.0),
            ("16069 to 16070, lentils", 8.26, 69.64, 202.0),
            ("16056 to 16057, chickpeas", 7.68, 60.21, 132.0),
            ("16085 to 16086, split peas", 8.62, 69.49, 200.0),
            ("20044 to 20045, white rice", 11.62, 68.44, 180.0),
            ("20048 to 20049, instant rice", 8.38, 70.34, 209.0),
            ("20036 to 20037, brown rice", 11.80, 70.27, 197.0),
            ("20120 to 20121, pasta", 9.90, 62.13, 138.0),
            ("20028 to 20029, couscous", 8.56, 72.57, 233.0),
            ("20012 to 20013, bulgur", 9.00, 77.76, 309.0),
            ("20035 to 20137, quinoa", 13.28, 71.61, 205.0),
            ("08120 to 08121, oats", 10.84, 83.61, 444.0),
        )
    )
)
def test_dry_food_takes_up_what_the_cooked_row_holds(row: Published) -> None:
    check(row, rehydration_water_ml)


@pytest.mark.parametrize(
    ("cups", "cup_g", "fresh", "dry", "off_share"),
    [
        pytest.param(2.25, 74.0, 0.8829, 0.04, 0.01, id="carrots"),
        pytest.param(2.0, 56.0, 0.8911, 0.0393, 0.09, id="onions"),
        pytest.param(1.5, 86.0, 0.8556, 0.3176, 0.12, id="apples"),
    ],
)
def test_the_cooks_cups_of_water_are_what_drying_took(
    cups: float, cup_g: float, fresh: float, dry: float, off_share: float
) -> None:
    """Extension table of cups of water for a cup of dried food (read in a copy).

    Cup weights are those of USDA SR28; quarter cups of water are a step of 6 to 8 percent
    each side, and some stays in the pot.
    """
    cups_ml = cups * 236.588
    assert rehydration_water_ml(cup_g, fresh, dry) == pytest.approx(cups_ml, rel=off_share)
