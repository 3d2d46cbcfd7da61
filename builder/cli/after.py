"""After a trip: `tripkit review`."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import called_as, main, or_nothing_written, refuse_unknown, say_problems
from builder.cli.completing import ids_of
from builder.cli.places import content_told, layers_of, own_content_option, own_place
from builder.problems import ProblemsFound, counted, errors
from builder.record import replace

if TYPE_CHECKING:
    from builder.model.kit import Kit
    from builder.model.learned import Learned
    from builder.reading.folder import Folder

_UNITS = {"fuel": "mass_g", "wood": "mass_g", "water": "volume_ml", "food": "energy_kcal"}
_NAMES = {"fuel": "fuel", "wood": "wood", "water": "drunk besides food", "food": "eaten"}


@main.command(short_help="Write down what was on a trip, and see what was learned.")
@click.argument("trip", shell_complete=ids_of("trips"))
@click.option(
    "--from",
    "sheet",
    metavar="FILE",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Put what this file tells into the trip: the sheet that its kit gave.",
)
@own_content_option
def review(trip: str, sheet: Path | None, content: Path | None) -> None:
    """Write a sheet into a trip's file, to fill in how it went; then see what was learned.

    The sheet stands under `review:`, what was planned beside each blank. One in which something
    is filled in is never written over. The kit's page "After the trip" keeps what is typed at
    camp, and saves it as a file for --from; what the trip tells already stays.

    \b
    For example:
      tripkit review tarrow-tops
      tripkit review tarrow-tops --from tarrow-tops-review.yaml
    """
    from builder.reading.folder import read_folder
    from builder.starts.reviews import take_review, write_sheet
    from builder.units import show

    place = own_place(content)
    layers = layers_of(place)
    with or_nothing_written():
        kit = _planned(read_folder(layers), trip)
        if sheet is None:
            blank, taken = write_sheet(layers, kit, show), None
        else:
            blank, taken = None, take_review(layers, trip, sheet, lambda told: _planned(told, trip))
    if blank:
        click.echo(f"Wrote {blank}")
        click.echo(
            "Next: fill in what you know under `review:`, then "
            f"{called_as()} review {trip}{content_told(place)}"
        )
        return
    if taken:
        for key in taken.kept:
            click.echo(f"Kept `{key}` as the trip tells it; the file tells it otherwise.")
        click.echo(f"Wrote {taken.file}")
        kit = taken.kit
    for line in (*_was(kit), *_next(read_folder(layers), trip)):
        click.echo(line)


def _planned(folder: Folder, trip: str) -> Kit:
    """Plan one trip; stop where it cannot be planned."""
    from builder.cli.planner import planned_kits

    if trip not in folder.content.trips:
        wrong = [each for each in folder.problems if f"/{trip}" in each.place.file]
        if errors(wrong):
            raise ProblemsFound(wrong)
        refuse_unknown("trip", trip, folder.content.trips)
    kits, problems = planned_kits(folder, lambda known, broken: [trip])
    if not kits:
        raise ProblemsFound(problems)
    own = [each for each in problems if each.kind.startswith("review-")]
    if errors(own):
        raise ProblemsFound(own)
    say_problems(own)
    return kits[0]


def _was(kit: Kit) -> Iterator[str]:
    """Tell what was against what was planned."""
    from builder.units import show

    was = kit.review
    if was is None:
        yield f"Nothing is filled in yet: write what was under `review:` of {kit.id}."
        return
    for what, quantity in _UNITS.items():
        against = getattr(was, what)
        if against is not None:
            used, planned = show(against.used, quantity), show(against.planned, quantity)
            said = f"{_NAMES[what]}: {used}, planned {planned}: {against.ratio:.2f} times"
            yield said.replace("\u00a0", " ")


def _next(folder: Folder, trip: str) -> Iterator[str]:
    """Tell what later trips of the same kind count with."""
    from builder.planning.after import learned_before
    from builder.planning.lessons import lessons_of
    from builder.planning.stock import check, without_broken

    stock, _ = check(folder.content)
    whole = without_broken(folder.content, stock.judged)
    asked = replace(whole.trips[trip], id="", start=None, learned=True)
    learned: Learned = learned_before(asked, lessons_of(whole, stock))
    for what in _UNITS:
        factor = getattr(learned, what)
        if factor is not None:
            trips = counted(len(factor.trips), "trip")
            yield f"Later trips count with {factor.factor:.2f} times for {what}, from {trips}."
