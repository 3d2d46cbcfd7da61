"""The steps of a recipe as lines to tick off: what to measure, then what to do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.formulas.cooling import HOT_HOLDING_C
from builder.formulas.heat import whole_units
from builder.model.figure import add
from builder.model.kit import PlannedMeal, PlannedStep
from builder.model.looks import KeepsHot
from builder.pages import words
from builder.pages.figures import Figures, number
from builder.pages.pictures import Shown, shown
from builder.pages.pieces import Cell, Piece, Scale, filled, text
from builder.pages.trip.cautions import Box
from builder.pages.trip.dishes.amounts import (
    ids_named,
    ids_of,
    measure,
    part,
    pieces_said,
    recipe_said,
)
from builder.pages.trip.dishes.baking import bake_said, embers_said
from builder.pages.trip.dishes.drawings import (
    Drawing,
    Drawings,
    drawn_at_step,
    hot_iron_drawn,
    not_yet,
    turning_drawn,
)
from builder.pages.trip.dishes.parted import begins_said, for_all_in_pot, taken_out_said
from builder.pages.trip.dishes.safe_water import stays_unboiled
from builder.pages.trip.dishes.soaking import irons_heat, pressure_said, soak_said
from builder.planning.cooking import measured_after, poured_off_after
from builder.planning.tracing import count
from builder.record import dataclass, replace
from builder.speech import Speech, later
from builder.units import rounded

_BROTH = later("The food takes up about {taken}. What is left, {left}: drink it too.")
_GOES_ON = later("The food takes up about {taken}. What is left, {left}, goes into the dish.")
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

    do: Cell
    amounts: tuple[Cell, ...] = ()
    more: Cell = ()  # what belongs to it
    say: Cell = ()
    sea_level: str = ""
    timer: str = ""  # whole minutes, "" where there is nothing to wait for
    timer_says: str = ""
    stands: Cell = ()  # how it stands or soaks
    as_planned: bool = False  # whether `stands` holds for the planned eaters and height only
    boxes: tuple[Box, ...] = ()  # cautions that one must act on here
    drawings: Drawings = ()
    picture: Shown | None = None


def steps_of(
    figures: Figures,
    meal: PlannedMeal,
    at: str,
    stands: Mapping[int, Cell],
    *,
    boxes: Mapping[int, tuple[Box, ...]],
) -> Iterator[StepLine]:
    """Give the steps; the check of the middle and the pouring away follow the last heat."""
    measured, poured_off = measured_after(meal.steps), poured_off_after(meal.steps)
    seen: set[str] = set()
    drawn: set[Drawing] = set()
    boiled = False
    if meal.begins_in is not None:
        yield _only_said(begins_said(figures, meal.begins_in))
    for place, step in enumerate(meal.steps):
        if step.together and meal.begins_in is not None:
            seen.update(each.id for each in step.ingredients)
            continue
        if meal.parting and meal.parting.before_step == place:
            yield _only_said(taken_out_said(figures, meal.parting))
        if step.do == "soak" and step.hot and step.water_ml and not boiled:
            yield _boil_first(figures, meal, at)
            boiled = True
        line = _step(figures, meal, at, place, seen)
        as_planned = step.do not in ("soak", "press")
        if step.do == "press":
            yield _irons_hot(figures, meal)
        drawings = not_yet(drawn, drawn_at_step(figures, meal, step))
        yield replace(
            line,
            stands=stands.get(place, ()),
            as_planned=as_planned,
            boxes=boxes[place],
            drawings=drawings,
            picture=shown(step.picture),
        )
        if step.do == "press":
            yield from _rounds(figures, step)
        seen.update(each.id for each in step.ingredients)
        if place == measured:
            yield from _measured(figures, meal)
        if place == poured_off:
            yield from _poured_off(figures, meal, at)


def _only_said(says: str) -> StepLine:
    """Give a line that says all there is to do."""
    return StepLine(text(says))


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


def _irons_hot(figures: Figures, meal: PlannedMeal) -> StepLine:
    """Put the heating of the irons before the first round, with the test that they are hot."""
    say = figures.say
    # Common practice, no source.
    test = text(say("Hot enough: a drop of water dances on them."))
    heat: Cell = text(say("Heat the empty irons on the embers."))
    cold: Cell = ()
    if meal.irons is not None:
        heat, cold = irons_heat(figures, meal.irons)
    return StepLine(heat, more=test, say=cold, drawings=hot_iron_drawn(say))


def _rounds(figures: Figures, step: PlannedStep) -> Iterator[StepLine]:
    """Put the other side behind the first, and the next round behind both."""
    say = figures.say
    side = figures.plain(step.each_side_min, "duration_min")
    timer = number(rounded(step.each_side_min)) if step.each_side_min else ""
    turn = text(say("Turn the irons. Other side: {time}.", time=side))
    timer_says = side if timer else ""
    yield StepLine(turn, timer=timer, timer_says=timer_says, drawings=turning_drawn(say))
    again = text(say("Take out what is done. Fill again, until all is cooked."))
    if step.presses > 1:
        yield StepLine(again)


def _boil_first(figures: Figures, meal: PlannedMeal, at: str) -> StepLine:
    """Put the boiling before the first hot soak, of all the water that is poured on hot."""
    water_ml = add(step.water_ml for step in meal.steps if step.do == "soak" and step.hot)
    water = figures.water(water_ml, f"{at}.hot_soak_ml")
    boil = figures.say(DOINGS["boil", False, False])
    return StepLine(text(boil), (water,))


def _measured(figures: Figures, meal: PlannedMeal) -> Iterator[StepLine]:
    say = figures.say
    if meal.reach_c is not None:
        first, *other = figures.least(meal.reach_c)
        least = (replace(first, strong=True), *other)
        more = filled(
            say("At least {temperature} in the thickest part. Less? Cook on."), temperature=least
        )
        yield StepLine(text(say("Measure the middle.")), more=more)


def _poured_off(figures: Figures, meal: PlannedMeal, at: str) -> Iterator[StepLine]:
    say = figures.say
    if meal.drain_ml:
        away = figures.scaled(meal.drain_ml, "volume_ml", f"{at}.drain_ml")
        more = filled(say("About {water}. Far from stream and lake."), water=away)
        yield StepLine(text(say("Pour off the water.")), more=more)


def _step(figures: Figures, meal: PlannedMeal, at: str, place: int, seen: set[str]) -> StepLine:
    """Give a step; what is in the pot already, or named in the recipe's words, is not repeated."""
    say = figures.say
    step = meal.steps[place]
    meal = for_all_in_pot(meal, step)
    names = words.short_names(say, meal.ingredients)
    party = len(meal.eaters)
    # Each fills their own mug, whoever else eats.
    parts = party if meal.cook_in == "mug" and party > 1 and step.do != "boil" else 1
    ids = {} if parts > 1 else ids_of(meal, at)
    if step.together:  # for all in the pot
        ids = {
            each.id: f"{at}.steps.{place}.in_pot.{nth}" for nth, each in enumerate(step.ingredients)
        }
    said = ids_named(step.say)
    amounts = [
        measure(figures, each, part(each.amount_g, parts), ids.get(each.id, ""), names[each.id])
        for each in step.ingredients
        if each.id not in seen | said
    ]
    poured = "" if parts > 1 else f"{at}.steps.{place}.water_ml"
    if step.do == "soak" and step.hot:
        if step.water_ml and (parts > 1 or not _boiled_alone(meal)):
            boiling = say("of the boiling water")
            amounts.append(figures.water(part(step.water_ml, parts), poured, boiling))
    elif step.water_ml:
        safe = say("treated water") if stays_unboiled(meal, place) else ""
        amounts.append(figures.water(part(step.water_ml, parts), poured, safe))
    minutes = figures.plain(step.minutes, "duration_min")
    at_sea = figures.plain(step.minutes_at_sea_level, "duration_min")
    timed = step.minutes or step.each_side_min
    lasts = Scale("min", step.minutes, f"{at}.steps.{place}.minutes", name="lasts")
    return StepLine(
        _do(figures, step, Piece(minutes, scale=lasts)),
        tuple(amounts),
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
        return figures.scaled(part(volume_ml, parts), "volume_ml", figure)[:1]

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


def _do(figures: Figures, step: PlannedStep, minutes: Piece) -> Cell:
    """Give the short imperative of a step."""
    say = figures.say
    time = (minutes,)
    if step.do == "press":
        side = figures.plain(step.each_side_min, "duration_min")
        return text(say("Fill the irons and close them. First side: {time}.", time=side))
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
        n=pieces_said(say, step.pieces, f"{id_}.pieces"),
        some=(Piece(str(at_a_time), scale=scale),),
    )
