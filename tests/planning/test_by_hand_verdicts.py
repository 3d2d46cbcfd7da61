"""What is said of a batch, and the one thing to do with it, worked out on paper.

1000 g fresh of each food. Listed water is doubted by two standard deviations, 1.5 points each
unless the food tells another: so 3 % of the fresh weight, 30 g, may be solids or water.
"""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from builder.planning.batches import Asked, dryness
from builder.planning.batches.judging import Judged
from builder.planning.stock import stock_lines
from builder.problems import ProblemsFound
from builder.speech import speech_of

from .folders import Hand, Record, batch_of, day, day_trip, food, hand, uses

ENGLISH = speech_of("en")
DONE = datetime.date(2031, 1, 1)
LATER = datetime.date(2031, 3, 1)

OUT = "Throw it out."
TODAY = "Dry it further today, or eat it now."
TEST = (
    "Test it: break a cold piece, it must snap; or weigh it again after 2 h more in the dryer, "
    "at most 0.5 % less."
)
TEST_FRUIT = (
    "Test it: break a cold piece, it must snap; or weigh it again after 2 h more in the dryer, "
    "at most 0.5 % less; or look for drops after a week in a closed jar, there must be none."
)
OPEN = "Open it today and test it; dry: seal it anew, else throw it out."
FREEZE = "Open it, pack it with air, freeze it."
OVEN = "10 minutes at 135\u00a0°C in the oven, or boil it through, before anybody eats it."
COOK = "Cook it through before anybody eats it."

AIRLESS = {"count": 4, "in": "foil", "absorber": True}
VACUUM = {"count": 4, "in": "vacuum"}
JAR = {"count": 4, "in": "jar"}
TIN = {"count": 4, "in": "tin"}
HEATED = {"to": "74 degC", "when": "before"}
AFTER = {"to": "135 degC", "when": "after", "minutes": 10}


def batch(name: str, dried_g: float, method: str = "dehydrator", **more: Any) -> Record:
    """Give a batch of 1000 g fresh."""
    return {
        "id": "batch",
        "food": name,
        "method": method,
        "done": "2031-01-01",
        "fresh": "1000 g",
        "dried": f"{dried_g} g",
        **more,
    }


def read(folder: Path, record: Record) -> Hand:
    more = [
        food("sure-root", "vegetable", "raw", "water 90 g, carbohydrate 10 g", spread="0.5 %"),
        food("porridge", "grain", "cooked", "water 80 g, carbohydrate 20 g"),
        # Nobody told that these are minced, or game: their names do.
        food("rinderhack", "meat", "raw", "water 70 g, protein 22 g, fat 7 g"),
        food("kjottdeig", "meat", "raw", "water 70 g, protein 22 g, fat 7 g")
        | {"name": "Kjøttdeig"},
        food("rehkeule", "meat", "raw", "water 75 g, protein 22 g, fat 2 g"),
    ]
    return hand(folder, batches=[record], foods=more)


def judged(folder: Path, record: Record) -> Judged:
    return read(folder, record).stock.judged["batch"]


def told(found: Judged, at: datetime.date | None = LATER) -> tuple[str, str]:
    return found.verdict, found.act(ENGLISH, at)


# -- by weight ------------------------------------------------------------------------------------

# food, method, grams at which even the wettest listing is dry, grams above which even the driest
# is not
BY_WEIGHT = [
    # 100 g of solids, 70 to 130; at most 10 % left
    ("leaf", "dehydrator", 70 / 0.9, 130 / 0.9),
    # 200 g, 170 to 230; fruit at most 20 %
    ("berry", "oven", 170 / 0.8, 230 / 0.8),
    # 400 g, 370 to 430; legumes at most 13 %
    ("pulse", "dehydrator", 370 / 0.87, 430 / 0.87),
    # 200 g, 170 to 230; grain at most 13 %
    ("porridge", "dehydrator", 170 / 0.87, 230 / 0.87),
    # 320 g, 290 to 350; meat at most 10 %
    ("lean-meat", "dehydrator", 290 / 0.9, 350 / 0.9),
    # 250 g, 220 to 280; dairy at most 5 %
    ("curd", "dehydrator", 220 / 0.95, 280 / 0.95),
    # anything freeze-dried at most 5 %
    ("berry", "freeze-dryer", 170 / 0.95, 230 / 0.95),
    ("pulse", "freeze-dryer", 370 / 0.95, 430 / 0.95),
    # 100 g, 90 to 110 by its own 0.5 points
    ("sure-root", "dehydrator", 90 / 0.9, 110 / 0.9),
]  # fmt: skip


@pytest.mark.parametrize(("name", "method", "dry_g", "wet_g"), BY_WEIGHT)
def test_two_spreads_of_listed_water_decide(
    tmp_path: Path, name: str, method: str, dry_g: float, wet_g: float
) -> None:
    verdicts = [
        judged(tmp_path / f"{grams}", batch(name, grams, method)).verdict
        for grams in (dry_g - 0.01, dry_g + 0.01, wet_g - 0.01, wet_g + 0.01)
    ]
    assert verdicts == ["dry", "undecided", "undecided", "not-dry"]


def test_the_range_is_told_and_goes_by_the_listed_water(tmp_path: Path) -> None:
    # 120 g of leaf hold 70 to 130 g of solids: 0 to 41.7 % moisture.
    ruling = judged(tmp_path / "a", batch("leaf", 120)).ruling
    assert ruling.low_share == 0
    assert ruling.high_share == pytest.approx(50 / 120)
    # 90 g are less than the 100 g listed. It was wetter than listed, and 70 g may still be all.
    light = judged(tmp_path / "b", batch("leaf", 90))
    assert light.corrected
    assert light.residual_share == 0
    assert light.ruling.high_share == pytest.approx(20 / 90)
    assert light.verdict == "undecided"
    # Freeze-dried, 2 % are always left.
    frozen = judged(tmp_path / "c", batch("leaf", 100, "freeze-dryer")).ruling
    assert frozen.low_share == 0.02
    assert frozen.high_share == pytest.approx(0.30)


@pytest.mark.parametrize(
    ("name", "grams", "tests", "verdict"),
    [
        ("leaf", 110, [], "undecided"),
        ("leaf", 110, ["snap"], "dry"),
        ("leaf", 110, ["constant"], "dry"),
        ("leaf", 110, ["jar"], "undecided"),  # a jar proves fruit alone
        ("berry", 250, ["jar"], "dry"),
        ("berry", 250, ["snap"], "dry"),
        ("lean-meat", 360, ["jar"], "undecided"),
        ("leaf", 150, ["snap", "constant"], "not-dry"),  # no test talks a wet load dry
        ("berry", 300, ["jar"], "not-dry"),
    ],
)
def test_tests_decide_what_weight_leaves_open(
    tmp_path: Path, name: str, grams: float, tests: list[str], verdict: str
) -> None:
    assert judged(tmp_path, batch(name, grams, tests=tests)).verdict == verdict


def test_constant_true_is_the_first_of_the_tests(tmp_path: Path) -> None:
    assert judged(tmp_path, batch("leaf", 110, constant=True)).verdict == "dry"


def test_bought_food_is_dry_as_sold_and_planned_food_as_usual(tmp_path: Path) -> None:
    bought = {"id": "batch", "food": "curd", "method": "bought", "packs": {"count": 1, "of": "9 g"}}
    assert told(judged(tmp_path / "a", bought)) == ("dry", "")
    planned = {
        "id": "batch",
        "food": "berry",
        "method": "sun",
        "planned": "2031-01-01",
        "fresh": "1000 g",
    }
    found = judged(tmp_path / "b", planned)
    assert told(found) == ("dry", "")
    assert found.residual_share == 0.20


def test_dry_enough_goes_by_what_is_likely(tmp_path: Path) -> None:
    likely = judged(tmp_path / "a", batch("leaf", 111))  # 9.9 % of 111 g
    assert (likely.dry_enough, likely.verdict) == (True, "undecided")
    hardly = judged(tmp_path / "b", batch("leaf", 112))  # 10.7 %
    assert (hardly.dry_enough, hardly.verdict) == (False, "undecided")


# -- the one thing to do --------------------------------------------------------------------------

# what, its verdict, the act two months later, whether it has a date
ACTS: list[tuple[Record, str, str, bool]] = [
    (batch("leaf", 75), "dry", "", True),
    (batch("leaf", 110), "undecided", TEST, True),
    (batch("berry", 250), "undecided", TEST_FRUIT, True),
    (batch("leaf", 150), "not-dry", OUT, False),
    (batch("lean-meat", 400), "not-dry", OUT, False),
    (batch("curd", 300), "not-dry", OUT, False),
    # Without oxygen.
    (batch("leaf", 75, packs=AIRLESS), "dry", "", True),
    (batch("leaf", 110, packs=AIRLESS), "undecided", OPEN, True),
    (batch("leaf", 150, packs=AIRLESS), "discard", OUT, False),
    (batch("leaf", 150, packs=VACUUM), "discard", OUT, False),
    (batch("leaf", 150, packs=JAR), "not-dry", OUT, False),
    (batch("leaf", 150, packs=TIN), "not-dry", OUT, False),
    (batch("leaf", 110, packs=JAR), "undecided", TEST, True),
    (batch("leaf", 110, packs=AIRLESS, tests=["snap"]), "dry", "", True),
    # Heat-dried meat and fish without oxygen, dry and perhaps not; freeze-dried it is at home.
    (batch("lean-meat", 320, packs=VACUUM), "dry", FREEZE, True),
    (batch("trout-cooked", 290, packs=AIRLESS), "dry", FREEZE, True),
    (batch("lean-meat", 340, packs=VACUUM), "discard", OUT, False),
    (batch("lean-meat", 400, packs=VACUUM), "discard", OUT, False),
    (batch("lean-meat", 300, "freeze-dryer", packs=VACUUM), "dry", "", True),
    (batch("lean-meat", 320), "dry", "", True),
    # Raw and dried by heat.
    (batch("hen-raw", 250), "discard", OUT, False),
    (batch("hen-raw", 250, heated=HEATED), "dry", "", True),
    (batch("hen-raw", 250, heated={**HEATED, "to": "164.9 degF"}), "discard", OUT, False),
    (batch("hen-raw", 250, heated=AFTER), "dry", "", True),
    (batch("mince-raw", 290, "oven"), "discard", OUT, False),
    (batch("mince-raw", 290, "oven", heated=AFTER), "dry", "", True),
    (batch("mince-raw", 290, "oven", heated={**AFTER, "minutes": 9}), "discard", OUT, False),
    (batch("steak-raw", 250), "dry", OVEN, True),
    (batch("steak-raw", 270), "undecided", OVEN, True),
    (batch("steak-raw", 330), "not-dry", OUT, False),
    (batch("steak-raw", 250, heated=AFTER), "dry", "", True),
    (batch("deer-raw", 250), "dry", OVEN, True),
    (batch("trout-raw", 230), "dry", OVEN, True),
    # 300 g of solids, 270 to 330; surely dry at 270 / 0.9 = 300 g.
    (batch("rinderhack", 290), "discard", OUT, False),
    (batch("kjottdeig", 290), "discard", OUT, False),
    (batch("kjottdeig", 290, heated=HEATED), "dry", "", True),
    # 250 g of solids, 220 to 280; surely dry at 220 / 0.9 = 244.4 g. Game wants 74 °C.
    (batch("rehkeule", 240, heated={**HEATED, "to": "73 degC"}), "dry", OVEN, True),
    (batch("rehkeule", 240, heated=HEATED), "dry", "", True),
    (batch("egg-raw", 220), "discard", OUT, False),
    (batch("egg-raw", 220, heated=HEATED), "dry", "", True),
    # Raw and freeze-dried: to be cooked.
    (batch("hen-raw", 240, "freeze-dryer"), "dry", COOK, True),
    (batch("hen-raw", 240, "freeze-dryer", heated=AFTER), "dry", COOK, True),  # no published way
    (batch("egg-raw", 220, "freeze-dryer"), "dry", COOK, True),
    (batch("mince-raw", 280, "freeze-dryer", packs=AIRLESS), "dry", COOK, True),
    # The sun.
    (batch("lean-meat", 320, "sun"), "discard", OUT, False),
    (batch("steak-raw", 250, "sun", heated=HEATED), "discard", OUT, False),
    (batch("leaf", 75, "sun"), "dry", "", True),
]  # fmt: skip


@pytest.mark.parametrize(("record", "verdict", "act", "dated"), ACTS)
def test_each_batch_has_one_verdict_and_one_act(
    tmp_path: Path, record: Record, verdict: str, act: str, dated: bool
) -> None:
    found = judged(tmp_path, record)
    assert told(found) == (verdict, act)
    assert (found.best_before is not None) is dated
    assert (found.months is not None) is dated
    assert found.failed is not dated


@pytest.mark.parametrize(
    ("at", "act"),
    [
        (DONE, TODAY),
        (DONE + datetime.timedelta(days=2), TODAY),
        (DONE + datetime.timedelta(days=3), OUT),
        (DONE - datetime.timedelta(days=1), OUT),  # of a day to come nobody knows
        (None, OUT),
    ],
)
def test_plant_food_may_be_dried_on_for_two_days(
    tmp_path: Path, at: datetime.date | None, act: str
) -> None:
    assert told(judged(tmp_path, batch("leaf", 150)), at) == ("not-dry", act)


@pytest.mark.parametrize(
    "record",
    [batch("lean-meat", 400), batch("curd", 300), batch("egg-cooked", 300),
     batch("leaf", 150, packs=AIRLESS)],
)  # fmt: skip
def test_nothing_else_may(tmp_path: Path, record: Record) -> None:
    assert told(judged(tmp_path, record), DONE)[1] == OUT


def test_a_meal_with_meat_in_it_is_no_plant_food(tmp_path: Path) -> None:
    stew: Record = {
        "id": "stew", "serves": 1, "cook_in": "pot", "uses": uses(pulse="100 g", stew_meat="100 g"),
        "steps": [{"do": "boil", "with": ["pulse", "stew-meat"], "water": "200 ml"}],
    }  # fmt: skip
    # 80 g of solids in 400 g: 200 in 1000 g, 170 to 230; not dry above 230 / 0.9 = 255.6 g.
    record = {**batch("", 260), "recipe": "stew", "food": None}
    found = hand(tmp_path, recipes=[stew], batches=[record]).stock.judged["batch"]
    assert told(found, DONE) == ("not-dry", OUT)


def test_planned_food_that_would_fail_is_planned_otherwise(tmp_path: Path) -> None:
    planned = {
        "id": "batch",
        "food": "hen-raw",
        "method": "oven",
        "planned": "2031-01-01",
        "fresh": "1000 g",
    }
    found = judged(tmp_path, planned)
    assert told(found) == (
        "discard",
        "Do not dry it this way: it would have to be thrown out.",
    )
    assert found.best_before is None


# -- in the dryer ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "weighed", "verdict", "act"),
    [
        ("leaf", [], "not-dry", "Keep drying, 889\u00a0g to go."),  # 1000 − 100 / 0.9
        ("leaf", [400], "not-dry", "Keep drying, 289\u00a0g to go."),
        ("leaf", [400, 150], "not-dry", "Keep drying, 39\u00a0g to go."),
        ("leaf", [400, 110], "undecided", TEST),
        ("leaf", [400, 75], "dry", ""),
        ("lean-meat", [500], "not-dry", "Keep drying, 144\u00a0g to go."),  # 500 − 320 / 0.9
        ("lean-meat", [340], "undecided", TEST),
        ("hen-raw", [500], "discard", OUT),
        ("egg-raw", [500], "discard", OUT),
        ("steak-raw", [500], "not-dry", "Keep drying, 211\u00a0g to go."),  # 500 − 260 / 0.9
        ("steak-raw", [250], "dry", OVEN),
    ],
)
def test_a_run_in_progress_is_dried_on(
    tmp_path: Path, name: str, weighed: list[float], verdict: str, act: str
) -> None:
    run = {"id": "batch", "food": name, "method": "dehydrator", "started": "2031-01-01T18:00",
           "fresh": "1000 g", "packs": {**AIRLESS},
           "weighings": [{"at": f"{2 * n + 2} h", "mass": f"{grams} g"}
                         for n, grams in enumerate(weighed)]}  # fmt: skip
    found = judged(tmp_path, run)
    assert told(found) == (verdict, act)
    # Its food is reckoned as it should come out.
    assert found.residual_share == 0.10 if name != "egg-raw" else True
    assert (found.best_before is None) is (verdict in ("not-dry", "discard"))
    assert found.failed is (verdict == "discard")
    assert not found.batch.is_bought and found.batch.is_planned


def test_a_kit_tells_of_a_run_in_progress(tmp_path: Path) -> None:
    run = {"food": "leaf", "method": "dehydrator", "started": "2031-05-20T18:00",
           "fresh": "1000 g", "run": "may-20", "packs": {"count": 4, "in": "foil"},
           "weighings": [{"at": "3 h", "mass": "400 g"}]}  # fmt: skip
    name = "leaf-2031-05-20"
    trip = day_trip(days=[day({"snacks": [{"eat": "leaf", "each": "10 g", "from": name}]})])
    kit = hand(tmp_path, trip, batches=[run]).kit()
    told_batch = batch_of(kit, name)
    assert (told_batch.planned, told_batch.in_dryer, told_batch.failed) == (True, True, False)
    assert (told_batch.verdict, told_batch.act) == ("not-dry", "Keep drying, 289\u00a0g to go.")
    assert told_batch.dried_g == pytest.approx(100 / 0.9)  # as it should come out
    told = [each.because for each in kit.cautions if each.at.batch == name]
    assert told == ["Batch leaf-2031-05-20 (leaf, dried) is still in the dryer."]


def test_dry_says_what_the_kit_would_say(tmp_path: Path) -> None:
    content = read(tmp_path, batch("leaf", 75)).content
    loads = {"leaf": (75.0, 110.0, 150.0), "hen-raw": (250.0,), "lean-meat": (340.0,),
             "egg-raw": (220.0,), "berry": (250.0,)}  # fmt: skip
    for method in ("dehydrator", "freeze-dryer", "oven", "sun"):
        for name, grams in ((name, each) for name, every in loads.items() for each in every):
            for absorber in (False, True):
                packs = {"count": 1, "in": "foil", "absorber": absorber}
                record = batch(name, grams, method, packs=packs)
                kit = judged(tmp_path / f"{method}-{name}-{grams}-{absorber}", record)
                asked = Asked(name, 1000, method, grams, absorber=absorber, packaging="foil")
                answer = dryness(asked, content, DONE)
                assert (answer.judged.verdict, answer.act) == told(kit, DONE)
                assert answer.target_g == kit.target_g
                assert answer.judged.ruling == kit.ruling


@pytest.mark.parametrize(
    ("asked", "verdict", "act"),
    [
        (Asked("leaf", 1000), "not-dry", "Keep drying, 889\u00a0g to go."),
        (Asked("leaf", 1000, now_g=150), "not-dry", "Keep drying, 39\u00a0g to go."),
        (Asked("leaf", 1000, now_g=150, absorber=True), "not-dry", "Keep drying, 39\u00a0g to go."),
        (Asked("leaf", 1000, now_g=110), "undecided", TEST),
        (Asked("leaf", 1000, now_g=110, tests=frozenset({"snap"})), "dry", ""),
        (Asked("leaf", 1000, now_g=150, packaging="foil"), "not-dry", TODAY),
        (Asked("leaf", 1000, now_g=110, packaging="vacuum"), "undecided", OPEN),
        (Asked("hen-raw", 1000), "discard", OUT),
    ],
)  # fmt: skip
def test_what_is_not_packed_is_in_the_dryer(
    tmp_path: Path, asked: Asked, verdict: str, act: str
) -> None:
    answer = dryness(asked, read(tmp_path, batch("leaf", 75)).content, DONE)
    assert (answer.judged.verdict, answer.act) == (verdict, act)
    assert (answer.data()["verdict"], answer.data()["act"]) == (verdict, act)
    assert not act or any(act in line for line in answer.lines())


# -- low oxygen and keeping -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("packs", "low"),
    [
        (AIRLESS, True),
        (VACUUM, True),
        (JAR, False),
        (TIN, False),
        ({"count": 1, "in": "foil"}, False),
        ({"count": 1, "in": "zip"}, False),
    ],
)
def test_low_oxygen_is_an_absorber_or_a_vacuum_bag(
    tmp_path: Path, packs: Record, low: bool
) -> None:
    assert judged(tmp_path, batch("leaf", 75, packs=packs)).low_oxygen is low


@pytest.mark.parametrize(
    ("grams", "months"),
    [
        (222.3, 12),  # 22.3 g in 222.3 g: 10.03 %, moist for a pack without oxygen
        (222.2, 98),  # 10.0 %: 12 · 2^(33.6 / 11.1) months when frozen
    ],
)
def test_moist_food_without_oxygen_keeps_a_year(
    tmp_path: Path, grams: float, months: float
) -> None:
    record = batch("berry", grams, packs=AIRLESS, tests=["constant"], kept_at="-18 degC")
    found = judged(tmp_path, record)
    assert found.verdict == "dry"
    assert found.months == pytest.approx(months, abs=0.3)


def test_a_pack_without_oxygen_wants_constant_weight(tmp_path: Path) -> None:
    # Frozen for 98 months, and halved never: the cap comes last.
    for tests, months, wants in (([], 12, True), (["snap"], 12, True), (["constant"], 97.8, False)):
        record = batch("berry", 205, packs=AIRLESS, tests=tests, kept_at="-18 degC")
        found = judged(tmp_path / "-".join(["t", *tests]), record)
        assert found.months == pytest.approx(months, abs=0.1)
        assert found.wants_proof is wants


# -- everywhere the same --------------------------------------------------------------------------


def test_stock_kit_and_caution_say_the_same_act(tmp_path: Path) -> None:
    record = batch("leaf", 150, packs={**AIRLESS})
    trip = day_trip(days=[day({"snacks": [{"eat": "leaf", "each": "10 g", "from": "batch"}]})])
    found = hand(tmp_path, trip, batches=[record])
    kit = found.kit()
    (line,) = stock_lines(found.stock, datetime.date(2031, 6, 1))
    assert (line.verdict, line.act) == ("discard", OUT)
    assert line.data()["best_before"] is None
    told_batch = batch_of(kit, "batch")
    assert (told_batch.verdict, told_batch.act, told_batch.best_before) == ("discard", OUT, None)
    (caution,) = [each for each in kit.cautions if each.at.batch == "batch"]
    assert caution.level == "danger"
    assert caution.text.startswith("Throw it out")
    assert caution.at.days == (1,)


@pytest.mark.parametrize(
    ("record", "offered"),
    [
        (batch("leaf", 75), True),
        (batch("leaf", 110), True),
        (batch("leaf", 150), False),
        (batch("leaf", 110, packs=AIRLESS), True),
        (batch("leaf", 150, packs=AIRLESS), False),
    ],
)
def test_what_failed_is_in_no_proposal(tmp_path: Path, record: Record, offered: bool) -> None:
    meals = {"snacks": [{"eat": "leaf", "each": "10 g", "dried_by": "dehydrator"}]}
    kit = hand(tmp_path, day_trip(start="2031-02-01", days=[day(meals)]), batches=[record]).kit()
    assert bool(kit.proposals) is offered


@pytest.mark.parametrize(
    ("heated", "offered"), [(None, False), (AFTER, True), ({**AFTER, "minutes": 5}, False)]
)
def test_raw_meat_is_proposed_once_it_is_safe(
    tmp_path: Path, heated: Record | None, offered: bool
) -> None:
    dish: Record = {
        "id": "dish", "serves": 1, "cook_in": "pot", "reach": "74 degC",
        "uses": uses(steak_raw="20 g dehydrator"),
        "steps": [{"do": "boil", "with": ["steak-raw"], "water": "200 ml"}],
    }  # fmt: skip
    record = batch("steak-raw", 250, heated=heated)
    trip = day_trip(start="2031-01-05", days=[day({"dinner": [{"cook": "dish"}]})])
    assert bool(hand(tmp_path, trip, [dish], [record]).kit().proposals) is offered


def test_a_food_keeps_its_own_months_by_the_chart(tmp_path: Path) -> None:
    meals = {"snacks": [{"eat": "soft-fruit", "each": "9 g", "from": "batch"}]}
    record = batch("soft-fruit", 210, tests=["snap"], kept_at="15 degC")
    kit = hand(tmp_path, day_trip(days=[day(meals)]), batches=[record]).kit()
    assert batch_of(kit, "batch").months == 4
    assert "4 months" in batch_of(kit, "batch").reasons[0]


@pytest.mark.parametrize(
    ("units", "said"), [("metric", ["15.6 °C", "20 °C"]), ("us", ["60 °F", "68 °F"])]
)
def test_why_it_keeps_so_long_is_said_in_the_units_of_the_trip(
    tmp_path: Path, units: str, said: list[str]
) -> None:
    meals = {"snacks": [{"eat": "soft-fruit", "each": "9 g", "from": "batch"}]}
    record = batch("soft-fruit", 210, tests=["snap"], kept_at="20 degC")
    trip = day_trip(days=[day(meals)], units=units)
    why = " ".join(batch_of(hand(tmp_path, trip, batches=[record]).kit(), "batch").reasons)
    table_at, kept_at = (each.replace(" ", "\u00a0") for each in said)
    why = why.replace(" °", "\u00a0°")
    assert f"4 months at {table_at}" in why
    assert f"kept at {kept_at}, warmer than {table_at}" in why


# -- what cannot be, and what is odd --------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "grams", "kinds"),
    [
        # 100 g of solids: below 1 − 3/10 of them odd, below 1 − 6/10 impossible.
        ("leaf", 70.1, []),
        ("leaf", 69.9, ["odd-weights"]),
        ("leaf", 40.1, ["odd-weights"]),
        ("leaf", 39.9, ["too-light"]),
        # 400 g: odd below 1 − 3/40, impossible below half.
        ("pulse", 370.1, []),
        ("pulse", 369.9, ["odd-weights"]),
        ("pulse", 200.1, ["odd-weights"]),
        ("pulse", 199.9, ["too-light"]),
        # 100 g by 0.5 points: odd below 1 − 1/10, impossible below half.
        ("sure-root", 90.1, []),
        ("sure-root", 89.9, ["odd-weights"]),
        ("sure-root", 50.1, ["odd-weights"]),
        ("sure-root", 49.9, ["too-light"]),
    ],
)
def test_weights_that_no_drying_gives(
    tmp_path: Path, name: str, grams: float, kinds: list[str]
) -> None:
    found = read(tmp_path, batch(name, grams))
    assert found.kinds() == kinds
    severe = ["error" if kind == "too-light" else "warning" for kind in kinds]
    assert [each.severity for each in found.problems] == severe


def test_the_last_weighing_of_a_run_is_held_against_the_same(tmp_path: Path) -> None:
    run = {"id": "batch", "food": "leaf", "method": "oven", "started": "2031-01-01T18:00",
           "fresh": "1000 g", "weighings": [{"at": "2 h", "mass": "39 g"}]}  # fmt: skip
    assert read(tmp_path, run).kinds() == ["too-light"]


@pytest.mark.parametrize(("last", "kinds"), [("117 g", ["dried-heavier"]), ("118 g", [])])
def test_nothing_gains_weight_in_a_dryer(tmp_path: Path, last: str, kinds: list[str]) -> None:
    found = read(tmp_path, {**batch("leaf", 120), "weighings": [{"at": "2 h", "mass": last}]})
    assert found.kinds() == kinds


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (Asked("leaf", 1000, now_g=1000), "it lost nothing"),
        (Asked("leaf", 1000, now_g=1001), "it lost nothing"),
        (Asked("leaf", 1000, now_g=39.9), "40% of the solids"),
        (Asked("leaf", 1000, packaging="foil"), "nobody told what it weighs"),
        (Asked("leaf", 1000, now_g=150, packaging="sack"), "no packaging 'sack'"),
    ],
)
def test_dry_refuses_them_too(tmp_path: Path, asked: Asked, says: str) -> None:
    content = read(tmp_path, batch("leaf", 75)).content
    with pytest.raises(ProblemsFound, match=says):
        dryness(asked, content, DONE)


def test_dry_tells_what_is_odd(tmp_path: Path) -> None:
    content = read(tmp_path, batch("leaf", 75)).content
    answer = dryness(Asked("leaf", 1000, now_g=65), content, DONE)
    assert len(answer.warnings) == 1
    assert any("65% of the solids" in line for line in answer.lines())


@pytest.mark.parametrize(
    ("ice", "kinds"),
    [("560 g", []), ("532.1 g", []), ("531.9 g", ["ice"]), ("587.9 g", []), ("588.1 g", ["ice"])],
)
def test_ice_is_what_the_load_lost(tmp_path: Path, ice: str, kinds: list[str]) -> None:
    # 560 g lost, 28 g of them are 5 %.
    assert read(tmp_path, batch("pulse", 440, "freeze-dryer", ice=ice)).kinds() == kinds
