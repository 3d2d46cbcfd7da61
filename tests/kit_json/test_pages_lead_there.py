"""Every figure that a page asks the way of has one: no address of a page leads nowhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.figures import Figures
from tests.conftest import tripkit
from tests.kit_json.test_figures import TRIPS

ASKED_AT_LEAST = 250  # by the smallest demo of three days; fewer would mean that pages ask no more
ASKED_OF_A_NIGHT = 120  # of a trip of two days


@pytest.mark.parametrize("trip", TRIPS)
def test_each_address_that_pages_ask_for_is_one_of_the_graph(
    trip: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found: dict[str, str] = {}
    how = Figures.how

    def noted(self: Figures, figure: str) -> str:
        if figure:
            found[figure] = how(self, figure)
        return how(self, figure)

    monkeypatch.setattr(Figures, "how", noted)
    result = tripkit("build", trip, "--out", str(tmp_path), "--jobs", "1")
    assert result.exit_code == 0, result.output
    assert [figure for figure, href in found.items() if not href] == []
    assert len(found) > (ASKED_OF_A_NIGHT if trip == "rindle-fen" else ASKED_AT_LEAST)
    people = [figure for figure in found if ".people." in figure]
    assert people, "each one's own needs and pack are told with their way"
