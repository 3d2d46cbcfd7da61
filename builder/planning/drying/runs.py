"""Plans the runs of the dryers at home for the trips ahead."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from builder.model.content import Content
from builder.planning.drying.plan import DryingPlan
from builder.planning.stock import Stock


def plan_runs(
    content: Content, stock: Stock, at: datetime.date, trips: Sequence[str] = ()
) -> DryingPlan:
    """Give the runs still to do, as of a day, for some trips or for all that are ahead."""
    return DryingPlan()
