"""Builds trips with any executor of `concurrent.futures`; its workers share no folder with us."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, CancelledError, Executor, Future, as_completed
from functools import partial
from pathlib import Path
from typing import Any

from builder.cli.last_build import folder_marks, state_of_tool
from builder.cli.many.bench import Bench, Told
from builder.cli.many.crew import Alone, Home, Lost
from builder.cli.many.far import Errand, FarBuilt, NotHere, build_far, plan_far
from builder.cli.many.trips import Hire
from builder.cli.places import Place, shown_path
from builder.model.picture import Picture
from builder.model.since import OldKit
from builder.planning.graph import held_in
from builder.reading.files import PICTURES, ROOMS, ROOMS_OF_PICTURES, TRACK, files_of_room
from builder.reading.folder import Folder
from builder.record import replace
from builder.shipped import shipped_root
from builder.site.build import Built
from builder.site.folder.made import is_whole, made_of
from builder.site.folder.placing import place_kit
from builder.site.inputs import fingerprint

_PLANNED_TOGETHER = 8  # trips; planning one takes a moment only
_LOST = (BrokenExecutor, CancelledError)


def hire_of(
    executor: Executor, place: Place, also_lost: tuple[type[BaseException], ...] = ()
) -> Hire:
    """Give what plans and builds the trips of a place with an executor."""

    def hire(bench: Bench, trips: int, with_home: bool) -> Elsewhere:
        return Elsewhere(bench, executor, place, (*_LOST, *also_lost))

    return hire


class Elsewhere(Alone):
    """Sends trips out by name, with the content where it is asked for, and places what comes back.

    The home is built here: it tells of what is private.
    """

    def __init__(
        self, bench: Bench, executor: Executor, place: Place, lost: tuple[type[BaseException], ...]
    ) -> None:
        """Take who does the work, and the place that the content of the bench was read from."""
        super().__init__(bench)
        self.executor, self.lost = executor, lost
        self.files = content_files(place.folder, bench.planner.folder)
        assert bench.plans is not None
        self.errand = Errand(
            content=fingerprint(self.files),
            shown=place.shown,
            shipped_shown=shown_path(shipped_root() / "content"),
            is_demo=place.is_demo,
            marks=tuple(folder_marks(place)),
            tool=state_of_tool(place.is_demo),
            plans=bench.plans.tool,
            wanted=replace(bench.wanted, out=Path(), since=None, jobs=None),
        )

    def plan(self, names: Sequence[str]) -> Iterator[Told | Lost]:
        """Plan trips, some at a time."""
        parts = [
            tuple(names[start : start + _PLANNED_TOGETHER])
            for start in range(0, len(names), _PLANNED_TOGETHER)
        ]
        for part, told in self._each_done(parts, lambda part: partial(plan_far, names=part)):
            yield from (Lost(name, told) for name in part) if isinstance(told, str) else told

    def build(
        self, names: Sequence[str], since: OldKit | None, home: Home | None
    ) -> Iterator[Built | Lost]:
        """Build trips one by one, then the home here."""

        def job(name: str) -> Callable[..., FarBuilt | NotHere]:
            old = since if since is not None and since.trip == name else None
            return partial(build_far, trip_id=name, since=old, stands=self._stands(name))

        for name, found in self._each_done(list(names), job):
            yield Lost(name, found) if isinstance(found, str) else self._placed(found)
        if home is not None:
            yield home()

    def _stands(self, trip_id: str) -> str:
        """Name what the kit here was made from; "" where none is, or not all of it."""
        out = self.bench.wanted.out
        made = made_of(out, trip_id)
        return made.made_from if made is not None and is_whole(out, trip_id, made) else ""

    def _placed(self, found: FarBuilt) -> Built:
        built = found.built
        if built.changed:
            place_kit(self.bench.wanted.out, built.trip_id, found.zipped, found.record)
        if found.plan and self.bench.plans is not None:
            self.bench.plans.keep_written(built.trip_id, found.plan)
        return built

    def _each_done(
        self, pieces: Sequence[Any], job: Callable[[Any], Callable[..., Any]]
    ) -> Iterator[tuple[Any, Any]]:
        """Give what came of each piece of work as it is done, or why nothing will come.

        What stops one stops those that are not begun; it is raised when the others are done.
        """
        stopped_by: Exception | None = None
        waiting: dict[Future[Any], Any] = {}
        try:
            for number, piece in enumerate(pieces):
                waiting[self._sent(job(piece), with_content=number == 0)] = piece
            while waiting:
                for future in as_completed(list(waiting)):
                    piece = waiting.pop(future)
                    try:
                        found = future.result()
                    except self.lost as error:
                        yield piece, f"its worker is gone ({type(error).__name__})"
                        continue
                    except Exception as error:
                        stopped_by = stopped_by or error
                        for other in [each for each in waiting if each.cancel()]:
                            del waiting[other]
                        break
                    if not isinstance(found, NotHere):
                        yield piece, found
                    elif stopped_by is None:
                        waiting[self._sent(job(piece), with_content=True)] = piece
        finally:
            for future in waiting:
                future.cancel()
        if stopped_by is not None:
            raise stopped_by

    def _sent(self, job: Callable[..., Any], with_content: bool) -> Future[Any]:
        """Send a piece of work out; that nobody takes it any more is told like a loss."""
        try:
            return self.executor.submit(job, self.errand, self.files if with_content else None)
        except self.lost as error:
            refused: Future[Any] = Future()
            refused.set_exception(error)
            return refused


def content_files(at: Path, folder: Folder) -> dict[str, bytes]:
    """Give all files that are read of a folder by their path in there: records, tracks, pictures.

    One that cannot be read is told by who read the folder.
    """
    paths = [path for room in ROOMS for path in files_of_room(at, room, [])]
    named = {Path(each.name).name for each in folder.tracks.values()}
    content = folder.content
    shown = (*content.recipes.values(), *content.batches.values(), *content.trips.values())
    named |= {Path(each.file).name for each in held_in(shown, (Picture,))}
    for room in ROOMS_OF_PICTURES:
        paths += [
            path
            for path in sorted((at / room).rglob("*"))
            if path.suffix.lower() in (TRACK, *PICTURES) and path.name in named
        ]
    files = {}
    for path in paths:
        try:
            files[path.relative_to(at).as_posix()] = path.read_bytes()
        except OSError:
            continue
    return files
