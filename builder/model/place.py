"""Where in a file a record or one of its fields was written."""

from __future__ import annotations

from collections.abc import Mapping

from builder.record import dataclass, field


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A point in a text file, counted from 1."""

    file: str
    line: int
    column: int

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
