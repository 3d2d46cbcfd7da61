"""How a common pot is shared out: in ladles, or in percent where nobody knows what it holds."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import Ladles, PlannedMeal
from builder.pages.figures import Figures
from builder.planning.menu import ALIKE_DIGITS, more_of
from builder.units import in_halves, rounded


def are_uneven(figures: Figures, meal: PlannedMeal) -> bool:
    """Tell whether plates differ so far that their shares are told; a mug is one's own."""
    shown = {figures.percent(share) for share in meal.plate_shares}
    return meal.cook_in != "mug" and len(shown) > 1


def plates(figures: Figures, meal: PlannedMeal) -> str:
    """Say who gets how much, the least first, those who get alike together; "" for nothing to say.

    Ladles are told also where all get alike: nobody else knows how far the pot goes.
    """
    if meal.ladles:
        return _in_ladles(figures, meal, meal.ladles)
    if not are_uneven(figures, meal):
        return ""
    if in_pieces := _in_pieces(figures, meal):
        return in_pieces
    amounts = list(map(figures.percent, meal.plate_shares))
    who = _told(figures, meal, meal.plate_shares, amounts)
    return figures.say("Share it out: {who}.", who=who)


def _in_ladles(figures: Figures, meal: PlannedMeal, ladles: Ladles) -> str:
    say = figures.say
    amounts = [
        f"{say.ladles(halves)} ({figures.plain(halves * ladles.ladle_ml / 2, 'volume_ml')})"
        for halves in ladles.own_halves
    ]
    if len(set(amounts)) == 1:
        who = say("{amount} each", amount=amounts[0])
    else:
        who = _told(figures, meal, ladles.own_halves, amounts)
    return say(
        "Share it out: {who}. A full ladle is about {full}; what is left goes round.",
        who=who,
        full=figures.plain(ladles.ladle_ml, "volume_ml"),
    )


def _in_pieces(figures: Figures, meal: PlannedMeal) -> str:
    """Say who gets how many halves of what was pressed: in percent nobody can share out bread."""
    pressed = [step.pieces for step in meal.steps if step.do == "press"]
    if len(pressed) != 1:
        return ""
    halves = int(rounded(2 * pressed[0], ALIKE_DIGITS))
    more = more_of(halves, meal.plate_shares)
    own = [
        int(rounded(halves * share, ALIKE_DIGITS)) + one
        for share, one in zip(meal.plate_shares, more, strict=True)
    ]
    if not all(own):
        return ""
    who = _told(figures, meal, own, [figures.say.signs(in_halves(each)) for each in own])
    return figures.say("Share out the pieces: {who}.", who=who)


def _told(
    figures: Figures, meal: PlannedMeal, sizes: Sequence[float], amounts: Sequence[str]
) -> str:
    """Give names with their amounts: `Ash 2 ladles; Bo and Cim 3 ladles each`."""
    say = figures.say
    by_amount: dict[str, list[str]] = {}
    for place in sorted(range(len(sizes)), key=lambda place: sizes[place]):
        by_amount.setdefault(amounts[place], []).append(meal.eaters[place])
    return "; ".join(
        f"{names[0]} {amount}"
        if len(names) == 1
        else say("{names} {amount} each", names=say.listed(names), amount=amount)
        for amount, names in by_amount.items()
    )


def energy_of_each(figures: Figures, meal: PlannedMeal) -> str:
    """Say about how much energy a plate holds: the least and the most where plates differ."""
    energy_kcal, say = meal.nutrition.energy_kcal, figures.say
    if not are_uneven(figures, meal):
        each = figures.plain(energy_kcal / len(meal.eaters), "energy_kcal")
        return say("About {energy} each.", energy=each)
    return say(
        "About {low} to {high} each.",
        low=figures.plain(energy_kcal * min(meal.plate_shares), "energy_kcal"),
        high=figures.plain(energy_kcal * max(meal.plate_shares), "energy_kcal"),
    )
