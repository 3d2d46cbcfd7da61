"""Shares whole things out so that the fullest pack of any morning is as light as can be.

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


# What a thing weighs on each morning.
Mornings = Sequence[float]


def share_out(
    masses_g: Sequence[Mornings], own_g: Sequence[Mornings], limits_g: Sequence[float]
) -> list[int]:
    """Give for each thing the number of the person who carries it, once for the trip.

    `own_g` is what each has in the pack already, on each morning. Only people with a limit above
    nothing carry. Where nobody does, the first carries all.
    """
    # In an order of their own, so that the order of the party does not change who is fullest.
    carriers = sorted(
        (number for number, limit in enumerate(limits_g) if limit > 0),
        key=lambda number: (limits_g[number], tuple(own_g[number]), number),
    )
    if len(carriers) < 2 or not masses_g:
        return [carriers[0] if carriers else 0] * len(masses_g)
    masses_g, own_g = _heavy_mornings(masses_g, own_g)
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


def _heavy_mornings(
    masses_g: Sequence[Mornings], own_g: Sequence[Mornings]
) -> tuple[list[Mornings], list[Mornings]]:
    """Leave out the mornings on which everything is at most as heavy as on another one."""
    mornings = list(dict.fromkeys(zip(*masses_g, *own_g, strict=True)))
    kept = [
        one
        for one in mornings
        if not any(
            other is not one and all(a <= b for a, b in zip(one, other, strict=True))
            for other in mornings
        )
    ]
    things: list[Mornings] = list(zip(*kept, strict=True))
    return things[: len(masses_g)], things[len(masses_g) :]


def _worst(
    owners: Sequence[int],
    masses_g: Sequence[Mornings],
    own_g: Sequence[Mornings],
    limits_g: Sequence[float],
) -> float:
    worst = 0.0
    for *totals, morning in zip(*own_g, zip(*masses_g, strict=True), strict=True):
        for owner, mass_g in zip(owners, morning, strict=True):
            totals[owner] += mass_g
        shares = (total / limit for total, limit in zip(totals, limits_g, strict=True) if limit > 0)
        worst = max(worst, *shares)
    return worst


def _bound(
    masses_g: Sequence[Mornings],
    own_g: Sequence[Mornings],
    limits_g: Sequence[float],
    carriers: Sequence[int],
) -> float:
    """Give what no sharing can beat: all packs filled alike, or one person's own gear."""
    in_packs = (own_g[number] for number in carriers)
    total_g = max(map(sum, zip(*masses_g, *in_packs, strict=True)))
    alike = total_g / sum(limits_g[number] for number in carriers)
    return max(alike, *(max(own_g[number]) / limits_g[number] for number in carriers))


def _greedy(
    masses_g: Sequence[Mornings],
    own_g: Sequence[Mornings],
    limits_g: Sequence[float],
    carriers: Sequence[int],
) -> list[int]:
    """Hand out the heaviest first, each to whom it leaves the emptiest pack."""
    totals = [list(own) for own in own_g]
    owners = [0] * len(masses_g)
    for thing in sorted(range(len(masses_g)), key=lambda each: (-max(masses_g[each]), each)):
        mornings = masses_g[thing]
        shares = [_most(totals[number], mornings) / limits_g[number] for number in carriers]
        owner = carriers[shares.index(min(shares))]
        owners[thing] = owner
        totals[owner] = [sum(each) for each in zip(totals[owner], mornings, strict=True)]
    return owners


def _most(one: Mornings, other: Mornings) -> float:
    return max(a + b for a, b in zip(one, other, strict=True))


def _solved(
    masses_g: Sequence[Mornings],
    own_g: Sequence[Mornings],
    limits_g: Sequence[float],
    carriers: Sequence[int],
    gap_share: float,
) -> list[int] | None:
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    alike: dict[tuple[int, ...], list[int]] = {}
    for thing, mornings in enumerate(masses_g):
        alike.setdefault(tuple(round(mass_g * _MG) for mass_g in mornings), []).append(thing)
    sizes = sorted(alike, reverse=True)
    people, kinds, days = len(carriers), len(sizes), len(masses_g[0])
    # Variables: how many of each size each carrier takes, then the largest share of a limit.
    unknowns = people * kinds + 1
    counts = np.zeros((kinds, unknowns))
    loads = np.zeros((people * days, unknowns))
    for row, number in enumerate(carriers):
        for column, size in enumerate(sizes):
            counts[column, row * kinds + column] = 1
            for day in range(days):
                each = size[day] / _MG / limits_g[number]
                loads[row * days + day, row * kinds + column] = each
    loads[:, -1] = -1
    wanted = np.array([len(alike[size]) for size in sizes], dtype=float)
    own = np.concatenate([np.array(own_g[number]) / limits_g[number] for number in carriers])
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
