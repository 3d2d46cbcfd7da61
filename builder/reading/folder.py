"""Reads a whole content folder over the shipped one: records, problems, and each record's text."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Collection, Iterable, Mapping
from pathlib import Path
from typing import Any, TypeVar

from builder.model.batch import Batch
from builder.model.content import Content, Gear
from builder.model.food import Food
from builder.model.gear import Dryer, Fuel, Iron, LabelSheet, Packaging, Pot, Stove
from builder.model.home import Home
from builder.model.on_asking import OnAsking
from builder.model.place import Place
from builder.model.recipe import Recipe
from builder.model.source import CautionText, Source
from builder.model.track import DayTrack
from builder.model.trip import Trip
from builder.problems import Problem, errors, in_order, nearest, printable
from builder.reading.beside import Beside, NamedFile
from builder.reading.checks.crosschecks import crosscheck
from builder.reading.checks.eaten import eaten_in_a_day
from builder.reading.declared.declaring import items_of_lists, keys_of, read_as, title_of
from builder.reading.declared.values import DEVICES, can_be_id, cannot_be_file, on_one_line
from builder.reading.dishes.dried_meals import check_nested
from builder.reading.dishes.foods import read_food
from builder.reading.dishes.recipes import read_recipe
from builder.reading.dishes.vouched import Listed, foods_listed, hash_of_list
from builder.reading.drying.batches import read_batch
from builder.reading.drying.home import read_home
from builder.reading.files import (
    ENDINGS,
    ROOMS,
    TABLE,
    files_of_room,
    is_file,
    read_start,
    top_of,
)
from builder.reading.gear.gear import WrittenGear
from builder.reading.gear.gear_files import GearFile
from builder.reading.kinds import kind_meant
from builder.reading.notes import Amiss, Notes, with_article
from builder.reading.text.tables import read_table
from builder.reading.text.uncollected import uncollected
from builder.reading.text.yaml_door import Node, decode, quoted, read_yaml
from builder.reading.texts import read_caution, read_source
from builder.reading.trips.at_hand import AtHand
from builder.reading.trips.taken_along import not_taken_along
from builder.reading.trips.trips import not_fed, read_trip
from builder.reading.way.places_and_times import hours_ahead
from builder.reading.way.tracks import LARGEST_TRACK_BYTES, read_track
from builder.record import dataclass, field, replace

ALWAYS_SHIPPED = ("sources.yaml", "cautions", "gear", "foods")

HOME = "home"  # there is one of it

Record = TypeVar("Record", Food, Batch, Recipe, Trip, CautionText, Source)


@dataclass(frozen=True, slots=True)
class RecordText:
    """A record's own words, so that a kit can hand them on with their comments."""

    path: str  # inside a content folder, such as "foods/fruit.yaml"
    text: str  # of the whole file
    kept_node: Node | None  # None where the words are read again when somebody asks
    section: str = ""  # of a gear file, such as "stoves"
    whole_file: bool = False
    shown: str = ""  # the file as people are told it, where it is read again

    @property
    def node(self) -> Node:
        """Where it stands in its file."""
        node = self.kept_node or read_yaml(self.text, self.shown)[0]
        assert node is not None, "what was read once can be read again"
        return node


@dataclass(frozen=True, slots=True)
class Layer:
    """One folder, the rooms of it that are read, and how its path is shown to people."""

    folder: Path
    shown: str
    rooms: tuple[str, ...] = ROOMS
    # Files not written yet, by their path in there: they are read as if they were.
    unwritten: Mapping[str, bytes] = field(default_factory=dict)
    vouched: bool = False  # its foods are ours: each is read when somebody names it


@dataclass(frozen=True, slots=True)
class Folder:
    """What was read."""

    content: Content
    problems: tuple[Problem, ...]
    texts: Mapping[tuple[str, str], RecordText]  # by (kind, id)
    own: frozenset[tuple[str, str]]  # those of the top layer
    broken: frozenset[tuple[str, str]] = frozenset()  # that stand in a file but have errors
    tracks: Mapping[str, NamedFile] = field(default_factory=dict)  # by trip


@dataclass(frozen=True, slots=True)
class _File:
    path: str
    shown: str
    text: str
    node: Node


class _FolderReader:
    """Reads layer by layer, kind by kind; later layers replace records of the same id."""

    def __init__(self, layers: Iterable[Layer]) -> None:
        self.layers = list(layers)
        self.problems = Notes()
        self.texts: dict[tuple[str, str], RecordText] = {}
        self.owner: dict[tuple[str, str], int] = {}
        self.tracks: dict[str, NamedFile] = {}
        self.broken: set[tuple[str, str]] = set()  # ids that stand in a file but have errors
        self.records: dict[str, dict[str, Any]] = {}  # by kind
        self.listed: dict[tuple[str, str], Listed] = {}  # of the foods that are ours
        self.lists: list[str] = []  # the texts of their files
        self.unread: set[str] = set()  # rooms with a file or record whose ids nobody can tell

    # -- files --------------------------------------------------------------------------------

    def files(self, room: str) -> Iterable[tuple[int, _File]]:
        """Read the files of one room in all layers, in a stable order."""
        for number, layer in enumerate(self.layers):
            for path in self._paths(layer, room) if room in layer.rooms else ():
                told = len(self.problems)
                decoded = self._decoded(layer, path)
                if decoded and room == "foods" and self._is_listed(number, *decoded):
                    continue
                file = self._file(layer, path, *decoded) if decoded else None
                if file is not None and self._is_of_its_room(file, room):
                    yield number, file
                elif errors(self.problems[told:]):
                    self.unread.add(room)

    def _paths(self, layer: Layer, room: str) -> list[Path]:
        unreadable: list[OSError] = []
        found = []
        paths = files_of_room(layer.folder, room, unreadable)
        new = [
            layer.folder / name
            for name in layer.unwritten
            # What lies beside a record, such as a track or a picture, is none itself.
            if name.split("/")[0] == room and Path(name).suffix.lower() in (*ENDINGS, TABLE)
        ]
        for path in sorted({*paths, *new}):
            if path.suffix in (".yaml", TABLE):
                found.append(path)
                says = cannot_be_file(path.stem)
                if room != "trips" and says:  # a trip's name is its id
                    relative = path.relative_to(layer.folder).as_posix()
                    self.warn(layer, relative, says, "give it another name")
            else:
                says = f"this file is not read: its name ends in {path.suffix}"
                ending = TABLE if path.suffix.lower() == TABLE else ".yaml"
                mend = f"call it {printable(path.stem)}{ending}"
                self.warn(layer, path.relative_to(layer.folder).as_posix(), says, mend)
        for error in unreadable:
            self._unreadable(layer, Path(str(error.filename)), "folder", error)
        return found

    def _unreadable(self, layer: Layer, path: Path, what: str, error: OSError) -> None:
        relative = path.relative_to(layer.folder).as_posix()
        says = f"this {what} cannot be read ({error.strerror})"
        mend = f"check the {what} and its permissions"
        place = Place(printable(f"{layer.shown}/{relative}"), 1, 1)
        self.problems.append(Problem(place, "file", says, mend))

    def misnamed(self) -> None:
        """Warn of what lies beside the rooms of the top layer under almost the same name."""
        layer = self.layers[-1]
        rooms = [name.removesuffix(".yaml") for name in ROOMS]
        for path in top_of(layer.folder):
            is_room_file = path.suffix.lower() in ENDINGS and is_file(path)
            if not is_room_file and not os.path.isdir(path):
                continue  # before words are compared, which takes a library that is slow to load
            if room := nearest(path.stem.lower(), rooms):
                if f"{room}.yaml" in ROOMS and is_room_file:
                    self.warn(layer, path.name, "this file is not read", f"call it {room}.yaml")
                elif is_room_file:
                    says, mend = "this file is not read here", f"move it into {room}/"
                    self.warn(layer, path.name, says, mend)
                elif f"{room}.yaml" not in ROOMS:
                    says, mend = "this folder is not read", f"call it {room}"
                    self.warn(layer, path.name, says, mend)

    def warn(self, layer: Layer, path: str, says: str, mend: str) -> None:
        """Note a file that is passed over, as a warning."""
        place = Place(printable(f"{layer.shown}/{path}"), 1, 1)
        self.problems.append(Problem(place, "file-name", says, mend, "warning"))

    def _decoded(self, layer: Layer, path: Path) -> tuple[str, str, str] | None:
        """Give a file's path in the folder, as people are shown it, and its text."""
        relative = path.relative_to(layer.folder).as_posix()
        shown = printable(f"{layer.shown}/{relative}")
        try:
            raw = layer.unwritten[relative] if relative in layer.unwritten else read_start(path)
        except OSError as error:
            self._unreadable(layer, path, "file", error)
            return None
        text, problems = decode(raw, shown)
        self.problems += problems
        return None if problems else (relative, shown, text)

    def _file(self, layer: Layer, path: Path, relative: str, shown: str, text: str) -> _File | None:
        read = read_table if path.suffix == TABLE else read_yaml
        node, problems = read(text, shown)
        self.problems += problems
        if node is None or node.value is None:
            if not problems:
                self.warn(layer, relative, "this file is empty", "write a record, or delete it")
            return None
        return _File(relative, shown, text, node)

    def _is_of_its_room(self, file: _File, room: str) -> bool:
        """Tell whether a file stands where its kind is read; note where it does not."""
        meant = kind_meant(file.node, room)
        if meant is None:
            return True
        says = f"these are the keys of {with_article(title_of(meant.record))}, and not read here"
        is_one_file = meant.room.endswith(".yaml")
        mend = f"move it {f'out, as {meant.room}' if is_one_file else f'into {meant.room}/'}"
        self.problems.append(Problem(Place(file.shown, 1, 1), "wrong-room", says, mend))
        self.unread.add(meant.room)
        return False

    # -- records ------------------------------------------------------------------------------

    def read(
        self,
        kind: str,
        room: str,
        reader: Callable[[Node, Notes], Record | None],
    ) -> dict[str, Record]:
        """Read all records of a kind that may stand alone or in a list."""
        for layer, file in self.files(room):
            nodes = file.node.items if file.node.is_list else (file.node,)
            self.problems.beside = self._beside(layer, file)
            for node in nodes:
                text = RecordText(file.path, file.text, node, whole_file=not file.node.is_list)
                record = reader(node, self.problems)
                self._keep(kind, record, layer, node, text=text, room=room)
                if record is None and kind == "recipe":
                    self.broken.add((kind, Path(file.path).stem))  # its id may be what is wrong
        return self.records.get(kind, {})

    def read_foods(self) -> Mapping[str, Food]:
        """Read the foods people wrote, and find those that are read when somebody names them."""
        written = self.read("food", "foods", read_food)
        return OnAsking(written, {name: self._listed_food for _, name in self.listed})

    def _is_listed(self, number: int, path: str, shown: str, text: str) -> bool:
        """Tell whether a file of foods is one of ours, sign by sign, and if so find its foods."""
        if self.layers[number].vouched:
            self.lists.append(text)
        elif text not in self.lists:
            return False
        for name, each in foods_listed(path, shown, text):
            self._list(("food", name), each, number)
        return True

    def _list(self, key: tuple[str, str], food: Listed, layer: int) -> None:
        """Note where a food of ours stands; one of a lower layer is read no more."""
        if self.owner.get(key) == layer:
            self._stands_twice(key, food.node.entries["id"].node.place)
            return
        self.records.get(key[0], {}).pop(key[1], None)
        self.texts.pop(key, None)
        self.listed[key] = food
        self.owner[key] = layer
        self.broken.discard(key)

    def _listed_food(self, name: str) -> Food:
        return self.listed["food", name].food()

    def all_texts(self) -> Mapping[tuple[str, str], RecordText]:
        """Give the words of every record."""
        return OnAsking(self.texts, dict.fromkeys(self.listed, self._listed_text))

    def _listed_text(self, key: tuple[str, str]) -> RecordText:
        each = self.listed[key]
        return RecordText(each.path, each.text, each.node)

    def _beside(self, layer: int, file: _File) -> Beside:
        of = self.layers[layer]
        return Beside(of.folder, of.unwritten, file.path)

    def _keep(
        self,
        kind: str,
        record: Any,
        layer: int,
        node: Node,
        *,
        text: RecordText,
        room: str,
    ) -> None:
        entry = node.entries.get("id")
        written = str(entry.node.value) if entry else ""
        if record is None:
            if written:
                self.broken.add((kind, written))
            if not can_be_id(written):
                self.unread.add(room)  # others name it as they meant to write it
            return
        key = (kind, record.id)
        if self.owner.get(key) == layer:
            self._stands_twice(key, entry.node.place if entry else node.place)
            return
        self.records.setdefault(kind, {})[record.id] = record
        self.owner[key] = layer
        self.texts[key] = text
        self.broken.discard(key)

    def _stands_twice(self, key: tuple[str, str], place: Place) -> None:
        kind, name = key
        there = self.records.get(kind, {})
        first = (there[name] if name in there else self._listed_food(name)).places.record
        says = f"the id {name!r} stands twice among the {_MANY.get(kind, kind)} (first at {first})"
        self.problems.append(Problem(place, "id-twice", says, "give one of them another id"))

    def read_gear(self) -> Gear:
        """Read all gear files: mappings of lists."""
        found = {section: self.records.setdefault(section, {}) for section in keys_of(GearFile)}
        for layer, file in self.files("gear"):
            for section, kind, node in items_of_lists(GearFile, file.node, self.problems):
                assert issubclass(kind, WrittenGear)
                written = read_as(kind, node, self.problems)
                record = written.made() if written else None
                text = RecordText(file.path, file.text, node, section)
                self._keep(section, record, layer, node, text=text, room="gear")
        return Gear(
            stoves=_only(found["stoves"], Stove),
            fuels=_only(found["fuels"], Fuel),
            pots=_only(found["pots"], Pot),
            irons=_only(found["irons"], Iron),
            packaging=_only(found["packaging"], Packaging),
            dryers=_only(found["dryers"], Dryer),
            sheets=_only(found["sheets"], LabelSheet),
        )

    def read_recipes(self) -> dict[str, Recipe]:
        """Read recipes, one in each file, and drop those that hold themselves."""
        recipes = self.read("recipe", "recipes", read_recipe)
        for recipe in recipes.values():
            stem = Path(recipe.places.record.file).stem
            if stem != recipe.id:
                place = recipe.places.of("id")
                says = f"recipe {recipe.id!r} stands in a file called {printable(stem)}.yaml"
                mend = f"call the file {recipe.id}.yaml"
                self.problems.append(Problem(place, "file-name", says, mend, "warning"))
        broken = {name for kind, name in self.broken if kind == "recipe"}
        bad, problems = check_nested(recipes, {*recipes, *broken})
        self.problems += problems
        self.broken |= {("recipe", name) for name in bad}
        return {name: recipe for name, recipe in recipes.items() if name not in bad}

    def read_home(self) -> Home:
        """Read the home; one in a higher layer takes the place of the whole."""
        home = Home()
        for layer, file in self.files("home.yaml"):
            home = read_home(file.node, self.problems) or home
            self.owner["home", HOME] = layer
            people = file.node.entries.get("people")
            for node in people.node.items if people else ():
                entry = node.entries.get("name")
                name = on_one_line(entry.node.text) if entry else ""
                self.texts["person", name] = RecordText(file.path, file.text, node, "people")
        return home

    def _track_of(self, beside: Beside, file: _File) -> tuple[DayTrack, ...]:
        """Give the parts of the track beside a trip; () where it names none that can be read."""
        named, utc = (file.node.entries.get(key) for key in ("track", "utc"))
        if named is None or not named.node.is_text or not named.node.text.strip():
            return ()
        name = named.node.text.strip()
        try:
            data = beside.start_of(name, LARGEST_TRACK_BYTES)
            return read_track(data, hours_ahead(utc.node if utc else None) or 0.0) if data else ()
        except Amiss as amiss:
            self.problems.append(amiss.at(named.node.place))
        except (OSError, ValueError) as error:
            says = f"track: {quoted(name)} cannot be read: {error}"
            unread = Amiss("track-unread", says, "check the file, or leave `track` out")
            self.problems.append(unread.at(named.node.place))
        return ()

    def read_trips(self, at_hand: AtHand) -> dict[str, Trip]:
        """Read trips; the file's name is the trip's id."""
        trips: dict[str, Trip] = {}
        for layer, file in self.files("trips"):
            parts = Path(file.path).parts
            trip_id = parts[1] if len(parts) > 2 else Path(file.path).stem
            place = Place(file.shown, 1, 1)
            if trip_id in DEVICES:
                says = f"{quoted(trip_id)} cannot be a trip's id: Windows can have no such file"
                self.problems.append(Problem(place, "id", says, "give it another name"))
                continue
            if not can_be_id(trip_id):
                says = f"{quoted(trip_id)} cannot be a trip's id"
                mend = "name the file with lower-case letters, digits and hyphens"
                self.problems.append(Problem(place, "id", says, mend))
                continue
            self.problems.beside = beside = self._beside(layer, file)
            along = replace(at_hand, track_parts=self._track_of(beside, file))
            trip = read_trip(file.node, self.problems, trip_id, along)
            if trip is None:
                self.broken.add(("trip", trip_id))
                continue
            if self.owner.get(("trip", trip_id)) == layer:
                first = trips[trip_id].places.record.file
                says = f"the id {trip_id!r} stands twice among the trips (first in {first})"
                self.problems.append(Problem(place, "id-twice", says, "rename one of the files"))
                continue
            if trip.track:
                self.tracks[trip_id] = NamedFile(beside, trip.track, LARGEST_TRACK_BYTES)
                told_as = f"track: {Path(trip.track).name}"
                where = trip.places.of("track")
                amiss = beside.amiss("track", told_as, trip.track, where)
                self.problems += [amiss] if amiss else []
            self.problems += [
                *not_fed(trip),
                *not_taken_along(trip),
                *eaten_in_a_day(trip, at_hand.foods, at_hand.recipes),
            ]
            trips[trip_id] = trip
            self.owner["trip", trip_id] = layer
            # Its nodes take most of the memory of a large folder, and few ask for them.
            self.texts["trip", trip_id] = RecordText(
                file.path, file.text, None, whole_file=True, shown=file.node.place.file
            )
        return trips


_MANY = {
    "source": "sources",
    "caution": "cautions",
    "food": "foods",
    "recipe": "recipes",
    "batch": "batches",
}


_Gear = TypeVar("_Gear", Stove, Fuel, Pot, Iron, Packaging, Dryer, LabelSheet)


def _only(records: Mapping[str, Any], kind: type[_Gear]) -> dict[str, _Gear]:
    return {name: record for name, record in records.items() if isinstance(record, kind)}


@uncollected()
def read_folder(layers: Iterable[Layer]) -> Folder:
    """Read all layers, lowest first, and cross-check what was read."""
    reader = _FolderReader(layers)
    top = len(reader.layers) - 1
    reader.misnamed()
    sources = reader.read("source", "sources.yaml", read_source)
    cautions = reader.read("caution", "cautions", read_caution)
    gear = reader.read_gear()
    reader.problems.dryers = gear.dryers
    foods = reader.read_foods()
    reader.problems.foods = foods
    recipes = reader.read_recipes()
    batches = reader.read("batch", "batches", read_batch)
    home = reader.read_home()
    broken_batches = {name for kind, name in reader.broken if kind == "batch"}
    at_hand = AtHand(foods, recipes, home, {*batches, *broken_batches})
    trips = reader.read_trips(at_hand)
    shown = tuple(layer.shown for layer in layers)
    listed_as = hash_of_list(reader.lists) if reader.lists else ""
    content = Content(
        foods, batches, recipes, gear, trips, cautions, sources, home, shown, listed_as
    )
    content, problems = crosscheck(content, reader.broken)
    unused = reader.problems.unused(f"{reader.layers[-1].shown}/")
    return Folder(
        content=content,
        problems=in_order(
            _without_echoes_of_unread(
                [*_unechoed(reader.problems, reader.broken), *unused, *problems], reader.unread
            )
        ),
        texts=reader.all_texts(),
        own=frozenset(key for key, layer in reader.owner.items() if layer == top),
        broken=frozenset(reader.broken),
        tracks=reader.tracks,
    )


_ECHOES = {
    "food-unknown": ("food", "recipe"),
    "recipe-unknown": ("recipe",),
    "avoids-unknown": ("food",),
}
_QUOTED = re.compile(r"""'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*\"""")


# Where those stand that a problem says are not there.
_LOOKED_FOR_IN: Mapping[str, tuple[str, ...]] = {
    "food-unknown": ("foods", "recipes"),
    "avoids-unknown": ("foods",),
    "recipe-unknown": ("recipes",),
    "batch-unknown": ("batches",),
    "person-unknown": ("home.yaml",),
    "source-unknown": ("sources.yaml",),
    **{f"{section.rstrip('s')}-unknown": ("gear",) for section in keys_of(GearFile)},
}


def _without_echoes_of_unread(
    problems: Iterable[Problem], unread: Collection[str]
) -> list[Problem]:
    """Leave out "there is no pot x" while a file that may hold it cannot be read.

    What is wrong with that file is told, so that nothing is built before it is mended.
    """
    return [
        problem
        for problem in problems
        if not any(room in unread for room in _LOOKED_FOR_IN.get(problem.kind, ()))
    ]


def _unechoed(problems: Iterable[Problem], broken: set[tuple[str, str]]) -> list[Problem]:
    """Leave out "there is no food x" where x is there, with errors of its own."""
    there = {(kind, quoted(name)) for kind, name in broken}
    return [
        problem
        for problem in problems
        if not any(
            (kind, name) in there
            for kind in _ECHOES.get(problem.kind, ())
            for name in _QUOTED.findall(problem.says)
        )
    ]
