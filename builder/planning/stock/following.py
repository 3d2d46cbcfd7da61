"""What judging a load by its weights takes, so that it can be followed while it dries."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping

from builder.formulas.drying import MOST_WATER_SHARE, least_residual_share
from builder.formulas.dryness import least_solids_share, solids_of_listed
from builder.model.batch import WAYS_TO_DRY, Batch, Method
from builder.model.content import Content
from builder.model.kit import DryingRun
from builder.model.trip import ENGLISH
from builder.planning.batches import (
    Act,
    Judged,
    OwnBatches,
    act_of,
    judge,
    learned_of,
    look_next,
    own_batches,
    rule,
    spread_of,
)
from builder.planning.foods import Substance, substance_named
from builder.planning.stock.kit_batches import run_of
from builder.planning.stock.packs import Stock
from builder.record import dataclass, replace
from builder.speech import speech_of

_ANY_G = 1000.0  # what a load is judged by does not hang on its weight


@dataclass(frozen=True, slots=True)
class Rules:
    """What a load of one food in one dryer is judged by."""

    water_share: float  # of what goes in: listed, or drawn towards own batches
    limit_share: float  # of water, at or below which it is dry enough
    least_share: float  # that this way of drying leaves
    lightest_share: float  # of its fresh weight, below which a weighing cannot be
    never: Act  # what to do with it however dry; "" where it may be dried so
    once_dry: Act  # what is left to do then


@dataclass(frozen=True, slots=True)
class Followed:
    """A load in the dryer, with all that its weighings tell."""

    judged: Judged
    run: DryingRun | None  # None before the second weighing
    look_next_min: float | None  # since it went in; None where nobody knows yet
    rules: Rules


@dataclass(frozen=True, slots=True)
class Dryable:
    """A food or a whole meal that may go into a dryer next, by each way that could dry it."""

    substance: Substance
    is_recipe: bool
    spread_share: float
    rules: Mapping[Method, Rules]


def followed(stock: Stock) -> tuple[Followed, ...]:
    """Give all that is in a dryer, what went in first before the others."""
    found = [_followed(each) for each in stock.judged.values() if each.batch.in_dryer]
    return tuple(sorted(found, key=_since))


def _since(each: Followed) -> tuple[datetime.datetime, str]:
    batch = each.judged.batch
    return batch.started or datetime.datetime.max, batch.id


def _followed(judged: Judged) -> Followed:
    run = run_of(judged)
    is_wet = run is not None and judged.verdict == "not-dry"
    return Followed(judged, run, look_next(run) if run and is_wet else None, _rules(judged))


def dryables(content: Content, stock: Stock) -> tuple[Dryable, ...]:
    """Give what this household dries: what it dried before, and what its recipes take dried."""
    own = own_batches(stock.judged.values())
    found = (_dryable(holds, content, own) for holds in dict.fromkeys(_dried_here(content)))
    return tuple(sorted((each for each in found if each.rules), key=_by_name))


def _by_name(each: Dryable) -> tuple[str, str]:
    return each.substance.name, each.substance.id


def _dried_here(content: Content) -> Iterator[str]:
    for batch in content.batches.values():
        if not batch.is_bought:
            yield batch.holds
    for recipe in content.recipes.values():
        for each in recipe.uses:
            if each.dried_by not in (None, "bought"):
                yield each.food or each.recipe or ""


def _dryable(holds: str, content: Content, own: OwnBatches) -> Dryable:
    substance = substance_named(holds, content)
    is_recipe = holds not in content.foods
    food, recipe = (None, holds) if is_recipe else (holds, None)
    rules: dict[Method, Rules] = {}
    for method in WAYS_TO_DRY:
        batch = Batch("", method, food, recipe, fresh_g=_ANY_G)
        learned = learned_of(substance, method, own)
        judged = judge(batch, content, speech_of(ENGLISH), True, learned)
        if judged.target_g is not None:  # else it is as dry as it should become
            rules[method] = _rules(judged)
    return Dryable(substance, is_recipe, spread_of(substance), rules)


def _rules(judged: Judged) -> Rules:
    """Give what a load is judged by, as it would be once it is just dry."""
    load = judged.load
    dry = replace(load, now_g=None, likely_share=load.limit_share)
    ruling = rule(dry)
    act = act_of(dry, ruling, None)
    listed = judged.listed_water_share
    least = least_residual_share(load.batch.method)
    # Solids grow with the weight: as heavy as it was when fresh, it would hold so many.
    lightest = least_solids_share(listed, load.spread_share) / solids_of_listed(
        1.0, 1.0, listed, least
    )
    return Rules(
        water_share=judged.water_share,
        limit_share=load.limit_share,
        least_share=least,
        lightest_share=max(lightest, (1.0 - MOST_WATER_SHARE) / (1.0 - least)),
        never=act if ruling.failed else "",
        once_dry="" if ruling.failed else act,
    )
