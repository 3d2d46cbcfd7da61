"""What waits at a camp: it is carried by nobody before that camp's night is over."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.figure import add
from builder.model.kit import Carried, KitDepot
from builder.model.trip import Depot, Trip
from builder.planning.menu import MenuItem
from builder.planning.naming import food_of_meal
from builder.speech import Speech

# Of the day whose evening is at the depot, the meal that is eaten there.
_EATEN_AT_CAMP = "dinner"


def waits_at(depots: Sequence[Depot], day: int, meal: str) -> int | None:
    """Give the day at whose camp a meal's food waits; None for what is carried from home."""
    for depot in depots:
        if day in depot.holds and (day > depot.camp or meal == _EATEN_AT_CAMP):
            return depot.camp
    return None


def food_items(
    menus: Sequence[Sequence[MenuItem]], say: Speech, depots: Sequence[Depot] = ()
) -> list[Carried]:
    """Give the food of each meal with its packaging, as one thing."""
    return [
        Carried(
            food_of_meal(say, each.day, each.planned.meal, each.planned.title),
            each.planned.mass_g + each.planned.packaging_g,
            "food",
            (each.day, place),
            waits_at(depots, each.day, each.planned.meal),
            each.item.carried_by,
        )
        for menu in menus
        for place, each in enumerate(menu)
    ]


def carried_left_g(
    left_g: Sequence[float], things: Sequence[Carried], masses_g: Sequence[float]
) -> tuple[float, ...]:
    """Take what still waits off what is left on each morning; `masses_g` are those of things."""
    found = []
    for morning, left in enumerate(left_g, start=1):
        waiting = [
            mass_g
            for thing, mass_g in zip(things, masses_g, strict=True)
            if thing.from_camp is not None and morning <= thing.from_camp
        ]
        found.append(left - add(waiting) if waiting else left)
    return tuple(found)


def depots_of(trip: Trip, food: Sequence[Carried]) -> tuple[KitDepot, ...]:
    """Give what waits at each camp, with its packets."""
    return tuple(
        KitDepot(
            depot.camp,
            depot.holds,
            add(
                thing.mass_g
                for thing in food
                if thing.from_camp == depot.camp and thing.meal and thing.meal[0] in depot.holds
            ),
        )
        for depot in trip.depots
    )
