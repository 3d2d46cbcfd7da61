"""Writes scaling.json: amounts, heights and times as builder.units writes them.

Run it from the root of the project with `python -m tests.vectors.make_scaling` after a change that
is meant to alter them, and read the difference.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from builder import units
from builder.model.trip import ENGLISH, LANGUAGES
from builder.speech import speech_of

TABLE = Path(__file__).with_name("scaling.json")
MUG_ML = 300.0
VALUES = (
    0.04, 0.25, 0.36, 0.44, 1, 1.04, 1.96, 7.96, 8, 8.04, 9.94, 9.96, 10, 14.69, 14.71, 37, 79.6,
    80.4, 160, 188.9, 236.49, 236.51, 340, 362.87, 399.6, 453.59, 453.6, 799.5, 999.49, 999.51,
    1000, 1234.5, 2140, 2675, 3785.3, 3785.5, 9876.54, 45359, 987654.321,
)  # fmt: skip
MINUTES = (0.2, 0.99, 1, 1.49, 1.5, 7.5, 9.2, 59.4, 59.6, 60, 61, 89.5, 119.7, 150, 1500)
TEMPERATURES_C = (100.5, 99.974, 97.85, 95.149, 94.5, 80.44)
HEIGHTS_M = (-430, -0.4, 0, 640, 999.5, 1480, 3048, 5364, 8849)
COUNTS = ((8, 1), (9.6, 1), (1.25, 0.5), (2.34, 0.1), (2.35, 0.1), (0.04, 0.1))


def make() -> dict[str, Any]:
    """Give the whole table."""
    return {
        "texts": list(texts()),
        **{f"texts {name}": list(said(name)) for name in LANGUAGES if name != ENGLISH},
    }


def texts() -> Iterator[list[Any]]:
    """Give values with their kind, their units, and the text that a page shows."""
    systems: tuple[units.System, ...] = ("metric", "us")
    for system in systems:
        for value in VALUES:
            yield ["g", system, value, units.show(value, "mass_g", system)]
            yield ["ml", system, value, units.show(value, "volume_ml", system)]
        for height in HEIGHTS_M:
            yield ["m", system, height, units.show(height, "altitude_m", system)]
        for celsius in TEMPERATURES_C:
            yield ["celsius", system, celsius, units.show(celsius, "temperature_c", system)]
    for value in VALUES:
        yield ["mugs", MUG_ML, value, units.mugs(value, MUG_ML)]
    for minutes in MINUTES:
        yield ["minutes", "", minutes, units.show(minutes, "duration_min")]
    for value, step in COUNTS:
        yield ["count", step, value, f"{units.rounded(units.rounded(value / step) * step, 2):g}"]


def said(language: str) -> Iterator[list[Any]]:
    """Give what a language writes in a way of its own: thousands, decimals, words of units."""
    say = speech_of(language)
    systems: tuple[units.System, ...] = ("metric", "us")
    for system in systems:
        for value in (2.5, 80.4, 236.6, 1234.5, 987654.321):
            yield ["g", system, value, say.show(value, "mass_g", system)]
            yield ["ml", system, value, say.show(value, "volume_ml", system)]
        yield ["m", system, 1480, say.show(1480, "altitude_m", system)]
    for value in (75, 450, 2700):
        yield ["mugs", MUG_ML, value, say.mugs(value, MUG_ML)]
    for minutes in (7.5, 60, 89.5):
        yield ["minutes", "", minutes, say.show(minutes, "duration_min")]


def main() -> None:
    """Write the table, a line for each entry."""
    made = make()
    parts = (
        f"{json.dumps(name)}: [\n"
        + ",\n".join(json.dumps(entry, ensure_ascii=False) for entry in made[name])
        + "\n]"
        for name in made
    )
    TABLE.write_text("{\n" + ",\n".join(parts) + "\n}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
