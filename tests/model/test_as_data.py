"""Records as plain data, and back again."""

from __future__ import annotations

import datetime

from builder.model.as_data import as_data, of_data, packed, unpacked
from builder.model.figure import Count, Figure, Named
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a list."""

    name: str
    mass_g: float
    packs: int


@dataclass(frozen=True, slots=True)
class Listed:
    """Lines of a day."""

    day: datetime.date | None
    lines: tuple[Line, ...]


TOLD = Named("mass of a pack", "a-source")
LISTED = Listed(datetime.date(2031, 9, 4), (Line("beans", Figure(412.5, TOLD), Count(3, TOLD)),))
DATA = ["2031-09-04", [["beans", 412.5, 3]]]


def test_a_record_comes_back_from_its_data() -> None:
    assert as_data(LISTED) == DATA
    assert of_data(Listed, DATA) == LISTED
    assert unpacked(Listed, packed(LISTED)) == LISTED
    assert unpacked(Listed, packed(Listed(None, ()))) == Listed(None, ())


def test_what_waits_as_data_holds_no_origins() -> None:
    # With them the share of one trip took twenty times the memory.
    line = as_data(LISTED.lines[0])
    assert isinstance(line, list)
    assert [type(each) for each in line] == [str, float, int]
