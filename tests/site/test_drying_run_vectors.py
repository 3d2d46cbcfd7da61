"""The table that the fit in the page is held to is what the Python gives now."""

from __future__ import annotations

import json

from tests.vectors.make_drying_runs import TABLE, make
from tests.vectors.same import same


def test_the_table_of_drying_runs_is_what_python_gives() -> None:
    made = json.loads(json.dumps(make()))
    told = json.loads(TABLE.read_text(encoding="utf-8"))
    assert same(made, told), "run python -m tests.vectors.make_drying_runs"
