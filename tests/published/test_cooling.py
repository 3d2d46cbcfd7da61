"""Cooling and specific heats against worked tables and handbooks."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from builder.formulas.cooling import (
    cooled_c,
    loss_range_w_k,
    minutes_above,
    siebel_kj_kg_k,
    time_constant_min,
)

from .published import Published, check, published

# From 95 degC in air of 15: one decimal.
_TABLE = (
    (20.0, (77.3, 63.5, 52.8, 44.4, 32.9), 11.51),
    (45.0, (86.6, 79.1, 72.3, 66.3, 56.1), 25.89),
    (75.0, (89.8, 85.0, 80.5, 76.3, 68.6), 43.15),
    (120.0, (91.7, 88.6, 85.6, 82.7, 77.3), 69.04),
)


@published(
    *(
        Published(
            (95.0, 15.0, float(t), tau),
            c,
            0.06,
            "°C",
            "incropera",
            f"tau {tau:.0f}, {t} min",
            "calculated",
        )
        for tau, temperatures, _ in _TABLE
        for t, c in zip((5, 10, 15, 20, 30), temperatures, strict=True)
    )
)
def test_cooling(row: Published) -> None:
    check(row, cooled_c)


@published(
    *(
        Published(
            (95.0, 15.0, tau),
            t,
            0.006,
            "min",
            "incropera",
            f"above 60 °C, tau {tau:.0f}",
            "calculated",
        )
        for tau, _, t in _TABLE
    )
)
def test_time_above_sixty(row: Published) -> None:
    check(row, minutes_above)


# 0.6 kg at 3.9 kJ/(kg K): whole minutes, one decimal.
@published(
    *(
        Published(
            (600.0, 3.9, ua),
            tau,
            within,
            "min",
            "incropera",
            f"time constant, {ua} W/K",
            "calculated",
        )
        for ua, tau, within in (
            (0.3, 130.0, 0.5),
            (0.5, 78.0, 0.5),
            (0.8, 48.8, 0.06),
            (1.5, 26.0, 0.5),
        )
    )
)
def test_time_constant(row: Published) -> None:
    check(row, time_constant_min)


def test_the_curve_solves_newtons_equation() -> None:
    times = np.linspace(0.0, 60.0, 7)
    solved = solve_ivp(
        lambda _, t: -(t - 8.0) / 35.0, (0.0, 60.0), [92.0], t_eval=times, rtol=1e-9, atol=1e-9
    )
    for minutes, theirs in zip(times, solved.y[0], strict=True):
        assert cooled_c(92.0, 8.0, float(minutes), 35.0) == pytest.approx(float(theirs), abs=1e-5)


@published(
    Published((0.75,), 3.35, 0.006, "kJ/(kg K)", "siebel1892", "75 % of water", "calculated"),
    # Appendix A.4, measured; Siebel is known to be 5 percent off.
    Published((0.86,), 3.72, 0.19, "kJ/(kg K)", "geankoplis", "carrots and the like", "copy"),
    Published((0.75,), 3.52, 0.18, "kJ/(kg K)", "geankoplis", "potatoes", "copy"),
    Published((0.72,), 3.43, 0.18, "kJ/(kg K)", "geankoplis", "lean beef", "copy"),
)
def test_specific_heat_by_siebel(row: Published) -> None:
    check(row, siebel_kj_kg_k)


def _likely_constant_min(vessel: str, wind: str) -> float:
    """Time constant of 600 g of wet food."""
    return time_constant_min(600.0, 3.9, loss_range_w_k(vessel, 600.0, wind)[1])


# A bare pouch 20 to 30 min, in a cosy 60 to 100, half of the bare one in wind.
@published(
    Published(
        ("pouch-bare", "sheltered"), 25.0, 5.0, "min", "common-practice", "pouch", "practice"
    ),
    Published(
        ("pouch-cosy", "sheltered"),
        80.0,
        20.0,
        "min",
        "common-practice",
        "pouch in cosy",
        "practice",
    ),
    Published(
        ("pouch-bare", "windy"), 12.5, 2.5, "min", "common-practice", "pouch in wind", "practice"
    ),
)
def test_time_constants_of_the_trade(row: Published) -> None:
    check(row, _likely_constant_min)
