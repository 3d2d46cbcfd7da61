"""What the last build planned, so that a trip is planned again only where something of it changed.

Beside a kit is written down what was read while its trip was planned (`planning/reads.py`), one
short name for the state of all that, and what a build says and the home needs of the trip. A
public build writes down nothing of it. What other trips taught is no record: it is part of the
state by itself.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from builder.cli.dangers import Dangers
from builder.cli.last_build import FolderMarks, with_folders, without_folders
from builder.model.as_data import as_data, of_data
from builder.model.figure import Reckoned, Worked
from builder.planning.after import learned_before
from builder.planning.at_home import TripShare, share_of
from builder.planning.graph import origins_of
from builder.planning.reads import EVERY, OF_CONTENT, OF_GEAR, OF_STOCK, WHETHER, Read
from builder.problems import Problem
from builder.reading.anew.cuttings import records_of_trip, written_words
from builder.record import dataclass, replace
from builder.site.folder.memory import as_text, told_as, write_over

if TYPE_CHECKING:
    from builder.cli.planner import OneTrip, Planner
    from builder.model.content import Content
    from builder.model.trip import Trip

_SETS = re.compile(r"frozenset\(\{([^{}]*)\}\)")


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """What a build has to know of a trip that it need not plan."""

    trip: str
    made_from: str
    problems: tuple[Problem, ...]
    dangers: Dangers
    share: TripShare


@dataclass(frozen=True, slots=True)
class _Told:
    """What is written down of a trip."""

    made_from: str
    state: str
    reads: Mapping[str, Sequence[str]]  # names by kind
    problems: tuple[Problem, ...]
    dangers: Dangers
    share: Any  # as data


class KeptPlans:
    """The plans of a folder of kits: those that still hold, and those to be kept for next time."""

    def __init__(self, marks: FolderMarks, out: Path, tool: str, is_asked: bool) -> None:
        """Take what stands for the folders of the content, where kits lie, the state of the tool.

        `is_asked` tells whether old plans will do.
        """
        self.marks, self.out, self.tool, self.is_asked = marks, out, tool, is_asked
        self._states: _States | None = None
        self._content: Content | None = None

    def look_at(self, planner: Planner) -> None:
        """Take the content that trips are planned from now."""
        self._content = planner.folder.content
        self._states = _States(self.marks, planner, self.tool)

    def of(self, trip: Trip) -> KeptPlan | None:
        """Give the plan of a trip where all that it was made from is as it was, and its kit."""
        from builder.site.folder.swap import is_current

        told = self._read(trip.id) if self.is_asked else None
        if told is None or self._states is None:
            return None
        reads = [(kind, name) for kind, names in told.reads.items() for name in names]
        if told.state != self._states.of_trip(trip.id, reads):
            return None
        if not is_current(self.out, trip.id, told.made_from):
            return None
        return KeptPlan(
            trip.id,
            told.made_from,
            tuple(_retold(each, with_folders, self.marks) for each in told.problems),
            told.dangers,
            of_data(TripShare, told.share),
        )

    def keep(self, planned: OneTrip, made_from: str) -> None:
        """Write down the plan of a kit that was built."""
        kit = planned.kit
        if kit.review is not None or self._states is None or self._content is None:
            return
        cautions = [each.id for each in kit.cautions]
        used = records_of_trip(self._content.trips[kit.id], self._content, cautions)
        reads = sorted({*planned.reads, *used})
        names: dict[str, list[str]] = {}
        for kind, name in reads:
            names.setdefault(kind, []).append(name)
        told = as_text(
            _Told(
                made_from,
                self._states.of_trip(kit.id, reads),
                names,
                tuple(_retold(each, without_folders, self.marks) for each in planned.problems),
                Dangers.of([kit]),
                as_data(share_of(kit)),
            )
        )
        write_over(self._file(kit.id), f"{_hash([told])}\n{told}")

    def written(self, trip_id: str) -> str:
        """Give what was written down of a trip, for who keeps it elsewhere; "" for nothing."""
        try:
            return self._file(trip_id).read_text("utf-8")
        except (OSError, ValueError):
            return ""

    def keep_written(self, trip_id: str, text: str) -> None:
        """Write down what was kept of a trip elsewhere."""
        write_over(self._file(trip_id), text)

    def forget(self, trip_ids: Iterable[str]) -> None:
        """Take away what was written down of some trips."""
        for trip_id in trip_ids:
            self._file(trip_id).unlink(missing_ok=True)

    def _file(self, trip_id: str) -> Path:
        from builder.site.folder.made import OWN_FOLDER

        return self.out / OWN_FOLDER / f"{trip_id}.plan"

    def _read(self, trip_id: str) -> _Told | None:
        """Give what was written down; None where nothing was, or not all of it is there."""
        state, _, told = self.written(trip_id).partition("\n")
        return told_as(told, _Told) if state == _hash([told]) else None


def _retold(
    problem: Problem, retell: Callable[[str, FolderMarks], str], marks: FolderMarks
) -> Problem:
    """Give a problem with marks in the place of folders, or folders in that of marks."""
    place = replace(problem.place, file=retell(problem.place.file, marks))
    says, mend = (retell(text, marks) for text in (problem.says, problem.mend))
    return replace(problem, place=place, says=says, mend=mend)


class _States:
    """Short names for the state of records, each looked at once."""

    def __init__(self, marks: FolderMarks, planner: Planner, tool: str) -> None:
        content, stock = planner.whole, planner.stock
        self.marks, self.texts = marks, planner.folder.texts
        self.trips, self.lessons = content.trips, planner.lessons
        self.records: dict[str, Mapping[str, object]] = {
            **{kind: getattr(content, name) for name, kind in OF_CONTENT.items()},
            **{name: getattr(content.gear, name) for name in OF_GEAR},
            **{name: getattr(stock, name) for name in OF_STOCK},
        }
        people = [self._words(key) for key in sorted(self.texts) if key[0] == "person"]
        self.of_all = _hash([tool, _same_each_time(content.home), *people])
        self.known: dict[Read, str] = {}

    def of_trip(self, trip_id: str, reads: Iterable[Read]) -> str:
        """Give the state of all that a trip was planned from."""
        learned = learned_before(self.trips[trip_id], self.lessons)
        taught = self._with_origins([_same_each_time(learned)], learned)
        states = (self._of(each) for each in [("trip", trip_id), *reads])
        return _hash([self.of_all, taught, *states])

    def _of(self, read: Read) -> str:
        if read not in self.known:
            self.known[read] = _hash(self._parts(*read))
        return self.known[read]

    def _parts(self, kind: str, name: str) -> list[str]:
        """Give all that tells the state of a record: its value, its words, and their place."""
        records = self.records[kind.removesuffix(WHETHER)]
        if kind.endswith(WHETHER):
            return [kind, name, str(name in records)]
        if name == EVERY:
            return [kind, *records]
        if name not in records:
            return [kind, name]
        record = records[name]
        parts = [kind, name, _same_each_time(record), self._words((kind, name))]
        if kind not in OF_STOCK:
            return parts
        return [self._with_origins(parts, record)]

    def _with_origins(self, parts: list[str], made: object) -> str:
        """Give what tells the state of what planning made: in the kit it tells of its origins."""
        origins = origins_of(made)
        leaves = (repr(each) for each in origins if not isinstance(each, (Worked, Reckoned)))
        return without_folders("\n".join([*parts, *leaves]), self.marks)

    def _words(self, key: Read) -> str:
        found = self.texts.get(key)
        if found is None:
            return ""
        at = "" if found.whole_file else f":{found.node.place.line}:{found.node.place.column}"
        return f"{found.path}{at} {written_words(found)}"


def _same_each_time(record: object) -> str:
    """Give a record in words; sets have no order of their own."""
    return _SETS.sub(lambda found: f"{{{sorted(found[1].split(', '))}}}", repr(record))


def _hash(parts: Iterable[str]) -> str:
    digest = hashlib.sha256()
    for part in parts:
        content = part.encode("utf-8", "surrogatepass")
        digest.update(len(content).to_bytes(8, "big"))
        digest.update(content)
    return digest.hexdigest()
