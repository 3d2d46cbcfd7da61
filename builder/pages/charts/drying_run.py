"""The weight of a load in the dryer, hour by hour."""

from __future__ import annotations

from builder.model.batch import Weighing
from builder.model.kit import DryingRun
from builder.pages.charts.drawing import (
    BAR,
    BAR_WIDTH,
    GAP,
    LEFT,
    LEGEND,
    LETTERS,
    LINE,
    WIDTH,
    WORDS_AT,
    Bar,
    Chart,
    Dot,
    Level,
    Words,
    drawn,
    legend_words,
    px,
    words_wide,
)
from builder.pages.figures import Figures
from builder.pages.pieces import table, text
from builder.units import rounded

_RUN_TOP = 18.0
_RUN_HEIGHT = 120.0
_RANGE = 9.0  # high, about the line it lies on
_OVER_LINE = 6.0
_OVER_RANGE = 9.0
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
    dry_from = x(run.earliest_min)
    enough = say("dry enough: {mass}", mass=target)
    over = _OVER_LINE if LEFT + words_wide(enough) + GAP <= dry_from else _OVER_RANGE
    enough_at = y(run.target_g) - over
    if enough_at < WORDS_AT + LINE:  # the weight at the start stands there: go under the line
        enough_at = y(run.target_g) + over + LETTERS
    legend = legend_words(ground + 24, say("likely dry enough in these hours"))
    return drawn(
        f"run-{batch}",
        say("Weight of the load: dry enough after about {time}; dots are weighings", time=dry),
        ". ".join(told),
        ground + 24 + LEGEND + (len(legend) - 1) * LINE,
        bars=(
            Bar(
                px(dry_from),
                px(y(run.target_g) - _RANGE / 2),
                px(max(x(run.latest_min) - dry_from, 2.0)),
                px(_RANGE),
                "lines",
            ),
            Bar(px(LEFT), px(ground + 24), "22", px(BAR), "lines"),
        ),
        words=(
            Words(px(LEFT), px(WORDS_AT), "start", figures.plain(heaviest, "mass_g")),
            Words(px(LEFT), px(enough_at), "start", enough),
            Words(px(LEFT), px(ground + 15), "start", say.of("drying", "start")),
            Words(
                px(WIDTH - LEFT),
                px(ground + 15),
                "end",
                figures.plain(half_hours(longest), "duration_min"),
            ),
            *legend,
        ),
        line=" ".join(f"{px(x(each.at_min))},{px(y(each.mass_g))}" for each in run.curve),
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
    )


def _at(figures: Figures, weighing: Weighing) -> str:
    return figures.plain(weighing.at_min, "duration_min")
