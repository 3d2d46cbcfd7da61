"""What a menu asks of the shop and the shelf: what to buy, and batches that could cover some."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.formulas.drying import solids_factor, usual_residual_share
from builder.model.batch import Batch, Method
from builder.model.content import Content
from builder.model.figure import add, add_counts, nothing, smallest
from builder.model.kit import ComingFood, ShoppingLine, StockProposal
from builder.model.recipe import Recipe
from builder.model.trip import Trip
from builder.planning.batches import Judged, name_as_dried, name_now
from builder.planning.foods import cooked_g, substance_of_ingredient
from builder.planning.menu.bought import bought
from builder.planning.menu.menu import MenuItem
from builder.planning.menu.portions import Portion
from builder.planning.stock import Stock, Wanted
from builder.planning.tracing import look_up, work
from builder.record import dataclass, field, replace
from builder.speech import Speech, speech_of

_NEXT_TO_NOTHING_G = 1e-9


@dataclass(slots=True)
class _Wanted:
    portion: Portion
    masses_g: list[float]
    used_in: list[str]


def shopping(
    trip: Trip, content: Content, menus: Sequence[Sequence[MenuItem]], stock: Stock
) -> tuple[tuple[ShoppingLine, ...], tuple[StockProposal, ...], tuple[ComingFood, ...]]:
    """Give what is to be bought, and the batches that cover some of it: in stock, and to come.

    Of a batch that is in the dryer nothing is bought, and the whole load of one that is planned.
    """
    wanted: dict[tuple[str, Method | None], _Wanted] = {}
    for menu in menus:
        for each in menu:
            for portion in each.portions:
                if portion.planned.batch:
                    continue
                key = (portion.substance.id, portion.planned.dried_by)
                line = wanted.setdefault(key, _Wanted(portion, [], []))
                line.masses_g.append(portion.planned.amount_g)
                if each.planned.title not in line.used_in:
                    line.used_in.append(each.planned.title)
    lines: list[ShoppingLine] = []
    proposals: list[StockProposal] = []
    coming: list[ComingFood] = []
    loads = _Loads()
    for (name, dried_by), want in wanted.items():
        proposed = list(_proposed((name, dried_by or "bought"), trip, stock))
        proposals += proposed
        rest_g = add(want.masses_g)
        if proposed:
            rest_g -= add(each.mass_g for each in proposed)
        for load in _coming((name, dried_by or "bought"), trip, stock, rest_g):
            rest_g -= load.mass_g
            coming.append(load)
            loads.add(stock.judged[load.batch], want.used_in)
        if rest_g > _NEXT_TO_NOTHING_G:
            lines.append(_line(want, rest_g))
    for menu in menus:
        for meal in menu:
            for portion in meal.portions:
                if portion.judged is not None:
                    loads.add(portion.judged, [meal.planned.title])
    lines += _to_dry(loads, content, speech_of(trip.language))
    lines = [_as_bought(line, content) for line in lines]
    lines.sort(key=lambda line: (line.to_dry, line.name))
    return tuple(lines), tuple(proposals), tuple(coming)


def _proposed(wanted: Wanted, trip: Trip, stock: Stock) -> Iterable[StockProposal]:
    """Give the batches that the stock offers this trip, each told once for all meals."""
    offers = [each for each in stock.offers.get(trip.id, ()) if each.wanted == wanted]
    for batch in dict.fromkeys(each.batch for each in offers):
        judged = stock.judged[batch]
        own = [each for each in offers if each.batch == batch]
        yield StockProposal(
            food=judged.batch.holds,
            name=name_now(speech_of(trip.language), judged),
            batch=batch,
            mass_g=add(each.mass_g for each in own),
            best_before=judged.best_before,
            packs=add_counts(each.packs for each in own),
            kept_at_told=judged.kept_at_told,
        )


def _coming(wanted: Wanted, trip: Trip, stock: Stock, rest_g: float) -> Iterable[ComingFood]:
    """Give what is to come of a food as far as it is wanted, each batch once for all meals."""
    offers = [each for each in stock.coming.get(trip.id, ()) if each.wanted == wanted]
    for name in dict.fromkeys(each.batch for each in offers):
        judged = stock.judged[name]
        mass_g = smallest(add(each.mass_g for each in offers if each.batch == name), rest_g)
        if mass_g <= _NEXT_TO_NOTHING_G:
            return
        rest_g -= mass_g
        batch = judged.batch
        yield ComingFood(
            food=batch.holds,
            name=name_now(speech_of(trip.language), judged),
            batch=batch.id,
            mass_g=mass_g,
            in_dryer=batch.in_dryer,
            planned_for=batch.planned,
        )


@dataclass(slots=True)
class _Loads:
    """Planned batches that a trip eats of, and the dishes that each goes into."""

    of: dict[str, tuple[Judged, list[str]]] = field(default_factory=dict)

    def add(self, judged: Judged, titles: Iterable[str]) -> None:
        """Note a load that is still to be bought and dried; each once."""
        if judged.batch.planned is None or judged.batch.in_dryer or judged.failed:
            return
        _, used_in = self.of.setdefault(judged.batch.id, (judged, []))
        used_in += [title for title in dict.fromkeys(titles) if title not in used_in]


def _to_dry(loads: _Loads, content: Content, say: Speech) -> Iterable[ShoppingLine]:
    """Give the fresh food of the planned batches that meals eat of, each load once and whole."""
    for judged, used_in in loads.of.values():
        batch = judged.batch
        if batch.recipe:
            yield from _to_cook(batch, content.recipes[batch.recipe], content, tuple(used_in), say)
            continue
        yield ShoppingLine(
            food=batch.holds,
            name=judged.substance.name,
            mass_g=batch.fresh_g or nothing("fresh_g"),
            dry_by=batch.method,
            dried_g=judged.dried_g,
            used_in=tuple(used_in),
            batch=batch.id,
            dry_on=batch.planned,
        )


def _to_cook(
    batch: Batch, recipe: Recipe, content: Content, used_in: tuple[str, ...], say: Speech
) -> Iterable[ShoppingLine]:
    """Give what goes into a whole meal that is cooked, then dried."""
    times = (batch.fresh_g or nothing("fresh_g")) / cooked_g(recipe, content)
    for ingredient in recipe.uses:
        substance = substance_of_ingredient(ingredient, content)
        yield ShoppingLine(
            food=substance.id,
            name=name_as_dried(say, substance, ingredient.dried_by),
            mass_g=ingredient.amount_g * times,
            dry_by=None,
            dried_g=nothing("dried_g"),
            used_in=used_in,
            batch=batch.id,
            dry_on=batch.planned,
        )


def _as_bought(line: ShoppingLine, content: Content) -> ShoppingLine:
    """Give a line with what the shop must sell for it."""
    as_sold = bought(line.mass_g, content.foods.get(line.food))
    return replace(
        line,
        buy_g=as_sold.buy_g,
        packets=as_sold.packets,
        packet_g=as_sold.packet_g,
        shelf=as_sold.shelf,
    )


def _line(want: _Wanted, mass_g: float) -> ShoppingLine:
    """Give a line to buy; for what is still to be dried, the fresh weight without waste."""
    substance = want.portion.substance
    method = want.portion.planned.dried_by
    dry_by = method if method and method != "bought" else None
    fresh_g = mass_g
    if dry_by:
        water = substance.composition.water_share
        residual = look_up(usual_residual_share, dry_by, substance.kind)
        if residual < water:
            fresh_g = mass_g * work(solids_factor, water, residual)
    return ShoppingLine(
        food=substance.id,
        name=substance.name,
        mass_g=fresh_g,
        dry_by=dry_by,
        dried_g=mass_g if dry_by else nothing("dried_g"),
        used_in=tuple(want.used_in),
    )
