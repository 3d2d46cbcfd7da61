"""Cautions speak in the units of their trip, in their texts and in their reasons."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.planning.cautions.table import PREDICATES

from .every_caution import EVERY

METRIC = re.compile(r"\d\s?(?:°C|mm|cm|m|km|g|kg|ml|l)\b")
US = re.compile(r"\d\s?(?:°F|in|ft|yd|mi|oz|lb|cups?|fl oz|qt|gal)\b")


@pytest.mark.parametrize("name", PREDICATES)
def test_a_caution_speaks_in_the_units_of_its_trip(tmp_path: Path, name: str) -> None:
    for units, other in (("us", METRIC), ("metric", US)):
        kit = EVERY[name].kit(tmp_path / units, units)
        assert name in {caution.id for caution in kit.cautions}
        for caution in kit.cautions:
            for said in (caution.title, caution.text, caution.because):
                assert not other.search(said), said
                assert "{" not in said
                assert "}" not in said


def test_a_limit_stands_as_each_system_says_it(tmp_path: Path) -> None:
    texts = {}
    for units in ("us", "metric"):
        kit = EVERY["raw-animal-food"].kit(tmp_path / units, units)
        texts[units] = next(each.text for each in kit.cautions if each.id == "raw-animal-food")
    assert "165\u00a0°F in the middle for poultry" in texts["us"]
    assert "74\u00a0°C in the middle for poultry" in texts["metric"]
