"""The guide is right: what it says to type runs as it stands, in order, in one folder."""

from __future__ import annotations

import re
import warnings
from collections.abc import Mapping
from html import unescape
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import click
import guide_followed
import pytest
from guide_followed import FOLDER, GUIDE, Block, blocks, follow, pages
from guide_pictures import pictures
from jsonschema import Draft202012Validator
from mkdocs.commands.build import build
from mkdocs.config import load_config

from builder.cli import main
from builder.reading.declared.declaring import keys_of, records_in
from builder.reading.declared.json_schemas import schema_of
from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.reading.gear.gear_files import GearFile
from builder.reading.kinds import KINDS, kind_of_file
from builder.reading.text.yaml_door import as_json, read_yaml

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
        assert name in main.list_commands(click.Context(main)), name


@pytest.fixture(scope="module")
def followed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Mapping[int, str]]:
    """Follow the guide; give the folder and what each block of commands printed."""
    at = tmp_path_factory.mktemp("guide")
    printed = follow(at)
    return at / FOLDER, printed


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


@pytest.fixture(scope="module")
def site(
    followed: tuple[Path, Mapping[int, str]], tmp_path_factory: pytest.TempPathFactory
) -> Path:
    """Build the guide's site as its command does, but for following it, which was done."""
    at = tmp_path_factory.mktemp("site")

    def done(folder: Path) -> None:
        (folder / FOLDER).symlink_to(followed[0])

    with pytest.MonkeyPatch.context() as patch, warnings.catch_warnings():
        patch.setattr(guide_followed, "follow", done)
        warnings.simplefilter("ignore")  # of MkDocs and its theme
        config = load_config(str(GUIDE / "mkdocs.yml"), site_dir=str(at), strict=True)
        build(config)
    return at


def test_the_site_builds_with_every_key(site: Path) -> None:
    page = (site / "keys.html").read_text("utf-8")
    records = [kind.record for kind in KINDS.values() if kind.record is not GearFile]
    records += [
        each for field in keys_of(GearFile).values() for each in records_in(field.annotation)
    ]
    for record in records:
        for key in keys_of(record):
            assert f"<code>{key}</code>" in page
    assert "<!-- keys of" not in page


IMAGE = re.compile(r"<img\b[^>]*>")
ATTRIBUTE = re.compile(r'(\w+)="([^"]*)"')
WITHOUT_PICTURE = {"keys.md"}


@pytest.mark.parametrize("page", pages())
def test_every_picture_of_a_page_comes_from_the_build_and_says_what_it_shows(
    page: str, site: Path, followed: tuple[Path, Mapping[int, str]]
) -> None:
    made = {name: picture for name, picture in dict(pictures(followed[0])).values()}
    html = (site / page).with_suffix(".html").read_text("utf-8")
    shown = re.findall(r"<article.*?</article>", html, re.DOTALL)[0]
    assert "<!-- chart" not in shown and "<!-- screen" not in shown
    images = IMAGE.findall(shown)
    assert bool(images) == (page not in WITHOUT_PICTURE)
    for image in images:
        told = {key: unescape(value) for key, value in ATTRIBUTE.findall(image)}
        picture = made[told["src"]]
        assert (site / told["src"]).read_text("utf-8") == picture.svg
        assert told["alt"] == picture.words and len(picture.words.split()) > 8, image
        root = ElementTree.fromstring(picture.svg)
        assert (root.get("width"), root.get("height")) == (told["width"], told["height"])
        # Whole in itself: a picture asks for nothing.
        assert not re.search(r"@import|url\((?![\"']?(?:data:|#))|<script|<image\b", picture.svg)
        assert all(each.get("src", "data:").startswith("data:") for each in root.iter())


def test_no_picture_is_kept_with_the_guide() -> None:
    kept = {path.suffix for path in GUIDE.rglob("*") if path.is_file() and "__" not in str(path)}
    assert kept == {".md", ".py", ".yml"}
