"""What every command shares: the group, the content it reads, how mistakes are told."""

from __future__ import annotations

import contextlib
import datetime
import gc
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
from builder.record import dataclass, replace
from builder.shipped import shipped_root

if TYPE_CHECKING:
    from builder.model.content import Content
    from builder.planning.finding import Known
    from builder.reading.folder import Folder, Layer

NAME = "tripkit"
DEFAULT_CONTENT = "content"
DEFAULT_OUT = "kits"
DEFAULT_PUBLIC_OUT = "kits-public"
_NOT_SEARCHED = ("cautions", "sources.yaml")  # rooms

_RECORDS_BETWEEN_COLLECTIONS = 100_000

Function = TypeVar("Function", bound=Callable[..., object])


# As the work goes: first what is written and looked up, then what is made of it.
_IN_ORDER = (
    "new", "join", "find", "fields", "check", "build", "preview", "runs", "ways", "log", "dry",
    "stock", "labels", "fill", "review", "explain",
)  # fmt: skip


class _InOrder(click.Group):
    """Lists its commands as the work goes, not by the alphabet."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        known = [name for name in _IN_ORDER if name in self.commands]
        return known + sorted(self.commands.keys() - set(known))


@click.group(cls=_InOrder, context_settings={"help_option_names": ["-h", "--help"]})
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


@dataclass(frozen=True, slots=True)
class Place:
    """Where content is read from."""

    folder: Path
    shown: str
    is_demo: bool


def content_option(function: Function) -> Function:
    """Add the option that names the content folder to read."""
    return _content_option("./content if there is one, else the demo")(function)


def own_content_option(function: Function) -> Function:
    """Add the option that names the content folder to write into."""
    return _content_option("./content, made where there is none")(function)


def _content_option(without_it: str) -> Callable[[Function], Function]:
    return click.option(
        "--content",
        "content",
        metavar="DIR",
        type=click.Path(file_okay=False, path_type=Path),
        help=f"Your content folder. Without it: {without_it}.",
    )


def json_option(function: Function) -> Function:
    """Add the option that prints data instead of text."""
    return click.option("--json", "as_json", is_flag=True, help="Print data for a script.")(
        function
    )


def place_of(content: Path | None) -> Place:
    """Find the content: the named folder, ./content, or the demo."""
    shipped = shipped_root() / "content"
    if content is None:
        own = Path(DEFAULT_CONTENT)
        if not os.path.isdir(own):
            return Place(shipped, shown_path(shipped), True)
        content = own
    if not os.path.isdir(content):
        _stop_on_closed_door(content)
        raise BuilderStop(
            f"there is no folder {content}",
            ["name your content folder, or make one with `tripkit new folder NAME`"],
        )
    if content.resolve() == shipped.resolve():
        return Place(content, shown_path(content), True)
    # Whatever of it cannot be read is told while reading, so nothing here may stumble over it.
    if not any(os.path.exists(content / room) for room in ("trips", "recipes", "foods", "batches")):
        inside = content / DEFAULT_CONTENT
        if os.path.isdir(inside):
            return Place(inside, shown_path(inside), False)
    return Place(content, shown_path(content), False)


def place_asked(content: Path | None) -> Place:
    """Find the content, and tell people, if no script, where it is the demo that nobody named."""
    place = place_of(content)
    context = click.get_current_context(silent=True)
    for_script = context is not None and context.params.get("as_json")
    if content is None and place.is_demo and not for_script:
        click.echo(
            f"Here is no folder {DEFAULT_CONTENT}, so this is the demo. For your own: cd into the "
            f"folder that holds {DEFAULT_CONTENT}, or name it with --content.",
            err=True,
        )
    return place


def own_place(content: Path | None) -> Place:
    """Give the folder to write into: the named one, or ./content, which may be made anew."""
    if content is None and not Path(DEFAULT_CONTENT).is_dir():
        return Place(Path(DEFAULT_CONTENT), DEFAULT_CONTENT, False)
    return place_asked(content)


def called_as() -> str:
    """Give what calls this tool again, so that a command it tells can be copied and pasted.

    That is its name where the shell finds it by that, else the whole path it was called by.
    """
    called = os.path.abspath(sys.argv[0])
    if os.path.basename(called) != NAME:  # a module of Python, or a test
        return NAME
    found = shutil.which(NAME)
    if found is not None and os.path.samefile(found, called):
        return NAME
    return shlex.quote(called)


def content_told(place: Place) -> str:
    """Give what the next command needs so as to read the same folder."""
    return "" if place.folder == Path(DEFAULT_CONTENT) else f" --content {place.shown}"


def _stop_on_closed_door(path: Path) -> None:
    """Tell a folder that may be there, in one that may not be entered, from one that is not."""
    try:
        path.stat()
    except PermissionError as error:
        raise BuilderStop(
            f"{path} cannot be read ({error.strerror})", ["see to the rights of the folders above"]
        ) from error
    except (OSError, ValueError):
        return


def shown_path(path: Path) -> str:
    """Give a path as people can click it: from here where it lies below, else whole."""
    try:
        return printable(path.resolve().relative_to(Path.cwd()).as_posix()) or "."
    except ValueError:
        return as_told(path)


def layers_of(place: Place) -> list[Layer]:
    """Give what is read, the shipped records first."""
    from builder.reading.files import ROOMS
    from builder.reading.folder import ALWAYS_SHIPPED, Layer

    own = Layer(place.folder, place.shown, ROOMS, vouched=place.is_demo)
    if place.is_demo:
        return [own]
    shipped = shipped_root() / "content"
    return [Layer(shipped, shown_path(shipped), ALWAYS_SHIPPED, vouched=True), own]


def known_in(content: Content) -> list[Known]:
    """Give all that can be found in a folder, with what is kept of the shipped foods."""
    from builder.planning.finding import FILE, known_as

    kept = shipped_root() / "site_templates" / FILE
    return known_as(content, kept.read_text("utf-8"))


def read_searched(place: Place) -> Content:
    """Read of a place what has a name to be found by; what is wrong there is told elsewhere."""
    from builder.reading.folder import read_folder

    layers = layers_of(place)
    searched = [tuple(room for room in each.rooms if room not in _NOT_SEARCHED) for each in layers]
    parts = zip(layers, searched, strict=True)
    return read_folder([replace(layer, rooms=rooms) for layer, rooms in parts]).content


def read_place(place: Place) -> Folder:
    """Read the content of a place, with every problem in it."""
    return read_settled(layers_of(place))


def read_settled(layers: Sequence[Layer]) -> Folder:
    """Read content, with every problem in it.

    Whose portions are parted, and the packs that trips leave open, are settled.
    """
    from builder.planning.menu import with_parts
    from builder.planning.stock import with_chosen_packs
    from builder.reading.folder import read_folder

    folder = read_folder(layers)
    return replace(folder, content=with_chosen_packs(with_parts(folder.content)))


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


def named_trips(trips: Sequence[str], known: Iterable[str], broken: bool) -> list[str]:
    """Give the trips that are named, all where none is; an unknown name is the user's to mend.

    `broken` tells that some may stand in the folder and could not be read.
    """
    names = sorted(known)
    for trip in trips:
        if trip not in names and not broken:
            raise BuilderStop(f"there is no trip {trip!r}", [did_you_mean(trip, names)])
    return [name for name in names if not trips or name in trips]
