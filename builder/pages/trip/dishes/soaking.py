"""What a step says besides its doing: soaking, standing wet, a bottle, irons, pressure."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.rehydration import COLD_UP_TO_C
from builder.model.kit import PlannedMeal
from builder.model.looks import IronHeat, Soaking, Span, UnderPressure
from builder.model.recipe import HEATING
from builder.pages.figures import Figures
from builder.pages.pieces import Cell, Piece, text
from builder.speech import Speech, later
from builder.units import rounded

# By what comes after: hot water, cold water and then heat, cold water alone.
_USUALLY = {
    "hot": later("{food}: usually {time} in boiling water. Still hard? Wait longer, lid on."),
    "cooked": later("{food}: usually {time} in cold water. Cooking softens what is still hard."),
    "cold": later("{food}: usually {time} in cold water. Still hard? Wait longer."),
}
# The same where that takes longer than wet food may stand.
_USUALLY_TOO_LONG = {
    "cooked": later("{food}: cooking softens what is still hard."),
    "cold": later(
        "{food}: usually {time} in cold water. Still hard after {limit}? Pour boiling water on it."
    ),
}


def soak_said(figures: Figures, meal: PlannedMeal, place: int, look: Soaking) -> Cell:
    """Say how long soaking usually takes; at the first one also how to begin and how to stand."""
    is_first = not any(step.soaking for step in meal.steps[:place])
    said: list[str] = []
    if look.usual_min:
        said.append(_usually_said(figures, look, look.usual_min, _ends(meal, place)))
    if is_first and not meal.steps[place].hot:
        said.append(_standing_said(figures, look))
    if not (is_first and look.in_bottle):
        return text(" ".join(said)) if said else ()
    bottle = figures.say("On the way: soak it in a bottle that closes tight, and walk on.")
    return (Piece(bottle, strong=True), Piece(" "), *text(" ".join(said)))


def _usually_said(figures: Figures, look: Soaking, usual_min: Span, ends: str) -> str:
    time = figures.span(*usual_min, "duration_min")
    limit_h = None if look.overnight else look.stands_h
    if ends == "hot" or limit_h is None or usual_min[1] <= limit_h * 60:
        return figures.say(_USUALLY[ends], food=look.slowest, time=time)
    limit = figures.plain(limit_h, "hours")
    return figures.say(_USUALLY_TOO_LONG[ends], food=look.slowest, time=time, limit=limit)


def _standing_said(figures: Figures, look: Soaking) -> str:
    """Say one thing of how long it may stand, never two that cannot both be done."""
    say = figures.say
    cold = figures.plain(COLD_UP_TO_C, "temperature_c")
    if look.overnight:
        return say("It may soak overnight, cool and covered, because it is boiled afterwards.")
    if look.stands_h is None:
        return say("Wet, it keeps only as long as it stays at {cold} or colder.", cold=cold)
    time = figures.plain(look.stands_h, "hours")
    if look.too_long:
        return say(
            "That is longer than it may stand wet here ({time}): pour boiling water on it "
            "instead, or keep it at {cold} or colder.",
            time=time,
            cold=cold,
        )
    return say(
        "Once it is wet, eat it within {time}, or keep it at {cold} or colder.",
        time=time,
        cold=cold,
    )


def _ends(meal: PlannedMeal, place: int) -> str:
    if meal.steps[place].hot:
        return "hot"
    after = meal.steps[place + 1 :]
    return "cooked" if any(step.do in HEATING or step.hot for step in after) else "cold"


def irons_heat(figures: Figures, look: IronHeat) -> tuple[Cell, Cell]:
    """Say how long the irons heat up, and what a press in cold ones takes."""
    say = figures.say
    heats = minutes_between(say, look.heats_min)
    cold = minutes_between(say, look.cold_press_min)
    return (
        text(say("Heat the empty irons on the embers: {time}.", time=heats)),
        text(say("In cold ones the first round takes {time}.", time=cold)),
    )


def pressure_said(figures: Figures, look: UnderPressure) -> Cell:
    """Say how long a simmer takes once the lid of a pressure cooker is locked."""
    said = figures.say(
        "In the pressure cooker it boils at {temperature}: lid locked, about {time} from when it "
        "is at pressure, between {low} and {high}. Fill it half at most; beans and grain foam.",
        temperature=figures.plain(look.boils_c, "temperature_c"),
        time=figures.plain(look.minutes, "duration_min"),
        low=figures.plain(look.likely_min[0], "duration_min"),
        high=figures.plain(look.likely_min[1], "duration_min"),
    )
    return text(said)


def irons_heat_in(figures: Figures, looks: Sequence[IronHeat]) -> str:
    """Say how long the irons of a mealtime heat up; "" where nobody knows."""
    if not looks:
        return ""
    spans = [each.heats_min for each in looks]
    time = minutes_between(
        figures.say, (min(low for low, _ in spans), max(high for _, high in spans))
    )
    return figures.say("They take {time}, so lay them in early.", time=time)


def minutes_between(say: Speech, span: Span) -> str:
    """Give a range in whole minutes: it is no more than a guess."""
    low, high = (rounded(end) for end in span)
    return say("{low} to {high}", low=say.number(low), high=say.show(high, "duration_min"))
