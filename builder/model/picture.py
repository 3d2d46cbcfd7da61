"""A picture beside a record."""

from __future__ import annotations

from collections.abc import Callable

from builder.model.place import NOWHERE, Place
from builder.record import dataclass, field


@dataclass(frozen=True, slots=True)
class Picture:
    """What is told of a picture; the small copy that kits show is made when a kit is built."""

    file: str  # its path from the record's own
    shows: str  # in words
    # The same picture weighs less once it was in a kit, and is the same.
    sha256: str = field(compare=False)
    width_px: int = field(compare=False)  # of the small copy
    height_px: int = field(compare=False)
    data: Callable[[], bytes] = field(compare=False, repr=False)  # reads the file
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def path(self) -> str:
        """Where it lies in a kit; the same picture twice lies there once."""
        return f"pictures/{self.sha256[:16]}.webp"
