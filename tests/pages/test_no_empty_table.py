"""A table without rows tells nothing: no page shows one, as for somebody who carries nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.kit_json.test_figures import TRIPS

_TABLE = re.compile(r"<table.*?</table>", re.S)


@pytest.mark.parametrize("trip", TRIPS)
def test_each_table_has_a_row(demo_kits: Path, trip: str) -> None:
    tables = [
        (page.name, found)
        for page in sorted((demo_kits / trip).rglob("*.html"))
        for found in _TABLE.findall(page.read_text(encoding="utf-8"))
    ]
    assert tables
    assert [name for name, found in tables if "<td" not in found] == []
