"""All cautions of each trip of the tables of cautions, and what would bring another one up.

What nearly each of these trips has is told where one lacks it.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from tests.approved import as_text, hold_part

from . import (
    test_cautions,
    test_cautions_edges,
    test_cautions_food,
    test_cautions_fresh,
    test_cautions_outdoors,
    test_cautions_people,
    test_cautions_standing,
)
from .caution_cases import Folder
from .folders import Record, hand

GOLDEN = Path(__file__).parent / "golden" / "cautions.txt"
USUAL = (
    "gas-and-heat",
    "clean-hands",
    "filter-limits",
    "animals-and-food",
    "energy-short",
    "energy-short-day",
)
USUAL_TURNS = (
    "height-gained-fast height 2992.188",
    "thin-air height 2484.375",
    "gas-in-the-cold coldest -14.33594",
    "frozen-filter coldest 0.078125",
    "heat-illness warmest 29.96094",
    "over-drinking warmest 29.96094",
    "windscreen-and-gas wind 0.9023438",
)
# They hang on the caution and the units alone: the plans of the demos tell them.
WORDS = frozenset({"text", "title", "otherwise", "in_both", "sources", "where", "place"})
TABLES: list[tuple[Any, list[Record]]] = [
    (test_cautions, test_cautions.MARKED),
    (test_cautions_edges, test_cautions_edges.FOODS),
    (test_cautions_food, test_cautions_food.FOODS),
    (test_cautions_fresh, test_cautions_fresh.FOODS),
    (test_cautions_outdoors, test_cautions.MARKED),
    (test_cautions_people, test_cautions_people.FOODS),
    (test_cautions_standing, test_cautions_standing.FOODS),
]


def cases() -> dict[str, tuple[Folder, list[Record], str]]:
    """Give the trips of all tables with the foods they name, and the caution that each is of."""
    found = {}
    for module, foods in TABLES:
        table = module.__name__.rpartition("test_")[2]
        every = list({each["id"]: each for each in foods}.values())
        for number, (caution, with_it, _) in enumerate(module.CASES):
            found[f"{table}-{number:02}-{caution}"] = (with_it, every, caution)
    return found


CASES = cases()


def held_against(usual: Sequence[str], found: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """Give what is found besides the usual, each as often as it is, and what of that is not."""
    besides = list(found)
    for each in set(usual) & set(found):
        besides.remove(each)
    return tuple(besides), tuple(each for each in usual if each not in found)


@pytest.mark.parametrize("name", CASES)
def test_cautions_are_as_they_were_approved(
    tmp_path: Path, name: str, rewrite_golden: bool
) -> None:
    folder, foods, caution = CASES[name]
    kit = hand(tmp_path, foods=foods, **folder).kit()
    besides, without = held_against(USUAL, [each.id for each in kit.cautions])
    turns = [f"{each.caution} {each.kind} {each.limit:.7g}" for each in kit.turns]
    turns_besides, turns_without = held_against(USUAL_TURNS, turns)
    told = {
        "besides": besides,
        "without": without,
        "turns": turns_besides,
        "without_turns": turns_without,
        "told": [each for each in kit.cautions if each.id == caution],
    }
    told = {name: each for name, each in told.items() if each}
    hold_part(GOLDEN, name, as_text(told, WORDS), rewrite_golden)
