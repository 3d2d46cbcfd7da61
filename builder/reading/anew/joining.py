"""Makes one trip's text of several: their days in a row, their party and gear united.

The first trip's text stays but for what is added; days, people and things of the others come with
the comments that belong to them. Where two trips say different things, both places are told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.model.trip import Trip
from builder.reading.anew.uniting import Draft, unite_gear, unite_party, unite_rest
from builder.reading.record_text import RecordText
from builder.reading.text.spelling import in_flow, plain
from builder.reading.text.yaml_door import Node
from builder.reading.way.overlays import EVERY_DAY
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """A trip that is joined with others: as it is written, and as it reads."""

    record: RecordText
    trip: Trip

    @property
    def node(self) -> Node:
        """What is written, with its places in the file."""
        return self.record.node


@dataclass(frozen=True, slots=True)
class Joined:
    """One trip's text, and what could not be joined, each with its place."""

    text: str
    told: tuple[str, ...]


def joined(parts: Sequence[Part]) -> Joined:
    """Join trips in the order given, each day as its own trip has it."""
    drafts = [Draft(each.record) for each in parts]
    told: list[str] = []
    differing = _differing(parts)
    for number, (part, draft) in enumerate(zip(parts, drafts, strict=True)):
        following = parts[number + 1] if number + 1 < len(parts) else None
        spread = [key for key in differing if key in _every_day(part.node)]
        told += _camp_instead_of_home(part, draft, following)
        told += _away_from_home(part, draft, number == 0, following is None)
        told += _without_track(part, draft)
        for day in range(len(part.trip.days)):
            for key in spread:
                _put_under(draft, ("days", day), key, _every_day(part.node)[key])
    base, first = drafts[0], parts[0]
    for key in differing:
        if _every_day(base.node).keys() == {key}:
            base.drop((), "every_day")
        elif key in _every_day(base.node):
            base.drop(("every_day",), key)
    before = len(first.trip.days)
    for part, draft in zip(parts[1:], drafts[1:], strict=True):
        told += unite_party(base, first.node, part.record, part.trip)
        told += unite_gear(base, part.record)
        told += unite_rest(base, part.node, before)
        written = RecordText(draft.file, draft.text, draft.node)
        base.take("days", written, draft.at("days").items)
        before += len(part.trip.days)
    return Joined(base.text, tuple(told))


# -- what holds for every day ---------------------------------------------------------------------


def _every_day(trip: Node) -> Mapping[str, Node]:
    entry = trip.entries.get("every_day")
    return {key: each.node for key, each in entry.node.entries.items()} if entry else {}


def _differing(parts: Sequence[Part]) -> list[str]:
    """Give what does not hold for every day of all trips alike, so that each day must tell it."""
    every = [_every_day(part.node) for part in parts]
    return [
        key
        for key in EVERY_DAY
        if any(
            (plain(each[key]) if key in each else None)
            != (plain(every[0][key]) if key in every[0] else None)
            for each in every
        )
    ]


def _put_under(draft: Draft, path: tuple[str | int, ...], key: str, under: Node) -> None:
    """Write into a day what held for every day, where it does not tell it itself."""
    holder = draft.at(*path)
    if "ends" in holder.entries and key == "wind":
        return  # that of the last camp holds
    own = holder.entries.get(key)
    if own is None:
        draft.put(path, key, in_flow(under))
    elif own.node.is_map and under.is_map:
        for name, entry in under.entries.items():
            _put_under(draft, (*path, key), name, entry.node)


# -- days between trips ---------------------------------------------------------------------------


def _camp_instead_of_home(part: Part, draft: Draft, following: Part | None) -> Iterator[str]:
    """Let a day that ended at home end at a camp, where more days follow."""
    last = len(part.trip.days) - 1
    entry = part.node.entries["days"].node.items[last].entries.get("ends")
    if following is None or entry is None:
        return
    draft.drop(("days", last), "ends")
    day = draft.at("days", last)
    if not {"camp_altitude", "barometer"} & day.entries.keys():
        height_m = _height_after(part.trip, following.trip)
        draft.put(("days", last), "camp_altitude", f"{height_m:.0f} m")
        yield (
            f"{entry.place}: this day ended at home and ends at a camp now, taken at "
            f"{height_m:.0f} m: tell where you sleep, and what is dinner"
        )


def _height_after(trip: Trip, following: Trip) -> float:
    """Give the likeliest height of a night that no trip tells: of the camp nearest in time."""
    camps = [day.camp for day in (*reversed(trip.days[:-1]), *following.days)]
    if following.start_camp is not None:
        camps.insert(0, following.start_camp)
    return next((each.altitude_m for each in camps if each.altitude_m is not None), 0.0)


def _away_from_home(part: Part, draft: Draft, is_first: bool, is_last: bool) -> Iterator[str]:
    """Take out what is eaten at home between two trips: nobody is there then."""
    days = part.node.entries["days"].node.items
    for number, day in enumerate(days):
        may_be_home = (is_first and number == 0) or (is_last and number == len(days) - 1)
        entry = day.entries.get("home")
        if entry is None or may_be_home:
            continue
        draft.drop(("days", number), "home")
        yield (
            f"{entry.place}: what was eaten at home is eaten on the way now: tell it, or write "
            "such as `breakfast: open`"
        )


def _without_track(part: Part, draft: Draft) -> Iterator[str]:
    """Write out what a track tells of each day: it has no place for the days of other trips."""
    entry = part.node.entries.get("track")
    if entry is None:
        return
    draft.drop((), "track")
    for number, day in enumerate(part.trip.days):
        path: tuple[str | int, ...] = ("days", number)
        told = draft.at(*path).entries
        if not {"camp_altitude", "barometer", "ends"} & told.keys() and day.camp.altitude_m:
            draft.put(path, "camp_altitude", f"{day.camp.altitude_m:.0f} m")
        travel = told.get("travel")
        if len(day.travel) != 1 or (travel is not None and not travel.node.is_map):
            continue
        (leg,) = day.travel
        known = travel.node.entries if travel else {}
        for key, value in (
            ("distance", f"{leg.distance_m / 1000:.1f} km" if leg.distance_m else ""),
            ("ascent", f"{leg.ascent_m:.0f} m" if leg.ascent_m else ""),
            ("descent", f"{leg.descent_m:.0f} m" if leg.descent_m else ""),
        ):
            if value and key not in known and travel is not None:
                draft.put((*path, "travel"), key, value)
    yield f"{entry.place}: the track is left out; its heights and ways are written into the days"
