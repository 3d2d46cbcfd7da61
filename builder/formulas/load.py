"""Which containers of fuel to carry."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from fractions import Fraction

from builder.formulas.ranges import require

# Whole numbers make the search exact: masses are counted in these parts of a gram, which is
# also the shortfall that is forgiven.
PARTS_PER_G = 10**9
MOST_NEEDED_G = 1.0e6
LEAST_HOLDS_G = 1.0

_Cost = tuple[int, ...]


def least_containers(needed_g: float, containers: Sequence[tuple[float, float]]) -> tuple[int, ...]:
    """How many of each container hold enough with the least to carry.

    Parameters
    ----------
    needed_g : float
        Fuel that must be held. [g], 0 to 1000000
    containers : sequence of tuple of float
        For each container what it holds, 1 or more, and its empty mass, 0 or more. [g]

    Returns
    -------
    tuple of int
        Count of each container, in the order given. [-]

    Raises
    ------
    ValueError
        If a value is outside its range, or there is no container to choose from.

    Notes
    -----
    The least sum of count (holds + empty) whose sum of count holds is at least
    needed - 1e-9. Of equal masses the one with fewest containers, then with more of the
    larger ones. The search goes through what is carried besides the container that is
    lightest per gram of fuel, the cheapest addition first, and ends when no addition can
    win any more.
    """
    require("fuel needed", needed_g, "g", 0.0, MOST_NEEDED_G)
    if not containers:
        raise ValueError("there is no container to choose from; name at least one")
    for holds_g, empty_g in containers:
        require("what a container holds", holds_g, "g", LEAST_HOLDS_G, MOST_NEEDED_G)
        require("mass of an empty container", empty_g, "g", 0.0, MOST_NEEDED_G)
    need = max(0, math.ceil(Fraction(needed_g) * PARTS_PER_G - 1))
    holds = [round(Fraction(holds_g) * PARTS_PER_G) for holds_g, _ in containers]
    empties = [round(Fraction(empty_g) * PARTS_PER_G) for _, empty_g in containers]
    return _least(need, holds, empties)


def _least(need: int, holds: list[int], empties: list[int]) -> tuple[int, ...]:
    """Exact search in whole numbers; costs compare as (mass, count, larger first)."""
    kinds = range(len(holds))
    by_size = sorted(kinds, key=lambda kind: (-holds[kind], kind))
    costs: list[_Cost] = [
        (holds[kind] + empties[kind], 1, *(-1 if kind == other else 0 for other in by_size))
        for kind in kinds
    ]
    best_kind = min(
        kinds, key=lambda kind: tuple(Fraction(part, holds[kind]) for part in costs[kind])
    )
    base_holds, base_cost = holds[best_kind], costs[best_kind]
    # Price of one container above the same fuel in the best kind, times what that kind holds.
    extras = [
        tuple(
            own * base_holds - base * holds[kind]
            for own, base in zip(costs[kind], base_cost, strict=True)
        )
        for kind in kinds
    ]
    others = [kind for kind in kinds if kind != best_kind]
    nothing: _Cost = (0,) * len(base_cost)
    # No choice can cost less than its extras and the needed fuel in the best kind.
    floor = tuple(part * need for part in base_cost)
    queue: list[tuple[_Cost, int, tuple[int, ...]]] = [(nothing, 0, (0,) * len(holds))]
    least_held: dict[int, int] = {}
    best: tuple[int, ...] = ()
    best_total: tuple[float, ...] = (math.inf,)
    while queue:
        extra, held, counts = heapq.heappop(queue)
        if _sum(extra, floor) > best_total:
            break
        filled = -(-max(need - held, 0) // base_holds)
        total = _sum(extra, tuple(part * (held + filled * base_holds) for part in base_cost))
        if total < best_total:
            best_total = total
            best = tuple(
                filled if kind == best_kind else count for kind, count in enumerate(counts)
            )
        # The same fuel short of whole best containers was reached cheaper and with less.
        rest = held % base_holds
        if held >= need or least_held.get(rest, held + 1) <= held:
            continue
        least_held[rest] = held
        for kind in others:
            dearer = _sum(extra, extras[kind])
            if _sum(dearer, floor) <= best_total:
                more = tuple(n + (kind == other) for other, n in enumerate(counts))
                heapq.heappush(queue, (dearer, held + holds[kind], more))
    return best


def _sum(one: _Cost, other: _Cost) -> _Cost:
    """Add two costs part by part."""
    return tuple(a + b for a, b in zip(one, other, strict=True))
