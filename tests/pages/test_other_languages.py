"""Pages in another language hold no English of ours, no number in English, no word twice."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from string import Formatter
from typing import Any

import pytest

from builder.model.trip import ENGLISH, LANGUAGES
from builder.shipped import shipped_root
from tests.catalogues import catalogue
from tests.conftest import demo_in

UNSEEN = re.compile(r"<(script|style|svg|code)\b.*?</\1>", re.DOTALL)
SPOKEN = re.compile(
    r'\s(?:aria-label|alt|title|placeholder|data-(?:label|says|follows|stays|done))="([^"]*)"'
)
# Shorter pieces of a sentence stand in foods' and trips' own names too.
TELLING_CHARS = 12
ENGLISH_NUMBER = re.compile(r"(?<![\d.,])\d+\.\d{1,2}\u00a0(?:g|kg|l|ml|h|in|oz|lb|cm|kWh|°C)\b")
TWICE = re.compile(r"\b([^\W\d_]{2,}) \1\b")


def texts_of(html: str) -> list[str]:
    """Give what a page says to those who see it and to those who do not."""
    seen = re.sub(r"<[^>]+>", "\n", UNSEEN.sub("\n", html))
    lines = [*seen.splitlines(), *SPOKEN.findall(html)]
    return list(dict.fromkeys(unescape(line).strip() for line in lines if line.strip()))


def pieces(text: str) -> list[str]:
    """Give the words of a text between its blanks and its markup, where they are many enough."""
    words = "\n".join(literal for literal, *_ in Formatter().parse(text))
    parts = (each.strip(" .,:;*") for each in re.split(r"\n|\*\*|`|\]\(|\[|<[^>]+>", words))
    return [each for each in parts if len(each) >= TELLING_CHARS and " " in each]


def forms(told: Any) -> tuple[str, ...]:
    """Give the forms of a text: one, or those for one and for many."""
    return (told,) if isinstance(told, str) else tuple(told)


def english(language: str) -> re.Pattern[str]:
    """Give a pattern for every piece of English that is said otherwise in a language.

    What the demo's own files say too, such as a recipe's "in the middle", tells nothing.
    """
    own = "\n".join(
        file.read_text("utf-8")
        for file in (shipped_root() / "content").rglob("*.yaml")
        if file.parent.name != "cautions"
    )
    found = set()
    for each in catalogue(language):
        said = "\n".join(forms(each.string))
        for form in forms(each.id):
            found |= {piece for piece in pieces(form) if piece not in own and piece not in said}
    longest_first = sorted(map(re.escape, found), key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(longest_first)})(?!\w)")


def many(language: str) -> re.Pattern[str]:
    """Give a pattern for one thing said as if it were many, such as `1 packs`."""
    found = []
    for each in catalogue(language):
        one, *more = forms(each.string)
        for several in more:
            before, blank, after = several.partition("{n}")
            word = after.strip().split(" ")[0]
            if blank and not before and word and word not in one:
                found.append(re.escape(word))
    return re.compile(rf"(?<![\d.,])1[ \u00a0](?:{'|'.join(found)})(?!\w)")


@pytest.fixture(scope="module", params=[each for each in LANGUAGES if each != ENGLISH])
def pages(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[str, dict[str, list[str]]]:
    """Give a language, and what each page of the demo says in it, the home and the list too."""
    kits: Path = demo_in(request.param, tmp_path_factory.mktemp(request.param))
    found = sorted(kits.rglob("*.html"))
    assert len(found) > 100
    return request.param, {
        page.relative_to(kits).as_posix(): texts_of(page.read_text("utf-8")) for page in found
    }


def told(pattern: re.Pattern[str], pages: dict[str, list[str]]) -> dict[str, set[str]]:
    return {
        name: hits
        for name, lines in pages.items()
        if (hits := {found[0] for line in lines for found in pattern.finditer(line)})
    }


def test_nothing_that_we_say_is_left_in_english(pages: tuple[str, dict[str, list[str]]]) -> None:
    language, said = pages
    assert told(english(language), said) == {}


def test_numbers_are_written_as_the_language_writes_them(
    pages: tuple[str, dict[str, list[str]]],
) -> None:
    assert told(ENGLISH_NUMBER, pages[1]) == {}


def test_one_is_not_said_as_many(pages: tuple[str, dict[str, list[str]]]) -> None:
    language, said = pages
    assert told(many(language), said) == {}


def test_no_word_stands_twice(pages: tuple[str, dict[str, list[str]]]) -> None:
    assert told(TWICE, pages[1]) == {}


def test_what_is_wrong_is_found() -> None:
    left = texts_of('<p aria-label="As a zip to hand around: Fen">Take fuel: 2</p><b>1 Touren</b>')
    assert told(english("de"), {"": left}) == {"": {"As a zip to hand around"}}
    assert told(many("de"), {"": left}) == {"": {"1 Touren"}}
    assert told(ENGLISH_NUMBER, {"": ["1.480\u00a0m", "3.94\u00a0in"]}) == {"": {"3.94\u00a0in"}}
    assert told(TWICE, {"": ["Share it it out"]}) == {"": {"it it"}}
