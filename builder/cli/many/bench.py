"""Where one process plans trips and builds their kits; what it is told and tells is small."""

from __future__ import annotations

import os
import pickle
import tempfile
from typing import IO, NamedTuple

from builder.cli.dangers import Dangers
from builder.cli.kept_plans import KeptPlans
from builder.cli.many.wanted import Wanted
from builder.cli.planner import OneTrip, Planner
from builder.clock import build_epoch
from builder.model.as_data import packed
from builder.model.kit import Kit
from builder.model.since import OldKit
from builder.pages.pictures import pictures_of
from builder.planning.at_home import share_of
from builder.planning.public import public_kit
from builder.planning.since import changes_since
from builder.problems import Problem, ProblemsFound
from builder.reading.anew.cuttings import Key, content_of_kit, pictures_along
from builder.reading.folder import Folder
from builder.reading.pictures.small_copies import copies_of
from builder.record import replace
from builder.shipped import shipped_root
from builder.site.build import Built, Order, Pictures, build_kit

_MOST_IN_MEMORY = 8  # kits: one takes about 1.3 MB


class Told(NamedTuple):
    """What there is to say of a trip that was planned, or could not be."""

    trip_id: str
    problems: tuple[Problem, ...]
    dangers: Dangers | None = None  # none where it could not be planned
    share: bytes = b""  # what the home needs of it, packed: a thousand of them wait for it


class Ready(NamedTuple):
    """A trip that was planned, and the kit that is to be built of it."""

    planned: OneTrip
    shown: Kit


class Bench:
    """Plans trips of a folder and builds their kits."""

    def __init__(self, planner: Planner, wanted: Wanted, plans: KeptPlans | None) -> None:
        """Take what is planned from, what is asked, and where plans are kept for the next time."""
        self.planner, self.wanted, self.plans = planner, wanted, plans
        self._ready = _Drawer()
        self._cut: dict[Key, str] = {}  # a record once, not once for each trip

    def plan(self, trip_id: str) -> Told:
        """Plan a trip, and keep the plan until its kit is built."""
        try:
            ready = self._planned(trip_id)
        except ProblemsFound as found:
            return Told(trip_id, found.problems)
        self._ready.put(trip_id, ready)
        planned = ready.planned
        return Told(
            trip_id, planned.problems, Dangers.of([planned.kit]), packed(share_of(planned.kit))
        )

    def build(self, trip_id: str, since: OldKit | None, stands: str = "") -> Built:
        """Build the kit of a trip.

        `since` is the kit that its companions have; `stands` names what a whole kit of it was made
        from that lies elsewhere.
        """
        ready = self.ready(trip_id)
        built = build_kit(replace(self.order(ready, since), stands=stands))
        self.keep(ready, built)
        return built

    def ready(self, trip_id: str) -> Ready:
        """Give a trip's plan for good: as it was planned here before, else planned now."""
        return self._ready.take(trip_id) or self._planned(trip_id)

    def keep(self, ready: Ready, built: Built) -> None:
        """Write down the plan of a kit that was built, for the next time."""
        if self.plans is not None and self.wanted.keeps_plans:
            self.plans.keep(ready.planned, built.made_from)

    def _planned(self, trip_id: str) -> Ready:
        planned = self.planner.plan(trip_id)
        content = self.planner.folder.content
        return Ready(
            planned, public_kit(planned.kit, content) if self.wanted.public else planned.kit
        )

    def order(self, ready: Ready, since: OldKit | None) -> Order:
        """Give all that a kit is built of."""
        kit, shown, wanted = ready.planned.kit, ready.shown, self.wanted
        folder, root = self.planner.folder, shipped_root()
        if since is not None and since.trip == kit.id:
            shown = replace(shown, since=changes_since(since, shown))
        cautions = [each.id for each in kit.cautions]
        return Order(
            kit=shown,
            content=({} if wanted.public else content_of_kit(folder, kit.id, cautions, self._cut)),
            epoch=build_epoch(None if wanted.public else kit.start),
            out=wanted.out,
            templates=root / "site_templates",
            base_config=root / "mkdocs.yml",
            address=wanted.address,
            force=wanted.force,
            pictures=_pictures(folder, shown, wanted),
            generator=wanted.generator,
        )


def _pictures(folder: Folder, kit: Kit, wanted: Wanted) -> Pictures | None:
    """Give the pictures of a kit; None where it has none."""
    along = {} if wanted.public else pictures_along(folder, kit.id)
    shown = [each for each in pictures_of(kit) if each is not None]
    if not along and not shown:
        return None
    return Pictures(
        copies_of([*shown, *along.values()], wanted.large_pictures),
        tuple(each.path for each in shown),
        {path: each.path for path, each in along.items()},
    )


class _Drawer:
    """Keeps what is planned until it is built: a few in memory, more in a file without a name.

    A thousand kits would fill the memory; to plan each twice costs a quarter of the build.
    """

    def __init__(self) -> None:
        self._near: dict[str, Ready] = {}
        self._far: dict[str, int] = {}  # where in the file it begins
        self._file: IO[bytes] | None = None

    def put(self, trip_id: str, ready: Ready) -> None:
        """Keep one."""
        if len(self._near) < _MOST_IN_MEMORY:
            self._near[trip_id] = ready
            return
        try:
            if self._file is None:
                self._file = tempfile.TemporaryFile()  # noqa: SIM115 - open as long as the drawer
            self._far[trip_id] = self._file.seek(0, os.SEEK_END)
            pickle.dump(ready, self._file, pickle.HIGHEST_PROTOCOL)
        except OSError:  # no room: it is planned again when it is built
            self._far.pop(trip_id, None)

    def take(self, trip_id: str) -> Ready | None:
        """Give one, and keep it no longer."""
        if trip_id in self._near:
            return self._near.pop(trip_id)
        if self._file is None or trip_id not in self._far:
            return None
        self._file.seek(self._far.pop(trip_id))
        ready: Ready = pickle.load(self._file)
        return ready
