"""Gear and foods: each limit from both sides, each key read under its own name."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.food import Food, Perishable
from builder.model.gear import StoveTest
from tests.reading.folder_builder import GOOD, read

RECORDS = {
    "stoves": "{id: own, name: Own, burns: gas, power: 2 kW, efficiency: 50 %, mass: 80 g}",
    "fuels": "{id: own, name: Own, kind: gas, energy: 45 MJ/kg}",
    "pots": "{id: own, name: Own, holds: 2 l, mass: 240 g, material: steel}",
    "irons": "{id: own, name: Own, mass: 2 kg}",
    "packaging": "{id: own, name: Own, mass: 9 g, barrier: foil}",
    "dryers": "{id: own, name: Own, method: oven, load: 2 kg, hours: 12}",
    "foods": "{id: own, name: Own, kind: grain, state: dried, "
    "per_100g: {water: 10 g, energy: 360 kcal, protein: 10 g, fat: 2 g, carbohydrate: 76 g}}",
}


def with_key(section: str, key: str, value: str) -> str:
    """Give a file that holds one record, with a key set to a value (or taken out)."""
    record = RECORDS[section]
    before, _, rest = record.partition(f"{key}: ")
    if rest:
        end = min(each for each in (rest.find(", "), rest.find("}")) if each >= 0)
        told = f"{before}{key}: {value}" if value else before.removesuffix(", ")
        record = told + rest[end:]
    else:
        record = record[:-1] + f", {key}: {value}}}"
    return f"- {record}\n" if section == "foods" else f"{section}: [{record}]\n"


def kinds(folder: Path, section: str, key: str, value: str) -> list[str]:
    file = "foods/own.yaml" if section == "foods" else "gear/own.yaml"
    found = read(folder, {**GOOD, file: with_key(section, key, value)})
    return [each.kind for each in found.problems if each.severity == "error"]


@pytest.mark.parametrize(
    ("section", "key", "value", "kind"),
    [
        ("stoves", "power", "0 W", "out-of-range"),
        ("stoves", "efficiency", "0 %", "out-of-range"),
        ("stoves", "efficiency", "101 %", "out-of-range"),
        ("stoves", "lowest", "2000 W", ""),  # it knows one flame alone
        ("stoves", "lowest", "2001 W", "lowest"),
        ("stoves", "boiled", "soon", "stove-test"),
        ("stoves", "boiled", "1 l from 9 degC", "stove-test"),
        ("stoves", "boiled", "1 x from 9 degC with 14 g", "unit-unknown"),
        ("stoves", "boiled", "1 l from 9 degC with 14 g", ""),
        ("fuels", "energy", "0 MJ/kg", "out-of-range"),
        ("fuels", "energy", "450 MJ/kg", "out-of-range"),
        ("fuels", "mix", "{propane: 100 %}", ""),
        ("fuels", "mix", "{propane: 98 %}", "mix-sum"),
        ("fuels", "mix", "{propane: 50 %, butane: 52 %}", "mix-sum"),
        ("fuels", "mix", "{propane: 100 %, air: 0 %}", "key-unknown"),
        ("fuels", "containers", "[{holds: 230 g}]", ""),
        ("fuels", "containers", "[{holds: 230 g, of: tin}]", "key-unknown"),
        ("pots", "holds", "0 l", "out-of-range"),
        ("pots", "fill_to", "0 %", "out-of-range"),
        ("pots", "fill_to", "100 %", ""),
        ("pots", "pressure", "0 bar", "out-of-range"),
        ("irons", "presses", "0", "out-of-range"),
        ("irons", "presses", "1", ""),
        ("irons", "face", "0 cm2", "out-of-range"),
        ("packaging", "holds", "0 l", "out-of-range"),
        ("dryers", "load", "0 kg", "out-of-range"),
        ("dryers", "hours", "0", "out-of-range"),
        ("dryers", "hours", "500", ""),
        ("dryers", "hours", "501", "out-of-range"),
        ("dryers", "ice", "0 kg", "out-of-range"),
        ("dryers", "trays", "0 m2", "out-of-range"),
        ("foods", "density", "0 g/ml", "out-of-range"),
        ("foods", "piece", "0 g", "out-of-range"),
        ("foods", "keeps", "0 months", "out-of-range"),
        ("foods", "spread", "0 %", "out-of-range"),
        ("foods", "sorption", "starchy", ""),
        ("foods", "sorption", "sticky", "word-unknown"),
        ("foods", "dry_as", "pear", ""),
        ("foods", "dry_as", "stone", "word-unknown"),
        ("foods", "cut", "whole", ""),
        ("foods", "cut", "long", "word-unknown"),
        ("foods", "allergen_source", "own-scales", ""),
        ("foods", "allergen_source", "hearsay", "source-unknown"),
        ("foods", "source", "own-scales", ""),
        ("foods", "source", "hearsay", "source-unknown"),
        ("foods", "perishable", "{hours: 0}", "out-of-range"),
        ("foods", "perishable", "{hours: 8784}", ""),
        ("foods", "perishable", "{hours: 8785}", "out-of-range"),
        ("foods", "perishable", "{hours: 4, of: day}", "key-unknown"),
        *((room, "name", "", "missing") for room in RECORDS),
        *((room, "id", "Not Good", "id") for room in RECORDS),
        *((room, "mood", "good", "key-unknown") for room in RECORDS),
        *((room, "mass", "", "missing") for room in ("stoves", "pots", "irons", "packaging")),
        ("stoves", "burns", "", "missing"),
        ("stoves", "power", "", "missing"),
        ("stoves", "efficiency", "", "missing"),
        ("fuels", "kind", "", "missing"),
        ("fuels", "energy", "", "missing"),
        ("pots", "holds", "", "missing"),
        ("pots", "material", "", "missing"),
        ("packaging", "barrier", "", "missing"),
        ("dryers", "method", "", "missing"),
        ("dryers", "load", "", "missing"),
        ("foods", "kind", "", "missing"),
        ("foods", "state", "", "missing"),
    ],
)
def test_what_may_be_told(section: str, key: str, value: str, kind: str, tmp_path: Path) -> None:
    assert kinds(tmp_path, section, key, value) == ([kind] if kind else [])


def test_a_stove_tells_its_efficiency_or_a_test_of_its_own(tmp_path: Path) -> None:
    tested = with_key("stoves", "boiled", "1 l from 9 degC with 14 g")
    found = read(
        tmp_path / "1", {**GOOD, "gear/own.yaml": tested.replace("efficiency: 50 %, ", "")}
    )
    assert found.problems == ()
    assert found.content.gear.stoves["own"].efficiency_share is None
    bare = {**GOOD, "gear/own.yaml": with_key("stoves", "efficiency", "")}
    (told,) = (str(each) for each in read(tmp_path / "2", bare).problems)
    assert "error: this stove tells neither its `efficiency` nor a test of your own — " in told
    assert "`efficiency: 55 %`, or what it boiled: `boiled: 1 l from 9 degC with 14 g`" in told


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ("1 l from 9 degC with 14 g at 640 m", StoveTest(1000, 9, 14, 640)),
        ("500 ml from 15 degC with 8 g", StoveTest(500, 15, 8, 0)),
    ],
)
def test_a_test_of_ones_own_is_read_part_by_part(
    told: str, expected: StoveTest, tmp_path: Path
) -> None:
    found = read(tmp_path, {**GOOD, "gear/own.yaml": with_key("stoves", "boiled", told)})
    assert found.content.gear.stoves["own"].test == expected


def food(folder: Path, key: str, value: str) -> Food:
    found = read(folder, {**GOOD, "foods/own.yaml": with_key("foods", key, value)})
    assert found.problems == ()
    return found.content.foods["own"]


def test_each_word_of_a_food_is_read_under_its_own_name(tmp_path: Path) -> None:
    plain = food(tmp_path / "0", "game", "false")
    assert (plain.sorption, plain.dry_as, plain.cut, plain.game) == (None, None, None, False)
    assert food(tmp_path / "1", "sorption", "starchy").sorption == "starchy"
    assert food(tmp_path / "2", "dry_as", "pear").dry_as == "pear"
    assert food(tmp_path / "3", "cut", "whole").cut == "whole"
    assert food(tmp_path / "4", "game", "true").game
    assert food(tmp_path / "5", "keeps", "9 months").keeps_months == 9
    assert food(tmp_path / "6", "spread", "4 %").spread_share == pytest.approx(0.04)
    assert food(tmp_path / "7", "perishable", "{hours: 4, below: 6 degC}").perishable == (
        Perishable(4, 6)
    )
    assert food(tmp_path / "8", "allergen_source", "own-scales").allergen_source == ("own-scales",)


@pytest.mark.parametrize(
    ("kind", "energy", "told"),
    [("grain", "360 kcal", False), ("grain", "100 kcal", True), ("drink", "1 kcal", False)],
)
def test_energy_is_held_against_what_gives_it(
    kind: str, energy: str, told: bool, tmp_path: Path
) -> None:
    """76 g of carbohydrate, 10 g of protein and 2 g of fat give about 360 kcal."""
    text = with_key("foods", "energy", energy).replace("kind: grain", f"kind: {kind}")
    found = read(tmp_path, {**GOOD, "foods/own.yaml": text})
    assert bool(found.problems) is told
