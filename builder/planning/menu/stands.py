"""Which stove each dish of a mealtime stands on, and in which pot, where a trip has several.

Each dish begins on the first stove, in the pot that it gets on any trip. As long as all of the
mealtime is ready sooner by a minute or more when one dish stands elsewhere, that dish does. Stoves
join in one after the other, as the trip names them, so that one more never makes anybody wait.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache

from builder.model.figure import Figure, found, guarded
from builder.model.kit import PlannedMeal
from builder.planning.cooking import Cooked, Hearth, orders_of_work

# For less nobody lights another stove.
_WORTH_LIGHTING_MIN = 1.0
# Where each dish stands is searched for; what it burns and how long it takes hangs on it.
_STANDS_THERE = found(1.0, "stands_there", "all of the mealtime ready soonest")


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a dish is cooked: the stove by its key, the pot by its id; None as on any trip."""

    stove: str | None = None
    pot: str | None = None


Plan = Callable[[Stand], tuple[PlannedMeal, ...]]


def stands_of(plan: Plan, hearth: Hearth, pot_told: str | None) -> Sequence[Stand]:
    """Give where a dish can stand: on each stove, in each pot that takes it in as few potfuls."""
    first = plan(Stand())
    (dish, *others) = first
    if dish.cooked_on != "stove":
        return (Stand(),)
    keys = [each.key for each in hearth.stoves]
    pots: list[str | None] = [None]
    if pot_told is None and not others:  # what is parted keeps to its two pots
        fewest = [
            pot.id
            for pot in hearth.pots
            if pot.id != dish.pot and plan(Stand(pot=pot.id))[0].potfuls == dish.potfuls
        ]
        pots += fewest
    return [Stand(key, pot) for key in keys for pot in pots]


def soonest_ready(
    options: Sequence[Sequence[Stand]],
    planned: Callable[[int, Stand], tuple[PlannedMeal, ...]],
    hearth: Hearth,
) -> Sequence[Stand]:
    """Choose for each dish one of its options, of which the first is the first stove's."""
    plan = cache(planned)

    def takes_min(stands: Sequence[Stand]) -> float:
        meals = [dish for number, stand in enumerate(stands) for dish in plan(number, stand)]
        return max((float(each.start_min) for each in orders_of_work(meals, hearth)), default=0.0)

    stands = [each[0] for each in options]
    least_min = takes_min(stands)
    lit: set[str | None] = {None, hearth.stoves[0].key}
    for stove in hearth.stoves[1:]:
        lit.add(stove.key)
        while True:
            moved = [
                [*stands[:number], other, *stands[number + 1 :]]
                for number, own in enumerate(options)
                for other in own
                if other.stove in lit and other != stands[number]
            ]
            quickest = min(moved, key=takes_min, default=stands)
            quickest_min = takes_min(quickest)
            if quickest_min > least_min - _WORTH_LIGHTING_MIN:
                break
            stands, least_min = quickest, quickest_min
    return stands


def as_chosen(cooked: Cooked, hearth: Hearth) -> Cooked:
    """Say of what hangs on the stove and its pot that these were chosen."""
    if len(hearth.stoves) < 2 or cooked.cooked_on != "stove":
        return cooked
    return replace(
        cooked,
        heat_kj=_guarded(cooked.heat_kj),
        fuel_heat_kj=_guarded(cooked.fuel_heat_kj),
        minutes=_guarded(cooked.minutes),
    )


def _guarded(value: float) -> float:
    return guarded(value, _STANDS_THERE) if isinstance(value, Figure) else value
