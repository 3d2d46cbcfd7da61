"""Water that is melted or boiled for the camp, as lines of the order of work."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.figure import add, none
from builder.model.kit import FuelDay, WaterHeating, WorkDo, WorkPlace, WorkStep
from builder.model.recipe import MealName
from builder.planning.cooking.hearth import Burner, Hearth

_LEAST_ML = 0.5  # less of it nobody measures


def heat_of(burner: Burner | None) -> WorkPlace | None:
    """Give what a pot stands on."""
    return burner.on if burner else None


def water_for(
    name: MealName, names: Sequence[MealName], fuel: FuelDay | None
) -> Iterator[tuple[WaterHeating, WorkDo, float]]:
    """Give the water that is melted or boiled at a mealtime, what comes first last.

    The morning's goes with breakfast, the evening's with dinner; where one of them is not
    cooked, with what comes nearest to it.
    """
    morning = "breakfast" if "breakfast" in names else names[0]
    later = [each for each in names if each in ("lunch", "snacks")]
    evening = "dinner" if "dinner" in names else [names[-1], *later][-1]
    if fuel is None:
        return
    kinds: tuple[tuple[WaterHeating, WorkDo], ...] = (
        (fuel.boiling, "make-safe"),
        (fuel.melting, "melt"),
    )
    for heating, do in kinds:
        parts = []
        if name == morning and heating.morning_ml:
            parts.append(heating.morning_ml)
        if name == evening and heating.volume_ml:
            parts.append(heating.volume_ml - heating.morning_ml)
        volume_ml = add(parts)
        if volume_ml > _LEAST_ML:
            yield heating, do, volume_ml


def water_step(
    heating: WaterHeating, do: WorkDo, volume_ml: float, before_min: float, hearth: Hearth
) -> WorkStep:
    """Heat water before all else of a mealtime, in its share of the day's minutes."""
    minutes = heating.minutes * volume_ml / heating.volume_ml
    _, potfuls = hearth.pot_for(volume_ml)
    return WorkStep(
        before_min=before_min + minutes,
        minutes=minutes,
        do=do,
        place=None,
        ingredients=(),
        water_ml=volume_ml,
        potful=0,
        potfuls=potfuls,
        presses=none("presses"),
        on=heat_of(hearth.burner),
        pot=heating.pot,
        empty_first=False,
        hold_min=heating.hold_min,
        stove=hearth.burner.stove if hearth.burner else None,
    )
