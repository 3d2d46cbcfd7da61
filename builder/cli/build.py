"""Building kits: `tripkit build` and `tripkit preview`."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from pathlib import Path
from typing import Any

import click

from builder.cli.base import (
    BuilderStop,
    Place,
    content_option,
    counted,
    main,
    place_of,
    planned_kits,
    read_place,
    say_problems,
    stop_on,
    wanted_trips,
)
from builder.cli.dangers import Dangers, say_lines
from builder.clock import build_epoch
from builder.problems import Problem, ProblemsFound
from builder.shipped import shipped_root

DEFAULT_OUT = "kits"
DEFAULT_PUBLIC_OUT = "kits-public"


@main.command()
@click.argument("trips", nargs=-1, metavar="[TRIP ...]")
@content_option
@click.option(
    "--out", metavar="DIR", type=click.Path(file_okay=False, path_type=Path),
    help="Where the kits go. Without it: ./kits (./kits-public for a public build).",
)  # fmt: skip
@click.option(
    "--jobs", type=click.IntRange(1, 64), help="Kits built at once. Without it: by cores."
)
@click.option(
    "--public", is_flag=True,
    help="Leave out ages, body masses, allergies by person, dates and camp names.",
)  # fmt: skip
@click.option("--strict", is_flag=True, help="Stop at warnings and at dangers too.")
@click.option("--part", metavar="I/N", help="Build only every N-th trip, from the I-th on.")
@click.option(
    "--address", metavar="URL", default="",
    help="Where the folder of kits will lie on the web. Each kit then shows its own address "
    "there, also as a QR code.",
)  # fmt: skip
def build(
    trips: tuple[str, ...],
    content: Path | None,
    out: Path | None,
    jobs: int | None,
    public: bool,
    strict: bool,
    part: str | None,
    address: str,
) -> None:
    """Build kits: all trips, or only those named.

    Each kit is a folder and a zip of the same name. Open kits/index.html in a browser.
    """
    place = place_of(content)
    folder_out = out or Path(DEFAULT_PUBLIC_OUT if public else DEFAULT_OUT)
    build_folder(place, folder_out, trips, jobs, public, strict, part, address)


def build_folder(
    place: Place,
    out: Path,
    trips: Sequence[str] = (),
    jobs: int | None = None,
    public: bool = False,
    strict: bool = False,
    part: str | None = None,
    address: str = "",
) -> None:
    """Build kits of a folder, unless nothing changed since they were built."""
    from builder.site.build import files_below, fingerprint
    from builder.site.errors import SiteError
    from builder.site.index_page import write_index
    from builder.site.swap import recover

    if out.resolve() == place.folder.resolve() or place.folder.resolve() in out.resolve().parents:
        raise BuilderStop(
            f"{out} lies in the content folder", ["name another folder for the kits with --out"]
        )
    try:
        if out.is_dir():
            recover(out)
        root = shipped_root()
        made_from = fingerprint(
            {
                **files_below(place.folder, root / "content", root / "site_templates"),
                **files_below(root / "mkdocs.yml", Path(__file__).resolve().parent.parent),
                "order": repr(
                    (sorted(trips), public, part, address, os.environ.get("SOURCE_DATE_EPOCH"))
                ).encode(),
            }
        )
        if _nothing_changed(out, made_from, strict):
            return
        names, problems, dangers = _build_kits(
            place, out, trips, jobs, public, strict, part, address
        )
        out.mkdir(parents=True, exist_ok=True)  # a part may hold no trip at all
        write_index(out)
        _remember(out, made_from, names, problems, dangers)
    except SiteError as error:
        say_problems(error.problems)
        raise BuilderStop(error.message, error.hints) from error
    except OSError as error:
        raise BuilderStop(
            f"{error.filename or out} could not be written ({error.strerror})",
            ["see to the folder, its rights and the space left; whole kits stay as they are"],
        ) from error
    except ProblemsFound as found:
        say_problems(found.problems)
        sys.exit(1)
    click.echo(f"Open {(out / 'index.html').as_posix()} in a browser.")
    say_lines(dangers.lines)


def _nothing_changed(out: Path, made_from: str, strict: bool) -> bool:
    """Say that all is up to date, where it is; what the last build warned of is said again."""
    from builder.site.build import STAMPS

    try:
        told = json.loads((out / STAMPS / "all.json").read_text("utf-8"))
        names, warnings = list(told["kits"]), list(told["warnings"])
        dangers = Dangers(list(told["cautions"]), bool(told["danger"]))
        current = told["made_from"] == made_from
    except (OSError, ValueError, KeyError, TypeError):
        return False
    whole = all(
        (out / name / "index.html").is_file() and (out / f"{name}.zip").is_file() for name in names
    )
    if not current or not whole or not (out / "index.html").is_file():
        return False
    for warning in warnings:
        click.echo(warning, err=True)
    if strict and (warnings or dangers.of_a_trip):
        say_lines(dangers.lines)
        sys.exit(1)
    click.echo(f"Nothing changed: {counted(len(names), 'kit')} up to date.")
    click.echo(f"Open {(out / 'index.html').as_posix()} in a browser.")
    say_lines(dangers.lines)
    return True


def _remember(
    out: Path,
    made_from: str,
    names: Sequence[str],
    problems: Sequence[Problem],
    dangers: Dangers,
) -> None:
    from builder.site.build import STAMPS

    told = {
        "made_from": made_from,
        "kits": list(names),
        "warnings": [str(problem) for problem in problems],
        "cautions": dangers.lines,
        "danger": dangers.of_a_trip,
    }
    (out / STAMPS).mkdir(exist_ok=True)
    (out / STAMPS / "all.json").write_text(json.dumps(told), "utf-8")


def _build_kits(
    place: Place,
    out: Path,
    trips: Sequence[str],
    jobs: int | None,
    public: bool,
    strict: bool,
    part: str | None,
    address: str,
) -> tuple[list[str], tuple[Problem, ...], Dangers]:
    """Plan and build; give the names of the kits, the warnings said, and what to end with."""
    from builder.planning.public import public_kit
    from builder.reading.cuttings import content_of_kit
    from builder.site.build import Order

    folder = read_place(place)
    kits, ordered = planned_kits(
        folder, lambda known, broken: wanted_trips(trips, known, part, broken)
    )
    stop_on(ordered, strict)
    if not folder.content.trips:
        raise BuilderStop(
            f"there is no trip in {place.shown}", ["write one with `tripkit new trip NAME`"]
        )
    shown = [public_kit(kit) if public else kit for kit in kits]
    dangers = Dangers.of(shown)
    if strict and dangers.of_a_trip:
        say_lines(dangers.lines)
        sys.exit(1)
    root = shipped_root()
    orders = []
    for kit, order_kit in zip(kits, shown, strict=True):
        cautions = [each.id for each in kit.cautions]
        orders.append(
            Order(
                kit=order_kit,
                content={} if public else content_of_kit(folder, kit.id, cautions),
                epoch=build_epoch(None if public else kit.start),
                out=out,
                templates=root / "site_templates",
                base_config=root / "mkdocs.yml",
                address=address,
            )
        )
    _build_orders(orders, jobs)
    return [kit.id for kit in kits], ordered, dangers


def _build_orders(orders: Sequence[Any], jobs: int | None) -> None:
    """Build all kits, in several processes where that is quicker."""
    from builder.site.build import Built, build_kit

    workers = min(jobs or os.cpu_count() or 1, len(orders))

    def said(built: Built) -> None:
        word = "Built" if built.changed else "Unchanged"
        click.echo(f"{word} {orders[0].out.as_posix()}/{built.trip_id} ({built.title})")
        say_problems(built.doubts)

    if workers <= 1 or (jobs is None and len(orders) < 8):
        # Starting a process costs more than a few kits.
        for order in orders:
            said(build_kit(order))
        return
    with _executor(workers) as executor:
        for built in executor.map(build_kit, orders, chunksize=max(1, len(orders) // workers // 4)):
            said(built)


def _executor(workers: int) -> Executor:
    """Give what runs the workers; any `concurrent.futures` executor fits here."""
    return ProcessPoolExecutor(max_workers=workers)


@main.command()
@click.argument("trip")
@content_option
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="Without it: a free one.")
def preview(trip: str, content: Path | None, port: int) -> None:
    """Build one kit, show it on this machine, and rebuild it when a file is saved."""
    from builder.preview import serve

    place = place_of(content)
    out = Path(DEFAULT_OUT)
    build_folder(place, out, [trip])

    def rebuild() -> None:
        try:
            build_folder(place, out, [trip])
        except SystemExit:
            click.echo("The kit stays as it was.", err=True)
        except click.ClickException as stop:
            stop.show()

    serve(out, trip, [place.folder], port, rebuild, click.echo)
