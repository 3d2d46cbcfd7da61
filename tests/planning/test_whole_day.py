"""One person's day by three published methods, and what it was worked out of."""

from __future__ import annotations

import pytest

from builder.formulas.effort import basal_kcal, day_need_kcal, eer_2023_kcal, mifflin_kcal
from builder.formulas.needs import spread_share
from builder.model.figure import Worked
from builder.model.trip import Person
from builder.planning.needs import whole_day_kcal


def _body(sex: str | None, age: float, height: float, mass: float) -> Person:
    return Person("Wren", sex, age, mass, height)  # type: ignore[arg-type]


def test_three_methods_for_an_adult() -> None:
    found = whole_day_kcal(_body("male", 30.0, 175.0, 70.0), 6.0, 2200.0)
    basal = basal_kcal("male", 30.0, 70.0)
    factorial = day_need_kcal(basal, 6.0, 2200.0)
    assert list(found) == ["schofield1985", "nasem2023", "mifflin1990"]
    assert found["schofield1985"] == factorial
    assert found["nasem2023"] == eer_2023_kcal("male", 30.0, 175.0, 70.0, "very-active")
    assert found["mifflin1990"] == pytest.approx(
        mifflin_kcal("male", 30.0, 175.0, 70.0) * factorial / basal
    )


def test_a_quiet_day_is_inactive_and_the_methods_agree() -> None:
    """8 h at 0.95 and 16 h at 1.6 are a level of 1.383."""
    found = whole_day_kcal(_body("female", 35.0, 165.0, 60.0), 0.0, 0.0)
    assert found["nasem2023"] == eer_2023_kcal("female", 35.0, 165.0, 60.0, "inactive")
    assert found["mifflin1990"] == pytest.approx(
        mifflin_kcal("female", 35.0, 165.0, 60.0) * (8.0 * 0.95 + 16.0 * 1.6) / 24.0
    )
    assert spread_share(tuple(found.values())) < 0.12


def test_beyond_what_anyone_keeps_up_the_level_stops_growing() -> None:
    found = whole_day_kcal(_body("male", 30.0, 175.0, 70.0), 16.0, 9000.0)
    assert found["mifflin1990"] == pytest.approx(2.5 * mifflin_kcal("male", 30.0, 175.0, 70.0))


def test_a_child_has_two_methods() -> None:
    assert list(whole_day_kcal(_body("female", 18.9, 160.0, 50.0), 4.0, 900.0)) == [
        "schofield1985",
        "nasem2023",
    ]
    assert len(whole_day_kcal(_body("female", 19.0, 160.0, 50.0), 4.0, 900.0)) == 3


def test_a_body_not_told_is_the_mean_of_both() -> None:
    found = whole_day_kcal(_body(None, 35.0, 170.0, 70.0), 0.0, 0.0)
    both = [whole_day_kcal(_body(sex, 35.0, 170.0, 70.0), 0.0, 0.0) for sex in ("female", "male")]
    for method, kcal in found.items():
        assert kcal == pytest.approx(sum(each[method] for each in both) / 2.0)


def test_each_method_keeps_its_inputs() -> None:
    found = whole_day_kcal(_body("male", 30.0, 175.0, 70.0), 6.0, 2200.0)
    origin = found["nasem2023"].origin
    assert isinstance(origin, Worked)
    inputs = dict(origin.inputs)
    assert inputs["age_years"] == 30.0
    assert inputs["each_kcal_kg"] == 19.11


@pytest.mark.parametrize("sex", ["female", "male"])
@pytest.mark.parametrize("age", [22.0, 40.0, 65.0])
def test_on_a_quiet_day_the_methods_agree_within_fifteen_percent(sex: str, age: float) -> None:
    """Each states 10 percent for single people."""
    height, mass = (178.0, 76.0) if sex == "male" else (166.0, 62.0)
    found = whole_day_kcal(_body(sex, age, height, mass), 0.0, 0.0)
    assert spread_share(tuple(found.values())) < 0.15
