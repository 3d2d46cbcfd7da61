"""Cooks a recipe in one pot, for this party at this height."""

from __future__ import annotations

from builder.model.figure import counted
from builder.model.kit import Conditions
from builder.planning.cooking.cooked import Cooked
from builder.planning.cooking.hearth import Hearth
from builder.planning.cooking.heating import heated
from builder.planning.cooking.walking import PotState, Share, walked


def cook(
    share: Share,
    conditions: Conditions,
    hearth: Hearth,
    *,
    has_embers: bool = False,
) -> Cooked:
    """Cook a recipe for those who eat of it: water, potfuls, presses, heat, minutes.

    Where another dish of the same meal `has_embers`, they are not made a second time.
    """
    state = PotState()
    steps = tuple(walked(state, share, conditions, hearth))
    fires = counted(0 if has_embers else 1, "fires")
    return heated(share.recipe, state, steps, conditions, hearth, fires=fires)
