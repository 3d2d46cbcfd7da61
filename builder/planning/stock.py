"""The stock: packs used and left, what covers a meal, and what is still to buy or dry."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.formulas.drying import dried_mass_g, least_residual_share, usual_residual_share
from builder.formulas.freeze_drying import sublimation_floor_kj
from builder.formulas.heat import whole_units
from builder.formulas.sorption import MOST_WATER_ACTIVITY
from builder.model.batch import Batch
from builder.model.content import Content
from builder.model.kit import DryingRun, KitBatch, ShoppingLine, StockProposal
from builder.model.trip import Trip
from builder.planning.drying_run import drying_run, residual_range
from builder.planning.dryness import water_activity_at
from builder.planning.judging import Judged, judge
from builder.planning.menu import MenuItem, Portion
from builder.planning.refusals import told_at
from builder.problems import Problem, ProblemsFound
from builder.speech import Speech, speech_of

# What ice has while food dries in a chamber, about (common practice).
DRYING_ICE_C = -20.0
KJ_PER_KWH = 3600.0


def judge_all(content: Content, say: Speech) -> tuple[dict[str, Judged], list[Problem]]:
    """Judge every batch and say why; one whose weighings cannot be gives a problem instead."""
    judged: dict[str, Judged] = {}
    problems: list[Problem] = []
    for batch in content.batches.values():
        try:
            judged[batch.id] = judge(batch, content, say)
        except ProblemsFound as found:
            problems += found.problems
    return judged, problems


def packs_of_trip(trip: Trip, content: Content, judged: Mapping[str, Judged]) -> Counter[str]:
    """Count the packs that a trip's meals take of each batch, rounded up for each meal."""
    taken: Counter[str] = Counter()
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                from_packs: dict[str, float] = {}
                for ingredient_id, batch_id in item.batches:
                    amount_g = item.each_g * len(item.eaters)
                    if item.recipe:
                        recipe = content.recipes[item.recipe]
                        scale = len(item.eaters) / recipe.serves
                        amount_g = recipe.ingredient(ingredient_id).amount_g * scale
                    from_packs[batch_id] = from_packs.get(batch_id, 0.0) + amount_g
                for batch_id, amount_g in from_packs.items():
                    if batch_id in judged:
                        taken[batch_id] += whole_units(amount_g, judged[batch_id].pack_g)
    return taken


@dataclass(frozen=True, slots=True)
class Stock:
    """All packs of the folder, with those that trips have spoken for taken off."""

    judged: Mapping[str, Judged]
    taken: Mapping[str, Mapping[str, int]]  # by batch, then by trip

    def left(self, batch: Batch) -> int:
        """Give the packs of a batch that no one has eaten or spoken for."""
        return batch.pack_count - batch.used - sum(self.taken.get(batch.id, {}).values())

    def problems(self) -> list[Problem]:
        """Give a problem for each batch of which trips take more packs than there are."""
        found = []
        for name, judged in self.judged.items():
            batch, trips = judged.batch, self.taken.get(name, {})
            if trips and self.left(batch) < 0:
                by_trip = ", ".join(f"{trip} {count}" for trip, count in sorted(trips.items()))
                eaten = f", {batch.used} eaten before" if batch.used else ""
                found.append(
                    Problem(
                        batch.places.of("packs"),
                        "batch-overdrawn",
                        f"batch {name} has {batch.pack_count} packs, and trips take "
                        f"{sum(trips.values())} ({by_trip}{eaten})",
                        "take less of it, name another batch, or dry more",
                    )
                )
        return found


def stock_of(content: Content, judged: Mapping[str, Judged]) -> Stock:
    """Give the stock of a folder."""
    taken: dict[str, dict[str, int]] = {}
    for trip in content.trips.values():
        for batch_id, count in packs_of_trip(trip, content, judged).items():
            taken.setdefault(batch_id, {})[trip.id] = count
    return Stock(judged, taken)


def kit_batches(
    trip: Trip, menus: Sequence[Sequence[MenuItem]], stock: Stock
) -> tuple[KitBatch, ...]:
    """Give the batches that a trip's meals name, in the order they are first eaten."""
    names = dict.fromkeys(
        portion.planned.batch
        for menu in menus
        for each in menu
        for portion in each.portions
        if portion.planned.batch
    )
    return tuple(_kit_batch(stock.judged[name], trip, stock) for name in names)


def _kit_batch(judged: Judged, trip: Trip, stock: Stock) -> KitBatch:
    batch = judged.batch
    target_g = judged.target_g
    low, high = _residual_range(judged)
    to_go_g = max(judged.dried_g - target_g, 0.0) if target_g is not None else 0.0
    return KitBatch(
        id=batch.id,
        name=judged.substance.name,
        method=batch.method,
        food=batch.food,
        recipe=batch.recipe,
        fresh_g=batch.fresh_g,
        dried_g=judged.dried_g,
        listed_water_share=judged.listed_water_share,
        water_share=judged.water_share,
        water_removed_g=judged.water_removed_g,
        residual_moisture=judged.residual_share,
        dry_limit=judged.dry_limit_share,
        dry_enough=judged.dry_enough,
        target_g=target_g,
        to_go_g=0.0 if judged.dry_enough else to_go_g,
        dried_on=batch.done,
        planned=batch.done is None and batch.method != "bought",
        best_before=judged.best_before,
        months=judged.months,
        reasons=judged.reasons,
        packs_used=stock.taken.get(batch.id, {}).get(trip.id, 0),
        packs_left=stock.left(batch),
        pack_g=judged.pack_g,
        packaging=batch.packs.packaging if batch.packs else None,
        raw_animal=judged.stays_raw,
        notes=tuple(_notes(judged, speech_of(trip.language))),
        residual_low=low,
        residual_high=high,
        run=_run(judged),
        water_activity=(activity := _activity(judged, judged.residual_share)),
        water_activity_low=None if activity is None else _activity(judged, low),
        water_activity_high=None
        if activity is None
        else _activity(judged, high) or MOST_WATER_ACTIVITY,
        loaded_at_c=batch.loaded_at_c,
        sublimation_kwh=_sublimation_kwh(judged),
    )


def _activity(judged: Judged, moisture_share: float) -> float | None:
    if judged.batch.method == "bought":
        return None
    return water_activity_at(judged.substance, moisture_share)


def _sublimation_kwh(judged: Judged) -> float:
    """Give the least energy that turns a load's ice to vapour; a load not frozen counts as ice."""
    batch = judged.batch
    if batch.method != "freeze-dryer" or judged.water_removed_g <= 0:
        return 0.0
    loaded_c = DRYING_ICE_C if batch.loaded_at_c is None else min(batch.loaded_at_c, 0.0)
    with told_at(batch.places.of("loaded_at"), f"batch {batch.id}"):
        return sublimation_floor_kj(judged.water_removed_g, loaded_c, DRYING_ICE_C) / KJ_PER_KWH


def _residual_range(judged: Judged) -> tuple[float, float]:
    """Give the moisture that may be left, from the doubt in the listed water."""
    batch = judged.batch
    if batch.fresh_g is None or batch.dried_g is None:
        return judged.residual_share, judged.residual_share
    return residual_range(
        batch.fresh_g, batch.dried_g, judged.water_share, least_residual_share(batch.method)
    )


def _run(judged: Judged) -> DryingRun | None:
    """Give the curve through a batch's weighings, where there are enough of them."""
    batch = judged.batch
    if batch.fresh_g is None or judged.water_share <= judged.dry_limit_share:
        return None
    with told_at(batch.places.of("weighings"), f"batch {batch.id}"):
        return drying_run(
            batch.fresh_g, judged.water_share, judged.dry_limit_share, batch.weighings
        )


def _notes(judged: Judged, say: Speech) -> Iterable[str]:
    if judged.corrected:
        yield say(
            "It lost more water than the table lists for {food} ({listed} %). The scale is right: "
            "this load held {held} %, and {left} % moisture is taken as left.",
            food=judged.substance.name,
            listed=say.number(judged.listed_water_share * 100, 1),
            held=say.number(judged.water_share * 100, 1),
            left=say.number(judged.residual_share * 100),
        )
    if judged.batch.done is None and judged.batch.method != "bought":
        yield say("Not dried yet: its figures are what drying should give.")
    if judged.batch.notes:
        yield judged.batch.notes


# -- what no batch covers -----------------------------------------------------------------------


@dataclass(slots=True)
class _Wanted:
    portion: Portion
    mass_g: float
    used_in: list[str]
    eaten_on: datetime.date | None


def shopping(
    trip: Trip, menus: Sequence[Sequence[MenuItem]], stock: Stock
) -> tuple[tuple[ShoppingLine, ...], tuple[StockProposal, ...]]:
    """Give what is to be bought, and batches in stock that could cover some of it."""
    wanted: dict[tuple[str, str | None], _Wanted] = {}
    for menu in menus:
        for each in menu:
            for portion in each.portions:
                if portion.planned.batch:
                    continue
                key = (portion.substance.id, portion.planned.dried_by)
                line = wanted.setdefault(key, _Wanted(portion, 0.0, [], trip.date_of(each.day)))
                line.mass_g += portion.planned.amount_g
                if each.planned.title not in line.used_in:
                    line.used_in.append(each.planned.title)
    lines: list[ShoppingLine] = []
    proposals: list[StockProposal] = []
    for (name, dried_by), want in wanted.items():
        rest_g = want.mass_g
        for proposal in _proposed(name, dried_by, rest_g, want.eaten_on, stock):
            proposals.append(proposal)
            rest_g -= proposal.mass_g
        if rest_g > 1e-9:
            lines.append(_line(want, rest_g))
    lines.sort(key=lambda line: (line.dry_by is not None, line.name))
    return tuple(lines), tuple(proposals)


def _proposed(
    name: str,
    dried_by: str | None,
    mass_g: float,
    eaten_on: datetime.date | None,
    stock: Stock,
) -> Iterable[StockProposal]:
    """Give batches of the same food and method, first-expired first, that are still good."""
    method = dried_by or "bought"
    fitting = [
        each
        for each in stock.judged.values()
        if each.batch.holds == name
        and each.batch.method == method
        and (each.batch.done is not None or method == "bought")
        and each.dry_enough
        and stock.left(each.batch) > 0
        and each.best_before is not None
        and (eaten_on is None or each.best_before >= eaten_on)
    ]
    fitting.sort(key=lambda each: (each.best_before or datetime.date.max, each.batch.id))
    for each in fitting:
        if mass_g <= 1e-9:
            return
        taken_g = min(mass_g, stock.left(each.batch) * each.pack_g)
        mass_g -= taken_g
        yield StockProposal(
            food=name,
            name=each.substance.name,
            batch=each.batch.id,
            mass_g=taken_g,
            best_before=each.best_before,
        )


def _line(want: _Wanted, mass_g: float) -> ShoppingLine:
    """Give a line to buy; for what is still to be dried, the fresh weight without waste."""
    substance = want.portion.substance
    method = want.portion.planned.dried_by
    dry_by = method if method and method != "bought" else None
    fresh_g = mass_g
    if dry_by:
        water = substance.composition.water_share
        residual = usual_residual_share(dry_by, substance.kind)
        if residual < water:
            fresh_g = mass_g / dried_mass_g(1.0, water, residual)
    return ShoppingLine(
        food=substance.id,
        name=substance.name,
        mass_g=fresh_g,
        dry_by=dry_by,
        dried_g=mass_g if dry_by else 0.0,
        used_in=tuple(want.used_in),
    )


# -- the shelf ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StockLine:
    """A batch on the shelf with packs left."""

    batch: str
    name: str
    method: str
    packs_left: int
    pack_g: float
    best_before: datetime.date | None
    remark: str

    def data(self) -> dict[str, str | int | float | None]:
        """Give all of it for a script."""
        return {
            "batch": self.batch,
            "name": self.name,
            "method": self.method,
            "packs_left": self.packs_left,
            "pack_g": self.pack_g,
            "best_before": self.best_before.isoformat() if self.best_before else None,
            "remark": self.remark,
        }


def stock_lines(stock: Stock, at: datetime.date) -> list[StockLine]:
    """Give what is left of every batch, first-expired first; undated ones come last."""
    lines = [
        StockLine(
            batch=name,
            name=judged.substance.name,
            method=judged.batch.method,
            packs_left=stock.left(judged.batch),
            pack_g=judged.pack_g,
            best_before=judged.best_before,
            remark=_remark(judged, at),
        )
        for name, judged in stock.judged.items()
        if stock.left(judged.batch) > 0
    ]
    lines.sort(key=lambda line: (line.best_before or datetime.date.max, line.name, line.batch))
    return lines


def _remark(judged: Judged, at: datetime.date) -> str:
    if not judged.dry_enough:
        return "NOT DRY ENOUGH: dry it on, or eat it now"
    if judged.batch.done is None and judged.batch.method != "bought":
        return "planned, not dried yet"
    if judged.best_before and judged.best_before < at:
        return "PAST ITS DATE: smell, look, and when in doubt throw it out"
    if judged.stays_raw:
        return "dried raw: cook it through"
    return ""
