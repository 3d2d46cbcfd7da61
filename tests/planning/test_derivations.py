"""How figures came about is told in the trip's language, down to the last label."""

from __future__ import annotations

import gettext
import re
from pathlib import Path

import pytest

from builder.model.food import SORPTION_GROUPS
from builder.model.kit import Derivation, Kit
from builder.model.trip import TRAVEL_BY
from builder.planning import derivations
from builder.planning.derivations import DEFAULT
from builder.speech import Speech
from tests.planning.folders import FOODS, Record, day, day_trip, hand, uses

STEW: Record = {
    "id": "stew", "serves": 2, "cook_in": "pot",
    "uses": [
        *uses(kernel="200 g", oil="20 g"),
        *({"food": f"root-{group}", "amount": "20 g", "dried_by": "freeze-dryer"}
          for group in SORPTION_GROUPS),
    ],
    "steps": [
        {"do": "fry", "with": ["oil"], "minutes": 2},
        {"do": "soak", "with": ["kernel"], "water": "300 ml", "minutes": 10},
        {"do": "boil", "with": [f"root-{group}" for group in SORPTION_GROUPS], "water": "700 ml"},
        {"do": "simmer", "minutes": 10},
        {"do": "rest", "minutes": 5},
    ],
}  # fmt: skip
POCKETS: Record = {
    "id": "pockets", "serves": 2, "cook_in": "iron", "uses": uses(kernel="200 g"),
    "steps": [
        {"do": "mix", "with": ["kernel"], "water": "100 ml"},
        {"do": "press", "each_side": "3 min", "pieces": 2},
    ],
}  # fmt: skip
ROOTS: list[Record] = [
    {**FOODS[0], "id": f"root-{group}", "name": f"root-{group}", "sorption": group}
    for group in SORPTION_GROUPS
]
BATCHES: list[Record] = [
    {"id": f"dry-{group}", "food": f"root-{group}", "method": "freeze-dryer",
     "done": "2031-05-01", "fresh": "1000 g", "dried": "418 g", "packs": {"count": 4},
     "weighings": [{"at": "2 h", "mass": "700 g"}, {"at": "4 h", "mass": "540 g"}]}
    for group in SORPTION_GROUPS
]  # fmt: skip
FIRE: Record = {
    "allowed": True, "irons": ["one-iron"], "pots": ["large"], "wood_moisture": "20 %",
}  # fmt: skip
WINDS = ("sheltered", "breezy", "windy")
PURE = {"p = 1013.25 · (1 − 0.0065 · h / 288.15)^5.2559"}  # signs alone


class _Marked(gettext.NullTranslations):
    """Marks what is said, as a catalogue would change it."""

    def gettext(self, message: str) -> str:
        """Mark a text."""
        return f"«{message}»"

    def pgettext(self, context: str, message: str) -> str:
        """Mark a text that has a meaning."""
        return f"«{message}»"


def _kit(folder: Path, monkeypatch: pytest.MonkeyPatch, **changes: object) -> Kit:
    """Give a kit with every kind of figure, told in marked texts with a comma in numbers."""
    marked = Speech("xx", _Marked(), {ord("."): ",", ord(","): "."})
    monkeypatch.setattr(derivations, "speech_of", lambda _: marked)
    dinner = {
        "cook": "stew",
        "from": {f"root-{group}": f"dry-{group}" for group in SORPTION_GROUPS},
    }
    meals: Record = {"dinner": [dinner, {"cook": "pockets"}]}
    snow = {"camp": "snow", "treat": "boil", "between_water": "3 h"}
    walk = {"by": "walking", "hours": 5, "distance": "12 km", "ascent": "500 m"}
    days = [
        day(meals, travel=walk, wind=WINDS[0]),
        day(travel={"by": "walking", "hours": 3}, water={"camp": "none", "between_water": "8 h"}),
        *(
            day({"dinner": {"cook": "pockets"}}, travel={"by": by, "hours": 3}, water=snow)
            for by in TRAVEL_BY
            if by != "walking"
        ),
        *(day({"dinner": dinner}, wind=wind) for wind in WINDS),
    ]
    trip = day_trip(days=days, fire=FIRE, **changes)
    return hand(folder, trip, [STEW, POCKETS], BATCHES, foods=ROOTS).kit()


def _own_names(kit: Kit) -> set[str]:
    """Give what people and records are called: nobody translates that here."""
    return {
        *(person.name for person in kit.party),
        *(meal.title for each in kit.days for meal in each.meals),
        *(thing.what for person in kit.weights.people for thing in person.carries),
    }


def _unsaid(kit: Kit, each: Derivation) -> list[str]:
    """Give the words of a derivation that were not said."""
    known = {one.figure for one in kit.derivations} | {DEFAULT, "treat: boil"}
    amounts = {
        f"{part.name}, {part.amount_g:.0f} g"
        for one in kit.days
        for meal in one.meals
        for part in meal.ingredients
    }
    names = _own_names(kit) | amounts
    words = [each.title, *({each.formula} - PURE)]
    for given in each.inputs:
        words += {given.name} - names
        words += [] if ".yaml:" in given.origin else {given.origin} - known
    return [word for word in words if not word.startswith("«") and re.search("[a-z]{2}", word)]


BURNER: Record = {"use": "burner", "pots": ["small", "large"]}
TESTED: Record = {**BURNER, "boiled": "1 l from 10 degC with 15 g"}


@pytest.mark.parametrize("stove", [BURNER, TESTED, None], ids=["stove", "tested stove", "fire"])
def test_every_word_of_a_derivation_is_said(
    stove: Record | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kit = _kit(tmp_path, monkeypatch, stove=stove)
    assert len(kit.derivations) > 100
    assert not [word for each in kit.derivations for word in _unsaid(kit, each)]


def test_travel_wind_and_isotherm_are_told_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kit = _kit(tmp_path, monkeypatch)
    given = [one for each in kit.derivations for one in each.inputs]
    origins = {one.origin for one in given}
    assert {f"«{wind}, common practice»" for wind in WINDS} <= origins
    moving = set(TRAVEL_BY) - {"resting"}
    assert {f"««{by}»: activity table · body mass · hours»" for by in moving} <= origins
    assert "«no travel»" in origins
    isotherms = {one.value for one in given if one.name == "«isotherm of»"}
    assert isotherms == {f"«{group}»" for group in SORPTION_GROUPS}
    steps = {one.name for one in given if one.unit == "min"}
    assert {"«soak»", "«simmer»", "«fry»", "«rest»"} <= steps


def test_numbers_inside_a_text_are_written_as_the_language_does(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kit = _kit(tmp_path, monkeypatch)
    formulas = {each.figure: each.formula for each in kit.derivations}
    assert "food takes 0,7 ml for a gram" in formulas["days.0.meals.0.potfuls"]


def test_what_was_left_out_keeps_its_key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kit = _kit(tmp_path, monkeypatch)
    found = {each.figure: each for each in kit.derivations}
    home = found["days.0.people.Ea.energy_need_kcal"].inputs[-1]
    assert (home.name, home.origin) == ("«share of meals at home»", "default")
