"""One trip that shows each caution, out of all the tests of cautions."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from builder.model.kit import Kit
from builder.record import dataclass

from . import (
    test_cautions,
    test_cautions_food,
    test_cautions_fresh,
    test_cautions_outdoors,
    test_cautions_people,
    test_cautions_standing,
)
from .folders import Record, hand

_FOODS: list[tuple[Any, list[Record]]] = [
    (test_cautions, test_cautions.MARKED),
    (test_cautions_food, test_cautions_food.FOODS),
    (test_cautions_fresh, test_cautions_fresh.FOODS),
    (test_cautions_outdoors, test_cautions.MARKED),
    (test_cautions_people, test_cautions_people.FOODS),
    (test_cautions_standing, test_cautions_standing.FOODS),
]


@dataclass(frozen=True, slots=True)
class Shown:
    """A trip that shows a caution."""

    name: str
    folder: dict[str, Any]
    foods: list[Record]

    def kit(self, path: Path, units: str = "metric") -> Kit:
        """Plan it in some units."""
        trip = {**self.folder["trip"], "units": units}
        return hand(path, foods=self.foods, **{**self.folder, "trip": trip}).kit()


def _every() -> dict[str, Shown]:
    found: dict[str, Shown] = {}
    for module, foods in _FOODS:
        for name, with_it, _ in module.CASES:
            found.setdefault(name, Shown(name, with_it, foods))
    return found


EVERY = _every()
