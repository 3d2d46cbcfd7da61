"""Records: dataclasses whose classes and values are made many times as fast.

To a type checker they are the dataclasses of the standard library, and what is written is the
same. Making their classes took an eighth of a build of one trip, and making a value of a frozen
one sets each field through a check; a `msgspec.Struct` takes a fortieth of the one time and a
twelfth of the other. What a struct cannot do (a field that is not given when a value is made) is
left to the standard library, class by class.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Collection
from dataclasses import MISSING, Field, field
from functools import cache
from operator import attrgetter
from typing import TYPE_CHECKING, Any, NamedTuple

from msgspec import NODEFAULT, Struct, structs
from msgspec import field as struct_field

__all__ = [
    "MISSING",
    "asdict",
    "dataclass",
    "field",
    "fields",
    "is_dataclass",
    "names_of",
    "replace",
]

_STRUCTS: Any = type(Struct)  # makes their classes


class _Told(NamedTuple):
    """A field of a struct, as `dataclasses.fields` tells one."""

    name: str
    default: Any
    default_factory: Any
    compare: bool = True


def _dataclass(
    *,
    frozen: bool = False,
    slots: bool = False,
    eq: bool = True,
    order: bool = False,
) -> Callable[[type], type]:
    """Make a record of a class."""

    def made(kind: type) -> type:
        if issubclass(kind, Struct):  # as its base is one
            return _checked(kind, frozen, eq, order)
        body = {name: value for name, value in vars(kind).items() if name not in _OF_PLAIN_CLASSES}
        given = {name: value for name, value in body.items() if isinstance(value, Field)}
        if not all(each.init for each in given.values()):
            return dataclasses.dataclass(kind, frozen=frozen, slots=slots, eq=eq, order=order)
        for name, each in given.items():
            del body[name]
            if each.default is not MISSING or each.default_factory is not MISSING:
                body[name] = _default(each)
        if apart := {name for name, each in given.items() if not each.compare}:
            unseen = {name for name, each in given.items() if not each.repr}
            names = tuple(name for name in kind.__annotations__ if name not in apart)
            body |= {_APART: frozenset(apart), **_comparing(names, unseen)}
        bases = (Struct, *(base for base in kind.__bases__ if base is not object))
        how = {"frozen": frozen, "eq": eq and not apart, "order": order, "dict": not slots}
        struct: type = _STRUCTS(kind.__name__, bases, body, **how)
        return struct

    return made


def _default(field: Field[Any]) -> Any:
    """Give what a struct takes for the default of a field."""
    made_by: Any = field.default_factory
    return field.default if made_by is MISSING else struct_field(default_factory=made_by)


def _comparing(names: tuple[str, ...], unseen: Collection[str]) -> dict[str, Any]:
    """Give what compares the records of a class by some fields, and shows all but some."""
    told: Callable[[Any], Any] = attrgetter(*names)

    def alike(one: Any, other: object) -> bool:
        return told(one) == told(other) if type(one) is type(other) else NotImplemented

    def unlike(one: Any, other: object) -> bool:
        return told(one) != told(other) if type(one) is type(other) else NotImplemented

    def shown(one: Any) -> str:
        seen = (name for name in names_of(type(one)) if name not in unseen)
        fields_shown = ", ".join(f"{name}={getattr(one, name)!r}" for name in seen)
        return f"{type(one).__qualname__}({fields_shown})"

    # A struct has a `__ne__` of its own, which does not ask `__eq__`.
    compared = {"__eq__": alike, "__ne__": unlike, "__hash__": lambda one: hash(told(one))}
    return {**compared, "__repr__": shown}


def _checked(kind: type[Struct], frozen: bool, eq: bool, order: bool) -> type[Struct]:
    has = kind.__struct_config__
    if hasattr(kind, _APART):
        raise TypeError(f"{kind.__name__} has a base that leaves a field out of comparisons")
    if (has.frozen, has.eq, has.order) != (frozen, eq, order):
        raise TypeError(f"{kind.__name__} is to be frozen, compared and ordered as its base is")
    if any(isinstance(each, Field) for each in kind.__struct_defaults__):
        raise TypeError(f"{kind.__name__} has a base, and cannot have a field(...) of its own")
    return kind


_OF_PLAIN_CLASSES = ("__dict__", "__weakref__")
_APART = "__apart__"  # the fields of a record that are left out of comparisons


def _is_dataclass(value: object) -> bool:
    """Tell whether something is a record, or the class of one."""
    return hasattr(value, "__struct_fields__") or dataclasses.is_dataclass(value)


def _fields(record: Any) -> tuple[Any, ...]:
    """Give what there is to know of the fields of a record, or of the class of one."""
    if not hasattr(record, "__struct_fields__"):
        return dataclasses.fields(record)
    names, defaults = record.__struct_fields__, record.__struct_defaults__
    needed = len(names) - len(defaults)
    told = map(_told, names, [NODEFAULT] * needed + list(defaults))
    apart = getattr(record, _APART, ())
    return tuple(each._replace(compare=each.name not in apart) for each in told)


def _told(name: str, default: Any) -> _Told:
    if default is NODEFAULT:
        return _Told(name, MISSING, MISSING)
    if type(default) is _Factory:  # what makes a default
        return _Told(name, MISSING, default.factory)
    return _Told(name, default, MISSING)


class _WithFactory(Struct):
    made: list[int] = struct_field(default_factory=list)


_Factory: Any = type(_WithFactory.__struct_defaults__[0])


def _names_of(kind: type) -> tuple[str, ...]:
    """Give the names of the fields that a kind of record has; none of what is no record."""
    return tuple(each.name for each in fields(kind)) if is_dataclass(kind) else ()


names_of: Callable[[type], tuple[str, ...]] = cache(_names_of)


def _replace(record: Any, /, **changes: Any) -> Any:
    """Give a record with other values."""
    replaced = structs.replace if isinstance(record, Struct) else dataclasses.replace
    return replaced(record, **changes)


def _asdict(record: Any) -> dict[str, Any]:
    """Give a record, and those in it, as plain mappings."""
    told: dict[str, Any] = _plain(record)
    return told


def _plain(value: Any) -> Any:
    if names := names_of(type(value)):
        return {name: _plain(getattr(value, name)) for name in names}
    if isinstance(value, tuple):
        return tuple(_plain(each) for each in value)
    if isinstance(value, list):
        return [_plain(each) for each in value]
    if isinstance(value, dict):
        return {key: _plain(each) for key, each in value.items()}
    return value


if TYPE_CHECKING:
    from dataclasses import asdict, dataclass, fields, is_dataclass, replace
else:
    asdict, dataclass, fields, is_dataclass, replace = (
        *(_asdict, _dataclass, _fields, _is_dataclass, _replace),
    )
