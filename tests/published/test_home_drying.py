"""What drying at home takes and costs, against extension services, SR28 and worked examples."""

from __future__ import annotations

from builder.formulas.home_drying import (
    bulk_density_g_ml,
    food_cost,
    fresh_to_dry_g,
    learned_ratio,
    machine_cost,
    metered_kwh,
    most_on_trays_g,
    pays_after_runs,
    room_ml,
    saved_after_runs,
    usual_kwh,
    vitamin_c_kept_share,
)

from .published import Published, check, published


def _learned(table_ratio: float, *own_ratio: float) -> float:
    """Learned ratio of some batches."""
    return learned_ratio(table_ratio, own_ratio)


# The rule by hand: (0.2^2 * 0.25)^(1/3) and (0.18^2 * 0.2 * 0.22)^(1/4).
@published(
    Published((0.2, 0.25), 0.215443, 1e-6, "g/g", "common-practice", "one batch", "calculated"),
    Published(
        (0.18, 0.2, 0.22), 0.1943118, 1e-6, "g/g", "common-practice", "two batches", "calculated"
    ),
)
def test_learned(row: Published) -> None:
    check(row, _learned)


@published(
    Published((100.0, 0.21), 500.0, 1e-9, "g", "common-practice", "105 g at 0.21", "calculated"),
)
def test_to_spare(row: Published) -> None:
    check(row, fresh_to_dry_g)


# Half a bushel of apples weighs some 10 kg; leaflets round it.
@published(
    Published(
        (11148.4, "dehydrator"), 10_000.0, 500.0, "g", "uga-drying", "12 square feet", "copy"
    ),
    Published(
        (4600.0, "freeze-dryer"), 9200.0, 0.1, "g", "common-practice", "2 cm on 0.46 m²", "memory"
    ),
)
def test_trays(row: Published) -> None:
    check(row, most_on_trays_g)


# Lamps of 675 W for two hours, then of 450 W: told as hours and watts, not metered.
@published(
    Published(
        (675.0, 2.0, 1.0), 1.35, 0.005, "kWh", "msu-dryer-current", "first two hours", "copy"
    ),
    Published((5400.0 / 11.0, 11.0, 1.0), 5.40, 0.005, "kWh", "msu-dryer-current", "beans", "copy"),
    Published(
        (19350.0 / 42.0, 42.0, 1.0), 19.35, 0.005, "kWh", "msu-dryer-current", "peaches", "copy"
    ),
)
def test_current_by_the_meter(row: Published) -> None:
    check(row, metered_kwh)


def _kwh_kg(method: str) -> float:
    """Current for each kilogram of water."""
    return usual_kwh(1000.0, method)


# The guess must lie in the range that is published: its middle, give or take half its width.
@published(
    Published(("dehydrator",), 4.54, 3.76, "kWh/kg", "perera-rahman1997", "hot air", "memory"),
    Published(
        ("dehydrator",),
        1.745,
        1.005,
        "kWh/kg",
        "msu-dryer-current",
        "beans to peaches",
        "calculated",
    ),
    Published(("freeze-dryer",), 6.0, 2.0, "kWh/kg", "common-practice", "at home", "memory"),
)
def test_usual_current(row: Published) -> None:
    check(row, _kwh_kg)


# Three kilograms of apples as bought at 2.40, of which a tenth is core and stem.
@published(
    Published((2700.0, 0.1, 2.4), 7.2, 1e-9, "money", "usda-sr28", "apples", "calculated"),
    Published((1000.0, 0.62, 1.0), 2.6316, 5e-5, "money", "usda-sr28", "peas", "calculated"),
    Published((500.0, 0.36, 1.0), 0.78125, 1e-9, "money", "usda-sr28", "bananas", "calculated"),
)
def test_food(row: Published) -> None:
    check(row, food_cost)


@published(
    Published(
        (1.0, 150.0, 200.0), 0.75, 1e-9, "money", "common-practice", "heat dryer", "calculated"
    ),
    Published(
        (1.0, 3000.0, 400.0), 7.5, 1e-9, "money", "common-practice", "freeze dryer", "calculated"
    ),
)
def test_machine(row: Published) -> None:
    check(row, machine_cost)


@published(
    Published(
        (150.0, 10.528, 17.6), 22.0, 1e-9, "runs", "common-practice", "heat dryer", "calculated"
    ),
    Published(
        (3000.0, 16.653, 28.0),
        265.0,
        1e-9,
        "runs",
        "common-practice",
        "freeze dryer",
        "calculated",
    ),
)
def test_pays(row: Published) -> None:
    check(row, pays_after_runs)


@published(
    Published(
        (22.0, 150.0, 10.528, 17.6), 5.584, 1e-9, "money", "common-practice", "heat dryer",
        "calculated",
    ),
    Published(
        (265.0, 3000.0, 16.653, 28.0), 6.955, 1e-9, "money", "common-practice", "freeze dryer",
        "calculated",
    ),
)  # fmt: skip
def test_saved(row: Published) -> None:
    check(row, saved_after_runs)


CUP_ML = 236.588


@published(
    Published(
        ("fruit", "heat-dried"),
        86.0 / CUP_ML,
        0.002,
        "g/ml",
        "usda-sr28",
        "apple rings, 86 g a cup",
        "copy",
    ),
    Published(
        ("vegetable", "heat-dried"),
        (0.313 + 0.237 + 0.228) / 3,
        0.001,
        "g/ml",
        "usda-sr28",
        "carrot, onion flakes, tomato",
        "calculated",
    ),
    Published(
        ("fruit", "fresh"),
        109.0 / CUP_ML,
        0.002,
        "g/ml",
        "usda-sr28",
        "apple slices, 109 g a cup",
        "memory",
    ),
    Published(
        ("vegetable", "fresh"),
        128.0 / CUP_ML,
        0.002,
        "g/ml",
        "usda-sr28",
        "carrot, chopped, 128 g a cup",
        "memory",
    ),
)
def test_pieces(row: Published) -> None:
    check(row, bulk_density_g_ml)


# Bulk volume dried over fresh, by the same cups: apple 0.27 of 473 ml a cupful.
@published(
    Published((86.0, 0.3635), CUP_ML, 0.1, "ml", "usda-sr28", "a cup of apple rings", "copy"),
)
def test_room(row: Published) -> None:
    check(row, room_ml)


def _end(way: str, end: int) -> float:
    """One end of a range of vitamin C."""
    least, most, _ = vitamin_c_kept_share(way)
    return (least, most)[end]


@published(
    Published(
        ("dehydrator", 0), 0.01, 0.005, "share", "usda-sr28", "the least of fruit", "calculated"
    ),
    Published(
        ("dehydrator", 1), 0.36, 0.005, "share", "usda-sr28", "the most of fruit", "calculated"
    ),
    Published(("freeze-dryer", 0), 0.442, 0.005, "share", "asami2003", "strawberry", "copy"),
    Published(("freeze-dryer", 1), 1.0, 0.005, "share", "usda-sr28", "shallot", "calculated"),
)
def test_vitamin_c(row: Published) -> None:
    check(row, _end)
