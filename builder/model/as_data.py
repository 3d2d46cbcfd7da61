"""Records as plain data that JSON can hold, and back again."""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable, Mapping
from functools import cache
from types import UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from builder.model.figure import Count, Figure
from builder.record import names_of

Record = TypeVar("Record")


def as_data(value: object) -> object:
    """Give a record as lists of its fields; figures become plain numbers, without their origin."""
    if names := names_of(type(value)):
        return [as_data(getattr(value, name)) for name in names]
    if isinstance(value, tuple):
        return [as_data(each) for each in value]
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, Figure):
        return float(value)
    return int(value) if isinstance(value, Count) else value


def picked(record: object, names: str) -> dict[str, object]:
    """Give fields of a record under their own names, in that order, for a reader of JSON."""
    return {name: _in_json(getattr(record, name)) for name in names.split()}


def _in_json(value: object) -> object:
    if isinstance(value, tuple):
        return [_in_json(each) for each in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


def of_data(kind: type[Record], data: object) -> Record:
    """Give the record that such data tell; raises TypeError or ValueError where they do not."""
    asked: Any = kind
    made: Record = _maker(asked)(data)
    return made


def packed(value: object) -> bytes:
    """Give the data of a record in few bytes: for what waits, or goes to another process."""
    return json.dumps(as_data(value), ensure_ascii=False, separators=(",", ":")).encode()


def unpacked(kind: type[Record], data: bytes) -> Record:
    """Give the record that was packed."""
    return of_data(kind, json.loads(data))


@cache
def _maker(kind: Any) -> Callable[[Any], Any]:
    """Give what makes a value of a kind of its data; what is as it is in both is passed on."""
    if get_origin(kind) in (Union, UnionType):
        (kind,) = (each for each in get_args(kind) if each is not type(None))
        make = _maker(kind)
        return make if make is _same else lambda data: None if data is None else make(data)
    if names := names_of(kind):
        hints: Mapping[str, Any] = get_type_hints(kind)
        makers = tuple(_maker(hints[name]) for name in names)
        return lambda data: kind(*(made(each) for made, each in zip(makers, data, strict=True)))
    if get_origin(kind) is tuple:
        make = _maker(get_args(kind)[0])
        return tuple if make is _same else lambda data: tuple(map(make, data))
    return datetime.date.fromisoformat if kind is datetime.date else _same


def _same(data: Any) -> Any:
    return data
