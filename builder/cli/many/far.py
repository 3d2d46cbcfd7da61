"""What a worker does that shares no folder with the one who asks: content comes in, kits go back.

All of it is plain data. The content is sent when a worker has not got it yet, and is kept there
for the next piece of work; it is read from memory, and what is built lies in a temporary folder
until it is on its way.
"""

from __future__ import annotations

import atexit
import shutil
import tempfile
import threading
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from builder.cli.kept_plans import KeptPlans
from builder.cli.last_build import FolderMarks, state_of_tool
from builder.cli.many.bench import Bench, Told
from builder.cli.many.wanted import Wanted
from builder.cli.places import read_settled
from builder.cli.planner import Planner
from builder.model.since import OldKit
from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Layer
from builder.record import dataclass, replace
from builder.shipped import shipped_root
from builder.site.build import Built
from builder.site.errors import SiteError
from builder.site.folder import made, swap

_NOWHERE = Path("content-that-was-sent")


@dataclass(frozen=True, slots=True)
class Errand:
    """What goes for all pieces of work of one build."""

    content: str  # names the files
    shown: str  # how the content folder is told to people
    shipped_shown: str
    is_demo: bool
    marks: FolderMarks
    tool: str  # the state of the tool that asks
    plans: str  # what plans are kept under
    wanted: Wanted

    def layers(self, files: Mapping[str, bytes]) -> list[Layer]:
        """Give what is read, the shipped records first."""
        own = Layer(_NOWHERE, self.shown, ROOMS, unwritten=files, vouched=self.is_demo)
        shipped = Layer(
            shipped_root() / "content", self.shipped_shown, ALWAYS_SHIPPED, vouched=True
        )
        return [own] if self.is_demo else [shipped, own]


class NotHere(NamedTuple):
    """The worker has not got the content: the same is to be asked with it."""


class FarBuilt(NamedTuple):
    """A kit that was built."""

    built: Built
    zipped: bytes  # none where it stands already
    record: str  # what is to be remembered of it
    plan: str


Files = Mapping[str, bytes]


def plan_far(errand: Errand, files: Files | None, names: Sequence[str]) -> list[Told] | NotHere:
    """Plan trips."""
    with _ONE_AT_A_TIME:
        bench = _bench_of(errand, files)
        return NotHere() if bench is None else [bench.plan(name) for name in names]


def build_far(
    errand: Errand, files: Files | None, trip_id: str, since: OldKit | None, stands: str
) -> FarBuilt | NotHere:
    """Build the kit of a trip; `stands` names what the kit was made from that the asker has."""
    with _ONE_AT_A_TIME:
        bench = _bench_of(errand, files)
        if bench is None:
            return NotHere()
        out, plans = bench.wanted.out, bench.plans
        assert plans is not None
        built = bench.build(trip_id, since, stands)
        plan = plans.written(trip_id)
        plans.forget([trip_id])
        if not built.changed:
            return FarBuilt(built, b"", "", plan)
        record = made.record(out, trip_id)
        found = FarBuilt(
            built, (out / f"{trip_id}.zip").read_bytes(), record.read_text("utf-8"), plan
        )
        for each in (out / trip_id, out / f"{trip_id}.zip", record):
            swap.remove(each)
        return found


# What renders pages knows of one site at a time; a worker that has threads goes one by one.
_ONE_AT_A_TIME = threading.RLock()
_KEPT: list[tuple[Errand, Bench]] = []  # the last one


@atexit.register
def let_go() -> None:
    """Forget the content that was sent last, and clear up once nobody works with it."""
    with _ONE_AT_A_TIME:
        while _KEPT:
            _, bench = _KEPT.pop()
            shutil.rmtree(bench.wanted.out.parent, ignore_errors=True)


def _bench_of(errand: Errand, files: Files | None) -> Bench | None:
    """Give where the work of an errand is done; None where the content has to be sent first."""
    for kept, bench in _KEPT:
        if kept == errand:
            return bench
    if files is None:
        return None
    if state_of_tool(errand.is_demo) != errand.tool:
        raise SiteError(
            "a worker has another version of tripkit, of a library or of what it ships, or is told "
            "another date",
            ["install the same on all machines, and set SOURCE_DATE_EPOCH alike or nowhere"],
        )
    let_go()
    out = Path(tempfile.mkdtemp(prefix="tripkit-")) / "kits"
    made.claim(out)
    plans = KeptPlans(errand.marks, out, errand.plans, is_asked=False)
    planner = Planner(read_settled(errand.layers(files)))
    plans.look_at(planner)
    bench = Bench(planner, replace(errand.wanted, out=out), plans)
    _KEPT.append((errand, bench))
    return bench
