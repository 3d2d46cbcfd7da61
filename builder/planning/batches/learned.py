"""What one's own batches teach of the weight that a food has when it is dry."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from statistics import geometric_mean
from typing import TYPE_CHECKING, TypeAlias

from builder.formulas.drying import usual_residual_share
from builder.formulas.home_drying import learned_ratio
from builder.model.figure import smallest
from builder.planning.foods import Substance
from builder.planning.tracing import look_up, work
from builder.record import dataclass

if TYPE_CHECKING:
    from builder.planning.batches.judging import Judged

# The id of a food or recipe, and the method it was dried by.
Dried = tuple[str, str]
OwnBatches: TypeAlias = "Mapping[Dried, tuple[Judged, ...]]"


@dataclass(frozen=True, slots=True)
class Learned:
    """Dried over fresh mass to plan with: the table's, drawn towards one's own batches."""

    table_ratio: float
    own_ratios: tuple[float, ...]  # dried over fresh of each batch of one's own
    batches: tuple[str, ...]  # their ids

    @property
    def count(self) -> int:
        """On how many batches it rests."""
        return len(self.own_ratios)

    @property
    def own_ratio(self) -> float | None:
        """What one's own batches gave, as their geometric mean; None where there is none."""
        return geometric_mean(self.own_ratios) if self.own_ratios else None

    @property
    def ratio(self) -> float:
        """What is planned with."""
        if not self.own_ratios:
            return self.table_ratio
        return work(learned_ratio, self.table_ratio, self.own_ratios)


def own_batches(judged: Iterable[Judged]) -> OwnBatches:
    """Give the batches that teach, by what was dried and how.

    A batch that came out wet tells nothing of the weight that the food has when it is dry.
    """
    found: dict[Dried, tuple[Judged, ...]] = {}
    for each in judged:
        batch = each.batch
        if batch.is_bought or batch.done is None or not batch.fresh_g or not batch.dried_g:
            continue
        if each.ruling.cause in ("wet", "airless-wet"):
            continue
        key = (batch.holds, batch.method)
        found[key] = (*found.get(key, ()), each)
    return found


def learned_of(substance: Substance, method: str, own: OwnBatches) -> Learned:
    """Give what to plan with for a food and a way to dry it."""
    teaching = own.get((substance.id, method), ())
    return Learned(
        table_ratio=table_ratio(substance, method),
        own_ratios=tuple(
            (each.batch.dried_g or 0.0) / (each.batch.fresh_g or 1.0) for each in teaching
        ),
        batches=tuple(each.batch.id for each in teaching),
    )


def table_ratio(substance: Substance, method: str) -> float:
    """Give dried over fresh by the listed water and what the method usually leaves of it."""
    listed = substance.composition.water_share
    residual = smallest(look_up(usual_residual_share, method, substance.kind), listed)
    return (1.0 - listed) / (1.0 - residual)
