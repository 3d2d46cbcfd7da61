"""A source is cited with how it is known, in the words of the page."""

from __future__ import annotations

import gettext

import pytest

from builder.model.source import KNOWN, Known, Source
from builder.pages.citing import citation, citation_in_short
from builder.speech import speech_of, spoken

SAY = speech_of("en")


class OtherBrackets(gettext.NullTranslations):
    """Says everything with other brackets, but not what fills the blanks."""

    def gettext(self, message: str) -> str:
        """Say a text with other brackets."""
        return message.replace("(", "<").replace(")", ">")


@pytest.mark.parametrize(
    ("how", "end"),
    [
        ("read", "(read)"),
        ("copy", "(read in a copy)"),
        ("memory", "(quoted from memory)"),
        ("practice", "(common practice, no source)"),
    ],
)
def test_a_source_says_how_it_is_known(how: Known, end: str) -> None:
    source = Source("x", "A table", how, publisher="An office", author="A. Writer", year=2011)
    assert citation(SAY, source) == f"A. Writer, An office, 2011, A table {end}"
    assert citation(SAY, Source("x", "A table", how)) == f"A table {end}"


def test_what_has_no_source_says_so_once() -> None:
    none = Source("common-practice", "Whatever the list calls it", "practice")
    assert (
        citation(SAY, none)
        == citation_in_short(SAY, none)
        == ("Common practice of the trade, no source")
    )


@pytest.mark.parametrize("how", KNOWN)
def test_how_a_source_is_known_is_said_in_the_language_of_the_page(how: Known) -> None:
    source = Source("x", "A table (new)", how, "An office")
    said = citation(spoken(OtherBrackets(), "de"), source)
    assert said.startswith("An office, A table (new) <")
    assert said.endswith(">")


@pytest.mark.parametrize(
    ("source", "named"),
    [
        (Source("x", "A table", "copy", "An office", year=2011), "A table, 2011 (read in a copy)"),
        (Source("x", "A table", "memory"), "A table (quoted from memory)"),
        (Source("x", "Common practice", "practice", year=2011), "Common practice"),
    ],
)
def test_where_it_is_used_a_source_is_named_in_short(source: Source, named: str) -> None:
    assert citation_in_short(SAY, source) == named
