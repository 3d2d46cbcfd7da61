"""Is it dry yet: hand-worked loads, and what the answer says in words."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from builder.model.batch import Weighing
from builder.model.content import Content
from builder.planning.batches.dryness import Asked, Dryness
from builder.planning.batches.dryness import dryness as dryness_of
from builder.problems import ProblemsFound
from builder.reading.folder import Layer, read_folder

ROOT = Path(__file__).resolve().parent.parent.parent


@pytest.fixture(scope="module")
def content() -> Content:
    return read_folder([Layer(ROOT / "content", "content", ("foods", "sources.yaml"))]).content


def dryness(
    holds: str,
    fresh_g: float,
    now_g: float | None,
    method: Any,
    content: Content,
    weighings: list[Weighing] | None = None,
    **more: Any,
) -> Dryness:
    """Ask of a load on a day in May."""
    asked = Asked(holds, fresh_g, method, now_g, tuple(weighings or ()), **more)
    return dryness_of(asked, content, datetime.date(2031, 5, 4))


def test_a_load_half_way(content: Content) -> None:
    found = dryness("carrot-raw", 1000, 240, "dehydrator", content)
    # Solids 1000 · (1 − 0.8829) = 117.1 g: at 10 % moisture 130.1 g; now 1 − 117.1/240 = 51.2 %.
    assert found.target_g == pytest.approx(117.1 / 0.9)
    assert found.to_go_g == pytest.approx(240 - 117.1 / 0.9)
    assert found.residual_share == pytest.approx(1 - 117.1 / 240)
    # Two standard deviations of 2.46 points either way: solids of 67.9 to 166.3 g.
    ruling = found.judged.ruling
    assert ruling.low_share == pytest.approx(1 - 166.3 / 240)
    assert ruling.high_share == pytest.approx(1 - 67.9 / 240)
    assert (found.judged.verdict, found.act) == ("not-dry", "Keep drying, 110\u00a0g to go.")
    assert found.dry_enough is False
    # 760 ml were lost, of which a vegetable takes up 0.6; a quarter more is poured.
    assert found.rehydration_ml == pytest.approx(760 * 0.75)


def test_a_load_lighter_than_the_table_allows(content: Content) -> None:
    found = dryness("carrot-raw", 1000, 105, "freeze-dryer", content)
    assert found.judged.corrected
    # Corrected, the load holds 102.9 g of solids: at 5 % moisture 108.3 g.
    assert found.target_g == pytest.approx(102.9 / 0.95)
    assert found.residual_share == 0.02
    assert found.rehydration_ml == pytest.approx(895)
    assert any("wetter than listed" in line for line in found.lines())


def test_weighings_of_a_run_give_a_forecast(content: Content) -> None:
    run = [Weighing(120, 640), Weighing(240, 380), Weighing(360, 240)]
    found = dryness("carrot-raw", 1000, None, "dehydrator", content, run)
    assert found.now_g == 240
    assert found.run is not None
    assert found.run.earliest_min < found.run.dry_after_min < found.run.latest_min
    assert any(line.startswith("Dry after:") for line in found.lines())
    assert found.data()["dry_after_min"] == found.run.dry_after_min


def test_water_activity_only_where_a_sorption_model_is_known(content: Content) -> None:
    apple = dryness("apple-raw", 2000, 380, "dehydrator", content)
    assert apple.water_activity is not None and 0.5 < apple.water_activity < 0.8
    assert dryness("onion-raw", 2000, 380, "dehydrator", content).water_activity is None
    # Far wetter than any isotherm tells.
    assert dryness("apple-raw", 2000, 1900, "dehydrator", content).water_activity is None


@pytest.mark.parametrize(
    ("food", "fresh_g", "now_g", "says"),
    [
        ("olive-oil", 1000, None, "is dry already"),
        ("carrot-raw", 0, None, "nothing to dry"),
        ("carrot-raw", 1000, 1100, "it lost nothing"),
        ("carrot-raw", 1000, 1000, "it lost nothing"),
        ("carrot-raw", 1000, 0, "cannot be"),
        # Carrots hold 117.1 g of solids in 1000 g, and 4 · 2.46 points less are 16 % of that.
        ("carrot-raw", 1000, 18, "no food is more than 98% water"),
    ],
)
def test_what_cannot_be_is_said(
    food: str, fresh_g: float, now_g: float | None, says: str, content: Content
) -> None:
    with pytest.raises(ProblemsFound, match=says):
        dryness(food, fresh_g, now_g, "dehydrator", content)
