"""What if it goes wrong: a bag lost, a day more, no fuel, no fire, a dry spring; other camps."""

from __future__ import annotations

from builder.planning.mishaps.all_of_them import mishaps
from builder.planning.mishaps.live import START_CAMP, Leaf, Live, Watched, live

__all__ = ["START_CAMP", "Leaf", "Live", "Watched", "live", "mishaps"]
