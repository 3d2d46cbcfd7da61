"""Where each caution stands: few in front, the rest where one must act.

What is read aloud before any trip stands on a page of its own and nowhere else. Everything else
stands at its step, meal, batch or person, or on the page it is about; all stand on the page of
cautions too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from builder.model.kit import Carried, Kit, KitCaution, KitDay, PlannedMeal
from builder.model.source import Level
from builder.pages.pieces import Cell, Mark, Piece
from builder.pages.trip.addresses import day_path
from builder.pages.trip.cautions import Box, boxes, page_of
from builder.record import dataclass, replace
from builder.speech import Speech, speech_of

MOST_CARES = 3
MOST_THINGS = 3  # of a list in one line in front
MOST_REASONS = 6  # of a danger in front; where there are more, each stands at its meal and its page
THINGS_PARTED_BY = "; "  # since names of foods hold commas
MOST_LINES = 5  # cares fill up to these; dangers stand all, however many

ALOUD = "read-aloud.md"
# Who must not eat what, or may have to leave it, has a part of its own on each one's page.
REFUSED = "not-to-be-eaten"
TOLD_APART = frozenset({REFUSED, "may-contain", "allergens-not-told"})


FrontLine = tuple[Box, str]


@dataclass(frozen=True, slots=True)
class Front:
    """What the first page says of cautions."""

    dangers: tuple[FrontLine, ...]  # those of this trip, each with what brings it up
    cares: tuple[FrontLine, ...]
    aloud: str  # the gravest of what is read aloud

    @property
    def lines(self) -> tuple[FrontLine, ...]:
        """Give the dangers, then the cares."""
        return self.dangers + self.cares


@dataclass(frozen=True, slots=True)
class AloudPage:
    """What is read to everybody before leaving."""

    boxes: tuple[Box, ...]


def own(kit: Kit) -> Iterator[KitCaution]:
    """Go through the cautions of this trip's own making."""
    return (each for each in kit.cautions if not each.aloud)


def front(kit: Kit) -> Front:
    """Give all dangers of this trip, and cares until there are five lines."""
    every = boxes(kit, own(kit))
    dangers = [box for box in every if box.level == "danger"]
    room = min(MOST_CARES, max(0, MOST_LINES - len(dangers)))
    cares = [box for box in every if box.level == "care"][:room]
    every_aloud = boxes(kit, _aloud(kit))
    gravest = [box for box in every_aloud if box.level == every_aloud[0].level]
    say = speech_of(kit.language)
    return Front(
        tuple((box, _reasons(say, box)) for box in dangers),
        tuple((box, _reasons(say, box)) for box in cares),
        "; ".join(box.title for box in gravest),
    )


def _reasons(say: Speech, box: Box) -> str:
    """Tell a danger with its reasons, a care with the first, and how many more there are."""
    is_danger = box.level == "danger"
    told = box.because[:MOST_REASONS] if is_danger else (_shortened(say, box.because[0]),)
    because = " ".join(f"{reason}." for reason in told)
    more = len(box.because) - len(told)
    return f"{because} {say.count('And {n} more.', 'And {n} more.', more)}" if more else because


def _shortened(say: Speech, reason: str) -> str:
    """Name the first of many things; the caution's own page names them all."""
    things = reason.split(THINGS_PARTED_BY)
    if len(things) <= MOST_THINGS + 1:
        return reason
    first = THINGS_PARTED_BY.join(things[:MOST_THINGS])
    return say("{things} and {n} more", things=first, n=len(things) - MOST_THINGS)


def _aloud(kit: Kit) -> Iterator[KitCaution]:
    return (each for each in kit.cautions if each.aloud)


def aloud_page(kit: Kit) -> AloudPage:
    """Give what is read to everybody before leaving."""
    return AloudPage(boxes(kit, _aloud(kit)))


def _own_boxes(kit: Kit, stands: Callable[[KitCaution], bool]) -> tuple[Box, ...]:
    """Give those of this trip's own making that stand somewhere."""
    return boxes(kit, filter(stands, own(kit)))


def boxes_of(kit: Kit, path: str) -> tuple[Box, ...]:
    """Give all that belongs to a page, wherever on it."""
    return _own_boxes(kit, lambda each: page_of(each.where) == path)


def boxes_at(kit: Kit, path: str) -> tuple[Box, ...]:
    """Give what stands at the top of a page: what belongs to no part of it."""
    return _own_boxes(kit, lambda each: page_of(each.where) == path and not _has_part(each, path))


def _has_part(caution: KitCaution, path: str) -> bool:
    """Tell whether it stands at a step, batch or meal of its page."""
    at = caution.at
    if path.startswith("cook/"):
        return at.meal is not None and at.step is not None
    if path.startswith("day-"):
        return at.meal is not None
    return path == "drying.md" and at.batch is not None


def boxes_at_step(kit: Kit, day: int, meal: PlannedMeal, step: int) -> tuple[Box, ...]:
    """Give what stands at a step; the reasons name days, and the same dish is told once."""
    place = _place(kit.days[day - 1], meal)
    found = _own_boxes(
        kit,
        lambda each: (
            (each.at.meal == (day, place) and each.at.step == step)
            or (_is_of_a_batch(each) and _step_with(meal, each.at.batch) == step)
        ),
    )
    return tuple(replace(box, because=()) for box in found)


def _is_of_a_batch(caution: KitCaution) -> bool:
    """Tell whether it hangs on a batch, whatever meal eats of it."""
    return caution.at.batch is not None and caution.at.meal is None


def _step_with(meal: PlannedMeal, batch: str | None) -> int | None:
    """Give the step in which food of a batch first comes out of its pack."""
    ids = {each.id for each in meal.ingredients if each.batch == batch}
    return next(
        (
            place
            for place, step in enumerate(meal.steps)
            if any(each.id in ids for each in step.ingredients)
        ),
        None,
    )


def _place(day: KitDay, meal: PlannedMeal) -> int | None:
    return next((place for place, each in enumerate(day.meals) if each == meal), None)


def boxes_at_batch(kit: Kit, batch: str) -> tuple[Box, ...]:
    """Give what stands at a batch of the drying log."""
    return _own_boxes(
        kit, lambda each: page_of(each.where) == "drying.md" and each.at.batch == batch
    )


def boxes_of_person(kit: Kit, name: str) -> tuple[Box, ...]:
    """Give what one person must see to; what they must not eat is told apart."""
    return _own_boxes(kit, lambda each: each.at.person == name and each.id not in TOLD_APART)


def boxes_at_meal(kit: Kit, day: KitDay, place: int) -> tuple[Box, ...]:
    """Give what stands at a meal that is eaten as it is: it has no page of its own."""
    path, at = day_path(day), (day.day, place)
    return _own_boxes(kit, lambda each: page_of(each.where) == path and each.at.meal == at)


def lines_of_meal(
    kit: Kit, day: KitDay, place: int, steps: Mapping[tuple[int, int], str]
) -> tuple[Cell, ...]:
    """Give what stands with the steps of a cooked meal, leading there."""
    at = (day.day, place)
    found = _own_boxes(
        kit, lambda each: page_of(each.where).startswith("cook/") and each.at.meal == at
    )
    href = steps.get(at, "")
    return tuple(_line(box, href) for box in found if box.level != "note")


def lines_of_day(kit: Kit, day: KitDay, level: Level) -> tuple[Cell, ...]:
    """Give what is this grave on a day and is told on another page, leading there."""
    path = day_path(day)
    found = {
        box.id: (box, page_of(each.where))
        for each in own(kit)
        if each.level == level and day.day in each.at.days and page_of(each.where) != path
        for box in boxes(kit, [each])
    }
    return tuple(_line(box, where) for box, where in found.values())


def pack_line(kit: Kit, thing: Carried) -> Cell:
    """Give what one must see to where a thing is carried: RAW first, then the act."""
    batches = _batches_in(kit, thing)
    found = _own_boxes(
        kit,
        lambda each: (
            each.level != "note"
            and (
                (each.at.pack == thing.kind and each.at.meal == thing.meal)
                or (_is_of_a_batch(each) and each.at.batch in batches)
            )
        ),
    )
    acts = [piece for box in found for piece in (Piece(". "), Piece(f"{box.word}: {box.title}."))]
    if thing.meal in _raw_meals(kit):
        return (Piece(" "), *raw(speech_of(kit.language))[:1], *acts)
    return tuple(acts)


def _batches_in(kit: Kit, thing: Carried) -> set[str]:
    """Give the batches whose packs a thing to carry holds."""
    return {
        each.batch
        for day in kit.days
        for place, meal in enumerate(day.meals)
        if thing.kind == "food" and thing.meal == (day.day, place)
        for each in meal.ingredients
        if each.batch
    }


def _raw_meals(kit: Kit) -> set[tuple[int, int]]:
    """Give the meals with raw animal food in their packs."""
    return {
        (day.day, place)
        for day in kit.days
        for place, meal in enumerate(day.meals)
        if any(each.is_raw_animal for each in meal.ingredients)
    }


def _line(box: Box, href: str) -> Cell:
    return (Piece(f"{box.word}:", strong=True), Piece(" "), Piece(box.title, href=href))


def raw(say: Speech) -> Cell:
    """Give the word that stands in reverse letters before raw animal food."""
    return (Piece(say("RAW"), mark=Mark("raw")), Piece("\u00a0"))
