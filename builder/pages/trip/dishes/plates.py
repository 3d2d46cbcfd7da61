"""How a common pot is shared out: told in shares where they differ, not as a mean for each."""

from __future__ import annotations

from builder.model.kit import PlannedMeal
from builder.pages.figures import Figures
from builder.pages.pieces import Table, table, text


def are_uneven(figures: Figures, meal: PlannedMeal) -> bool:
    """Tell whether plates differ so far that their shares are told; a mug is one's own."""
    shown = {figures.percent(share) for share in meal.plate_shares}
    return meal.cook_in != "mug" and len(shown) > 1


def plates(figures: Figures, meal: PlannedMeal) -> Table | None:
    """Say who gets how much, where the shares differ."""
    if not are_uneven(figures, meal):
        return None
    rows = [
        (text(name), text(figures.percent(share)))
        for name, share in zip(meal.eaters, meal.plate_shares, strict=True)
    ]
    return table((figures.say("Who"), figures.say("Share")), rows, "lr")


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
