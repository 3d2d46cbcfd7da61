"""Looking at a kit while it is written: `tripkit preview`."""

from __future__ import annotations

import contextlib
import gc
import io
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TextIO

import click

from builder.cli.base import DEFAULT_OUT, main
from builder.cli.build import build_folder
from builder.cli.completing import ids_of
from builder.cli.many.wanted import Wanted
from builder.cli.places import content_option, place_asked


@main.command(short_help="Show a kit, and rebuild it when you save.")
@click.argument("trip", shell_complete=ids_of("trips"))
@content_option
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    metavar="N",
    help="The port on this machine. Without it: 8710, or a free one where that is taken.",
)
def preview(trip: str, content: Path | None, port: int | None) -> None:
    """Build one kit, show it on this machine, and rebuild it when a file is saved.

    The page loads itself anew and keeps what is ticked. What is wrong with what you saved is said
    in the page too, and the kit stays as it was until that is mended.
    """
    from builder.preview import Rebuilt, serve
    from builder.reading.text.uncollected import uncollected
    from builder.reading.text.yaml_door import remembering

    place = place_asked(content)
    out = Path(DEFAULT_OUT)
    with remembering() as memory:
        # Whatever is there: so all that a build takes is at hand when the first file is saved.
        build_folder(place, Wanted(out, [trip], force=True))
        _let_go()

        def rebuild() -> Rebuilt:
            memory.next_round()
            with uncollected(), _heard() as said:
                try:
                    build_folder(place, Wanted(out, [trip]))
                except SystemExit:
                    click.echo("The kit stays as it was.", err=True)
                except click.ClickException as stop:
                    stop.show()
                else:
                    return Rebuilt(stopped=False, said=said.lines)
            return Rebuilt(stopped=True, said=said.lines)

        serve(out, trip, [place.folder], port, rebuild, tidy=_let_go, say=click.echo)


def _let_go() -> None:
    """Collect the garbage of a build, and look no more at what is left of it."""
    gc.collect()
    gc.freeze()


class _Heard(io.TextIOBase):
    """Passes on what is said, and keeps it."""

    def __init__(self, to: TextIO) -> None:
        """Pass on to a stream."""
        self._to = to
        self._kept: list[str] = []

    def write(self, text: str) -> int:
        """Pass on and keep; what the stream does not take, such as bytes, is not kept either."""
        count = self._to.write(text)
        self._kept.append(text)
        return count

    def flush(self) -> None:
        """Let the stream have it now."""
        self._to.flush()

    @property
    def lines(self) -> Sequence[str]:
        """Give what was said."""
        return "".join(self._kept).splitlines()


@contextlib.contextmanager
def _heard() -> Iterator[_Heard]:
    """Hear what is said to the error output, which is said all the same."""
    heard = _Heard(sys.stderr)
    with contextlib.redirect_stderr(heard):
        yield heard
