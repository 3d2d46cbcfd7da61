"""A meal step by step: the order of work of all its dishes as lines to tick off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.model.kit import Kit, KitDay, OrderOfWork, PlannedMeal, WorkStep
from builder.model.recipe import MealName
from builder.model.trip import Units
from builder.pages import words
from builder.pages.figures import Figures, figures_of, number
from builder.pages.pictures import Shown, shown
from builder.pages.pieces import Cell, Piece, link, text
from builder.pages.trip.addresses import day_path
from builder.pages.trip.cautions import Box
from builder.pages.trip.day import has_page, meal_path
from builder.pages.trip.dishes.amounts import ids_named, recipe_said
from builder.pages.trip.dishes.cook import Anchors
from builder.pages.trip.dishes.drawings import Drawing, Drawings, drawn_at_work, not_yet
from builder.pages.trip.dishes.order import (
    MOST_STANDING_MIN,
    before_said,
    moments,
    needs,
    stands_min,
    start_said,
    takes_raw,
)
from builder.pages.trip.dishes.parted import for_all_in_pot
from builder.pages.trip.dishes.plates import plates
from builder.pages.trip.dishes.recipe_steps import stands_by_step
from builder.pages.trip.dishes.work_said import parts_of, steeps, what
from builder.pages.trip.light import eaten_at, light_at_meal
from builder.pages.trip.placing import boxes_at_step, raw
from builder.record import dataclass, replace
from builder.speech import later
from builder.units import other_system, rounded

# What a timer is for. Irons are hot when they are: a drop of water tells.
_TIMED = {
    "soak": later("{dish}, soaking"),
    "boil": later("{dish}, coming to the boil"),
    "hold": later("{dish}, boiling"),
    "simmer": later("{dish}, simmering"),
    "fry": later("{dish}, frying"),
    "rest": later("{dish}, standing"),
    "steep": later("{dish}, steeping"),
    "press": later("{dish}, each side"),
    "fire": later("the fire"),
    "melt": later("melting snow"),
    "make-safe": later("boiling water"),
}
_LEAST_TIMED_MIN = 0.5


@dataclass(frozen=True, slots=True)
class Told:
    """What to do in one step, with its amounts in one system of units."""

    do: Cell
    words: Cell  # the recipe's own
    stands: tuple[Cell, ...]  # how it soaks or stays hot
    plates: str  # who gets how much, where it is shared out


@dataclass(frozen=True, slots=True)
class WorkLine:
    """One step: when, of which dish, what to do with how much, and how long to wait."""

    before: Cell  # how long before eating
    dish: str
    told: Mapping[Units, Told]  # by system of units, the trip's own first; one where both are alike
    needs: str  # heat and pot
    boxes: tuple[Box, ...]
    timer: str  # whole minutes, "" where there is nothing to wait for
    timer_says: str
    timer_for: str
    drawings: Drawings
    pictures: tuple[Shown, ...]  # of the people's own

    @property
    def differs(self) -> bool:
        """Tell whether it is told in two systems of units."""
        return len(self.told) > 1


@dataclass(frozen=True, slots=True)
class Dish:
    """One dish of the meal, folded away under its steps."""

    title: Cell  # leading to its recipe, where who eats and how high can be changed
    eaters: str


@dataclass(frozen=True, slots=True)
class MealPage:
    """One meal of one day, step by step."""

    path: str
    meal: MealName
    title: str
    start: str
    light: str
    eat: str  # when, as 18:30; "" where the trip does not tell it
    in_turns: bool
    lines: tuple[WorkLine, ...]
    dishes: tuple[Dish, ...]
    day: Cell  # back to it


def meal_pages(kit: Kit, anchors: Anchors) -> tuple[MealPage, ...]:
    """Give a page for each meal of which something is cooked, in the order of the trip."""
    return tuple(
        _page(kit, day, order, anchors)
        for day in kit.days
        for order in day.orders
        if has_page(order)
    )


def _page(kit: Kit, day: KitDay, order: OrderOfWork, anchors: Anchors) -> MealPage:
    figures = figures_of(kit)
    say = figures.say
    places = sorted({step.place for step in order.steps if step.place is not None})
    return MealPage(
        meal_path(day, order.meal),
        order.meal,
        words.meal_of_day(say, day, order.meal),
        start_said(figures, order),
        light_at_meal(say, day, order.meal),
        eaten_at(kit, order.meal),
        stands_min(order) > MOST_STANDING_MIN,
        tuple(_lines(kit, day, order, places)),
        tuple(
            Dish(
                link(day.meals[place].title, anchors.get((day.day, place), "")),
                words.eaters_said(say, kit, day.meals[place]),
            )
            for place in places
        ),
        link(words.day_name(say, day), day_path(day)),
    )


# What is said below each step of each dish: how it soaks, how hot it stays.
Stands = Mapping[int, Mapping[int, Cell]]


def _lines(kit: Kit, day: KitDay, order: OrderOfWork, places: Sequence[int]) -> Iterator[WorkLine]:
    seen: set[Drawing] = set()
    # Whoever measures in the other units has them by one touch, here where both have no room.
    other = other_system(kit.units)
    kits = [kit, replace(kit, units=other)]
    stands = [
        {place: stands_by_step(figures_of(each), day.meals[place]) for place in places}
        for each in kits
    ]
    for group in screens(day, order):
        told = {
            each.units: _told(each, day, order, group, stand)
            for each, stand in zip(kits, stands, strict=True)
        }
        if told[kit.units] == told[other]:
            del told[other]
        line = _line(kit, day, group, told, of_several=len(places) > 1)
        yield replace(line, drawings=not_yet(seen, line.drawings))


def screens(day: KitDay, order: OrderOfWork) -> Iterator[Sequence[WorkStep]]:
    """Give what is done at one moment; where a recipe has words for it, nothing follows them."""
    for group in moments(order.steps):
        begins = 0
        for ends, step in enumerate(group[:-1], start=1):
            if any(each.meal.steps[each.number].say for each in _of_recipes(day, [step])):
                yield group[begins:ends]
                begins = ends
        yield group[begins:]


def _told(
    kit: Kit, day: KitDay, order: OrderOfWork, group: Sequence[WorkStep], stands: Stands
) -> Told:
    """Say what is done at one moment for one dish, in the units of the kit."""
    figures = figures_of(kit)
    done = text(" ".join(what(kit, day, order, step, measured=True) for step in group))
    told = tuple(_of_recipes(day, group))
    return Told(
        (*(raw(figures.say) if takes_raw(day, group) else ()), *done),
        _words(figures, told),
        tuple(said for each in told if (said := stands[each.place].get(each.number, ()))),
        _plates(figures, day, group[-1]),
    )


def _line(
    kit: Kit,
    day: KitDay,
    group: Sequence[WorkStep],
    said: Mapping[Units, Told],
    *,
    of_several: bool,
) -> WorkLine:
    """Give what is done at one moment for one dish as one line."""
    figures = figures_of(kit)
    say = figures.say
    last = group[-1]
    dish = day.meals[last.place].title if last.place is not None else ""
    minutes = rounded(last.each_side_min if last.do == "press" else last.minutes)
    is_timed = last.do in _TIMED and minutes >= _LEAST_TIMED_MIN
    waits = "steep" if last.place is not None and steeps(day.meals[last.place], last) else last.do
    told = tuple(_of_recipes(day, group))
    return WorkLine(
        _before(figures, group[0]),
        dish if of_several else "",
        said,
        needs(say, kit, day, last),
        _boxes(kit, day, told),
        number(minutes) if is_timed else "",
        figures.plain(minutes, "duration_min") if is_timed else "",
        say(_TIMED[waits], dish=dish) if is_timed else "",
        tuple(
            drawing
            for step in group
            for drawing in drawn_at_work(
                figures, day.meals[step.place] if step.place is not None else None, step
            )
        ),
        tuple(
            picture
            for each in told
            if each.work.potful <= 1 and (picture := shown(each.meal.steps[each.number].picture))
        ),
    )


def _plates(figures: Figures, day: KitDay, step: WorkStep) -> str:
    """Say how a dish is shared out, at the step that ends it."""
    if step.do != "serve" or step.place is None:
        return ""
    return plates(figures, day.meals[step.place])


@dataclass(frozen=True, slots=True)
class _OfRecipe:
    """A step that a recipe tells, with its dish and its number there."""

    work: WorkStep
    place: int
    meal: PlannedMeal
    number: int


def _of_recipes(day: KitDay, group: Sequence[WorkStep]) -> Iterator[_OfRecipe]:
    """Go through those of some steps that a recipe tells; it tells of no fire and no camp water."""
    for step in group:
        if step.place is not None and step.step is not None:
            yield _OfRecipe(step, step.place, day.meals[step.place], step.step)


def _before(figures: Figures, step: WorkStep) -> Cell:
    """Say when a step begins, in words that stand by themselves."""
    (minutes,) = before_said(figures, step)
    assert minutes.mark is not None
    told = figures.say("{time} before eating", time=minutes.text)
    if not rounded(step.before_min):
        told = figures.say("When you eat")
    mark = replace(minutes.mark, data=(*minutes.mark.data, ("time", minutes.text)))
    return (replace(minutes, text=told, mark=mark),)


def _words(figures: Figures, told: Sequence[_OfRecipe]) -> Cell:
    """Give the recipe's own words, with the amounts of what they name."""
    found: list[Piece] = []
    for each in told:
        words_of_step = each.meal.steps[each.number].say
        parts = parts_of(each.meal, each.work)
        meal = for_all_in_pot(each.meal, each.meal.steps[each.number])
        said = recipe_said(figures, meal, words_of_step, parts, {})
        if parts > 1 and not each.work.potful and ids_named(words_of_step):
            # Everybody fills their own mug: what the words name is for one of them.
            said = (Piece(figures.say("In each mug:"), strong=True), Piece(" "), *said)
        found += [*([Piece(" ")] if found and said else []), *said]
    return tuple(found)


def _boxes(kit: Kit, day: KitDay, told: Sequence[_OfRecipe]) -> tuple[Box, ...]:
    """Give the cautions that one must act on now; those of several potfuls at the first."""
    return tuple(
        box
        for each in told
        if each.work.potful <= 1
        for box in boxes_at_step(kit, day.day, each.meal, each.number)
    )
