"""Who carries what dishes are stirred with, whatever language the list of gear is in."""

from __future__ import annotations

from pathlib import Path

import pytest

from .folders import Record, day, day_trip, hand, uses

STIRRED: Record = {
    "id": "stirred",
    "serves": 2,
    "cook_in": "pot",
    "uses": uses(kernel="100 g"),
    "steps": [
        {"do": "boil", "with": ["kernel"], "water": "500 ml"},
        {"do": "simmer", "minutes": 5, "stir": True},
    ],
}


@pytest.mark.parametrize(
    ("thing", "language", "carrier"),
    [
        ("Long spoon", "en", "Bo"),
        ("Holzlöffel", "en", "Bo"),
        ("Tresleiv", "en", "Bo"),
        ("Wooden spoon", "de", "Bo"),
        ("Kochlöffel", "nb", "Bo"),
        ("Stor skje", "de", "Bo"),
        ("Spade", "en", None),
    ],
)
def test_a_spoon_is_known_in_each_language(
    tmp_path: Path, thing: str, language: str, carrier: str | None
) -> None:
    told: Record = {
        "language": language,
        "stove": {"use": "burner", "pots": ["small"], "fuel_reserve": "20 %"},
        "gear_shared": [{"name": thing, "mass": "60 g", "carried_by": "Bo"}],
        "days": [day({"dinner": [{"cook": "stirred"}]})],
    }
    kit = hand(tmp_path, day_trip(**told), [STIRRED]).kit()
    spoons = [each for each in kit.utensils.all if each.name not in ("Burner", "Small pot")]
    assert [each.carried_by for each in spoons] == [carrier]
