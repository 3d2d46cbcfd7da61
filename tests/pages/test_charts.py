"""Charts: to scale, told in words, and told apart without colour."""

from __future__ import annotations

import gettext
import math
import random
import re
from itertools import combinations, pairwise

import pytest

from builder.model.kit import Kit
from builder.model.trip import Units
from builder.pages import figures
from builder.pages.charts import (
    WIDTH,
    Chart,
    Row,
    Words,
    draw,
    energy_chart,
    fuel_chart,
    kinds_chart,
    packs_chart,
    profile_chart,
    run_chart,
    water_chart,
    words_wide,
)
from builder.pages.charts.drawing import LETTERS, Fill
from builder.record import replace
from builder.speech import spoken
from tests.pages.sample_kit import HIGH_CAMP, apple_run, sample_kit


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
        beside = [each.text for each in chart.words if re.search(r"\d", each.text)]
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


def test_a_chart_is_as_wide_as_its_column_and_its_letters_as_large_as_the_text() -> None:
    assert WIDTH <= 320 - 2 * 12
    for chart in (energy_chart(sample_kit()), water_chart(sample_kit())):
        assert chart.width == str(WIDTH)
        assert chart.high == f"{float(chart.height) / LETTERS:.3f}".rstrip("0.") + "em"
        for bar in chart.bars:
            shares = [float(each.removesuffix("%")) for each in (bar.left, bar.wide)]
            assert shares == pytest.approx(
                [float(bar.x) / WIDTH * 100, float(bar.width) / WIDTH * 100], abs=0.01
            )
            assert sum(shares) <= 100
            heights = [float(each.removesuffix("em")) for each in (bar.top, bar.high)]
            assert heights == pytest.approx(
                [float(bar.y) / LETTERS, float(bar.height) / LETTERS], abs=0.001
            )


def test_a_pack_has_a_bar_for_each_morning() -> None:
    chart = packs_chart(sample_kit())
    assert chart is not None
    ash = chart.bars[:2]
    assert float(ash[1].width) / float(ash[0].width) == pytest.approx(11371 / 11800, abs=0.01)
    assert float(ash[1].y) > float(ash[0].y) + float(ash[0].height)
    said = chart.text.replace("\u00a0", " ")
    assert said == "Ash: day 1 11.8 kg, day 2 11.4 kg. Rowan: day 1 14.2 kg, day 2 14.2 kg."
    assert "11.8 kg → 11.4 kg" in [each.text.replace("\u00a0", " ") for each in chart.words]


def test_a_pack_is_made_of_kinds_that_differ_in_hatching() -> None:
    chart = kinds_chart(sample_kit())
    assert chart is not None and chart.behind is not None
    assert [bar.fill for bar in chart.bars[:3]] == ["open", "lines", "cross"]
    said = chart.text.replace("\u00a0", " ")
    assert said.startswith("Ash: 11.8 kg: own gear 7 kg, food 436 g, water 3 kg.")
    assert named(chart) == {
        "own gear": "open", "food": "lines", "water": "cross", "shared gear": "solid",
    }  # fmt: skip
    first = [cell[-1].text.replace("\u00a0", " ") for cell in chart.behind.rows[0]]
    assert first == ["Ash", "7 kg", "–", "–", "436 g", "3 kg"]


def named(chart: Chart) -> dict[str, str]:
    """Give the hatching at which each line to words begins."""
    fills = {}
    for lead in chart.leads:
        (words,) = (
            each.text
            for each in chart.words
            if abs(abs(float(each.x) - float(lead.x)) - 3) < 0.15
            and float(each.y) == float(lead.bottom) - 2
        )
        (fills[words],) = (
            bar.fill
            for bar in chart.bars
            if float(bar.x) < float(lead.x) < float(bar.x) + float(bar.width)
            and float(bar.y) + float(bar.height) == pytest.approx(float(lead.top), abs=0.11)
        )
    return fills


def test_parts_are_named_at_the_bar_and_nowhere_else() -> None:
    parts: tuple[tuple[float, Fill], ...] = ((40.0, "open"), (25.0, "dots"), (35.0, "lines"))
    names: tuple[tuple[Fill, str], ...] = (
        ("open", "to drink"),
        ("dots", "hot drinks"),
        ("lines", "to cook with"),
    )
    chart = draw("x", "X", [Row("A", "1", parts), Row("B", "2", parts)], names=names)
    assert named(chart) == {"to drink": "open", "hot drinks": "dots", "to cook with": "lines"}
    first, second = chart.bars[0], chart.bars[3]
    feet = [float(lead.bottom) for lead in chart.leads]
    assert float(first.y) < min(feet) <= max(feet) < float(second.y)
    assert len(chart.bars) == 6, "no swatches"


def test_a_part_is_named_where_it_is_seen_well() -> None:
    rows = [
        Row("A", "1", ((99.0, "open"), (1.0, "dots"))),
        Row("B", "2", ((60.0, "open"), (40.0, "dots"))),
    ]
    chart = draw("x", "X", rows, names=(("open", "whole"), ("dots", "rest"), ("cross", "none")))
    assert named(chart) == {"whole": "open", "rest": "dots"}
    whole, rest = chart.leads
    assert float(whole.top) < float(chart.bars[2].y) < float(rest.top)


def test_what_is_a_sliver_in_all_bars_is_named_where_it_is_widest() -> None:
    rows = [
        Row("A", "1", ((99.5, "open"), (0.5, "dots"))),
        Row("B", "2", ((99.0, "open"), (1.0, "dots"))),
    ]
    (lead,) = draw("x", "X", rows, names=(("dots", "rest"),)).leads
    second = draw("x", "X", rows).bars[3]
    assert float(lead.top) > float(second.y)


@pytest.mark.parametrize("mark", [50.0, 48.0, 60.0])
def test_the_line_of_a_mark_is_told_from_that_of_the_part_it_stands_in(mark: float) -> None:
    rows = [Row("A", "1", ((100.0, "open"),), mark=mark)]
    chart = draw("x", "X", rows, names=(("open", "whole"),), mark="needed")
    one, other = sorted(float(lead.x) for lead in chart.leads)
    assert other - one >= 12
    assert chart.marks[0].x in {lead.x for lead in chart.leads}


def test_names_share_a_line_where_they_have_room() -> None:
    rows = [Row("A", "1", ((50.0, "open"), (50.0, "dots")))]
    chart = draw("x", "X", rows, names=(("open", "eaten"), ("dots", "left")))
    assert len({lead.bottom for lead in chart.leads}) == 1


def camps(*heights: float) -> Kit:
    """Give the sample with a camp at each of these heights."""
    kit = sample_kit()
    days = tuple(
        replace(
            kit.days[0],
            day=number,
            conditions=replace(HIGH_CAMP, altitude_m=height),
        )
        for number, height in enumerate(heights, start=1)
    )
    return replace(kit, days=days)


def test_higher_camps_stand_higher() -> None:
    chart = profile_chart(camps(640, 1480, 1120))
    assert chart is not None
    low, high, middle = (float(dot.y) for dot in chart.dots)
    assert low > middle > high
    assert (low - middle) / (low - high) == pytest.approx((1120 - 640) / (1480 - 640), abs=0.01)
    assert chart.lines[0] == " ".join(f"{dot.x},{dot.y}" for dot in chart.dots)
    assert chart.text.replace("\u00a0", " ") == "Day 1: 640 m. Day 2: 1,480 m. Day 3: 1,120 m."


def test_heights_stand_where_the_line_does_not_run() -> None:
    chart = profile_chart(camps(600, 900, 1200, 500))
    assert chart is not None
    hollow, slope, top, end = chart.words[:4]
    first, second, third, fourth = chart.dots
    assert (hollow.anchor, slope.anchor, top.anchor, end.anchor) == (
        "middle",
        "end",
        "middle",
        "middle",
    )
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


def test_a_night_that_is_missing_is_a_gap_as_wide_as_it_lasts() -> None:
    kit = camps(640, 1480, 1120, 900)
    chart = profile_chart(replace(kit, days=(*kit.days[:2], kit.days[3])))
    assert chart is not None
    xs = [float(dot.x) for dot in chart.dots]
    assert xs[2] - xs[1] == pytest.approx(2 * (xs[1] - xs[0]), abs=0.2)
    assert [len(line.split()) for line in chart.lines] == [2, 1], "and no line across it"


def test_a_day_at_home_has_no_bar_no_mark_and_no_zero() -> None:
    kit = sample_kit()
    nothing = replace(
        kit.days[1],
        day=3,
        nutrition=replace(kit.days[1].nutrition, energy_kcal=0.0),
        energy_need_kcal=0.0,
    )
    before = energy_chart(kit)
    chart = energy_chart(replace(kit, days=(*kit.days, nothing)))
    assert (chart.bars, chart.marks) == (before.bars, before.marks)
    assert chart.text.endswith("Day 3: all meals at home.".replace(" 3", "\u00a03"))
    assert float(chart.height) > float(before.height), "its place is kept"


def test_a_morning_without_a_pack_keeps_its_place() -> None:
    bars = draw("x", "X", [Row("A", "1", thin=(5.0, 0.0, 4.0))]).bars
    whole = draw("x", "X", [Row("A", "1", thin=(5.0, 1.0, 4.0))]).bars
    assert [bar.y for bar in bars] == [whole[0].y, whole[2].y]


def test_a_day_that_carries_no_water_has_no_mark() -> None:
    kit = sample_kit()
    dry, wet = (
        replace(day, water=replace(day.water, carry_ml=most))
        for day, most in zip(kit.days, (0.0, 3000.0), strict=True)
    )
    chart = water_chart(replace(kit, days=(dry, wet)))
    (mark,) = chart.marks
    assert float(mark.top) > float(chart.bars[4].y) - 4, "on the second day"
    assert mark.x in {lead.x for lead in chart.leads}, "and it is named there"


def test_a_night_without_weighings_leaves_the_curve_and_gets_no_dots() -> None:
    run = apple_run()
    first, *_, last = run.weighed
    far = replace(run, weighed=(first, last))
    chart, whole = (run_chart(figures.figures_of(sample_kit()), "x", each) for each in (far, run))
    assert chart.lines == whole.lines, "the forecast runs on"
    assert [dot.x for dot in chart.dots] == [whole.dots[0].x, whole.dots[-1].x]


def test_a_long_name_leaves_room_for_its_number() -> None:
    chart = draw("x", "X", [Row("N" * 60, "14.2 kg", ((1.0, "lines"),))])
    assert chart.words[0].text == "N" * 21 + "…"
    assert "N" * 60 in chart.text


def test_every_chart_but_those_beside_their_table_has_one_behind() -> None:
    kit = sample_kit()
    for chart in (energy_chart(kit), fuel_chart(kit), kinds_chart(kit), profile_chart(kit)):
        assert chart is not None and chart.behind is not None and chart.behind.rows


class Longer(gettext.NullTranslations):
    """A language like English, only that it takes more letters for everything."""

    def __init__(self, times: float, between: str) -> None:
        """Say all texts so many times as long, the rest behind a space or joined on."""
        super().__init__()
        self.times = times
        self.between = between

    def gettext(self, message: str) -> str:
        letters = len(re.sub(r"\{\w+\}", "", message))
        more = math.ceil((self.times - 1) * letters)
        return f"{message}{self.between}{'e' * more}" if more else message

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


def crowded(units: Units) -> Kit:
    """Give a long trip of a large party: high camps, long names, numbers of five digits."""
    kit = camps(*(1200.0 + 137 * (number * 5 % 12) for number in range(12)))
    days = tuple(
        replace(
            day,
            nutrition=replace(day.nutrition, energy_kcal=28_888.0),
            energy_need_kcal=26_666.0,
        )
        for day in kit.days
    )
    first, *others = kit.weights.people
    long = replace(first, name="Wilhelmina WAM the Second of That Name")
    weights = replace(kit.weights, people=(long, *others))
    return replace(kit, days=days, weights=weights, units=units)


def drawn(kit: Kit) -> list[Chart]:
    charts = [
        energy_chart(kit),
        packs_chart(kit),
        kinds_chart(kit),
        profile_chart(kit),
        water_chart(kit),
        fuel_chart(kit),
        run_chart(figures.figures_of(kit), "apples", apple_run()),
    ]
    assert None not in charts
    return [chart for chart in charts if chart is not None]


def box(words: Words, times: float = 1.0) -> tuple[float, float, float, float]:
    """Give left, top, right and bottom of words in a picture so many times as wide.

    Letters stand on y, some hang below it.
    """
    wide = words_wide(words.text)
    left = float(words.x) * times - {"start": 0.0, "middle": wide / 2, "end": wide}[words.anchor]
    return left, float(words.y) - 9.5, left + wide, float(words.y) + 2.5


def cross(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    left, top, right, bottom = one
    return left < other[2] and other[0] < right and top < other[3] and other[1] < bottom


@pytest.mark.parametrize("between", [" ", ""], ids=["more words", "longer words"])
@pytest.mark.parametrize("times", [1.0, 1.4, 2.0])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_words_of_any_language_stay_in_the_picture_and_apart(
    units: Units, times: float, between: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    speech = spoken(Longer(times, between), "en")
    monkeypatch.setattr(figures, "speech_of", lambda language: speech)
    for chart in drawn(crowded(units)):
        boxes = [(words.text, box(words)) for words in chart.words]
        for said, (left, top, right, bottom) in boxes:
            # The ends of a word are free of ink for a pixel; coordinates are told to a tenth.
            assert left >= -1.06 and right <= WIDTH + 1.06, (chart.id, said)
            assert top >= 0 and bottom <= float(chart.height), (chart.id, said)
        for (said, one), (other, two) in combinations(boxes, 2):
            assert not cross(one, two), (chart.id, said, other)
        for bar in chart.bars:
            x, y, width, height = map(float, (bar.x, bar.y, bar.width, bar.height))
            covered = (x, y, x + width, y + height)
            assert not [said for said, each in boxes if cross(each, covered)], chart.id
        for lead in chart.leads:
            line = (float(lead.x), float(lead.top), float(lead.x), float(lead.bottom))
            assert not [said for said, each in boxes if cross(each, line)], chart.id


@pytest.mark.parametrize("times", [1.0, 2.5])
@pytest.mark.parametrize("seed", range(40))
def test_no_line_crosses_words_whatever_is_named(seed: int, times: float) -> None:
    chance = random.Random(seed)
    fills: tuple[Fill, ...] = ("open", "solid", "dots", "lines", "cross")
    parts = tuple((chance.choice((1.0, 5.0, 30.0)), fill) for fill in fills)
    names = tuple((fill, " ".join(["name"] * chance.randint(1, 5))) for fill in fills)
    mark = chance.uniform(0.0, 120.0)
    chart = draw("x", "X", [Row("A", "1", parts, mark=mark)], names=names, mark="the most of all")
    assert len(chart.leads) == 6
    boxes = [box(words, times) for words in chart.words]
    for lead in chart.leads:
        line = (float(lead.x) * times, float(lead.top), float(lead.x) * times, float(lead.bottom))
        assert not [each for each in boxes if cross(each, line)]
    for one, other in combinations(boxes, 2):
        assert not cross(one, other)


def test_words_too_long_to_stand_beside_a_name_stand_under_it_whole() -> None:
    says = "12,345 kcal have been eaten by everybody, while 23,456 kcal would have been needed"
    chart = draw("x", "X", [Row("Day 1", says, ((1.0, "lines"),)), Row("Day 2", "2")])
    name, *lines = (each for each in chart.words if each.text not in ("Day 2", "2"))
    assert [each.anchor for each in lines] == ["end", "end"]
    assert " ".join(each.text for each in lines) == says
    heights = [float(each.y) for each in (name, *lines)]
    assert heights == sorted(set(heights))
    assert float(chart.bars[0].y) > heights[-1]
    short = draw("x", "X", [Row("Day 1", "2", ((1.0, "lines"),)), Row("Day 2", "2")])
    assert float(chart.height) - float(short.height) == pytest.approx(2 * (heights[2] - heights[1]))


@pytest.mark.parametrize("earliest_min", [30.0, 662.0])
@pytest.mark.parametrize("share", [0.02, 0.5, 0.85, 0.95, 0.98])
def test_the_words_of_a_run_keep_apart_however_dry_and_soon(
    share: float, earliest_min: float
) -> None:
    run = apple_run()
    heaviest = max(each.mass_g for each in (*run.curve, *run.weighed))
    almost = replace(run, target_g=share * heaviest, earliest_min=earliest_min)
    chart = run_chart(figures.figures_of(sample_kit()), "apples", almost)
    boxes = [box(each) for each in chart.words]
    for bar in chart.bars:
        x, y, width, height = map(float, (bar.x, bar.y, bar.width, bar.height))
        boxes.append((x, y, x + width, y + height))
    for one, two in combinations(boxes, 2):
        assert not cross(one, two), (one, two)


# As a browser measures them, 12 px high, in DejaVu Sans, which is wider than most.
@pytest.mark.parametrize(
    ("words", "wide"),
    [
        ("Day 1", 35.1),
        ("1,480 m", 49.9),
        ("2,520 kcal eaten, 6,500 kcal needed", 219.5),
        ("dry enough: 361 g", 108.0),
        ("After day 12", 73.8),
        ("11.8 kg → 11.37 kg", 115.5),
    ],
)
def test_words_are_measured_rather_too_wide_than_too_narrow(words: str, wide: float) -> None:
    assert wide - 0.1 <= words_wide(words) <= 1.08 * wide


def test_letters_count_with_their_accents_and_wide_scripts_take_more() -> None:
    assert words_wide("å") == words_wide("a")
    assert words_wide("Abend") < words_wide("夕食夕食夕")
