"""Every figure of every demo, worked out from its leaves by a reader of its own."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from tests.kit_json.reader import Reader, at_address, read

TRIPS = ("graupel-ridge", "lake-emmerin", "rindle-fen", "tarrow-tops")
# As many, at least, as the smallest demo tells: fewer would mean that figures lost their origin.
LEAST_FIGURES = 1500


@pytest.mark.parametrize("trip", TRIPS)
def test_every_figure_follows_from_its_leaves(demo_kits: Path, trip: str) -> None:
    data = read(demo_kits / trip / "kit.json")
    reader = Reader(data)
    assert reader.differing() == {}
    # What is told once for many tells no value on the way: it is worked out all the same.
    assert all(math.isfinite(reader.value(name)) for name in data["figures"])
    assert len(reader.worth) > LEAST_FIGURES


def test_choices_stand_beside_their_figures_and_hold(demo_kits: Path) -> None:
    guards = 0
    for trip in TRIPS:
        data = read(demo_kits / trip / "kit.json")
        reader = Reader(data)
        for figure in data["figures"].values():
            for guard in figure.get("guards", ()):
                assert reader.value(guard) == 1
                guards += 1
    # One of the demos has two pots to choose from.
    assert guards > 10


@pytest.mark.parametrize("trip", TRIPS)
def test_each_id_is_an_address_of_the_same_number(demo_kits: Path, trip: str) -> None:
    data = read(demo_kits / trip / "kit.json")
    for name, figure in data["figures"].items():
        if not name.startswith("#"):
            assert at_address(data, name) == figure["value"], name


@pytest.mark.parametrize("trip", TRIPS)
def test_each_formula_is_told_once_and_used(demo_kits: Path, trip: str) -> None:
    data = read(demo_kits / trip / "kit.json")
    used = {figure["formula"] for figure in data["figures"].values() if "formula" in figure}
    assert used == set(data["formulas"])
    for formula in data["formulas"].values():
        assert set(formula) == {"expression", "symbols", "sources"}


@pytest.mark.parametrize("trip", TRIPS)
def test_leaves_lie_in_the_content_folder(demo_kits: Path, trip: str) -> None:
    data = read(demo_kits / trip / "kit.json")
    leaves = [each for each in data["figures"].values() if "place" in each]
    leaves += [
        given
        for figure in data["figures"].values()
        for given in figure.get("inputs", {}).values()
        if "place" in given
    ]
    assert leaves
    rooms = {each["place"].partition("/")[0] for each in leaves}
    assert rooms <= {"foods", "recipes", "gear", "batches", "trips"}


def test_a_lost_input_is_seen(demo_kits: Path) -> None:
    data = read(demo_kits / TRIPS[0] / "kit.json")
    name, figure = next(
        (name, each) for name, each in data["figures"].items() if each.get("inputs")
    )
    figure["inputs"].popitem()
    with pytest.raises(KeyError):
        Reader(data).value(name)
