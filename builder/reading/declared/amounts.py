"""Amounts of food: a mass, a volume or pieces, of which the food's own entry makes grams."""

from __future__ import annotations

import re
from collections.abc import Mapping

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.figure import Figure, Told
from builder.model.food import Composition, Food
from builder.model.place import Place
from builder.reading.declared.patterns import amount_schema
from builder.reading.declared.vocabulary import Value
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.text.yaml_door import Node, quoted
from builder.record import dataclass
from builder.units import (
    LONGEST_QUANTITY,
    QuantityError,
    ask_for_thousand,
    read_number,
    read_quantity,
)

_SOME_FOOD = Food("", "", "other", "ready", Composition(), density_g_ml=1.0, piece_g=1.0)
_WRONG = "?"  # no food is called so
_AMOUNTS = "write a mass (250 g), a volume (2 cups) or pieces (2 pieces)"
_NO_FOOD = "only a food with an entry of its own is told in volumes or pieces"
_PIECES = re.compile(r"(?P<number>.*[0-9¼½¾⅓⅔⅛⅜⅝⅞])\s*(?:piece|pieces)")


@dataclass(frozen=True)
class Amount(Value):
    """An amount of the food that is declared before it."""

    _stub = "80 g"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> float:
        """Read an amount, in grams; where the food is wrong any amount would do."""
        return amount_of(node, key, info.data.get("food", _WRONG), info.context.foods)

    def takes(self) -> str:
        """Say what may be written."""
        return "a mass, a volume or pieces, as `80 g`, `1/2 cup` or `2 pieces`"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return amount_schema()


def amount_of(node: Node, key: str, food_id: str, foods: Mapping[str, Food]) -> float:
    """Read an amount of food told as a mass, a volume or in pieces; give grams.

    A food that is not there is told elsewhere; what stands for it has a density and pieces.
    """
    if not node.is_text:
        refuse("quantity", f"{key} must be an amount, found {node.described()}", _AMOUNTS)
    food = foods.get(food_id, _SOME_FOOD) if food_id else None
    try:
        return _amount_g(node.text, food, key, node.place)
    except QuantityError as error:
        raise Amiss(error.kind, f"{key}: {error.says}", error.mend) from error


def _amount_g(text: str, food: Food | None, key: str, place: Place) -> float:
    if len(text) <= LONGEST_QUANTITY and (match := _PIECES.fullmatch(text.strip())):
        if food is None:
            raise QuantityError("piece-missing", f"{text!r}: {_NO_FOOD}", "write the mass")
        if food.piece_g is None:
            raise QuantityError(
                "piece-missing",
                f"{text!r}: nobody told what a piece of {quoted(food.name)} weighs",
                "write the mass; a food of your own may tell its `piece: 120 g`",
            )
        ask_for_thousand(match["number"], "pieces")
        pieces = Figure(read_number(match["number"]), Told(place, f"{key}_pieces"))
        return _more_than_nothing(pieces * food.piece_g, text)
    try:
        mass_g = Figure(read_quantity(text, "mass_g"), Told(place, f"{key}_g"))
        return _more_than_nothing(mass_g, text)
    except QuantityError as as_mass:
        if as_mass.kind == "unit-missing":
            raise QuantityError(as_mass.kind, as_mass.says, _AMOUNTS) from None
        if as_mass.kind != "unit-unknown":
            raise
    try:
        volume_ml = Figure(read_quantity(text, "volume_ml"), Told(place, f"{key}_ml"))
    except QuantityError as as_volume:
        if as_volume.kind != "unit-unknown":
            raise
        raise QuantityError("unit-unknown", f"{text!r} is no amount of food", _AMOUNTS) from None
    if food is None:
        raise QuantityError("density-missing", f"{text!r}: {_NO_FOOD}", "write the mass")
    if food.density_g_ml is None:
        raise QuantityError(
            "density-missing",
            f"{text!r} is a volume, and nobody told the density of {quoted(food.name)}",
            "write the mass; or weigh 100 ml of it, loosely filled, and tell it with a food of "
            "your own: 72 g are `density: 0.72 g/ml`",
        )
    return _more_than_nothing(volume_ml * food.density_g_ml, text)


def _more_than_nothing(mass_g: float, text: str) -> float:
    if mass_g <= 0:
        raise QuantityError("out-of-range", f"{text!r} is nothing", "write an amount, or drop it")
    return mass_g
