"""How what is cooked in one pot goes onto plates: by need, and in half ladles."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from builder.formulas.serving import own_half_ladles, pot_half_ladles
from builder.model.figure import add, found
from builder.model.kit import Ladles, PlannedMeal
from builder.model.recipe import HEATING
from builder.planning.tracing import count
from builder.record import replace

_METHOD = "the largest remainder first, as far as the pot goes; those alike have alike"
_LADLED_AFTER = ("boil", "simmer", "soak")  # what is fried or baked is no stew
# Shares that differ by less differ by rounding alone.
ALIKE_DIGITS = 9


def shares_by_need(needs_kcal: Mapping[str, float]) -> dict[str, float]:
    """Give each one's share of a common pot, against the mean of all."""
    mean = add(needs_kcal.values()) / len(needs_kcal)
    return {name: need / mean if mean > 0 else 1.0 for name, need in needs_kcal.items()}


def by_need(meal: PlannedMeal, shares: Mapping[str, float]) -> PlannedMeal:
    """Split what is cooked in one pot by need; what is handed out goes in equal parts."""
    if not meal.recipe:
        return meal
    own = [shares[name] for name in meal.eaters]
    whole = add(own)
    return replace(meal, plate_shares=tuple(share / whole for share in own))


def in_ladles(meal: PlannedMeal, ladle_ml: float) -> PlannedMeal:
    """Say of what is cooked in one pot how far a ladle goes."""
    return replace(meal, ladles=_ladles(meal, ladle_ml)) if meal.recipe else meal


def _ladles(meal: PlannedMeal, ladle_ml: float) -> Ladles | None:
    """Share a pot out in half ladles; None where nobody knows how much of what is in it."""
    if not _is_ladled(meal):
        return None
    pot_halves = count(pot_half_ladles, meal.most_ml, meal.drain_ml, ladle_ml)
    own_halves = tuple(
        count(own_half_ladles, pot_halves, share, found(more, "more", _METHOD))
        for share, more in zip(
            meal.plate_shares, more_of(pot_halves, meal.plate_shares), strict=True
        )
    )
    # A pot so small, or a ladle so large, that somebody would go without.
    return Ladles(ladle_ml, pot_halves, own_halves) if all(own_halves) else None


def _is_ladled(meal: PlannedMeal) -> bool:
    """Tell whether several eat a stew out of one pot that is not parted."""
    heated = [step.do for step in meal.steps if step.do in HEATING or step.hot]
    ends_wet = bool(heated) and heated[-1] in _LADLED_AFTER
    is_whole = meal.parting is None and meal.begins_in is None
    return meal.cook_in == "pot" and ends_wet and is_whole and len(meal.eaters) > 1


def more_of(pot_halves: int, shares: Sequence[float]) -> tuple[int, ...]:
    """Tell who has a half ladle more than their share rounded down: 0 or 1 for each.

    Whose share lost most by it comes first. Those who lost alike all have more, or none of them:
    the pot never gives more than it holds, and what is left goes round.
    """
    exact = [round(pot_halves * float(share), ALIKE_DIGITS) for share in shares]
    left = pot_halves - sum(map(int, exact))
    more = [0] * len(shares)
    for _, alike in groupby(_most_cut_first(exact), key=lambda place: exact[place] % 1):
        places = list(alike)
        if len(places) > left:
            break
        left -= len(places)
        for place in places:
            more[place] = 1
    return tuple(more)


def _most_cut_first(exact: Sequence[float]) -> Iterator[int]:
    """Go through the places of those whose share rounding down cuts, the most cut first."""
    cut = (place for place, each in enumerate(exact) if each % 1)
    yield from sorted(cut, key=lambda place: (-(exact[place] % 1), place))
