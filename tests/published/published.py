"""The row type of every published number, and how a formula is held against it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from inspect import signature
from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.record import dataclass

# How a row is known: the publication itself, a copy of it, memory, arithmetic or a general
# library, or the trade's habit without a source.
KNOWN = ("read", "copy", "memory", "calculated", "practice")

SOURCES_YAML = Path(__file__).parents[2] / "content" / "sources.yaml"


@cache
def source_ids() -> frozenset[str]:
    """Keys of the shipped list of sources."""
    rows = yaml.safe_load(SOURCES_YAML.read_text(encoding="utf-8"))
    return frozenset(row["id"] for row in rows)


@dataclass(frozen=True, slots=True)
class Published:
    """One published number: what goes in, what comes out, and where it stands.

    `within` is the physical tolerance: half the last printed digit, the paper's stated
    error, or the reason given beside the table; never tuned to pass.
    """

    args: tuple[Any, ...]
    value: float
    within: float
    unit: str
    source: str
    place: str
    known: str

    def __post_init__(self) -> None:
        """Refuse a row whose source nobody can look up."""
        assert self.source in source_ids(), f"{self.source} is not in content/sources.yaml"
        assert self.known in KNOWN, f"{self.known} is none of {KNOWN}"
        assert self.within > 0.0, "a tolerance is above zero"

    @property
    def name(self) -> str:
        """What a failing test prints."""
        return f"{self.source}, {self.place}"


def published(*rows: Published) -> pytest.MarkDecorator:
    """Run a test once for each row, named by source and place."""
    names = [row.name for row in rows]
    assert len(set(names)) == len(names), "two rows have the same source and place"
    return pytest.mark.parametrize("row", [pytest.param(row, id=row.name) for row in rows])


def check(row: Published, formula: Callable[..., float]) -> None:
    """Hold a formula against one row."""
    # A formula of more symbols takes those behind the fifth by name alone.
    first, further = row.args[:5], row.args[5:]
    names = [*signature(formula).parameters][5 : len(row.args)] if further else []
    found = formula(*first, **dict(zip(names, further, strict=True)))
    assert abs(found - row.value) <= row.within, (
        f"{found:.7g} {row.unit} is not {row.value:.7g} ± {row.within:.2g} {row.unit} "
        f"({row.name}, known: {row.known})"
    )
