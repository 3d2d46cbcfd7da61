"""Which stove each dish of a mealtime stands on, and in which pot, where a trip has several.

Each dish begins on the first stove, in the pot that it gets on any trip. As long as the work for
all of the mealtime begins later by a minute or more when one dish stands elsewhere, or begins no
sooner and ready food stands a good deal shorter, that dish does. Stoves join in one after the
other, as the trip names them, so that one more never makes anybody wait.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from operator import itemgetter

from builder.model.figure import TRACING, Figure, found, guarded
from builder.model.kit import PlannedMeal
from builder.planning.cooking import Cooked, Dish, Hearth, dish_of, orders_of_work
from builder.record import dataclass, replace

# For less nobody lights another stove.
_WORTH_LIGHTING_MIN = 1.0
_WORTH_LIGHTING_FOR_HOT_MIN = 5.0  # so much less does ready food stand
_ALIKE_MIN = 1e-6
# Where each dish stands is searched for; what it burns and how long it takes hangs on it.
_STANDS_THERE = found(1.0, "stands_there", "all of the mealtime ready soonest, then together")


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a dish is cooked: the stove by its key, the pot by its id; None as on any trip.

    What any trip cooks on is its first stove, which is told by None and never by its key.
    """

    stove: str | None = None
    pot: str | None = None


Plan = Callable[[Stand], tuple[PlannedMeal, ...]]


def stands_of(plan: Plan, hearth: Hearth, pot_told: str | None) -> Sequence[Stand]:
    """Give where a dish can stand: on each stove, in each pot that takes it in as few potfuls."""
    dish, *others = plan(Stand())
    if dish.cooked_on != "stove":
        return (Stand(),)
    keys = [None, *(each.key for each in hearth.stoves[1:])]
    pots: list[str | None] = [None]
    if pot_told is None and not others:  # what is parted keeps to its two pots
        pots += (
            pot.id
            for pot in hearth.pots
            if pot.id != dish.pot and plan(Stand(pot=pot.id))[0].potfuls == dish.potfuls
        )
    return [Stand(key, pot) for key in keys for pot in pots]


def soonest_ready(
    options: Sequence[Sequence[Stand]],
    plan: Callable[[int, Stand], tuple[PlannedMeal, ...]],
    hearth: Hearth,
) -> Sequence[Stand]:
    """Choose for each dish one of its options, of which the first is the first stove's."""

    cut_before: dict[tuple[int, int], Dish] = {}  # `plan` keeps each dish, at its place in memory

    def cut(place: int, meal: PlannedMeal, hearth: Hearth) -> Dish:
        if (place, id(meal)) not in cut_before:
            cut_before[place, id(meal)] = dish_of(place, meal, hearth)
        return cut_before[place, id(meal)]

    def takes_min(stands: Sequence[Stand]) -> tuple[float, float]:
        meals = [dish for number, stand in enumerate(stands) for dish in plan(number, stand)]
        orders = orders_of_work(meals, hearth, cut=cut)
        stood = (float(step.minutes) for each in orders for step in each.steps if step.do == "keep")
        return max((float(each.start_min) for each in orders), default=0.0), sum(stood)

    stands = [each[0] for each in options]
    now = takes_min(stands)
    lit: set[str | None] = {None}
    for stove in hearth.stoves[1:]:
        lit.add(stove.key)
        while True:
            moved = (
                [*stands[:number], other, *stands[number + 1 :]]
                for number, own in enumerate(options)
                for other in own
                if other.stove in lit and other != stands[number]
            )
            tried = ((takes_min(each), each) for each in moved)
            then, best = min(tried, key=itemgetter(0), default=(now, stands))
            if not _is_worth_it(now, then):
                break
            stands, now = best, then
    return stands


def _is_worth_it(now: tuple[float, float], then: tuple[float, float]) -> bool:
    """Tell whether all begins later, or as late with less ready food that stands."""
    (start_min, stands_min), (other_start_min, other_stands_min) = now, then
    if other_start_min <= start_min - _WORTH_LIGHTING_MIN:
        return True
    is_as_late = other_start_min <= start_min + _ALIKE_MIN
    return is_as_late and other_stands_min <= stands_min - _WORTH_LIGHTING_FOR_HOT_MIN


def as_chosen(cooked: Cooked, hearth: Hearth) -> Cooked:
    """Say of what hangs on the stove and its pot that these were chosen."""
    if not TRACING.on or len(hearth.stoves) < 2 or cooked.cooked_on != "stove":
        return cooked
    return replace(
        cooked,
        heat_kj=_guarded(cooked.heat_kj),
        fuel_heat_kj=_guarded(cooked.fuel_heat_kj),
        minutes=_guarded(cooked.minutes),
    )


def _guarded(value: float) -> float:
    return guarded(value, _STANDS_THERE) if isinstance(value, Figure) else value
