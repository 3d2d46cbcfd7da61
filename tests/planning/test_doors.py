"""Rooms of which most is loaded when it is asked for give all that they say they do."""

from __future__ import annotations

import ast
import importlib
import inspect
from collections.abc import Iterator

import pytest

from builder.planning.doors import loaded_when_asked

LATE = ("builder.planning.at_home", "builder.planning.drying")


def under(tree: ast.Module, kind: str) -> Iterator[tuple[str, str]]:
    """Give each name and its module, as type checkers import them, or as the door has them."""
    for node in ast.walk(tree):
        if kind == "imported" and isinstance(node, ast.If):
            for each in node.body:
                assert isinstance(each, ast.ImportFrom) and each.module
                yield from ((name.name, each.module.split(".")[3]) for name in each.names)
        if kind == "late" and isinstance(node, ast.Dict):
            for module, names in ast.literal_eval(node).items():
                yield from ((name, module) for name in names)


@pytest.mark.parametrize("room", LATE)
def test_a_door_gives_late_what_it_imports_for_type_checkers(room: str) -> None:
    door = importlib.import_module(room)
    tree = ast.parse(inspect.getsource(door))
    late = dict(under(tree, "late"))
    assert late
    assert late == dict(under(tree, "imported"))
    for name in door.__all__:
        given = getattr(door, name)
        if name in late:
            assert given is getattr(importlib.import_module(f"{room}.{late[name]}"), name)


def test_what_no_door_gives_is_told_as_python_does() -> None:
    asked = loaded_when_asked("builder.planning.drying", {"plan": ("Run",)})
    with pytest.raises(AttributeError, match="has no attribute 'Nothing'"):
        asked("Nothing")
