"""The fuel of a day on its page: what it goes into, named by what is in the pot."""

from __future__ import annotations

import pytest

from builder.model.kit import FuelDay
from builder.model.trip import WaterSource
from builder.pages.figures import figures_of
from builder.pages.pieces import text
from builder.pages.trip.day import fuel_of_day
from builder.record import replace
from tests.pages.sample_kit import sample_kit

SNOW_COLD = "Of that, to melt snow that is not boiled"
SNOW_BOILED = "Of that, to melt snow and boil it to drink"


@pytest.mark.parametrize(
    ("source", "melting_kj", "boiling_kj", "told"),
    [
        # Heat that melts what is then boiled counts as boiling: no share says less of the snow.
        (
            "snow",
            100,
            600,
            {SNOW_COLD: "10\N{NO-BREAK SPACE}%", SNOW_BOILED: "60\N{NO-BREAK SPACE}%"},
        ),
        ("snow", 0, 700, {SNOW_BOILED: "70\N{NO-BREAK SPACE}%"}),
        ("lake", 0, 700, {"Of that, to make water safe": "70\N{NO-BREAK SPACE}%"}),
        ("lake", 0, 0, {}),
    ],
)
def test_snow_is_named_where_it_is_melted_in_the_pot_that_boils(
    source: WaterSource, melting_kj: float, boiling_kj: float, told: dict[str, str]
) -> None:
    kit = sample_kit()
    first = kit.days[0]
    day = replace(
        first,
        fuel=FuelDay(1000 - melting_kj - boiling_kj, melting_kj, boiling_kj, 29.125, 0),
        conditions=replace(first.conditions, water_source=source),
    )
    facts = fuel_of_day(figures_of(kit), day)
    shares = {each.name: each.value for each in facts if each.name.startswith("Of that")}
    assert shares == {name: text(share) for name, share in told.items()}
