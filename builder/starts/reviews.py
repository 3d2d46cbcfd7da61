"""Writes a trip's sheet for afterwards, and puts into it what was filled in elsewhere.

Edits by offset, so that every byte that no edit means stays.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from builder.model.kit import Kit
from builder.problems import Problem, ProblemsFound, errors
from builder.reading.declared.values import is_blank
from builder.reading.files import LARGEST_BYTES
from builder.reading.folder import Folder, Layer
from builder.reading.record_text import RecordText
from builder.reading.text.as_written import edited_bytes
from builder.reading.text.layout import with_keys, with_value, without_key
from builder.reading.text.spelling import Edit, as_yaml, edited, in_flow, plain
from builder.reading.text.yaml_door import Node, decode, read_yaml
from builder.reading.trips.reviews import without_blanks
from builder.record import dataclass, replace
from builder.starts.fresh import StartError
from builder.starts.reading_over import own_trip, read_over
from builder.starts.swapping import swap_in

REVIEW = "review"
# Says an amount, as `units.show` does.
Show = Callable[[float, str], str]
_PLANNED = re.compile(r" *# (?:planned|took) [^\n]*")  # as the sheet tells it beside a blank


@dataclass(frozen=True, slots=True)
class ReviewTaken:
    """The file that took a sheet in, the trip as planned with it, and what was not taken."""

    file: str
    kit: Kit
    kept: tuple[str, ...]  # keys that the trip told otherwise already


# -- the sheet ------------------------------------------------------------------------------------


def write_sheet(layers: Sequence[Layer], kit: Kit, show: Show) -> str | None:
    """Write a trip's sheet into its file, which it gives; None where it has a sheet already."""
    record, before = own_trip(layers, kit.id)
    entry = record.node.entries.get(REVIEW)
    if entry is not None and not _is_empty(entry.node):
        return None
    if record.node.flow:
        raise StartError(
            f"{record.path} is written in brackets", "write it on lines, or put `review:` in it"
        )
    edits = [] if entry is None else [without_key(record.text, record.node, REVIEW)]
    text = edited(record.text, edits)
    end = len(record.text)
    gap = "" if text.endswith("\n") else "\n"
    edits.append(Edit(end, end, gap + "".join(f"{line}\n" for line in _sheet(kit, show))))
    _, write = _to_write(layers, record, before, edits)
    return write()


def _is_empty(review: Node) -> bool:
    return is_blank(review) or (review.is_map and not review.entries)


def _sheet(kit: Kit, show: Show) -> Iterator[str]:
    """Give the lines of a sheet, what was planned beside each blank."""

    def planned(amount: float, quantity: str) -> str:
        return f"# planned {show(amount, quantity)}".replace("\u00a0", " ")

    meals = [meal for day in kit.days for meal in day.meals]
    dishes = {meal.recipe: meal for meal in meals if meal.recipe}
    foods: dict[str, float] = {}
    for meal in meals:
        if not meal.recipe:
            name = meal.food or meal.title
            foods[name] = foods.get(name, 0.0) + meal.mass_g
    yield f"{REVIEW}: # what was: fill in what you know, and leave the rest blank"
    if kit.likely_fuel_g:
        yield f"  fuel_used: {planned(kit.likely_fuel_g, 'mass_g')}"
    if kit.wood_g:
        yield f"  wood_used: {planned(kit.wood_g, 'mass_g')}"
    yield "  water: # all of each day"
    for day in kit.days:
        yield f"    - {{day: {day.day}, used: }} {planned(day.water.total_ml, 'volume_ml')}"
    yield "  left: # 0 % or 0 g says that nothing was left"
    for recipe in dishes:
        yield f"    - {{recipe: {recipe}, share: }}"
    for name, mass_g in foods.items():
        yield f"    - {{food: {as_yaml(name)}, mass: }} {planned(mass_g, 'mass_g')}"
    batches = [each for each in kit.batches if each.packs_used]
    if batches:
        yield "  back: # packs that came home whole"
        for each in batches:
            yield f"    {each.id}: # took {each.packs_used}"
    if dishes:
        yield "  took: # minutes, from the first flame to the first bite"
        for recipe, meal in dishes.items():
            yield f"    - {{recipe: {recipe}, minutes: }} # planned {meal.minutes:.0f}"
        yield "  marks: # 1 to 5"
        yield from (f"    {recipe}:" for recipe in dishes)
    yield "  notes:"


# -- what was filled in elsewhere ------------------------------------------------------------------


def take_review(
    layers: Sequence[Layer], trip: str, sheet: Path, plan: Callable[[Folder], Kit]
) -> ReviewTaken:
    """Put what a sheet tells into a trip's file; what the trip tells already stays.

    The trip is planned with it first: `plan` raises ProblemsFound where the sheet tells of what
    the trip does not have, and then nothing is written.
    """
    told = _told(sheet, trip)
    record, before = own_trip(layers, trip)
    entry = record.node.entries.get(REVIEW)
    kept: list[str] = []
    if entry is None:
        edits = [with_keys(record.text, record.node, {REVIEW: in_flow(told)})]
    elif not entry.node.entries:
        edits = [with_value(record.text, entry, in_flow(told))]
    else:
        edits = list(_edits(record.text, entry.node, told, kept))
    there, write = _to_write(layers, record, before, edits)
    kit = plan(there)
    return ReviewTaken(write(), kit, tuple(kept))


def _told(sheet: Path, trip: str) -> Node:
    """Read a sheet that may come from anyone."""
    try:
        if sheet.stat().st_size > LARGEST_BYTES:
            raise StartError(f"{sheet} is too large for a sheet", "name the file that the kit gave")
        raw = sheet.read_bytes()
    except OSError as error:
        says = f"{sheet} cannot be read ({error.strerror})"
        raise StartError(says, "name the file that the kit gave") from error
    text, problems = decode(raw, sheet.as_posix())
    root, more = read_yaml(text, sheet.as_posix())
    if errors([*problems, *more]):
        raise ProblemsFound([*problems, *more])
    review = root.entries.get(REVIEW) if root else None
    of = root.entries.get("trip") if root else None
    if root is None or review is None or not review.node.is_map:
        raise StartError(f"{sheet} is no sheet: it has no `review:`", "name the kit's own file")
    if of is not None and of.node.text.strip() != trip:
        raise StartError(
            f"{sheet} is of another trip, {of.node.text.strip()!r}", f"name that trip, not {trip}"
        )
    told = without_blanks(review.node)
    filled = replace(
        told, value={name: each for name, each in told.entries.items() if not is_blank(each.node)}
    )
    if not filled.entries:
        raise StartError(f"nothing is filled in in {sheet}", "fill in what you know")
    return filled


def _edits(text: str, review: Node, told: Node, kept: list[str]) -> Iterator[Edit]:
    """Put in each key that is blank or missing; note those that are told otherwise."""
    known = without_blanks(review).entries
    new: dict[str, str] = {}
    for name, entry in told.entries.items():
        if name in known and not is_blank(known[name].node):
            if plain(known[name].node) != plain(entry.node):
                kept.append(name)
        elif name in review.entries:
            yield _filled_in(text, with_value(text, review.entries[name], in_flow(entry.node)))
        else:
            new[name] = in_flow(entry.node)
    if new:
        yield with_keys(text, review, new)


def _filled_in(text: str, edit: Edit) -> Edit:
    """Let what the last blank of a list was planned as go with the list."""
    planned = _PLANNED.match(text, edit.end)
    is_list = "\n" in text[edit.start : edit.end]
    return replace(edit, end=planned.end()) if planned and is_list else edit


# -- the file -------------------------------------------------------------------------------------


def _to_write(
    layers: Sequence[Layer], record: RecordText, before: bytes, edits: Sequence[Edit]
) -> tuple[Folder, Callable[[], str]]:
    """Read the folder as if the file were written, and give what writes it and tells which.

    Raises:
        ProblemsFound: Something is wrong with the file then.
    """
    own = layers[-1]
    after = edited_bytes(before, edits)
    there = read_over({record.path: after}, layers)
    wrong: list[Problem] = [
        each for each in errors(there.problems) if each.place.file.endswith(record.path)
    ]
    if wrong:
        raise ProblemsFound(wrong)

    def write() -> str:
        if after != before:
            swap_in(own.folder / record.path, before, after)
        return f"{own.shown}/{record.path}"

    return there, write
