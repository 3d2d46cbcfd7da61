"""Turns a formula's refusal of a value into a problem with a place."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from builder.model.place import Place
from builder.problems import Problem, ProblemsFound


@contextmanager
def told_at(place: Place, what: str) -> Iterator[None]:
    """Say of any value that a formula refuses where it was written and what it was for."""
    try:
        yield
    except ValueError as error:
        mend = "check this figure and its unit"
        raise ProblemsFound([Problem(place, "out-of-range", f"{what}: {error}", mend)]) from error
