"""Drawings of our own, for what words say badly: a few strokes in the colour of the text."""

from __future__ import annotations

from builder.model.kit import PlannedMeal, PlannedStep, WorkStep
from builder.pages.figures import Figures
from builder.pages.trip.dishes.plates import are_uneven
from builder.record import dataclass
from builder.speech import Speech, later


@dataclass(frozen=True, slots=True)
class Stroke:
    """One path in a field of 120 by 84."""

    path: str
    width: str = ""  # "" for as wide as most
    dash: str = ""
    is_filled: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """A few strokes, what they show, and a name by which a page shows them again."""

    name: str
    shows: str
    strokes: tuple[Stroke, ...]

    def said(self, say: Speech) -> Drawing:
        """Give it with its words in a language."""
        return Drawing(self.name, say(self.shows), self.strokes)


_COALS = Stroke(
    "M6 80l3-9 8-3 7 4 2 8zM29 80l-1-8 7-5 9 3 3 10zM50 80l2-10 9-4 7 5 1 9zM72 80l-1-9 7-4 9 3 "
    "2 10zM92 80l3-9 7-3 8 5 1 7z",
    is_filled=True,
)

FILL_IRON = Drawing(
    "fill-iron",
    later("The iron lies open with the filling on its lower half. Close the upper half over it."),
    (
        Stroke("M8 66h58l-8 13H17zM66 67h24M9 61l45-38-11-6L14 42zM54 23l13-11"),
        Stroke("M92 67h21M69 10l6-5", width="8"),
        Stroke("M26 60h34M29 54q-3 0-3-4t4-4h27q4 0 4 4t-3 4zM29 54l5 5 5-5 5 5 5-5 5 5 4-5"),
        Stroke("M90 14q16 18 10 38m-8-7l7 9 8-7"),
    ),
)
TURN_IRON = Drawing(
    "turn-iron",
    later("The closed iron above the embers. Roll it over by its handles."),
    (
        Stroke("M6 34h54l-7-13H14zM6 38h54l-7 13H14zM60 36h28"),
        Stroke("M92 36h22", width="8"),
        Stroke("M68 44c-1 17 15 18 16 1M84 28C83 4 66 6 68 28M60 21l8 9 7-10"),
        _COALS,
    ),
)
DROP_DANCES = Drawing(
    "drop-dances",
    later("A drop of water hops across the hot iron and hisses away."),
    (
        Stroke("M6 60h78l-9 14H15zM84 62h12"),
        Stroke("M98 62h16", width="8"),
        Stroke("M58 20q11 13 8 20a8 8 0 0 1-16 0q-1-8 8-20z", is_filled=True),
        Stroke("M10 42q7-10 13 14 6-40 13-2 3-22 10-16", dash="1 6"),
        Stroke("M77 52q5-5 0-10t0-10M90 50q5-5 0-10t0-10"),
    ),
)
BAKE = Drawing(
    "bake",
    later("A pot with its lid on. Embers lie under it, and more of them on the lid."),
    (
        Stroke(
            "M22 34h76M28 34v22q0 9 9 9h46q9 0 9-9V34M34 33q4-8 26-8t26 8M38 66l-4 12M82 66l4 12"
            "M28 42q-9 2-9 10M92 42q9 2 9 10"
        ),
        Stroke(
            "M35 22l2-7 7-3 6 4 1 6zM53 20l2-8 8-3 6 4 1 7zM72 22l1-7 7-3 6 4 1 6zM43 81l2-6 6-3 "
            "5 3 1 6zM62 81l1-6 6-3 6 4 1 5zM12 81l2-7 7-3 6 4 1 6zM93 81l1-7 7-3 6 4 1 6z",
            is_filled=True,
        ),
    ),
)
PALM = Drawing(
    "palm",
    later("An open hand, palm down, above the embers. Count the seconds until you pull it away."),
    (
        Stroke(
            "M62 6H32a4 4 0 0 0 0 8h30M62 14H24a4 4 0 0 0 0 8h38M62 22H26a4 4 0 0 0 0 8h36M62 30"
            "H36a4 4 0 0 0 0 8h24l10 4-14 6q-4 4 1 6l24-6q6-2 10-8l23-2M62 6l18-3 10 5h24"
        ),
        Stroke("M22 62q-6-5 0-11M102 62q-6-5 0-11"),
        _COALS,
    ),
)
SNOW = Drawing(
    "snow",
    later("A pot over the flame. A little water is in it first, then snow goes in on top."),
    (
        Stroke("M20 34h70M26 34v30q0 8 8 8h42q8 0 8-8V34M86 40h28"),
        Stroke("M28 58q6-6 12 0t12 0 12 0 12 0 8-2M44 82l4-6 4 6 4-6 4 6 4-6 4 6"),
        Stroke("M34 32c-5-8 1-15 8-13 1-9 9-14 17-9 7-2 13 2 13 9 7 0 10 8 4 13"),
        Stroke("M16 6v14M10 9l12 8M22 9l-12 8M98 6v14M92 9l12 8M104 9l-12 8"),
    ),
)
SHARE = Drawing(
    "share",
    later("A ladle fills the mugs one after the other, each up to the same line."),
    (
        Stroke("M112 4L74 24M74 24L44 13q-9 15 7 21 17 5 23-10zM44 14q-10 8-10 24"),
        Stroke(
            "M14 48h34v26q0 6-6 6H20q-6 0-6-6zM70 48h34v26q0 6-6 6H76q-6 0-6-6zM48 55q10 0 10 8"
            "t-10 8M104 55q10 0 10 8t-10 8"
        ),
        Stroke("M18 61h26M74 61h26", dash="2 6"),
    ),
)

Drawings = tuple[Drawing, ...]


_AT: dict[str, Drawings] = {
    "press": (FILL_IRON, TURN_IRON),
    "preheat": (DROP_DANCES,),
    "bake": (BAKE, PALM),
    "melt": (SNOW,),
}


def drawn_at_work(figures: Figures, meal: PlannedMeal | None, step: WorkStep) -> Drawings:
    """Give what is drawn at a step of an order of work, in which a press is one step."""
    if meal is not None and _melts(meal, step.do, step.water_ml):
        return _in(figures.say, SNOW)
    if step.do == "serve" and meal is not None and _is_ladled(figures, meal):
        return _in(figures.say, SHARE)
    return _in(figures.say, *_AT.get(step.do, ()))


def drawn_at_step(figures: Figures, meal: PlannedMeal, step: PlannedStep) -> Drawings:
    """Give what is drawn at a step of a recipe, whose turning is a line of its own."""
    say = figures.say
    if step.do == "serve" and _is_ladled(figures, meal):
        return _in(say, SHARE)
    if step.do == "press":
        return _in(say, FILL_IRON)
    if _melts(meal, step.do, step.water_ml):
        return _in(say, SNOW)
    return _in(say, *_AT.get(step.do, ()))


def hot_iron_drawn(say: Speech) -> Drawings:
    """Give the test that an iron is hot."""
    return _in(say, DROP_DANCES)


def turning_drawn(say: Speech) -> Drawings:
    """Give the turning of an iron."""
    return _in(say, TURN_IRON)


def not_yet(seen: set[Drawing], drawings: Drawings) -> Drawings:
    """Give those that were not seen before, and note them: once on a page is enough."""
    fresh = tuple(each for each in drawings if each not in seen)
    seen.update(fresh)
    return fresh


def _in(say: Speech, *drawings: Drawing) -> Drawings:
    return tuple(each.said(say) for each in drawings)


def _melts(meal: PlannedMeal, do: str, water_ml: float) -> bool:
    """Tell whether a boil begins with snow."""
    return do == "boil" and water_ml > 0 and meal.conditions.water_source == "snow"


def _is_ladled(figures: Figures, meal: PlannedMeal) -> bool:
    """Tell whether several eat alike of what was cooked in a pot."""
    return meal.cook_in == "pot" and len(meal.eaters) > 1 and not are_uneven(figures, meal)
