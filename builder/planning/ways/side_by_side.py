"""The ways to dry a food, side by side: weight, room, water, hours, current, money, keeping."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence

from builder.formulas.freeze_drying import load_of_limit
from builder.formulas.heat import whole_units
from builder.formulas.home_drying import (
    FRESH_PIECES_G_ML,
    HEAT_DRIED_G_ML,
    bulk_density_g_ml,
    metered_kwh,
    room_ml,
    usual_kwh,
    vitamin_c_kept_share,
)
from builder.formulas.rehydration import SOAK_MIN, soak_range_min, takes_up_share
from builder.model.batch import HEAT_METHODS, WAYS_TO_DRY, Method
from builder.model.content import Content
from builder.model.figure import Count, found, named, nothing
from builder.model.food import EGG_AND_DAIRY, FLESH_KINDS
from builder.model.gear import Dryer
from builder.model.trip import ENGLISH
from builder.planning.batches import Judged, OwnBatches, judge, learned_of, own_batches, table_ratio
from builder.planning.drying import Goes, heated_before, hours_in, most_load_g
from builder.planning.foods import Substance, called, soaks_as, substance_named
from builder.planning.runs import as_batch, dryers_at_home
from builder.planning.stock import Stock
from builder.planning.tracing import count, look_up, work
from builder.planning.ways.costs import Costs, bought_costs, costs_of, pays_of
from builder.planning.ways.inputs import Changeable, inputs_of, leaf, with_leaves
from builder.planning.ways.records import BOUGHT, VitaminC, Way, Ways
from builder.speech import speech_of

_HOLDS_VITAMIN_C = frozenset({"fruit", "vegetable"})


def ways_to_dry(
    holds: str, fresh_g: float, content: Content, stock: Stock, at: datetime.date
) -> Ways:
    """Give the ways to dry so much of a food or whole meal, and when a dryer pays."""
    return _side_by_side(holds, found(fresh_g, "fresh_g", "asked for"), content, stock, at)


def _side_by_side(
    holds: str, fresh_g: float, content: Content, stock: Stock, at: datetime.date
) -> Ways:
    substance = substance_named(holds, content)
    own = own_batches(stock.judged.values())
    ways: list[Way] = []
    costs: list[Costs] = []
    for method in WAYS_TO_DRY:
        for dryer in _dryers(method, content):
            way, cost = _way(substance, fresh_g, dryer, content, own, at=at)
            ways.append(way)
            costs.append(cost)
    way, cost = _bought(substance, fresh_g, content)
    ways.append(way)
    costs.append(cost)
    return Ways(
        holds=holds,
        name=substance.name,
        fresh_g=fresh_g,
        currency=content.home.currency,
        ways=tuple(ways),
        pays=tuple(pays_of(costs)),
    )


def ways_to_change(
    holds: str, fresh_g: float, content: Content, stock: Stock, at: datetime.date
) -> Changeable:
    """Give the ways of a food as they hang on what somebody may change of them."""
    plain = ways_to_dry(holds, fresh_g, content, stock, at)
    inputs = tuple(inputs_of(plain, content))
    mass = next(each for each in inputs if each.what == "mass")
    asked = _side_by_side(holds, leaf(mass.key, fresh_g), with_leaves(inputs, content), stock, at)
    return Changeable(inputs, plain, asked)


def _dryers(method: Method, content: Content) -> Sequence[Dryer]:
    """Give the dryers of a method: those at home, else those that gear knows."""
    at_home = [each for each in dryers_at_home(content).values() if each.method == method]
    return at_home or [each for each in content.gear.dryers.values() if each.method == method]


def _way(
    substance: Substance,
    fresh_g: float,
    dryer: Dryer,
    content: Content,
    own: OwnBatches,
    *,
    at: datetime.date,
) -> tuple[Way, Costs]:
    method = dryer.method
    heated = heated_before(substance, method)
    goes = Goes(substance, method, False, heated)
    judged = _judged(goes, fresh_g, content, own, at)
    dried_g = judged.dried_g
    water_g = fresh_g - dried_g
    runs = _runs(fresh_g, water_g, dryer)
    hours = named(hours_in(dryer, goes), "run_hours", "common-practice")
    energy_kwh = _energy_kwh(dryer, hours, runs, water_g)
    costs = costs_of(substance, fresh_g, dried_g, energy_kwh, runs, dryer=dryer, content=content)
    cautions = tuple(_cautions(goes))
    never = goes.method in HEAT_METHODS and substance.kind in EGG_AND_DAIRY
    return (
        Way(
            method=method,
            dryer=dryer.id,
            dryer_name=dryer.name,
            dried_g=dried_g,
            room_ml=_room_ml(substance, method, fresh_g, dried_g),
            water_back_ml=judged.water_back.poured_ml * dried_g,
            takes_up_share=_takes_up_share(substance, method),
            soak_min=_soak_min(substance, method, content),
            hours=hours,
            runs=runs,
            energy_kwh=energy_kwh,
            cost=costs.whole,
            portion_cost=costs.portion,
            portions=costs.portions,
            keeps_until=None if never else judged.best_before,
            kept_at_told=judged.kept_at_told,
            vitamin_c=_vitamin_c(substance, method),
            cautions=cautions,
            cannot=_titles(cautions, content),
            not_told=costs.not_told,
            heat_first_c=heated.to_c if heated and method != "sun" else None,
        ),
        costs,
    )


def _judged(
    goes: Goes, fresh_g: float, content: Content, own: OwnBatches, at: datetime.date
) -> Judged:
    """Judge the batch that it would become, were it dry today."""
    is_recipe = goes.substance.id not in content.foods
    batch = as_batch(goes, is_recipe, fresh_g, 1, at, home=content.home)
    learned = learned_of(goes.substance, goes.method, own)
    return judge(batch, content, speech_of(ENGLISH), learned=learned)


def _bought(substance: Substance, fresh_g: float, content: Content) -> tuple[Way, Costs]:
    """Give as much bought dried as warm air would make of it."""
    dried_g = fresh_g * table_ratio(substance, "dehydrator")
    costs = bought_costs(substance, dried_g, content)
    return (
        Way(
            method="bought",
            dryer=None,
            dryer_name=BOUGHT,
            dried_g=dried_g,
            room_ml=_room_ml(substance, "dehydrator", fresh_g, dried_g),
            water_back_ml=None,
            takes_up_share=None,
            soak_min=_soak_min(substance, "bought", content),
            hours=None,
            runs=None,
            energy_kwh=None,
            cost=costs.whole,
            portion_cost=costs.portion,
            portions=costs.portions,
            keeps_until=None,
            kept_at_told=True,  # its packet tells until when
            vitamin_c=None,
            cautions=(),
            cannot=(),
            not_told=costs.not_told,
        ),
        costs,
    )


def _runs(fresh_g: float, water_g: float, dryer: Dryer) -> Count:
    """Give how many fillings it takes, by load, trays and ice."""
    load_g = most_load_g(dryer)
    if dryer.ice_g is None:
        return count(whole_units, fresh_g, load_g)
    of_limit = work(load_of_limit, fresh_g, water_g, load_g, dryer.ice_g)
    return count(whole_units, of_limit, named(1.0, "one_load", "common-practice"))


def _energy_kwh(dryer: Dryer, hours: float, runs: int, water_g: float) -> float:
    if dryer.method == "sun":
        return nothing("energy_kwh")
    if dryer.power_w is not None:
        return work(metered_kwh, dryer.power_w, hours, runs)
    return work(usual_kwh, water_g, dryer.method)


def _room_ml(substance: Substance, method: Method, fresh_g: float, dried_g: float) -> float | None:
    """Give the room it takes; freeze-dried food takes that of the fresh pieces."""
    kind = substance.kind
    if method == "freeze-dryer":
        if substance.density_g_ml is not None:
            return work(room_ml, fresh_g, substance.density_g_ml)
        if kind not in FRESH_PIECES_G_ML:
            return None
        return work(room_ml, fresh_g, look_up(bulk_density_g_ml, kind, "fresh"))
    if kind not in HEAT_DRIED_G_ML:
        return None
    return work(room_ml, dried_g, look_up(bulk_density_g_ml, kind, "heat-dried"))


def _takes_up_share(substance: Substance, method: Method) -> float:
    if method != "freeze-dryer" and substance.takes_up_share is not None:
        return substance.takes_up_share
    return look_up(takes_up_share, method, substance.kind)


def _soak_min(substance: Substance, method: Method, content: Content) -> tuple[float, float] | None:
    """Give the usual minutes in boiling water; fruit is known in warm water, whole meals not."""
    kind = soaks_as(content.foods.get(substance.id), method)
    key = (kind, "warm" if kind == "fruit" else "boiling")
    if key not in SOAK_MIN:
        return None
    fewest, most = soak_range_min(*key)
    return (
        named(fewest, f"fewest soak_min ({kind})", "extension-rehydration"),
        named(most, f"most soak_min ({kind})", "extension-rehydration"),
    )


def _vitamin_c(substance: Substance, method: Method) -> VitaminC | None:
    """Give what is left of it in fruit and vegetables; little else holds any."""
    if substance.kind not in _HOLDS_VITAMIN_C:
        return None
    way = "freeze-dryer" if method == "freeze-dryer" else "heat"
    least, most, source = vitamin_c_kept_share(method)
    return VitaminC(
        named(least, f"least vitamin_c_share ({way})", source),
        named(most, f"most vitamin_c_share ({way})", source),
        source,
    )


def _cautions(goes: Goes) -> Iterator[str]:
    """Name what this way cannot do for such food, by the cautions that say what to do."""
    substance = goes.substance
    by_heat = goes.method in HEAT_METHODS
    if goes.method == "sun":
        if substance.has_flesh:
            yield "sun-dried-meat"
        elif any(
            food.kind == "vegetable" and "tomat" not in called(food) for food in substance.foods
        ):
            yield "sun-dried-vegetables"
    raw_flesh = substance.is_raw_animal and substance.kind in FLESH_KINDS
    if by_heat and raw_flesh and goes.method != "sun":
        is_loose = substance.kind == "poultry" or substance.is_minced
        yield "raw-loose-dried" if is_loose else "jerky-not-heated"
    if by_heat and substance.kind in EGG_AND_DAIRY:
        raw_egg = substance.is_raw_animal and substance.kind == "egg"
        yield "no-best-before" if raw_egg else "egg-and-dairy-by-heat"
    if not by_heat and substance.is_raw_animal:
        yield "raw-dried-animal-food"


def _titles(cautions: Sequence[str], content: Content) -> tuple[str, ...]:
    return tuple(content.cautions[each].title for each in cautions if each in content.cautions)
