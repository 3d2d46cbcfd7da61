"""The home as of a day, worked out by hand: what to do, to buy, to fill, to write on labels."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from builder.formulas.safety import POULTRY_CENTRE_C
from builder.model.content import Content
from builder.model.home import Home
from builder.planning.home import HomePlan, day_of, has_home, plan_home
from builder.planning.runs import DryingPlan, Meal, Part, Run
from builder.planning.year import PackLabel, Purchase, Task, purchases
from builder.record import replace
from tests.planning.folders import Hand, Record, day, day_trip, hand, uses

DAY = datetime.date(2031, 5, 10)


def dried(food: str, name: str, **more: Any) -> Record:
    """Give a batch of four packs, dried to a fifth; `None` takes a key off."""
    told = {
        "id": name,
        "food": food,
        "method": "dehydrator",
        "done": "2031-05-01",
        "fresh": "2000 g",
        "dried": "400 g",
        "packs": {"count": 4, "in": "foil"},
        "kept_at": "15.6 degC",
        **more,
    }
    return {key: value for key, value in told.items() if value is not None}


def told_more(read: Hand, **foods: Record) -> Content:
    """Give the content with more told of some foods than its files tell."""
    changed = {
        name.replace("_", "-"): replace(read.content.foods[name.replace("_", "-")], **more)
        for name, more in foods.items()
    }
    return replace(read.content, foods={**read.content.foods, **changed})


def plan(read: Hand, at: datetime.date = DAY, content: Content | None = None) -> HomePlan:
    kits = [read.kit(name) for name in sorted(read.content.trips)]
    return plan_home(content or read.content, read.stock, kits, at)


def bought(planned: HomePlan, food: str) -> Purchase:
    (found,) = (each for each in planned.shopping if each.food == food)
    return found


# -- the day, and whether there is a home ---------------------------------------------------------


@pytest.mark.parametrize(
    ("today", "told"),
    [("2031-04-30", "2031-05-01"), ("2031-05-01", "2031-05-01"), ("2031-05-02", "2031-05-02")],
)
def test_the_day_is_today_or_the_last_entry_of_the_log(
    today: str, told: str, tmp_path: Path
) -> None:
    read = hand(tmp_path, batches=[dried("berry", "rings")])
    at = day_of(read.content, datetime.date.fromisoformat(today))
    assert at == datetime.date.fromisoformat(told)


def test_a_planned_batch_does_not_move_the_day(tmp_path: Path) -> None:
    read = hand(
        tmp_path, batches=[dried("berry", "rings", done=None, dried=None, planned="2031-07-01")]
    )
    assert day_of(read.content, DAY) == DAY


def test_a_folder_without_log_and_home_file_has_no_home(tmp_path: Path) -> None:
    read = hand(tmp_path)
    assert not has_home(read.content)
    assert has_home(replace(read.content, home=Home(is_told=True)))
    assert has_home(hand(tmp_path / "log", batches=[dried("berry", "rings")]).content)


# -- shopping -------------------------------------------------------------------------------------


def soup(name: str, **amounts: str) -> Record:
    return {
        "id": name,
        "meal": ["dinner"],
        "serves": 1,
        "cook_in": "pot",
        "uses": uses(**amounts),
        "steps": [{"do": "boil", "with": list(amounts), "water": "300 ml"}],
    }


def two_trips(tmp_path: Path) -> Hand:
    """Give two trips of two: 2 × 75 g kernel each, and 30 g oil on the first alone."""
    dinner = {"dinner": [{"cook": "soup"}]}
    return hand(
        tmp_path,
        trip=day_trip(days=[day({**dinner, "snacks": [{"eat": "oil", "each": "15 g"}]})]),
        more_trips={"later": day_trip(days=[day(dinner)], start="2031-08-01")},
        recipes=[soup("soup", kernel="75 g")],
    )


def test_what_all_trips_ahead_need_is_bought_together(tmp_path: Path) -> None:
    kernel = bought(plan(two_trips(tmp_path)), "kernel")
    assert kernel.needed_g == pytest.approx(300)  # 2 trips of 2 × 75 g
    assert kernel.buy_g == pytest.approx(300)
    assert kernel.trips == ("hand", "later")
    assert kernel.needed_on == datetime.date(2031, 6, 1)  # the first trip's start
    assert bought(plan(two_trips(tmp_path)), "oil").needed_g == pytest.approx(30)


def test_a_trip_that_is_over_buys_nothing(tmp_path: Path) -> None:
    read = two_trips(tmp_path)
    on_its_day = plan(read, datetime.date(2031, 6, 1))
    day_after = plan(read, datetime.date(2031, 6, 2))
    assert bought(on_its_day, "kernel").trips == ("hand", "later")
    assert bought(day_after, "kernel").trips == ("later",)
    assert bought(day_after, "kernel").needed_g == pytest.approx(150)
    assert [each.trip for each in day_after.trips] == ["later"]


@pytest.mark.parametrize(
    ("refuse_share", "packet_g", "buy_g", "packets"),
    [
        (None, None, 300, 0),
        (0.25, None, 400, 0),  # 300 / 0.75
        (None, 150, 300, 2),  # just two packets
        (None, 149, 447, 3),  # 2 × 149 = 298 is too little
        (0.25, 250, 500, 2),  # 400 g with peel: two of 250 g
    ],
)
def test_refuse_and_packets_make_it_more(
    refuse_share: float | None, packet_g: float | None, buy_g: float, packets: int, tmp_path: Path
) -> None:
    read = two_trips(tmp_path)
    more = {"refuse_share": refuse_share, "sold_in_g": packet_g, "shelf": "dry goods"}
    kernel = bought(plan(read, content=told_more(read, kernel=more)), "kernel")
    assert kernel.buy_g == pytest.approx(buy_g)
    assert kernel.packets == packets
    assert kernel.shelf == "dry goods"


def test_foods_with_a_shelf_come_first_in_the_order_of_shelves(tmp_path: Path) -> None:
    read = two_trips(tmp_path)
    content = told_more(read, oil={"shelf": "oils"})
    assert [each.food for each in plan(read, content=content).shopping] == ["oil", "kernel"]


def test_a_planned_batch_that_two_trips_eat_of_is_bought_for_once(tmp_path: Path) -> None:
    eats = {"snacks": [{"eat": "berry", "from": "rings", "each": "25 g"}]}
    read = hand(
        tmp_path,
        trip=day_trip(days=[day(eats)]),
        more_trips={"later": day_trip(days=[day(eats)], start="2031-08-01")},
        batches=[dried("berry", "rings", done=None, dried=None, planned="2031-05-12")],
    )
    berry = bought(plan(read), "berry")
    assert berry.needed_g == pytest.approx(2000)  # the load once, not for each trip
    assert berry.to_dry
    assert berry.needed_on == datetime.date(2031, 5, 12)  # the day it is dried
    assert berry.trips == ("hand", "later")


# -- what waits for a hand ------------------------------------------------------------------------


def doing(planned: HomePlan) -> list[tuple[str, str]]:
    return [(task.do, task.batch) for task in planned.tasks]


@pytest.mark.parametrize(
    ("at", "told"),
    [("2031-05-01", True), ("2031-05-08", True), ("2031-05-09", False)],  # seven days in the jar
)
def test_heat_dried_fruit_is_conditioned_for_a_week(at: str, told: bool, tmp_path: Path) -> None:
    read = hand(tmp_path, batches=[dried("berry", "rings")])
    planned = plan(read, datetime.date.fromisoformat(at))
    assert (("condition", "rings") in doing(planned)) is told


@pytest.mark.parametrize(
    "batch",
    [
        dried("leaf", "leaves", dried="210 g"),
        dried("berry", "rings", method="freeze-dryer", dried="402 g"),
    ],
    ids=["vegetable", "freeze-dried"],
)
def test_nothing_else_is_conditioned(batch: Record, tmp_path: Path) -> None:
    read = hand(tmp_path, batches=[batch])
    assert "condition" not in dict(doing(plan(read, datetime.date(2031, 5, 2))))


@pytest.mark.parametrize(("planned_for", "told"), [("2031-05-17", True), ("2031-05-18", False)])
def test_what_is_planned_within_a_week_is_to_be_dried(
    planned_for: str, told: bool, tmp_path: Path
) -> None:
    read = hand(
        tmp_path,
        batches=[dried("berry", "rings", done=None, dried=None, planned=planned_for)],
    )
    assert (("dry", "rings") in doing(plan(read))) is told


def test_a_failed_batch_says_its_act_and_is_not_among_what_is_eaten_first(tmp_path: Path) -> None:
    read = hand(tmp_path, batches=[dried("stew-meat", "wet-meat", fresh="1000 g", dried="700 g")])
    (task,) = plan(read).tasks
    assert (task.do, task.act) == ("throw-out", "Throw it out.")


def eat_first(read: Hand, at: str) -> list[Task]:
    planned = plan(read, datetime.date.fromisoformat(at))
    return [task for task in planned.tasks if task.do == "eat-first"]


def test_what_expires_within_three_months_is_eaten_first(tmp_path: Path) -> None:
    # Fruit keeps twelve months at 15.6 °C: until 2032-05-01.
    read = hand(tmp_path, batches=[dried("berry", "rings", tests=["constant"])])
    assert eat_first(read, "2032-01-29") == []  # 93 days before
    assert [task.packs for task in eat_first(read, "2032-01-30")] == [4]  # 92 days
    assert [task.packs for task in eat_first(read, "2032-05-01")] == [4]
    assert eat_first(read, "2032-05-02") == []
    assert doing(plan(read, datetime.date(2032, 5, 2))) == [("past", "rings")]


# -- bags and labels ------------------------------------------------------------------------------


def test_bags_tell_packs_and_weights_by_day_and_meal(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        trip=day_trip(
            days=[
                day(
                    {
                        "dinner": [{"cook": "soup", "from": {"berry": "rings"}}],
                        "snacks": [{"eat": "kernel-nut", "each": "40 g"}],
                    }
                )
            ]
        ),
        recipes=[soup("soup", berry="60 g dehydrator", kernel="50 g")],
        batches=[dried("berry", "rings")],
    )
    (bags,) = plan(read).bagging
    assert [(each.day, each.meal) for each in bags.meals] == [(1, "dinner"), (1, "snacks")]
    # Two eat: 2 × 60 g of berries are two packs of 100 g.
    assert [(bag.batch, bag.packs) for bag in bags.meals[0].bags] == [("rings", 2), (None, 0)]
    assert [bag.mass_g for bag in bags.meals[0].bags] == pytest.approx([120, 100])
    assert [bag.mass_g for bag in bags.meals[1].bags] == [pytest.approx(80)]


def label(read: Hand, name: str) -> PackLabel:
    (found,) = (each for each in plan(read).labels if each.batch == name)
    return found


def test_a_label_tells_weight_dates_and_water(tmp_path: Path) -> None:
    read = hand(tmp_path, batches=[dried("leaf", "leaves", dried="220 g", used=1)])
    told = label(read, "leaves")
    assert told.packs == 3
    assert told.pack_g == pytest.approx(55)
    assert told.made_on == datetime.date(2031, 5, 1)
    # Vegetables: six months at 15.6 °C.
    assert told.best_before == datetime.date(2031, 11, 1)
    # A pack of 55 g was 500 g fresh: it lost 445 ml, takes up 0.6 of it, and is given a quarter
    # more: 445 × 0.75.
    assert told.water_ml == pytest.approx(333.75)
    assert told.soak.cold_min == (30, 120)
    assert told.soak.hot_min == (30, 90)


def test_what_nobody_told_is_not_told_on_the_label(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        foods=[
            {
                "id": "sweet-leaf",
                "name": "Sweet leaf",
                "kind": "vegetable",
                "state": "raw",
                "per_100g": {"water": "90 g", "carbohydrate": "9 g"},
                "allergens": ["celery"],
                "may_contain": ["nuts"],
            },
        ],
        batches=[dried("leaf", "plain", dried="220 g"), dried("sweet-leaf", "told", dried="220 g")],
    )
    assert label(read, "plain").not_told == ("leaf",)
    assert label(read, "told").not_told == ()
    assert label(read, "told").allergens == ("celery",)
    assert label(read, "told").may_contain == ("nuts",)


def test_raw_meat_is_raw_on_the_label_and_tells_how_hot(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        batches=[dried("hen-raw", "hen", method="freeze-dryer", fresh="1000 g", dried="270 g")],
    )
    told = label(read, "hen")
    assert told.is_raw
    assert told.reach_c == POULTRY_CENTRE_C


def test_meat_past_its_date_is_thrown_out_and_gets_no_label(tmp_path: Path) -> None:
    old = dried("lean-meat", "old", done="2030-01-01", dried="340 g")
    told = label(hand(tmp_path, batches=[old]), "old")
    assert told.failed
    assert told.act == "Throw it out."


def test_what_is_not_made_or_eaten_up_has_no_label(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        batches=[
            dried("berry", "planned", done=None, dried=None, planned="2031-07-01"),
            dried("berry", "eaten", used=4),
            dried("berry", "drying", done=None, dried=None, started="2031-05-10T08:00"),
            dried("berry", "here"),
        ],
    )
    assert [each.batch for each in plan(read).labels] == ["here"]


# -- shopping for runs ----------------------------------------------------------------------------


def in_a_run(part: Part, start: str = "2031-05-20T09:00") -> DryingPlan:
    begin = datetime.datetime.fromisoformat(start)
    end = begin + datetime.timedelta(hours=10)
    return DryingPlan((Run("r", "d", "Dryer", part.method, begin, end, end, (part,)),))


def leaves_for_both(tmp_path: Path) -> Hand:
    """Give two trips that want 2 × 30 g dried leaf each, which no batch is named for."""
    dinner = {"dinner": [{"cook": "soup"}]}
    return hand(
        tmp_path,
        trip=day_trip(days=[day(dinner)]),
        more_trips={"later": day_trip(days=[day(dinner)], start="2031-08-01")},
        recipes=[soup("soup", leaf="30 g dehydrator")],
    )


def test_what_a_run_is_planned_for_is_bought_by_its_weight_and_day(tmp_path: Path) -> None:
    read = leaves_for_both(tmp_path)
    kits = [read.kit(name) for name in ("hand", "later")]
    meal = Meal("hand", 1, "dinner", 60.0, datetime.date(2031, 6, 1))
    part = Part("leaf", False, "leaf", "dehydrator", 570.0, 63.0, (meal,), 1, None)
    (leaf,) = purchases(kits, read.content, in_a_run(part))
    # The run's 570 g for the first trip; the second still by the table: 60 g × 0.9 / 0.1.
    assert leaf.needed_g == pytest.approx(570 + 540)
    assert leaf.needed_on == datetime.date(2031, 5, 20)
    assert leaf.trips == ("hand", "later")
    assert leaf.to_dry


def test_a_load_of_the_log_is_bought_by_the_log(tmp_path: Path) -> None:
    read = leaves_for_both(tmp_path)
    kits = [read.kit(name) for name in ("hand", "later")]
    part = Part("leaf", False, "leaf", "dehydrator", 570.0, 63.0, (), 1, None, batch="told")
    (leaf,) = purchases(kits, read.content, in_a_run(part))
    assert leaf.needed_g == pytest.approx(2 * 540)


@pytest.mark.parametrize(
    ("told", "needed_g", "on", "trips"),
    [
        # Planned: the whole load, on its day; the second trip by the table, 60 g × 0.9 / 0.1.
        ({"planned": "2031-05-20"}, 1000 + 540, "2031-05-20", ("hand", "later")),
        # In the dryer: bought already, so only what the second trip wants.
        ({"started": "2031-05-10T08:00"}, 540, "2031-08-01", ("later",)),
    ],
)
def test_what_the_log_will_give_a_trip_is_bought_as_the_log_has_it(
    told: Record, needed_g: float, on: str, trips: tuple[str, ...], tmp_path: Path
) -> None:
    dinner = {"dinner": [{"cook": "soup"}]}
    load = dried(
        "leaf",
        "load",
        done=None,
        dried=None,
        fresh="1000 g",
        packs={"count": 1, "in": "foil"},
        **told,
    )
    read = hand(
        tmp_path,
        trip=day_trip(days=[day(dinner)]),
        more_trips={"later": day_trip(days=[day(dinner)], start="2031-08-01")},
        recipes=[soup("soup", leaf="30 g dehydrator")],
        batches=[load],
    )
    whole = plan(read)
    # What is in the dryer is no longer to be dried for the trip that it covers.
    still = {each.trip: each.to_dry for each in whole.trips}
    assert still == {"hand": "planned" in told, "later": 1}
    leaf = bought(whole, "leaf")
    assert leaf.needed_g == pytest.approx(needed_g)
    assert leaf.needed_on == datetime.date.fromisoformat(on)
    assert leaf.trips == trips
    # The trip's own list says the same: 30 g for each of two come out of the load.
    own, later = (read.kit(name) for name in ("hand", "later"))
    (coming,) = own.coming
    assert (coming.batch, coming.mass_g, coming.in_dryer) == ("load", 60, "started" in told)
    of_load = [(each.batch, float(each.mass_g)) for each in own.shopping if each.food == "leaf"]
    assert of_load == ([("load", 1000)] if "planned" in told else [])
    assert later.coming == ()
    assert [float(each.mass_g) for each in later.shopping] == [pytest.approx(540)]


def test_a_trip_lists_the_rest_of_what_a_load_gives_a_part_of(tmp_path: Path) -> None:
    # 20 g of the load for the first day; the second day's 60 g ask for more than is left of it.
    load = dried(
        "leaf",
        "load",
        done=None,
        dried=None,
        fresh="800 g",
        packs={"count": 1, "in": "foil"},
        started="2031-05-10T08:00",
    )
    read = hand(
        tmp_path,
        trip=day_trip(days=[day({"dinner": [{"cook": "soup"}]})]),
        recipes=[soup("soup", leaf="60 g dehydrator")],
        batches=[load],
    )
    kit = read.kit()
    (coming,) = kit.coming
    # 800 g at nine parts of water give 80 g of solids, and 88.9 g with a tenth of water.
    assert coming.mass_g == pytest.approx(80 / 0.9)
    (line,) = kit.shopping
    assert line.dried_g == pytest.approx(120 - 80 / 0.9)
    assert line.mass_g == pytest.approx((120 - 80 / 0.9) * 9)


def test_a_whole_meal_to_dry_is_bought_by_its_ingredients(tmp_path: Path) -> None:
    read = hand(tmp_path, recipes=[soup("soup", kernel="75 g", oil="25 g")])
    meal = Meal("hand", 1, "dinner", 200.0, datetime.date(2031, 6, 1))
    part = Part("soup", True, "soup", "dehydrator", 800.0, 200.0, (meal,), 2, None)
    bought_for = purchases([read.kit()], read.content, in_a_run(part))
    found = {each.food: each.needed_g for each in bought_for if each.to_dry}
    # A pot of 75 g kernel, 25 g oil and 300 ml water is 400 g: 800 g is two of them.
    assert found == pytest.approx({"kernel": 150, "oil": 50})


def test_a_run_for_another_trip_is_not_bought_for_this_one(tmp_path: Path) -> None:
    read = leaves_for_both(tmp_path)
    meal = Meal("hand", 1, "dinner", 60.0, datetime.date(2031, 6, 1))
    run = in_a_run(Part("leaf", False, "leaf", "dehydrator", 570.0, 63.0, (meal,), 1, None))
    (own,) = purchases([read.kit("hand")], read.content, run)
    (other,) = purchases([read.kit("later")], read.content, run)
    assert own.needed_g == pytest.approx(570)
    assert other.needed_g == pytest.approx(540)


def test_the_next_trips_have_lists_and_bags_of_their_own(tmp_path: Path) -> None:
    trips = {f"trip-{n}": day_trip(start=f"2031-07-0{n}") for n in range(1, 6)}
    read = hand(tmp_path, more_trips=trips)
    planned = plan(read)
    names = ["hand", "trip-1", "trip-2", "trip-3"]
    assert [each.trip for each in planned.trip_shopping] == names
    assert [each.trip for each in planned.bagging] == names
    assert planned.later_trips == 2
    assert len(planned.trips) == 6
    assert bought(planned, "kernel-nut").needed_g == pytest.approx(6 * 2 * 50)
    assert planned.trip_shopping[0].shopping[0].needed_g == pytest.approx(2 * 50)


# -- what to take off the shelf -------------------------------------------------------------------


def done_with(read: Hand, at: str) -> dict[str, str]:
    """Give what is to be done with each batch on a day."""
    planned = plan(read, datetime.date.fromisoformat(at))
    return {task.batch: task.do for task in planned.tasks}


@pytest.mark.parametrize(
    ("batch", "at", "do"),
    [
        # Vegetables keep six months at 15.6 °C, cooked meat one.
        ({"food": "leaf", "dried": "210 g"}, "2031-11-01", "eat-first"),
        ({"food": "leaf", "dried": "210 g"}, "2031-11-02", "past"),
        ({"food": "lean-meat", "dried": "650 g"}, "2031-06-01", "eat-first"),
        ({"food": "lean-meat", "dried": "650 g"}, "2031-06-02", "throw-out"),
        ({"food": "leaf", "dried": "400 g"}, "2031-05-03", "act"),  # wet: dry it on today
        ({"food": "leaf", "dried": "400 g"}, "2031-05-04", "throw-out"),
        ({"food": "leaf", "dried": "222 g"}, "2031-05-04", "act"),  # undecided: test it
        ({"food": "hen-raw", "method": "freeze-dryer", "dried": "530 g", "tests": ["constant"]},
         "2031-05-02", None),  # to be cooked through: nothing to do at home
    ],
)  # fmt: skip
def test_what_lies_on_the_shelf_is_thrown_out_looked_at_or_seen_to(
    batch: Record, at: str, do: str | None, tmp_path: Path
) -> None:
    read = hand(
        tmp_path,
        batches=[{**dried("leaf", "one"), "tests": ["snap"], **batch}]
        if do != "act"
        else [{**dried("leaf", "one"), **batch}],
    )
    assert done_with(read, at).get("one") == do


def test_what_is_eaten_up_is_not_to_be_thrown_out(tmp_path: Path) -> None:
    read = hand(tmp_path, batches=[dried("lean-meat", "one", dried="650 g", used=4)])
    assert done_with(read, "2031-06-02") == {}
