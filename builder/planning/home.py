"""Plans the home: the one place that knows what all belongs to no single trip."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.model.content import Content
from builder.model.gear import Dryer, LabelSheet
from builder.model.home import Home
from builder.model.kit import Kit
from builder.model.learned import Habit
from builder.planning.after import Lesson, habits_of, lesson_of
from builder.planning.at_home import TripBags, TripShare, share_of
from builder.planning.runs import DryingPlan, Search, pack, plan_runs
from builder.planning.stock import (
    Dryable,
    Followed,
    Stock,
    StockLine,
    dryables,
    followed,
    stock_lines,
)
from builder.planning.ways import Changeable, Ways, ways_to_change
from builder.planning.wording import worded
from builder.planning.year import (
    Experience,
    PackLabel,
    Purchase,
    TakenFromStock,
    Task,
    TripAhead,
    experiences,
    labels_of,
    purchases,
    taken_from_stock,
    tasks_of,
    trips_ahead,
)
from builder.record import dataclass, field, replace
from builder.speech import speech_of

WAYS_OF_G = 1000.0
# Runs are looked for, bags listed and lists written for the next trips; the rest can wait.
MOST_TRIPS = 4


@dataclass(frozen=True, slots=True)
class TripShopping:
    """What to buy for one trip alone."""

    trip: str
    title: str
    shopping: tuple[Purchase, ...]
    from_stock: tuple[TakenFromStock, ...]


@dataclass(frozen=True, slots=True)
class HomePlan:
    """All that the site of the home tells, as of one day."""

    home: Home
    day: datetime.date
    stock: tuple[StockLine, ...]
    drying: DryingPlan
    ways: tuple[Ways, ...]
    sources: Mapping[str, str]  # titles of what the ways rest on, by id
    learned: tuple[Experience, ...]
    tasks: tuple[Task, ...]
    trips: tuple[TripAhead, ...]
    labels: tuple[PackLabel, ...]
    sheets: Mapping[str, LabelSheet]
    shopping: tuple[Purchase, ...]
    from_stock: tuple[TakenFromStock, ...]
    bagging: tuple[TripBags, ...]
    in_dryer: tuple[Followed, ...] = ()
    dryable: tuple[Dryable, ...] = ()
    dryers: tuple[Dryer, ...] = ()  # that stand at home
    trip_shopping: tuple[TripShopping, ...] = ()
    asked: Mapping[str, Changeable] = field(default_factory=dict)  # ways that hang on prices
    habits: tuple[Habit, ...] = ()  # what trips that are over teach the next one
    later_trips: int = 0  # whose runs, bags and own lists are not told yet


def has_home(content: Content) -> bool:
    """Tell whether there is anything to say of a home: a file of it, or a batch in the log."""
    return content.home.is_told or bool(content.batches)


def day_of(content: Content, today: datetime.date) -> datetime.date:
    """Give the day that the home is told of: today, or the last entry of the log if it is later.

    A log that runs ahead of the clock is one that is looked at as its writer sees it.
    """
    return max([today, *_logged(content)])


def _logged(content: Content) -> Iterable[datetime.date]:
    for batch in content.batches.values():
        if batch.done is not None:
            yield batch.done
        if batch.started is not None:
            yield batch.started.date()


def plan_home(
    content: Content,
    stock: Stock,
    kits: Sequence[Kit | TripShare],
    day: datetime.date,
    with_runs: bool = True,
    *,
    search: Search = pack,
) -> HomePlan:
    """Give the plan of the home as of a day, in its language; `kits` are those of all trips.

    Looking for runs and ways may take its time, and who prints labels need not wait for it;
    `search` looks for runs.
    """
    home = content.home
    say = speech_of(home.language)
    content, stock = worded(content, stock, home.language)
    shares = [share_of(kit) for kit in kits]
    ahead = sorted((each for each in shares if not _is_over(each, day)), key=_by_start)
    soon = ahead[:MOST_TRIPS]
    drying = DryingPlan()
    if with_runs:
        drying = plan_runs(content, stock, day, [kit.id for kit in soon], say, search=search)
    asked = _ways(content, stock, day) if with_runs else []
    ways = tuple(each.ways for each in asked)
    lines = tuple(stock_lines(stock, day, say, home.units))
    return HomePlan(
        home=home,
        day=day,
        stock=lines,
        drying=drying,
        ways=ways,
        sources=_sources(ways, content),
        learned=experiences(stock),
        habits=tuple(_habits(content, shares, day)),
        tasks=tasks_of(stock, lines, day, say, home.units),
        trips=trips_ahead(ahead, day),
        labels=labels_of(stock, day, say),
        sheets=content.gear.sheets,
        shopping=purchases(ahead, content, drying),
        from_stock=taken_from_stock(ahead),
        later_trips=len(ahead) - len(soon),
        trip_shopping=tuple(_trip_shopping(kit, content, drying) for kit in soon),
        asked={each.ways.holds: each for each in asked},
        bagging=tuple(each.bags for each in soon),
        in_dryer=followed(stock),
        dryable=dryables(content, stock),
        dryers=tuple(content.gear.dryers[name] for name in home.dryers),
    )


def _ways(content: Content, stock: Stock, day: datetime.date) -> list[Changeable]:
    """Give the ways to dry what this home dries, each for the same mass of fresh food."""
    dried = {batch.holds for batch in content.batches.values() if not batch.is_bought}
    found = [ways_to_change(holds, WAYS_OF_G, content, stock, day) for holds in dried]
    return sorted(found, key=lambda each: (each.ways.name, each.ways.holds))


def _sources(ways: Iterable[Ways], content: Content) -> dict[str, str]:
    named = {way.vitamin_c.source for each in ways for way in each.ways if way.vitamin_c}
    return {name: content.sources[name].title for name in sorted(named & content.sources.keys())}


def _trip_shopping(kit: TripShare, content: Content, drying: DryingPlan) -> TripShopping:
    bought = purchases([kit], content, drying)
    return TripShopping(kit.id, kit.title, bought, taken_from_stock([kit]))


def _lessons(content: Content, kits: Iterable[TripShare], day: datetime.date) -> Iterator[Lesson]:
    """Give what the trips that are over teach; one without a date is over once it is reviewed."""
    for kit in kits:
        if kit.review is not None and (kit.start is None or _is_over(kit, day)):
            yield lesson_of(content.trips[kit.id], kit.review)


def _habits(content: Content, kits: Iterable[TripShare], day: datetime.date) -> Iterator[Habit]:
    """Give what trips that are over teach, each stove by its name."""
    known = content.gear.stoves
    for each in habits_of(_lessons(content, kits, day)):
        names = (known[name].name if name in known else name for name in each.stoves)
        yield replace(each, stoves=tuple(names))


def _by_start(kit: TripShare) -> tuple[datetime.date, str]:
    return kit.start or datetime.date.max, kit.id


def _is_over(kit: TripShare, day: datetime.date) -> bool:
    """Tell whether a trip ended before a day; one without a date is still to come."""
    if kit.start is None:
        return False
    return kit.start + datetime.timedelta(days=kit.day_count - 1) < day
