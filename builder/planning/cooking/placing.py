"""When each potful of each dish begins, so that no pot and no heat is wanted twice at once."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.figure import TRACING, Figure, add, nothing
from builder.planning.cooking.tasks import FLAMES, Dish, Run
from builder.record import dataclass, field

AT_THE_MEAL = nothing("before_min", "when all eat")
TOUCHING_MIN = 1e-9


@dataclass(slots=True)
class _Calendar:
    """What is busy from when to when, in minutes before all eat."""

    busy: dict[str, list[tuple[float, float]]] = field(default_factory=dict)

    def latest(self, run: Run, end: float) -> Figure:
        """Give the latest begin of a run that ends in time and finds everything free."""
        start = neat(end + run.minutes)
        while (earlier := self._clear_of(run, start)) is not None:
            start = neat(earlier)
        return start

    def _clear_of(self, run: Run, start: float) -> float | None:
        """Give the begin that lets the run end where something is taken; None where all is free."""
        for what, begins, ends in run.busy():
            for taken_from, taken_to in self.busy.get(what, ()):
                begins_late = float(start) - begins > taken_to + TOUCHING_MIN
                if begins_late and float(start) - ends < taken_from - TOUCHING_MIN:
                    return taken_from + ends
        return None

    def take(self, run: Run, start: float) -> None:
        """Keep busy what a run needs."""
        for what, begins, ends in run.busy():
            self.busy.setdefault(what, []).append((start - begins, start - ends))


def neat(minutes: float) -> Figure:
    """Give minutes before eating without the noise of adding up, which would sort them wrongly."""
    if minutes < TOUCHING_MIN:
        return AT_THE_MEAL
    rounded = round(float(minutes), 12)
    if not TRACING.on:
        return rounded  # type: ignore[return-value]
    assert isinstance(minutes, Figure), "minutes of steps are traced"
    return Figure(rounded, minutes.origin)


Placed = list[tuple[Dish, list[tuple[Run, Figure]]]]


def placed_in_turn(dishes: Sequence[Dish]) -> Placed:
    """Put dishes down backward from eating: the first nearest to it.

    What is heated in a pot is done with its heat when what follows there on the menu is put on.
    """
    calendar = _Calendar()
    placed: Placed = []
    next_on: dict[str | None, Figure] = {}
    for dish in dishes:
        runs: list[tuple[Run, Figure]] = []
        heat, end = dish.heat, AT_THE_MEAL
        if dish.put_on:
            end = neat(next_on.get(heat, AT_THE_MEAL) - _after_heat_min(dish))
        if dish.done_before_min > end:
            end = neat(dish.done_before_min)
        for run in reversed(dish.runs):
            end = calendar.latest(run, end)
            calendar.take(run, end)
            runs.insert(0, (run, end))
        if dish.put_on:
            next_on[heat] = max(next_on.get(heat, AT_THE_MEAL), _put_on(runs))
        placed.append((dish, runs))
    return placed


def _after_heat_min(dish: Dish) -> Figure:
    """Give how long a dish goes on without heat at its end."""
    tasks = [task for run in dish.runs for task in run.tasks]
    last = max((number for number, task in enumerate(tasks) if task.on in FLAMES), default=-1)
    return add(task.minutes for task in tasks[last + 1 :])


def _put_on(runs: Sequence[tuple[Run, Figure]]) -> Figure:
    """Give how long before eating a dish first comes over the heat."""
    for run, start in runs:
        for task in run.tasks:
            if task.on in FLAMES:
                return start
            start = neat(start - task.minutes)
    return AT_THE_MEAL


def cost_of(placed: Placed) -> tuple[float, float]:
    """Give how long ready food waits in all, and how early the work begins."""
    waits = sum(float(ready_before(runs)) for _, runs in placed)
    begins = max((float(start) for _, runs in placed for _, start in runs), default=0.0)
    return round(waits, 6), round(begins, 6)


def ready_before(runs: Sequence[tuple[Run, Figure]]) -> Figure:
    """Give how long before eating a dish is ready."""
    return neat(runs[-1][1] - runs[-1][0].minutes) if runs else AT_THE_MEAL
