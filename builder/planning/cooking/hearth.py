"""The heat a trip has: its stove or open fire, its pots, its irons."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c
from builder.formulas.cookware import efficiency_from_test
from builder.formulas.embers import species_mj_kg
from builder.formulas.fire import (
    OPEN_FIRE_EFFICIENCY_SHARE,
    open_fire_lowest_w,
    open_fire_w,
    wood_heating_value_mj_kg,
)
from builder.formulas.heat import WIND_FACTOR, fuel_heat_kj, heating_min, water_heat_kj, whole_units
from builder.model.content import Content
from builder.model.figure import Figure, counted, guarded, holds, named, none
from builder.model.gear import BAKES_IN, Fuel, Iron, Pot, Stove, StoveTest
from builder.model.trip import Fire, Heat, Trip
from builder.planning.refusals import told_at
from builder.planning.tracing import count, work


def wind_factor(wind: str) -> Figure:
    """Give what the wind leaves of a burner's heat."""
    return named(WIND_FACTOR[wind], f"wind_factor ({wind})", "common-practice")


@dataclass(frozen=True, slots=True)
class Burner:
    """What heats a pot: a stove, or a fire under it."""

    on: Heat
    power_w: float
    lowest_w: float
    efficiency_share: float

    def fuel_heat_kj(self, heat_kj: float, wind: str) -> float:
        """Give the heat the fuel must hold for a useful heat in this wind."""
        return work(fuel_heat_kj, heat_kj, self.efficiency_share, wind_factor(wind))

    def minutes(self, heat_kj: float, wind: str) -> float:
        """Give how long a useful heat takes at full power in this wind."""
        return work(heating_min, heat_kj, self.efficiency_share, wind_factor(wind), self.power_w)


def fire_under(volume_ml: float, potfuls: int, on: Heat = "fire") -> Burner:
    """Give an open fire under so much in so many potfuls: it reaches round a fuller pot."""
    power_w = work(open_fire_w, volume_ml, potfuls or counted(1, "potfuls"))
    return Burner(
        on,
        power_w,
        work(open_fire_lowest_w, power_w),
        named(OPEN_FIRE_EFFICIENCY_SHARE, "open_fire_share", "jetter2009"),
    )


@dataclass(frozen=True, slots=True)
class Hearth:
    """A trip's means of cooking."""

    burner: Burner | None
    stove: Stove | None
    fuel: Fuel | None
    pots: tuple[Pot, ...]
    irons: tuple[Iron, ...]  # over the fire; none where there may be none
    wood_mj_kg: float

    @property
    def presses_at_once(self) -> int:
        """How many fillings the irons take together."""
        return sum(iron.presses for iron in self.irons)

    def pot_for(self, volume_ml: float, bakes: bool = False) -> tuple[Pot | None, int]:
        """Give the pot with the fewest potfuls, then the lightest, and the potfuls.

        What is baked takes a cast-iron pot. Guards beside the potfuls say that no other pot
        would be chosen.
        """
        pots = [each for each in self.pots if not bakes or each.material == BAKES_IN]
        if not pots or volume_ml <= 0:
            return None, none("potfuls")
        choice = [(count(whole_units, volume_ml, each.room_ml), each) for each in pots]
        choice.sort(key=lambda each: (each[0], each[1].mass_g, each[1].id))
        (potfuls, pot), *others = choice
        rank = (pot.mass_g, pot.id)
        guards = (
            holds(potfuls, "<=" if rank < (other.mass_g, other.id) else "<", others_potfuls)
            for others_potfuls, other in others
        )
        return pot, guarded(potfuls, *guards)

    def as_told(self, heat: Heat | None, pot: str | None = None) -> Hearth:
        """Give what one dish is cooked on and in, where the trip tells it; all else as it is.

        Over embers a pot gets what it gets over an open fire, as long as they last.
        """
        pots = tuple(each for each in self.pots if each.id == pot) if pot else self.pots
        if heat is None or (self.burner is not None and heat == self.burner.on):
            return self if pot is None else replace(self, pots=pots)
        burner = self.burner if heat == "stove" else fire_under(0.0, 0, heat)
        return replace(self, burner=burner, pots=pots)

    def burner_for(self, volume_ml: float, potfuls: int) -> Burner | None:
        """Give what heats so much in so many potfuls: a stove as it is, a fire to the pot."""
        if self.burner is None or self.burner.on == "stove":
            return self.burner
        return fire_under(volume_ml, potfuls, self.burner.on)


def hearth_of(trip: Trip, content: Content) -> Hearth:
    """Give what a trip cooks on: pots on the stove where there is one, irons over the fire."""
    gear = content.gear
    stove = gear.stoves[trip.stove] if trip.stove else None
    fire = trip.fire if trip.fire and trip.fire.allowed else None
    burner = None
    if stove:
        share = _tested_share(trip, stove, gear.fuels[stove.burns]) or stove.efficiency_share
        assert share is not None, "a stove tells its efficiency or a test"
        burner = Burner("stove", stove.power_w, stove.lowest_w, share)
    elif fire:
        burner = fire_under(0.0, 0)
    return Hearth(
        burner=burner,
        stove=stove,
        fuel=gear.fuels[stove.burns] if stove else None,
        pots=tuple(gear.pots[name] for name in _unique(trip.pots)),
        irons=tuple(gear.irons[name] for name in fire.irons) if fire else (),
        wood_mj_kg=_wood_mj_kg(fire),
    )


def _wood_mj_kg(fire: Fire | None) -> float:
    """Give the heat in the wood as it lies: of its species, where the trip tells it."""
    if fire is None:
        return work(wood_heating_value_mj_kg, 0.0)
    if fire.wood:
        return species_mj_kg(fire.wood, fire.wood_moisture_share)
    return work(wood_heating_value_mj_kg, fire.wood_moisture_share)


def stove_test(trip: Trip, stove: Stove) -> StoveTest | None:
    """Give one's own test of a stove: the trip's, or else the one in the list of gear."""
    return trip.stove_test or stove.test


def _tested_share(trip: Trip, stove: Stove, fuel: Fuel) -> float | None:
    test = stove_test(trip, stove)
    if test is None:
        return None
    place = trip.places.of("stove") if trip.stove_test else stove.places.of("boiled")
    with told_at(place, "boiled"):
        efficiency_from_test(
            test.boiled_ml, test.from_c, test.fuel_g, fuel.energy_mj_kg, test.altitude_m
        )
        boils_c = work(boiling_point_c, work(pressure_hpa, test.altitude_m))
        taken_kj = work(water_heat_kj, test.boiled_ml, test.from_c, boils_c)
    return taken_kj / (test.fuel_g * fuel.energy_mj_kg)


def _unique(names: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(names))
