"""Walks a recipe's steps with one pot, for this party at this height."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.formulas.baking import BELOW_SHARE, embers_to_bake
from builder.formulas.embers import HAND_TEST
from builder.formulas.fire import EMBER_MIN, iron_minutes, iron_wood_g
from builder.formulas.heat import (
    FOOD_AS_WATER_SHARE,
    FOOD_ROOM_ML_PER_G,
    fry_fuel_kj,
    fuel_mass_g,
    pot_heat_kj,
    simmer_fuel_kj,
    snow_to_boil_kj,
    water_heat_kj,
    whole_units,
)
from builder.model.figure import add, add_counts, counted, largest, named, none, nothing
from builder.model.food import BY_CENTRE_TEMPERATURE
from builder.model.gear import Pot
from builder.model.kit import Conditions, PlannedIngredient, PlannedStep
from builder.model.recipe import Recipe
from builder.model.trip import Heat
from builder.planning.cooking.cooked import NO_WATER, NO_WOOD, Cooked
from builder.planning.cooking.hearth import Hearth
from builder.planning.tracing import count, work
from builder.record import dataclass, field, replace

# What each potful takes for itself, one after the other.
IN_TURN = frozenset({"boil", "simmer", "fry", "bake"})
# What embers heat: irons, and a lidded pot among them.
ON_EMBERS = frozenset({"press", "bake"})
_OVER_FLAME = frozenset({"boil", "simmer", "fry"})
_FOOD_ROOM_ML_G = named(FOOD_ROOM_ML_PER_G, "food_room_ml_g", "common-practice")
_FOOD_AS_WATER_SHARE = named(FOOD_AS_WATER_SHARE, "food_as_water_share", "common-practice")
_NO_FOOD: float = nothing("food_g")


@dataclass(frozen=True, slots=True)
class Ready:
    """An ingredient scaled for those who eat, with what the walk needs to know of it."""

    planned: PlannedIngredient
    kind: str
    auto_water_ml: float
    taken_up_ml: float = 0.0  # of it


def _with(before: float, more: float) -> float:
    """Add to what is there; where there is nothing yet, no zero is written before it."""
    if before is NO_WATER or before is _NO_FOOD:
        return more
    return before if more is NO_WATER or more is _NO_FOOD else before + more


def _times(amount: float, share: float) -> float:
    """Give a share of what there is; where there is nothing, no zero is written."""
    return amount if amount is NO_WATER or amount is _NO_FOOD else amount * share


@dataclass(slots=True)
class PotState:
    """The pot's state while the steps are walked."""

    food_g: float = _NO_FOOD
    water_ml: float = NO_WATER
    most_ml: float = NO_WATER
    unboiled_ml: float = NO_WATER
    unheated_food_g: float = _NO_FOOD
    boiled_ml: float = NO_WATER
    boiled_food_g: float = _NO_FOOD
    boils: bool = False
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
        if self.food_g is not _NO_FOOD:
            full_ml = full_ml + _FOOD_ROOM_ML_G * self.food_g
        self.most_ml = full_ml if self.most_ml is NO_WATER else largest(self.most_ml, full_ml)

    def boil(self) -> None:
        """Bring all that was not boiled before to the boil."""
        self.boiled_ml = _with(self.boiled_ml, self.unboiled_ml)
        self.boiled_food_g = _with(self.boiled_food_g, self.unheated_food_g)
        self.unboiled_ml, self.unheated_food_g = NO_WATER, _NO_FOOD
        self.boils = True

    def part(self, share: float) -> PotState:
        """Take a share of all that is in the pot out of it, into another."""
        taken = PotState(
            food_g=_times(self.food_g, share),
            water_ml=_times(self.water_ml, share),
            unboiled_ml=_times(self.unboiled_ml, share),
            unheated_food_g=_times(self.unheated_food_g, share),
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


def cook(
    recipe: Recipe,
    ready: Mapping[str, Ready],
    servings: float,
    conditions: Conditions,
    hearth: Hearth,
    *,
    has_embers: bool = False,
) -> Cooked:
    """Cook a recipe for so many servings: water, potfuls, presses, heat, minutes.

    Where another dish of the same meal `has_embers`, they are not made a second time.
    """
    state = PotState()
    steps = tuple(walked(state, recipe, ready, servings, conditions, hearth=hearth))
    fires = counted(0 if has_embers else 1, "fires")
    return heated(recipe, state, steps, conditions, hearth, fires=fires)


def walked(
    state: PotState,
    recipe: Recipe,
    ready: Mapping[str, Ready],
    servings: float,
    conditions: Conditions,
    *,
    hearth: Hearth,
    steps: slice = slice(None),
) -> Iterator[PlannedStep]:
    """Walk the steps of a recipe, or some of them, and let the pot follow."""
    scale = servings / recipe.serves
    for step in recipe.steps[steps]:
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
        hot = step.do in ("boil", "simmer", "rest") or (step.do == "soak" and step.hot)
        factor = conditions.time_factor if hot and step.minutes and state.goes_by_height else 1.0
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
    over_flame = state.boils or any(step.do in ("simmer", "fry") for step in steps)
    bakes = any(step.do == "bake" for step in steps)
    heats_pot = over_flame or bakes
    if recipe.cook_in == "mug":
        # Only the water is boiled, alone, and poured over what is in the mugs.
        most_ml, food_g = state.boiled_ml, _NO_FOOD
        pot, potfuls = hearth.pot_for(most_ml)
    else:
        most_ml, food_g = state.most_ml, state.boiled_food_g
        pot, potfuls = hearth.pot_for(most_ml, bakes)
    if not heats_pot:  # nothing is heated, so it need not all be in the pot at once
        most_ml, potfuls = NO_WATER, none("potfuls")
    filled = potfuls if state.boils else none("potfuls")
    heat_kj = boil_heat_kj(state.boiled_ml, food_g, pot, filled, conditions)
    burner = hearth.burner_for(most_ml, potfuls) if over_flame else None
    fuel_kj: float = nothing("fuel_heat_kj")
    minutes = 0.0
    if burner is not None:
        fuel_kj = burner.fuel_heat_kj(heat_kj, conditions)
        minutes = burner.minutes(heat_kj, conditions)
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
    boiling_min = minutes
    minutes += add(
        step.minutes * max(potfuls, 1) if step.do in IN_TURN else step.minutes for step in steps
    )
    pressing_min = add(
        work(iron_minutes, step.presses, step.each_side_min) for step in steps if step.do == "press"
    )
    presses = add_counts(step.presses for step in steps if step.do == "press")
    wood_g: float = NO_WOOD
    baking_min = add(step.minutes * max(potfuls, 1) for step in steps if step.do == "bake")
    pot_min: float = nothing("pot_min")
    if burner and burner.on == "embers":  # they keep it hot, and the flames are gone
        fuel_kj = nothing("fuel_heat_kj")
        pot_min = boiling_min + add(
            step.minutes * max(potfuls, 1) for step in steps if step.do in _OVER_FLAME
        )
    on_embers = bakes or presses > 0 or (burner is not None and burner.on == "embers")
    on: Heat | None = burner.on if burner else ("fire" if on_embers else None)
    if burner and burner.on == "fire":
        wood_g = work(fuel_mass_g, fuel_kj, hearth.wood_mj_kg)
    ember_wood_g: float = NO_WOOD
    if on_embers:
        ember_wood_g = work(iron_wood_g, add((pressing_min, baking_min, pot_min)), fires)
    return Cooked(
        steps=tuple(_with_embers(each, pot) if each.do == "bake" else each for each in steps),
        water_ml=add(step.water_ml for step in steps),
        soak_water_ml=add(step.water_ml for step in steps if step.do == "soak"),
        unboiled_water_ml=state.unboiled_ml,
        pot=pot,
        potfuls=potfuls,
        most_ml=most_ml,
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
