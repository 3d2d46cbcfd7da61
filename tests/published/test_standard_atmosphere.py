"""Pressure and height against the printed standard atmosphere."""

from __future__ import annotations

from builder.formulas.air import altitude_m, pressure_hpa

from .published import Published, check, published

# Geopotential metres and pascal; half of the last digit given, 0.05 Pa.
_TABLE_PA = {
    0: 101325.0,
    500: 95460.8,
    1000: 89874.6,
    1500: 84556.0,
    2000: 79495.2,
    2500: 74682.5,
    3000: 70108.5,
    3500: 65764.1,
    4000: 61640.2,
    4500: 57728.3,
    5000: 54019.9,
    5500: 50506.8,
    6000: 47181.0,
}
# The 1976 tables print hectopascal with two decimals.
_PRINTED_HPA = {1000: 898.75, 2000: 794.95, 3000: 701.08, 5000: 540.20}


@published(
    *(
        Published((float(h),), pa / 100, 0.0006, "hPa", "iso2533", f"table, {h} m", "memory")
        for h, pa in _TABLE_PA.items()
    )
)
def test_pressure_agrees_with_the_table(row: Published) -> None:
    check(row, pressure_hpa)


@published(
    *(
        Published((float(h),), hpa, 0.006, "hPa", "us-atmosphere-1976", f"table, {h} m", "memory")
        for h, hpa in _PRINTED_HPA.items()
    )
)
def test_pressure_agrees_with_the_printed_tables_of_1976(row: Published) -> None:
    check(row, pressure_hpa)


# 0.01 m of height are 0.1 Pa, twice the last digit of the pressures above.
@published(
    *(
        Published((pa / 100,), float(h), 0.01, "m", "iso2533", f"table, {pa} Pa", "memory")
        for h, pa in _TABLE_PA.items()
    )
)
def test_height_agrees_with_the_table(row: Published) -> None:
    check(row, altitude_m)
