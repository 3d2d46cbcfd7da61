"""JSON Schemas say what reading says: on all that ships, on every example, on what is wrong."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from builder.model.food import Composition, Food
from builder.model.home import Home
from builder.model.recipe import Recipe
from builder.model.trip import Person
from builder.reading.declared.declaring import keys_of, notes_of, read_as, record_in, walk
from builder.reading.declared.json_schemas import schema_of
from builder.reading.gear.gear_files import GearFile
from builder.reading.kinds import KINDS, kind_of_file
from builder.reading.notes import Notes
from builder.reading.text.yaml_door import as_json, read_yaml
from builder.reading.trips.at_hand import AtHand
from builder.reading.trips.trips import WrittenTrip, readied
from tests import schemas
from tests.reading.test_usual import EVERY

VALIDATORS = {name: Draft202012Validator(schema_of(kind)) for name, kind in KINDS.items()}
STARTS = schemas.ROOT / "builder" / "starts" / "examples" / "folder" / "content"


def plain(text: str) -> Any:
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and problems == []
    return as_json(node)


def test_what_is_made_of_the_declarations_is_up_to_date() -> None:
    for path, text in schemas.files().items():
        assert path.read_text("utf-8") == text, "run `python -m tests.schemas`"


@pytest.mark.parametrize("name", KINDS)
def test_each_schema_is_one(name: str) -> None:
    schema = json.loads((schemas.SCHEMAS / KINDS[name].schema_name).read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    assert schema["title"] and schema["description"]


FILES = [
    (root, path)
    for root in (schemas.ROOT / "content", STARTS)
    for path in sorted(root.rglob("*.yaml"))
    if kind_of_file(path.relative_to(root).as_posix())
]


@pytest.mark.parametrize(("root", "path"), FILES, ids=lambda path: path.name)
def test_all_that_ships_is_as_its_schema_says(root: Path, path: Path) -> None:
    kind = kind_of_file(path.relative_to(root).as_posix())
    assert kind is not None
    found = VALIDATORS[kind.name].iter_errors(plain(path.read_text("utf-8")))
    assert [f"{each.json_path}: {each.message}" for each in found] == []


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("food", "foods/all.yaml"),
        ("gear", "gear/all.yaml"),
        ("batch", "batches/all.yaml"),
        ("recipe", "recipes/pea-pot.yaml"),
        ("recipe", "recipes/loaf.yaml"),
    ],
)
def test_every_usual_number_is_as_its_schema_says(name: str, file: str) -> None:
    assert list(VALIDATORS[name].iter_errors(plain(EVERY[file]))) == []


RECORDS = {
    **{name: kind.record for name, kind in KINDS.items() if kind.record is not GearFile},
    **{name: record_in(field.annotation) for name, field in keys_of(GearFile).items()},
}

BEANS = ("black-beans-cooked",)
# Of two keys that exclude each other the examples tell the first.
EXCLUDED = {"batch": {"recipe", "planned"}}


# What the examples of a trip name.
AT_HAND = AtHand(
    recipes={
        "smoky-bean-pot": Recipe("smoky-bean-pot", "Smoky bean pot", 2.0, "pot", uses=(), steps=())
    },
    home=Home(people=(Person("Ash"),)),
)


@pytest.mark.parametrize("name", RECORDS)
def test_the_examples_make_a_record_that_reading_and_schema_take(name: str) -> None:
    record = RECORDS[name]
    assert record is not None
    examples = {key: notes_of(field).example for key, field in keys_of(record).items()}
    assert all(examples.values()), "each key has an example"
    told = examples.keys() - EXCLUDED.get(name, set())
    text = "\n".join(f"{key}: {examples[key]}" for key in examples if key in told)
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and problems == []
    notes = noted()
    ready = readied(node, notes, AT_HAND) if record is WrittenTrip else node
    assert read_as(record, ready, notes) is not None, notes
    assert [each for each in notes if each.kind not in ("unusual", "not-used-yet")] == []
    schema = name if name in VALIDATORS else "gear"
    plainly = as_json(node) if name in VALIDATORS else {name: [as_json(node)]}
    assert list(VALIDATORS[schema].iter_errors(plainly)) == []


def noted() -> Notes:
    """Begin with the food that examples name."""
    notes = Notes()
    notes.foods = {name: Food(name, name, "legume", "cooked", Composition()) for name in BEANS}
    return notes


def test_each_key_says_in_a_sentence_what_it_is() -> None:
    for kind in KINDS.values():
        for _, key, field in walk(kind.record):
            assert (field.description or "").endswith("."), f"{kind.name}: {key}"


PLUMS = """\
id: plums
name: Plums
kind: fruit
state: raw
per_100g: {water: 87 g, energy: 46 kcal, carbohydrate: 11 g}
"""
STOVE = "{id: own, name: Own, burns: gas, power: 2 kW, efficiency: 50 %, mass: 80 g}"
BOILED = STOVE.replace("efficiency: 50 %", "boiled: 1 l from 9 degC with 14 g")


@pytest.mark.parametrize(
    "text",
    [
        PLUMS,
        f"- {PLUMS}".replace("\n", "\n  ").rstrip(),
        PLUMS + "density: 0,72 g/ml",
        PLUMS + "piece: 1/2 oz",
        PLUMS + "piece: ½ OZ",
        PLUMS + "piece: 1 1/2 kg",
        PLUMS + "piece: 1.0320 g",
        PLUMS + "perishable: {hours: 2, below: -4 degC}",
        PLUMS + "allergens: []",
        PLUMS + "allergens: milk",
        PLUMS + "ndb: 11477",
        PLUMS + "keeps: 3 months\nprice: 1,60 per 500 g\ngame: true",
        PLUMS + "dried_price: 14 per kg",
        PLUMS.replace("name: Plums", "name: 1.50"),
        f"one: &one {{water: 1 g}}\n{PLUMS}".replace("one: &one {water: 1 g}\n", ""),
    ],
)
def test_what_reading_takes_the_schema_takes(text: str) -> None:
    assert read_problems(text) == []
    assert list(VALIDATORS["food"].iter_errors(plain(text))) == []


@pytest.mark.parametrize(
    "text",
    [
        PLUMS.replace("kind: fruit", "kind: friut"),
        PLUMS.replace("name: Plums\n", ""),
        PLUMS.replace("id: plums", "id: Plums"),
        PLUMS.replace("id: plums", "id: con"),
        PLUMS.replace("water: 87 g", "water: 87"),
        PLUMS.replace("water: 87 g", "water: 12 apples"),
        PLUMS.replace("water: 87 g", "water: 12 l"),
        PLUMS.replace("water: 87 g", "water: -12 g"),
        PLUMS.replace("water: 87 g", "wasser: 87 g"),
        PLUMS.replace("per_100g: {", "per_100g: [{").replace("}", "}]"),
        PLUMS + "piece: 1.000 g",
        PLUMS + "piece: 1,500 g",
        PLUMS + "piece: 0 g",
        PLUMS + "piece: 1/0 g",
        PLUMS + "piece: [1 g]",
        PLUMS + "colour: blue",
        PLUMS + "game: maybe",
        PLUMS + "allergens: [milks]",
        PLUMS + "perishable: {below: 20 degC}",
        PLUMS + "perishable: {hours: 0}",
        PLUMS + "perishable: 48 h",
        PLUMS + "hours: 8 h",
        PLUMS + "price: 3.20",
        PLUMS + "price: 3.20 per 1 l",
        "plums",
    ],
)
def test_what_reading_refuses_the_schema_refuses(text: str) -> None:
    assert read_problems(text)
    assert list(VALIDATORS["food"].iter_errors(plain(text)))


def read_problems(text: str, name: str = "food") -> list[str]:
    node, _ = read_yaml(text, "f.yaml")
    assert node is not None
    notes = noted()
    for each in node.items or (node,):
        read_as(KINDS[name].record, each, notes)
    return [str(each) for each in notes if each.severity == "error"]


@pytest.mark.parametrize(
    ("text", "good"),
    [
        (f"stoves: [{STOVE}]", True),
        (f"stoves: [{STOVE}]\ncolour: blue", False),
        (f"stoves: {STOVE}", False),
        (f"stoves: [{STOVE.replace('2 kW', '2 kg')}]", False),
        (f"stoves: [{BOILED}]", True),
        (f"stoves: [{BOILED.replace('1 l from', 'soon')}]", False),
        ("dryers: [{id: s, name: S, method: bought, load: 3 kg, hours: 12}]", False),
        ("dryers: [{id: s, name: S, method: oven, load: 3 kg, hours: 12, from: 35}]", False),
    ],
)
def test_gear_is_held_to_its_schema(text: str, good: bool) -> None:
    assert VALIDATORS["gear"].is_valid(plain(text)) == good


RUN = "food: plums, method: oven, done: 2031-05-04, fresh: 900 g, dried: 160 g"
SHOP = "food: plums, method: bought, id: plums, packs: {count: 3, of: 120 g}"


@pytest.mark.parametrize(
    ("text", "good"),
    [
        (RUN, True),
        (RUN.replace("food", "recipe"), True),
        (RUN.replace("food: plums, ", ""), False),
        (RUN + ", recipe: plum-pot", False),
        (RUN.replace("method: oven, ", ""), False),
        (RUN.replace("oven", "freeze-dryer") + ", ice: 700 g, loaded_at: -18 degC", True),
        (RUN + ", ice: 700 g", False),
        (RUN + ", loaded_at: -18 degC", False),
        (RUN.replace("fresh: 900 g, ", ""), False),
        (RUN.replace(", dried: 160 g", ""), False),
        (RUN.replace("done", "planned").replace(", dried: 160 g", ""), True),
        (RUN.replace("done: 2031-05-04", "started: 2031-05-04T08:00"), True),
        (RUN.replace("done: 2031-05-04, ", ""), False),
        (RUN + ", planned: 2031-05-04", False),
        (RUN + ", packs: {count: 4, in: foil-pouch, shelf: cellar}", True),
        (RUN + ", packs: {count: 4, of: 120 g}", False),
        (RUN + ", packs: {in: foil-pouch}", False),
        (RUN + ", kept_at: 12 degC", True),
        (RUN + ", kept_at: [{at: 22 degC, until: 2031-06-01}, {at: -18 degC}]", True),
        (RUN + ", kept_at: [{until: 2031-06-01}]", False),
        (RUN + ", kept_at: 12 g", False),
        (RUN + ", tests: [snap, jar], used: 2, run: may-4", True),
        (RUN + ", tests: [snaps]", False),
        (RUN + ", used: 0.5", False),
        (RUN + ", heated: {to: 74 degC, when: before}", True),
        (RUN + ", heated: {to: 74 degC}", False),
        (RUN + ", weighings: [{at: 3 h, mass: 700 g}]", True),
        (RUN + ", weighings: {at: 3 h, mass: 700 g}", False),
        (RUN + ", started: 2031-05-04", False),
        (SHOP + ", best_before: 2032-05-01", True),
        (SHOP.replace(", of: 120 g", ""), False),
        (SHOP.replace(", packs: {count: 3, of: 120 g}", ""), False),
    ],
)
def test_reading_and_schema_agree_on_a_batch(text: str, good: bool) -> None:
    text = f"- {{{text}}}"
    assert (read_problems(text, "batch") == []) == good
    assert VALIDATORS["batch"].is_valid(plain(text)) == good


POT = """\
id: pot
name: Pot
serves: 2
cook_in: pot
uses: [{id: beans, food: black-beans-cooked, dried_by: oven, amount: 80 g}]
steps: [{do: boil, with: [beans], water: 300 ml}]
"""
IRON = POT.replace("cook_in: pot", "cook_in: iron")
BOIL = "{do: boil, with: [beans], water: 300 ml}"


@pytest.mark.parametrize(
    ("text", "good"),
    [
        (POT, True),
        (POT + "reach: 74 degC\ndrain: 100 ml\nmeal: dinner\nnote: Salt it.", True),
        (POT + "cooked: 2.3 kg\npicture: {file: pot.jpg, shows: The pot}", True),
        (POT + "picture: pot.jpg", False),
        (POT + "picture: {file: pot.jpg}", False),
        (POT + "picture: {file: pot.heic, shows: The pot}", False),
        (POT + "cooked: 2.3 l", False),
        (POT.replace("serves: 2\n", ""), False),
        (POT.replace("serves: 2", "serves: 0"), False),
        (POT.replace("cook_in: pot", "cook_in: cauldron"), False),
        (POT.replace("food: ", "recipe: "), True),
        (POT.replace(", amount: 80 g", ""), False),
        (POT.replace("80 g", "80"), False),
        (POT.replace("80 g", "80 cm"), False),
        (POT.replace("80 g", "1.000 g"), False),
        (POT.replace("food: black-beans-cooked, ", ""), False),
        (POT.replace("food: black-beans-cooked", "food: black-beans-cooked, recipe: b"), False),
        *(
            (pot.replace(BOIL, step), good)
            for pot, step, good in (
                (POT, "{do: soak, with: beans, water: auto, minutes: 10, hot: true}", True),
                (POT, "{do: soak, with: beans, water: auto}", False),
                (POT, "{do: soak, with: beans, water: often, minutes: 10}", False),
                (POT, "{do: soak, with: beans, minutes: 10, each_side: 4 min}", False),
                (POT, "{do: simmer, with: beans, minutes: 10, lid: true}", True),
                (POT, "{do: simmer, with: beans, minutes: 10, water: 1 l}", False),
                (POT, "{do: rest, with: beans}", False),
                (POT, "{do: fry, with: beans, minutes: 2881}", False),
                (POT, "{do: mix, with: beans, water: 100 ml, stir: true}", True),
                (POT, "{do: mix, with: beans, minutes: 3}", False),
                (POT, "{do: bake, with: beans, minutes: 30, at: 180 degC}", True),
                (POT, "{do: bake, with: beans, minutes: 30}", False),
                (IRON, "{do: press, with: beans, each_side: 4 min, pieces: 2}", True),
                (IRON, "{do: press, with: beans, pieces: 2}", False),
                (IRON, "{do: press, with: beans, each_side: 4 min, at: 180 degC}", False),
                (POT, "{do: serve, with: beans, say: Split <beans> by eye.}", True),
                (POT, "{do: serve, stir: true}", False),
                (POT, "{do: boil, water: 100 ml}, {do: part}, {do: serve, with: beans}", True),
                (POT, "{do: part, with: beans}", False),
                (POT, "{do: stew, with: beans}", False),
                (POT, "{with: beans}", False),
                (POT, "boil", False),
            )
        ),
    ],
)
def test_reading_and_schema_agree_on_a_recipe(text: str, good: bool) -> None:
    assert (read_problems(text, "recipe") == []) == good
    assert VALIDATORS["recipe"].is_valid(plain(text)) == good
