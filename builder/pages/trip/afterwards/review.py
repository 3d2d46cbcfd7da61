"""The page for afterwards: what was against what was planned, and the sheet to fill in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.model.kit import Kit, PlannedMeal
from builder.model.learned import Against, Reviewed, Taught
from builder.pages import words
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Piece, Table, table, text
from builder.pages.trip.afterwards.learned import learned_cells, times_said
from builder.record import dataclass
from builder.speech import later

REVIEW = "review.md"
_NAMES: dict[Taught, str] = {
    "fuel": later("Fuel of the stove"),
    "wood": later("Wood"),
    "water": later("Drunk, besides food and hot drinks"),
    "food": later("Food"),
}
_QUANTITIES: dict[Taught, tuple[str, str]] = {
    "fuel": ("mass_g", "g"),
    "wood": ("mass_g", "g"),
    "water": ("volume_ml", "ml"),
    "food": ("energy_kcal", "kcal"),
}


@dataclass(frozen=True, slots=True)
class Blank:
    """One thing to fill in, and how the file says it: `key` with `of` what, and in which unit."""

    key: str
    of: str  # a day, a recipe, a food or a batch; "" where the key is all
    unit: str  # of a bare number; "" where none is needed
    label: str


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the sheet: what it is about, what was planned of it, and its blanks."""

    what: str
    planned: str
    blanks: tuple[Blank, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """Rows under heads."""

    heads: tuple[str, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class ReviewPage:
    """What was, what was learned before, and the sheet."""

    trip: str
    was: Table | None
    dishes: Table | None
    notes: str
    learned: tuple[Cell, ...]
    sheets: tuple[Sheet, ...]


def review_page(kit: Kit) -> ReviewPage | None:
    """Give the page for afterwards; a public kit has none: what was is the party's own."""
    if kit.public:
        return None
    figures = figures_of(kit)
    was = kit.review
    return ReviewPage(
        kit.id,
        _was(was, figures) if was else None,
        _dishes(was, figures) if was else None,
        was.notes if was else "",
        learned_cells(kit, figures, "fuel", "wood", "water", "food"),
        tuple(each for each in _sheets(kit, figures) if each.rows),
    )


# -- what was --------------------------------------------------------------------------------------


def _was(was: Reviewed, figures: Figures) -> Table | None:
    say = figures.say
    rows = []
    for what, name in _NAMES.items():
        against = was.against(what)
        if against is not None:
            rows.append((text(say(name)), *_against(what, against, figures)))
    for number, day in enumerate(was.water_days):
        at = f"review.water_days.{number}"
        rows.append(
            (
                text(say("All water of day {n}", n=day.day)),
                figures.alone(day.planned_ml, "volume_ml", f"{at}.planned_ml"),
                figures.alone(day.used_ml, "volume_ml", f"{at}.used_ml"),
                (),
            )
        )
    heads = (say("What"), say("Planned"), say("Actual"), say("Actual to planned"))
    return table(heads, rows, "lrrr") if rows else None


def _against(what: Taught, against: Against, figures: Figures) -> tuple[Cell, Cell, Cell]:
    quantity, unit = _QUANTITIES[what]
    at = f"review.{what}"
    times = Piece(times_said(figures, against.ratio), href=figures.how(f"{at}.ratio"))
    return (
        figures.alone(against.planned, quantity, f"{at}.planned_{unit}"),
        figures.alone(against.used, quantity, f"{at}.used_{unit}"),
        (times,),
    )


def _dishes(was: Reviewed, figures: Figures) -> Table | None:
    """Give what was left, how long dishes took and how good they were, a line for each."""
    say = figures.say
    told: dict[str, list[Cell]] = {}

    def line(title: str, place: int, cell: Cell) -> None:
        cells = told.setdefault(title, [(), (), ()])
        cells[place] = (*cells[place], *([Piece(", ")] if cells[place] else []), *cell)

    for number, left in enumerate(was.left):
        share = Piece(figures.percent(left.share), href=figures.how(f"review.left.{number}.share"))
        day = [Piece(" "), Piece(words.numbered_day(say, left.day), small=True)] if left.day else []
        line(left.title, 0, (share, *day))
    for number, took in enumerate(was.took):
        at = f"review.took.{number}"
        planned = figures.plain(took.planned_minutes, "duration_min")
        line(
            took.title,
            1,
            (
                *figures.alone(took.minutes, "duration_min", f"{at}.minutes"),
                Piece(" "),
                Piece(say("planned {amount}", amount=planned), small=True),
            ),
        )
    for mark in was.marks:
        line(mark.title, 2, text(say("{mark} of 5", mark=say.number(mark.mark))))
    heads = (say("Dish"), say("Left over"), say("Took"), say("Mark"))
    rows = [(text(title), *cells) for title, cells in told.items()]
    return table(heads, rows, "lrrr") if rows else None


# -- the sheet -------------------------------------------------------------------------------------


def _sheets(kit: Kit, figures: Figures) -> Iterator[Sheet]:
    say = figures.say
    yield Sheet((say("Over the trip"), say("Actual")), tuple(_over_the_trip(kit, figures)))
    heads = (say("Dish"), say("Took, min"), say("Left, %"), say("Mark, 1 to 5"))
    yield Sheet(heads, tuple(_of_dishes(kit, figures)))
    yield Sheet((say("Eaten as it is"), say("Left, g")), tuple(_of_foods(kit, figures)))
    yield Sheet((say("Packs"), say("Came home whole")), tuple(_of_batches(kit, figures)))


def _planned(figures: Figures, amount: float, quantity: str) -> str:
    return figures.say("planned {amount}", amount=figures.plain(amount, quantity))


def _over_the_trip(kit: Kit, figures: Figures) -> Iterator[Row]:
    say = figures.say
    if kit.likely_fuel_g:
        name = say("Fuel of the stove, g")
        planned = _planned(figures, kit.likely_fuel_g, "mass_g")
        yield Row(name, planned, (Blank("fuel_used", "", "g", name),))
    if kit.wood_g:
        name = say("Wood, kg")
        planned = _planned(figures, kit.wood_g, "mass_g")
        yield Row(name, planned, (Blank("wood_used", "", "kg", name),))
    for day in kit.days:
        name = say("All water of day {n}, litres", n=day.day)
        planned = _planned(figures, day.water.total_ml, "volume_ml")
        yield Row(name, planned, (Blank("water", str(day.day), "l", name),))


def _of_dishes(kit: Kit, figures: Figures) -> Iterator[Row]:
    say = figures.say
    cooked: dict[str, list[PlannedMeal]] = {}
    for meal in _meals(kit):
        if meal.recipe:
            cooked.setdefault(meal.recipe, []).append(meal)
    for recipe, meals in cooked.items():
        title = meals[0].title
        minutes = sum(meal.minutes + meal.embers_min for meal in meals) / len(meals)
        blanks = (
            Blank("took", recipe, "", say("{dish}: took, in minutes", dish=title)),
            Blank("left-share", recipe, "%", say("{dish}: left over, in percent", dish=title)),
            Blank("marks", recipe, "", say("{dish}: mark from 1 to 5", dish=title)),
        )
        yield Row(title, _planned(figures, minutes, "duration_min") if minutes else "", blanks)


def _of_foods(kit: Kit, figures: Figures) -> Iterator[Row]:
    say = figures.say
    eaten: dict[str, list[PlannedMeal]] = {}
    for meal in _meals(kit):
        if not meal.recipe:
            eaten.setdefault(meal.food or meal.title, []).append(meal)
    for food, meals in eaten.items():
        title = meals[0].title
        planned = _planned(figures, sum(meal.mass_g for meal in meals), "mass_g")
        label = say("{food}: left over, in grams", food=title)
        yield Row(title, planned, (Blank("left-mass", food, "g", label),))


def _of_batches(kit: Kit, figures: Figures) -> Iterator[Row]:
    say = figures.say
    names = Counter(batch.name for batch in kit.batches)
    for batch in kit.batches:
        if batch.packs_used:
            alone = names[batch.name] == 1
            title = batch.name if alone else f"{batch.name} ({batch.id})"
            label = say("{food}: packs that came home whole", food=title)
            took = say.count("took {n} pack", "took {n} packs", batch.packs_used)
            yield Row(title, took, (Blank("back", batch.id, "", label),))


def _meals(kit: Kit) -> Iterator[PlannedMeal]:
    return (meal for day in kit.days for meal in day.meals)
