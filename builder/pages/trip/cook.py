"""The page of a recipe: amounts, warnings, then steps as they are cooked at this height."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from builder.formulas.cooling import HOT_HOLDING_C
from builder.formulas.heat import FOOD_ROOM_ML_PER_G
from builder.model.kit import Kit, KitDay, PlannedIngredient, PlannedMeal, PlannedStep
from builder.model.looks import Standing
from builder.pages import words
from builder.pages.figures import Figures, figures_of, number, worked
from builder.pages.pieces import Cell, Mark, Piece, Scale, Table, filled, join, table, text
from builder.pages.trip.allergens import allergens_said
from builder.pages.trip.cautions import Box
from builder.pages.trip.placing import boxes_at, boxes_at_step, raw
from builder.pages.trip.plates import are_uneven, energy_of_each, plates
from builder.pages.trip.soaking import iron_said, of_meal, pressure_said, soak_said, soaks_of
from builder.planning.cooking import scaling_data
from builder.planning.naming import meal_inside
from builder.speech import Speech, later, speech_of
from builder.units import rounded

_NAMED = re.compile(r"<([a-z0-9-]+)>")
_HEATED = ("boil", "simmer", "fry", "press")
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
    cooking: str  # what a script needs to work it out for other eaters or another height
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


@dataclass(frozen=True, slots=True)
class _Time:
    """One time that a recipe is cooked: the day, and the meal's place in it."""

    day: KitDay
    place: int
    meal: PlannedMeal


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
    cookings = tuple(_together(kit, times))
    meal = times[0].meal
    return CookPage(
        path,
        meal.title,
        meal.note,
        tuple(box for box in boxes if box.level != "note"),
        tuple(box for box in boxes if box.level == "note"),
        cookings,
        len(cookings) > 1,
    )


def _together(kit: Kit, times: list[_Time]) -> Iterator[Cooking]:
    """Give the ways a recipe is cooked; times that read the same are told once."""
    say = speech_of(kit.language)
    alike: dict[Cooking, list[_Time]] = {}
    for time in times:
        alike.setdefault(cooking(kit, time.meal, time.day.day), []).append(time)
    taken: set[str] = set()
    for shown, shared in alike.items():
        first = shared[0]
        name = anchor = f"day-{first.day.day}-{first.meal.meal}"
        again = 1
        while anchor in taken:
            again += 1
            anchor = f"{name}-{again}"
        taken.add(anchor)
        yield replace(
            shown,
            anchor=anchor,
            title=say.listed(dict.fromkeys(_when(say, time.day, time.meal) for time in shared)),
            times=tuple((time.day.day, time.place) for time in shared),
            how=_how(kit, first),
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
    at = f"days.{time.day.day - 1}.meals.{time.place}"
    known = [
        (Piece(figures.say(name), href=href),)
        for field, name in _TRACED
        if (href := figures.how(f"{at}.{field}"))
    ]
    known += [
        (Piece(figures.say(name), href=href),)
        for figure, name in _looks_at(kit, time)
        if (href := figures.how(figure))
    ]
    return join(known)


def _looks_at(kit: Kit, time: _Time) -> Iterator[tuple[str, str]]:
    """Give the figures of second looks at a meal, and their names."""
    looks, meal = kit.looks, time.meal
    for place, stood in enumerate(looks.standing):
        if (stood.day, stood.meal, stood.title) == (time.day.day, meal.meal, meal.title):
            yield f"looks.standing.{place}.bare_c.1", later("heat left")
    for place, each in enumerate(looks.pressure):
        if (each.day, each.place) == (time.day.day, time.place):
            yield f"looks.pressure.{place}.minutes", later("minutes under pressure")


def _when(say: Speech, day: KitDay, meal: PlannedMeal) -> str:
    inside = meal_inside(say, meal.meal)
    return say("{day} {meal}", day=words.day_name(say, day), meal=inside)


def cooking(kit: Kit, meal: PlannedMeal, day: int) -> Cooking:
    """Give one meal as it is cooked on a day."""
    figures = figures_of(kit)
    party = len(meal.eaters)
    potfuls = _potfuls(kit, meal)
    return Cooking(
        "",
        "",
        party,
        words.eaters_said(figures.say, kit, meal),
        _in_short(kit, figures, meal, potfuls),
        _amounts(figures, meal),
        potfuls if meal.potfuls > 1 else (),
        tuple(
            _steps(
                figures,
                meal,
                _irons(kit, figures, meal, day),
                _stands_by_step(kit, figures, meal, day),
                {place: boxes_at_step(kit, day, meal, place) for place, _ in enumerate(meal.steps)},
            )
        ),
        plates(figures, meal),
        meal.cook_in == "mug" and party > 1,
        _cooking_data(kit, meal),
        allergens=allergens_said(figures.say, meal),
    )


def _cooking_data(kit: Kit, meal: PlannedMeal) -> str:
    """Give what the meal's times and counts hang on, as JSON; without names in a public kit."""
    data = scaling_data(meal)
    if data is None:
        return ""
    if kit.public:
        data = {**data, "eaters": []}
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _in_short(kit: Kit, figures: Figures, meal: PlannedMeal, potfuls: Cell) -> Cell:
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
        said += [Piece(takes, strong=True, mark=Mark("takes")), Piece(". ")]
    if meal.cook_in == "iron" and meal.cooked_on and meal.pot in pots:
        pot_first = say(_POT_THEN_IRON[meal.cooked_on])
        said += filled(pot_first, pot=text(pots[meal.pot]), iron=text(vessel))
    else:
        cooked_in = say(_COOKED_IN[meal.cooked_on, bool(potfuls)])
        said += filled(cooked_in, vessel=text(vessel), potfuls=potfuls)
    if meal.cooked_on and meal.cook_in in _POTTED:
        boils = figures.both(here.boiling_point_c, "temperature_c")
        height = figures.both(here.altitude_m, "altitude_m")
        said.append(Piece(" "))
        said += filled(
            say("Water boils at {temperature} here, at {height}."),
            temperature=_marked(figures, boils, "boils-at"),
            height=_marked(figures, height, "height"),
        )
    return (*said, Piece(" "), Piece(energy_of_each(figures, meal)))


def _marked(figures: Figures, shown: Cell, name: str) -> Cell:
    """Mark a number in both units, so that a script can tell it for another height."""
    other = "metric" if figures.units == "us" else "us"
    return tuple(
        replace(piece, mark=Mark(name, (("units", other if piece.small else figures.units),)))
        if piece.text.strip()
        else piece
        for piece in shown
    )


def _amounts(figures: Figures, meal: PlannedMeal) -> Table:
    say = figures.say
    party = len(meal.eaters)
    rows: list[tuple[Cell, ...]] = []
    for each in meal.ingredients:
        name = text(each.name)
        if each.is_raw_animal:
            name = (*raw(say), *name)
        if each.packs:
            packs = say.count("{n} pack", "{n} packs", each.packs)
            name = (*name, Piece(" "), Piece(packs, small=True))
        if each.piece_g:
            count = replace(_by_eye(figures, each, each.amount_g, party)[0], small=True)
            name = (*name, Piece(" "), *filled(say("pieces: {n}"), small=True, n=(count,)))
        one = figures.both(each.amount_g / party, "mass_g")[:1]
        rows.append((name, _amount(figures, each, party), one))
    if meal.water_ml:
        first, *other = figures.scaled(meal.water_ml, "volume_ml", party)
        spooned = figures.spooned(meal.water_ml, party)
        in_mugs = (Piece(" "), *(replace(piece, small=True) for piece in spooned))
        one = figures.both(meal.water_ml / party, "volume_ml")[:1]
        rows.append((text(say("Water, all together")), (first, *in_mugs, *other), one))
    if are_uneven(figures, meal):  # a mean for each would deny the shares beside it
        return table((say("What"), say("For all")), [row[:2] for row in rows], "lr")
    return table((say("What"), say("For all"), say("Each")), rows, "lrr")


def _amount(figures: Figures, each: PlannedIngredient, party: int) -> Cell:
    """Give an amount: by weight, by the mug, and in the other units; pieces stand by the name."""
    first, *other = figures.scaled(each.amount_g, "mass_g", party)
    by_eye = () if each.piece_g else _by_eye(figures, each, each.amount_g, party)
    small = tuple(replace(piece, small=True) for piece in by_eye)
    return (first, Piece(" "), *small, *other) if small else (first, *other)


def _by_eye(figures: Figures, each: PlannedIngredient, amount_g: float, party: int) -> Cell:
    """Give an amount without scales: in pieces, mugs or spoons, where the food tells how."""
    if each.piece_g:
        return _count(figures.say, amount_g / each.piece_g, party)
    if each.density_g_ml:
        return figures.spooned(amount_g / each.density_g_ml, party)
    return ()


def _measure(
    figures: Figures, each: PlannedIngredient, amount_g: float, party: int, name: str
) -> Cell:
    """Give what to measure out for a step: `240 g rice, 1 mug`."""
    first, *other = figures.scaled(amount_g, "mass_g", party, strong=True)
    if by_eye := _by_eye(figures, each, amount_g, party):
        behind = figures.say(", pieces: {n}") if each.piece_g else ", {n}"
        by_eye = filled(behind, n=by_eye)
    mark = raw(figures.say) if each.is_raw_animal else ()
    return (*mark, first, Piece(f" {name}"), *by_eye, *other)


def _potfuls(kit: Kit, meal: PlannedMeal) -> Cell:
    """Give how many times the pot is filled, so that it can follow the number of eaters."""
    rooms = {pot_id: room_ml for pot_id, _, room_ml in kit.pots}
    room_ml = rooms.get(meal.pot or "", 0.0)
    if not meal.potfuls or room_ml <= 0 or meal.cook_in not in _POTTED:
        return ()
    food_g = 0.0 if meal.cook_in == "mug" else sum(each.amount_g for each in meal.ingredients)
    full = (meal.water_ml + FOOD_ROOM_ML_PER_G * food_g) / room_ml
    full = min(max(full, meal.potfuls - 0.99), meal.potfuls)
    scale = Scale("potfuls", number(full), len(meal.eaters), "")
    say = speech_of(kit.language)
    potfuls = say.count("{n} potful", "{n} potfuls", meal.potfuls)
    return (Piece(potfuls, strong=True, scale=scale),)


def _stands_by_step(kit: Kit, figures: Figures, meal: PlannedMeal, day: int) -> Mapping[int, Cell]:
    """Give what is said below a step: how hot it stays, how it soaks."""
    standing = {
        each.minutes: each
        for each in kit.looks.standing
        if (each.day, each.meal, each.title) == (day, meal.meal, meal.title)
    }
    soaks = soaks_of(kit, meal, day)
    found: dict[int, Cell] = {}
    for place, step in enumerate(meal.steps):
        if step.do == "rest" and step.minutes in standing:
            found[place] = _stands(figures, standing[step.minutes])
        elif place in soaks:
            found[place] = soak_said(figures, meal, soaks[place], place == min(soaks))
    for look in of_meal(kit, meal, day, kit.looks.pressure):
        found[look.step] = pressure_said(figures, look)
    return found


def _irons(kit: Kit, figures: Figures, meal: PlannedMeal, day: int) -> Cell:
    """Say how long the irons heat up; that comes before the first press."""
    looks = of_meal(kit, meal, day, kit.looks.irons)
    return iron_said(figures, looks[0]) if looks else ()


def _steps(
    figures: Figures,
    meal: PlannedMeal,
    irons: Cell,
    stands: Mapping[int, Cell],
    boxes: Mapping[int, tuple[Box, ...]],
) -> Iterator[StepLine]:
    """Give the steps; the check of the middle and the pouring away follow the last heat."""
    heated = [place for place, step in enumerate(meal.steps) if step.do in _HEATED]
    last = heated[-1] if heated else len(meal.steps) - 1
    seen: set[str] = set()
    boiled = False
    for place, step in enumerate(meal.steps):
        if step.do == "soak" and step.hot and step.water_ml and not boiled:
            yield _boil_first(figures, meal)
            boiled = True
        line = _step(figures, meal, place, seen)
        as_planned = step.do not in ("soak", "press")
        if step.do == "press" and irons:
            line, irons = replace(line, amounts=(irons, *line.amounts)), ()
        yield replace(line, stands=stands.get(place, ()), as_planned=as_planned, boxes=boxes[place])
        seen.update(each.id for each in step.ingredients)
        if place == last:
            yield from _after_heat(figures, meal)


def _boil_first(figures: Figures, meal: PlannedMeal) -> StepLine:
    """Put the boiling before the first hot soak, of all the water that is poured on hot."""
    water_ml = sum(step.water_ml for step in meal.steps if step.do == "soak" and step.hot)
    water = figures.water(water_ml, len(meal.eaters))
    boil = figures.say(DOINGS["boil", False, False])
    return StepLine((water,), text(boil), (), (), "", "", "")


def _after_heat(figures: Figures, meal: PlannedMeal) -> Iterator[StepLine]:
    say = figures.say
    if meal.reach_c is not None:
        first, *other = figures.least(meal.reach_c)
        least = (replace(first, strong=True), *other)
        more = filled(
            say("At least {temperature} in the thickest part. Less? Cook on."), temperature=least
        )
        yield StepLine((), text(say("Measure the middle.")), more, (), "", "", "")
    if meal.drain_ml:
        away = figures.scaled(meal.drain_ml, "volume_ml", len(meal.eaters))
        more = filled(say("About {water}. Far from stream and lake."), water=away)
        yield StepLine((), text(say("Pour off the water.")), more, (), "", "", "")


def _step(figures: Figures, meal: PlannedMeal, place: int, seen: set[str]) -> StepLine:
    """Give a step; what is in the pot already, or named in the recipe's words, is not repeated."""
    say = figures.say
    step = meal.steps[place]
    names = words.short_names(say, meal.ingredients)
    party = len(meal.eaters)
    parts, scaled = 1, party
    if meal.cook_in == "mug" and party > 1 and step.do != "boil":
        parts, scaled = party, 0  # each fills their own mug
    said = set(_NAMED.findall(step.say))
    amounts = [
        _measure(figures, each, each.amount_g / parts, scaled, names[each.id])
        for each in step.ingredients
        if each.id not in seen | said
    ]
    if step.do == "soak" and step.hot:
        if step.water_ml and (parts > 1 or not _boiled_alone(meal)):
            boiling = say("of the boiling water")
            amounts.append(figures.water(step.water_ml / parts, scaled, boiling))
    elif step.water_ml:
        amounts.append(figures.water(step.water_ml / parts, scaled))
    minutes = figures.plain(step.minutes, "duration_min")
    at_sea = figures.plain(step.minutes_at_sea_level, "duration_min")
    timed = step.minutes or step.each_side_min
    return StepLine(
        tuple(amounts),
        _do(figures, step, Piece(minutes, mark=_lasts(meal, place))),
        _pressed(say, step, party) if step.do == "press" else (),
        _said(figures, meal, step.say, parts, scaled),
        say("{time} at sea level", time=at_sea) if step.minutes and at_sea != minutes else "",
        number(rounded(timed)) if timed >= 0.5 else "",
        figures.plain(timed, "duration_min") if timed else "",
    )


def _stands(figures: Figures, look: Standing) -> Cell:
    """Say how hot the food still is after it has stood, and what to do where that is too little."""
    low, likely, high = (figures.plain(value, "temperature_c") for value in look.bare_c)
    cosy = figures.plain(look.cosy_c[1], "temperature_c")
    said = figures.say(_STILL_HOT[look.lid], likely=likely, low=low, high=high, cosy=cosy)
    if look.bare_c[0] >= HOT_HOLDING_C:
        return text(said)
    wrap = figures.say("Wrap the pot, or eat sooner.")
    return (Piece(wrap, strong=True), Piece(f" {said}"))


def _boiled_alone(meal: PlannedMeal) -> bool:
    """Tell whether the water boiled first is all for one soak, so that it need not be measured."""
    soaks = [step for step in meal.steps if step.do == "soak" and step.hot]
    return len(soaks) == 1 and not any(step.do == "boil" for step in meal.steps)


def _lasts(meal: PlannedMeal, place: int) -> Mark:
    """Mark a step's minutes with those at sea level, and whether they go by the height."""
    at_sea = (("minutes", number(meal.steps[place].minutes_at_sea_level)),)
    by_height = meal.heating is not None and meal.heating.by_height[place]
    return Mark("lasts", (*at_sea, ("by-height", "1")) if by_height else at_sea)


def _do(figures: Figures, step: PlannedStep, minutes: Piece) -> Cell:
    """Give the short imperative of a step."""
    say = figures.say
    time = (minutes,)
    if step.do == "press":
        side = figures.plain(step.each_side_min, "duration_min")
        return text(say("Press {time} on each side.", time=side))
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


def _pressed(say: Speech, step: PlannedStep, party: int) -> Cell:
    """Say how many pieces there are, and how many the irons take at a time."""
    if not step.pieces or not step.presses:
        return ()
    at_a_time = str(math.ceil(step.pieces / step.presses - 1e-9))
    data = (("pieces", number(step.pieces)), ("presses", str(step.presses)))
    return filled(
        say("Pieces: {n}, {some} at a time."),
        n=_count(say, step.pieces, party),
        some=(Piece(at_a_time, mark=Mark("at-once", data)),),
    )


def _count(say: Speech, pieces: float, party: int) -> Cell:
    """Give how many pieces, to the tenth."""
    scale = Scale("count", number(pieces), party, "", step="0.1") if party else None
    return (Piece(worked(say, rounded(pieces, 1)), scale=scale),)


def _said(figures: Figures, meal: PlannedMeal, told: str, parts: int, party: int) -> Cell:
    """Give the recipe's own words, with amount and name in place of each `<id>`."""
    known = {each.id: each for each in meal.ingredients}
    names = words.short_names(figures.say, meal.ingredients)
    pieces: list[Piece] = []
    end = 0
    for match in _NAMED.finditer(told):
        if each := known.get(match[1]):
            pieces.append(Piece(told[end : match.start()]))
            amount_g = each.amount_g / parts
            if each.is_raw_animal:
                pieces += raw(figures.say)
            pieces.append(figures.scaled(amount_g, "mass_g", party, strong=True)[0])
            pieces.append(Piece(f" {names[each.id]}"))
            if by_eye := _by_eye(figures, each, amount_g, party):
                behind = figures.say("(pieces: {n})") if each.piece_g else "({n})"
                pieces += [Piece(" "), *filled(behind, n=by_eye)]
            end = match.end()
    return (*pieces, Piece(told[end:])) if told else ()
