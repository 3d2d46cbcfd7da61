"""Reads sources and cautions."""

from __future__ import annotations

from typing import cast

from builder.model.source import KNOWN, LEVELS, CautionText, Known, Level, Source
from builder.reading.fields import Fields
from builder.reading.yaml_door import quoted
from builder.units import odd_blanks


def read_source(fields: Fields) -> Source | None:
    """Read a source; `read: false` alone means quoted from memory."""
    read = fields.flag("read", default=False)
    how = fields.choice("how", KNOWN, default="read" if read else "memory")
    source = Source(
        id=fields.id(),
        title=fields.line("title", required=True),
        how=cast(Known, how),
        publisher=fields.line("publisher"),
        author=fields.line("author"),
        year=fields.count("year") or None,
        url=fields.line("url"),
        places=fields.places(),
    )
    if source.url and not source.url.startswith(("https://", "http://")):
        fields.problem(
            fields.place("url"),
            "url",
            f"{quoted(source.url)} is no web address",
            "write https://… or leave it out",
        )
    told = fields.value("read")
    is_told = told is None or isinstance(told.value, bool)
    if read != (how in ("read", "copy")) and fields.has("how") and is_told:
        fields.problem(
            fields.place("how"),
            "how",
            f"read: {str(read).lower()} and how: {how} disagree",
            "read: true goes with how: read or copy, read: false with memory or practice",
        )
    return source if fields.done() else None


def read_caution(fields: Fields) -> CautionText | None:
    """Read the words of a caution; None where it has errors."""
    caution = CautionText(
        id=fields.id(),
        level=cast(Level, fields.choice("level", LEVELS, required=True)),
        title=fields.line("title", required=True),
        text=fields.text("text", required=True),
        sources=fields.words("sources"),
        aloud=fields.flag("aloud", default=False),
        places=fields.places(fields.places_of_words("sources")),
    )
    for odd in odd_blanks(caution.text):
        fields.problem(
            fields.place("text"),
            "quantity",
            f"{quoted(odd)} is no quantity told in metric and in US units",
            "write one as {74 degC|165 degF}, the same in both, and use braces for nothing else",
        )
    return caution if fields.done() else None
