"""The shipped foods: a long list that our own tests vouch for, each food read when it is named.

What people write is read and checked whole. The list that ships with the program is checked before
it leaves, and a folder eats a few dozen of its foods; finding where each of them stands takes a
thousandth of the time that reading them all would. A file of it that somebody copied is the list
still, as long as not a sign of it is changed.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator
from functools import cached_property

from builder.model.food import Food
from builder.problems import ProblemsFound
from builder.reading.dishes.foods import read_food
from builder.reading.notes import Notes
from builder.reading.text.yaml_door import Node, read_yaml
from builder.record import dataclass

# The list is laid out so: records parted by one blank line, each with its comments right above.
_ID = re.compile(r"^- id: (\S+)$", re.MULTILINE)


@dataclass(frozen=True)  # no slots: its record is kept beside the fields
class Listed:
    """A food as it stands in the list; its text has as many empty lines above as it had there."""

    path: str  # inside the content folder
    shown: str
    text: str

    @cached_property
    def node(self) -> Node:
        """Give its record, with the lines it stands on."""
        node, problems = read_yaml(self.text, self.shown)
        if node is None or problems:
            raise ProblemsFound(problems)
        return node.items[0]

    def food(self) -> Food:
        """Read it; what is wrong with it is a fault of ours."""
        notes = Notes()
        food = read_food(self.node, notes)
        if food is None:
            raise ProblemsFound(list(notes))
        return food


def hash_of_list(texts: Iterable[str]) -> str:
    """Give a short hash of the files of the list, by which what was made of it is known."""
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()[:16]


def foods_listed(path: str, shown: str, text: str) -> Iterator[tuple[str, Listed]]:
    """Give the foods of one file of the list, by their ids."""
    line = 0
    for part in text.split("\n\n"):
        found = _ID.search(part)
        if found:
            yield found[1], Listed(path, shown, "\n" * line + part + "\n")
        line += part.count("\n") + 2
