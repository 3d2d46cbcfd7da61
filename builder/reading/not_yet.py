"""What is read and checked, and what this version cannot plan: it says so, and what would do."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from builder.reading.declared.declaring import Check, Here
from builder.reading.notes import refuse


def cannot_be(amiss: Callable[[Any], bool], says: str, mend: str) -> Check:
    """Refuse what this version cannot plan, rather than make a kit that is wrong."""

    def look(here: Here) -> None:
        if amiss(here.value):
            refuse("not-yet", f"this version cannot plan {says}", mend)

    return Check(look)
