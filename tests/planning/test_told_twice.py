"""A load that was logged twice is asked about: its packs would count twice."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.planning.folders import Record, hand

LEAF: Record = {
    "food": "leaf",
    "dryer": "shelf-dryer",
    "fresh": "500 g",
    "dried": "56 g",
    "done": "2031-03-14",
    "packs": {"count": 2},
}
IN_DRYER: Record = {
    "food": "leaf",
    "dryer": "shelf-dryer",
    "fresh": "500 g",
    "started": "2031-03-14T08:00",
}
BOUGHT: Record = {"food": "leaf", "method": "bought", "packs": {"count": 2, "of": "50 g"}}


@pytest.mark.parametrize(
    ("load", "other", "told"),
    [
        (LEAF, {}, True),
        (IN_DRYER, {}, True),
        (LEAF, {"fresh": "510 g"}, False),
        (LEAF, {"dried": "57 g"}, False),
        (LEAF, {"done": "2031-03-15"}, False),
        (LEAF, {"packs": {"count": 3}}, False),
        (LEAF, {"dryer": None, "method": "dehydrator"}, False),
        (LEAF, {"notes": "the second load of that day"}, False),
        (IN_DRYER, {"started": "2031-03-14T19:00"}, False),
        (BOUGHT, {}, False),  # two packets are alike
        ({**LEAF, "dried": None, "done": None, "planned": "2031-05-14"}, {}, False),
    ],
)
def test_a_load_that_is_told_twice_is_asked_about(
    tmp_path: Path, load: Record, other: Record, told: bool
) -> None:
    loads = [{"id": "one", **load}, {"id": "two", **load, **other}]
    told_of = [{key: each for key, each in one.items() if each is not None} for one in loads]
    read = hand(tmp_path, batches=told_of)
    assert {"one", "two"} <= set(read.stock.judged), read.problems
    asked = [each for each in read.problems if each.kind == "batch-told-twice"]
    assert [each.severity for each in asked] == ["warning"] * told
    if told:
        assert "batch two tells the same food, day and weights as batch one" in asked[0].says
        assert str(asked[0].place) in str(asked[0])
