"""Which file of the drying log a batch goes into, and under which id."""

from __future__ import annotations

import datetime
import os
import re
from collections.abc import Collection
from pathlib import Path

from builder.model.batch import Batch
from builder.problems import printable
from builder.reading.declared.values import DEVICES, LONGEST_ID
from builder.reading.files import TABLE
from builder.reading.folder import Folder, Layer
from builder.starts.fresh import StartError

ROOM = "batches"
_YEAR = re.compile(r"[0-9]{4}")


def free_id(holds: str, day: datetime.date, taken: Collection[str]) -> str:
    """Make an id that no batch has."""
    number = 1
    while True:
        ending = f"-{day.isoformat()}" + (f"-{number}" if number > 1 else "")
        found = holds[: LONGEST_ID - len(ending)].rstrip("-") + ending
        if found not in taken:
            return found
        number += 1


def usual_file(own: Layer, here: Folder, day: datetime.date) -> Path:
    """Give the file of the day's year; else the newest log that bears no year; else a new one."""
    room = own.folder / ROOM
    of_year = [room / f"{day.year}{ending}" for ending in (".yaml", TABLE)]
    for path in of_year:
        if os.path.lexists(path):
            return path
    newest = datetime.date.min
    found = of_year[0]
    for name, batch in here.content.batches.items():
        record = here.texts["batch", name]
        if ("batch", name) not in here.own or record.whole_file:
            continue
        if not _YEAR.fullmatch(Path(record.path).stem) and _day_of(batch) >= newest:
            newest, found = _day_of(batch), own.folder / record.path
    return found


def _day_of(batch: Batch) -> datetime.date:
    started = batch.started.date() if batch.started else None
    return batch.done or batch.planned or started or datetime.date.min


def told_file(own: Layer, told: str) -> Path:
    """Give the file that somebody named: from here, in the content folder, or among the logs."""
    room = Path(os.path.abspath(own.folder / ROOM))
    for place in (Path(told), own.folder / told, room / told):
        path = Path(os.path.abspath(place))
        if room in path.parents:
            break
    else:
        raise StartError(
            f"{told} does not lie in {own.shown}/{ROOM}",
            f"name a file in there, as {ROOM}/log.yaml",
        )
    inside = path.relative_to(room)
    if path.stem.lower() in DEVICES or printable(inside.name) != inside.name:
        raise StartError(
            f"no file should be called {printable(inside.name)}",
            "use letters, digits and hyphens, such as log.yaml",
        )
    if path.suffix not in (".yaml", TABLE) or any(part.startswith(".") for part in inside.parts):
        raise StartError(
            f"a file called {inside.as_posix()} is not read", "call it such as log.yaml or log.csv"
        )
    return own.folder / ROOM / inside
