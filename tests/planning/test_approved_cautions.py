"""All cautions of each trip of the tables of cautions, and what would bring another one up."""

from __future__ import annotations

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
WORDS = frozenset({"text", "title", "sources", "where", "place"})
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


@pytest.mark.parametrize("name", CASES)
def test_cautions_are_as_they_were_approved(
    tmp_path: Path, name: str, rewrite_golden: bool
) -> None:
    folder, foods, caution = CASES[name]
    kit = hand(tmp_path, foods=foods, **folder).kit()
    told = {
        "all": tuple(each.id for each in kit.cautions),
        "turning": tuple((each.caution, each.kind, each.limit) for each in kit.turns),
        "told": [each for each in kit.cautions if each.id == caution],
    }
    hold_part(GOLDEN, name, as_text(told, WORDS), rewrite_golden)
