"""What a trip's list says to buy: with refuse, in packets, by shelf."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.trip.supplies.shopping import shopping_page
from tests.planning.folders import day, day_trip, food, hand

ROOT = food(
    "root", "vegetable", "raw", "water 88 g, carbohydrate 10 g", refuse="20 %", shelf="vegetables"
)
FLAKES = food(
    "flakes",
    "grain",
    "dried",
    "water 10 g, energy 370 kcal, carbohydrate 70 g",
    pack="500 g",
    shelf="dry goods",
)
PEAS = food("peas", "legume", "raw", "water 79 g, carbohydrate 14 g", refuse="50 %", pack="400 g")


def snack(*eats: tuple[str, str]) -> dict[str, object]:
    return day_trip(days=[day({"snacks": [{"eat": name, "each": each} for name, each in eats]})])


@pytest.mark.parametrize(
    ("name", "each", "buy_g", "packets"),
    [
        ("root", "100 g", 250, 0),  # 200 g / 0.8
        ("flakes", "250 g", 500, 1),  # just one packet
        ("flakes", "251 g", 1000, 2),
        ("peas", "100 g", 400, 1),  # 200 g / 0.5 is 400 g with the pods
        ("peas", "101 g", 800, 2),
        ("kernel-nut", "40 g", 80, 0),  # nothing is told of it
    ],
)
def test_what_is_bought_has_its_peel_and_comes_in_packets(
    name: str, each: str, buy_g: float, packets: int, tmp_path: Path
) -> None:
    kit = hand(tmp_path, trip=snack((name, each)), foods=[ROOT, FLAKES, PEAS]).kit()
    (line,) = kit.shopping
    assert line.buy_g == pytest.approx(buy_g)
    assert line.packets == packets
    assert line.mass_g == pytest.approx(2 * float(each.split()[0]))


def test_the_page_goes_by_shelf_and_what_has_none_comes_last(tmp_path: Path) -> None:
    trip = snack(("kernel-nut", "40 g"), ("root", "100 g"), ("flakes", "251 g"))
    page = shopping_page(hand(tmp_path, trip=trip, foods=[ROOT, FLAKES]).kit(), ())
    assert [(title, [each.name for each in things]) for title, things in page.shelves.items()] == [
        ("dry goods", ["flakes"]),
        ("vegetables", ["root"]),
        ("No shelf given", ["kernel-nut"]),
    ]
    assert "".join(piece.text for piece in page.things[0].mass) == "2 × 500\u00a0g"


def test_where_no_shelf_is_told_there_is_one_list_without_a_title(tmp_path: Path) -> None:
    page = shopping_page(hand(tmp_path, trip=snack(("kernel-nut", "40 g"))).kit(), ())
    assert list(page.shelves) == [""]
