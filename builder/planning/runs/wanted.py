"""What trips ahead want that no free pack covers: how much of it to dry, and by when."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence

from builder.formulas.drying import LOW_OXYGEN_SHARE, usual_residual_share
from builder.formulas.home_drying import fresh_to_dry_g
from builder.model.batch import HEAT_METHODS, UNTOLD_KEPT_AT_C, Batch, Method, Packs
from builder.model.content import Content
from builder.model.figure import add
from builder.model.food import EGG_AND_DAIRY
from builder.model.home import Home
from builder.model.trip import ENGLISH, Trip
from builder.planning.batches import judge, learned_of, own_batches
from builder.planning.drying import (
    CONDITIONING_DAYS,
    Goes,
    evens_out,
    heated_before,
)
from builder.planning.foods import substance_named
from builder.planning.runs.plan import Meal
from builder.planning.stock import Stock, Want, heated_after_wetting, lacks_of
from builder.planning.tracing import look_up, work
from builder.record import dataclass, replace
from builder.speech import Speech, speech_of

_DAY = datetime.timedelta(days=1)
END_DAYS_BEFORE = 1  # the bags are packed on the last day at home


@dataclass(frozen=True, slots=True)
class ToDry:
    """A food, or a whole meal, that one trip wants dried."""

    goes: Goes
    trip: str
    is_recipe: bool
    meals: tuple[Meal, ...]
    ratio: float  # dried over fresh, as learned
    fresh_g: float
    first_day: datetime.date  # emptied earlier, it expires before the last meal
    last_day: datetime.date  # the last one to empty the dryer

    @property
    def key(self) -> tuple[str, Method]:
        """What it is and how it is dried: such things make one batch in a run."""
        return self.goes.substance.id, self.goes.method

    @property
    def water_share(self) -> float:
        """What the dryer takes out of each gram."""
        return 1.0 - self.ratio


def trips_after(content: Content, at: datetime.date, names: Sequence[str] = ()) -> list[Trip]:
    """Give the trips that begin after a day, in time; all, or some by name."""
    ahead = [
        trip
        for trip in content.trips.values()
        if trip.start is not None and trip.start > at and (not names or trip.id in names)
    ]
    return sorted(ahead, key=lambda trip: (trip.start, trip.id))


def wanted(
    trips: Sequence[Trip], content: Content, stock: Stock, at: datetime.date, say: Speech
) -> tuple[list[ToDry], list[str]]:
    """Give what is to be dried for some trips, and in plain words what drying cannot give."""
    asked = {each.id for each in trips}
    ahead = trips_after(content, at)
    ready = _ready_to_eat(ahead)
    lacks: dict[tuple[str, Method, str], list[Want]] = {}
    # All trips ahead choose their packs, so that no other one's are planned with.
    for want in lacks_of(ahead, content, stock):
        holds, method = want.wanted
        if method != "bought" and want.trip in asked:
            lacks.setdefault((holds, method, want.trip), []).append(want)
    own = own_batches(stock.judged.values())
    found: list[ToDry] = []
    refused: list[str] = []
    for (holds, method, trip_id), wants in lacks.items():
        is_ready = holds in ready or any(_eaten_as_it_is(want, content) for want in wants)
        substance = substance_named(holds, content)
        goes = Goes(substance, method, is_ready, heated_before(substance, method))
        trip = content.trips[trip_id]
        why_not = _never(goes, trip.title, say)
        if why_not:
            refused.append(why_not)
            continue
        ratio = learned_of(goes.substance, method, own).ratio
        meals = tuple(
            Meal(each.trip, each.day, each.meal, each.mass_g, each.eaten_on or at) for each in wants
        )
        last_day = (trip.start or at) - last_days_before(goes) * _DAY
        each = ToDry(
            goes=goes,
            trip=trip_id,
            is_recipe=holds not in content.foods,
            meals=meals,
            ratio=ratio,
            fresh_g=work(fresh_to_dry_g, add(meal.mass_g for meal in meals), ratio),
            first_day=at,
            last_day=last_day,
        )
        eaten_by = max(want.eaten_on or at for want in wants)
        first = first_day(each, eaten_by, content, at)
        if first is None:
            refused.append(
                say(
                    "{food} for {trip}: kept at {warmth} it would be past its date on {day}. Keep "
                    "it colder, or buy it.",
                    food=goes.substance.name,
                    trip=trip.title,
                    warmth=say.show(kept_at_c(content.home), "temperature_c", content.home.units),
                    day=say.date(eaten_by),
                )
            )
            continue
        found.append(replace(each, first_day=first))
    return found, refused


def last_days_before(goes: Goes) -> int:
    """Give how many days before a trip begins the dryer is emptied at the latest."""
    jarred = evens_out(goes.substance.kind, goes.method)
    return CONDITIONING_DAYS if jarred else END_DAYS_BEFORE


def _ready_to_eat(trips: Sequence[Trip]) -> frozenset[str]:
    """Give what trips eat as it is, however it is dried: a hungry hand asks no pack for its way."""
    return frozenset(
        item.food
        for trip in trips
        for day in trip.days
        for meal in day.meals
        for item in meal.items
        if item.food
    )


def _eaten_as_it_is(want: Want, content: Content) -> bool:
    """Tell whether no step heats it before it is eaten."""
    if want.recipe is None:
        return True
    return not heated_after_wetting(content.recipes[want.recipe], want.ingredient)


def _never(goes: Goes, trip: str, say: Speech) -> str:
    """Say why a food is not planned this way, and what to do instead."""
    food = goes.substance.name
    if goes.method in HEAT_METHODS and goes.substance.kind in EGG_AND_DAIRY:
        return say(
            "{food} for {trip}: egg and dairy are not planned by heat. Freeze-dry it, or buy it "
            "dried.",
            food=food,
            trip=trip,
        )
    if goes.method == "sun" and goes.substance.has_flesh:
        return say(
            "{food} for {trip}: meat and fish do not dry safely in the sun. Take a dryer.",
            food=food,
            trip=trip,
        )
    return ""


# -- how it is packed and kept --------------------------------------------------------------------


def absorber_for(goes: Goes, home: Home) -> bool:
    """Tell whether it is packed without oxygen: where the home does so, and it may be.

    Only what is quite dry is packed so, and no meat or fish that heat dried.
    """
    residual = look_up(usual_residual_share, goes.method, goes.substance.kind)
    moist = residual > LOW_OXYGEN_SHARE + 1e-9
    meat_by_heat = goes.method in HEAT_METHODS and goes.substance.has_flesh
    return home.new_batch.absorber and not moist and not meat_by_heat


def kept_at_c(home: Home) -> float:
    """Give how warm the packs of a new batch lie."""
    told = home.new_batch.kept_at_c
    return UNTOLD_KEPT_AT_C if told is None else told


def as_batch(
    goes: Goes, is_recipe: bool, fresh_g: float, packs: int, day: datetime.date, *, home: Home
) -> Batch:
    """Give the planned batch that some fresh food becomes, packed as the home packs."""
    holds = goes.substance.id
    return Batch(
        id="",
        method=goes.method,
        food=None if is_recipe else holds,
        recipe=holds if is_recipe else None,
        planned=day,
        fresh_g=fresh_g,
        packs=Packs(
            packs,
            home.new_batch.packaging,
            absorber=absorber_for(goes, home),
        ),
        kept_at_c=kept_at_c(home),
        kept_at_told=home.new_batch.kept_at_c is not None,
        heated=goes.heated,
    )


def best_before(each: ToDry, day: datetime.date, content: Content) -> datetime.date | None:
    """Give until when it keeps if the dryer is emptied on a day."""
    batch = as_batch(each.goes, each.is_recipe, each.fresh_g, 1, day, home=content.home)
    return judge(batch, content, speech_of(ENGLISH)).best_before


def first_day(
    each: ToDry, eaten_by: datetime.date, content: Content, at: datetime.date
) -> datetime.date | None:
    """Give the first day on which it may be dry, so that it keeps until it is eaten."""
    early, late = at, each.last_day
    if early > late or _keeps(each, early, eaten_by, content):
        return early
    if not _keeps(each, late, eaten_by, content):
        return None
    while (late - early).days > 1:
        middle = early + datetime.timedelta(days=(late - early).days // 2)
        early, late = (early, middle) if _keeps(each, middle, eaten_by, content) else (middle, late)
    return late


def _keeps(each: ToDry, day: datetime.date, until: datetime.date, content: Content) -> bool:
    date = best_before(each, day, content)
    return date is not None and date >= until


def packs_for(amounts_g: Sequence[float], dried_g: float) -> int:
    """Give the fewest packs of one size of which each meal can open whole ones of its own."""
    fewest = max(len(amounts_g), 1)
    for count in range(fewest, 4 * fewest + 1):
        opened = sum(math.ceil(each * count / dried_g - 1e-9) for each in amounts_g)
        if opened <= count:
            return count
    return fewest
