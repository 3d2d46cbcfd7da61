"""Whatever is in a kit or in the wheel is ours or named, with its licence, in a file beside it."""

from __future__ import annotations

import re
import subprocess
import sys
import zipfile
from functools import cache
from importlib.metadata import files
from pathlib import Path

import pytest

from builder.site.outfit import HOME, TRIP
from tests.conftest import files_of
from tests.test_packaging import ROOT, sources

__all__ = ["sources"]  # a fixture of its tests, of use here too

ASSETS = ROOT / "site_templates/assets"
LICENCES = (ASSETS / "licences.txt").read_text("utf-8")
SHAPE = re.compile(r"""["'][Mm][\d. a-zA-Z,-]{12,}["']""")
PATH = re.compile(r'<path d="([^"]+)"')
OWN_SCRIPTS = {"colours.js", *(each.name for each in (*TRIP.scripts, *HOME.scripts))}
OWN_AT_TOP = {"sw.js", "search/search_index.js"}
# Pages and their data; their look and their scripts are looked at below.
OF_ITS_MAKERS = (".html", ".json", ".csv", ".ics", ".zip", ".svg", ".png", ".webp", ".jpg")


def theme_file(name: str) -> Path:
    (found,) = (
        Path(str(each.locate()))
        for each in files("mkdocs-material") or ()
        if str(each).endswith(name)
    )
    return found


@cache
def sets_of_icons() -> dict[str, str]:
    """Give the set of each icon of the theme by its shape."""
    folder = theme_file("templates/.icons/material/LICENSE").parents[1]
    return {
        shape: file.relative_to(folder).parts[0]
        for file in folder.rglob("*.svg")
        for shape in PATH.findall(file.read_text("utf-8"))
    }


def test_the_theme_is_named_as_it_names_itself() -> None:
    licence = theme_file("licenses/LICENSE").read_text("utf-8")
    whose, rest = licence.split("\n", 1)
    assert re.sub(r" <[^>]*>", "", whose).strip() in LICENCES
    assert " ".join(rest.split()) in " ".join(LICENCES.split())


def test_no_icon_of_others_is_in_a_kit(demo_kits: Path) -> None:
    styles = list(demo_kits.rglob("assets/kit.css"))  # the marks lie in there
    assert len(styles) == 5
    for style in styles:
        shapes = {found.strip("'\"") for found in SHAPE.findall(style.read_text("utf-8"))}
        assert len(shapes) > 8
        assert {sets_of_icons()[shape] for shape in shapes if shape in sets_of_icons()} == set()
    assert "Apache" not in LICENCES


def test_every_file_of_a_kit_is_of_its_makers_ours_or_named(demo_kits: Path) -> None:
    odd = []
    for kit in [each.parent for each in demo_kits.glob("*/webmanifest.json")]:
        held = files_of(kit)
        assert held["assets/licences.txt"].decode() == LICENCES
        for name in held:
            known = (
                name.endswith(OF_ITS_MAKERS)
                or name in OWN_AT_TOP
                or name in ("assets/licences.txt", "assets/kit.css")  # the theme's look is named
                or (name.startswith("assets/") and name.removeprefix("assets/") in OWN_SCRIPTS)
            )
            odd += [] if known else [f"{kit.name}/{name}"]
            # The search is ours; the languages of the theme's have licences of their own.
            assert b"lunr" not in held[name].lower() or name.endswith(OF_ITS_MAKERS), name
    assert odd == []


@pytest.fixture(scope="module")
def wheel(sources: Path, tmp_path_factory: pytest.TempPathFactory) -> zipfile.ZipFile:
    into = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(into)],
        cwd=sources,
        check=True,
        capture_output=True,
    )
    (built,) = into.iterdir()
    return zipfile.ZipFile(built)


def test_the_licences_travel_in_the_wheel_and_nothing_of_others_beside(
    wheel: zipfile.ZipFile,
) -> None:
    names = wheel.namelist()
    assert wheel.read("builder/shipped/site_templates/assets/licences.txt").decode() == LICENCES
    (own,) = (name for name in names if name.endswith("licenses/LICENSE"))
    assert wheel.read(own) == (ROOT / "LICENSE").read_bytes()
    metadata = next(name for name in names if name.endswith("METADATA"))
    assert "License-Expression: MIT" in wheel.read(metadata).decode()
    # Libraries are asked for, never carried along.
    assert {name.split("/")[0] for name in names if ".dist-info/" not in name} == {"builder"}
    tracked = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    ours = {*tracked, *(f"builder/shipped/{name}" for name in tracked)}
    assert [name for name in names if ".dist-info/" not in name and name not in ours] == []
