"""Lays what holds for every day under each day, and the first day under the start camp."""

from __future__ import annotations

from collections.abc import Mapping

from builder.reading.text.yaml_door import Entry, Node
from builder.record import replace

_CONDITIONS = ("camp_altitude", "barometer", "air", "wind", "water")
EVERY_DAY = ("air", "wind", "water", "travel")


def laid_out(trip: Node) -> tuple[Node, tuple[Node, ...]]:
    """Lay what holds for every day under each, and the first under the start camp; the days too."""
    parts = {name: entry.node for name, entry in trip.entries.items()}
    every_day = _only(parts.get("every_day"), EVERY_DAY)
    days: list[Node] = []
    for node in parts["days"].items if "days" in parts else ():
        common = every_day
        if "ends" in node.entries and node.entries["ends"].node.value is not None:
            # No camp of its own: height and wind are the last camp's, whatever every day has,
            # and so is all else that nobody tells.
            before = days[-1] if days else None
            common = overlaid(_conditions_below(before, node), every_day)
            common = overlaid(common, _only(before, ("wind",)))
            common = _without_others_water(common, node)
        days.append(replace((overlaid(common, node) if node.is_map else node) or node))
    laid = {"days": replace(parts["days"], value=tuple(days))} if days else {}
    camp = parts.get("start_camp")
    if camp is not None and camp.is_map:
        below = days[0] if days else every_day
        laid["start_camp"] = overlaid(_conditions_below(below, camp), camp) or camp
    return _with(trip, laid), tuple(days)


def _conditions_below(below: Node | None, own: Node) -> Node | None:
    """Give what a camp inherits; a barometer read elsewhere does not go with an own height."""
    keys = [key for key in _CONDITIONS if key != "barometer" or "camp_altitude" not in own.entries]
    return _only(below, tuple(keys))


def _without_others_water(common: Node | None, own: Node) -> Node | None:
    """Take out what lies near the last camp's water, and its warmth, where a day tells another."""
    water = own.entries.get("water")
    below = common.entries.get("water") if common is not None else None
    if common is None or below is None or water is None or "camp" not in water.node.entries:
        return common
    keys = tuple(key for key in below.node.entries if key not in ("near", "at"))
    kept = replace(below, node=_only(below.node, keys) or below.node)
    return replace(common, value={**common.entries, "water": kept})


def _only(node: Node | None, keys: tuple[str, ...]) -> Node | None:
    if node is None or not node.is_map:
        return None
    return replace(node, value={key: each for key, each in node.entries.items() if key in keys})


def _with(trip: Node, parts: Mapping[str, Node]) -> Node:
    """Put other nodes behind some keys; each keeps the place where it was written."""
    if not parts:
        return trip
    entries = {
        key: replace(entry, node=parts.get(key, entry.node)) for key, entry in trip.entries.items()
    }
    return replace(trip, value=entries)


def overlaid(under: Node | None, over: Node | None) -> Node | None:
    """Lay one mapping over another, field by field; other values replace what is under them."""
    if under is None or not under.is_map:
        return over if over is not None else under
    if over is None:
        return under
    if not over.is_map:
        return over
    entries = dict(under.entries)
    for key, entry in over.entries.items():
        below = entries.get(key)
        node = overlaid(below.node, entry.node) if below and entry.node.is_map else entry.node
        entries[key] = Entry(entry.place, node or entry.node)
    return Node(over.place, entries, over.start, over.end, over.size, over.flow)
