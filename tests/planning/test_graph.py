"""A graph tells how each figure came about, so that anybody can work it out from its leaves."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.formulas.boiling import boiling_point_c
from builder.formulas.cookware import snow_l
from builder.formulas.expression import Value, evaluate, names_in
from builder.model.figure import (
    Count,
    Figure,
    Found,
    Named,
    Traced,
    add,
    add_counts,
    counted,
    guarded,
    holds,
    largest,
    named,
    smallest,
)
from builder.planning.graph import Graph, Node, graph_of, name_of, sources_of
from builder.planning.tracing import work


def figure(value: float, name: str) -> Figure:
    return named(value, name, "here")


BREAD_G, SOUP_G, OATS_G = figure(90, "bread_g"), figure(120, "soup_g"), figure(60, "oats_g")


def worked_out(graph: Graph, name: str) -> float:
    """Work a node out from its leaves alone, with nothing of the value it tells."""
    node = graph.nodes[name]
    if node.leaf is not None:
        return float(node.value)
    values: dict[str, Value] = {
        symbol: tuple(_behind(graph, each) for each in given)
        if isinstance(given, tuple)
        else _behind(graph, given)
        for symbol, given in node.inputs.items()
    }
    told = evaluate(node.expression, values)
    assert isinstance(told, float)
    return told


def _behind(graph: Graph, given: Traced) -> float:
    name = graph.id_of(given)
    if name is None:
        assert isinstance(given.origin, (Named, Found)), "a figure that is no leaf has an id"
        return float(given)
    return worked_out(graph, name)


_LEAVES = st.builds(
    figure,
    st.floats(0.5, 1000.0),
    st.sampled_from(("mass_g", "other_g", "time_min", "2 spoons", "(none)", "share")),
)


def _grown(parts: st.SearchStrategy[Figure]) -> st.SearchStrategy[Figure]:
    numbers = st.floats(-50.0, 50.0).filter(lambda number: abs(number) > 0.01)
    lists = st.lists(parts, min_size=1, max_size=6)
    # Sums and products of what is above nothing stay above it: no division by nothing.
    return st.one_of(
        st.builds(lambda one, two: one + two, parts, parts),
        st.builds(lambda one, two: one * two, parts, parts),
        st.builds(lambda one, two: one / two, parts, parts),
        st.builds(lambda one, number: one - (one - one * number), parts, st.floats(0.1, 0.9)),
        st.builds(lambda one, number: one + abs(number), parts, numbers),
        st.builds(lambda one, number: (one * number) / number, parts, numbers),
        st.builds(add, lists),
        st.builds(lambda each: largest(*each), lists),
        st.builds(lambda each: smallest(*each), lists),
        st.builds(
            lambda each: add(one * two for one, two in zip(each, each[::-1], strict=True)), lists
        ),
        st.builds(lambda one, two: guarded(one, holds(0.0, "<", two)), parts, parts),
    )


@settings(max_examples=150, deadline=None)
@given(
    st.dictionaries(
        st.sampled_from(("dinner_g", "lunch_g", "day_g")),
        st.recursive(_LEAVES, _grown, max_leaves=12),
        min_size=1,
    )
)
def test_every_figure_is_worked_out_from_its_leaves(data: Mapping[str, Figure]) -> None:
    graph = graph_of(data)
    for name, node in graph.nodes.items():
        assert worked_out(graph, name) == pytest.approx(float(node.value), rel=1e-9, abs=1e-9)
        if node.leaf is None:
            assert set(names_in(node.expression)) == set(node.inputs)
    assert set(data) <= set(graph.nodes)


@pytest.mark.parametrize(
    ("origin", "name"),
    [
        ("bread_g", "bread_g"),
        ("Bread, as bought (a table)", "bread_as_bought"),  # what stands in brackets is no name
        ("2 spoons", "x_2_spoons"),  # a symbol begins with a letter
        ("2b", "x_2b"),
        ("_", "x"),
        ("ø", "x"),
    ],
)
def test_a_leaf_goes_by_a_name_that_an_expression_can_hold(origin: str, name: str) -> None:
    told = name_of(Graph(), figure(1.0, origin))
    assert told == name
    assert names_in(f"{told} + 1") == (told,)


def test_a_figure_goes_by_the_last_word_of_its_address_or_by_its_formula() -> None:
    air_hpa = figure(900.0, "pressure_hpa")
    boils_c = work(boiling_point_c, air_hpa)
    assert name_of(graph_of({"days": [{"boils_at_c": boils_c}]}), boils_c) == "boils_at_c"
    assert name_of(graph_of({"days": [boils_c]}), boils_c) == "days"
    assert name_of(graph_of({}), boils_c) == "boiling_point_c"
    assert name_of(graph_of({}), BREAD_G + SOUP_G) == "part"
    # A choice goes by the name of what was chosen.
    assert name_of(graph_of({}), guarded(BREAD_G, holds(1.0, "<", SOUP_G))) == "bread_g"


def test_inputs_of_one_name_are_numbered_before_their_unit() -> None:
    rest_g = figure(30, "bread_g")
    node = graph_of({"all_g": BREAD_G + SOUP_G * rest_g}).nodes["all_g"]
    assert node.expression == "bread_g + soup_g * bread_2_g"
    assert (node.inputs["bread_g"], node.inputs["bread_2_g"]) == (BREAD_G, rest_g)
    # The same figure twice is one input.
    assert graph_of({"all_g": BREAD_G + SOUP_G * BREAD_G}).nodes["all_g"].expression == (
        "bread_g + soup_g * bread_g"
    )
    # A name that is a unit, or has none, is numbered at its end.
    times = figure(2, "times") * figure(3, "times")
    assert graph_of({"all": times}).nodes["all"].expression == "times * times_2"


@pytest.mark.parametrize(
    ("made", "expression"),
    [
        (BREAD_G - (SOUP_G - OATS_G), "bread_g - (soup_g - oats_g)"),
        (BREAD_G - SOUP_G - OATS_G, "bread_g - soup_g - oats_g"),
        (BREAD_G / (SOUP_G / OATS_G), "bread_g / (soup_g / oats_g)"),
        (BREAD_G / SOUP_G * OATS_G, "bread_g / soup_g * oats_g"),
        ((BREAD_G + SOUP_G) * OATS_G, "(bread_g + soup_g) * oats_g"),
        (BREAD_G + SOUP_G * OATS_G, "bread_g + soup_g * oats_g"),
        (BREAD_G * -2.5, "bread_g * (0 - 2.5)"),
        (BREAD_G * 1000.0, "bread_g * 1000"),
        (largest(BREAD_G, SOUP_G, 0.0), "max(bread_g, soup_g, 0)"),
        (smallest(BREAD_G, SOUP_G), "min(bread_g, soup_g)"),
        (add([BREAD_G, SOUP_G]), "sum(parts_g)"),
        (add([BREAD_G]), "bread_g"),  # a sum of one is that one
        (add([BREAD_G, figure(3, "time_min")]), "sum(parts)"),  # no unit that all share
        (add([BREAD_G, figure(30, "bread_g")]), "sum(bread_g)"),
        (add([BREAD_G * OATS_G, SOUP_G * OATS_G]), "sum(parts_g * oats_g)"),
        (smallest(BREAD_G, SOUP_G, OATS_G, BREAD_G * 2.0), "min(parts_g)"),  # many are a list
        (add([BREAD_G * 2.0, SOUP_G * 2.0]), "sum(parts_g * 2)"),
        (add([BREAD_G * OATS_G, SOUP_G / OATS_G]), "sum(part)"),  # not of one shape
        (add_counts([counted(2, "packs"), counted(3, "packs")]), "sum(packs)"),
    ],
)
def test_arithmetic_is_written_as_a_person_would(made: Traced, expression: str) -> None:
    assert graph_of({"all": made}).nodes["all"].expression == expression


def test_a_figure_that_came_about_like_another_is_that_one() -> None:
    first, second = BREAD_G + SOUP_G, figure(90, "bread_g") + figure(120, "soup_g")
    graph = graph_of({"lunch_g": first, "dinner_g": second})
    assert graph.nodes["lunch_g"].expression == "bread_g + soup_g"
    assert graph.nodes["dinner_g"] == Node(
        "dinner_g", second, "dinner_g", "lunch_g", "lunch_g", {"lunch_g": second}
    )
    # The same number by another way is another figure, and so is a whole one.
    other = graph_of({"lunch_g": first, "dinner_g": figure(210, "bread_g") + 0.0})
    assert other.nodes["dinner_g"].expression == "bread_g + 0"
    whole = Count(90, BREAD_G.origin)
    assert graph_of({"a": BREAD_G, "b": whole}).nodes["b"].value is whole


def test_nothing_of_this_is_not_nothing_of_that() -> None:
    no_wood, no_gas = (Figure(0.0, Found("parts", "nothing of it here")) for _ in range(2))
    graph = graph_of({"wood_g": no_wood, "gas_g": no_gas})
    assert graph.id_of(no_wood) == "wood_g"
    assert graph.id_of(no_gas) == "gas_g"
    no_water = Figure(0.0, Found("water_ml", "nothing of it here"))
    # Eaten as they are, both; the stew takes of the same nothing, and of no other meal's water.
    graph = graph_of({"bread_ml": no_water, "apple_ml": no_water, "stew_ml": no_water * 2})
    assert all(graph.nodes[name].leaf == no_water.origin for name in ("bread_ml", "apple_ml"))
    assert graph.id_of(no_water) is None
    assert graph.nodes["stew_ml"].expression == "water_ml * 2"
    # Something that was found alike is one figure.
    two = [Figure(2.0, Found("days", "counted")) for _ in range(2)]
    assert graph_of({"one": two[0], "other": two[1]}).id_of(two[1]) == "one"


def test_a_choice_stands_beside_its_guards() -> None:
    room = holds(BREAD_G, "<=", SOUP_G)
    graph = graph_of({"all_g": guarded(BREAD_G, room) + OATS_G})
    chosen = next(node for node in graph.nodes.values() if node.guards)
    assert chosen.guards == (room,)
    assert chosen.expression == "bread_g"
    assert graph.nodes["all_g"].expression == "bread_g + oats_g"
    # What no page tells is numbered, and belongs to what is told.
    assert (chosen.id[0], chosen.top) == ("#", "all_g")
    assert graph.nodes[graph.id_of(room) or ""].expression == "bread_g <= soup_g"


def test_long_arithmetic_is_cut_into_figures_of_their_own() -> None:
    total = BREAD_G
    for number in range(40):
        total = figure(number + 1.0, f"course_{number}_g") + total
    graph = graph_of({"all_g": total})
    assert len(graph.nodes) > 1
    assert max(len(node.expression) for node in graph.nodes.values()) < 400
    assert worked_out(graph, "all_g") == float(total) == 90 + 40 * 41 / 2


def test_a_part_of_a_graph_holds_what_it_rests_on_and_no_more() -> None:
    boils_c = work(boiling_point_c, figure(900.0, "pressure_hpa") + 10.0)
    graph = graph_of({"boils_c": boils_c, "lunch_g": BREAD_G + SOUP_G})
    part = graph.below([graph.nodes["boils_c"]])
    assert "lunch_g" not in part.nodes
    assert len(part.nodes) == 2
    assert worked_out(part, "boils_c") == pytest.approx(boiling_point_c(910.0), rel=1e-9)


def test_sources_are_those_of_formulas_rows_and_guards() -> None:
    snow = work(snow_l, figure(900.0, "water_ml"), figure(100.0, "snow_kg_m3"))
    chosen = guarded(snow, holds(named(1.0, "one", "a guard"), "<", 2.0))
    fit = Figure(3.0, Found("k", "a fit", ("a curve",)))
    expected = {"ams-glossary", "paterson", "here", "a guard", "a curve"}
    assert sources_of((chosen, None, "a word", [BREAD_G, fit])) == expected
    # A record is walked through, its figures found wherever they lie.
    assert sources_of(Node("x", BREAD_G, "x", inputs={}, guards=(chosen, fit))) == expected
