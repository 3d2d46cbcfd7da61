"""What was on a trip, against what was planned of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.figure import add, added, largest, smallest
from builder.model.kit import KitDay, KitFuel
from builder.model.learned import (
    Against,
    LeftAgainst,
    Mark,
    Reviewed,
    TookAgainst,
    WaterAgainst,
)
from builder.model.review import LeftOver, Review
from builder.planning.after.portions import dishes_of, portions_of


def reviewed(
    review: Review | None, days: Sequence[KitDay], fuels: Sequence[KitFuel], wood_g: float
) -> Reviewed | None:
    """Hold a review against a plan; None where nothing was filled in."""
    if review is None or not review.is_told:
        return None
    left = tuple(_left(each, days) for each in review.left or () if portions_of(each, days))
    return Reviewed(
        fuel=_against(review.fuel_used_g, added(each.likely_g for each in fuels)),
        wood=_against(review.wood_used_g, wood_g),
        water=_water(review, days),
        food=_food(left, days) if review.left is not None else None,
        water_days=tuple(
            WaterAgainst(each.day, each.used_ml, days[each.day - 1].water.total_ml)
            for each in review.water
        ),
        left=left,
        took=tuple(_took(review, days)),
        marks=tuple(
            Mark(dishes[0].title, mark)
            for recipe, mark in review.marks
            if (dishes := dishes_of(recipe, days))
        ),
        notes=review.notes,
    )


def _against(used: float | None, planned: float) -> Against | None:
    """Give a ratio; None where one of them is not told, or nothing of it was planned."""
    if used is None or planned <= 0:
        return None
    return Against(used, planned, used / planned)


def _water(review: Review, days: Sequence[KitDay]) -> Against | None:
    """Give what was drunk on the days told: all that was used, less what was for the pots."""
    if not review.water:
        return None
    told = [days[each.day - 1].water for each in review.water]
    drinking_ml = add(day.drinking_ml for day in told)
    used_ml = add(each.used_ml for each in review.water)
    drunk_ml = used_ml - add(day.total_ml for day in told) + drinking_ml
    return _against(drunk_ml, drinking_ml)


def _left(left: LeftOver, days: Sequence[KitDay]) -> LeftAgainst:
    portions = portions_of(left, days)
    planned_kcal = add(each.kcal for each in portions)
    if left.share is not None:
        share = left.share
    else:
        planned_g = add(each.mass_g for each in portions)
        share = smallest((left.mass_g or 0.0) / planned_g, 1.0) if planned_g > 0 else 0.0
    return LeftAgainst(portions[0].title, left.day, share * planned_kcal, planned_kcal, share)


def _food(left: Sequence[LeftAgainst], days: Sequence[KitDay]) -> Against | None:
    planned_kcal = add(day.nutrition.energy_kcal for day in days)
    eaten_kcal = largest(planned_kcal - add(each.left_kcal for each in left), 0.0)
    return _against(eaten_kcal, planned_kcal)


def _took(review: Review, days: Sequence[KitDay]) -> Iterator[TookAgainst]:
    """Give the minutes beside those planned: of a dish cooked on several days their mean."""
    for each in review.took:
        dishes = dishes_of(each.recipe, days)
        if dishes:
            planned = add(add((dish.minutes, dish.embers_min)) for dish in dishes)
            yield TookAgainst(dishes[0].title, each.minutes, planned / float(len(dishes)))
