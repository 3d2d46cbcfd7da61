"""The picture of when a dryer pays, its points worked out by hand."""

from __future__ import annotations

import pytest

from builder.pages.home.pays_chart import PaysChart, Saving, pays_chart
from builder.planning.ways import PaysTerms
from builder.speech import speech_of

SAY = speech_of("en")


def chart(*terms: PaysTerms | None) -> PaysChart:
    savings = [
        Saving(f"Dryer {number}", each, f"{number}.pays", f"{number}.saved")
        for number, each in enumerate(terms)
    ]
    return pays_chart(SAY, 3, savings, "EUR")


def test_a_dryer_begins_below_nothing_by_its_price_and_crosses_it_where_it_has_paid() -> None:
    # 100 over 15 - 5: after 10 runs; 20 of them lie across, after which 100 are saved.
    drawn = chart(PaysTerms(100.0, 5.0, 15.0, None))
    (line,) = drawn.lines
    assert line.points == "4.0,160.0 292.0,34.0"
    assert (line.dot_x, line.dot_r, drawn.zero_y) == ("148.0", "4", "97.0")
    assert line.label == "Dryer 0: pays for itself after 10 runs"
    assert (drawn.last_runs, drawn.most, drawn.least) == (
        "20 runs",
        "100\u00a0EUR",
        "−100\u00a0EUR",
    )
    assert drawn.text == "Dryer 0: pays for itself after 10 runs"


def test_what_never_pays_goes_down_and_has_no_dot() -> None:
    drawn = chart(PaysTerms(100.0, 15.0, 5.0, None))
    (line,) = drawn.lines
    assert line.dot_r == "0" and line.label == "Dryer 0: never pays for itself"
    assert line.points == "4.0,97.0 292.0,160.0"  # 100 below, and 10 more with each of 10 runs


def test_what_is_not_told_is_not_drawn() -> None:
    drawn = chart(PaysTerms(100.0, 5.0, 15.0, None), None)
    assert (drawn.lines[1].points, drawn.lines[1].label) == ("", "")
    assert drawn.is_told and not chart(None).is_told


@pytest.mark.parametrize(
    "other", [PaysTerms(100.0, 5.0, 15.0, None), PaysTerms(90.0, 5.0, 15.0, 2.0)]
)
def test_labels_stand_apart(other: PaysTerms) -> None:
    drawn = chart(PaysTerms(100.0, 5.0, 15.0, None), other)
    one, two = (float(each.label_y) for each in drawn.lines)
    assert abs(one - two) >= 12
