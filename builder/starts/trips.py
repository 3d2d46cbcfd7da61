"""New trips, whatever they are made of: a commented example, a trip of the folder, a kit."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from pathlib import Path

from builder.problems import printable
from builder.reading.anew.rewriting import Changes, rewritten
from builder.reading.folder import Layer
from builder.reading.record_text import RecordText
from builder.reading.text.yaml_door import read_yaml
from builder.starts.asked import NewTrip, changes_asked, check_who
from builder.starts.fresh import StartError, example, title_of, write_content
from builder.starts.old_kits import trip_from_kit
from builder.starts.reading_over import (
    Written,
    for_today,
    pictures_brought,
    read_for_new,
    track_brought,
    trip_there,
)


def start_trip(
    folder: Path, shown: str, layers: Sequence[Layer], asked: NewTrip
) -> tuple[list[Path], list[str]]:
    """Write a new trip, and what it needs from an old kit; give the files and what to know."""
    name, source = asked.name, asked.source
    here = read_for_new(name, folder, layers)
    if len(set(asked.party)) != len(asked.party):
        raise StartError("somebody is named twice in --party", "name each person once")
    if source is None:
        if asked.instead:
            raise StartError("--who goes with --from", "name who comes with --party")
        made = _from_example(asked).encode("utf-8")
        return write_content(folder, {f"trips/{name}.yaml": made}), []
    if _is_kit(source):
        return trip_from_kit(folder, layers, Path(source), here, asked)
    if asked.theirs:
        raise StartError("--take-theirs goes with a kit of somebody else", "leave it out")
    old, trip = trip_there(source, here, shown, "; or name a kit's zip file")
    check_who(trip, asked)
    path = f"trips/{name}.yaml"
    along = {
        **pictures_brought(folder, path, here, (source,)),
        **track_brought(folder, path, here, source),
    }
    text = Written(path, old, (folder / old.path).read_bytes(), along)
    files, notes = for_today(text, changes_asked(asked, here.content), here, layers)
    notes += _not_copied(folder / old.path, shown, {Path(each).name for each in along})
    return write_content(folder, files), notes


def _not_copied(trip: Path, shown: str, copied: Collection[str]) -> list[str]:
    """Name what lies beside a trip that has a folder of its own."""
    if trip.parent.name == "trips":
        return []
    others = (path.name for path in trip.parent.iterdir() if path != trip)
    beside = sorted(name for name in others if name not in copied)
    there = f"{shown}/trips/{trip.parent.name}"
    return [f"Not copied: {printable(f'{there}/{each}')}." for each in beside]


def _is_kit(source: str) -> bool:
    return source.lower().endswith(".zip") or "/" in source


def _from_example(asked: NewTrip) -> str:
    text = example("trip.yaml", asked.name)
    node, _ = read_yaml(text, "")
    if node is None:
        raise AssertionError("the example trip cannot be read")
    changes = Changes(title_of(asked.name), asked.start, asked.party, {})
    return rewritten(RecordText("trips/trip.yaml", text, node, whole_file=True), changes).text
