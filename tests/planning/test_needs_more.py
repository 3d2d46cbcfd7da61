"""What some need on top of the plan, on paper; the plan itself stays as it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.kit import Kit
from builder.model.looks import NeedMore
from builder.planning.public import without_people
from tests.planning.folders import Record, day, day_trip, hand

WARM = {"low": "5 degC", "high": "20 degC"}


def more_of(kit: Kit) -> dict[str, tuple[NeedMore, ...]]:
    """Give what each of the party may need on top, by name."""
    return {person.name: person.needs_more for person in kit.party}


def kit_of(folder: Path, days: list[Record] | None = None, person: Record | None = None) -> Kit:
    (ea, bo) = day_trip()["party"]
    trip = day_trip(party=[{**ea, **(person or {})}, bo], days=days or [day(air=WARM)])
    return hand(folder, trip).kit()


def test_in_comfort_nobody_needs_more(tmp_path: Path) -> None:
    assert more_of(kit_of(tmp_path)) == {"Ea": (), "Bo": ()}


@pytest.mark.parametrize("why", ["pregnant", "nursing"])
def test_what_the_plan_counts_is_not_told_beside_it(why: str, tmp_path: Path) -> None:
    """The plan left both out before, and told here that they come on top."""
    assert not any(more_of(kit_of(tmp_path, person={why: True})).values())


def test_frost_adds_a_twentieth_to_a_fifth(tmp_path: Path) -> None:
    cold = day(air={"low": "0 degC", "high": "5 degC"})
    kit = kit_of(tmp_path, [cold, day(air=WARM), cold])
    (ea,), (bo,) = more_of(kit).values()
    assert (ea.why, ea.days) == ("cold", 2)
    need = sum(kit.days[number].people[0].energy_need_kcal for number in (0, 2)) / 2
    assert ea.kcal == pytest.approx((0.05 * need, 0.21 * need))
    assert bo.kcal[1] > ea.kcal[1]


@pytest.mark.parametrize(
    ("height", "shares"),
    [("3499 m", None), ("3500 m", (0.06, 0.10)), ("4300 m", (0.06, 0.28))],
)
def test_height_adds_to_the_basal_rate(
    height: str, shares: tuple[float, float] | None, tmp_path: Path
) -> None:
    kit = kit_of(tmp_path, [day(air=WARM, camp_altitude=height)])
    found = more_of(kit)["Ea"]
    if shares is None:
        assert found == ()
        return
    (more,) = found
    # Schofield, women of 30 to 60 years: 8.126 · 60 kg + 845.6 kcal.
    basal = 8.126 * 60 + 845.6
    assert more.why == "height"
    assert more.kcal == pytest.approx((shares[0] * basal, shares[1] * basal))


def test_a_public_kit_tells_nobody(tmp_path: Path) -> None:
    kit = kit_of(tmp_path, [day(air={"low": "-5 degC", "high": "5 degC"})])
    assert all(more_of(kit).values())
    assert not any(more_of(without_people(kit)).values())
