"""Energy and salt against a label regulation and a food table."""

from __future__ import annotations

import pytest

from builder.formulas.nutrition import (
    energy_kcal,
    label_energy_kcal,
    label_energy_kj,
    salt_g,
)
from builder.model.food import ALLERGENS

from .published import Published, check, published

# Food, NDB number, then protein, fat, total carbohydrate, fibre and alcohol of 100 g (USDA
# SR28), and the label's kJ and kcal that follow from Annex XIV, one decimal.
_FOODS: tuple[tuple[str, tuple[float, float, float, float, float], float, float], ...] = (
    ("09003, apples", (0.26, 0.17, 13.81, 2.4, 0.0), 223.9, 53.0),
    ("09011, dried apples", (0.93, 0.32, 65.89, 8.7, 0.0), 1069.5, 252.8),
    ("11124, carrots", (0.93, 0.24, 9.58, 2.8, 0.0), 162.3, 38.6),
    ("11683, dried carrots", (8.10, 1.49, 79.57, 23.6, 0.0), 1333.1, 316.9),
    ("16069, lentils", (24.63, 1.06, 63.35, 10.7, 0.0), 1438.6, 340.1),
    ("20044, rice", (7.13, 0.66, 79.95, 1.3, 0.0), 1493.1, 351.7),
    ("08120, oats", (13.15, 6.52, 67.70, 10.1, 0.0), 1524.8, 361.9),
    ("01077, milk", (3.15, 3.25, 4.80, 0.0, 0.0), 255.4, 61.0),
    ("01091, skimmed milk powder", (36.16, 0.77, 51.98, 0.0, 0.0), 1526.9, 359.5),
    ("01123, egg", (12.56, 9.51, 0.72, 0.0, 0.0), 577.6, 138.7),
    ("12061, almonds", (21.15, 49.93, 21.55, 12.5, 0.0), 2460.8, 595.2),
    ("01009, cheddar", (22.87, 33.31, 3.09, 0.0, 0.0), 1673.8, 403.6),
    ("14084, wine", (0.07, 0.00, 2.72, 0.0, 10.4), 349.0, 84.0),
    ("19335, sugar", (0.0, 0.0, 99.98, 0.0, 0.0), 1699.7, 399.9),
    ("04053, olive oil", (0.0, 100.0, 0.0, 0.0, 0.0), 3700.0, 900.0),
    ("16098, peanut butter", (22.21, 51.36, 22.31, 5.0, 0.0), 2612.2, 630.3),
)


@published(
    *(
        Published(parts, kj, 0.06, "kJ", "eu-1169-2011", f"Annex XIV, NDB {food}, kJ", "copy")
        for food, parts, kj, _ in _FOODS
    )
)
def test_label_kilojoules(row: Published) -> None:
    check(row, label_energy_kj)


@published(
    *(
        Published(parts, kcal, 0.06, "kcal", "eu-1169-2011", f"Annex XIV, NDB {food}, kcal", "copy")
        for food, parts, _, kcal in _FOODS
    )
)
def test_label_kilocalories(row: Published) -> None:
    check(row, label_energy_kcal)


@published(
    *(
        Published(parts, kcal, 0.06, "kcal", "fao77", f"general factors, NDB {food}", "memory")
        for food, parts, _, kcal in _FOODS
    )
)
def test_general_factors_are_those_of_the_label(row: Published) -> None:
    check(row, energy_kcal)


def test_fibre_counted_twice_would_be_seen() -> None:
    """Total carbohydrate holds the fibre: the apple with it added once more gives 264.7 kJ."""
    once_kj = label_energy_kj(0.26, 0.17, 13.81, 2.4)
    twice_kj = label_energy_kj(0.26, 0.17, 13.81 + 2.4, 2.4)
    assert once_kj == pytest.approx(223.9, abs=0.06)
    assert twice_kj == pytest.approx(264.7, abs=0.06)


# Salt has two decimals on a label.
@published(
    Published((107.0,), 0.27, 0.005, "g", "eu-1169-2011", "Annex I, sodium 107 mg", "copy"),
    Published((2081.0,), 5.20, 0.005, "g", "eu-1169-2011", "Annex I, sodium 2081 mg", "copy"),
    Published((38758.0,), 96.9, 0.05, "g", "eu-1169-2011", "Annex I, sodium 38758 mg", "copy"),
)
def test_salt(row: Published) -> None:
    check(row, salt_g)


def test_the_allergens_are_the_fourteen_of_annex_ii() -> None:
    """Regulation (EU) No 1169/2011, Annex II (read in a copy)."""
    assert len(ALLERGENS) == len(set(ALLERGENS)) == 14
    assert set(ALLERGENS) == {
        "cereals-gluten",
        "crustaceans",
        "eggs",
        "fish",
        "peanuts",
        "soybeans",
        "milk",
        "nuts",
        "celery",
        "mustard",
        "sesame",
        "sulphites",
        "lupin",
        "molluscs",
    }


def test_the_nine_of_the_united_states_all_have_a_name_here() -> None:
    """FALCPA 2004 and FASTER Act 2021 (read in notices); wheat is one of the cereals."""
    ours = {
        "milk": "milk",
        "eggs": "eggs",
        "fish": "fish",
        "crustacean shellfish": "crustaceans",
        "tree nuts": "nuts",
        "peanuts": "peanuts",
        "wheat": "cereals-gluten",
        "soybeans": "soybeans",
        "sesame": "sesame",
    }
    assert len(ours) == 9
    assert set(ours.values()) <= set(ALLERGENS)
    assert set(ALLERGENS) - set(ours.values()) == {
        "celery",
        "mustard",
        "lupin",
        "molluscs",
        "sulphites",
    }
