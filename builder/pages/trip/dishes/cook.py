"""The page of a recipe: amounts, warnings, then steps as they are cooked at this height."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from builder.formulas.cooling import HOT_HOLDING_C
from builder.formulas.heat import whole_units
from builder.model.figure import add
from builder.model.kit import Kit, KitDay, PlannedIngredient, PlannedMeal, PlannedStep
from builder.model.looks import KeepsHot
from builder.pages import words
from builder.pages.figures import Figures, figures_of, number, worked
from builder.pages.pieces import Cell, Piece, Scale, Table, filled, join, table, text
from builder.pages.trip.addresses import at_meal
from builder.pages.trip.cautions import Box
from builder.pages.trip.dishes.allergens import allergens_said
from builder.pages.trip.dishes.baking import bake_said, embers_said
from builder.pages.trip.dishes.plates import are_uneven, energy_of_each, plates
from builder.pages.trip.dishes.safe_water import stays_unboiled
from builder.pages.trip.dishes.soaking import iron_said, pressure_said, soak_said
from builder.pages.trip.origins.changing import Controls, controls_of, figures_of_page, shown_in
from builder.pages.trip.placing import boxes_at, boxes_at_step, raw
from builder.planning.cooking import measured_after, poured_off_after
from builder.planning.tracing import count
from builder.speech import Speech, later, speech_of
from builder.units import rounded

_BROTH = later("The food takes up about {taken}. What is left, {left}, is broth: drink it.")
_GOES_ON = later("The food takes up about {taken}. What is left, {left}, goes into the dish.")
_NAMED = re.compile(r"<([a-z0-9-]+)>")
_POTTED = ("pot", "mug")  # what is heated in a pot
_IN = {
    "pot": later("In the pot"),
    "iron": later("In the iron"),
    "mug": later("In the mug"),
    "none": later("No fire, no stove"),
}
_COOKED_IN = {  # over what, and whether in several potfuls
    (None, False): later("{vessel}."),
    (None, True): later("{vessel}, {potfuls}."),
    ("stove", False): later("{vessel}, on the stove."),
    ("stove", True): later("{vessel}, on the stove, {potfuls}."),
    ("fire", False): later("{vessel}, on the fire."),
    ("fire", True): later("{vessel}, on the fire, {potfuls}."),
    ("embers", False): later("{vessel}, in the embers."),
    ("embers", True): later("{vessel}, in the embers, {potfuls}."),
    ("stove, embers", False): later("{vessel}, on the stove, then in the embers."),
    ("stove, embers", True): later("{vessel}, on the stove, then in the embers, {potfuls}."),
    ("fire, embers", False): later("{vessel}, on the fire, then in the embers."),
    ("fire, embers", True): later("{vessel}, on the fire, then in the embers, {potfuls}."),
}
_POT_THEN_IRON = {  # a filling is cooked first
    "stove": later("{pot}, on the stove. Then {iron} in the embers."),
    "fire": later("{pot}, on the fire. Then {iron} in the embers."),
}
# What to do in a step; whether stirring, whether with the lid on.
DOINGS = {
    ("boil", False, False): later("Bring to the boil."),
    ("boil", True, False): later("Bring to the boil, stirring."),
    ("boil", False, True): later("Bring to the boil, lid on."),
    ("boil", True, True): later("Bring to the boil, stirring, lid on."),
    ("soak", False, False): later("Soak {time}."),
    ("soak", True, False): later("Soak {time}, stirring."),
    ("soak", False, True): later("Soak {time}, lid on."),
    ("soak", True, True): later("Soak {time}, stirring, lid on."),
    ("simmer", False, False): later("Simmer {time}."),
    ("simmer", True, False): later("Simmer {time}, stirring."),
    ("simmer", False, True): later("Simmer {time}, lid on."),
    ("simmer", True, True): later("Simmer {time}, stirring, lid on."),
    ("fry", False, False): later("Fry {time}."),
    ("fry", True, False): later("Fry {time}, stirring."),
    ("fry", False, True): later("Fry {time}, lid on."),
    ("fry", True, True): later("Fry {time}, stirring, lid on."),
}
# A boil that goes on; whether stirring, whether with the lid on.
BOILS_HARD = {
    (False, False): later("Bring to the boil. Boil hard {time}."),
    (True, False): later("Bring to the boil, stirring. Boil hard {time}."),
    (False, True): later("Bring to the boil, lid on. Boil hard {time}."),
    (True, True): later("Bring to the boil, stirring, lid on. Boil hard {time}."),
}
_STILL_HOT = {  # after it has stood; whether the lid was on
    True: later(
        "Then still about {likely} hot, between {low} and {high}; wrapped up about {cosy}."
    ),
    False: later(
        "Then still about {likely} hot, between {low} and {high}; "
        "with its lid and wrapped up about {cosy}."
    ),
}
STEEP = {False: later("Let it steep {time}."), True: later("Let it steep {time}, lid on.")}
LET_STAND = {False: later("Let stand {time}."), True: later("Let stand {time}, lid on.")}


@dataclass(frozen=True, slots=True)
class StepLine:
    """One line to tick off: first what to measure, then what to do."""

    amounts: tuple[Cell, ...]
    do: Cell
    more: Cell  # what belongs to it
    say: Cell
    sea_level: str
    timer: str  # whole minutes, "" where there is nothing to wait for
    timer_says: str
    stands: Cell = ()  # how it stands or soaks
    as_planned: bool = False  # whether `stands` holds for the planned eaters and height only
    boxes: tuple[Box, ...] = ()  # cautions that one must act on here


@dataclass(frozen=True, slots=True)
class Cooking:
    """One way the recipe is cooked in this trip; several days may share it."""

    anchor: str
    title: str
    party: int
    eaters: str
    in_short: Cell
    amounts: Table
    potfuls: Cell
    steps: tuple[StepLine, ...]
    plates: Table | None
    one_mug: bool  # the steps are for one mug of several
    controls: Controls = field(compare=False)  # what one may change of it
    times: tuple[tuple[int, int], ...] = ()  # day, and the meal's place in it
    allergens: tuple[str, ...] = ()
    how: Cell = ()  # to how its figures came about, for the first of the times


@dataclass(frozen=True, slots=True)
class CookPage:
    """One recipe."""

    path: str
    title: str
    note: str
    boxes: tuple[Box, ...]
    notes: tuple[Box, ...]
    cookings: tuple[Cooking, ...]
    several: bool
    figures: Mapping[str, object]  # those that follow what one changes


@dataclass(frozen=True, slots=True)
class _Time:
    """One time that a recipe is cooked: the day, and the meal's place in it."""

    day: KitDay
    place: int
    meal: PlannedMeal

    @property
    def at(self) -> str:
        """Its address in kit.json."""
        return at_meal(self.day, self.place)


Anchors = Mapping[tuple[int, int], str]


def cook_pages(kit: Kit) -> tuple[CookPage, ...]:
    """Give a page for each recipe of the trip, in the order of first cooking."""
    times: dict[str, list[_Time]] = {}
    for day in kit.days:
        for place, meal in enumerate(day.meals):
            if meal.recipe:
                times.setdefault(meal.recipe, []).append(_Time(day, place, meal))
    return tuple(_page(kit, recipe, cooked) for recipe, cooked in times.items())


def step_anchors(pages: tuple[CookPage, ...]) -> Anchors:
    """Give the address of the steps for each cooked meal, by day and its place in the day."""
    return {
        time: f"{page.path}#{way.anchor}"
        for page in pages
        for way in page.cookings
        for time in way.times
    }


def cook_link(meal: PlannedMeal, href: str) -> Cell:
    """Give a meal's title, leading to its steps where it is cooked."""
    return (Piece(meal.title, href=href),)


def _page(kit: Kit, recipe: str, times: list[_Time]) -> CookPage:
    path = f"cook/{recipe}.md"
    boxes = boxes_at(kit, path)
    ways = list(_together(kit, times))
    cookings = tuple(way for _, way in ways)
    meal = times[0].meal
    return CookPage(
        path,
        meal.title,
        meal.note,
        tuple(box for box in boxes if box.level != "note"),
        tuple(box for box in boxes if box.level == "note"),
        cookings,
        len(cookings) > 1,
        figures_of_page(kit, {time.at: time.meal for time, _ in ways}, shown_in(cookings)),
    )


def _together(kit: Kit, times: list[_Time]) -> Iterator[tuple[_Time, Cooking]]:
    """Give the ways a recipe is cooked, each with its first time.

    Times of the same figures, unrounded, that read the same are told once.
    """
    say = speech_of(kit.language)
    alike: dict[tuple[Cooking, tuple[float, ...]], list[_Time]] = {}
    ways: dict[str, Cooking] = {}
    for time in times:
        way = ways[time.at] = cooking(kit, time.meal, time.day.day, time.at)
        values = (time.meal.conditions.altitude_m, *(each.value for each in shown_in(way)))
        alike.setdefault((way, values), []).append(time)
    taken: set[str] = set()
    for shared in alike.values():
        first = shared[0]
        name = anchor = f"day-{first.day.day}-{first.meal.meal}"
        again = 1
        while anchor in taken:
            again += 1
            anchor = f"{name}-{again}"
        taken.add(anchor)
        yield (
            first,
            replace(
                ways[first.at],
                anchor=anchor,
                title=say.listed(
                    dict.fromkeys(
                        words.meal_of_day(say, time.day, time.meal.meal) for time in shared
                    )
                ),
                times=tuple((time.day.day, time.place) for time in shared),
                how=_how(kit, first),
            ),
        )


_TRACED = (
    ("minutes", later("minutes")),
    ("potfuls", later("potfuls")),
    ("presses", later("presses")),
    ("heat_kj", later("heat")),
    ("fuel_heat_kj", later("fuel")),
    ("wood_g", later("wood")),
    ("energy_kcal", later("food energy")),
)


def _how(kit: Kit, time: _Time) -> Cell:
    """Lead to how the figures of a meal came about."""
    figures = figures_of(kit)
    known = [
        (Piece(figures.say(name), href=href),)
        for figure, name in _TRACED
        if (href := figures.how(f"{time.at}.{figure}"))
    ]
    known += [
        (Piece(figures.say(name), href=href),)
        for figure, name in _looks_at(time)
        if (href := figures.how(figure))
    ]
    return join(known)


def _looks_at(time: _Time) -> Iterator[tuple[str, str]]:
    """Give the figures of second looks at the steps of a meal, and their names."""
    for place, step in enumerate(time.meal.steps):
        if step.keeps_hot:
            yield f"{time.at}.steps.{place}.keeps_hot.bare_c.1", later("heat left")
    for place, step in enumerate(time.meal.steps):
        if step.under_pressure:
            yield (
                f"{time.at}.steps.{place}.under_pressure.minutes",
                later("minutes under pressure"),
            )


def cooking(kit: Kit, meal: PlannedMeal, day: int, at: str) -> Cooking:
    """Give one meal as it is cooked on a day; `at` is its address in kit.json."""
    figures = figures_of(kit)
    party = len(meal.eaters)
    potfuls = _potfuls(kit, meal, at)
    return Cooking(
        "",
        "",
        party,
        words.eaters_said(figures.say, kit, meal),
        _in_short(kit, figures, meal, potfuls, at),
        _amounts(figures, meal, at),
        potfuls if meal.potfuls > 1 else (),
        tuple(
            _steps(
                figures,
                meal,
                at,
                iron_said(figures, meal.irons) if meal.irons else (),
                stands_by_step(figures, meal),
                {place: boxes_at_step(kit, day, meal, place) for place, _ in enumerate(meal.steps)},
            )
        ),
        plates(figures, meal),
        meal.cook_in == "mug" and party > 1,
        controls_of(kit, meal, at),
        allergens=allergens_said(figures.say, meal),
    )


def _in_short(kit: Kit, figures: Figures, meal: PlannedMeal, potfuls: Cell, at: str) -> Cell:
    """Say in what it is cooked, how long that takes, how hot water gets, how much it feeds."""
    say = figures.say
    here = meal.conditions
    pots = {pot_id: name for pot_id, name, _ in kit.pots}
    vessel = say(_IN[meal.cook_in or "none"])
    if meal.cook_in in _POTTED:
        vessel = pots.get(meal.pot or "", vessel)
    elif meal.cook_in == "iron":
        vessel = say.listed(kit.irons) or vessel
    said: list[Piece] = []
    if meal.minutes:
        takes = figures.plain(meal.minutes, "duration_min")
        scale = Scale("min", meal.minutes, f"{at}.minutes", name="takes")
        said += [Piece(takes, strong=True, scale=scale), Piece(". ")]
    if meal.cook_in == "iron" and meal.cooked_on and meal.pot in pots:
        pot_first = say(_POT_THEN_IRON[meal.cooked_on])
        said += filled(pot_first, pot=text(pots[meal.pot]), iron=text(vessel))
    else:
        cooked_in = say(_COOKED_IN[_cooked_on(meal), bool(potfuls)])
        said += filled(cooked_in, vessel=text(vessel), potfuls=potfuls)
    if meal.cooked_on and meal.cook_in in _POTTED:
        boils = Scale("celsius", here.boiling_point_c, f"{at}.boiling_point_c", name="boils-at")
        height = Scale("m", here.altitude_m, f"{at}.altitude_m", name="height")
        said.append(Piece(" "))
        said += filled(
            say("Water boils at {temperature} here, at {height}."),
            temperature=_in_both(figures, "temperature_c", boils),
            height=_in_both(figures, "altitude_m", height),
        )
    return (*said, Piece(" "), Piece(energy_of_each(figures, meal)))


def _in_both(figures: Figures, quantity: str, scale: Scale) -> Cell:
    """Give a figure in both units, each told anew for another height."""
    other = "metric" if figures.units == "us" else "us"
    return tuple(
        replace(piece, scale=replace(scale, units=other if piece.small else figures.units))
        if piece.text.strip()
        else piece
        for piece in figures.both(scale.value, quantity)
    )


def _amounts(figures: Figures, meal: PlannedMeal, at: str) -> Table:
    say = figures.say
    party = len(meal.eaters)
    rows: list[tuple[Cell, ...]] = []
    for place, each in enumerate(meal.ingredients):
        id_ = f"{at}.ingredients.{place}"
        name = text(each.name)
        if each.is_raw_animal:
            name = (*raw(say), *name)
        if each.packs:
            packs = say.count("{n} pack", "{n} packs", each.packs)
            name = (*name, Piece(" "), Piece(packs, small=True))
        if each.piece_g:
            pieces = replace(_by_eye(figures, each, each.amount_g, id_)[0], small=True)
            name = (*name, Piece(" "), *filled(say("pieces: {n}"), small=True, n=(pieces,)))
        one = figures.both(each.amount_g / party, "mass_g")[:1]
        rows.append((name, _amount(figures, each, id_), one))
    if meal.water_ml:
        first, *other = figures.scaled(meal.water_ml, "volume_ml", f"{at}.water_ml")
        spooned = figures.spooned(meal.water_ml, f"{at}.water_ml")
        in_mugs = [each for piece in spooned for each in (Piece(" "), replace(piece, small=True))]
        one = figures.both(meal.water_ml / party, "volume_ml")[:1]
        rows.append((text(say("Water, all together")), (first, *in_mugs, *other), one))
    if are_uneven(figures, meal):  # a mean for each would deny the shares beside it
        return table((say("What"), say("For all")), [row[:2] for row in rows], "lr")
    return table((say("What"), say("For all"), say("Each")), rows, "lrr")


def _amount(figures: Figures, each: PlannedIngredient, id_: str) -> Cell:
    """Give an amount: by weight, by the mug, and in the other units; pieces stand by the name."""
    first, *other = figures.scaled(each.amount_g, "mass_g", f"{id_}.amount_g")
    by_eye = () if each.piece_g else _by_eye(figures, each, each.amount_g, id_)
    small = tuple(replace(piece, small=True) for piece in by_eye)
    return (first, Piece(" "), *small, *other) if small else (first, *other)


def _by_eye(
    figures: Figures,
    each: PlannedIngredient,
    amount_g: float,
    id_: str,
    before: str = "",
    after: str = "",
) -> Cell:
    """Give an amount without scales: in pieces, mugs or spoons, where the food tells how."""
    if each.piece_g:
        return _count(figures.say, amount_g / each.piece_g, id_ and f"{id_}.pieces")
    if each.density_g_ml:
        volume = id_ and f"{id_}.volume_ml"
        return figures.spooned(amount_g / each.density_g_ml, volume, before, after)
    return ()


def _measure(
    figures: Figures, each: PlannedIngredient, amount_g: float, id_: str, name: str
) -> Cell:
    """Give what to measure out for a step: `240 g rice, 1 mug`."""
    first, *other = figures.scaled(amount_g, "mass_g", id_ and f"{id_}.amount_g", strong=True)
    by_eye = _by_eye(figures, each, amount_g, id_, ", ")
    if each.piece_g:
        by_eye = filled(figures.say(", pieces: {n}"), n=by_eye)
    mark = raw(figures.say) if each.is_raw_animal else ()
    return (*mark, first, Piece(f" {name}"), *by_eye, *other)


def _cooked_on(meal: PlannedMeal) -> str | None:
    """Give over what a pot stands, one after the other where it is baked in at the end."""
    if not any(step.do == "bake" for step in meal.steps):
        return meal.cooked_on
    over_flame = any(step.do in ("boil", "simmer", "fry") or step.hot for step in meal.steps)
    return f"{meal.cooked_on}, embers" if over_flame else "embers"


def _potfuls(kit: Kit, meal: PlannedMeal, at: str) -> Cell:
    """Give how many times the pot is filled."""
    if not meal.potfuls or meal.cook_in not in _POTTED:
        return ()
    scale = Scale("potfuls", meal.potfuls, f"{at}.potfuls")
    say = speech_of(kit.language)
    potfuls = say.count("{n} potful", "{n} potfuls", meal.potfuls)
    return (Piece(potfuls, strong=True, scale=scale),)


def stands_by_step(figures: Figures, meal: PlannedMeal) -> Mapping[int, Cell]:
    """Give what is said below a step: how hot it stays, how it soaks, how long under pressure."""
    found: dict[int, Cell] = {}
    for place, step in enumerate(meal.steps):
        if step.keeps_hot:
            found[place] = _stands(figures, step.keeps_hot, step.lid)
        elif step.soaking:
            found[place] = soak_said(figures, meal, place, step.soaking)
        elif step.under_pressure:
            found[place] = pressure_said(figures, step.under_pressure)
    return found


def _steps(
    figures: Figures,
    meal: PlannedMeal,
    at: str,
    irons: Cell,
    stands: Mapping[int, Cell],
    boxes: Mapping[int, tuple[Box, ...]],
) -> Iterator[StepLine]:
    """Give the steps; the check of the middle and the pouring away follow the last heat."""
    measured, poured_off = measured_after(meal.steps), poured_off_after(meal.steps)
    seen: set[str] = set()
    boiled = False
    for place, step in enumerate(meal.steps):
        if step.do == "soak" and step.hot and step.water_ml and not boiled:
            yield _boil_first(figures, meal, at)
            boiled = True
        line = _step(figures, meal, at, place, seen)
        as_planned = step.do not in ("soak", "press")
        if step.do == "press" and irons:
            line, irons = replace(line, amounts=(irons, *line.amounts)), ()
        yield replace(line, stands=stands.get(place, ()), as_planned=as_planned, boxes=boxes[place])
        seen.update(each.id for each in step.ingredients)
        if place == measured:
            yield from _measured(figures, meal)
        if place == poured_off:
            yield from _poured_off(figures, meal, at)


def _boil_first(figures: Figures, meal: PlannedMeal, at: str) -> StepLine:
    """Put the boiling before the first hot soak, of all the water that is poured on hot."""
    water_ml = add(step.water_ml for step in meal.steps if step.do == "soak" and step.hot)
    water = figures.water(water_ml, f"{at}.hot_soak_ml")
    boil = figures.say(DOINGS["boil", False, False])
    return StepLine((water,), text(boil), (), (), "", "", "")


def _measured(figures: Figures, meal: PlannedMeal) -> Iterator[StepLine]:
    say = figures.say
    if meal.reach_c is not None:
        first, *other = figures.least(meal.reach_c)
        least = (replace(first, strong=True), *other)
        more = filled(
            say("At least {temperature} in the thickest part. Less? Cook on."), temperature=least
        )
        yield StepLine((), text(say("Measure the middle.")), more, (), "", "", "")


def _poured_off(figures: Figures, meal: PlannedMeal, at: str) -> Iterator[StepLine]:
    say = figures.say
    if meal.drain_ml:
        away = figures.scaled(meal.drain_ml, "volume_ml", f"{at}.drain_ml")
        more = filled(say("About {water}. Far from stream and lake."), water=away)
        yield StepLine((), text(say("Pour off the water.")), more, (), "", "", "")


def _step(figures: Figures, meal: PlannedMeal, at: str, place: int, seen: set[str]) -> StepLine:
    """Give a step; what is in the pot already, or named in the recipe's words, is not repeated."""
    say = figures.say
    step = meal.steps[place]
    names = words.short_names(say, meal.ingredients)
    party = len(meal.eaters)
    # Each fills their own mug, whoever else eats.
    parts = party if meal.cook_in == "mug" and party > 1 and step.do != "boil" else 1
    ids = {} if parts > 1 else _ids(meal, at)
    said = ids_named(step.say)
    amounts = [
        _measure(figures, each, _part(each.amount_g, parts), ids.get(each.id, ""), names[each.id])
        for each in step.ingredients
        if each.id not in seen | said
    ]
    poured = "" if parts > 1 else f"{at}.steps.{place}.water_ml"
    if step.do == "soak" and step.hot:
        if step.water_ml and (parts > 1 or not _boiled_alone(meal)):
            boiling = say("of the boiling water")
            amounts.append(figures.water(_part(step.water_ml, parts), poured, boiling))
    elif step.water_ml:
        safe = say("treated water") if stays_unboiled(meal, place) else ""
        amounts.append(figures.water(_part(step.water_ml, parts), poured, safe))
    minutes = figures.plain(step.minutes, "duration_min")
    at_sea = figures.plain(step.minutes_at_sea_level, "duration_min")
    timed = step.minutes or step.each_side_min
    lasts = Scale("min", step.minutes, f"{at}.steps.{place}.minutes", name="lasts")
    return StepLine(
        tuple(amounts),
        _do(figures, step, Piece(minutes, scale=lasts)),
        _at_embers(figures, step, f"{at}.steps.{place}"),
        (
            *recipe_said(figures, meal, step.say, parts, ids),
            *_broth(figures, meal, place, parts, f"{at}.steps.{place}"),
        ),
        say("{time} at sea level", time=at_sea) if step.minutes and at_sea != minutes else "",
        number(rounded(timed)) if timed >= 0.5 else "",
        figures.plain(timed, "duration_min") if timed else "",
    )


def _broth(figures: Figures, meal: PlannedMeal, place: int, parts: int, at: str) -> Cell:
    """Say what dried food takes up of its water, and what becomes of the rest.

    It is broth to drink only where nothing more is cooked with it or stirred into it.
    """
    step = meal.steps[place]
    if step.taken_up_ml <= 0:
        return ()
    if step.broth_ml < 1:
        return (Piece(" "), Piece(figures.say("The food takes up all the water.")))

    def amount(volume_ml: float, name: str) -> Cell:
        figure = "" if parts > 1 else f"{at}.{name}"
        return figures.scaled(_part(volume_ml, parts), "volume_ml", figure)[:1]

    is_last = all(each.do in ("rest", "serve") for each in meal.steps[place + 1 :])
    said = figures.say(_BROTH if is_last else _GOES_ON)
    taken = amount(step.taken_up_ml, "taken_up_ml")
    return (Piece(" "), *filled(said, taken=taken, left=amount(step.broth_ml, "broth_ml")))


def _stands(figures: Figures, look: KeepsHot, lid: bool) -> Cell:
    """Say how hot the food still is after it has stood, and what to do where that is too little."""
    low, likely, high = (figures.plain(value, "temperature_c") for value in look.bare_c)
    cosy = figures.plain(look.cosy_c[1], "temperature_c")
    said = figures.say(_STILL_HOT[lid], likely=likely, low=low, high=high, cosy=cosy)
    if look.bare_c[0] >= HOT_HOLDING_C:
        return text(said)
    wrap = figures.say("Wrap the pot, or eat sooner.")
    return (Piece(wrap, strong=True), Piece(f" {said}"))


def _boiled_alone(meal: PlannedMeal) -> bool:
    """Tell whether the water boiled first is all for one soak, so that it need not be measured."""
    soaks = [step for step in meal.steps if step.do == "soak" and step.hot]
    return len(soaks) == 1 and not any(step.do == "boil" for step in meal.steps)


def _ids(meal: PlannedMeal, at: str) -> Mapping[str, str]:
    """Give the address in kit.json of each ingredient."""
    return {each.id: f"{at}.ingredients.{place}" for place, each in enumerate(meal.ingredients)}


def _part(amount: float, parts: int) -> float:
    """Give an amount, or what each gets of it."""
    return amount if parts == 1 else amount / parts


def _do(figures: Figures, step: PlannedStep, minutes: Piece) -> Cell:
    """Give the short imperative of a step."""
    say = figures.say
    time = (minutes,)
    if step.do == "press":
        side = figures.plain(step.each_side_min, "duration_min")
        return text(say("Press {time} on each side.", time=side))
    if step.do == "bake":
        return text(bake_said(figures, step))
    if step.do == "mix":
        return text(say("Mix."))
    if step.do == "serve":
        return text(say("Serve."))
    steeps = bool(step.ingredients) and all(each.steeps for each in step.ingredients)
    if step.do == "rest":
        if steeps:
            return filled(say(STEEP[step.lid]), time=time)
        return filled(say(LET_STAND[step.lid]), time=time)
    if step.do == "soak" and step.hot:
        told = STEEP[step.lid] if steeps else DOINGS["soak", False, step.lid]
        soak = filled(say(told), time=time)
        return (Piece(say("Pour on the boiling water.")), Piece(" "), *soak)
    if step.do == "boil" and step.minutes:
        return filled(say(BOILS_HARD[step.stir, step.lid]), time=time)
    return filled(say(DOINGS[step.do, step.stir, step.lid]), time=time)


def _at_embers(figures: Figures, step: PlannedStep, id_: str) -> Cell:
    """Say what belongs to a step at the embers."""
    if step.do == "bake":
        return text(embers_said(figures, step))
    return _pressed(figures.say, step, id_) if step.do == "press" else ()


def _pressed(say: Speech, step: PlannedStep, id_: str) -> Cell:
    """Say how many pieces there are, and how many the irons take at a time."""
    if not step.pieces or not step.presses:
        return ()
    at_a_time = count(whole_units, step.pieces, step.presses)
    scale = Scale("whole", at_a_time, f"{id_}.at_a_time", name="at-once")
    return filled(
        say("Pieces: {n}, {some} at a time."),
        n=_count(say, step.pieces, f"{id_}.pieces"),
        some=(Piece(str(at_a_time), scale=scale),),
    )


def _count(say: Speech, pieces: float, figure: str) -> Cell:
    """Give how many pieces, to the tenth."""
    scale = Scale("count", pieces, figure, step="0.1") if figure else None
    return (Piece(worked(say, rounded(pieces, 1)), scale=scale),)


def ids_named(told: str) -> frozenset[str]:
    """Give the ingredients whose amounts stand in the recipe's own words."""
    return frozenset(_NAMED.findall(told))


def amount_inside(
    figures: Figures, each: PlannedIngredient, amount_g: float, id_: str, name: str
) -> Iterator[Piece]:
    """Give an amount inside a sentence, by weight and by eye: `240 g rice (1 mug)`."""
    yield figures.scaled(amount_g, "mass_g", id_ and f"{id_}.amount_g", strong=True)[0]
    yield Piece(f" {name}")
    if by_eye := _by_eye(figures, each, amount_g, id_, "(", ")"):
        yield Piece(" ")
        yield from (filled(figures.say("(pieces: {n})"), n=by_eye) if each.piece_g else by_eye)


def recipe_said(
    figures: Figures, meal: PlannedMeal, told: str, parts: int, ids: Mapping[str, str]
) -> Cell:
    """Give the recipe's own words, with amount and name in place of each `<id>`."""
    known = {each.id: each for each in meal.ingredients}
    names = words.short_names(figures.say, meal.ingredients)
    pieces: list[Piece] = []
    end = 0
    for match in _NAMED.finditer(told):
        if each := known.get(match[1]):
            pieces.append(Piece(told[end : match.start()]))
            if each.is_raw_animal:
                pieces += raw(figures.say)
            amount_g, id_ = _part(each.amount_g, parts), ids.get(each.id, "")
            pieces += amount_inside(figures, each, amount_g, id_, names[each.id])
            end = match.end()
    return (*pieces, Piece(told[end:])) if told else ()
