"""The parts of a batch: its packs, the places they were kept in, its heat step, its weighings."""

from __future__ import annotations

import datetime
from itertools import pairwise
from typing import Annotated

from builder.model.batch import WHENS, Heated, Packs, Weighing, When
from builder.reading.declared.declaring import Here, Record, key
from builder.reading.declared.measures import Number, Quantity, count
from builder.reading.declared.values import taken
from builder.reading.declared.vocabulary import Choice, Date, Flag, Line, Text
from builder.reading.notes import Amiss, refuse

_A_DAY_MIN = 24 * 60


class WrittenPacks(Record, title="packs"):
    """The packs that were made, or bought."""

    count_: Annotated[int, count(at_least=1)] = key("How many.", required=True, example="4")
    in_: Annotated[str, Text()] = key(
        "The id of their packaging.", default="", example="foil-pouch"
    )
    absorber: Annotated[bool, Flag()] = key(
        "Whether an oxygen absorber is in each.", default=False, example="true"
    )
    of: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "What one holds; of a bought batch only, and required there.", example="120 g"
    )
    shelf: Annotated[str, Line()] = key(
        "Where they lie at home; `tripkit stock` tells it.", default="", example="cellar"
    )

    def packs(self) -> Packs:
        """Give what planning reckons with."""
        return Packs(self.count_, self.in_ or None, self.absorber, self.of, self.shelf)


class WrittenStay(Record, title="place"):
    """A place where packs were kept."""

    at: Annotated[float, Quantity("kept_c")] = key(
        "How warm it is there.", required=True, example="22 degC"
    )
    until: Annotated[datetime.date | None, Date()] = key(
        "The day they left it; left out for the last place, where they are now.",
        example="2031-06-01",
    )


class WrittenHeated(Record, title="heat step"):
    """The heat step that drying itself does not give."""

    to: Annotated[float, Quantity("temperature_c")] = key(
        "How hot it was all through.", required=True, example="74 degC", stub="74 degC"
    )
    when: Annotated[When, Choice(WHENS)] = key(
        "Before drying or after it.", required=True, example="before"
    )
    minutes: Annotated[float | None, Number(more_than=0, at_most=_A_DAY_MIN)] = key(
        "How long it was held there; meat dried raw is safe after 10 minutes at 135 °C.",
        example="10",
    )

    def heated(self) -> Heated:
        """Give what planning reckons with."""
        minutes = taken(0.0, "minutes") if self.minutes is None else self.minutes
        return Heated(self.to, self.when, minutes)


class WrittenWeighing(Record, title="weighing"):
    """What the load weighed at a time during the run."""

    at: Annotated[float, Quantity("duration_min", positive=True)] = key(
        "How long after the start.", required=True, example="3 h"
    )
    mass: Annotated[float, Quantity("mass_g", positive=True)] = key(
        "What it weighed, without the trays.", required=True, example="812 g"
    )

    def weighing(self) -> Weighing:
        """Give what planning reckons with."""
        return Weighing(self.at, self.mass)


def places_follow_in_time(here: Here) -> None:
    """Refuse places that do not follow one another up to now."""
    if not isinstance(here.value, tuple):
        return
    if not here.value:
        refuse("empty", "no place is told", "write `kept_at: 15 degC`")
    *before, last = here.value
    if last.until is not None:
        says = "the last place has no end: that is where the packs are now"
        amiss = Amiss("place-ends", says, "leave `until` out")
        here.refuse_at(last.place_of("until"), amiss)
    for one, next_one in pairwise(before):
        if next_one.until <= one.until:
            says = "the packs left this place before the one above it"
            amiss = Amiss("place-order", says, "write the places in the order of time")
            here.refuse_at(next_one.place_of("until"), amiss)


def weighings_follow_in_time(here: Here) -> None:
    """Refuse weighings that no run gives: out of order, or heavier than before."""
    weighings: tuple[WrittenWeighing, ...] = here.value
    heaviest_g = here.above.get("fresh")
    for number, each in enumerate(weighings):
        if number and each.at <= weighings[number - 1].at:
            says = f"this weighing, after {each.at / 60:g} h, is not later than the one above it"
            mend = "write them in the order of time, counted from the start of drying"
            here.refuse_at(each.place_of("at"), Amiss("weighing-order", says, mend))
        if heaviest_g is not None and each.mass > heaviest_g:
            says = f"{each.mass:g} g is more than it weighed before"
            mend = "check the weight and take the tare off each time"
            here.refuse_at(each.place_of("mass"), Amiss("weighing-heavier", says, mend))
        heaviest_g = each.mass
