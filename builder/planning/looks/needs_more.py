"""Energy that some need on top of the plan: in the cold, high up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.formulas.needs import altitude_range_kcal, cold_range_kcal
from builder.model.figure import Figure, add, counted
from builder.model.kit import KitDay
from builder.model.looks import NeedMore, NeedsMoreFor
from builder.model.trip import Person
from builder.planning.tracing import work_range

_COLD_BY = ("compendium2024", "iom1996")
_HIGH_BY = ("iom1996",)


def needs_more(person: Person, days: Sequence[KitDay]) -> Iterator[NeedMore]:
    """Give what a person may need besides what the plan counts; the plan stays as it is."""
    own = [(day, day.person(person.name)) for day in days]
    colds = [
        work_range(cold_range_kcal, each.energy_need_kcal, day.conditions.air_low_c)
        for day, each in own
    ]
    yield from _on_some_days("cold", colds, _COLD_BY)
    highs = [
        work_range(altitude_range_kcal, each.basal_kcal, day.conditions.altitude_m)
        for day, each in own
    ]
    yield from _on_some_days("height", highs, _HIGH_BY)


def _on_some_days(
    why: NeedsMoreFor,
    spans: Sequence[tuple[Figure, ...]],
    sources: tuple[str, ...],
) -> Iterator[NeedMore]:
    """Give the mean over the days that ask for more."""
    asking = [span for span in spans if span[-1] > 0]
    if asking:
        number = counted(len(asking), "days")
        low, high = (add(ends) / number for ends in zip(*asking, strict=True))
        yield NeedMore(why, number, (low, high), sources)
