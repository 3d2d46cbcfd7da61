"""The weight of a load in the dryer, hour by hour."""

from __future__ import annotations

from builder.model.batch import Weighing
from builder.model.kit import DryingRun
from builder.pages.charts.drawing import (
    BAR_WIDTH,
    GAP,
    LEFT,
    LETTERS,
    LINE,
    WIDTH,
    WORDS_AT,
    Bar,
    Chart,
    Dot,
    Lead,
    Level,
    Words,
    in_lines,
    points,
    px,
    words_wide,
)
from builder.pages.charts.leaders import FOOT, beside, rooms
from builder.pages.figures import Figures
from builder.pages.pieces import table, text
from builder.units import rounded

_RUN_TOP = 18.0
_RUN_HEIGHT = 120.0
_RANGE = 9.0  # high, about the line it lies on
_HALF_HOUR = 30.0


def half_hours(minutes: float) -> float:
    """Round an estimated time as far as anyone can rely on it."""
    return rounded(minutes / _HALF_HOUR) * _HALF_HOUR


def run_chart(figures: Figures, batch: str, run: DryingRun) -> Chart:
    """Draw the weight of a load against hours: weighings, curve, and where it is dry enough."""
    say = figures.say
    heaviest = max(each.mass_g for each in (*run.curve, *run.weighed))
    longest = max(run.latest_min, *(each.at_min for each in (*run.curve, *run.weighed)))
    ground = _RUN_TOP + _RUN_HEIGHT

    def x(minutes: float) -> float:
        return LEFT + BAR_WIDTH * minutes / longest

    def y(mass_g: float) -> float:
        return ground - _RUN_HEIGHT * mass_g / heaviest

    target = figures.plain(run.target_g, "mass_g")
    dry = figures.plain(half_hours(run.dry_after_min), "duration_min")
    rows = [(_at(figures, each), figures.plain(each.mass_g, "mass_g")) for each in run.weighed]
    told = [say("After {time}: {mass}", time=at, mass=mass) for at, mass in rows]
    told.append(say("Dry enough, {mass}, after about {time}", mass=target, time=dry))
    heavy = figures.plain(heaviest, "mass_g")
    dry_from = x(run.earliest_min)
    wide = max(x(run.latest_min) - dry_from, 2.0)
    named, lead = _named(
        (say("dry enough: {mass}", mass=target), say("likely in these hours")),
        dry_from + wide / 2,
        y(run.target_g),
        LEFT + words_wide(heavy) + GAP,
    )
    return Chart(
        f"run-{batch}",
        say("Weight of the load: dry enough after about {time}; dots are weighings", time=dry),
        ". ".join(told),
        ground + LINE + GAP,
        bars=(
            Bar(
                px(dry_from),
                px(y(run.target_g) - _RANGE / 2),
                px(wide),
                px(_RANGE),
                "lines",
            ),
        ),
        words=(
            Words(px(LEFT), px(WORDS_AT), "start", heavy),
            Words(px(LEFT), px(ground + 15), "start", say.of("drying", "start")),
            Words(
                px(WIDTH - LEFT),
                px(ground + 15),
                "end",
                figures.plain(half_hours(longest), "duration_min"),
            ),
            *named,
        ),
        lines=(points((x(each.at_min), y(each.mass_g)) for each in run.curve),),
        dots=tuple(Dot(px(x(each.at_min)), px(y(each.mass_g))) for each in run.weighed),
        behind=table(
            (say("After"), say("Weight")),
            [
                *((text(at), text(mass)) for at, mass in rows),
                (text(say("{time}, forecast", time=dry)), text(target)),
            ],
            "lr",
        ),
        levels=(Level(px(y(run.target_g)), True), Level(px(ground), False)),
        leads=(lead,),
    )


def _named(says: tuple[str, ...], x: float, y: float, left: float) -> tuple[list[Words], Lead]:
    """Name the hours on the line: above the curve, or where the line lies high, under it."""
    room = max(rooms(x, left, WIDTH), key=lambda side: side.wide)
    lines = [line for each in says for line in in_lines(each, room.wide)]
    if y > _RUN_TOP + _RUN_HEIGHT / 2:
        words = beside(x, WORDS_AT, room, lines)
        return words, Lead(px(x), px(WORDS_AT - LETTERS + FOOT), px(y - _RANGE / 2))
    words = beside(x, y + _RANGE + LETTERS, room, lines)
    return words, Lead(px(x), px(y + _RANGE / 2), px(float(words[-1].y) + FOOT))


def _at(figures: Figures, weighing: Weighing) -> str:
    return figures.plain(weighing.at_min, "duration_min")
