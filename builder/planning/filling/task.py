"""A trip's open meals in bare numbers: what may fill them, out of which packs, within which bounds.

Meals, dishes and packs are counted from 0, days from 1.
"""

from __future__ import annotations

from builder.record import dataclass

SLACK_G = 1e-9


@dataclass(frozen=True, slots=True)
class Packs:
    """The free packs of one batch."""

    free: int
    pack_g: float
    days_left: float  # to best-before, from the first day of the trip
    last_day: int  # of the trip on which it may be eaten
    reseals: bool = False
    opened_g: float = 0.0  # what meals that are not open take of packs that reseal


@dataclass(frozen=True, slots=True)
class Line:
    """One ingredient of a dish that packs may cover."""

    mass_g: float
    dry_g: float  # of it, what has to be dried where no pack covers it; 0 where it is bought
    packs: tuple[int, ...]  # that may cover it


@dataclass(frozen=True, slots=True)
class Dish:
    """A recipe for so many eaters."""

    recipe: int  # the same for dishes that count as one and the same
    lines: tuple[Line, ...]
    kcal: float
    mass_g: float
    mark: float = 0.0


@dataclass(frozen=True, slots=True)
class Slot:
    """An open meal, and what it takes to cook what may fill it."""

    day: int
    is_dinner: bool
    fuel_kj: tuple[tuple[int, float], ...]  # of each dish that may fill it


@dataclass(frozen=True, slots=True)
class DayBounds:
    """What the open meals of a day may give together."""

    day: int
    least_kcal: float
    most_kcal: float


@dataclass(frozen=True, slots=True)
class Task:
    """All that a proposal has to mind."""

    slots: tuple[Slot, ...]
    dishes: tuple[Dish, ...]
    packs: tuple[Packs, ...]
    days: tuple[DayBounds, ...]
    # Recipes of dinners that are not open, by day: none of them again within three days.
    dinners: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Filled:
    """What fills the open meals: a dish for each, and the packs of each of its lines."""

    dishes: tuple[int, ...]  # in the order of the open meals
    packs: tuple[tuple[int | None, ...], ...]  # for each line of each dish; None where none covers

    def orders(self, task: Task) -> tuple[float, ...]:
        """Give what is to be as small as can be, what counts more before what counts less.

        Meals and ingredients that no free pack covers, days left to the best-before of the packs
        used, grams to dry anew, grams, kilojoules of fuel, marks (less is more of them).
        """
        uncovered = sum(
            sum(each is None for each in packs) + (not any(each is not None for each in packs))
            for packs in self.packs
        )
        used = self.used(task)
        chosen = [task.dishes[dish] for dish in self.dishes]
        fuel_kj = sum(
            dict(slot.fuel_kj)[dish] for slot, dish in zip(task.slots, self.dishes, strict=True)
        )
        dry_g = sum(
            line.dry_g
            for dish, packs in zip(chosen, self.packs, strict=True)
            for line, pack in zip(dish.lines, packs, strict=True)
            if pack is None
        )
        return (
            float(uncovered),
            sum(count * task.packs[pack].days_left for pack, count in used.items()),
            dry_g,
            sum(dish.mass_g for dish in chosen),
            fuel_kj,
            -sum(dish.mark for dish in chosen),
        )

    def used(self, task: Task) -> dict[int, int]:
        """Give how many packs it opens, by batch."""
        opened: dict[int, int] = {}
        out_g: dict[int, float] = {}
        for dish, packs in zip(self.dishes, self.packs, strict=True):
            for line, pack in zip(task.dishes[dish].lines, packs, strict=True):
                if pack is None:
                    continue
                if task.packs[pack].reseals:
                    out_g[pack] = out_g.get(pack, 0.0) + line.mass_g
                else:
                    opened[pack] = opened.get(pack, 0) + whole(line.mass_g, task.packs[pack])
        for pack, mass_g in out_g.items():
            before_g = task.packs[pack].opened_g
            more = whole(before_g + mass_g, task.packs[pack]) - whole(before_g, task.packs[pack])
            opened[pack] = more
        return opened


def whole(mass_g: float, packs: Packs) -> int:
    """Give how many packs so much opens."""
    return max(-int(-(mass_g / packs.pack_g - SLACK_G) // 1), 0)


def never_together(days_apart: int) -> bool:
    """Tell whether two dinners of one recipe so far apart are two in three days."""
    return days_apart <= 2
