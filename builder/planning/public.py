"""A kit that anyone may see, planned anew from what may leave and from nothing else."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from typing import Any, TypeVar

from builder.model.batch import Batch
from builder.model.content import Content, Gear
from builder.model.figure import Count, Figure, Found, found, none
from builder.model.kit import Kit, KitBatch, KitDay, KitPerson
from builder.model.on_asking import each_changed
from builder.model.place import Place, Places
from builder.model.public import (
    ENERGY_STEP_KCAL,
    LEAVES,
    ROUNDED_UP_TO,
    WATER_STEP_ML,
    PartyNeeds,
    PublicTrip,
)
from builder.model.trip import Day, MealItem, Travel, Trip
from builder.planning.cooking import cooking_places
from builder.planning.kit import plan_trip
from builder.planning.needs import stepped_up
from builder.planning.stock import check
from builder.planning.tracing import TOLD_BY_PARTY
from builder.planning.wording import worded
from builder.record import MISSING, fields, is_dataclass, replace
from builder.speech import speech_of

Record = TypeVar("Record")

# A public kit tells no file and no line.
NO_PLACE = Place("", 0, 0)
# Where a batch needs a day to be one that is dried; no page tells it.
NO_DAY = datetime.date(2001, 1, 1)
# Faster than this on foot a rounded way is no way: then the hours alone count.
_FASTEST_KM_H = 7.0
# They rest on what each one carries and on dates, which stay at home.
_PRIVATE_CAUTIONS = frozenset({"heavy-load", "start-not-told"})


def public_kit(kit: Kit, content: Content) -> Kit:
    """Plan a trip for everybody: its people and places cannot be worked back from it."""
    public = public_trip(kit, content)
    trip = public.trip
    stock, _ = check(public.content)
    said, in_language = worded(public.content, stock, trip.language)
    planned = plan_trip(trip, said, in_language, public.needs)
    return without_people(planned, public.names)


def public_trip(kit: Kit, content: Content) -> PublicTrip:
    """Give what a public kit is planned from."""
    trip = content.trips[kit.id]
    say = speech_of(trip.language)
    as_told = {
        person.name: say("Person {n}", n=number) for number, person in enumerate(trip.party, 1)
    }
    batches = {old: f"batch-{number}" for number, old in enumerate(trip.batches, start=1)}
    shown = replace(
        leaving(_with_heights(trip)),
        party=tuple(leaving(each, name=as_told[each.name]) for each in trip.party),
    )
    shown = replace(
        shown,
        days=tuple(_renamed(day, as_told, batches) for day in shown.days),
    )
    return PublicTrip(
        trip=shown,
        content=_leaving_content(content, shown, batches),
        needs=PartyNeeds(
            stepped_up(kit.energy_need_kcal / len(kit.days), ENERGY_STEP_KCAL),
            stepped_up(
                sum(one.to_drink_ml for day in kit.days for one in day.people) / len(kit.days),
                WATER_STEP_ML,
            ),
        ),
        names=tuple(each.name if trip.public_names else as_told[each.name] for each in trip.party),
    )


def leaving(record: Record, **told: object) -> Record:
    """Give a record with those fields that may leave; `told` takes the place of others."""
    kind = type(record)
    values: dict[str, Any] = dict(told)
    for each in fields(record):  # type: ignore[arg-type]
        if each.name in values:
            continue
        if each.name == "places":
            # Where something was told stays at home; that it was told may leave.
            values["places"] = Places(NO_PLACE, dict.fromkeys(record.places.fields, NO_PLACE))  # type: ignore[attr-defined]
        elif each.name in LEAVES[kind]:
            values[each.name] = _leaving(getattr(record, each.name), kind, each.name)
        elif each.default is MISSING and each.default_factory is MISSING:
            values[each.name] = ""
    return kind(**values)


def _leaving(value: Any, kind: type, name: str) -> Any:
    if is_dataclass(value):
        return leaving(value)
    if isinstance(value, tuple):
        return tuple(_leaving(each, kind, name) for each in value)
    if isinstance(value, (float, int)) and not isinstance(value, bool):
        # A number may know the file and line it stands in.
        plain = float(value) if isinstance(value, float) else int(value)
        step = ROUNDED_UP_TO.get((kind, name))
        if step:
            plain = stepped_up(plain, step)
        if isinstance(value, Count):
            return Count(int(plain), Found(name, TOLD_BY_PARTY))
        return found(plain, name, TOLD_BY_PARTY) if isinstance(value, Figure) else plain
    return value


# -- the trip -------------------------------------------------------------------------------------


def _with_heights(trip: Trip) -> Trip:
    """Give the trip with heights where a barometer told them, and no way too fast to be walked."""
    places = cooking_places(trip)
    days = tuple(
        replace(
            day,
            camp=replace(day.camp, altitude_m=places.by_day[day.number - 1].altitude_m)
            if day.camp.barometer_hpa is not None
            else day.camp,
            travel=tuple(_for_all(leg) for leg in day.longest_way),
        )
        for day in trip.days
    )
    start = trip.start_camp
    if start is not None and start.barometer_hpa is not None:
        start = replace(start, altitude_m=places.start.altitude_m)
    return replace(trip, days=days, start_camp=start)


def _for_all(leg: Travel) -> Travel:
    """Give a leg of who is longest on the way as one of everybody's, who then is nobody."""
    return replace(leg, distance_m=_slow_enough_m(leg), goers=())


def _slow_enough_m(way: Travel) -> float | None:
    if way.distance_m is None or way.hours <= 0:
        return None
    rounded_km = stepped_up(way.distance_m, 1000.0) / 1000.0
    is_slow = way.by != "walking" or rounded_km / way.hours <= _FASTEST_KM_H
    return way.distance_m if is_slow else None


def _renamed(day: Day, people: Mapping[str, str], batches: Mapping[str, str]) -> Day:
    meals = tuple(
        replace(meal, items=tuple(_renamed_item(each, people, batches) for each in meal.items))
        for meal in day.meals
    )
    return replace(day, meals=meals)


def _renamed_item(
    item: MealItem, people: Mapping[str, str], batches: Mapping[str, str]
) -> MealItem:
    eaters = tuple(people[name] for name in item.eaters)
    return replace(
        item,
        eaters=eaters,
        # How many, never who: that would tell what one of them avoids.
        parted=eaters[len(eaters) - len(item.parted) :],
        batches=tuple((ingredient, batches[batch]) for ingredient, batch in item.batches),
    )


# -- what it is made of ---------------------------------------------------------------------------


def _leaving_content(content: Content, trip: Trip, batches: Mapping[str, str]) -> Content:
    gear = content.gear
    return Content(
        foods=each_changed(content.foods, leaving),
        batches={new: _batch(content.batches[old], new) for old, new in batches.items()},
        recipes=_all(content.recipes),
        gear=Gear(
            stoves=_all(gear.stoves),
            fuels=_all(gear.fuels),
            pots=_all(gear.pots),
            irons=_all(gear.irons),
            packaging=_all(gear.packaging),
            dryers={},
        ),
        trips={trip.id: trip},
        cautions=_all(content.cautions),
        sources=_all(content.sources),
    )


def _all(records: Mapping[str, Record]) -> dict[str, Record]:
    return {name: leaving(each) for name, each in records.items()}


def _batch(batch: Batch, name: str) -> Batch:
    return leaving(
        batch,
        id=name,
        done=NO_DAY if batch.done else None,
        planned=NO_DAY if batch.planned else None,
        started=datetime.datetime.combine(NO_DAY, datetime.time()) if batch.started else None,
    )


# -- the kit --------------------------------------------------------------------------------------


def without_people(kit: Kit, names: Iterable[str] = ()) -> Kit:
    """Give a kit without what is told of one person, of one day in the calendar or of one shelf."""
    say = speech_of(kit.language)
    numbered = [person.name for person in kit.party]
    return replace(
        kit,
        start=None,
        notes=say(
            "A kit for everybody: who must not eat what, bodies, packs, dates and places stay with "
            "the party, and so do the cautions that rest on them. Need and water are for all, in "
            "steps. Whoever goes needs the party's own kit."
        ),
        party=tuple(KitPerson(name, 1.0, 0.0, ()) for name in (names or numbered)),
        days=tuple(_day(day) for day in kit.days),
        weights=replace(kit.weights, people=()),
        batches=tuple(_kit_batch(batch) for batch in kit.batches),
        cautions=tuple(
            each
            for each in kit.cautions
            if each.id not in _PRIVATE_CAUTIONS
            and not each.at.person
            and not any(name in each.because for name in numbered)
        ),
        proposals=(),
        coming=(),
        mishaps=tuple(replace(each, still=()) for each in kit.mishaps if each.kind != "bag"),
        turns=(),
        shopping=tuple(replace(line, dry_on=None) for line in kit.shopping),
        defaults=(),
        public=True,
    )


def _day(day: KitDay) -> KitDay:
    meals = tuple(replace(meal, place="") for meal in day.meals)
    return replace(day, date=None, title="", notes="", people=(), meals=meals)


def _kit_batch(batch: KitBatch) -> KitBatch:
    # What is left of it hangs on other trips, which are nobody else's business.
    return replace(
        batch,
        dried_on=None,
        planned_for=None,
        best_before=None,
        reasons=(),
        notes=(),
        packs_left=none("packs_left"),
    )
