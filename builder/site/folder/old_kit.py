"""Reads a kit that somebody has, from a zip of which nothing is trusted."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from builder.model.since import OldKit, OldMeal
from builder.pages.trip.origins.kit_json import FORMAT, VERSION
from builder.site.errors import SiteError
from builder.site.folder.archive import unpack
from builder.site.folder.kit_files import DATA_NAME

MOST_DATA_BYTES = 40_000_000
MOST_THINGS = 50_000  # dishes, things carried or cautions
LONGEST_TEXT = 500
T = TypeVar("T")
_AGAIN = "name the zip of a kit as `tripkit build` wrote it, and fetch it again if it was sent"


def read_old_kit(archive: Path) -> OldKit:
    """Read a kit's zip; raises SiteError where it is damaged, foreign or newer than this tool."""
    if not archive.is_file():
        raise SiteError(f"there is no file {archive}", ["name the zip that the companions have"])
    with tempfile.TemporaryDirectory() as scratch:
        into = Path(scratch) / "kit"
        names = unpack(archive, into)
        found = [name for name in names if name.split("/")[-1] == DATA_NAME and name.count("/") < 2]
        if len(found) != 1:
            raise SiteError(f"{archive} is no kit: it holds no {DATA_NAME}", [_AGAIN])
        return _read(into / found[0], archive, _kit)


def proposed_batches(data_file: Path, shown: Path) -> tuple[str, ...]:
    """Give the batches of which a kit, unpacked or not, proposes packs that no meal of it names.

    `shown` is the kit as people know it; raises SiteError as `read_old_kit` does.
    """
    return _read(data_file, shown, _proposed)


def _read(data_file: Path, archive: Path, of: Callable[[Any], T]) -> T:
    """Read what is asked of a kit's data."""
    if data_file.stat().st_size > MOST_DATA_BYTES:
        raise SiteError(f"the {DATA_NAME} in {archive} is too large", [_AGAIN])
    try:
        data = json.loads(data_file.read_bytes())
        _refuse_other(data, archive)
        return of(data)
    except (ValueError, RecursionError, KeyError, TypeError) as error:
        raise SiteError(
            f"the {DATA_NAME} in {archive} is damaged, or not of this tool", [_AGAIN]
        ) from error


def _refuse_other(data: Any, archive: Path) -> None:
    """Refuse what is no kit, or of a version that is not known yet."""
    if data["format"] != FORMAT:
        raise ValueError
    version = data["version"]
    if not isinstance(version, int) or version < 1:
        raise ValueError
    if version > VERSION:
        raise SiteError(
            f"{archive} was made by a newer version of this tool",
            ["bring this one up to date, then try again"],
        )


def _proposed(data: Any) -> tuple[str, ...]:
    # Kits before proposals were thought of tell none.
    found = (_text(each["batch"]) for each in _list(data.get("proposals", [])))
    return tuple(dict.fromkeys(found))


def _kit(data: Any) -> OldKit:
    trip, fuel = data["trip"], data["fuel"] or {}
    fuels = [fuel, *_list(data.get("other_fuels", []))]
    return OldKit(
        trip=_text(trip["id"]),
        start=_text(trip.get("start") or ""),
        meals=tuple(
            OldMeal(_count(day["day"]), _text(meal["meal"]), _title(meal), _number(meal["mass_g"]))
            for day in _list(data["days"])
            for meal in _list(day["meals"])
        ),
        carried=tuple(
            (_text(load["name"]), _text(thing["what"]))
            for load in _list(data["weights"]["people"])
            for thing in _list(load["carries"])
            if thing.get("kind") not in ("water", "own")
        ),
        cautions=tuple(
            (_text(each["id"]), _text(each.get("title") or each["text"]))
            for each in _list(data["cautions"])
        ),
        fuels=tuple(
            (_text(each.get("name") or ""), _number(each.get("carry_g", 0.0))) for each in fuels
        ),
    )


def _title(meal: Any) -> str:
    return _text(meal.get("title") or meal.get("recipe") or meal["food"])


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list) or len(value) > MOST_THINGS:
        raise ValueError
    return value


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError
    return value[:LONGEST_TEXT]


def _count(value: Any) -> int:
    if not isinstance(value, int) or isinstance(value, bool):
        raise TypeError
    return value


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not 0 <= value < 1e9:
        raise ValueError
    return float(value)
