"""Packs on the shelf: what is left, what trips promise, which pack a meal takes."""

from __future__ import annotations

from builder.planning.stock.checks import (
    batch_names,
    check,
    heated_after_wetting,
    stock_said,
    without_broken,
)
from builder.planning.stock.choosing import (
    IngredientLine,
    ItemAt,
    items_of,
    lines_of,
    with_chosen_packs,
    with_item,
)
from builder.planning.stock.following import (
    Dryable,
    Followed,
    Rules,
    dryables,
    followed,
)
from builder.planning.stock.kit_batches import DRYING_ICE_C, KJ_PER_KWH, kit_batches, run_of
from builder.planning.stock.logged import logged_data, logged_lines
from builder.planning.stock.packs import (
    Offer,
    Stock,
    Wanted,
    amount_wanted_g,
    heads,
    packs_more,
    packs_of_trip,
)
from builder.planning.stock.proposals import (
    Want,
    first_expired,
    fits,
    lacks_of,
    may_be_offered,
)
from builder.planning.stock.shelf import StockLine, act_on, is_waste, stock_lines

__all__ = [
    "DRYING_ICE_C",
    "KJ_PER_KWH",
    "Dryable",
    "Followed",
    "IngredientLine",
    "ItemAt",
    "Offer",
    "Rules",
    "Stock",
    "StockLine",
    "Want",
    "Wanted",
    "act_on",
    "amount_wanted_g",
    "batch_names",
    "check",
    "dryables",
    "first_expired",
    "fits",
    "followed",
    "heads",
    "heated_after_wetting",
    "is_waste",
    "items_of",
    "kit_batches",
    "lacks_of",
    "lines_of",
    "logged_data",
    "logged_lines",
    "may_be_offered",
    "packs_more",
    "packs_of_trip",
    "run_of",
    "stock_lines",
    "stock_said",
    "with_chosen_packs",
    "with_item",
    "without_broken",
]
