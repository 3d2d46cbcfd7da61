"""Warm-air drying against extension tables: both ends of each range."""

from __future__ import annotations

from builder.formulas.heat_drying import (
    AIR_C,
    BLANCH_LONGER_ABOVE_M,
    BOIL_MIN,
    HOURS,
    KIND_HOURS,
    PIECES_MM,
    STEAM_MIN,
    SUN_AIR_C,
    SUN_HUMIDITY_SHARE,
)

from .published import Published, check, published


def _f(degrees_f: float) -> float:
    """Degrees Celsius."""
    return (degrees_f - 32.0) / 1.8


def _air_end(kind: str, end: int) -> float:
    """One end of a range."""
    return (AIR_C[kind][0], AIR_C[kind][1])[end]


# Printed in whole degF; ours are rounded to a tenth of a degree Celsius.
@published(
    *(
        Published(
            (kind, end), _f(degrees_f), 0.06, "°C", source, f"{kind}, {degrees_f} degF", "copy"
        )
        for kind, source, ends in (
            ("fruit", "nchfp-packaging", (130.0, 140.0)),
            ("vegetable", "nchfp-packaging", (130.0, 140.0)),
            ("jerky", "fsis-jerky", (130.0, 140.0)),
            ("herb", "psu-herbs", (95.0, 115.0)),
        )
        for end, degrees_f in enumerate(ends)
    )
)
def test_air(row: Published) -> None:
    check(row, _air_end)


def _thickest(kind: str) -> float:
    """Most of a range."""
    return PIECES_MM[kind][1]


# A quarter inch is 6.35 mm.
@published(
    Published(("jerky",), 6.35, 0.5, "mm", "nchfp-jerky", "slices, a quarter inch", "memory"),
)
def test_slices(row: Published) -> None:
    check(row, _thickest)


def _hours_end(kind: str, dry_as: str | None, end: int) -> float:
    """One end of a range."""
    row = HOURS[dry_as] if dry_as else KIND_HOURS[kind]
    return (row[0], row[1])[end]


@published(
    *(
        Published(
            (kind, dry_as, end), hours, 1e-9, "h", source, f"{dry_as or kind}, {hours:g} h", known
        )
        for kind, dry_as, source, known, ends in (
            ("vegetable", None, "msu-drying-vegetables", "copy", (6.0, 16.0)),
            ("vegetable", "pea", "uga-drying-hours", "memory", (8.0, 10.0)),
            ("vegetable", "potato", "uga-drying-hours", "memory", (8.0, 12.0)),
            ("vegetable", "tomato", "uga-drying-hours", "memory", (10.0, 18.0)),
            ("fruit", "apple", "uga-drying-hours", "memory", (6.0, 12.0)),
            ("fruit", "apricot", "uga-drying-hours", "memory", (24.0, 36.0)),
            ("fruit", "banana", "uga-drying-hours", "memory", (8.0, 16.0)),
        )
        for end, hours in enumerate(ends)
    )
)
def test_hours(row: Published) -> None:
    check(row, _hours_end)


def _blanching_end(dry_as: str, way: str, end: int) -> float:
    """One end of a range."""
    row = (STEAM_MIN if way == "steam" else BOIL_MIN)[dry_as]
    return (row[0], row[1])[end]


@published(
    *(
        Published(
            (dry_as, way, end),
            minutes,
            1e-9,
            "min",
            source,
            f"{dry_as}, {way}, end {end}",
            known,
        )
        for dry_as, way, end, minutes, source, known in (
            ("carrot", "boil", 0, 3.0, "extension-blanching", "copy"),
            ("carrot", "steam", 1, 4.0, "extension-blanching", "copy"),
            ("green-bean", "boil", 0, 3.0, "extension-blanching", "copy"),
            ("green-bean", "boil", 1, 4.0, "extension-blanching", "copy"),
            ("green-bean", "steam", 0, 4.0, "extension-blanching", "copy"),
            ("green-bean", "steam", 1, 6.0, "extension-blanching", "copy"),
            ("pea", "boil", 0, 2.0, "extension-blanching", "copy"),
            ("pea", "steam", 1, 3.0, "extension-blanching", "copy"),
            ("sweetcorn", "steam", 0, 3.0, "extension-blanching", "copy"),
            ("celery", "boil", 0, 1.0, "extension-blanching", "copy"),
            ("celery", "boil", 1, 2.0, "nchfp-drying-vegetables", "memory"),
            ("potato", "boil", 0, 5.0, "nchfp-drying-vegetables", "memory"),
            ("potato", "boil", 1, 6.0, "nchfp-drying-vegetables", "memory"),
            ("potato", "steam", 1, 8.0, "nchfp-drying-vegetables", "memory"),
        )
    )
)
def test_blanching(row: Published) -> None:
    check(row, _blanching_end)


@published(
    Published((), 5000.0 * 0.3048, 0.5, "m", "csu-drying-vegetables", "5,000 feet", "memory"),
)
def test_blanching_takes_longer_above(row: Published) -> None:
    check(row, lambda: BLANCH_LONGER_ABOVE_M)


@published(Published((), _f(86.0), 1e-9, "°C", "uga-drying", "86 degF", "copy"))
def test_the_sun_dries_from(row: Published) -> None:
    check(row, lambda: SUN_AIR_C)


@published(Published((), 0.60, 1e-9, "share", "vce-sun", "60 percent is too damp", "copy"))
def test_air_too_damp_for_the_sun(row: Published) -> None:
    check(row, lambda: SUN_HUMIDITY_SHARE)
