"""What a trip names of the things that it takes along, held against what it takes."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.place import Place
from builder.model.trip import Trip
from builder.problems import Problem, did_you_mean
from builder.reading.text.yaml_door import quoted

STOVE = "stove"  # each that the trip uses, whatever its id
FUEL = "fuel"  # what they burn


def not_taken_along(trip: Trip) -> Iterator[Problem]:
    """Tell of pots that the trip does not take, and of things that nobody carries."""
    for name, place in _pots_named(trip):
        if name not in trip.pots:
            says = f"this trip takes no pot {quoted(name)}"
            add = "name it in `stove: {pots: […]}` or `fire: {pots: […]}`"
            mend = did_you_mean(name, trip.pots) if trip.pots else add
            yield Problem(place, "pot-not-taken", says, mend)
    things = tuple(_things_of(trip))
    for number, group in enumerate(trip.together):
        for name in group:
            if name not in things:
                says = f"this trip takes nothing called {quoted(name)}"
                place = trip.places.of(f"together/{number}/{name}")
                yield Problem(place, "thing-unknown", says, did_you_mean(name, things))
        carriers = sorted(
            {each.carried_by for each in trip.gear_shared if each.carried_by and each.name in group}
        )
        if len(carriers) > 1:
            says = f"{' and '.join(carriers)} are to carry what goes together"
            mend = "write one `carried_by`, or take a thing out of `together`"
            place = trip.places.of(f"together/{number}/{group[0]}")
            yield Problem(place, "together-apart", says, mend)


def _pots_named(trip: Trip) -> Iterator[tuple[str, Place]]:
    """Give each pot in which something is to be cooked, where that is told first."""
    told: set[Place] = set()
    for day in trip.days:
        named = [(day.pot, day.places.of("in"))]
        named += [(each.pot, each.places.of("in")) for meal in day.meals for each in meal.items]
        for name, place in named:
            if name and place not in told:  # `every_day` and anchors tell one place many times
                told.add(place)
                yield name, place


def _things_of(trip: Trip) -> Iterator[str]:
    """Give what may be named among the things that one carries together."""
    if trip.stoves:
        yield from (STOVE, FUEL, *trip.stoves)
    yield from trip.pots
    if trip.fire:
        yield from trip.fire.irons
    yield from (thing.name for thing in trip.gear_shared)
