"""What meals, ways of travel and food are called, in every language."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from builder.speech import Speech, later

_MEALS = {  # as they stand inside a sentence
    "breakfast": later("breakfast"),
    "lunch": later("lunch"),
    "dinner": later("dinner"),
    "snacks": later("snacks"),
    "drinks": later("hot drinks"),
}
_TRAVELS = {
    "walking": later("walking"),
    "paddling": later("paddling"),
    "skiing": later("skiing"),
    "snowshoeing": later("snowshoeing"),
    "cycling": later("cycling"),
    "resting": later("resting"),
    "carried": later("carried along"),
}
_FOOD_OF = {
    "breakfast": later("Day {n} breakfast: {meal}"),
    "lunch": later("Day {n} lunch: {meal}"),
    "dinner": later("Day {n} dinner: {meal}"),
    "snacks": later("Day {n} snacks: {meal}"),
    "drinks": later("Day {n} drinks: {meal}"),
}


def meal_inside(say: Speech, meal: str) -> str:
    """Name a meal as it stands inside a sentence."""
    return say(_MEALS[meal])


def travel_said(say: Speech, by: str) -> str:
    """Name a way of travel."""
    return say(_TRAVELS[by])


def food_of_meal(say: Speech, day: int, meal: str, title: str) -> str:
    """Name the food of a meal as one thing in a pack."""
    return say(_FOOD_OF[meal], n=day, meal=title)


# -- food as it is now ----------------------------------------------------------------------------

# How food went into the dryer, and what it is when it comes out.
_DRIED = {
    ("plain", "dehydrator"): later("{food}, dried"),
    ("plain", "freeze-dryer"): later("{food}, freeze-dried"),
    ("plain", "oven"): later("{food}, oven-dried"),
    ("plain", "sun"): later("{food}, sun-dried"),
    ("raw", "dehydrator"): later("{food}, dried raw"),
    ("raw", "freeze-dryer"): later("{food}, freeze-dried raw"),
    ("raw", "oven"): later("{food}, oven-dried raw"),
    ("raw", "sun"): later("{food}, sun-dried raw"),
    ("heated", "dehydrator"): later("{food}, heated and dried"),
    ("heated", "freeze-dryer"): later("{food}, heated and freeze-dried"),
    ("heated", "oven"): later("{food}, heated and oven-dried"),
    ("heated", "sun"): later("{food}, heated and sun-dried"),
    ("cooked", "dehydrator"): later("{food}, cooked and dried"),
    ("cooked", "freeze-dryer"): later("{food}, cooked and freeze-dried"),
    ("cooked", "oven"): later("{food}, cooked and oven-dried"),
    ("cooked", "sun"): later("{food}, cooked and sun-dried"),
}
_JERKY = {
    "raw": later("{food}, jerky dried raw"),
    "heated": later("{food}, jerky"),
    "cooked": later("{food}, jerky"),
}
_AS_SOLD = ("dried", "ready")


def dried_name(
    say: Speech,
    name: str,
    state: str,
    method: str | None,
    stays_raw: bool = False,
    *,
    heated: bool = False,
    jerky: bool = False,
) -> str:
    """Name a food as it is once dried: `Salmon, freeze-dried raw`, not `Salmon, raw`.

    `state` is the listed food's. Raw meat, fish and egg that were not heated stay raw in name.
    """
    if method is None or state == "dried":
        return name
    if method == "bought":
        return name if state in _AS_SOLD else say("{food}, bought dried", food=name)
    first, comma, last = name.rpartition(", ")
    ends = last.casefold() if comma else ""
    was = "plain"
    if stays_raw or heated:
        was = "raw" if stays_raw else "heated"
    elif ends in _raw(say):
        was = "raw"
    elif state == "cooked" and ends not in _ways_to_cook(say):
        was = "cooked"
    if was != "plain" and ends in _raw(say) | _cooked(say):
        name = first
    if jerky and was in _JERKY:
        return say(_JERKY[was], food=name)
    return say(_DRIED[was, method], food=name)


def _raw(say: Speech) -> frozenset[str]:
    """Give the ends of names that say raw, in English and in the language of the trip."""
    return _ends("raw", say.of("ends of foods' names, parted by /", "raw"))


def _cooked(say: Speech) -> frozenset[str]:
    """Give the ends of names that say no more than cooked."""
    return _ends("cooked", say.of("ends of foods' names, parted by /", "cooked"))


def _ways_to_cook(say: Speech) -> frozenset[str]:
    """Give the ends of names that tell how food was cooked; these stay in its name."""
    said = say.of(
        "ends of foods' names, parted by /",
        "roasted/boiled/boiled soft/hard-boiled/steamed/fried/baked/made up/made with water",
    )
    return _ends(said)


def _ends(*told: str) -> frozenset[str]:
    return frozenset(each.casefold() for words in told for each in words.split("/"))


def told_apart(say: Speech, names: Mapping[str, str]) -> dict[str, str]:
    """Give the names of batches by their ids; those called alike tell their id too."""
    alike = Counter(names.values())
    return {
        batch: say("{food} ({batch})", food=name, batch=batch) if alike[name] > 1 else name
        for batch, name in names.items()
    }


def days_said(say: Speech, numbers: Iterable[int]) -> str:
    """Name days in a sentence, such as "day 2" or "days 1, 2 and 4"."""
    days = sorted(set(numbers))
    if len(days) == 1:
        return say("day {n}", n=days[0])
    return say("days {list}", list=say.listed(str(day) for day in days))
