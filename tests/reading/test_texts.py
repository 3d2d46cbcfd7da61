# ruff: noqa: E501 - the lines that people read stand whole
"""Sources and cautions."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.source import CautionText, Source
from tests.reading.folder_builder import GOOD, Spoilt, lines, read, told

TEXTS = {
    **GOOD,
    "cautions/mine.yaml": "- {id: two-hours, level: danger, title: Two hours, text: Eat it, sources: [own-scales]}\n",
    "sources.yaml": '- {id: printed-table, title: A table, read: true, how: copy, year: 2011, url: "https://example.org/t"}\n',
}
SPOILT_CAUTIONS = (
    Spoilt(
        "level",
        "cautions/mine.yaml",
        (("level: danger", "level: high"),),
        (
            "cautions/mine.yaml:1:26: error: level cannot be 'high' — known are: care, danger, note [word-unknown]",
        ),
    ),
    Spoilt(
        "no text",
        "cautions/mine.yaml",
        ((", text: Eat it", ""),),
        ("cautions/mine.yaml:1:3: error: this caution has no `text` — write `text: …` [missing]",),
    ),
    Spoilt(
        "no title",
        "cautions/mine.yaml",
        (("title: Two hours, ", ""),),
        (
            "cautions/mine.yaml:1:3: error: this caution has no `title` — write `title: …` [missing]",
        ),
    ),
    Spoilt(
        "unknown source",
        "cautions/mine.yaml",
        (("[own-scales]", "[own-scales, own-scale]"),),
        (
            "cautions/mine.yaml:1:88: error: there is no source 'own-scale' — did you mean own-scales? [source-unknown]",
        ),
    ),
    Spoilt(
        "id",
        "cautions/mine.yaml",
        (("id: two-hours", "id: two_hours"),),
        (
            "cautions/mine.yaml:1:8: error: 'two_hours' is no id — write two-hours (lower-case letters, digits, single hyphens) [id]",
        ),
    ),
)
SPOILT_SOURCES = (
    Spoilt(
        "no title",
        "sources.yaml",
        ((", title: A table", ""),),
        ("sources.yaml:1:3: error: this source has no `title` — write `title: …` [missing]",),
    ),
    Spoilt(
        "how does not go with read",
        "sources.yaml",
        (("how: copy", "how: memory"),),
        (
            "sources.yaml:1:56: error: read: true and how: memory disagree — read: true goes with how: read or copy, read: false with memory or practice [how]",
        ),
    ),
    Spoilt(
        "how not known",
        "sources.yaml",
        (("how: copy", "how: heard"),),
        ("sources.yaml:1:56: error: how cannot be 'heard' — did you mean read? [word-unknown]",),
    ),
    Spoilt(
        "no web address",
        "sources.yaml",
        (("https://example.org/t", "javascript:alert(1)"),),
        (
            "sources.yaml:1:79: error: 'javascript:alert(1)' is no web address — write https://… or leave it out [url]",
        ),
    ),
    Spoilt(
        "half a year",
        "sources.yaml",
        (("2011", "2011.5"),),
        (
            "sources.yaml:1:68: error: year counts, so it cannot be '2011.5' — write a whole number such as 2012 [not-whole]",
        ),
    ),
    Spoilt(
        "read in words",
        "sources.yaml",
        (("read: true", "read: partly"),),
        (
            "sources.yaml:1:45: error: read must be true or false, found 'partly' — write `read: true` or `read: false` [not-a-flag]",
        ),
    ),
)


@pytest.mark.parametrize("spoilt", (*SPOILT_CAUTIONS, *SPOILT_SOURCES), ids=str)
def test_each_mistake_is_told_at_its_place_with_what_would_do(
    spoilt: Spoilt, tmp_path: Path
) -> None:
    assert told(tmp_path, TEXTS, spoilt) == spoilt.expected


@pytest.mark.parametrize(
    ("written", "how"),
    [
        ("", "memory"),
        (", read: false", "memory"),
        (", read: true", "read"),
        (", read: true, how: copy", "copy"),
        (", read: false, how: practice", "practice"),
    ],
)
def test_how_a_source_is_known_follows_from_read(written: str, how: str, tmp_path: Path) -> None:
    found = read(tmp_path, {"sources.yaml": f"- {{id: a-book, title: A book{written}}}"})
    assert lines(found) == []
    assert found.content.sources["a-book"].how == how


def test_texts_are_read_as_they_stand(tmp_path: Path) -> None:
    found = read(tmp_path, TEXTS)
    assert found.content.sources["printed-table"] == Source(
        "printed-table", "A table", "copy", year=2011, url="https://example.org/t"
    )
    assert found.content.cautions["two-hours"] == CautionText(
        "two-hours", "danger", "Two hours", "Eat it", ("own-scales",)
    )


def test_a_quantity_in_a_caution_is_told_in_both_systems(tmp_path: Path) -> None:
    caution = "- {id: two-hours, level: care, title: T, text: 'Up to {74 degC}.', aloud: true}"
    found = read(tmp_path, {"cautions/own.yaml": caution})
    (line,) = lines(found)
    assert "'{74 degC}' is no quantity told in metric and in US units" in line
    assert "write one as {74 degC|165 degF}" in line
    told = caution.replace("{74 degC}", "{74 degC|165 degF}")
    again = read(tmp_path / "again", {"cautions/own.yaml": told})
    assert lines(again) == []
    assert again.content.cautions["two-hours"].aloud
