"""People's text is text: whatever they write, a page shows it and does nothing else."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.pages.ink import cell, line
from tests.pages.seen import seen_in

NASTY = [
    "<script>alert(1)</script>",
    "</div><img src=x onerror=alert(1)>",
    "[x](javascript:alert(1))",
    "![x](https://example.org/x.png)",
    "<https://example.org>",
    "a | b | c",
    "`code` and ``more``",
    "{{ 7 * 7 }} {% raw %} {# x #}",
    "{: .danger } {#top}",
    "# not a heading",
    "1. not a list",
    "12) nor this",
    "- nor this",
    "+ nor this",
    "* nor this",
    ": nor a definition",
    "!!! note",
    "> quoted",
    "~~~",
    "---",
    "===",
    "**bold** _slanted_ __both__",
    "back\\slash \\[x\\]",
    '" onmouseover="alert(1)',
    "&lt;b&gt; &amp; &#60;",
    "*[HTML]: hyper",
    "[^1] [ref]: https://example.org",
    "Ünïcode ναι かに 🏕️ 👩‍🍳",
    "עברית ועוד",
]


def words_of(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("text", NASTY)
def test_text_is_shown_as_it_was_written(text: str) -> None:
    for markdown, tags in (
        (line(text), {"p"}),
        (f"- {line(text)}", {"ul", "li"}),
        (f"# {line(text)} {{#top}}", {"h1"}),
        (f"[{line(text)}](day-1.md)", {"p", "a"}),
        (f'<p title="{line(text)}">x</p>', {"p"}),
    ):
        seen = seen_in(markdown)
        assert seen.names == tags, markdown
        assert "onerror" not in str(seen.tags[0][1].keys())
        if "title" not in markdown:
            assert words_of(seen.words) == words_of(text)
        elif seen.tags[0][0] == "p" and "title" in seen.tags[0][1]:
            assert words_of(str(seen.tags[0][1]["title"])) == words_of(text)


@pytest.mark.parametrize("text", NASTY)
def test_text_stays_in_its_cell(text: str) -> None:
    seen = seen_in(f"| a | b |\n| --- | --: |\n| {cell(text)} | last |\n")
    assert [name for name, _ in seen.tags].count("td") == 2
    assert words_of(seen.words) == words_of(f"a b {text} last")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("two\nlines\r\n\r\nand\tmore", "two lines and more"),
        ("turned\u202eround\u2066\u200f", "turnedround"),
        ("nul\x00bell\x07stx\x02etx\x03", "nulbellstxetx"),
        ("line\u2028paragraph\u2029", "line paragraph"),
        ("\ufeffmark", "mark"),
        ("zero\u200bwidth", "zerowidth"),
        ("\ud800lone", "lone"),
    ],
)
def test_what_cannot_be_seen_is_left_out(text: str, shown: str) -> None:
    assert line(text).strip() == shown


def test_plain_words_and_numbers_stay_readable() -> None:
    plain = "Black beans, cooked — 1.25 kg (¾ mug); 15 % at 4 °C, don't wait!"
    assert line(plain) == plain


@given(st.text())
def test_no_text_makes_a_tag(text: str) -> None:
    seen = seen_in(f"- x {line(text)} x")
    assert seen.names == {"ul", "li"}


@given(st.text())
def test_no_text_adds_a_cell_or_a_line(text: str) -> None:
    made = cell(text)
    assert "|" not in made
    assert len(made.splitlines()) <= 1
    assert not any(unicodedata.category(sign) == "Cc" for sign in made)
