"""Judges a batch from its weighings: how dry, what it holds now, until when it keeps."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace

from dateutil.relativedelta import relativedelta

from builder.formulas.drying import (
    MOST_WATER_SHARE,
    dried_mass_g,
    dry_enough_share,
    least_residual_share,
    low_oxygen_share,
    rehydration_water_ml,
    residual_share,
    usual_residual_share,
    water_share_from,
)
from builder.formulas.keeping import (
    FAT_HALVES_ABOVE_G,
    FAT_RICH_ABOVE_G,
    FROZEN_C,
    TABLE_KEPT_AT_C,
    TABLE_MONTHS,
    UNPROVEN_MOST_MONTHS,
    months_kept,
    table_months,
)
from builder.formulas.packing import days_left
from builder.formulas.safety import heated_before_drying_c
from builder.model.batch import HEAT_METHODS, Batch
from builder.model.content import Content
from builder.model.food import ANIMAL_KINDS, FLESH_KINDS, Composition
from builder.planning.refusals import told_at
from builder.planning.stock.substance import Substance, concentrated, substance_named
from builder.problems import Problem, ProblemsFound
from builder.speech import Speech, later

_DAYS_A_MONTH = 365.25 / 12
_SLACK = 1e-9
VACUUM_BARRIER = "vacuum-bag"
# A jar is reckoned as a sealed one, since nobody tells whether its lid lets air in.
LOW_OXYGEN_BARRIERS = frozenset({VACUUM_BARRIER, "can", "glass"})
BAG_BARRIERS = frozenset({"zip-bag", "paper"})
TIGHT_BARRIERS = frozenset({"foil", "glass", "can"})


@dataclass(frozen=True, slots=True)
class Judged:
    """A batch with all that follows from its weighings."""

    batch: Batch
    substance: Substance
    composition: Composition  # of 100 g as it is now
    dried_g: float
    listed_water_share: float
    water_share: float
    residual_share: float
    dry_limit_share: float
    corrected: bool
    barrier: str | None
    months: float | None
    best_before: datetime.date | None
    reasons: tuple[str, ...]
    wants_proof: bool = False  # kept so that weight alone does not prove it dry

    @property
    def pack_g(self) -> float:
        """What one pack holds."""
        packs = self.batch.packs
        if packs and packs.of_g is not None:
            return packs.of_g
        return self.dried_g / self.batch.pack_count

    @property
    def dry_enough(self) -> bool:
        """Whether it is dry enough for its kind and method."""
        return self.residual_share <= self.dry_limit_share + _SLACK

    @property
    def has_absorber(self) -> bool:
        """Whether its packs hold something that takes up oxygen."""
        return bool(self.batch.packs and self.batch.packs.absorber)

    @property
    def low_oxygen(self) -> bool:
        """Whether its packs may hold next to no oxygen."""
        return self.has_absorber or self.barrier in LOW_OXYGEN_BARRIERS

    @property
    def low_oxygen_is_safe(self) -> bool:
        """Whether it is dry enough, and of a kind, to be packed without oxygen."""
        if self.batch.method in HEAT_METHODS and self.substance.has_flesh:
            return False
        limit = low_oxygen_share(self.batch.method)
        return self.residual_share <= limit + _SLACK

    @property
    def dryness_proven(self) -> bool:
        """Whether two weighings agreed; the weight alone never proves it."""
        return self.batch.constant or self.batch.method == "bought"

    @property
    def stays_raw(self) -> bool:
        """Whether it is raw animal food that was not heated through before drying."""
        return self.substance.is_raw_animal and not heated_through(self.batch, self.substance)

    @property
    def auto_water_ml_per_g(self) -> float:
        """The water that drying took out of one gram of what is left."""
        if self.batch.method == "bought" or self.water_share <= self.residual_share:
            return 0.0
        return rehydration_water_ml(1.0, self.water_share, self.residual_share)

    @property
    def water_removed_g(self) -> float:
        """The water that left the load."""
        return (self.batch.fresh_g or self.dried_g) - self.dried_g

    @property
    def target_g(self) -> float | None:
        """The weight at which this load is dry enough."""
        if self.batch.fresh_g is None or self.water_share <= self.dry_limit_share:
            return None
        return dried_mass_g(self.batch.fresh_g, self.water_share, self.dry_limit_share)

    @property
    def keeps_from(self) -> datetime.date | None:
        """The day its time starts to run."""
        return self.batch.done or self.batch.planned


def heated_through(batch: Batch, substance: Substance) -> bool:
    """Tell whether raw meat, poultry, fish or egg was made safe by heat before drying."""
    if batch.heated is None or batch.heated.when != "before":
        return False
    # Egg has no limit of its own for this step; it takes that of meat.
    kind = substance.kind if substance.kind in FLESH_KINDS else "meat"
    return batch.heated.to_c >= heated_before_drying_c(kind, substance.is_game) - _SLACK


def judge(batch: Batch, content: Content, say: Speech) -> Judged:
    """Judge a batch and say why; raises ProblemsFound where its weighings cannot be."""
    substance = substance_named(batch.holds, content)
    listed = substance.composition.water_share
    with told_at(batch.places.record, f"batch {batch.id}"):
        if batch.method == "bought":
            water, residual, corrected = listed, listed, False
            # A bought food is as dry as its maker made it.
            limit = max(listed, dry_enough_share("dehydrator", substance.kind))
        else:
            water, residual, corrected = _dryness(batch, substance.kind, listed)
            limit = dry_enough_share(batch.method, substance.kind)
        dried_g = _dried_g(batch, water, residual)
        composition = substance.composition
        if batch.method != "bought" and listed > residual:
            composition = concentrated(composition, residual)
        barrier = None
        if batch.packs and batch.packs.packaging:
            barrier = content.gear.packaging[batch.packs.packaging].barrier
        judged = Judged(
            batch=batch,
            substance=substance,
            composition=composition,
            dried_g=dried_g,
            listed_water_share=listed,
            water_share=water,
            residual_share=residual,
            dry_limit_share=limit,
            corrected=corrected,
            barrier=barrier,
            months=None,
            best_before=None,
            reasons=(),
        )
        return _with_keeping(judged, say)


def _dried_g(batch: Batch, water: float, residual: float) -> float:
    if batch.dried_g is not None:
        return batch.dried_g
    if batch.fresh_g is not None:
        return dried_mass_g(batch.fresh_g, water, residual)
    packs = batch.packs
    return packs.count * (packs.of_g or 0.0) if packs else 0.0


def _dryness(batch: Batch, kind: str, listed: float) -> tuple[float, float, bool]:
    """Give water share, residual moisture, and whether the listed water had to be corrected."""
    if batch.dried_g is None or batch.fresh_g is None:
        return listed, min(usual_residual_share(batch.method, kind), listed), False
    if batch.dried_g >= batch.fresh_g:
        raise ProblemsFound(
            [
                Problem(
                    batch.places.of("dried"),
                    "no-loss",
                    f"batch {batch.id} weighs {batch.dried_g:g} g dried and {batch.fresh_g:g} g "
                    "fresh: it lost nothing",
                    "check both weights and their units, and take the tare off both",
                )
            ]
        )
    residual = residual_share(batch.fresh_g, batch.dried_g, listed)
    least = least_residual_share(batch.method)
    if residual >= least - _SLACK:
        return listed, max(residual, 0.0), False
    if 1 - batch.dried_g * (1 - least) / batch.fresh_g > MOST_WATER_SHARE:
        raise ProblemsFound(
            [
                Problem(
                    batch.places.of("dried"),
                    "too-light",
                    f"batch {batch.id} came out at {batch.dried_g:g} g from {batch.fresh_g:g} g: "
                    f"no food is more than {MOST_WATER_SHARE:.0%} water",
                    "check both weights and their units",
                )
            ]
        )
    return water_share_from(batch.fresh_g, batch.dried_g, least), least, True


# -- keeping ----------------------------------------------------------------------------------


def _with_keeping(judged: Judged, say: Speech) -> Judged:
    batch = judged.batch
    if batch.method == "bought":
        if batch.best_before is None:
            return _kept(judged, None, None, (say("nobody wrote down the date on the pack"),))
        return _kept(judged, None, batch.best_before, (say("the date on the pack"),))
    if judged.stays_raw and judged.substance.kind == "egg":
        return _kept(judged, None, None, (say("raw egg dried at home is not to be kept"),))
    if batch.method == "sun" and judged.substance.has_flesh:
        why = say("meat and fish dried in the sun are not to be kept")
        return _kept(judged, None, None, (why,))
    group = _group(judged)
    fat_g = judged.composition.fat_g
    in_bag = judged.barrier in BAG_BARRIERS
    table = table_months(group, in_bag, fat_g)
    cool = _warmth(say, TABLE_KEPT_AT_C, 1)
    reasons = [
        say(
            "{food}: {n} months at {cool}",
            food=say(_GROUPS[group]),
            n=say.signs(f"{TABLE_MONTHS[group]:g}"),
            cool=cool,
        )
    ]
    if in_bag:
        reasons.append(say("a bag lets air and moisture in: half"))
    elif fat_g > FAT_HALVES_ABOVE_G:
        reasons.append(say("fat ({n} g in 100 g) turns rancid: half", n=say.number(fat_g)))
    stays = _stays(judged)
    months = _months_in_places(table, stays, batch.kept_at_c)
    for days, at_c in stays:
        reasons.append(
            say.count(
                "{n} day at {warmth} used part of its time",
                "{n} days at {warmth} used part of its time",
                round(days),
                warmth=_warmth(say, at_c),
            )
        )
    warmth = _warmth(say, batch.kept_at_c)
    if batch.kept_at_c > TABLE_KEPT_AT_C:
        reasons.append(say("kept at {warmth}, warmer than {cool}: less", warmth=warmth, cool=cool))
    elif batch.kept_at_c <= FROZEN_C:
        reasons.append(say("kept frozen at {warmth}: more", warmth=warmth))
    airless = judged.has_absorber or judged.barrier == VACUUM_BARRIER
    wants_proof = airless or months > UNPROVEN_MOST_MONTHS
    if wants_proof and not judged.dryness_proven and months > UNPROVEN_MOST_MONTHS:
        months = UNPROVEN_MOST_MONTHS
        reasons.append(say("nobody weighed it twice to prove it dry: not longer than 12 months"))
    if group.startswith("freeze-dried"):
        reasons.append(say("common practice names far longer; no authority vouches for it"))
    start = judged.keeps_from
    date = start + _months_long(months) if start else None
    if batch.best_before is not None and (date is None or batch.best_before < date):
        date = batch.best_before
        reasons.append(say("the date you wrote is earlier"))
    return replace(
        _kept(judged, months, date, tuple(reasons)),
        wants_proof=wants_proof and not judged.dryness_proven,
    )


def _stays(judged: Judged) -> list[tuple[float, float]]:
    """Give the days in each place before the last, and how warm it was."""
    start = judged.keeps_from
    stays = []
    for stay in judged.batch.stays:
        if start is None or stay.until <= start:
            continue
        stays.append((float((stay.until - start).days), stay.at_c))
        start = stay.until
    return stays


def _months_in_places(table: float, stays: list[tuple[float, float]], kept_at_c: float) -> float:
    """Give the months until its time is used up, over all places in turn."""
    gone: list[tuple[float, float]] = []
    for days, at_c in stays:
        left = days_left(table, gone, at_c)
        if left <= days:
            return (sum(each for each, _ in gone) + left) / _DAYS_A_MONTH
        gone.append((days, at_c))
    if not gone:
        return months_kept(table, kept_at_c)
    return (sum(each for each, _ in gone) + days_left(table, gone, kept_at_c)) / _DAYS_A_MONTH


def _months_long(months: float) -> relativedelta:
    """Give whole calendar months, and the rest in days of a mean month."""
    whole = int(months + _SLACK)
    return relativedelta(months=whole, days=int((months - whole) * _DAYS_A_MONTH + _SLACK))


def _kept(
    judged: Judged,
    months: float | None,
    best_before: datetime.date | None,
    reasons: tuple[str, ...],
) -> Judged:
    return replace(judged, months=months, best_before=best_before, reasons=reasons)


_GROUPS = {  # rows of the table of months, as people call them
    "freeze-dried-raw-or-fat": later("freeze-dried raw animal or very fat food"),
    "freeze-dried-animal": later("freeze-dried cooked meat, fish, egg or dairy"),
    "freeze-dried-plant": later("freeze-dried plant food"),
    "jerky": later("dried meat like jerky"),
    "cooked-meat": later("meat or fish, or a meal with it"),
    "egg-dairy": later("egg or dairy"),
    "nut": later("nuts"),
    "fruit": later("dried fruit"),
    "plant": later("vegetables, legumes, grain, herbs and meals without meat"),
}


def _warmth(say: Speech, temperature_c: float, decimals: int = 0) -> str:
    return f"{say.number(temperature_c, decimals).replace('-', '−')} °C"


def _group(judged: Judged) -> str:
    """Give the row of the table of months."""
    batch, substance = judged.batch, judged.substance
    if (
        batch.method == "freeze-dryer"
        and judged.residual_share <= judged.dry_limit_share + _SLACK
        and judged.barrier in TIGHT_BARRIERS
        and judged.has_absorber
    ):
        if judged.stays_raw or judged.composition.fat_g > FAT_RICH_ABOVE_G:
            return "freeze-dried-raw-or-fat"
        if substance.kinds & ANIMAL_KINDS:
            return "freeze-dried-animal"
        return "freeze-dried-plant"
    if substance.has_flesh:
        heat_dried_raw = batch.method in HEAT_METHODS and judged.stays_raw
        if batch.jerky or heat_dried_raw:
            return "jerky"
        return "cooked-meat"
    if substance.kind in ("egg", "dairy"):
        return "egg-dairy"
    if substance.kind == "nut":
        return "nut"
    if substance.kind == "fruit":
        return "fruit"
    return "plant"
