"""Records of declared keys: all errors at once, each at its place, and warnings beside them."""

from __future__ import annotations

from typing import Annotated

import pytest

from builder.model.figure import Figure, Named, Told
from builder.model.place import Place
from builder.reading.declared.declaring import Check, Here, Record, key, read_as, walk
from builder.reading.declared.measures import Number, Price, Quantity, count
from builder.reading.declared.vocabulary import Choice, Flag, Id, Items, Line, Words
from builder.reading.notes import Notes, refuse
from tests.reading.test_overlays import node_of


def _is_no_more_than_the_most(here: Here) -> None:
    most_g = here.above.get("most")
    if most_g is not None and here.value > most_g:
        refuse("too-much", f"{here.value:g} g are more than {most_g:g} g", "write less")


class Part(Record, title="part"):
    """A part."""

    from_: Annotated[float | None, Quantity("mass_g")] = key("From.")
    bread: Annotated[str, Choice(("rye", "wheat"))] = key("Bread.", required=True)


class Thing(Record, title="thing"):
    """A thing."""

    id: Annotated[str, Id()] = key("Its id.", required=True)
    name: Annotated[str, Line()] = key("Its name.", default="")
    most: Annotated[float | None, Quantity("mass_g")] = key("The most.")
    mass: Annotated[float, Quantity("mass_g", positive=True), Check(_is_no_more_than_the_most)] = (
        key("Its mass.", default="5 g")
    )
    pieces: Annotated[int, count(at_least=1)] = key("How many.", default=2)
    share: Annotated[float | None, Number(more_than=0, at_most=1)] = key("A share.")
    price: Annotated[float | None, Price("mass_g", 1000, "kg")] = key("Money.", not_used_yet=True)
    big: Annotated[bool, Flag()] = key("Whether it is big.", default=False)
    words: Annotated[tuple[str, ...] | None, Words(("a", "b"))] = key("Words.")
    part: Part | None = key("A part.")
    parts: Annotated[tuple[Part, ...], Items()] = key("Parts.", default=())


def thing(text: str) -> tuple[Thing | None, list[str]]:
    notes = Notes()
    found = read_as(Thing, node_of(text), notes)
    return found, [str(each).removeprefix("f.yaml:") for each in [*notes, *notes.unused("f.yaml")]]


def test_a_record_tells_what_was_written_and_where() -> None:
    found, told = thing("{id: a, mass: 2 kg, words: [b, a, b], part: {from: 1 g, bread: rye}}")
    assert found is not None and told == []
    assert (found.mass, found.words, found.big, found.parts) == (2000, ("b", "a"), False, ())
    assert found.part is not None
    assert (found.part.from_, found.part.bread) == (1, "rye")
    assert isinstance(found.mass, Figure)
    assert found.mass.origin == Told(Place("f.yaml", 1, 15), "mass_g")
    assert found.places().of("part") == Place("f.yaml", 1, 45)
    assert found.places("words").of("words/a") == Place("f.yaml", 1, 32)


def test_what_is_left_out_or_blank_is_a_default_that_says_so() -> None:
    for text in ("id: a", "id: a\nmass:\nwords:\npart: ~\nname: ' '"):
        found, told = thing(text)
        assert found is not None and told == []
        assert isinstance(found.mass, Figure)
        assert found.mass == 5.0 and found.pieces == 2
        assert found.words is None and found.part is None
        assert found.mass.origin == Named("mass_g", "common-practice")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("[a]", "1:1: error: a thing is written as `key: value` lines, found a list"),
        ("id: a\nmas: 1 g", "2:1: error: a thing has no field 'mas' — did you mean mass?"),
        ("name: x", "1:1: error: this thing has no `id` — write `id: some-id`"),
        ("{id: a, mass: 0 g}", "1:15: error: mass must be more than nothing, found '0 g'"),
        ("{id: a, mass: 3 g, most: 2 g}", "1:15: error: 3 g are more than 2 g — write less"),
        ("{id: a, pieces: 1.5}", "1:17: error: pieces counts, so it cannot be '1.5'"),
        ("{id: a, price: much}", "1:16: error: price: 'much' is no price for an amount"),
        ("{id: a, price: 3 per 1 l}", "1:16: error: price: 'l' is no unit of mass"),
        ("{id: a, price: 3 per 0 kg}", "1:16: error: price cannot be '3 per 0 kg'"),
        ("{id: a, price: '-3 per 1 kg'}", "1:16: error: price cannot be '-3 per 1 kg'"),
        ("{id: a, part: {}}", "1:15: error: this part has no `bread` — write `bread: rye`"),
        ("{id: a, part: {bread: rye, form: 1 g}}", "1:28: error: a part has no field 'form'"),
        ("{id: a, parts: x}", "1:16: error: parts must be a list, found 'x'"),
        ("{id: a, parts: [{bread: oat}]}", "1:25: error: bread cannot be 'oat'"),
        ("{id: a, parts: [x]}", "1:17: error: a part is written as `key: value` lines"),
        ("{id: a, words: [a, c]}", "1:20: error: words cannot be 'c'"),
    ],
)
def test_each_mistake_is_told_at_its_place(text: str, expected: str) -> None:
    found, told = thing(text)
    assert found is None
    assert [line.startswith(expected) for line in told if ": error:" in line] == [True]


def test_all_mistakes_of_a_record_are_told_at_once() -> None:
    found, told = thing("{id: A, mass: 3, big: maybe, x: 1, words: [c, d], parts: [{}, {from: 1}]}")
    assert found is None
    kinds = [line.rpartition("[")[2].rstrip("]") for line in told]
    assert sorted(kinds) == [
        "id",
        "key-unknown",
        *["missing"] * 2,
        "not-a-flag",
        *["unit-missing"] * 2,
        *["word-unknown"] * 2,
    ]


def test_a_check_waits_until_what_it_compares_is_right() -> None:
    _, told = thing("{id: a, most: 2, mass: 3 g}")
    assert [line.rpartition("[")[2] for line in told] == ["unit-missing]"]


def test_a_price_is_money_for_one_unit() -> None:
    for text, money in (("3.20 per 1 kg", 3.2), ("1,60 per 500 g", 3.2), ("3 per kg", 3.0)):
        found, _ = thing(f"{{id: a, price: '{text}'}}")
        assert found is not None and found.price == pytest.approx(money)


def test_a_key_of_which_nothing_is_made_yet_is_told_once_with_its_places() -> None:
    notes = Notes()
    for item in node_of("[{id: a, price: 3 per kg}, {id: b}, {id: c, price: 1 per kg}]").items:
        read_as(Thing, item, notes)
    assert notes.unused("g.yaml") == []
    assert [str(each) for each in notes.unused("f.yaml")] == [
        "f.yaml:1:10: warning: `price` of a thing is read and kept, but this version does not use "
        "it yet; it stands 2 times, also at f.yaml:1:45 — it may stay [not-used-yet]"
    ]


def test_a_walk_meets_each_key_in_the_order_it_is_declared() -> None:
    names = [(depth, name) for depth, name, _ in walk(Thing)]
    assert names[0] == (0, "id")
    at = names.index((0, "part"))
    assert names[at + 1 : at + 3] == [(1, "from"), (1, "bread")]
