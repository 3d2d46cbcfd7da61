"""The party of a trip: people who are told there, and people whom `home.yaml` tells."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Annotated

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.food import ALLERGENS, KINDS
from builder.model.home import Home
from builder.model.place import Place, Places
from builder.model.trip import DIETS, Person
from builder.problems import did_you_mean
from builder.reading.declared.declaring import Check, Here
from builder.reading.declared.shapes import NamedOr
from builder.reading.declared.values import is_blank, items_of, line_of, on_one_line, text_of
from builder.reading.declared.vocabulary import Items, Line, Value, Words
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.text.yaml_door import Node, quoted
from builder.reading.trips.at_hand import AtHand
from builder.reading.trips.people import WrittenPerson, avoids_nothing_known, named_twice
from builder.record import dataclass, replace


@dataclass(frozen=True)
class AtHome(Value):
    """Somebody whom `home.yaml` tells, by name."""

    _stub = "Ash"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> Person:
        """Find them; their place here is where the trip names them."""
        name = line_of(node, key)
        people = info.context.at_hand.home.people
        for person in people:
            if person.name == name:
                places = Places(node.place, {**person.places.fields, "name": node.place})
                return replace(person, places=places)
        known = [person.name for person in people]
        if not known:
            says = "there is no home.yaml that tells of people"
            refuse("person-unknown", says, f"write `{{name: {name}}}` here")
        says = f"home.yaml tells of no {quoted(name)}"
        refuse("person-unknown", says, did_you_mean(name, known))

    def takes(self) -> str:
        """Say what may be written."""
        return "the name of somebody at home"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return Line().schema()


def _avoids_what_is_known(here: Here) -> None:
    here.notes.extend(avoids_nothing_known(here.value.person(), here.notes.at_hand.foods))


def _somebody_goes(here: Here) -> None:
    if not here.value:
        refuse("empty", "nobody goes", "name at least one person")


Told = Annotated[WrittenPerson, Check(_avoids_what_is_known)]
Party = Annotated[
    tuple[
        Annotated[Person | WrittenPerson, NamedOr(text=Annotated[Person, AtHome()], keys=Told)], ...
    ],
    Items(),
    Check(_somebody_goes),
]


def named_in(party: Node | None) -> Iterator[tuple[str, Place]]:
    """Give each name of a party and where it stands, also of those of whom something is wrong."""
    return ((name, place) for name, place, _ in _told_of(party))


def avoided_in(party: Node | None, home: Home) -> dict[str, tuple[str, ...]]:
    """Give what each of a party avoids, by name."""
    at_home = {person.name: person.avoids for person in home.people}
    found: dict[str, tuple[str, ...]] = {}
    for name, _, node in _told_of(party):
        avoids = node.entries.get("avoids")
        words = items_of(avoids.node, "avoids", lone_item=True) if avoids else ()
        told = tuple(each.text.strip() for each in words if each.is_text)
        found.setdefault(name, told if node.is_map else at_home.get(name, ()))
    return found


def _told_of(party: Node | None) -> Iterator[tuple[str, Place, Node]]:
    for node in party.items if party else ():
        entry = node.entries.get("name")
        name = entry.node if entry else node
        if name.is_text and not is_blank(name):
            yield on_one_line(name.text), name.place, node


def note_named_twice(party: Node | None, notes: Notes) -> None:
    """Note whose name was there before."""
    before: set[str] = set()
    for name, place in named_in(party):
        if name in before:
            notes.append(named_twice(name, place))
        before.add(name)


@dataclass(frozen=True)
class Names(Words):
    """A list of names of the party; one alone needs no list."""

    def _word(self, node: object, info: ValidationInfo[Notes]) -> str:
        assert isinstance(node, Node)
        names = info.context.at_hand.names
        name = line_of(node, "name")
        if name and names and name not in names:
            raise nobody_called(name, names)
        return name

    def takes(self) -> str:
        """Say what may be written."""
        return "a list of names of the party"


_NOT = re.compile(r"not\s+(.+)")


@dataclass(frozen=True)
class Eaters(Names):
    """Names of the party, or `not nuts`: those who avoid nothing of it."""

    def _word(self, node: object, info: ValidationInfo[Notes]) -> str:
        assert isinstance(node, Node)
        found = _NOT.fullmatch(text_of(node, "for"))
        if found is None or on_one_line(node.text) in info.context.at_hand.names:
            return super()._word(node, info)
        known = (*DIETS, *ALLERGENS, *KINDS, *info.context.at_hand.foods)
        if found[1] not in known:
            says = f"{quoted(found[1])} is no diet, allergen, kind of food or food"
            hint = did_you_mean(found[1], known)
            near = hint if hint.endswith("?") else "write `not vegetarian`, or `not nuts`"
            refuse("avoids-unknown", says, near)
        return found[0]

    def takes(self) -> str:
        """Say what may be written."""
        return "a list of names of the party, or of what its eaters do not avoid, as `not nuts`"


def eaters_of(written: tuple[str, ...] | None, at_hand: AtHand) -> tuple[str, ...]:
    """Give who eats, in the order of the party: all, those who are named, or who avoid nothing."""
    if written is None:
        return at_hand.names
    found = {word: _NOT.fullmatch(word) for word in written if word not in at_hand.names}
    without = {each[1] for each in found.values() if each}
    if "vegetarian" in without:
        without.add("vegan")  # who avoids all that a vegetarian avoids
    return tuple(
        name
        for name, avoids in at_hand.party.items()
        if name in written or (without and not without & set(avoids))
    )


@dataclass(frozen=True)
class NameOf(Line):
    """The name of one of the party."""

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> str:
        """Read a name, and find it in the party."""
        name, names = super().read(node, key, info), info.context.at_hand.names
        if names and name not in names:
            raise nobody_called(name, names)
        return name

    def takes(self) -> str:
        """Say what may be written."""
        return "a name of the party"


def nobody_called(name: str, names: tuple[str, ...]) -> Amiss:
    """Say that the party has nobody of this name."""
    says = f"nobody in the party is called {quoted(name)}"
    return Amiss("person-unknown", says, did_you_mean(name, names))
