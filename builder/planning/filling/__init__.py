"""Open meals: what may fill them out of free packs and recipes, and why."""

from __future__ import annotations

from builder.planning.filling.filling import fill_trip
from builder.planning.filling.proposal import ChosenDish, Filling, Proposal

__all__ = ["ChosenDish", "Filling", "Proposal", "fill_trip"]
