"""What a recipe's page carries to follow who eats and how high the camp is."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from builder.formulas.expression import evaluate
from builder.model.kit import Kit
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.origins.changing import shared_formulas
from builder.planning.public import without_people
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.dishes import POCKETS, PULSE, STEW, TEA
from tests.pages.seen import Seen, seen_in
from tests.planning.folders import day, day_trip, hand

FIGURES = re.compile(r'<script type="application/json" class="figures">(.*)</script>')
DINNER = {
    "dinner": [{"cook": "stew", "from": {"pulse": "pulse-box"}}, {"cook": "pockets"}],
    "drinks": [{"cook": "tea"}],
}
SHARED: Any = shared_formulas()  # these come with the kit's script
FIRE = {"allowed": True, "irons": ["one-iron"], "wood_moisture": "20 %"}


def planned(folder: Path, **changes: object) -> Kit:
    trip = day_trip(fire=FIRE, days=[day(DINNER, **changes)])
    return hand(folder, trip, [STEW, POCKETS, TEA], [PULSE]).kit()


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> Kit:
    return planned(tmp_path_factory.mktemp("followed"))


@pytest.fixture(scope="module")
def whole(kit: Kit) -> Book:
    return write_book(kit, TEMPLATES)


def page(book: Book, recipe: str) -> Seen:
    return seen_in(book.markdown[f"cook/{recipe}.md"])


def figures(book: Book, recipe: str) -> Any:
    (told,) = FIGURES.findall(book.markdown[f"cook/{recipe}.md"])
    return json.loads(told)


def marked(seen: Seen, name: str) -> list[dict[str, str | None]]:
    return [given for _, given in seen.tags if name in str(given.get("class") or "").split()]


def party(seen: Seen) -> dict[str, str | None]:
    (box,) = marked(seen, "party")
    return box


def worth(data: Any, name: str) -> Any:
    """Work a figure out from the page's leaves and what all pages share, alone."""
    figure = data["figures"][name]
    if "formula" not in figure:
        return figure["value"]
    given = {
        symbol: tuple(worth(data, each) for each in one["figures"])
        if "figures" in one
        else worth(data, one["figure"])
        if "figure" in one
        else one["value"]
        for symbol, one in figure["inputs"].items()
    }
    formula = {**SHARED, **data["formulas"]}[figure["formula"]]
    return evaluate(formula["expression"], {**formula.get("constants", {}), **given})


@pytest.mark.parametrize(
    ("place", "recipe", "changed"),
    [
        (0, "stew", ("data-eaters", "data-height")),
        (1, "pockets", ("data-eaters",)),  # pressed dry, as quickly up high
        (2, "tea", ("data-eaters", "data-height")),
    ],
)
def test_the_page_carries_its_figures_down_to_what_one_changes(
    whole: Book, place: int, recipe: str, changed: tuple[str, ...]
) -> None:
    data = figures(whole, recipe)
    told = json.loads(whole.files["kit.json"])["figures"]
    box = party(page(whole, recipe))
    places = [
        each["place"]
        for figure in data["figures"].values()
        for each in (figure, *figure.get("inputs", {}).values())
        if "place" in each
    ]
    assert set(places) == {box[each] for each in changed}
    assert all(re.fullmatch(r"trips/hand\.yaml:\d+:\d+", each) for each in places)
    for name, figure in data["figures"].items():
        assert "formula" not in figure or "value" not in figure  # the page works it out
        if not name.startswith("#") and name in told:
            assert worth(data, name) == pytest.approx(told[name]["value"], rel=1e-9), name
    shown = {
        given["data-figure"] for _, given in page(whole, recipe).tags if "data-figure" in given
    }
    assert f"days.0.meals.{place}.minutes" in shown & set(data["figures"])
    # All that is carried is shown, or leads to what is shown.
    assert {name for name in data["figures"] if not name.startswith("#")} <= shown


def test_names_that_hold_signs_stay_text(kit: Kit) -> None:
    nasty = 'E"a | <b>'
    meals = tuple(replace(meal, eaters=(nasty, *meal.eaters[1:])) for meal in kit.days[0].meals)
    days = (replace(kit.days[0], meals=meals),)
    seen = page(write_book(replace(kit, days=days), TEMPLATES), "stew")
    assert json.loads(party(seen)["data-names"] or "") == [nasty, "Bo"]
    assert "b" not in seen.names


def test_nothing_in_the_data_ends_its_element(kit: Kit, tmp_path: Path) -> None:
    odd = hand(
        tmp_path, day_trip(fire=FIRE, days=[day(DINNER)]), [STEW, POCKETS, TEA], [PULSE]
    ).kit()
    here = odd.days[0].meals[0]
    origin = here.heads.origin  # type: ignore[attr-defined]
    file = replace(origin.place, file="a</script><b>&amp;.yaml")
    heads = type(here.heads)(here.heads, replace(origin, place=file))  # type: ignore[call-arg]
    meals = (replace(here, heads=heads), *odd.days[0].meals[1:])
    days = (replace(odd.days[0], meals=meals),)
    text = write_book(replace(odd, days=days), TEMPLATES).markdown["cook/stew.md"]
    (told,) = FIGURES.findall(text)
    assert "<" not in told and "&" not in told
    assert "</script><b>" not in text.replace(told, "")


def test_a_public_page_names_nobody_and_no_place(kit: Kit) -> None:
    book = write_book(without_people(kit), TEMPLATES)
    box = party(page(book, "stew"))
    assert (box["data-names"], box["data-eaters"], box["data-height"]) == ("[]", "eaters", "height")
    assert ".yaml" not in json.dumps(figures(book, "stew"))


def test_minutes_that_go_by_the_height_follow_and_others_stay(whole: Book) -> None:
    carried = figures(whole, "stew")["figures"]
    lasts = [given["data-figure"] for given in marked(page(whole, "stew"), "lasts")]
    assert [name in carried and "formula" in carried[name] for name in lasts] == [False, True]


def test_time_boiling_point_and_height_are_marked_in_both_units(whole: Book) -> None:
    seen = page(whole, "stew")
    assert len(marked(seen, "takes")) == 1
    for name in ("boils-at", "height"):
        assert [given["data-units"] for given in marked(seen, name)] == ["metric", "us"]


def test_pieces_at_a_time_are_a_figure(whole: Book) -> None:
    (at_once,) = marked(page(whole, "pockets"), "at-once")
    name = str(at_once["data-figure"])
    # Two pieces for each of two, in four presses.
    assert worth(figures(whole, "pockets"), name) == 1


def test_a_told_pressure_follows_the_height_by_its_formula(tmp_path: Path) -> None:
    book = write_book(planned(tmp_path, barometer="880 hPa", camp_altitude=None), TEMPLATES)
    box, data = party(page(book, "stew")), figures(book, "stew")
    through = str(box["data-through"])
    assert data["figures"][through]["inputs"]["altitude_m"] == {
        "value": pytest.approx(1160, abs=20),
        "place": "height",
    }
    # For the height as planned it gives the pressure that was told.
    assert worth(data, through) == pytest.approx(880, rel=1e-9)
    boils = data["figures"]["days.0.meals.0.boiling_point_c"]
    assert boils["inputs"]["pressure_hpa"] == {"value": 880, "place": box["data-height"]}


def test_numbers_without_an_origin_carry_nothing_to_follow(book: Book) -> None:
    assert figures(book, "smoky-bean-pot") == {"formulas": {}, "figures": {}}
