"""The heights of the camps, day by day."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from builder.model.kit import Kit
from builder.pages import words
from builder.pages.charts.drawing import (
    GAP,
    LINE,
    WIDTH,
    Chart,
    Dot,
    Words,
    points,
    px,
    words_wide,
)
from builder.pages.figures import figures_of
from builder.pages.pieces import table, text

PROFILE_TOP = 22.0
PROFILE_HEIGHT = 80.0
LABEL_ROOM = 64.0  # at least, from one height to the next
DAY_ROOM = 48.0
LABEL_OVER = 8.0
_LABEL_UNDER = 18.0
_BEARING = 1.0  # free of ink at either end of a word


def profile_chart(kit: Kit) -> Chart | None:
    """Draw how high the camps lie, night after night; one camp alone needs no picture."""
    camps = [day for day in kit.days if not day.ends_home]
    if len(camps) < 2:
        return None
    figures = figures_of(kit)
    say = figures.say
    names = [words.day_name(say, day) for day in camps]
    heights = [day.conditions.altitude_m for day in camps]
    shown = [figures.plain(height, "altitude_m") for height in heights]
    step = (WIDTH - DAY_ROOM) / (camps[-1].day - camps[0].day)
    xs = [DAY_ROOM / 2 + step * (day.day - camps[0].day) for day in camps]
    low, high = min(heights), max(heights)
    scale = PROFILE_HEIGHT / (high - low) if high > low else 0.0
    ground = PROFILE_TOP + PROFILE_HEIGHT + 24
    ys = [PROFILE_TOP + (high - height) * scale for height in heights]
    nights = enumerate(pairwise(camps), start=1)
    gaps = [number for number, (one, other) in nights if other.day - one.day > 1]
    over = [_label(number, xs, ys, height) for number, height in enumerate(shown)]
    below = [placed(x, ground + 15, "middle", name) for x, name in zip(xs, names, strict=True)]
    said = with_room(over, heights, LABEL_ROOM)
    said += with_room(below, [0.0] * len(below), DAY_ROOM)
    told = ". ".join(f"{name}: {height}" for name, height in zip(names, shown, strict=True))
    title = say("How high you sleep, night by night")
    if high > low:
        top = heights.index(high)
        title = say(
            "How high you sleep, night by night: highest after day {n}, {height}",
            n=camps[top].day,
            height=shown[top],
        )
    return Chart(
        "profile-chart",
        title,
        told,
        ground + 20,
        words=tuple(said),
        lines=tuple(
            points(zip(xs[a:b], ys[a:b], strict=True)) for a, b in pairwise((0, *gaps, None))
        ),
        dots=tuple(Dot(px(x), px(y)) for x, y in zip(xs, ys, strict=True)),
        behind=table(
            (say("Night after"), say("Camp at")),
            [(text(name), text(height)) for name, height in zip(names, shown, strict=True)],
            "lr",
        ),
    )


def _label(number: int, xs: Sequence[float], ys: Sequence[float], shown: str) -> Words:
    """Put a height where the line does not run: over a top, under a hollow, beside a slope."""
    before = ys[max(number - 1, 0)] - ys[number]  # below nought where the way comes from above
    after = ys[min(number + 1, len(ys) - 1)] - ys[number]
    if before < 0 < after or after < 0 < before:
        anchor = "start" if before < 0 else "end"
        return placed(xs[number], ys[number] - LABEL_OVER, anchor, shown)
    down = _LABEL_UNDER if min(before, after) < 0 else -LABEL_OVER
    return placed(xs[number], ys[number] + down, "middle", shown)


def placed(x: float, y: float, anchor: str, shown: str) -> Words:
    """Put words at a point, or as near to it as leaves them in the picture."""
    left, right = _ends(x, anchor, shown)
    aside = max(-_BEARING - left, 0.0) or min(WIDTH + _BEARING - right, 0.0)
    return Words(px(x + aside), px(y), anchor, shown)


def _ends(x: float, anchor: str, shown: str) -> tuple[float, float]:
    """Give where words begin and end."""
    wide = words_wide(shown)
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return left, left + wide


def _apart(one: Words, other: Words, room: float) -> bool:
    """Tell whether two labels are at least so far apart, and do not touch."""
    first, second = float(one.x), float(other.x)
    if abs(first - second) < room:
        return False
    left, right = _ends(first, one.anchor, one.text)
    other_left, other_right = _ends(second, other.anchor, other.text)
    beside = right + GAP <= other_left or other_right + GAP <= left
    return beside or abs(float(one.y) - float(other.y)) >= LINE


def with_room(labels: Sequence[Words], heights: Sequence[float], room: float) -> list[Words]:
    """Choose the points that get a label: the highest and lowest, the ends, then what fits."""
    every = range(len(labels))
    first = [
        max(every, key=lambda number: heights[number]),
        min(every, key=lambda number: heights[number]),
        0,
        len(labels) - 1,
    ]
    chosen: list[int] = []
    for number in (*first, *every):
        if all(_apart(labels[number], labels[other], room) for other in chosen):
            chosen.append(number)
    return [labels[number] for number in sorted(chosen)]
