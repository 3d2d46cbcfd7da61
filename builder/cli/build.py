"""Building kits: `tripkit build` and `tripkit preview`."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import click

from builder.cli.base import (
    DEFAULT_OUT,
    DEFAULT_PUBLIC_OUT,
    BuilderStop,
    Place,
    Planned,
    content_option,
    main,
    place_of,
    plan_each,
    read_place,
    say_problems,
    stop_on,
    stop_on_open,
    wanted_trips,
)
from builder.cli.completing import ids_of
from builder.cli.dangers import Dangers, say_lines
from builder.cli.last_build import LastBuild, forget, remember, state_of, state_of_tool, unchanged
from builder.cli.progress import Bar, progress
from builder.cli.telling import told
from builder.clock import build_epoch, today
from builder.problems import Problem, ProblemsFound, as_told, counted, did_you_mean
from builder.shipped import shipped_root
from builder.site.rendering.generators import GENERATORS, USUAL_GENERATOR

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from builder.cli.kept_plans import KeptPlan, KeptPlans
    from builder.model.content import Content
    from builder.model.kit import Kit
    from builder.reading.folder import Folder
    from builder.site.build import Built, HomeOrder, Order, Pictures

_LONG_BUILD = 3  # kits; fewer are done before one has read how far it is


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked of one build."""

    out: Path
    trips: Sequence[str] = ()  # none named: all
    public: bool = False
    part: str | None = None
    address: str = ""
    jobs: int | None = None
    strict: bool = False
    force: bool = False
    since: Path | None = None  # the kit that the companions have
    large_pictures: bool = False  # however much they weigh together
    generator: str = USUAL_GENERATOR

    @property
    def with_home(self) -> bool:
        """Whether the site of the home is wanted too: it tells of all trips, and is private."""
        return not self.trips and not self.public and self.part is None

    @property
    def makes(self) -> object:
        """Give what of it the kits depend on; the home is told of as of its day."""
        day = today().isoformat() if self.with_home else ""
        since = None
        if self.since is not None and self.since.is_file():
            since = (str(self.since), self.since.stat().st_mtime_ns)
        how = (self.public, self.part, self.address, self.large_pictures, self.generator)
        return sorted(self.trips), *how, day, since


@main.command(short_help="Build kits: all trips, or only those named.")
@click.argument("trips", nargs=-1, metavar="[TRIP ...]", shell_complete=ids_of("trips"))
@content_option
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(file_okay=False, path_type=Path),
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
@click.option("--part", metavar="I/N", help="Build only every N-th trip, from the I-th on.")
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
    "--sealed",
    is_flag=True,
    help="Write one page of one trip that opens with a passphrase only. See above.",
)
def build(
    trips: tuple[str, ...],
    *,
    large_pictures: bool,
    since: Path | None,
    content: Path | None,
    out: Path | None,
    jobs: int | None,
    public: bool,
    strict: bool,
    force: bool,
    part: str | None,
    address: str,
    generator: str,
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
    open. It takes one trip at a time, and neither --public nor --part nor --address.
    """
    place = place_of(content)
    folder_out = out or Path(DEFAULT_PUBLIC_OUT if public else DEFAULT_OUT)
    wanted = Wanted(
        folder_out,
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
    )
    if sealed:
        from builder.cli.sealed import build_sealed

        build_sealed(place, wanted)
    else:
        build_folder(place, wanted)


def build_folder(place: Place, wanted: Wanted) -> None:
    """Build kits of a folder, unless nothing changed since they were built."""
    from builder.site.folder.index_page import refuse_foreign_index, write_index

    out = wanted.out
    with stops_told(place, out):
        made = state_of(place, wanted.makes)
        if not wanted.force and (last := unchanged(out, place, made)):
            _say_unchanged(out, last, wanted.strict)
            return
        refuse_foreign_index(out)
        _refuse_public_beside_home(wanted)
        plans = plans_of(place, wanted)
        kits, problems, dangers = _build_kits(place, wanted, plans)
        index_sha256 = write_index(out)
        warnings = tuple(told(problems))
        if wanted.public:  # what was warned of, and of what all was made, is nobody else's business
            forget(out)
            plans.forget(kits)
        else:
            remember(out, place, LastBuild(made, kits, index_sha256, warnings, dangers))
    _say_end(out, dangers)


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

    is_alike = not wanted.public and wanted.since is None
    how = (wanted.address, wanted.large_pictures, wanted.generator)
    tool = f"{state_of_tool(place.is_demo)} {how!r}"
    return KeptPlans(place, wanted.out, tool, is_asked=is_alike and not wanted.force)


def _refuse_public_beside_home(wanted: Wanted) -> None:
    """Refuse to put kits for everybody where what is private lies."""
    from builder.model.home import AT_HOME

    if wanted.public and os.path.lexists(wanted.out / AT_HOME):
        raise BuilderStop(
            f"{as_told(wanted.out / AT_HOME)} is private: it tells of your home",
            ["name another folder for the public kits with --out"],
        )


def _say_unchanged(out: Path, last: LastBuild, strict: bool) -> None:
    """Say that all is up to date; what the last build warned of is said again."""
    from builder.model.home import AT_HOME

    for warning in last.warnings:
        click.echo(warning, err=True)
    if strict and (last.warnings or last.dangers.of_a_trip):
        say_lines(last.dangers.lines)
        sys.exit(1)
    kits = len(last.kits.keys() - {AT_HOME})
    click.echo(f"Nothing changed: {counted(kits, 'kit')} up to date.")
    _say_end(out, last.dangers)


def _say_end(out: Path, dangers: Dangers) -> None:
    """Say where the kits are to be looked at, then the dangers of each trip."""
    from builder.site.folder.index_page import INDEX_NAME

    click.echo(f"Open {as_told(out / INDEX_NAME)} in a browser.")
    say_lines(dangers.lines)


class Ordered(NamedTuple):
    """What is to be built, what need not be, and what there is to say of both."""

    orders: list[Order]
    home: HomeOrder | None
    problems: tuple[Problem, ...]
    dangers: Dangers
    kept: tuple[KeptPlan, ...]
    content: Content


def _build_kits(
    place: Place, wanted: Wanted, plans: KeptPlans
) -> tuple[dict[str, str], tuple[Problem, ...], Dangers]:
    """Plan and build; give what each kit was made from, the warnings said, what to end with."""
    from builder.site.build import build_home

    ordered = ordered_builds(place, wanted, plans)
    made = _build_orders(ordered.orders, wanted, ordered.kept)
    if not wanted.public and wanted.since is None:
        for trip_id in made.keys() - {each.trip for each in ordered.kept}:
            plans.keep(ordered.content, trip_id, made[trip_id])
    if ordered.home:
        built = build_home(ordered.home)
        _say_built(built, wanted.out)
        made[built.trip_id] = built.made_from
    return made, ordered.problems, ordered.dangers


def ordered_builds(place: Place, wanted: Wanted, plans: KeptPlans) -> Ordered:
    """Plan all, so that a fault in one trip stops the build before anything is written."""
    from builder.model.home import AT_HOME
    from builder.planning.home import has_home
    from builder.planning.public import public_kit
    from builder.reading.anew.cuttings import content_of_kit
    from builder.site.build import Order
    from builder.site.folder.made import refuse_foreign_names

    folder = read_place(place)
    planned = plan_each(
        folder,
        lambda known, broken: wanted_trips(wanted.trips, known, wanted.part, broken),
        lambda kit: kit,
        plans,
    )
    kits, ordered = planned.kits, planned.problems
    stop_on(ordered, wanted.strict)
    stop_on_open(wanted.trips, folder.content)
    if not folder.content.trips:
        raise BuilderStop(
            f"there is no trip in {place.shown}", ["write one with `tripkit new trip NAME`"]
        )
    if wanted.since is not None:
        kits = _with_changes(kits, wanted)
    shown = [public_kit(kit, folder.content) if wanted.public else kit for kit in kits]
    of_trips = {kit.id: Dangers.of([kit]) for kit in kits}
    of_trips |= {each.trip: each.dangers for each in planned.kept}
    dangers = Dangers.together([of_trips[trip_id] for trip_id in sorted(of_trips)])
    if wanted.strict and dangers.of_a_trip:
        say_lines(dangers.lines)
        sys.exit(1)
    root = shipped_root()
    orders = []
    for kit, order_kit in zip(kits, shown, strict=True):
        cautions = [each.id for each in kit.cautions]
        orders.append(
            Order(
                kit=order_kit,
                content={} if wanted.public else content_of_kit(folder, kit.id, cautions),
                epoch=build_epoch(None if wanted.public else kit.start),
                out=wanted.out,
                templates=root / "site_templates",
                base_config=root / "mkdocs.yml",
                address=wanted.address,
                force=wanted.force,
                pictures=_pictures(folder, order_kit, wanted),
                generator=wanted.generator,
            )
        )
    refuse_foreign_names(wanted.out, sorted(of_trips))
    home = None
    if wanted.with_home and has_home(folder.content):
        home = _home_order(folder.content, planned, wanted)
        refuse_foreign_names(wanted.out, [AT_HOME])
    return Ordered(orders, home, ordered, dangers, planned.kept, folder.content)


def _pictures(folder: Folder, kit: Kit, wanted: Wanted) -> Pictures | None:
    """Give the pictures of a kit; None where it has none."""
    from builder.pages.pictures import pictures_of
    from builder.reading.anew.cuttings import pictures_along
    from builder.reading.pictures.small_copies import copies_of
    from builder.site.build import Pictures

    along = {} if wanted.public else pictures_along(folder, kit.id)
    shown = [each for each in pictures_of(kit) if each is not None]
    if not along and not shown:
        return None
    return Pictures(
        copies_of([*shown, *along.values()], wanted.large_pictures),
        tuple(each.path for each in shown),
        {path: each.path for path, each in along.items()},
    )


def _with_changes(kits: list[Kit], wanted: Wanted) -> list[Kit]:
    """Give the kits; the one of the trip that the companions have tells what changed since."""
    from builder.planning.since import changes_since
    from builder.site.folder.old_kit import read_old_kit

    assert wanted.since is not None
    if wanted.public:
        raise BuilderStop("--since tells of people and packs", ["leave out --public, or --since"])
    old = read_old_kit(wanted.since)
    if all(kit.id != old.trip for kit in kits):
        raise BuilderStop(
            f"{wanted.since} is the kit of another trip, {old.trip}",
            [did_you_mean(old.trip, [kit.id for kit in kits])],
        )
    return [
        replace(kit, since=changes_since(old, kit)) if kit.id == old.trip else kit for kit in kits
    ]


def _home_order(content: Content, planned: Planned[Kit], wanted: Wanted) -> HomeOrder:
    """Plan the home, whose day is the day of the build."""
    from builder.planning.at_home import share_of
    from builder.planning.home import day_of, plan_home
    from builder.reading.pictures.small_copies import copies_of
    from builder.site.build import HomeOrder

    day = day_of(content, today())
    shares = [*map(share_of, planned.kits), *(each.share for each in planned.kept)]
    shares.sort(key=lambda each: each.id)
    root = shipped_root()
    plan = plan_home(content, planned.stock, shares, day)
    return HomeOrder(
        plan=plan,
        epoch=build_epoch(day),
        out=wanted.out,
        templates=root / "site_templates",
        base_config=root / "mkdocs.yml",
        force=wanted.force,
        copies=copies_of((line.picture for line in plan.stock), wanted.large_pictures),
        generator=wanted.generator,
    )


def _build_orders(orders: list[Order], wanted: Wanted, kept: Sequence[KeptPlan]) -> dict[str, str]:
    """Build all kits, in several processes where that is quicker; give what each was made from."""
    from builder.site.build import Built

    made = {each.trip: each.made_from for each in kept}
    unsaid = [
        Built(each.trip, each.share.title, False, (), each.made_from) for each in reversed(kept)
    ]
    with progress("Building kits", len(orders), least=_LONG_BUILD) as bar:
        for built in _built(orders, wanted.jobs, bar):
            with bar.aside():
                while unsaid and unsaid[-1].trip_id < built.trip_id:
                    _say_built(unsaid.pop(), wanted.out)
                _say_built(built, wanted.out)
            made[built.trip_id] = built.made_from
    while unsaid:
        _say_built(unsaid.pop(), wanted.out)
    return made


def _built(orders: list[Order], jobs: int | None, bar: Bar) -> Iterator[Built]:
    """Build all kits and give them in their order; a step of the bar for each that is done.

    The orders are used up, so that of many trips no kit is kept longer than it is needed.
    """
    from builder.site.build import build_kit

    workers = min(jobs or os.cpu_count() or 1, len(orders))
    if workers <= 1 or (jobs is None and len(orders) < 8):
        # Starting a process costs more than a few kits.
        while orders:
            built = build_kit(orders.pop(0))
            bar.step()
            yield built
        return
    from concurrent.futures import as_completed

    with _executor(workers) as executor:
        numbers = {executor.submit(build_kit, order): n for n, order in enumerate(orders)}
        orders.clear()
        done: dict[int, Built] = {}
        next_one = 0
        try:
            for future in as_completed(numbers):
                done[numbers[future]] = future.result()
                bar.step()
                while next_one in done:
                    yield done.pop(next_one)
                    next_one += 1
        except BaseException:
            for future in numbers:
                future.cancel()
            raise


def _say_built(built: Built, out: Path) -> None:
    word = "Built" if built.changed else "Unchanged"
    click.echo(f"{word} {as_told(out)}/{built.trip_id} ({built.title})")
    say_problems(built.doubts)


def _executor(workers: int) -> Executor:
    """Give what runs the workers; any `concurrent.futures` executor fits here."""
    from concurrent.futures import ProcessPoolExecutor

    return ProcessPoolExecutor(max_workers=workers)
