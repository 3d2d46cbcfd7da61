"""Charts: to scale, told in words, and told apart without colour."""

from __future__ import annotations

import dataclasses
from itertools import pairwise

import pytest

from builder.model.kit import Kit
from builder.pages.charts import (
    SHOWN_WIDTH,
    WIDTH,
    Row,
    draw,
    energy_chart,
    fuel_chart,
    kinds_chart,
    packs_chart,
    profile_chart,
    water_chart,
)
from tests.pages.sample_kit import HIGH_CAMP, sample_kit


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
    for chart in (energy_chart(kit), water_chart(kit), fuel_chart(kit)):
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


def test_what_is_left_and_what_is_burnt_make_up_what_is_carried() -> None:
    chart = fuel_chart(sample_kit())
    assert chart is not None
    start, left, burnt = chart.bars[:3]
    assert (left.fill, burnt.fill) == ("lines", "open")
    assert float(left.width) + float(burnt.width) == pytest.approx(float(start.width), abs=0.2)


def test_letters_keep_their_size_on_a_narrow_screen_and_do_not_blow_up_on_a_wide_one() -> None:
    assert WIDTH <= 320 - 2 * 12
    assert SHOWN_WIDTH / WIDTH <= 1.5
    for chart in (energy_chart(sample_kit()), water_chart(sample_kit())):
        assert chart.width == str(WIDTH)
        shown = float(chart.shown_height) / float(chart.shown_width)
        assert shown == pytest.approx(float(chart.height) / WIDTH, abs=0.01)


def test_a_pack_has_a_bar_for_each_morning() -> None:
    chart = packs_chart(sample_kit())
    assert chart is not None
    ash = chart.bars[:2]
    assert float(ash[1].width) / float(ash[0].width) == pytest.approx(11371 / 11800, abs=0.01)
    assert float(ash[1].y) > float(ash[0].y) + float(ash[0].height)
    said = chart.text.replace("\u00a0", " ")
    assert said == "Ash: day 1 11.8 kg, day 2 11.37 kg. Rowan: day 1 14.2 kg, day 2 14.2 kg."
    assert "11.8 kg → 11.37 kg" in [each.text.replace("\u00a0", " ") for each in chart.words]


def test_a_pack_is_made_of_kinds_that_differ_in_hatching() -> None:
    chart = kinds_chart(sample_kit())
    assert chart is not None and chart.behind is not None
    assert [bar.fill for bar in chart.bars[:3]] == ["open", "lines", "cross"]
    said = chart.text.replace("\u00a0", " ")
    assert said.startswith("Ash: 11.8 kg: own gear 7 kg, food 436 g, water 3 kg.")
    legend = [each.text for each in chart.words[-5:]]
    assert legend == ["own gear", "shared gear", "fuel", "food", "water"]
    first = [cell[0].text.replace("\u00a0", " ") for cell in chart.behind.rows[0]]
    assert first == ["Ash", "7 kg", "–", "–", "436 g", "3 kg"]


def camps(*heights: float) -> Kit:
    """Give the sample with a camp at each of these heights."""
    kit = sample_kit()
    days = tuple(
        dataclasses.replace(
            kit.days[0],
            day=number,
            conditions=dataclasses.replace(HIGH_CAMP, altitude_m=height),
        )
        for number, height in enumerate(heights, start=1)
    )
    return dataclasses.replace(kit, days=days)


def test_higher_camps_stand_higher() -> None:
    chart = profile_chart(camps(640, 1480, 1120))
    assert chart is not None
    low, high, middle = (float(dot.y) for dot in chart.dots)
    assert low > middle > high
    assert (low - middle) / (low - high) == pytest.approx((1120 - 640) / (1480 - 640), abs=0.01)
    assert chart.line == " ".join(f"{dot.x},{dot.y}" for dot in chart.dots)
    assert chart.text.replace("\u00a0", " ") == "Day 1: 640 m. Day 2: 1,480 m. Day 3: 1,120 m."


def test_heights_stand_where_the_line_does_not_run() -> None:
    chart = profile_chart(camps(600, 900, 1200, 500))
    assert chart is not None
    hollow, slope, top, end = chart.words[:4]
    first, second, third, fourth = chart.dots
    assert (hollow.anchor, slope.anchor, top.anchor, end.anchor) == (
        "middle", "end", "middle", "middle",
    )  # fmt: skip
    assert float(hollow.y) > float(first.y) and float(end.y) > float(fourth.y)
    assert float(slope.y) < float(second.y) and float(top.y) < float(third.y)


@pytest.mark.parametrize("many", [2, 6, 14, 40])
def test_labels_of_camps_never_touch_and_the_highest_has_one(many: int) -> None:
    chart = profile_chart(camps(*(200.0 + 37 * (number * 7 % many) for number in range(many))))
    assert chart is not None
    over = [each for each in chart.words if not each.text.startswith("Day")]
    below = [each for each in chart.words if each.text.startswith("Day")]
    for row, room in ((over, 63.5), (below, 47.5)):
        xs = [float(each.x) for each in row]
        assert all(later - former >= room for former, later in pairwise(xs))
        assert xs[0] >= 0
        assert xs[-1] <= WIDTH
    top = min(chart.dots, key=lambda dot: float(dot.y))
    assert top.x in [each.x for each in over]


@pytest.mark.parametrize("heights", [(640.0,), ()])
def test_one_camp_needs_no_picture(heights: tuple[float, ...]) -> None:
    assert profile_chart(camps(*heights)) is None


def test_level_camps_are_a_level_line() -> None:
    chart = profile_chart(camps(500, 500, 500))
    assert chart is not None
    assert len({dot.y for dot in chart.dots}) == 1


def test_a_long_name_leaves_room_for_its_number() -> None:
    chart = draw("x", "X", [Row("N" * 60, "14.2 kg", ((1.0, "lines"),))])
    assert chart.words[0].text == "N" * 21 + "…"
    assert "N" * 60 in chart.text


def test_every_chart_but_those_beside_their_table_has_one_behind() -> None:
    kit = sample_kit()
    for chart in (energy_chart(kit), fuel_chart(kit), kinds_chart(kit), profile_chart(kit)):
        assert chart is not None and chart.behind is not None and chart.behind.rows
