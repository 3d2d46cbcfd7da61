"""The `tripkit` command: read, stop on problems, call one function, say what was done."""

from __future__ import annotations

import dataclasses
import datetime
import json
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any, NoReturn, TypeVar

import click

from builder.clock import build_epoch, today
from builder.model.batch import Weighing
from builder.problems import Problem, ProblemsFound, did_you_mean, errors
from builder.shipped import shipped_root

DEFAULT_OUT = "kits"
DEFAULT_PUBLIC_OUT = "kits-public"
DEFAULT_CONTENT = "content"

Function = TypeVar("Function", bound=Callable[..., Any])


class BuilderStop(click.ClickException):
    """A stop that a person can do something about; exit code 1."""

    def __init__(self, message: str, hints: Sequence[str] = ()) -> None:
        """Keep what is wrong and what would help."""
        super().__init__(message)
        self.hints = hints

    def show(self, file: Any = None) -> None:
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
    """Add the option that names the content folder."""
    return click.option(
        "--content",
        "content",
        metavar="DIR",
        type=click.Path(file_okay=False, path_type=Path),
        help="Your content folder. Without it: ./content if there is one, else the demo.",
    )(function)


def json_option(function: Function) -> Function:
    """Add the option that prints data instead of text."""
    return click.option("--json", "as_json", is_flag=True, help="Print data for a script.")(
        function
    )


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="trip-kit-builder", message="%(version)s")
def main() -> None:
    """Build an offline website for each trip from plain YAML files.

    You write foods, drying batches, recipes, gear and trips. The tool works out menus, water,
    fuel, packs and cautions, and how long everything cooks at your height.

    \b
    Begin like this:
      tripkit build               build the demo kits, to look at
      tripkit new folder my-trips make a folder of your own
      tripkit check               find every mistake in it
    """


# -- content --------------------------------------------------------------------------------------


def _place(content: Path | None) -> Place:
    shipped = shipped_root() / "content"
    if content is None:
        own = Path(DEFAULT_CONTENT)
        if not own.is_dir():
            return Place(shipped, _shown(shipped), True)
        content = own
    if not content.is_dir():
        raise BuilderStop(
            f"there is no folder {content}",
            ["name your content folder, or make one with `tripkit new folder NAME`"],
        )
    if content.resolve() == shipped.resolve():
        return Place(content, _shown(content), True)
    if not any((content / room).exists() for room in ("trips", "recipes", "foods", "batches")):
        inside = content / DEFAULT_CONTENT
        if inside.is_dir():
            return Place(inside, _shown(inside), False)
    return Place(content, _shown(content), False)


def _shown(path: Path) -> str:
    """Give a path as people can click it: from here where it lies below, else whole."""
    try:
        return path.resolve().relative_to(Path.cwd()).as_posix() or "."
    except ValueError:
        return path.as_posix()


def _layers(place: Place) -> list[Any]:
    from builder.reading.folder import ALWAYS_SHIPPED, ROOMS, Layer

    own = Layer(place.folder, place.shown, ROOMS)
    if place.is_demo:
        return [own]
    shipped = shipped_root() / "content"
    return [Layer(shipped, _shown(shipped), ALWAYS_SHIPPED), own]


def _read(place: Place) -> Any:
    from builder.reading.folder import read_folder

    return read_folder(_layers(place))


def _say_problems(problems: Sequence[Problem]) -> None:
    for problem in problems:
        click.echo(str(problem), err=True)
    count = len(errors(problems))
    warnings = len(problems) - count
    if problems:
        click.echo(f"{_counted(count, 'error')}, {_counted(warnings, 'warning')}", err=True)


def _counted(count: int, word: str, many: str = "") -> str:
    return f"{count} {word}" if count == 1 else f"{count} {many or word + 's'}"


def _stop_on(problems: Sequence[Problem], strict: bool) -> None:
    """Print all problems; stop when there is an error, or a warning and `--strict`."""
    _say_problems(problems)
    if errors(problems) or (strict and problems):
        sys.exit(1)


def _planned(folder: Any, names: Callable[[Iterable[str], bool], list[str]]) -> tuple[Any, Any]:
    """Check a folder and plan some of its trips; give the kits and every problem found."""
    from builder.planning.checks import check, without_broken
    from builder.planning.trip_kit import plan_trip
    from builder.planning.wording import worded

    stock, found = check(folder.content)
    problems = [*folder.problems, *found]
    whole = without_broken(folder.content, stock.judged)
    kits = []
    for name in names(folder.content.trips, bool(errors(problems))):
        if name not in whole.trips:
            continue
        try:
            content, said = worded(whole, stock, whole.trips[name].language)
            kits.append(plan_trip(whole.trips[name], content, said))
        except ProblemsFound as more:
            problems += more.problems
    return kits, _in_order(problems)


def _in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    from builder.problems import in_order

    return in_order(problems)


# -- build, check, preview ------------------------------------------------------------------------


@main.command()
@click.argument("trips", nargs=-1, metavar="[TRIP ...]")
@content_option
@click.option(
    "--out", metavar="DIR", type=click.Path(file_okay=False, path_type=Path),
    help="Where the kits go. Without it: ./kits (./kits-public for a public build).",
)  # fmt: skip
@click.option(
    "--jobs", type=click.IntRange(1, 64), help="Kits built at once. Without it: by cores."
)
@click.option(
    "--public", is_flag=True,
    help="Leave out ages, body masses, allergies by person, dates and camp names.",
)  # fmt: skip
@click.option("--strict", is_flag=True, help="Stop at warnings too.")
@click.option("--part", metavar="I/N", help="Build only every N-th trip, from the I-th on.")
@click.option(
    "--address", metavar="URL", default="",
    help="Where the folder of kits will lie on the web. Each kit then shows its own address "
    "there, also as a QR code.",
)  # fmt: skip
def build(
    trips: tuple[str, ...],
    content: Path | None,
    out: Path | None,
    jobs: int | None,
    public: bool,
    strict: bool,
    part: str | None,
    address: str,
) -> None:
    """Build kits: all trips, or only those named.

    Each kit is a folder and a zip of the same name. Open kits/index.html in a browser.
    """
    place = _place(content)
    folder_out = out or Path(DEFAULT_PUBLIC_OUT if public else DEFAULT_OUT)
    _build(place, folder_out, trips, jobs, public, strict, part, address)


def _build(
    place: Place,
    out: Path,
    trips: Sequence[str] = (),
    jobs: int | None = None,
    public: bool = False,
    strict: bool = False,
    part: str | None = None,
    address: str = "",
) -> None:
    from builder.site.build import files_below, fingerprint
    from builder.site.errors import SiteError
    from builder.site.index_page import write_index
    from builder.site.swap import recover

    if out.resolve() == place.folder.resolve() or place.folder.resolve() in out.resolve().parents:
        raise BuilderStop(
            f"{out} lies in the content folder", ["name another folder for the kits with --out"]
        )
    try:
        if out.is_dir():
            recover(out)
        root = shipped_root()
        made_from = fingerprint(
            {
                **files_below(place.folder, root / "content", root / "site_templates"),
                **files_below(root / "mkdocs.yml", Path(__file__).resolve().parent),
                "order": repr(
                    (sorted(trips), public, part, address, os.environ.get("SOURCE_DATE_EPOCH"))
                ).encode(),
            }
        )
        if _nothing_changed(out, made_from, strict):
            return
        names, problems = _build_kits(place, out, trips, jobs, public, strict, part, address)
        out.mkdir(parents=True, exist_ok=True)  # a part may hold no trip at all
        write_index(out)
        _remember(out, made_from, names, problems)
    except SiteError as error:
        _say_problems(error.problems)
        raise BuilderStop(error.message, error.hints) from error
    except OSError as error:
        raise BuilderStop(
            f"{error.filename or out} could not be written ({error.strerror})",
            ["see to the folder, its rights and the space left; whole kits stay as they are"],
        ) from error
    except ProblemsFound as found:
        _say_problems(found.problems)
        sys.exit(1)
    click.echo(f"Open {(out / 'index.html').as_posix()} in a browser.")


def _nothing_changed(out: Path, made_from: str, strict: bool) -> bool:
    """Say that all is up to date, where it is; warnings of the last build are said again."""
    from builder.site.build import STAMPS

    try:
        told = json.loads((out / STAMPS / "all.json").read_text("utf-8"))
        names, warnings = list(told["kits"]), list(told["warnings"])
        current = told["made_from"] == made_from
    except (OSError, ValueError, KeyError, TypeError):
        return False
    whole = all(
        (out / name / "index.html").is_file() and (out / f"{name}.zip").is_file() for name in names
    )
    if not current or not whole or not (out / "index.html").is_file():
        return False
    for warning in warnings:
        click.echo(warning, err=True)
    if strict and warnings:
        sys.exit(1)
    click.echo(f"Nothing changed: {_counted(len(names), 'kit')} up to date.")
    click.echo(f"Open {(out / 'index.html').as_posix()} in a browser.")
    return True


def _remember(out: Path, made_from: str, names: Sequence[str], problems: Sequence[Problem]) -> None:
    from builder.site.build import STAMPS

    told = {
        "made_from": made_from,
        "kits": list(names),
        "warnings": [str(problem) for problem in problems],
    }
    (out / STAMPS).mkdir(exist_ok=True)
    (out / STAMPS / "all.json").write_text(json.dumps(told), "utf-8")


def _build_kits(
    place: Place,
    out: Path,
    trips: Sequence[str],
    jobs: int | None,
    public: bool,
    strict: bool,
    part: str | None,
    address: str,
) -> tuple[list[str], tuple[Problem, ...]]:
    """Plan and build; give the names of the kits and the warnings said."""
    from builder.planning.public import public_kit
    from builder.reading.cuttings import content_of_kit
    from builder.site.build import Order

    folder = _read(place)
    kits, ordered = _planned(folder, lambda known, broken: _wanted(trips, known, part, broken))
    _stop_on(ordered, strict)
    if not folder.content.trips:
        raise BuilderStop(
            f"there is no trip in {place.shown}", ["write one with `tripkit new trip NAME`"]
        )
    root = shipped_root()
    orders = []
    for kit in kits:
        cautions = [each.id for each in kit.cautions]
        orders.append(
            Order(
                kit=public_kit(kit) if public else kit,
                content={} if public else content_of_kit(folder, kit.id, cautions),
                epoch=build_epoch(None if public else kit.start),
                out=out,
                templates=root / "site_templates",
                base_config=root / "mkdocs.yml",
                address=address,
            )
        )
    _build_orders(orders, jobs)
    return [kit.id for kit in kits], ordered


def _wanted(
    trips: Sequence[str], known: Iterable[str], part: str | None, broken: bool
) -> list[str]:
    """Give the trips to build, in order; an unknown name is the user's to mend."""
    names = sorted(known)
    for trip in trips:
        if trip not in names and not broken:
            raise BuilderStop(f"there is no trip {trip!r}", [did_you_mean(trip, names)])
    wanted = [name for name in names if not trips or name in trips]
    if part is None:
        return wanted
    try:
        number, count = (int(each) for each in part.split("/"))
    except ValueError:
        raise click.BadParameter("write it like 1/4", param_hint="--part") from None
    if not 1 <= number <= count:
        raise click.BadParameter("the first number runs from 1 to the second", param_hint="--part")
    return wanted[number - 1 :: count]


def _build_orders(orders: Sequence[Any], jobs: int | None) -> None:
    """Build all kits, in several processes where that is quicker."""
    from builder.site.build import Built, build_kit

    workers = min(jobs or os.cpu_count() or 1, len(orders))

    def said(built: Built) -> None:
        word = "Built" if built.changed else "Unchanged"
        click.echo(f"{word} {orders[0].out.as_posix()}/{built.trip_id} ({built.title})")
        _say_problems(built.doubts)

    if workers <= 1 or (jobs is None and len(orders) < 8):
        # Starting a process costs more than a few kits.
        for order in orders:
            said(build_kit(order))
        return
    with _executor(workers) as executor:
        for built in executor.map(build_kit, orders, chunksize=max(1, len(orders) // workers // 4)):
            said(built)


def _executor(workers: int) -> Executor:
    """Give what runs the workers; any `concurrent.futures` executor fits here."""
    return ProcessPoolExecutor(max_workers=workers)


@main.command()
@content_option
@click.option("--strict", is_flag=True, help="Warnings fail too.")
def check(content: Path | None, strict: bool) -> None:
    """Find every mistake in the folder; build nothing."""
    place = _place(content)
    folder = _read(place)
    _, problems = _planned(folder, lambda known, _: sorted(known))
    _stop_on(problems, strict)
    records = folder.content
    click.echo(
        f"No errors in {place.shown}: {_counted(len(records.trips), 'trip')}, "
        f"{_counted(len(records.recipes), 'recipe')}, "
        f"{_counted(len(records.batches), 'batch', 'batches')}, "
        f"{_counted(len(records.foods), 'food')}."
    )


@main.command()
@click.argument("trip")
@content_option
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="Without it: a free one.")
def preview(trip: str, content: Path | None, port: int) -> None:
    """Build one kit, show it on this machine, and rebuild it when a file is saved."""
    from builder.preview import serve

    place = _place(content)
    out = Path(DEFAULT_OUT)
    _build(place, out, [trip])

    def rebuild() -> None:
        try:
            _build(place, out, [trip])
        except SystemExit:
            click.echo("The kit stays as it was.", err=True)
        except click.ClickException as stop:
            stop.show()

    serve(out, trip, [place.folder], port, rebuild, click.echo)


# -- looking things up ----------------------------------------------------------------------------


@main.command()
@click.argument("food")
@click.argument("fresh")
@click.option("--now", metavar="MASS", help="What it weighs now, without the tray.")
@click.option(
    "--weighing",
    "weighings",
    metavar="TIME=MASS",
    multiple=True,
    help='A weighing during the run, such as "3 h=812 g"; two or more tell when it will be dry.',
)
@click.option(
    "--method",
    type=click.Choice(["dehydrator", "freeze-dryer", "oven", "sun"]),
    default="dehydrator",
    show_default=True,
    help="How it is dried.",
)
@content_option
@json_option
def dry(
    food: str,
    fresh: str,
    now: str | None,
    weighings: tuple[str, ...],
    method: str,
    content: Path | None,
    as_json: bool,
) -> None:
    """Is it dry yet? FOOD is a food's id, FRESH its weight before drying, such as "1850 g"."""
    from builder.planning.dryness import dryness

    folder = _read(_place(content))
    foods, recipes = folder.content.foods, folder.content.recipes
    if food not in foods and food not in recipes:
        raise BuilderStop(f"there is no food {food!r}", [did_you_mean(food, [*foods, *recipes])])
    fresh_g = _mass("FRESH", fresh)
    now_g = _mass("--now", now) if now is not None else None
    run = _weighings(weighings, fresh_g)
    try:
        found = dryness(food, fresh_g, now_g, method, folder.content, run)
    except ProblemsFound as stop:
        problem = stop.problems[0]
        raise BuilderStop(problem.says, [problem.mend]) from stop
    if as_json:
        click.echo(json.dumps(found.data(), indent=2, sort_keys=True))
        return
    for text in found.lines():
        click.echo(text)


def _weighings(told: Sequence[str], fresh_g: float) -> list[Weighing]:
    """Read weighings of a run; they must go down as time goes on."""
    found: list[Weighing] = []
    for text in told:
        time, equals, mass = text.partition("=")
        if not equals:
            raise click.BadParameter('write it like "3 h=812 g"', param_hint="--weighing")
        found.append(
            Weighing(
                _quantity("--weighing", time, "duration_min"),
                _quantity("--weighing", mass, "mass_g"),
            )
        )
    found.sort(key=lambda each: each.at_min)
    masses = [fresh_g, *(each.mass_g for each in found)]
    if any(later > earlier for earlier, later in pairwise(masses)):
        raise click.BadParameter(
            "a load gets lighter, not heavier; check the weights", param_hint="--weighing"
        )
    return found


def _mass(what: str, text: str) -> float:
    return _quantity(what, text, "mass_g")


def _quantity(what: str, text: str, quantity: str) -> float:
    from builder.units import QuantityError, read_quantity

    try:
        return read_quantity(text, quantity)
    except QuantityError as error:
        raise click.BadParameter(f"{error.says}; {error.mend}", param_hint=what) from error


@main.command()
@click.option("--at", metavar="DATE", help="Judge dates as of this day. Without it: today.")
@content_option
@json_option
def stock(at: str | None, content: Path | None, as_json: bool) -> None:
    """List the packs that are left, first-expired first."""
    from builder.planning.checks import check as check_content
    from builder.planning.stock import stock_lines
    from builder.units import show

    folder = _read(_place(content))
    whole, problems = check_content(folder.content)
    _say_problems(_in_order([*folder.problems, *problems]))
    lines = stock_lines(whole, _date(at) if at else today())
    if as_json:
        click.echo(json.dumps([line.data() for line in lines], indent=2))
    else:
        if not lines:
            click.echo("No packs are left.")
        for line in lines:
            date = line.best_before.isoformat() if line.best_before else "no date  "
            flag = f"  {line.remark}" if line.remark else ""
            click.echo(
                f"{date}  {line.packs_left:3d} × {show(line.pack_g, 'mass_g'):>8}  "
                f"{line.name} ({line.batch}){flag}"
            )
    if errors(problems) or errors(folder.problems):
        sys.exit(1)


def _date(text: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise click.BadParameter("write it like 2031-09-04", param_hint="--at") from None


@main.command()
@click.argument("word")
@content_option
@json_option
def find(word: str, content: Path | None, as_json: bool) -> None:
    """Tell the ids of foods, recipes, gear and batches that match a word."""
    from builder.reading.finding import find_ids

    found = find_ids(_read(_place(content)).content, word)
    if as_json:
        click.echo(json.dumps([each.data() for each in found], indent=2))
        return
    for each in found:
        click.echo(f"{each.kind:<10} {each.id:<30} {each.name}")
    if not found:
        raise BuilderStop(f"nothing matches {word!r}", ["try a shorter word, such as `bean`"])


@main.command()
@click.argument("trip")
@click.argument("figure", nargs=-1, required=True)
@content_option
@json_option
def explain(trip: str, figure: tuple[str, ...], content: Path | None, as_json: bool) -> None:
    """Tell how a FIGURE of a trip came about: its address in kit.json, or words of its title.

    \b
    For example:
      tripkit explain tarrow-tops fuel.carry_g
      tripkit explain tarrow-tops boils day 2
    """
    from builder.planning.explaining import MOST_CHOICES, explained, matching, unknown_said

    place = _place(content)
    folder = _read(place)
    kits, problems = _planned(folder, lambda known, broken: _wanted([trip], known, None, broken))
    _stop_on(problems, False)
    (kit,) = kits
    words = " ".join(figure)
    found = matching(kit, words)
    if not found:
        raise BuilderStop(f"no figure of {trip} matches {words!r}", [unknown_said(kit, words)])
    if len(found) > MOST_CHOICES:
        for each in found:
            click.echo(f"{each.figure:<45} {each.title}")
        raise BuilderStop(f"{len(found)} figures match {words!r}", ["name one of these"])
    if as_json:
        click.echo(json.dumps([dataclasses.asdict(each) for each in found], indent=2))
        return
    for each in found:
        for line in explained(kit, each):
            click.echo(line)


# -- starting something new -----------------------------------------------------------------------


@main.group()
def new() -> None:
    """Start a folder, trip, recipe, batch or food. Never writes over anything."""


def _written(paths: Sequence[Path], next_command: str) -> None:
    for path in paths:
        click.echo(f"Wrote {path.as_posix()}")
    click.echo(f"Next: {next_command}")


def _new_problem(problems: Sequence[Problem]) -> NoReturn:
    _say_problems(problems)
    sys.exit(1)


@new.command("folder")
@click.argument("name", type=click.Path(path_type=Path))
def new_folder(name: Path) -> None:
    """Make a folder with a small trip that builds, to change into yours."""
    from builder.starts import StartError, start_folder

    try:
        written = start_folder(name)
    except StartError as error:
        raise BuilderStop(error.says, [error.mend]) from error
    _written(written, f"cd {name.as_posix()} && tripkit build")


@new.command("trip")
@click.argument("name")
@click.option(
    "--from", "source", metavar="KIT.zip|TRIP", help="An old kit, or a trip of the folder."
)
@click.option("--start", metavar="DATE", help="The first day, such as 2032-06-12.")
@click.option("--party", metavar="NAME", multiple=True, help="Who goes; give it once for each.")
@content_option
def new_trip(
    name: str, source: str | None, start: str | None, party: tuple[str, ...], content: Path | None
) -> None:
    """Start a trip, from an old one where --from names it.

    What the old trip ate out of packs that are gone is left open, and the kit then tells what to
    buy or dry. Comments are kept.
    """
    from builder.starts import StartError, start_trip

    place = _own_place(content)
    try:
        written, notes = start_trip(
            place.folder,
            place.shown,
            _layers(place),
            name,
            source,
            _start_date(start),
            party,
        )
    except StartError as error:
        raise BuilderStop(error.says, [error.mend]) from error
    except ProblemsFound as found:
        _new_problem(found.problems)
    for note in notes:
        click.echo(note)
    option = "" if place.folder == Path(DEFAULT_CONTENT) else f" --content {place.shown}"
    _written(written, f"tripkit build {name}{option}")


def _start_date(text: str | None) -> datetime.date | None:
    if text is None:
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise click.BadParameter("write it like 2032-06-12", param_hint="--start") from None


def _own_place(content: Path | None) -> Place:
    """Give the folder to write into: the named one, or ./content, which may be made anew."""
    if content is None and not Path(DEFAULT_CONTENT).is_dir():
        return Place(Path(DEFAULT_CONTENT), DEFAULT_CONTENT, False)
    return _place(content)


def _new_record(kind: str, name: str, content: Path | None) -> None:
    from builder.starts import StartError, start_record

    place = _own_place(content)
    try:
        written = start_record(place.folder, place.shown, _layers(place), kind, name)
    except StartError as error:
        raise BuilderStop(error.says, [error.mend]) from error
    option = "" if place.folder == Path(DEFAULT_CONTENT) else f" --content {place.shown}"
    _written(written, f"edit it, then `tripkit check{option}`")


@new.command("recipe")
@click.argument("name")
@content_option
def new_recipe(name: str, content: Path | None) -> None:
    """Start a recipe."""
    _new_record("recipe", name, content)


@new.command("batch")
@click.argument("name")
@content_option
def new_batch(name: str, content: Path | None) -> None:
    """Start an entry of the drying log."""
    _new_record("batch", name, content)


@new.command("food")
@click.argument("name")
@content_option
def new_food(name: str, content: Path | None) -> None:
    """Start a food."""
    _new_record("food", name, content)
