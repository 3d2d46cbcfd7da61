"""Questions about a review: what the trip did not have, and figures that hardly can be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from builder.model.kit import Kit, KitDay
from builder.model.learned import Against, Reviewed
from builder.model.place import Place
from builder.model.review import LeftOver, Review
from builder.model.trip import Trip
from builder.planning.after.portions import dishes_of, portions_of
from builder.problems import Problem, did_you_mean

# Used over planned: what lies beyond is more often a slip of the pen than a trip.
LEAST_RATIO, MOST_RATIO = 0.3, 3.0
# Of a dish, which is also talked over and eaten late.
LEAST_MINUTES_RATIO, MOST_MINUTES_RATIO = 0.3, 5.0
_SLACK = 1e-9


def review_problems(trip: Trip, kit: Kit) -> tuple[Problem, ...]:
    """Give all that is wrong with a trip's review, or odd about it, against its own plan."""
    review, was = trip.review, kit.review
    if review is None or was is None:
        return ()
    return (
        *_not_there(trip, review, kit),
        *_not_on_the_trip(review, kit.days),
        *_told_twice(review),
        *_more_left_than_there_was(review, kit.days),
        *_odd(review, was),
    )


def _not_there(trip: Trip, review: Review, kit: Kit) -> Iterator[Problem]:
    """Refuse fuel and wood of a trip that plans none."""
    for key, used, planned, what in (
        ("fuel_used", review.fuel_used_g, kit.likely_fuel_g, "no stove"),
        ("wood_used", review.wood_used_g, kit.wood_g, "no fire"),
    ):
        if used and not planned:
            yield Problem(
                review.places.of(key),
                "review-not-planned",
                f"`{key}` is told, and {trip.id} cooks on {what}",
                "leave it out, or tell in the trip what was cooked on",
            )


def _not_on_the_trip(review: Review, days: Sequence[KitDay]) -> Iterator[Problem]:
    """Refuse dishes and foods that the trip does not eat, or not then."""
    dishes = sorted({meal.recipe for day in days for meal in day.meals if meal.recipe})
    for left in review.left or ():
        if not portions_of(left, days):
            what, known = left.recipe or left.food or "", dishes if left.recipe else _foods(days)
            anywhere = portions_of(LeftOver(left.recipe, left.food), days)
            mend = "write the day and the meal at which it was eaten, or leave them out"
            yield _unknown(
                left.places.record,
                f"{what}{_when(left)}",
                mend if anywhere else did_you_mean(what, known),
            )
    named = [(each.recipe, each.places.record) for each in review.took]
    named += [(recipe, review.places.of("marks")) for recipe, _ in review.marks]
    for recipe, place in named:
        if not dishes_of(recipe, days):
            yield _unknown(place, recipe, did_you_mean(recipe, dishes))


def _unknown(place: Place, what: str, mend: str) -> Problem:
    return Problem(place, "review-not-eaten", f"this trip does not eat {what}", mend)


def _when(left: LeftOver) -> str:
    words = [f"on day {left.day}"] if left.day is not None else []
    words += [f"at {left.meal}"] if left.meal is not None else []
    return "".join(f" {each}" for each in words)


def _foods(days: Sequence[KitDay]) -> list[str]:
    meals = [meal for day in days for meal in day.meals]
    named = {meal.food or meal.title for meal in meals if meal.recipe is None}
    return sorted(named | {each.food for meal in meals for each in meal.ingredients if each.food})


def _told_twice(review: Review) -> Iterator[Problem]:
    days = Counter(each.day for each in review.water)
    for each in review.water:
        if days.pop(each.day, 0) > 1:
            yield Problem(
                each.places.record,
                "review-twice",
                f"the water of day {each.day} is told more than once",
                "keep one of them",
            )


def _more_left_than_there_was(review: Review, days: Sequence[KitDay]) -> Iterator[Problem]:
    """Ask about lines that leave more of something than was planned of it."""
    left: dict[tuple[str, int | None, str | None], float] = {}
    for each in review.left or ():
        portions = portions_of(each, days)
        planned_g = sum(part.mass_g for part in portions)
        if not portions:
            continue
        share = each.share if each.share is not None else (each.mass_g or 0.0) / (planned_g or 1.0)
        key = (each.recipe or each.food or "", each.day, each.meal)
        left[key] = left.get(key, 0.0) + share
        if left[key] > 1 + _SLACK:
            yield Problem(
                each.places.record,
                "review-too-much-left",
                f"{left[key]:.0%} of {key[0]} was left{_when(each)}: more than the trip took of it",
                "check the number and its unit",
                "warning",
            )


def _odd(review: Review, was: Reviewed) -> Iterator[Problem]:
    """Ask about figures far from the plan."""
    water = review.water[0].places.record if review.water else review.places.record
    for against, place, what in (
        (was.fuel, review.places.of("fuel_used"), "fuel"),
        (was.wood, review.places.of("wood_used"), "wood"),
        (was.water, water, "water to drink"),
    ):
        if against is not None and not LEAST_RATIO <= against.ratio <= MOST_RATIO:
            yield _questioned(place, what, against)
    for each, took in zip(review.took, was.took, strict=False):
        planned = took.planned_minutes
        least, most = planned * LEAST_MINUTES_RATIO, planned * MOST_MINUTES_RATIO
        if planned > 0 and not least <= took.minutes <= most:
            yield Problem(
                each.places.record,
                "review-odd",
                f"{each.recipe} took {took.minutes:g} min, and {planned:.0f} min were planned",
                "check the number; if it was so, leave it",
                "warning",
            )


def _questioned(place: Place, what: str, against: Against) -> Problem:
    if against.ratio <= 0:
        return Problem(
            place,
            "review-odd",
            "less water was used than went into the pots and the washing-up: nothing is learned "
            "of it",
            "check the numbers: `used` is all the water of that day",
            "warning",
        )
    return Problem(
        place,
        "review-odd",
        f"{against.ratio:.2g} times as much {what} was used as was planned",
        "check the number and its unit; if it was so, leave it",
        "warning",
    )
