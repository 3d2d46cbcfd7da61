"""What of a trip's menu is worth a look: allergens nobody told, people who get too little."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.content import Content
from builder.model.food import ALLERGENS
from builder.model.kit import Kit, KitPerson
from builder.model.place import Place
from builder.model.trip import Day, MealItem, Trip
from builder.planning.foods import (
    Substance,
    substance_named,
    substance_of_label,
    substance_of_recipe,
)
from builder.planning.menu.avoided import asks_kinds
from builder.problems import Problem


def open_problems(trip: Trip, mend: str) -> tuple[Problem, ...]:
    """Warn of the meals of a trip that are left open: without them nothing of it can be told."""
    return tuple(
        Problem(
            day.places.of("meals"),
            "open-meal",
            f"{trip.id}: {meal} of day {day.number} is open, so no kit of the trip is made",
            mend,
            "warning",
        )
        for day in trip.days
        for meal in day.open_meals
    )


def menu_problems(trip: Trip, kit: Kit, content: Content) -> tuple[Problem, ...]:
    """Give the warnings about who eats what on one trip."""
    return (
        *_not_told(trip, content),
        *_no_meal(trip, kit),
        *_too_little(trip, kit),
        *_no_pack_chosen(trip),
    )


def _not_told(trip: Trip, content: Content) -> Iterator[Problem]:
    """Warn of each food that does not tell what somebody of the party asks of it."""
    avoided = {word for person in trip.party for word in person.avoids}
    of_allergens, of_kinds = not avoided.isdisjoint(ALLERGENS), any(map(asks_kinds, avoided))
    if not (of_allergens or of_kinds):
        return
    for item in (item for day in trip.days for meal in day.meals for item in meal.items):
        for food in _substance_of(item, content).foods:
            place = item.places.record if item.label else food.places.record
            if of_allergens and food.allergens is None:
                yield Problem(
                    place,
                    "allergens-not-told",
                    f"{food.name} tells no allergens, and somebody who avoids some is on a trip "
                    "with it",
                    "write what its packet names, such as `allergens: [milk]`, or `allergens: []` "
                    "where it holds none of the fourteen",
                    "warning",
                )
            if of_kinds and food.is_anything:
                yield Problem(
                    place,
                    "kinds-not-told",
                    f"{food.name} tells no kinds of food, and somebody who avoids some is on a "
                    "trip with it",
                    "write what its packet names, such as `contains: [meat, grain]`, or "
                    "`contains: []` where it holds no kind of them",
                    "warning",
                )


def _substance_of(item: MealItem, content: Content) -> Substance:
    if item.label:
        return substance_of_label(item.label)
    if item.recipe:
        return substance_of_recipe(content.dish(item), content)
    return substance_named(item.food or "", content)


def _no_meal(trip: Trip, kit: Kit) -> Iterator[Problem]:
    """Warn of a meal that passes somebody by; who is fed nowhere was told already."""
    for day in trip.days:
        for meal in day.meals:
            missing = [
                person.name
                for person in kit.party
                if any(
                    each.day == day.number and each.meal == meal.meal and not each.meant
                    for each in person.left_out
                )
                and _is_fed(kit, person)
            ]
            if missing:
                names = ", ".join(missing)
                gets = "gets" if len(missing) == 1 else "get"
                yield Problem(
                    meal.items[0].places.record,
                    "no-meal",
                    f"{names} {gets} nothing at {meal.meal} on day {day.number}, and others do",
                    "add them to a `for`, or say it is meant: "
                    f"`without: {{{meal.meal}: [{names}]}}`",
                    "warning",
                )


def _is_fed(kit: Kit, person: KitPerson) -> bool:
    return any(person.name in meal.eaters for day in kit.days for meal in day.meals)


def _too_little(trip: Trip, kit: Kit) -> Iterator[Problem]:
    """Warn of a day that feeds one person too little although the party has enough."""
    for person in kit.party:
        for each in person.left_out:
            if each.meal is None and not each.meant and _is_fed(kit, person):
                yield Problem(
                    _place_of(trip.days[each.day - 1]),
                    "too-little",
                    f"{person.name} gets {each.energy_share:.0%} of what day {each.day} takes, "
                    "and the party as a whole has enough",
                    "give them more of something, or say which meal they are meant to go without "
                    "(`without:`)",
                    "warning",
                )


def _no_pack_chosen(trip: Trip) -> Iterator[Problem]:
    """Warn of what the tool was to choose packs for, and no single batch has enough."""
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                left = [each for each in item.chosen if item.batch_of(each) is None]
                for ingredient in left:
                    what = ingredient or item.food
                    yield Problem(
                        item.places.of("from"),
                        "no-free-pack",
                        f"no batch has free packs enough of {what} for {meal.meal} on day "
                        f"{day.number} that keep until then: table values are taken",
                        "dry more, name a batch, or write the dish twice, each `for:` some",
                        "warning",
                    )


def _place_of(day: Day) -> Place:
    return day.places.of("meals")
