"""Conditions of the cautions about batches: how they were dried, how dry, how packed."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.batch import HEAT_METHODS
from builder.planning.cautions.facts import Facts, Finding, batch_said, of_batch
from builder.planning.stock import heated_through
from builder.speech import later

# Of batches that keep too much water to be packed without air, by what they are packed with.
_TOO_WET = {
    "absorber": later("{batch} has {moisture} moisture left and is packed with an absorber."),
    "vacuum-bag": later("{batch} has {moisture} moisture left and is packed in a vacuum bag."),
    "can": later("{batch} has {moisture} moisture left and is packed in a can."),
    "glass": later("{batch} has {moisture} moisture left and is packed in a sealed jar."),
}
_FLESH = {
    "absorber": later("{batch} is heat-dried meat or fish and is packed with an absorber."),
    "vacuum-bag": later("{batch} is heat-dried meat or fish and is packed in a vacuum bag."),
    "can": later("{batch} is heat-dried meat or fish and is packed in a can."),
    "glass": later("{batch} is heat-dried meat or fish and is packed in a sealed jar."),
}


def jerky_not_heated(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry or fish dried by heat without a heat step before."""
    for judged in facts.batches:
        substance = judged.substance
        if (
            judged.batch.method in HEAT_METHODS
            and substance.is_raw_animal
            and substance.has_flesh
            and not heated_through(judged.batch, substance)
        ):
            says = later(
                "{batch} was heat-dried raw, and nobody noted that it was heated through before."
            )
            yield of_batch(facts, says, judged)


def not_dry_enough(facts: Facts) -> Iterator[Finding]:
    """A batch with more moisture left than its kind may keep with."""
    for judged in facts.batches:
        if not judged.dry_enough:
            left = facts.shown(judged.residual_share, "share")
            limit = facts.shown(judged.dry_limit_share, "share")
            weighs = facts.shown(judged.dried_g, "mass_g")
            says = (
                facts.say(
                    "{batch} weighs {mass}, dry enough at {target}: "
                    "{moisture} moisture is left, {limit} would do.",
                    batch=batch_said(facts, judged),
                    mass=weighs,
                    target=facts.shown(judged.target_g, "mass_g"),
                    moisture=left,
                    limit=limit,
                )
                if judged.target_g
                else facts.say(
                    "{batch} weighs {mass}: {moisture} moisture is left, {limit} would do.",
                    batch=batch_said(facts, judged),
                    mass=weighs,
                    moisture=left,
                    limit=limit,
                )
            )
            yield Finding(says, "drying")


def low_oxygen_wet(facts: Facts) -> Iterator[Finding]:
    """A batch packed without oxygen that is too wet for it, or heat-dried meat."""
    for judged in facts.batches:
        if judged.batch.method == "bought":
            continue
        if judged.low_oxygen and not judged.low_oxygen_is_safe:
            flesh = judged.batch.method in HEAT_METHODS and judged.substance.has_flesh
            packed = "absorber" if judged.has_absorber else judged.barrier or ""
            moisture = facts.shown(judged.residual_share, "share")
            says = _FLESH[packed] if flesh else _TOO_WET[packed]
            yield of_batch(facts, says, judged, moisture=moisture)


def dryness_not_proven(facts: Facts) -> Iterator[Finding]:
    """A batch packed or kept so that its weight alone does not prove it dry."""
    for judged in facts.batches:
        if judged.wants_proof and judged.batch.method != "bought":
            says = later("{batch} is packed to keep long, and no second weighing is noted.")
            yield of_batch(facts, says, judged)


def no_best_before(facts: Facts) -> Iterator[Finding]:
    """Raw egg dried at home, for which no date can be given."""
    for judged in facts.batches:
        if judged.stays_raw and judged.substance.kind == "egg":
            yield of_batch(facts, later("{batch} is raw egg dried at home."), judged)


def sun_dried_meat(facts: Facts) -> Iterator[Finding]:
    """Meat or fish dried in the sun."""
    for judged in facts.batches:
        if judged.batch.method == "sun" and judged.substance.has_flesh:
            yield of_batch(facts, later("{batch} was dried in the sun."), judged)
