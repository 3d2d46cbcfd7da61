"""Who eats what: meals as this party eats them."""

from __future__ import annotations

from builder.planning.menu.avoided import avoided_said, is_avoided
from builder.planning.menu.menu import MenuItem, Portion, plan_menu
from builder.planning.menu.refused import refused_by
from builder.planning.menu.shopping import shopping

__all__ = [
    "MenuItem",
    "Portion",
    "avoided_said",
    "is_avoided",
    "plan_menu",
    "refused_by",
    "shopping",
]
