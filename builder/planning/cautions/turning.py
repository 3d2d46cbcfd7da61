"""Which cautions a trip would show if its camps were otherwise: higher, colder, warmer, in wind.

The predicates themselves are asked, about the same trip elsewhere; the limit is found by trying.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from functools import cache, partial
from typing import get_args

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c
from builder.formulas.heat import WIND_FACTOR
from builder.model.kit import Conditions, PlannedMeal
from builder.model.mishaps import Otherwise, Turn
from builder.model.source import CautionText
from builder.model.trip import Wind
from builder.planning.cautions.facts import Facts, Finding
from builder.planning.cautions.table import PREDICATES
from builder.record import dataclass, replace

# Halvings: what is left open of a limit is less than a degree, or fifty metres.
_TRIES = 7
Predicate = Callable[[Facts], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class _Way:
    """One way in which camps may be otherwise, up to what hardly any camp is."""

    kind: Otherwise
    of: Callable[[Conditions], float]
    at: Callable[[Conditions, float], Conditions]
    far: float
    asks: tuple[str, ...]  # the cautions that hang on it

    def mildest(self, facts: Facts) -> float:
        """Give the value of the camp that is the furthest from the far end."""
        of_camps = (float(self.of(day.conditions)) for day in facts.days)
        return max(of_camps, key=lambda value: abs(value - self.far))


def _at_height(here: Conditions, altitude_m: float) -> Conditions:
    hpa = pressure_hpa(altitude_m)
    boils_c = boiling_point_c(hpa)
    return replace(here, altitude_m=altitude_m, pressure_hpa=hpa, boiling_point_c=boils_c)


def _in_wind(here: Conditions, factor: float) -> Conditions:
    wind = min(get_args(Wind), key=lambda each: abs(WIND_FACTOR[each] - factor))
    return replace(here, wind=wind, wind_factor=factor)


def _as_cold(here: Conditions, low_c: float) -> Conditions:
    return replace(here, air_low_c=low_c)


def _as_warm(here: Conditions, high_c: float) -> Conditions:
    return replace(here, air_high_c=high_c)


WAYS = (
    _Way(
        "height",
        lambda here: here.altitude_m,
        _at_height,
        6000.0,
        (
            *("reach-above-boiling", "kidney-beans", "home-canned", "boil-longer"),
            *("height-gained-fast", "thin-air"),
        ),
    ),
    _Way(
        "coldest",
        lambda here: here.air_low_c,
        _as_cold,
        -40.0,
        ("gas-in-the-cold", "fuel-too-cold", "frozen-filter"),
    ),
    _Way(
        "warmest",
        lambda here: here.air_high_c,
        _as_warm,
        45.0,
        (
            *("animal-food-carried-warm", "plant-food-carried-warm"),
            *("animal-food-standing", "plant-food-standing"),
            *("algae", "heat-illness", "over-drinking"),
        ),
    ),
    _Way(
        "wind",
        lambda here: here.wind_factor,
        _in_wind,
        WIND_FACTOR["windy"],
        ("windscreen-and-gas",),
    ),
)


def turns_of(
    facts: Facts, texts: Mapping[str, CautionText], shown: Collection[str]
) -> tuple[Turn, ...]:
    """Give the cautions that are not shown, and would be; each with where that begins."""
    return tuple(turn for way in WAYS for turn in _turns(facts, texts, shown, way))


def _turns(
    facts: Facts, texts: Mapping[str, CautionText], shown: Collection[str], way: _Way
) -> Iterator[Turn]:
    # All limits are tried for from the same ends, and a trip elsewhere is much to put together.
    at = cache(partial(elsewhere, facts, way))
    for name in way.asks:
        predicate = PREDICATES[name]
        found = () if name in shown or name not in texts else tuple(predicate(at(way.far)))
        if found:
            days = {day for each in found for day in _days(each)}
            limit = _limit(at, (way.mildest(facts), way.far), predicate)
            text = texts[name]
            yield Turn(name, text.level, text.title, way.kind, limit, tuple(sorted(days)))


def _limit(at: Callable[[float], Facts], ends: tuple[float, float], predicate: Predicate) -> float:
    """Give a value up to which a predicate finds nothing; what lies just beyond it is told too."""
    calm, found = ends
    for _ in range(_TRIES):
        middle = (calm + found) / 2
        if any(predicate(at(middle))):
            found = middle
        else:
            calm = middle
    return calm


def elsewhere(facts: Facts, way: _Way, value: float) -> Facts:
    """Give a trip all of whose camps are at one value."""
    camps: dict[int, Conditions] = {}

    def camp(here: Conditions) -> Conditions:
        if id(here) not in camps:
            camps[id(here)] = way.at(here, value)
        return camps[id(here)]

    def meal(of: PlannedMeal) -> PlannedMeal:
        return replace(of, conditions=camp(of.conditions))

    return replace(
        facts,
        days=tuple(replace(day, conditions=camp(day.conditions)) for day in facts.days),
        menus=tuple(
            tuple(replace(item, planned=meal(item.planned)) for item in menu)
            for menu in facts.menus
        ),
    )


def _days(found: Finding) -> tuple[int, ...]:
    return (found.at.meal[0],) if found.at.meal else found.at.days
