"""Bars to one scale, told apart by words and hatching, in any colour scheme and on paper."""

from __future__ import annotations

from dataclasses import dataclass

from builder.pages.charts.drawing import (
    BAR,
    BAR_AT,
    BAR_WIDTH,
    GAP,
    LEFT,
    LEGEND,
    LINE,
    WIDTH,
    WORDS_AT,
    Bar,
    Chart,
    Fill,
    Mark,
    Words,
    drawn,
    in_lines,
    legend_words,
    mark_at,
    px,
    short,
    words_wide,
)
from builder.pages.pieces import Table

_ROW = 38.0
_THIN = 6.0
_THIN_STEP = 8.0


@dataclass(frozen=True, slots=True)
class Row:
    """One bar: parts from the left, and perhaps a mark; `thin` has bars of their own instead."""

    name: str
    says: str
    parts: tuple[tuple[float, Fill], ...] = ()
    mark: float | None = None
    thin: tuple[float, ...] = ()
    told: str = ""  # instead of `says` in the words for those who do not see it


def draw(
    chart_id: str,
    title: str,
    rows: list[Row],
    *,
    legend: tuple[tuple[Fill, str], ...] = (),
    mark: str = "",
    behind: Table | None = None,
) -> Chart:
    """Lay out bars to one scale, with their words above them and what the hatchings mean below."""
    longest = max((_longest(row) for row in rows), default=0) or 1
    bars: list[Bar] = []
    marks: list[Mark] = []
    said: list[Words] = []
    y = 0.0
    for row in rows:
        name = short(row.name)
        said.append(Words(px(LEFT), px(y + WORDS_AT), "start", name))
        if words_wide(name) + GAP + words_wide(row.says) > BAR_WIDTH:
            y += LINE  # too long to stand beside the name: under it
        for number, line in enumerate(in_lines(row.says, BAR_WIDTH)):
            y += LINE if number else 0
            said.append(Words(px(WIDTH - LEFT), px(y + WORDS_AT), "end", line))
        bars += _bars(row, y + BAR_AT, BAR_WIDTH / longest)
        if row.mark is not None:
            marks.append(mark_at(LEFT + BAR_WIDTH * row.mark / longest, y + BAR_AT))
        y += _ROW if not row.thin else BAR_AT + len(row.thin) * _THIN_STEP + BAR / 2
    y += 4
    for fill, means in legend:
        bars.append(Bar(px(LEFT), px(y), "22", px(BAR), fill))
        meaning = legend_words(y, means)
        said += meaning
        y += LEGEND + (len(meaning) - 1) * LINE
    if mark:
        marks.append(mark_at(LEFT + 11, y))
        meaning = legend_words(y, mark)
        said += meaning
        y += LEGEND + (len(meaning) - 1) * LINE
    told = ". ".join(f"{row.name}: {row.told or row.says}" for row in rows)
    return drawn(
        chart_id,
        title,
        told,
        y + 2,
        bars=tuple(bars),
        marks=tuple(marks),
        words=tuple(said),
        behind=behind,
    )


def _longest(row: Row) -> float:
    return max(sum(size for size, _ in row.parts), row.mark or 0, *row.thin, 0.0)


def _bars(row: Row, y: float, scale: float) -> list[Bar]:
    bars = []
    x = LEFT
    for size, fill in row.parts:
        if size * scale > 0:
            bars.append(Bar(px(x), px(y), px(size * scale), px(BAR), fill))
        x += max(size, 0) * scale
    for number, size in enumerate(row.thin):
        if size > 0:
            top = px(y + number * _THIN_STEP)
            bars.append(Bar(px(LEFT), top, px(size * scale), px(_THIN), "solid"))
    return bars
