"""Conditions of the cautions about batches: how they were dried, how dry, how packed."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.batch import HEAT_METHODS
from builder.model.food import EGG_AND_DAIRY
from builder.planning.batches import Act, Cause, Judged
from builder.planning.cautions.facts import Facts, Finding, of_batch
from builder.speech import later

_NOT_HEATED = later("{batch} was dried raw by heat, and no heat step is noted that makes it safe.")
_AIRLESS = {  # how a batch is packed without oxygen
    True: later("{batch} is packed with an absorber; {low} to {high} moisture is left in it."),
    False: later("{batch} is packed in a vacuum bag; {low} to {high} moisture is left in it."),
}
_FLESH = {
    True: later("{batch} is heat-dried meat or fish, packed with an absorber."),
    False: later("{batch} is heat-dried meat or fish, packed in a vacuum bag."),
}


def _because(facts: Facts, *causes: Cause) -> Iterator[Judged]:
    """Find the batches that a verdict was passed on for one of these causes."""
    return (judged for judged in facts.batches if judged.ruling.cause in causes)


def _airless(facts: Facts, judged: Judged) -> Finding:
    ruling = judged.ruling
    return of_batch(
        facts,
        _AIRLESS[judged.has_absorber],
        judged,
        low=facts.shown(ruling.low_share, "share"),
        high=facts.shown(ruling.high_share, "share"),
    )


def jerky_not_heated(facts: Facts) -> Iterator[Finding]:
    """Whole cuts, fish or game dried by heat alone."""
    for judged in _because(facts, "raw-whole"):
        yield of_batch(facts, _NOT_HEATED, judged)


def raw_loose_dried(facts: Facts) -> Iterator[Finding]:
    """Poultry or mince dried by heat alone."""
    for judged in _because(facts, "raw-loose"):
        yield of_batch(facts, _NOT_HEATED, judged)


def no_best_before(facts: Facts) -> Iterator[Finding]:
    """Raw egg dried by heat, for which no date can be given."""
    for judged in _because(facts, "raw-egg"):
        yield of_batch(facts, later("{batch} is raw egg dried by heat."), judged)


def egg_and_dairy_by_heat(facts: Facts) -> Iterator[Finding]:
    """Egg or dairy dried by heat that may be eaten all the same."""
    for judged in facts.batches:
        by_heat = judged.batch.method in HEAT_METHODS and judged.substance.kind in EGG_AND_DAIRY
        if by_heat and not judged.ruling.failed:
            yield of_batch(facts, later("{batch} was dried by heat."), judged)


def sun_dried_meat(facts: Facts) -> Iterator[Finding]:
    """Meat or fish dried in the sun."""
    for judged in _because(facts, "sun"):
        yield of_batch(facts, later("{batch} was dried in the sun."), judged)


def not_dry_enough(facts: Facts) -> Iterator[Finding]:
    """A batch that is wet even where its listed water is at its lowest: nobody is to eat of it."""
    yield from _wet_to(facts, "throw-out")


def dry_it_on(facts: Facts) -> Iterator[Finding]:
    """The same of plant food that came out of the dryer just now."""
    yield from _wet_to(facts, "dry-on-today")


def _wet_to(facts: Facts, act: Act) -> Iterator[Finding]:
    """Find the wet batches with which that is the one thing to do."""
    for judged in _because(facts, "wet"):
        if judged.act_as_of(facts.trip.start) == act:
            yield _wet(facts, judged)


def _wet(facts: Facts, judged: Judged) -> Finding:
    blanks = {
        "mass": facts.shown(judged.dried_g, "mass_g"),
        "low": facts.shown(judged.ruling.low_share, "share"),
        "limit": facts.shown(judged.dry_limit_share, "share"),
    }
    target_g = judged.target_g
    if target_g is None:
        return of_batch(
            facts,
            later("{batch} weighs {mass}: at least {low} moisture is left, {limit} would do."),
            judged,
            **blanks,
        )
    return of_batch(
        facts,
        later(
            "{batch} weighs {mass}, dry at {target}: at least {low} moisture is left, "
            "{limit} would do."
        ),
        judged,
        target=facts.shown(target_g, "mass_g"),
        **blanks,
    )


def not_dried_yet(facts: Facts) -> Iterator[Finding]:
    """A batch that is still to be dried, or in the dryer: what is told of it is only reckoned."""
    for judged in facts.batches:
        batch = judged.batch
        if batch.in_dryer:
            yield of_batch(facts, later("{batch} is still in the dryer."), judged)
        elif batch.is_planned and batch.planned is not None:
            date = facts.say.short_date(batch.planned)
            yield of_batch(facts, later("{batch} is to be dry on {date}."), judged, date=date)


def low_oxygen_wet(facts: Facts) -> Iterator[Finding]:
    """A batch packed without oxygen that is not dry, or meat of which nobody knows."""
    for judged in _because(facts, "airless-wet", "airless-flesh-undecided"):
        yield _airless(facts, judged)


def dryness_not_proven(facts: Facts) -> Iterator[Finding]:
    """A batch packed without oxygen whose weight leaves open whether it is dry."""
    for judged in _because(facts, "airless-undecided"):
        yield _airless(facts, judged)


def low_oxygen_meat(facts: Facts) -> Iterator[Finding]:
    """Heat-dried meat or fish that is dry, packed without oxygen."""
    for judged in _because(facts, "airless-flesh"):
        yield of_batch(facts, _FLESH[judged.has_absorber], judged)


def low_oxygen_moist(facts: Facts) -> Iterator[Finding]:
    """A batch dry for its kind, and moister than guidance for packs without oxygen covers."""
    for judged in _because(facts, "airless-moist"):
        yield _airless(facts, judged)
