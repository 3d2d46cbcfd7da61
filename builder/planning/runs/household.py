"""A home with what it plans runs with, and how that stands in bare numbers."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from itertools import combinations

from builder.model.content import Content
from builder.model.gear import Dryer
from builder.planning.drying import FREEZER_HOURS, hours_in, may_share, most_load_g, suits
from builder.planning.runs.free_time import FreeTime, Window
from builder.planning.runs.logged_runs import busy
from builder.planning.runs.packing import Free, Place, Task, Thing
from builder.planning.runs.plan import Run
from builder.planning.runs.wanted import ToDry
from builder.record import dataclass
from builder.speech import Speech

# Nobody dries earlier for a trip.
MOST_DAYS_BEFORE = datetime.timedelta(days=60)
G_PER_KG = 1000.0


@dataclass(frozen=True, slots=True)
class Household:
    """What runs are planned with: dryers by id, free hours, what stands in them already."""

    content: Content
    at: datetime.date
    dryers: Mapping[str, Dryer]
    free: FreeTime
    logged: tuple[Run, ...]
    say: Speech

    @property
    def midnight(self) -> datetime.datetime:
        """The moment that hours are counted from."""
        return datetime.datetime.combine(self.at, datetime.time())

    def hour(self, at: datetime.datetime) -> float:
        """Give a moment as hours since the first midnight."""
        return (at - self.midnight).total_seconds() / 3600

    def moment(self, hour: float) -> datetime.datetime:
        """Give the moment of an hour since the first midnight."""
        return self.midnight + datetime.timedelta(minutes=round(hour * 60))

    def day(self, date: datetime.date) -> int:
        """Give a date as days since the first one."""
        return (date - self.at).days


def dryers_at_home(content: Content) -> dict[str, Dryer]:
    """Give the dryers that stand at home: as told, else those that batches were dried in."""
    told = content.home.dryers or tuple(
        sorted({batch.dryer for batch in content.batches.values() if batch.dryer})
    )
    return {name: content.gear.dryers[name] for name in told}


def task_of(loads: Sequence[ToDry], dryers: Sequence[Dryer], home: Household) -> Task:
    """Put everything into bare numbers, with the free hours of the days before each deadline."""
    last_days = {each.last_day for each in loads}
    windows = [
        window
        for window in home.free.windows(max(last_days))
        if any(last - MOST_DAYS_BEFORE <= window.day <= last for last in last_days)
    ]
    apart = {
        (one, other)
        for one, other in combinations(range(len(loads)), 2)
        if not may_share(loads[one].goes, loads[other].goes)
    }
    return Task(
        things=tuple(_thing(each, dryers, home) for each in loads),
        apart=frozenset(apart),
        places=tuple(_place(each, home) for each in dryers),
        free=tuple(_free(window, home) for window in windows),
    )


def _free(window: Window, home: Household) -> Free:
    return Free(home.day(window.day), home.hour(window.start), home.hour(window.end))


def _thing(each: ToDry, dryers: Sequence[Dryer], home: Household) -> Thing:
    return Thing(
        fresh_kg=float(each.fresh_g) / G_PER_KG,
        water_share=float(each.water_share),
        hours=tuple(
            hours_in(dryer, each.goes) if suits(dryer, each.goes) else None for dryer in dryers
        ),
        first_day=home.day(each.first_day),
        last_day=home.day(each.last_day),
        spare_day=home.day(home.free.last_day_to_spare(each.last_day)),
    )


def _place(dryer: Dryer, home: Household) -> Place:
    from_h = 0.0
    if dryer.method == "freeze-dryer":
        first = home.free.first_free(home.midnight)
        from_h = (home.hour(first) if first else 0.0) + FREEZER_HOURS
    return Place(
        load_kg=float(most_load_g(dryer)) / G_PER_KG,
        ice_kg=None if dryer.ice_g is None else dryer.ice_g / G_PER_KG,
        from_h=from_h,
        busy_h=tuple(
            (home.hour(start), home.hour(end))
            for start, end in (busy(run) for run in home.logged if run.dryer == dryer.id)
        ),
    )
