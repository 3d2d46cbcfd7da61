# ruff: noqa: E501 - records stand whole, one a line
"""Nothing a person can write raises: spoilt records, odd structures, noise, in every room."""

from __future__ import annotations

import copy
import json
import re
import shutil
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
from builder.reading.text.yaml_door import as_json, read_yaml
from tests.reading.folder_builder import (
    BEAN_POT,
    BEANS_IN_MAY,
    SMALL,
    TRIP,
    changed,
    dangling,
    write,
)

# One record of each room with every field in use, so that each field is spoilt some time.
RICH = {
    "sources.yaml": '[{id: a-book, title: A book, publisher: P, author: A, read: true, how: copy, year: 2011, url: "https://example.org"}]',
    "cautions/c.yaml": "[{id: two-hours, level: danger, title: T, text: Eat it, sources: [a-book]}]",
    "gear/g.yaml": """\
stoves: [{id: mine, name: Mine, burns: mix, power: 2 kW, lowest: 300 W, efficiency: 50 %, mass: 80 g, liquid_feed: true}]
fuels: [{id: mix, name: Mix, kind: gas, energy: 45 MJ/kg, mix: {propane: 30 %, butane: 70 %}, containers: [{holds: 230 g, empty: 150 g}]}]
pots: [{id: billy, name: Billy, holds: 2.5 l, fill_to: 80 %, mass: 520 g, material: steel, loss_at_boil: 120 W, pressure: 0.8 bar}]
irons: [{id: two, name: Two, presses: 2, mass: 2.6 kg, material: aluminium, face: 290 cm2}]
packaging: [{id: jar, name: Jar, mass: 260 g, barrier: glass}]
dryers: [{id: shelf, name: Shelf, method: oven, load: 3 kg, hours: 12.5, ice: 2 kg, trays: 0.4 m2}]
""",
    "foods/f.yaml": '[{id: peas, name: Peas, kind: legume, state: raw, density: 0.7 g/ml, piece: 2 g, cut: whole, game: false, allergens: [nuts, eggs], contains: [egg], beware: [honey], source: a-book, ndb: "01", sorption: starchy, dry_as: pea, keeps: 4 months, spread: 1.61 %, perishable: {hours: 48, below: 20 degC}, per_100g: {water: 79 g, energy: 81 kcal, protein: 5 g, fat: 1 g, carbohydrate: 14 g, fibre: 5 g, sodium: 5 mg, ash: 1 g, alcohol: 0 g}}]',
    "recipes/bean-pot.yaml": changed(BEAN_POT, "serves: 2", "serves: 2\nmeal: [dinner]\nreach: 74 degC\ndrain: 10 ml\nnote: N"),
    "recipes/pockets.yaml": "{id: pockets, name: P, serves: 1, cook_in: iron, uses: [{id: stew, recipe: bean-pot, dried_by: oven, amount: 90 g}, {food: rice, amount: 2 pieces}], steps: [{do: mix, with: [stew, rice], water: ½ cup}, {do: press, each_side: 4 min, pieces: 2}]}",
    "batches/b.yaml": changed(BEANS_IN_MAY, "in: zip-bag", "in: jar, absorber: true")
    + "used: 1\nkept_at: 15 degC\nheated: {to: 74 degC, when: before}\nstyle: jerky\nconstant: true\nnotes: N\nbest_before: 2032-01-01\nweighings: [{at: 3 h, mass: 700 g}, {at: 6 h, mass: 400 g}]\n",
    "batches/bought.yaml": "[{id: shop, food: rice, method: bought, packs: {count: 3, of: 120 g}}]",
    "home.yaml": """\
people: [{name: Cove, sex: male, age: 61, mass: 80 kg, height: 180 cm, avoids: [nuts], own_gear: 5 kg, carries_to: 12 kg, pregnant: false, nursing: false}]
dryers: [shelf]
free: {fri: "17:00-22:00", sat: ["08:00-12:00", "13:00-22:00"]}
electricity: 0.31 per kWh
currency: EUR
batch: {packs: {in: jar, absorber: true}, kept_at: 15 degC}
mug: 250 ml
units: us
language: de
portion: 60 g
""",
    "trips/tarrow.yaml": changed(
        changed(TRIP, "own_gear: 6 kg", "own_gear: 6 kg, carries_to: 14 kg, avoids: [nuts], pregnant: false, nursing: false"),
        "days:\n  - camp_altitude: 640 m\n",
        """\
start: 2031-09-04
units: us
language: en
shelter: tent
mug: 300 ml
washing: 1 l
notes: N
fire: {allowed: true, irons: [two], pots: [billy], wood_moisture: 20 %, wood: oak}
gear_shared: [{name: Tarp, mass: 780 g}]
chilled: {until: {day: 1, meal: dinner}}
review: {}
start_camp: {camp_altitude: 90 m, air: {low: 4 degC}, wind: breezy, water: {camp: tap}}
every_day: {air: {low: 4 degC, high: 16 degC}, wind: sheltered, water: {camp: stream, treat: filter, at: 8 degC, between_water: 3 h}, travel: {by: walking, hours: 5, distance: 13 km, ascent: 560 m, descent: 90 m, ground: path, load: 14 kg}}
days:
  - {camp_altitude: 100 m, home: [breakfast], meals: {lunch: {cook: pockets, for: [Ash]}}}
  - title: Two
    notes: N
    camp_altitude: 640 m
""",
    )
    + "      drinks: [{eat: Cocoa, each: 20 g, energy: 380 kcal, allergens: [milk], for: Ash}, {eat: rice, from: shop, each: 5 g, dried_by: oven}]\n"
    + "  - {ends: home, meals: {lunch: [{eat: rice, each: 1 oz}]}}\n",
}  # fmt: skip


def trees() -> dict[str, Any]:
    """Give the rich files as plain values."""
    found = {}
    for name, text in RICH.items():
        node, problems = read_yaml(text, name)
        assert node is not None and problems == []
        found[name] = as_json(node)
    return found


TREES = trees()


def paths(tree: Any, above: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Give the way to every node of a tree."""
    if isinstance(tree, dict):
        below = [path for key in tree for path in paths(tree[key], (*above, key))]
    elif isinstance(tree, list):
        below = [path for n, each in enumerate(tree) for path in paths(each, (*above, n))]
    else:
        below = []
    return [above, *below]


SPOTS = [(name, path) for name, tree in TREES.items() for path in paths(tree) if path]
ODD: list[Any] = [
    None, True, False, 0, 1, -1, 0.5, 16, 1e14, "", " ", "x", "no", "auto", "home", "none", "vegan",
    "nan", ".inf", "1e3", "5 g", "-5 g", "0 g", "5 kg", "2 cups", "3 pieces", "0 km", "0.001 mm", "12 km",
    "900 degC", "-70 degC", "400 %", "0 %", "100 %", "1 min", "48 h", "2031-02-30", "2199-12-31",
    "beans", "rice", "bean-pot", "beans-may", "pockets", "shop", "Ash", "resting", "snow", "press", "mug",
    "iron", "bought", "sun", "raw", "meat", "a\nb", "a\u202eb", "🍲" * 30, "<beans>", "x" * 5000, "-", "../x",
    [], {}, [[]], [None], [{}], {"a": 1}, {"low": "5 g"}, ["beans", "beans"], [1, [2, [3]]], {"": ""},
]  # fmt: skip


HARMFUL = re.compile("[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")


def put(tree: Any, path: tuple[Any, ...], value: Any) -> None:
    for step in path[:-1]:
        tree = tree[step]
    tree[path[-1]] = value


def read_trees(files: dict[str, Any]) -> Folder:
    """Write trees as JSON, which is YAML, and read them over the small layer."""
    return read_texts({name: json.dumps(tree, ensure_ascii=False) for name, tree in files.items()})


def read_texts(files: dict[str, Any]) -> Folder:
    folder = Path(tempfile.mkdtemp(prefix="fuzz-"))
    try:
        low = Layer(write(folder / "small", SMALL), "small", ALWAYS_SHIPPED)
        return read_folder([low, Layer(write(folder / "my", files), "my")])
    finally:
        shutil.rmtree(folder)


def hold(found: Folder) -> None:
    """Hold what must be true of anything that was read."""
    for problem in found.problems:
        line = str(problem)
        assert not HARMFUL.search(line), "one line, no sign that a terminal would obey"
        assert len(line) < 1500
        assert problem.mend, "each problem says what would do"
        assert problem.place.file.startswith("my")
        assert problem.place.line >= 1 and problem.place.column >= 1
        assert "Node(place" not in line and "Entry(place" not in line and "found None" not in line
    assert list(found.problems) == sorted(found.problems, key=lambda each: each.place)
    assert dangling(found.content) == []


def test_the_rich_files_are_right() -> None:
    found = read_trees(TREES)
    assert [str(problem) for problem in found.problems] == []
    assert list(found.content.trips) == ["tarrow"]
    assert {name.partition("/")[0] for name in TREES} == set(ROOMS)


@pytest.mark.parametrize("name", sorted(RICH))
def test_each_node_may_be_missing(name: str) -> None:
    for path in paths(TREES[name]):
        if not path:
            continue
        files = copy.deepcopy(TREES)
        parent = files[name]
        for step in path[:-1]:
            parent = parent[step]
        del parent[path[-1]]
        hold(read_trees(files))


@given(st.lists(st.tuples(st.sampled_from(SPOTS), st.sampled_from(ODD)), min_size=1, max_size=4))
def test_any_node_may_be_anything(spoilt: list[tuple[tuple[str, tuple[Any, ...]], Any]]) -> None:
    files = copy.deepcopy(TREES)
    for (name, path), value in spoilt:
        try:
            put(files[name], path, copy.deepcopy(value))
        except (KeyError, IndexError, TypeError):
            continue  # a change above took the place away
    hold(read_trees(files))


@given(st.sampled_from(SPOTS), st.sampled_from(SPOTS))
def test_any_node_may_stand_where_another_belongs(
    here: tuple[str, tuple[Any, ...]], there: tuple[str, tuple[Any, ...]]
) -> None:
    files = copy.deepcopy(TREES)
    moved: Any = TREES[there[0]]
    for step in there[1]:
        moved = moved[step]
    put(files[here[0]], here[1], copy.deepcopy(moved))
    hold(read_trees(files))


@given(st.sampled_from(SPOTS), st.text("abcdeilmnoprstuy_- ", min_size=1, max_size=12))
def test_any_key_may_be_misspelt(spot: tuple[str, tuple[Any, ...]], key: str) -> None:
    name, path = spot
    files = copy.deepcopy(TREES)
    parent = files[name]
    for step in path[:-1]:
        parent = parent[step]
    if isinstance(parent, dict):
        parent[key] = parent.pop(path[-1])
    hold(read_trees(files))


words = st.sampled_from([*(each for each in ODD if isinstance(each, str)), "id", "name", "food"])
KEYS = sorted({path[-1] for _, path in SPOTS if isinstance(path[-1], str)})
shapes = st.recursive(
    st.none() | st.booleans() | st.integers(-100, 10**6) | words | st.text(max_size=12),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.sampled_from(KEYS) | st.text(max_size=6), inner, max_size=6)
    ),
    max_leaves=20,
)


@given(st.sampled_from(sorted(RICH)), shapes)
def test_any_shape_of_known_keys_may_fill_a_file(name: str, shape: Any) -> None:
    found = read_trees({**TREES, name: shape})
    hold(found)


@given(st.sampled_from(sorted(RICH)), st.binary(max_size=300))
def test_any_bytes_may_fill_a_file(name: str, raw: bytes) -> None:
    found = read_texts({**RICH, name: raw})
    hold(found)


@given(st.sampled_from(sorted(RICH)), st.data())
def test_a_file_may_be_cut_off_or_hit_anywhere(name: str, data: st.DataObject) -> None:
    text = RICH[name]
    at = data.draw(st.integers(0, len(text)))
    junk = data.draw(
        st.sampled_from(
            ["", ":", "\t", "'", '"', "[", "}", "&x ", "*x", "\x00", "- ", "\n", "!", "#", "é", "½"]
        )
    )
    rest = data.draw(st.sampled_from(["", text[at:], text[at + 1 :]]))
    found = read_texts({**RICH, name: text[:at] + junk + rest})
    hold(found)
