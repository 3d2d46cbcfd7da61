"""Writes drying_runs.json: the forecasts of planning/batches/drying_run.py, for the page's script.

Run it from the root of the project with `python -m tests.vectors.make_drying_runs` after a change
that is meant to alter it, and read the difference.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from builder.formulas.drying_curve import page_mass_g
from builder.model.batch import Weighing
from builder.planning.batches.drying_run import drying_run, look_next

TABLE = Path(__file__).with_name("drying_runs.json")
HOW_MANY = 60
# Of the shares of water, of fresh weights, of rates and exponents: as of herbs to whole plums.
WATER, FRESH_G, FASTEST, EXPONENT = (0.55, 0.95), (200.0, 5000.0), (0.002, 0.012), (0.75, 1.3)
LIMITS = (0.05, 0.10, 0.13, 0.20)
WOBBLE = 0.02  # of what is left; a scale and a load on its trays are not better


def make() -> list[dict[str, Any]]:
    """Give loads with their weighings, and what they forecast; None where they do not."""
    return [*_by_chance(random.Random(13)), *_edges()]


def _by_chance(chance: random.Random) -> Iterator[dict[str, Any]]:
    for number in range(HOW_MANY):
        water, fresh_g = round(chance.uniform(*WATER), 4), round(chance.uniform(*FRESH_G))
        rate, exponent = chance.uniform(*FASTEST), chance.uniform(*EXPONENT)
        times = [round(chance.uniform(20, 90)) for _ in range(2 + number % 7)]
        weighings, at, before = [], 0, float(fresh_g)
        for gap in times:
            at += gap
            mass = page_mass_g(at, fresh_g, water, rate, exponent)
            mass = min(round(mass * (1 + chance.uniform(-WOBBLE, WOBBLE)), 1), before)
            weighings.append((at, mass))
            before = mass
        yield _case(fresh_g, water, chance.choice(LIMITS), 0.015, weighings)


def _edges() -> Iterator[dict[str, Any]]:
    """Give too few weighings, none that lost water, and ones below what the table allows."""
    yield _case(1000, 0.88, 0.1, 0.015, [(120, 700.0)])
    yield _case(1000, 0.88, 0.1, 0.015, [(60, 1000.0), (120, 1000.0)])
    yield _case(1000, 0.88, 0.1, 0.015, [(120, 500.0), (240, 250.0), (480, 118.0)])
    yield _case(1000, 0.88, 0.1, 0.0, [(120, 700.0), (240, 480.0)])
    yield _case(1000, 0.12, 0.1, 0.015, [(60, 995.0), (120, 991.0)])


def _case(
    fresh_g: float,
    water: float,
    limit: float,
    spread: float,
    weighings: Sequence[tuple[float, float]],
) -> dict[str, Any]:
    run = drying_run(
        float(fresh_g), water, limit, [Weighing(float(at), mass) for at, mass in weighings], spread
    )
    found = run and {
        "model": run.model,
        "dryAfter": float(run.dry_after_min),
        "earliest": float(run.earliest_min),
        "latest": float(run.latest_min),
        "look": float(look_next(run)),
        "curve": [[each.at_min, each.mass_g] for each in run.curve[::8]],
    }
    return {
        "fresh": fresh_g,
        "water": water,
        "limit": limit,
        "spread": spread,
        "weighings": weighings,
        "found": found,
    }


if __name__ == "__main__":
    TABLE.write_text(json.dumps(make(), separators=(",", ":")) + "\n", encoding="utf-8")
