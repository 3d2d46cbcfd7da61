"""Shipped foods, cautions and sources, read one by one when they are named."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.model.food import Food
from builder.problems import ProblemsFound
from builder.reading import vouched
from builder.reading.anew.cuttings import content_of_kit, cut
from builder.reading.dishes.foods import read_food
from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
from builder.reading.text.yaml_door import read_yaml
from builder.reading.vouched import Listed, listed_in
from tests.reading.folder_builder import SHIPPED, write

FOOD = """\
- id: {name}
  name: {name}
  kind: grain
  state: dried
  allergens: []
  per_100g: {{water: 10 g, protein: 10 g, carbohydrate: 80 g}}
"""


@pytest.fixture(scope="module")
def whole() -> Folder:
    return read_folder([Layer(SHIPPED, "content", ALWAYS_SHIPPED)])


@pytest.fixture(scope="module")
def named() -> Folder:
    return read_folder([Layer(SHIPPED, "content", ALWAYS_SHIPPED, vouched=True)])


def test_the_shipped_lists_have_no_fault(whole: Folder) -> None:
    """What is read one by one is not checked again where people use it."""
    faults = [str(each) for each in whole.problems if each.kind != "not-used-yet"]
    assert faults == []


@pytest.mark.parametrize("kind", ["foods", "cautions", "sources"])
def test_records_read_one_by_one_are_those_read_whole(
    kind: str, whole: Folder, named: Folder
) -> None:
    ours: Mapping[str, Any] = getattr(named.content, kind)
    assert set(ours) == set(getattr(whole.content, kind))
    assert named.own == whole.own
    for name, record in getattr(whole.content, kind).items():
        each = ours[name]
        assert each == record
        assert each.places.record == record.places.record
        assert each.places.fields == record.places.fields


@pytest.mark.parametrize(
    ("kind", "names"),
    [
        ("food", ("kidney-beans-canned", "olive-oil", "wine", "turkey-breast-raw")),
        ("caution", ("raw-dried-animal-food", "two-hours")),
        ("source", ("usda-sr28", "eu-1169-2011", "fsis-temperatures")),
    ],
)
def test_their_words_are_handed_on_with_their_comments(
    kind: str, names: tuple[str, ...], whole: Folder, named: Folder
) -> None:
    for name in names:
        key = (kind, name)
        assert cut(named.texts[key]) == cut(whole.texts[key])
        assert named.texts[key].path == whole.texts[key].path


RECIPE = """\
id: r
name: R
meal: [lunch]
serves: 1
cook_in: none
uses: [{food: olive-oil, amount: 10 g}]
steps: [{do: serve, with: [olive-oil]}]
"""


@pytest.fixture
def foods_read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Give where what was read one by one stands."""
    read: list[str] = []
    record: Callable[[Listed[Food]], Food] = Listed.record

    def spy(listed: Listed[Food]) -> Food:
        found = record(listed)
        read.append(f"{listed.shown} {found.id}")
        return found

    monkeypatch.setattr(Listed, "record", spy)
    return read


def over_shipped(folder: Path, files: Mapping[str, str | bytes], vouched: bool = True) -> Folder:
    mine = Layer(write(folder, files), "mine")
    return read_folder([Layer(SHIPPED, "shipped", ALWAYS_SHIPPED, vouched=vouched), mine])


def test_only_what_is_named_is_read(foods_read: list[str], tmp_path: Path) -> None:
    assert over_shipped(tmp_path, {"recipes/r.yaml": RECIPE}).problems == ()
    assert foods_read == ["shipped/foods/fats.yaml olive-oil"]


def test_of_a_kit_only_what_it_hands_on_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    folder = read_folder([Layer(SHIPPED, "content", vouched=True)])
    read: list[str] = []

    def spy(text: str, shown: str) -> object:
        read.append(shown)
        return read_yaml(text, shown)

    monkeypatch.setattr(vouched, "read_yaml", spy)
    assert "foods/fats.yaml" in content_of_kit(folder, "tarrow-tops", ())
    # All foods that a trip names were read when it was named; what foods rest on, nobody asked for.
    assert {*read} == {"content/sources.yaml"}


# -- files of the list that people copied into their folder ----------------------------------------

FATS = (SHIPPED / "foods/fats.yaml").read_bytes()
NUTS = (SHIPPED / "foods/nuts.yaml").read_bytes()
COPIED: Mapping[str, str | bytes] = {
    "recipes/r.yaml": RECIPE,
    "foods/fats.yaml": FATS,
    "foods/nuts.yaml": NUTS,
}
OWN_OIL = FOOD.format(name="olive-oil")
BROKEN_OIL = OWN_OIL.replace("kind: grain", "kind: grian")


def test_of_a_copied_list_only_what_is_named_is_read(foods_read: list[str], tmp_path: Path) -> None:
    found = over_shipped(tmp_path, COPIED)
    assert found.problems == ()
    assert foods_read == ["mine/foods/fats.yaml olive-oil"]


def test_line_ends_of_another_system_make_no_other_list(
    foods_read: list[str], tmp_path: Path
) -> None:
    over_shipped(tmp_path, {**COPIED, "foods/fats.yaml": FATS.replace(b"\n", b"\r\n")})
    assert foods_read == ["mine/foods/fats.yaml olive-oil"]


def test_a_copied_list_is_ones_own_and_says_the_same(tmp_path: Path) -> None:
    whole, named = (over_shipped(tmp_path, COPIED, vouched) for vouched in (False, True))
    assert (named.own, named.broken) == (whole.own, whole.broken)
    assert named.own > {("food", "olive-oil"), ("food", "walnuts")}
    assert set(named.content.foods) == set(whole.content.foods)
    for name in named.content.foods:
        key, food, same = ("food", name), named.content.foods[name], whole.content.foods[name]
        assert (food, food.places.record) == (same, same.places.record)
        assert (named.texts[key].path, cut(named.texts[key])) == (
            whole.texts[key].path,
            cut(whole.texts[key]),
        )


@pytest.mark.parametrize(
    ("files", "kinds"),
    [
        ({"foods/fats.yaml": FATS.replace(b"kind: fat", b"kind: fit", 1)}, {"word-unknown"}),
        ({"foods/fats.yaml": FATS.replace(b"name: ", b"nmae: ", 1)}, {"key-unknown"}),
        ({"foods/fats.yaml": FATS + b"- id: [\n"}, {"yaml"}),
        ({"foods/a.yaml": OWN_OIL}, {"id-twice"}),
        ({"foods/z.yaml": OWN_OIL}, {"id-twice"}),
        ({"foods/z.yaml": FATS}, {"id-twice"}),
        ({"foods/a.yaml": BROKEN_OIL}, {"word-unknown"}),
        ({"foods/z.yaml": BROKEN_OIL}, {"word-unknown"}),
        ({"foods/z.yml": FATS}, {"file-name"}),
        ({"foods/empty.yaml": b""}, {"file-name"}),
        ({"recipes/r.yaml": RECIPE.replace("olive-oil", "olive-oli")}, {"food-unknown"}),
    ],
)
def test_beside_a_copied_list_all_is_told_as_where_foods_are_read_whole(
    files: Mapping[str, str | bytes], kinds: set[str], tmp_path: Path
) -> None:
    folders = [over_shipped(tmp_path, {**COPIED, **files}, each) for each in (False, True)]
    whole, named = folders
    assert named.problems == whole.problems
    assert named.broken == whole.broken
    assert kinds <= {each.kind for each in named.problems}
    oils = [each.content.foods["olive-oil"] for each in folders]
    assert oils[0] == oils[1]
    assert oils[0].places.record == oils[1].places.record


def test_a_copied_list_takes_the_place_of_a_food_further_down(tmp_path: Path) -> None:
    layers = [
        Layer(SHIPPED, "shipped", ALWAYS_SHIPPED, vouched=True),
        Layer(write(tmp_path / "club", {"foods/a.yaml": OWN_OIL}), "club"),
        Layer(write(tmp_path / "mine", COPIED), "mine"),
    ]
    found = read_folder(layers)
    assert found.problems == ()
    assert str(found.content.foods["olive-oil"].places.record).startswith("mine/foods/fats.yaml:")
    assert found.texts["food", "olive-oil"].path == "foods/fats.yaml"


def test_a_list_without_ours_below_it_is_read_whole(foods_read: list[str], tmp_path: Path) -> None:
    found = read_folder([Layer(write(tmp_path, COPIED), "mine")])
    assert foods_read == []
    assert "source-unknown" in {each.kind for each in found.problems}


def test_a_food_of_ones_own_takes_the_place_of_a_shipped_one(tmp_path: Path) -> None:
    mine = Layer(write(tmp_path / "mine", {"foods/a.yaml": FOOD.format(name="olive-oil")}), "mine")
    found = read_folder([Layer(SHIPPED, "shipped", ALWAYS_SHIPPED, vouched=True), mine])
    assert found.content.foods["olive-oil"].kind == "grain"
    assert found.texts["food", "olive-oil"].path == "foods/a.yaml"
    assert ("food", "olive-oil") in found.own
    assert ("food", "butter") not in found.own


OWN_CAUTION = """\
- id: two-hours
  level: care
  title: Eat it soon
  text: "{}"
  sources: [our-own]
"""
OWN_SOURCE = "- id: our-own\n  title: Our own\n"


def test_a_caution_and_a_source_of_ones_own_take_the_place_of_shipped_ones(tmp_path: Path) -> None:
    files = {
        "cautions/a.yaml": OWN_CAUTION.format("Soon."),
        "sources.yaml": OWN_SOURCE + "\n- id: usda-sr28\n  title: The table\n",
    }
    whole, named = (over_shipped(tmp_path, files, each) for each in (False, True))
    assert named.problems == whole.problems == ()
    assert (named.own, named.broken) == (whole.own, whole.broken)
    caution = named.content.cautions["two-hours"]
    assert (caution.title, caution.sources) == ("Eat it soon", ("our-own",))
    assert named.content.sources["usda-sr28"].title == "The table"
    assert named.texts["source", "usda-sr28"].path == "sources.yaml"


def test_what_is_wrong_in_a_caution_of_ones_own_is_told_beside_ours(tmp_path: Path) -> None:
    files = {
        "cautions/a.yaml": OWN_CAUTION.format("Within {two hours}."),
        "sources.yaml": OWN_SOURCE * 2,
    }
    whole, named = (over_shipped(tmp_path, files, each) for each in (False, True))
    assert named.problems == whole.problems
    assert named.broken == whole.broken
    assert "id-twice" in {each.kind for each in named.problems}


def test_rooms_that_are_not_read_are_not_listed() -> None:
    rooms = tuple(room for room in ROOMS if room != "foods")
    assert not read_folder([Layer(SHIPPED, "shipped", rooms[:3], vouched=True)]).content.foods


def test_places_are_those_in_the_file() -> None:
    text = f"# Head.\n\n# About a.\n{FOOD.format(name='a')}\n{FOOD.format(name='b')}"
    listed = dict(listed_in("foods/x.yaml", "shown/x.yaml", text, read_food))
    assert list(listed) == ["a", "b"]
    assert [str(each.record().places.record) for each in listed.values()] == [
        "shown/x.yaml:4:3",
        "shown/x.yaml:11:3",
    ]


@pytest.mark.parametrize("fault", ["kind: grian", "kind: grain\n  kind: grain", 'kind: "grain'])
def test_a_fault_of_ours_is_told_not_passed_over(fault: str) -> None:
    text = FOOD.format(name="a").replace("kind: grain", fault)
    with pytest.raises(ProblemsFound, match=r"x\.yaml:"):
        dict(listed_in("foods/x.yaml", "x.yaml", text, read_food))["a"].record()
