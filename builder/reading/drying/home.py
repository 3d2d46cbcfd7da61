"""The home: the keys of `home.yaml`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import pairwise
from typing import Annotated

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.home import ALWAYS_FREE, WEEKDAYS, FreeHours, Home, NewBatch, Weekday
from builder.model.trip import ENGLISH, LANGUAGES, UNITS, Person, Units
from builder.reading.declared.declaring import Record, key, read_as
from builder.reading.declared.measures import Price, Quantity
from builder.reading.declared.patterns import text_schema
from builder.reading.declared.values import items_of, text_of
from builder.reading.declared.vocabulary import Choice, Flag, Items, Line, Text, Value, Words
from builder.reading.notes import Notes, refuse
from builder.reading.text.yaml_door import Node, quoted
from builder.reading.trips.people import WrittenPerson, named_twice
from builder.record import dataclass

_SPAN = re.compile(r"([01]?[0-9]|2[0-4]):([0-5][0-9])\s*[-–]\s*([01]?[0-9]|2[0-4]):([0-5][0-9])")
_DAY_MIN = 24 * 60


@dataclass(frozen=True)
class Spans(Value):
    """When one is free on a day: `"17:00-22:00"`, or a list of such."""

    _stub = '"17:00-22:00"'

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> tuple[FreeHours, ...]:
        """Read the stretches of a day, in order and apart."""
        spans = sorted(self._span(each, key) for each in items_of(node, key, lone_item=True))
        for (_, ends), (begins, _) in pairwise(spans):
            if begins < ends:
                refuse("free-twice", f"{key}: two of these overlap", "write them as one")
        return tuple(FreeHours(*each) for each in spans)

    def _span(self, node: Node, key: str) -> tuple[int, int]:
        told = text_of(node, key)
        found = _SPAN.fullmatch(told)
        if found is None:
            says = f"{key}: {quoted(told)} is no stretch of a day"
            refuse("free-hours", says, f"write it as `{key}: {self._stub}`")
        hours = [int(each) for each in found.groups()]
        begins, ends = hours[0] * 60 + hours[1], hours[2] * 60 + hours[3]
        if not begins < ends <= _DAY_MIN:
            says = f"{key}: {quoted(told)} does not end after it begins, on one day"
            refuse("free-hours", says, "write two stretches, on the two days")
        return begins, ends

    def takes(self) -> str:
        """Say what may be written."""
        return 'hours of the day, as "17:00-22:00", or a list of them'

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        span = text_schema(_SPAN.pattern, self._stub)
        return {"anyOf": [span, {"type": "array", "items": span}]}


class WrittenFree(Record, title="free"):
    """When a run can be started or emptied; a day that is not named here is not free."""

    mon: Annotated[tuple[FreeHours, ...], Spans()] = key("Monday.", default=())
    tue: Annotated[tuple[FreeHours, ...], Spans()] = key("Tuesday.", default=())
    wed: Annotated[tuple[FreeHours, ...], Spans()] = key("Wednesday.", default=())
    thu: Annotated[tuple[FreeHours, ...], Spans()] = key("Thursday.", default=())
    fri: Annotated[tuple[FreeHours, ...], Spans()] = key(
        "Friday.", default=(), example='"17:00-22:00"'
    )
    sat: Annotated[tuple[FreeHours, ...], Spans()] = key(
        "Saturday.", default=(), example='"08:00-22:00"'
    )
    sun: Annotated[tuple[FreeHours, ...], Spans()] = key(
        "Sunday.", default=(), example='["08:00-12:00", "15:00-22:00"]'
    )

    def hours(self) -> Mapping[Weekday, tuple[FreeHours, ...]]:
        """Give the free stretches of each day of the week."""
        return {day: getattr(self, day) for day in WEEKDAYS}


class WrittenNewPacks(Record, title="packs of the home"):
    """How new batches are packed."""

    in_: Annotated[str, Text()] = key("The packaging.", default="", example="foil-pouch")
    absorber: Annotated[bool, Flag()] = key(
        "Whether an oxygen absorber goes in.", default=False, example="true"
    )


class WrittenNewBatch(Record, title="batch of the home"):
    """What a new batch has unless it says otherwise."""

    packs: WrittenNewPacks | None = key(
        "How it is packed.", example="{in: foil-pouch, absorber: true}"
    )
    kept_at: Annotated[float | None, Quantity("kept_c")] = key(
        "How warm the shelf is.", example="15 degC"
    )

    def batch(self) -> NewBatch:
        """Give what planning reckons with."""
        packs = self.packs
        if packs is None:
            return NewBatch(kept_at_c=self.kept_at)
        return NewBatch(packs.in_ or None, packs.absorber, self.kept_at)


class WrittenLabels(Record, title="labels"):
    """How labels are printed."""

    sheet: Annotated[str, Text()] = key(
        "The sheet of labels, of the gear.", required=True, example="a4-3x8"
    )


class WrittenHome(Record, title="home"):
    """What is the same for every trip."""

    people: Annotated[tuple[WrittenPerson, ...], Items()] = key(
        "Who goes; a trip's party then names them: `party: [Ash, Rowan]`.",
        default=(),
        example="[{name: Ash, age: 34, mass: 64 kg}]",
    )
    dryers: Annotated[tuple[str, ...], Words()] = key(
        "Those of the gear that stand here.", default=(), example="[shelf-dryer]"
    )
    free: WrittenFree | None = key(
        "When a run can be started or emptied; left out, every day from 7 to 22 o'clock.",
        example='{fri: "17:00-22:00", sat: "08:00-22:00"}',
    )
    electricity: Annotated[float | None, Price("electricity_kwh", 1, "kWh")] = key(
        "What current costs.", example="0.31 per kWh"
    )
    currency: Annotated[str, Line()] = key(
        "In what all prices are told.", default="", example="EUR"
    )
    batch: WrittenNewBatch | None = key(
        "What a new batch has unless it says otherwise.",
        example="{packs: {in: foil-pouch, absorber: true}, kept_at: 15 degC}",
    )
    labels: WrittenLabels | None = key("How labels are printed.", example="{sheet: a4-3x8}")
    mug: Annotated[float, Quantity("volume_ml", positive=True)] = key(
        "What one mug holds, for labels.", default="300 ml", example="250 ml"
    )
    units: Annotated[Units, Choice(UNITS)] = key(
        "How quantities are shown.", default="metric", example="us"
    )
    language: Annotated[str, Choice(LANGUAGES)] = key(
        "Of the pages.", default=ENGLISH, example="de"
    )
    portion: Annotated[float, Quantity("mass_g", positive=True)] = key(
        "Dried; of what a portion's cost is told.", default="50 g", example="60 g"
    )


def read_home(node: Node, notes: Notes) -> Home | None:
    """Read the home; None where it has errors."""
    found = read_as(WrittenHome, node, notes)
    if found is None:
        return None
    people: dict[str, Person] = {}
    for person in (each.person() for each in found.people):
        if person.name in people:
            notes.append(named_twice(person.name, person.places.of("name")))
        people[person.name] = person
    return Home(
        people=tuple(people.values()),
        dryers=found.dryers,
        free=found.free.hours() if found.free else ALWAYS_FREE,
        electricity_per_kwh=found.electricity,
        currency=found.currency,
        new_batch=found.batch.batch() if found.batch else NewBatch(),
        label_sheet=found.labels.sheet if found.labels else None,
        mug_ml=found.mug,
        units=found.units,
        language=found.language,
        portion_g=found.portion,
        is_told=True,
        places=found.places("dryers"),
    )
