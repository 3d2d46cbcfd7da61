"""What is taken of a kit that may be anybody's: no id changes its meaning unasked."""

from __future__ import annotations

import textwrap
from collections.abc import Collection, Iterable, Mapping
from typing import Any

from builder.model.batch import Batch
from builder.model.content import Content, Gear
from builder.model.food import Food
from builder.problems import Problem, ProblemsFound, did_you_mean
from builder.reading.anew.cuttings import Key, cut
from builder.reading.anew.rewriting import with_entry
from builder.reading.folder import Folder
from builder.reading.record_text import RecordText
from builder.reading.text.spelling import written_anew
from builder.reading.text.yaml_door import read_yaml
from builder.record import dataclass, field, fields, names_of, replace
from builder.starts.fresh import StartError


@dataclass(slots=True)
class Taken:
    """What is written into the folder, and what a person has to know of it."""

    texts: dict[Key, RecordText] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)


def taken_of(keys: Iterable[Key], kit: Folder, here: Folder, theirs: Collection[str]) -> Taken:
    """Give the records of a kit that the folder lacks or is told to take.

    A different record under a shipped id is told and left there, one under an id of the user's own
    is a problem that names both. Allergens are joined, whichever of two foods stands.
    """
    found = Taken()
    problems: list[Problem] = []
    differing: set[str] = set()
    for key in keys:
        theirs_one, ours = record_of(kit.content, key), record_of(here.content, key)
        if key not in kit.texts or _same(theirs_one, ours):
            continue
        if ours is None:
            found.texts[key] = kit.texts[key]
        elif key in here.own:
            problems.append(_differs(key, theirs_one, ours))
        else:
            differing.add(key[1])
            _settle(found, key, kit, here, take=key[1] in theirs)
    if problems:
        raise ProblemsFound(problems)
    if odd := sorted(set(theirs) - differing):
        raise StartError(
            f"the kit has no record {odd[0]!r} that differs from a shipped one",
            did_you_mean(odd[0], sorted(differing)) if differing else "leave --take-theirs out",
        )
    return found


def _settle(found: Taken, key: Key, kit: Folder, here: Folder, take: bool) -> None:
    """Keep the shipped record or take the kit's, and tell which; join what both tell to avoid."""
    kind, name = key
    theirs, ours = record_of(kit.content, key), record_of(here.content, key)
    said = f"{_KINDS.get(kind, kind)} {name!r}"
    parts = ", ".join(_differing(theirs, ours))
    stands, other, texts = (theirs, ours, kit.texts) if take else (ours, theirs, here.texts)
    if take:
        found.notes.append(
            f"Took the kit's {said} ({parts}): it stands for the shipped one in all your trips."
        )
        found.texts[key] = texts[key]
    else:
        found.notes.append(
            f"Kept the shipped {said}: the kit's has another {parts}. "
            f"--take-theirs {name} takes the kit's."
        )
    if isinstance(stands, Food) and isinstance(other, Food):
        told = joined_to_avoid(stands, other)
        if any(getattr(stands, name) != names for name, names in told.items()):
            found.texts[key] = _telling(texts[key], told)
            found.notes.append(f"Joined what both tell to avoid in {said}.")


def joined_to_avoid(stands: Food, other: Food) -> dict[str, tuple[str, ...] | None]:
    """Give the allergens and kinds that two foods of one id tell: never less than either.

    Where the one that stands tells none, what the other tells becomes traces: not told stays so.
    """
    held, traces = set(other.allergens or ()), {*stands.may_contain, *other.may_contain}
    kinds = stands.contains
    # Only of what could be anything does "not told" say more than no kinds at all.
    if not stands.is_anything and (more := set(other.contains or ()) - set(kinds or ())):
        kinds = (*(kinds or ()), *sorted(more))
    if stands.allergens is None:
        return {"contains": kinds, "allergens": None, "may_contain": tuple(sorted(traces | held))}
    every = {*stands.allergens, *held}
    return {
        "contains": kinds,
        "allergens": (*stands.allergens, *sorted(every - set(stands.allergens))),
        "may_contain": (
            *stands.may_contain,
            *sorted(traces - every - set(stands.may_contain)),
        ),
    }


def _telling(record: RecordText, told: Mapping[str, tuple[str, ...] | None]) -> RecordText:
    """Give a food's text with other allergens."""
    text = as_list_item(record)
    for key, names in told.items():
        if names:
            text = with_entry(text, key, f"[{', '.join(names)}]")
    return list_item(record, text)


def as_list_item(record: RecordText) -> str:
    """Give a record's text as an item of a list, from whatever file."""
    if not record.whole_file:
        return cut(record)
    text = "- " + textwrap.indent(record.text, "  ").lstrip()
    node, problems = read_yaml(text, record.path)
    whole = node is not None and not problems and len(node.items) == 1
    return text if whole else written_anew(record.node, "- ")


def list_item(record: RecordText, text: str) -> RecordText:
    """Give a record that stands alone in a list."""
    node, problems = read_yaml(text, record.path)
    if node is None or problems or len(node.items) != 1:
        raise AssertionError(f"{record.path} was not rewritten well")
    return RecordText(record.path, text, node.items[0])


_KINDS = {
    "stoves": "stove",
    "fuels": "fuel",
    "pots": "pot",
    "irons": "iron",
    "dryers": "dryer",
}


def _differing(theirs: Any, ours: Any) -> list[str]:
    """Name the fields in which two records differ, by the keys of their files."""
    keys = {*theirs.places.fields, *ours.places.fields}
    return [
        max((key for key in keys if each.name.startswith(key)), key=len, default=each.name)
        for each in fields(ours)
        if each.compare and getattr(theirs, each.name) != getattr(ours, each.name)
    ]


def _differs(key: Key, theirs: Any, ours: Any) -> Problem:
    return Problem(
        ours.places.record,
        "record-differs",
        f"{key[0]} {key[1]!r} stands here and, with other words, in the kit "
        f"({theirs.places.record})",
        "give yours another id, or make the two the same",
    )


def record_of(content: Content, key: Key) -> Any:
    """Give a record by its kind and id, or None."""
    kind, name = key
    rooms: Mapping[str, Mapping[str, Any]] = {
        "food": content.foods,
        "recipe": content.recipes,
        "batch": content.batches,
        "trip": content.trips,
        "source": content.sources,
        "caution": content.cautions,
        **{sort: getattr(content.gear, sort) for sort in names_of(Gear)},
    }
    return rooms[kind].get(name)


def _same(theirs: Any, ours: Any) -> bool:
    """Tell whether two records say the same; what was eaten of a batch since does not count."""
    if isinstance(theirs, Batch) and isinstance(ours, Batch):
        theirs = replace(theirs, used=0, notes="")
        ours = replace(ours, used=0, notes="")
    return bool(theirs == ours)
