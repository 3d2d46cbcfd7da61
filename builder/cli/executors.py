"""The door for Python: build the trips of a folder with any executor of `concurrent.futures`.

    from concurrent.futures import ProcessPoolExecutor
    from builder.cli.executors import build_with

    with ProcessPoolExecutor() as executor:
        build_with(executor, Path("content"), Path("kits"))

Workers share no folder with the caller. Out go the names of trips and, where a worker has not got
it, the content as bytes; back come zips as bytes, which are put in place here as those of any other
build. A worker needs the same version of this package and of its libraries. Its threads, where it
has some, work one by one.
"""

from __future__ import annotations

import contextlib
from collections.abc import Sequence
from concurrent.futures import Executor
from pathlib import Path

from builder.cli.build import build_folder
from builder.cli.many.elsewhere import hire_of
from builder.cli.many.wanted import Wanted
from builder.cli.places import place_of


def build_with(
    executor: Executor,
    content: Path | None,
    out: Path,
    trips: Sequence[str] = (),
    *,
    public: bool = False,
    strict: bool = False,
    force: bool = False,
    address: str = "",
    large_pictures: bool = False,
) -> None:
    """Build kits as `tripkit build` does, and say the same; the executor stays open.

    Where the command would end with an error, SystemExit or `builder.cli.base.BuilderStop` is
    raised; the kits that were there before are whole then. A worker that is gone loses the kit it
    was at, unless the executor gives that to another one itself.
    """
    wanted = Wanted(
        out,
        trips,
        public=public,
        strict=strict,
        force=force,
        address=address,
        large_pictures=large_pictures,
    )
    build_folder(
        place_of(content),
        wanted,
        lambda place: contextlib.nullcontext(hire_of(executor, place)),
    )
