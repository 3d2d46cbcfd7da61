"""Trips: who goes, with what, until when, and what was taken because nobody told it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Annotated

from builder.model.place import Place, Places
from builder.model.recipe import MEALS, MealName
from builder.model.track import DayTrack
from builder.model.trip import (
    ENGLISH,
    LANGUAGES,
    SHELTERS,
    UNITS,
    Chilled,
    DefaultUsed,
    Depot,
    Person,
    Shelter,
    Trip,
    Units,
)
from builder.problems import Problem
from builder.reading.declared.declaring import Check, Here, Record, key, read_as
from builder.reading.declared.measures import Quantity
from builder.reading.declared.values import on_one_line, taken
from builder.reading.declared.vocabulary import Choice, Date, Flag, Items, Line, Text, Words
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.pictures.written import PICTURE_OF_PLACE, APicture, picture_of
from builder.reading.text.yaml_door import Node, quoted
from builder.reading.trips.at_hand import AtHand
from builder.reading.trips.defaults import default_used
from builder.reading.trips.outfits import (
    WrittenDepot,
    WrittenFire,
    WrittenSharedGear,
    WrittenTripStove,
    each_day_waits_once,
)
from builder.reading.trips.parties import Party, avoided_in, note_named_twice
from builder.reading.trips.people import WrittenPerson, untold
from builder.reading.trips.reviews import DayNumber, WrittenReview, without_blanks
from builder.reading.way.camps import WrittenCamp
from builder.reading.way.days import WrittenDay, WrittenEveryDay
from builder.reading.way.overlays import laid_out
from builder.reading.way.places_and_times import HoursAhead, WrittenTimes
from builder.reading.way.tracks import by_day
from builder.record import replace
from builder.speech import later

FUEL_RESERVE_SHARE = 0.15


class WrittenUntil(Record, title="until"):
    """A meal of a day."""

    day: DayNumber = key("The number of the day.", required=True, example="1")
    meal: Annotated[MealName, Choice(MEALS)] = key("The meal.", required=True, example="dinner")


class WrittenChilled(Record, title="chilled"):
    """A cool bag."""

    until: WrittenUntil = key(
        "So long it keeps fresh food as cold as a fridge.",
        required=True,
        example="{day: 1, meal: dinner}",
        stub="{day: 1, meal: dinner}",
    )


def _of_several(here: Here) -> None:
    if len(here.value) < 2:
        mend = "write two or more in it, such as `[stove, pot-2l]`"
        refuse("together", "one thing alone is carried together with nothing", mend)


def _has_days(here: Here) -> None:
    if not here.value:
        refuse("empty", "this trip has no days", "write at least one")


class WrittenTrip(Record, title="trip"):
    """One trip; the file's name is its id."""

    title: Annotated[str, Line()] = key(
        "What the pages call it.",
        required=True,
        example="Four days in the hills",
        stub="Four days in the hills",
    )
    start: Annotated[datetime.date | None, Date()] = key(
        "Its first day; left out of a plan without a date.", example="2031-09-04"
    )
    units: Annotated[Units, Choice(UNITS)] = key(
        "What the pages show first.", default="metric", example="us"
    )
    language: Annotated[str, Choice(LANGUAGES)] = key(
        "Of the pages; your own names and notes stay as you wrote them.",
        default=ENGLISH,
        example="de",
    )
    party: Party = key(
        "Who goes: a name that `home.yaml` tells, or all that is told of somebody here.",
        required=True,
        example="[Ash, {name: Rowan, age: 41, mass: 82 kg}]",
    )
    stove: WrittenTripStove | None = key(
        "What is cooked on.", example="{use: top-burner, pots: [pot-2l], fuel_reserve: 15 %}"
    )
    fire: WrittenFire | None = key(
        "A wood fire.", example="{allowed: true, irons: [square-iron], wood_moisture: 20 %}"
    )
    mug: Annotated[float, Quantity("volume_ml", positive=True)] = key(
        "What one mug holds.", default="300 ml", example="250 ml"
    )
    ladle: Annotated[float, Quantity("volume_ml", positive=True)] = key(
        "What a full ladle holds; pots are shared out in it.",
        default="120 ml",
        example="100 ml",
    )
    washing: Annotated[float, Quantity("volume_ml")] = key(
        "Water to wash up with at each camp with a cooked meal.", default="1 l", example="1 l"
    )
    gear_shared: Annotated[tuple[WrittenSharedGear, ...], Items()] = key(
        "What the party carries between them.",
        default=(),
        example="[{name: Group tarp, mass: 780 g}]",
    )
    shelter: Annotated[Shelter, Choice(SHELTERS)] = key(
        "In what one sleeps.", default="tent", example="tarp"
    )
    every_day: WrittenEveryDay | None = key(
        "What holds for each day unless the day says otherwise.",
        example="{wind: breezy, water: {camp: stream, treat: filter}}",
    )
    start_camp: WrittenCamp | None = key(
        "Where the first breakfast is cooked; what it leaves out is as on day 1.",
        example="{camp_altitude: 90 m}",
    )
    days: Annotated[tuple[WrittenDay, ...], Items(), Check(_has_days)] = key(
        "Each day.",
        required=True,
        example="[{camp_altitude: 640 m, meals: {dinner: {cook: smoky-bean-pot}}}]",
    )
    chilled: WrittenChilled | None = key("A cool bag.", example="{until: {day: 1, meal: dinner}}")
    notes: Annotated[str, Text()] = key(
        "For the companions.", default="", example="Meet at the last bus stop."
    )
    public_names: Annotated[bool, Flag()] = key(
        'Whether a public kit tells who goes; without it they are "Person 1 …".',
        default=False,
        example="true",
    )
    depots: Annotated[tuple[WrittenDepot, ...], Items(), Check(each_day_waits_once)] = key(
        "Food that waits at a camp: nobody carries it before.",
        default=(),
        example="[{camp: 1, holds: [1]}]",
    )
    together: Annotated[
        tuple[Annotated[tuple[str, ...], Words(), Check(_of_several)], ...],
        Items(of="lists of words"),
    ] = key(
        "Things of which one carries all: ids of the gear, names of shared things, `stove`, "
        "`fuel`.",
        default=(),
        example="[[stove, pot-2l]]",
    )
    track: Annotated[str | None, Line()] = key(
        "A GPX file beside the trip's with the way: a day for each track, else each segment, else "
        "each date. It tells distance, ascent, descent and heights of camps that are not told.",
        example="way.gpx",
    )
    utc: Annotated[float | None, HoursAhead()] = key(
        "Hours of the local time ahead of UTC, for sunrise and sunset; stays at home.",
        example="+2",
    )
    times: WrittenTimes | None = key(
        "When one eats: then the order of work tells the clock, until a phone is told another.",
        example='{breakfast: "07:00", dinner: "19:00"}',
    )
    learned: Annotated[bool, Flag()] = key(
        "Whether what earlier trips taught counts.",
        default=True,
        example="false",
    )
    picture: APicture = key("What awaits you there; on the first page.", example=PICTURE_OF_PLACE)
    review: WrittenReview | None = key(
        "What was, filled in after the trip.", example="{fuel_used: 310 g}"
    )

    @classmethod
    def note_left_out(cls, node: Node, notes: Notes) -> None:
        """Note whose name was there before."""
        party = node.entries.get("party")
        note_named_twice(party.node if party else None, notes)

    def trip(self, trip_id: str, notes: Notes) -> Trip:
        """Give what planning reckons with."""
        stove, fire, camp = self.stove, self.fire, self.start_camp
        pots = (*(stove.pots if stove else ()), *(fire.pots if fire else ()))
        people = self._people()
        until = self.chilled.until if self.chilled else None
        return Trip(
            id=trip_id,
            title=self.title,
            party=people,
            days=tuple(day.day(number, notes) for number, day in enumerate(self.days, start=1)),
            start=self.start,
            units=self.units,
            language=self.language,
            stoves=stove.use if stove else (),
            pots=tuple(dict.fromkeys(pots)),
            fuel_reserve_share=stove.fuel_reserve if stove else _NO_STOVE_SHARE,
            stove_test=stove.boiled if stove else None,
            fire=fire.fire() if fire else None,
            mug_ml=self.mug,
            ladle_ml=self.ladle,
            washing_ml=self.washing,
            gear_shared=tuple(each.thing() for each in self.gear_shared),
            start_camp=camp.conditions() if camp else None,
            shelter=self.shelter,
            chilled_until=Chilled(until.day, until.meal) if until else None,
            notes=self.notes,
            public_names=self.public_names,
            depots=tuple(Depot(each.camp, each.holds) for each in self.depots),
            together=self.together,
            track=self.track,
            tracks=notes.at_hand.tracks,
            utc_h=self.utc,
            times=self.times.times() if self.times else None,
            learned=self.learned,
            picture=picture_of(self.picture),
            review=self.review.review() if self.review else None,
            defaults=(
                *(each for person in people for each in untold(person)),
                *self._untold(notes.at_hand.tracks),
            ),
            places=self._places(),
        )

    def _people(self) -> tuple[Person, ...]:
        return tuple(
            each.person() if isinstance(each, WrittenPerson) else each for each in self.party
        )

    def _untold(self, tracks: Sequence[DayTrack]) -> Iterator[DefaultUsed]:
        if self.stove and self.stove.use and "fuel_reserve" not in self.stove.model_fields_set:
            yield default_used(later("fuel reserve"), "15 %")
        if self.fire and "wood_moisture" not in self.fire.model_fields_set:
            yield default_used(later("moisture of the wood"), "20 %")
        for number, day in enumerate(self.days, start=1):
            yield from day.untold_of_day(number, tracks[number - 1] if tracks else None)
        if "mug" not in self.model_fields_set:
            yield default_used(later("mug"), "300 ml")
        if "ladle" not in self.model_fields_set:
            yield default_used(later("ladle"), "120 ml")
        if "washing" not in self.model_fields_set:
            yield default_used(later("washing"), later("1 l per camp"))

    def _places(self) -> Places:
        """Give the places of the keys, and of the gear that the trip names."""
        own, inner = self.places(), dict[str, Place]()
        if self.fire:
            inner |= _listed_in(self.fire.places("irons", "pots"))
        if self.stove:
            inner |= _listed_in(self.stove.places("use", "pots"))
        groups = self._node.entries["together"].node.items if self.together else ()
        for number, group in enumerate(groups):
            words = group.items or (group,)
            inner |= {f"together/{number}/{on_one_line(each.text)}": each.place for each in words}
        return Places(own.record, {**own.fields, **inner})


_NO_STOVE_SHARE = taken(FUEL_RESERVE_SHARE, "fuel_reserve_share")


def _listed_in(places: Places) -> dict[str, Place]:
    """Give the places of the words of lists alone."""
    return {name: place for name, place in places.fields.items() if "/" in name}


def readied(trip: Node, notes: Notes, at_hand: AtHand) -> Node:
    """Lay a trip out, and put at hand what its keys are held against."""
    entry = trip.entries.get("party")
    party = avoided_in(entry.node if entry else None, at_hand.home)
    laid, days = laid_out(trip)
    review = laid.entries.get("review")
    if review is not None:
        filled = replace(review, node=without_blanks(review.node))
        laid = replace(laid, value={**laid.entries, "review": filled})
    notes.at_hand = replace(at_hand, party=party, days=days)
    if at_hand.track_parts:
        try:
            tracks = by_day(at_hand.track_parts, days)
        except Amiss as amiss:
            notes.append(amiss.at(trip.entries["track"].node.place))
        else:
            notes.at_hand = replace(notes.at_hand, tracks=tracks)
    return laid


def read_trip(node: Node, notes: Notes, trip_id: str, at_hand: AtHand) -> Trip | None:
    """Read one trip; None where it has errors."""
    before = len(notes)
    found = read_as(WrittenTrip, readied(node, notes, at_hand), notes)
    is_good = all(each.severity != "error" for each in islice(notes, before, None))
    return found.trip(trip_id, notes) if found and is_good else None


def not_fed(trip: Trip) -> list[Problem]:
    """Warn of people whom no meal feeds."""
    meals = [(day, meal) for day in trip.days for meal in day.meals]
    fed = {name for _, meal in meals for item in meal.items for name in item.eaters}
    for day, meal in meals:
        if meal.is_open:  # for all but who is to go without
            fed |= {each.name for each in trip.party} - set(day.without_of(meal.meal))
    return [
        Problem(
            person.places.record,
            "not-fed",
            f"{quoted(person.name)} gets nothing to eat on this trip",
            "add them to a meal's `for`, or take them out of the party",
            "warning",
        )
        for person in trip.party
        if person.name not in fed
    ]
