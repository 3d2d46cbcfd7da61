"""What of the fourteen allergens a meal holds is told where it is cooked and eaten, and as data."""

from __future__ import annotations

import json
from typing import Any

import pytest

from builder.model.kit import How, Kit, KitCaution, LeftOut, Refused
from builder.pages.trip.book import write_book
from builder.pages.trip.dishes.allergens import allergens_said
from builder.record import replace
from builder.speech import speech_of
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit
from tests.pages.seen import seen_in

BEANS, NUTS = 2, 1  # places of day 1: the bean pot is cooked, the nut mix eaten as it is


def with_meal(place: int, **told: tuple[str, ...]) -> Kit:
    kit = sample_kit()
    day = kit.days[0]
    meals = list(day.meals)
    meals[place] = replace(meals[place], **told)  # type: ignore[arg-type]
    return replace(kit, days=(replace(day, meals=tuple(meals)), *kit.days[1:]))


def words(kit: Kit, path: str) -> str:
    return seen_in(write_book(kit, TEMPLATES).markdown[path]).words.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("told", "lines"),
    [
        ({}, ()),
        ({"allergens": ("eggs", "milk")}, ("Contains: eggs and milk.",)),
        ({"may_contain": ("nuts",)}, ("May contain: tree nuts.",)),
        ({"not_told": ("Fudge, soft", "Halva")}, ("Allergens not given: Fudge, soft; Halva.",)),
    ],
)
def test_each_way_of_knowing_is_said_apart_and_nothing_is_called_free(
    told: dict[str, tuple[str, ...]], lines: tuple[str, ...]
) -> None:
    meal = with_meal(BEANS, **told).days[0].meals[BEANS]
    assert allergens_said(speech_of("en"), meal) == lines


def test_the_page_of_a_recipe_tells_all_three() -> None:
    kit = with_meal(BEANS, allergens=("milk",), may_contain=("nuts",), not_told=("Stock",))
    recipe = kit.days[0].meals[BEANS].recipe
    shown = words(kit, f"cook/{recipe}.md")
    assert "Contains: milk. May contain: tree nuts. Allergens not given: Stock." in shown
    assert "Contains:" not in words(sample_kit(), f"cook/{recipe}.md")


def test_the_page_of_a_day_tells_what_nobody_told() -> None:
    cooked = words(with_meal(BEANS, not_told=("Stock",)), "day-1.md")
    assert "allergens not given: Stock" in cooked
    eaten = words(with_meal(NUTS, not_told=("Nut mix",)), "day-1.md")
    assert ", allergens not given" in eaten
    assert "not told" not in words(sample_kit(), "day-1.md")


def test_data_tell_how_each_food_is_not_for_somebody() -> None:
    kit = with_meal(BEANS, allergens=("milk",), may_contain=("nuts",), not_told=("Stock",))
    party = (
        replace(
            kit.party[0],
            refused=(Refused(1, BEANS, "Stock", True, "not-told"),),
            left_out=(LeftOut(1, "lunch", 0.7, False),),
        ),
        kit.party[1],
    )
    data: dict[str, Any] = json.loads(
        write_book(replace(kit, party=party), TEMPLATES).files["kit.json"]
    )
    meal = data["days"][0]["meals"][BEANS]
    assert (meal["allergens"], meal["may_contain"]) == (["milk"], ["nuts"])
    assert meal["not_told"] == ["Stock"]
    first, second = data["trip"]["party"]
    assert first["refused"] == [
        {
            "day": 1,
            "meal": "dinner",
            "place": BEANS,
            "what": "Stock",
            "eats": True,
            "how": "not-told",
        }
    ]
    assert first["left_out"] == [{"day": 1, "meal": "lunch", "energy_share": 0.7, "meant": False}]
    assert (second["refused"], second["left_out"]) == ([], [])


def test_the_pocket_page_says_of_those_alone_who_must_not_eat_it() -> None:
    kit = with_meal(BEANS, allergens=("nuts",), may_contain=("milk",))
    refused: tuple[tuple[How, str], ...] = (("told", "nuts"), ("may-contain", "milk"))
    party = tuple(
        replace(person, avoids=(word,), refused=(Refused(1, BEANS, "Black beans", True, how),))
        for person, (how, word) in zip(kit.party, refused, strict=True)
    )
    danger = KitCaution(
        "not-to-be-eaten",
        "danger",
        "Someone must not eat this",
        "Cook for them apart.",
        "it holds nuts",
        f"cook/{kit.days[0].meals[BEANS].recipe}",
        (),
    )
    kit = replace(kit, party=party, cautions=(danger,))
    page = write_book(kit, TEMPLATES).pocket_html
    ash, rowan = (person.name for person in party)
    assert f"{ash} must not eat tree nuts" in page
    assert f"{rowan} must not eat" not in page
    assert f"{ash}: black beans" in page.lower().replace(ash.lower(), ash)
    assert f"{rowan}: black beans" not in page
    assert "Contains: tree nuts. May contain: milk." in page
