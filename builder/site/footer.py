"""What stands below every page that leaves the tool."""

from __future__ import annotations

from builder.speech import later

RULES_FIRST = later(
    "Local rules and official or licensed advice come first. All numbers are estimates."
)
