"""Camps: how high they lie, and the air, wind and water there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from builder.model.figure import largest, smallest
from builder.model.trip import (
    DEFAULT_BETWEEN_WATER_H,
    NEARS,
    TREATMENTS,
    WATER_SOURCES,
    WINDS,
    Camp,
    DefaultUsed,
    Near,
    Treatment,
    WaterPlace,
    WaterSource,
    Wind,
)
from builder.reading.checks.plausible import check_air
from builder.reading.declared.declaring import Check, Here, Record, key
from builder.reading.declared.measures import Quantity
from builder.reading.declared.values import taken
from builder.reading.declared.vocabulary import Choice, Words
from builder.reading.notes import Amiss, refuse
from builder.reading.trips.defaults import default_used
from builder.reading.way.places_and_times import Position
from builder.speech import later

# Taken where the trip does not tell; each one used is listed in the kit.
DEFAULT_AIR_LOW_C = 5.0
DEFAULT_AIR_HIGH_C = 20.0

_AIR_LOW_C = taken(DEFAULT_AIR_LOW_C, "air_low_c")
_AIR_HIGH_C = taken(DEFAULT_AIR_HIGH_C, "air_high_c")
_OF_WATER = {
    "camp": (later("water camp on day {n}"), later("a stream")),
    "treat": (later("water treat on day {n}"), later("not treated")),
}


class WrittenAir(Record, title="air"):
    """The air at camp, from its coldest to its warmest."""

    low: Annotated[float | None, Quantity("air_c")] = key(
        "The coldest of the day; left out, 5 °C.", example="4 degC"
    )
    high: Annotated[float | None, Quantity("air_c")] = key(
        "The warmest of the day; left out, 20 °C.", example="16 degC"
    )

    def span_c(self) -> tuple[float, float]:
        """Give the coldest and the warmest, of which either may not be told."""
        low_c, high_c = self.low, self.high
        if low_c is None:
            low_c = _AIR_LOW_C if high_c is None else smallest(_AIR_LOW_C, high_c)
        if high_c is None:
            high_c = largest(_AIR_HIGH_C, low_c)
        return low_c, high_c


def the_night_is_colder(here: Here) -> None:
    """Hold the coldest of a day against its warmest."""
    air: WrittenAir = here.value
    low_c, high_c = air.span_c()
    if low_c > high_c:
        says = f"the low ({low_c:g} °C) is above the high ({high_c:g} °C)"
        here.notes.append(Amiss("air", says, "swap them").at(air.places().of("low")))
    elif air.low is not None and air.high is not None:
        check_air(here.judging(high_c), low_c, high_c)


def _none_is_near_alone(here: Here) -> None:
    if "none" in here.value and len(here.value) > 1:
        says = "near: none stands beside what is near"
        refuse("near-none", says, "write `near: none`, or only what is near")


class WrittenWater(Record, title="water"):
    """Where water comes from at camp and on the way to it, and what is done to it."""

    camp: Annotated[WaterSource, Choice(WATER_SOURCES)] = key(
        "What there is at camp.", default="stream", example="stream"
    )
    treat: Annotated[Treatment, Choice(TREATMENTS)] = key(
        "What is done to it.", default="none", example="filter"
    )
    at: Annotated[float | None, Quantity("water_c")] = key("How cold it comes.", example="8 degC")
    between_water: Annotated[float | None, Quantity("duration_h")] = key(
        "The longest stretch without; left out, 3 h, or all hours on the way where they are fewer.",
        example="3 h",
    )
    near: Annotated[tuple[Near, ...], Words(NEARS), Check(_none_is_near_alone)] = key(
        "What lies upstream of it, which no treatment removes.", default=(), example="[fields]"
    )

    def water(self) -> WaterPlace:
        """Give what planning reckons with."""
        return WaterPlace(
            camp=self.camp,
            treat=self.treat,
            at_c=self.at,
            between_water_h=self.between_water,
            near=self.near,
        )


class WrittenWeather(Record):
    """The air, wind and water that a camp, a day or all days have."""

    air: Annotated[WrittenAir | None, Check(the_night_is_colder)] = key(
        "How cold and how warm it gets.", example="{low: 4 degC, high: 16 degC}"
    )
    wind: Annotated[Wind, Choice(WINDS)] = key(
        "Where the stove stands.", default="sheltered", example="breezy"
    )
    water: WrittenWater | None = key(
        "Where water comes from, and what is done to it.",
        example="{camp: stream, treat: filter, at: 8 degC}",
    )


class WrittenCamp(WrittenWeather, title="start camp"):
    """The conditions in which a meal is cooked."""

    camp_altitude: Annotated[float | None, Quantity("altitude_m")] = key(
        "How high the camp lies; a day needs it unless it ends at home or tells a `barometer`.",
        example="640 m",
    )
    barometer: Annotated[float | None, Quantity("pressure_hpa", positive=True)] = key(
        "What was read there; goes before the height.", example="905 hPa"
    )

    at: Annotated[tuple[float, float] | None, Position()] = key(
        "Where it lies, for sunrise and sunset; stays at home.", example="[57.0, 2.5]"
    )

    def conditions(self) -> Camp:
        """Give what planning reckons with."""
        low_c, high_c = self.air.span_c() if self.air else (_AIR_LOW_C, _AIR_HIGH_C)
        return Camp(
            altitude_m=self.camp_altitude,
            air_low_c=low_c,
            air_high_c=high_c,
            wind=self.wind,
            water=self.water.water() if self.water else WaterPlace(),
            barometer_hpa=self.barometer,
            at_deg=self.at,
        )

    def untold(self, number: int) -> Iterator[DefaultUsed]:
        """Give what is taken for a day because nobody told it."""
        if self.air is None:
            yield default_used(later("air on day {n}"), later("5 to 20 °C"), n=number)
        else:
            low_c, high_c = self.air.span_c()
            if self.air.low is None:
                yield default_used(later("lowest air on day {n}"), f"{low_c:g} °C", n=number)
            if self.air.high is None:
                yield default_used(later("highest air on day {n}"), f"{high_c:g} °C", n=number)
        if "wind" not in self.model_fields_set:
            yield default_used(later("wind on day {n}"), later("sheltered"), n=number)
        if self.water is None:
            what = later("water on day {n}")
            yield default_used(what, later("a stream, not treated"), n=number)
        else:
            for name, (what, shown) in _OF_WATER.items():
                if name not in self.water.model_fields_set:
                    yield default_used(what, shown, n=number)
        if self.water is None or self.water.between_water is None:
            yield default_used(
                later("longest stretch without water on day {n}"),
                later("{hours} h, or all hours on the way where they are fewer"),
                later("the trip does not tell between_water"),
                n=number,
                hours=f"{DEFAULT_BETWEEN_WATER_H:g}",
            )
