"""Records that are quick to make do what frozen dataclasses of the standard library do."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import math
import pickle
from collections.abc import Callable, Mapping
from dataclasses import FrozenInstanceError, field, fields, replace
from typing import Any, get_type_hints

import pytest

from builder.model import record

Make = Callable[..., Any]


def classes(dataclass: Make) -> tuple[type, ...]:
    @dataclass(frozen=True, slots=True)
    class Pack:
        """One thing and what belongs to it."""

        name: str
        mass_g: float = 1.5
        holds: tuple[Any, ...] = ()
        notes: Mapping[str, str] = field(default_factory=dict, compare=False)
        hidden: str = field(default="", repr=False)

        @property
        def mass_kg(self) -> float:
            return self.mass_g / 1000

    @dataclass(frozen=True, slots=True)
    class One:
        only: float

    @dataclass(frozen=True, slots=True)
    class Nothing:
        pass

    @dataclass(frozen=True, slots=True)
    class Own:
        name: str

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Own) and other.name.lower() == self.name.lower()

        def __hash__(self) -> int:
            return hash(self.name.lower())

        def __repr__(self) -> str:
            return f"<{self.name}>"

        def __post_init__(self) -> None:
            if not self.name:
                raise ValueError("nameless")

    return Pack, One, Nothing, Own


QUICK, USUAL = classes(record.dataclass), classes(dataclasses.dataclass)


@record.dataclass(frozen=True, slots=True)
class Kept:
    """What can be pickled stands at the top."""

    name: str
    holds: Kept | None = None


def made(of: tuple[type, ...]) -> list[Any]:
    pack, one, nothing, own = of
    return [
        pack("a"),
        pack("a", 1.5, notes={"x": "y"}),
        pack("a", hidden="b"),
        pack("a", 2.5, ("b", one(1.0)), {"x": "y"}),
        one(1.0),
        one(math.nan),
        nothing(),
        own("A"),
        own("a"),
    ]


def test_they_are_the_same_as_the_standard_librarys() -> None:
    ours, theirs = made(QUICK), made(USUAL)
    assert [repr(each) for each in ours] == [repr(each) for each in theirs]
    for n, left in enumerate(ours):
        assert hash(left) == hash(theirs[n])
        for m, right in enumerate(ours):
            assert (left == right) == (theirs[n] == theirs[m]), (left, right)


def taken_by(kind: type) -> list[tuple[object, ...]]:
    taken = inspect.signature(kind).parameters.values()
    return [(each.name, each.kind, each.annotation) for each in taken]


@pytest.mark.parametrize(("ours", "theirs"), list(zip(QUICK, USUAL, strict=True)))
def test_their_classes_tell_the_same(ours: Any, theirs: Any) -> None:
    assert ours.__slots__ == theirs.__slots__
    assert ours.__match_args__ == theirs.__match_args__
    assert taken_by(ours) == taken_by(theirs)
    assert ours.__init__.__qualname__ == theirs.__init__.__qualname__
    told = ("name", "type", "default", "default_factory", "compare", "repr", "init", "hash")
    for left, right in zip(fields(ours), fields(theirs), strict=True):
        assert [getattr(left, each) for each in told] == [getattr(right, each) for each in told]


def test_type_hints_are_found_where_the_class_stands() -> None:
    assert get_type_hints(Kept.__init__) == {
        "name": str,
        "holds": Kept | None,
        "return": type(None),
    }


@pytest.mark.parametrize("of", [QUICK, USUAL])
def test_nothing_can_be_changed(of: tuple[type, ...]) -> None:
    pack = of[0]("a")
    for name in ("name", "nmae"):
        with pytest.raises((FrozenInstanceError, TypeError)):
            setattr(pack, name, "b")
    with pytest.raises(FrozenInstanceError):
        del pack.name
    assert pack.name == "a"
    assert not hasattr(pack, "__dict__")


@pytest.mark.parametrize("of", [QUICK, USUAL])
def test_defaults_are_made_anew_and_can_be_replaced(of: tuple[type, ...]) -> None:
    left, right = of[0]("a"), of[0]("a")
    assert left.notes == {} and left.notes is not right.notes
    assert replace(left, mass_g=3.0, name="c") == of[0]("c", 3.0)
    assert left.mass_kg == 0.0015
    with pytest.raises(ValueError, match="nameless"):
        of[3]("")
    with pytest.raises(TypeError, match=r"__init__\(\) missing 1 required"):
        of[0]()


def test_they_go_to_another_process_and_back() -> None:
    kept = Kept("a", Kept("b"))
    assert pickle.loads(pickle.dumps(kept)) == kept
    assert copy.deepcopy(kept) == kept


def test_one_that_holds_itself_can_be_shown() -> None:
    pack = QUICK[0]("a", holds=(held := [],))
    held.append(pack)
    assert "holds=([...],)" in repr(pack)


def test_what_is_not_frozen_with_slots_is_left_to_the_standard_library() -> None:
    @record.dataclass(order=True)
    class Open:
        number: int

    one = Open(1)
    one.number = 3
    assert Open(2) < one


def test_a_field_that_init_does_not_take_is_refused() -> None:
    with pytest.raises(TypeError, match=r"Odd\.late"):

        @record.dataclass(frozen=True, slots=True)
        class Odd:
            late: int = field(init=False)
