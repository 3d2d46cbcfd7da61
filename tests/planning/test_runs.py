"""What trips ahead want becomes runs, worked by hand and held against every rule."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.model.home import Home
from builder.planning.runs import Answer, DryingPlan, Search, Task, pack
from builder.record import replace
from tests.planning.folders import Record, food
from tests.planning.households import (
    AT,
    FREEZE,
    HOME,
    SHELF,
    START,
    broken,
    content_of,
    dried_for,
    home_free,
    planned,
    pot,
    trip_of,
)

POT = {"dinner": [{"cook": "pot"}]}
BERRIES = {"snacks": [{"eat": "berry", "dried_by": "dehydrator", "each": "50 g"}]}
LEAF = pot(leaf="60 g dehydrator")


def plan_of(
    folder: Path, trip: Record, home: Home = HOME, search: Search = pack, **more: Any
) -> DryingPlan:
    dryers = more.pop("dryers", (SHELF, FREEZE))
    content = content_of(folder, trip, home, *dryers, **more)
    plan, _ = planned(content, search=search)
    assert broken(plan, content) == []
    return plan


def at(month: int, day: int, hour: int) -> datetime.datetime:
    return datetime.datetime(2031, month, day, hour)


# -- how much -------------------------------------------------------------------------------------


def test_what_is_dried_is_what_meals_want_and_a_twentieth(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, trip_of(BERRIES, BERRIES))
    (run,) = plan.runs
    (part,) = run.parts
    # Two days, two people, 50 g each: 200 g and 5 %; berries dry to a quarter.
    assert (part.dried_g, part.fresh_g) == pytest.approx((210, 840))
    assert [(each.trip, each.day, each.meal) for each in part.meals] == [
        ("hand", 1, "snacks"),
        ("hand", 2, "snacks"),
    ]
    assert part.packs == 2


def test_own_batches_change_how_much_is_dried(tmp_path: Path) -> None:
    own = {"id": "own", "food": "berry", "method": "dehydrator", "done": "2031-01-01",
           "fresh": "1000 g", "dried": "240 g", "used": 1, "packs": {"count": 1}}  # fmt: skip
    (run,) = plan_of(tmp_path, trip_of(BERRIES, BERRIES), batches=[own]).runs
    assert run.parts[0].fresh_g == pytest.approx(210 / 0.2466212, abs=0.01)


def batch(**more: Any) -> Record:
    usual = {"id": "shelf-berries", "food": "berry", "method": "dehydrator", "done": "2031-05-01",
             "fresh": "800 g", "dried": "200 g", "packs": {"count": 4, "in": "foil"},
             "tests": ["constant"]}  # fmt: skip
    return {**usual, **more}


@pytest.mark.parametrize(
    ("batches", "wanted_g"),
    [
        ([], 200.0),
        ([batch()], 0.0),  # four free packs of 50 g
        ([batch(used=2)], 100.0),
        ([batch(dried="400 g")], 200.0),  # 60 % moisture: it failed
        ([batch(kept_at="40 degC", done="2030-05-01")], 200.0),  # past its date by then
        ([batch(done=None, dried=None, planned="2031-06-05")], 0.0),  # planned already
        ([batch(method="freeze-dryer", dried="160 g")], 200.0),  # another way to dry it
    ],
    ids=["none", "enough", "some", "failed", "too-old", "planned", "another-way"],
)
def test_free_packs_are_eaten_before_more_is_dried(
    tmp_path: Path, batches: list[Record], wanted_g: float
) -> None:
    told = [{key: value for key, value in each.items() if value is not None} for each in batches]
    plan = plan_of(tmp_path, trip_of(BERRIES, BERRIES), batches=told)
    new = DryingPlan(tuple(run for run in plan.runs if run.state == "new"))
    assert sum(dried_for(new, "hand").values()) == pytest.approx(wanted_g)


def test_a_trip_that_began_or_has_no_date_wants_nothing(tmp_path: Path) -> None:
    assert plan_of(tmp_path, trip_of(BERRIES, start=AT)) == DryingPlan()
    undated = {key: each for key, each in trip_of(BERRIES).items() if key != "start"}
    assert plan_of(tmp_path / "b", undated) == DryingPlan()


# -- when -----------------------------------------------------------------------------------------


def test_vegetables_are_out_a_free_day_before_the_last_day(tmp_path: Path) -> None:
    (run,) = plan_of(tmp_path, trip_of(POT), recipes=[LEAF]).runs
    # Off on the 21st, the last day is the 20th, and that one is to spare: out on the 19th, at
    # the end of its free hours.
    assert (run.start, run.end, run.emptied) == (at(6, 19, 10), at(6, 19, 22), at(6, 19, 22))
    assert run.day_to_spare
    assert run.id == "shelf-dryer-2031-06-19-1000"


def test_fruit_has_seven_days_to_even_out(tmp_path: Path) -> None:
    (run,) = plan_of(tmp_path, trip_of(BERRIES)).runs
    assert run.emptied == at(6, 13, 22)
    steps = {each.do: each for each in run.steps}
    assert (steps["condition"].at, steps["condition"].until) == (at(6, 13, 22), at(6, 20, 22))
    assert steps["pack"].at == at(6, 20, 22)


def test_freeze_dried_fruit_has_not_but_lies_in_the_freezer_first(tmp_path: Path) -> None:
    eats = {"snacks": [{"eat": "berry", "dried_by": "freeze-dryer", "each": "50 g"}]}
    (run,) = plan_of(tmp_path, trip_of(eats)).runs
    assert (run.start, run.emptied) == (at(6, 18, 16), at(6, 19, 22))
    steps = {each.do: each for each in run.steps}
    # Twelve hours before lies in the night; the last free moment before it is at 22.
    assert (steps["freeze"].at, steps["freeze"].until) == (at(6, 17, 22), at(6, 18, 16))
    assert "condition" not in steps


def test_only_free_hours_count(tmp_path: Path) -> None:
    evenings = home_free(fri=(17, 22), sat=(8, 22), sun=(8, 22))
    (run,) = plan_of(tmp_path, trip_of(POT), evenings, recipes=[LEAF]).runs
    # The 20th is a Friday, so the day to spare; before it the weekend of the 14th and 15th.
    assert (run.start, run.emptied) == (at(6, 15, 10), at(6, 15, 22))


def test_the_day_to_spare_is_given_up_rather_than_the_plan(tmp_path: Path) -> None:
    sundays = home_free(sun=(8, 22))
    (run,) = plan_of(
        tmp_path, trip_of(POT, start=datetime.date(2031, 6, 7)), sundays, recipes=[LEAF]
    ).runs
    assert run.emptied == at(6, 1, 22) and not run.day_to_spare


def test_food_that_keeps_for_three_weeks_is_not_dried_before(tmp_path: Path) -> None:
    stew = pot(lean_meat="60 g dehydrator")
    warm = replace(HOME, new_batch=replace(HOME.new_batch, kept_at_c=20.0))
    plan = plan_of(tmp_path, trip_of(POT), warm, recipes=[stew])
    (run,) = plan.runs
    assert run.parts[0].best_before and run.parts[0].best_before >= START
    assert not run.parts[0].absorber  # heat-dried meat is packed with air


def test_what_cannot_keep_so_long_is_told(tmp_path: Path) -> None:
    stew = pot(lean_meat="60 g dehydrator")
    hot = replace(HOME, new_batch=replace(HOME.new_batch, kept_at_c=40.0))
    days = [{"lunch": [{"eat": "kernel-nut", "each": "50 g"}]}] * 20
    plan = plan_of(tmp_path, trip_of(*days, POT), hot, recipes=[stew])
    assert plan.runs == ()
    assert "it would be past its date on Fri 11 Jul 2031" in plan.impossible[0]


# -- what stands in the dryer already -------------------------------------------------------------


PLANNED = {
    "id": "leaf-run",
    "food": "leaf",
    "method": "dehydrator",
    "dryer": "shelf-dryer",
    "fresh": "1000 g",
    "packs": {"count": 2, "in": "foil"},
}


@pytest.mark.parametrize(
    ("told", "start"),
    [
        # Its day alone is told, and that is wholly taken.
        ({"planned": "2031-06-19"}, at(6, 18, 10)),
        # Its name tells the start: until 12 it is in the dryer, and there are ten hours left.
        ({"planned": "2031-06-19", "run": "shelf-dryer-2031-06-19-0000"}, at(6, 18, 10)),
        ({"planned": "2031-06-19", "run": "shelf-dryer-2031-06-18-2000"}, at(6, 19, 10)),
        ({"planned": "2031-06-16"}, at(6, 19, 10)),  # long before
    ],
)
def test_a_planned_run_has_its_dryer_for_itself(
    tmp_path: Path, told: Record, start: datetime.datetime
) -> None:
    meal = pot(pulse="60 g dehydrator")
    plan = plan_of(tmp_path, trip_of(POT), recipes=[meal], batches=[{**PLANNED, **told}])
    assert [(run.state, run.start) for run in plan.runs if run.state == "new"] == [("new", start)]
    (logged,) = (run for run in plan.runs if run.state == "planned")
    assert [part.batch for part in logged.parts] == ["leaf-run"]


def test_a_run_in_the_dryer_is_told_and_covers_what_is_wanted(tmp_path: Path) -> None:
    drying = {**PLANNED, "started": "2031-06-01T09:00"}
    plan = plan_of(tmp_path, trip_of(POT), recipes=[LEAF], batches=[drying])
    (run,) = plan.runs
    assert (run.state, run.start, run.end) == ("in-dryer", at(6, 1, 9), at(6, 1, 21))
    assert [step.do for step in run.steps] == ["empty", "pack"]


@pytest.mark.parametrize(
    ("free", "emptied"),
    [
        ({"sun": (8, 22)}, at(6, 1, 21)),
        ({"mon": (8, 12)}, at(6, 2, 8)),
        # Dry on Sunday at 21, with nobody at home before Tuesday evening: it waits.
        ({"tue": (18, 22)}, at(6, 3, 18)),
    ],
)
def test_a_run_in_the_dryer_is_emptied_when_somebody_is_free(
    free: dict[str, tuple[int, int]], emptied: datetime.datetime, tmp_path: Path
) -> None:
    drying = {**PLANNED, "started": "2031-06-01T09:00"}
    content = content_of(
        tmp_path, trip_of(POT), home_free(**free), SHELF, recipes=[LEAF], batches=[drying]
    )
    (run,) = planned(content)[0].runs
    assert run.emptied == emptied
    assert {step.at for step in run.steps} == {emptied}


@pytest.mark.parametrize(
    ("from_hour", "runs"),
    [
        (6, 1),  # into the freezer at 6, into the dryer from 18 on, out on Tuesday morning
        (18, 0),  # into the freezer at 18 at the earliest: not frozen by 22
    ],
)
def test_nobody_fills_the_freezer_before_they_are_home(
    from_hour: int, runs: int, tmp_path: Path
) -> None:
    eats = {"snacks": [{"eat": "berry", "dried_by": "freeze-dryer", "each": "50 g"}]}
    trip = trip_of(eats, start=datetime.date(2031, 6, 4))
    home = home_free(sun=(from_hour, 22), tue=(6, 10))
    plan, _ = planned(content_of(tmp_path, trip, home, FREEZE))
    assert len(plan.runs) == runs
    assert all(run.start >= at(6, 1, 18) for run in plan.runs)


# -- together -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("amounts", "runs"),
    [
        ({"leaf": "60 g", "pulse": "60 g"}, 1),  # 52 to 60 and 57 to 65
        ({"leaf": "60 g", "mint": "10 g"}, 2),  # 52 to 60 and 35 to 45
        ({"stew_meat": "30 g", "leaf": "60 g"}, 1),  # both are boiled
        ({"steak_raw": "20 g", "leaf": "60 g"}, 1),  # it is heated before it goes in
        ({"trout_cooked": "20 g", "berry": "60 g"}, 2),  # fish beside fruit
    ],
    ids=lambda each: "+".join(each) if isinstance(each, dict) else str(each),
)
def test_what_may_lie_in_one_run_does(tmp_path: Path, amounts: dict[str, str], runs: int) -> None:
    meal = pot(**{name: f"{each} dehydrator" for name, each in amounts.items()})
    plan = plan_of(tmp_path, trip_of(POT), recipes=[meal])
    assert len(plan.runs) == runs


def test_meat_lies_apart_from_what_is_eaten_as_it_is(tmp_path: Path) -> None:
    meal = pot(stew_meat="30 g dehydrator")
    nuts = {"snacks": [{"eat": "oily-nut", "dried_by": "dehydrator", "each": "30 g"}]}
    plan = plan_of(tmp_path, trip_of({**POT, **nuts}), recipes=[meal])
    assert len(plan.runs) == 2
    other = pot(pulse="30 g dehydrator")
    assert len(plan_of(tmp_path / "b", trip_of({**POT, **nuts}), recipes=[other]).runs) == 1


def test_what_somebody_eats_as_it_is_lies_apart_from_meat_however_it_is_dried(
    tmp_path: Path,
) -> None:
    """Berries are a snack out of one dryer; those of the other look the same in the pack."""
    meal = pot(stew_meat="20 g freeze-dryer", berry="20 g freeze-dryer")
    for days, runs in (((POT, BERRIES), 2), ((POT,), 1)):
        plan = plan_of(tmp_path / str(runs), trip_of(*days), recipes=[meal])
        assert len([run for run in plan.runs if run.method == "freeze-dryer"]) == runs


def test_raw_meat_is_freeze_dried_alone(tmp_path: Path) -> None:
    raw = pot(steak_raw="20 g freeze-dryer", leaf="20 g freeze-dryer")
    assert len(plan_of(tmp_path, trip_of(POT), recipes=[raw]).runs) == 2
    cooked = pot(stew_meat="20 g freeze-dryer", leaf="20 g freeze-dryer")
    assert len(plan_of(tmp_path / "b", trip_of(POT), recipes=[cooked]).runs) == 1


def test_more_than_a_load_is_split(tmp_path: Path) -> None:
    # 500 g dried leaf: 525 g of 4725 g fresh, and the dryer takes 3 kg.
    plan = plan_of(tmp_path, trip_of(POT), recipes=[pot(leaf="500 g dehydrator")])
    assert sum(each.load_g for each in plan.runs) == pytest.approx(4725)
    assert len(plan.runs) == 2
    assert sum(dried_for(plan, "hand").values()) == pytest.approx(500)


def test_the_trays_hold_no_more_than_nine_kilograms_a_square_metre(tmp_path: Path) -> None:
    meal = pot(leaf="200 g dehydrator")  # 1890 g fresh
    wide = replace(SHELF, trays_cm2=2101.0)  # 1890.9 g
    narrow = replace(SHELF, trays_cm2=2099.0)
    for dryer, runs in ((wide, 1), (narrow, 2)):
        plan = plan_of(
            tmp_path / dryer.id / str(runs), trip_of(POT), recipes=[meal], dryers=(dryer,)
        )
        assert len(plan.runs) == runs


# -- what cannot be done --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("amounts", "says"),
    [
        ({"egg_cooked": "20 g dehydrator"}, "egg and dairy are not planned by heat"),
        ({"stew_meat": "20 g sun"}, "do not dry safely in the sun"),
        ({"leaf": "20 g oven"}, "no oven is listed at home"),
    ],
)
def test_what_is_never_planned_says_why(tmp_path: Path, amounts: dict[str, str], says: str) -> None:
    plan = plan_of(tmp_path, trip_of(POT), recipes=[pot(**amounts)])
    assert plan.runs == () and says in plan.impossible[0]


@pytest.mark.parametrize(("to_c", "possible"), [(52.0, True), (51.9, False)])
def test_a_dryer_must_be_as_warm_as_the_food_takes(
    tmp_path: Path, to_c: float, possible: bool
) -> None:
    dryer = replace(SHELF, to_c=to_c)
    plan = plan_of(tmp_path, trip_of(POT), recipes=[LEAF], dryers=(dryer,))
    assert bool(plan.runs) is possible
    assert possible or "takes air of 52\u00a0°C to 60\u00a0°C" in plan.impossible[0]


def test_two_more_evenings_or_so_much_less_would_do(tmp_path: Path) -> None:
    # One Sunday for two loads of 3 kg: 3 kg of 4.7 kg can be dried.
    plan = plan_of(
        tmp_path,
        trip_of(POT, start=datetime.date(2031, 6, 7)),
        home_free(sun=(8, 21)),
        recipes=[pot(leaf="500 g dehydrator")],
    )
    assert sum(each.load_g for each in plan.runs) == pytest.approx(3000)
    (says,) = plan.impossible
    assert "leaf for hand: 1.8\u00a0kg fresh" in says
    assert "more free evening" in says and "1.8\u00a0kg less would do." in says


def test_where_no_evening_helps_a_day_does(tmp_path: Path) -> None:
    # Thirty hours from an evening end in the night, and the next evening comes too late.
    plan = plan_of(
        tmp_path,
        trip_of(POT),
        home_free(**dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), (17, 22))),
        recipes=[pot(leaf="50 g freeze-dryer")],
    )
    assert plan.runs == ()
    assert "1 more free day would do, such as " in plan.impossible[0]


def test_a_deadline_that_has_passed_is_told(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, trip_of(BERRIES, start=datetime.date(2031, 6, 5)))
    assert "had to be out of the dryer by Thu 29 May 2031" in plan.impossible[0]


# -- any household --------------------------------------------------------------------------------

ANY_FOOD = ("leaf", "pulse", "gourd", "stew-meat", "steak-raw", "trout-cooked", "berry", "mint")
SLOW = [HealthCheck.too_slow, HealthCheck.function_scoped_fixture]


@settings(max_examples=8, deadline=None, suppress_health_check=SLOW)
@given(st.data())
def test_every_rule_holds_in_any_household(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    foods = data.draw(st.lists(st.sampled_from(ANY_FOOD), min_size=2, max_size=5, unique=True))
    amounts = {
        name.replace("-", "_"): f"{data.draw(st.integers(2, 25)) * 10} g "
        f"{data.draw(st.sampled_from(['dehydrator', 'freeze-dryer']))}"
        for name in foods
    }
    meals = data.draw(st.lists(st.sampled_from([POT, BERRIES]), min_size=1, max_size=4))
    hours = st.sampled_from([(7, 22), (17, 22), (8, 12)])
    days = data.draw(
        st.lists(st.sampled_from(["mon", "wed", "fri", "sat", "sun"]), min_size=1, unique=True)
    )
    home = home_free(**{each: data.draw(hours) for each in days})
    start = AT + datetime.timedelta(days=data.draw(st.integers(8, 25)))
    more = replace(SHELF, id="other", load_g=1500.0, hours=8.0)
    dryers = data.draw(st.sampled_from([(SHELF, FREEZE), (SHELF, more, FREEZE)]))
    content = content_of(
        tmp_path_factory.mktemp("home"),
        trip_of(*meals, start=start),
        home,
        *dryers,
        recipes=[pot(**amounts)],
    )
    plan, _ = planned(content)
    assert broken(plan, content) == []


# -- before and after -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("more", "amounts", "says"),
    [
        ({"dry_as": "carrot"}, {"root": "60 g dehydrator"},
         "Blanch root: 3 to 4 min in steam, or 3 to 3.5 min in boiling water"),
        ({"dry_as": "sweetcorn"}, {"root": "60 g dehydrator"}, "Blanch root: 3 min in steam"),
        ({"dry_as": "onion"}, {"root": "60 g dehydrator"}, ""),
        ({}, {"root": "60 g dehydrator"}, ""),
        ({}, {"steak_raw": "60 g dehydrator"},
         "Heat steak-raw to 72\u00a0°C all through before it goes in"),
        ({}, {"hen_raw": "60 g dehydrator"},
         "Heat hen-raw to 74\u00a0°C all through before it goes in"),
    ],
)  # fmt: skip
def test_what_goes_before_a_run_is_told(
    tmp_path: Path, more: Record, amounts: dict[str, str], says: str
) -> None:
    root = food("root", "vegetable", "raw", "water 88 g, carbohydrate 10 g", **more)
    (run,) = plan_of(tmp_path, trip_of(POT), recipes=[pot(**amounts)], foods=[root]).runs
    told = [each.says for each in run.steps if each.do in ("heat", "blanch")]
    assert told == ([says] if says else [])


def test_a_whole_meal_that_trips_eat_dried_is_planned_as_one(tmp_path: Path) -> None:
    stew = {**pot(pulse="100 g", leaf="100 g"), "id": "stew"}
    eats = {
        **pot(),
        "uses": [{"id": "stew", "recipe": "stew", "amount": "150 g", "dried_by": "dehydrator"}],
        "steps": [{"do": "boil", "with": ["stew"], "water": "400 ml"}],
    }
    (run,) = plan_of(tmp_path, trip_of(POT), recipes=[stew, eats]).runs
    (part,) = run.parts
    assert (part.is_recipe, part.holds) == (True, "stew")
    assert part.data()["recipe"] == "stew" and "food" not in part.data()
    assert part.dried_g == pytest.approx(157.5)


# -- where the search ends before it has seen all -------------------------------------------------


@pytest.mark.parametrize(
    ("left_open", "says"),
    [
        ({}, []),
        ({"later_h": 0.9}, []),
        ({"later_h": 5.0}, ["let them begin up to 5 h later on average"]),
        ({"later_h": 500.0}, ["there may be a better plan"]),
        ({"more_spare": 1, "later_h": 5.0}, ["1 more may have a day to spare"]),
        ({"fewer_runs": 2, "more_spare": 1}, ["every rule is kept, but 2 runs fewer may do"]),
    ],
)
def test_a_plan_says_how_much_better_another_may_be(
    tmp_path: Path, left_open: dict[str, Any], says: list[str]
) -> None:
    def search(task: Task) -> Answer:
        return replace(pack(task), **left_open)

    plan = plan_of(tmp_path, trip_of(POT), search=search, recipes=[LEAF])
    assert len(plan.remarks) == len(says)
    assert all(words in told for words, told in zip(says, plan.remarks, strict=True))


def test_a_search_that_found_none_in_time_says_that_there_may_be_one(
    tmp_path: Path,
) -> None:
    def search(task: Task) -> Answer:
        return Answer(None, is_sure=False)

    plan = plan_of(tmp_path, trip_of(POT), search=search, recipes=[LEAF])
    # The look for the least that must be left out finds a plan for all of it.
    assert len(plan.runs) == 1 and plan.impossible == ()
    assert "there may be a better plan" in plan.remarks[0]
