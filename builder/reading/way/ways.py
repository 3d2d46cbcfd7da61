"""Ways: how one travels on a day, how long, how far, how steep."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from builder.model.figure import named, smallest
from builder.model.track import DayTrack
from builder.model.trip import GROUNDS, TRAVEL_BY, DefaultUsed, Ground, Travel, TravelBy
from builder.reading.checks.plausible import check_way
from builder.reading.declared.declaring import Here, Record, key
from builder.reading.declared.measures import Number, Quantity
from builder.reading.declared.shapes import ListOr
from builder.reading.declared.values import taken
from builder.reading.declared.vocabulary import Choice, Items
from builder.reading.notes import Amiss
from builder.reading.trips.defaults import default_used
from builder.reading.trips.parties import Names
from builder.speech import later

DEFAULT_HOURS = 5.0
# km/h on the level and hours for each 600 m of ascent, after Naismith 1892, for days whose hours
# nobody told; the other ways are common practice.
DEFAULT_SPEED_KM_H = {
    "walking": 5.0,
    "snowshoeing": 3.0,
    "skiing": 5.0,
    "paddling": 5.0,
    "cycling": 15.0,
}
ASCENT_M_PER_H = 600.0
MOST_HOURS = 16.0
FASTEST_WALK_KM_H = 10.8  # the walking formula ends at 3 m/s


_UNTOLD = (
    later("way of travel on day {n}"),
    later("hours on day {n}"),
    later("ground on day {n}"),
)
_UNTOLD_OF_LEG = (
    later("way of travel on day {n}, leg {leg}"),
    later("hours on day {n}, leg {leg}"),
    later("ground on day {n}, leg {leg}"),
)


def hours_taken(by: TravelBy, distance_m: float | None, ascent_m: float) -> float:
    """Give the hours on the way where nobody told them."""
    if distance_m is None or by not in DEFAULT_SPEED_KM_H:
        return taken(DEFAULT_HOURS, "hours")
    source = "naismith1892" if by == "walking" else "common-practice"
    speed_km_h = named(DEFAULT_SPEED_KM_H[by], f"speed_km_h ({by})", source)
    climb_m_h = named(ASCENT_M_PER_H, "ascent_m_h", "naismith1892")
    hours = distance_m / 1000 / speed_km_h + ascent_m / climb_m_h
    return smallest(hours, named(MOST_HOURS, "most_hours", "common-practice"))


def walk_along(track: DayTrack) -> Travel:
    """Give the way of a day of which the track alone tells: it is walked."""
    ascent_m, descent_m = track.ascent_m or 0.0, track.descent_m or 0.0
    hours = hours_taken("walking", track.distance_m, ascent_m)
    return Travel("walking", hours, track.distance_m, ascent_m, descent_m)


class WrittenTravel(Record, title="travel"):
    """A day's way."""

    by: Annotated[TravelBy, Choice(TRAVEL_BY)] = key(
        "How; `carried` is who sits in the trailer or boat and does not work.",
        default="walking",
        example="paddling",
    )
    hours: Annotated[float | None, Number(at_most=MOST_HOURS)] = key(
        "On the way, without long halts; left out, they follow from distance and ascent.",
        example="5",
    )
    distance: Annotated[float | None, Quantity("length_m", positive=True)] = key(
        "How far.", example="13 km"
    )
    ascent: Annotated[float, Quantity("length_m")] = key(
        "All that goes up.", default="0 m", example="560 m"
    )
    descent: Annotated[float, Quantity("length_m")] = key(
        "All that goes down.", default="0 m", example="90 m"
    )
    ground: Annotated[Ground, Choice(GROUNDS)] = key(
        "What one walks on.", default="path", example="rough"
    )
    load: Annotated[float | None, Quantity("mass_g")] = key(
        "What each carries, where you know it better.", example="14 kg"
    )

    @property
    def tells_hours(self) -> bool:
        """Whether nobody has to work them out."""
        return self.hours is not None or self.by == "resting"

    def travel(self, goers: tuple[str, ...] = (), track: DayTrack | None = None) -> Travel:
        """Give what planning reckons with; where no goers are named, all go.

        A track tells what is not told here.
        """
        told = self.model_fields_set
        distance_m, ascent_m, descent_m = self.distance, self.ascent, self.descent
        if track is not None and self.by != "resting":
            distance_m = track.distance_m if distance_m is None else distance_m
            if track.ascent_m is not None and "ascent" not in told:
                ascent_m = track.ascent_m
            if track.descent_m is not None and "descent" not in told:
                descent_m = track.descent_m
        return Travel(
            by=self.by,
            hours=hours_taken(self.by, distance_m, ascent_m) if self.hours is None else self.hours,
            distance_m=distance_m,
            ascent_m=ascent_m,
            descent_m=descent_m,
            ground=self.ground,
            load_g=self.load,
            goers=goers,
        )

    def untold(
        self, number: int, leg: int = 0, track: DayTrack | None = None
    ) -> Iterator[DefaultUsed]:
        """Give what is taken for a day, or a leg of it, because nobody told it."""
        told = self.model_fields_set
        by, hours, ground = _UNTOLD_OF_LEG if leg else _UNTOLD
        if "by" not in told:
            yield default_used(by, later("walking"), n=number, leg=leg)
        if not self.tells_hours:
            why = later("from the way, where it is told")
            taken_h = self.travel(track=track).hours
            yield default_used(hours, f"{taken_h:.1f} h", why, n=number, leg=leg)
        if self.by == "walking" and self.distance is not None and "ground" not in told:
            yield default_used(ground, later("path"), n=number, leg=leg)


class WrittenLeg(WrittenTravel, title="leg"):
    """A part of a day's way."""

    for_: Annotated[tuple[str, ...], Names()] = key(
        "Who goes it; left out, all do.", default=(), example="[Ash]"
    )


_Legs = Annotated[tuple[WrittenLeg, ...], Items()]
Way = Annotated[
    WrittenTravel | tuple[WrittenLeg, ...] | None, ListOr(items=_Legs, keys=WrittenTravel)
]


def legs_written(way: WrittenTravel | tuple[WrittenLeg, ...] | None) -> tuple[WrittenTravel, ...]:
    """Give the legs of a way, also where it is but one."""
    if way is None:
        return ()
    return way if isinstance(way, tuple) else (way,)


def legs_of(
    way: WrittenTravel | tuple[WrittenLeg, ...] | None, track: DayTrack | None = None
) -> tuple[Travel, ...]:
    """Give the legs of a way as planning reckons with them; of several no track tells which."""
    legs = legs_written(way)
    if track is not None and not legs:
        return (walk_along(track),)
    along = track if len(legs) == 1 else None
    return tuple(
        each.travel(each.for_ if isinstance(each, WrittenLeg) else (), along) for each in legs
    )


def the_way_can_be_gone(here: Here) -> None:
    """Hold distance, climb and hours against what the way of travel allows."""
    for leg in legs_written(here.value):
        _leg_can_be_gone(leg, here)
    if isinstance(here.value, tuple):
        _nobody_is_too_long_on_the_way(here.value, here)


def _nobody_is_too_long_on_the_way(legs: tuple[WrittenLeg, ...], here: Here) -> None:
    """Hold the hours of all legs of each against those of a day."""
    travels = legs_of(legs)
    for name in here.notes.at_hand.names:
        own = [leg for leg in travels if not leg.goers or name in leg.goers]
        hours = sum(float(leg.hours_on_way) for leg in own)
        if hours > MOST_HOURS:
            says = f"the legs of {name} take {hours:g} h, more than the {MOST_HOURS:g} h of a day"
            last = next(
                leg
                for leg, travel in zip(reversed(legs), reversed(travels), strict=True)
                if travel in own
            )
            amiss = Amiss("out-of-range", says, "check `hours` and `for` of each leg")
            here.notes.append(amiss.at(last.places().of("hours")))


def _leg_can_be_gone(written: WrittenTravel, here: Here) -> None:
    travel, places = written.travel(), written.places()
    no_walk = list(_no_walk(travel)) if travel.by == "walking" else []
    for name, amiss in no_walk:
        here.notes.append(amiss.at(places.of(name)))
    if not no_walk:
        check_way(here.notes, places, travel, tells_hours=written.hours is not None)


def _no_walk(travel: Travel) -> Iterator[tuple[str, Amiss]]:
    """Find what is beyond what the walking formula knows, and by which key."""
    if travel.distance_m is None or travel.hours <= 0:
        return
    climb_m = travel.ascent_m + travel.descent_m
    if climb_m > travel.distance_m:
        says = f"{climb_m:.0f} m up and down in {travel.distance_m:.0f} m of way is a cliff"
        mend = "check distance, ascent and descent and their units"
        yield "distance", Amiss("too-steep", says, mend)
    speed_km_h = travel.distance_m / 1000 / travel.hours
    if speed_km_h > FASTEST_WALK_KM_H:
        mend = "check distance and hours, or write `by: cycling`"
        yield "hours", Amiss("too-fast", f"{speed_km_h:.0f} km/h is no walk", mend)
