"""The packs of the folder: which meal takes how many of which batch, what is left on a day."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.formulas.heat import whole_units
from builder.model.batch import Batch, Method
from builder.model.content import Content
from builder.model.figure import Count, Figure, Told, add_counts
from builder.model.place import Place
from builder.model.recipe import MealName
from builder.model.trip import MealItem, Trip
from builder.planning.batches import Judged
from builder.planning.tracing import count
from builder.record import dataclass, field

_NO_DAY = datetime.date.max  # a trip without a date is still to come, after all others


@dataclass(frozen=True, slots=True)
class Taking:
    """The packs of one batch that one meal of a trip takes."""

    batch: str
    trip: str
    day: int
    meal: MealName
    packs: int
    place: Place  # where the trip names the batch
    first_day: datetime.date | None  # of the trip; None where its start is not told
    last_day: datetime.date | None

    @property
    def eaten_on(self) -> datetime.date | None:
        """The day of the meal; None where the trip does not tell its start."""
        return self.first_day and self.first_day + datetime.timedelta(days=self.day - 1)

    def is_eaten(self, at: datetime.date) -> bool:
        """Tell whether the trip was over by a day; one without a date is still to come."""
        return self.last_day is not None and self.last_day < at


@dataclass(frozen=True, slots=True)
class CameBack:
    """The packs of one batch that came home whole from a trip."""

    batch: str
    trip: str
    packs: int
    place: Place  # where the review of the trip tells it
    last_day: datetime.date  # of the trip; on the next day they are on the shelf again


def takings_of(trip: Trip, content: Content, judged: Mapping[str, Judged]) -> Iterator[Taking]:
    """Give what each meal of a trip takes, its packs rounded up for each batch.

    What is left in a pack that reseals is eaten first at the next meals of the trip.
    """
    last_day = trip.date_of(len(trip.days))
    opened_g: dict[str, float] = {}
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                amounts_g: dict[str, float] = {}
                named_at: dict[str, Place] = {}
                for ingredient_id, batch_id in item.batches:
                    amount_g = amount_wanted_g(item, ingredient_id, content)
                    before_g = amounts_g.get(batch_id)
                    amounts_g[batch_id] = before_g + amount_g if before_g else amount_g
                    named_at.setdefault(batch_id, place_of_from(item, ingredient_id))
                for batch_id, amount_g in amounts_g.items():
                    if batch_id in judged:
                        packs = packs_opened(judged[batch_id], amount_g, opened_g)
                        place = named_at[batch_id]
                        yield Taking(
                            batch_id,
                            trip.id,
                            day.number,
                            meal.meal,
                            packs,
                            place,
                            trip.start,
                            last_day,
                        )


def packs_opened(judged: Judged, amount_g: float, opened_g: dict[str, float]) -> Count:
    """Give the packs that a meal opens, and note in `opened_g` what resealing ones have given."""
    packs, now_g = packs_more(judged, opened_g.get(judged.batch.id), amount_g)
    if judged.reseals:
        opened_g[judged.batch.id] = now_g
    return packs


def packs_more(judged: Judged, before_g: float | None, amount_g: float) -> tuple[Count, float]:
    """Give the packs that more of a batch opens where so much came out before, and all of it."""
    if before_g is None:
        return count(whole_units, amount_g, judged.pack_g), amount_g
    now_g = before_g + amount_g
    packs = count(whole_units, now_g, judged.pack_g)
    return packs - count(whole_units, before_g, judged.pack_g), now_g


def amount_wanted_g(item: MealItem, ingredient_id: str, content: Content) -> float:
    """Give how much of an ingredient all who eat take; of what is eaten as it is, all of it."""
    if not item.recipe:
        return item.each_g * heads(item)
    recipe = content.dish(item)
    return recipe.ingredient(ingredient_id).amount_g * heads(item, ingredient_id) / recipe.serves


def heads(item: MealItem, ingredient_id: str = "") -> float:
    """Give how many eat something, as the trip tells it; of an ingredient, who has it in theirs."""
    parted = item.parted if ingredient_id in item.parted_without else ()
    # Who is parted is another number than who is told, and changes by itself.
    place = item.places.of("cook" if item.without else "for")
    return Figure(len(item.eaters) - len(parted), Told(place, "eaters"))


def place_of_from(item: MealItem, ingredient_id: str) -> Place:
    """Give the place where a meal names the batch of an ingredient."""
    inner = f"from/{ingredient_id}"
    return item.places.of(inner if inner in item.places.fields else "from")


def packs_of_trip(trip: Trip, content: Content, judged: Mapping[str, Judged]) -> Counter[str]:
    """Count the packs that a trip's meals take of each batch, rounded up for each meal."""
    taken: Counter[str] = Counter()
    for taking in takings_of(trip, content, judged):
        taken[taking.batch] += taking.packs
    return taken


# What is wanted: the id of a food or recipe, and the method it is dried by.
Wanted = tuple[str, Method]


@dataclass(frozen=True, slots=True)
class Offer:
    """Free packs of a batch that a trip could take for what no batch is named for."""

    wanted: Wanted
    batch: str
    packs: int
    mass_g: float  # what is eaten of them


@dataclass(frozen=True, slots=True)
class Stock:
    """All packs of the folder, with the meals that eat or promise them."""

    judged: Mapping[str, Judged]
    takings: Mapping[str, tuple[Taking, ...]]  # by batch, in the order of trips and their meals
    came_back: Mapping[str, tuple[CameBack, ...]]  # by batch, in the order of trips
    offers: Mapping[str, tuple[Offer, ...]] = field(default_factory=dict)  # by trip
    # By trip too: what batches that are planned or in the dryer will cover of its wants.
    coming: Mapping[str, tuple[Offer, ...]] = field(default_factory=dict)

    def taken(self, batch: str) -> tuple[Taking, ...]:
        """Give every meal that names a batch."""
        return self.takings.get(batch, ())

    def free(self, batch: Batch) -> int:
        """Give the packs of a batch that no one has eaten or spoken for; the same on any day."""
        free, back = self.free_unless_back(batch), self.returned(batch.id)
        return free + add_counts(each.packs for each in back) if back else free

    def free_unless_back(self, batch: Batch) -> int:
        """Give the packs that would be free if none had come back from a trip."""
        taken = add_counts(each.packs for each in self.taken(batch.id))
        return batch.pack_count - batch.used - taken

    def left(self, batch: Batch, at: datetime.date) -> int:
        """Give the packs of a batch that no trip over by a day has eaten."""
        eaten = sum(each.packs for each in self.taken(batch.id) if each.is_eaten(at))
        return batch.pack_count - batch.used - eaten + self.back_before(batch.id, at)

    def returned(self, batch: str) -> tuple[CameBack, ...]:
        """Give the packs of a batch that came back, trip by trip."""
        return self.came_back.get(batch, ())

    def back_before(self, batch: str, at: datetime.date) -> int:
        """Give the packs of a batch that came back from trips over by a day."""
        return back_before(self.returned(batch), at)

    def promised(self, batch: str, at: datetime.date) -> tuple[Taking, ...]:
        """Give the meals that are still to eat of a batch on a day."""
        return tuple(each for each in self.taken(batch) if not each.is_eaten(at))

    def used_by(self, trip: str, batch: str) -> int:
        """Give the packs of a batch that a trip takes."""
        return add_counts(each.packs for each in self.taken(batch) if each.trip == trip)


def back_before(came_back: Iterable[CameBack], at: datetime.date) -> int:
    """Give the packs that came back from trips over by a day."""
    return sum(each.packs for each in came_back if each.last_day < at)


def is_overdrawn(
    batch: Batch, takings: Iterable[Taking], came_back: Sequence[CameBack] = ()
) -> bool:
    """Tell whether a trip takes packs of a batch that are not there on the day it begins."""
    taken = 0
    for start, packs in sorted((each.first_day or _NO_DAY, each.packs) for each in takings):
        taken += packs
        if taken > batch.pack_count - batch.used + back_before(came_back, start):
            return True
    return False


def in_time(content: Content) -> list[Trip]:
    """Give all trips, the earlier ones first; those without a date come last."""
    return sorted(content.trips.values(), key=lambda trip: (trip.start or _NO_DAY, trip.id))


def all_takings(content: Content, judged: Mapping[str, Judged]) -> dict[str, tuple[Taking, ...]]:
    """Give what the folder's trips take, by batch."""
    takings: dict[str, list[Taking]] = {}
    for trip in in_time(content):
        for taking in takings_of(trip, content, judged):
            takings.setdefault(taking.batch, []).append(taking)
    return {batch: tuple(each) for batch, each in takings.items()}


def all_that_came_back(content: Content) -> dict[str, tuple[CameBack, ...]]:
    """Give the packs that came home from the folder's trips, by batch.

    A trip without a date is still to come, so that nothing came back from it.
    """
    found: dict[str, list[CameBack]] = {}
    for trip in in_time(content):
        last_day = trip.date_of(len(trip.days))
        if trip.review is None or last_day is None:
            continue
        for batch, packs in trip.review.back:
            place = trip.review.places.of(f"back/{batch}")
            found.setdefault(batch, []).append(CameBack(batch, trip.id, packs, place, last_day))
    return {batch: tuple(each) for batch, each in found.items()}
