"""Where the fuel goes, how much of it to take, and in which containers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from builder.formulas.cookware import open_pot_range_g
from builder.formulas.fuel_ranges import least_burnt_g, most_burnt_g
from builder.formulas.heat import fuel_mass_g
from builder.formulas.load import least_containers
from builder.model.figure import add, added, counted, largest, nothing
from builder.model.gear import Fuel
from builder.model.kit import (
    ContainerCount,
    FuelDay,
    KitFuel,
    KitStove,
    StoveDay,
    WaterDay,
)
from builder.model.recipe import MealName
from builder.model.trip import Day, Trip, Wind
from builder.planning.cooking import CookingPlaces, Hearth, OneStove
from builder.planning.menu import MenuItem
from builder.planning.needs.water_heat import HeatedWater, boiled, melted
from builder.planning.refusals import told_at
from builder.planning.tracing import work, work_range
from builder.problems import Problem, ProblemsFound

StoveFigure = Literal["fuel_g", "low_g", "high_g"]


def fuel_day(
    day: Day,
    places: CookingPlaces,
    menu: Sequence[MenuItem],
    water: WaterDay,
    hearth: Hearth,
) -> FuelDay:
    """Give the fuel of one day: meals, melting snow, boiling water to make it safe."""
    waters = melted(day, places, menu, water, hearth), boiled(day, places, menu, water, hearth)
    melting, boiling = (each.told for each in waters)
    if hearth.burner is None and (melting.volume_ml or boiling.volume_ml):
        what = "snow is melted" if melting.volume_ml else "water is boiled to make it safe"
        raise ProblemsFound(
            [
                Problem(
                    day.places.of("water"),
                    "no-heat",
                    f"day {day.number}: {what}, and this trip has neither stove nor fire",
                    "name a stove (`stove: {use: …}`) or allow a fire",
                )
            ]
        )
    meals_kj = add(each.planned.fuel_heat_kj for each in menu)
    waters_kj = (melting.fuel_kj, boiling.fuel_kj)
    wood_g, wood_low_g, wood_high_g = _wood_g(menu, waters_kj, hearth)
    stoves = tuple(_stove_day(each, menu, waters, hearth) for each in hearth.stoves)
    return FuelDay(
        meals_kj=meals_kj,
        melting_kj=melting.fuel_kj,
        boiling_water_kj=boiling.fuel_kj,
        melting=melting,
        boiling=boiling,
        water_minutes=add((melting.minutes, boiling.minutes)),
        fuel_g=_of_all(stoves, "fuel_g"),
        low_g=_of_all(stoves, "low_g"),
        high_g=_of_all(stoves, "high_g"),
        wood_g=wood_g,
        wood_low_g=wood_low_g,
        wood_high_g=wood_high_g,
        stoves=stoves,
    )


def _of_all(stoves: Sequence[StoveDay], name: StoveFigure) -> float:
    """Add up what all stoves burn."""
    return added(getattr(each, name) for each in stoves) if stoves else nothing(name)


def _stove_day(
    one: OneStove, menu: Sequence[MenuItem], waters: Sequence[HeatedWater], hearth: Hearth
) -> StoveDay:
    """Give what one stove burns: the first one for all water that is heated by itself, too."""
    first = hearth.stoves[0]
    own = [each for each in menu if (each.planned.stove or first.key) == one.key]
    heats_kj = [each.planned.fuel_heat_kj for each in own if not _burns_wood(each)]
    heated = waters if one is first else ()
    fuel_kj = add((add(heats_kj), *(each.told.fuel_kj for each in heated)))
    low_g, high_g = _stove_range_g(own, heated, one.fuel)
    return StoveDay(one.key, work(fuel_mass_g, fuel_kj, one.fuel.energy_mj_kg), low_g, high_g)


def _burns_wood(each: MenuItem) -> bool:
    """Tell whether flames of wood heat a dish; irons and embers are counted apart."""
    return each.planned.cooked_on == "fire" and each.planned.fuel_heat_kj > 0


def _stove_range_g(
    menu: Sequence[MenuItem], waters: Sequence[HeatedWater], fuel: Fuel
) -> tuple[float, float]:
    """Give the least and the most fuel of a stove, by the wind of the camp it burns at."""
    burnt: dict[Wind, list[float]] = {}
    lit: dict[Wind, set[MealName]] = {}
    for wind, fuel_kj in (each for water in waters for each in water.fuel_by_wind):
        burnt.setdefault(wind, []).append(fuel_kj)
    for each in menu:
        if _burns_wood(each):
            continue
        camp_wind = each.planned.conditions.wind
        burnt.setdefault(camp_wind, []).append(each.planned.fuel_heat_kj)
        if each.planned.cooked_on == "stove":
            lit.setdefault(camp_wind, set()).add(each.planned.meal)
    lows, highs = [], []
    for camp_wind, heats_kj in burnt.items():
        likely_g = work(fuel_mass_g, add(heats_kj), fuel.energy_mj_kg)
        lightings = counted(len(lit.get(camp_wind, ())), "lightings")
        lows.append(work(least_burnt_g, likely_g, fuel.kind, camp_wind))
        highs.append(work(most_burnt_g, likely_g, lightings, fuel.kind, camp_wind))
    return add(lows), add(highs)


def _wood_g(
    menu: Sequence[MenuItem], waters_kj: Sequence[float], hearth: Hearth
) -> tuple[float, float, float]:
    """Give the wood under pots and for embers: likely, least, most."""
    embers_g = add(each.planned.ember_wood_g for each in menu)
    pots_g = add(())
    over_fire = hearth.burner is not None and hearth.burner.on == "fire"
    if over_fire or any(_burns_wood(each) for each in menu):
        meals_kj = add(each.planned.fuel_heat_kj for each in menu if _burns_wood(each))
        heats_kj = (meals_kj, *waters_kj) if over_fire else (meals_kj,)
        pots_g = work(fuel_mass_g, add(heats_kj), hearth.wood_mj_kg)
    never = counted(0, "lightings")
    wind = "sheltered"  # it widens the range of gas alone
    fires = ((pots_g, "wood"), (embers_g, "embers"))
    return (
        pots_g + embers_g,
        add(work(least_burnt_g, likely_g, burns, wind) for likely_g, burns in fires),
        add(work(most_burnt_g, likely_g, never, burns, wind) for likely_g, burns in fires),
    )


def kit_fuels(
    trip: Trip,
    hearth: Hearth,
    days: Sequence[FuelDay],
    unlearned: Sequence[FuelDay] = (),
) -> tuple[KitFuel, ...]:
    """Give each fuel to take for the stoves, in whole containers; none without a stove.

    `unlearned` is what would be burnt if nothing had been learned: no less is carried.
    """
    burnt: dict[str, list[OneStove]] = {}
    for one in hearth.stoves:
        burnt.setdefault(one.fuel.id, []).append(one)
    return tuple(_kit_fuel(trip, stoves, days, unlearned) for stoves in burnt.values())


def _kit_fuel(
    trip: Trip,
    stoves: Sequence[OneStove],
    days: Sequence[FuelDay],
    unlearned: Sequence[FuelDay],
) -> KitFuel:
    first, fuel = stoves[0], stoves[0].fuel
    likely_g = _burnt(stoves, days, "fuel_g")
    carry_g = likely_g * (1 + trip.fuel_reserve_share)
    if unlearned:
        carry_g = largest(carry_g, _burnt(stoves, unlearned, "fuel_g"))
    containers: tuple[ContainerCount, ...] = ()
    if fuel.containers and carry_g > 0:
        sizes = [(each.holds_g, each.empty_g) for each in fuel.containers]
        with told_at(trip.places.of("stove"), "fuel"):
            counts = least_containers(carry_g, sizes)
        containers = tuple(
            ContainerCount(holds_g, empty_g, counted(count, "containers"))
            for (holds_g, empty_g), count in zip(sizes, counts, strict=True)
            if count
        )
    no_lid_low_g, no_lid_high_g = work_range(open_pot_range_g, likely_g)
    return KitFuel(
        id=fuel.id,
        name=fuel.name,
        stove=first.name,
        energy_mj_kg=fuel.energy_mj_kg,
        likely_g=likely_g,
        reserve_share=trip.fuel_reserve_share,
        carry_g=carry_g,
        containers=containers,
        efficiency_share=first.burner.efficiency_share,
        low_g=_burnt(stoves, days, "low_g"),
        high_g=_burnt(stoves, days, "high_g"),
        test=first.test,
        no_lid_low_g=no_lid_low_g,
        no_lid_high_g=no_lid_high_g,
        stoves=tuple(
            KitStove(
                each.key, each.name, each.burner.efficiency_share, _burnt([each], days, "fuel_g")
            )
            for each in stoves
        ),
    )


def _burnt(stoves: Sequence[OneStove], days: Sequence[FuelDay], name: StoveFigure) -> float:
    """Add up what some stoves burn over the trip."""
    keys = {each.key for each in stoves}
    return add(
        added(getattr(each, name) for each in day.stoves if each.stove in keys) for day in days
    )
