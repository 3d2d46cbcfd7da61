"""The root of what belongs to no single trip: what is to be dried at home, and when."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from builder.model.content import Content
from builder.planning.drying import DryingPlan, plan_runs
from builder.planning.stock import Stock, StockLine, stock_lines


@dataclass(frozen=True, slots=True)
class HomePlan:
    """The home on a day: what is on the shelf, and the runs to do for the trips ahead."""

    at: datetime.date
    content: Content
    stock: Stock
    lines: tuple[StockLine, ...]
    drying: DryingPlan


def plan_home(content: Content, stock: Stock, at: datetime.date) -> HomePlan:
    """Plan the home as of a day."""
    return HomePlan(
        at=at,
        content=content,
        stock=stock,
        lines=tuple(stock_lines(stock, at)),
        drying=plan_runs(content, stock, at),
    )
