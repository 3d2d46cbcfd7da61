"""What it takes to heat what was put into a pot: which pot, how often, over what, how long."""

from __future__ import annotations

from collections.abc import Sequence, Set

from builder.formulas.baking import BELOW_SHARE, embers_to_bake
from builder.formulas.embers import HAND_TEST
from builder.formulas.fire import EMBER_MIN, iron_minutes, iron_wood_g
from builder.formulas.heat import (
    FOOD_AS_WATER_SHARE,
    fry_fuel_kj,
    fuel_mass_g,
    pot_heat_kj,
    simmer_fuel_kj,
    snow_to_boil_kj,
    water_heat_kj,
)
from builder.model.figure import add, add_counts, named, none, nothing
from builder.model.gear import Pot
from builder.model.kit import Conditions, PlannedStep
from builder.model.recipe import OVER_FLAME, Recipe
from builder.model.trip import Heat
from builder.planning.cooking.cooked import NO_WATER, NO_WOOD, Cooked
from builder.planning.cooking.hearth import Burner, Hearth
from builder.planning.cooking.walking import NO_FOOD, PotState
from builder.planning.tracing import work
from builder.record import dataclass, replace

# What embers heat: irons, and a lidded pot among them.
ON_EMBERS = frozenset({"press", "bake"})
# What each potful takes for itself, one after the other.
_IN_TURN = OVER_FLAME | {"bake"}
_FOOD_AS_WATER_SHARE = named(FOOD_AS_WATER_SHARE, "food_as_water_share", "common-practice")


def heated(
    recipe: Recipe,
    state: PotState,
    steps: tuple[PlannedStep, ...],
    conditions: Conditions,
    hearth: Hearth,
    *,
    fires: float,
) -> Cooked:
    """Give what it takes to heat what was in the pot."""
    filled = _filled(recipe, state, steps, hearth)
    pot, potfuls = filled.pot, filled.potfuls
    boiled = potfuls if state.boils else none("potfuls")
    heat_kj = boil_heat_kj(state.boiled_ml, filled.food_g, pot, boiled, conditions)
    burner = hearth.burner_for(filled.most_ml, potfuls) if filled.over_flame else None
    fuel_kj = _fuel_kj(heat_kj, filled, steps, burner, conditions)
    boiling_min = burner.minutes(heat_kj, conditions) if burner else 0.0
    pressing_min = add(
        work(iron_minutes, step.presses, step.each_side_min) for step in steps if step.do == "press"
    )
    presses = add_counts(step.presses for step in steps if step.do == "press")
    # Over embers, that keep a pot hot when the flames are gone.
    pot_min: float = nothing("pot_min")
    if burner and burner.on == "embers":
        pot_min = boiling_min + _in_turn_min(steps, OVER_FLAME, potfuls)
    on_embers = filled.bakes or presses > 0 or (burner is not None and burner.on == "embers")
    ember_wood_g: float = NO_WOOD
    if on_embers:
        baking_min = _in_turn_min(steps, {"bake"}, potfuls)
        ember_wood_g = work(iron_wood_g, add((pressing_min, baking_min, pot_min)), fires)
    wood_g: float = NO_WOOD
    if burner and burner.on == "fire":
        wood_g = work(fuel_mass_g, fuel_kj, hearth.wood_mj_kg)
    on: Heat | None = burner.on if burner else ("fire" if on_embers else None)
    minutes = boiling_min + add(
        step.minutes * max(potfuls, 1) if step.do in _IN_TURN else step.minutes for step in steps
    )
    return Cooked(
        steps=tuple(_with_embers(each, pot) if each.do == "bake" else each for each in steps),
        water_ml=add(step.water_ml for step in steps),
        soak_water_ml=add(step.water_ml for step in steps if step.do == "soak"),
        unboiled_water_ml=state.unboiled_ml,
        pot=pot,
        potfuls=potfuls,
        most_ml=filled.most_ml,
        presses=presses,
        heat_kj=heat_kj,
        fuel_heat_kj=fuel_kj,
        wood_g=add((wood_g, ember_wood_g)),
        ember_wood_g=ember_wood_g,
        minutes=minutes + pressing_min,
        embers_min=named(EMBER_MIN, "ember_min", "common-practice")
        if on_embers
        else nothing("ember_min"),
        cooked_on=on,
        stove=burner.stove if burner else None,
    )


@dataclass(frozen=True, slots=True)
class _Filled:
    """A pot as it is heated: how often, how full, with how much food in what boils."""

    pot: Pot | None
    potfuls: int
    most_ml: float
    food_g: float
    over_flame: bool
    bakes: bool


def _filled(
    recipe: Recipe, state: PotState, steps: Sequence[PlannedStep], hearth: Hearth
) -> _Filled:
    over_flame = state.boils or any(step.do in ("simmer", "fry") for step in steps)
    bakes = any(step.do == "bake" for step in steps)
    if recipe.cook_in == "mug":
        # Only the water is boiled, alone, and poured over what is in the mugs.
        most_ml, food_g = state.boiled_ml, NO_FOOD
        pot, potfuls = hearth.pot_for(most_ml)
    else:
        most_ml, food_g = state.most_ml, state.boiled_food_g
        pot, potfuls = hearth.pot_for(most_ml, bakes)
    if not over_flame and not bakes:  # nothing is heated, so it need not all be in at once
        most_ml, potfuls = NO_WATER, none("potfuls")
    return _Filled(pot, potfuls, most_ml, food_g, over_flame, bakes)


def _fuel_kj(
    heat_kj: float,
    filled: _Filled,
    steps: Sequence[PlannedStep],
    burner: Burner | None,
    conditions: Conditions,
) -> float:
    """Give the heat that the fuel under a pot must hold: to boil it, and for each step after."""
    if burner is None or burner.on == "embers":
        return nothing("fuel_heat_kj")
    pot, potfuls = filled.pot, filled.potfuls
    fuel_kj = burner.fuel_heat_kj(heat_kj, conditions)
    for step in steps:
        # A hard boil takes what a simmer does, after what brings it there.
        if step.do in ("boil", "simmer") and pot is not None:
            fuel_kj += potfuls * work(
                simmer_fuel_kj,
                pot.loss_at_boil_w,
                burner.efficiency_share,
                burner.lowest_w,
                step.minutes,
            )
        elif step.do == "fry":
            fuel_kj += max(potfuls, 1) * work(fry_fuel_kj, burner.power_w, step.minutes)
    return fuel_kj


def _in_turn_min(steps: Sequence[PlannedStep], doings: Set[str], potfuls: int) -> float:
    """Give how long some doings take, of all potfuls one after the other."""
    return add(step.minutes * max(potfuls, 1) for step in steps if step.do in doings)


def _with_embers(step: PlannedStep, pot: Pot | None) -> PlannedStep:
    """Say how many embers a pot is baked in, and how to feel that they are hot enough."""
    pieces: float = nothing("ember_pieces")
    if pot is not None and pot.diameter_cm is not None:
        pieces = work(embers_to_bake, pot.diameter_cm, step.baking_c)
    rows = [row for row in HAND_TEST if row[2] <= step.baking_c] or [HAND_TEST[-1]]
    below_share = named(BELOW_SHARE, "below_share", "common-practice")
    return replace(
        step,
        ember_pieces=pieces,
        ember_pieces_below=pieces * below_share if pieces else nothing("ember_pieces"),
        palm_s=named(rows[0][0], "palm_s", "hand-test"),
    )


def boil_heat_kj(
    water_ml: float, food_g: float, pot: Pot | None, potfuls: int, conditions: Conditions
) -> float:
    """Give the useful heat to boil water with food in it, and the pot each time it is filled."""
    start_c, boil_c = conditions.water_c, conditions.boiling_point_c
    if conditions.water_source == "snow":
        heat_kj = work(snow_to_boil_kj, water_ml, conditions.air_low_c, boil_c)
    else:
        heat_kj = work(water_heat_kj, water_ml, start_c, boil_c)
    heat_kj += work(water_heat_kj, _FOOD_AS_WATER_SHARE * food_g, start_c, boil_c)
    if pot is not None:
        heat_kj += potfuls * work(pot_heat_kj, pot.mass_g, pot.material, start_c, boil_c)
    return heat_kj
