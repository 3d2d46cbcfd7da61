"""What the tool says of a batch: dry, not dry, undecided by weight, or to be thrown out."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Literal

from builder.formulas.drying import LOW_OXYGEN_SHARE, least_residual_share
from builder.formulas.dryness import SPREADS, USUAL_SPREAD_SHARE, dry_by_weight, residual_off_share
from builder.formulas.safety import (
    HEATED_AFTER_DRYING_C,
    HEATED_AFTER_DRYING_MIN,
    heated_before_drying_c,
)
from builder.model.batch import HEAT_METHODS, Batch, DryTest, Verdict
from builder.model.figure import largest, named
from builder.model.food import ANIMAL_KINDS, FLESH_KINDS
from builder.planning.foods import Substance
from builder.planning.tracing import look_up, work
from builder.record import dataclass
from builder.speech import Speech, later
from builder.units import System

SLACK = 1e-9
_USUAL_SPREAD_SHARE = named(USUAL_SPREAD_SHARE, "usual_spread_share", "usda-sr28")
_SPREADS_LESS = named(-SPREADS, "spreads", "common-practice")
_SPREADS_MORE = named(SPREADS, "spreads", "common-practice")
# What came out too wet may go back into the dryer for so long; later germs had their time.
DRIED_ON_WITHIN_DAYS = 2

# Why a batch is not simply good.
Cause = Literal[
    "",
    "sun",  # meat or fish dried in the sun
    "raw-egg",  # raw egg dried by heat
    "raw-loose",  # raw poultry or mince dried by heat alone
    "raw-whole",  # raw whole cuts, fish or game dried by heat alone
    "raw-frozen",  # raw animal food freeze-dried
    "airless-wet",  # not dry, and packed without oxygen
    "airless-flesh-undecided",  # heat-dried meat or fish without oxygen, perhaps not dry
    "airless-flesh",  # the same, dry
    "airless-undecided",  # without oxygen, perhaps not dry
    "airless-moist",  # without oxygen, dry for its kind and above what guidance covers
    "wet",
    "undecided",
]
Act = Literal[
    "", "throw-out", "plan-otherwise", "dry-on-today", "dry-on", "test", "test-fruit",
    "open-and-test", "open-and-freeze", "heat", "cook",
]  # fmt: skip

ACTS = {
    "throw-out": later("Throw it out."),
    "plan-otherwise": later("Do not dry it this way: it would have to be thrown out."),
    "dry-on-today": later("Dry it further today, or eat it now."),
    "dry-on": later("Keep drying, {mass} to go."),
    "test": later(
        "Test it: break a cold piece, it must snap; or weigh it again after 2 h more in the dryer, "
        "at most 0.5 % less."
    ),
    "test-fruit": later(
        "Test it: break a cold piece, it must snap; or weigh it again after 2 h more in the dryer, "
        "at most 0.5 % less; or look for drops after a week in a closed jar, there must be none."
    ),
    "open-and-test": later("Open it today and test it; dry: seal it anew, else throw it out."),
    "open-and-freeze": later("Open it, pack it with air, freeze it."),
    "heat": later("10 minutes at {heat} in the oven, or boil it through, before anybody eats it."),
    "cook": later("Cook it through before anybody eats it."),
}
# Why something is thrown out: it is …
_WHY_THROWN_OUT: Mapping[Cause, str] = {
    "sun": later("meat or fish, and dried in the sun"),
    "raw-egg": later("raw egg, dried by heat"),
    "raw-loose": later("raw poultry or mince, and not heated through before it was dried"),
    "airless-wet": later("not dry, and packed without oxygen"),
    "airless-flesh-undecided": later("meat or fish that may not be dry, and packed without oxygen"),
    "wet": later("not dry, and no longer to be dried on"),
}
# Tests that prove a batch dry which its weight leaves open.
_PROVING: frozenset[DryTest] = frozenset({"constant", "snap"})
_PROVING_FRUIT: frozenset[DryTest] = _PROVING | {"jar"}


@dataclass(frozen=True, slots=True)
class Load:
    """What a verdict goes by."""

    substance: Substance
    batch: Batch
    now_g: float | None  # as last weighed; None where only planned or bought
    likely_share: float  # moisture left, by the listed water or corrected
    limit_share: float
    low_oxygen: bool
    in_dryer: bool

    @property
    def spread_share(self) -> float:
        """One standard deviation of the listed water."""
        return spread_of(self.substance)


def spread_of(substance: Substance) -> float:
    """Give one standard deviation of a food's listed water: its own, else the usual one."""
    spread = substance.spread_share
    return _USUAL_SPREAD_SHARE if spread is None else spread


@dataclass(frozen=True, slots=True)
class Ruling:
    """A verdict, why, and between what the moisture left may lie."""

    verdict: Verdict
    cause: Cause = ""
    low_share: float = 0.0
    high_share: float = 0.0

    @property
    def failed(self) -> bool:
        """Whether nobody is to eat of it as it is: no date, no proposal."""
        return self.verdict in ("not-dry", "discard")


def rule(load: Load) -> Ruling:
    """Judge a load."""
    batch = load.batch
    if batch.is_bought:
        return Ruling("dry", "", load.likely_share, load.likely_share)
    low, high = _range(load)
    never = _never(load)
    if never:
        return Ruling("discard", never, low, high)
    if batch.is_planned and not load.in_dryer:
        return Ruling("dry", _raw(load), low, high)
    verdict = _by_weight(load, low, high)
    if load.in_dryer:
        return Ruling(verdict, _cause_in_dryer(load, verdict), low, high)
    airless_flesh = load.low_oxygen and _heat_dried_flesh(load)
    if verdict == "not-dry":
        return (
            Ruling("discard", "airless-wet", low, high)
            if load.low_oxygen
            else Ruling("not-dry", "wet", low, high)
        )
    if verdict == "undecided" and airless_flesh:
        return Ruling("discard", "airless-flesh-undecided", low, high)
    return Ruling(verdict, _cause(load, verdict, airless_flesh), low, high)


def _cause_in_dryer(load: Load, verdict: Verdict) -> Cause:
    if verdict == "not-dry":
        return "wet"
    return "undecided" if verdict == "undecided" else _raw(load)


def _cause(load: Load, verdict: Verdict, airless_flesh: bool) -> Cause:
    """Give what is to be known of a batch that is dry, or may be."""
    raw = _raw(load)
    if raw == "raw-whole":
        return raw
    if verdict == "undecided":
        return "airless-undecided" if load.low_oxygen else "undecided"
    if airless_flesh:
        return "airless-flesh"
    if load.low_oxygen and load.likely_share > LOW_OXYGEN_SHARE + SLACK:
        return "airless-moist"
    return raw


def _range(load: Load) -> tuple[float, float]:
    """Give the moisture left with the listed water two standard deviations down and up."""
    batch, now_g = load.batch, load.now_g
    if batch.fresh_g is None or now_g is None:
        return load.likely_share, load.likely_share
    listed = load.substance.composition.water_share
    if now_g >= batch.fresh_g:  # in the dryer, and nothing lost yet
        return listed, listed
    least = look_up(least_residual_share, batch.method)
    low, high = (
        largest(
            work(residual_off_share, batch.fresh_g, now_g, listed, load.spread_share, spreads),
            least,
        )
        for spreads in (_SPREADS_LESS, _SPREADS_MORE)
    )
    return low, high


def _by_weight(load: Load, low: float, high: float) -> Verdict:
    dry = dry_by_weight(low, high, load.limit_share)
    if dry:
        return "dry" if dry > 0 else "not-dry"
    proving = _PROVING_FRUIT if load.substance.kind == "fruit" else _PROVING
    return "dry" if load.batch.tests & proving else "undecided"


def _never(load: Load) -> Cause:
    """Give why a food dried so is thrown out, however dry."""
    substance, batch = load.substance, load.batch
    if batch.method == "sun" and substance.has_flesh:
        return "sun"
    if batch.method not in HEAT_METHODS or not stays_raw(batch, substance):
        return ""
    if substance.kind == "egg":
        return "raw-egg"
    return "raw-loose" if substance.kind == "poultry" or substance.is_minced else ""


def _raw(load: Load) -> Cause:
    if not stays_raw(load.batch, load.substance):
        return ""
    return "raw-whole" if load.batch.method in HEAT_METHODS else "raw-frozen"


def _heat_dried_flesh(load: Load) -> bool:
    return load.batch.method in HEAT_METHODS and load.substance.has_flesh


# -- heat -----------------------------------------------------------------------------------------


def stays_raw(batch: Batch, substance: Substance) -> bool:
    """Tell whether it is raw animal food that no heat made safe."""
    return substance.is_raw_animal and not heated_through(batch, substance)


def heated_through(batch: Batch, substance: Substance) -> bool:
    """Tell whether raw meat, poultry, fish or egg was made safe by heat beside the drying."""
    heated = batch.heated
    if heated is None:
        return False
    if heated.when == "after":
        # The oven after the dryer is a published way for strips of meat alone.
        return (
            substance.kind in FLESH_KINDS
            and batch.method in HEAT_METHODS
            and heated.to_c >= HEATED_AFTER_DRYING_C - SLACK
            and heated.minutes >= HEATED_AFTER_DRYING_MIN - SLACK
        )
    # Egg has no limit of its own for this step; it takes that of meat.
    kind = substance.kind if substance.kind in FLESH_KINDS else "meat"
    least_c = heated_before_drying_c(kind, substance.is_game)
    # A thermometer of whole degrees reads 160 °F as 71 °C; 165 °F are less than 74 °C, and do.
    return heated.to_c >= min(least_c, round(least_c)) - SLACK


# -- the one thing to do --------------------------------------------------------------------------


def act_of(load: Load, ruling: Ruling, at: datetime.date | None) -> Act:
    """Give the one thing to do, as of a day; the empty one where there is nothing to do."""
    planned = load.batch.is_planned and not load.in_dryer
    match ruling.cause:
        case "sun" | "raw-egg" | "raw-loose":
            return "plan-otherwise" if planned else "throw-out"
        case "airless-wet" | "airless-flesh-undecided":
            return "throw-out"
        case "wet":
            return _act_of_wet(load, at)
        case "undecided":
            return "test-fruit" if load.substance.kind == "fruit" else "test"
        case "airless-undecided":
            return "open-and-test"
        case "airless-flesh":
            return "open-and-freeze"
        case "raw-whole":
            return "heat"
        case "raw-frozen":
            return "cook"
        case _:
            return ""


def why_thrown_out(act: Act, cause: Cause) -> str:
    """Give why something is thrown out, to be said; nothing where it is not."""
    return _WHY_THROWN_OUT[cause] if act == "throw-out" else ""


def _act_of_wet(load: Load, at: datetime.date | None) -> Act:
    if load.in_dryer:
        return "dry-on"
    done = load.batch.done
    if load.substance.kinds & ANIMAL_KINDS or at is None or done is None:
        return "throw-out"
    return "dry-on-today" if 0 <= (at - done).days <= DRIED_ON_WITHIN_DAYS else "throw-out"


def act_said(say: Speech, act: Act, units: System, to_go_g: float) -> str:
    """Say what to do."""
    if not act:
        return ""
    return say(
        ACTS[act],
        mass=say.show(to_go_g, "mass_g", units),
        heat=say.show(HEATED_AFTER_DRYING_C, "temperature_c", units),
    )
