"""What in the trip's meals somebody must not eat, on their plate or on another's."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.kit import HOWS, How, Refused
from builder.model.trip import Person
from builder.planning.foods import Substance
from builder.planning.menu.avoided import avoided_how
from builder.planning.menu.menu import MenuItem


def refused_by(person: Person, menus: Sequence[Sequence[MenuItem]]) -> tuple[Refused, ...]:
    """Give every food of the trip that is not, or may not be, for a person, meal by meal."""
    return tuple(_refused_by(person, menus)) if person.avoids else ()


def _refused_by(person: Person, menus: Sequence[Sequence[MenuItem]]) -> Iterator[Refused]:
    for number, menu in enumerate(menus, start=1):
        for place, meal in enumerate(menu):
            for portion in meal.portions:
                if how := refused_how(person, portion.substance):
                    eats = person.name in meal.planned.eaters
                    yield Refused(number, place, portion.planned.name, eats, how)


def refused_how(person: Person, substance: Substance) -> How | None:
    """Give the gravest reason why something is not for a person; None where it is for them."""
    found = {avoided_how(substance, word) for word in person.avoids}
    return next((how for how in HOWS if how in found), None)


def refused_words(person: Person, substance: Substance) -> tuple[str, ...]:
    """Give the words of what a person avoids that something holds, or may hold."""
    return tuple(word for word in person.avoids if avoided_how(substance, word))


def avoided_in(person: Person, substance: Substance, how: How) -> tuple[str, ...]:
    """Give the words of what a person avoids that something holds in that way."""
    return tuple(word for word in person.avoids if avoided_how(substance, word) == how)
