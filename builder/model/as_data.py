"""Records as plain data that JSON can hold, and back again."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from functools import cache
from types import UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from builder.record import is_dataclass, names_of

Record = TypeVar("Record")


def as_data(value: object) -> object:
    """Give a record as lists of its fields; figures become plain numbers, without their origin."""
    if names := names_of(type(value)):
        return [as_data(getattr(value, name)) for name in names]
    if isinstance(value, tuple):
        return [as_data(each) for each in value]
    if isinstance(value, datetime.date):
        return value.isoformat()
    return value


def of_data(kind: type[Record], data: object) -> Record:
    """Give the record that such data tell; raises TypeError or ValueError where they do not."""
    made: Record = _made(kind, data)
    return made


def _made(kind: Any, data: Any) -> Any:
    if get_origin(kind) in (Union, UnionType):
        if data is None:
            return None
        (kind,) = (each for each in get_args(kind) if each is not type(None))
    if isinstance(kind, type) and is_dataclass(kind):
        hints = _hints(kind)
        return kind(*(_made(hint, each) for hint, each in zip(hints, data, strict=True)))
    if get_origin(kind) is tuple:
        return tuple(_made(get_args(kind)[0], each) for each in data)
    if kind is datetime.date:
        return datetime.date.fromisoformat(data)
    return data


@cache
def _hints(kind: Any) -> tuple[Any, ...]:
    hints: Mapping[str, Any] = get_type_hints(kind)
    return tuple(hints[name] for name in names_of(kind))
