"""What is printed beside a figure gives what its function gives, over the whole valid range."""

from __future__ import annotations

import importlib
import inspect
import math
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import builder.formulas
from builder.formulas.cooling import LOSS_W_K, WIND_LOSS_FACTOR
from builder.formulas.declaring import (
    FORMULAS,
    UNIT_OF_ENDING,
    Formula,
    ending_of_name,
    unit_of_name,
)
from builder.formulas.effort import ACTIVITIES
from builder.formulas.expression import evaluate, names_in
from builder.formulas.treatment import CHEMICALS
from tests.formulas.test_documented_ranges import EXAMPLES, blocks, told_range

for _path in sorted(Path(builder.formulas.__file__).parent.glob("[a-z]*.py")):
    importlib.import_module(f"builder.formulas.{_path.stem}")

DECLARED = sorted(FORMULAS.values(), key=lambda each: each.id)
CLOSE = 1e-9
# Where a range has no end, numbers of the size that trips have.
FAR = 1e5
# Above nothing, but not so little that dividing by it leaves what a float can hold.
NEAR = 1e-6
# Differences of nearly equal numbers: what doubles leave of kilometres near the sea.
CANCELS = {"air.altitude_m": 1e-6}
# Limits that a docstring tells in words.
LIMITS = {
    ("air.altitude_m", "pressure_hpa"): (226.4, 1074.7),
    # Warmer than any air: at the air's temperature the time has no end.
    ("cooling.minutes_above", "above_c"): (60.5, 130.0),
    ("drying_curve.moisture_ratio_of", "equilibrium_share"): (0.0, 0.2),
    ("drying_curve.moisture_ratio_of", "water_share"): (0.2, 0.5),
    ("drying_curve.moisture_ratio_of", "start_share"): (0.51, 0.98),
    ("drying_curve.page_mass_g", "equilibrium_share"): (0.0, 0.2),
    ("drying_curve.page_mass_g", "start_share"): (0.51, 0.98),
}
# Words that choose a row of a table, all of them.
WORDS: dict[str, list[Any]] = {
    "sex": ["female", "male", None],
    "pregnant": [False, True],
    "nursing": [False, True],
    "cloudy_or_cold": [False, True],
    "cryptosporidium": [False, True],
    "activity": list(ACTIVITIES),
    "chemical": list(CHEMICALS),
    "third": [0, 1, 2, 3],
    "wind": list(WIND_LOSS_FACTOR),
    "vessel": list(LOSS_W_K),
}
KINDS = ("float", "sequence of float")


def choices(formula: Formula, name: str, example: Any) -> list[Any]:
    """Every word that a parameter can be, from the table that it chooses from."""
    for table in formula.tables.values():
        keys = getattr(getattr(table.pick, "__self__", None), "keys", None)
        if table.by == (name,) and keys:
            return list(keys())
    return WORDS.get(name, [example])


def _calls(formula: Formula) -> st.SearchStrategy[dict[str, Any]]:
    """Calls of a formula with values over its documented ranges."""
    doc = inspect.getdoc(formula.function) or ""
    texts = dict(blocks(doc, KINDS))
    parts: dict[str, st.SearchStrategy[Any]] = {}
    for name, parameter in inspect.signature(formula.function).parameters.items():
        kind = str(parameter.annotation)
        if kind == "Sequence[float]":
            each = _floats(*limits(texts.get(name, "")))
            parts[name] = st.lists(each, min_size=3, max_size=3).map(tuple)
        elif kind in ("float", "int") and name not in WORDS:
            least, most = LIMITS.get((formula.id, name)) or limits(texts.get(name, ""))
            parts[name] = _floats(least, most)
        else:
            example = EXAMPLES.get(told_as(formula), {}).get(name, parameter.default)
            parts[name] = st.sampled_from(choices(formula, name, example))
    return st.fixed_dictionaries(parts)


def told_as(formula: Formula) -> str:
    """The name under which its documented ranges are held: an end's is that of its range."""
    whole = getattr(formula.function, "__wrapped__", formula.function)
    return f"{whole.__module__.rpartition('.')[2]}.{whole.__name__}"


def limits(text: str) -> tuple[float, float]:
    told = told_range(text)
    least, most = (
        float(told[each]) if told and told[each] and re.match(r"-?\d", told[each]) else None
        for each in ("least", "most")
    )
    if told is None:
        return -FAR, FAR
    least = NEAR if told["above"] and not least else least or 0.0
    return least, FAR if most is None else most


def _floats(least: float, most: float) -> st.SearchStrategy[float]:
    return st.floats(least, most, allow_nan=False, allow_subnormal=False)


def values_of(formula: Formula, call: Mapping[str, Any]) -> dict[str, Any]:
    """What the names of the expression stand for in a call."""
    values: dict[str, Any] = {name: each.value for name, each in formula.constants.items()}
    for name, table in formula.tables.items():
        values[name] = float(table.pick(*(call[by] for by in table.by)))
    return {name: values[name] if name in values else call[name] for name in formula.names}


@pytest.mark.parametrize("formula", DECLARED, ids=lambda each: each.id)
@settings(
    max_examples=60,
    derandomize=True,
    deadline=None,
    # What several arguments together must be stands in few docstrings: some formulas refuse many.
    suppress_health_check=[HealthCheck.filter_too_much],
)
@given(data=st.data())
def test_the_expression_gives_what_the_function_gives(formula: Formula, data: Any) -> None:
    call = data.draw(_calls(formula))
    try:
        is_so = formula.function(**call)
    except ValueError:
        assume(False)
    printed = evaluate(formula.expression, values_of(formula, call))
    assert isinstance(printed, float)
    assert math.isclose(printed, is_so, rel_tol=CLOSE, abs_tol=CANCELS.get(formula.id, 1e-9)), call


@pytest.mark.parametrize("formula", DECLARED, ids=lambda each: each.id)
def test_each_name_of_an_expression_is_an_argument_a_constant_or_from_a_table(
    formula: Formula,
) -> None:
    arguments = set(inspect.signature(formula.function).parameters)
    known = arguments | set(formula.constants) | set(formula.tables)
    assert set(names_in(formula.expression)) <= known
    assert set(formula.constants) | set(formula.tables) <= set(formula.names)
    for table in formula.tables.values():
        assert set(table.by) <= arguments


# Numbers that may stand bare in an expression: they change a unit, or belong to its form.
OF_THE_FORM = {0.0, 1.0, 2.0, 4.0, 100.0, 1000.0, 60.0, 24.0, 3600.0, 0.25, 10.0, 1e-9}
# Coefficients of published equations that have no name of their own.
COEFFICIENTS = {
    "effort.walk_kcal": {1.5, 0.35, 2.4, 0.3, 7.65},
    "needs.lcda_walk_kcal": {1.44, 1.94, 0.43, 0.24, 0.34, 1.05, 1.1, 32.0},
}


@pytest.mark.parametrize("formula", DECLARED, ids=lambda each: each.id)
def test_no_constant_is_typed_into_an_expression(formula: Formula) -> None:
    bare = re.sub(r"[a-z][a-z0-9_]*", " ", formula.expression)
    numbers = {float(each) for each in re.findall(r"\d+\.?\d*", bare)}
    assert numbers <= OF_THE_FORM | COEFFICIENTS.get(formula.id, set())


def _sources() -> Iterator[str]:
    text = (Path(__file__).resolve().parents[2] / "content/sources.yaml").read_text("utf-8")
    yield from re.findall(r"^- id: (\S+)", text, re.M)


def test_each_source_is_known() -> None:
    known = set(_sources())
    for formula in DECLARED:
        assert set(formula.sources) <= known, formula.id


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("volume_ml", "ml"), ("rate_ml_h", "ml/h"), ("basal_kcal", "kcal"),
        ("energy_kcal_100g", "kcal/100 g"), ("boiling_point_c", "°C"), ("c_kj_kg_k", "kJ/(kg K)"),
        ("efficiency_share", "share"), ("potfuls", ""), ("parts", ""), ("altitude_m", "m"),
        ("hpa_per_mpa", "hPa/MPa"), ("gas_constant_j_kmol_k", "J/(kmol K)"),
        ("molar_kg_kmol", "kg/kmol"), ("kw_m2", "kW/m²"), ("rate_per_min", "1/min"),
        ("energy_per_100g_kcal", "kcal"),
    ],
)  # fmt: skip
def test_the_end_of_a_name_tells_its_unit(name: str, unit: str) -> None:
    assert unit_of_name(name) == unit


# Words of a unit that a longer unit begins with: an ending that leaves one of them is cut short.
OF_A_UNIT = {ending for ending in UNIT_OF_ENDING if "_" not in ending} - {"c"} | {
    "per",
    "j",
    "kmol",
}


@pytest.mark.parametrize("formula", DECLARED, ids=lambda each: each.id)
def test_no_name_has_a_part_of_its_unit_only(formula: Formula) -> None:
    for name in (formula.function.__name__, *formula.names):
        ending = ending_of_name(name)
        left = name.removesuffix(ending).rstrip("_").rpartition("_")[2]
        assert left not in OF_A_UNIT or not ending, name


# How docstrings write what is printed otherwise.
PRINTED = {"degC": "°C", "d": "days"}


@pytest.mark.parametrize("formula", DECLARED, ids=lambda each: each.id)
def test_the_end_of_an_argument_tells_the_unit_that_its_docstring_tells(formula: Formula) -> None:
    for name, text in blocks(inspect.getdoc(formula.function) or "", KINDS):
        unit, said = unit_of_name(name), re.search(r"\[([^]]+)\]", text)
        if said and unit not in ("", "×") and name != "rate_per_min":
            told = re.sub(r"(?<=m)[23]", lambda each: "²³"[int(each[0]) - 2], said[1])
            assert unit == PRINTED.get(told, told), name
