"""What a search asks of each food, kept of the shipped ones, so that none of them need be read.

`site_templates/shipped_foods.json` holds it, made of the shipped list by `python -m tests.schemas`.
It says of which list it was made: of any other it tells nothing, and the foods are read.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from builder.model.content import Content
from builder.model.food import Food
from builder.model.on_asking import OnAsking
from builder.model.trip import DIETS
from builder.planning.foods import Substance, hazards_of, substance_named
from builder.planning.menu import avoided_how
from builder.record import asdict, dataclass

FILE = "shipped_foods.json"  # among the templates


@dataclass(frozen=True, slots=True)
class Inside:
    """What is in something to eat, or in several things eaten together."""

    allergens: tuple[str, ...]
    may_contain: tuple[str, ...]  # and not told to hold
    hazards: tuple[str, ...]
    diets: tuple[str, ...]  # that it fits


@dataclass(frozen=True, slots=True)
class FoodFacts:
    """A food as a search knows it."""

    id: str
    name: str
    state: str
    kinds: tuple[str, ...]
    inside: Inside


def inside_of(substances: Sequence[Substance]) -> Inside:
    """Give what is in things that are eaten together."""
    allergens = {name for each in substances for name in each.allergens}
    traces = {name for each in substances for name in each.may_contain} - allergens
    foods = [food for each in substances for food in each.foods]
    hazards = {hazard for food in foods for hazard in hazards_of(food)}
    fits = (diet for diet in DIETS if all(avoided_how(each, diet) is None for each in substances))
    diets = tuple(fits) if foods else ()
    return Inside(_sorted(allergens), _sorted(traces), _sorted(hazards), diets)


def _sorted(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(words))


def facts_of(food: Food, content: Content) -> FoodFacts:
    """Give what a search asks of a food."""
    substance = substance_named(food.id, content)
    return FoodFacts(
        food.id, food.name, food.state, _sorted(substance.kinds), inside_of([substance])
    )


def all_facts(content: Content, kept: str) -> Iterable[FoodFacts]:
    """Give what a search asks of each food; what `kept` tells of need not be read for it."""
    foods, known = content.foods, kept_facts(kept, content.listed_as)
    for name in foods:
        waits = isinstance(foods, OnAsking) and foods.waits(name)
        yield known[name] if waits and name in known else facts_of(foods[name], content)


def kept_facts(kept: str, listed_as: str) -> Mapping[str, FoodFacts]:
    """Give what is kept of a list of foods, by id; nothing where it was made of another list."""
    told: dict[str, Any] = json.loads(kept or "{}")
    if told.get("of") != listed_as:
        return {}
    return {each["id"]: _read(each) for each in told["foods"]}


def _read(told: Mapping[str, Any]) -> FoodFacts:
    inside = {name: tuple(words) for name, words in told["inside"].items()}
    return FoodFacts(**{**told, "kinds": tuple(told["kinds"]), "inside": Inside(**inside)})


def facts_text(content: Content) -> str:
    """Give the file that keeps it of a list of foods, one on a line."""
    facts = (facts_of(content.foods[name], content) for name in content.foods)
    lines = (json.dumps(asdict(each), ensure_ascii=False) for each in facts)
    return f'{{"of": "{content.listed_as}", "foods": [\n' + ",\n".join(lines) + "\n]}\n"
