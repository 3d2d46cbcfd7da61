"""What comes through the one door is the formula's number, with what it was worked out of."""

from __future__ import annotations

import pytest

from builder.formulas.boiling import boil_hold_min, boiling_point_c
from builder.formulas.heat import whole_units
from builder.formulas.needs import cold_range_kcal
from builder.model.figure import Count, Figure, Found, Named, Worked, named
from builder.planning.tracing import UNTRACED, count, look_up, solve, traced, work, work_range

AIR = named(1013.25, "pressure_hpa", "here")


def test_a_formula_is_worked_with_its_inputs_and_constants() -> None:
    figure = work(boiling_point_c, AIR)
    assert float(figure) == boiling_point_c(1013.25)
    assert isinstance(figure.origin, Worked)
    inputs = dict(figure.origin.inputs)
    assert inputs["pressure_hpa"] is AIR
    constant = inputs["n1"]
    assert isinstance(constant, Figure) and constant.origin == Named("n1", "iapws-if97")
    by_name = work(boiling_point_c, pressure_hpa=AIR)
    assert by_name.origin == figure.origin


def test_a_number_of_nobody_is_told_as_such() -> None:
    figure = work(boiling_point_c, 900.0)
    assert isinstance(figure.origin, Worked)
    given = dict(figure.origin.inputs)["pressure_hpa"]
    assert isinstance(given, Figure) and given.origin == Found("pressure_hpa", UNTRACED)
    assert traced(AIR) is AIR
    assert traced(7, "packs").origin == Found("packs", UNTRACED)


def test_whole_things_are_counted() -> None:
    packs = count(whole_units, named(250.0, "amount_g", "x"), named(100.0, "unit_g", "x"))
    assert (packs, type(packs)) == (3, Count)
    assert isinstance(packs.origin, Worked)


def test_the_ends_of_a_range_come_the_least_first() -> None:
    ends = work_range(cold_range_kcal, named(3000.0, "need_kcal", "x"), named(-10.0, "air_c", "x"))
    assert tuple(map(float, ends)) == cold_range_kcal(3000.0, -10.0)
    assert ends[0] <= ends[1]


def test_a_row_of_a_table_is_named_with_the_source_it_cites() -> None:
    row = look_up(boil_hold_min, 2500.0)
    assert float(row) == boil_hold_min(2500.0)
    assert isinstance(row.origin, Named)
    assert row.origin.name == "boil_hold_min (2500.0)"
    assert row.origin.source in (boil_hold_min.__doc__ or "")
    assert look_up(boil_hold_min, altitude_m=2500.0).origin == row.origin


def test_what_was_searched_for_tells_how() -> None:
    found = solve("a search", boil_hold_min, AIR)
    assert isinstance(found.origin, Found)
    assert (found.origin.name, found.origin.method) == ("boil_hold_min", "a search")
    assert float(found) == boil_hold_min(1013.25)

    def told(parts: object, names: object) -> float:
        """Give what comes in.

        .. [here] A source.
        """
        assert type(parts) is tuple and [type(each) for each in parts] == [float, float]
        assert names == {"a": 1013.25} and type(names["a"]) is float
        return 4.0

    assert solve("a fit", told, [AIR, AIR], names={"a": AIR}).origin == Found(
        "told", "a fit", ("here",)
    )


def test_a_table_without_a_source_is_no_table() -> None:
    def bare(number: float) -> float:
        return number

    with pytest.raises(AssertionError, match="cites no source"):
        look_up(bare, 1.0)
