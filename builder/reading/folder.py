"""Reads a whole content folder over the shipped one: records, problems, and each record's text."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial
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
from builder.model.trip import Trip
from builder.problems import Problem, in_order, printable
from builder.reading.beside import Beside, NamedFile
from builder.reading.checks.crosschecks import crosscheck
from builder.reading.checks.eaten import eaten_in_a_day
from builder.reading.declared.declaring import items_of_lists, keys_of, read_as
from builder.reading.declared.values import DEVICES, can_be_id, on_one_line
from builder.reading.dishes.dried_meals import check_nested
from builder.reading.dishes.foods import read_food
from builder.reading.dishes.recipes import read_recipe
from builder.reading.drying.batches import read_batch
from builder.reading.drying.home import read_home
from builder.reading.echoes import without_echoes_of_broken, without_echoes_of_unread
from builder.reading.gear.gear import WrittenGear
from builder.reading.gear.gear_files import GearFile
from builder.reading.layers import But, Layer, LayeredFiles, ReadFile
from builder.reading.notes import Notes
from builder.reading.record_text import RecordText
from builder.reading.text.uncollected import uncollected
from builder.reading.text.yaml_door import Node, quoted
from builder.reading.texts import read_caution, read_source
from builder.reading.trips.at_hand import AtHand
from builder.reading.trips.taken_along import not_taken_along
from builder.reading.trips.trips import not_fed, read_trip
from builder.reading.vouched import Listed, hash_of_list, listed_in
from builder.reading.way.tracks import LARGEST_TRACK_BYTES, track_named
from builder.record import dataclass, field, replace

__all__ = ["ALWAYS_SHIPPED", "Folder", "Layer", "read_folder"]

ALWAYS_SHIPPED = ("sources.yaml", "cautions", "gear", "foods")

HOME = "home"  # there is one of it

Record = TypeVar("Record", Food, Batch, Recipe, Trip, CautionText, Source)


@dataclass(frozen=True, slots=True)
class Folder:
    """What was read."""

    content: Content
    problems: tuple[Problem, ...]
    texts: Mapping[tuple[str, str], RecordText]  # by (kind, id)
    own: frozenset[tuple[str, str]]  # those of the top layer
    broken: frozenset[tuple[str, str]] = frozenset()  # that stand in a file but have errors
    tracks: Mapping[str, NamedFile] = field(default_factory=dict)  # by trip


class _FolderReader:
    """Reads layer by layer, kind by kind; later layers replace records of the same id."""

    def __init__(self, layers: Iterable[Layer]) -> None:
        self.problems = Notes()
        self.files = LayeredFiles(layers, self.problems)
        self.texts: dict[tuple[str, str], RecordText] = {}
        self.owner: dict[tuple[str, str], int] = {}
        self.tracks: dict[str, NamedFile] = {}
        self.broken: set[tuple[str, str]] = set()  # ids that stand in a file but have errors
        self.records: dict[str, dict[str, Any]] = {}  # by kind
        self.listed: dict[tuple[str, str], Listed[Any]] = {}  # what is ours and read on asking
        self.lists: dict[str, list[str]] = {}  # the texts of its files, by kind

    def read(
        self,
        kind: str,
        room: str,
        reader: Callable[[Node, Notes], Record | None],
        but: But | None = None,
    ) -> dict[str, Record]:
        """Read all records of a kind that may stand alone or in a list."""
        for layer, file in self.files.of_room(room, but):
            nodes = file.node.items if file.node.is_list else (file.node,)
            self.problems.beside = self.files.beside(layer, file)
            for node in nodes:
                text = RecordText(file.path, file.text, node, whole_file=not file.node.is_list)
                record = reader(node, self.problems)
                self._keep(kind, record, layer, node, text=text, room=room)
                if record is None and kind == "recipe":
                    self.broken.add((kind, Path(file.path).stem))  # its id may be what is wrong
        return self.records.get(kind, {})

    def read_listed(
        self, kind: str, room: str, reader: Callable[[Node, Notes], Record | None]
    ) -> Mapping[str, Record]:
        """Read the records people wrote, and find those of ours, read when somebody names them."""

        def is_listed(number: int, path: str, shown: str, text: str) -> bool:
            """Tell whether a file is one of ours, sign by sign, and if so find what is in it."""
            lists = self.lists.setdefault(kind, [])
            if self.files.layers[number].vouched:
                lists.append(text)
            elif text not in lists:
                return False
            for name, each in listed_in(path, shown, text, reader):
                self._list((kind, name), each, number)
            return True

        written: Mapping[str, Record] = self.read(kind, room, reader, is_listed)
        ours = [name for of, name in self.listed if of == kind]
        return OnAsking(written, {name: partial(self._listed, kind) for name in ours})

    def _list(self, key: tuple[str, str], record: Listed[Any], layer: int) -> None:
        """Note where a record of ours stands; one of a lower layer is read no more."""
        if self.owner.get(key) == layer:
            self._stands_twice(key, record.node.entries["id"].node.place)
            return
        self.records.get(key[0], {}).pop(key[1], None)
        self.texts.pop(key, None)
        self.listed[key] = record
        self.owner[key] = layer
        self.broken.discard(key)

    def _listed(self, kind: str, name: str) -> Any:
        return self.listed[kind, name].record()

    def all_texts(self) -> Mapping[tuple[str, str], RecordText]:
        """Give the words of every record."""
        return OnAsking(self.texts, dict.fromkeys(self.listed, self._listed_text))

    def _listed_text(self, key: tuple[str, str]) -> RecordText:
        each = self.listed[key]
        return RecordText(each.path, each.text, each.node)

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
                self.files.unread.add(room)  # others name it as they meant to write it
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
        first = (there[name] if name in there else self._listed(kind, name)).places.record
        says = f"the id {name!r} stands twice among the {_MANY.get(kind, kind)} (first at {first})"
        self.problems.append(Problem(place, "id-twice", says, "give one of them another id"))

    def read_gear(self) -> Gear:
        """Read all gear files: mappings of lists."""
        found = {section: self.records.setdefault(section, {}) for section in keys_of(GearFile)}
        for layer, file in self.files.of_room("gear"):
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
        for layer, file in self.files.of_room("home.yaml"):
            home = read_home(file.node, self.problems) or home
            self.owner["home", HOME] = layer
            people = file.node.entries.get("people")
            for node in people.node.items if people else ():
                entry = node.entries.get("name")
                name = on_one_line(entry.node.text) if entry else ""
                self.texts["person", name] = RecordText(file.path, file.text, node, "people")
        return home

    def read_trips(self, at_hand: AtHand) -> dict[str, Trip]:
        """Read trips; the file's name is the trip's id."""
        trips: dict[str, Trip] = {}
        for layer, file in self.files.of_room("trips"):
            place = Place(file.shown, 1, 1)
            trip_id = self._trip_id(file, place)
            if trip_id is None:
                continue
            self.problems.beside = beside = self.files.beside(layer, file)
            along = replace(at_hand, track_parts=track_named(file.node, beside, self.problems))
            trip = read_trip(file.node, self.problems, trip_id, along)
            if trip is None:
                self.broken.add(("trip", trip_id))
                continue
            if self.owner.get(("trip", trip_id)) == layer:
                first = trips[trip_id].places.record.file
                says = f"the id {trip_id!r} stands twice among the trips (first in {first})"
                self.problems.append(Problem(place, "id-twice", says, "rename one of the files"))
                continue
            self._note_track(trip, beside)
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

    def _trip_id(self, file: ReadFile, place: Place) -> str | None:
        """Give the id that a trip has of its file, or of its folder; note why it can be none."""
        parts = Path(file.path).parts
        trip_id = parts[1] if len(parts) > 2 else Path(file.path).stem
        if trip_id in DEVICES:
            says = f"{quoted(trip_id)} cannot be a trip's id: Windows can have no such file"
            self.problems.append(Problem(place, "id", says, "give it another name"))
            return None
        if not can_be_id(trip_id):
            says = f"{quoted(trip_id)} cannot be a trip's id"
            mend = "name the file with lower-case letters, digits and hyphens"
            self.problems.append(Problem(place, "id", says, mend))
            return None
        return trip_id

    def _note_track(self, trip: Trip, beside: Beside) -> None:
        """Note where a trip's track lies, and what is amiss with its file."""
        if trip.track:
            self.tracks[trip.id] = NamedFile(beside, trip.track, LARGEST_TRACK_BYTES)
            told_as = f"track: {Path(trip.track).name}"
            amiss = beside.amiss("track", told_as, trip.track, trip.places.of("track"))
            self.problems += [amiss] if amiss else []


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
    top = len(reader.files.layers) - 1
    reader.files.misnamed()
    sources = reader.read_listed("source", "sources.yaml", read_source)
    cautions = reader.read_listed("caution", "cautions", read_caution)
    gear = reader.read_gear()
    reader.problems.dryers = gear.dryers
    foods = reader.read_listed("food", "foods", read_food)
    reader.problems.foods = foods
    recipes = reader.read_recipes()
    batches = reader.read("batch", "batches", read_batch)
    home = reader.read_home()
    broken_batches = {name for kind, name in reader.broken if kind == "batch"}
    at_hand = AtHand(foods, recipes, home, {*batches, *broken_batches})
    trips = reader.read_trips(at_hand)
    shown = tuple(layer.shown for layer in reader.files.layers)
    foods_as = reader.lists.get("food")
    listed_as = hash_of_list(foods_as) if foods_as else ""
    content = Content(
        foods, batches, recipes, gear, trips, cautions, sources, home, shown, listed_as
    )
    content, problems = crosscheck(content, reader.broken)
    unused = reader.problems.unused(f"{reader.files.layers[-1].shown}/")
    return Folder(
        content=content,
        problems=in_order(
            without_echoes_of_unread(
                [*without_echoes_of_broken(reader.problems, reader.broken), *unused, *problems],
                reader.files.unread,
            )
        ),
        texts=reader.all_texts(),
        own=frozenset(key for key, layer in reader.owner.items() if layer == top),
        broken=frozenset(reader.broken),
        tracks=reader.tracks,
    )
