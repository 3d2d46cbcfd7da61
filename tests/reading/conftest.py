"""Laws are tried on the same inputs each time, and on no more than a quick run allows."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

settings.register_profile(
    "reading",
    max_examples=60,
    derandomize=True,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("reading")
