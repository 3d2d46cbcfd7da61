"""The heat a trip has: its stoves or open fire, its pots, its irons."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

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
from builder.model.figure import Figure, Named, counted, guarded, holds, named, none
from builder.model.gear import BAKES_IN, Fuel, Iron, Pot, Stove, StoveTest
from builder.model.kit import Conditions
from builder.model.place import Place
from builder.model.trip import Fire, Heat, Trip, Wind
from builder.planning.refusals import told_at
from builder.planning.tracing import count, work
from builder.record import dataclass, replace


def wind_factor(wind: Wind, told_at: Place | None = None) -> Figure:
    """Give what the wind leaves of a burner's heat."""
    name = f"wind_factor ({wind})"
    return Figure(WIND_FACTOR[wind], Named(name, "common-practice", told_at))


@dataclass(frozen=True, slots=True)
class Burner:
    """What heats a pot: a stove, or a fire under it."""

    on: Heat
    power_w: float
    lowest_w: float
    efficiency_share: float
    stove: str | None = None  # which of the trip's, by its key

    def fuel_heat_kj(self, heat_kj: float, at: Conditions) -> float:
        """Give the heat the fuel must hold for a useful heat in the wind of a camp."""
        return work(fuel_heat_kj, heat_kj, self.efficiency_share, at.wind_factor)

    def minutes(self, heat_kj: float, at: Conditions) -> float:
        """Give how long a useful heat takes at full power in the wind of a camp."""
        return work(heating_min, heat_kj, self.efficiency_share, at.wind_factor, self.power_w)


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
class OneStove:
    """One of a trip's stoves, with what it burns."""

    key: str  # its id; of several that are alike also which of them
    name: str
    stove: Stove
    fuel: Fuel
    burner: Burner
    test: StoveTest | None  # one's own: the trip's of its first stove, or else that of the gear


@dataclass(frozen=True, slots=True)
class Hearth:
    """A trip's means of cooking."""

    burner: Burner | None  # what pots stand over where nothing else is told: the first stove
    stoves: tuple[OneStove, ...]
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

    def as_told(
        self, heat: Heat | None, pot: str | None = None, stove: str | None = None
    ) -> Hearth:
        """Give what one dish is cooked on and in, where that is told; all else as it is.

        Over embers a pot gets what it gets over an open fire, as long as they last.
        """
        pots = tuple(each for each in self.pots if each.id == pot) if pot else self.pots
        burner = self.burner
        if heat in ("fire", "embers") and (burner is None or burner.on != heat):
            burner = fire_under(0.0, 0, heat)
        elif stove is not None and heat in (None, "stove"):
            burner = next(each.burner for each in self.stoves if each.key == stove)
        if burner is self.burner and pots is self.pots:
            return self
        return replace(self, burner=burner, pots=pots)

    def stove(self, key: str | None) -> OneStove | None:
        """Give one of its stoves; the first where it is not said which."""
        return next((each for each in self.stoves if key in (None, each.key)), None)

    def burner_for(self, volume_ml: float, potfuls: int) -> Burner | None:
        """Give what heats so much in so many potfuls: a stove as it is, a fire to the pot."""
        if self.burner is None or self.burner.on == "stove":
            return self.burner
        return fire_under(volume_ml, potfuls, self.burner.on)


def hearth_of(trip: Trip, content: Content) -> Hearth:
    """Give what a trip cooks on: pots on the stoves where there are any, irons over the fire."""
    gear = content.gear
    stoves = tuple(_stoves(trip, content))
    fire = trip.fire if trip.fire and trip.fire.allowed else None
    burner = None
    if stoves:
        burner = stoves[0].burner
    elif fire:
        burner = fire_under(0.0, 0)
    return Hearth(
        burner=burner,
        stoves=stoves,
        pots=tuple(gear.pots[name] for name in _unique(trip.pots)),
        irons=tuple(gear.irons[name] for name in fire.irons) if fire else (),
        wood_mj_kg=_wood_mj_kg(fire),
    )


def _stoves(trip: Trip, content: Content) -> Iterator[OneStove]:
    """Give each stove; of two that are alike the second is called so."""
    taken: Counter[str] = Counter()
    for number, name in enumerate(trip.stoves):
        stove = content.gear.stoves[name]
        fuel = content.gear.fuels[stove.burns]
        taken[name] += 1
        key, called = name, stove.name
        if taken[name] > 1:
            key, called = f"{name} {taken[name]}", f"{stove.name} ({taken[name]})"
        test = (trip.stove_test if number == 0 else None) or stove.test
        share = stove.efficiency_share
        if test is not None:
            place = trip.places.of("stove") if number == 0 and trip.stove_test else None
            share = _tested_share(test, fuel, place or stove.places.of("boiled"))
        assert share is not None, "a stove tells its efficiency or a test"
        burner = Burner("stove", stove.power_w, stove.lowest_w, share, key)
        yield OneStove(key, called, stove, fuel, burner, test)


def _wood_mj_kg(fire: Fire | None) -> float:
    """Give the heat in the wood as it lies: of its species, where the trip tells it."""
    if fire is None:
        return work(wood_heating_value_mj_kg, 0.0)
    if fire.wood:
        return species_mj_kg(fire.wood, fire.wood_moisture_share)
    return work(wood_heating_value_mj_kg, fire.wood_moisture_share)


def _tested_share(test: StoveTest, fuel: Fuel, place: Place) -> float:
    with told_at(place, "boiled"):
        efficiency_from_test(
            test.boiled_ml, test.from_c, test.fuel_g, fuel.energy_mj_kg, test.altitude_m
        )
        boils_c = work(boiling_point_c, work(pressure_hpa, test.altitude_m))
        taken_kj = work(water_heat_kj, test.boiled_ml, test.from_c, boils_c)
    return taken_kj / (test.fuel_g * fuel.energy_mj_kg)


def _unique(names: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(names))
