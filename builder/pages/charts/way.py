"""The way as its track has it, with the camps on it, their water and what is eaten there."""

from __future__ import annotations

from builder.model.kit import Kit
from builder.pages import words
from builder.pages.charts.drawing import LINE, WIDTH, Chart, Dot, Words, drawn, px, short
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

_LONGEST = 18  # letters under a camp


def way_chart(kit: Kit) -> Chart | None:
    """Draw the heights along the track; None where the trip has no track with heights."""
    way: list[tuple[float, float]] = []
    camps = []
    for day in kit.days:
        before_m = way[-1][0] if way else 0.0
        way += [(before_m + along_m, height_m) for along_m, height_m in day.profile]
        if way and not day.ends_home:
            camps.append((day, way[-1]))
    if not way or not camps:
        return None
    figures = figures_of(kit)
    say = figures.say
    low, high = min(height for _, height in way), max(height for _, height in way)
    scale = PROFILE_HEIGHT / (high - low) if high > low else 0.0
    across = WIDTH / (way[-1][0] or 1.0)

    def point(at: tuple[float, float]) -> tuple[float, float]:
        return at[0] * across, PROFILE_TOP + (high - at[1]) * scale

    spots = [point(at) for _, at in camps]
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
        placed(x, y - LABEL_OVER, "middle", row[1]) for (x, y), row in zip(spots, rows, strict=True)
    ]
    said: list[Words] = with_room(over, heights, LABEL_ROOM)
    ground = PROFILE_TOP + PROFILE_HEIGHT + LINE
    for number, column in enumerate((0, 2, 3)):
        below = [
            placed(x, ground + LINE * (number + 0.5), "middle", short(row[column], _LONGEST))
            for (x, _), row in zip(spots, rows, strict=True)
        ]
        said += with_room(below, [0.0] * len(below), DAY_ROOM)
    return drawn(
        "profile-chart",
        say(
            "The way and its camps, with water and dinner: the highest at {height}",
            height=figures.plain(max(heights), "altitude_m"),
        ),
        ". ".join(f"{row[0]}: {', '.join(row[1:])}" for row in rows),
        ground + 3 * LINE + 6,
        words=tuple(said),
        line=" ".join(f"{px(x)},{px(y)}" for x, y in map(point, way)),
        dots=tuple(Dot(px(x), px(y)) for x, y in spots),
        behind=table(
            (say("Night after"), say("Camp at"), say("Water"), say("Dinner")),
            [tuple(text(each) for each in row) for row in rows],
            "lrll",
        ),
    )
