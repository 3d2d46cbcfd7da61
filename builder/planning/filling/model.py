"""The mixed-integer model of a proposal: columns, rows, and what HiGHS, through scipy, finds.

Each open meal takes one dish; of each dish it is chosen how many of its meals take which packs.
Which meal opens which pack is settled afterwards, by date: that it can be, the rows see to.
"""

from __future__ import annotations

import math
import random
import time
from collections.abc import Iterator, Sequence
from functools import cached_property

from builder.planning.filling.task import Filled, Task, never_together, whole
from builder.record import dataclass

# So much of a sum the solver is forgiven.
_SLACK = 1e-6
_MOST = float("inf")
_FIRST_SECONDS = 6.0
# Marks of recipes are told in halves.
_LEAST_MARK = 0.5
_DRAWN = 1000

Row = tuple[dict[int, float], float, float]


@dataclass(frozen=True, slots=True)
class Solved:
    """What was found, and whether the search saw all before it had to end."""

    filled: Filled | None
    is_sure: bool


@dataclass(frozen=True, slots=True)
class Relaxed:
    """The least that would have to change where nothing can be found."""

    short_kcal: tuple[float, ...]  # by day, in the order of the task
    over_kcal: tuple[float, ...]
    filled: Filled


class FillingModel:
    """The rows and columns for some open meals.

    `apart` are dishes of earlier proposals: at least a third of the meals is another recipe, and
    `anew` one that the earlier proposal has nowhere. Bent, a day may give too little or too much,
    or dinners may come again.
    """

    def __init__(
        self,
        task: Task,
        apart: Sequence[Sequence[int]] = (),
        *,
        anew: bool = False,
        bend_days: bool = False,
        bend_dinners: bool = False,
    ) -> None:
        """Build it."""
        self.task = task
        self.most: list[float] = []
        self.whole: list[int] = []
        self.rows: list[Row] = []
        self.dish = {
            (slot, dish): self._column(1.0)
            for slot, each in enumerate(task.slots)
            for dish, _ in each.fuel_kj
        }
        self.slots_of: dict[int, list[int]] = {}
        for slot, dish in self.dish:
            self.slots_of.setdefault(dish, []).append(slot)
        self.covered = {
            (dish, line, pack): self._column(float(len(self.slots_of[dish])))
            for dish in self.slots_of
            for line, each in enumerate(task.dishes[dish].lines)
            for pack in each.packs
        }
        self.bare = {dish: self._column(float(len(at))) for dish, at in self.slots_of.items()}
        self.opened = {
            pack: self._column(float(each.free))
            for pack, each in enumerate(task.packs)
            if each.reseals
        }
        self.short: list[int] = []
        self.over: list[int] = []
        self._one_dish_each()
        self._energy(bend_days)
        self._dinners(bend_dinners)
        for dish in self.slots_of:
            self._lines(dish)
        self._stock()
        for earlier in apart:
            self._differs(earlier, anew=anew)

    # -- building ---------------------------------------------------------------------------------

    def _column(self, most: float, *, is_whole: bool = True) -> int:
        self.most.append(most)
        self.whole.append(int(is_whole))
        return len(self.most) - 1

    def _row(self, terms: dict[int, float], least: float, most: float) -> None:
        if terms:
            self.rows.append((terms, least, most))

    def _one_dish_each(self) -> None:
        for slot, each in enumerate(self.task.slots):
            self._row({self.dish[slot, dish]: 1.0 for dish, _ in each.fuel_kj}, 1.0, 1.0)

    def _energy(self, bends: bool) -> None:
        for each in self.task.days:
            terms = {
                column: self.task.dishes[dish].kcal
                for (slot, dish), column in self.dish.items()
                if self.task.slots[slot].day == each.day
            }
            if bends:
                self.short.append(self._column(_MOST, is_whole=False))
                self.over.append(self._column(_MOST, is_whole=False))
                terms |= {self.short[-1]: 1.0, self.over[-1]: -1.0}
            self._row(terms, each.least_kcal, each.most_kcal)

    def _dinners(self, bends: bool) -> None:
        """Let no recipe be dinner twice in three days, those that are not open among them."""
        task = self.task
        by_recipe: dict[int, list[tuple[int, int]]] = {}
        for (slot, dish), column in self.dish.items():
            if task.slots[slot].is_dinner:
                by_recipe.setdefault(task.dishes[dish].recipe, []).append(
                    (task.slots[slot].day, column)
                )
        for recipe, columns in by_recipe.items():
            fixed = [day for day, same in task.dinners if same == recipe]
            for first in sorted({day for day, _ in columns} | set(fixed)):
                window = {
                    column: 1.0
                    for day, column in columns
                    if day - first >= 0 and never_together(day - first)
                }
                cooked = any(day - first >= 0 and never_together(day - first) for day in fixed)
                if bends:
                    continue
                self._row(window, 0.0, 0.0 if cooked else 1.0)

    def _lines(self, dish: int) -> None:
        """Let packs cover no more than is cooked, each in time."""
        task, at = self.task, self.slots_of[dish]
        cooked = {self.dish[slot, dish]: -1.0 for slot in at}
        of_dish = [(key, column) for key, column in self.covered.items() if key[0] == dish]
        days = sorted({task.packs[pack].last_day for (_, _, pack), _ in of_dish})
        for line in range(len(task.dishes[dish].lines)):
            own = [(pack, column) for (_, each, pack), column in of_dish if each == line]
            self._row({**dict.fromkeys((column for _, column in own), 1.0), **cooked}, -_MOST, 0.0)
            for last_day in days:
                early = {
                    column: 1.0 for pack, column in own if task.packs[pack].last_day <= last_day
                }
                in_time = {
                    self.dish[slot, dish]: -1.0 for slot in at if task.slots[slot].day <= last_day
                }
                if early and len(in_time) < len(at):
                    self._row({**early, **in_time}, -_MOST, 0.0)
        # Meals that no pack covers at all.
        for last_day in (-1, *days):
            late = {
                column: 1.0
                for (_, _, pack), column in of_dish
                if task.packs[pack].last_day > last_day
            }
            after = {self.dish[slot, dish]: -1.0 for slot in at if task.slots[slot].day > last_day}
            if after:
                self._row({self.bare[dish]: 1.0, **late, **after}, 0.0, _MOST)

    def _stock(self) -> None:
        """Let meals open no more packs than are free."""
        for pack, each in enumerate(self.task.packs):
            takes = {
                column: self.task.dishes[dish].lines[line].mass_g
                for (dish, line, of), column in self.covered.items()
                if of == pack
            }
            if each.reseals:
                left_g = whole(each.opened_g, each) * each.pack_g - each.opened_g
                terms = {column: mass_g / each.pack_g for column, mass_g in takes.items()}
                terms[self.opened[pack]] = -1.0
                self._row(terms, -_MOST, left_g / each.pack_g)
            else:
                terms = {column: float(whole(mass_g, each)) for column, mass_g in takes.items()}
                self._row(terms, -_MOST, float(each.free))

    def _differs(self, earlier: Sequence[int], *, anew: bool) -> None:
        """Let a third of the meals be another recipe than in an earlier proposal."""
        dishes = self.task.dishes
        before = {dishes[dish].recipe for dish in earlier}
        same = {
            column: 1.0
            for (slot, dish), column in self.dish.items()
            if dishes[dish].recipe in (before if anew else {dishes[earlier[slot]].recipe})
        }
        self._row(same, 0.0, float(len(earlier) - math.ceil(len(earlier) / 3)))

    # -- what counts ------------------------------------------------------------------------------

    def orders(self, seed: int) -> Iterator[dict[int, float]]:
        """Give what is to be as small as can be, in order, as `Filled.orders`."""
        task = self.task
        lines = [
            (dish, line, each)
            for dish in self.slots_of
            for line, each in enumerate(task.dishes[dish].lines)
        ]

        def left_open(value: dict[tuple[int, int], float]) -> dict[int, float]:
            """Give what is counted of each line that no pack covers."""
            terms: dict[int, float] = {}
            for (slot, dish), column in self.dish.items():
                del slot
                each = sum(
                    value.get((dish, line), 0.0) for line in range(len(task.dishes[dish].lines))
                )
                terms[column] = each
            for (dish, line, _), column in self.covered.items():
                terms[column] = -value.get((dish, line), 0.0)
            return terms

        uncovered = left_open({(dish, line): 1.0 for dish, line, _ in lines})
        uncovered |= dict.fromkeys(self.bare.values(), 1.0)
        days_left = {
            column: task.packs[pack].days_left
            * whole(task.dishes[dish].lines[line].mass_g, task.packs[pack])
            for (dish, line, pack), column in self.covered.items()
            if not task.packs[pack].reseals
        }
        reseals = {column: task.packs[pack].days_left for pack, column in self.opened.items()}
        # Both at once is quicker: one that is not covered outweighs all days that there can be.
        days = {**days_left, **reseals}
        outweighs = 1.0 + sum(value * self.most[column] for column, value in days.items())
        both = {column: outweighs * value for column, value in uncovered.items()}
        for column, value in days.items():
            both[column] = both.get(column, 0.0) + value
        yield both
        yield left_open({(dish, line): each.dry_g for dish, line, each in lines})
        yield self._of_dishes({dish: task.dishes[dish].mass_g for dish in self.slots_of})
        yield {
            self.dish[slot, dish]: kj
            for slot, each in enumerate(task.slots)
            for dish, kj in each.fuel_kj
        }
        # The seed decides where all else is equal: less than half a mark counts, together.
        rng = random.Random(seed)
        marks = self._of_dishes({dish: task.dishes[dish].mark for dish in self.slots_of})
        share = _LEAST_MARK / (len(task.slots) * _DRAWN)
        yield {column: rng.randrange(_DRAWN) * share - mark for column, mark in marks.items()}

    def _of_dishes(self, value: dict[int, float]) -> dict[int, float]:
        return {column: value[dish] for (_, dish), column in self.dish.items()}

    # -- solving ----------------------------------------------------------------------------------

    def solved(self, seed: int, seconds: float) -> Solved:
        """Give the best by the first order, of those the best by the second, and so on."""
        if not all(slot.fuel_kj for slot in self.task.slots):
            return Solved(None, True)
        until = time.monotonic() + seconds
        best: tuple[float, ...] | None = None
        is_sure = True
        held: list[Row] = []
        for terms in self.orders(seed):
            terms = {column: value for column, value in terms.items() if value}
            if best is not None and not terms:
                continue
            left_s = until - time.monotonic()
            if best is not None and left_s <= 0:
                return Solved(self.read(best), False)
            # The first must find something; the others only better it.
            least_s = _FIRST_SECONDS if best is None else 0.0
            found, ended = self._solve(terms, held, max(left_s, least_s))
            is_sure &= ended
            if found is None:
                return Solved(None if best is None else self.read(best), is_sure)
            best = found
            reached = sum(value * best[column] for column, value in terms.items())
            held.append((terms, -_MOST, reached + _SLACK * max(1.0, abs(reached))))
        assert best is not None
        return Solved(self.read(best), is_sure)

    def relaxed(self, seconds: float) -> Relaxed | None:
        """Give the plan that bends the days least."""
        terms = dict.fromkeys((*self.short, *self.over), 1.0)
        found, _ = self._solve(terms, [], seconds)
        if found is None:
            return None
        return Relaxed(
            tuple(max(found[column], 0.0) for column in self.short),
            tuple(max(found[column], 0.0) for column in self.over),
            self.read(found),
        )

    @cached_property
    def _columns(self) -> int:
        return len(self.most)

    def _solve(
        self, terms: dict[int, float], held: Sequence[Row], seconds: float
    ) -> tuple[tuple[float, ...] | None, bool]:
        import numpy as np
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import csr_array

        at, columns, values, ends = [], [], [], []
        for number, (row, least, most) in enumerate((*self.rows, *held)):
            for column, value in row.items():
                at.append(number)
                columns.append(column)
                values.append(value)
            ends.append((least, most))
        matrix = csr_array((values, (at, columns)), shape=(len(ends), self._columns))
        low, high = (np.array(each) for each in zip(*ends, strict=True))
        cost = np.zeros(self._columns)
        for column, value in terms.items():
            cost[column] = value
        result = milp(
            c=cost,
            integrality=np.array(self.whole),
            bounds=Bounds(np.zeros(self._columns), np.array(self.most)),
            constraints=LinearConstraint(matrix, low, high),
            options={"time_limit": seconds, "mip_rel_gap": 0.0},
        )
        found = (
            None
            if result.x is None
            else tuple(
                float(round(each)) if is_whole else float(each)
                for each, is_whole in zip(result.x, self.whole, strict=True)
            )
        )
        return found, result.status != 1

    def read(self, found: Sequence[float]) -> Filled:
        """Give the dishes, and settle which of their meals opens which packs: by date."""
        task = self.task
        dishes = [0] * len(task.slots)
        for (slot, dish), column in self.dish.items():
            if found[column] > 0.5:
                dishes[slot] = dish
        packs: list[list[int | None]] = [[None] * len(task.dishes[dish].lines) for dish in dishes]
        waiting = sorted(
            (
                (key, round(found[column]))
                for key, column in self.covered.items()
                if found[column] > 0.5
            ),
            key=lambda each: (task.packs[each[0][2]].last_day, task.packs[each[0][2]].days_left),
        )
        for (dish, line, pack), count in waiting:
            last_day = task.packs[pack].last_day
            for _ in range(count):
                free = [
                    slot
                    for slot, own in enumerate(dishes)
                    if own == dish
                    and packs[slot][line] is None
                    and task.slots[slot].day <= last_day
                ]
                # First those that nothing covers yet, then the earlier ones.
                order = [(_covers(packs[each]), task.slots[each].day, each) for each in free]
                slot = min(order)[-1]
                packs[slot][line] = pack
        return Filled(tuple(dishes), tuple(tuple(each) for each in packs))


def _covers(packs: Sequence[int | None]) -> bool:
    return any(each is not None for each in packs)
