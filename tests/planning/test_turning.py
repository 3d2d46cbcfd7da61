"""Cautions that a trip would show if its camps were otherwise, held to what planning then shows."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.kit import Kit
from builder.model.mishaps import Otherwise, Turn
from builder.planning import kit as kit_module
from builder.planning.cautions.facts import Facts
from builder.planning.cautions.table import PREDICATES
from builder.planning.cautions.turning import WAYS, elsewhere
from builder.planning.public import public_kit
from builder.planning.stock import check
from builder.reading.folder import Layer, read_folder
from tests.planning.folders import Record, day, day_trip, hand, uses
from tests.site.sample import ROOT

GRAIN: Record = {
    "id": "grain-pot", "meal": ["dinner"], "serves": 2, "cook_in": "pot",
    "uses": uses(kernel="200 g", oil="20 g"),
    "steps": [{"do": "boil", "with": ["kernel", "oil"], "water": "600 ml"}],
}  # fmt: skip
MEALS: Record = {"dinner": [{"cook": "grain-pot"}]}
BOILED: Record = {"camp": "stream", "treat": "boil"}
FILTERED: Record = {"camp": "stream", "treat": "filter"}


def planned(folder: Path, **of_day: object) -> Kit:
    return hand(folder, day_trip(days=[day(MEALS, **of_day)]), [GRAIN]).kit()


def turns(kit: Kit, caution: str) -> list[Turn]:
    return [each for each in kit.turns if each.caution == caution]


@pytest.mark.parametrize(
    ("caution", "kind", "water", "key", "unit", "near", "step"),
    [
        ("boil-longer", "height", BOILED, "camp_altitude", "m", 2000.0, 50.0),
        ("frozen-filter", "coldest", FILTERED, "low", "degC", 0.0, -1.0),
        ("heat-illness", "warmest", FILTERED, "high", "degC", 30.0, 1.0),
    ],
)
def test_a_caution_begins_where_planning_shows_it(
    tmp_path: Path,
    caution: str,
    kind: Otherwise,
    water: Record,
    key: str,
    unit: str,
    near: float,
    step: float,
) -> None:
    (turn,) = turns(planned(tmp_path / "plan", water=water), caution)
    assert (turn.kind, turn.days) == (kind, (1,))
    # It lies closely before the true one: nothing is shown up to there.
    assert turn.limit == pytest.approx(near, abs=abs(step))

    def shows(value: float) -> bool:
        told = f"{value} {unit}"
        changed: Record = {key: told} if key == "camp_altitude" else {"air": {key: told}}
        kit = planned(tmp_path / f"at-{value}", water=water, **changed)
        return any(each.id == caution for each in kit.cautions)

    assert not shows(turn.limit)
    assert shows(near + step)


def test_what_is_shown_already_turns_nowhere(tmp_path: Path) -> None:
    kit = planned(tmp_path, water=FILTERED, air={"low": "-5 degC"})
    assert any(each.id == "frozen-filter" for each in kit.cautions)
    assert turns(kit, "frozen-filter") == []


def test_a_kit_for_everybody_has_none(tmp_path: Path) -> None:
    found = hand(tmp_path, day_trip(days=[day(MEALS, water=BOILED)]), [GRAIN])
    assert found.kit().turns
    assert public_kit(found.kit(), found.content).turns == ()


def test_no_other_caution_hangs_on_where_camps_are(monkeypatch: pytest.MonkeyPatch) -> None:
    folder = read_folder([Layer(ROOT / "content", "content")])
    stock, _ = check(folder.content)
    told: list[Facts] = []

    def noted(facts: Facts, *_: object) -> tuple[Turn, ...]:
        told.append(facts)
        return ()

    monkeypatch.setattr(kit_module, "turns_of", noted)
    for trip in folder.content.trips.values():
        kit_module.plan_trip(trip, folder.content, stock)
    turned: set[str] = set()
    for facts in told:
        shown = {name for name, predicate in PREDICATES.items() if any(predicate(facts))}
        for way in WAYS:
            far = elsewhere(facts, way, way.far)
            new = {name for name, each in PREDICATES.items() if any(each(far))} - shown
            assert new <= set(way.asks), (facts.trip.id, way.kind)
            turned |= new
    assert len(turned) > 4
