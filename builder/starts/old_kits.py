"""A new trip out of a kit: its records, its pictures, and packs that are still there."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from builder.model.content import Content
from builder.model.trip import Trip
from builder.planning.stock import check, packs_of_trip
from builder.problems import ProblemsFound, errors
from builder.reading.anew.cuttings import (
    Key,
    cut_files,
    own_beside,
    pictures_told,
    records_of_trip,
    track_beside,
)
from builder.reading.anew.rewriting import Rewritten, rewritten, with_entry
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
from builder.reading.pictures.small_copies import copy_of
from builder.reading.record_text import RecordText
from builder.record import dataclass, replace
from builder.site.errors import SiteError
from builder.site.folder.archive import unpack
from builder.site.folder.kit_files import CONTENT_ZIP, DATA_NAME
from builder.site.folder.old_kit import proposed_batches
from builder.starts.asked import NewTrip, changes_asked, check_who
from builder.starts.fresh import StartError, write_content
from builder.starts.packs_anew import packs_anew
from builder.starts.reading_over import FilesMade, lines_above, read_over, stop_on_new
from builder.starts.strangers import Taken, as_list_item, list_item, taken_of


def trip_from_kit(
    folder: Path, layers: Sequence[Layer], source: Path, here: Folder, asked: NewTrip
) -> tuple[list[Path], list[str]]:
    """Write a new trip out of a kit, and what it needs of it; give the files and what to know."""
    source = _zip_of(source)
    path = f"trips/{asked.name}.yaml"
    with tempfile.TemporaryDirectory() as scratch:
        records, proposed = _unpacked(source, Path(scratch))
        # The demo holds what ships and more in one layer.
        shipped = [replace(each, rooms=ALWAYS_SHIPPED) for each in layers if each.vouched]
        of_kit = [*shipped, Layer(records, f"{source.name}/{CONTENT_ZIP}")]
        kit = _read_whole(of_kit)
        trip = _its_trip(kit, source)
        check_who(trip, asked)
        as_before = changes_asked(asked, here.content)
        said = rewritten(kit.texts["trip", trip.id], as_before)
        _put_in_place(kit, trip.id, records, path, said.text)
        eaten = packs_of_trip(trip, kit.content, check(kit.content)[0].judged)
        brought = _Brought(_read_whole(of_kit), here, asked, path, eaten)
        taken, files = brought.files_of(brought.kit.content.trips[asked.name], said)
        found = read_over(files, layers)
        warnings = stop_on_new(found.problems, here.problems)
        packs = packs_anew(asked.name, found.content)
        if packs.gone:
            changes = replace(as_before, gone=packs.gone, packs=packs.chosen)
            said = rewritten(kit.texts["trip", trip.id], changes)
            taken, files = brought.files_of(packs.trip, said, found.content)
            warnings = stop_on_new(read_over(files, layers).problems, here.problems)
    notes = [
        *packs.notes,
        *said.told(f"{layers[-1].shown}/{path}", lines_above(path, said.text.encode())),
        *taken.notes,
        *_not_here(proposed, here),
        *(str(each) for each in warnings),
    ]
    return write_content(folder, files), notes


def _zip_of(source: Path) -> Path:
    """Give the zip that is named, or that of the content in the folder of a kit."""
    inner = source / CONTENT_ZIP
    found = inner if inner.is_file() else source
    if not found.is_file():
        raise StartError(f"there is no file {found}", "name a kit's zip, such as kits/a-trip.zip")
    return found


def _its_trip(kit: Folder, source: Path) -> Trip:
    """Give the one trip of a kit."""
    if len(kit.content.trips) != 1:
        raise StartError(f"{source} does not hold one trip", "name the zip of one kit")
    (trip,) = kit.content.trips.values()
    return trip


def _read_whole(layers: Sequence[Layer]) -> Folder:
    """Read a kit's content; raise ProblemsFound where anything in it is wrong."""
    kit = read_folder(layers)
    if errors(kit.problems):
        raise ProblemsFound(kit.problems)
    return kit


def _put_in_place(kit: Folder, old: str, records: Path, path: str, text: str) -> None:
    """Put the new trip in the place of a kit's own, with its pictures and its track."""
    pictures = pictures_told(kit.content, ("trip", old))
    beside = {own_beside(path, each.file): copy_of(each) for each in pictures}
    beside |= track_beside(kit, old, path)
    for place, data in {path: text.encode("utf-8"), **beside}.items():
        own = records / place
        own.parent.mkdir(parents=True, exist_ok=True)
        own.write_bytes(data)
    for each in (records / "trips").rglob("*.yaml"):
        if each != records / path:
            each.unlink()


@dataclass(frozen=True, slots=True)
class _Brought:
    """A kit whose trip is the new one, and the folder that it is brought into."""

    kit: Folder
    here: Folder
    asked: NewTrip
    path: str  # of the trip
    eaten: Mapping[str, int]  # packs of each batch that the old trip ate

    def files_of(
        self, trip: Trip, said: Rewritten, content: Content | None = None
    ) -> tuple[Taken, FilesMade]:
        """Give what is taken of the kit for what a trip names, and all files that it makes.

        `content` is what the trip was read with, where that is not the kit's.
        """
        kit, name = self.kit, self.asked.name
        named = records_of_trip(trip, content or kit.content, ())
        taken = taken_of(named, kit, self.here, self.asked.theirs)
        taken.texts["trip", name] = replace(kit.texts["trip", name], text=said.text)
        placed = _placed(taken.texts, kit, name, self.eaten)
        texts = cut_files(taken.texts, placed)
        pictures = {
            own_beside(placed[key].path, each.file): copy_of(each)
            for key in placed
            for each in pictures_told(kit.content, key)
        }
        files = {each: text.encode("utf-8") for each, text in texts.items()}
        return taken, {**files, **pictures, **track_beside(kit, name, self.path)}


def _unpacked(source: Path, scratch: Path) -> tuple[Path, tuple[str, ...]]:
    """Unpack a kit's content, whether the kit or the content itself is named.

    Give with it the batches of which the kit, where it is whole, proposes packs.
    """
    try:
        names = unpack(source, scratch / "kit")
        inner = [each for each in names if each.split("/")[-1] == CONTENT_ZIP]
        if not inner:
            return scratch / "kit", _proposed(source, source)
        unpack(scratch / "kit" / inner[0], scratch / "content", f"{source}/{inner[0]}")
        proposed = _proposed(scratch / "kit" / inner[0], source)
    except SiteError as error:
        raise StartError(error.message, "; ".join(error.hints)) from error
    return scratch / "content", proposed


def _proposed(content_zip: Path, source: Path) -> tuple[str, ...]:
    """Give the batches that the kit around its content proposes; none where that stands alone."""
    data_file = content_zip.with_name(DATA_NAME)
    in_kit = content_zip.name == CONTENT_ZIP and data_file.is_file()
    return proposed_batches(data_file, source) if in_kit else ()


def _not_here(proposed: Iterable[str], here: Folder) -> list[str]:
    """Tell of what packs the kit proposes that do not lie here: no meal names them."""
    gone = [each for each in proposed if each not in here.content.batches]
    if not gone:
        return []
    listed = ", ".join(gone)
    return [
        f"Not carried over: the kit proposed free packs of {listed}, which are not listed here."
    ]


def _placed(
    texts: Mapping[Key, RecordText], kit: Folder, name: str, eaten: Mapping[str, int]
) -> dict[Key, RecordText]:
    """Give each record the file it goes to: of a list under the new trip's name, else its own."""
    placed: dict[Key, RecordText] = {}
    for key, record in texts.items():
        kind, record_id = key
        if kind == "batch":
            used = kit.content.batches[record_id].used + eaten.get(record_id, 0)
            record = list_item(record, with_entry(as_list_item(record), "used", str(used)))
        # Never by the path in the kit, which may be anything.
        room = record.path.split("/")[0]
        path = room if room.endswith(".yaml") else f"{room}/{name}.yaml"
        if kind == "recipe" and record.whole_file:
            path = f"{room}/{record_id}.yaml"
        elif record.whole_file and kind != "trip":
            path = f"{room}/{name}-{record_id}.yaml"
        placed[key] = replace(record, path=path)
    return placed
