"""What a caution's condition may look at, and what it finds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from builder.model.kit import KitDay, KitFuel, Weights
from builder.model.trip import Person, Trip
from builder.planning.hearth import Hearth
from builder.planning.judging import Judged
from builder.planning.menu import MenuItem, Portion


@dataclass(frozen=True, slots=True)
class Finding:
    """One reason why a caution is shown, and the page it belongs to."""

    because: str
    where: str


@dataclass(frozen=True, slots=True)
class Facts:
    """A trip as planned, before its cautions."""

    trip: Trip
    days: tuple[KitDay, ...]
    menus: tuple[tuple[MenuItem, ...], ...]
    batches: tuple[Judged, ...]  # those that meals name
    weights: Weights
    fuel: KitFuel | None
    hearth: Hearth

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


def meal_said(meal: MenuItem) -> str:
    """Name a meal in a sentence, such as "Smoky bean pot (day 2, dinner)"."""
    return f"{meal.planned.title} (day {meal.day}, {meal.planned.meal})"


def days_said(numbers: Iterable[int]) -> str:
    """Name days in a sentence, such as "day 2" or "days 1, 2 and 4"."""
    days = sorted(set(numbers))
    return ("day " if len(days) == 1 else "days ") + listed([str(day) for day in days])


def listed(words: Sequence[str]) -> str:
    """Join words as a sentence does: a, b and c."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def once_each(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Drop findings that say the same of the same page."""
    yield from dict.fromkeys(findings)
