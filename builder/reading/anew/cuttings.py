"""Cuts records out of their files, comments and all, so that a kit can hand them on."""

from __future__ import annotations

import posixpath
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from pathlib import PurePosixPath

from builder.model.batch import Batch
from builder.model.content import Content
from builder.model.gear import LOOSE_PACKAGING
from builder.model.on_asking import with_instead
from builder.model.picture import Picture
from builder.model.trip import Trip
from builder.reading.declared.values import on_one_line
from builder.reading.files import TABLE
from builder.reading.folder import Folder
from builder.reading.record_text import RecordText
from builder.reading.text.layout import comments_above, last_offset, line_end
from builder.reading.text.spelling import (
    Edit,
    edited,
    in_flow,
    plain,
    spelling_out,
    spelt_out,
    written_anew,
)
from builder.reading.text.yaml_door import Node, read_yaml
from builder.record import replace

Key = tuple[str, str]  # kind and id


def records_of_trip(trip: Trip, content: Content, cautions: Iterable[str]) -> list[Key]:
    """Give every record that a trip uses, directly or through another, each once."""
    return list(dict.fromkeys(_used(trip, content, cautions)))


def _used(trip: Trip, content: Content, cautions: Iterable[str]) -> Iterator[Key]:
    yield "trip", trip.id
    items = [item for day in trip.days for meal in day.meals for item in meal.items]
    named = [name for item in items for name in (item.food, *(each.food for each in item.swaps))]
    avoided = (word for person in trip.party for word in person.avoids if word in content.foods)
    dishes = [("recipe", item.recipe) for item in items if item.recipe]
    dishes += (_dish(name, content) for name in (*named, *avoided))
    yield from _of_dishes(dishes, content)
    for batch in dict.fromkeys(batch for item in items for _, batch in item.batches):
        yield from _of_batch(content.batches[batch], content)
    yield "packaging", LOOSE_PACKAGING
    for stove in trip.stoves:
        yield "stoves", stove
        yield "fuels", content.gear.stoves[stove].burns
    yield from (("pots", pot) for pot in trip.pots)
    yield from (("irons", iron) for iron in (trip.fire.irons if trip.fire else ()))
    for caution in cautions:
        yield "caution", caution
        yield from (("source", source) for source in content.cautions[caution].sources)


def _dish(name: str | None, content: Content) -> Key:
    """Give the key of a food, or of a recipe that stands in the place of one."""
    return ("food" if name in content.foods else "recipe"), name or ""


def _of_dishes(named: Iterable[Key], content: Content) -> Iterator[Key]:
    """Give foods with their sources, and recipes with all that they take, each once.

    A recipe may take another that was dried as a meal, and that one a third: gone through again
    at each naming, a row of them that take the next twice would take twice as long a recipe.
    """
    waiting = dict.fromkeys(named)
    met: set[Key] = set()
    while waiting:
        kind, name = key = waiting.popitem()[0]
        met.add(key)
        if kind == "food":
            yield key
            if source := content.foods[name].source:
                yield "source", source
        elif name in content.recipes:
            yield key
            uses = (line.food or line.recipe for line in content.recipes[name].uses)
            taken = (_dish(each, content) for each in uses)
            waiting.update(dict.fromkeys(each for each in taken if each not in met))


def _of_batch(batch: Batch, content: Content) -> Iterator[Key]:
    yield "batch", batch.id
    yield from _of_dishes([_dish(batch.holds, content)], content)
    if batch.packs and batch.packs.packaging:
        yield "packaging", batch.packs.packaging
    if batch.dryer:
        yield "dryers", batch.dryer


def cut_files(
    keys: Iterable[Key], texts: Mapping[Key, RecordText], cut_before: dict[Key, str] | None = None
) -> dict[str, str]:
    """Give files that hold just these records, each record as it was written.

    `cut_before` holds what was cut out of the same texts, and takes what is cut now: many trips
    use the same records.
    """
    known = {} if cut_before is None else cut_before
    whole: dict[str, str] = {}
    lists: dict[str, dict[str, list[tuple[RecordText, str]]]] = {}
    for key in keys:
        record = texts.get(key)
        if record is None:
            continue
        if record.whole_file:
            whole[record.path] = record.text
            continue
        if key not in known:
            known[key] = cut(record)
        in_file = lists.setdefault(_as_yaml(record.path), {})
        in_file.setdefault(record.section, []).append((record, known[key]))
    for path, sections in lists.items():
        parts = []
        for section, records in sections.items():
            records.sort(key=lambda each: each[0].node.place)
            cuts = "".join(text for _, text in records)
            parts.append(f"{section}:\n{textwrap.indent(cuts, '  ')}" if section else cuts)
        whole[path] = "".join(parts)
    return dict(sorted(whole.items()))


def _as_yaml(path: str) -> str:
    """Give the file that a record's words go to: rows of a table are written out as YAML."""
    return f"{path}.yaml" if path.endswith(TABLE) else path


def written_words(record: RecordText) -> str:
    """Give all that a file tells of a record: what cutting it out may put into a kit.

    Where it takes something from elsewhere in its file, or may do so, that is the whole file.
    """
    text = record.text
    if record.whole_file:
        return text
    node = record.node
    start = comments_above(text, text.rfind("\n", 0, node.start) + 1)
    own = text[start : line_end(text, last_offset(node))]
    return text if "*" in own else own


def cut(record: RecordText) -> str:
    """Give one item of a list as a list item at the margin, with the comments that belong to it.

    What it takes from elsewhere in its file by `*name` or `<<` is written out.
    """
    for edits in ((), spelling_out(record.text, record.node)):
        found = _cut_out(record, edits)
        if _says_the_same(found, record.node):
            return found
    return written_anew(record.node, "- ")


def _cut_out(record: RecordText, edits: Iterable[Edit]) -> str:
    text, node = record.text, record.node
    line_start = text.rfind("\n", 0, node.start) + 1
    if text[line_start : node.start].strip() == "-":
        start = comments_above(text, line_start)
        own = edited(text, edits, start, line_end(text, last_offset(node)))
        return textwrap.dedent(own).rstrip("\n") + "\n"
    return f"- {edited(text, edits, node.start, node.end)}\n" if node.flow else ""


def _says_the_same(text: str, node: Node) -> bool:
    """Tell whether a cutting reads as the record it was cut from; an alias may have been lost."""
    found, problems = read_yaml(text, "")
    if problems or found is None or len(found.items) != 1:
        return False
    return bool(plain(found.items[0]) == plain(node))


def content_of_kit(
    folder: Folder,
    trip_id: str,
    cautions: Iterable[str],
    cut_before: dict[Key, str] | None = None,
) -> dict[str, bytes]:
    """Give the files of a kit's content.zip: every record its trip uses, and nothing else."""
    trip = folder.content.trips[trip_id]
    keys = records_of_trip(trip, folder.content, dict.fromkeys(cautions))
    key = ("trip", trip_id)
    texts = with_instead(folder.texts, {key: with_people(folder.texts[key], folder.texts)})
    cuts = cut_files(keys, texts, cut_before)
    files = {path: text.encode("utf-8") for path, text in cuts.items()}
    return {**files, **track_beside(folder, trip_id, texts[key].path)}


def track_beside(folder: Folder, trip_id: str, file: str) -> dict[str, bytes]:
    """Give a trip's track by its path beside a file of the trip; nothing where it has none."""
    track = folder.tracks.get(trip_id)
    if track is None or not (data := track.data()):
        return {}
    place = own_beside(file, track.name)
    # Beside another file the same name may lead out of the room, and out of the folder.
    return {place: data} if place.split("/")[0] == file.split("/")[0] else {}


def pictures_along(folder: Folder, trip_id: str) -> dict[str, Picture]:
    """Give the pictures of a kit's content.zip by their path there, beside what tells them."""
    content, texts = folder.content, folder.texts
    return {
        own_beside(_as_yaml(texts[key].path), picture.file): picture
        for key in records_of_trip(content.trips[trip_id], content, ())
        if key in texts
        for picture in pictures_told(content, key)
    }


def pictures_told(content: Content, key: Key) -> Iterator[Picture]:
    """Give the pictures that a record tells."""
    kind, name = key
    told: Iterable[Picture | None] = ()
    if kind == "recipe":
        recipe = content.recipes[name]
        told = (recipe.picture, *(each.picture for each in recipe.steps))
    elif kind == "batch":
        told = (content.batches[name].picture,)
    elif kind == "trip":
        trip = content.trips[name]
        told = (trip.picture, *(each.picture for each in trip.days))
    return (each for each in told if each is not None)


def own_beside(file: str, name: str) -> str:
    """Give where what a file names lies so that none of another has its place."""
    return posixpath.normpath(PurePosixPath(file).with_suffix("") / name)


def with_people(trip: RecordText, texts: Mapping[Key, RecordText]) -> RecordText:
    """Write out those of a party whom only `home.yaml` tells: that file stays at home."""
    party = trip.node.entries["party"].node
    if not any(each.is_text for each in party.items):
        return trip
    text, node = spelt_out(trip.text, trip.node)
    edits = [
        Edit(each.start, each.end, in_flow(texts["person", on_one_line(each.text)].node))
        for each in node.entries["party"].node.items
        if each.is_text
    ]
    return replace(trip, text=edited(text, edits))
