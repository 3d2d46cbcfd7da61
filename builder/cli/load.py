"""What `tripkit log` is told of a load, and how a file of the log says it."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING

import click

from builder.cli.base import read_date
from builder.cli.told import heated_words, read_mass, read_tests, read_told, read_weighings
from builder.clock import today
from builder.record import dataclass

if TYPE_CHECKING:
    from builder.model.batch import Batch
    from builder.model.content import Content
    from builder.model.home import NewBatch
    from builder.reading.text.spelling import Words


@dataclass(slots=True)
class Load:
    """What the command line tells of a load; what it leaves out is asked for on a terminal."""

    food: str | None = None
    fresh: str | None = None
    dried: str | None = None
    method: str | None = None
    dryer: str | None = None
    done: str | None = None
    started: str | None = None
    packs: int | None = None
    packaging: str | None = None
    absorber: bool | None = None
    shelf: str | None = None
    kept_at: str | None = None
    heated: str | None = None
    tests: str = ""
    weighings: tuple[str, ...] = ()
    ice: str | None = None
    run: str | None = None
    style: str | None = None
    notes: str | None = None

    @property
    def in_dryer(self) -> bool:
        """Whether it was begun and is not weighed dry yet."""
        return self.started is not None and self.dried is None


def record_of(load: Load, content: Content) -> tuple[dict[str, Words], datetime.date]:
    """Give the batch as a file of the log has it, and its day."""
    assert load.food is not None and load.fresh is not None
    usual = content.home.new_batch
    if not load.in_dryer:
        pack_as_usual(load, usual)
    if load.kept_at is None and usual.kept_at_c is not None:
        load.kept_at = f"{usual.kept_at_c:g} degC"
    fresh_g = read_mass("FRESH", load.fresh)
    told = told_of(load, fresh_g)
    started = told.pop("started", None)
    record: dict[str, Words] = {"food" if load.food in content.foods else "recipe": load.food}
    if load.method:
        record["method"] = load.method
    if load.dryer:
        record["dryer"] = load.dryer
    if started is not None:
        record["started"] = started
    if load.in_dryer:
        day = datetime.date.fromisoformat(str(started)[:10])
    else:
        day = done_of(load)
        record["done"] = day.isoformat()
    record["fresh"] = load.fresh.strip()
    return {**record, **told}, day


def pack_as_usual(load: Load, usual: NewBatch, batch: Batch | None = None) -> None:
    """Take what the home tells of packs, where neither the load nor its batch in the log does."""
    packed = batch.packs if batch else None
    if load.packaging or usual.packaging is None or (packed and packed.packaging):
        return
    load.packaging = usual.packaging
    if load.absorber is None and usual.absorber:
        load.absorber = True
    if batch and packed is None and load.packs is None:
        load.packs = 1


def done_of(load: Load) -> datetime.date:
    """Give the day it was done: the one told, else today."""
    day = read_date("--done", load.done, "2031-03-14") if load.done is not None else today()
    _refuse_ahead("--done", day)
    return day


def _refuse_ahead(option: str, day: datetime.date) -> None:
    if day > today():
        says = f"{day.isoformat()} is still to come; log it then, or write `planned:` in the file"
        raise click.BadParameter(says, param_hint=option)


def told_of(load: Load, fresh_g: float | None) -> dict[str, Words]:
    """Give all that was told but food, method, dates and fresh weight, in a log's usual order."""
    found: dict[str, Words] = {}
    if load.started is not None:
        found["started"] = _started(load.started)
    if load.dried is not None:
        read_mass("DRIED", load.dried)
        found["dried"] = load.dried.strip()
    if load.ice is not None:
        read_mass("--ice", load.ice)
        found["ice"] = load.ice.strip()
    if packs := _packs(load, is_new=fresh_g is not None):
        found["packs"] = packs
    if load.kept_at is not None:
        read_told("--kept-at", load.kept_at, "kept_c")
        found["kept_at"] = load.kept_at.strip()
    if load.heated is not None:
        found["heated"] = heated_words(load.heated)
    if load.style is not None:
        found["style"] = load.style
    if tests := read_tests(load.tests):
        found["tests"] = sorted(tests)
    if load.weighings:
        read_weighings(load.weighings, float("inf") if fresh_g is None else fresh_g)
        parts = [each.partition("=") for each in load.weighings]
        parts.sort(key=lambda part: read_told("--weighing", part[0], "duration_min"))
        found["weighings"] = [{"at": at.strip(), "mass": mass.strip()} for at, _, mass in parts]
    if load.run is not None:
        found["run"] = load.run
    if load.notes is not None:
        found["notes"] = load.notes
    return found


def _packs(load: Load, is_new: bool) -> dict[str, Words]:
    packs: dict[str, Words] = {}
    if load.packs is not None:
        packs["count"] = load.packs
    if load.packaging is not None:
        packs["in"] = load.packaging
    if load.absorber is not None:
        packs["absorber"] = load.absorber
    if load.shelf is not None:
        packs["shelf"] = load.shelf
    return {"count": 1, **packs} if packs and is_new and "count" not in packs else packs


def _started(text: str) -> str:
    """Read when a run began."""
    try:
        started = datetime.datetime.fromisoformat(text.strip())
        if started.tzinfo is not None or len(text.strip()) <= len("2031-03-13"):
            raise ValueError
    except ValueError:
        raise click.BadParameter("write it like 2031-03-13T18:00", param_hint="--started") from None
    _refuse_ahead("--started", started.date())
    return started.isoformat(timespec="minutes")
