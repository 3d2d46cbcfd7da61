"""A kit of somebody else changes no shipped record unasked, and loses no allergen."""

from __future__ import annotations

import random
import shutil
import zipfile
from pathlib import Path

import pytest

from builder.model.food import Composition, Food
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.record import replace
from builder.starts.strangers import joined_to_avoid
from tests.conftest import tripkit

ROOT = Path(__file__).parents[2]

OIL = """\
- id: olive-oil
  name: Olive oil
  kind: fat
  state: ready
  per_100g: &per {water: 44 g, energy: 500 kcal, fat: 56 g}   # watered down
  allergens: [sesame]
- id: trail-paste        # theirs alone
  name: Trail paste
  kind: fat
  state: ready
  per_100g: *per
  allergens: [nuts]
"""
TRIP = """\
title: Theirs
party: [{name: Cove}]
days:
  - camp_altitude: 300 m
    meals:
      lunch: [{eat: olive-oil, each: 10 g}, {eat: trail-paste, each: 30 g}]
"""


def kit_of(path: Path, **files: str) -> Path:
    with zipfile.ZipFile(path, "w") as kit:
        for name, text in {"trips/theirs.yaml": TRIP, "foods/theirs.yaml": OIL, **files}.items():
            kit.writestr(name, text)
    return path


def foods_here() -> dict[str, Food]:
    shipped = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
    found = read_folder([shipped, Layer(Path("content"), "content")])
    assert {each.kind for each in found.problems} <= {"not-used-yet"}
    return dict(found.content.foods)


def test_a_shipped_food_stays_and_gains_the_allergen(in_empty_folder: Path) -> None:
    kit_of(Path("theirs.zip"))
    shipped = read_folder(
        [Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)]
    ).content.foods
    assert shipped["olive-oil"].allergens == ()
    result = tripkit("new", "trip", "mine", "--from", "theirs.zip")
    assert result.exit_code == 0, result.output
    assert "Kept the shipped food 'olive-oil': the kit's has another per_100g, density, " in (
        result.output
    )
    assert "--take-theirs olive-oil takes the kit's." in result.output
    assert "Joined what both tell to avoid in food 'olive-oil'." in result.output
    foods = foods_here()
    assert foods["olive-oil"] == replace(shipped["olive-oil"], allergens=("sesame",))
    # The composition was named by *per, beside the food that stays behind.
    assert foods["trail-paste"].per_100g.energy_kcal == 500
    assert "# theirs alone" in Path("content/foods/mine.yaml").read_text()


def test_a_food_is_taken_where_a_person_says_so_and_keeps_our_allergens(
    in_empty_folder: Path,
) -> None:
    couscous = OIL.replace("olive-oil", "couscous-dry").replace("  allergens: [sesame]\n", "")
    trip = TRIP.replace("olive-oil", "couscous-dry")
    kit_of(Path("theirs.zip"), **{"foods/theirs.yaml": couscous, "trips/theirs.yaml": trip})
    result = tripkit("new", "trip", "mine", "--from", "theirs.zip", "--take-theirs", "couscous-dry")
    assert result.exit_code == 0, result.output
    assert "Took the kit's food 'couscous-dry'" in result.output
    food = foods_here()["couscous-dry"]
    assert food.per_100g.energy_kcal == 500
    # Theirs tells nothing, so it stays not told, and what ours tells is at least a trace.
    assert food.allergens is None
    assert food.may_contain == ("cereals-gluten",)


def test_to_take_what_does_not_differ_is_a_slip_of_the_pen(in_empty_folder: Path) -> None:
    kit_of(Path("theirs.zip"))
    result = tripkit("new", "trip", "mine", "--from", "theirs.zip", "--take-theirs", "olive-oli")
    assert result.exit_code == 1
    assert "no record 'olive-oli' that differs from a shipped one" in result.output
    assert "did you mean" in result.output.lower() and "olive-oil" in result.output
    assert not Path("content").exists()


SHARED = """\
title: &title Theirs
party: [&cove {name: Cove, sex: male}, {<<: *cove, name: Brook}]
usual: &usual
  air: {low: 4 degC, high: 16 degC}
  wind: windy     # from the west
days:
  - <<: *usual
    camp_altitude: 300 m
    meals: &food
      lunch: [{eat: couscous-dry, from: ours, each: 10 g}]
  - {<<: *usual, camp_altitude: 400 m, wind: sheltered, meals: *food}
"""
SHARED_BATCHES = """\
- &usual {id: other, food: couscous-dry, method: bought, best_before: 2099-01-01,
          packs: &packs {count: 9, of: 100 g}}
- {<<: *usual, id: ours}    # of the spring
"""


def test_what_a_kit_shares_by_anchors_comes_along(in_empty_folder: Path) -> None:
    trip = SHARED.replace("usual: &usual\n", "every_day: &usual\n")
    kit_of(
        Path("theirs.zip"),
        **{"trips/theirs.yaml": trip, "batches/all.yaml": SHARED_BATCHES, "foods/theirs.yaml": OIL},
    )
    result = tripkit("new", "trip", "mine", "--from", "theirs.zip", "--party", "Brook")
    assert result.exit_code == 0, result.output
    shipped = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
    found = read_folder([shipped, Layer(Path("content"), "content")]).content
    mine = found.trips["mine"]
    assert [(each.name, each.sex) for each in mine.party] == [("Brook", "male")]
    assert [each.camp.wind for each in mine.days] == ["windy", "sheltered"]
    assert [each.camp.air_low_c for each in mine.days] == [4, 4]
    assert all(day.meals[0].items[0].batches == (("", "ours"),) for day in mine.days)
    # One pack a day was eaten, by two, of the batch that the kit hands on; the other stays away.
    assert set(found.batches) == {"ours"}
    assert (found.batches["ours"].food, found.batches["ours"].pack_count) == ("couscous-dry", 9)
    assert "# of the spring" in Path("content/batches/mine.yaml").read_text()
    assert "# from the west" in Path("content/trips/mine.yaml").read_text()


def test_the_folder_of_a_kit_is_as_good_as_its_zip(in_empty_folder: Path) -> None:
    Path("kits/theirs").mkdir(parents=True)
    kit_of(Path("kits/theirs/content.zip"))
    result = tripkit("new", "trip", "mine", "--from", "kits/theirs")
    assert result.exit_code == 0, result.output
    assert "Kept the shipped food 'olive-oil'" in result.output
    Path("kits/other").mkdir()
    result = tripkit("new", "trip", "next", "--from", "kits/other")
    assert result.exit_code == 1
    assert "name a kit's zip" in result.output


def test_gear_of_a_shipped_id_stays_what_it_was(in_empty_folder: Path) -> None:
    gear = "packaging:\n  - {id: zip-bag, name: Bag, mass: 1 kg, barrier: foil}\n"
    kit_of(Path("theirs.zip"), **{"gear/theirs.yaml": gear})
    result = tripkit("new", "trip", "mine", "--from", "theirs.zip")
    assert result.exit_code == 0, result.output
    assert "Kept the shipped packaging 'zip-bag'" in result.output
    assert not Path("content/gear").exists()


def test_a_kit_with_flipped_bytes_is_told_and_nothing_is_written(in_empty_folder: Path) -> None:
    whole = kit_of(Path("theirs.zip")).read_bytes()
    draw, told = random.Random(12), 0
    for _ in range(16):
        damaged = bytearray(whole)
        damaged[draw.randrange(len(whole))] ^= 1 << draw.randrange(8)
        Path("bad.zip").write_bytes(damaged)
        result = tripkit("new", "trip", "mine", "--from", "bad.zip")
        assert result.exception is None or isinstance(result.exception, SystemExit)
        if result.exit_code:
            told += 1
            assert "bad.zip" in result.output and not Path("content").exists()
        else:
            shutil.rmtree("content")
    assert told > 5


def test_a_recipe_is_written_under_its_id_whatever_its_path(in_empty_folder: Path) -> None:
    recipe = (
        "id: paste-cup\nname: Paste cup\nmeal: [lunch]\nserves: 1\ncook_in: none\n"
        "uses: [{food: trail-paste, amount: 30 g}]\n"
        "steps: [{do: mix, with: [trail-paste], water: 20 ml}, {do: serve}]\n"
    )
    trip = TRIP.replace("{eat: trail-paste, each: 30 g}", "{cook: paste-cup}")
    kit_of(Path("theirs.zip"), **{"recipes/con/aux.yaml": recipe, "trips/theirs.yaml": trip})
    result = tripkit("new", "trip", "mine", "--from", "theirs.zip")
    assert result.exit_code == 0, result.output
    assert {path.as_posix() for path in Path("content/recipes").rglob("*")} == {
        "content/recipes/paste-cup.yaml"
    }


@pytest.mark.parametrize(
    ("stands", "other", "joined"),
    [
        (((), ()), (("milk",), ()), (("milk",), ())),
        ((("milk",), ()), (("nuts",), ("soybeans",)), (("milk", "nuts"), ("soybeans",))),
        ((("milk",), ("nuts",)), (("nuts",), ("milk",)), (("milk", "nuts"), ("nuts",))),
        ((None, ()), (("milk",), ("nuts",)), (None, ("milk", "nuts"))),
        ((None, ()), ((), ()), (None, ())),
        ((("milk",), ()), (None, ("nuts",)), (("milk",), ("nuts",))),
        ((("milk",), ("nuts",)), ((), ()), (("milk",), ("nuts",))),
    ],
)
def test_allergens_are_joined_and_never_lost(
    stands: tuple[tuple[str, ...] | None, tuple[str, ...]],
    other: tuple[tuple[str, ...] | None, tuple[str, ...]],
    joined: tuple[tuple[str, ...] | None, tuple[str, ...]],
) -> None:
    plain = Food("x", "X", "grain", "dried", Composition())
    one, two = (replace(plain, allergens=each[0], may_contain=each[1]) for each in (stands, other))
    found = joined_to_avoid(one, two)
    assert (found["allergens"], found["may_contain"]) == joined


@pytest.mark.parametrize(
    ("stands", "other", "joined"),
    [
        ((), ("meat",), ("meat",)),
        (("grain",), ("meat", "grain"), ("grain", "meat")),
        (("meat",), None, ("meat",)),
        # What nobody told of the one that stands is asked about, whatever the other tells.
        (None, ("meat",), None),
        (None, None, None),
    ],
)
def test_kinds_are_joined_and_never_lost(
    stands: tuple[str, ...] | None, other: tuple[str, ...] | None, joined: tuple[str, ...] | None
) -> None:
    plain = Food("x", "X", "other", "dried", Composition())
    one, two = (replace(plain, contains=each) for each in (stands, other))
    assert joined_to_avoid(one, two)["contains"] == joined


def test_what_is_told_to_be_in_a_plain_kind_is_kept() -> None:
    plain = Food("x", "X", "grain", "ready", Composition())
    with_meat = replace(plain, contains=("meat",))
    assert joined_to_avoid(plain, with_meat)["contains"] == ("meat",)
    assert joined_to_avoid(plain, plain)["contains"] is None
