"""The outfit of a trip: its stove, its fire, what is shared, and what waits at a camp."""

from __future__ import annotations

from typing import Annotated

from builder.model.gear import StoveTest
from builder.model.trip import WOODS, Fire, SharedGear
from builder.reading.declared.declaring import Check, Here, Record, key
from builder.reading.declared.measures import Quantity
from builder.reading.declared.vocabulary import Choice, Flag, Items, Line, Words
from builder.reading.gear.stove_tests import BoilingTest
from builder.reading.notes import Amiss, refuse
from builder.reading.trips.parties import NameOf
from builder.reading.trips.reviews import DayNumber


class WrittenTripStove(Record, title="stove"):
    """The stove that is taken, or several, and the pots."""

    use: Annotated[tuple[str, ...], Words(repeats=True)] = key(
        "The stove, of the gear, or several: dishes of one meal then cook side by side; the first "
        "one melts snow and boils drinking water.",
        default=(),
        example="top-burner",
    )
    pots: Annotated[tuple[str, ...], Words()] = key(
        "The pots, of the gear.", default=(), example="[pot-2l]"
    )
    fuel_reserve: Annotated[float, Quantity("share")] = key(
        "How much more fuel than is worked out.", default="15 %", example="20 %"
    )
    boiled: Annotated[StoveTest | None, BoilingTest()] = key(
        "Your own test of the first one, which goes before what the gear tells.",
        example="1 l from 9 degC with 14 g at 640 m",
    )


class WrittenFire(Record, title="fire"):
    """A wood fire; with a stove too, pots go on the stove and irons in the embers."""

    allowed: Annotated[bool, Flag()] = key(
        "Whether fires may be lit there.", default=True, example="true"
    )
    irons: Annotated[tuple[str, ...], Words()] = key(
        "The irons, of the gear.", default=(), example="[square-iron]"
    )
    pots: Annotated[tuple[str, ...], Words()] = key(
        "The pots, of the gear.", default=(), example="[pot-2l]"
    )
    wood_moisture: Annotated[float, Quantity("wood_moisture_share")] = key(
        "Water in the wood, of its whole mass.", default="20 %", example="25 %"
    )
    wood: Annotated[str | None, Choice(WOODS)] = key(
        "The tree, where you know it.", example="birch"
    )

    def fire(self) -> Fire:
        """Give what planning reckons with."""
        return Fire(
            irons=self.irons,
            wood_moisture_share=self.wood_moisture,
            allowed=self.allowed,
            allowed_told="allowed" in self.model_fields_set,
            wood=self.wood,
        )


class WrittenSharedGear(Record, title="shared thing"):
    """A thing that the party carries between them."""

    name: Annotated[str, Line()] = key("What it is.", required=True, example="Group tarp")
    mass: Annotated[float, Quantity("mass_g")] = key(
        "What it weighs.", required=True, example="780 g"
    )
    carried_by: Annotated[str | None, NameOf()] = key("Who carries it.", example="Ash")

    def thing(self) -> SharedGear:
        """Give what planning reckons with."""
        return SharedGear(self.name, self.mass, self.carried_by)


def _is_not_over_by_then(here: Here) -> None:
    camp = here.above.get("camp")
    for day in here.value:
        if camp is not None and day < camp:
            says = f"day {day} is over when one comes to the camp of day {camp}"
            refuse("depot-late", says, "write later days, or an earlier camp")


class WrittenDepot(Record, title="depot"):
    """Food that waits at a camp."""

    camp: DayNumber = key("The day at whose camp it waits.", required=True, example="3")
    holds: Annotated[tuple[DayNumber, ...], Items(of="numbers"), Check(_is_not_over_by_then)] = key(
        "The days whose food it holds; of the camp's own day that is its dinner.",
        required=True,
        example="[4, 5]",
    )


def each_day_waits_once(here: Here) -> None:
    """Refuse a day whose food waits at two camps."""
    seen: set[int] = set()
    for depot in here.value:
        for day in depot.holds:
            if day in seen:
                says = f"the food of day {day} waits at two camps"
                amiss = Amiss("depot-twice", says, "let one depot hold it")
                here.notes.append(amiss.at(depot.places().of("holds")))
            seen.add(day)
