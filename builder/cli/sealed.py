"""One trip as one page that opens with a passphrase: `tripkit build TRIP --sealed`.

The plain kit is built in a folder of its own that only the user may read, and that is gone at the
end: beside the sealed page nothing of the trip is left where the kits lie.
"""

from __future__ import annotations

import contextlib
import signal
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

import click

from builder.cli.asking import on_terminal
from builder.cli.base import BuilderStop
from builder.cli.dangers import say_lines
from builder.cli.places import Place
from builder.problems import as_told, counted
from builder.record import replace

if TYPE_CHECKING:
    from builder.cli.many.wanted import Wanted
    from builder.site.build import Order

_MOST_ASKED = 3
_SCRATCH = "tripkit-"


def build_sealed(place: Place, wanted: Wanted, cluster: str | None) -> None:
    """Build the one trip that is named, and leave only its sealed page."""
    from builder.cli.build import plans_of, stops_told
    from builder.cli.many.trips import all_planned
    from builder.site.sealing.locking import refuse_without_library
    from builder.site.sealing.place import put_page, refuse_foreign_page

    out = wanted.out
    trip_id = _the_one_trip(wanted, cluster)
    with (
        stops_told(place, out),
        tempfile.TemporaryDirectory(prefix=_SCRATCH) as scratch,
        _ended_in_order(),
    ):
        refuse_without_library()
        aside = replace(wanted, out=Path(scratch) / "kits", force=True)
        with all_planned(place, aside, plans_of(place, aside)) as ready:
            order = ready.bench.order(ready.bench.ready(trip_id), ready.since)
        refuse_foreign_page(out, trip_id)
        page = _page(order, _passphrase())
        sealed = put_page(out, trip_id, page)
    click.echo(f"Sealed {as_told(sealed)} ({order.kit.title})")
    click.echo("Tell the passphrase another way than the file goes. Without it nobody opens it.")
    _warn_of_plain_kit(out, trip_id)
    say_lines(ready.dangers.lines)


@contextlib.contextmanager
def _ended_in_order() -> Iterator[None]:
    """Clear up also where the program is told to end, or its terminal is closed."""

    def end(number: int, _: FrameType | None) -> None:
        sys.exit(128 + number)

    names = [name for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    before = {name: signal.signal(getattr(signal, name), end) for name in names}
    try:
        yield
    finally:
        for name, handler in before.items():
            signal.signal(getattr(signal, name), handler)


def _the_one_trip(wanted: Wanted, cluster: str | None) -> str:
    """Give the trip to seal; refuse what does not go with sealing."""
    at_odds = {
        "--public": (
            wanted.public,
            "a sealed page is for those you chose, and holds the whole kit",
        ),
        "--part": (wanted.part is not None, "one trip is sealed at a time"),
        "a URL for --out": (bool(wanted.shown), "it stays on this machine until you hand it on"),
        "--cluster": (cluster is not None, "nothing of a sealed trip is sent elsewhere"),
        "--address": (bool(wanted.address), "a sealed page is handed on as a file"),
    }
    for option, (is_asked, why) in at_odds.items():
        if is_asked:
            raise BuilderStop(f"--sealed and {option} do not go together: {why}", ["leave out one"])
    if len(set(wanted.trips)) != 1:
        found = counted(len(wanted.trips), "trip") + " named" if wanted.trips else "no trip named"
        raise BuilderStop(
            f"one trip is sealed at a time, with a passphrase of its own; {found}",
            ["name one, such as `tripkit build TRIP --sealed`"],
        )
    return wanted.trips[0]


def _page(order: Order, passphrase: str) -> str:
    """Build the plain kit aside, and give the page that holds it sealed."""
    from builder.site.build import build_kit
    from builder.site.folder.kit_files import POCKET_NAME
    from builder.site.sealing.page import sealed_page

    kit = order.kit
    build_kit(order)
    return sealed_page(
        (order.out / kit.id / POCKET_NAME).read_text(encoding="utf-8"),
        (order.out / f"{kit.id}.zip").read_bytes(),
        zip_name=f"{kit.id}.zip",
        language=kit.language,
        assets=order.templates / "assets",
        passphrase=passphrase,
    )


def _passphrase() -> str:
    """Ask for the passphrase, or read the one line that a script gives."""
    from builder.site.sealing.passphrase import LEAST_SIGNS, LEAST_WORDS, is_weak

    passphrase = _asked_twice() if on_terminal() else _only_line()
    if is_weak(passphrase):
        click.echo(
            f"This passphrase is short, and soon guessed by a machine: take at least {LEAST_SIGNS} "
            f"characters or {LEAST_WORDS} words (common practice, no source).",
            err=True,
        )
    return passphrase


def _asked_twice() -> str:
    """Ask until the same was typed twice, a few times over; nothing of it is shown."""
    from builder.site.sealing.passphrase import as_typed, why_refused

    for _ in range(_MOST_ASKED):
        told = as_typed(_hidden("Passphrase"))
        if why := why_refused(told):
            click.echo(f"  Not so: {why}.", err=True)
        elif as_typed(_hidden("The same again")) != told:
            click.echo("  The two are not the same.", err=True)
        else:
            return told
    raise BuilderStop(
        "no passphrase was typed the same twice", ["nothing was written; begin again"]
    )


def _hidden(question: str) -> str:
    told: str = click.prompt(question, hide_input=True, default="", show_default=False, err=True)
    return told


def _only_line() -> str:
    """Read the one line of the standard input."""
    from builder.site.sealing.passphrase import as_typed, why_refused

    try:
        lines = sys.stdin.read().splitlines()
    except UnicodeDecodeError as error:
        raise BuilderStop(
            "the passphrase on the standard input is no text in UTF-8", ["give it in UTF-8"]
        ) from error
    if len(lines) != 1:
        raise BuilderStop(
            f"{counted(len(lines), 'line') if lines else 'nothing'} on the standard input, where "
            "the passphrase belongs",
            ["give it as one line, or run this on a terminal, where you are asked for it"],
        )
    passphrase = as_typed(lines[0])
    if why := why_refused(passphrase):
        raise BuilderStop(why, ["give another one"])
    return passphrase


def _warn_of_plain_kit(out: Path, trip_id: str) -> None:
    """Warn where a build before left the same trip for all to read."""
    plain = [each for each in (out / trip_id, out / f"{trip_id}.zip") if each.exists()]
    if plain:
        names = " and ".join(map(as_told, plain))
        click.echo(
            f"Not sealed: {names}, and what the folder .built beside remembers of it. Delete them, "
            "or seal into another folder with --out, where others may look.",
            err=True,
        )
