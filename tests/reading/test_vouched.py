"""The shipped foods, read one by one when they are named."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.problems import ProblemsFound
from builder.reading.anew.cuttings import cut
from builder.reading.dishes.vouched import Listed, foods_listed
from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
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
    return read_folder([Layer(SHIPPED, "content", ("foods", "sources.yaml"))])


@pytest.fixture(scope="module")
def named() -> Folder:
    return read_folder([Layer(SHIPPED, "content", ("foods", "sources.yaml"), vouched=True)])


def test_the_shipped_foods_have_no_fault(whole: Folder) -> None:
    """What is read one by one is not checked again where people use it."""
    faults = [str(each) for each in whole.problems if each.kind != "not-used-yet"]
    assert faults == []


def test_foods_read_one_by_one_are_those_read_whole(whole: Folder, named: Folder) -> None:
    assert set(named.content.foods) == set(whole.content.foods)
    assert named.own == whole.own
    for name, food in whole.content.foods.items():
        each = named.content.foods[name]
        assert each == food
        assert (each.places.record, each.places.fields) == (food.places.record, food.places.fields)


def test_their_words_are_handed_on_with_their_comments(whole: Folder, named: Folder) -> None:
    for name in ("kidney-beans-canned", "olive-oil", "wine", "turkey-breast-raw"):
        key = ("food", name)
        assert cut(named.texts[key]) == cut(whole.texts[key])
        assert named.texts[key].path == whole.texts[key].path


def test_only_what_is_named_is_read(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    read: list[str] = []
    food: Callable[[Listed], object] = Listed.food

    def spy(listed: Listed) -> object:
        read.append(listed.text.split("- id: ")[1].split("\n")[0])
        return food(listed)

    monkeypatch.setattr(Listed, "food", spy)
    recipe = "id: r\nname: R\nmeal: [lunch]\nserves: 1\ncook_in: none\n"
    recipe += "uses: [{food: olive-oil, amount: 10 g}]\nsteps: [{do: serve, with: [olive-oil]}]\n"
    mine = Layer(write(tmp_path / "mine", {"recipes/r.yaml": recipe}), "mine")
    found = read_folder([Layer(SHIPPED, "shipped", ALWAYS_SHIPPED, vouched=True), mine])
    assert found.problems == ()
    assert read == ["olive-oil"]


def test_a_food_of_ones_own_takes_the_place_of_a_shipped_one(tmp_path: Path) -> None:
    mine = Layer(write(tmp_path / "mine", {"foods/a.yaml": FOOD.format(name="olive-oil")}), "mine")
    found = read_folder([Layer(SHIPPED, "shipped", ALWAYS_SHIPPED, vouched=True), mine])
    assert found.content.foods["olive-oil"].kind == "grain"
    assert found.texts["food", "olive-oil"].path == "foods/a.yaml"
    assert ("food", "olive-oil") in found.own
    assert ("food", "butter") not in found.own


def test_rooms_that_are_not_read_are_not_listed() -> None:
    rooms = tuple(room for room in ROOMS if room != "foods")
    assert not read_folder([Layer(SHIPPED, "shipped", rooms[:3], vouched=True)]).content.foods


def test_places_are_those_in_the_file() -> None:
    text = f"# Head.\n\n# About a.\n{FOOD.format(name='a')}\n{FOOD.format(name='b')}"
    listed = dict(foods_listed("foods/x.yaml", "shown/x.yaml", text))
    assert list(listed) == ["a", "b"]
    assert [str(each.food().places.record) for each in listed.values()] == [
        "shown/x.yaml:4:3",
        "shown/x.yaml:11:3",
    ]


@pytest.mark.parametrize("fault", ["kind: grian", "kind: grain\n  kind: grain", 'kind: "grain'])
def test_a_fault_of_ours_is_told_not_passed_over(fault: str) -> None:
    text = FOOD.format(name="a").replace("kind: grain", fault)
    with pytest.raises(ProblemsFound, match=r"x\.yaml:"):
        dict(foods_listed("foods/x.yaml", "x.yaml", text))["a"].food()
