"""Energy that some need on top of the plan: pregnant, nursing, in the cold, high up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.formulas.needs import (
    NURSING_KCAL,
    PREGNANCY_KCAL,
    altitude_range_kcal,
    cold_range_kcal,
    nursing_kcal,
    pregnancy_kcal,
)
from builder.model.kit import KitDay, PersonDay
from builder.model.looks import NeedMore, NeedsMoreFor, Span
from builder.model.trip import Person

_COLD_BY = ("compendium2024", "iom1996")
_HIGH_BY = ("iom1996",)


def needs_more(person: Person, days: Sequence[KitDay]) -> Iterator[NeedMore]:
    """Give what a person may need besides what the plan counts; the plan stays as it is."""
    if person.pregnant:
        # The third is not told, so the last is taken: it asks for most.
        found = [pregnancy_kcal(None, published) for published in PREGNANCY_KCAL]
        kcal = (min(found), max(found))
        yield NeedMore(person.name, "pregnant", len(days), kcal, tuple(PREGNANCY_KCAL))
    if person.nursing:
        found = [nursing_kcal(published) for published in NURSING_KCAL]
        kcal = (min(found), max(found))
        yield NeedMore(person.name, "nursing", len(days), kcal, tuple(NURSING_KCAL))
    own = [(day, each) for day in days for each in day.people if each.name == person.name]
    colds = [cold_range_kcal(each.energy_need_kcal, day.conditions.air_low_c) for day, each in own]
    yield from _on_some_days(person, "cold", colds, _COLD_BY)
    highs = [_high(day, each) for day, each in own]
    yield from _on_some_days(person, "height", highs, _HIGH_BY)


def _high(day: KitDay, each: PersonDay) -> Span:
    return altitude_range_kcal(each.basal_kcal, day.conditions.altitude_m)


def _on_some_days(
    person: Person, why: NeedsMoreFor, spans: Sequence[Span], sources: tuple[str, ...]
) -> Iterator[NeedMore]:
    """Give the mean over the days that ask for more."""
    asking = [span for span in spans if span[1] > 0]
    if asking:
        low, high = (sum(ends) / len(asking) for ends in zip(*asking, strict=True))
        yield NeedMore(person.name, why, len(asking), (low, high), sources)
