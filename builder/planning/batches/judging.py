"""Judges a batch from its weighings: how dry, what it holds now, until when it keeps."""

from __future__ import annotations

import datetime

from builder.formulas.drying import (
    dried_mass_g,
)
from builder.model.batch import Batch, Verdict
from builder.model.content import Content
from builder.model.figure import largest, nothing
from builder.model.food import ANIMAL_KINDS, Composition
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
    stays_raw,
    why_thrown_out,
)
from builder.planning.batches.weights import called, dried_g_of, how_dry, now_g_of
from builder.planning.foods import (
    NO_WATER,
    Substance,
    WaterBack,
    concentrated,
    substance_named,
    water_back,
)
from builder.planning.refusals import told_at
from builder.planning.tracing import work
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
        """Give why it is thrown out, to be said; nothing where it is not."""
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
    substance = substance_named(batch.holds, content)
    listed = substance.composition.water_share
    with told_at(batch.places.record, called(batch)):
        dry = how_dry(batch, substance, learned)
        composition = substance.composition
        if not batch.is_bought and listed > dry.residual_share:
            composition = concentrated(composition, dry.residual_share)
        barrier = None
        if batch.packs and batch.packs.packaging:
            barrier = content.gear.packaging[batch.packs.packaging].barrier
        in_dryer = batch.in_dryer if in_dryer is None else in_dryer
        now_g = now_g_of(batch, in_dryer)
        has_absorber = bool(batch.packs and batch.packs.absorber)
        load = Load(
            substance=substance,
            batch=batch,
            now_g=now_g,
            likely_share=dry.residual_share,
            limit_share=dry.limit_share,
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
            dry_enough=dry.residual_share <= dry.limit_share + SLACK,
        )
        return Judged(
            batch=batch,
            substance=substance,
            composition=composition,
            dried_g=dried_g_of(batch, dry.water_share, dry.residual_share),
            now_g=now_g,
            listed_water_share=listed,
            water_share=dry.water_share,
            residual_share=dry.residual_share,
            dry_limit_share=dry.limit_share,
            corrected=dry.corrected,
            barrier=barrier,
            load=load,
            ruling=ruling,
            store=store,
            kept=kept(store, say),
            learned=dry.learned,
        )
