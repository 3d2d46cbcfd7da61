"""Each kind of page has the scripts it needs; they are made of parts, and reach nothing outside."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from builder.model.trip import LANGUAGES
from builder.site.finishing.scripts import (
    HOME_SCRIPTS,
    KIT_SCRIPTS,
    PARTS_FOLDER,
    POCKET_SCRIPT,
    SEALED_SCRIPT,
    Script,
    scripts_wanted,
    tags_of,
    with_place_for_more,
    written,
)
from builder.site.rendering.framing import filled
from builder.speech import speech_of
from tests.site.sample import ASSETS

FOLDER = ASSETS / "assets" / PARTS_FOLDER
MOST_BYTES = 40_000
MOST_ON_EVERY_PAGE_BYTES = 20_000
ALL = [*KIT_SCRIPTS, *HOME_SCRIPTS, POCKET_SCRIPT, SEALED_SCRIPT]
SITES = {
    "kit": KIT_SCRIPTS,
    "pocket": (POCKET_SCRIPT,),
    "sealed": (SEALED_SCRIPT,),
    "home": HOME_SCRIPTS,
}


def text_of(part: str) -> str:
    return (FOLDER / f"{part}.js").read_text("utf-8")


def test_every_part_is_used() -> None:
    assert {f"{part}.js" for script in ALL for part in script.parts} == {
        file.name for file in FOLDER.iterdir()
    }


def first_line(part: str) -> str:
    """Give the first line of a part that is not its comment."""
    return text_of(part).split("*/\n", 1)[1].splitlines()[0].strip()


@pytest.mark.parametrize("script", ALL, ids=lambda script: script.name or "pocket")
def test_the_parts_come_in_their_order_and_stay_small(script: Script) -> None:
    text = written(ASSETS / "assets", script, speech_of("en"))
    places = [text.index(first_line(part)) for part in script.parts]
    assert places == sorted(places)
    most = MOST_ON_EVERY_PAGE_BYTES if script.wanted_by == () and not script.at_once else MOST_BYTES
    for language in LANGUAGES:
        said = written(ASSETS / "assets", script, speech_of(language))
        assert len(said.encode()) < most, language


@pytest.mark.parametrize("site", SITES)
def test_scripts_of_a_page_share_their_names_and_none_has_one_twice(site: str) -> None:
    names = [
        name
        for script in SITES[site]
        for name in re.findall(
            r"^(?:const|let) (?!SAID)(\w+)",
            written(ASSETS / "assets", script, speech_of("en")),
            re.M,
        )
    ]
    assert len(names) > 20
    # What a part declares inside a function stands behind an indent, which is left out.
    outside = [
        name
        for script in SITES[site]
        for part in script.parts
        for name in re.findall(r"^(?:const|let) (\w+)", text_of(part), re.M)
    ]
    assert sorted(outside) == sorted(set(outside))


@pytest.mark.parametrize("file", sorted(FOLDER.iterdir()), ids=lambda file: str(file.name))
def test_a_part_says_what_it_is_for_and_calls_nothing_outside(file: Path) -> None:
    text = file.read_text("utf-8")
    assert text.startswith("/* ")
    assert not re.search(r"https?://|\beval\b|new Function|innerHTML|insertAdjacentHTML", text)
    # Storage may be refused: it is touched in one guarded place only.
    if file.name != "keep.js":
        assert not re.search(r"(?:local|session)Storage", text)


@pytest.mark.parametrize("script", ALL, ids=lambda script: script.name or "pocket")
def test_only_what_people_read_is_left_out(script: Script) -> None:
    text = written(ASSETS / "assets", script, speech_of("en"))
    assert not re.search(r"^ |^/[/*]", text, re.M)
    for part in script.parts:
        code = re.sub(r"^\s*/\*.*?\*/$|^\s*//[^\n]*$", "", text_of(part), flags=re.M | re.S)
        for line in code.splitlines():
            assert line.strip() in text, line


@pytest.mark.parametrize("site", SITES)
def test_every_word_that_a_script_says_is_given_to_it_or_to_the_one_on_every_page(
    site: str,
) -> None:
    every: set[str] = set()
    for script in SITES[site]:
        text = written(ASSETS / "assets", script, speech_of("en"))
        found = re.search(r"^(?:const SAID = |Object\.assign\(SAID, )(.*?)\)?;$", text, re.M)
        assert found
        given = set(json.loads(found[1]))
        every = every or given  # those of the first script
        asked = {
            name
            for part in script.parts
            if part != "words"
            for name in re.findall(r"\bWORDS\.(\w+)", text_of(part))
        }
        assert asked <= given | every


@pytest.mark.parametrize(
    ("holds", "names"),
    [
        ("<p>nothing</p>", ["kit.js"]),
        ('<ol class="steps work order">', ["kit.js", "lists.js"]),
        ('<li class="day" data-date="2031-07-11">', ["kit.js", "day.js"]),
        ('<span class="before" data-before="50">', ["kit.js", "orders.js"]),
        (
            '<ul class="steps"></ul><div data-party="4">',
            ["kit.js", "lists.js", "reckon.js", "party.js"],
        ),
        ('<div class="otherwise" hidden>', ["kit.js", "reckon.js", "otherwise.js"]),
    ],
)
def test_a_page_loads_what_it_needs_and_no_more(holds: str, names: list[str]) -> None:
    after, assets = with_place_for_more('<script src="../assets/kit.js"></script>', "more")
    wanted = scripts_wanted(holds, KIT_SCRIPTS)
    tags = tags_of([each for each in KIT_SCRIPTS if each.name in wanted], assets)
    page = holds + filled(after, {"more": tags})
    assert re.findall(r'<script src="\.\./assets/(.*?)"', page) == names
