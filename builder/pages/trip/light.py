"""How pages tell the hours of a day: its light, and when one eats."""

from __future__ import annotations

from builder.model.kit import Kit, KitDay
from builder.model.looks import Light
from builder.pages.figures import Figures
from builder.pages.pieces import Cell, Piece, filled, text
from builder.pages.trip.addresses import at_day
from builder.speech import Speech

# What is nibbled or drunk has no time of its own.
_TIMED_MEALS = ("breakfast", "lunch", "dinner")


def light_said(figures: Figures, day: KitDay, light: Light) -> Cell:
    """Say from when to when the sun is up."""
    say, at = figures.say, f"{at_day(day)}.light"
    if light.rises_min is None or light.sets_min is None:
        up = light.is_up_at_noon
        return text(say("the sun does not set") if up else say("the sun does not rise"))
    return filled(
        say("sun up from {rises} to {sets}, less behind hills"),
        rises=(Piece(_clock(light.rises_min), figures.how(f"{at}.rises_min")),),
        sets=(Piece(_clock(light.sets_min), figures.how(f"{at}.sets_min")),),
    )


def light_at_meal(say: Speech, day: KitDay, meal: str) -> str:
    """Say when it gets light before breakfast, and dark after dinner."""
    light = day.light
    if light is None:
        return ""
    if meal == "breakfast" and light.rises_min is not None:
        return say("The sun rises at {time}.", time=_clock(light.rises_min))
    if meal == "dinner" and light.sets_min is not None:
        return say("The sun sets at {time}.", time=_clock(light.sets_min))
    return ""


def eaten_at(kit: Kit, meal: str) -> str:
    """Give the time when a meal is eaten, as 18:30; "" where the trip does not tell it."""
    if kit.times is None or meal not in _TIMED_MEALS:
        return ""
    return _clock(kit.times.of(meal))


def _clock(minutes: float) -> str:
    hours, rest = divmod(round(float(minutes)) % (24 * 60), 60)
    return f"{hours:02d}:{rest:02d}"
