"""Printing labels: `tripkit labels`."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from builder.cli.base import BuilderStop, main, refuse_unknown, say_problems
from builder.cli.completing import ids_of
from builder.cli.places import content_option, place_asked, read_place
from builder.clock import today
from builder.problems import as_told, counted, did_you_mean, errors, in_order

MARK = '<meta name="generator" content="trip kits">'
MARKED_BYTES = 4096


@main.command(short_help="Write labels to print, one for each pack.")
@click.argument("batches", nargs=-1, metavar="[BATCH ...]", shell_complete=ids_of("batches"))
@click.option(
    "--sheet",
    metavar="ID",
    shell_complete=ids_of("sheets"),
    help="A sheet of labels of the gear, or plain paper: plain.",
)
@click.option(
    "--first",
    type=click.IntRange(1),
    metavar="N",
    default=1,
    show_default=True,
    help="The first unused label of a sheet that is partly used.",
)
@click.option(
    "--out",
    metavar="FILE",
    type=click.Path(dir_okay=False, path_type=Path),
    default=Path("labels.html"),
    show_default=True,
    help="Where the labels go.",
)
@content_option
def labels(
    batches: tuple[str, ...], *, sheet: str | None, first: int, out: Path, content: Path | None
) -> None:
    """Write labels to print, one for each pack that is left: of all batches, or of those named.

    They are true to size: open the file in a browser and print it at 100 %. A batch that failed
    gets no label; what to do with it is said instead.
    """
    from builder.pages.home.label_sheet import labels_file
    from builder.pages.home.labels import sheet_named
    from builder.pages.home.showing import figures_of_home
    from builder.planning.home import day_of, plan_home
    from builder.planning.stock import check as check_content
    from builder.shipped import shipped_root
    from builder.site.labels_page import labels_page

    folder = read_place(place_asked(content))
    stock, found = check_content(folder.content)
    problems = in_order([*folder.problems, *found])
    say_problems(problems)
    if errors(problems):
        sys.exit(1)
    for name in batches:
        refuse_unknown("batch", name, folder.content.batches)
    plan = plan_home(folder.content, stock, [], day_of(folder.content, today()), with_runs=False)
    wanted = [label for label in plan.labels if not batches or label.batch in batches]
    own = sheet_named(plan, sheet)
    if own is None:
        names = [*plan.sheets, "plain"]
        raise BuilderStop(
            f"there is no sheet of labels {sheet!r}", [did_you_mean(sheet or "", names)]
        )
    places = own.columns * own.rows
    if first > places:
        raise click.BadParameter(f"a sheet has {places} labels", param_hint="--first")
    html = labels_file(
        wanted, own, figures_of_home(plan.home), shipped_root() / "site_templates", first
    )
    _write(out, labels_page(html))
    good = [label for label in wanted if not label.failed]
    for label in wanted:
        if label.failed:
            why = f" It is {label.why}." if label.why else ""
            click.echo(f"No label for {label.name} ({label.batch}): {label.act}{why}")
    for name in batches:
        if name not in {label.batch for label in plan.labels}:
            click.echo(f"No label for {name}: it is not dried yet, or no pack of it is left.")
    click.echo(
        f"{counted(sum(label.packs for label in good), 'label')} in {as_told(out)}. "
        "Print it from a browser at 100 %."
    )


def _write(out: Path, html: str) -> None:
    """Write the file, over an older one of ours but over nothing else."""
    try:
        if out.exists():
            with out.open("rb") as file:
                if MARK.encode() not in file.read(MARKED_BYTES):
                    raise BuilderStop(
                        f"{as_told(out)} is there already and holds something else",
                        ["move it away, or name another file with --out"],
                    )
        out.write_text(html, encoding="utf-8", newline="\n")
    except OSError as error:
        raise BuilderStop(
            f"{as_told(out)} cannot be written ({error.strerror})",
            ["name another file with --out"],
        ) from error
