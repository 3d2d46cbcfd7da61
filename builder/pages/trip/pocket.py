"""The pocket page: the whole kit in one file, from the same views as the pages.

What is the same twice is told once: a dish cooked again leads to its steps, and says where it
differs, which is in the minutes of another height.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from builder.model.kit import Kit, KitDay
from builder.model.recipe import MEALS, MealName
from builder.pages import words
from builder.pages.pictures import Shown, shown
from builder.pages.pieces import words_of
from builder.pages.trip.afterwards.wrong_in_short import WrongInShort
from builder.pages.trip.cautions import Box, Case, CautionsPage, Entry, Group
from builder.pages.trip.day import DayPage
from builder.pages.trip.dishes.cook import Cooking, CookPage
from builder.pages.trip.dishes.drawings import Drawings
from builder.pages.trip.dishes.order import OrderView
from builder.pages.trip.dishes.recipe_steps import StepLine
from builder.pages.trip.glance import GlancePage
from builder.pages.trip.light import eaten_at
from builder.pages.trip.placing import REFUSED, AloudPage, boxes_of
from builder.pages.trip.supplies.carry import CarryPage
from builder.pages.trip.supplies.fuel import FuelPage
from builder.pages.trip.supplies.shopping import ShoppingPage
from builder.pages.trip.supplies.water import WaterPage
from builder.planning.menu import avoided_said
from builder.record import dataclass, replace
from builder.speech import Speech, speech_of

# Numbers, and times however they are told: what is 55 min at one height is 1 h 5 min at another.
_NUMBERS = re.compile(r"(?:\d+\u00a0[ht] )?\d+(?:\u00a0(?:min|h|t)\b)?")
_LONG_DAYS = 7  # more than these, and what is alike is told more shortly still


@dataclass(frozen=True, slots=True)
class Danger:
    """A danger before the steps, with a line for each whom it is about where that is known."""

    word: str
    title: str
    text: str  # what to do; "" where it was told just before
    who: tuple[str, ...]
    anchor: str  # of the caution at the end of the page


@dataclass(frozen=True, slots=True)
class As:
    """The place where the same was told before, and the steps that were a little different."""

    day: str
    anchor: str
    here: tuple[tuple[int, StepLine], ...] = ()  # each with its number


@dataclass(frozen=True, slots=True)
class PocketMeal:
    """A cooked meal in its place in the day."""

    meal: MealName
    anchor: str
    name: str  # of the meal
    dish: str
    note: str
    eaters: str  # "" where all eat of it
    dangers: tuple[Danger, ...]
    cares: tuple[Box, ...]  # told at the end of the page
    cooking: Cooking
    eat: str  # when, as 18:30; "" where the trip does not tell it
    picture: Shown | None
    again: As | None = None
    shares_as: As | None = None  # where the same shares were told


@dataclass(frozen=True, slots=True)
class PocketOrder:
    """An order of work in its day."""

    anchor: str
    view: OrderView
    again: As | None = None
    in_other_minutes: bool = False  # than there, as at another height


@dataclass(frozen=True, slots=True)
class PocketDay:
    """A day with the steps of its meals."""

    anchor: str
    page: DayPage
    dangers: tuple[Danger, ...]
    orders: tuple[PocketOrder, ...]
    meals: tuple[PocketMeal, ...]


@dataclass(frozen=True, slots=True)
class PocketPage:
    """Everything, in the order it is needed."""

    language: str
    glance: GlancePage
    days: tuple[PocketDay, ...]
    carry: CarryPage
    water: WaterPage
    fuel: FuelPage
    aloud: AloudPage
    wrong: tuple[WrongInShort, ...]
    cautions: CautionsPage  # those that are not read aloud
    shopping: ShoppingPage
    is_long: bool

    @property
    def drawn(self) -> Drawings:
        """Give each drawing once, however many steps show it."""
        steps = (
            step
            for day in self.days
            for meal in day.meals
            if not meal.again
            for step in meal.cooking.steps
        )
        return tuple(dict.fromkeys(each for step in steps for each in step.drawings))


def is_long(kit: Kit) -> bool:
    """Tell whether so many are away for so long that their page would grow heavy."""
    return len(kit.party) > words.FEW and len(kit.days) > _LONG_DAYS


def pocket_days(
    kit: Kit, days: tuple[DayPage, ...], cook: tuple[CookPage, ...]
) -> tuple[PocketDay, ...]:
    """Put the steps of each day's meals behind its menu."""
    say = speech_of(kit.language)
    ways = {time: way for page in cook for way in page.cookings for time in way.times}
    told = _Told({}, {}, {})
    made = []
    met: set[str] = set()
    for day, page in zip(kit.days, days, strict=True):
        if not is_long(kit):
            met.clear()
        dangers = _met(met, tuple(_dangers(kit, say, day, None, boxes_of(kit, page.path))))
        meals = tuple(_in_short(met, tuple(_meals(kit, say, told, day, ways))))
        orders = tuple(_orders(say, told, day, page, meals))
        if is_long(kit):  # the day's energy, fuel and time are not cooked by; the site tells them
            page = replace(page, facts=())
        made.append(PocketDay(f"day-{day.day}", page, dangers, orders, meals))
    return tuple(made)


def _in_short(met: set[str], meals: tuple[PocketMeal, ...]) -> Iterator[PocketMeal]:
    """Tell what to do about a danger where a day first meets it; later its name and whom."""
    for meal in meals:
        yield meal if meal.again else replace(meal, dangers=_met(met, meal.dangers))


def _met(met: set[str], dangers: tuple[Danger, ...]) -> tuple[Danger, ...]:
    shortened = tuple(replace(each, text="") if each.title in met else each for each in dangers)
    met.update(danger.title for danger in dangers)
    return shortened


@dataclass(frozen=True, slots=True)
class _Told:
    """What was told on the days before, by what makes it the same."""

    meals: dict[object, tuple[As, Cooking]]
    orders: dict[object, tuple[As, tuple[str, ...]]]  # with what its rows say
    shares: dict[object, As]


def pocket_cautions(kit: Kit, page: CautionsPage) -> CautionsPage:
    """Leave out what is read aloud, and what days and meals tell: what is in which meal."""
    aloud = {each.id for each in kit.cautions if each.aloud}

    def shorter(group: Group) -> Group:
        entries = (_shorter(kit, each) for each in group.entries if each.box.id not in aloud)
        return replace(group, entries=tuple(entries))

    return replace(page, groups=tuple(map(shorter, page.groups)))


def _shorter(kit: Kit, entry: Entry) -> Entry:
    if entry.box.id == REFUSED and not kit.public:
        say = speech_of(kit.language)
        refused = tuple(
            say(
                "{name} must not eat {food}",
                name=person.name,
                food=say.listed(dict.fromkeys(avoided_said(say, word) for word in person.avoids)),
            )
            for person in kit.party
            if any(each.eats and each.how == "told" for each in person.refused)
        )
        return replace(entry, cases=tuple(Case(because, ()) for because in refused))
    cases = (
        replace(case, where=()) if words_of(case.where) in case.because else case
        for case in entry.cases
    )
    return replace(entry, cases=tuple(dict.fromkeys(cases)))


def _orders(
    say: Speech, told: _Told, day: KitDay, page: DayPage, meals: tuple[PocketMeal, ...]
) -> Iterator[PocketOrder]:
    """Keep the orders of work that the steps of one dish do not tell by themselves."""
    manifold = {order.meal for order in day.orders if len({step.place for step in order.steps}) > 1}
    for view in page.orders:
        if view.meal in manifold:
            here = As(words.day_name(say, day), f"day-{day.day}-{view.anchor}")
            dishes = tuple(_sameness(each) for each in meals if each.meal == view.meal)
            rows = tuple(words_of(each) for row in view.table.rows for each in row)
            # When to begin a step is never the same words: 55 min may be 1 h 5 min there.
            doing = (words_of(each) for row in view.table.rows for each in row[1:])
            alike = (dishes, tuple(map(_timeless, doing)), view.in_turns)
            before, first = told.orders.setdefault(alike, (here, rows))
            again = before if before is not here else None
            yield PocketOrder(here.anchor, view, again, in_other_minutes=rows != first)


def _meals(
    kit: Kit, say: Speech, told: _Told, day: KitDay, ways: Mapping[tuple[int, int], Cooking]
) -> Iterator[PocketMeal]:
    for name in MEALS:
        number = 0
        for place, meal in enumerate(day.meals):
            if meal.meal != name or not meal.recipe:
                continue
            number += 1
            anchor = f"day-{day.day}-{name}-{number}"
            told_here = _meal(kit, say, day, place, anchor, way=ways[day.day, place])
            here = (As(words.day_name(say, day), told_here.anchor), told_here.cooking)
            before, first = told.meals.setdefault(_sameness(told_here), here)
            if before is not here[0]:
                changed = tuple(
                    (at, as_changed(step, old))
                    for at, (step, old) in enumerate(
                        zip(told_here.cooking.steps, first.steps, strict=True), start=1
                    )
                    if step != old
                )
                told_here = replace(told_here, again=replace(before, here=changed))
            elif told_here.cooking.plates and len(kit.party) > words.FEW:
                shared = told.shares.setdefault(told_here.cooking.plates, before)
                told_here = replace(told_here, shares_as=shared if shared is not before else None)
            yield told_here


def as_changed(step: StepLine, old: StepLine) -> StepLine:
    """Leave out the time at sea level where it is told with the other one, or is that one's."""
    return replace(step, sea_level="") if old.sea_level in ("", step.sea_level) else step


def _sameness(meal: PocketMeal) -> object:
    """Give all of a meal but what another height or another evening's air changes."""
    steps = tuple(
        (step.amounts, _timeless(words_of(step.do)), step.more, step.say)
        for step in meal.cooking.steps
    )
    way = meal.cooking
    dangers = tuple((danger.title, danger.who) for danger in meal.dangers)
    told = (meal.dish, meal.note, meal.eaters, dangers)
    return (told, way.potfuls, way.plates, steps)


def _timeless(said: str) -> str:
    return _NUMBERS.sub("0", said)


def _meal(
    kit: Kit, say: Speech, day: KitDay, place: int, anchor: str, *, way: Cooking
) -> PocketMeal:
    meal = day.meals[place]
    boxes = boxes_of(kit, f"cook/{meal.recipe}.md")
    return PocketMeal(
        meal.meal,
        anchor,
        say(words.MEALS[meal.meal]),
        meal.title,
        meal.note,
        words.eaters_said(say, kit, meal) if len(meal.eaters) < len(kit.party) else "",
        tuple(_dangers(kit, say, day, place, boxes)),
        tuple(replace(box, because=()) for box in boxes if box.level == "care"),
        way,
        eaten_at(kit, meal.meal),
        shown(meal.picture),
    )


def _dangers(
    kit: Kit, say: Speech, day: KitDay, place: int | None, boxes: tuple[Box, ...]
) -> Iterator[Danger]:
    """Give each danger of a meal, or of what a day has besides what is cooked, once."""
    for box in (box for box in boxes if box.level == "danger"):
        if box.id != REFUSED or kit.public:
            yield Danger(box.word, box.title, box.in_both, (), box.id)
        elif who := tuple(_who(kit, say, day, place)):
            yield Danger(box.word, box.title, box.in_both, who, box.id)


def _who(kit: Kit, say: Speech, day: KitDay, place: int | None) -> Iterator[str]:
    """Say who must not eat what; those who must not eat the same are named together."""
    names: dict[tuple[str, ...], list[str]] = {}
    for person in kit.party:
        what = dict.fromkeys(
            each.what
            for each in person.refused
            if each.eats
            and each.how == "told"
            and each.day == day.day
            and (each.place == place if place is not None else not day.meals[each.place].recipe)
        )
        if what:
            names.setdefault(tuple(what), []).append(person.name)
    for refused, people in names.items():
        yield f"{say.listed(people)}: {say.listed(map(say.inside, refused))}"
