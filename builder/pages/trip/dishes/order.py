"""The order of work for a mealtime: when to do what, counted backward from eating."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import Kit, KitDay, OrderOfWork, WorkStep
from builder.model.recipe import MealName
from builder.pages.figures import Figures, figures_of, number
from builder.pages.pieces import Cell, Mark, Piece, Table, table, text
from builder.pages.trip.dishes.work_said import minutes_said, what
from builder.pages.trip.light import eaten_at
from builder.pages.trip.placing import raw
from builder.planning.naming import meal_inside
from builder.record import dataclass
from builder.speech import Speech, later
from builder.units import rounded

_PLACES = {
    "stove": later("stove"),
    "fire": later("fire"),
    "iron": later("irons"),
    "embers": later("embers"),
}
# Warm food keeps two hours out of the cold, one where it is hot: the shorter one is safe anywhere.
MOST_STANDING_MIN = 60.0


@dataclass(frozen=True, slots=True)
class OrderView:
    """What to do for one mealtime, in order."""

    meal: MealName
    anchor: str
    title: str
    eat: str  # when they eat, as 18:30; "" where the trip does not tell it
    start: str  # when the work begins, such as "Start 50 min before you eat"
    in_turns: bool  # whether what is ready first would stand too long
    table: Table


def orders_of_day(kit: Kit, day: KitDay) -> tuple[OrderView, ...]:
    """Give the orders of work of a day."""
    figures = figures_of(kit)
    return tuple(_order(kit, figures, day, order) for order in day.orders)


def _order(kit: Kit, figures: Figures, day: KitDay, order: OrderOfWork) -> OrderView:
    say = figures.say
    places = sorted({step.place for step in order.steps if step.place is not None})
    rows: list[tuple[Cell, ...]] = []
    named = None if len(places) > 1 else places[0]
    for group in moments(order.steps):
        place = group[0].place
        dish = _dish(day, place) if place is not None and place != named else ()
        done = text(" ".join(what(kit, day, order, step) for step in group))
        unheated = raw(say) if takes_raw(day, group) else ()
        rows.append(
            (
                before_said(figures, group[0]),
                (*dish, *unheated, *done),
                text(needs(figures.say, kit, day, group[-1])),
            )
        )
        named = place if len(places) > 1 else named
    return OrderView(
        order.meal,
        f"work-{order.meal}",
        say("Order of work for {meal}", meal=meal_inside(say, order.meal)),
        eaten_at(kit, order.meal),
        start_said(figures, order),
        stands_min(order) > MOST_STANDING_MIN,
        table(
            (say("Before eating"), say.of("column", "Do"), say.of("column", "With")), rows, "rll"
        ),
    )


def takes_raw(day: KitDay, group: Sequence[WorkStep]) -> bool:
    """Tell whether raw animal food comes out of its pack now."""
    return any(
        each.is_raw_animal
        for step in group
        if step.place is not None
        for each in day.meals[step.place].ingredients
        if each.id in step.ingredients
    )


def start_said(figures: Figures, order: OrderOfWork) -> str:
    """Say how long before the meal its work begins."""
    minutes = minutes_said(figures, order.start_min)
    if order.meal == "drinks":
        return figures.say("Start {time} before you drink", time=minutes)
    return figures.say("Start {time} before you eat", time=minutes)


def stands_min(order: OrderOfWork) -> float:
    """Give how long the first that is ready stands until all eat."""
    ready: dict[tuple[int | None, int], float] = {}
    for step in order.steps:
        if step.place is not None and step.do not in ("keep", "serve"):
            ready[step.place, step.potful] = step.before_min - step.minutes
    cooked = [
        before
        for (place, potful), before in ready.items()
        if potful or not any(other == place and turn for other, turn in ready)
    ]
    return max(cooked, default=0.0)


def before_said(figures: Figures, step: WorkStep) -> Cell:
    """Give hours and minutes as the start of the work is told; the script has whole minutes."""
    minutes = number(rounded(step.before_min))
    told = minutes_said(figures, step.before_min)
    return (Piece(told, mark=Mark("before", (("before", minutes),))),)


def moments(steps: Sequence[WorkStep]) -> list[list[WorkStep]]:
    """Put what takes no time together with what follows it at once for the same dish."""
    rows: list[list[WorkStep]] = []
    for step in steps:
        waiting = next(
            (
                row
                for row in rows
                if row[-1].place == step.place
                and not row[-1].minutes
                and row[-1].before_min == step.before_min
            ),
            None,
        )
        if waiting is None:
            rows.append([step])
        else:
            waiting.append(step)
    return rows


def _dish(day: KitDay, place: int) -> Cell:
    """Name the dish where it is another than in the row above."""
    return (Piece(f"{day.meals[place].title}:", strong=True), Piece(" "))


def needs(say: Speech, kit: Kit, day: KitDay, step: WorkStep) -> str:
    """Say what a step needs: the heat, and which pot where there are several."""
    pots = {pot_id: say.inside(name) for pot_id, name, _ in kit.pots}
    if len(pots) == 1:
        pots = dict.fromkeys(pots, say("pot"))
    if step.do == "serve":
        return ""
    needed = [say(_PLACES[step.on])] if step.on else []
    if name := kit.stove_names.get(step.stove or ""):
        needed = [say.inside(name)]
    if step.pot in pots:
        needed.append(pots[step.pot or ""])
    elif step.place is not None and day.meals[step.place].cook_in == "mug" and not step.pot:
        needed.append(say("mugs"))
    return ", ".join(needed)
