"""What may share a dryer, and what a dryer takes: the rules of the trade, one by one."""

from __future__ import annotations

from collections.abc import Callable

from builder.formulas.heat_drying import CONDITIONING_DAYS as EVENS_OUT_DAYS
from builder.formulas.home_drying import OVEN_HOURS_FACTOR, most_on_trays_g
from builder.formulas.safety import heated_before_drying_c
from builder.model.batch import HEAT_METHODS, Heated, Method
from builder.model.food import FLESH_KINDS
from builder.model.gear import Dryer
from builder.planning.foods import Substance, is_pungent
from builder.planning.tracing import work
from builder.record import dataclass
from builder.speech import later

# Air in the dryer [°C] by what lies in it (common practice; leaflets agree within a few degrees).
RUN_AIR_C: dict[str, tuple[float, float]] = {
    "herb": (35.0, 45.0),
    "fruit": (52.0, 60.0),
    "vegetable": (52.0, 60.0),
    "legume": (57.0, 65.0),
    "grain": (57.0, 65.0),
    "meal": (57.0, 65.0),
    "nut": (40.0, 60.0),
    "other": (57.0, 65.0),
    "flesh": (57.0, 71.0),
}
# What is freeze-dried lies in the freezer before; heat-dried fruit evens out in a jar afterwards.
FREEZER_HOURS = 12.0
CONDITIONING_DAYS = int(min(EVENS_OUT_DAYS))
METHOD_NAMES: dict[Method, str] = {
    "dehydrator": later("dehydrator"),
    "freeze-dryer": later("freeze-dryer"),
    "oven": later("oven"),
    "sun": later("place in the sun"),
    "bought": later("bought"),
}


@dataclass(frozen=True, slots=True)
class Goes:
    """How something goes into a dryer."""

    substance: Substance
    method: Method
    eaten_as_it_is: bool  # no step heats it before it is eaten
    heated: Heated | None = None  # all through, before it goes in

    @property
    def is_raw_animal(self) -> bool:
        """Whether it lies in the dryer as raw meat, poultry, fish or egg."""
        return self.substance.is_raw_animal and self.heated is None

    @property
    def air_c(self) -> tuple[float, float] | None:
        """How warm the air may be; None where no warm air dries it."""
        if self.method not in HEAT_METHODS:
            return None
        kind = "flesh" if self.substance.kind in FLESH_KINDS else self.substance.kind
        return RUN_AIR_C.get(kind, RUN_AIR_C["other"])


def evens_out(kind: str, method: Method) -> bool:
    """Tell whether it evens out in a jar once it is dry: fruit that warm air dried."""
    return kind == "fruit" and method in HEAT_METHODS


def heated_before(substance: Substance, method: Method) -> Heated | None:
    """Give the heat step of raw meat, poultry and fish, without which warm air hardens germs."""
    raw_flesh = substance.is_raw_animal and substance.kind in FLESH_KINDS
    if method not in HEAT_METHODS or not raw_flesh:
        return None
    return Heated(heated_before_drying_c(substance.kind, substance.is_game), "before")


# -- what may not share a run ---------------------------------------------------------------------


def temperatures_miss(one: Goes, other: Goes) -> bool:
    """No warmth of the air suits both."""
    return not _meet(one.air_c, other.air_c)


def raw_with_other(one: Goes, other: Goes) -> bool:
    """Raw animal food dries alone, away also from another raw animal food."""
    raw = one.is_raw_animal or other.is_raw_animal
    return raw and one.substance.id != other.substance.id


def meat_with_eaten_as_it_is(one: Goes, other: Goes) -> bool:
    """Meat or fish, also in a meal, beside what nobody heats before it is eaten."""
    return any(
        flesh.substance.has_flesh and plain.eaten_as_it_is and not plain.substance.has_flesh
        for flesh, plain in ((one, other), (other, one))
    )


def smell_with_fruit(one: Goes, other: Goes) -> bool:
    """Onion, garlic or fish beside fruit, which takes their smell."""
    return any(
        _smells(strong.substance) and mild.substance.kind == "fruit"
        for strong, mild in ((one, other), (other, one))
    )


# Each tells whether two things must not lie in one run.
APART: dict[str, Callable[[Goes, Goes], bool]] = {
    "temperatures": temperatures_miss,
    "raw-alone": raw_with_other,
    "meat-and-ready": meat_with_eaten_as_it_is,
    "smell-and-fruit": smell_with_fruit,
}


def may_share(one: Goes, other: Goes) -> bool:
    """Tell whether two things may lie in one run."""
    return not any(apart(one, other) for apart in APART.values())


def _smells(substance: Substance) -> bool:
    return "fish" in substance.kinds or any(is_pungent(food) for food in substance.foods)


def _meet(one: tuple[float, float] | None, other: tuple[float, float] | None) -> bool:
    if one is None or other is None:
        return True
    return max(one[0], other[0]) <= min(one[1], other[1])


# -- what a dryer takes ---------------------------------------------------------------------------


def suits(dryer: Dryer, goes: Goes) -> bool:
    """Tell whether a dryer dries by the wanted method, and can be set to the warmth it takes."""
    if dryer.method != goes.method:
        return False
    air_c = goes.air_c
    if air_c is None:
        return True
    coldest_c = air_c[0] if dryer.from_c is None else dryer.from_c
    warmest_c = air_c[1] if dryer.to_c is None else dryer.to_c
    return _meet(air_c, (coldest_c, warmest_c))


def most_load_g(dryer: Dryer) -> float:
    """Give the fresh food that a dryer takes at once, by its load and its trays."""
    if dryer.trays_cm2 is None:
        return dryer.load_g
    return min(dryer.load_g, work(most_on_trays_g, dryer.trays_cm2, dryer.method))


def hours_in(dryer: Dryer, goes: Goes) -> float:
    """Give how long something takes: its own hours in warm air, else the dryer's."""
    foods = goes.substance.foods
    own_hours = foods[0].dryer_hours if len(foods) == 1 else None
    if own_hours is None or goes.substance.kind == "meal":
        return dryer.hours
    if dryer.method == "dehydrator":
        return own_hours
    return own_hours * OVEN_HOURS_FACTOR if dryer.method == "oven" else dryer.hours
