"""The page that follows runs while they dry: what they weighed, and when to look at them next."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping

from builder.formulas.declaring import FORMULAS
from builder.formulas.drying import MOST_WATER_SHARE, dried_mass_g, moisture_ratio, residual_share
from builder.formulas.drying_curve import (
    LONGEST_MIN,
    look_next_min,
    minutes_to_ratio,
    moisture_ratio_of,
    page_mass_g,
)
from builder.formulas.dryness import SPREADS, dry_by_weight, residual_off_share
from builder.formulas.safety import HEATED_AFTER_DRYING_C
from builder.model.batch import WAYS_TO_DRY
from builder.pages.charts import Chart, half_hours, run_chart
from builder.pages.figures import Figures
from builder.pages.home.runs import hour, moment
from builder.pages.home.showing import figures_of_home
from builder.pages.pieces import Fact, text
from builder.pages.words import DRY_BY
from builder.planning.batches import FIT, VERDICTS
from builder.planning.home import HomePlan
from builder.planning.stock import Dryable, Followed, Rules
from builder.record import dataclass
from builder.units import System

Data = dict[str, object]
# What the script works out anew; each comes as the expression that is printed beside it.
_FORMULAS: tuple[Callable[..., float], ...] = (
    dried_mass_g,
    residual_share,
    residual_off_share,
    dry_by_weight,
    moisture_ratio,
    moisture_ratio_of,
    minutes_to_ratio,
    page_mass_g,
    look_next_min,
)


@dataclass(frozen=True, slots=True)
class RunNow:
    """One load in the dryer, as of what stands in the log."""

    batch: str
    name: str
    went_in: str
    verdict: str
    facts: tuple[Fact, ...]
    chart: Chart | None
    command: str


@dataclass(frozen=True, slots=True)
class FollowPage:
    """All loads in the dryers, and what a script needs to judge them by new weights."""

    runs: tuple[RunNow, ...]
    data: Data


def follow_page(plan: HomePlan) -> FollowPage:
    """Give the page."""
    figures = figures_of_home(plan.home)
    return FollowPage(
        tuple(_now(figures, each, plan.home.units) for each in plan.in_dryer),
        {
            "units": plan.home.units,
            "heat": figures.plain(HEATED_AFTER_DRYING_C, "temperature_c"),
            "methods": [[method, figures.say(DRY_BY[method])] for method in WAYS_TO_DRY],
            "dryers": [[each.id, each.name, each.method] for each in plan.dryers],
            "runs": [_run(each) for each in plan.in_dryer],
            "foods": [_food(each) for each in plan.dryable],
            "fit": {
                **FIT,
                "spreads": SPREADS,
                "most_water_share": MOST_WATER_SHARE,
                "longest_min": LONGEST_MIN,
            },
            "formulas": formulas(),
        },
    )


def formulas() -> Data:
    """Give the formulas that the script works out, each with its constants."""
    every = (FORMULAS[each] for each in _FORMULAS)
    return {
        each.id: {
            "expression": each.expression,
            "constants": {name: one.value for name, one in each.constants.items()},
        }
        for each in every
    }


# -- as of the log --------------------------------------------------------------------------------


def _now(figures: Figures, each: Followed, units: System) -> RunNow:
    say, judged = figures.say, each.judged
    batch = judged.batch
    verdict = say(VERDICTS[judged.verdict])
    act = judged.act(say, None, units)
    return RunNow(
        batch=batch.id,
        name=judged.substance.name,
        went_in=_went_in(figures, each),
        verdict=f"{verdict}. {act}" if act else f"{verdict}.",
        facts=tuple(_facts(figures, each)),
        chart=run_chart(figures, batch.id, each.run) if each.run else None,
        command=f'tripkit log --batch {batch.id} --weighing "3 h=812 g"',
    )


def _went_in(figures: Figures, each: Followed) -> str:
    batch, say = each.judged.batch, figures.say
    assert batch.started is not None, "it is in the dryer"
    return say(
        "{mass} fresh went in on {when}.",
        mass=figures.plain(batch.fresh_g or 0.0, "mass_g"),
        when=moment(say, batch.started),
    )


def _facts(figures: Figures, each: Followed) -> Iterator[Fact]:
    say, judged, run = figures.say, each.judged, each.run
    started = judged.batch.started or datetime.datetime.max

    def at(minutes: float) -> str:
        return hour(say, started + datetime.timedelta(minutes=half_hours(minutes)))

    if judged.target_g is not None:
        yield Fact(say("Dry enough at"), text(figures.plain(judged.target_g, "mass_g")))
        if judged.batch.weighings:
            yield Fact(say("Still to go"), text(figures.plain(judged.to_go_g, "mass_g")))
    if run is None:
        words = say("Two weighings tell when it will be dry.")
        yield Fact(say("Likely dry"), text(words))
        return
    forecast = say(
        "about {when}, between {earliest} and {latest}",
        when=at(run.dry_after_min),
        earliest=at(run.earliest_min),
        latest=at(run.latest_min),
    )
    yield Fact(say("Likely dry"), text(forecast))
    if each.look_next_min is not None:
        yield Fact(say("Look next"), text(at(each.look_next_min)))


# -- for the script -------------------------------------------------------------------------------


def _run(each: Followed) -> Data:
    judged = each.judged
    batch = judged.batch
    started = batch.started
    return {
        "batch": batch.id,
        "holds": batch.holds,
        "name": judged.substance.name,
        "started": started.isoformat(timespec="minutes") if started else None,
        "fresh": float(batch.fresh_g or 0.0),
        "listed": float(judged.listed_water_share),
        "spread": float(judged.load.spread_share),
        "fruit": judged.substance.kind == "fruit",
        "weighings": [[float(one.at_min), float(one.mass_g)] for one in batch.weighings],
        "tests": sorted(batch.tests),
        "rules": _rules(each.rules),
    }


def _food(each: Dryable) -> Data:
    return {
        "recipe" if each.is_recipe else "food": each.substance.id,
        "name": each.substance.name,
        "listed": float(each.substance.composition.water_share),
        "spread": float(each.spread_share),
        "fruit": each.substance.kind == "fruit",
        "rules": {method: _rules(rules) for method, rules in each.rules.items()},
    }


def _rules(rules: Rules) -> Mapping[str, object]:
    return {
        "water": float(rules.water_share),
        "limit": float(rules.limit_share),
        "least": float(rules.least_share),
        "lightest": float(rules.lightest_share),
        "never": rules.never,
        "onceDry": rules.once_dry,
    }
