"""Every number of a demo kit is a figure with its origin, down to files, sources and methods."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.pages.trip.book import write_book
from builder.planning.kit import plan_trip
from builder.planning.public import public_kit
from builder.planning.stock import check
from builder.reading.folder import Layer, read_folder
from tests.kit_json.reader import read, told_out
from tests.kit_json.test_figures import TRIPS

REPO = Path(__file__).parents[2]
# What nobody said the origin of.
UNSAID = {"not traced", "as told"}
# Bare numbers that change a unit, or belong to the form of an expression.
BARE = {0.0, 1.0, 2.0, 4.0, 10.0, 24.0, 60.0, 100.0, 1000.0, 3600.0, 1e-9}
# Numbers that are no figures: which day, which step, or points to draw a curve through.
NO_FIGURES = {
    "version": "of the format",
    "days.#.day": "which day",
    "days.#.order_of_work.#.entries.#.place": "which meal of the day",
    "days.#.order_of_work.#.entries.#.step": "which step of the recipe",
    "days.#.order_of_work.#.entries.#.potful": "which potful",
    "batches.#.run.curve.#.at_min": "a point of a drawing",
    "batches.#.run.curve.#.mass_g": "a point of a drawing",
    "trip.party.#.refused.#.day": "which day",
    "trip.party.#.refused.#.place": "which meal of the day",
    "trip.party.#.left_out.#.day": "which day",
    "cautions.#.at.days.#": "which day",
    "cautions.#.at.meal.day": "which day",
    "cautions.#.at.meal.place": "which meal of the day",
    "cautions.#.at.step": "which step",
    "mishaps.#.day": "which day",
    "mishaps.#.cold.#.day": "which day",
    "mishaps.#.cold.#.place": "which meal of the day",
    "mishaps.#.uneaten.#.day": "which day",
    "mishaps.#.uneaten.#.place": "which meal of the day",
    "mishaps.#.no_water_days.#": "which day",
    "mishaps.#.unsafe_days.#": "which day",
    "review.left.#.day": "which day",
    "review.water_days.#.day": "which day",
}
# Coefficients of published equations that stand in their expressions.
COEFFICIENTS = {
    "effort.walk_kcal": {1.5, 0.35, 2.4, 0.3, 7.65},
    "needs.lcda_walk_kcal": {1.44, 1.94, 0.43, 0.24, 0.34, 1.05, 1.1, 32.0},
    "boiling": {0.25},
}


def numbers(data: Any, path: str = "") -> Iterator[str]:
    """Give the address of every number."""
    if isinstance(data, Mapping):
        for key, each in data.items():
            yield from numbers(each, f"{path}.{key}" if path else key)
    elif isinstance(data, list):
        for place, each in enumerate(data):
            yield from numbers(each, f"{path}.{place}")
    elif isinstance(data, (int, float)) and not isinstance(data, bool):
        yield path


def shape(name: str) -> str:
    """Give an address without which one it is."""
    return re.sub(r"(?<=\.)\d+", "#", name)


def leaves(data: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Give every leaf, with the figure that it is or goes into."""
    for name, figure in data["figures"].items():
        if "formula" not in figure:
            yield name, figure
        for given in figure.get("inputs", {}).values():
            if "figure" not in given and "figures" not in given:
                yield name, given


def no_figures(data: Mapping[str, Any]) -> set[str]:
    """Give the shapes of addresses of numbers that are no figures, though they ought to be."""
    told = {key: each for key, each in data.items() if key not in ("figures", "formulas")}
    plain = {shape(name) for name in numbers(told) if name not in data["figures"]}
    return plain - set(NO_FIGURES)


@pytest.mark.parametrize("trip", TRIPS)
def test_every_number_is_a_figure(demo_kits: Path, trip: str) -> None:
    assert no_figures(read(demo_kits / trip / "kit.json")) == set()


@pytest.mark.parametrize("trip", TRIPS)
def test_every_number_of_a_public_kit_is_one_that_tells_no_place(trip: str) -> None:
    folder = read_folder([Layer(REPO / "content", "content")])
    stock, _ = check(folder.content)
    kit = plan_trip(folder.content.trips[trip], folder.content, stock)
    book = write_book(public_kit(kit, folder.content), REPO / "site_templates")
    data = told_out(json.loads(book.files["kit.json"]))
    assert no_figures(data) == set()
    assert not [leaf for _, leaf in leaves(data) if "place" in leaf]
    assert [leaf for _, leaf in leaves(data) if leaf.get("method") == "told by the party"]


@pytest.mark.parametrize("trip", TRIPS)
def test_every_leaf_says_where_it_is_from(demo_kits: Path, trip: str) -> None:
    data = read(demo_kits / trip / "kit.json")
    unsaid = {
        data["figures"][name].get("formula", shape(name))
        for name, leaf in leaves(data)
        if leaf.get("method") in UNSAID
    }
    assert unsaid == set()
    for name, leaf in leaves(data):
        assert {"place"} < set(leaf) or {"name", "source"} < set(leaf) or {"method"} < set(leaf), (
            name
        )


@pytest.mark.parametrize("trip", TRIPS)
def test_no_number_is_typed_into_an_expression(demo_kits: Path, trip: str) -> None:
    data = read(demo_kits / trip / "kit.json")
    typed = {}
    for name, formula in data["formulas"].items():
        bare = re.sub(r"[a-z][a-z0-9_]*", " ", formula["expression"])
        found = {float(each) for each in re.findall(r"\d+\.?\d*", bare)}
        odd = found - BARE - COEFFICIENTS.get(name, COEFFICIENTS.get(name.partition(".")[0], set()))
        if odd:
            typed[name] = odd
    assert typed == {}


def test_a_plain_number_and_a_leaf_without_a_word_are_seen() -> None:
    data = {"batches": [{"dried_g": 1.0, "planned": True}], "figures": {}}
    assert list(numbers({"batches": data["batches"]})) == ["batches.0.dried_g"]
    bad = {"figures": {"x": {"formula": "a", "inputs": {"a": {"value": 1.0, "method": "as told"}}}}}
    assert [leaf["method"] for _, leaf in leaves(bad)] == ["as told"]
