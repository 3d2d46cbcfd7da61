"""A record is what the dataclass of the standard library would be."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from functools import cached_property
from typing import Any, Generic, TypeVar

import pytest
from msgspec import Struct

from builder import record

T = TypeVar("T")


class _Point:
    x: float
    y: float = 2.0
    tags: tuple[str, ...] = ()
    seen: dict[str, int] = record.field(default_factory=dict)

    @property
    def far(self) -> float:
        return self.x + self.y

    @classmethod
    def origin(cls) -> Any:
        return cls(0.0)  # type: ignore[call-arg]


class _Holder(Generic[T]):
    held: T
    more: tuple[Any, ...] = ()


class _Remembering:
    x: float

    @cached_property
    def twice(self) -> float:
        return 2.0 * self.x


def both(kind: type, **how: bool) -> tuple[Any, Any]:
    """Make the record, and the dataclass, of a class."""
    ours: Callable[[type], type] = record.dataclass(**how)
    return ours(kind), dataclasses.dataclass(**how)(kind)


POINTS = both(_Point, frozen=True, slots=True)
HOLDERS = both(_Holder, frozen=True, slots=True)


def outcome(work: Callable[[], object]) -> object:
    """Give what comes of something, or the kind of error."""
    try:
        return work()
    except Exception as error:
        # One that may not be changed raises a kind of AttributeError of its own.
        return AttributeError if isinstance(error, AttributeError) else type(error)


def changed(point: Any) -> None:
    point.x = 3.0


DO: dict[str, Callable[[Any], object]] = {
    "all": lambda made: repr(made(1.0, 3.0, ("a",), {"b": 1})),
    "defaults": lambda made: repr(made(1.0)),
    "by name": lambda made: repr(made(y=1.0, x=4.0)),
    "too few": lambda made: made(),
    "too many": lambda made: made(1.0, 2.0, (), {}, 5),
    "unknown": lambda made: made(1.0, z=2.0),
    "alike": lambda made: made(1.0) == made(1.0),
    "unlike": lambda made: made(1.0) == made(1.5),
    "of another kind": lambda made: made(1.0) == (1.0, 2.0, (), {}),
    "no hash": lambda made: hash(made(1.0)),
    "hash": lambda made: hash(made(1.0, 2.0, (), 0)) == hash(made(1.0, 2.0, (), 0)),
    "may not change": lambda made: changed(made(1.0)),
    "made anew each": lambda made: made(1.0).seen is made(1.0).seen,
    "property": lambda made: made(1.0).far,
    "of the class": lambda made: repr(made.origin()),
    "replaced": lambda made: repr(record.replace(made(1.0), y=5.0)),
    "replaced by what is none": lambda made: record.replace(made(1.0), z=5.0),
    "copied": lambda made: copy.deepcopy(made(1.0)) == made(1.0),
    "named": lambda made: [made.__name__, made.__module__],
    "matched": lambda made: made.__match_args__,
    "is one": lambda made: [record.is_dataclass(made), record.is_dataclass(made(1.0))],
    "fields": lambda made: [
        (each.name, each.default, each.default_factory, each.compare)
        for each in record.fields(made)
    ],
    "as data": lambda made: record.asdict(made(1.0, 2.0, ("a",), {"b": 1})),
}  # fmt: skip


@pytest.mark.parametrize("what", DO)
def test_a_record_does_what_a_dataclass_does(what: str) -> None:
    ours, theirs = POINTS
    assert issubclass(ours, Struct)
    assert dataclasses.is_dataclass(theirs)
    assert outcome(lambda: DO[what](ours)) == outcome(lambda: DO[what](theirs))


@pytest.mark.parametrize(("point", "holder"), [*zip(POINTS, HOLDERS, strict=True)])
def test_records_within_records_become_mappings(point: Any, holder: Any) -> None:
    def told(x: float) -> dict[str, object]:
        return {"x": x, "y": 2.0, "tags": (), "seen": {}}

    held = holder(point(1.0), (point(2.0), [point(3.0)], {"a": point(4.0)}))
    assert record.asdict(held) == {
        "held": told(1.0),
        "more": (told(2.0), [told(3.0)], {"a": told(4.0)}),
    }


@record.dataclass(frozen=True, slots=True)
class Known:
    """One that can be found again by its name."""

    x: float
    y: tuple[str, ...] = ()


@record.dataclass(frozen=True, slots=True)
class Further(Known):
    """One that has a base."""

    z: int = 4


def test_a_record_goes_to_another_process_and_back() -> None:
    assert pickle.loads(pickle.dumps(Known(1.0, ("a",)))) == Known(1.0, ("a",))


def test_a_base_gives_its_fields() -> None:
    assert repr(Further(1.0, z=5)) == "Further(x=1.0, y=(), z=5)"
    assert Further(1.0) != Known(1.0)
    assert [each.name for each in record.fields(Further)] == ["x", "y", "z"]


def test_what_is_worked_out_once_is_kept_where_a_record_has_room() -> None:
    ours, _ = both(_Remembering, frozen=True)
    one = ours(3.0)
    assert issubclass(ours, Struct)
    assert one.twice is one.twice


class _Compared:
    name: str
    place: int = record.field(compare=False, repr=False)
    row: int = record.field(default=0, compare=False)
    seen: dict[str, int] = record.field(default_factory=dict, repr=False, compare=False)


COMPARED = both(_Compared, frozen=True, slots=True)
DO_COMPARED: dict[str, Callable[[Any], object]] = {
    "too few": lambda made: made("a"),
    "alike": lambda made: made("a", 1) == made("a", 2, 3, {"b": 1}),
    "unlike": lambda made: made("a", 1) == made("b", 1),
    "not otherwise": lambda made: made("a", 1) != made("a", 2, 3, {"b": 1}),
    "otherwise": lambda made: made("a", 1) != made("b", 1),
    "other than another kind": lambda made: made("a", 1) != "a",
    "of another kind": lambda made: made("a", 1) == "a",
    "hash": lambda made: len({made("a", 1), made("a", 2), made("b", 1)}),
    "shown": lambda made: repr(made("a", 1, 2)),
    "fields": lambda made: [(each.name, each.compare) for each in record.fields(made)],
    "replaced": lambda made: record.replace(made("a", 1), place=4).place,
}


@pytest.mark.parametrize("what", DO_COMPARED)
def test_a_field_left_out_of_comparisons_is_as_in_a_dataclass(what: str) -> None:
    ours, theirs = COMPARED
    assert issubclass(ours, Struct)
    assert outcome(lambda: DO_COMPARED[what](ours)) == outcome(lambda: DO_COMPARED[what](theirs))


def test_what_may_change_is_a_struct_too() -> None:
    @record.dataclass(slots=True)
    class Worker:
        done: int = 0

    worker = Worker()
    worker.done += 1
    assert (worker.done, issubclass(Worker, Struct)) == (1, True)
    with pytest.raises(TypeError, match="unhashable"):
        hash(worker)


def test_a_field_that_is_not_given_is_left_to_the_standard_library() -> None:
    @record.dataclass(slots=True)
    class Worker:
        name: str
        done: int = record.field(init=False)

    assert not issubclass(Worker, Struct)
    with pytest.raises(TypeError):
        Worker("a", 1)  # type: ignore[call-arg]


def test_a_record_is_of_the_kind_of_its_base() -> None:
    with pytest.raises(TypeError, match="frozen, compared and ordered as its base"):

        @record.dataclass(slots=True)
        class Changing(Known):  # type: ignore[misc]
            more: int = 0

    with pytest.raises(TypeError, match="cannot have a field"):

        @record.dataclass(frozen=True, slots=True)
        class Listing(Known):
            more: list[int] = record.field(default_factory=list)

    with pytest.raises(TypeError, match="leaves a field out of comparisons"):
        record.dataclass(frozen=True, slots=True)(type("Further", (COMPARED[0],), {}))
