"""The order of work for a mealtime: when to do what, counted backward from eating."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.model.kit import Kit, KitDay, OrderOfWork, PlannedMeal, WorkStep
from builder.model.recipe import MealName
from builder.pages import words
from builder.pages.figures import Figures, figures_of, number
from builder.pages.pieces import Cell, Mark, Piece, Table, join, table, text
from builder.units import rounded

_PLACES = {"stove": "stove", "fire": "fire", "iron": "irons"}
# Warm food keeps two hours out of the cold, one where it is hot: the shorter one is safe anywhere.
MOST_STANDING_MIN = 60.0
_SHARES = {2: "half", 3: "a third"}
_READY = {
    "pot": "Ready. Keep it warm, lid on.",
    "iron": "Ready. Keep it warm beside the embers.",
    "mug": "Ready. Cover the mugs.",
}


@dataclass(frozen=True, slots=True)
class OrderView:
    """What to do for one mealtime, in order."""

    meal: MealName
    anchor: str
    title: str
    start: str  # when the work begins, such as "Start 50 min before you eat"
    in_turns: bool  # whether what is ready first would stand too long
    dishes: Cell  # each leading to its steps
    table: Table


def orders_of_day(kit: Kit, day: KitDay, hrefs: dict[int, str]) -> tuple[OrderView, ...]:
    """Give the orders of work of a day; `hrefs` leads from a meal's place to its steps."""
    figures = figures_of(kit)
    return tuple(_order(kit, figures, day, order, hrefs) for order in day.orders)


def _order(
    kit: Kit, figures: Figures, day: KitDay, order: OrderOfWork, hrefs: dict[int, str]
) -> OrderView:
    meal = words.MEALS[order.meal].lower()
    places = sorted({step.place for step in order.steps if step.place is not None})
    dishes = [(Piece(day.meals[place].title, href=hrefs.get(place, "")),) for place in places]
    rows: list[tuple[Cell, ...]] = []
    named = None if len(places) > 1 else places[0]
    for group in _rows(order.steps):
        place = group[0].place
        dish = _dish(day, place) if place is not None and place != named else ()
        done = text(" ".join(what(kit, day, order, step) for step in group))
        rows.append((_before(group[0]), (*dish, *done), text(_with(kit, day, group[-1]))))
        named = place if len(places) > 1 else named
    return OrderView(
        order.meal,
        f"work-{order.meal}",
        f"Order of work for {meal}",
        f"Start {_minutes(figures, order.start_min)} before you "
        f"{'drink' if order.meal == 'drinks' else 'eat'}",
        _stands_min(order) > MOST_STANDING_MIN,
        join(dishes),
        table(("Before eating", "Do", "With"), rows, "rll"),
    )


def _stands_min(order: OrderOfWork) -> float:
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


def _minutes(figures: Figures, minutes: float) -> str:
    return figures.plain(rounded(minutes), "duration_min")


def _before(step: WorkStep) -> Cell:
    """Give whole minutes, never hours: they are what one takes off the clock."""
    minutes = number(rounded(step.before_min))
    return (Piece(f"{minutes}\u00a0min", mark=Mark("before", (("before", minutes),))),)


def _rows(steps: Sequence[WorkStep]) -> list[list[WorkStep]]:
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


def _with(kit: Kit, day: KitDay, step: WorkStep) -> str:
    """Say what a step needs: the heat, and which pot where there are several."""
    pots = {pot_id: words.in_a_sentence(name) for pot_id, name, _ in kit.pots}
    if len(pots) == 1:
        pots = dict.fromkeys(pots, "pot")
    if step.do == "serve":
        return ""
    needed = [_PLACES[step.on]] if step.on else []
    if step.pot in pots:
        needed.append(pots[step.pot or ""])
    elif step.place is not None and day.meals[step.place].cook_in == "mug" and not step.pot:
        needed.append("mugs")
    return ", ".join(needed)


def what(kit: Kit, day: KitDay, order: OrderOfWork, step: WorkStep) -> str:
    """Say what to do, in short imperatives."""
    figures = figures_of(kit)
    said = _at_fire(figures, order, step) if step.place is None else ""
    if step.place is not None:
        said = _said(figures, day.meals[step.place], step)
    if step.potful:
        share = _SHARES.get(step.potfuls, f"1/{step.potfuls}")
        part = f", with {share} of everything" if step.do == "boil" else ""
        said = f"Potful {step.potful} of {step.potfuls}{part}. {said}"
    return f"Empty the pot. {said}" if step.empty_first else said


def _at_fire(figures: Figures, order: OrderOfWork, step: WorkStep) -> str:
    if step.do == "preheat":
        return "Lay the irons on the embers to get hot."
    embers = any(each.do == "press" for each in order.steps)
    takes = f"{'Embers' if embers else 'Flames'} take {_minutes(figures, step.minutes)}."
    return f"Light the fire, or feed the one you have. {takes}"


def _said(figures: Figures, meal: PlannedMeal, step: WorkStep) -> str:
    goes_in = _goes_in(meal, step)
    minutes = figures.plain(step.minutes, "duration_min")
    stirring = ", stirring" if step.stir else ""
    lid = ", lid on" if step.lid else ""
    if step.do == "soak":
        return _soak(figures, step, goes_in, f"{minutes}{lid}")
    if step.do == "boil":
        return _boil(figures, meal, step, goes_in, f"{stirring}{lid}")
    if step.do == "press":
        return _press(figures, step, goes_in)
    if step.do == "measure":
        least = figures.least(meal.reach_c or 0.0)[0].text
        return f"Measure the middle: at least {least}."
    if step.do == "keep":
        if step.frees:
            return "Ready. Fill it into bowls and cover them: the pot is needed."
        return _READY.get(meal.cook_in or "", "Ready. Cover it.")
    if step.do == "drain":
        return "Pour off the water."
    if step.do in ("mix", "serve"):
        return _by_hand(figures, meal, step, goes_in)
    add = f"Add {goes_in}. " if goes_in else ""
    if step.do == "rest":
        return f"{add}Let stand {minutes}{lid}."
    return f"{add}{step.do.capitalize()} {minutes}{stirring}{lid}."


def _goes_in(meal: PlannedMeal, step: WorkStep) -> str:
    names = words.short_names(meal.ingredients)
    return words.listed([names[each] for each in step.ingredients])


def _water(figures: Figures, volume_ml: float) -> str:
    """Give water to measure, in the trip's units and mugs."""
    in_mugs = "".join(piece.text for piece in figures.spooned(volume_ml, 0))
    shown = f"{figures.plain(volume_ml, 'volume_ml')} water"
    return f"{shown} ({in_mugs})" if in_mugs else shown


def _soak(figures: Figures, step: WorkStep, goes_in: str, how_long: str) -> str:
    if step.hot:
        onto = f" onto {goes_in}" if goes_in else ""
        return f"Pour the boiling water{onto}. Soak {how_long}."
    named = f" {goes_in}" if goes_in else ""
    water = f" in {_water(figures, step.water_ml)}" if step.water_ml else ""
    return f"Soak{named}{water}: {how_long}."


def _boil(figures: Figures, meal: PlannedMeal, step: WorkStep, goes_in: str, how: str) -> str:
    snow = "Melt snow. " if meal.conditions.water_source == "snow" and step.water_ml else ""
    about = f" About {_minutes(figures, step.minutes)}." if step.minutes >= 1 else ""
    in_turn = ""
    if not step.potful and step.potfuls > 1:
        in_turn = f", in {words.counted(step.potfuls, 'potful')}"
    if not goes_in:
        what = _water(figures, step.water_ml) if step.water_ml else "it"
        return f"{snow}Bring {what} to the boil{in_turn}{how}.{about}"
    water = f"{_water(figures, step.water_ml)} and " if step.water_ml else ""
    return f"{snow}Add {water}{goes_in}. Bring to the boil{in_turn}{how}.{about}"


def _press(figures: Figures, step: WorkStep, goes_in: str) -> str:
    side = figures.plain(step.each_side_min, "duration_min")
    add = f"Take {goes_in}. " if goes_in else ""
    again = f", {step.presses} times, one after the other" if step.presses > 1 else ""
    return f"{add}Press {side} on each side{again}."


def _by_hand(figures: Figures, meal: PlannedMeal, step: WorkStep, goes_in: str) -> str:
    water = _water(figures, step.water_ml) if step.water_ml else ""
    taken = " and ".join(part for part in (water, goes_in) if part)
    if step.do == "serve":
        out = "Hand round." if meal.cook_in == "mug" else "Share out."
        return f"Add {taken}. {out}" if taken else out
    return f"Mix in {taken}." if taken else "Mix."
