"""A second look stops no plan: where a formula refuses it, there is none."""

from __future__ import annotations

from collections.abc import Callable
from typing import ParamSpec, TypeVar

Given = ParamSpec("Given")
Look = TypeVar("Look")


def offered(
    look: Callable[Given, Look | None], *given: Given.args, **named: Given.kwargs
) -> Look | None:
    """Give a look where the formulas allow it."""
    try:
        return look(*given, **named)
    except ValueError:
        return None
