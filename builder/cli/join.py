"""One trip of several: `tripkit join`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.base import called_as, main, or_nothing_written, read_date, say_written
from builder.cli.completing import ids_of
from builder.cli.places import content_told, layers_of, own_content_option, own_place
from builder.cli.told import refuse_no_text


@main.command(short_help="Make one trip of several, such as a week of weekends.")
@click.argument("name")
@click.argument("trips", nargs=-1, required=True, shell_complete=ids_of("trips"))
@click.option("--start", metavar="DATE", help="The first day; left out, that of the first trip.")
@own_content_option
def join(name: str, trips: tuple[str, ...], start: str | None, content: Path | None) -> None:
    """Make one trip called NAME of several TRIPs: their days in a row, in the order of their dates.

    All who come on one of them come on all days, and what any of them takes is taken once. Days
    keep their comments. Where two trips say different things the first one's stands, and both
    places are told; what somebody avoids on one trip they avoid on all, and a fire ban holds.

    The old trips stay, and keep their packs: for the new one packs are chosen anew where theirs
    are gone. A day that ended at home before the last gets a camp, and each such place is told.

    \b
    For example:
      tripkit join long-week first-weekend second-weekend --start 2032-06-12
    """
    from builder.starts import Join, join_trips

    refuse_no_text([name, *trips])
    place = own_place(content)
    with or_nothing_written():
        first_day = read_date("--start", start, "2032-06-12") if start is not None else None
        asked = Join(name, trips, first_day)
        written, notes = join_trips(place.folder, place.shown, layers_of(place), asked)
    for note in notes:
        click.echo(note)
    say_written(written, f"{called_as()} build {name}{content_told(place)}")
