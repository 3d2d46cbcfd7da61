"""What is known while a trip is read: what was read before it, and what it says of itself."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from builder.model.food import Food
from builder.model.home import Home
from builder.model.recipe import Recipe
from builder.model.track import DayTrack
from builder.reading.text.yaml_door import Node
from builder.record import dataclass, field


@dataclass(frozen=True, slots=True)
class AtHand:
    """What the keys of a trip are held against; empty while no trip is read."""

    foods: Mapping[str, Food] = field(default_factory=dict)
    recipes: Mapping[str, Recipe] = field(default_factory=dict)
    home: Home = field(default_factory=Home)
    batches: Collection[str] = ()
    # What each of the party avoids by name, also of those of whom something is wrong.
    party: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    days: tuple[Node, ...] = ()
    # What the track beside the trip tells, part by part, then by day.
    track_parts: tuple[DayTrack, ...] = ()
    tracks: tuple[DayTrack, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the party."""
        return tuple(self.party)

    def track_of(self, number: int) -> DayTrack | None:
        """Give what the track tells of a day, counted from 1."""
        return self.tracks[number - 1] if number <= len(self.tracks) else None

    def number_of(self, day: Node) -> int:
        """Give the number of a day, counted from 1."""
        return next(number for number, each in enumerate(self.days, start=1) if each is day)
