"""Batches judged, packs on the shelf, what keeps how long."""

from __future__ import annotations

from builder.planning.stock.checks import (
    batch_names,
    check,
    heated_after_wetting,
    without_broken,
)
from builder.planning.stock.choosing import (
    ItemAt,
    items_of,
    lines_of,
    with_chosen_packs,
    with_item,
)
from builder.planning.stock.drying_run import FIT
from builder.planning.stock.dryness import VERDICTS, Asked, dryness
from builder.planning.stock.following import (
    OWN_METHODS,
    Dryable,
    Followed,
    Rules,
    dryables,
    followed,
)
from builder.planning.stock.judging import Judged, judge
from builder.planning.stock.kit_batches import DRYING_ICE_C, KJ_PER_KWH, kit_batches, run_of
from builder.planning.stock.learned import Learned, OwnBatches, learned_of, own_batches, table_ratio
from builder.planning.stock.logged import logged_data, logged_lines
from builder.planning.stock.names import name_as_dried, name_now
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
    coming_for,
    first_expired,
    fits,
    lacks_of,
    may_be_offered,
)
from builder.planning.stock.shelf import StockLine, spoils_unseen, stock_lines
from builder.planning.stock.substance import (
    Substance,
    as_usually_dried,
    cooked_g,
    energy_per_100g_kcal,
    substance_named,
    substance_of_ingredient,
    substance_of_label,
    substance_of_recipe,
)
from builder.planning.stock.verdict import ACTS, Act, Cause
from builder.planning.stock.water_back import soaks_as

__all__ = [
    "ACTS",
    "DRYING_ICE_C",
    "FIT",
    "KJ_PER_KWH",
    "OWN_METHODS",
    "VERDICTS",
    "Act",
    "Asked",
    "Cause",
    "Dryable",
    "Followed",
    "ItemAt",
    "Judged",
    "Learned",
    "Offer",
    "OwnBatches",
    "Rules",
    "Stock",
    "StockLine",
    "Substance",
    "Want",
    "Wanted",
    "amount_wanted_g",
    "as_usually_dried",
    "batch_names",
    "check",
    "coming_for",
    "cooked_g",
    "dryables",
    "dryness",
    "energy_per_100g_kcal",
    "first_expired",
    "fits",
    "followed",
    "heads",
    "heated_after_wetting",
    "items_of",
    "judge",
    "kit_batches",
    "lacks_of",
    "learned_of",
    "lines_of",
    "logged_data",
    "logged_lines",
    "may_be_offered",
    "name_as_dried",
    "name_now",
    "own_batches",
    "packs_more",
    "packs_of_trip",
    "run_of",
    "soaks_as",
    "spoils_unseen",
    "stock_lines",
    "substance_named",
    "substance_of_ingredient",
    "substance_of_label",
    "substance_of_recipe",
    "table_ratio",
    "with_chosen_packs",
    "with_item",
    "without_broken",
]
