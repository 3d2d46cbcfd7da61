"""Bars to one scale, told apart by words and hatching, in any colour scheme and on paper."""

from __future__ import annotations

from collections.abc import Sequence

from builder.pages.charts.drawing import (
    BAR,
    BAR_AT,
    BAR_WIDTH,
    GAP,
    LEFT,
    LINE,
    WIDTH,
    WORDS_AT,
    Bar,
    Chart,
    Fill,
    Lead,
    Mark,
    Words,
    in_lines,
    mark_at,
    px,
    short,
    words_wide,
)
from builder.pages.charts.leaders import Named, led
from builder.pages.pieces import Table
from builder.record import dataclass

_ROW = 38.0
_THIN = 6.0
_THIN_STEP = 8.0
_NAMES_AT = 14.0  # from a bar to the words under it
_NAMES_END = 2.0
_WIDE_ENOUGH = 8.0  # to be named there


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
    names: tuple[tuple[Fill, str], ...] = (),
    mark: str = "",
    behind: Table | None = None,
) -> Chart:
    """Lay out bars to one scale, with their words above them; each hatching is named once, below.

    It is named at the first bar in which it can be seen well, and so is the mark.
    """
    longest = max((_longest(row) for row in rows), default=0) or 1
    scale = BAR_WIDTH / longest
    best = {fill: _best(rows, fill, scale) for fill, _ in names}
    marked = next((number for number, row in enumerate(rows) if row.mark), None)
    bars: list[Bar] = []
    marks: list[Mark] = []
    leads: list[Lead] = []
    said: list[Words] = []
    y = 0.0
    for number, row in enumerate(rows):
        name = short(row.name)
        said.append(Words(px(LEFT), px(y + WORDS_AT), "start", name))
        if words_wide(name) + GAP + words_wide(row.says) > BAR_WIDTH:
            y += LINE  # too long to stand beside the name: under it
        for below, line in enumerate(in_lines(row.says, BAR_WIDTH)):
            y += LINE if below else 0
            said.append(Words(px(WIDTH - LEFT), px(y + WORDS_AT), "end", line))
        bars += _bars(row, y + BAR_AT, scale)
        if row.mark:
            marks.append(mark_at(LEFT + row.mark * scale, y + BAR_AT))
        ground = y + BAR_AT + BAR
        y += _ROW if not row.thin else BAR_AT + len(row.thin) * _THIN_STEP + BAR / 2
        named = [
            Named(_middle(row, fill, scale), ground, means)
            for fill, means in names
            if best[fill] == number
        ]
        if mark and row.mark and number == marked:
            named.append(Named(LEFT + row.mark * scale, ground, mark))
        if named:
            name_words, name_leads, below_names = led(named, ground + _NAMES_AT)
            said += name_words
            leads += name_leads
            y += below_names - ground - _NAMES_AT + _NAMES_END
    told = ". ".join(f"{row.name}: {row.told or row.says}" for row in rows)
    return Chart(
        chart_id,
        title,
        told,
        y,
        bars=tuple(bars),
        marks=tuple(marks),
        words=tuple(said),
        behind=behind,
        leads=tuple(leads),
    )


def _best(rows: Sequence[Row], fill: Fill, scale: float) -> int | None:
    """Choose the bar that tells best what a hatching means; None where no bar has it."""
    wide = [sum(size for size, own in row.parts if own == fill) * scale for row in rows]
    seen = (number for number, each in enumerate(wide) if each >= _WIDE_ENOUGH)
    widest = max(range(len(rows)), key=lambda number: wide[number], default=0)
    return next(seen, widest if any(each > 0 for each in wide) else None)


def _middle(row: Row, fill: Fill, scale: float) -> float:
    """Give the middle of a part, or where the mark stands in it, a point beside that."""
    x = LEFT
    for size, own in row.parts:
        wide = max(size, 0) * scale
        if own == fill:
            marked = row.mark and abs(x + wide / 2 - LEFT - row.mark * scale) < 2 * GAP
            return x + wide / (4 if marked else 2)
        x += wide
    raise LookupError(fill)


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
