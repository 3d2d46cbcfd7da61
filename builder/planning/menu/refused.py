"""What in the trip's meals somebody must not eat, on their plate or on another's."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import Refused
from builder.model.trip import Person
from builder.planning.menu.avoided import is_avoided
from builder.planning.menu.menu import MenuItem


def refused_by(person: Person, menus: Sequence[Sequence[MenuItem]]) -> tuple[Refused, ...]:
    """Give every food of the trip that a person must not eat, meal by meal."""
    return tuple(
        Refused(number, place, portion.planned.name, person.name in meal.planned.eaters)
        for number, menu in enumerate(menus, start=1)
        for place, meal in enumerate(menu)
        for portion in meal.portions
        if any(is_avoided(portion, word) for word in person.avoids)
    )
