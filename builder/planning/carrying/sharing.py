"""Shares whole things out so that the fullest pack of any morning is as light as can be.

The heaviest things go first, each into the emptiest pack; then things are moved out of the fullest
pack, or exchanged for lighter ones, as long as that helps. That nearly always comes as close to
what no sharing can beat as is asked. Where it does not, the least largest load is a mixed-integer
programme, and HiGHS, through scipy, solves it; loading it costs more than planning a trip. Things
of equal weight are counted together there, which keeps the search small. It ends at a set number of
nodes, not at a set time, so that the same trip is always shared out the same way.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from itertools import combinations
from operator import add, sub

MOST_NODES = 400
# So few sharings are tried one by one, sooner than the solver is loaded.
MOST_TRIED = 20_000
# Of few things the very best sharing is found; of many, one within a tenth of a percent, which
# is less than a spoon in a pack and saves seconds.
FEW_THINGS = 12
BEST_SHARE = 1e-7
GOOD_ENOUGH_SHARE = 1e-3
_MG = 1000.0
# A step that makes the fullest pack lighter by less is none, so that there is an end of steps.
_HELPS_SHARE = 1e-9
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
    bound = _bound(masses_g, own_g, limits_g, carriers)
    gap_share = BEST_SHARE if len(masses_g) <= FEW_THINGS else GOOD_ENOUGH_SHARE
    enough = bound * (1 + gap_share)
    greedy = _greedy(masses_g, own_g, limits_g, carriers)
    packs = _Packs(masses_g, own_g, limits_g, carriers, greedy)
    while packs.worst > enough and packs.lighten():
        pass
    if packs.worst <= enough:
        return packs.owners
    if len(carriers) ** len(masses_g) <= MOST_TRIED:
        return _all_tried(packs, own_g)
    solved = _solved(masses_g, own_g, limits_g, carriers, gap_share)
    if solved is None:
        return packs.owners
    return min((solved, packs.owners), key=lambda each: _worst(each, masses_g, own_g, limits_g))


# How many things go out of it and how many come back, the simplest step first.
_STEPS = ((1, 0), (1, 1), (1, 2), (2, 1), (2, 2))
# Of more there are so many pairs that the solver is as quick, and they are seldom needed.
MANY_THINGS = 40


class _Packs:
    """The packs as they are shared out, which are made better step by step."""

    def __init__(
        self,
        masses_g: Sequence[Mornings],
        own_g: Sequence[Mornings],
        limits_g: Sequence[float],
        carriers: Sequence[int],
        owners: Sequence[int],
    ) -> None:
        self.masses_g, self.limits_g, self.carriers = masses_g, limits_g, carriers
        self.owners = list(owners)
        self.totals_g = {number: list(own_g[number]) for number in carriers}
        for mornings, owner in zip(masses_g, owners, strict=True):
            self.totals_g[owner] = _sums(self.totals_g[owner], mornings)

    @property
    def worst(self) -> float:
        """Give the largest share of a limit in any pack on any morning."""
        return max(map(self._full, self.carriers))

    def lighten(self) -> bool:
        """Make the fullest pack lighter by the best of the simplest steps that helps, if any."""
        fullest = max(self.carriers, key=self._full)
        kinds = _STEPS[: 2 if len(self.owners) > MANY_THINGS else None]
        return any(self._do_best(fullest, *kind) for kind in kinds)

    def _of(self, number: int) -> list[int]:
        return [thing for thing, owner in enumerate(self.owners) if owner == number]

    def _full(self, number: int) -> float:
        return max(self.totals_g[number]) / self.limits_g[number]

    def _do_best(self, fullest: int, out: int, back: int) -> bool:
        """Put so many things into another pack, for so many of it, if it helps.

        Of all such steps it is the one after which the fuller one of both packs is least full.
        """
        least, best = self._full(fullest) * (1 - _HELPS_SHARE), None
        here, limit_g = self.totals_g[fullest], self.limits_g[fullest]
        given_g = self._combined(fullest, out)
        worst = here.index(max(here))  # the morning that most steps do not help on
        for to in self.carriers:
            if to == fullest:
                continue
            taken_g = self._combined(to, back)
            for given, less_g in given_g:
                left = list(map(sub, here, less_g))
                left_g = left[worst]
                there = list(map(add, self.totals_g[to], less_g))
                for taken, more_g in taken_g:
                    if (left_g + more_g[worst]) / limit_g >= least:
                        continue
                    full = max(map(add, left, more_g)) / limit_g
                    if full < least:
                        fuller = max(full, max(map(sub, there, more_g)) / self.limits_g[to])
                        if fuller < least:
                            least, best = fuller, (given, taken, to)
        if best is None:
            return False
        self._exchange(fullest, *best)
        return True

    def _combined(self, number: int, count: int) -> list[tuple[tuple[int, ...], Mornings]]:
        """Give all choices of so many things of a pack, with what they weigh together."""
        empty: Mornings = (0.0,) * len(self.totals_g[number])
        return [
            (things, reduce(_sums, (self.masses_g[each] for each in things), empty))
            for things in combinations(self._of(number), count)
        ]

    def _exchange(
        self, fullest: int, given: tuple[int, ...], taken: tuple[int, ...], to: int
    ) -> None:
        for things, one, other in ((given, fullest, to), (taken, to, fullest)):
            for thing in things:
                self.owners[thing] = other
                self.totals_g[one] = list(map(sub, self.totals_g[one], self.masses_g[thing]))
                self.totals_g[other] = _sums(self.totals_g[other], self.masses_g[thing])


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
        totals[owner] = _sums(totals[owner], mornings)
    return owners


def _sums(one: Mornings, other: Mornings) -> list[float]:
    return list(map(add, one, other))


def _most(one: Mornings, other: Mornings) -> float:
    return max(a + b for a, b in zip(one, other, strict=True))


def _all_tried(packs: _Packs, own_g: Sequence[Mornings]) -> list[int]:
    """Give the best of all sharings; none that is worse with a part of the things is gone on with.

    It is better than what the packs hold now, or that.
    """
    masses_g, limits_g, carriers = packs.masses_g, packs.limits_g, packs.carriers
    heaviest_first = sorted(range(len(masses_g)), key=lambda each: (-max(masses_g[each]), each))
    best, least = packs.owners, packs.worst
    owners = list(best)

    def share(place: int, totals_g: dict[int, Mornings], worst: float) -> None:
        nonlocal best, least
        if worst >= least * (1 - _HELPS_SHARE):
            return
        if place == len(heaviest_first):
            best, least = list(owners), worst
            return
        thing = heaviest_first[place]
        for number in carriers:
            total = _sums(totals_g[number], masses_g[thing])
            owners[thing] = number
            fuller = max(worst, max(total) / limits_g[number])
            share(place + 1, {**totals_g, number: total}, fuller)

    empty = max(max(own_g[number]) / limits_g[number] for number in carriers)
    share(0, {number: own_g[number] for number in carriers}, empty)
    return best


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
