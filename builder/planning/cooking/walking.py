"""Walks a recipe's steps with one pot: what goes in, how full it gets, how long it takes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.formulas.heat import FOOD_ROOM_ML_PER_G, whole_units
from builder.model.figure import add, largest, named, none, nothing
from builder.model.food import BY_CENTRE_TEMPERATURE
from builder.model.kit import Conditions, PlannedIngredient, PlannedStep
from builder.model.recipe import OVER_FLAME, Recipe, Step
from builder.planning.cooking.cooked import NO_WATER
from builder.planning.cooking.hearth import Hearth
from builder.planning.tracing import count
from builder.record import dataclass, field

NO_FOOD: float = nothing("food_g")
# What stands longer has cooled, also in a cosy, and softens as cold food does.
_HOT_AT_MOST_MIN = 240.0
_HEATS_THE_POT = OVER_FLAME | {"bake"}
_FOOD_ROOM_ML_G = named(FOOD_ROOM_ML_PER_G, "food_room_ml_g", "common-practice")


@dataclass(frozen=True, slots=True)
class Ready:
    """An ingredient scaled for those who eat, with what the walk needs to know of it."""

    planned: PlannedIngredient
    kind: str
    auto_water_ml: float
    taken_up_ml: float = 0.0  # of it


@dataclass(frozen=True, slots=True)
class Share:
    """What some eaters have of a pot: their recipe, so much of each ingredient, so many."""

    recipe: Recipe
    ready: Mapping[str, Ready]
    servings: float


def _with(before: float, more: float) -> float:
    """Add to what is there; where there is nothing yet, no zero is written before it."""
    if before is NO_WATER or before is NO_FOOD:
        return more
    return before if more is NO_WATER or more is NO_FOOD else before + more


def _times(amount: float, share: float) -> float:
    """Give a share of what there is; where there is nothing, no zero is written."""
    return amount if amount is NO_WATER or amount is NO_FOOD else amount * share


@dataclass(slots=True)
class PotState:
    """The pot's state while the steps are walked."""

    food_g: float = NO_FOOD
    water_ml: float = NO_WATER
    most_ml: float = NO_WATER
    unboiled_ml: float = NO_WATER
    unheated_food_g: float = NO_FOOD
    boiled_ml: float = NO_WATER
    boiled_food_g: float = NO_FOOD
    boils: bool = False
    hot: bool = False  # still from what heated it last
    inside: set[str] = field(default_factory=set)
    kinds: set[str] = field(default_factory=set)

    def put(self, ready: Ready) -> None:
        """Put an ingredient in, once."""
        if ready.planned.id in self.inside:
            return
        self.inside.add(ready.planned.id)
        self.kinds.add(ready.kind)
        self.food_g = _with(self.food_g, ready.planned.amount_g)
        self.unheated_food_g = _with(self.unheated_food_g, ready.planned.amount_g)

    def pour(self, water_ml: float) -> None:
        """Pour water in, and note how full the pot is."""
        self.water_ml = _with(self.water_ml, water_ml)
        self.unboiled_ml = _with(self.unboiled_ml, water_ml)
        full_ml = self.water_ml
        if self.food_g is not NO_FOOD:
            full_ml = full_ml + _FOOD_ROOM_ML_G * self.food_g
        self.most_ml = full_ml if self.most_ml is NO_WATER else largest(self.most_ml, full_ml)

    def boil(self) -> None:
        """Bring all that was not boiled before to the boil."""
        self.boiled_ml = _with(self.boiled_ml, self.unboiled_ml)
        self.boiled_food_g = _with(self.boiled_food_g, self.unheated_food_g)
        self.unboiled_ml, self.unheated_food_g = NO_WATER, NO_FOOD
        self.boils = True

    def heat_or_cool(self, step: Step) -> None:
        """Note whether it is hot while a step lasts."""
        if step.do in _HEATS_THE_POT or (step.do == "soak" and step.hot):
            self.hot = True
        elif step.do == "soak":
            self.hot = False
        if step.minutes > _HOT_AT_MOST_MIN and step.do not in _HEATS_THE_POT:
            self.hot = False

    def part(self, share: float) -> PotState:
        """Take a share of all that is in the pot out of it, into another."""
        taken = PotState(
            food_g=_times(self.food_g, share),
            water_ml=_times(self.water_ml, share),
            unboiled_ml=_times(self.unboiled_ml, share),
            unheated_food_g=_times(self.unheated_food_g, share),
            hot=self.hot,
            inside=set(self.inside),
            kinds=set(self.kinds),
        )
        taken.pour(NO_WATER)  # so full it is at once
        stays = 1 - share
        self.food_g, self.water_ml = _times(self.food_g, stays), _times(self.water_ml, stays)
        self.unboiled_ml = _times(self.unboiled_ml, stays)
        self.unheated_food_g = _times(self.unheated_food_g, stays)
        return taken

    @property
    def mass_g(self) -> float:
        """What it holds, with its water."""
        return _with(self.food_g, self.water_ml)

    @property
    def goes_by_height(self) -> bool:
        """Tell whether cooking takes longer up high; what goes by its centre temperature does not.

        So it is when anything else is in the pot with it.
        """
        return bool(self.kinds - BY_CENTRE_TEMPERATURE)


def walked(
    state: PotState,
    share: Share,
    conditions: Conditions,
    hearth: Hearth,
    steps: slice = slice(None),
) -> Iterator[PlannedStep]:
    """Walk the steps of a recipe, or some of them, and let the pot follow."""
    ready, servings = share.ready, share.servings
    scale = servings / share.recipe.serves
    for step in share.recipe.steps[steps]:
        into_pot = step.do not in ("serve", "press")
        for name in step.uses if into_pot else ():
            state.put(ready[name])
        poured_ml = step.water_ml * scale
        taken_up_ml = add(())
        if step.water_auto:
            poured_ml += add(ready[name].auto_water_ml for name in step.uses)
            taken_up_ml = add(ready[name].taken_up_ml for name in step.uses)
        state.pour(poured_ml)
        if step.do == "boil" or (step.do == "soak" and step.hot):
            state.boil()
        presses: int = none("presses")
        if step.do == "press":
            presses = count(whole_units, step.pieces * servings, max(hearth.presses_at_once, 1))
        state.heat_or_cool(step)
        softens = step.do in ("boil", "simmer", "rest", "soak") and state.hot
        slower = softens and step.minutes and state.goes_by_height
        factor = conditions.time_factor if slower else 1.0
        yield PlannedStep(
            do=step.do,
            ingredients=tuple(ready[name].planned for name in step.uses),
            water_ml=poured_ml,
            minutes=step.minutes * factor,
            minutes_at_sea_level=step.minutes,
            stir=step.stir,
            lid=step.lid,
            hot=step.hot,
            say=step.say,
            each_side_min=step.each_side_min,
            presses=presses,
            pieces=step.pieces * servings if step.do == "press" else nothing("pieces"),
            baking_c=step.baking_c,
            taken_up_ml=taken_up_ml,
            broth_ml=poured_ml - taken_up_ml if step.water_auto else nothing("water_ml"),
            picture=step.picture,
        )
