"""How a common pot is shared out: in ladles, or in percent where nobody knows what it holds."""

from __future__ import annotations

from builder.model.kit import Ladles, PlannedMeal
from builder.pages.figures import Figures


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
    shares = zip(meal.plate_shares, meal.eaters, strict=True)
    by_share: dict[str, list[str]] = {}
    for share, name in sorted(shares, key=lambda each: each[0]):
        by_share.setdefault(figures.percent(share), []).append(name)
    say = figures.say
    return say("Share it out: {who}.", who=_told(figures, by_share))


def _in_ladles(figures: Figures, meal: PlannedMeal, ladles: Ladles) -> str:
    say = figures.say
    full = figures.plain(ladles.ladle_ml, "volume_ml")
    by_halves: dict[int, list[str]] = {}
    for name, halves in zip(meal.eaters, ladles.own_halves, strict=True):
        by_halves.setdefault(halves, []).append(name)
    amounts: dict[str, list[str]] = {}
    for halves, names in sorted(by_halves.items()):
        volume = figures.plain(halves * ladles.ladle_ml / 2, "volume_ml")
        amounts[f"{say.ladles(halves)} ({volume})"] = names
    if len(amounts) == 1:
        (amount,) = amounts
        who = say("{amount} each", amount=amount)
    else:
        who = _told(figures, amounts)
    return say(
        "Share it out: {who}. A full ladle is about {full}; what is left goes round.",
        who=who,
        full=full,
    )


def _told(figures: Figures, by_amount: dict[str, list[str]]) -> str:
    """Give names with their amounts: `Ash 2 ladles; Bo and Cim 3 ladles each`."""
    say = figures.say
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
