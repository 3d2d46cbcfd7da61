"""What is to be written into a folder, read as if it lay there before anything is written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path, PurePosixPath

from builder.model.content import Content
from builder.model.trip import Trip
from builder.planning.stock import check
from builder.problems import Problem, ProblemsFound, did_you_mean, errors, in_order
from builder.reading.anew.cuttings import own_beside, pictures_told, track_beside
from builder.reading.anew.rewriting import Changes, Rewritten, rewritten
from builder.reading.beside import Beside
from builder.reading.folder import Folder, Layer, read_folder
from builder.reading.record_text import RecordText
from builder.record import dataclass, field, replace
from builder.starts.editors import with_schema_line
from builder.starts.fresh import StartError, checked_id
from builder.starts.packs_anew import packs_anew
from builder.starts.swapping import refuse_links

# By their path in a content folder.
FilesMade = Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class Written:
    """A text that a new trip is made of, and the file it goes into."""

    path: str  # in the content folder
    record: RecordText
    raw: bytes  # its text as its own file holds it
    along: FilesMade = field(default_factory=dict)  # what lies beside it


def read_for_new(name: str, folder: Path, layers: Sequence[Layer]) -> Folder:
    """Read all for a trip that is to be new; stop where its name is none, or is taken."""
    checked_id(name)
    here = read_folder(layers)
    if ("trip", name) in here.texts or (folder / "trips" / f"{name}.yaml").exists():
        raise StartError(f"there is a trip {name!r} already", "choose another name")
    return here


def trip_there(name: str, here: Folder, shown: str, or_else: str = "") -> tuple[RecordText, Trip]:
    """Give a trip that another is made of; stop where it is broken or not there."""
    key = ("trip", name)
    if key in here.texts and name in here.content.trips:
        return here.texts[key], here.content.trips[name]
    broken = [each for each in here.problems if f"/{name}" in each.place.file]
    if errors(broken):
        raise ProblemsFound(broken)
    mend = did_you_mean(name, here.content.trips) + or_else
    raise StartError(f"there is no trip {name!r} in {shown}", mend)


def known_at_home(content: Content) -> frozenset[str]:
    """Name those whose bodies stand at home, so that a party may name them alone."""
    return frozenset(person.name for person in content.home.people)


def for_today(
    text: Written, changes: Changes, here: Folder, layers: Sequence[Layer]
) -> tuple[FilesMade, list[str]]:
    """Give the file of a new trip with packs of today, and what to know of it."""
    path = text.path

    def over(changes: Changes) -> tuple[Rewritten, FilesMade, Folder]:
        new = rewritten(text.record, changes)
        files = {path: with_schema_line(path, new.as_bytes(text.raw)), **text.along}
        return new, files, read_over(files, layers)

    new, files, found = over(changes)
    stop_on_new(found.problems, here.problems)
    packs = packs_anew(PurePosixPath(path).stem, found.content)
    if packs.gone:
        new, files, found = over(replace(changes, gone=packs.gone, packs=packs.chosen))
    _, before = check(here.content)
    _, after = check(found.content)
    warnings = stop_on_new([*found.problems, *after], [*here.problems, *before])
    above = lines_above(path, new.as_bytes(text.raw))
    notes = [*packs.notes, *new.told(f"{layers[-1].shown}/{path}", above)]
    return files, [*notes, *(str(each) for each in warnings)]


def pictures_brought(folder: Path, path: str, here: Folder, trips: Iterable[str]) -> FilesMade:
    """Give the pictures of some trips that do not lie beside a new one, to be its own."""
    beside = Beside(folder, {}, path)
    return {
        own_beside(path, each.file): each.data()
        for trip in trips
        for each in pictures_told(here.content, ("trip", trip))
        if not beside.start_of(each.file, most=0)
    }


def track_brought(folder: Path, path: str, here: Folder, trip: str) -> FilesMade:
    """Give the track of a trip where it does not lie beside a new one, to be its own."""
    track = here.tracks.get(trip)
    if track is None or Beside(folder, {}, path).start_of(track.name, most=0):
        return {}
    return track_beside(here, trip, path)


def lines_above(path: str, raw: bytes) -> int:
    """Give how many lines editors need above a file's own."""
    return with_schema_line(path, raw).count(b"\n") - raw.count(b"\n")


def read_over(files: FilesMade, layers: Sequence[Layer]) -> Folder:
    """Read what is to be written as if it lay in the folder."""
    *below, own = layers
    return read_folder([*below, replace(own, unwritten=files)])


def own_trip(layers: Sequence[Layer], name: str) -> tuple[RecordText, bytes]:
    """Give a trip of one's own folder that is to be changed, and its file as it is now."""
    own, here = layers[-1], read_folder(layers)
    if ("trip", name) not in here.own:
        raise StartError(f"there is no trip {name!r} in {own.shown}", "name one of yours")
    record = here.texts["trip", name]
    path = own.folder / record.path
    refuse_links(own.folder, path)
    try:
        return record, path.read_bytes()
    except OSError as error:
        raise StartError(
            f"{record.path} cannot be read ({error.strerror})", "check its permissions"
        ) from error


def stop_on_new(problems: Iterable[Problem], before: Iterable[Problem]) -> tuple[Problem, ...]:
    """Stop where what is to be written brings an error; else give what else is new.

    What was wrong before is told elsewhere.
    """
    known = {str(problem) for problem in before}
    new = in_order(each for each in problems if str(each) not in known)
    if errors(new):
        raise ProblemsFound(new)
    return new
