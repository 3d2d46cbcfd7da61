"""On another stove only how a dish is cooked is otherwise, so that only that is tried again."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from builder.model.content import Content
from builder.model.kit import PlannedMeal
from builder.model.trip import Trip
from builder.planning.cooking import cooking_places, hearth_of
from builder.planning.menu.menu import Mealtime, _as_cooked, _MenuPlanner
from builder.planning.menu.portions import Larder
from builder.planning.menu.stands import Stand
from builder.planning.stock import Stock, check
from builder.reading.folder import Layer, read_folder
from builder.record import fields

REPO = Path(__file__).parents[2]


def on_each_stove(
    trip: Trip, content: Content, stock: Stock
) -> Iterator[tuple[set[str], list[PlannedMeal]]]:
    """Plan each dish of a trip on each stove and in each pot; tell what is tried again of it."""
    hearth, places = hearth_of(trip, content), cooking_places(trip)
    stands = [Stand(one.key) for one in hearth.stoves[1:]]
    stands += [Stand(pot=pot.id) for pot in hearth.pots]
    mealtimes = [(each, meal) for each in trip.days for meal in each.meals]
    for day, meal in mealtimes:
        at = Mealtime(day, meal.meal, places.of_meal(day, meal.meal))
        for item in (each for each in meal.items if each.recipe and not each.parted):
            planner = _MenuPlanner(Larder(trip, content, stock.judged), hearth)
            found = [
                planner.dishes(at, item, stand, has_embers=False)[0] for stand in (Stand(), *stands)
            ]
            cooked = planner.cooked(at, item, Stand(), found[0].portions, has_embers=False)
            yield set(_as_cooked(cooked)), [each.planned for each in found]


def test_what_hangs_on_the_stove_is_all_tried_again() -> None:
    content = read_folder([Layer(REPO / "content", "content")]).content
    stock, _ = check(content)
    differ: set[str] = set()
    for trip in content.trips.values():
        for tried, (first, *others) in on_each_stove(trip, content, stock):
            differ |= {
                each.name
                for each in fields(PlannedMeal)
                for other in others
                if getattr(first, each.name) != getattr(other, each.name)
            }
            assert differ <= tried
    assert {"stove", "pot", "minutes", "fuel_heat_kj"} <= differ
