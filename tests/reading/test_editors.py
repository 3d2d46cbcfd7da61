"""What editors show: each mistake is underlined where it stands, by schema and by server."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, ValidationError

from builder.reading.declared.json_schemas import schema_of
from builder.reading.kinds import KINDS, Kind, kind_of_file
from builder.reading.text.yaml_door import Entry, Node, as_json, read_yaml
from builder.starts.editors import bring_schemas, with_schema_line
from tests.reading.folder_builder import SHIPPED, SMALL, read
from tests.reading.language_server import COMMAND, LanguageServer, language_server
from tests.reading.spoiled_files import SPOILED, Spoiled

VALIDATORS = {name: Draft202012Validator(schema_of(kind)) for name, kind in KINDS.items()}
STARTS = SHIPPED.parent / "builder" / "starts" / "examples" / "folder" / "content"
Point = tuple[int, int]


def kind_of(spoiled: Spoiled) -> Kind:
    kind = kind_of_file(spoiled.path)
    assert kind is not None
    return kind


# -- by the schemas alone ---------------------------------------------------------------------


def leaves(errors: Iterable[ValidationError]) -> Iterator[ValidationError]:
    for each in errors:
        if each.context:
            yield from leaves(each.context)
        else:
            yield each


def at(node: Node, path: Iterable[str | int]) -> Node:
    for step in path:
        node = node.entries[step].node if isinstance(step, str) else node.items[step]
    return node


def entries(node: Node) -> Iterator[Entry]:
    for entry in node.entries.values():
        yield entry
        yield from entries(entry.node)
    for each in node.items:
        yield from entries(each)


def points_of(error: ValidationError, root: Node) -> Iterator[Point]:
    node = at(root, error.absolute_path)
    if error.validator is None:  # a key that must not be there; its path is not told
        for entry in entries(root):
            if as_json(entry.node) == error.instance:
                yield entry.place.line, entry.place.column
    elif error.validator == "additionalProperties":
        assert isinstance(error.schema, Mapping)
        known = error.schema["properties"]
        for name, entry in node.entries.items():
            if name not in known:
                yield entry.place.line, entry.place.column
    else:
        yield node.place.line, node.place.column


@pytest.mark.parametrize("spoiled", SPOILED, ids=str)
def test_a_schema_points_at_the_mistake(spoiled: Spoiled) -> None:
    node, _ = read_yaml(spoiled.text, spoiled.path)
    assert node is not None
    errors = VALIDATORS[kind_of(spoiled).name].iter_errors(as_json(node))
    assert spoiled.point in {point for each in leaves(errors) for point in points_of(each, node)}


@pytest.mark.parametrize("spoiled", SPOILED, ids=str)
def test_reading_refuses_what_is_underlined(tmp_path: Path, spoiled: Spoiled) -> None:
    found = read(tmp_path, {spoiled.path: spoiled.text}, SMALL).problems
    lines = [each.place.line for each in found if each.severity == "error"]
    assert lines, "the folder checks"


def patterns(schema: Any) -> Iterator[dict[str, Any]]:
    if isinstance(schema, list):
        for each in schema:
            yield from patterns(each)
    if isinstance(schema, dict):
        if isinstance(schema.get("pattern"), str):
            yield schema
        for each in schema.values():
            yield from patterns(each)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_no_editor_shows_a_pattern(kind: Kind) -> None:
    for each in patterns(schema_of(kind)):
        assert each.get("patternErrorMessage", "").startswith("write "), each


# -- by a server, where there is one ------------------------------------------------------------

needs_server = pytest.mark.skipif(COMMAND is None, reason="no yaml-language-server")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("editor")


@pytest.fixture(scope="module")
def server(folder: Path) -> Iterator[LanguageServer]:
    with language_server(folder) as found:
        yield found


def put(folder: Path, path: str, text: str) -> tuple[Path, str]:
    """Write a file as a content folder has it, with the line that names its schema."""
    bring_schemas(folder)
    told = with_schema_line(path, text.encode()).decode()
    target = folder / path
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(told, "utf-8")
    return target, told


@needs_server
@pytest.mark.parametrize("number", range(len(SPOILED)), ids=lambda number: str(SPOILED[number]))
def test_a_server_underlines_the_mistake(server: LanguageServer, folder: Path, number: int) -> None:
    spoiled = SPOILED[number]
    place = folder / str(number)
    place.mkdir()
    found = server.underlined(*put(place, spoiled.path, spoiled.text))
    line, column = spoiled.point
    line += 1  # below the line that names the schema
    starts = [start for (start, _), _ in found]
    if spoiled.text[spoiled.start] == "{":  # where a key is missing, the one above may be marked
        assert line in [each for each, _ in starts], found
    else:
        assert (line, column) in starts, found


@needs_server
@pytest.mark.parametrize("root", [SHIPPED, STARTS], ids=["shipped", "started"])
def test_a_server_is_quiet_on_what_ships(server: LanguageServer, folder: Path, root: Path) -> None:
    place = folder / f"of-{root.parent.name}"
    place.mkdir()
    for path in sorted(root.rglob("*.yaml")):
        name = path.relative_to(root).as_posix()
        assert server.underlined(*put(place, name, path.read_text("utf-8"))) == [], name


# path, text with the cursor at |, and what must be offered there
COMPLETED = [
    ("batches/a.yaml", "id: b\nfood: apple-raw\n|", {"method", "done", "fresh", "packs"}),
    ("batches/b.yaml", "- id: b\n  packs: {c|}", {"count", "in", "absorber"}),
    ("batches/c.yaml", "- method: |", {"dehydrator", "freeze-dryer", "oven", "sun", "bought"}),
    ("recipes/a.yaml", "steps:\n  - {do: |}", {"soak", "boil", "simmer", "serve"}),
    ("recipes/b.yaml", "steps:\n  - {do: simmer, m|}", {"minutes", "with", "stir", "say"}),
    ("recipes/c.yaml", "steps:\n  - {do: soak, water: |}", {"auto"}),
    ("trips/a.yaml", "title: T\n|", {"party", "days", "stove", "mug", "review"}),
    ("trips/b.yaml", "days:\n  - water: {camp: |}", {"tap", "stream", "lake", "snow"}),
    ("trips/c.yaml", "days:\n  - travel: [{by: walking, h|}]", {"hours", "distance", "for"}),
    ("trips/d.yaml", "days:\n  - meals:\n      dinner:\n        - |", {"cook", "eat", "for"}),
    ("home.yaml", "free:\n  |", {"mon", "sun"}),
    ("cautions/a.yaml", "- id: raw-meat\n  |", {"level", "title", "text"}),
    ("sources.yaml", "- id: x\n  |", {"title", "year", "read"}),
    ("gear/a.yaml", "stoves:\n  - id: x\n    |", {"burns", "power", "efficiency", "boiled"}),
    ("foods/a.yaml", "- id: x\n  allergens: [|]", {"milk", "nuts", "cereals-gluten"}),
]


@needs_server
@pytest.mark.parametrize(("path", "text", "offered"), COMPLETED)
def test_a_server_completes(
    server: LanguageServer, folder: Path, path: str, text: str, offered: set[str]
) -> None:
    before, _, after = text.partition("|")
    place = folder / f"completed-{path.replace('/', '-')}"
    place.mkdir()
    target, told = put(place, path, before + after)
    server.underlined(target, told)
    line = before.count("\n") + 2
    column = len(before) - before.rfind("\n")
    assert offered <= set(server.completed(target, line, column))
