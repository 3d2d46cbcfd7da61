"""What may lie in one run: sorts of things that are alike, and the largest sets of them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from builder.planning.runs.packing.task import Task, Thing
from builder.record import dataclass

# A part of a food in a run is at least so much, or all of it: nobody cuts up less.
LEAST_PART_KG = 0.1


@dataclass(frozen=True, slots=True)
class Sort:
    """Things that a plan need not tell apart."""

    things: tuple[int, ...]  # by number
    one: Thing  # one of them
    fresh_kg: float  # of all
    least_kg: float  # a part of any of them
    family: int  # those of one family lie apart from the same other ones


def sorts_of(task: Task) -> list[Sort]:
    """Put together what is dried alike, by the same day, and lies apart from the same things."""
    apart_of = [frozenset(_apart_from(number, task)) for number in range(len(task.things))]
    families = {each: number for number, each in enumerate(dict.fromkeys(apart_of))}
    has_ice = any(each.ice_kg is not None for each in task.places)
    alike: dict[tuple[object, ...], list[int]] = {}
    for number, each in enumerate(task.things):
        water = each.water_share if has_ice else None
        days = (each.first_day, each.last_day, each.spare_day)
        alike.setdefault((each.hours, days, apart_of[number], water), []).append(number)
    return [
        Sort(
            things=tuple(numbers),
            one=task.things[numbers[0]],
            fresh_kg=sum(task.things[n].fresh_kg for n in numbers),
            least_kg=min(least_part_kg(task.things[n]) for n in numbers),
            family=families[apart_of[numbers[0]]],
        )
        for numbers in alike.values()
    ]


def least_part_kg(thing: Thing) -> float:
    """Give the least of a thing that goes into a run."""
    return min(LEAST_PART_KG, thing.fresh_kg)


def largest_sets(numbers: Sequence[int], sorts: Sequence[Sort], task: Task) -> list[frozenset[int]]:
    """Give the sets of sorts that may lie together and to which none can be added."""
    families = sorted({sorts[n].family for n in numbers})
    shown = {sorts[n].family: sorts[n].things[0] for n in numbers}
    beside = {
        one: {
            other
            for other in families
            if other != one
            and (shown[one], shown[other]) not in task.apart
            and (shown[other], shown[one]) not in task.apart
        }
        for one in families
    }
    found = sorted(sorted(each) for each in _cliques(set(), set(families), set(), beside))
    return [frozenset(n for n in numbers if sorts[n].family in each) for each in found]


def _cliques(
    inside: set[int], open_: set[int], seen: set[int], beside: dict[int, set[int]]
) -> Iterator[Collection[int]]:
    """Give the largest sets that lie beside each other, by Bron and Kerbosch."""
    if not open_ and not seen:
        yield inside
        return
    pivot = max(sorted(open_ | seen), key=lambda each: len(beside[each] & open_))
    for each in sorted(open_ - beside[pivot]):
        yield from _cliques(inside | {each}, open_ & beside[each], seen & beside[each], beside)
        open_ = open_ - {each}
        seen = seen | {each}


def _apart_from(number: int, task: Task) -> Iterator[int]:
    for one, other in task.apart:
        if number in (one, other):
            yield other if number == one else one
