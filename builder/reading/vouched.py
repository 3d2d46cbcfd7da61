"""Shipped foods, cautions and sources: our own tests vouch for them, each is read when it is named.

What people write is read and checked whole. The lists that ship with the program are checked before
they leave, and a trip needs a few dozen of their records; finding where each of them stands takes a
thousandth of the time that reading them all would. A file of them that somebody copied is ours
still, as long as not a sign of it is changed.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Iterator
from functools import cached_property
from typing import Generic, TypeVar

from builder.problems import ProblemsFound
from builder.reading.notes import Notes
from builder.reading.text.yaml_door import Node, read_yaml
from builder.record import dataclass

Record = TypeVar("Record")

# The lists are laid out so: records parted by one blank line, each with its comments right above.
_ID = re.compile(r"^- id: (\S+)$", re.MULTILINE)


@dataclass(frozen=True)  # no slots: its record is kept beside the fields
class Listed(Generic[Record]):
    """A record as it stands in its list; its text has as many empty lines above as it had there."""

    path: str  # inside the content folder
    shown: str
    text: str
    reader: Callable[[Node, Notes], Record | None]

    @cached_property
    def node(self) -> Node:
        """Give its record, with the lines it stands on."""
        node, problems = read_yaml(self.text, self.shown)
        if node is None or problems:
            raise ProblemsFound(problems)
        return node.items[0]

    def record(self) -> Record:
        """Read it; what is wrong with it is a fault of ours."""
        notes = Notes()
        record = self.reader(self.node, notes)
        if record is None:
            raise ProblemsFound(list(notes))
        return record


def hash_of_list(texts: Iterable[str]) -> str:
    """Give a short hash of the files of a list, by which what was made of it is known."""
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()[:16]


def listed_in(
    path: str, shown: str, text: str, reader: Callable[[Node, Notes], Record | None]
) -> Iterator[tuple[str, Listed[Record]]]:
    """Give the records of one file of a list, by their ids."""
    line = 0
    for part in text.split("\n\n"):
        found = _ID.search(part)
        if found:
            yield found[1], Listed(path, shown, "\n" * line + part + "\n", reader)
        line += part.count("\n") + 2
