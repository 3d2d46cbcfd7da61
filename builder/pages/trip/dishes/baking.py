"""How a lidded pot is baked in: how many embers lie where, and how to feel that they are hot."""

from __future__ import annotations

from builder.model.kit import PlannedStep
from builder.pages.figures import Figures
from builder.units import rounded


def bake_said(figures: Figures, step: PlannedStep) -> str:
    """Say how long and how hot."""
    return figures.say(
        "Bake {time} at {temperature}, lid on.",
        time=figures.plain(step.minutes, "duration_min"),
        temperature=figures.plain(step.baking_c, "temperature_c"),
    )


def embers_said(figures: Figures, step: PlannedStep) -> str:
    """Say how the embers lie, in pieces where the pot tells how wide it is."""
    say = figures.say
    seconds = say.number(rounded(step.palm_s))
    if not step.ember_pieces:
        return say(
            "Embers: a third below, two thirds on the lid, so hot that you can hold your palm "
            "above them for {n}\u00a0s.",
            n=seconds,
        )
    pieces, below = rounded(step.ember_pieces), rounded(step.ember_pieces_below)
    return say(
        "Egg-sized embers: {below} below, {above} on the lid, so hot that you can hold your "
        "palm above them for {n}\u00a0s.",
        below=say.number(below),
        above=say.number(pieces - below),
        n=seconds,
    )
