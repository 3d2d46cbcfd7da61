"""What the home needs of a trip's kit: far less than all of it, and soon written down."""

from __future__ import annotations

import datetime
from typing import Protocol

from builder.model.kit import Kit, ShoppingLine, StockProposal
from builder.model.learned import Reviewed
from builder.planning.at_home.bagging import TripBags, bagging_of
from builder.record import dataclass


class Shopper(Protocol):
    """A trip that things are bought for: a whole kit, or a share of it."""

    @property
    def id(self) -> str:
        """Give the id of the trip."""

    @property
    def title(self) -> str:
        """Give its title."""

    @property
    def start(self) -> datetime.date | None:
        """Give its first day."""

    @property
    def shopping(self) -> tuple[ShoppingLine, ...]:
        """Give what no batch covers."""

    @property
    def proposals(self) -> tuple[StockProposal, ...]:
        """Give the packs in stock that could cover something."""


@dataclass(frozen=True, slots=True)
class TripShare:
    """A trip, as the home sees it."""

    id: str
    title: str
    start: datetime.date | None
    day_count: int
    shopping: tuple[ShoppingLine, ...]
    proposals: tuple[StockProposal, ...]
    bags: TripBags
    review: Reviewed | None = None


def share_of(kit: Kit | TripShare) -> TripShare:
    """Give what the home needs of a kit."""
    if isinstance(kit, TripShare):
        return kit
    return TripShare(
        id=kit.id,
        title=kit.title,
        start=kit.start,
        day_count=len(kit.days),
        shopping=kit.shopping,
        proposals=kit.proposals,
        bags=bagging_of(kit),
        review=kit.review,
    )
