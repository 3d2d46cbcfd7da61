"""A figure is the number it is, and knows what it was made of."""

from __future__ import annotations

import copy
import operator
import pickle
from collections.abc import Callable

import pytest

from builder.formulas.heat import whole_units
from builder.model.figure import (
    Count,
    Figure,
    Found,
    Named,
    Reckoned,
    Told,
    add,
    add_counts,
    counted,
    fewest,
    found,
    guarded,
    holds,
    largest,
    named,
    none,
    nothing,
    smallest,
    whole,
)
from builder.model.place import Place
from builder.planning.tracing import count, work

SIX, TWO = named(6.0, "six", "here"), named(2.0, "two", "here")
FOUR = Count(4, Named("four", "here"))


@pytest.mark.parametrize(
    ("do", "value", "origin"),
    [
        (lambda: SIX + TWO, 8.0, Reckoned("+", (SIX, TWO))),
        (lambda: SIX + 2.0, 8.0, Reckoned("+", (SIX, 2.0))),
        (lambda: 2.0 + SIX, 8.0, Reckoned("+", (2.0, SIX))),
        (lambda: SIX - TWO, 4.0, Reckoned("-", (SIX, TWO))),
        (lambda: 2.0 - SIX, -4.0, Reckoned("-", (2.0, SIX))),
        (lambda: SIX * TWO, 12.0, Reckoned("*", (SIX, TWO))),
        (lambda: 2.0 * SIX, 12.0, Reckoned("*", (2.0, SIX))),
        (lambda: SIX / TWO, 3.0, Reckoned("/", (SIX, TWO))),
        (lambda: 3.0 / SIX, 0.5, Reckoned("/", (3.0, SIX))),
        (lambda: FOUR + 1, 5, Reckoned("+", (FOUR, 1))),
        (lambda: 1 + FOUR, 5, Reckoned("+", (1, FOUR))),
        (lambda: FOUR - 1, 3, Reckoned("-", (FOUR, 1))),
        (lambda: largest(TWO, SIX, 3.0), 6.0, Reckoned("max", (TWO, SIX, 3.0))),
        (lambda: smallest(SIX, TWO, 3.0), 2.0, Reckoned("min", (SIX, TWO, 3.0))),
        (lambda: add([SIX, TWO, 0.5]), 8.5, Reckoned("sum", (SIX, TWO, 0.5))),
        (lambda: add_counts([FOUR, 1]), 5, Reckoned("sum", (FOUR, 1))),
        (lambda: add_counts([]), 0, Found("parts", "nothing of it here")),
        (lambda: fewest(FOUR, 3), 3, Reckoned("min", (FOUR, 3))),
        (lambda: holds(TWO, "<", SIX), 1.0, Reckoned("<", (TWO, SIX))),
        (lambda: holds(SIX, "<", SIX), 0.0, Reckoned("<", (SIX, SIX))),
        (lambda: holds(SIX, "<=", SIX), 1.0, Reckoned("<=", (SIX, SIX))),
        (lambda: holds(SIX, "<=", TWO), 0.0, Reckoned("<=", (SIX, TWO))),
        (lambda: found(9.0, "n", "by a fit", "nist"), 9.0, Found("n", "by a fit", ("nist",))),
        (lambda: counted(3, "eaters"), 3, Found("eaters", "counted")),
        (lambda: nothing("fuel"), 0.0, Found("fuel", "nothing of it here")),
        (lambda: none("packs", "not told"), 0, Found("packs", "not told")),
    ],
)
def test_what_is_reckoned_keeps_its_parts_in_their_order(
    do: Callable[[], Figure | Count], value: float, origin: object
) -> None:
    figure = do()
    assert figure == value
    assert figure.origin == origin
    assert isinstance(figure, Count if isinstance(value, int) else Figure)


def test_a_figure_that_counts_becomes_whole_and_keeps_its_origin() -> None:
    packs = whole(SIX)
    assert isinstance(packs, Count) and packs == 6 and packs.origin == SIX.origin
    assert type(whole(6.0)) is int and whole(6.0) == 6


@pytest.mark.parametrize(
    "leaf",
    [
        nothing("salt"),
        none("packs"),
        found(0.0, "n", "by a fit", "nist"),
        named(0.0, "none", "here"),
        Figure(0.0, Told(Place("trip.yaml", 1, 1), "salt_g")),
        Count(0, Named("none", "here")),
    ],
)
def test_a_leaf_of_nothing_is_no_part_of_a_sum(leaf: Figure | Count) -> None:
    assert add([0.0, SIX, leaf, 0]).origin == Reckoned("sum", (SIX,))
    assert add([leaf, 0.0]).origin == Found("parts", "nothing of it here")


@pytest.mark.parametrize(
    "worked",
    [
        SIX - SIX,
        counted(4, "eaters") - 4,
        largest(nothing("salt"), 0.0),
        holds(SIX, "<", TWO),
        guarded(nothing("salt"), holds(TWO, "<", SIX)),
        work(whole_units, nothing("volume_ml"), named(1.0, "pot_ml", "here")),
        count(whole_units, nothing("volume_ml"), named(1.0, "pot_ml", "here")),
    ],
)
def test_a_worked_nothing_stays_a_part_of_a_sum(worked: Figure | Count) -> None:
    # Another time it might be more: its place in the sum is kept.
    assert worked == 0
    told = add([0.0, SIX, worked, 0]).origin
    assert isinstance(told, Reckoned) and told.do == "sum" and told.parts[0] is SIX
    assert len(told.parts) == 2 and told.parts[1] is worked
    alone = add([worked]).origin
    assert isinstance(alone, Reckoned) and alone.parts[0] is worked


def test_plain_nothings_leave_no_trace_and_figures_of_nothing_do() -> None:
    zero = nothing("salt")
    assert add([]).origin == Found("parts", "nothing of it here")
    assert sum([SIX, TWO]).origin == Reckoned("+", (SIX, TWO))  # type: ignore[union-attr]
    assert (0 + SIX) is SIX and (0 + FOUR) is FOUR
    # A figure of nothing is a part like any other.
    assert (zero + SIX).origin == Reckoned("+", (zero, SIX))
    none_of_it = none("packs")
    assert (none_of_it + SIX) is not SIX


@pytest.mark.parametrize("figure", [SIX, FOUR, SIX + TWO])
def test_a_figure_keeps_its_origin_wherever_it_goes(figure: Figure | Count) -> None:
    again = pickle.loads(pickle.dumps(figure))
    assert (again, type(again), again.origin) == (figure, type(figure), figure.origin)
    assert copy.deepcopy(figure) is figure


def test_guards_stand_beside_what_they_led_to() -> None:
    guard = holds(TWO, "<", SIX)
    assert guarded(SIX) is SIX and guarded(FOUR) is FOUR
    beside, packs = guarded(SIX, guard), guarded(FOUR, guard)
    assert (beside, type(beside), packs, type(packs)) == (6.0, Figure, 4, Count)
    assert beside.origin == Reckoned("", (SIX,), (guard,))
    assert packs.origin == Reckoned("", (FOUR,), (guard,))


@pytest.mark.parametrize("do", [operator.lt, operator.eq, operator.mod])
def test_a_figure_compares_as_its_number(do: Callable[[float, float], object]) -> None:
    assert do(SIX, TWO) == do(6.0, 2.0)
