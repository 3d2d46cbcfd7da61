"""Shipped names and cautions in the language of a trip."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from builder.model.content import Content
from builder.model.food import Food
from builder.model.gear import Dryer, Fuel, Iron, Packaging, Pot, Stove
from builder.model.on_asking import each_changed
from builder.model.source import CautionText
from builder.model.trip import ENGLISH
from builder.planning.stock import Stock, stock_said
from builder.record import replace
from builder.speech import Speech, speech_of

_Named = TypeVar("_Named", Food, Stove, Fuel, Pot, Iron, Packaging, Dryer)


def worded(content: Content, stock: Stock, language: str) -> tuple[Content, Stock]:
    """Give content and stock in a language; what its catalogue does not know stays as it is."""
    if language == ENGLISH:
        return content, stock
    said = content_said(content, speech_of(language))
    return said, stock_said(said, language)


def content_said(content: Content, say: Speech) -> Content:
    """Give content with its foods, gear and cautions in a language."""
    gear = content.gear
    return replace(
        content,
        foods=each_changed(content.foods, lambda each: _food(each, say)),
        gear=replace(
            gear,
            stoves=_named(gear.stoves, say),
            fuels=_named(gear.fuels, say),
            pots=_named(gear.pots, say),
            irons=_named(gear.irons, say),
            packaging=_named(gear.packaging, say),
            dryers=_named(gear.dryers, say),
        ),
        cautions=each_changed(content.cautions, lambda each: _caution(each, say)),
    )


def _named(records: Mapping[str, _Named], say: Speech) -> dict[str, _Named]:
    return {key: _said(each, say) for key, each in records.items()}


def _said(record: _Named, say: Speech) -> _Named:
    return replace(record, name=say.name(record.name))


def _food(food: Food, say: Speech) -> Food:
    return replace(_said(food, say), shelf=say.name(food.shelf) if food.shelf else "")


def _caution(text: CautionText, say: Speech) -> CautionText:
    title = say(text.title) if text.title else ""
    return replace(text, title=title, text=say(text.text) if text.text else "")
