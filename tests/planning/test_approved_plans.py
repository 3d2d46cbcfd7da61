"""Whole plans as text, so that each figure and each choice that changes is looked at by someone.

Each demo's plan and that of their home, with all that is in them; `--rewrite-golden` accepts what
is otherwise. What a figure comes from is held in `tests/kit_json/`, words in `tests/pages/`.
"""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from builder.model.content import Content
from builder.model.figure import Traced
from builder.model.kit import Kit
from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.graph import Graph, Node, graph_of
from builder.planning.home import plan_home
from builder.planning.kit import plan_trip
from builder.planning.mishaps.live import live
from builder.planning.public import public_kit
from builder.planning.stock import Stock, check
from builder.problems import Problem, errors
from builder.reading.folder import Layer, read_folder
from builder.record import dataclass, replace
from tests.approved import as_text, hold, parts_of
from tests.planning.folders import SHIPPED, day, day_trip, hand
from tests.planning.test_approved_cautions import CASES
from tests.planning.test_mishaps import GRAIN, MEALS, PULSE

GOLDEN = Path(__file__).parent / "golden"
DEMOS = ("graupel-ridge", "lake-emmerin", "rindle-fen", "tarrow-tops")
AT_HOME = datetime.date(2031, 1, 15)  # some weeks before the first of them starts
WAYS_TOLD = 3  # the foods whose ways to be dried are told; those of the others are alike
# Words and pictures: they are held where they are read and shown.
WORDS = frozenset({"sources", "picture", "folders", "place", "places", "defaults", "standing"})


@dataclass(frozen=True, slots=True)
class Demos:
    """What the shipped folder gives."""

    content: Content
    stock: Stock
    problems: tuple[Problem, ...]
    kits: dict[str, Kit]


@pytest.fixture(scope="module")
def demos() -> Demos:
    folder = read_folder([Layer(SHIPPED, "shipped", vouched=True)])
    assert not errors(folder.problems)
    stock, problems = check(folder.content)
    trips = folder.content.trips
    kits = {each: plan_trip(trips[each], folder.content, stock) for each in DEMOS}
    return Demos(folder.content, stock, problems, kits)


@pytest.mark.parametrize("trip", DEMOS)
def test_a_plan_is_as_it_was_approved(demos: Demos, trip: str, rewrite_golden: bool) -> None:
    hold(GOLDEN / f"{trip}.txt", as_text(demos.kits[trip], WORDS), rewrite_golden)


@pytest.mark.parametrize("trip", DEMOS)
def test_what_may_be_otherwise_at_camp_is_as_it_was_approved(
    demos: Demos, trip: str, rewrite_golden: bool
) -> None:
    hold(GOLDEN / f"{trip}-at-camp.txt", as_text(live(demos.kits[trip])), rewrite_golden)


def test_a_plan_for_everybody_is_as_it_was_approved(demos: Demos, rewrite_golden: bool) -> None:
    public = public_kit(demos.kits["lake-emmerin"], demos.content)
    hold(GOLDEN / "lake-emmerin-public.txt", as_text(public, WORDS), rewrite_golden)


def test_the_home_is_as_it_was_approved(demos: Demos, rewrite_golden: bool) -> None:
    kits = list(demos.kits.values())
    home = plan_home(demos.content, demos.stock, kits, AT_HOME)
    told = as_text(replace(home, ways=home.ways[:WAYS_TOLD], asked={}), WORDS)
    hold(GOLDEN / "home.txt", told, rewrite_golden)


def test_how_each_figure_comes_about_is_as_it_was_approved(
    tmp_path: Path, rewrite_golden: bool
) -> None:
    """Of a small trip, with what follows where camps and people are otherwise."""
    snack = {"snacks": [{"eat": "kernel-nut", "each": "50 g", "for": ["Bo"]}]}
    days = [
        day({**MEALS, **snack}, travel={"by": "walking", "ground": "path", "hours": 4,
            "distance": "12 km", "ascent": "300 m", "descent": "100 m"}),
        day(MEALS, camp_altitude="2000 m", wind="windy",
            water={"camp": "snow", "treat": "boil", "between_water": "2 h"}),
    ]  # fmt: skip
    kit = hand(tmp_path, day_trip(days=days), [GRAIN, PULSE]).kit()
    told = live(kit)
    watched = [each.figure for each in told.watched]
    graph = graph_of({**kit_data(kit), "at_camp": told.figures, "watched": watched})
    hold(GOLDEN / "figures.txt", "".join(_how(each, graph) for each in graph.nodes.values()),
         rewrite_golden)  # fmt: skip


def _how(node: Node, graph: Graph) -> str:
    def named(each: Traced | tuple[Traced, ...]) -> str:
        if isinstance(each, tuple):
            return "[" + " ".join(map(named, each)) + "]"
        return graph.id_of(each) or f"{float(each):.7g}"

    what = node.expression or (node.leaf.name if node.leaf else "")
    given = " ".join(f"{name}={named(each)}" for name, each in node.inputs.items())
    guards = " ".join(f"if {named(each)}" for each in node.guards)
    leads_to = "" if node.top == node.id else f"for {node.top}"
    told = " | ".join(each for each in (what, given, guards, leads_to) if each)
    return f"{node.id} = {float(node.value):.7g} | {told}\n"


def test_what_is_held_against_the_demos_is_as_it_was_approved(
    demos: Demos, rewrite_golden: bool
) -> None:
    hold(GOLDEN / "problems.txt", as_text(demos.problems, WORDS), rewrite_golden)


def test_no_golden_plan_is_left_of_one_that_is_gone() -> None:
    named = {"home", "problems", "figures", "lake-emmerin-public", "cautions"}
    named |= {*DEMOS, *(f"{trip}-at-camp" for trip in DEMOS)}
    assert {each.stem for each in GOLDEN.iterdir()} == named


def test_no_part_is_left_of_a_test_that_is_gone() -> None:
    assert set(parts_of(GOLDEN / "cautions.txt")) == set(CASES)
