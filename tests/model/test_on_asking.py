"""Mappings whose items are made when they are asked for."""

from __future__ import annotations

import pytest

from builder.model.figure import Figure, named, untraced
from builder.model.on_asking import AllOnAsking, OnAsking, each_changed, with_instead


def shelf(asked: list[str]) -> OnAsking[str, str]:
    def make(name: str) -> str:
        asked.append(name)
        return name.upper()

    return OnAsking({"b": "own"}, dict.fromkeys("abc", make))


def test_an_item_is_made_once_and_only_when_asked_for() -> None:
    asked: list[str] = []
    found = shelf(asked)
    assert ("a" in found, "z" in found, list(found), len(found)) == (
        True,
        False,
        ["a", "b", "c"],
        3,
    )
    assert asked == []
    assert (found["a"], found["a"], found.get("z")) == ("A", "A", None)
    assert asked == ["a"]


def test_what_is_made_already_wins() -> None:
    asked: list[str] = []
    assert shelf(asked)["b"] == "own"
    assert asked == []


def test_what_is_not_there_is_not_made() -> None:
    asked: list[str] = []
    with pytest.raises(KeyError):
        shelf(asked)["z"]
    assert asked == []


def test_a_change_waits_with_what_it_changes() -> None:
    asked: list[str] = []
    changed = each_changed(shelf(asked), lambda text: text + "!")
    assert asked == []
    assert dict(changed) == {"a": "A!", "b": "own!", "c": "C!"}
    assert asked == ["a", "c"]


def test_any_other_mapping_is_changed_at_once() -> None:
    assert each_changed({"a": 1}, lambda number: number + 1) == {"a": 2}


def test_an_item_waits_until_it_is_asked_for() -> None:
    records = OnAsking({"made": 1}, {"later": len, "made": len})
    assert (records.waits("made"), records.waits("later"), records.waits("neither")) == (
        False,
        True,
        False,
    )
    assert records["later"] == 5
    assert not records.waits("later")


def test_what_stands_instead_wins_and_the_rest_waits() -> None:
    asked: list[str] = []
    other = with_instead(shelf(asked), {"a": "other"})
    assert (other["a"], list(other), asked) == ("other", ["a", "b", "c"], [])
    assert (other["b"], other["c"], asked) == ("own", "C", ["c"])


def test_what_is_made_as_a_whole_is_made_once_and_keeps_origins() -> None:
    asked: list[str] = []

    def make() -> dict[str, float]:
        asked.append("all")
        return {"a": named(2.0, "a", "here"), "b": named(3.0, "b", "here")}

    records = AllOnAsking(make)
    assert not asked
    with untraced():
        assert type(records["a"]) is Figure
    assert (list(records), len(records), "c" in records) == (["a", "b"], 2, False)
    assert asked == ["all"]
