"""What dried food costs, each way, and after how many runs a dryer has paid for itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.formulas.heat import whole_units
from builder.formulas.home_drying import food_cost, machine_cost
from builder.model.content import Content
from builder.model.figure import add, nothing
from builder.model.gear import LOOSE_PACKAGING, Dryer
from builder.planning.foods import Substance
from builder.planning.tracing import count, work
from builder.planning.ways.records import BOUGHT, Pays, PaysTerms
from builder.record import dataclass

_G_PER_KG = 1000.0
MACHINE = "machine"  # the part of a cost that is none of a single run


@dataclass(frozen=True, slots=True)
class Costs:
    """The parts of a cost, by name; None where a price was not told, which is never nothing."""

    way: str  # the dryer's id, or "bought"
    parts: Mapping[str, float | None]
    missing: Mapping[str, str]  # for each part without a price, the keys that would tell it
    portions: float
    runs: int = 1
    price: float | None = None  # of the dryer
    runs_a_year: float | None = None

    @property
    def whole(self) -> float | None:
        """All of it, where all is told."""
        return _sum(self.parts)

    @property
    def portion(self) -> float | None:
        """What one portion costs."""
        whole = self.whole
        return None if whole is None or not self.portions else whole / self.portions

    @property
    def a_run(self) -> float | None:
        """What one run costs, or as much food another way, without the machine."""
        return _sum({name: part for name, part in self.parts.items() if name != MACHINE})

    @property
    def not_told(self) -> tuple[str, ...]:
        """The keys that would tell all of it."""
        return tuple(self.missing.values())

    @property
    def not_told_of_a_run(self) -> tuple[str, ...]:
        """The keys that would tell what one run costs, without the machine."""
        return tuple(key for name, key in self.missing.items() if name != MACHINE)


def _sum(parts: Mapping[str, float | None]) -> float | None:
    told = [part for part in parts.values() if part is not None]
    return add(told) if len(told) == len(parts) else None


def costs_of(
    substance: Substance,
    fresh_g: float,
    dried_g: float,
    energy_kwh: float,
    runs: int,
    *,
    dryer: Dryer,
    content: Content,
) -> Costs:
    """Give what it costs to dry so much: food, current, bags, and the dryer's part."""
    home = content.home
    portions = dried_g / home.portion_g
    food = content.foods.get(substance.id)
    packaging = content.gear.packaging.get(home.new_batch.packaging or LOOSE_PACKAGING)
    parts: dict[str, float | None] = dict.fromkeys(("food", "current", "bags", MACHINE))
    missing: dict[str, str] = {}
    if food is not None and food.price_per_kg is not None:
        refuse = nothing("refuse_share") if food.refuse_share is None else food.refuse_share
        parts["food"] = work(food_cost, fresh_g, refuse, food.price_per_kg)
    else:
        missing["food"] = f"price of {substance.id}"
    if not energy_kwh:
        parts["current"] = nothing("current")
    elif home.electricity_per_kwh is not None:
        parts["current"] = energy_kwh * home.electricity_per_kwh
    else:
        missing["current"] = "electricity of home.yaml"
    if packaging is not None and packaging.price is not None:
        parts["bags"] = count(whole_units, dried_g, home.portion_g) * packaging.price
    else:
        missing["bags"] = f"price of {home.new_batch.packaging or LOOSE_PACKAGING}"
    if dryer.price is not None and dryer.lasts_runs is not None:
        parts[MACHINE] = work(machine_cost, runs, dryer.price, dryer.lasts_runs)
    else:
        missing[MACHINE] = f"price and lasts of {dryer.id}"
    return Costs(dryer.id, parts, missing, portions, runs, dryer.price, dryer.runs_a_year)


def bought_costs(substance: Substance, dried_g: float, content: Content) -> Costs:
    """Give what as much of it costs bought dried."""
    food = content.foods.get(substance.id)
    portions = dried_g / content.home.portion_g
    if food is None or food.dried_price_per_kg is None:
        missing = {"food": f"dried_price of {substance.id}"}
        return Costs(BOUGHT, {"food": None}, missing, portions)
    return Costs(BOUGHT, {"food": dried_g / _G_PER_KG * food.dried_price_per_kg}, {}, portions)


def pays_of(costs: Sequence[Costs]) -> Iterator[Pays]:
    """Give for each dryer after how many runs it has paid, against each other way."""
    for own in costs:
        if own.way == BOUGHT:
            continue
        for other in costs:
            if other is not own:
                yield _pays(own, other)


def _pays(own: Costs, other: Costs) -> Pays:
    own_cost, other_cost = own.a_run, other.a_run
    if own.price is None or own_cost is None or other_cost is None:
        of_own = own.not_told if own.price is None else own.not_told_of_a_run
        not_told = tuple(dict.fromkeys((*of_own, *other.not_told_of_a_run)))
        return Pays(own.way, other.way, None, None, not_told)
    # What is compared is one run of this dryer, and the food in it.
    terms = PaysTerms(own.price, own_cost / own.runs, other_cost / own.runs, own.runs_a_year)
    runs = terms.after_runs
    if runs < 0:
        return Pays(own.way, other.way, None, None, terms=terms)
    return Pays(own.way, other.way, int(runs), terms.after_years, terms=terms)
