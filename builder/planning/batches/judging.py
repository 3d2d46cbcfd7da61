"""Judges a batch from its weighings: how dry, what it holds now, until when it keeps."""

from __future__ import annotations

import datetime

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
from builder.model.batch import Batch, Verdict
from builder.model.content import Content
from builder.model.figure import largest, nothing, smallest
from builder.model.food import ANIMAL_KINDS, Composition
from builder.model.place import Place
from builder.planning.batches.keeping import Kept, Store, keeps_from, kept
from builder.planning.batches.learned import Learned
from builder.planning.batches.verdict import (
    SLACK,
    Act,
    Load,
    Ruling,
    act_of,
    act_said,
    rule,
    spread_of,
    stays_raw,
    why_thrown_out,
)
from builder.planning.foods import (
    NO_WATER,
    Substance,
    WaterBack,
    concentrated,
    substance_named,
    water_back,
)
from builder.planning.refusals import told_at
from builder.planning.tracing import look_up, work
from builder.problems import Problem, ProblemsFound
from builder.record import dataclass
from builder.speech import Speech
from builder.units import System

VACUUM_BARRIER = "vacuum-bag"


# What closes as tight as it was, as often as it is opened.
RESEALING_BARRIERS = frozenset({"zip-bag", "glass"})


@dataclass(frozen=True, slots=True)
class Judged:
    """A batch with all that follows from its weighings."""

    batch: Batch
    substance: Substance
    composition: Composition  # of 100 g as it is now
    dried_g: float
    now_g: float | None  # as last weighed, in the dryer or out of it
    listed_water_share: float
    water_share: float
    residual_share: float
    dry_limit_share: float
    corrected: bool
    barrier: str | None
    load: Load
    ruling: Ruling
    store: Store
    kept: Kept
    learned: Learned | None = None  # of a planned batch, where own ones drew its weight

    @property
    def pack_g(self) -> float:
        """What one pack holds."""
        packs = self.batch.packs
        if packs and packs.of_g is not None:
            return packs.of_g
        return self.dried_g / self.batch.pack_count

    @property
    def verdict(self) -> Verdict:
        """Whether it is dry, not dry, undecided by its weight, or to be thrown out."""
        return self.ruling.verdict

    @property
    def failed(self) -> bool:
        """Whether nobody is to eat of it as it is; what is in the dryer may still get dry."""
        if self.load.in_dryer:
            return self.verdict == "discard"
        return self.ruling.failed

    @property
    def fit_to_propose(self) -> bool:
        """Whether a meal may be offered it: it did not fail, and no heat step is left to do."""
        return not self.failed and self.ruling.cause != "raw-whole"

    def act(self, say: Speech, at: datetime.date | None, units: System = "metric") -> str:
        """Say the one thing to do with it, as of a day; nothing where there is nothing to do."""
        return act_said(say, self.act_as_of(at), units, self.to_go_g)

    def act_as_of(self, at: datetime.date | None) -> Act:
        """Give the one thing to do with it, as of a day."""
        return act_of(self.load, self.ruling, at)

    def why_thrown_out(self, at: datetime.date | None) -> str:
        """Say on the terminal why it is thrown out; nothing where it is not."""
        return why_thrown_out(self.act_as_of(at), self.ruling.cause)

    @property
    def keeps_from(self) -> datetime.date | None:
        """The day its time starts to run."""
        return keeps_from(self.batch)

    @property
    def to_go_g(self) -> float:
        """What it must still lose to be dry enough."""
        if self.target_g is None or self.now_g is None:
            return nothing("to_go_g")
        return largest(self.now_g - self.target_g, 0.0)

    @property
    def reseals(self) -> bool:
        """Whether an opened pack is closed again for the next meals of a trip."""
        keeps = self.dry_enough or self.batch.is_bought
        animal = self.substance.kinds & ANIMAL_KINDS
        return self.barrier in RESEALING_BARRIERS and keeps and not animal

    @property
    def dry_enough(self) -> bool:
        """Whether it is dry enough by the likeliest reckoning of its weight."""
        return self.residual_share <= self.dry_limit_share + SLACK

    @property
    def has_absorber(self) -> bool:
        """Whether its packs hold something that takes up oxygen."""
        return bool(self.batch.packs and self.batch.packs.absorber)

    @property
    def low_oxygen(self) -> bool:
        """Whether its packs hold next to no oxygen; a closed jar holds air enough."""
        return self.load.low_oxygen

    @property
    def months(self) -> float | None:
        """How many months it keeps, as a guideline."""
        return self.kept.months

    @property
    def best_before(self) -> datetime.date | None:
        """Until when it keeps, as a guideline."""
        return self.kept.best_before

    @property
    def kept_at_told(self) -> bool:
        """Whether its date rests on a warmth that somebody told; a bought pack tells its own."""
        return self.batch.kept_at_told or self.batch.is_bought

    def reasons(self, say: Speech, units: System) -> tuple[str, ...]:
        """Say why it keeps that long."""
        return kept(self.store, say, units).reasons

    @property
    def wants_proof(self) -> bool:
        """Whether it would keep longer if it had been weighed twice."""
        return self.kept.wants_proof

    @property
    def stays_raw(self) -> bool:
        """Whether it is raw animal food that no heat made safe."""
        return stays_raw(self.batch, self.substance)

    @property
    def water_back(self) -> WaterBack:
        """The water that puts one gram of what is left back."""
        if self.batch.is_bought or self.water_share <= self.residual_share:
            return NO_WATER
        return water_back(
            self.substance.kind,
            self.substance.takes_up_share,
            self.batch.method,
            self.water_share,
            self.residual_share,
        )

    @property
    def water_removed_g(self) -> float:
        """The water that left the load."""
        if self.batch.fresh_g is None:
            return nothing("water_removed_g")
        return self.batch.fresh_g - self.dried_g

    @property
    def target_g(self) -> float | None:
        """The weight at which this load is dry enough."""
        if self.batch.fresh_g is None or self.water_share <= self.dry_limit_share:
            return None
        return work(dried_mass_g, self.batch.fresh_g, self.water_share, self.dry_limit_share)


def called(batch: Batch) -> str:
    """Name a batch in a message; a load that no log holds has no id."""
    return f"batch {batch.id}" if batch.id else "this load"


def judge(
    batch: Batch,
    content: Content,
    say: Speech,
    in_dryer: bool | None = None,
    learned: Learned | None = None,
) -> Judged:
    """Judge a batch and say why; raises ProblemsFound where its weighings cannot be.

    `in_dryer` tells of a load that was weighed and goes back, which no log holds; `learned` what
    own batches teach of one that was not weighed yet.
    """
    if not (learned and learned.own_ratios and batch.is_planned and batch.fresh_g):
        learned = None
    substance = substance_named(batch.holds, content)
    listed = substance.composition.water_share
    with told_at(batch.places.record, called(batch)):
        if batch.is_bought:
            water, residual, corrected = listed, listed, False
            # A bought food is as dry as its maker made it.
            limit = largest(listed, look_up(dry_enough_share, "dehydrator", substance.kind))
        else:
            _refuse_impossible(batch, substance)
            water, residual, corrected = _dryness(batch, substance.kind, listed)
            if learned and batch.fresh_g and batch.dried_g is None and residual < listed:
                # The batches tell what comes out; how dry that is, the usual residual.
                water = 1.0 - (1.0 - residual) * learned.ratio
            else:
                learned = None
            limit = look_up(dry_enough_share, batch.method, substance.kind)
        composition = substance.composition
        if not batch.is_bought and listed > residual:
            composition = concentrated(composition, residual)
        barrier = None
        if batch.packs and batch.packs.packaging:
            barrier = content.gear.packaging[batch.packs.packaging].barrier
        in_dryer = batch.in_dryer if in_dryer is None else in_dryer
        now_g = _now_g(batch, in_dryer)
        has_absorber = bool(batch.packs and batch.packs.absorber)
        load = Load(
            substance=substance,
            batch=batch,
            now_g=now_g,
            likely_share=residual,
            limit_share=limit,
            low_oxygen=has_absorber or barrier == VACUUM_BARRIER,
            in_dryer=in_dryer,
        )
        ruling = rule(load)
        store = Store(
            load,
            ruling,
            barrier,
            has_absorber,
            composition.fat_g,
            dry_enough=residual <= limit + SLACK,
        )
        return Judged(
            batch=batch,
            substance=substance,
            composition=composition,
            dried_g=_dried_g(batch, water, residual),
            now_g=now_g,
            listed_water_share=listed,
            water_share=water,
            residual_share=residual,
            dry_limit_share=limit,
            corrected=corrected,
            barrier=barrier,
            load=load,
            ruling=ruling,
            store=store,
            kept=kept(store, say),
            learned=learned,
        )


# -- weights --------------------------------------------------------------------------------------


def _now_g(batch: Batch, in_dryer: bool) -> float | None:
    """Give what a load weighs: as taken out, or as last weighed in the dryer."""
    if batch.dried_g is not None or not in_dryer:
        return batch.dried_g
    return batch.weighings[-1].mass_g if batch.weighings else batch.fresh_g


def _dried_g(batch: Batch, water: float, residual: float) -> float:
    if batch.dried_g is not None:
        return batch.dried_g
    if batch.fresh_g is not None:
        return work(dried_mass_g, batch.fresh_g, water, residual)
    packs = batch.packs
    return packs.count * packs.of_g if packs and packs.of_g else nothing("dried_g")


def _dryness(batch: Batch, kind: str, listed: float) -> tuple[float, float, bool]:
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
