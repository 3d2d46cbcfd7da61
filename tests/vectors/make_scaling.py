"""Writes scaling.json: amounts, heights and meals as builder.units and builder.planning give them.

Run it from the root of the project with `python -m tests.vectors.make_scaling` after a change that
is meant to alter them, and read the difference.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from builder import units
from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c, time_factor
from builder.model.kit import Conditions, PlannedIngredient
from builder.model.trip import ENGLISH, LANGUAGES
from builder.planning.cooking.conditions import cooking_places
from builder.planning.cooking.cooking import Cooked, Ready, cook
from builder.planning.cooking.hearth import Hearth, hearth_of
from builder.planning.cooking.scaling import scaling_data
from builder.planning.menu.menu import MenuItem, plan_menu
from builder.planning.stock.checks import check
from builder.reading.folder import Layer, read_folder
from builder.speech import speech_of

ROOT = Path(__file__).resolve().parents[2]
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
        "heights": list(heights()),
        "meals": list(meals()),
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


def heights() -> Iterator[list[float]]:
    """Give heights with their boiling point and the factor on the minutes."""
    for height in HEIGHTS_M:
        boils_c = boiling_point_c(pressure_hpa(height))
        yield [height, boils_c, time_factor(boils_c)]


def meals() -> Iterator[dict[str, Any]]:
    """Give each recipe of the demo trips as planned, and what it takes for others and elsewhere."""
    folder = read_folder([Layer(ROOT / "content", "content")])
    stock, _ = check(folder.content)
    seen: set[str] = set()
    for trip_id in sorted(folder.content.trips):
        trip = folder.content.trips[trip_id]
        hearth = hearth_of(trip, folder.content)
        menu = plan_menu(trip, folder.content, stock.judged, cooking_places(trip), hearth)
        for item in (item for day in menu for item in day):
            recipe_id = item.planned.recipe
            if recipe_id is None or recipe_id in seen:
                continue
            seen.add(recipe_id)
            planned = len(item.planned.eaters)
            here_m = item.planned.conditions.altitude_m
            yield {
                "recipe": recipe_id,
                "planned": planned,
                "data": scaling_data(item.planned),
                "cases": [
                    case(item, folder.content.recipes[recipe_id], hearth, eaters, height_m)
                    for eaters, height_m in (
                        (planned, here_m), (planned - 1 or 1, here_m), (planned, 3250.0),
                        (1, 0.0), (13, 5100.0),
                    )
                ],
            }  # fmt: skip


def case(item: MenuItem, recipe: Any, hearth: Hearth, eaters: int, height_m: float) -> Any:
    """Cook a planned meal for so many at another height."""
    share = eaters / len(item.planned.eaters)
    ready = {
        portion.planned.id: Ready(
            _scaled(portion.planned, share), portion.substance.kind, portion.auto_water_ml * share
        )
        for portion in item.portions
    }
    cooked = cook(recipe, ready, eaters, _at(item.planned.conditions, height_m), hearth)
    return {"eaters": eaters, "altitude_m": height_m, **_taken(cooked)}


def _scaled(planned: PlannedIngredient, share: float) -> PlannedIngredient:
    return replace(planned, amount_g=planned.amount_g * share)


def _at(conditions: Conditions, height_m: float) -> Conditions:
    pressure = pressure_hpa(height_m)
    boils_c = boiling_point_c(pressure)
    return replace(
        conditions,
        altitude_m=height_m,
        pressure_hpa=pressure,
        boiling_point_c=boils_c,
        time_factor=time_factor(boils_c),
    )


def _taken(cooked: Cooked) -> dict[str, Any]:
    return {
        "potfuls": cooked.potfuls,
        "presses": [step.presses for step in cooked.steps if step.do == "press"],
        "minutes": cooked.minutes,
        "shown": units.show(cooked.minutes, "duration_min"),
        "steps": [units.show(step.minutes, "duration_min") for step in cooked.steps],
    }


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
