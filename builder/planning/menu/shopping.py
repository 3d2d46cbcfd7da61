"""What a menu asks of the shop and the shelf: what to buy, and batches that could cover some."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.formulas.drying import dried_mass_g, usual_residual_share
from builder.model.kit import ShoppingLine, StockProposal
from builder.model.trip import Trip
from builder.planning.menu.menu import MenuItem, Portion
from builder.planning.stock import Stock


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
        and stock.free(each.batch) > 0
        and each.best_before is not None
        and (eaten_on is None or each.best_before >= eaten_on)
    ]
    fitting.sort(key=lambda each: (each.best_before or datetime.date.max, each.batch.id))
    for each in fitting:
        if mass_g <= 1e-9:
            return
        taken_g = min(mass_g, stock.free(each.batch) * each.pack_g)
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
