"""Laws are tried on the same inputs each time, and on no more than a quick run allows."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("formulas", max_examples=30, derandomize=True, deadline=None)
settings.load_profile("formulas")
