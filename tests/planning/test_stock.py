"""The shelf on a day, what trips promise of it, and promises that cannot be kept."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from builder.pages.trip.book import write_book
from builder.planning.public import public_kit
from builder.planning.stock import stock_lines
from builder.planning.stock.shelf import StockLine
from tests.pages.conftest import TEMPLATES
from tests.planning.folders import Hand, Record, batch_of, day, day_trip, hand, uses


def berries(name: str = "rings", count: int = 12, **more: Any) -> Record:
    """Give dried berries, 480 g in all: 40 g a pack where there are twelve."""
    told = {
        "id": name,
        "food": "berry",
        "method": "dehydrator",
        "done": "2031-05-01",
        "fresh": "2000 g",
        "dried": "480 g",
        "packs": {"count": count, "in": "foil"},
        **more,
    }
    return {key: value for key, value in told.items() if value is not None}


def eats(each: str, start: str | None = "2031-06-01", days: int = 1, **more: Any) -> Record:
    """Give a trip of two who eat berries of the batch on every day."""
    eat = {"snacks": [{"eat": "berry", "from": "rings", "each": each}]}
    return day_trip(days=[day(eat) for _ in range(days)], start=start, **more)


def on(read: Hand, at: str, name: str = "rings") -> StockLine:
    """Give the line of a batch on a day."""
    lines = stock_lines(read.stock, datetime.date.fromisoformat(at))
    return next(line for line in lines if line.batch == name)


@pytest.mark.parametrize(
    ("told", "is_told"),
    [
        ({}, False),
        ({"kept_at": "20 degC"}, True),
        ({"kept_at": [{"at": "22 degC", "until": "2031-05-20"}, {"at": "15 degC"}]}, True),
    ],
)
def test_whether_somebody_told_how_warm_it_is_kept(
    told: Record, is_told: bool, tmp_path: Path
) -> None:
    read = hand(tmp_path, eats("40 g"), batches=[{**berries(), **told}])
    assert on(read, "2031-05-31").kept_at_told is is_told


# -- the stock of a day ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("at", "left", "promised"),
    [
        ("2031-05-31", 10, 6),  # both trips are ahead: 2 days of 2 packs, and 2 packs
        ("2031-06-02", 10, 6),  # the last day of the first trip: it is not over
        ("2031-06-03", 6, 2),  # the day after: its 4 packs are eaten
        ("2031-07-01", 6, 2),
        ("2031-07-02", 4, 0),
    ],
)
def test_trips_over_by_then_have_eaten_and_later_ones_are_promised(
    at: str, left: int, promised: int, tmp_path: Path
) -> None:
    read = hand(
        tmp_path,
        eats("40 g", days=2),
        batches=[berries(used=2)],
        more_trips={"july": eats("40 g", "2031-07-01")},
    )
    line = on(read, at)
    assert (line.packs_left, line.packs_promised, line.packs_free) == (left, promised, 4)


def test_dishes_of_one_meal_are_promised_together(tmp_path: Path) -> None:
    trip = eats("50 g")
    (snack,) = trip["days"][0]["meals"]["snacks"]
    trip["days"][0]["meals"]["snacks"] = [{**snack, "for": [name]} for name in ("Ea", "Bo")]
    line = on(hand(tmp_path, trip, batches=[berries()]), "2031-05-25")
    (taking,) = line.promised_to
    assert taking.packs == line.packs_promised > 1


def test_a_line_tells_each_meal_that_packs_are_promised_to(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        eats("50 g", days=2),  # 100 g are 3 packs
        batches=[berries(packs={"count": 12, "in": "foil", "shelf": "cellar"})],
        more_trips={"april": eats("40 g", "2031-05-20")},
    )
    told = on(read, "2031-05-25").data()
    assert told == {
        "batch": "rings",
        "food": "berry",
        "name": told["name"],
        "kind": "fruit",
        "method": "dehydrator",
        "verdict": told["verdict"],
        "act": told["act"],
        "because": "",
        "packs_left": 10,
        "packs_promised": 6,
        "packs_free": 4,
        "pack_g": 40.0,
        "best_before": told["best_before"],
        "kept_at_told": told["kept_at_told"],
        "promised_to": [
            {"trip": "hand", "day": 1, "meal": "snacks", "packs": 3},
            {"trip": "hand", "day": 2, "meal": "snacks", "packs": 3},
        ],
        "remark": "",
        "shelf": "cellar",
    }


def test_lines_of_one_meal_share_the_packs_of_a_batch(tmp_path: Path) -> None:
    recipe = {
        "id": "mash", "serves": 1, "cook_in": "none",
        "uses": [{"id": "one", "food": "berry", "amount": "10 g", "dried_by": "dehydrator"},
                 {"id": "two", "food": "berry", "amount": "10 g", "dried_by": "dehydrator"}],
        "steps": [{"do": "soak", "with": ["one", "two"], "water": "90 ml", "minutes": 20}],
    }  # fmt: skip
    cook = {"snacks": [{"cook": "mash", "from": {"one": "rings", "two": "rings"}}]}
    read = hand(tmp_path, day_trip(days=[day(cook), day(cook)]), [recipe], [berries()])
    # 40 g a meal are one pack; two meals open one each.
    assert [each.packs for each in on(read, "2031-05-31").promised_to] == [1, 1]
    assert batch_of(read.kit(), "rings").packs_used == 2


def test_a_trip_without_a_date_is_never_over(tmp_path: Path) -> None:
    line = on(hand(tmp_path, eats("40 g", None), batches=[berries()]), "2039-01-01")
    assert (line.packs_left, line.packs_promised) == (12, 2)


def test_a_batch_without_packs_left_is_no_line(tmp_path: Path) -> None:
    read = hand(tmp_path, eats("80 g"), batches=[berries(used=8)])
    assert on(read, "2031-06-01").packs_left == 4
    assert stock_lines(read.stock, datetime.date(2031, 6, 2)) == []


@pytest.mark.parametrize(
    ("change", "at", "remark"),
    [
        ({}, "2031-05-01", ""),
        ({}, "2031-04-30", "dried only on 2031-05-01"),
        ({"done": None, "dried": None, "planned": "2031-05-30"}, "2031-05-10",
         "to be dried by 2031-05-30"),
    ],
)  # fmt: skip
def test_what_is_not_dried_by_then_says_when(
    change: Record, at: str, remark: str, tmp_path: Path
) -> None:
    assert on(hand(tmp_path, batches=[berries(**change)]), at).remark == remark


MEAT = {"food": "lean-meat", "dried": "650 g", "kept_at": "15 degC"}


@pytest.mark.parametrize(
    ("record", "at", "remark"),
    [
        # Cooked meat keeps a month at 15 °C, so until 1 June; berries a year.
        (MEAT, "2031-06-01", ""),
        (MEAT, "2031-06-02", "PAST ITS DATE: throw it out"),
        ({}, "2032-05-02", "PAST ITS DATE: smell, look, and when in doubt throw it out"),
    ],
)
def test_what_is_past_its_date_says_what_the_caution_says(
    record: Record, at: str, remark: str, tmp_path: Path
) -> None:
    assert on(hand(tmp_path, batches=[berries(**record)]), at).remark == remark


AIRLESS = {"packs": {"count": 4, "in": "foil", "absorber": True}, "tests": ["constant"]}


@pytest.mark.parametrize(
    ("record", "at", "act"),
    [
        # Once its date is over, dried meat in a pack without oxygen is not frozen any more.
        ({**MEAT, **AIRLESS}, "2031-06-01", "Open it, pack it with air, freeze it."),
        ({**MEAT, **AIRLESS}, "2031-06-02", "Throw it out."),
        ({"tests": ["jar"]}, "2032-05-02", ""),
    ],
)
def test_the_one_thing_to_do_with_old_meat_is_to_throw_it_out(
    record: Record, at: str, act: str, tmp_path: Path
) -> None:
    line = on(hand(tmp_path, batches=[berries(**record)]), at)
    assert (line.act, line.is_waste) == (act, act == "Throw it out.")


def test_a_bought_pack_without_a_date_says_so(tmp_path: Path) -> None:
    bought = {
        "id": "rings",
        "food": "kernel",
        "method": "bought",
        "packs": {"count": 3, "of": "50 g"},
    }
    line = on(hand(tmp_path, batches=[bought]), "2031-05-01")
    assert (line.best_before, line.remark) == (None, "date on the pack not given: read it")


# -- packs that came back -------------------------------------------------------------------------


def came_back(packs: int, batch: str = "rings") -> Record:
    return {"review": {"back": {batch: packs}}}


@pytest.mark.parametrize(
    ("at", "left", "promised", "free"),
    [
        # 12 made, 2 used. The trip takes 4 on 1 and 2 June and brings 1 back; July takes 2.
        ("2031-06-02", 10, 6, 4),  # not over: 4 are promised, none is back
        ("2031-06-03", 7, 2, 5),  # 10 - 4 + 1
        ("2031-07-02", 5, 0, 5),
    ],
)
def test_packs_that_came_back_are_left_and_free_once_the_trip_is_over(
    at: str, left: int, promised: int, free: int, tmp_path: Path
) -> None:
    read = hand(
        tmp_path,
        eats("40 g", days=2, **came_back(1)),
        batches=[berries(used=2)],
        more_trips={"july": eats("40 g", "2031-07-01")},
    )
    assert read.problems == ()
    line = on(read, at)
    assert (line.packs_left, line.packs_promised, line.packs_free) == (left, promised, free)
    assert batch_of(read.kit(), "rings").packs_left == 5
    assert batch_of(read.kit("july"), "rings").packs_left == 5


def test_a_later_trip_may_take_what_came_back(tmp_path: Path) -> None:
    # 4 packs of 120 g: June takes all, July one.
    for back, kinds in ((1, []), (0, ["batch-overdrawn"])):
        read = hand(
            tmp_path,
            eats("240 g", **came_back(back)),
            batches=[berries(count=4)],
            more_trips={"july": eats("40 g", "2031-07-01")},
        )
        assert read.kinds() == kinds


def test_no_trip_takes_what_another_still_has_with_it(tmp_path: Path) -> None:
    # 12 packs: 10 on 1 and 2 June, of which 4 came back. Who leaves on 3 June finds 6.
    for start, kinds in (("2031-06-03", []), ("2031-06-02", ["batch-overdrawn"])):
        read = hand(
            tmp_path,
            eats("100 g", days=2, **came_back(4)),
            batches=[berries()],
            more_trips={"next": eats("120 g", start)},
        )
        assert read.kinds() == kinds
    (problem,) = read.problems
    assert problem.says.startswith(
        "batch rings has 12 packs, and 4 packs came back from hand after 2031-06-02; meals take 16:"
    )


@pytest.mark.parametrize(
    ("back", "says"),
    [
        (4, None),
        (5, "5 packs of batch rings came back, and the meals of hand take 4 of it"),
    ],
)
def test_no_more_can_come_back_than_the_trip_took(
    back: int, says: str | None, tmp_path: Path
) -> None:
    read = hand(tmp_path, eats("80 g", **came_back(back)), batches=[berries()])
    if says is None:
        assert read.problems == ()
        return
    (problem,) = read.problems
    assert (problem.kind, problem.severity, problem.says) == ("back-too-many", "error", says)
    lines = (tmp_path / "trips" / "hand.yaml").read_text(encoding="utf-8").splitlines()
    assert '"rings": 5' in lines[problem.place.line - 1]


def test_what_no_meal_took_cannot_come_back(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        eats("80 g", **came_back(1, "other")),
        batches=[berries(), berries("other", notes="the second")],
    )
    (problem,) = read.problems
    assert problem.says == "1 pack of batch other came back, and the meals of hand take none of it"


def test_nothing_comes_back_from_a_trip_without_a_date(tmp_path: Path) -> None:
    read = hand(tmp_path, eats("80 g", None, **came_back(1)), batches=[berries()])
    line = on(read, "2039-01-01")
    assert (line.packs_left, line.packs_promised) == (12, 4)


# -- promises that cannot be kept -----------------------------------------------------------------


def test_as_many_packs_as_there_are_may_be_promised(tmp_path: Path) -> None:
    read = hand(tmp_path, eats("40 g", days=6), batches=[berries()])
    assert read.problems == ()
    assert batch_of(read.kit(), "rings").packs_left == 0


def test_one_pack_promised_twice_is_told_once_with_every_meal_and_place(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        eats("200 g", days=2),  # 10 packs a day
        batches=[berries()],
        more_trips={"july": eats("40 g", "2031-07-01")},
    )
    (problem,) = read.problems
    assert (problem.kind, problem.severity) == ("batch-overdrawn", "error")
    assert problem.place.file == "content/batches/hand.yaml"
    assert problem.says.startswith("batch rings has 12 packs; meals take 22: hand day 1 snacks 10")
    for said in (
        "hand day 2 snacks 10 (named at content/trips/hand.yaml:",
        "july day 1 snacks 2 (named at content/trips/july.yaml:",
    ):
        assert said in problem.says


def test_meals_that_eat_what_is_left_in_a_pack_are_not_told_as_taking_some(tmp_path: Path) -> None:
    # One pack of 480 g in a bag that reseals: of 200 g a day day 2 eats what day 1 left.
    read = hand(
        tmp_path,
        eats("100 g", days=2),
        batches=[berries(packs={"count": 1, "in": "zip"})],
        more_trips={"july": eats("100 g", "2031-07-01", days=2)},
    )
    (problem,) = read.problems
    assert problem.says.startswith("batch rings has 1 pack; meals take 2: hand day 1 snacks 1")
    assert "day 2" not in problem.says


def test_of_very_many_meals_the_first_are_told_and_the_rest_counted(tmp_path: Path) -> None:
    read = hand(tmp_path, eats("40 g", days=8), batches=[berries()])
    (problem,) = read.problems
    assert problem.says.count("(named at ") == 6
    assert problem.says.endswith("; 2 more meals 4")


@pytest.mark.parametrize(
    ("change", "start", "says"),
    [
        ({"done": "2031-06-01"}, "2031-06-01", None),  # the same day will do
        ({"done": "2031-06-02"}, "2031-06-01", "is done only on 2031-06-02"),
        ({"done": "2031-06-02"}, None, None),
        ({"done": None, "dried": None, "planned": "2031-06-01"}, "2031-06-01", None),
        ({"done": None, "dried": None, "planned": "2031-06-02"}, "2031-06-01",
         "is planned only on 2031-06-02"),
    ],
)  # fmt: skip
def test_a_batch_dried_after_the_trip_began_is_told_with_both_places(
    change: Record, start: str | None, says: str | None, tmp_path: Path
) -> None:
    read = hand(tmp_path, eats("40 g", start, days=2), batches=[berries(**change)])
    if says is None:
        assert read.problems == ()
        return
    (problem,) = read.problems  # once, though both days eat of it
    assert (problem.kind, problem.severity) == ("batch-too-late", "error")
    assert problem.place.file == "content/trips/hand.yaml"
    assert says in problem.says
    assert "content/batches/hand.yaml:" in problem.says


def test_each_trip_that_began_before_is_told(tmp_path: Path) -> None:
    late = berries(done="2031-06-10")
    trips = {"may": eats("40 g", "2031-05-20"), "july": eats("40 g", "2031-07-01")}
    read = hand(tmp_path, eats("40 g"), batches=[late], more_trips=trips)
    assert sorted(each.says.split(" ")[0] for each in read.problems) == ["hand", "may"]


# -- proposals over several trips -----------------------------------------------------------------


def wants(each: str, start: str | None = "2031-06-01", days: int = 1) -> Record:
    """Give a trip of two who eat dried berries of no batch on every day."""
    eat = {"snacks": [{"eat": "berry", "dried_by": "dehydrator", "each": each}]}
    return day_trip(days=[day(eat) for _ in range(days)], start=start)


def offered(read: Hand, trip: str = "hand") -> list[tuple[str, int, float]]:
    kit = read.kit(trip)
    return [(each.batch, each.packs, round(each.mass_g, 6)) for each in kit.proposals]


def test_an_earlier_trip_is_offered_a_pack_first_and_no_pack_twice(tmp_path: Path) -> None:
    # 3 packs of 160 g. The trip in May wants 200 g: 2 packs. One pack is left for June, and
    # of its 200 g 40 g are to be dried: 160 g fresh, for 80 % water become 20 %.
    read = hand(
        tmp_path, wants("100 g"), batches=[berries(count=3)],
        more_trips={"may": wants("100 g", "2031-05-20"), "undated": wants("100 g", None)},
    )  # fmt: skip
    assert offered(read, "may") == [("rings", 2, 200)]
    assert offered(read) == [("rings", 1, 160)]
    assert [line.dried_g for line in read.kit().shopping] == [pytest.approx(40)]
    assert [line.mass_g for line in read.kit().shopping] == [pytest.approx(160)]
    assert offered(read, "undated") == []  # who has no date chooses last
    assert read.kit("may").shopping == ()


def test_packs_that_a_later_trip_names_are_not_offered(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        wants("80 g"),
        batches=[berries(count=3)],
        more_trips={"july": eats("160 g", "2031-07-01")},
    )
    assert offered(read) == [("rings", 1, 160)]  # 2 of 3 packs are July's


def test_each_meal_is_offered_whole_packs(tmp_path: Path) -> None:
    # 5 packs of 96 g; 100 g a day are 2 packs a day, so the third day is offered the last one.
    read = hand(tmp_path, wants("50 g", days=3), batches=[berries(count=5)])
    assert offered(read) == [("rings", 5, 296)]
    assert [line.dried_g for line in read.kit().shopping] == [pytest.approx(4)]


@pytest.mark.parametrize(
    ("days", "packs", "mass_g", "dry_g"),
    [
        (3, 4, 300, []),  # 100 g a day out of packs of 96 g: 2 packs, then 1, then 1
        (5, 5, 480, [20]),  # the fifth day has the 80 g that are left
    ],
)
def test_what_a_resealed_pack_still_holds_is_offered_to_the_next_meals(
    days: int, packs: int, mass_g: float, dry_g: list[float], tmp_path: Path
) -> None:
    zipped = berries(count=5, packs={"count": 5, "in": "zip"})
    read = hand(tmp_path, wants("50 g", days=days), batches=[zipped])
    assert offered(read) == [("rings", packs, mass_g)]
    assert [line.dried_g for line in read.kit().shopping] == pytest.approx(dry_g)


def test_what_one_trip_leaves_in_an_open_pack_is_not_offered_to_the_next(tmp_path: Path) -> None:
    read = hand(
        tmp_path,
        wants("50 g"),
        batches=[berries(count=2, packs={"count": 2, "in": "zip"})],
        more_trips={"may": wants("100 g", "2031-05-20")},
    )
    # 2 packs of 240 g: May opens one for its 200 g, June the other for its 100 g.
    assert offered(read, "may") == [("rings", 1, 200)]
    assert offered(read) == [("rings", 1, 100)]


def test_what_is_offered_fits_each_day_that_eats_it(tmp_path: Path) -> None:
    # 100 g on each of three days, out of packs of 160 g. Those that are good until the first
    # day give that day's; those good until the second give the second's; the third is dried.
    old, newer = (
        berries(count=3, id=f"until-{day}", best_before=f"2031-06-0{day}") for day in (1, 2)
    )
    read = hand(tmp_path, wants("50 g", days=3), batches=[old, newer])
    assert offered(read) == [("until-1", 1, 100), ("until-2", 1, 100)]
    assert [line.dried_g for line in read.kit().shopping] == [pytest.approx(100)]


@pytest.mark.parametrize(
    ("change", "packs"),
    [
        ({"done": "2031-06-01"}, 1),
        ({"done": "2031-06-02"}, 0),  # not dried when the trip begins
        ({"done": None, "dried": None, "planned": "2031-05-30"}, 0),
        ({"best_before": "2031-06-01"}, 1),
        ({"best_before": "2031-05-31"}, 0),
        ({"dried": "600 g"}, 0),  # a third of it is water: not dry
        ({"used": 3}, 0),
        ({"dried": "600 g", "packs": {"count": 3, "in": "foil", "absorber": True}}, 0),
        ({"started": "2031-05-30T18:00", "done": None, "dried": None}, 0),  # in the dryer
    ],
)
def test_only_what_is_dried_in_time_and_still_good_is_offered(
    change: Record, packs: int, tmp_path: Path
) -> None:
    read = hand(tmp_path, wants("40 g"), batches=[berries(count=3, **change)])
    assert sum(each.packs for each in read.kit().proposals) == packs


def test_what_came_back_is_offered_to_trips_that_begin_after_it(tmp_path: Path) -> None:
    # One pack of 40 g, taken in June and brought home; no trip before may have it.
    read = hand(
        tmp_path,
        eats("20 g", **came_back(1)),
        batches=[berries(count=1, fresh="200 g", dried="40 g")],
        more_trips={"same-day": wants("20 g"), "july": wants("20 g", "2031-07-01")},
    )
    assert offered(read, "same-day") == []
    assert offered(read, "july") == [("rings", 1, 40)]


# -- what is still to be dried --------------------------------------------------------------------


def to_dry(**more: Any) -> Record:
    return berries(done=None, dried=None, planned="2031-05-30", **more)


def test_fresh_food_of_a_planned_batch_is_bought_whole_and_in_time(tmp_path: Path) -> None:
    # 2000 g with 80 % water hold 400 g solids: 500 g with 20 % left. Two days eat 160 g of it.
    kit = hand(tmp_path, eats("40 g", days=2), batches=[to_dry()]).kit()
    (line,) = kit.shopping
    assert (line.food, line.name, line.batch, line.dry_by) == (
        "berry",
        "berry",
        "rings",
        "dehydrator",
    )
    assert line.mass_g == 2000
    assert line.dried_g == pytest.approx(500)
    assert line.dry_on == datetime.date(2031, 5, 30)
    assert line.used_in == ("berry, dried",)
    assert (batch_of(kit, "rings").planned, batch_of(kit, "rings").planned_for) == (
        True,
        datetime.date(2031, 5, 30),
    )


def test_what_goes_into_a_planned_meal_is_bought_and_not_the_meal(tmp_path: Path) -> None:
    stew: Record = {
        "id": "stew", "serves": 1, "cook_in": "pot", "uses": uses(pulse="100 g", oil="20 g"),
        "steps": [{"do": "boil", "with": ["pulse", "oil"], "water": "130 ml"}],
        "drain": "50 ml",
    }  # fmt: skip
    eat = {"uses": [{"id": "one", "recipe": "stew", "amount": "50 g", "dried_by": "dehydrator"}],
           "id": "again", "serves": 1, "cook_in": "pot",
           "steps": [{"do": "boil", "with": ["one"], "water": "100 ml"}]}  # fmt: skip
    trip = day_trip(days=[day({"dinner": [{"cook": "again", "from": {"one": "rings"}}]})])
    planned = to_dry(food=None, recipe="stew")
    kit = hand(tmp_path, trip, [stew, eat], [planned]).kit()
    # 100 + 20 + 130 − 50 = 200 g a pot; 2000 g fresh are ten of them.
    assert {each.food: each.mass_g for each in kit.shopping} == pytest.approx(
        {"oil": 200, "pulse": 1000}
    )
    assert {each.batch for each in kit.shopping} == {"rings"}
    assert {each.dry_on for each in kit.shopping} == {datetime.date(2031, 5, 30)}
    told = write_book(kit, TEMPLATES).markdown["shopping.md"].replace("\u00a0", " ")
    assert "pulse, to cook for rings, dry by 30 May 2031" in told
    assert "stew, to dry" not in told


def test_nothing_is_bought_for_a_batch_that_is_done(tmp_path: Path) -> None:
    kit = hand(tmp_path, eats("40 g", days=2), batches=[berries()]).kit()
    assert kit.shopping == ()
    assert batch_of(kit, "rings").planned_for is None


@pytest.mark.parametrize(
    ("food", "bought"),
    [("steak-raw", True), ("hen-raw", False)],  # whole cuts can be heated after; poultry is lost
)
def test_no_fresh_food_is_bought_for_what_would_have_to_be_thrown_out(
    food: str, bought: bool, tmp_path: Path
) -> None:
    eat = {"snacks": [{"eat": food, "from": "rings", "each": "20 g"}]}
    read = hand(tmp_path, day_trip(days=[day(eat)]), batches=[to_dry(food=food)])
    kit = read.kit()
    assert [line.batch for line in kit.shopping] == (["rings"] if bought else [])
    told = write_book(kit, TEMPLATES).markdown
    for page in ("day-1.md", "drying.md"):
        assert ("to be dried by 30\u00a0May 2031" in told[page]) is bought
    assert ("Still to dry: [1 food]" in told["index.md"]) is bought


def test_a_planned_load_gives_also_what_names_no_batch(tmp_path: Path) -> None:
    # Its 500 g are more than the 80 g of the line that names it and the 20 g of the other one.
    eat = {
        "snacks": [
            {"eat": "berry", "from": "rings", "each": "40 g"},
            {"eat": "berry", "dried_by": "dehydrator", "each": "10 g"},
        ]
    }
    kit = hand(tmp_path, day_trip(days=[day(eat)]), batches=[to_dry()]).kit()
    assert [(line.batch, line.mass_g) for line in kit.shopping] == [("rings", 2000)]
    (coming,) = kit.coming
    assert (coming.batch, coming.in_dryer, coming.planned_for) == (
        "rings",
        False,
        datetime.date(2031, 5, 30),
    )
    assert coming.mass_g == pytest.approx(20)


def test_pages_tell_by_when_a_planned_batch_is_to_be_dried(tmp_path: Path) -> None:
    trip = eats("40 g", days=2)
    trip["days"][1]["meals"] = {"snacks": [{"eat": "kernel-nut", "each": "50 g"}]}
    found = hand(tmp_path, trip, batches=[to_dry()])
    kit = found.kit()
    for shown, is_public in ((kit, False), (public_kit(kit, found.content), True)):
        pages = write_book(shown, TEMPLATES).markdown
        told = {
            "shopping.md": "berry (rings), to dry in the dehydrator by 30\u00a0May 2031",
            "drying.md": "to be dried by 30\u00a0May 2031",
            "day-1.md": "to be dried by 30\u00a0May 2031",
        }
        assert {page for page, words in told.items() if words in pages[page]} == (
            set() if is_public else set(told)
        )
        assert "Not dried yet" in pages["day-1.md"]
        assert "Not dried yet" not in pages["day-2.md"]  # which eats none of it


# -- a trip beyond best-before --------------------------------------------------------------------


@pytest.mark.parametrize(("start", "told"), [("2032-05-01", 0), ("2032-05-02", 1)])
def test_a_trip_that_eats_after_the_date_is_told_with_both_places(
    start: str, told: int, tmp_path: Path
) -> None:
    # Fruit keeps twelve months at 15.6 °C, and the last day counts.
    batch = berries(kept_at="15.6 degC", tests=["constant"])
    read = hand(tmp_path, trip=eats("20 g", start), batches=[batch])
    found = [each for each in read.problems if each.kind == "batch-past-date"]
    assert len(found) == told
    for problem in found:
        assert problem.severity == "warning"
        assert str(problem.place).startswith("content/trips/hand.yaml:")
        assert "2032-05-02, and it keeps until 2032-05-01 only" in problem.says
        assert "(content/batches/hand.yaml:" in problem.says


def test_a_day_that_passes_the_date_is_told_though_the_trip_begins_before(tmp_path: Path) -> None:
    batch = berries(kept_at="15.6 degC", tests=["constant"])
    read = hand(tmp_path, trip=eats("20 g", "2032-04-30", days=3), batches=[batch])
    (problem,) = (each for each in read.problems if each.kind == "batch-past-date")
    assert "hand eats of batch rings on 2032-05-02" in problem.says
