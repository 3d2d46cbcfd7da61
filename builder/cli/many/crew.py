"""Who plans trips and builds their kits: one process alone, or several hands at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, ExitStack
from typing import NamedTuple, Protocol, TypeAlias

from builder.cli.many.bench import Bench, Told
from builder.model.since import OldKit
from builder.site.build import Built, build_kit

Home: TypeAlias = Callable[[], Built]  # plans and builds the home
FEW = 8  # kits: where a process cannot be forked, starting it costs more than these


class Lost(NamedTuple):
    """A trip of which nobody will hear: who was at work on it is gone."""

    trip_id: str
    why: str


class Crew(AbstractContextManager["Crew"], Protocol):
    """Plans trips, then builds the kits of some of them; answers come as each is done."""

    def plan(self, names: Sequence[str]) -> Iterator[Told | Lost]:
        """Plan trips."""

    def build(
        self, names: Sequence[str], since: OldKit | None, home: Home | None
    ) -> Iterator[Built | Lost]:
        """Build kits, and the site of the home where it is wanted.

        Raises what stopped one of them, once those at work are done; then no other is begun.
        """


class Alone(ExitStack):
    """One process, this one."""

    def __init__(self, bench: Bench) -> None:
        """Take where the work is done."""
        super().__init__()
        self.bench = bench

    def plan(self, names: Sequence[str]) -> Iterator[Told | Lost]:
        """Plan one after the other."""
        return map(self.bench.plan, names)

    def build(
        self, names: Sequence[str], since: OldKit | None, home: Home | None
    ) -> Iterator[Built | Lost]:
        """Build one after the other."""
        for name in names:
            yield self.bench.build(name, since)
        if home is not None:
            yield home()


class Pooled(Alone):
    """Plans here and builds in processes of a pool: where none can be forked off this one."""

    def __init__(self, bench: Bench, workers: int) -> None:
        """Take where trips are planned, and how many build."""
        super().__init__(bench)
        self.workers = workers

    def build(
        self, names: Sequence[str], since: OldKit | None, home: Home | None
    ) -> Iterator[Built | Lost]:
        """Build several at once; the home is built here, after them."""
        from concurrent.futures import BrokenExecutor, ProcessPoolExecutor, as_completed

        with ProcessPoolExecutor(max_workers=self.workers) as pool:
            ready = {name: self.bench.ready(name) for name in names}
            doing = {
                pool.submit(build_kit, self.bench.order(each, since)): name
                for name, each in ready.items()
            }
            try:
                for future in as_completed(doing):
                    name = doing[future]
                    try:
                        built = future.result()
                    except BrokenExecutor:
                        yield Lost(name, "a process that builds kits was killed")
                        continue
                    self.bench.keep(ready.pop(name), built)
                    yield built
            except BaseException:
                for future in doing:
                    future.cancel()
                raise
        if home is not None:
            yield home()
