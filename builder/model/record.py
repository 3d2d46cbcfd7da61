"""Frozen records whose classes cost little to make: every process makes hundreds of them.

`@dataclass(frozen=True, slots=True)` writes and compiles eight methods for each class, of which
most are never called, and which take half of the time that the program needs to start. Here one is
compiled, `__init__`; the others are the same functions for all. What comes of it is a dataclass
like any other: `fields`, `replace`, patterns and type checkers know no difference.
"""

from __future__ import annotations

import dataclasses
import sys
from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, fields
from functools import cache
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any, NoReturn

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(kind: type | None = None, /, **options: Any) -> Any:
        """Make a dataclass, in the quick way where it is frozen and has slots."""
        if options == {"frozen": True, "slots": True}:
            return _record
        return dataclasses.dataclass(kind, **options)


def _record(kind: type) -> Any:
    kind.__doc__ = kind.__doc__ or kind.__name__  # or a signature would be worked out for it
    made: Any = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True)(kind)
    for name, method in _OF_ALL.items():
        if kind.__dict__.get(name) is None:
            setattr(made, name, method)
    if "__init__" not in kind.__dict__:
        made.__init__ = _init_of(made)
    return made


def _init_of(made: Any) -> Any:
    """Compile what fills the fields of a record: it is called most, and has to be quick."""
    known: dict[str, Any] = {"_set": object.__setattr__, "_left_out": MISSING}
    told, filled = [], []
    for number, each in enumerate(fields(made)):
        name = value = each.name
        default = f"_{number}"
        if not each.init or each.kw_only:
            raise TypeError(
                f"{made.__name__}.{name}: write a plain field, or take another dataclass"
            )
        if each.default_factory is not MISSING:
            known[default] = each.default_factory
            told.append(f"{name}=_left_out")
            value = f"{default}() if {name} is _left_out else {name}"
        elif each.default is not MISSING:
            known[default] = each.default
            told.append(f"{name}={default}")
        else:
            told.append(name)
        filled.append(f"_set(self, {name!r}, {value})")
    if hasattr(made, "__post_init__"):
        filled.append("self.__post_init__()")
    body = "; ".join(filled) or "pass"
    init = f"def __init__({', '.join(['self', *told])}): {body}"
    text = f"def made({', '.join(known)}):\n {init}\n return __init__"
    found: dict[str, Any] = {}
    exec(text, vars(sys.modules[made.__module__]), found)
    method = found["made"](**known)
    method.__qualname__ = f"{made.__qualname__}.__init__"
    method.__annotations__ = {**{each.name: each.type for each in fields(made)}, "return": None}
    return method


@cache
def _compared(kind: Any) -> Callable[[Any], Any]:
    """Give what gives those values of a record that tell it from another."""
    names = [each.name for each in fields(kind) if each.compare]
    if len(names) > 1:
        return attrgetter(*names)
    return lambda record: tuple(getattr(record, name) for name in names)


def _eq(self: Any, other: Any) -> Any:
    kind: Any = self.__class__
    if other.__class__ is not kind:
        return NotImplemented
    values_of = _compared(kind)
    return values_of(self) == values_of(other)


def _hash(self: Any) -> int:
    values_of = _compared(self.__class__)
    return hash(values_of(self))


@recursive_repr()
def _repr(self: Any) -> str:
    shown = (f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{self.__class__.__qualname__}({', '.join(shown)})"


def _refuse_to_set(self: object, name: str, value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(self: object, name: str) -> NoReturn:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[object]:
    return [getattr(self, each.name) for each in fields(self)]


def _set_state(self: Any, state: list[object]) -> None:
    for each, value in zip(fields(self), state, strict=True):
        object.__setattr__(self, each.name, value)


_OF_ALL = {
    "__eq__": _eq,
    "__hash__": _hash,
    "__repr__": _repr,
    "__setattr__": _refuse_to_set,
    "__delattr__": _refuse_to_delete,
    "__getstate__": _state,
    "__setstate__": _set_state,
}
