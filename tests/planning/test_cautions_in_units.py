"""Cautions speak in the units of their trip, in their texts and in their reasons."""

from __future__ import annotations

import copy
import re
from pathlib import Path

import pytest

from tests.planning.test_cautions import CASES, Folder, plan

METRIC = re.compile(r"\d\s?(?:°C|mm|cm|m|km|g|kg|ml|l)\b")
US = re.compile(r"\d\s?(?:°F|in|ft|yd|mi|oz|lb|cups?|fl oz|qt|gal)\b")


@pytest.mark.parametrize(
    ("name", "folder"),
    [(name, with_it) for name, with_it, _ in CASES],
    ids=[f"{number}-{name}" for number, (name, _, _) in enumerate(CASES)],
)
def test_a_caution_speaks_in_the_units_of_its_trip(
    tmp_path: Path, name: str, folder: Folder
) -> None:
    for units, other in (("us", METRIC), ("metric", US)):
        written = copy.deepcopy(folder)
        written["trip"]["units"] = units
        kit = plan(tmp_path / units, written)
        assert name in {caution.id for caution in kit.cautions}
        for caution in kit.cautions:
            for said in (caution.title, caution.text, caution.because):
                assert not other.search(said), said
                assert "{" not in said
                assert "}" not in said


def test_a_limit_stands_as_each_system_says_it(tmp_path: Path) -> None:
    folder = next(with_it for name, with_it, _ in CASES if name == "raw-animal-food")
    texts = {}
    for units in ("us", "metric"):
        written = copy.deepcopy(folder)
        written["trip"]["units"] = units
        kit = plan(tmp_path / units, written)
        texts[units] = next(each.text for each in kit.cautions if each.id == "raw-animal-food")
    assert "165\u00a0°F in the middle for poultry" in texts["us"]
    assert "74\u00a0°C in the middle for poultry" in texts["metric"]
