"""Doors of rooms through which most errands take only a little: the rest is loaded when asked for.

A room's `__init__.py` imports for type checkers all that it gives, and says here in which of its
modules each name stands that a build of one trip has no use for.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from importlib import import_module


def loaded_when_asked(room: str, inside: Mapping[str, Sequence[str]]) -> Callable[[str], object]:
    """Give a room's `__getattr__`; `inside` holds the names that each of its modules gives."""
    modules = {name: module for module, names in inside.items() for name in names}

    def asked(name: str) -> object:
        if name not in modules:
            raise AttributeError(f"module {room!r} has no attribute {name!r}")
        found = getattr(import_module(f"{room}.{modules[name]}"), name)
        setattr(sys.modules[room], name, found)  # asked for once
        return found

    return asked
