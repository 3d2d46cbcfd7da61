"""Building kits: `tripkit build` and `tripkit preview`."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import DEFAULT_OUT, DEFAULT_PUBLIC_OUT, BuilderStop, main, say_problems
from builder.cli.completing import ids_of
from builder.cli.dangers import Dangers, say_lines
from builder.cli.last_build import (
    LastBuild,
    folder_marks,
    forget,
    remember,
    state_of,
    state_of_tool,
    unchanged,
)
from builder.cli.many.wanted import FolderOrUrl, Part, Wanted, part_told
from builder.cli.places import Place, place_asked
from builder.cli.telling import told
from builder.problems import ProblemsFound, as_told, counted, printable
from builder.site.rendering.generators import GENERATORS, USUAL_GENERATOR

if TYPE_CHECKING:
    from builder.cli.kept_plans import KeptPlans
    from builder.cli.many.trips import Hire

    Hiring = Callable[[Place], contextlib.AbstractContextManager[Hire]]


@main.command(short_help="Build kits: all trips, or only those named.")
@click.argument("trips", nargs=-1, metavar="[TRIP ...]", shell_complete=ids_of("trips"))
@click.option(
    "--content",
    metavar="DIR|URL",
    type=FolderOrUrl(file_okay=False, path_type=Path),
    help="Your content folder. Without it: ./content if there is one, else the demo.",
)
@click.option(
    "--out",
    metavar="DIR|URL",
    type=FolderOrUrl(file_okay=False, path_type=Path),
    help="Where the kits go. Without it: ./kits (./kits-public for a public build).",
)
@click.option(
    "--jobs",
    type=click.IntRange(1, 64),
    metavar="N",
    help="How many kits are built at once. Without it: by cores.",
)
@click.option(
    "--public",
    is_flag=True,
    help="Leave out ages, body masses, allergies by person, dates and camp names.",
)
@click.option("--strict", is_flag=True, help="Stop at warnings and at dangers too.")
@click.option("--force", is_flag=True, help="Build also what has not changed.")
@click.option(
    "--part",
    callback=part_told,
    metavar="I/N",
    help="Build only every N-th trip, from the I-th on. See above.",
)
@click.option(
    "--address",
    metavar="URL",
    default="",
    help="Where the folder of kits will lie on the web. Each kit then shows its own address "
    "there, also as a QR code.",
)
@click.option(
    "--since",
    metavar="KIT.zip",
    type=click.Path(dir_okay=False, path_type=Path),
    help="The kit that the companions have. The new one of that trip tells what changed.",
)
@click.option(
    "--large-pictures",
    is_flag=True,
    help="Keep pictures as sharp as one alone may be, however many a kit has.",
)
@click.option(
    "--generator",
    type=click.Choice(GENERATORS),
    default=USUAL_GENERATOR,
    help="What makes pages of text. The other one is on trial, and has to be installed first.",
)
@click.option(
    "--cluster",
    metavar="tcp://HOST:PORT",
    help="Let the workers of a dask scheduler plan and build. See above.",
)
@click.option(
    "--sealed",
    is_flag=True,
    help="Write one page of one trip that opens with a passphrase only. See above.",
)
def build(
    trips: tuple[str, ...],
    *,
    large_pictures: bool,
    since: Path | None,
    content: Path | str | None,
    out: Path | str | None,
    jobs: int | None,
    public: bool,
    strict: bool,
    force: bool,
    part: Part | None,
    address: str,
    generator: str,
    cluster: str | None,
    sealed: bool,
) -> None:
    """Build kits: all trips, or only those named.

    Each kit is a folder and a zip of the same name. Open kits/index.html in a browser. A kit is
    built anew when what it is made from has changed, or when a file of it was lost or changed.
    What the tool did not make is never touched.

    With --sealed one trip becomes one page, kits/TRIP-sealed.html, that opens in a browser, also
    without a network, once one types the passphrase. You are asked for it twice; a script gives it
    as the one line of its standard input. Of that trip nothing else is written, and the list of
    kits does not name it. Each sealing gives other bytes, and begins with nothing ticked. The
    file's own name is for all to read: give it another one where that tells too much. A forgotten
    passphrase cannot be had back. It guards the file, not a phone or computer on which it stands
    open. It takes one trip at a time, and neither --public nor --part nor --address nor --cluster,
    nor a URL for --out.

    With --part I/N, as for the machines of a matrix, one folder gets a share of the trips: those of
    all parts are the kits of a whole build, byte by byte. A part stops at what is wrong in the
    folder as a whole and in its own trips, leaves other kits and the home as they are, and lists
    all kits that lie in its folder. Put the folders of all parts into one, .built too, and build
    once more without --part: that makes the home and the list, and no kit that is there.

    With --cluster the trips are planned and built by the workers of a dask scheduler, such as
    tcp://10.0.0.5:8786. They need the same tripkit, and share no folder with this machine: content
    is sent to them, kits come back. The work of a worker that dies goes to another. The home is
    built here. It needs pip install 'trip-kit-builder[cluster]'.

    Where a folder is named, a URL that fsspec opens will do, such as s3://bucket/kits: content is
    fetched from there, and kits are put there when they are whole, the list of kits last. What the
    tool made there is fetched first, to know what has changed. It needs pip install
    'trip-kit-builder[remote]', and the library for its kind, such as s3fs.
    """
    with contextlib.ExitStack() as opened:
        place = opened.enter_context(_place_at(content))
        kits, shown = opened.enter_context(
            _out_at(out, DEFAULT_PUBLIC_OUT if public else DEFAULT_OUT)
        )
        wanted = Wanted(
            kits,
            trips,
            public=public,
            part=part,
            address=address,
            jobs=jobs,
            strict=strict,
            force=force,
            since=since,
            large_pictures=large_pictures,
            generator=generator,
            shown=shown,
        )
        if sealed:
            from builder.cli.sealed import build_sealed

            build_sealed(place, wanted, cluster)
        elif cluster is not None:
            from builder.cli.many.cluster import hiring_of

            build_folder(place, wanted, hiring_of(cluster))
        else:
            build_folder(place, wanted)


@contextlib.contextmanager
def _place_at(content: Path | str | None) -> Iterator[Place]:
    """Give the content folder, fetched where it lies behind a URL."""
    if not isinstance(content, str):
        yield place_asked(content)
        return
    from builder.cli.many.remote import content_at

    with content_at(content) as place:
        yield place


@contextlib.contextmanager
def _out_at(out: Path | str | None, usual: str) -> Iterator[tuple[Path, str]]:
    """Give the folder of kits, and what people know it by where it lies behind a URL."""
    if not isinstance(out, str):
        yield out or Path(usual), ""
        return
    from builder.cli.many.remote import kits_at

    with kits_at(out) as kits:
        yield kits, printable(out.rstrip("/"))


def build_folder(place: Place, wanted: Wanted, hiring: Hiring | None = None) -> None:
    """Build kits of a folder, unless nothing changed since they were built.

    `hiring` opens the way to who plans and builds, where that is not this machine by itself.
    """
    from builder.site.folder.index_page import refuse_foreign_index, write_index
    from builder.site.folder.swap import recover

    out = wanted.out
    with stops_told(place, out):
        made = state_of(place, wanted.makes)
        if not wanted.force and (last := unchanged(out, place, made)):
            _say_unchanged(last, wanted)
            return
        # Where nothing changed none of this need be loaded.
        from builder.cli.many.trips import all_planned, build_all

        refuse_foreign_index(out)
        _refuse_public_beside_home(wanted)
        plans = plans_of(place, wanted)
        with (
            _undone_when_ended(out),
            hiring(place) if hiring else contextlib.nullcontext(None) as hire,
            all_planned(place, wanted, plans, hire) as ready,
        ):
            kits, lost = build_all(ready)
        if lost is not None:  # the others are whole, and listed
            recover(out)
            write_index(out)
            raise lost
        index_sha256 = write_index(out)
        warnings = tuple(told(ready.problems))
        if wanted.public:  # what was warned of, and of what all was made, is nobody else's business
            forget(out)
            plans.forget(kits)
        else:
            remember(out, place, LastBuild(made, kits, index_sha256, warnings, ready.dangers))
    _say_end(wanted, ready.dangers)


@contextlib.contextmanager
def _undone_when_ended(out: Path) -> Iterator[None]:
    """Undo what was at work where a build is ended at once, such as by Ctrl-C."""
    from builder.site.errors import SiteError
    from builder.site.folder.swap import recover

    try:
        yield
    except BaseException:
        with contextlib.suppress(OSError, SiteError):
            recover(out)
        raise


@contextlib.contextmanager
def stops_told(place: Place, out: Path) -> Iterator[None]:
    """Build into a folder that was looked at; what stops that is said so that it can be mended."""
    from builder.site.errors import SiteError, is_below, of_the_system
    from builder.site.folder.made import OWN_FOLDER
    from builder.site.folder.swap import recover

    if os.path.islink(out) and not os.path.isdir(out):
        raise BuilderStop(
            f"{as_told(out)} is a link that leads to no folder", ["name a folder with --out"]
        )
    if is_below(out, place.folder):
        raise BuilderStop(
            f"{as_told(out)} lies in the content folder",
            ["name another folder for the kits with --out"],
        )
    try:
        recover(out)
        yield
    except SiteError as error:
        say_problems(error.problems)
        raise BuilderStop(error.message, error.hints) from error
    except BrokenPipeError:
        raise  # of what is said here, not of a kit; click ends the program quietly
    except OSError as error:
        stop = of_the_system(error, "the kits", out, out / OWN_FOLDER)
        raise BuilderStop(stop.message, stop.hints) from error
    except ProblemsFound as found:
        say_problems(found.problems)
        sys.exit(1)


def plans_of(place: Place, wanted: Wanted) -> KeptPlans:
    """Give the plans of the last build, which hold where nothing else is asked for now."""
    from builder.cli.kept_plans import KeptPlans

    how = (wanted.address, wanted.large_pictures, wanted.generator)
    tool = f"{state_of_tool(place.is_demo)} {how!r}"
    return KeptPlans(
        folder_marks(place), wanted.out, tool, is_asked=wanted.keeps_plans and not wanted.force
    )


def _refuse_public_beside_home(wanted: Wanted) -> None:
    """Refuse to put kits for everybody where what is private lies."""
    from builder.model.home import AT_HOME

    if wanted.public and os.path.lexists(wanted.out / AT_HOME):
        raise BuilderStop(
            f"{as_told(wanted.out / AT_HOME)} is private: it tells of your home",
            ["name another folder for the public kits with --out"],
        )


def _say_unchanged(last: LastBuild, wanted: Wanted) -> None:
    """Say that all is up to date; what the last build warned of is said again."""
    from builder.model.home import AT_HOME

    for warning in last.warnings:
        click.echo(warning, err=True)
    if wanted.strict and (last.warnings or last.dangers.of_a_trip):
        say_lines(last.dangers.lines)
        sys.exit(1)
    kits = len(last.kits.keys() - {AT_HOME})
    click.echo(f"Nothing changed: {counted(kits, 'kit')} up to date.")
    _say_end(wanted, last.dangers)


def _say_end(wanted: Wanted, dangers: Dangers) -> None:
    """Say what was left, where the kits are to be looked at, then the dangers of each trip."""
    from builder.site.folder.index_page import INDEX_NAME

    if wanted.part is not None:
        click.echo(f"Part {wanted.part}: other kits, and the home, were left as they are.")
    click.echo(f"Open {wanted.told_out}/{INDEX_NAME} in a browser.")
    say_lines(dangers.lines)
