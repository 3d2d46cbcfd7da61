"""The evaluator in the page works out what the Python's does, for whole kits too."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from builder.pages.trip.origins.graph_json import graph_data
from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.graph import graph_of
from builder.planning.kit import plan_trip
from builder.planning.stock import check
from builder.reading.folder import Layer, read_folder
from builder.site.finishing.scripts import PARTS_FOLDER
from tests.site.sample import ASSETS, ROOT
from tests.vectors.make_expressions import TABLE
from tests.vectors.same import same

from .looking import offline_page

ALL_AT_ONCE = """cases => cases.map(([expression, given]) => {
  try { return evaluate(expression, new Map(Object.entries(given))); }
  catch (error) { if (error instanceof ExpressionError) return null; throw error; }
})"""
# Every leaf that has a place is "changed" to what it is, so that all above it is worked out.
WHOLE_KIT = """graph => {
  const places = new Map();
  const keyed = (one) => (one.place === undefined ? one : { ...one, place: one.place + one.value });
  const look = (one) => { if (one.place !== undefined) places.set(keyed(one).place, one.value); };
  const figures = Object.fromEntries(Object.entries(graph.figures).map(([id, one]) => {
    for (const each of [one, ...Object.values(one.inputs ?? {})]) look(each);
    const inputs = Object.entries(one.inputs ?? {}).map(([name, each]) => [name, keyed(each)]);
    return [id, { ...keyed(one), inputs: Object.fromEntries(inputs) }];
  }));
  const figure = figuresWhere({ ...graph, figures }, places);
  return Object.fromEntries(Object.keys(figures).map((id) => [id, figure(id)]));
}"""
WHERE = """([graph, changed, ids]) => {
  const figure = figuresWhere(graph, new Map(Object.entries(changed)));
  return ids.map(figure).map((one) => [one.value ?? null, !!one.moved, !!one.turned]);
}"""


def in_page(browser: Browser, function: str, given: Any) -> Any:
    """Run a function beside the evaluator."""
    with offline_page(browser) as (page, seen):
        page.add_script_tag(path=ASSETS / "assets" / PARTS_FOLDER / "evaluate.js")
        answer = page.evaluate(function, given)
        assert seen.complaints == []
    return answer


@pytest.fixture(scope="module")
def table() -> Any:
    return json.loads(TABLE.read_text(encoding="utf-8"))


@pytest.mark.parametrize("part", ["language", "errors"])
def test_each_construct_of_the_language_comes_to_the_same(
    browser: Browser, table: Any, part: str
) -> None:
    found = in_page(browser, ALL_AT_ONCE, [[text, table["given"]] for text, _ in table[part]])
    odd = [
        (text, worth, mine)
        for (text, worth), mine in zip(table[part], found, strict=True)
        if not same(worth, mine)
    ]
    assert odd == []


def test_each_declared_formula_comes_to_the_same(browser: Browser, table: Any) -> None:
    cases = [
        (each["expression"], given, worth)
        for each in table["formulas"]
        for given, worth in each["cases"]
    ]
    found = in_page(browser, ALL_AT_ONCE, [[text, given] for text, given, _ in cases])
    odd = [case for case, mine in zip(cases, found, strict=True) if not same(case[2], mine)]
    assert odd == []
    assert len(found) > 100


def demo_graphs() -> list[Any]:
    folder = read_folder([Layer(ROOT / "content", "content")])
    stock, _ = check(folder.content)
    kits = [
        plan_trip(folder.content.trips[name], folder.content, stock)
        for name in sorted(folder.content.trips)
    ]
    return [graph_data(kit, graph_of(kit_data(kit))) for kit in kits]


def test_each_figure_of_the_demo_kits_is_worked_out_from_its_leaves(browser: Browser) -> None:
    for graph in demo_graphs():
        found = in_page(browser, WHOLE_KIT, graph)
        odd = [
            name
            for name, figure in graph["figures"].items()
            if found[name].get("turned") or not same(float(figure["value"]), found[name]["value"])
        ]
        assert odd == []
        assert sum(1 for each in found.values() if each.get("moved")) > 500


# Two eaters; which pot it is was chosen for up to three.
GRAPH: Any = {
    "formulas": {
        "water": {"expression": "eaters * each_ml"},
        "all": {"expression": "sum(water_ml) / per_l"},
        "few": {"expression": "eaters <= 3"},
        "inverse": {"expression": "1 / (eaters - 1)"},
        "pots": {"expression": "ceil(water_ml / 500)"},
    },
    "figures": {
        "a": {
            "formula": "water",
            "inputs": {"eaters": {"value": 2.0, "place": "trip:1:1"}, "each_ml": {"value": 300.0}},
            "value": 600.0,
        },
        "b": {"value": 50.0, "place": "trip:9:9"},
        "c": {
            "formula": "all",
            "inputs": {"water_ml": {"figures": ["a", "b"]}, "per_l": {"value": 1000.0}},
            "value": 0.65,
        },
        "still": {
            "formula": "all",
            "inputs": {"water_ml": {"figures": ["b"]}, "per_l": {"value": 10.0}},
            "value": 77.0,
        },
        "fits": {
            "formula": "few",
            "inputs": {"eaters": {"value": 2.0, "place": "trip:1:1"}},
            "value": 1.0,
        },
        "pots": {
            "formula": "pots",
            "inputs": {"water_ml": {"figure": "a"}},
            "value": 2.0,
            "guards": ["fits"],
        },
        "behind": {
            "formula": "all",
            "inputs": {"water_ml": {"figure": "pots"}, "per_l": {"value": 2.0}},
            "value": 1.0,
        },
        "refused": {
            "formula": "inverse",
            "inputs": {"eaters": {"value": 2.0, "place": "trip:1:1"}},
            "value": 1.0,
        },
    },
}
IDS = list(GRAPH["figures"])


@pytest.mark.parametrize(
    ("changed", "are"),
    [
        # Nothing changed: all as told, even what its expression would not give.
        ({}, {"a": [600, False, False], "c": [0.65, False, False], "still": [77, False, False]}),
        (
            {"trip:1:1": 3},
            {
                "a": [900, True, False], "c": [0.95, True, False], "still": [77, False, False],
                "b": [50, False, False], "pots": [2, True, False], "behind": [1, True, False],
                "refused": [0.5, True, False],
            },
        ),
        # The fourth eater turns the choice: no number for it, nor for what lies behind.
        (
            {"trip:1:1": 4},
            {
                "a": [1200, True, False], "fits": [0, True, False],
                "pots": [None, True, True], "behind": [None, True, True],
            },
        ),
        ({"trip:1:1": 1}, {"refused": [None, True, True], "a": [300, True, False]}),
        (
            {"trip:9:9": 400},
            {"a": [600, False, False], "c": [1, True, False], "still": [40, True, False]},
        ),
    ],
)  # fmt: skip
def test_what_rests_on_a_changed_leaf_follows_and_nothing_else(
    browser: Browser, changed: dict[str, float], are: dict[str, list[Any]]
) -> None:
    found = dict(zip(IDS, in_page(browser, WHERE, [GRAPH, changed, IDS]), strict=True))
    assert {name: found[name] for name in are} == are


def test_the_evaluator_runs_no_text() -> None:
    script = Path(ASSETS / "assets" / PARTS_FOLDER / "evaluate.js").read_text(encoding="utf-8")
    assert "eval(" not in script and "Function" not in script
