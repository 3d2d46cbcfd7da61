"""The page of a recipe: amounts, warnings, then steps as they are cooked at this height."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.model.kit import Kit, KitDay, PlannedMeal
from builder.model.recipe import OVER_FLAME
from builder.pages import words
from builder.pages.figures import Figures, figures_of
from builder.pages.pictures import Shown, shown
from builder.pages.pieces import Cell, Piece, Scale, Table, filled, join, link, text
from builder.pages.trip.addresses import at_meal
from builder.pages.trip.cautions import Box
from builder.pages.trip.dishes.allergens import allergens_said
from builder.pages.trip.dishes.amounts import amounts_of
from builder.pages.trip.dishes.plates import energy_of_each, plates
from builder.pages.trip.dishes.recipe_steps import StepLine, stands_by_step, steps_of
from builder.pages.trip.origins.changing import Controls, controls_of, figures_of_page, shown_in
from builder.pages.trip.placing import boxes_at, boxes_at_step
from builder.record import dataclass, field, replace
from builder.speech import later, speech_of
from builder.units import other_system

_POTTED = ("pot", "mug")  # what is heated in a pot
_IN = {
    "pot": later("In the pot"),
    "iron": later("In the iron"),
    "mug": later("In the mug"),
    "none": later("No fire, no stove"),
}
_COOKED_IN = {  # over what, and whether in several potfuls
    (None, False): later("{vessel}."),
    (None, True): later("{vessel}, {potfuls}."),
    ("stove", False): later("{vessel}, on the stove."),
    ("stove", True): later("{vessel}, on the stove, {potfuls}."),
    ("fire", False): later("{vessel}, on the fire."),
    ("fire", True): later("{vessel}, on the fire, {potfuls}."),
    ("embers", False): later("{vessel}, in the embers."),
    ("embers", True): later("{vessel}, in the embers, {potfuls}."),
    ("stove, embers", False): later("{vessel}, on the stove, then in the embers."),
    ("stove, embers", True): later("{vessel}, on the stove, then in the embers, {potfuls}."),
    ("fire, embers", False): later("{vessel}, on the fire, then in the embers."),
    ("fire, embers", True): later("{vessel}, on the fire, then in the embers, {potfuls}."),
}
_POT_THEN_IRON = {  # a filling is cooked first
    "stove": later("{pot}, on the stove. Then {iron} in the embers."),
    "fire": later("{pot}, on the fire. Then {iron} in the embers."),
    "embers": later("{pot}, in the embers. Then {iron} there too."),
}


@dataclass(frozen=True, slots=True)
class Cooking:
    """One way the recipe is cooked in this trip; several days may share it."""

    anchor: str
    title: str
    party: int
    eaters: str
    in_short: Cell
    amounts: Table
    potfuls: Cell
    steps: tuple[StepLine, ...]
    plates: str  # how the pot is shared out; "" where that is not told
    one_mug: bool  # the steps are for one mug of several
    controls: Controls = field(compare=False)  # what one may change of it
    times: tuple[tuple[int, int], ...] = ()  # day, and the meal's place in it
    allergens: tuple[str, ...] = ()
    how: Cell = ()  # to how its figures came about, for the first of the times


@dataclass(frozen=True, slots=True)
class CookPage:
    """One recipe."""

    path: str
    title: str
    note: str
    picture: Shown | None
    boxes: tuple[Box, ...]
    notes: tuple[Box, ...]
    cookings: tuple[Cooking, ...]
    several: bool
    others: tuple[Cell, ...]  # its pages for other days, where there is more than one
    figures: Mapping[str, object]  # those that follow what one changes


@dataclass(frozen=True, slots=True)
class _Time:
    """One time that a recipe is cooked: the day, and the meal's place in it."""

    day: KitDay
    place: int
    meal: PlannedMeal

    @property
    def at(self) -> str:
        """Its address in kit.json."""
        return at_meal(self.day, self.place)


# So that no page of a long trip of many is long to load.
_WAYS_A_PAGE = 30
_PLATES_A_PAGE = 360

Anchors = Mapping[tuple[int, int], str]


def cook_pages(kit: Kit) -> tuple[CookPage, ...]:
    """Give a page for each recipe of the trip, in the order of first cooking."""
    times: dict[str, list[_Time]] = {}
    for day in kit.days:
        for place, meal in enumerate(day.meals):
            if meal.recipe:
                times.setdefault(meal.recipe, []).append(_Time(day, place, meal))
    return tuple(page for recipe, cooked in times.items() for page in _pages(kit, recipe, cooked))


def step_anchors(pages: tuple[CookPage, ...]) -> Anchors:
    """Give the address of the steps for each cooked meal, by day and its place in the day."""
    return {
        time: f"{page.path}#{way.anchor}"
        for page in pages
        for way in page.cookings
        for time in way.times
    }


def cook_link(meal: PlannedMeal, href: str) -> Cell:
    """Give a meal's title, leading to its steps where it is cooked."""
    return (Piece(meal.title, href=href),)


def _pages(kit: Kit, recipe: str, times: list[_Time]) -> Iterator[CookPage]:
    """Give the page of a recipe, or several where it is cooked in very many ways."""
    ways = list(_together(kit, times))
    fit = max(1, min(_WAYS_A_PAGE, _PLATES_A_PAGE // len(kit.party)))
    parts = [ways[first : first + fit] for first in range(0, len(ways), fit)]
    # No id of a recipe has a dot in it.
    further = (f"cook/{recipe}.{number}.md" for number in range(2, len(parts) + 1))
    paths = [f"cook/{recipe}.md", *further]
    titles = [_title(kit, part) for part in parts] if len(parts) > 1 else [times[0].meal.title]
    for path, title, part in zip(paths, titles, parts, strict=True):
        others = tuple(
            link(other_title, other)
            for other, other_title in zip(paths, titles, strict=True)
            if other != path
        )
        yield replace(_page(kit, f"cook/{recipe}.md", part), path=path, title=title, others=others)


def _title(kit: Kit, ways: Sequence[tuple[_Time, Cooking]]) -> str:
    """Give the title of a page among several of a recipe: the days it is first cooked on."""
    first, last = ways[0][0], ways[-1][0]
    return speech_of(kit.language)(
        "{dish}, days {first} to {last}",
        dish=first.meal.title,
        first=first.day.day,
        last=last.day.day,
    )


def _page(kit: Kit, path: str, ways: Sequence[tuple[_Time, Cooking]]) -> CookPage:
    boxes = boxes_at(kit, path)
    cookings = tuple(way for _, way in ways)
    meal = ways[0][0].meal
    return CookPage(
        path,
        meal.title,
        meal.note,
        shown(meal.picture),
        tuple(box for box in boxes if box.level != "note"),
        tuple(box for box in boxes if box.level == "note"),
        cookings,
        len(cookings) > 1,
        (),
        figures_of_page(kit, {time.at: time.meal for time, _ in ways}, shown_in(cookings)),
    )


def _together(kit: Kit, times: list[_Time]) -> Iterator[tuple[_Time, Cooking]]:
    """Give the ways a recipe is cooked, each with its first time.

    Times of the same figures, unrounded, that read the same are told once.
    """
    say = speech_of(kit.language)
    alike: dict[tuple[Cooking, tuple[float, ...]], list[_Time]] = {}
    ways: dict[str, Cooking] = {}
    for time in times:
        way = ways[time.at] = cooking(kit, time.meal, time.day.day, time.at)
        values = (time.meal.conditions.altitude_m, *(each.value for each in shown_in(way)))
        alike.setdefault((way, values), []).append(time)
    taken: set[str] = set()
    for shared in alike.values():
        first = shared[0]
        name = anchor = f"day-{first.day.day}-{first.meal.meal}"
        again = 1
        while anchor in taken:
            again += 1
            anchor = f"{name}-{again}"
        taken.add(anchor)
        yield (
            first,
            replace(
                ways[first.at],
                anchor=anchor,
                title=say.listed(
                    dict.fromkeys(
                        words.meal_of_day(say, time.day, time.meal.meal) for time in shared
                    )
                ),
                times=tuple((time.day.day, time.place) for time in shared),
                how=_how(kit, first),
            ),
        )


_TRACED = (
    ("minutes", later("minutes")),
    ("potfuls", later("potfuls")),
    ("presses", later("presses")),
    ("heat_kj", later("heat")),
    ("fuel_heat_kj", later("fuel")),
    ("wood_g", later("wood")),
    ("energy_kcal", later("food energy")),
)


def _how(kit: Kit, time: _Time) -> Cell:
    """Lead to how the figures of a meal came about."""
    figures = figures_of(kit)
    known = [
        (Piece(figures.say(name), href=href),)
        for figure, name in _TRACED
        if (href := figures.how(f"{time.at}.{figure}"))
    ]
    known += [
        (Piece(figures.say(name), href=href),)
        for figure, name in _looks_at(time)
        if (href := figures.how(figure))
    ]
    return join(known)


def _looks_at(time: _Time) -> Iterator[tuple[str, str]]:
    """Give the figures of second looks at the steps of a meal, and their names."""
    for place, step in enumerate(time.meal.steps):
        if step.keeps_hot:
            yield f"{time.at}.steps.{place}.keeps_hot.bare_c.1", later("heat left")
    for place, step in enumerate(time.meal.steps):
        if step.under_pressure:
            yield (
                f"{time.at}.steps.{place}.under_pressure.minutes",
                later("minutes under pressure"),
            )


def cooking(kit: Kit, meal: PlannedMeal, day: int, at: str) -> Cooking:
    """Give one meal as it is cooked on a day; `at` is its address in kit.json."""
    figures = figures_of(kit)
    party = len(meal.eaters)
    potfuls = _potfuls(kit, meal, at)
    return Cooking(
        "",
        "",
        party,
        words.eaters_said(figures.say, kit, meal),
        _in_short(kit, figures, meal, potfuls, at),
        amounts_of(figures, meal, at),
        potfuls if meal.potfuls > 1 else (),
        tuple(
            steps_of(
                figures,
                meal,
                at,
                stands_by_step(figures, meal),
                boxes={
                    place: boxes_at_step(kit, day, meal, place)
                    for place, _ in enumerate(meal.steps)
                },
            )
        ),
        plates(figures, meal),
        meal.cook_in == "mug" and party > 1,
        controls_of(kit, meal, at),
        allergens=allergens_said(figures.say, meal),
    )


def _in_short(kit: Kit, figures: Figures, meal: PlannedMeal, potfuls: Cell, at: str) -> Cell:
    """Say in what it is cooked, how long that takes, how hot water gets, how much it feeds."""
    say = figures.say
    here = meal.conditions
    pots = {pot_id: name for pot_id, name, _ in kit.pots}
    vessel = say(_IN[meal.cook_in or "none"])
    if meal.cook_in in _POTTED:
        vessel = pots.get(meal.pot or "", vessel)
    elif meal.cook_in == "iron":
        vessel = say.listed(kit.irons) or vessel
    said: list[Piece] = []
    if meal.minutes:
        takes = figures.plain(meal.minutes, "duration_min")
        scale = Scale("min", meal.minutes, f"{at}.minutes", name="takes")
        said += [Piece(takes, strong=True, scale=scale), Piece(". ")]
    if meal.cook_in == "iron" and meal.cooked_on and meal.pot in pots and _needs_a_pot(meal):
        pot_first = say(_POT_THEN_IRON[meal.cooked_on])
        said += filled(pot_first, pot=text(pots[meal.pot]), iron=text(vessel))
    else:
        cooked_in = say(_COOKED_IN[_cooked_on(meal), bool(potfuls)])
        said += filled(cooked_in, vessel=text(vessel), potfuls=potfuls)
    if name := kit.stove_names.get(meal.stove or ""):
        said += [Piece(" "), Piece(say("Stove: {name}.", name=name))]
    if meal.cooked_on and meal.cook_in in _POTTED:
        boils = Scale("celsius", here.boiling_point_c, f"{at}.boiling_point_c", name="boils-at")
        height = Scale("m", here.altitude_m, f"{at}.altitude_m", name="height")
        said.append(Piece(" "))
        said += filled(
            say("Water boils at {temperature} here, at {height}."),
            temperature=_in_both(figures, "temperature_c", boils),
            height=_in_both(figures, "altitude_m", height),
        )
    return (*said, Piece(" "), Piece(energy_of_each(figures, meal)))


def _needs_a_pot(meal: PlannedMeal) -> bool:
    """Tell whether anything is heated or soaked in a pot before it goes into the irons."""
    return any(step.water_ml or step.do in OVER_FLAME for step in meal.steps)


def _in_both(figures: Figures, quantity: str, scale: Scale) -> Cell:
    """Give a figure in both units, each told anew for another height."""
    other = other_system(figures.units)
    return tuple(
        replace(piece, scale=replace(scale, units=other if piece.small else figures.units))
        if piece.text.strip()
        else piece
        for piece in figures.both(scale.value, quantity)
    )


def _cooked_on(meal: PlannedMeal) -> str | None:
    """Give over what it is cooked, one after the other where it is baked in at the end."""
    if meal.cook_in == "iron" and meal.cooked_on:
        return "embers"
    if meal.cooked_on == "embers" or not any(step.do == "bake" for step in meal.steps):
        return meal.cooked_on
    over_flame = any(step.do in OVER_FLAME or step.hot for step in meal.steps)
    return f"{meal.cooked_on}, embers" if over_flame else "embers"


def _potfuls(kit: Kit, meal: PlannedMeal, at: str) -> Cell:
    """Give how many times the pot is filled."""
    if not meal.potfuls or meal.cook_in not in _POTTED:
        return ()
    scale = Scale("potfuls", meal.potfuls, f"{at}.potfuls")
    say = speech_of(kit.language)
    potfuls = say.count("{n} potful", "{n} potfuls", meal.potfuls)
    return (Piece(potfuls, strong=True, scale=scale),)
