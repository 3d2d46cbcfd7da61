"""Packs shared out by moves and exchanges are as light as those of the solver."""

from __future__ import annotations

import itertools
import random
from collections.abc import Sequence
from typing import NamedTuple

import pytest

from builder.planning.carrying import sharing
from builder.planning.carrying.sharing import BEST_SHARE, FEW_THINGS, GOOD_ENOUGH_SHARE, share_out


class Case(NamedTuple):
    masses_g: list[tuple[float, ...]]
    own_g: list[tuple[float, ...]]
    limits_g: list[float]

    def fullest(self, owners: Sequence[int]) -> float:
        mornings = range(len(self.own_g[0]))
        return max(
            (
                self.own_g[who][morning]
                + sum(
                    mass_g[morning]
                    for mass_g, owner in zip(self.masses_g, owners, strict=True)
                    if owner == who
                )
            )
            / limit_g
            for who, limit_g in enumerate(self.limits_g)
            for morning in mornings
        )


def by_chance(number: int, things: int, people: int) -> Case:
    """Give things that are eaten up morning by morning, and packs of all sizes."""
    chance = random.Random(number)
    mornings = range(chance.randint(1, 3))
    masses_g = []
    for _ in range(things):
        mass_g, last = (
            round(chance.choice([60, 1200]) * chance.random(), 1),
            chance.choice(mornings),
        )
        masses_g.append(tuple(mass_g if morning <= last else 0.0 for morning in mornings))
    own_g = [(chance.uniform(2000, 8000),) * len(mornings) for _ in range(people)]
    return Case(masses_g, own_g, [chance.uniform(8000, 20_000) for _ in range(people)])


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Give, for each time the solver is asked, how many things were shared out."""
    times: list[int] = []
    solved = sharing._solved

    def counting(masses_g: Sequence[sharing.Mornings], *rest: object) -> list[int] | None:
        times.append(len(masses_g))
        return solved(masses_g, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(sharing, "_solved", counting)
    return times


@pytest.mark.parametrize("number", range(30))
def test_it_is_as_good_as_the_solver(number: int) -> None:
    things, people = 3 + 2 * number % 40, 2 + number % 4
    case = by_chance(number, things, people)
    gap_share = BEST_SHARE if things <= FEW_THINGS else GOOD_ENOUGH_SHARE
    kept = sharing._heavy_mornings(case.masses_g, case.own_g)
    theirs = sharing._solved(*kept, case.limits_g, range(people), gap_share)
    assert theirs is not None
    found = share_out(case.masses_g, case.own_g, case.limits_g)
    assert case.fullest(found) <= case.fullest(theirs) * (1 + gap_share)


def test_the_solver_is_seldom_asked(asked: list[int]) -> None:
    for number in range(60):
        case = by_chance(number, 12 + number, 2 + number % 4)
        share_out(case.masses_g, case.own_g, case.limits_g)
    assert len(asked) <= 6


def test_of_few_things_all_sharings_are_tried_without_the_solver(asked: list[int]) -> None:
    for number in range(20):
        case = by_chance(number, 3 + number % 5, 2 + number % 3)
        found = share_out(case.masses_g, case.own_g, case.limits_g)
        every = itertools.product(range(len(case.limits_g)), repeat=len(case.masses_g))
        assert case.fullest(found) == pytest.approx(min(map(case.fullest, every)), rel=1e-9)
    assert asked == []


def test_more_than_can_be_tried_is_left_to_the_solver(asked: list[int]) -> None:
    case = Case([(1000.0 + 7 * each,) for each in range(11)], [(0.0,)] * 5, [10_000.0] * 5)
    found = share_out(*case)
    assert asked == [11]
    # Somebody of five carries three of eleven things: the lightest are 1000, 1007 and 1014 g.
    assert case.fullest(found) == pytest.approx(0.3021)


@pytest.mark.parametrize(
    ("kilograms", "best"),
    [
        # By turns 7, 4 and 3 to the first, 6 and 5 to the second: then 7 goes for 6.
        ((7, 6, 5, 4, 3), 13),
        # By turns 5 and 3, then 4 and 3; the last 2 and 2 are 10 and 9. No step helps.
        ((5, 4, 3, 3, 2, 2), 10),
    ],
)
def test_things_are_exchanged_where_no_move_helps(
    monkeypatch: pytest.MonkeyPatch, kilograms: tuple[int, ...], best: int
) -> None:
    monkeypatch.setattr(sharing, "MOST_TRIED", 0)
    monkeypatch.setattr(sharing, "_solved", lambda *_: None)
    case = Case([(each * 1000.0,) for each in kilograms], [(0.0,)] * 2, [20_000.0] * 2)
    assert case.fullest(share_out(*case)) == pytest.approx(best / 20)
