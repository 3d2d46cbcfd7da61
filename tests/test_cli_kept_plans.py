"""A trip is planned again where something of it changed, and nowhere else."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from builder.cli.kept_plans import KeptPlan, KeptPlans
from builder.cli.last_build import folder_marks
from builder.cli.many.trips import sort_out
from builder.cli.places import place_of, read_place
from builder.cli.planner import Planner, planned_kits
from builder.model.as_data import as_data, of_data
from builder.model.kit import Kit
from builder.model.learned import NOTHING_LEARNED
from builder.planning.at_home import TripShare, share_of
from builder.problems import Problem, in_order
from builder.site.folder import made

ROOT = Path(__file__).resolve().parents[1]
ALL = {"graupel-ridge", "lake-emmerin", "rindle-fen", "tarrow-tops"}
LOG_READERS = ALL  # cautions look through the whole log for what lay in one dryer
BEANS = "- id: black-beans-spring"
FUDGE = "- {eat: Caramel fudge, each: 40 g, energy: 430 kcal}"


class Found(NamedTuple):
    """What was planned anew, all that there is to say, and what was kept."""

    kits: list[Kit]
    problems: tuple[Problem, ...]
    kept: tuple[KeptPlan, ...]


class Shelf:
    """A copy of the demo, and the plans that are kept of it."""

    def __init__(self, content: Path, out: Path) -> None:
        self.content, self.out = content, out
        made.claim(out)
        self.first = self.planned(ask=False)

    def planned(self, tool: str = "tool", ask: bool = True) -> Found:
        """Plan the folder, but for what is kept; keep what is planned."""
        place = place_of(self.content)
        planner = Planner(read_place(place))
        plans = KeptPlans(folder_marks(place), self.out, tool, is_asked=ask)
        to_plan, kept, problems = sort_out(planner, sorted(planner.folder.content.trips), plans)
        kits, found = [], [*planner.problems, *problems]
        for trip in to_plan:
            planned = planner.plan(trip)
            plans.keep(planned, "made")
            kits.append(planned.kit)
            found += planned.problems
        return Found(kits, in_order(found), kept)

    def anew(self, tool: str = "tool") -> set[str]:
        """Give the trips that are planned again; for the rest the old plan must be the new one."""
        planned = self.planned(tool)
        found = {kit.id for kit in planned.kits}
        folder = read_place(place_of(self.content))
        fresh, problems = planned_kits(folder, lambda known, _: sorted(known))
        before = {kit.id: repr(kit) for kit in self.first.kits}
        assert {kit.id for kit in fresh if repr(kit) != before[kit.id]} <= found
        assert planned.problems == problems
        assert found | {each.trip for each in planned.kept} == {kit.id for kit in fresh}
        return found


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shelf]:
    folder = tmp_path_factory.mktemp("kept")
    shutil.copytree(ROOT / "content", folder / "content")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("builder.site.folder.swap.is_current", lambda out, trip, made_from: True)
        yield Shelf(folder / "content", folder / "kits")


@pytest.fixture
def again(shelf: Shelf) -> Iterator[Shelf]:
    """Give the shelf, and put back afterwards what a test changed in it."""
    yield shelf
    shutil.rmtree(shelf.content)
    shutil.copytree(ROOT / "content", shelf.content)
    shelf.planned()


def change(content: Path, file: str, old: str, new: str) -> None:
    path = content / file
    text = path.read_text("utf-8")
    assert text.count(old) >= 1, f"{old!r} is not in {file}"
    path.write_text(text.replace(old, new, 1), "utf-8")


def test_nothing_is_planned_again_where_nothing_changed(again: Shelf) -> None:
    assert again.anew() == set()


@pytest.mark.parametrize(
    ("file", "old", "new", "users"),
    [
        ("trips/rindle-fen.yaml", "title: ", "title: At the ", {"rindle-fen"}),
        # Others eat of the same batches; what they are left with is as it was.
        ("trips/tarrow-tops.yaml", "title: ", "title: At the ", {"tarrow-tops"}),
        ("recipes/salmon-chowder.yaml", "# A thick", "# The thick", {"graupel-ridge"}),
        ("recipes/smoky-bean-pot.yaml", "name: ", "name: Our ", {"lake-emmerin", "rindle-fen"}),
        ("recipes/seed-muesli.yaml", "name: ", "name: Our ", set()),
        (
            "foods/nuts.yaml",
            "id: walnuts\n  name: ",
            "id: walnuts\n  name: Our ",
            {"graupel-ridge"},
        ),
        (
            "gear/stoves-and-fuels.yaml",
            "spirit\n    burns",
            "spirit \n    burns",
            {"graupel-ridge"},
        ),
        ("gear/stoves-and-fuels.yaml", "energy: 44.5 MJ", "energy: 44.6 MJ", {"graupel-ridge"}),
        ("gear/pots-and-irons.yaml", "Two-litre", "Our two-litre", {"graupel-ridge"}),
        ("gear/pots-and-irons.yaml", "name: Round iron,", "name: An iron,", {"lake-emmerin"}),
        ("gear/dryers.yaml", "name: Ten-tray", "name: Our ten-tray", set()),
        ("gear/labels.yaml", "# Sheets", "# The sheets", set()),
        ("batches/fruit.yaml", "- ", "# Of ours.\n- ", LOG_READERS),
        ("home.yaml", "electricity: 0.31", "electricity: 0.32", ALL),
    ],
)
def test_a_record_is_planned_with_again_by_those_that_use_it(
    again: Shelf, file: str, old: str, new: str, users: set[str]
) -> None:
    change(again.content, file, old, new)
    assert again.anew() == users


def test_a_caution_and_a_source_are_told_again_by_those_that_tell_them(again: Shelf) -> None:
    kits = again.first.kits
    change(again.content, "cautions/water.yaml", "Know what a filter", "Know what the filter")
    told = {kit.id for kit in kits if any(each.id == "filter-limits" for each in kit.cautions)}
    assert set() < told < ALL
    assert again.anew() == told
    change(
        again.content, "sources.yaml", "title: Using dehydration", "title: Using the dehydration"
    )
    told = {kit.id for kit in kits if any(each.id == "vce-sun" for each in kit.sources)}
    assert set() < told < ALL
    assert again.anew() == told


def test_a_trip_that_takes_of_a_batch_changes_what_others_are_left_with(again: Shelf) -> None:
    (again.content / "trips" / "tarrow-tops.yaml").unlink()
    # Two eat of its batches, and the third is offered packs of them.
    assert again.anew() == {"graupel-ridge", "lake-emmerin", "rindle-fen"}


def test_a_trip_that_takes_of_a_planned_load_changes_what_of_it_will_cover_others(
    again: Shelf,
) -> None:
    load = """- id: beans-august
  food: black-beans-cooked
  method: freeze-dryer
  dryer: home-freeze-dryer
  planned: 2031-08-20
  fresh: 640 g
  packs: {count: 4, in: foil-pouch}
"""
    change(again.content, "batches/vegetables.yaml", BEANS, f"{load}\n{BEANS}")
    coming = {kit.id: kit.coming for kit in again.planned().kits}
    assert [each.batch for each in coming["rindle-fen"]] == ["beans-august"]
    eaten = "- {eat: black-beans-cooked, from: beans-august, each: 20 g}"
    change(again.content, "trips/tarrow-tops.yaml", FUDGE, eaten)
    assert again.anew() == {"rindle-fen", "tarrow-tops"}


def test_another_tool_plans_all_again(again: Shelf) -> None:
    assert again.anew("another tool") == ALL


@pytest.mark.parametrize("spoil", [lambda text: text[:-9], lambda text: text.replace("1", "2")])
def test_what_was_written_down_and_is_spoiled_is_not_believed(again: Shelf, spoil: object) -> None:
    plan = again.out / made.OWN_FOLDER / "rindle-fen.plan"
    assert callable(spoil)
    plan.write_text(spoil(plan.read_text("utf-8")), "utf-8")
    assert again.anew() == {"rindle-fen"}


def test_what_the_home_needs_of_a_trip_is_the_same_read_back(shelf: Shelf) -> None:
    shares = [share_of(kit) for kit in shelf.first.kits]
    assert [of_data(TripShare, as_data(each)) for each in shares] == shares
    assert any(each.shopping for each in shares) and any(each.bags.meals for each in shares)


def test_what_another_trip_taught_is_part_of_the_state(again: Shelf) -> None:
    trip = "trips/graupel-ridge.yaml"
    change(again.content, trip, "title: ", "review: {water: [{day: 1, used: 9 l}]}\ntitle: ")
    first = again.planned()
    taught = {kit.id for kit in first.kits if kit.learned != NOTHING_LEARNED}
    assert taught, "the trips after it"
    assert {kit.id for kit in again.planned().kits} == {"graupel-ridge"}, "the others are kept"
    change(again.content, trip, "used: 9 l", "used: 12 l")
    assert {kit.id for kit in again.planned().kits} == taught | {"graupel-ridge"}
