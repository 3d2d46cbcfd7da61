"""The strip of a day: its way, meals and water on one line of hours."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import Kit, KitDay
from builder.pages import words
from builder.pages.charts import WIDTH, Bar, Chart, Dot, Level, Mark, Words
from builder.pages.figures import figures_of

# Where nobody told when they eat, these are only where on the strip things stand.
_FROM_H, _TO_H = 6.0, 22.0
_BREAKFAST_H, _DINNER_H = 7.0, 18.5
_UNTIL_ON_THE_WAY_H = 1.0  # from breakfast
_LUNCH_TAKES_H = 0.75
_AFTER_THE_WAY_H = 1.0
_CLOCKS_H = (6, 10, 14, 18, 22)

_SIDE = 12.0  # room for the half of a clock at either end
_CLOCK_AT, _LINE_AT = 11.0, 18.0
_WAY_AT, _WATER_AT, _MEALS_AT = 40.0, 78.0, 112.0
_BAR = 13.0
_WORDS_OVER = 5.0
_NAMES_UNDER, _LINE = 20.0, 15.0
# On a narrow phone, in longer words, names of meals that are nearer would lie over each other.
_NAMES_APART_H = 4.0


def day_strip(kit: Kit, day: KitDay) -> Chart | None:
    """Draw a day with a way, so that one sees what comes before what; a day of rest needs none."""
    if not day.travel_hours:
        return None
    figures = figures_of(kit)
    say = figures.say
    eaten = {meal.meal for meal in day.meals}
    hours = figures.plain(day.travel_hours, "hours")
    times = kit.times
    breakfast_h = times.breakfast_min / 60 if times else _BREAKFAST_H
    sets_out_h = breakfast_h + _UNTIL_ON_THE_WAY_H
    noon_h = None
    if "lunch" in eaten:
        noon_h = sets_out_h + day.travel_hours / 2
        if times:  # within the way, or at one of its ends
            ends_h = sets_out_h + day.travel_hours
            noon_h = min(max(times.lunch_min / 60, sets_out_h), ends_h)
    first_h, rest_h = _halves(sets_out_h, day.travel_hours, noon_h)
    ends_h = rest_h[1] if rest_h else first_h[1]
    dinner_h = max(times.dinner_min / 60 if times else _DINNER_H, ends_h + _AFTER_THE_WAY_H)
    meals = [
        (at, say(words.MEALS[name]))
        for name, at in (("breakfast", breakfast_h), ("lunch", first_h[1]), ("dinner", dinner_h))
        if name in eaten
    ]
    names = _names(meals)
    way = say("on the way {hours}", hours=hours)
    said = [
        *(_words(at, _CLOCK_AT, str(at)) for at in _CLOCKS_H),
        _words(first_h[0], _WAY_AT - _WORDS_OVER, way, "start"),
        *names,
    ]
    bars = [_bar(*part, _WAY_AT, "lines") for part in (first_h, rest_h) if part]
    told = [way, *(name for _, name in meals)]
    if day.between_water_h:
        dry_h = min(day.between_water_h, day.travel_hours)
        dry = say("up to {hours} of it without water", hours=figures.plain(dry_h, "hours"))
        bars.append(_bar(first_h[0], first_h[0] + dry_h, _WATER_AT, "open"))
        said.append(_words(first_h[0], _WATER_AT - _WORDS_OVER, dry, "start"))
        told.insert(1, dry)
    return Chart(
        f"strip-{day.day}",
        say("The day in hours, with meals when you mean to eat.")
        if times
        else say("The day in hours, as an example: set out earlier, and all of it moves."),
        ". ".join(told),
        max((float(name.y) for name in names), default=_MEALS_AT + _NAMES_UNDER) + 6.0,
        bars=tuple(bars),
        marks=tuple(Mark(_x(at), f"{_LINE_AT - 3:g}", f"{_LINE_AT + 3:g}") for at in _CLOCKS_H),
        words=tuple(said),
        dots=tuple(Dot(_x(at), f"{_MEALS_AT:g}") for at, _ in meals),
        levels=(Level(f"{_LINE_AT:g}", dashed=False),),
    )


def _halves(
    sets_out_h: float, hours: float, noon_h: float | None
) -> tuple[tuple[float, float], tuple[float, float] | None]:
    """Give from when to when one is on the way, before and after lunch."""
    ends_h = sets_out_h + hours
    if noon_h is None:
        return (sets_out_h, ends_h), None
    return (sets_out_h, noon_h), (noon_h + _LUNCH_TAKES_H, ends_h + _LUNCH_TAKES_H)


def _x(at_h: float) -> str:
    """Give where an hour stands; what is later than the strip stands at its end."""
    share = (min(max(at_h, _FROM_H), _TO_H) - _FROM_H) / (_TO_H - _FROM_H)
    return f"{_SIDE + share * (WIDTH - 2 * _SIDE):.4g}"


def _bar(from_h: float, to_h: float, y: float, fill: str) -> Bar:
    width = float(_x(to_h)) - float(_x(from_h))
    return Bar(_x(from_h), f"{y:g}", f"{width:.4g}", f"{_BAR:g}", fill)


def _names(meals: Sequence[tuple[float, str]]) -> list[Words]:
    """Write the names of meals, one that would lie over the one before a line lower."""
    names: list[Words] = []
    before_h, is_low = -_NAMES_APART_H, False
    for at_h, name in meals:
        is_low = at_h - before_h < _NAMES_APART_H and not is_low
        names.append(_words(at_h, _MEALS_AT + _NAMES_UNDER + _LINE * is_low, name))
        before_h = at_h
    return names


def _words(at_h: float, y: float, said: str, anchor: str = "middle") -> Words:
    return Words(_x(at_h), f"{y:g}", anchor, said)
