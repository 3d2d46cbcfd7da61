"""The page of a day: what to eat, the way, the weather, water, fuel and energy."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.formulas.pressure_cooking import time_factor_range
from builder.model.kit import Conditions, Kit, KitDay, OrderOfWork, PlannedMeal
from builder.model.recipe import MEALS
from builder.model.trip import Travel
from builder.pages import words
from builder.pages.charts import Chart
from builder.pages.figures import Figures, figures_of, worked
from builder.pages.pictures import Shown, shown
from builder.pages.pieces import Cell, Fact, Piece, Table, filled, join, lines, link, table, text
from builder.pages.trip.addresses import at_day, at_meal, day_path
from builder.pages.trip.cautions import Box
from builder.pages.trip.dishes.cook import Anchors, cook_link
from builder.pages.trip.dishes.order import OrderView, orders_of_day
from builder.pages.trip.light import light_said
from builder.pages.trip.placing import boxes_at, boxes_at_meal, lines_of_day, lines_of_meal
from builder.pages.trip.strip import day_strip
from builder.pages.trip.supplies.depots import depot_said
from builder.pages.trip.supplies.drying import batch_anchor, batch_names
from builder.pages.trip.supplies.fuel import likely_fuel_of_day, likely_wood_of_day
from builder.pages.trip.untold import untold_of_day
from builder.planning.naming import meal_inside, travel_said
from builder.record import dataclass, replace
from builder.speech import Speech
from builder.units import rounded


@dataclass(frozen=True, slots=True)
class MenuGroup:
    """What is eaten together."""

    title: str
    anchor: str
    dishes: tuple[Cell, ...]
    start: Cell = ()  # how long before eating the work begins, leading to its order
    dangers: tuple[Cell, ...] = ()  # told with the steps of what is cooked
    boxes: tuple[Box, ...] = ()  # of what is eaten as it is


@dataclass(frozen=True, slots=True)
class DayPage:
    """One day of the trip."""

    path: str
    title: str
    when: str
    notes: str
    picture: Shown | None
    before: Cell
    after: Cell
    strip: Chart | None  # None on a day of rest
    lines: tuple[Fact, ...]
    facts: tuple[Fact, ...]
    menu: tuple[MenuGroup, ...]
    orders: tuple[OrderView, ...]
    at_home: str
    dangers: tuple[Cell, ...]  # of this day, that other pages tell
    boxes: tuple[Box, ...]
    cares: tuple[Cell, ...]  # as the dangers
    water: Table
    people: Table | None  # None in a public kit


def day_pages(kit: Kit, anchors: Anchors) -> tuple[DayPage, ...]:
    """Give a page for each day."""
    return tuple(_page(kit, number, anchors) for number in range(len(kit.days)))


def has_page(order: OrderOfWork) -> bool:
    """Tell whether a meal is told step by step: all but one hot drink whose recipe tells all."""
    return order.meal != "drinks" or len({step.place for step in order.steps}) > 1


def meal_path(day: KitDay, meal: str) -> str:
    """Give the path of the page that tells a meal step by step."""
    return f"meals/day-{day.day}-{meal}.md"


def _page(kit: Kit, number: int, anchors: Anchors) -> DayPage:
    day = kit.days[number]
    figures = figures_of(kit)
    say = figures.say
    name = words.day_name(say, day)
    hrefs = {place: href for (of_day, place), href in anchors.items() if of_day == day.day}
    orders = orders_of_day(kit, day)
    return DayPage(
        day_path(day),
        f"{name}: {day.title}" if day.title else name,
        say.date(day.date) if day.date else "",
        day.notes,
        shown(day.picture),
        _beside(say, kit, number - 1, "← "),
        _beside(say, kit, number + 1, "", " →"),
        day_strip(kit, day),
        _lines(kit, figures, day, hrefs),
        (*_facts(figures, day), *_waiting(kit, figures, day)),
        menu(kit, day, anchors, orders),
        orders,
        say.listed(meal_inside(say, meal) for meal in day.home),
        lines_of_day(kit, day, "danger"),
        boxes_at(kit, day_path(day)),
        lines_of_day(kit, day, "care"),
        water_of_day(figures, day),
        _people(figures, day) if day.people else None,
    )


def _beside(say: Speech, kit: Kit, number: int, ahead: str, behind: str = "") -> Cell:
    if not 0 <= number < len(kit.days):
        return ()
    day = kit.days[number]
    return link(f"{ahead}{words.day_name(say, day)}{behind}", day_path(day))


def _lines(kit: Kit, figures: Figures, day: KitDay, hrefs: Mapping[int, str]) -> tuple[Fact, ...]:
    """Say where the way goes, what the air is like, where the water is."""
    say = figures.say
    here = day.conditions
    air = filled(
        say("{low} to {high}, {wind}"),
        low=figures.both(here.air_low_c, "temperature_c"),
        high=figures.both(here.air_high_c, "temperature_c"),
        wind=text(say(words.WINDS[here.wind])),
    )
    lines = [Fact(say("Travel"), travel(figures, day)), Fact(say("Air"), air)]
    if not day.ends_home:
        lines.append(Fact(say("Water at camp"), text(words.water_at(say, here))))
    if untold := untold_of_day(kit, day.day):
        lines.append(Fact(say("Not given"), text(untold)))
    return (*lines, *_on_the_way(figures, day, hrefs), *_still_to_dry(kit, say, day))


def _on_the_way(figures: Figures, day: KitDay, hrefs: Mapping[int, str]) -> tuple[Fact, ...]:
    """Say what may soak in a bottle while one walks, and how long at most."""
    say = figures.say
    looks = {
        place: step.soaking
        for place, meal in enumerate(day.meals)
        for step in meal.steps
        if step.soaking and step.soaking.in_bottle and step.soaking.stands_h is not None
    }
    return tuple(
        Fact(
            say("Soak on the way"),
            filled(
                say("{dish}, in a bottle that closes tight")
                if looks[place].overnight
                else say("{dish}, in a bottle that closes tight, at most {time} before you eat"),
                dish=cook_link(meal, hrefs.get(place, "")),
                time=text(figures.plain(looks[place].stands_h or 0.0, "hours")),
            ),
        )
        for place, meal in enumerate(day.meals)
        if place in looks
    )


def _still_to_dry(kit: Kit, say: Speech, day: KitDay) -> tuple[Fact, ...]:
    """Say which food of the day is still to be dried at home, and by when."""
    eaten = {each.batch for meal in day.meals for each in meal.ingredients}
    names = batch_names(kit, say)
    return tuple(
        Fact(
            say("Not dried yet"),
            filled(
                say("{food}, to be dried by {date}") if batch.planned_for else "{food}",
                food=link(names[batch.id], f"drying.md#{batch_anchor(batch)}"),
                date=text(say.short_date(batch.planned_for)) if batch.planned_for else (),
            ),
        )
        for batch in kit.batches
        if batch.still_to_dry and batch.id in eaten
    )


def _facts(figures: Figures, day: KitDay) -> tuple[Fact, ...]:
    say = figures.say
    here = day.conditions
    at = at_day(day)
    facts = []
    if not day.ends_home:
        facts.append(Fact(say("Camp at"), figures.both(here.altitude_m, "altitude_m")))
    boils = figures.both(here.boiling_point_c, "temperature_c", f"{at}.boiling_point_c")
    facts.append(Fact(say("Water boils at"), boils))
    if day.meals and here.time_factor > 1.005:
        factor = worked(say, rounded(here.time_factor, 2))
        longer = say("{factor} times as long", factor=factor)
        slower = link(longer, figures.how(f"{at}.time_factor"))
        facts.append(Fact(say("Simmer and soak"), (*slower, *lines(_by_food(say, here)))))
    if day.minutes:
        minutes = figures.alone(day.minutes, "duration_min", f"{at}.minutes")
        facts.append(Fact(say("Time at the pot"), minutes))
    facts.append(Fact(say("Food energy"), energy(figures, day)))
    if day.light is not None:
        facts.append(Fact(say("Light"), light_said(figures, day, day.light)))
    return (*facts, *fuel_of_day(figures, day))


def _waiting(kit: Kit, figures: Figures, day: KitDay) -> list[Fact]:
    """Say what waits at the camp of the day."""
    return [
        Fact(
            figures.say("Waits here"),
            depot_said(figures, each, f"weights.depots.{number}.mass_g"),
        )
        for number, each in enumerate(kit.weights.depots)
        if each.camp == day.day
    ]


def _by_food(say: Speech, here: Conditions) -> str:
    """Give the range of the factor, since not all plants soften alike."""
    low, high = (worked(say, rounded(end, 2)) for end in time_factor_range(here.boiling_point_c))
    return say("between {low}\nand {high},\ndepending\non the food", low=low, high=high)


def travel(figures: Figures, day: KitDay) -> Cell:
    """Say how far and how high each leg of the day's way goes, and who goes it."""
    say = figures.say
    if not day.travel_by or not day.travel_hours:
        return text(say("a day of rest"))
    return join([leg_said(figures, leg) for leg in day.legs], "; ")


def leg_said(figures: Figures, leg: Travel, name_goers: bool = True) -> Cell:
    """Say how far and how high a leg goes, and who goes it where not all do."""
    say = figures.say
    parts = [text(travel_said(say, leg.by))]
    if leg.hours_on_way:
        parts.append(text(figures.plain(leg.hours_on_way, "hours")))
    if leg.distance_m is not None:
        parts.append(figures.both(leg.distance_m, "length_m"))
    for climbs, climbed in (
        (say("up {height}"), leg.ascent_m),
        (say("down {height}"), leg.descent_m),
    ):
        if climbed:
            parts.append(filled(climbs, height=figures.both(climbed, "altitude_m")))
    if leg.goers and name_goers:
        return filled(say("{people}: {way}"), people=text(say.listed(leg.goers)), way=join(parts))
    return join(parts)


def energy(figures: Figures, day: KitDay) -> Cell:
    """Set the food energy of a day against what it asks for."""
    at = at_day(day)
    return energy_share(
        figures,
        (day.nutrition.energy_kcal, f"{at}.energy_kcal"),
        (day.energy_need_kcal, f"{at}.energy_need_kcal"),
    )


def energy_share(figures: Figures, eaten: tuple[float, str], need: tuple[float, str]) -> Cell:
    """Give food energy as a share of the need; both lead to how they came about."""
    share = eaten[0] / need[0] if need[0] else 1.0
    (has,), (asks,) = (figures.alone(kcal, "energy_kcal", at) for kcal, at in (eaten, need))
    small = filled(
        figures.say("{energy} of {need}"),
        small=True,
        energy=(replace(has, small=True),),
        need=(replace(asks, small=True),),
    )
    of_need = figures.say("{share} of need", share=figures.percent(share))
    return (Piece(of_need), Piece(" "), *small)


def menu(
    kit: Kit, day: KitDay, anchors: Anchors, orders: tuple[OrderView, ...]
) -> tuple[MenuGroup, ...]:
    """Give the day's meals in the order they are eaten."""
    figures = figures_of(kit)
    paths = {order.meal: meal_path(day, order.meal) for order in day.orders if has_page(order)}
    starts = {order.meal: link(order.start, paths.get(order.meal, "")) for order in orders}
    started_min = {order.meal: rounded(order.start_min) for order in day.orders}
    groups = []
    told: set[str] = set()
    for name in MEALS:
        dishes = tuple(
            _dish(
                kit,
                figures,
                meal,
                anchors.get((day.day, place), ""),
                at_meal(day, place),
                started_min=started_min.get(name, 0.0),
            )
            for place, meal in enumerate(day.meals)
            if meal.meal == name
        )
        if dishes:
            title = figures.say(words.MEALS[name])
            places = [place for place, meal in enumerate(day.meals) if meal.meal == name]
            groups.append(
                MenuGroup(
                    title,
                    name,
                    dishes,
                    starts.get(name, ()),
                    tuple(
                        line for place in places for line in lines_of_meal(kit, day, place, anchors)
                    ),
                    _told_once(
                        told, [box for place in places for box in boxes_at_meal(kit, day, place)]
                    ),
                )
            )
    return tuple(groups)


def _told_once(told: set[str], boxes: Iterable[Box]) -> tuple[Box, ...]:
    """Leave only the name of a caution and its reason where the day told already what to do."""
    found = []
    for box in boxes:
        found.append(replace(box, text="", told=()) if box.id in told else box)
        told.add(box.id)
    return tuple(found)


def _dish(
    kit: Kit, figures: Figures, meal: PlannedMeal, href: str, at: str, *, started_min: float
) -> Cell:
    """Give one thing to eat: what, how long it takes, how much it is, for whom.

    Where the work of the whole meal takes no longer, that is told with the meal.
    """
    say = figures.say
    dish = [*cook_link(meal, href)]
    if meal.minutes and rounded(meal.minutes) != started_min:
        dish += [Piece(", "), *figures.alone(meal.minutes, "duration_min", f"{at}.minutes")]
    if meal.recipe:
        dish += [Piece(", "), *figures.both(meal.mass_g, "mass_g")]
    else:
        first, *other = figures.both(meal.mass_g / len(meal.eaters), "mass_g")
        dish += [Piece(", "), *filled(say("{mass} each"), mass=(first,)), *other]
    if len(meal.eaters) < len(kit.party):
        dish += [Piece(", "), Piece(say("for {people}", people=words.eaters_said(say, kit, meal)))]
    if meal.not_told:
        untold = say("allergens not given: {foods}", foods="; ".join(meal.not_told))
        dish += [Piece(", "), Piece(untold if meal.recipe else say("allergens not given"))]
    return tuple(dish)


def water_of_day(figures: Figures, day: KitDay) -> Table:
    """Give what the party's water of a day is for."""
    say = figures.say
    water = day.water
    named = (
        (say("To drink"), water.drinking_ml, "drinking_ml"),
        (say("Hot drinks"), water.drinks_ml, "drinks_ml"),
        (say("To cook with"), water.cooking_ml, "cooking_ml"),
        (say("To wash with"), water.washing_ml, "washing_ml"),
        (say("All together"), water.total_ml, "total_ml"),
        (say("Of this, make safe first"), water.treat_ml, "treat_ml"),
        (say("Most carried at once"), water.carry_ml, "carry_ml"),
    )
    rows = [
        (
            text(name),
            figures.both(volume, "volume_ml", f"{at_day(day)}.water.{field}"),
        )
        for name, volume, field in named
        if volume or field in ("drinking_ml", "total_ml")
    ]
    return table((say("For all"), say("Water")), rows, "lr")


def _people(figures: Figures, day: KitDay) -> Table:
    say = figures.say
    rows = []
    for place, person in enumerate(day.people):
        at = f"{at_day(day)}.people.{place}"
        need = figures.both(person.energy_need_kcal, "energy_kcal", f"{at}.energy_need_kcal")
        drink = figures.both(person.to_drink_ml, "volume_ml", f"{at}.to_drink_ml")
        rows.append((text(person.name), drink, need))
    return table((say("Who"), say("Drink"), say("Energy")), rows, "lrr")


def fuel_of_day(figures: Figures, day: KitDay) -> tuple[Fact, ...]:
    """Give the fuel and wood of a day, and what it goes into."""
    say = figures.say
    facts = []
    if day.fuel.fuel_g:
        facts.append(Fact(say("Fuel"), likely_fuel_of_day(day, figures)))
    if day.fuel.wood_g:
        facts.append(Fact(say("Wood"), likely_wood_of_day(day, figures)))
    burnt = day.fuel.meals_kj + day.fuel.melting_kj + day.fuel.boiling_water_kj
    made_safe = say("Of that, to make water safe")
    if day.conditions.water_source == "snow":
        # It is melted in the same pot: the heat that melts it is counted in here.
        made_safe = say("Of that, to melt snow and boil it to drink")
    for name, heat in (
        (say("Of that, to melt snow that is not boiled"), day.fuel.melting_kj),
        (made_safe, day.fuel.boiling_water_kj),
    ):
        if heat and burnt:
            facts.append(Fact(name, text(figures.percent(heat / burnt))))
    if day.fuel.water_minutes:
        heated = figures.alone(
            day.fuel.water_minutes, "duration_min", f"{at_day(day)}.water.minutes"
        )
        named = say("Time to melt snow")
        if day.fuel.boiling.minutes:
            named = say("Time to boil water that is drunk")
        if day.fuel.boiling.minutes and day.fuel.melting.minutes:
            named = say("Time to melt snow and boil water that is drunk")
        facts.append(Fact(named, heated))
    return tuple(facts)
