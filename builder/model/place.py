"""Where in a file a record or one of its fields was written."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from builder.record import dataclass, field


# Final, not frozen: nothing changes one either, and to make one takes a third of the time. There
# is one for each value that is read.
@dataclass(slots=True, order=True, unsafe_hash=True)
class Place:
    """A point in a text file, counted from 1."""

    file: Final[str]
    line: Final[int]
    column: Final[int]

    def __str__(self) -> str:
        """Give the clickable form `file:line:column`."""
        return f"{self.file}:{self.line}:{self.column}"


NOWHERE = Place("", 1, 1)


@dataclass(frozen=True, slots=True)
class Places:
    """The place of a record and of each of its fields; never part of a record's equality."""

    record: Place = NOWHERE
    fields: Mapping[str, Place] = field(default_factory=dict)

    def of(self, name: str) -> Place:
        """Give the place of a field, or that of the record where the field was left out."""
        return self.fields.get(name, self.record)
