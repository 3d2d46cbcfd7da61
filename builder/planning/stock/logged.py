"""What is told of a batch the moment it is logged."""

from __future__ import annotations

import datetime

from builder.model.as_data import picked
from builder.model.trip import ENGLISH
from builder.planning.batches import (
    VERDICTS,
    Judged,
    forecast_said,
    look_next,
    look_next_said,
    name_now,
)
from builder.planning.stock.kit_batches import run_of
from builder.speech import speech_of
from builder.units import show


def logged_data(judged: Judged, at: datetime.date) -> dict[str, object]:
    """Give all of it for a script."""
    batch, run = judged.batch, run_of(judged)
    return {
        "batch": batch.id,
        "food": batch.holds,
        "name": name_now(speech_of(ENGLISH), judged),
        **picked(batch, "method in_dryer"),
        "verdict": judged.verdict,
        "act": judged.act(speech_of(ENGLISH), at),
        "because": judged.why_thrown_out(at),
        **picked(batch, "fresh_g dried_g"),
        "residual_moisture": judged.residual_share,
        **picked(judged, "target_g to_go_g"),
        "dry_after_min": run.dry_after_min if run else None,
        "dry_after_earliest_min": run.earliest_min if run else None,
        "dry_after_latest_min": run.latest_min if run else None,
        "look_next_min": look_next(run) if run and judged.verdict == "not-dry" else None,
        "rehydration_ml": _water_back_ml(judged),
        "packs": batch.pack_count,
        "pack_g": judged.pack_g,
        "pack_rehydration_ml": _water_back_ml(judged) / batch.pack_count,
        **picked(judged, "best_before kept_at_told"),
    }


def logged_lines(judged: Judged, at: datetime.date) -> list[str]:
    """Say all of it."""
    batch = judged.batch
    weights = show(batch.fresh_g or 0.0, "mass_g")
    if batch.dried_g is not None:
        weights += f" → {show(batch.dried_g, 'mass_g')}"
    found = [
        f"{name_now(speech_of(ENGLISH), judged)}, {batch.method}: {weights}",
        f"Verdict:         {VERDICTS[judged.verdict]}",
    ]
    if why := judged.why_thrown_out(at):
        found.append(f"Because:         it is {why}")
    if act := judged.act(speech_of(ENGLISH), at):
        found.append(f"Do:              {act}")
    if batch.in_dryer:
        if judged.target_g is not None:
            found.append(f"Dry enough at:   {show(judged.target_g, 'mass_g')}")
        if run := run_of(judged):
            found.append(forecast_said(run))
            if judged.verdict == "not-dry":
                found.append(look_next_said(run))
        return found
    if judged.verdict == "discard":
        return found
    best_before = judged.best_before.isoformat() if judged.best_before else "no date"
    if judged.best_before and not judged.kept_at_told:
        best_before += f" if kept at {show(batch.kept_at_c, 'temperature_c')} (not told)"
    water = show(_water_back_ml(judged), "volume_ml")
    packs = batch.pack_count
    a_pack = f", {show(_water_back_ml(judged) / packs, 'volume_ml')} a pack" if packs > 1 else ""
    return [
        *found,
        f"Best before:     {best_before}",
        f"Water puts back: {water} at most{a_pack}",
        f"A pack weighs:   {show(judged.pack_g, 'mass_g')}, of {packs}",
    ]


def _water_back_ml(judged: Judged) -> float:
    return judged.water_back.poured_ml * judged.dried_g
