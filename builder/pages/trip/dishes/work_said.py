"""What is to be done in one step of the order of work, said in a sentence or two."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.model.kit import Kit, KitDay, OrderOfWork, PlannedMeal, WorkStep
from builder.pages import words
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import words_of
from builder.pages.trip.dishes.amounts import amount_inside, ids_named
from builder.pages.trip.dishes.baking import bake_said, embers_said
from builder.pages.trip.dishes.parted import for_all_in_pot, taken_out_said
from builder.pages.trip.dishes.recipe_steps import DOINGS, LET_STAND, STEEP
from builder.pages.trip.dishes.safe_water import pours_unboiled
from builder.pages.trip.dishes.soaking import irons_heat_in
from builder.speech import Speech, later
from builder.units import rounded

_PART_BOILS = {
    2: later("Potful {n} of {potfuls}, with half of everything."),
    3: later("Potful {n} of {potfuls}, with a third of everything."),
}
# The same where amounts are told for one potful, and something was soaked for all of them.
_PART_READY = {
    2: later("Potful {n} of {potfuls}. Put in half of what you have ready."),
    3: later("Potful {n} of {potfuls}. Put in a third of what you have ready."),
}
_READY = {
    "pot": later("Ready. Keep it warm, lid on: {time}."),
    "iron": later("Ready. Keep it warm beside the embers: {time}."),
    "mug": later("Ready. Eat or drink it now, or cover the mugs: {time}."),
}
# Soaking in cold water: whether it is said what, whether in how much, whether with the lid on.
_SOAKS = {
    (False, False, False): later("Soak: {time}."),
    (False, False, True): later("Soak: {time}, lid on."),
    (True, False, False): later("Soak {food}: {time}."),
    (True, False, True): later("Soak {food}: {time}, lid on."),
    (False, True, False): later("Soak in {water}: {time}."),
    (False, True, True): later("Soak in {water}: {time}, lid on."),
    (True, True, False): later("Soak {food} in {water}: {time}."),
    (True, True, True): later("Soak {food} in {water}: {time}, lid on."),
}
# Whether stirring, whether with the lid on.
_WATER_BOILS = {
    (False, False): later("Bring {water} to the boil."),
    (True, False): later("Bring {water} to the boil, stirring."),
    (False, True): later("Bring {water} to the boil, lid on."),
    (True, True): later("Bring {water} to the boil, stirring, lid on."),
}
_IT_BOILS = {
    (False, False): later("Bring it to the boil."),
    (True, False): later("Bring it to the boil, stirring."),
    (False, True): later("Bring it to the boil, lid on."),
    (True, True): later("Bring it to the boil, stirring, lid on."),
}
_BOILS_IN_TURN = {
    (False, False): later("Bring to the boil, in {potfuls}."),
    (True, False): later("Bring to the boil, in {potfuls}, stirring."),
    (False, True): later("Bring to the boil, in {potfuls}, lid on."),
    (True, True): later("Bring to the boil, in {potfuls}, stirring, lid on."),
}
_WATER_BOILS_IN_TURN = {
    (False, False): later("Bring {water} to the boil, in {potfuls}."),
    (True, False): later("Bring {water} to the boil, in {potfuls}, stirring."),
    (False, True): later("Bring {water} to the boil, in {potfuls}, lid on."),
    (True, True): later("Bring {water} to the boil, in {potfuls}, stirring, lid on."),
}
_IT_BOILS_IN_TURN = {
    (False, False): later("Bring it to the boil, in {potfuls}."),
    (True, False): later("Bring it to the boil, in {potfuls}, stirring."),
    (False, True): later("Bring it to the boil, in {potfuls}, lid on."),
    (True, True): later("Bring it to the boil, in {potfuls}, stirring, lid on."),
}


def what(
    kit: Kit, day: KitDay, order: OrderOfWork, step: WorkStep, *, measured: bool = False
) -> str:
    """Say what to do, in short imperatives; what goes in with its amount where it is measured."""
    figures = figures_of(kit)
    say = figures.say
    said = _at_fire(figures, day, order, step) if step.place is None else ""
    if step.place is not None:
        meal = day.meals[step.place]
        names = words.short_names(say, meal.ingredients)
        told: frozenset[str] = frozenset()
        if measured:
            names = _measured(figures, meal, step, names)
            told = _told_by_recipe(meal, step)
        into = [names[each] for each in step.ingredients if each not in told]
        if measured and into and parts_of(meal, step) > 1 and not step.potful:
            into = [say("{food} in each mug", food=say.listed(into))]
        said = _said(figures, meal, step, into)
        if measured and step.do == "serve" and _words_of_recipe(meal, step):
            # The recipe's own words tell how; they follow.
            said = _after(_add(say, into), say("Serve."))
        if _melts_before(day, order, step):
            said = f"{say('Melt snow.')} {said}"
    if step.potful:
        said = f"{_which_potful(say, order, step, measured)} {said}"
    return f"{say('Empty the pot.')} {said}" if step.empty_first else said


def _melts_before(day: KitDay, order: OrderOfWork, step: WorkStep) -> bool:
    """Tell whether cold water is poured for which no snow was melted before."""
    pours_cold = step.do in ("soak", "mix") and not step.hot and step.water_ml > 0
    if not pours_cold or step.place is None:
        return False
    if day.meals[step.place].conditions.water_source != "snow":
        return False
    return not any(each.do in ("melt", "make-safe") for each in _before_it(order, step))


def _before_it(order: OrderOfWork, step: WorkStep) -> Sequence[WorkStep]:
    return order.steps[: order.steps.index(step)]


def parts_of(meal: PlannedMeal, step: WorkStep) -> int:
    """Tell into how many equal parts a dish is divided where a step is done: potfuls, or mugs."""
    if step.potful:
        return step.potfuls
    return len(meal.eaters) if meal.cook_in == "mug" and step.do != "boil" else 1


def _words_of_recipe(meal: PlannedMeal, step: WorkStep) -> str:
    return meal.steps[step.step].say if step.step is not None else ""


def _told_by_recipe(meal: PlannedMeal, step: WorkStep) -> frozenset[str]:
    """Give what the recipe's own words name, with its amount; nobody needs to be told twice."""
    return ids_named(_words_of_recipe(meal, step))


def _measured(
    figures: Figures, meal: PlannedMeal, step: WorkStep, names: Mapping[str, str]
) -> dict[str, str]:
    """Name what goes in by how much of it: by weight, and by pieces, mugs or spoons."""
    parts = parts_of(meal, step)
    if step.step is not None:
        meal = for_all_in_pot(meal, meal.steps[step.step])
    named = _told_by_recipe(meal, step)
    found = dict(names)
    for each in meal.ingredients:
        if each.id not in step.ingredients or each.id in named:
            continue
        amount_g = each.amount_g if parts == 1 else each.amount_g / parts
        found[each.id] = "".join(
            piece.text for piece in amount_inside(figures, each, amount_g, "", names[each.id])
        )
    return found


def _which_potful(say: Speech, order: OrderOfWork, step: WorkStep, measured: bool) -> str:
    told = later("Potful {n} of {potfuls}.")
    if step.do == "boil" and measured:
        before = _before_it(order, step)
        if any(each.place == step.place and not each.potful for each in before):
            told = _PART_READY.get(
                step.potfuls,
                later("Potful {n} of {potfuls}. Put in 1/{potfuls} of what you have ready."),
            )
    elif step.do == "boil":
        told = _PART_BOILS.get(
            step.potfuls, later("Potful {n} of {potfuls}, with 1/{potfuls} of everything.")
        )
    return say(told, n=step.potful, potfuls=step.potfuls)


def _at_fire(figures: Figures, day: KitDay, order: OrderOfWork, step: WorkStep) -> str:
    say = figures.say
    if step.do == "preheat":
        pressed = {
            each.place for each in order.steps if each.do == "press" and each.place is not None
        }
        irons = [look for place in sorted(pressed) if (look := day.meals[place].irons)]
        lay = say("Lay the irons on the embers to get hot.")
        # Common practice, no source.
        test = say("Hot enough: a drop of water dances on them.")
        return _after(lay, irons_heat_in(figures, irons), test)
    minutes = minutes_said(figures, step.minutes)
    if step.do in ("melt", "make-safe"):
        return _camp_water(figures, step, minutes)
    if any(each.do in ("press", "bake") for each in order.steps):
        return say("Light the fire, or feed the one you have. Embers take {time}.", time=minutes)
    return say("Light the fire, or feed the one you have. Flames take {time}.", time=minutes)


def _camp_water(figures: Figures, step: WorkStep, minutes: str) -> str:
    """Say how much water is melted or boiled for the camp, and how long it takes."""
    say = figures.say
    water = _water(figures, step.water_ml)
    potfuls = say.count("{n} potful", "{n} potfuls", step.potfuls)
    several = step.potfuls > 1
    if step.do == "melt":
        told = later("Melt snow to {water}. About {time}.")
        if several:
            told = later("Melt snow to {water}, in {potfuls}. About {time}.")
        return say(told, water=water, potfuls=potfuls, time=minutes)
    told = later("Boil {water} to drink and to soak with, {hold} at a full boil. About {time}.")
    if several:
        told = later(
            "Boil {water} to drink and to soak with, in {potfuls}, each {hold} at a full boil. "
            "About {time}."
        )
    hold = minutes_said(figures, step.hold_min)
    return say(told, water=water, potfuls=potfuls, hold=hold, time=minutes)


def _said(figures: Figures, meal: PlannedMeal, step: WorkStep, into: Sequence[str]) -> str:
    say = figures.say
    food = say.listed(into)
    minutes = figures.plain(step.minutes, "duration_min")
    if step.do == "soak":
        return _soak(figures, meal, step, food, minutes)
    if step.do == "boil":
        return _boil(figures, meal, step, into)
    if step.do == "press":
        return _press(figures, step, food)
    if step.do == "bake" and step.step is not None:
        baked = meal.steps[step.step]
        how = bake_said(figures, baked), embers_said(figures, baked)
        return _after(_add(say, into), *how)
    if step.do == "measure":
        least = figures.least(meal.reach_c or 0.0)[0].text
        return say("Measure the middle: at least {temperature}.", temperature=least)
    if step.do == "keep":
        waits = minutes_said(figures, step.minutes)
        if step.frees and meal.cook_in == "mug":
            return say("Ready. Eat or drink it now: the mugs are filled again.")
        if step.frees:
            return say(
                "Ready. Put it in bowls and cover them: the pot is needed. It waits {time}.",
                time=waits,
            )
        return say(_READY.get(meal.cook_in or "", later("Ready. Cover it: {time}.")), time=waits)
    if step.do == "part" and meal.parting:
        return taken_out_said(figures, meal.parting)
    if step.do == "hold":
        return say("Boil hard {time}.", time=minutes)
    if step.do == "drain":
        return say("Pour off the water.")
    if step.do in ("mix", "serve"):
        return _by_hand(figures, meal, step, into)
    doing = DOINGS.get((step.do, step.stir, step.lid), LET_STAND[step.lid])
    if step.do == "rest" and steeps(meal, step):
        doing = STEEP[step.lid]
    return _after(_add(say, into), say(doing, time=minutes))


def _water(figures: Figures, volume_ml: float, is_treated: bool = False) -> str:
    """Give water to measure, in the trip's units and mugs."""
    if not volume_ml:
        return ""
    volume = figures.plain(volume_ml, "volume_ml")
    in_mugs = words_of(figures.spooned(volume_ml, ""))
    if is_treated and in_mugs:
        return figures.say("{volume} treated water ({mugs})", volume=volume, mugs=in_mugs)
    if is_treated:
        return figures.say("{volume} treated water", volume=volume)
    if in_mugs:
        return figures.say("{volume} water ({mugs})", volume=volume, mugs=in_mugs)
    return figures.say("{volume} water", volume=volume)


def _add(say: Speech, into: Sequence[str]) -> str:
    """Say what is added; "" for nothing."""
    return say("Add {what}.", what=say.listed(into)) if into else ""


def _with(water: str, into: Sequence[str]) -> Sequence[str]:
    """Put the water, where there is some, before all else that goes in."""
    return (water, *into) if water else into


def _after(*sentences: str) -> str:
    """Give sentences one after the other; those that say nothing are left out."""
    return " ".join(filter(None, sentences))


def steeps(meal: PlannedMeal, step: WorkStep) -> bool:
    """Tell whether only leaves go in, which hot water draws out."""
    into = [each for each in meal.ingredients if each.id in step.ingredients]
    return bool(into) and all(each.steeps for each in into)


def _soak(figures: Figures, meal: PlannedMeal, step: WorkStep, food: str, minutes: str) -> str:
    say = figures.say
    if step.hot:
        pour = say("Pour on the boiling water.")
        if food:
            pour = say("Pour the boiling water onto {food}.", food=food)
        told = STEEP[step.lid] if steeps(meal, step) else DOINGS["soak", False, step.lid]
        return _after(pour, say(told, time=minutes))
    water = _water(figures, step.water_ml, pours_unboiled(meal, step))
    told = _SOAKS[bool(food), bool(water), step.lid]
    return say(told, food=food, water=water, time=minutes)


def _boil(figures: Figures, meal: PlannedMeal, step: WorkStep, into: Sequence[str]) -> str:
    say = figures.say
    melts = meal.conditions.water_source == "snow" and step.water_ml
    water = _water(figures, step.water_ml)
    return _after(
        say("Melt snow.") if melts else "",
        _add(say, _with(water, into)) if into else "",
        _to_the_boil(say, step, water, bool(into)),
        say("About {time}.", time=minutes_said(figures, step.minutes)) if step.minutes >= 1 else "",
    )


def _to_the_boil(say: Speech, step: WorkStep, water: str, has_added: bool) -> str:
    """Say what is brought to the boil, and how; what was just added is not told again."""
    how = (step.stir, step.lid)
    if not step.potful and step.potfuls > 1:
        potfuls = say.count("{n} potful", "{n} potfuls", step.potfuls)
        if has_added:
            return say(_BOILS_IN_TURN[how], potfuls=potfuls)
        if water:
            return say(_WATER_BOILS_IN_TURN[how], water=water, potfuls=potfuls)
        return say(_IT_BOILS_IN_TURN[how], potfuls=potfuls)
    if has_added:
        return say(DOINGS["boil", *how])
    return say(_WATER_BOILS[how], water=water) if water else say(_IT_BOILS[how])


def _press(figures: Figures, step: WorkStep, food: str) -> str:
    say = figures.say
    side = figures.plain(step.each_side_min, "duration_min")
    press = say("Press {time} on each side.", time=side)
    if step.presses > 1:
        press = say(
            "Press {time} on each side, {n} times, one after the other.", time=side, n=step.presses
        )
    return _after(say("Take {food}.", food=food) if food else "", press)


def _by_hand(figures: Figures, meal: PlannedMeal, step: WorkStep, into: Sequence[str]) -> str:
    say = figures.say
    into = _with(_water(figures, step.water_ml, pours_unboiled(meal, step)), into)
    if step.do == "serve":
        out = say("Hand round.") if meal.cook_in == "mug" else say("Share out.")
        return _after(_add(say, into), out)
    return say("Mix in {what}.", what=say.listed(into)) if into else say("Mix.")


def minutes_said(figures: Figures, minutes: float) -> str:
    """Give whole minutes, as a sentence tells them."""
    return figures.plain(rounded(minutes), "duration_min")
