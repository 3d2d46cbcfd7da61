"""Fuel containers: exact against trying everything, and fast."""

from __future__ import annotations

import itertools
import math
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.formulas.load import least_containers

Containers = list[tuple[float, float]]

SMALL, MIDDLE, LARGE = (100.0, 90.0), (230.0, 150.0), (450.0, 200.0)


def _try_everything(needed_g: float, containers: Containers) -> tuple[int, ...]:
    """The answer by looking at every choice that could be one."""
    by_size = sorted(range(len(containers)), key=lambda kind: -containers[kind][0])
    ranges = [range(math.ceil(needed_g / holds) + 2) for holds, _ in containers]

    def rank(counts: tuple[int, ...]) -> tuple[float | int, ...]:
        mass = sum(n * (h + e) for n, (h, e) in zip(counts, containers, strict=True))
        return (round(mass, 6), sum(counts), *(-counts[kind] for kind in by_size))

    enough = (
        counts
        for counts in itertools.product(*ranges)
        if sum(n * h for n, (h, _) in zip(counts, containers, strict=True)) >= needed_g - 1e-9
    )
    return min(enough, key=rank)


@pytest.mark.parametrize(
    ("needed_g", "containers", "counts"),
    [
        (0.0, [SMALL, MIDDLE], (0, 0)),
        (1e-10, [SMALL, MIDDLE], (0, 0)),
        (1.0, [SMALL, MIDDLE], (1, 0)),
        (100.0, [SMALL, MIDDLE], (1, 0)),
        (100.0 + 5e-10, [SMALL, MIDDLE], (1, 0)),
        (100.0 + 1.9e-9, [SMALL, MIDDLE], (0, 1)),
        (100.001, [SMALL, MIDDLE], (0, 1)),
        (200.0, [SMALL, MIDDLE], (0, 1)),
        (300.0, [SMALL, MIDDLE, LARGE], (1, 1, 0)),
        (460.0, [MIDDLE], (2,)),
        (680.0, [SMALL, MIDDLE, LARGE], (0, 1, 1)),
        (700.0, [SMALL, MIDDLE, LARGE], (1, 1, 1)),
    ],
)
def test_choices_worked_by_hand(
    needed_g: float, containers: Containers, counts: tuple[int, ...]
) -> None:
    assert least_containers(needed_g, containers) == counts


def test_of_equal_masses_the_fewest_are_taken() -> None:
    assert least_containers(460.0, [(230.0, 150.0), (460.0, 300.0)]) == (0, 1)
    assert least_containers(460.0, [(460.0, 300.0), (230.0, 150.0)]) == (1, 0)


def test_of_equal_masses_and_counts_the_larger_are_taken() -> None:
    # 300 + 100 and 200 + 200 weigh the same and are two each.
    containers = [(200.0, 50.0), (300.0, 70.0), (100.0, 30.0)]
    assert least_containers(400.0, containers) == (0, 1, 1)
    # 350 and 300 weigh 450 each; two of 200 weigh 520.
    assert least_containers(300.0, [(300.0, 150.0), (350.0, 100.0), (200.0, 60.0)]) == (0, 1, 0)


@settings(max_examples=150)
@given(
    st.floats(0.0, 1200.0),
    st.lists(
        st.tuples(
            st.sampled_from([100.0, 110.0, 113.4, 220.0, 226.8, 230.0, 450.0, 500.0]),
            st.sampled_from([0.0, 50.0, 90.0, 100.0, 150.0, 153.3, 200.0, 300.0]),
        ),
        min_size=1,
        max_size=3,
    ),
)
def test_the_choice_is_that_of_trying_everything(needed_g: float, containers: Containers) -> None:
    assert least_containers(needed_g, containers) == _try_everything(needed_g, containers)


@given(st.floats(0.0, 50000.0), st.permutations([SMALL, MIDDLE, LARGE]))
def test_the_order_of_the_containers_does_not_matter(
    needed_g: float, containers: Containers
) -> None:
    plain = dict(
        zip([SMALL, MIDDLE, LARGE], least_containers(needed_g, [SMALL, MIDDLE, LARGE]), strict=True)
    )
    mixed = dict(zip(containers, least_containers(needed_g, containers), strict=True))
    assert mixed == plain


@pytest.mark.parametrize(
    "containers",
    [
        [SMALL, MIDDLE, LARGE],
        [(113.3980925, 50.0), (226.796185, 99.9), (231.1, 101.9), (453.59, 199.98)],
        [(1000.0, 0.0), (750.0, 0.0), (330.0, 0.0)],
    ],
)
def test_half_a_tonne_is_quick(containers: Containers) -> None:
    before = time.process_time()
    counts = least_containers(500_000.0, containers)
    assert time.process_time() - before < 1.0
    held_g = sum(n * holds for n, (holds, _) in zip(counts, containers, strict=True))
    assert 500_000.0 - 1e-6 <= held_g < 500_000.0 + max(holds for holds, _ in containers)


def test_the_limits_themselves_are_answered() -> None:
    assert least_containers(1_000_000.0, [(1.0, 0.0)]) == (1_000_000,)


@pytest.mark.parametrize(
    ("needed_g", "containers", "says"),
    [
        (-1.0, [SMALL], "fuel needed is -1 g"),
        (math.nan, [SMALL], "fuel needed is nan g"),
        (1_000_001.0, [SMALL], "fuel needed is 1000001 g"),
        (1.0, [(0.99, 0.0)], "what a container holds is 0.99 g"),
        (1.0, [], "^there is no container to choose from; name at least one$"),
        (1.0, [(1_000_001.0, 0.0)], "what a container holds is 1000001 g"),
        (1.0, [(100.0, 1_000_001.0)], "mass of an empty container is 1000001 g"),
        (1.0, [(0.0, 90.0)], "what a container holds is 0 g"),
        (1.0, [(100.0, -1.0)], "mass of an empty container is -1 g"),
    ],
)
def test_what_cannot_be_chosen_is_refused(
    needed_g: float, containers: Containers, says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        least_containers(needed_g, containers)
