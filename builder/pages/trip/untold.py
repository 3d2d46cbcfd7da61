"""What the trip did not tell of a person or a day, and what its figures take instead."""

from __future__ import annotations

from builder.model.kit import Kit
from builder.speech import speech_of


def untold_of_person(kit: Kit, name: str) -> str:
    """Name what was not told of somebody."""
    return _untold(kit, ("name", name))


def people_not_told(kit: Kit, key: str) -> tuple[str, ...]:
    """Name those of the party of whom the trip does not tell a key."""
    untold = {blank for each in kit.defaults if ("of", key) in each.blanks for blank in each.blanks}
    return tuple(person.name for person in kit.party if ("name", person.name) in untold)


def untold_of_day(kit: Kit, day: int) -> str:
    """Name what was not told of a day."""
    return _untold(kit, ("n", str(day)))


def _untold(kit: Kit, whose: tuple[str, str]) -> str:
    say = speech_of(kit.language)
    return "; ".join(
        say("{what}, taken as {value}", what=each.what, value=each.value)
        for each in kit.defaults
        if whose in each.blanks
    )
