"""The way of a day as a track tells it."""

from __future__ import annotations

from builder.record import dataclass

TRACK_GAP_M = 30.0  # of height at one spot: a receiver that stands still wanders less


def is_gap(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Tell whether a track leaves off at a point and goes on at another one of other height."""
    return one[0] == other[0] and abs(one[1] - other[1]) > TRACK_GAP_M


@dataclass(frozen=True, slots=True)
class DayTrack:
    """What a track tells of one day's way; None where it has no heights."""

    distance_m: float
    ascent_m: float | None = None
    descent_m: float | None = None
    end_m: float | None = None  # height at its end
    profile: tuple[tuple[float, float], ...] = ()  # metres along the way, and up
