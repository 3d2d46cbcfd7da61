"""The guide is right: what it says to type runs as it stands, in order, in one folder."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from builder.cli import main
from builder.reading.declared.declaring import keys_of, records_in
from builder.reading.declared.json_schemas import schema_of
from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.reading.gear.gear_files import GearFile
from builder.reading.kinds import KINDS, kind_of_file
from builder.reading.text.yaml_door import as_json, read_yaml
from tests.guide import GUIDE, Block, blocks, pages, script

ROOT = Path(__file__).parents[1]
BLOCKS = tuple(blocks())
FILES = [each for each in BLOCKS if each.file]
PRINTED = [number for number, each in enumerate(BLOCKS) if each.kind == "text"]


def test_the_site_has_every_page() -> None:
    assert sorted(pages()) == sorted(path.name for path in (GUIDE / "pages").iterdir())


def test_a_block_is_a_file_or_commands_or_what_those_before_it_print() -> None:
    for before, block in pairwise(BLOCKS):
        assert block.kind in ("sh", "yaml", "text"), block
        assert block.kind != "yaml" or block.file, block
        assert block.kind != "text" or (before.kind == "sh" and before.page == block.page), block


@pytest.mark.parametrize("block", FILES, ids=str)
def test_a_file_is_as_its_schema_says(block: Block) -> None:
    kind = kind_of_file(block.file.removeprefix("content/"))
    assert kind is not None
    node, problems = read_yaml(block.text, block.file)
    assert node is not None and problems == []
    assert list(Draft202012Validator(schema_of(kind)).iter_errors(as_json(node))) == []


@pytest.mark.parametrize("page", pages())
def test_every_command_that_it_names_is_there(page: str) -> None:
    text = (GUIDE / "pages" / page).read_text("utf-8")
    for name in re.findall(r"tripkit ([a-z]+)", text):
        assert name in main.commands, name


@pytest.fixture(scope="module")
def followed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Mapping[int, str]]:
    """Follow the guide; give the folder and what each block of commands printed."""
    at = tmp_path_factory.mktemp("guide")
    command = at / "bin" / "tripkit"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m builder "$@"\n', "utf-8")
    command.chmod(0o755)
    paths = f"{command.parent}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(
        ["bash", "-c", script()],
        cwd=at,
        env={**os.environ, "PATH": paths, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, f"{done.stdout[-2000:]}\n{done.stderr[-2000:]}"
    parts = re.split(r"^== (\d+)\n", done.stdout, flags=re.MULTILINE)
    return at / "my-trips", dict(zip(map(int, parts[1::2]), parts[2::2], strict=True))


def test_all_of_it_runs_and_leaves_a_folder_without_errors(
    followed: tuple[Path, Mapping[int, str]],
) -> None:
    folder, _ = followed
    shipped = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
    found = read_folder([shipped, Layer(folder / "content", "content", ROOMS)])
    assert [str(each) for each in found.problems if each.severity == "error"] == []
    for trip in ("tarrow-tops", "lake-emmerin", "at-home"):
        assert (folder / "kits" / trip / "index.html").is_file()
    assert (folder / "kits-public" / "tarrow-tops.zip").is_file()


@pytest.mark.parametrize("number", PRINTED, ids=lambda number: str(BLOCKS[number]))
def test_what_it_shows_is_printed(number: int, followed: tuple[Path, Mapping[int, str]]) -> None:
    printed = followed[1][number - 1].replace("\xa0", " ")
    for line in BLOCKS[number].text.splitlines():
        assert line in printed, printed


def test_the_site_builds_with_every_key(tmp_path: Path) -> None:
    options = ("--quiet", "--strict", "--site-dir", str(tmp_path))
    subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", *options, "-f", str(GUIDE / "mkdocs.yml")],
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(ROOT)},
        check=True,
    )
    page = (tmp_path / "keys.html").read_text("utf-8")
    records = [kind.record for kind in KINDS.values() if kind.record is not GearFile]
    records += [
        each for field in keys_of(GearFile).values() for each in records_in(field.annotation)
    ]
    for record in records:
        for key in keys_of(record):
            assert f"<code>{key}</code>" in page
    assert "<!-- keys of" not in page
