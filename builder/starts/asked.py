"""What is asked of a new trip, and what of it the trip that it is made of must bear."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Mapping

from builder.model.content import Content
from builder.model.trip import Trip
from builder.problems import did_you_mean
from builder.reading.anew.rewriting import Changes
from builder.record import dataclass, field
from builder.starts.fresh import StartError, title_of
from builder.starts.reading_over import known_at_home


@dataclass(frozen=True, slots=True)
class NewTrip:
    """What is asked of a new trip."""

    name: str
    source: str | None = None  # a trip of the folder, or a kit
    start: datetime.date | None = None
    party: tuple[str, ...] = ()
    theirs: Collection[str] = ()  # ids of which the kit's record is to stand
    instead: Mapping[str, str] = field(default_factory=dict)  # who takes whose place: old → new


def changes_asked(asked: NewTrip, content: Content) -> Changes:
    """Give what the new trip changes, whatever is left of the packs that the old one took."""
    known = known_at_home(content)
    return Changes(title_of(asked.name), asked.start, asked.party, {}, asked.instead, known)


def check_who(trip: Trip, asked: NewTrip) -> None:
    """Check that who takes somebody's place comes, and that the other came and does not."""
    before = [person.name for person in trip.party]
    for old, new in asked.instead.items():
        told = f"--who {old}={new}"
        if old not in before:
            raise StartError(
                f"{told}: nobody of {trip.id} is called {old!r}", did_you_mean(old, before)
            )
        if old in asked.party or old in asked.instead.values():
            raise StartError(
                f"{told}: {old} comes too", "leave it out, or leave the name out of --party"
            )
        if asked.party and new not in asked.party:
            raise StartError(f"{told}: {new} does not come", f"add --party {new}")
