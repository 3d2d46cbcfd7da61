"""Which folder a command reads, or writes into, and what stands in it."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import DEFAULT_CONTENT, BuilderStop, Function
from builder.problems import as_told, printable
from builder.record import dataclass, replace
from builder.shipped import shipped_root

if TYPE_CHECKING:
    from builder.model.content import Content
    from builder.planning.finding import Known
    from builder.reading.folder import Folder, Layer

_NOT_SEARCHED = ("cautions", "sources.yaml")  # rooms


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
