"""What every command shares: the group, the content it reads, how mistakes are told."""

from __future__ import annotations

import contextlib
import datetime
import gc
import importlib
import os
import shlex
import shutil
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import IO, TYPE_CHECKING, TypeVar

import click

from builder.cli.telling import told
from builder.clock import VARIABLE, odd_epoch
from builder.problems import (
    Problem,
    ProblemsFound,
    as_told,
    counted,
    did_you_mean,
    errors,
    printable,
)

if TYPE_CHECKING:
    from builder.model.content import Content

NAME = "tripkit"
DEFAULT_CONTENT = "content"
DEFAULT_OUT = "kits"
DEFAULT_PUBLIC_OUT = "kits-public"

_RECORDS_BETWEEN_COLLECTIONS = 100_000

Function = TypeVar("Function", bound=Callable[..., object])


# As the work goes: first what is written and looked up, then what is made of it. Beside each stands
# the module that adds it to the group: one call needs no other.
_COMMANDS = {
    "new": "new",
    "join": "join",
    "find": "find",
    "fields": "fields",
    "check": "check",
    "build": "build",
    "preview": "preview",
    "runs": "runs",
    "ways": "ways",
    "log": "log",
    "dry": "ask",
    "stock": "ask",
    "labels": "labels",
    "fill": "fill",
    "review": "after",
    "explain": "ask",
}


class _LoadedWhenCalled(click.Group):
    """Lists its commands as the work goes, not by the alphabet, and loads one that is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name in _COMMANDS:
            importlib.import_module(f"builder.cli.{_COMMANDS[cmd_name]}")
        return super().get_command(ctx, cmd_name)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as error:
            from builder.speech import with_capital

            hint = with_capital(did_you_mean(args[0], _COMMANDS))
            raise click.UsageError(f"{error.message} {hint}", ctx) from None


@click.group(cls=_LoadedWhenCalled, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="trip-kit-builder", message="%(version)s")
def main() -> None:
    """Build an offline website for each trip from plain YAML files.

    You write foods, drying batches, recipes, gear and trips. The tool works out menus, water,
    fuel, packs and cautions, and how long everything cooks at your height.

    \b
    Begin like this:
      tripkit build                 build the demo kits, to look at
      tripkit new folder my-trips   make a folder of your own
      cd my-trips
      tripkit find lentil           ids of foods, gear, recipes
      tripkit fields food           every key that may be written
      tripkit check                 find every mistake
      tripkit build                 build your kits
    """
    # What is read and planned is mostly kept until a command ends: to look for circles that can be
    # thrown away takes a quarter of a check.
    gc.set_threshold(_RECORDS_BETWEEN_COLLECTIONS)
    if (odd := odd_epoch()) is not None:
        raise BuilderStop(
            f"{VARIABLE} is {printable(odd[:40])!r}, which is no date",
            ["take it away, or write it in seconds since 1970, such as 1944000000"],
        )
    finish_what_was_interrupted()


def finish_what_was_interrupted() -> None:
    """Finish or undo a swap of kits that was killed, whatever command comes next."""
    from builder.site.errors import SiteError
    from builder.site.folder.swap import recover

    for out in (Path(DEFAULT_OUT), Path(DEFAULT_PUBLIC_OUT)):
        # Only a build has to tell why that cannot be.
        with contextlib.suppress(OSError, SiteError):
            recover(out)


class BuilderStop(click.ClickException):
    """A stop that a person can do something about; exit code 1."""

    def __init__(self, message: str, hints: Sequence[str] = ()) -> None:
        """Keep what is wrong and what would help."""
        super().__init__(message)
        self.hints = hints

    def show(self, file: IO[str] | None = None) -> None:
        """Print what is wrong, then what would help."""
        click.echo(f"Stopped: {self.message}", err=True)
        for hint in self.hints:
            click.echo(f"  {hint}", err=True)


def json_option(function: Function) -> Function:
    """Add the option that prints data instead of text."""
    return click.option("--json", "as_json", is_flag=True, help="Print data for a script.")(
        function
    )


def called_as() -> str:
    """Give what calls this tool again, so that a command it tells can be copied and pasted.

    That is its name where the shell finds it by that, else the whole path it was called by.
    """
    called = os.path.abspath(sys.argv[0])
    # A module of Python, a test, or a name that whoever started it chose.
    if os.path.basename(called) != NAME or not os.path.exists(called):
        return NAME
    found = shutil.which(NAME)
    if found is not None and os.path.samefile(found, called):
        return NAME
    return shlex.quote(called)


def read_date(option: str, text: str, such_as: str) -> datetime.date:
    """Read the date that an option names."""
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise click.BadParameter(f"write it like {such_as}", param_hint=option) from None


def say_problems(problems: Sequence[Problem]) -> None:
    """Print problems to the error output, and how many there are."""
    for line in told(problems):
        click.echo(line, err=True)
    count = len(errors(problems))
    warnings = len(problems) - count
    if problems:
        click.echo(f"{counted(count, 'error')}, {counted(warnings, 'warning')}", err=True)


@contextlib.contextmanager
def or_nothing_written() -> Iterator[None]:
    """Stop where content that is to be written will not do, and say that nothing was."""
    from builder.starts import StartError

    try:
        yield
    except StartError as error:
        raise BuilderStop(error.says, [error.mend]) from error
    except ProblemsFound as found:
        say_problems(found.problems)
        click.echo("Nothing was written.", err=True)
        sys.exit(1)


def say_written(paths: Sequence[Path], next_command: str) -> None:
    """Say which files were written, and what to call next."""
    for path in paths:
        click.echo(f"Wrote {as_told(path)}")
    click.echo(f"Next: {next_command}")


def stop_on(problems: Sequence[Problem], strict: bool) -> None:
    """Print all problems; stop when there is an error, or a warning and `--strict`."""
    say_problems(problems)
    if errors(problems) or (strict and problems):
        sys.exit(1)


def to_fill(trip: str) -> str:
    """Say what would do for a trip with open meals."""
    return f"`{called_as()} fill {trip}` proposes what to cook, and writes it with --write"


def stop_on_open(trips: Sequence[str], content: Content) -> None:
    """Stop where a trip is asked for by its name and a meal of it is open."""
    for name in trips:
        trip = content.trips.get(name)
        if trip and any(day.open_meals for day in trip.days):
            raise BuilderStop(f"{name} has open meals: no kit is made of it", [to_fill(name)])


def refuse_unknown(what: str, name: str, known: Iterable[str]) -> None:
    """Stop where nothing of a kind has the name that was told, and tell what may be meant."""
    names = list(known)
    if name not in names:
        raise BuilderStop(f"there is no {what} {name!r}", [did_you_mean(name, names)])


def named_trips(trips: Sequence[str], known: Iterable[str], broken: bool) -> list[str]:
    """Give the trips that are named, all where none is; an unknown name is the user's to mend.

    `broken` tells that some may stand in the folder and could not be read.
    """
    names = sorted(known)
    for trip in () if broken else trips:
        refuse_unknown("trip", trip, names)
    return [name for name in names if not trips or name in trips]
