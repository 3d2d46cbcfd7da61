"""Fills a trip's open meals: three proposals, each planned as a whole before it is told.

What a day needs hangs a little on what is carried, so needs are taken from the plan of a proposal,
and where that leaves the bounds it is looked for anew. What brings up a danger is passed over.
"""

from __future__ import annotations

import time

from builder.model.content import Content
from builder.model.kit import Kit, KitCaution
from builder.model.trip import MealItem, Trip
from builder.planning.filling.appetite import Aim
from builder.planning.filling.because import Reasons
from builder.planning.filling.dishes import Options, options_of
from builder.planning.filling.model import FillingModel
from builder.planning.filling.proposal import ChosenDish, Filling, Proposal
from builder.planning.filling.shortfall import no_recipe_said, shortfall_said
from builder.planning.filling.task import DayBounds, Filled, Task
from builder.planning.kit import plan_trip
from builder.planning.stock import Stock
from builder.record import dataclass, field, replace

PROPOSALS = 3
# The search ends after so long; the proposals share it.
ALL_SECONDS = 7.5
_LEAST_SECONDS = 0.5  # for what is looked for anew where time is up
_MOST_ROUNDS = 8
# So far a day keeps from its bounds, where it can: needs move with what is carried.
_MARGIN_SHARE = 0.003

Dangers = dict[int, tuple[KitCaution, ...]]  # by open meal


def fill_trip(trip: Trip, content: Content, stock: Stock, seed: int = 0) -> Filling:
    """Propose what fills a trip's open meals; the same for the same seed."""
    options = options_of(trip, content, stock)
    if not options.meals:
        return Filling(())
    if any(not meal.recipes for meal in options.meals):
        return Filling((), no_recipe_said(options, content))
    return _Search(options, content, stock, seed, Aim.of(trip, content, stock)).filling()


@dataclass(slots=True)
class _Search:
    options: Options
    content: Content
    stock: Stock
    seed: int
    aim: Aim
    task: Task = field(init=False)
    apart: list[tuple[int, ...]] = field(default_factory=list)
    bears_dangers: bool = False  # where nothing is found without
    is_sure: bool = True
    filled: Filled = field(init=False)  # as last tried
    kit: Kit = field(init=False)  # of that: needs hang on what is carried
    began: float = field(default_factory=time.monotonic)

    def __post_init__(self) -> None:
        """Begin with what days need where the open meals are filled in some usual way."""
        self.task = self.options.task
        self._plan(_usual(self.task))
        self.task = self._bounded(_MARGIN_SHARE)

    def filling(self) -> Filling:
        """Give up to three proposals."""
        found: list[Proposal] = []
        for number in range(PROPOSALS):
            proposal = self._proposal(self.seed + number)
            if proposal is None:
                break
            found.append(proposal)
        if found:
            return Filling(tuple(found), is_sure=self.is_sure, appetite=self.aim.appetite)
        says = shortfall_said(self.options, self.task, self.aim, self.is_sure)
        return Filling((), says, self.is_sure, self.aim.appetite)

    def _proposal(self, seed: int) -> Proposal | None:
        """Give the best that differs enough from those before; None where nothing is found."""
        until = self.began + ALL_SECONDS * (len(self.apart) + 1) / PROPOSALS
        margin_share, anew = _MARGIN_SHARE, bool(self.apart)
        for _ in range(_MOST_ROUNDS):
            seconds = max(until - time.monotonic(), _LEAST_SECONDS)
            solved = FillingModel(self.task, self.apart, anew=anew).solved(seed, seconds)
            self.is_sure &= solved.is_sure
            if solved.filled is None:
                if margin_share:  # then at the very bounds
                    margin_share = 0.0
                    self.task = self._bounded(margin_share)
                elif anew:  # then the same dishes on other days
                    anew = False
                elif self.bears_dangers or self.task.slots == self.options.task.slots:
                    return None
                else:  # without what is dangerous there is nothing: then with it, and told
                    self.bears_dangers = True
                    self.task = replace(self.task, slots=self.options.task.slots)
                continue
            self._plan(solved.filled)
            dangers = self._dangers()
            within = all(_is_within(self.kit, each.day, self.aim) for each in self.task.days)
            if within and (self.bears_dangers or not dangers):
                self.apart.append(solved.filled.dishes)
                return self._told(dangers)
            if not within:
                margin_share += _MARGIN_SHARE
                self.task = self._bounded(margin_share)
            if not self.bears_dangers:
                self.task = _without(self.task, solved.filled, dangers)
        return None

    def _plan(self, filled: Filled) -> None:
        self.filled = filled
        self.kit = plan_trip(self.options.trip_with(filled), self.content, self.stock)

    def _bounded(self, margin_share: float) -> Task:
        """Let each day give what it needs, by the last plan."""
        kit = self.kit
        open_kcal: dict[int, float] = {}
        for number, pots in self._places():
            for place in pots:
                kcal = float(kit.days[number].meals[place].nutrition.energy_kcal)
                open_kcal[number + 1] = open_kcal.get(number + 1, 0.0) + kcal
        days = []
        for each in self.task.days:
            day = kit.days[each.day - 1]
            need_kcal = float(day.energy_need_kcal)
            fixed_kcal = float(day.nutrition.energy_kcal) - open_kcal[each.day]
            days.append(
                DayBounds(
                    each.day,
                    (self.aim.least_share + margin_share) * need_kcal - fixed_kcal,
                    (self.aim.most_share - margin_share) * need_kcal - fixed_kcal,
                )
            )
        return replace(self.task, days=tuple(days))

    def _places(self) -> list[tuple[int, range]]:
        """Give where each dish stands among all of its day, from 0; one that is parted twice."""
        days = self.options.trip_with(self.filled).days
        found = []
        for meal in self.options.meals:
            meals = days[meal.day].meals
            *beside, own = (_pots(item) for item in meals[meal.place].items)
            before = (_pots(item) for each in meals[: meal.place] for item in each.items)
            first = sum(before) + sum(beside)
            found.append((meal.day, range(first, first + own)))
        return found

    def _dangers(self) -> Dangers:
        """Give the dangers that the dishes bring up themselves."""
        found: Dangers = {}
        for slot, (number, pots) in enumerate(self._places()):
            at = {(number + 1, place) for place in pots}
            own = tuple(
                each
                for each in self.kit.cautions
                if each.level == "danger" and not each.aloud and each.at.meal in at
            )
            if own:
                found[slot] = own
        return found

    def _told(self, dangers: Dangers) -> Proposal:
        filled, kit = self.filled, self.kit
        reasons = Reasons(self.options, filled, kit)
        dishes = []
        for slot, (open_meal, (number, pots)) in enumerate(
            zip(self.options.meals, self._places(), strict=True)
        ):
            item = self.options.item(open_meal, filled.dishes[slot], filled.packs[slot])
            planned = kit.days[number].meals[pots.start]
            dishes.append(
                ChosenDish(
                    day=open_meal.day + 1,
                    meal=open_meal.meal,
                    place=open_meal.place,
                    recipe=item.recipe or "",
                    name=planned.title,
                    batches=item.batches,
                    eaters=item.eaters,
                    because=reasons.said(slot, planned),
                )
            )
        texts = {f"{each.title}: {each.because}": None for own in dangers.values() for each in own}
        return Proposal(
            dishes=tuple(dishes),
            trip=self.options.trip_with(filled),
            energy_shares=tuple(
                float(day.nutrition.energy_kcal / day.energy_need_kcal)
                if day.energy_need_kcal > 0
                else 1.0
                for day in kit.days
            ),
            dangers=tuple(texts),
        )


def _pots(item: MealItem) -> int:
    return 2 if item.parted else 1


def _usual(task: Task) -> Filled:
    """Fill each meal with the dish of middle energy, with no packs: needs hang on its weight."""
    dishes = []
    for slot in task.slots:
        by_kcal = sorted((dish for dish, _ in slot.fuel_kj), key=lambda n: task.dishes[n].kcal)
        dishes.append(by_kcal[len(by_kcal) // 2])
    packs = tuple((None,) * len(task.dishes[dish].lines) for dish in dishes)
    return Filled(tuple(dishes), packs)


def _is_within(kit: Kit, number: int, aim: Aim) -> bool:
    day = kit.days[number - 1]
    need_kcal, kcal = float(day.energy_need_kcal), float(day.nutrition.energy_kcal)
    return aim.least_share * need_kcal - 1e-6 <= kcal <= aim.most_share * need_kcal + 1e-6


def _without(task: Task, filled: Filled, dangers: Dangers) -> Task:
    """Take dishes that bring up a danger out of their meals, and out of the later days' meals.

    What is carried for longer gets no safer; an earlier day is tried anew.
    """
    slots = list(task.slots)
    for at in dangers:
        for number, slot in enumerate(slots):
            if number == at or slot.day >= task.slots[at].day:
                left = tuple(each for each in slot.fuel_kj if each[0] != filled.dishes[at])
                slots[number] = replace(slot, fuel_kj=left)
    return replace(task, slots=tuple(slots))
