"""What weights tell of a batch: how dry it is, what came out; and which weights cannot be."""

from __future__ import annotations

from builder.formulas.drying import (
    MOST_WATER_SHARE,
    dried_mass_g,
    dry_enough_share,
    least_residual_share,
    residual_share,
    usual_residual_share,
    water_share_from,
)
from builder.formulas.dryness import least_solids_share, solids_of_listed
from builder.model.batch import Batch
from builder.model.figure import largest, nothing, smallest
from builder.model.place import Place
from builder.planning.batches.learned import Learned
from builder.planning.batches.verdict import SLACK, spread_of
from builder.planning.foods import Substance
from builder.planning.tracing import look_up, work
from builder.problems import Problem, ProblemsFound
from builder.record import dataclass


def called(batch: Batch) -> str:
    """Name a batch in a message; a load that no log holds has no id."""
    return f"batch {batch.id}" if batch.id else "this load"


@dataclass(frozen=True, slots=True)
class HowDry:
    """How much water a food held fresh, and holds dried."""

    water_share: float
    residual_share: float
    limit_share: float  # at which it is dry enough
    corrected: bool = False  # whether the weights contradict the listed water
    learned: Learned | None = None  # what own batches told of it


def how_dry(batch: Batch, substance: Substance, learned: Learned | None) -> HowDry:
    """Tell how dry a batch is: as its maker made it, as it was weighed, or as others came out."""
    listed = substance.composition.water_share
    if batch.is_bought:
        limit = largest(listed, look_up(dry_enough_share, "dehydrator", substance.kind))
        return HowDry(listed, listed, limit)
    _refuse_impossible(batch, substance)
    water, residual, corrected = _weighed(batch, substance.kind, listed)
    limit = look_up(dry_enough_share, batch.method, substance.kind)
    is_open = batch.is_planned and batch.dried_g is None and residual < listed
    if learned and learned.own_ratios and batch.fresh_g and is_open:
        # The batches tell what comes out; how dry that is, the usual residual.
        told = 1.0 - (1.0 - residual) * learned.ratio
        return HowDry(told, residual, limit, corrected, learned)
    return HowDry(water, residual, limit, corrected)


def now_g_of(batch: Batch, in_dryer: bool) -> float | None:
    """Give what a load weighs: as taken out, or as last weighed in the dryer."""
    if batch.dried_g is not None or not in_dryer:
        return batch.dried_g
    return batch.weighings[-1].mass_g if batch.weighings else batch.fresh_g


def dried_g_of(batch: Batch, water: float, residual: float) -> float:
    """Give what came out of the dryer, or will: as weighed, else by the water that goes."""
    if batch.dried_g is not None:
        return batch.dried_g
    if batch.fresh_g is not None:
        return work(dried_mass_g, batch.fresh_g, water, residual)
    packs = batch.packs
    return packs.count * packs.of_g if packs and packs.of_g else nothing("dried_g")


def _weighed(batch: Batch, kind: str, listed: float) -> tuple[float, float, bool]:
    """Give water share, residual moisture, and whether the listed water had to be corrected."""
    if batch.dried_g is None or batch.fresh_g is None:
        usual = look_up(usual_residual_share, batch.method, kind)
        return listed, smallest(usual, listed), False
    residual = work(residual_share, batch.fresh_g, batch.dried_g, listed)
    least = look_up(least_residual_share, batch.method)
    if residual >= least - SLACK:
        return listed, residual if residual >= 0 else largest(residual, 0.0), False
    return work(water_share_from, batch.fresh_g, batch.dried_g, least), least, True


def _refuse_impossible(batch: Batch, substance: Substance) -> None:
    """Refuse weights that no drying can give."""
    if batch.fresh_g is None:
        return
    if batch.dried_g is not None:
        place = batch.places.of("dried")
        if batch.dried_g >= batch.fresh_g:
            raise _cannot_be(
                place,
                "no-loss",
                f"{called(batch)} weighs {batch.dried_g:g} g dried and {batch.fresh_g:g} g "
                "fresh: it lost nothing",
                "check both weights and their units, and take the tare off both",
            )
        _refuse_too_light(batch, substance, batch.fresh_g, batch.dried_g, place)
    if batch.weighings:
        place = batch.places.of("weighings")
        _refuse_too_light(batch, substance, batch.fresh_g, batch.weighings[-1].mass_g, place)


def _refuse_too_light(
    batch: Batch, substance: Substance, fresh_g: float, now_g: float, place: Place
) -> None:
    """Refuse a weight that would need a food wetter than any, or than this one can be."""
    least = least_residual_share(batch.method)
    says = f"{called(batch)} came out at {now_g:g} g from {fresh_g:g} g: "
    if 1 - now_g * (1 - least) / fresh_g > MOST_WATER_SHARE:
        says += f"no food is more than {MOST_WATER_SHARE:.0%} water"
        raise _cannot_be(place, "too-light", says, "check both weights and their units")
    listed = substance.composition.water_share
    solids = solids_of_listed(fresh_g, now_g, listed, least)
    if solids < least_solids_share(listed, spread_of(substance)) - SLACK:
        says += f"that is {solids:.0%} of the solids that {substance.name} holds"
        mend = "check both weights and their units, and the tare; or name the food it was"
        raise _cannot_be(place, "too-light", says, mend)


def _cannot_be(place: Place, kind: str, says: str, mend: str) -> ProblemsFound:
    return ProblemsFound([Problem(place, kind, says, mend)])
