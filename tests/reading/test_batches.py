# ruff: noqa: E501 - the lines that people read stand whole
"""The drying log."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from builder.model.batch import Batch, Heated, Packs, Stay
from tests.reading.folder_builder import BEANS_IN_MAY, GOOD, Spoilt, changed, lines, read, told

SPOILT = (
    Spoilt(
        "no id",
        "batches/beans.yaml",
        (("id: beans-may\n", ""),),
        (
            "trips/tarrow.yaml:8:39: error: there is no batch 'beans-may' — known are: beans-2031-05-04 [batch-unknown]",
        ),
    ),
    Spoilt(
        "no food",
        "batches/beans.yaml",
        (("food: beans\n", ""),),
        (
            "batches/beans.yaml:1:1: error: a batch holds one food or one recipe, found neither — write `food: <id>` or `recipe: <id>` [food-or-recipe]",
        ),
    ),
    Spoilt(
        "food and recipe",
        "batches/beans.yaml",
        (("food: beans", "food: beans\nrecipe: bean-pot"),),
        (
            "batches/beans.yaml:1:1: error: a batch holds one food or one recipe, not both — write `food: <id>` or `recipe: <id>` [food-or-recipe]",
        ),
    ),
    Spoilt(
        "unknown food",
        "batches/beans.yaml",
        (("food: beans", "food: bens"),),
        (
            "batches/beans.yaml:2:7: error: there is no food 'bens' — did you mean beans? [food-unknown]",
        ),
    ),
    Spoilt(
        "unknown recipe",
        "batches/beans.yaml",
        (("food: beans", "recipe: bean-pott"),),
        (
            "batches/beans.yaml:2:9: error: there is no recipe 'bean-pott' — did you mean bean-pot? [recipe-unknown]",
        ),
    ),
    Spoilt(
        "unknown method",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrtor"),),
        (
            "batches/beans.yaml:3:9: error: method cannot be 'dehydrtor' — did you mean dehydrator? [word-unknown]",
        ),
    ),
    Spoilt(
        "no date",
        "batches/beans.yaml",
        (("done: 2031-05-04\n", ""),),
        (
            "batches/beans.yaml:1:1: error: a batch is done or planned, found neither — write `done: 2031-03-14` or `planned: 2031-03-14`; while it is in the dryer `started: 2031-03-13T18:00` [missing]",
        ),
    ),
    Spoilt(
        "two dates",
        "batches/beans.yaml",
        (("done: 2031-05-04", "done: 2031-05-04\nplanned: 2031-05-05"),),
        (
            "batches/beans.yaml:1:1: error: a batch is done or planned, not both — write `done: 2031-03-14` or `planned: 2031-03-14`; while it is in the dryer `started: 2031-03-13T18:00` [missing]",
        ),
    ),
    Spoilt(
        "a date that is none is told once",
        "batches/beans.yaml",
        (("done: 2031-05-04", "done: May"),),
        (
            "batches/beans.yaml:4:7: error: done: 'May' is no date — write year-month-day, such as 2031-09-04 [date]",
        ),
    ),
    Spoilt(
        "no fresh weight",
        "batches/beans.yaml",
        (("fresh: 900 g\n", ""),),
        (
            "batches/beans.yaml:1:1: error: this batch does not tell its weight before drying — write `fresh: 1850 g` [missing]",
        ),
    ),
    Spoilt(
        "fresh of nothing",
        "batches/beans.yaml",
        (("fresh: 900 g", "fresh: 0 g"),),
        (
            "batches/beans.yaml:5:8: error: fresh must be more than nothing, found '0 g' — write 250 g, 1.5 kg or 9 oz [out-of-range]",
        ),
    ),
    Spoilt(
        "no dry weight",
        "batches/beans.yaml",
        (("dried: 340 g\n", ""),),
        (
            "batches/beans.yaml:1:1: error: this batch is done but does not tell its dry weight — write `dried: 655 g` [missing]",
        ),
    ),
    Spoilt(
        "dry weight without unit",
        "batches/beans.yaml",
        (("dried: 340 g", "dried: 340"),),
        (
            "batches/beans.yaml:6:8: error: dried: '340' has no unit — write one of mg, g, kg, oz, lb, lbs behind it, such as 250 g, 1.5 kg or 9 oz [unit-missing]",
        ),
    ),
    Spoilt(
        "packs without count",
        "batches/beans.yaml",
        (("count: 3, ", ""),),
        ("batches/beans.yaml:7:8: error: packs has no `count` — write `count: 2` [missing]",),
    ),
    Spoilt(
        "half a pack",
        "batches/beans.yaml",
        (("count: 3", "count: 2.5"),),
        (
            "batches/beans.yaml:7:16: error: count counts, so it cannot be '2.5' — write a whole number such as 2 [not-whole]",
        ),
    ),
    Spoilt(
        "no packs",
        "batches/beans.yaml",
        (("count: 3", "count: 0"),),
        (
            "batches/beans.yaml:7:16: error: count cannot be '0' — write a number from 1 to 10000 [out-of-range]",
        ),
    ),
    Spoilt(
        "packs as a number",
        "batches/beans.yaml",
        (("packs: {count: 3, in: zip-bag}", "packs: 3"),),
        (
            "batches/beans.yaml:7:8: error: packs is written as `key: value` lines, found '3' — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "unknown packaging",
        "batches/beans.yaml",
        (("in: zip-bag", "in: zipbag"),),
        (
            "batches/beans.yaml:7:23: error: there is no packaging 'zipbag' — did you mean zip-bag? [packaging-unknown]",
        ),
    ),
    Spoilt(
        "packs of",
        "batches/beans.yaml",
        (("in: zip-bag", "in: zip-bag, of: 100 g"),),
        (
            "batches/beans.yaml:7:36: error: only a bought batch tells what a pack holds — leave `of` out: dried weight over count gives it [packs-of]",
        ),
    ),
    Spoilt(
        "used below nothing",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nused: -1"),),
        (
            "batches/beans.yaml:4:7: error: used cannot be '-1' — write a number from 0 to 10000 [out-of-range]",
        ),
    ),
    Spoilt(
        "kept in an oven",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nkept_at: 60 degC"),),
        (
            "batches/beans.yaml:4:10: error: kept_at: '60 degC' is out of range — write at most 40 degC, such as 15 degC or 59 degF [out-of-range]",
        ),
    ),
    Spoilt(
        "heated without when",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nheated: {to: 74 degC}"),),
        (
            "batches/beans.yaml:4:9: error: this heat step has no `when` — write `when: before` [missing]",
        ),
    ),
    Spoilt(
        "heated without to",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nheated: {when: during}"),),
        (
            "batches/beans.yaml:4:9: error: this heat step has no `to` — write `to: 74 degC` [missing]",
            "batches/beans.yaml:4:16: error: when cannot be 'during' — known are: after, before [word-unknown]",
        ),
    ),
    Spoilt(
        "style",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nstyle: jerk"),),
        (
            "batches/beans.yaml:4:8: error: style cannot be 'jerk' — did you mean jerky? [word-unknown]",
        ),
    ),
    Spoilt(
        "best before",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nbest_before: 2031-13-01"),),
        (
            "batches/beans.yaml:4:14: error: best_before: '2031-13-01' is no date — write year-month-day, such as 2031-09-04 [date]",
        ),
    ),
    Spoilt(
        "bought without packs",
        "batches/beans.yaml",
        (
            (
                "method: dehydrator\ndone: 2031-05-04\nfresh: 900 g\ndried: 340 g\npacks: {count: 3, in: zip-bag}\n",
                "method: bought\n",
            ),
        ),
        (
            "batches/beans.yaml:1:1: error: this batch has no `packs` — write `packs: {count: 3, of: 120 g}` [missing]",
        ),
    ),
    Spoilt(
        "bought and planned",
        "batches/beans.yaml",
        (
            (
                "method: dehydrator\ndone: 2031-05-04\nfresh: 900 g\ndried: 340 g\n",
                "method: bought\nplanned: 2031-05-04\n",
            ),
        ),
        (
            "batches/beans.yaml:4:10: error: a bought batch is not dried here, and tells no `planned` — leave `planned` out; what is still to be bought needs no batch [bought]",
            "batches/beans.yaml:5:8: error: a bought batch must tell what a pack holds — write `packs: {count: 3, of: 120 g}` [missing]",
        ),
    ),
    Spoilt(
        "bought without of",
        "batches/beans.yaml",
        (
            (
                "method: dehydrator\ndone: 2031-05-04\nfresh: 900 g\ndried: 340 g\n",
                "method: bought\n",
            ),
        ),
        (
            "batches/beans.yaml:4:8: error: a bought batch must tell what a pack holds — write `packs: {count: 3, of: 120 g}` [missing]",
        ),
    ),
    Spoilt(
        "constant as text",
        "batches/beans.yaml",
        (("method: dehydrator", 'method: dehydrator\nconstant: "true"'),),
        (
            "batches/beans.yaml:4:11: error: constant must be true or false, found 'true' — write `constant: true` or `constant: false` [not-a-flag]",
        ),
    ),
    Spoilt(
        "a dryer that nobody has, and no method",
        "batches/beans.yaml",
        (("method: dehydrator", "dryer: shelf"),),
        (
            "batches/beans.yaml:3:8: error: there is no dryer 'shelf' — there is none yet [dryer-unknown]",
        ),
    ),
    Spoilt(
        "a test that is none",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\ntests: [snaps]"),),
        (
            "batches/beans.yaml:4:9: error: tests cannot be 'snaps' — did you mean snap? [word-unknown]",
        ),
    ),
    Spoilt(
        "ice from a shelf dryer",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nice: 500 g"),),
        (
            "batches/beans.yaml:4:6: error: only a freeze dryer draws the water out as ice — leave `ice` out [ice]",
        ),
    ),
    Spoilt(
        "started after it was done",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nstarted: 2031-05-05T06:00"),),
        (
            "batches/beans.yaml:4:10: error: this run started after the day it was done — check both dates [started-late]",
        ),
    ),
    Spoilt(
        "started on no day",
        "batches/beans.yaml",
        (("method: dehydrator", "method: dehydrator\nstarted: 2031-05-04"),),
        (
            "batches/beans.yaml:4:10: error: started: '2031-05-04' is no time — write date and time, as 2031-03-13T18:00 [date]",
        ),
    ),
    Spoilt(
        "minutes of no heat",
        "batches/beans.yaml",
        (
            (
                "method: dehydrator",
                "method: dehydrator\nheated: {to: 135 degC, when: after, minutes: 0}",
            ),
        ),
        (
            "batches/beans.yaml:4:46: error: minutes cannot be '0' — write a number above 0, up to 1440 [out-of-range]",
        ),
    ),
)


@pytest.mark.parametrize("spoilt", SPOILT, ids=str)
def test_each_mistake_is_told_at_its_place_with_what_would_do(
    spoilt: Spoilt, tmp_path: Path
) -> None:
    assert told(tmp_path, GOOD, spoilt) == spoilt.expected


def batch_of(folder: Path, text: str, batch_id: str = "beans-may") -> Batch:
    found = read(folder, {"batches/log.yaml": text})
    assert lines(found) == []
    return found.content.batches[batch_id]


def test_a_batch_is_read_as_it_stands(tmp_path: Path) -> None:
    batch = batch_of(tmp_path, BEANS_IN_MAY)
    assert batch == Batch(
        id="beans-may",
        method="dehydrator",
        food="beans",
        done=datetime.date(2031, 5, 4),
        fresh_g=900,
        dried_g=340,
        packs=Packs(3, "zip-bag"),
    )
    assert (batch.kept_at_c, batch.used, batch.jerky, batch.tests) == (20.0, 0, False, frozenset())


def test_a_batch_may_tell_more(tmp_path: Path) -> None:
    more = "kept_at: 50 degF\nused: 1\nheated: {to: 165.2 degF, when: before}\nstyle: jerky\nconstant: true\nbest_before: 2031-12-31\nnotes: Snaps.\n"
    text = changed(BEANS_IN_MAY, "in: zip-bag", "in: zip-bag, absorber: true")
    batch = batch_of(tmp_path, text + more)
    assert batch.kept_at_c == pytest.approx(10.0, abs=1e-9)
    assert batch.heated is not None
    assert (round(batch.heated.to_c, 9), batch.heated.when) == (74.0, "before")
    assert (batch.used, batch.jerky, batch.tests) == (1, True, frozenset({"constant"}))
    assert (batch.best_before, batch.notes) == (datetime.date(2031, 12, 31), "Snaps.")
    assert batch.packs is not None and batch.packs.absorber


def test_a_planned_batch_needs_no_dry_weight(tmp_path: Path) -> None:
    batch = batch_of(
        tmp_path, "{id: beans-may, food: beans, method: sun, planned: 2031-06-01, fresh: 2 lb}"
    )
    assert (batch.done, batch.planned, batch.dried_g) == (None, datetime.date(2031, 6, 1), None)
    assert batch.pack_count == 1


def test_a_bought_batch_needs_only_packs(tmp_path: Path) -> None:
    batch = batch_of(
        tmp_path,
        "- {id: beans-may, food: beans, method: bought, best_before: 2032-05-01, packs: {count: 3, of: 120 g}}",
    )
    assert (batch.packs, batch.fresh_g, batch.done) == (Packs(3, of_g=120.0), None, None)


def test_a_file_may_hold_many_batches_and_keeps_the_good_ones(tmp_path: Path) -> None:
    second = BEANS_IN_MAY.replace("beans-may", "beans-june").replace("900 g", "900")
    text = "".join(
        "- " + batch.replace("\n", "\n  ").rstrip() + "\n" for batch in (BEANS_IN_MAY, second)
    )
    found = read(tmp_path, {**GOOD, "batches/beans.yaml": text})
    assert lines(found) == [
        "batches/beans.yaml:12:10: error: fresh: '900' has no unit — write one of mg, g, kg, oz, lb, lbs behind it, such as 250 g, 1.5 kg or 9 oz [unit-missing]",
    ]
    assert list(found.content.batches) == ["beans-may"]
    assert list(found.content.trips) == ["tarrow"]


RUN = BEANS_IN_MAY + "weighings: [{at: 3 h, mass: 700 g}, {at: 300 min, mass: 1 lb}]\n"


def test_the_weighings_of_a_run_are_read_in_the_order_of_time(tmp_path: Path) -> None:
    batch = batch_of(tmp_path, RUN)
    assert [each.at_min for each in batch.weighings] == [180, 300]
    assert batch.weighings[1].mass_g == pytest.approx(453.59237, rel=1e-12)
    assert batch.weighings[0].mass_g == 700


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (
            "300 min",
            "3 h",
            "8:42: error: this weighing, after 3 h, is not later than the one above it — write them in the order of time, counted from the start of drying [weighing-order]",
        ),
        (
            "1 lb",
            "701 g",
            "8:57: error: 701 g is more than it weighed before — check the weight and take the tare off each time [weighing-heavier]",
        ),
        (
            "700 g",
            "901 g",
            "8:29: error: 901 g is more than it weighed before — check the weight and take the tare off each time [weighing-heavier]",
        ),
        (
            "mass: 1 lb",
            "mas: 1 lb",
            "8:37: error: this weighing has no `mass` — write `mass: 250 g` [missing]",
        ),
        (
            "[{at: 3 h, mass: 700 g}, {at: 300 min, mass: 1 lb}]",
            "soon",
            "8:12: error: weighings must be a list, found 'soon' — write `weighings: [soon]` [not-a-list]",
        ),
    ],
)
def test_a_weighing_that_cannot_be_is_told(
    old: str, new: str, expected: str, tmp_path: Path
) -> None:
    found = read(tmp_path, {"batches/log.yaml": changed(RUN, old, new)})
    assert lines(found)[0] == f"batches/log.yaml:{expected}"
    assert "beans-may" not in found.content.batches


@pytest.mark.parametrize(
    ("method", "expected"),
    [
        ("freeze-dryer", []),
        (
            "dehydrator",
            [
                "batches/log.yaml:8:12: error: only a load for the freeze dryer tells how cold it went in — leave `loaded_at` out [loaded-at]"
            ],
        ),
        (
            "freeze-drier",
            [
                "batches/log.yaml:3:9: error: method cannot be 'freeze-drier' — did you mean freeze-dryer? [word-unknown]"
            ],
        ),
    ],
)
def test_only_a_freeze_dryer_is_loaded_cold(
    method: str, expected: list[str], tmp_path: Path
) -> None:
    text = changed(BEANS_IN_MAY, "dehydrator", method) + "loaded_at: -18 degC\n"
    found = read(tmp_path, {"batches/log.yaml": text})
    assert lines(found) == expected
    if not expected:
        assert found.content.batches["beans-may"].loaded_at_c == -18.0


DRYERS = """\
dryers:
  - {id: shelf, name: Shelf, method: dehydrator, load: 3 kg, hours: 12}
  - {id: cold, name: Cold, method: freeze-dryer, load: 3 kg, hours: 30}
"""


@pytest.mark.parametrize(
    ("dryer", "expected"),
    [
        ("shelf", []),
        (
            "shelff",
            [
                "batches/log.yaml:8:8: error: there is no dryer 'shelff' — did you mean shelf? [dryer-unknown]"
            ],
        ),
        (
            "cold",
            [
                "batches/log.yaml:8:8: error: cold is a freeze-dryer, and this batch says `method: dehydrator` — name one of shelf, or leave `dryer` out [dryer-method]"
            ],
        ),
    ],
)
def test_a_batch_is_dried_in_something_that_dries_so(
    dryer: str, expected: list[str], tmp_path: Path
) -> None:
    text = BEANS_IN_MAY + f"dryer: {dryer}\n"
    found = read(tmp_path, {"batches/log.yaml": text, "gear/dryers.yaml": DRYERS})
    assert lines(found) == expected
    batch = found.content.batches.get("beans-may")
    assert (batch.dryer if batch else None) == (None if expected else "shelf")


# -- tests, ice, runs -----------------------------------------------------------------------------


def test_a_batch_tells_what_was_done_to_prove_it_dry(tmp_path: Path) -> None:
    assert batch_of(tmp_path / "a", BEANS_IN_MAY + "tests: [snap, jar]\n").tests == {"snap", "jar"}
    both = batch_of(tmp_path / "b", BEANS_IN_MAY + "tests: snap\nconstant: true\n")
    assert both.tests == {"snap", "constant"}
    assert batch_of(tmp_path / "c", BEANS_IN_MAY + "constant: false\n").tests == frozenset()


def test_a_heat_step_tells_its_minutes(tmp_path: Path) -> None:
    text = BEANS_IN_MAY + "heated: {to: 135 degC, when: after, minutes: 10}\n"
    assert batch_of(tmp_path, text).heated == Heated(135.0, "after", 10.0)


def test_an_id_left_out_is_food_and_day(tmp_path: Path) -> None:
    text = BEANS_IN_MAY.replace("id: beans-may\n", "")
    assert batch_of(tmp_path / "a", text, "beans-2031-05-04").holds == "beans"
    planned = text.replace("done:", "planned:")
    assert batch_of(tmp_path / "b", planned, "beans-2031-05-04").planned is not None
    running = text.replace("done: 2031-05-04\n", "started: 2031-05-03T18:00\n")
    running = running.replace("dried: 340 g\n", "")
    batch = batch_of(tmp_path / "c", running, "beans-2031-05-03")
    assert batch.started == datetime.datetime(2031, 5, 3, 18)
    assert (batch.in_dryer, batch.is_planned) == (True, True)


def test_a_batch_that_is_done_is_out_of_the_dryer(tmp_path: Path) -> None:
    batch = batch_of(tmp_path, BEANS_IN_MAY + "started: 2031-05-03T18:00\nrun: may-3\n")
    assert (batch.in_dryer, batch.is_planned, batch.run) == (False, False, "may-3")


def test_a_freeze_dryer_tells_its_ice(tmp_path: Path) -> None:
    text = BEANS_IN_MAY.replace("dehydrator", "freeze-dryer") + "ice: 0.56 kg\n"
    assert batch_of(tmp_path, text).ice_g == 560


def test_a_dryer_gives_the_method(tmp_path: Path) -> None:
    text = BEANS_IN_MAY.replace("method: dehydrator", "dryer: shelf")
    dryer = "dryers: [{id: shelf, name: Shelf, method: oven, load: 3 kg, hours: 12}]"
    found = read(tmp_path, {"batches/log.yaml": text, "gear/own.yaml": dryer})
    assert lines(found) == []
    assert found.content.batches["beans-may"].method == "oven"


# -- where packs are kept -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("told_at", "kept_at_c", "stays"),
    [
        ("12 degC", 12.0, ()),
        ("[{at: 5 degC}]", 5.0, ()),
        ("[{at: 25 degC, until: 2031-06-01}, {at: 5 degC}]", 5.0, ((25.0, (2031, 6, 1)),)),
        (
            "[{at: 25 degC, until: 2031-06-01}, {at: -18 degC, until: 2031-06-02}, {at: 15 degC}]",
            15.0,
            ((25.0, (2031, 6, 1)), (-18.0, (2031, 6, 2))),
        ),
    ],
)
def test_packs_may_have_stood_in_several_places(
    told_at: str,
    kept_at_c: float,
    stays: tuple[tuple[float, tuple[int, int, int]], ...],
    tmp_path: Path,
) -> None:
    batch = batch_of(tmp_path, BEANS_IN_MAY + f"kept_at: {told_at}\n")
    assert batch.kept_at_c == kept_at_c
    assert batch.stays == tuple(Stay(at_c, datetime.date(*until)) for at_c, until in stays)


def test_packs_of_which_no_place_is_told_are_in_a_room_of_20_degrees(tmp_path: Path) -> None:
    batch = batch_of(tmp_path, BEANS_IN_MAY)
    assert (batch.kept_at_c, batch.stays) == (20.0, ())


@pytest.mark.parametrize(
    ("told_at", "expected"),
    [
        ("[]", ["8:10: error: no place is told — write `kept_at: 15 degC` [empty]"]),
        (
            "[{at: 25 degC, until: 2031-06-01}]",
            [
                "8:32: error: the last place has no end: that is where the packs are now — leave `until` out [place-ends]"
            ],
        ),
        (
            "[{at: 25 degC}, {at: 5 degC}]",
            ["8:11: error: this place has no `until` — write `until: 2031-09-04` [missing]"],
        ),
        (
            "[{at: 25 degC, until: 2031-06-01}, {at: 9 degC, until: 2031-06-01}, {at: 5 degC}]",
            [
                "8:65: error: the packs left this place before the one above it — write the places in the order of time [place-order]"
            ],
        ),
        (
            "[{until: 2031-06-01}, {at: 5 degC, shelf: 2}]",
            [
                "8:11: error: this place has no `at` — write `at: 15 degC` [missing]",
                "8:45: error: a place has no field 'shelf' — known are: at, until [key-unknown]",
            ],
        ),
    ],
)
def test_places_that_cannot_be_are_told(told_at: str, expected: list[str], tmp_path: Path) -> None:
    found = read(tmp_path, {"batches/log.yaml": BEANS_IN_MAY + f"kept_at: {told_at}\n"})
    assert lines(found) == [f"batches/log.yaml:{each}" for each in expected]


# -- limits from both sides -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("more", "good"),
    [
        ("started: 2031-05-04T00:01\n", True),  # done on the day it was begun
        ("started: 2031-05-05T00:01\n", False),
        ("heated: {to: 74 degC, when: before, minutes: 1440}\n", True),
        ("heated: {to: 74 degC, when: before, minutes: 1441}\n", False),
        ("heated: {to: 74 degC, when: before, minutes: 0}\n", False),
        ("heated: {to: 74 degC, when: during}\n", False),
        ("heated: {when: before}\n", False),
        ("weighings: [{at: 1 h, mass: 900 g}]\n", True),  # as heavy as it was
        ("weighings: [{at: 1 h, mass: 901 g}]\n", False),
        ("weighings: [{at: 1 h, mass: 700 g}, {at: 2 h, mass: 700 g}]\n", True),
        ("weighings: [{at: 1 h, mass: 700 g}, {at: 2 h, mass: 701 g}]\n", False),
        ("weighings: [{at: 1 h, mass: 700 g}, {at: 60 min, mass: 600 g}]\n", False),
        ("weighings: [{at: 1 h, mass: 700 g, by: me}]\n", False),
        ("style: jerky\n", True),
        ("style: crisp\n", False),
        ("used: 0\n", True),
        ("ice: 1 g\n", False),
        ("dryer: none-such\n", False),
    ],
)
def test_what_a_batch_may_tell_and_what_not(more: str, good: bool, tmp_path: Path) -> None:
    found = read(tmp_path, {"batches/log.yaml": BEANS_IN_MAY + more})
    assert ("beans-may" in found.content.batches) is good
    assert bool(found.problems) is not good


def test_jerky_is_what_is_called_so(tmp_path: Path) -> None:
    assert batch_of(tmp_path / "a", BEANS_IN_MAY + "style: jerky\n").jerky
    assert not batch_of(tmp_path / "b", BEANS_IN_MAY).jerky


def test_an_unknown_dryer_without_a_method_is_told_once_at_its_place(tmp_path: Path) -> None:
    text = changed(BEANS_IN_MAY, "method: dehydrator", "dryer: shelff")
    found = read(tmp_path, {"batches/log.yaml": text})
    assert lines(found) == [
        "batches/log.yaml:3:8: error: there is no dryer 'shelff' — there is none yet [dryer-unknown]"
    ]
