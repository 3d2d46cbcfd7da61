"""A mixed-integer programme that is written down column by column and row by row.

HiGHS, through scipy, solves it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from builder.record import dataclass

# How a search ended, as scipy tells it.
_OPTIMAL, _INFEASIBLE = 0, 2
NO_GAP_SHARE = 1e-7

Ended = Literal["proven", "impossible", "cut-short"]


@dataclass(frozen=True, slots=True)
class Solved:
    """What a search found."""

    ended: Ended
    values: Sequence[float] | None  # of each column; None where no solution was found
    least: float  # what no solution goes below


class Programme:
    """Columns with their bounds, and rows that hold sums of them between two bounds."""

    def __init__(self) -> None:
        """Begin with none."""
        self._most: list[float] = []
        self._whole: list[int] = []
        self._at: list[int] = []
        self._columns: list[int] = []
        self._values: list[float] = []
        self._ends: list[tuple[float, float]] = []

    def whole(self, most: float = 1.0) -> int:
        """Add a whole number from 0 on; a choice where it is 1 at most."""
        return self._column(most, 1)

    def amount(self, most: float) -> int:
        """Add an amount from 0 on."""
        return self._column(most, 0)

    def _column(self, most: float, whole: int) -> int:
        self._most.append(most)
        self._whole.append(whole)
        return len(self._most) - 1

    def row(self, terms: Mapping[int, float], least: float, most: float) -> None:
        """Hold a sum between two bounds."""
        for column, value in terms.items():
            self._at.append(len(self._ends))
            self._columns.append(column)
            self._values.append(value)
        self._ends.append((least, most))

    def at_most(self, terms: Mapping[int, float], most: float = 0.0) -> None:
        """Hold a sum under a bound."""
        self.row(terms, -float("inf"), most)

    def at_least(self, terms: Mapping[int, float], least: float = 0.0) -> None:
        """Hold a sum over a bound."""
        self.row(terms, least, float("inf"))

    def solved(
        self, costs: Mapping[int, float], seconds: float, gap_share: float = NO_GAP_SHARE
    ) -> Solved:
        """Find what costs least, in so much time."""
        import numpy as np
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import csr_array

        size = len(self._most)
        cost = np.zeros(size)
        for column, value in costs.items():
            cost[column] = value
        matrix = csr_array((self._values, (self._at, self._columns)), shape=(len(self._ends), size))
        low, high = (np.array(each) for each in zip(*self._ends, strict=True))
        result = milp(
            c=cost,
            integrality=np.array(self._whole),
            bounds=Bounds(np.zeros(size), np.array(self._most)),
            constraints=LinearConstraint(matrix, low, high),
            options={"time_limit": max(seconds, 0.1), "mip_rel_gap": gap_share},
        )
        if result.status == _INFEASIBLE:
            return Solved("impossible", None, float("inf"))
        found = None if result.x is None else [float(each) for each in result.x]
        if result.status == _OPTIMAL:
            return Solved("proven", found, float(result.fun or 0.0))
        bound = result.mip_dual_bound
        return Solved("cut-short", found, -float("inf") if bound is None else float(bound))


def total(columns: Iterable[int]) -> dict[int, float]:
    """Give the sum of columns, as a row wants it."""
    return dict.fromkeys(columns, 1.0)
