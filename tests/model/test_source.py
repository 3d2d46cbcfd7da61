"""How a source is cited."""

from __future__ import annotations

import pytest

from builder.model.source import HOW_KNOWN, KNOWN, Known, Source


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
    assert source.citation == f"A. Writer, An office, 2011, A table {end}"
    assert Source("x", "A table", how).citation == f"A table {end}"
    assert set(HOW_KNOWN) == set(KNOWN)
