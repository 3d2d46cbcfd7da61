"""Who is told to carry a thing, and what goes together into one pack, before the rest is shared."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import Carried
from builder.model.trip import Trip
from builder.planning.carrying.sharing import Mornings, share_out


def share_out_tied(
    trip: Trip,
    things: Sequence[Carried],
    mornings_g: Sequence[Mornings],
    own_g: Sequence[float],
    limits_g: Sequence[float],
) -> list[int]:
    """Give for each thing the number of who carries it.

    What somebody is told to carry is in their pack already when the rest is shared out. Things
    that go together are one thing, and go to who is told to carry one of them.
    """
    names = [person.name for person in trip.party]
    bundles = _bundles(trip, things)
    days = len(mornings_g[0]) if mornings_g else 0
    packs_g = [[own] * days for own in own_g]
    owners = [-1] * len(things)
    free = []
    for bundle in bundles:
        told = next((things[each].carried_by for each in bundle if things[each].carried_by), None)
        masses_g = [
            sum(each) for each in zip(*(mornings_g[thing] for thing in bundle), strict=True)
        ]
        if told is None:
            free.append((bundle, tuple(masses_g)))
            continue
        who = names.index(told)
        packs_g[who] = [a + b for a, b in zip(packs_g[who], masses_g, strict=True)]
        for thing in bundle:
            owners[thing] = who
    found = share_out([masses_g for _, masses_g in free], packs_g, limits_g)
    for (bundle, _), owner in zip(free, found, strict=True):
        for thing in bundle:
            owners[thing] = owner
    return owners


def _bundles(trip: Trip, things: Sequence[Carried]) -> list[list[int]]:
    """Give the things by what goes into one pack; groups that share a thing are one."""
    bundle_of = list(range(len(things)))
    for group in trip.together:
        members = [
            number for number, thing in enumerate(things) if set(thing.known_as) & set(group)
        ]
        joined = {bundle_of[each] for each in members}
        bundle_of = [min(joined) if each in joined else each for each in bundle_of]
    return [
        [number for number, each in enumerate(bundle_of) if each == bundle]
        for bundle in dict.fromkeys(bundle_of)
    ]
