"""What a caution's condition may look at, and what it finds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.model.content import Content
from builder.model.food import Food
from builder.model.kit import NOWHERE, KitDay, KitFuel, Spot, Weights
from builder.model.recipe import HEATING
from builder.model.trip import Person, Trip
from builder.planning.batches import Judged, name_now
from builder.planning.cooking import Hearth
from builder.planning.menu import MenuItem, Portion
from builder.planning.naming import days_said, meal_inside
from builder.record import dataclass
from builder.speech import Speech, speech_of


@dataclass(frozen=True, slots=True)
class Finding:
    """One reason why a caution is shown, the page it belongs to, and where one must act."""

    because: str
    where: str
    at: Spot = NOWHERE


@dataclass(frozen=True, slots=True)
class Facts:
    """A trip as planned, before its cautions."""

    trip: Trip
    days: tuple[KitDay, ...]
    menus: tuple[tuple[MenuItem, ...], ...]
    batches: tuple[Judged, ...]  # those that meals name
    weights: Weights
    fuels: tuple[KitFuel, ...]
    hearth: Hearth
    content: Content
    judged: Mapping[str, Judged]  # every batch of the folder, also those that no meal names

    @property
    def say(self) -> Speech:
        """What says the reasons, in the trip's language."""
        return speech_of(self.trip.language)

    def shown(self, value: float, quantity: str) -> str:
        """Give a quantity in the trip's units."""
        return self.say.show(value, quantity, self.trip.units)

    def meals(self) -> Iterator[MenuItem]:
        """Go through all meals of the trip."""
        for menu in self.menus:
            yield from menu

    def portions(self) -> Iterator[tuple[MenuItem, Portion]]:
        """Go through all portions of all meals."""
        for meal in self.meals():
            for portion in meal.portions:
                yield meal, portion

    def cooked(self) -> Iterator[MenuItem]:
        """Go through the meals that are heated."""
        for meal in self.meals():
            if meal.planned.cooked_on:
                yield meal

    def steps(self, do: str) -> Iterator[MenuItem]:
        """Go through the meals with a step of a kind."""
        for meal in self.meals():
            if any(step.do == do for step in meal.planned.steps):
                yield meal

    def people(self, names: Iterable[str]) -> Iterator[Person]:
        """Go through the people with these names."""
        for name in names:
            yield self.trip.person(name)


def page_of(meal: MenuItem) -> str:
    """Give the page a meal stands on: its recipe's, or its day's."""
    return f"cook/{meal.planned.recipe}" if meal.planned.recipe else f"day-{meal.day}"


def in_meal(
    because: str,
    meal: MenuItem,
    *,
    step: int | None = None,
    person: str | None = None,
    batch: str | None = None,
    pack: bool = False,
) -> Finding:
    """Give a reason that lies in one meal: at its step, in its pack, for one of its eaters."""
    at = Spot((meal.day, meal.place), step, person, batch, "food" if pack else None)
    return Finding(because, page_of(meal), at)


def first_step(meal: MenuItem, do: str) -> int | None:
    """Give the first step of a kind."""
    steps = meal.planned.steps
    return next((place for place, step in enumerate(steps) if step.do == do), None)


def meal_said(say: Speech, meal: MenuItem) -> str:
    """Name a meal in a sentence, such as "Smoky bean pot (day 2, dinner)"."""
    return say(
        "{dish} (day {day}, {meal})",
        dish=meal.planned.title,
        day=meal.day,
        meal=meal_inside(say, meal.planned.meal),
    )


def food_in(say: Speech, food: str, meal: MenuItem) -> str:
    """Name a food with the meal that it is in; what is eaten as it is has one name for both."""
    said = meal_said(say, meal)
    return said if food == meal.planned.title else say("{food} in {meal}", food=food, meal=said)


def on_days(facts: Facts, says: str, days: Iterable[int], where: str, **blanks: str) -> Finding:
    """Give a finding whose sentence names days."""
    when = tuple(sorted(set(days)))
    said = facts.say(says, days=days_said(facts.say, when), **blanks)
    return Finding(said, where, Spot(days=when))


def step_with(meal: MenuItem, portion: Portion) -> int | None:
    """Give the step in which an ingredient first comes out of its pack."""
    return next(
        (
            place
            for place, step in enumerate(meal.planned.steps)
            if any(each.id == portion.planned.id for each in step.ingredients)
        ),
        None,
    )


def of_batch(facts: Facts, says: str, judged: Judged, **blanks: str) -> Finding:
    """Find something of a batch."""
    because = facts.say(says, batch=batch_said(facts, judged), **blanks)
    days = sorted({meal.day for meal, portion in facts.portions() if portion.judged is judged})
    return Finding(because, "drying", Spot(batch=judged.batch.id, days=tuple(days)))


def batch_said(facts: Facts, judged: Judged) -> str:
    """Name a batch in a sentence."""
    return facts.say("Batch {id} ({food})", id=judged.batch.id, food=name_now(facts.say, judged))


def holds(facts: Facts, food: Food, portion: Portion, meal: MenuItem) -> Finding:
    """Find a food that a meal holds."""
    says = facts.say("{food}.", food=food_in(facts.say, food.name, meal))
    return at_portion(says, portion, meal)


def at_portion(because: str, portion: Portion, meal: MenuItem) -> Finding:
    """Give a reason that lies in an ingredient: at its pack, its batch and the step it goes in."""
    batch, step = portion.planned.batch, step_with(meal, portion)
    return in_meal(because, meal, step=step, batch=batch, pack=True)


def is_heated(meal: MenuItem, portion: Portion) -> bool:
    """Tell whether a step cooks an ingredient; a soak in boiled water does not."""
    name, inside = portion.planned.id, False
    for step in meal.planned.steps:
        with_it = any(each.id == name for each in step.ingredients)
        inside = inside or with_it
        # What is not pressed lies beside the iron.
        if inside and step.do in HEATING and (with_it or step.do != "press"):
            return True
    return False


def once_each(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Drop findings that say the same of the same page."""
    yield from dict.fromkeys(findings)
