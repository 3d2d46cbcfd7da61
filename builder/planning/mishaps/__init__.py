"""What if it goes wrong: a bag lost, a day more, no fuel, no fire, a dry spring."""

from __future__ import annotations

from builder.planning.mishaps.all_of_them import mishaps

__all__ = ["mishaps"]
