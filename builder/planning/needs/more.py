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
from builder.model.figure import Count, Figure, Found, Named, add, largest, named, smallest
from builder.model.kit import KitDay
from builder.model.looks import NeedMore, NeedsMoreFor
from builder.model.trip import Person
from builder.planning.tracing import work_range

_COLD_BY = ("compendium2024", "iom1996")
_HIGH_BY = ("iom1996",)


def needs_more(person: Person, days: Sequence[KitDay]) -> Iterator[NeedMore]:
    """Give what a person may need besides what the plan counts; the plan stays as it is."""
    if person.pregnant:
        # The third is not told, so the last is taken: it asks for most.
        found = [
            named(pregnancy_kcal(None, by), "pregnancy_kcal (last third)", by)
            for by in PREGNANCY_KCAL
        ]
        yield _always(person, "pregnant", days, found)
    if person.nursing:
        found = [named(nursing_kcal(by), "nursing_kcal", by) for by in NURSING_KCAL]
        yield _always(person, "nursing", days, found)
    own = [(day, each) for day in days for each in day.people if each.name == person.name]
    colds = [
        work_range(cold_range_kcal, each.energy_need_kcal, day.conditions.air_low_c)
        for day, each in own
    ]
    yield from _on_some_days(person, "cold", colds, _COLD_BY)
    highs = [
        work_range(altitude_range_kcal, each.basal_kcal, day.conditions.altitude_m)
        for day, each in own
    ]
    yield from _on_some_days(person, "height", highs, _HIGH_BY)


def _always(
    person: Person, why: NeedsMoreFor, days: Sequence[KitDay], found: Sequence[Figure]
) -> NeedMore:
    """Give the least and the most of what was published, for every day."""
    kcal = (smallest(*found), largest(*found))
    by = tuple(each.origin.source for each in found if isinstance(each.origin, Named))
    return NeedMore(person.name, why, _number_of(days), kcal, by)


def _number_of(days: Sequence[object]) -> Count:
    return Count(len(days), Found("days", "counted"))


def _on_some_days(
    person: Person,
    why: NeedsMoreFor,
    spans: Sequence[tuple[Figure, ...]],
    sources: tuple[str, ...],
) -> Iterator[NeedMore]:
    """Give the mean over the days that ask for more."""
    asking = [span for span in spans if span[-1] > 0]
    if asking:
        number = _number_of(asking)
        low, high = (add(ends) / number for ends in zip(*asking, strict=True))
        yield NeedMore(person.name, why, _number_of(asking), (low, high), sources)
