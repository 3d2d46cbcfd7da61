"""A gear file: a mapping of lists, one for each sort of gear."""

from __future__ import annotations

from typing import Annotated

from builder.reading.declared.declaring import Record, key
from builder.reading.declared.vocabulary import Items
from builder.reading.drying.drying_gear import WrittenDryer, WrittenPackaging, WrittenSheet
from builder.reading.gear.gear import WrittenFuel, WrittenIron, WrittenPot, WrittenStove


class GearFile(Record, title="gear file"):
    """What one cooks, dries and packs with: lists under these names."""

    stoves: Annotated[tuple[WrittenStove, ...], Items()] = key("Burners.", default=())
    fuels: Annotated[tuple[WrittenFuel, ...], Items()] = key("What they burn.", default=())
    pots: Annotated[tuple[WrittenPot, ...], Items()] = key("Pots.", default=())
    irons: Annotated[tuple[WrittenIron, ...], Items()] = key("Campfire irons.", default=())
    packaging: Annotated[tuple[WrittenPackaging, ...], Items()] = key(
        "What packs are packed in.", default=()
    )
    dryers: Annotated[tuple[WrittenDryer, ...], Items()] = key("What dries.", default=())
    sheets: Annotated[tuple[WrittenSheet, ...], Items()] = key("Sheets of labels.", default=())
