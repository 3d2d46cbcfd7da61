"""What lets editors help: schemas in the folder, and each file names its own."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.reading.kinds import KINDS, kind_of_file
from builder.starts import start_folder, start_record
from builder.starts.editors import bring_schemas, schema_files, with_schema_line

SHIPPED = Layer(Path(__file__).parents[2] / "content", "shipped", ALWAYS_SHIPPED)
LINE = b"# yaml-language-server: $schema="
FOOD = LINE + b"../.schemas/food.schema.json"
BOM = b"\xef\xbb\xbf"


@pytest.mark.parametrize(
    ("path", "before", "after"),
    [
        ("foods/a.yaml", b"- id: a\n", FOOD + b"\n- id: a\n"),
        ("foods/b/a.yaml", b"", LINE + b"../../.schemas/food.schema.json\n"),
        ("sources.yaml", b"[]", LINE + b".schemas/source.schema.json\n[]"),
        ("foods/a.yaml", b"a\r\nb\r\n", FOOD + b"\r\na\r\nb\r\n"),
        ("foods/a.yaml", BOM + b"a", BOM + FOOD + b"\na"),
        ("foods/a.yaml", LINE + b"x.json\nb", FOOD + b"\nb"),
        ("notes/a.yaml", b"a", b"a"),
        ("batches/a.csv", b"food\n", b"food\n"),
    ],
)
def test_a_file_names_its_schema_on_its_first_line(path: str, before: bytes, after: bytes) -> None:
    assert with_schema_line(path, before) == after
    assert with_schema_line(path, after) == after


def test_a_new_folder_completes_and_underlines(tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    start_folder(folder)
    content = folder / "content"
    for path in content.rglob("*.yaml"):
        kind = kind_of_file(path.relative_to(content).as_posix())
        if kind is not None:
            line = path.read_text("utf-8").partition("\n")[0]
            schema = (path.parent / line.partition("=")[2]).resolve()
            assert schema == (content / ".schemas" / kind.schema_name).resolve()
            assert json.loads(schema.read_text("utf-8"))["title"]
    settings = json.loads((folder / ".vscode" / "settings.json").read_text("utf-8"))
    named = {(folder / each).name for each in settings["yaml.schemas"] if (folder / each).is_file()}
    assert named == {kind.schema_name for kind in KINDS.values()}
    assert read_folder([SHIPPED, Layer(content, "mine")]).problems == ()


def test_a_new_record_brings_the_schemas(tmp_path: Path) -> None:
    (path,) = start_record(tmp_path, [SHIPPED, Layer(tmp_path, "mine")], "food", "own")
    assert path.read_bytes().startswith(LINE + b"../.schemas/food.schema.json\n")
    assert (tmp_path / ".schemas" / "food.schema.json").is_file()


def test_schemas_of_an_older_version_are_brought_up_to_date(tmp_path: Path) -> None:
    bring_schemas(tmp_path)
    old, own = (tmp_path / ".schemas" / name for name in ("food.schema.json", "gear.schema.json"))
    old.write_text('{"$comment": "Made by tripkit long ago"}', "utf-8")
    own.write_text('{"title": "my own"}', "utf-8")
    bring_schemas(tmp_path)
    assert old.read_bytes() == schema_files()[".schemas/food.schema.json"]
    assert own.read_text("utf-8") == '{"title": "my own"}'
    assert not list((tmp_path / ".schemas").glob("*.new"))


def test_nothing_is_written_through_a_link(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / ".schemas").symlink_to(elsewhere)
    bring_schemas(tmp_path / "mine")
    assert list(elsewhere.iterdir()) == []
