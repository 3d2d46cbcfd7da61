"""The way as its track has it, with the camps on it, their water and what is eaten there."""

from __future__ import annotations

from builder.model.kit import Kit, KitDay
from builder.model.track import is_gap
from builder.pages import words
from builder.pages.charts.drawing import LINE, WIDTH, Chart, Dot, Words, points, px, short
from builder.pages.charts.profile import (
    DAY_ROOM,
    LABEL_OVER,
    LABEL_ROOM,
    PROFILE_HEIGHT,
    PROFILE_TOP,
    placed,
    with_room,
)
from builder.pages.figures import figures_of
from builder.pages.pieces import table, text
from builder.record import dataclass

_LONGEST = 18  # letters under a camp
_GAP_WIDE = 8.0  # where the track goes on elsewhere


@dataclass(frozen=True, slots=True)
class _Spot:
    """A point of the way: how far along, behind how many gaps, how high."""

    along_m: float
    gaps: int
    height_m: float


def _walked(kit: Kit) -> tuple[list[list[_Spot]], list[tuple[KitDay, _Spot]]]:
    """Give the stretches that no gap parts, and the camps on them."""
    stretches: list[list[_Spot]] = [[]]
    camps = []
    along_m, gaps = 0.0, 0
    for day in kit.days:
        before_m = along_m
        for at_m, height_m in day.profile:
            along_m = before_m + at_m
            end = stretches[-1][-1:]
            if end and is_gap((end[0].along_m, end[0].height_m), (along_m, height_m)):
                gaps += 1
                stretches.append([])
            stretches[-1].append(_Spot(along_m, gaps, height_m))
        if not day.profile and day.distance_m:  # gone, and nobody knows how high
            along_m += day.distance_m
            stretches.append([])
        if not day.ends_home:
            end = stretches[-1][-1:]
            camps.append((day, end[0] if end else _Spot(along_m, gaps, day.conditions.altitude_m)))
    return stretches, camps


def way_chart(kit: Kit) -> Chart | None:
    """Draw the heights along the track; None where the trip has no track with heights."""
    stretches, camps = _walked(kit)
    spots = [spot for stretch in stretches for spot in stretch]
    if not spots or not camps:
        return None
    last = max((*spots, *(spot for _, spot in camps)), key=lambda spot: (spot.along_m, spot.gaps))
    figures = figures_of(kit)
    say = figures.say
    ups = [spot.height_m for spot in (*spots, *(spot for _, spot in camps))]
    low, high = min(ups), max(ups)
    scale = PROFILE_HEIGHT / (high - low) if high > low else 0.0
    across = (WIDTH - last.gaps * _GAP_WIDE) / (last.along_m or 1.0)

    def point(spot: _Spot) -> tuple[float, float]:
        x = spot.along_m * across + spot.gaps * _GAP_WIDE
        return x, PROFILE_TOP + (high - spot.height_m) * scale

    dots = [point(spot) for _, spot in camps]
    heights = [day.conditions.altitude_m for day, _ in camps]
    rows = [
        (
            words.day_name(say, day),
            figures.plain(day.conditions.altitude_m, "altitude_m"),
            say(words.SOURCES[day.conditions.water_source]),
            say.listed(meal.title for meal in day.meals if meal.meal == "dinner") or "–",
        )
        for day, _ in camps
    ]
    over = [
        placed(x, y - LABEL_OVER, "middle", row[1]) for (x, y), row in zip(dots, rows, strict=True)
    ]
    said: list[Words] = with_room(over, heights, LABEL_ROOM)
    ground = PROFILE_TOP + PROFILE_HEIGHT + LINE
    for number, column in enumerate((0, 2, 3)):
        below = [
            placed(x, ground + LINE * (number + 0.5), "middle", short(row[column], _LONGEST))
            for (x, _), row in zip(dots, rows, strict=True)
        ]
        said += with_room(below, [0.0] * len(below), DAY_ROOM)
    return Chart(
        "profile-chart",
        say(
            "The way and its camps, with water and dinner: the highest at {height}",
            height=figures.plain(max(heights), "altitude_m"),
        ),
        ". ".join(f"{row[0]}: {', '.join(row[1:])}" for row in rows),
        ground + 3 * LINE + 6,
        words=tuple(said),
        lines=tuple(points(map(point, stretch)) for stretch in stretches if stretch),
        dots=tuple(Dot(px(x), px(y)) for x, y in dots),
        behind=table(
            (say("Night after"), say("Camp at"), say("Water"), say("Dinner")),
            [tuple(text(each) for each in row) for row in rows],
            "lrll",
        ),
    )
