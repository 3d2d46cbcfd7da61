"""Published documents, and the safety sentences that rest on them."""

from __future__ import annotations

from typing import Literal, get_args

from builder.model.place import Places
from builder.record import dataclass, field

Known = Literal["read", "copy", "memory", "practice"]
KNOWN: tuple[str, ...] = get_args(Known)
Level = Literal["danger", "care", "note"]
LEVELS: tuple[Level, ...] = get_args(Level)


@dataclass(frozen=True, slots=True)
class Source:
    """A document that a number or caution rests on, and how it is known."""

    id: str
    title: str
    how: Known
    publisher: str = ""
    author: str = ""
    year: int | None = None
    url: str = ""
    places: Places = field(default_factory=Places, compare=False, repr=False)

    @property
    def reference(self) -> str:
        """The source in one line: whose, of when, and what."""
        parts = [self.author, self.publisher, str(self.year or ""), self.title]
        return ", ".join(part for part in parts if part)


@dataclass(frozen=True, slots=True)
class CautionText:
    """The words of a caution; its condition is a predicate in planning."""

    id: str
    level: Level
    title: str
    text: str  # a quantity in it stands as {74 degC|165 degF}
    sources: tuple[str, ...] = ()
    aloud: bool = False  # what anybody who cooks out there is told once, before leaving
    places: Places = field(default_factory=Places, compare=False, repr=False)
