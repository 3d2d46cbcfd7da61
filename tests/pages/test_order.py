"""The order of work on the page: one row for each moment, times a script can read, clear words."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from builder.model.kit import FuelDay, Kit, KitDay, PlannedMeal, WaterHeating
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.dishes.order import OrderView, orders_of_day
from builder.planning.cooking.hearth import Burner, Hearth
from builder.planning.cooking.order_of_work import orders_of_work
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import (
    HEARTH,
    HIGH_CAMP,
    bean_pot,
    ingredient,
    meal,
    sample_kit,
    step,
    toasties,
)
from tests.pages.seen import said, seen_in


def tea(**more: object) -> PlannedMeal:
    leaves = ingredient("tea", "Black tea", 6)
    given: dict[str, object] = {
        "recipe": "tea", "cook_in": "mug", "cooked_on": "stove", "pot": "pot-2l", "potfuls": 1,
        "steps": (step("soak", leaves, water_ml=500, minutes=4, hot=True), step("serve")),
        "water_ml": 500.0, "heat_kj": 200.0,
    }  # fmt: skip
    return meal("dinner", "Black tea", leaves, **{**given, **more})


def day_of(meals: Sequence[PlannedMeal], hearth: Hearth = HEARTH) -> tuple[Kit, KitDay]:
    kit = sample_kit()
    day = replace(kit.days[0], meals=tuple(meals), orders=orders_of_work(meals, hearth))
    party = tuple(replace(person, refused=()) for person in kit.party)
    return replace(kit, days=(day,), party=party), day


def order_of(meals: Sequence[PlannedMeal], hearth: Hearth = HEARTH) -> OrderView:
    kit, day = day_of(meals, hearth)
    (order,) = orders_of_day(kit, day)
    return order


def rows(meals: Sequence[PlannedMeal], hearth: Hearth = HEARTH) -> list[tuple[str, ...]]:
    return [tuple(said(cell) for cell in row) for row in order_of(meals, hearth).table.rows]


def test_a_pot_dish_in_two_potfuls_reads_as_it_is_done() -> None:
    assert rows([bean_pot()]) == [
        ("44 min", "Soak black beans in 291 ml water (1 mug): 10 min.", ""),
        (
            "34 min",
            "Potful 1 of 2, with half of everything. Add 260 ml water, rice and olive"
            " oil. Bring to the boil, lid on. About 2 min.",
            "stove, pot",
        ),
        ("32 min", "Potful 1 of 2. Simmer 9 min, stirring.", "stove, pot"),
        ("23 min", "Potful 1 of 2. Let stand 6 min, lid on.", "pot"),
        (
            "17 min",
            "Potful 1 of 2. Ready. Put it in bowls and cover them: the pot is needed. It waits"
            " 17 min.",
            "",
        ),
        (
            "17 min",
            "Empty the pot. Potful 2 of 2, with half of everything. Add 260 ml water,"
            " rice and olive oil. Bring to the boil, lid on. About 2 min.",
            "stove, pot",
        ),
        ("15 min", "Potful 2 of 2. Simmer 9 min, stirring.", "stove, pot"),
        ("6 min", "Potful 2 of 2. Let stand 6 min, lid on.", "pot"),
        ("0 min", "Share out.", ""),
    ]  # fmt: skip


def test_what_takes_no_time_is_told_with_what_follows() -> None:
    fire = HEARTH
    assert rows([toasties()], fire)[-2:] == [
        (
            "18 min",
            "RAW Melt snow. Mix in 40 ml treated water and egg, raw. Take bread. Press 4 min on"
            " each side, 2 times, one after the other.",
            "irons",
        ),
        ("0 min", "Measure the middle: at least 72 °C. Share out.", ""),
    ]


def test_fire_and_irons_come_before_the_press() -> None:
    fire, irons, *_ = rows([toasties()])
    assert fire == (
        "1 h 3 min",
        "Light the fire, or feed the one you have. Embers take 45 min.",
        "",
    )
    lay = (
        "Lay the irons on the embers to get hot. They take 8 to 24 min, so lay them in early. "
        "Hot enough: a drop of water dances on them."
    )
    assert irons == ("23 min", lay, "irons")
    over_flames = rows([tea()], Hearth(Burner("fire", 3000, 0, 0.1), (), (), (), 14.0))
    assert over_flames[0][1].endswith("Flames take 10 min.")


def test_what_is_baked_tells_its_embers() -> None:
    bake = step("bake", minutes=35, baking_c=180, palm_s=5.0, ember_pieces=18, ember_pieces_below=6)
    of = replace(bean_pot(), potfuls=1, steps=(bake, step("serve")))
    fire, baked, _ = rows([of], HEARTH)
    assert fire[1].endswith("Embers take 45 min.")
    assert baked[1] == (
        "Bake 35 min at 180 °C, lid on. Egg-sized embers: 6 below, 12 on the lid, so hot that you "
        "can hold your palm above them for 5 s."
    )
    assert baked[2].startswith("embers")


def test_several_dishes_are_named_and_the_pot_is_emptied_between_them() -> None:
    told = [row[1] for row in rows([replace(bean_pot(), potfuls=1), tea()])]
    ready = "Ready. Put it in bowls and cover them: the pot is needed. It waits 6 min."
    boil = "Black tea: Empty the pot. Bring 500 ml water (1¾ mugs) to the boil. About 2 min."
    assert told.index(ready) + 1 == told.index(boil)
    assert told[-2:] == ["Smoky bean pot: Share out.", "Black tea: Hand round."]


def test_what_soaks_in_snow_water_says_to_melt_it_where_nothing_else_does() -> None:
    soaked = replace(bean_pot(), conditions=HIGH_CAMP)
    assert rows([soaked])[0][1].startswith("Melt snow. Soak black beans in ")
    kit, day = day_of([soaked])
    melting = WaterHeating(3000.0, "pot-2l", 900.0, 30.0)
    fuel = FuelDay(0, 0, 0, 0, 0, melting=melting)
    day = replace(day, orders=orders_of_work([soaked], HEARTH, fuel))
    (view,) = orders_of_day(kit, day)
    told = [said(row[1]) for row in view.table.rows]
    assert told[0].startswith("Melt snow to 3 l water")
    assert told[1].startswith("Soak black beans in ")


def test_snow_is_melted_first() -> None:
    assert rows([tea(conditions=HIGH_CAMP)])[0][1].startswith("Melt snow. Bring 500 ml water")


def test_several_potfuls_of_water_for_mugs_are_told_once() -> None:
    assert "to the boil, in 2 potfuls." in rows([tea(potfuls=2)])[0][1]


@pytest.mark.parametrize(("when", "verb"), [("dinner", "eat"), ("drinks", "drink")])
def test_the_start_is_told_in_words(when: str, verb: str) -> None:
    order = order_of([tea(meal=when)])
    assert order.start.replace("\u00a0", " ") == f"Start 6 min before you {verb}"
    assert order.anchor == f"work-{when}"


def test_a_script_finds_whole_minutes_at_each_time(book: Book) -> None:
    page = seen_in(book.markdown["meals/day-1-dinner.md"])
    marked = [given for name, given in page.tags if given.get("class") == "before"]
    orders = [given for name, given in page.tags if given.get("class") == "steps work order"]
    assert [given["data-meal"] for given in orders] == ["dinner"]
    minutes = [int(given["data-before"] or "") for given in marked]
    assert minutes[0] == 44 and minutes[-1] == 0
    assert marked[0]["data-time"] == "44\u00a0min"


def test_the_menu_leads_to_the_meal_step_by_step(book: Book) -> None:
    text = book.markdown["day-1.md"].replace("\u00a0", " ")
    assert "[Start 44 min before you eat](meals/day-1-dinner.md)." in text
    assert "Potful 1 of 2" not in text


def test_the_pocket_page_keeps_the_orders_that_join_several_dishes() -> None:
    kit, _ = day_of([replace(bean_pot(), potfuls=1), tea()])
    alone, _ = day_of([bean_pot()])
    heading = "<h3>Order of work for dinner</h3>"
    assert heading in write_book(kit, TEMPLATES).pocket_html
    assert heading not in write_book(alone, TEMPLATES).pocket_html


def test_the_pots_are_named_where_there_are_several() -> None:
    kit, day = day_of([tea()])
    kit = replace(kit, pots=(*kit.pots, ("pot-1l", "One-litre pot", 750)))
    (order,) = orders_of_day(kit, day)
    assert [said(row[2]) for row in order.table.rows] == ["stove, two-litre pot", "mugs", ""]


@pytest.mark.parametrize(("potfuls", "in_turns"), [(1, False), (2, False), (6, True)])
def test_what_would_stand_for_over_an_hour_is_eaten_in_turns(potfuls: int, in_turns: bool) -> None:
    kit, day = day_of([replace(bean_pot(), potfuls=potfuls)])
    (order,) = orders_of_day(kit, day)
    assert order.in_turns == in_turns
    page = write_book(kit, TEMPLATES).markdown["meals/day-1-dinner.md"]
    assert ("eat it in turns" in page) == in_turns
    assert ("everything is ready together" in page) != in_turns


def test_a_hard_boil_is_told_after_what_brings_it_there() -> None:
    beans = ingredient("beans", "Black beans", 80)
    hard = step("boil", beans, water_ml=400, minutes=12, minutes_at_sea_level=10)
    told = rows([replace(bean_pot(), steps=(hard, step("serve")), potfuls=1)])
    assert [row[1:] for row in told] == [
        (told[0][1], "stove, pot"),
        ("Boil hard 12 min.", "stove, pot"),
        ("Share out.", ""),
    ]
    assert "Bring to the boil. About" in told[0][1]
