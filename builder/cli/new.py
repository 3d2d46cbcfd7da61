"""Starting something new: `tripkit new`."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from pathlib import Path

import click

from builder.cli.base import called_as, main, or_nothing_written, read_date, say_written
from builder.cli.completing import trip_or_file
from builder.cli.places import content_told, layers_of, own_content_option, own_place
from builder.cli.told import refuse_no_text


@main.group()
def new() -> None:
    """Start a folder, trip, recipe, batch or food. Never writes over anything."""


@new.command("folder")
@click.argument("name", type=click.Path(path_type=Path))
def new_folder(name: Path) -> None:
    """Make a folder with a small trip, to change into yours.

    The trip builds as it is. NAME is the folder.
    """
    from builder.starts import start_folder

    with or_nothing_written():
        written = start_folder(name)
    say_written(written, f"cd {shlex.quote(name.as_posix())} && {called_as()} build")


@new.command("trip")
@click.argument("name")
@click.option(
    "--from",
    "source",
    metavar="KIT.zip|TRIP",
    shell_complete=trip_or_file,
    help="An old kit, or a trip of the folder.",
)
@click.option("--start", metavar="DATE", help="The first day, such as 2032-06-12.")
@click.option("--party", metavar="NAME", multiple=True, help="Who goes; give it once for each.")
@click.option(
    "--who",
    metavar="OLD=NEW",
    multiple=True,
    help="NEW takes the place of OLD wherever the old trip names OLD; give it once for each.",
)
@click.option(
    "--take-theirs",
    "theirs",
    metavar="ID",
    multiple=True,
    help="Take the kit's record where it differs from the shipped one of this id.",
)
@own_content_option
def new_trip(
    name: str,
    *,
    source: str | None,
    start: str | None,
    party: tuple[str, ...],
    who: tuple[str, ...],
    theirs: tuple[str, ...],
    content: Path | None,
) -> None:
    """Start a trip, from an old one where --from names it.

    A kit of somebody else changes nothing of what is shipped: records that differ are told, and
    taken only where --take-theirs names them. Allergens of both are joined.

    Packs that are left are taken again. For those that are gone others are chosen, first-expired
    free ones, and each place is told; what no pack covers is left open, and the kit then tells
    what to buy or dry.

    Comments and layout stay. Whom the old trip names and who does not come is taken out, and each
    place is told; --who lets somebody take their place. Bodies and what is avoided are not taken
    over: tell them in the file.

    \b
    For example:
      tripkit new trip next-year --from tarrow-tops --start 2032-06-12 --who Ash=Fern
    """
    from builder.starts import NewTrip, start_trip

    refuse_no_text([*party, *who])
    place = own_place(content)
    with or_nothing_written():
        first_day = read_date("--start", start, "2032-06-12") if start is not None else None
        asked = NewTrip(name, source, first_day, party, theirs, _who(who))
        written, notes = start_trip(place.folder, place.shown, layers_of(place), asked)
    for note in notes:
        click.echo(note)
    say_written(written, f"{called_as()} build {name}{content_told(place)}")


def _who(told: Sequence[str]) -> dict[str, str]:
    """Read who takes whose place."""
    found: dict[str, str] = {}
    for text in told:
        old, equals, new = (part.strip() for part in text.partition("="))
        if not (old and equals and new):
            raise click.BadParameter("write it like Ash=Fern", param_hint="--who")
        if old in found or new in found.values():
            raise click.BadParameter("somebody is named twice", param_hint="--who")
        found[old] = new
    return found


def _new_record(kind: str, name: str, content: Path | None) -> None:
    from builder.starts import start_record

    place = own_place(content)
    with or_nothing_written():
        written = start_record(place.folder, layers_of(place), kind, name)
    say_written(written, f"edit it, then `{called_as()} check{content_told(place)}`")


@new.command("recipe")
@click.argument("name")
@own_content_option
def new_recipe(name: str, content: Path | None) -> None:
    """Start a recipe.

    NAME is its id, such as lentil-stew.
    """
    _new_record("recipe", name, content)


@new.command("batch")
@click.argument("name")
@own_content_option
def new_batch(name: str, content: Path | None) -> None:
    """Start an entry of the drying log.

    NAME is its id, such as carrots-june.
    """
    _new_record("batch", name, content)


@new.command("food")
@click.argument("name")
@own_content_option
def new_food(name: str, content: Path | None) -> None:
    """Start a food that the shipped list lacks.

    NAME is its id, such as sea-buckthorn-raw.
    """
    _new_record("food", name, content)
