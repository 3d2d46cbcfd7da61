"""Foods with amounts, and the steps that cook them."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Literal, get_args

from builder.model.batch import Method
from builder.model.picture import Picture
from builder.model.place import Places
from builder.record import dataclass, field, replace

Do = Literal["soak", "boil", "simmer", "fry", "press", "bake", "rest", "mix", "serve"]
Vessel = Literal["pot", "iron", "mug", "none"]
MealName = Literal["breakfast", "lunch", "dinner", "snacks", "drinks"]

# What is done to what goes in, and to nothing else in the pot.
HANDLES: frozenset[Do] = frozenset(("fry", "mix", "serve", "soak"))
# What is done with a pot over a flame, and what heats food at all; a soak may besides, or not.
OVER_FLAME: frozenset[Do] = frozenset(("boil", "simmer", "fry"))
HEATING: frozenset[Do] = OVER_FLAME | {"press", "bake"}

DOINGS: tuple[str, ...] = get_args(Do)
VESSELS: tuple[str, ...] = get_args(Vessel)
MEALS: tuple[MealName, ...] = get_args(MealName)


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a recipe: so much of a food, or of a whole dried meal, as it is carried."""

    id: str
    amount_g: float
    food: str | None = None
    recipe: str | None = None
    dried_by: Method | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Swap:
    """Another food in the place of an ingredient."""

    ingredient: str  # id
    food: str
    is_dried: bool  # whether it is dried as the ingredient is; what is sold dry is not


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do; amounts are for the recipe's own number of servings."""

    do: Do
    uses: tuple[str, ...] = ()
    water_ml: float = 0.0
    water_auto: bool = False  # the water that drying took out of `uses`
    minutes: float = 0.0
    stir: bool = False
    lid: bool = False
    hot: bool = False
    say: str = ""
    each_side_min: float = 0.0
    pieces: float = 1.0  # pressed pieces for each serving
    baking_c: float = 0.0  # inside a lidded pot among embers; 0 where nothing is baked
    picture: Picture | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Recipe:
    """Foods, amounts and steps for a number of servings."""

    id: str
    name: str
    serves: float
    cook_in: Vessel
    uses: tuple[Ingredient, ...]
    steps: tuple[Step, ...]
    meals: tuple[MealName, ...] = ()
    reach_c: float | None = None
    drain_ml: float = 0.0
    cooked_g: float | None = None  # what the pot holds when it is done
    utensils: tuple[str, ...] | None = None  # besides pot and spoon; None: nobody told
    part_before: int | None = None  # before this step portions are taken out and cooked on beside
    picture: Picture | None = None
    note: str = ""
    places: Places = field(default_factory=Places, compare=False, repr=False)

    @property
    def in_after_parting(self) -> frozenset[str]:
        """Give the ingredients that go in after portions were taken out; none where none are."""
        if self.part_before is None:
            return frozenset()
        before = {name for step in self.steps[: self.part_before] for name in step.uses}
        return frozenset(each.id for each in self.uses if each.id not in before)

    def swapped(self, swaps: Iterable[Swap]) -> Recipe:
        """Give the recipe with other foods in the place of some ingredients, as much of each."""
        instead = {each.ingredient: each for each in swaps}
        if not instead:
            return self
        uses = tuple(
            replace(
                line,
                food=swap.food,
                recipe=None,
                dried_by=line.dried_by if swap.is_dried else None,
            )
            if (swap := instead.get(line.id))
            else line
            for line in self.uses
        )
        return replace(self, uses=uses)

    def without(self, left_out: Collection[str]) -> Recipe:
        """Give the recipe without some ingredients, and without the steps that only handle them.

        What boils, simmers or rests goes on for all that is in the pot.
        """
        if not left_out:
            return self
        steps = tuple(
            replace(
                step,
                uses=tuple(each for each in step.uses if each not in left_out),
                # Words about what is not in it would puzzle who cooks.
                say="" if any(f"<{each}>" in step.say for each in left_out) else step.say,
            )
            for step in self.steps
            if step.do not in HANDLES or not step.uses or set(step.uses) - set(left_out)
        )
        uses = tuple(each for each in self.uses if each.id not in left_out)
        return replace(self, uses=uses, steps=steps)

    def ingredient(self, ingredient_id: str) -> Ingredient:
        """Give the ingredient with an id that reading has checked."""
        return next(each for each in self.uses if each.id == ingredient_id)
