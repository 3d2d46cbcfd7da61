"""Reviews against plans, and what later trips learn of them, worked by hand."""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.model.kit import Kit
from builder.planning.after import review_problems
from builder.planning.home import plan_home
from builder.planning.lessons import lessons_of, plan_learned
from tests.planning.folders import Hand, Record, day, day_trip, hand, uses

POT: Record = {
    "id": "kernel-pot",
    "meal": ["dinner"],
    "serves": 2,
    "cook_in": "pot",
    "uses": uses(kernel="200 g", oil="20 g"),
    "steps": [{"do": "boil", "with": ["kernel", "oil"], "water": "600 ml"}],
}
MEALS: Record = {
    "dinner": [{"cook": "kernel-pot"}],
    "snacks": [{"eat": "kernel-nut", "each": "50 g"}],
}


def trip(start: str = "2031-06-01", **more: object) -> Record:
    return day_trip(start=start, days=[day(MEALS)], **more)


def learnt(folder: Path, last: Record, earlier: Mapping[str, Record]) -> tuple[Hand, Kit]:
    """Plan a trip with what others taught it."""
    found = hand(folder, last, [POT], more_trips=earlier)
    return found, planned(found)


def planned(found: Hand, name: str = "hand") -> Kit:
    content, stock = found.content, found.stock
    return plan_learned(content.trips[name], content, stock, lessons_of(content, stock))


def plain(folder: Path) -> Kit:
    """Give the trip as it is planned where nothing was learned."""
    return hand(folder, trip(), [POT]).kit()


def burnt(folder: Path, times: float) -> Record:
    """Give the review of a trip that burnt so many times what was likely."""
    kit = plain(folder)
    assert kit.fuel
    return {"fuel_used": f"{times * kit.fuel.likely_g:.9f} g"}


# -- what was, against what was planned ------------------------------------------------------------


def test_fuel_and_food_against_the_plan(tmp_path: Path) -> None:
    review = {
        "fuel_used": "40 g",
        "left": [
            {"day": 1, "meal": "dinner", "recipe": "kernel-pot", "share": "25 %"},
            {"food": "kernel-nut", "mass": "20 g"},
        ],
    }
    kit = hand(tmp_path, trip(review=review), [POT]).kit()
    assert kit.review and kit.review.fuel and kit.review.food and kit.fuel
    assert kit.review.fuel.ratio == pytest.approx(40 / kit.fuel.likely_g)
    # The pot: 200 g of 3.5 kcal and 20 g of 9 kcal: 880 kcal, a quarter of it left: 220.
    # Nuts: 100 g of 6 kcal: 600 kcal, 20 g of them left: 120. Eaten 1480 - 340 = 1140.
    assert kit.review.food.planned == pytest.approx(1480)
    assert kit.review.food.used == pytest.approx(1140)
    assert kit.review.food.ratio == pytest.approx(1140 / 1480)
    assert [each.share for each in kit.review.left] == pytest.approx([0.25, 0.2])


def test_what_is_left_of_a_dish_is_weighed_with_its_water(tmp_path: Path) -> None:
    left = [{"recipe": "kernel-pot", "mass": "205 g"}]
    kit = hand(tmp_path, trip(review={"left": left}), [POT]).kit()
    # 200 g, 20 g and 600 ml in the pot: 820 g, a quarter of it is 205 g.
    assert kit.review and [each.share for each in kit.review.left] == pytest.approx([0.25])


def test_an_ingredient_may_be_what_was_left(tmp_path: Path) -> None:
    kit = hand(tmp_path, trip(review={"left": [{"food": "oil", "mass": "5 g"}]}), [POT]).kit()
    assert kit.review and kit.review.food
    assert kit.review.food.used == pytest.approx(1480 - 45)


@pytest.mark.parametrize(("left", "ratio"), [(None, None), ([], 1.0)])
def test_that_nothing_was_left_must_be_said(
    tmp_path: Path, left: list[Record] | None, ratio: float | None
) -> None:
    review = {"notes": "Cold.", **({} if left is None else {"left": left})}
    kit = hand(tmp_path, trip(review=review), [POT]).kit()
    assert kit.review
    assert (kit.review.food and kit.review.food.ratio) == ratio


def test_water_is_what_was_drunk_over_what_was_to_drink(tmp_path: Path) -> None:
    before = plain(tmp_path / "plain").days[0].water
    used_ml = before.total_ml + 0.25 * before.drinking_ml
    review = {"water": [{"day": 1, "used": f"{used_ml:.6f} ml"}]}
    kit = hand(tmp_path / "was", trip(review=review), [POT]).kit()
    assert kit.review and kit.review.water
    assert kit.review.water.ratio == pytest.approx(1.25)
    assert kit.review.water.planned == pytest.approx(before.drinking_ml)


def test_a_trip_without_a_review_or_with_an_empty_one_has_none(tmp_path: Path) -> None:
    assert plain(tmp_path / "none").review is None
    assert hand(tmp_path / "empty", trip(review={}), [POT]).kit().review is None


# -- what later trips learn ------------------------------------------------------------------------


def test_the_next_trip_takes_what_the_last_one_burnt(tmp_path: Path) -> None:
    before = plain(tmp_path / "plain")
    review = burnt(tmp_path / "same", 1.331)
    _, kit = learnt(tmp_path, trip(), {"old": trip("2030-06-01", review=review)})
    assert kit.learned.fuel and kit.fuel and before.fuel
    # (1.331) ^ (1 / (1 + 2)) = 1.1
    assert kit.learned.fuel.factor == pytest.approx(1.1)
    assert kit.learned.fuel.trips == ("old",)
    assert kit.fuel.likely_g == pytest.approx(1.1 * before.fuel.likely_g)
    assert kit.fuel.carry_g == pytest.approx(1.1 * before.fuel.likely_g * 1.2)
    assert (kit.fuel.low_g, kit.fuel.high_g) == pytest.approx(
        (1.1 * before.fuel.low_g, 1.1 * before.fuel.high_g)
    )
    assert sum(each.fuel.fuel_g for each in kit.days) == pytest.approx(kit.fuel.likely_g)
    # Heat is physics: what a meal takes is as it was.
    assert kit.days[0].fuel.meals_kj == pytest.approx(before.days[0].fuel.meals_kj)


def test_less_is_never_carried_than_was_likely_before_learning(tmp_path: Path) -> None:
    before = plain(tmp_path / "plain")
    review = burnt(tmp_path / "same", 0.4)  # 0.4 ^ (1/3) = 0.737; times 1.2 is under 1
    _, kit = learnt(tmp_path, trip(), {"old": trip("2030-06-01", review=review)})
    assert kit.fuel and before.fuel
    assert kit.fuel.likely_g == pytest.approx(0.4 ** (1 / 3) * before.fuel.likely_g)
    assert kit.fuel.carry_g == pytest.approx(before.fuel.likely_g)


def test_ratios_are_against_plans_before_learning(tmp_path: Path) -> None:
    same = tmp_path / "same"
    earlier = {
        "first": trip("2029-06-01", review=burnt(same, 1.3)),
        "second": trip("2030-06-01", review=burnt(same, 1.3)),
    }
    found, kit = learnt(tmp_path, trip(), earlier)
    # The second was planned with 1.3 ^ (1/3); its ratio is 1.3 all the same.
    assert kit.learned.fuel and kit.learned.fuel.ratios == pytest.approx((1.3, 1.3))
    assert kit.learned.fuel.factor == pytest.approx(1.3 ** (2 / 4))
    second = planned(found, "second")
    assert second.learned.fuel and second.learned.fuel.ratios == pytest.approx((1.3,))
    assert second.review and second.review.fuel
    assert second.review.fuel.ratio == pytest.approx(1.3)


@pytest.mark.parametrize(
    ("earlier", "learns"),
    [
        ({"start": "2031-05-31"}, True),
        ({"start": "2031-06-01"}, False),  # not over when this one begins
        ({"start": "2031-06-02"}, False),
        ({"stove": {"use": "spirit-burner", "pots": ["small", "large"]}}, False),
    ],
)
def test_only_earlier_trips_with_the_same_stove_teach_fuel(
    tmp_path: Path, earlier: Record, learns: bool
) -> None:
    old = {**trip("2030-06-01", review={"fuel_used": "60 g"}), **earlier}
    _, kit = learnt(tmp_path, trip(), {"old": old})
    assert (kit.learned.fuel is not None) == learns


def test_a_trip_may_be_told_not_to_learn(tmp_path: Path) -> None:
    before = plain(tmp_path / "plain")
    old = trip("2030-06-01", review={"fuel_used": "60 g"})
    _, kit = learnt(tmp_path, trip(learned=False), {"old": old})
    assert kit.learned.fuel is None and kit.fuel and before.fuel
    assert kit.fuel.likely_g == before.fuel.likely_g


@pytest.mark.parametrize("more", [0.5, -0.5])
def test_more_is_drunk_as_was_learned_and_never_less(tmp_path: Path, more: float) -> None:
    before = plain(tmp_path / "plain").days[0].water
    used_ml = before.total_ml + more * before.drinking_ml
    review = {"water": [{"day": 1, "used": f"{used_ml:.6f} ml"}]}
    _, kit = learnt(tmp_path, trip(), {"old": trip("2030-06-01", review=review)})
    now, factor = kit.days[0].water, (1 + more) ** (1 / 3)
    assert kit.learned.water and kit.learned.water.factor == pytest.approx(factor)
    times = max(factor, 1.0)
    assert now.drinking_ml == pytest.approx(times * before.drinking_ml)
    assert now.total_ml == pytest.approx(before.total_ml + (times - 1) * before.drinking_ml)
    assert sum(each.to_drink_ml for each in kit.days[0].people) == pytest.approx(
        now.drinking_ml + now.drinks_ml
    )


def test_appetite_changes_no_amount(tmp_path: Path) -> None:
    before = plain(tmp_path / "plain")
    review = {"left": [{"recipe": "kernel-pot", "share": "50 %"}]}
    _, kit = learnt(tmp_path, trip(), {"old": trip("2030-06-01", review=review)})
    assert kit.learned.food
    assert kit.learned.food.factor == pytest.approx(math.pow(1040 / 1480, 1 / 3))
    assert kit.weights.food_g == pytest.approx(before.weights.food_g)


# -- questions -------------------------------------------------------------------------------------

ASKED: tuple[tuple[Record, list[str]], ...] = (
    ({"fuel_used": "12 g", "left": []}, []),
    ({"wood_used": "3 kg"}, ["review-not-planned"]),
    ({"left": [{"recipe": "mint-tea", "share": "5 %"}]}, ["review-not-eaten"]),
    ({"left": [{"food": "curd", "mass": "5 g"}]}, ["review-not-eaten"]),
    (
        {"left": [{"recipe": "kernel-pot", "meal": "lunch", "share": "5 %"}]},
        ["review-not-eaten"],
    ),
    ({"took": [{"recipe": "mint-tea", "minutes": 5}]}, ["review-not-eaten"]),
    ({"marks": {"mint-tea": 3}}, ["review-not-eaten"]),
    ({"left": [{"food": "kernel-nut", "mass": "100 g"}]}, []),
    ({"left": [{"food": "kernel-nut", "mass": "101 g"}]}, ["review-too-much-left"]),
    (
        {"left": [{"recipe": "kernel-pot", "share": "60 %"}] * 2},
        ["review-too-much-left"],
    ),
    ({"water": [{"day": 1, "used": "9 l"}] * 2}, ["review-twice"]),
    ({"fuel_used": "400 g"}, ["review-odd"]),
    ({"water": [{"day": 1, "used": "500 ml"}]}, ["review-odd"]),
    ({"took": [{"recipe": "kernel-pot", "minutes": 200}]}, ["review-odd"]),
)  # fmt: skip
TEA: Record = {
    "id": "mint-tea", "meal": ["drinks"], "serves": 1, "cook_in": "pot",
    "uses": uses(tea_leaf="2 g"),
    "steps": [{"do": "boil", "with": ["tea-leaf"], "water": "200 ml"}],
}  # fmt: skip


@pytest.mark.parametrize(("review", "kinds"), ASKED, ids=[str(review) for review, _ in ASKED])
def test_what_cannot_be_is_asked_about(tmp_path: Path, review: Record, kinds: list[str]) -> None:
    found = hand(tmp_path, trip(review=review), [POT, TEA])
    kit = found.kit()
    problems = review_problems(found.content.trips["hand"], kit)
    assert [each.kind for each in problems] == kinds
    assert all(each.place.file.endswith("hand.yaml") and each.mend for each in problems)


def test_a_ratio_of_less_than_nothing_teaches_nothing(tmp_path: Path) -> None:
    review = {"water": [{"day": 1, "used": "500 ml"}]}
    _, kit = learnt(tmp_path, trip(), {"old": trip("2030-06-01", review=review)})
    assert kit.learned.water is None


# -- what the home tells of it ---------------------------------------------------------------------


@pytest.mark.parametrize(("on", "taught"), [("2030-06-01", []), ("2030-06-02", ["fuel", "food"])])
def test_the_home_tells_what_trips_taught_once_they_are_over(
    tmp_path: Path, on: str, taught: list[str]
) -> None:
    review = {**burnt(tmp_path / "same", 1.331), "left": []}
    found = hand(
        tmp_path / "all", trip(), [POT], more_trips={"old": trip("2030-06-01", review=review)}
    )
    kits = [planned(found), planned(found, "old")]
    day_of = datetime.date.fromisoformat(on)
    plan = plan_home(found.content, found.stock, kits, day_of, with_runs=False)
    assert [each.what for each in plan.habits] == taught
    if taught:
        fuel, food = plan.habits
        # As it is for the next trip with that stove: (1.331) ^ (1 / (1 + 2)) = 1.1
        assert fuel.factor.factor == pytest.approx(1.1)
        assert (fuel.stoves, fuel.factor.trips) == (("Burner",), ("old",))
        assert (food.stoves, food.factor.factor) == ((), 1.0)
