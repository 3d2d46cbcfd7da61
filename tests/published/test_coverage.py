"""No formula without a published number: who checks what, counted."""

from __future__ import annotations

import importlib
import inspect
import sys
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from types import FrameType, FunctionType
from typing import Any

import builder.formulas
from builder.formulas import nutrition

from .published import Published

HERE = Path(__file__).parent
FORMULAS = Path(builder.formulas.__file__).parent

LEAST_ROWS = 260
LEAST_SOURCES = 45

# Formulas that no publication can check, and why.
WITHOUT_A_ROW = {
    "ranges.require": "refuses values, computes none",
    "ranges.require_above": "refuses values, computes none",
    "ranges.require_known": "refuses names, computes nothing",
    "heat.whole_units": "rounds a quotient up; its tests are the definition",
    "load.least_containers": "a search; its tests hold it against trying every choice",
    "needs.spread_share": "largest less smallest, over the mean",
    "freeze_drying.layer_mm": "volume over area",
    "packing.bag_fullness": "volume over volume",
}


def _row_tests() -> Iterator[tuple[str, Callable[[Published], None], tuple[Published, ...]]]:
    """Every test over rows, with its rows."""
    for path in sorted(HERE.glob("test_*.py")):
        if path == Path(__file__):
            continue
        module = importlib.import_module(f"{__package__}.{path.stem}")
        for name, test in sorted(vars(module).items()):
            for mark in getattr(test, "pytestmark", ()):
                if mark.name == "parametrize" and mark.args[0] == "row":
                    yield (
                        f"{path.stem}.{name}",
                        test,
                        tuple(each.values[0] for each in mark.args[1]),
                    )


@cache
def _rows() -> tuple[Published, ...]:
    """Every row of every test."""
    return tuple(row for _, _, rows in _row_tests() for row in rows)


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
            if isinstance(member, FunctionType)
            and member.__module__ == module.__name__
            and not name.startswith("_")
        }
    return found


def _called_by(run: Callable[[], None]) -> set[str]:
    """Formulas that the tests here call themselves, not those called by other formulas."""
    called = set()

    def note(frame: FrameType, event: str, _: Any) -> None:
        if event != "call" or frame.f_back is None:
            return
        path = Path(frame.f_code.co_filename)
        caller = Path(frame.f_back.f_code.co_filename)
        if path.parent == FORMULAS and caller.parent == HERE:
            called.add(f"{path.stem}.{frame.f_code.co_name}")

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        run()
    finally:
        sys.setprofile(before)
    return called


@cache
def _checked() -> frozenset[str]:
    """Every formula that a row holds to a number."""
    checked: set[str] = set()
    for _, test, rows in _row_tests():
        for row in rows[:1]:
            checked |= _called_by(lambda test=test, row=row: test(row))  # type: ignore[misc]
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
    for name, test, _ in _row_tests():
        assert list(inspect.signature(test).parameters) == ["row"], name


def test_only_what_a_test_calls_itself_counts() -> None:
    """Label energy calls the guard for its parts, which is not public and not counted."""
    found = _called_by(_call_label)
    assert found == {"nutrition.label_energy_kj"}


def _call_label() -> None:
    """One formula, called from here."""
    assert nutrition.label_energy_kj(1.0, 0.0, 0.0, 0.0) == 17.0


def test_practice_is_never_told_as_a_publication() -> None:
    for row in _rows():
        if row.known == "practice":
            assert row.source == "common-practice", row.name
