"""Adding to the drying log in one line: `tripkit log`."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.asking import ask_count, ask_food, ask_mass, ask_one_of, on_terminal
from builder.cli.base import json_option, main, or_nothing_written, refuse_unknown, say_problems
from builder.cli.completing import first_id_of, ids_of
from builder.cli.load import Load, done_of, pack_as_usual, record_of, told_of
from builder.cli.log_from import log_from
from builder.cli.places import Place, layers_of, own_content_option, own_place
from builder.cli.told import heated_option, refuse_no_text, tests_option
from builder.clock import today
from builder.model.batch import WAYS_TO_DRY, Batch

if TYPE_CHECKING:
    from builder.model.content import Content
    from builder.model.home import NewBatch
    from builder.reading.folder import Folder
    from builder.reading.text.spelling import Words

_EXAMPLE = 'for example: tripkit log apple-raw "3 kg" "480 g" --method dehydrator'


@main.command(short_help="Add a batch to the drying log.")
@click.argument(
    "told",
    nargs=-1,
    metavar="[FOOD FRESH DRIED]",
    shell_complete=first_id_of("foods", "recipes"),
)
@click.option(
    "--batch",
    metavar="ID",
    shell_complete=ids_of("batches"),
    help="A planned batch, or one in the dryer, is done: only DRIED is told. Without DRIED: what "
    "--started and --weighing tell of it.",
)
@click.option("--method", type=click.Choice(WAYS_TO_DRY), help="How it was dried.")
@click.option(
    "--dryer",
    metavar="ID",
    shell_complete=ids_of("dryers"),
    help="What it was dried in; gives the method.",
)
@click.option("--done", metavar="DATE", help="The day it was dry. Without it: today.")
@click.option(
    "--started",
    metavar="TIME",
    help="When it went in, such as 2031-03-13T18:00. Without DRIED: it is still in the dryer.",
)
@click.option(
    "--packs", type=click.IntRange(1, 10_000), metavar="N", help="How many packs were made."
)
@click.option(
    "--in",
    "packaging",
    metavar="PACKAGING",
    shell_complete=ids_of("packaging"),
    help="Packed in, such as foil-pouch.",
)
@click.option(
    "--absorber/--no-absorber", default=None, help="Each pack holds an oxygen absorber, or none."
)
@click.option("--shelf", metavar="PLACE", help="Where the packs lie, such as cellar.")
@click.option("--kept-at", metavar="TEMPERATURE", help='How warm they lie, such as "15 degC".')
@heated_option
@tests_option
@click.option(
    "--weighing",
    "weighings",
    metavar="TIME=MASS",
    multiple=True,
    help='A weighing during the run, such as "3 h=812 g"; give it once for each.',
)
@click.option("--ice", metavar="MASS", help="What a freeze dryer drew out, weighed.")
@click.option("--run", metavar="NAME", help="Batches that shared the dryer bear the same name.")
@click.option("--style", type=click.Choice(["jerky"]), help="Strips of meat: jerky.")
@click.option("--notes", metavar="TEXT", help="Anything else.")
@click.option(
    "--file",
    "file",
    metavar="FILE",
    help="The file of batches/ that it goes into, .yaml or .csv.",
)
@click.option(
    "--from",
    "typed",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="What was typed on the page that follows a run, and saved: weighings and ended runs go "
    "into the log. Give nothing else then.",
)
@own_content_option
@json_option
def log(
    told: tuple[str, ...],
    *,
    batch: str | None,
    file: str | None,
    typed: Path | None,
    content: Path | None,
    as_json: bool,
    **options: object,
) -> None:
    """Log what was dried: FOOD is a food's id, FRESH and DRIED its weights without the trays.

    The batch is judged at once: whether it is dry, what to do, until when it keeps and what one
    pack weighs. On a terminal you are asked for what is missing. What home.yaml says of new
    batches, and its dryer where there is one, need not be given.

    \b
    For example:
      tripkit log apple-raw "3 kg" "480 g" --method dehydrator --packs 4 --in zip-bag
      tripkit log beef-mince-cooked "1600 g" "564 g" --dryer home-freeze-dryer \\
          --packs 5 --in foil-pouch --absorber --tests constant
      tripkit log carrot-raw "1 kg" --dryer shelf-dryer --started 2031-03-13T18:00
      tripkit log --batch carrot-raw-2031-03-13 --weighing "3 h=600 g" --weighing "5 h=380 g"
      tripkit log --batch carrot-raw-2031-03-13 "126 g"
      tripkit log --from runs-2031-03-13.txt

    It goes into batches/ of the content folder: into the file of its year, else into the newest
    log that bears no year, else into a new file of the year. Comments and layout stay.
    """
    from builder.planning.stock import logged_data, logged_lines
    from builder.reading.folder import read_folder
    from builder.starts import complete_batch, log_batch

    refuse_no_text([*told, batch, file, *options.values()])
    load = Load(**options)  # type: ignore[arg-type]
    place = own_place(content)
    layers = layers_of(place)
    with or_nothing_written():
        if typed is not None:
            if told or batch or file or load != Load():
                raise click.UsageError("--from FILE tells all of it; leave the rest out")
            log_from(typed, layers, as_json)
            return
        if batch is not None:
            now = read_folder(layers).content
            changes = _completion(told, load, file, (now.home.new_batch, now.batches.get(batch)))
            logged = complete_batch(layers, batch, changes)
        else:
            folder = read_folder(layers)
            _take_words(told, load)
            _ask_for_missing(load, folder, place)
            record, day = record_of(load, folder.content)
            logged = log_batch(layers, record, day, file)
    say_problems(logged.warnings)
    if as_json:
        data = {"file": logged.file, **logged_data(logged.judged, today())}
        click.echo(json.dumps(data, indent=2, sort_keys=True))
        return
    click.echo(f"Logged {logged.judged.batch.id} in {logged.file}")
    for line in logged_lines(logged.judged, today()):
        click.echo(line)


def _take_words(told: Sequence[str], load: Load) -> None:
    if len(told) > 3:
        raise click.UsageError(
            f"{len(told)} words are told, and FOOD, FRESH and DRIED are three: put quotes round "
            f'a weight with a space, as "3 kg"; {_EXAMPLE}'
        )
    load.food, load.fresh, load.dried = (*told, None, None, None)[:3]


def _ask_for_missing(load: Load, folder: Folder, place: Place) -> None:
    """Ask for what is missing; where nobody can be asked, name all of it."""
    content = folder.content
    if load.method is None and load.dryer is None and len(content.home.dryers) == 1:
        (load.dryer,) = content.home.dryers
    missing = {
        "FOOD": load.food is None,
        "FRESH": load.fresh is None,
        "DRIED": load.dried is None and load.started is None,
        "--method or --dryer": load.method is None and load.dryer is None,
    }
    asking = on_terminal()
    if load.food is not None:  # before anything is asked of what nobody knows
        load.food = _known_food(load.food, content, asking)
    if any(missing.values()) and not asking:
        names = ", ".join(name for name, is_missing in missing.items() if is_missing)
        raise click.UsageError(f"this is missing: {names}; {_EXAMPLE}")
    if load.food is None:
        load.food = ask_food(content, None)
    if missing["FRESH"]:
        load.fresh = ask_mass("Weight before drying, without trays", "1850 g")
    if missing["DRIED"]:
        load.dried = ask_mass("Weight once dry, without trays", "480 g")
    if missing["--method or --dryer"]:
        dryers = dict.fromkeys([*content.home.dryers, *content.gear.dryers])
        how = ask_one_of("Dried in, or how", [*dryers, *WAYS_TO_DRY])
        load.dryer, load.method = (how, None) if how in content.gear.dryers else (None, how)
    if any(missing.values()) and load.packs is None and not load.in_dryer:
        load.packs = ask_count("How many packs")
        if load.packaging is None and content.home.new_batch.packaging is None:
            load.packaging = ask_one_of("Packed in", content.gear.packaging, may_skip=True)


def _known_food(told: str, content: Content, asking: bool) -> str:
    """Give the food or recipe that was told; where somebody can be asked, one that is known."""
    if asking:
        return ask_food(content, told)
    refuse_unknown("food", told, [*content.foods, *content.recipes])
    return told


def _completion(
    told: Sequence[str], load: Load, file: str | None, known: tuple[NewBatch, Batch | None]
) -> dict[str, Words]:
    """Give what is to be told of a batch that was planned.

    `known` is how the home packs, and the batch as the log has it.
    """
    if file is not None:
        raise click.UsageError("--file goes with a new batch; --batch finds its own")
    if len(told) > 1:
        raise click.UsageError(
            f"with --batch only DRIED is told, and here are {len(told)} words: put quotes round "
            'a weight with a space, as "480 g"'
        )
    load.dried = told[0] if told else None
    if load.dried is None and load.started is None and not load.weighings:
        if not on_terminal():
            raise click.UsageError("this is missing: DRIED, what the batch weighs now")
        load.dried = ask_mass("Weight once dry, without trays", "480 g")
    if load.dried is None and load.done is not None:
        raise click.UsageError("with --done tell DRIED too, what the batch weighs then")
    changes: dict[str, Words] = {}
    if load.dried is not None:
        changes["done"] = done_of(load).isoformat()
        pack_as_usual(load, *known)
    changes |= told_of(load, None)
    if load.method:
        changes["method"] = load.method
    if load.dryer:
        changes["dryer"] = load.dryer
    return changes
