"""The scripts are one file made of all their parts, and reach nothing outside the kit."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.site.scripts import KIT_PARTS, PARTS_FOLDER, POCKET_PARTS, joined
from builder.speech import speech_of
from tests.site.sample import ASSETS

FOLDER = ASSETS / "assets" / PARTS_FOLDER
MOST_BYTES = 40_000


def test_every_part_is_used() -> None:
    assert {f"{part}.js" for part in {*KIT_PARTS, *POCKET_PARTS}} == {
        file.name for file in FOLDER.iterdir()
    }


@pytest.mark.parametrize("parts", [KIT_PARTS, POCKET_PARTS], ids=["kit", "pocket"])
def test_the_parts_come_in_their_order_and_stay_small(parts: tuple[str, ...]) -> None:
    script = joined(ASSETS / "assets", parts, speech_of("en"))
    places = [
        script.index((FOLDER / f"{part}.js").read_text("utf-8").splitlines()[0]) for part in parts
    ]
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
