"""Days: each from its morning to the camp of its evening, and what holds for every day."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from builder.model.recipe import MEALS
from builder.model.track import DayTrack
from builder.model.trip import HEATS, HOME_SHARE, Day, DefaultUsed, Heat
from builder.reading.declared.declaring import Check, Here, Record, key
from builder.reading.declared.values import is_blank, items_of, missing
from builder.reading.declared.vocabulary import Choice, Line, Text, Words
from builder.reading.notes import Amiss, Notes
from builder.reading.pictures.written import PICTURE_OF_PLACE, APicture, picture_of
from builder.reading.text.yaml_door import Node, quoted
from builder.reading.trips.defaults import default_used
from builder.reading.trips.meals import WrittenMeals
from builder.reading.trips.parties import Names
from builder.reading.way.camps import WrittenCamp, WrittenWeather
from builder.reading.way.ways import Way, legs_of, legs_written, the_way_can_be_gone, walk_along
from builder.record import replace
from builder.speech import later
from builder.units import DIMENSIONS

_Without = Annotated[tuple[str, ...], Names()]


class WrittenEveryDay(WrittenWeather, title="every_day"):
    """What holds for each day unless the day says otherwise, key by key."""

    travel: Way = key("The way.", example="{by: walking, hours: 5}")


class WrittenWithout(Record, title="without"):
    """Who is meant to have nothing of a meal that others have."""

    breakfast: _Without = key("Of breakfast.", default=(), example="[Ash]")
    lunch: _Without = key("Of lunch.", default=(), example="[Ash]")
    dinner: _Without = key("Of dinner.", default=(), example="[Ash]")
    snacks: _Without = key("Of snacks.", default=(), example="[Ash]")
    drinks: _Without = key("Of drinks.", default=(), example="[Ash]")

    def names(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Give the names by meal, in the order of the file."""
        return tuple((meal, getattr(self, meal)) for meal in self._node.entries)


def _goes_without_what_others_have(here: Here) -> None:
    written: WrittenMeals | None = here.above.get("meals")
    if written is None:  # it is wrong, and that is told
        return
    eaten = {
        meal.meal: {name for item in meal.items for name in item.eaters}
        for meal in written.meals(here.notes)
    }
    told = written.places().fields
    for meal, names in here.value.names():
        if meal in told and meal not in eaten:  # it is wrong, and that is told
            continue
        places = here.value.places(meal)
        for name in names:
            says = mend = ""
            if meal not in eaten:
                says = f"nobody has {meal} that day, so {quoted(name)} goes without nothing"
                mend = "take it out of `without`, or plan the meal"
            elif name in eaten[meal]:
                says = f"{quoted(name)} is to go without {meal} and eats of it"
                mend = "take them out of `without`, or out of the meal's `for`"
            if says:
                here.notes.append(Amiss("without", says, mend).at(places.of(f"{meal}/{name}")))


class WrittenDay(WrittenCamp, title="day"):
    """One day, from the morning to the camp of its evening."""

    title: Annotated[str, Line()] = key(
        "What the pages call it.", default="", example="Road end to the low camp"
    )
    travel: Annotated[Way, Check(the_way_can_be_gone)] = key(
        "The way to the camp.", example="{by: walking, hours: 5, distance: 13 km, ascent: 560 m}"
    )
    meals: WrittenMeals = key(
        "What is eaten.",
        required=True,
        example="{dinner: [{cook: smoky-bean-pot}]}",
        stub="{dinner: [{cook: …}]}",
    )
    home: Annotated[tuple[str, ...], Words(tuple(HOME_SHARE))] = key(
        "Meals that are eaten at home.", default=(), example="[breakfast]"
    )
    ends: Annotated[Literal["home"] | None, Choice(("home",))] = key(
        "Where the last day ends without a camp: height and wind are the last camp's, and a dinner "
        "that is not planned counts as eaten at home.",
        example="home",
    )
    without: Annotated[WrittenWithout | None, Check(_goes_without_what_others_have)] = key(
        "Who is meant to have nothing of a meal that others have.", example="{lunch: [Ash]}"
    )
    notes: Annotated[str, Text()] = key(
        "For the companions.", default="", example="Mind the cornice."
    )

    picture: APicture = key("Its camp, or what one looks out for.", example=PICTURE_OF_PLACE)
    heat: Annotated[Heat | None, Choice(HEATS)] = key(
        "On what the pots of its dishes stand.", example="fire"
    )
    in_: Annotated[str | None, Line()] = key(
        "In which pot its dishes are cooked.", example="pot-2l"
    )

    @classmethod
    def note_left_out(cls, node: Node, notes: Notes) -> None:
        """Note what is odd about which keys are told, by the number of the day."""
        number = notes.at_hand.number_of(node)
        told = {name for name, entry in node.entries.items() if not is_blank(entry.node)}
        track = notes.at_hand.track_of(number)
        is_high = track is not None and track.end_m is not None
        if not {"camp_altitude", "barometer", "ends"} & told and not is_high:
            example = DIMENSIONS["altitude_m"].example
            notes.append(missing("day", "camp_altitude", example).at(node.place))
        if "ends" in told and number < len(notes.at_hand.days):
            says = f"day {number} ends at home, and more days follow"
            amiss = Amiss("ends-early", says, "let only the last day end at home")
            notes.append(amiss.at(node.entries["ends"].node.place))
        _note_meals(node, number, notes)

    def day(self, number: int, notes: Notes) -> Day:
        """Give what planning reckons with."""
        meals = self.meals.meals(notes)
        home = self.home
        if self.ends and "dinner" not in (*home, *(meal.meal for meal in meals)):
            home = (*home, "dinner")
        track, camp = notes.at_hand.track_of(number), self.conditions()
        if track and camp.altitude_m is None and camp.barometer_hpa is None and not self.ends:
            camp = replace(camp, altitude_m=track.end_m)
        return Day(
            number=number,
            title=self.title,
            camp=camp,
            meals=meals,
            travel=legs_of(self.travel, track),
            ends_home=bool(self.ends),
            home=home,
            without=self.without.names() if self.without else (),
            notes=self.notes,
            picture=picture_of(self.picture),
            heat=self.heat,
            pot=self.in_,
            places=self.places(),
        )

    def untold_of_day(self, number: int, track: DayTrack | None) -> Iterator[DefaultUsed]:
        """Give what is taken for a day because neither the trip nor its track told it."""
        yield from self.untold(number)
        legs = legs_written(self.travel)
        for leg, each in enumerate(legs, start=1):
            is_one = len(legs) == 1
            yield from each.untold(number, 0 if is_one else leg, track if is_one else None)
        if track is not None and not legs:
            why = later("from the track, as a walk")
            hours = f"{walk_along(track).hours:.1f} h"
            yield default_used(later("hours on day {n}"), hours, why, n=number)


def _note_meals(day: Node, number: int, notes: Notes) -> None:
    """Note meals with nothing in them, and those that are eaten at home and planned as well."""
    written = day.entries.get("meals")
    planned = set()
    for name, entry in written.node.entries.items() if written else ():
        if name not in MEALS:
            continue
        if is_blank(entry.node) or entry.node.value == ():
            says = f"{name} of day {number} has nothing in it"
            mend = f"write `{name}: [{{cook: …}}]`, or leave `{name}` out"
            notes.append(Amiss("meal-empty", says, mend).at(entry.node.place, "warning"))
        else:
            planned.add(name)
    home = day.entries.get("home")
    for node in items_of(home.node, "home", lone_item=True) if home else ():
        if node.is_text and node.text.strip() in planned:
            says = f"{node.text.strip()} of day {number} is eaten at home and planned as well"
            amiss = Amiss("home-meal", says, "take it out of `home` or out of `meals`")
            notes.append(amiss.at(home.node.place if home else day.place))
