"""What a trip leaves to do at home: bags to fill, and what it takes and buys."""

from __future__ import annotations

from builder.planning.at_home.bagging import Bag, BaggingMeal, TripBags
from builder.planning.at_home.shares import Shopper, TripShare, share_of

__all__ = ["Bag", "BaggingMeal", "Shopper", "TripBags", "TripShare", "share_of"]
