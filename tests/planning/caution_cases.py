"""How tables of cautions are read: a folder that brings one up, and one that nearly does."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

from builder.model.kit import Kit, KitCaution

Folder = dict[str, Any]
Case = tuple[str, Folder, Folder]


def with_and_without(cases: Sequence[Case]) -> pytest.MarkDecorator:
    """Run a test for each case: the caution's id, a folder with its condition, one without."""
    return pytest.mark.parametrize(
        ("name", "with_it", "without"),
        cases,
        ids=[f"{number}-{case[0]}" for number, case in enumerate(cases)],
    )


def of_id(kit: Kit, name: str) -> list[KitCaution]:
    """Give all cautions of a kit that have this id."""
    return [each for each in kit.cautions if each.id == name]
