"""Filling open meals: `tripkit fill`."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import (
    BuilderStop,
    json_option,
    main,
    or_nothing_written,
    refuse_unknown,
    say_problems,
)
from builder.cli.completing import ids_of
from builder.cli.places import content_option, layers_of, own_place, place_asked, read_place
from builder.problems import ProblemsFound, counted, errors, in_order

if TYPE_CHECKING:
    from builder.model.trip import Trip
    from builder.planning.filling import Filling, Proposal


@main.command(short_help="Propose what fills a trip's open meals, out of free packs.")
@click.argument("trip", shell_complete=ids_of("trips"))
@click.option(
    "--seed",
    type=click.IntRange(min=0),
    default=0,
    show_default=True,
    metavar="N",
    help="Decides where two are equally good; the same one proposes the same.",
)
@click.option(
    "--write",
    type=click.IntRange(1, 3),
    metavar="N",
    help="Write proposal N into the trip, and the packs that it leaves open (from: auto).",
)
@content_option
@json_option
def fill(trip: str, seed: int, write: int | None, content: Path | None, as_json: bool) -> None:
    """Propose what fills a trip's open meals (dinner: open), out of free packs and recipes.

    Nobody gets what they must not eat, each day gives enough food, and no dinner comes twice in
    three days. Packs that expire first go first. Without --write nothing is changed.

    \b
    For example:
      tripkit fill tarrow-tops
      tripkit fill tarrow-tops --seed 7 --write 2
    """
    from builder.planning.filling import fill_trip
    from builder.planning.stock import check, without_broken
    from builder.reading.text.uncollected import uncollected

    with uncollected():
        folder = read_place(own_place(content) if write else place_asked(content))
        stock, problems = check(folder.content)
        told = in_order([*folder.problems, *problems])
        if errors(told):
            say_problems(told)
            sys.exit(1)
        whole = without_broken(folder.content, stock.judged)
        refuse_unknown("trip", trip, whole.trips)
        asked = whole.trips[trip]
        try:
            found = fill_trip(asked, whole, stock, seed)
        except ProblemsFound as more:
            say_problems(more.problems)
            sys.exit(1)
    if as_json:
        data = {**found.data(), "seed": seed, "packs": list(_chosen_data(asked))}
        click.echo(json.dumps(data, ensure_ascii=False, indent=2))
    else:
        for line in _lines(asked, found, write is not None):
            click.echo(line)
    if write is not None:
        _write(asked, found, write, content, as_json)
    elif found.impossible:
        sys.exit(1)


# -- told -----------------------------------------------------------------------------------------


def _lines(trip: Trip, found: Filling, writes: bool) -> Iterator[str]:
    for number, proposal in enumerate(found.proposals, start=1):
        yield f"Proposal {number}"
        yield from _proposal_lines(proposal)
        yield ""
    if found.impossible:
        yield f"Cannot be filled: {found.impossible}"
    if found.appetite is not None:
        yield (
            f"Days aim at {found.appetite.factor:.0%} of what they usually would, as the appetite "
            f"of {counted(len(found.appetite.trips), 'trip')} taught; `learned: false` in the trip "
            "turns that off."
        )
    chosen = [
        f"    day {day} {meal}: {what} from {batch}" for day, meal, what, batch in _chosen(trip)
    ]
    if chosen:
        yield "Packs chosen where the trip says from: auto (what expires first and will do)"
        yield from chosen
    if not found.proposals and not found.impossible:
        yield f"No meal of {trip.id} is open." + (
            "" if chosen else " Write `dinner: open` for one."
        )
    if 0 < len(found.proposals) < 3:
        yield (
            f"Only {counted(len(found.proposals), 'proposal')}: no other differs in a third of "
            "the open meals."
        )
    if found.proposals and not found.is_sure:
        yield "The time for the search was up: there may be better ones."
    if (found.proposals or chosen) and not writes:
        yield "To write one into the trip: --write N. Read it before you do."


def _proposal_lines(proposal: Proposal) -> Iterator[str]:
    for dish in proposal.dishes:
        packs = ", ".join(f"{name} from {batch}" for name, batch in dish.batches)
        yield f"    day {dish.day} {dish.meal}: {dish.name} ({dish.recipe})"
        if packs:
            yield f"        {packs}"
        yield f"        {dish.because}"
    shares = ", ".join(f"{share:.0%}" for share in proposal.energy_shares)
    yield f"    energy of the need, day by day: {shares}"
    for danger in proposal.dangers:
        yield f"    DANGER  {danger}"


def _chosen(trip: Trip) -> Iterator[tuple[int, str, str, str]]:
    """Give the packs that the tool chose, meal by meal."""
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                for ingredient in item.chosen:
                    batch = item.batch_of(ingredient)
                    if batch is not None:
                        yield day.number, meal.meal, ingredient or item.food or "", batch


def _chosen_data(trip: Trip) -> Iterator[dict[str, object]]:
    for day, meal, what, batch in _chosen(trip):
        yield {"day": day, "meal": meal, "ingredient": what, "batch": batch}


# -- written --------------------------------------------------------------------------------------


def _write(trip: Trip, found: Filling, number: int, content: Path | None, as_json: bool) -> None:
    """Write a proposal into the trip, and the packs that were chosen."""
    from builder.starts import write_filled

    if found.impossible:
        click.echo("Nothing was written.", err=True)
        sys.exit(1)
    if found.proposals and number > len(found.proposals):
        raise BuilderStop(
            f"there is no proposal {number}", [f"write one of 1 to {len(found.proposals)}"]
        )
    dishes = found.proposals[number - 1].dishes if found.proposals else ()
    if not dishes and not any(_chosen(trip)):
        raise BuilderStop("there is nothing to write", ["leave a meal open: `dinner: open`"])
    place = own_place(content)
    if place.is_demo:
        raise BuilderStop(
            "the demo is not written into", ["make a folder of your own: `tripkit new folder NAME`"]
        )
    with or_nothing_written():
        written = write_filled(layers_of(place), trip, dishes)
    click.echo(f"Wrote {written.file}", err=as_json)
    if written.is_spelt_out:
        click.echo(
            "What `*name` and `<<` stood for is written out there: a change was not meant for all "
            "of it.",
            err=as_json,
        )
