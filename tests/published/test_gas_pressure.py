"""Vapour pressure of canister gases against reference equations of state."""

from __future__ import annotations

import CoolProp.CoolProp as coolprop
import pytest

from builder.formulas.air import pressure_hpa
from builder.formulas.gas import mixture_pressure_kpa, vapour_pressure_kpa

from .published import Published, check, published

_TEMPERATURES_C = (-40, -30, -20, -10, 0, 10, 20, 30, 40)
_TABLE_KPA = {
    "propane": (111.1, 167.8, 244.5, 345.3, 474.5, 636.6, 836.5, 1079.0, 1369.4),
    "isobutane": (28.7, 46.6, 72.5, 108.5, 157.0, 220.6, 302.2, 404.7, 531.2),
    "butane": (16.8, 28.2, 45.2, 69.6, 103.2, 148.5, 207.6, 283.4, 378.5),
}
_NAMES = {"propane": "Propane", "isobutane": "IsoButane", "butane": "n-Butane"}

# The Wagner coefficients of 1987 rest on older measurements: 1 percent.
_WAGNER_SHARE = 0.01


@published(
    *(
        Published(
            (gas, float(t)), p, _WAGNER_SHARE * p, "kPa", "coolprop", f"{gas}, {t} °C", "calculated"
        )
        for gas, row in _TABLE_KPA.items()
        for t, p in zip(_TEMPERATURES_C, row, strict=True)
    )
)
def test_vapour_pressure_agrees_with_the_table(row: Published) -> None:
    check(row, vapour_pressure_kpa)


@pytest.mark.parametrize("gas", sorted(_NAMES))
@pytest.mark.parametrize("temperature_c", range(-70, 51, 10))
def test_vapour_pressure_agrees_with_the_library_coolprop(gas: str, temperature_c: int) -> None:
    theirs_pa = coolprop.PropsSI("P", "T", temperature_c + 273.15, "Q", 0, _NAMES[gas])
    ours_kpa = vapour_pressure_kpa(gas, float(temperature_c))
    assert ours_kpa == pytest.approx(float(theirs_pa) / 1000.0, rel=_WAGNER_SHARE)


# 1 percent of pressure, near the boiling point of 0.25 to 0.35 K each.
@published(
    Published(
        ("propane", -42.11), 101.325, 1.02, "kPa", "coolprop", "propane boils, 0 m", "calculated"
    ),
    Published(
        ("isobutane", -11.75),
        101.325,
        1.02,
        "kPa",
        "coolprop",
        "isobutane boils, 0 m",
        "calculated",
    ),
    Published(
        ("butane", -0.49), 101.325, 1.02, "kPa", "coolprop", "butane boils, 0 m", "calculated"
    ),
    Published(
        ("propane", -50.14), 70.1, 0.71, "kPa", "coolprop", "propane boils, 3000 m", "calculated"
    ),
    Published(
        ("isobutane", -20.79),
        70.1,
        0.71,
        "kPa",
        "coolprop",
        "isobutane boils, 3000 m",
        "calculated",
    ),
    Published(
        ("butane", -9.81), 70.1, 0.71, "kPa", "coolprop", "butane boils, 3000 m", "calculated"
    ),
    Published(
        ("butane", -15.98), 54.0, 0.55, "kPa", "coolprop", "butane boils, 5000 m", "calculated"
    ),
)
def test_gases_boil_where_their_pressure_is_that_outside(row: Published) -> None:
    check(row, vapour_pressure_kpa)


def test_3000_m_has_the_pressure_used_above() -> None:
    assert pressure_hpa(3000.0) / 10.0 == pytest.approx(70.1, abs=0.05)


# Raoult with the reference pressures; 1 percent as above.
_ISO = {"isobutane": 0.8, "propane": 0.2}
_NORMAL = {"butane": 0.7, "propane": 0.3}


@published(
    *(
        Published(
            (shares, float(t)),
            p,
            _WAGNER_SHARE * p,
            "kPa",
            "coolprop",
            f"{what}, {t} °C",
            "calculated",
        )
        for what, shares, t, p in (
            ("isobutane 80, propane 20", _ISO, -30, 76.7),
            ("isobutane 80, propane 20", _ISO, -20, 115.1),
            ("isobutane 80, propane 20", _ISO, -10, 167.1),
            ("isobutane 80, propane 20", _ISO, 0, 235.6),
            ("isobutane 80, propane 20", _ISO, 20, 434.6),
            ("butane 70, propane 30", _NORMAL, -30, 78.6),
            ("butane 70, propane 30", _NORMAL, -20, 117.2),
            ("butane 70, propane 30", _NORMAL, -10, 169.1),
            ("butane 70, propane 30", _NORMAL, 0, 237.2),
        )
    )
)
def test_mixtures_follow_raoult(row: Published) -> None:
    check(row, mixture_pressure_kpa)
