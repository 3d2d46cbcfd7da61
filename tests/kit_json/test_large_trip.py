"""Sixty days of thirty people: no page and no kit.json too large to use."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.pages.trip.book import Book, write_book
from builder.planning.kit import plan_trip
from builder.planning.stock import check
from builder.problems import errors
from builder.reading.folder import Layer, read_folder
from builder.site.pocket import pocket_page
from tests.kit_json.reader import Reader, told_out

REPO = Path(__file__).parents[2]
DAYS, PEOPLE = 60, 30
# Half of what such a trip took before figures that came about alike were told once.
MOST_KIT_BYTES = 7_900_000 // 2
MOST_PAGE_BYTES = 400_000
# A site's menu, of some 250 pages, comes on top of what is written of a page.
MENU_BYTES = 70_000
BREAKFASTS = ("seed-muesli", "apple-cinnamon-oats", "banana-coconut-porridge")
LUNCHES = (
    ("{cook: lemon-couscous-salad}",),
    (
        "{eat: crispbread, each: 60 g}",
        "{eat: cheese-hard, each: 50 g}",
        "{eat: salami, each: 40 g}",
    ),
    ("{cook: bean-dip-wraps}", "{eat: carrot-raw, each: 60 g}"),
)
DINNERS = (
    "mushroom-pasta",
    "lentil-ragout-polenta",
    "coconut-chickpea-curry",
    "pea-courgette-pasta",
    "red-lentil-ragout",
)
SNACKS = (
    ("sunflower-seeds", "apple-raw"),
    ("peanuts", "fruit-bar"),
    ("beef-jerky", "oat-biscuits"),
)


def _person(number: int) -> str:
    sex = "female" if number % 2 else "male"
    avoids = "[nuts]" if number % 9 == 4 else "[]"
    return (
        f"  - {{name: Person{number}, sex: {sex}, age: {15 + number * 7 % 50}, "
        f"mass: {52 + number * 11 % 41} kg, height: {155 + number * 3 % 40} cm, "
        f"carries_to: {14 + number % 12} kg, own_gear: {5 + number % 4} kg, avoids: {avoids}}}"
    )


def _day(number: int) -> Iterator[str]:
    low = number * 5 % 16 - 3
    yield f"  - title: Stretch {number + 1}"
    yield f"    camp_altitude: {300 + number * 137 % 2300} m"
    yield f"    air: {{low: {low} degC, high: {low + 6 + number % 12} degC}}"
    yield f"    wind: {('sheltered', 'breezy', 'windy')[number % 3]}"
    treat = "boil" if number % 4 == 1 else "filter"
    yield (
        f"    water: {{camp: stream, treat: {treat}, at: {4 + number % 10} degC, "
        f"between_water: {2 + number % 5 / 2} h}}"
    )
    yield (
        f"    travel: {{by: walking, ground: {('path', 'rough', 'road')[number % 3]}, "
        f"hours: {3 + number % 8 / 2}, distance: {6 + number % 12} km, "
        f"ascent: {100 + number * 83 % 1000} m, descent: {100 + number * 59 % 1000} m}}"
    )
    yield "    meals:"
    yield f"      breakfast: [{{cook: {BREAKFASTS[number % 3]}}}, {{cook: black-tea}}]"
    yield f"      lunch: [{', '.join(LUNCHES[number // 2 % 3])}]"
    chocolate = f"{{eat: dark-chocolate, each: {10 + number % 30} g}}"
    yield f"      dinner: [{{cook: {DINNERS[number * 3 % 5]}}}, {chocolate}]"
    snacks = ", ".join(
        f"{{eat: {each}, each: {20 + number % 20} g}}" for each in SNACKS[number % 3]
    )
    yield f"      snacks: [{snacks}]"
    yield "      drinks: [{cook: black-tea}]"


def _trip() -> str:
    lines = [
        "title: Long round",
        "start: 2031-06-01",
        "units: metric",
        "shelter: tent",
        "party:",
        *map(_person, range(PEOPLE)),
        "stove: {use: top-burner, pots: [pot-3l, pot-1l], fuel_reserve: 15 %}",
        "washing: 1.2 l",
        "gear_shared: [{name: Filter, mass: 310 g}, {name: Ladle, mass: 120 g}]",
        "days:",
        *(line for number in range(DAYS) for line in _day(number)),
    ]
    return "\n".join(lines) + "\n"


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """Give the pages and the data of the trip, without a site."""
    own = tmp_path_factory.mktemp("large")
    (own / "trips").mkdir()
    (own / "trips/long-round.yaml").write_text(_trip(), "utf-8")
    folder = read_folder([Layer(REPO / "content", "content"), Layer(own, "own")])
    assert not errors(folder.problems)
    stock, _ = check(folder.content)
    kit = plan_trip(folder.content.trips["long-round"], folder.content, stock)
    return write_book(kit, REPO / "site_templates")


def test_its_data_stay_small(large: Book) -> None:
    assert len(large.files["kit.json"]) <= MOST_KIT_BYTES


def test_no_page_is_long_to_load(large: Book) -> None:
    sizes = {path: len(page.encode()) + MENU_BYTES for path, page in large.markdown.items()}
    assets = REPO / "site_templates/assets"
    pocket = pocket_page(large.pocket_html, trip_id="", title="", language="en", assets=assets)
    sizes["pocket.html"] = len(pocket.encode())
    assert sum(path.startswith("numbers") for path in sizes) > DAYS
    assert {path: size for path, size in sizes.items() if size > MOST_PAGE_BYTES} == {}


def test_every_figure_of_it_follows_from_its_leaves(large: Book) -> None:
    data = told_out(json.loads(large.files["kit.json"]))
    reader = Reader(data)
    assert reader.differing() == {}
    assert len(reader.worth) > DAYS * PEOPLE * 20
