# ruff: noqa: E501 - the lines that people read stand whole
"""Ways in several legs, other foods in a dish, food that waits: what does not fit is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.reading.folder_builder import GOOD, TRIP, changed, lines, read

TWO = changed(TRIP, "{name: Ash,", "{name: Bo, mass: 70 kg}\n  - {name: Ash,")
LEGS = changed(
    TWO,
    "    meals:",
    "    travel: [{by: paddling, hours: HOURS}, {by: carried, hours: 9, for: [Ash]}]\n    meals:",
)
SECOND = "  - {camp_altitude: 700 m, meals: {snacks: {eat: rice, each: 30 g}}}\n"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (LEGS.replace("HOURS", "7"), []),
        (LEGS.replace("HOURS", "7.5"),
         ["8:63: error: the legs of Ash take 16.5 h, more than the 16 h of a day — check `hours` and `for` of each leg [out-of-range]"]),
        (changed(TRIP, "from: beans-may", "swap: {rice: oil}"), []),
        (changed(TRIP, "from: beans-may", "from: beans-may, swap: {beans: rice}"),
         ["8:39: error: batch 'beans-may' holds 'beans', not 'rice' — leave 'beans' out of `from`, or name a batch of that; who does not swap gets the dish in a line of its own, each with its `for` [batch-holds-other]",
          "8:56: error: bean-pot gives back what drying took out of beans, and 'rice' is not dried: it would get no water — swap for a food that you dry, or write these eaters a recipe of their own [auto-water]"]),
        (changed(TRIP, "from: beans-may", "swap: {rise: oil}"),
         ["8:40: error: recipe bean-pot uses no 'rise' — did you mean rice? [ingredient-unknown]"]),
        (changed(TRIP, "from: beans-may", "swap: {rice: oi}"),
         ["8:46: error: there is no food 'oi' — did you mean oil? [food-unknown]"]),
        (changed(TRIP, "{eat: rice, each: 30 g}", "{eat: rice, each: 30 g, swap: {rice: oil}}"),
         ["9:39: error: a meal has no field 'swap' — "]),
        (f"{TRIP}{SECOND}depots: [{{camp: 1, holds: [2]}}]\n", []),
        (f"{TRIP}{SECOND}depots: [{{camp: 2, holds: [1]}}]\n",
         ["11:27: error: day 1 is over when one comes to the camp of day 2 — write later days, or an earlier camp [depot-late]"]),
        (f"{TRIP}{SECOND}depots: [{{camp: 1, holds: [2]}}, {{camp: 1, holds: [2]}}]\n",
         ["11:50: error: the food of day 2 waits at two camps — let one depot hold it [depot-twice]"]),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told_where_it_stands(
    text: str, expected: list[str], tmp_path: Path
) -> None:
    found = lines(read(tmp_path, {**GOOD, "trips/tarrow.yaml": text}))
    told = [line.removeprefix("trips/tarrow.yaml:") for line in found if ": error: " in line]
    assert len(told) == len(expected)
    for line, wanted in zip(told, expected, strict=True):
        assert line.startswith(wanted)
