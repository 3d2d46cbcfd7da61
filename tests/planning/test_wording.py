"""A trip in another language: other words, the same plan, and not one caution less."""

from __future__ import annotations

from typing import Any

import pytest

from builder.model.content import Content
from builder.model.food import FLESH_KINDS
from builder.model.kit import Kit
from builder.model.trip import ENGLISH, LANGUAGES
from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.foods.hazards import hazards_of, is_minced
from builder.planning.kit import plan_trip
from builder.planning.stock.checks import check
from builder.planning.stock.packs import Stock
from builder.planning.wording import content_said, worded
from builder.reading.folder import Layer, read_folder
from builder.record import replace
from builder.speech import Speech, speech_of
from tests.planning.folders import SHIPPED

OTHERS = [language for language in LANGUAGES if language != ENGLISH]
TRIPS = ("graupel-ridge", "lake-emmerin", "tarrow-tops")


@pytest.fixture(scope="module")
def shipped() -> tuple[Content, Stock]:
    content = read_folder([Layer(SHIPPED, "content")]).content
    return content, check(content)[0]


def planned(shipped: tuple[Content, Stock], trip: str, language: str) -> Kit:
    content, stock = worded(*shipped, language)
    return plan_trip(replace(content.trips[trip], language=language), content, stock)


def data_of(kit: Kit) -> Any:
    """Give a kit's data, its shopping list in an order that does not hang on names."""
    return kit_data(replace(kit, shopping=tuple(sorted(kit.shopping, key=lambda each: each.food))))


def bare(data: Any) -> Any:
    """Take all texts out of a kit's data: what is left must not hang on the language."""
    if isinstance(data, dict):
        return {key: bare(each) for key, each in data.items()}
    if isinstance(data, list | tuple):
        return [bare(each) for each in data]
    return "" if isinstance(data, str) else data


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("trip", TRIPS)
def test_a_language_changes_words_only(
    shipped: tuple[Content, Stock], trip: str, language: str
) -> None:
    english, other = planned(shipped, trip, ENGLISH), planned(shipped, trip, language)
    assert bare(data_of(other)) == bare(data_of(english))
    assert [(each.id, each.level, each.where, each.sources) for each in other.cautions] == [
        (each.id, each.level, each.where, each.sources) for each in english.cautions
    ]
    assert [each.text for each in other.cautions] != [each.text for each in english.cautions]


@pytest.mark.parametrize("language", OTHERS)
def test_what_a_food_is_watched_for_does_not_hang_on_its_name(
    shipped: tuple[Content, Stock], language: str
) -> None:
    said = content_said(shipped[0], speech_of(language)).foods
    for key, food in shipped[0].foods.items():
        other = said[key]
        assert hazards_of(other) == hazards_of(food), key
        if food.kind in FLESH_KINDS:
            assert is_minced(other) == is_minced(food), key


def test_the_shelves_of_a_shop_are_said_as_names_are(
    shipped: tuple[Content, Stock], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Speech, "name", lambda _say, name: name.upper())
    said = content_said(shipped[0], speech_of("de")).foods
    assert (said["olive-oil"].name, said["olive-oil"].shelf) == (
        "OLIVE OIL",
        "OILS, SAUCES AND SEASONING",
    )
