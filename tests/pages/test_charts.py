"""Charts: to scale, told in words, and told apart without colour."""

from __future__ import annotations

import pytest

from builder.pages.charts import Row, draw, energy_chart, fuel_chart, water_chart, weight_chart
from tests.pages.sample_kit import sample_kit


def test_bars_are_to_scale_and_follow_each_other() -> None:
    rows = [Row("A", "3", ((1.0, "open"), (2.0, "lines"))), Row("B", "6", ((6.0, "solid"),))]
    first, second, whole = draw("x", "X", rows).bars
    assert float(second.width) == pytest.approx(2 * float(first.width), abs=0.2)
    assert float(second.x) == pytest.approx(float(first.x) + float(first.width), abs=0.2)
    assert float(whole.width) == pytest.approx(6 * float(first.width), abs=0.4)


def test_a_mark_beyond_the_bar_stretches_the_scale() -> None:
    chart = draw("x", "X", [Row("A", "1 of 2", ((1.0, "lines"),), mark=2.0)])
    assert float(chart.marks[0].x) == pytest.approx(2 * float(chart.bars[0].width), abs=2.1)


@pytest.mark.parametrize("value", [0.0, -5.0])
def test_nothing_is_drawn_of_nothing(value: float) -> None:
    assert draw("x", "X", [Row("A", "none", ((value, "lines"),))]).bars == ()


def test_the_words_of_a_chart_hold_every_number_it_draws() -> None:
    kit = sample_kit()
    for chart in (energy_chart(kit), weight_chart(kit), water_chart(kit), fuel_chart(kit)):
        assert chart is not None
        beside = [each.text for each in chart.words if each.anchor == "end"]
        assert beside
        assert all(words in chart.text for words in beside)


def test_fuel_goes_down_by_what_each_day_burns() -> None:
    chart = fuel_chart(sample_kit())
    assert chart is not None
    assert chart.text.replace("\u00a0", " ") == (
        "Start: 100 g. After day 1: 71 g left. After day 2: 42 g left."
    )


def test_parts_of_a_bar_differ_in_hatching() -> None:
    chart = water_chart(sample_kit())
    assert [bar.fill for bar in chart.bars[:4]] == ["open", "dots", "lines", "solid"]
