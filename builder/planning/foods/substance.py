"""What an ingredient is made of: a food, a whole dried meal, or a packet with its label."""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter

from builder.formulas.drying import solids_factor, usual_residual_share
from builder.formulas.nutrition import energy_kcal
from builder.model.content import Content
from builder.model.figure import add, named, nothing, smallest
from builder.model.food import FLESH_KINDS, Composition, Food
from builder.model.recipe import Ingredient, Recipe
from builder.model.trip import Label
from builder.planning.foods.hazards import is_game, is_minced
from builder.planning.foods.water_back import NO_WATER, WaterBack, water_back
from builder.planning.tracing import look_up, work
from builder.problems import Problem, ProblemsFound
from builder.record import dataclass, replace

# What 100 g of a food hold besides water, energy and caffeine.
_HELD = ("protein_g", "fat_g", "carbohydrate_g", "fibre_g", "sodium_mg", "ash_g", "alcohol_g")
_WATER = Composition(water_g=named(100.0, "water_g (of water)", "common-practice"), energy_kcal=0.0)


@dataclass(frozen=True, slots=True)
class Substance:
    """Something to dry, cook or eat, with its composition before any drying of ours."""

    id: str
    name: str
    kind: str
    composition: Composition
    foods: tuple[Food, ...]  # what it is made of
    density_g_ml: float | None = None
    piece_g: float | None = None
    sorption: str | None = None
    state: str = "ready"  # as listed: raw, cooked, dried or ready
    keeps_months: float | None = None  # of this very food, dried, at 15.6 °C
    spread_share: float | None = None  # one standard deviation of its listed water
    takes_up_share: float | None = None  # of what drying took out, as its food tells it

    @property
    def kinds(self) -> frozenset[str]:
        """Every kind of food in it."""
        return frozenset((self.kind,)).union(*(food.kinds for food in self.foods))

    @property
    def allergens(self) -> frozenset[str]:
        """The allergens that are told of it."""
        return frozenset(name for food in self.foods for name in food.allergens or ())

    @property
    def may_contain(self) -> frozenset[str]:
        """The allergens of which traces are told, and no more."""
        return frozenset(name for food in self.foods for name in food.may_contain) - self.allergens

    @property
    def untold(self) -> tuple[Food, ...]:
        """Those of its foods whose allergens nobody told."""
        return tuple(food for food in self.foods if food.allergens is None)

    @property
    def has_flesh(self) -> bool:
        """Whether there is meat, poultry or fish in it."""
        return bool(self.kinds & FLESH_KINDS)

    @property
    def is_raw_animal(self) -> bool:
        """Whether it is raw meat, poultry, fish or egg itself; a whole meal has been cooked."""
        return self.kind != "meal" and any(food.is_raw_animal for food in self.foods)

    @property
    def is_game(self) -> bool:
        """Whether it is game, as far as it is told or its name tells."""
        return any(is_game(food) for food in self.foods)

    @property
    def is_minced(self) -> bool:
        """Whether it is minced, as far as its `cut` or its name tells."""
        return any(is_minced(food) for food in self.foods)


def energy_per_100g_kcal(composition: Composition) -> float:
    """Give the listed energy, or what protein, fat, carbohydrate and alcohol give."""
    if composition.energy_kcal is not None:
        return composition.energy_kcal
    return work(
        energy_kcal,
        composition.protein_g,
        composition.fat_g,
        composition.carbohydrate_g,
        smallest(composition.fibre_g, composition.carbohydrate_g),
        composition.alcohol_g,
    )


def substance_of_food(food: Food) -> Substance:
    """Give a food as a substance."""
    return Substance(
        food.id,
        food.name,
        food.kind,
        food.per_100g,
        (food,),
        food.density_g_ml,
        food.piece_g,
        food.sorption,
        food.state,
        food.keeps_months,
        food.spread_share,
        food.takes_up_share,
    )


def substance_of_label(label: Label) -> Substance:
    """Give a packet's label as a substance, of one food that tells what the label tells."""
    return substance_of_food(
        Food(
            label.name,
            label.name,
            "other",
            "ready",
            label.per_100g,
            allergens=label.allergens,
            may_contain=label.may_contain,
            contains=label.contains,
            beware=label.beware,
        )
    )


def cooked_g(recipe: Recipe, content: Content) -> float:
    """Give what a whole meal weighs once cooked: its ingredients and the water that stays."""
    return add(mass_g for _, mass_g in _parts(recipe, content))


def substance_of_recipe(recipe: Recipe, content: Content) -> Substance:
    """Give a whole cooked meal as a substance, mixed from its ingredients and cooking water."""
    foods = {
        food.id: food
        for ingredient in recipe.uses
        for food in substance_of_ingredient(ingredient, content).foods
    }
    return Substance(
        recipe.id,
        recipe.name,
        "meal",
        mixed(_parts(recipe, content)),
        tuple(foods.values()),
    )


def _parts(recipe: Recipe, content: Content) -> list[tuple[Composition, float]]:
    """Give what is in the pot, each part with its mass.

    Where it was weighed when it was done, its water is what that leaves beside all else: more or
    less than was poured in.
    """
    parts: list[tuple[Composition, float]] = []
    auto_ml: dict[str, float] = {}
    for ingredient in recipe.uses:
        substance = substance_of_ingredient(ingredient, content)
        carried, back = as_usually_dried(substance, ingredient.dried_by)
        parts.append((carried, ingredient.amount_g))
        auto_ml[ingredient.id] = back.poured_ml * ingredient.amount_g
    if recipe.cooked_g is not None:
        _refuse_lighter_than_solids(recipe, parts)
        parts.append((_WATER, recipe.cooked_g - add(mass_g for _, mass_g in parts)))
        return parts
    water_ml = add(
        add(auto_ml[name] for name in step.uses) if step.water_auto else step.water_ml
        for step in recipe.steps
        if step.water_auto or step.water_ml
    )
    parts.append((_WATER, water_ml - recipe.drain_ml if recipe.drain_ml else water_ml))
    return parts


def _refuse_lighter_than_solids(recipe: Recipe, parts: list[tuple[Composition, float]]) -> None:
    solids_g = sum(float(mass_g) * (1 - float(each.water_share)) for each, mass_g in parts)
    if recipe.cooked_g is not None and recipe.cooked_g <= solids_g:
        raise ProblemsFound(
            [
                Problem(
                    recipe.places.of("cooked"),
                    "cooked-too-light",
                    f"{recipe.id} weighs {recipe.cooked_g:.0f} g when it is done, and what goes in "
                    f"holds {solids_g:.0f} g without its water",
                    "check the weight and its unit, and the amounts",
                )
            ]
        )


def substance_of_ingredient(ingredient: Ingredient, content: Content) -> Substance:
    """Give what a line of a recipe names."""
    if ingredient.recipe:
        return substance_of_recipe(content.recipes[ingredient.recipe], content)
    return substance_of_food(content.foods[ingredient.food or ""])


def substance_named(name: str, content: Content) -> Substance:
    """Give the food with an id, or else the recipe with it."""
    if name in content.foods:
        return substance_of_food(content.foods[name])
    return substance_of_recipe(content.recipes[name], content)


def mixed(parts: list[tuple[Composition, float]]) -> Composition:
    """Give 100 g of a mixture of compositions by their mass."""
    total_g = add(mass_g for _, mass_g in parts)

    def mean(name: str, of: Callable[[Composition], float]) -> float:
        held = [(of(each), mass_g) for each, mass_g in parts]
        sum_g = add(part * mass_g for part, mass_g in held if part)
        return sum_g / total_g if sum_g else nothing(name)

    return Composition(
        water_g=mean("water_g", attrgetter("water_g")),
        energy_kcal=mean("energy_kcal", energy_per_100g_kcal),
        **{name: mean(name, attrgetter(name)) for name in _HELD},
        caffeine_mg=_mean_caffeine_mg(parts, total_g),
    )


def _mean_caffeine_mg(parts: list[tuple[Composition, float]], total_g: float) -> float | None:
    """Give the caffeine of those parts that tell theirs; None where none does."""
    told = [(each.caffeine_mg, mass_g) for each, mass_g in parts if each.caffeine_mg is not None]
    return add(caffeine * mass_g for caffeine, mass_g in told) / total_g if told else None


def concentrated(listed: Composition, residual_share: float) -> Composition:
    """Give 100 g of a food dried to a residual moisture: its solids, closer together."""
    factor = work(solids_factor, listed.water_share, residual_share)
    return replace(
        listed,
        water_g=residual_share * 100,
        energy_kcal=energy_per_100g_kcal(listed) * factor,
        **{name: getattr(listed, name) * factor for name in _HELD},
        caffeine_mg=None if listed.caffeine_mg is None else listed.caffeine_mg * factor,
    )


def as_usually_dried(substance: Substance, dried_by: str | None) -> tuple[Composition, WaterBack]:
    """Give the composition as carried where no batch is named, and the water to put back.

    What is not dried, was bought dried, or is drier than the method leaves it, is as listed.
    """
    listed = substance.composition
    if dried_by is None or dried_by == "bought":
        return listed, NO_WATER
    residual = look_up(usual_residual_share, dried_by, substance.kind)
    if listed.water_share <= residual:
        return listed, NO_WATER
    told = substance.takes_up_share
    back = water_back(substance.kind, told, dried_by, listed.water_share, residual)
    return concentrated(listed, residual), back
