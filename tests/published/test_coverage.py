"""No formula without a published number: who checks what, counted."""

from __future__ import annotations

import importlib
import inspect
from functools import cache
from types import FunctionType

from builder.formulas import nutrition

from .published import Published
from .rows import FORMULAS, called_by, row_tests

LEAST_ROWS = 260
LEAST_SOURCES = 45

# Formulas that no publication can check, and why.
WITHOUT_A_ROW = {
    "ranges.require": "refuses values, computes none",
    "ranges.require_above": "refuses values, computes none",
    "ranges.require_known": "refuses names, computes nothing",
    "expression.parse": "reads arithmetic; its tests are the definition",
    "expression.names_in": "reads arithmetic; its tests are the definition",
    "expression.evaluate": "works arithmetic out; its tests are the definition",
    "declaring.declared": "notes a formula, computes nothing",
    "declaring.declared_ends": "notes the ends of a range, computes nothing",
    "declaring.unit_of_name": "reads a name, computes nothing",
    "declaring.ending_of_name": "reads a name, computes nothing",
    "heat.whole_units": "rounds a quotient up; its tests are the definition",
    "load.least_containers": "a search; its tests hold it against trying every choice",
    "needs.spread_share": "largest less smallest, over the mean",
    "freeze_drying.layer_mm": "volume over area",
}


@cache
def _rows() -> tuple[Published, ...]:
    """Every row of every test."""
    return tuple(row for _, _, rows in row_tests() for row in rows)


def _public_formulas() -> set[str]:
    """Every function of the formulas that others may call."""
    found = set()
    for path in sorted(FORMULAS.glob("*.py")):
        if path.stem == "__init__":
            continue
        module = importlib.import_module(f"builder.formulas.{path.stem}")
        found |= {
            f"{path.stem}.{name}"
            for name, member in vars(module).items()
            if isinstance(inspect.unwrap(member), FunctionType)
            and member.__module__ == module.__name__
            and not name.startswith("_")
        }
    return found


@cache
def _checked() -> frozenset[str]:
    """Every formula that a row holds to a number."""
    checked: set[str] = set()
    for _, test, rows in row_tests():
        for row in rows[:1]:
            checked |= set(called_by(lambda test=test, row=row: test(row)))  # type: ignore[misc]
    return frozenset(checked)


def test_there_are_rows_enough() -> None:
    assert len(_rows()) >= LEAST_ROWS


def test_they_come_from_sources_enough() -> None:
    assert len({row.source for row in _rows()}) >= LEAST_SOURCES


def test_every_formula_has_a_row() -> None:
    missing = _public_formulas() - _checked() - set(WITHOUT_A_ROW)
    assert not missing, f"no published number checks {', '.join(sorted(missing))}"


def test_the_exceptions_are_formulas_without_a_row() -> None:
    assert set(WITHOUT_A_ROW) <= _public_formulas()
    assert not set(WITHOUT_A_ROW) & _checked()


def test_a_test_over_rows_takes_nothing_else() -> None:
    for name, test, _ in row_tests():
        assert list(inspect.signature(test).parameters) == ["row"], name


def test_only_what_a_test_calls_itself_counts() -> None:
    """Label energy calls the guard for its parts, which is not public and not counted."""
    assert called_by(_call_label) == ("nutrition.label_energy_kj",)


def _call_label() -> None:
    """One formula, called from here."""
    assert nutrition.label_energy_kj(1.0, 0.0, 0.0, 0.0) == 17.0


def test_practice_is_never_told_as_a_publication() -> None:
    for row in _rows():
        if row.known == "practice":
            assert row.source == "common-practice", row.name
