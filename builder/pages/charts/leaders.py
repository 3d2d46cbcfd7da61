"""Words under a bar that name its parts, each beside the foot of a line down from its part."""

from __future__ import annotations

from collections.abc import Sequence

from builder.pages.charts.drawing import (
    GAP,
    LINE,
    WIDTH,
    Lead,
    Words,
    in_lines,
    px,
    words_wide,
)
from builder.record import dataclass

_BESIDE = 3.0  # from a line to its words
FOOT = 2.0  # that a line goes on below the letters beside it


@dataclass(frozen=True, slots=True)
class Named:
    """What gets a name: where its line begins, and the words."""

    x: float
    top: float
    says: str


@dataclass(frozen=True, slots=True)
class Room:
    """What is free beside a line: how wide, and from where words run."""

    wide: float
    anchor: str


def rooms(x: float, left: float, right: float) -> tuple[Room, Room]:
    """Give what is free after and before a line between two others."""
    return Room(right - x - _BESIDE, "start"), Room(x - _BESIDE - left, "end")


def beside(x: float, y: float, room: Room, lines: Sequence[str]) -> list[Words]:
    """Put lines of words beside a line that leads to them."""
    aside = _BESIDE if room.anchor == "start" else -_BESIDE
    return [
        Words(px(x + aside), px(y + number * LINE), room.anchor, line)
        for number, line in enumerate(lines)
    ]


def led(named: Sequence[Named], y: float) -> tuple[list[Words], list[Lead], float]:
    """Place words from a line on downwards; give them, their lines, and where the next line is.

    What waits for a line further down keeps its way free, and so no line crosses words. A page is
    never narrower than the picture is laid out: elsewhere, all lines stand further apart.
    """
    waiting = sorted(named, key=lambda each: -each.x)
    words: list[Words] = []
    leads: list[Lead] = []
    while waiting:
        left_over = []
        right = float(WIDTH)
        for number, each in enumerate(waiting):
            room = _room(each, _left(waiting, number), right)
            if room is None:
                left_over.append(each)
                right = each.x - GAP
                continue
            words += beside(each.x, y, room, (each.says,))
            leads.append(Lead(px(each.x), px(each.top), px(y + FOOT)))
            right = each.x - GAP
            if room.anchor == "end":
                right -= _BESIDE + words_wide(each.says)
        if len(left_over) == len(waiting):
            widest = max(range(len(waiting)), key=lambda number: _widest(waiting, number).wide)
            room = _widest(waiting, widest)
            each = left_over.pop(widest)
            lines = in_lines(each.says, room.wide)
            words += beside(each.x, y, room, lines)
            y += (len(lines) - 1) * LINE
            leads.append(Lead(px(each.x), px(each.top), px(y + FOOT)))
        waiting = left_over
        y += LINE
    return words, leads, y


def _left(waiting: Sequence[Named], number: int) -> float:
    """Give up to where a line is free, left of a foot."""
    return waiting[number + 1].x + GAP if number + 1 < len(waiting) else 0.0


def _room(named: Named, left: float, right: float) -> Room | None:
    """Choose the side on which words have room: after their line, else before it."""
    wide = words_wide(named.says)
    return next((each for each in rooms(named.x, left, right) if wide <= each.wide), None)


def _widest(waiting: Sequence[Named], number: int) -> Room:
    """Give the wider side of a foot where nothing stands on its line yet."""
    right = waiting[number - 1].x - GAP if number else float(WIDTH)
    sides = rooms(waiting[number].x, _left(waiting, number), right)
    return max(sides, key=lambda side: side.wide)
