"""How pages tell the light of a day."""

from __future__ import annotations

from builder.model.kit import KitDay
from builder.model.looks import Light
from builder.pages.figures import Figures
from builder.pages.pieces import Cell, Piece, filled, text
from builder.pages.trip.addresses import at_day
from builder.speech import Speech


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


def _clock(minutes: float) -> str:
    hours, rest = divmod(round(float(minutes)) % (24 * 60), 60)
    return f"{hours:02d}:{rest:02d}"
