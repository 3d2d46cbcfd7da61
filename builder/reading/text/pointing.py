"""Finds the name of the field that stands at a place of a file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from builder.model.place import Place
from builder.problems import Problem
from builder.reading.files import read_start
from builder.reading.text.yaml_door import Node, decode, read_yaml
from builder.record import dataclass


def fields_of(problems: tuple[Problem, ...]) -> tuple[str, ...]:
    """Give the field that each problem is about, such as "days.0.air.low"; "" where none is."""
    names = {file: _Names.of(file) for file in {each.place.file for each in problems}}
    return tuple(names[each.place.file].of_problem(each) for each in problems)


@dataclass(frozen=True, slots=True)
class _Names:
    """The names of what stands in one file. A record and its first key begin at one place."""

    keys: dict[Place, str]
    values: dict[Place, str]

    @classmethod
    def of(cls, file: str) -> _Names:
        keys: dict[Place, str] = {}
        values: dict[Place, str] = {}
        for name, node in _walk(_root(file)):
            values.setdefault(node.place, name)
            for key, entry in node.entries.items():
                keys.setdefault(entry.place, _inside(name, key))
        return cls(keys, values)

    def of_problem(self, problem: Problem) -> str:
        about_key = problem.kind.startswith("key-")
        first, then = (self.keys, self.values) if about_key else (self.values, self.keys)
        # "" is the name of the whole record, and no reason to look for its first key.
        return first.get(problem.place, then.get(problem.place, ""))


def _root(file: str) -> Node | None:
    try:
        raw = read_start(Path(file))
    except OSError:
        return None
    text, unreadable = decode(raw, file)
    return None if unreadable else read_yaml(text, file)[0]


def _inside(name: str, key: str) -> str:
    return f"{name}.{key}" if name else key


def _walk(root: Node | None) -> Iterator[tuple[str, Node]]:
    """Go through all nodes from the outermost in, each with its name."""
    waiting = [("", root)] if root else []
    for name, node in waiting:
        yield name, node
        inside = (
            [(key, entry.node) for key, entry in node.entries.items()]
            if node.is_map
            else [(str(place), each) for place, each in enumerate(node.items)]
        )
        waiting += [(_inside(name, key), each) for key, each in inside]
