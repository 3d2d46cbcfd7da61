"""Warnings of what a batch tells that can be and is odd: its heat step, its weights, its ice."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.drying import least_residual_share
from builder.formulas.dryness import odd_solids_share, solids_of_listed
from builder.model.batch import HEAT_METHODS
from builder.planning.batches.judging import Judged
from builder.planning.batches.weights import called
from builder.problems import Problem
from builder.units import plain

# Ice, fresh and dried are three weighings of which two give the third.
ICE_OFF_SHARE = 0.05
# Two scales may differ by so much; nothing gains weight in a dryer.
HEAVIER_SHARE = 0.02


def batch_problems(judged: Judged) -> list[Problem]:
    """Warn of a heat step that leaves food raw, and of weights that hardly can be."""
    return [*_heat_step(judged), *_odd_weights(judged), *_heavier(judged), *_ice(judged)]


def _heat_step(judged: Judged) -> Iterator[Problem]:
    batch, substance = judged.batch, judged.substance
    if batch.heated is None or not substance.is_raw_animal or not judged.stays_raw:
        return
    held = f" for {batch.heated.minutes:g} min" if batch.heated.minutes else ""
    mend = "heat it through before drying: meat and fish to 72 °C, poultry and game to 74 °C"
    if substance.has_flesh and batch.method in HEAT_METHODS:
        mend += "; or after it in the oven, `{to: 135 degC, when: after, minutes: 10}`"
    yield Problem(
        batch.places.of("heated"),
        "heat-step",
        f"{batch.heated.to_c:.0f} °C {batch.heated.when} drying{held} leaves {substance.name} raw",
        mend,
        "warning",
    )


def _odd_weights(judged: Judged) -> Iterator[Problem]:
    batch = judged.batch
    if batch.is_bought or batch.fresh_g is None or batch.dried_g is None:
        return
    solids = solids_of_listed(
        batch.fresh_g,
        batch.dried_g,
        judged.listed_water_share,
        least_residual_share(batch.method),
    )
    if solids < odd_solids_share(judged.listed_water_share, judged.load.spread_share) - 1e-9:
        yield Problem(
            batch.places.of("dried"),
            "odd-weights",
            f"{called(batch)} came out at {plain(batch.dried_g)} g from {plain(batch.fresh_g)} g: "
            f"that is {solids:.0%} of the solids that {judged.substance.name} usually holds",
            "weigh it again, and take the tare off both",
            "warning",
        )


def _heavier(judged: Judged) -> Iterator[Problem]:
    batch = judged.batch
    if batch.dried_g is None or not batch.weighings:
        return
    last_g = batch.weighings[-1].mass_g
    if batch.dried_g > last_g * (1 + HEAVIER_SHARE) + 1e-9:
        yield Problem(
            batch.places.of("dried"),
            "dried-heavier",
            f"{called(batch)} came out at {plain(batch.dried_g)} g and weighed {plain(last_g)} g "
            "in the dryer before",
            "weigh it again: one of the two is wrong, or it drew damp since and wants drying on",
            "warning",
        )


def _ice(judged: Judged) -> Iterator[Problem]:
    batch = judged.batch
    if batch.ice_g is None or batch.fresh_g is None or batch.dried_g is None:
        return
    lost_g = batch.fresh_g - batch.dried_g
    if abs(batch.ice_g - lost_g) > ICE_OFF_SHARE * lost_g + 1e-9:
        yield Problem(
            batch.places.of("ice"),
            "ice",
            f"{called(batch)} gave {plain(batch.ice_g)} g of ice and lost {plain(lost_g)} g by its "
            "weights",
            "weigh fresh, dried and ice again: one of the three is wrong",
            "warning",
        )
