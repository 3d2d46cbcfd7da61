"""What all shopping lists have alike: their shelves, and a table that a spreadsheet shows."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, TypeVar

from builder.model.kit import ShoppingLine

if TYPE_CHECKING:
    from builder.planning.year import Purchase

Line = TypeVar("Line", bound="ShoppingLine | Purchase")

_HEADS = ("shelf", "name", "food", "buy_g", "packets", "packet_g")
# What a spreadsheet would run instead of showing it.
_RUN = ("=", "+", "-", "@", "\t", "\r")


def by_shelf(lines: Iterable[Line], untold: str) -> dict[str, list[Line]]:
    """Put what is bought by where it stands in the shop, what nobody told at the end."""
    shelves: dict[str, list[Line]] = {}
    for line in sorted(lines, key=lambda line: (line.shelf == "", line.shelf)):
        shelves.setdefault(line.shelf or untold, []).append(line)
    return shelves


def csv_of(lines: Iterable[Line], more: Mapping[str, Callable[[Line], str]]) -> bytes:
    """Give a list as a table for other programs, unrounded and in grams, with more columns."""
    target = io.StringIO(newline="")
    writer = csv.writer(target, lineterminator="\r\n")
    writer.writerow((*_HEADS, *more))
    for line in lines:
        words = [harmless(each) for each in (line.shelf, line.name, line.food)]
        packets = [str(int(line.packets)), _grams(line.packet_g)] if line.packets else ["", ""]
        told = [column(line) for column in more.values()]
        writer.writerow([*words, _grams(line.buy_g), *packets, *told])
    return target.getvalue().encode("utf-8")


def _grams(mass_g: float) -> str:
    return f"{float(mass_g):g}"


def harmless(words: str) -> str:
    """Give a text that a spreadsheet shows and does not run."""
    return f"'{words}" if words.startswith(_RUN) else words
