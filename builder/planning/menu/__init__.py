"""Who eats what: meals as this party eats them."""

from __future__ import annotations

from builder.planning.menu.avoided import avoided_how, avoided_said
from builder.planning.menu.bought import Bought, bought
from builder.planning.menu.fed import (
    LEAST_OF_DAY_SHARE,
    eaten,
    eaten_kcal,
    left_out,
    plate_share,
)
from builder.planning.menu.menu import MenuItem, plan_menu
from builder.planning.menu.parting import parted, with_parts
from builder.planning.menu.plates import ALIKE_DIGITS, by_need, in_ladles, more_of, shares_by_need
from builder.planning.menu.portions import Portion
from builder.planning.menu.refused import avoided_in, refused_by, refused_words
from builder.planning.menu.shopping import shopping
from builder.planning.menu.warnings import menu_problems, open_problems

__all__ = [
    "ALIKE_DIGITS",
    "LEAST_OF_DAY_SHARE",
    "Bought",
    "MenuItem",
    "Portion",
    "avoided_how",
    "avoided_in",
    "avoided_said",
    "bought",
    "by_need",
    "eaten",
    "eaten_kcal",
    "in_ladles",
    "left_out",
    "menu_problems",
    "more_of",
    "open_problems",
    "parted",
    "plan_menu",
    "plate_share",
    "refused_by",
    "refused_words",
    "shares_by_need",
    "shopping",
    "with_parts",
]
