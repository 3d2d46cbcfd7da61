"""The scripts are one file made of all their parts, and reach nothing outside the kit."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from builder.site.scripts import (
    FOLLOW_PARTS,
    HOME_PARTS,
    KIT_PARTS,
    PARTS_FOLDER,
    POCKET_PARTS,
    joined,
)
from builder.speech import speech_of
from tests.site.sample import ASSETS

FOLDER = ASSETS / "assets" / PARTS_FOLDER
MOST_BYTES = 40_000


def test_every_part_is_used() -> None:
    assert {f"{part}.js" for part in {*KIT_PARTS, *POCKET_PARTS, *HOME_PARTS, *FOLLOW_PARTS}} == {
        file.name for file in FOLDER.iterdir()
    }


def first_line(part: str) -> str:
    """Give the first line of a part that is not its comment."""
    text = (FOLDER / f"{part}.js").read_text("utf-8")
    return text.split("*/\n", 1)[1].splitlines()[0].strip()


@pytest.mark.parametrize(
    "parts",
    [KIT_PARTS, POCKET_PARTS, HOME_PARTS, FOLLOW_PARTS],
    ids=["kit", "pocket", "home", "follow"],
)
def test_the_parts_come_in_their_order_and_stay_small(parts: tuple[str, ...]) -> None:
    script = joined(ASSETS / "assets", parts, speech_of("en"))
    places = [script.index(first_line(part)) for part in parts]
    assert places == sorted(places)
    assert len(script.encode()) < MOST_BYTES


@pytest.mark.parametrize("file", sorted(FOLDER.iterdir()), ids=lambda file: str(file.name))
def test_a_part_says_what_it_is_for_and_calls_nothing_outside(file: Path) -> None:
    text = file.read_text("utf-8")
    assert text.startswith("/* ")
    assert not re.search(r"https?://|\beval\b|new Function|innerHTML|insertAdjacentHTML", text)
    # Storage may be refused: it is touched in one guarded place only.
    if file.name != "keep.js":
        assert not re.search(r"(?:local|session)Storage", text)


def test_only_what_people_read_is_left_out() -> None:
    script = joined(ASSETS / "assets", KIT_PARTS, speech_of("en"))
    assert not re.search(r"^ |^/[/*]", script, re.M)
    for part in KIT_PARTS:
        text = (FOLDER / f"{part}.js").read_text("utf-8")
        code = re.sub(r"^\s*/\*.*?\*/$|^\s*//[^\n]*$", "", text, flags=re.M | re.S)
        for line in code.splitlines():
            assert line.strip() in script, line


@pytest.mark.parametrize(
    "parts",
    [KIT_PARTS, POCKET_PARTS, HOME_PARTS, FOLLOW_PARTS],
    ids=["kit", "pocket", "home", "follow"],
)
def test_every_word_that_a_script_says_is_given_to_it(parts: tuple[str, ...]) -> None:
    script = joined(ASSETS / "assets", parts, speech_of("en"))
    said = json.loads(re.search(r"^const SAID = (.*);$", script, re.M)[1])  # type: ignore[index]
    asked = {
        name
        for part in parts
        if part != "words"
        for name in re.findall(r"\bWORDS\.(\w+)", (FOLDER / f"{part}.js").read_text("utf-8"))
    }
    assert len(asked) > 15
    assert asked <= set(said)
