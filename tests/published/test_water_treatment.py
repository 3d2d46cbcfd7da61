"""Treating water against the tables of the agencies."""

from __future__ import annotations

import math

from builder.formulas.treatment import (
    bleach_drops,
    contact_min,
    strict_boil_min,
)

from .published import Published, check, published

_QUART_ML = 946.352946
_GALLON_ML = 3785.411784


# Counted drops.
@published(
    *(
        Published((volume, strength, doubled), drops, 0.1, "drops", source, what, known)
        for volume, strength, doubled, drops, source, what, known in (
            (1000.0, 0.06, False, 2.0, "epa-emergency-disinfection", "6 %, litre", "copy"),
            (_QUART_ML, 0.06, False, 2.0, "epa-emergency-disinfection", "6 %, quart", "copy"),
            (_GALLON_ML, 0.06, False, 8.0, "epa-emergency-disinfection", "6 %, gallon", "copy"),
            (1000.0, 0.0825, False, 2.0, "epa-emergency-disinfection", "8.25 %, litre", "copy"),
            (
                _GALLON_ML,
                0.0825,
                False,
                6.0,
                "epa-emergency-disinfection",
                "8.25 %, gallon",
                "copy",
            ),
            (_QUART_ML, 0.01, False, 10.0, "epa-emergency-disinfection", "1 %, quart", "copy"),
            (_GALLON_ML, 0.01, False, 40.0, "epa-emergency-disinfection", "1 %, gallon", "copy"),
            (_GALLON_ML, 0.06, True, 16.0, "epa-emergency-disinfection", "cloudy, gallon", "copy"),
            (_QUART_ML, 0.06, True, 4.0, "epa-emergency-disinfection", "cloudy, quart", "copy"),
            (_GALLON_ML, 0.0525, True, 16.0, "cdc-backcountry-water", "cloudy, gallon", "copy"),
        )
    )
)
def test_bleach(row: Published) -> None:
    check(row, bleach_drops)


@published(
    Published(("chlorine", 20.0), 30.0, 0.5, "min", "epa-emergency-disinfection", "30 min", "copy"),
    Published(
        ("chlorine-dioxide", 20.0, True),
        240.0,
        0.5,
        "min",
        "common-practice",
        "four hours on labels",
        "memory",
    ),
)
def test_waiting(row: Published) -> None:
    check(row, contact_min)


def test_what_never_kills_cryptosporidium() -> None:
    """Iodine and chlorine are not effective (CDC, read in a copy)."""
    assert contact_min("chlorine", 20.0, cryptosporidium=True) == math.inf
    assert contact_min("iodine", 20.0, cryptosporidium=True) == math.inf


# 5,000 feet, written as 1,000 metres.
@published(
    Published((500.0,), 1.0, 1e-9, "min", "epa-emergency-disinfection", "boil, low", "copy"),
    Published(
        (1524.0,), 3.0, 1e-9, "min", "epa-emergency-disinfection", "boil, 5,000 feet", "copy"
    ),
    Published((1600.0,), 3.0, 1e-9, "min", "epa-emergency-disinfection", "boil, 1600 m", "copy"),
)
def test_boiling(row: Published) -> None:
    check(row, strict_boil_min)
