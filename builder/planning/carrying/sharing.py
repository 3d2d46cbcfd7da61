"""Shares whole things out so that the fullest pack, against its limit, is as light as can be.

The least largest load is a mixed-integer programme; HiGHS, through scipy, solves it. Things of
equal weight are counted together, which keeps the search small. The search ends at a set number
of nodes, not at a set time, so that the same trip is always shared out the same way.
"""

from __future__ import annotations

from collections.abc import Sequence

MOST_NODES = 400
# Of few things the very best sharing is found; of many, one within a tenth of a percent, which
# is less than a spoon in a pack and saves seconds.
FEW_THINGS = 12
BEST_SHARE = 1e-7
GOOD_ENOUGH_SHARE = 1e-3
_MG = 1000.0


def share_out(
    masses_g: Sequence[float], own_g: Sequence[float], limits_g: Sequence[float]
) -> list[int]:
    """Give for each thing the number of the person who carries it.

    Only people with a limit above nothing carry. Where nobody does, the first carries all.
    """
    # In an order of their own, so that the order of the party does not change who is fullest.
    carriers = sorted(
        (number for number, limit in enumerate(limits_g) if limit > 0),
        key=lambda number: (limits_g[number], own_g[number], number),
    )
    if len(carriers) < 2 or not masses_g:
        return [carriers[0] if carriers else 0] * len(masses_g)
    greedy = _greedy(masses_g, own_g, limits_g, carriers)
    bound = _bound(masses_g, own_g, limits_g, carriers)
    gap_share = BEST_SHARE if len(masses_g) <= FEW_THINGS else GOOD_ENOUGH_SHARE
    if _worst(greedy, masses_g, own_g, limits_g) <= bound * (1 + gap_share):
        return greedy
    solved = _solved(masses_g, own_g, limits_g, carriers, gap_share)
    if solved is None:
        return greedy
    better = min((solved, greedy), key=lambda each: _worst(each, masses_g, own_g, limits_g))
    return better


def _worst(
    owners: Sequence[int],
    masses_g: Sequence[float],
    own_g: Sequence[float],
    limits_g: Sequence[float],
) -> float:
    totals = list(own_g)
    for owner, mass_g in zip(owners, masses_g, strict=True):
        totals[owner] += mass_g
    return max(
        (total / limit for total, limit in zip(totals, limits_g, strict=True) if limit > 0),
        default=0.0,
    )


def _bound(
    masses_g: Sequence[float],
    own_g: Sequence[float],
    limits_g: Sequence[float],
    carriers: Sequence[int],
) -> float:
    """Give what no sharing can beat: all packs filled alike, or one person's own gear."""
    total_g = sum(masses_g) + sum(own_g[number] for number in carriers)
    alike = total_g / sum(limits_g[number] for number in carriers)
    return max(alike, *(own_g[number] / limits_g[number] for number in carriers))


def _greedy(
    masses_g: Sequence[float],
    own_g: Sequence[float],
    limits_g: Sequence[float],
    carriers: Sequence[int],
) -> list[int]:
    """Hand out the heaviest first, each to whom it leaves the emptiest pack."""
    totals = list(own_g)
    owners = [0] * len(masses_g)
    for thing in sorted(range(len(masses_g)), key=lambda each: (-masses_g[each], each)):
        owner = min(
            carriers, key=lambda number: (totals[number] + masses_g[thing]) / limits_g[number]
        )
        owners[thing] = owner
        totals[owner] += masses_g[thing]
    return owners


def _solved(
    masses_g: Sequence[float],
    own_g: Sequence[float],
    limits_g: Sequence[float],
    carriers: Sequence[int],
    gap_share: float,
) -> list[int] | None:
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    alike: dict[int, list[int]] = {}
    for thing, mass_g in enumerate(masses_g):
        alike.setdefault(round(mass_g * _MG), []).append(thing)
    sizes = sorted(alike, reverse=True)
    people, kinds = len(carriers), len(sizes)
    # Variables: how many of each size each carrier takes, then the largest share of a limit.
    unknowns = people * kinds + 1
    counts = np.zeros((kinds, unknowns))
    loads = np.zeros((people, unknowns))
    for row, number in enumerate(carriers):
        for column, size in enumerate(sizes):
            counts[column, row * kinds + column] = 1
            loads[row, row * kinds + column] = size / _MG / limits_g[number]
        loads[row, -1] = -1
    wanted = np.array([len(alike[size]) for size in sizes], dtype=float)
    own = np.array([own_g[number] / limits_g[number] for number in carriers])
    most = np.append(np.tile(wanted, people), np.inf)
    result = milp(
        c=np.append(np.zeros(people * kinds), 1.0),
        integrality=np.append(np.ones(people * kinds), 0),
        bounds=Bounds(np.zeros(unknowns), most),
        constraints=[
            LinearConstraint(counts, wanted, wanted),
            LinearConstraint(loads, -np.inf, -own),
        ],
        options={"node_limit": MOST_NODES, "mip_rel_gap": gap_share},
    )
    if result.x is None:
        return None
    owners = [carriers[0]] * len(masses_g)
    for column, size in enumerate(sizes):
        waiting = list(alike[size])
        for row, number in enumerate(carriers):
            for _ in range(round(float(result.x[row * kinds + column]))):
                if waiting:
                    owners[waiting.pop(0)] = number
    return owners
