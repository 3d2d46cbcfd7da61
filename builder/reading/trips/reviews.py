"""Reviews: what was, after a trip, held against what was planned."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Annotated

from pydantic import ValidationInfo

from builder.model.place import Place
from builder.model.recipe import MEALS, MealName
from builder.model.review import LeftOver, Review, Took, WaterUsed
from builder.problems import Problem, did_you_mean
from builder.reading.declared.declaring import Check, Here, Record, key
from builder.reading.declared.measures import Number, Quantity, count
from builder.reading.declared.shapes import Pairs
from builder.reading.declared.values import is_blank, on_one_line
from builder.reading.declared.vocabulary import Choice, Items, Line, Text
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.text.yaml_door import Node, quoted
from builder.reading.trips.at_hand import AtHand
from builder.record import dataclass, replace

WORST_MARK, BEST_MARK = 1, 5


def is_a_day_of_the_trip(here: Here) -> None:
    """Refuse the number of a day that the trip does not have."""
    days = len(here.notes.at_hand.days)
    if days and here.value > days:
        refuse("day-unknown", f"this trip has no day {here.value}", f"write a day from 1 to {days}")


_DAY = (count(at_least=1), Check(is_a_day_of_the_trip))
DayNumber = Annotated[int, *_DAY]


def _unknown(kind: str, name: str, known: Collection[str]) -> Amiss:
    says = f"there is no {kind} {quoted(name)}"
    return Amiss(f"{kind}-unknown", says, did_you_mean(name, known))


@dataclass(frozen=True)
class RecipeName(Line):
    """The id of a recipe."""

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> str:
        """Read an id, and find the recipe."""
        name, recipes = super().read(node, key, info), info.context.at_hand.recipes
        if name not in recipes:
            raise _unknown("recipe", name, recipes)
        return name


@dataclass(frozen=True)
class EatenName(Line):
    """A food, or what the trip eats by the name of its packet."""

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> str:
        """Read a name, and find it among what there is."""
        name, at_hand = super().read(node, key, info), info.context.at_hand
        if name not in at_hand.foods and name not in set(_eaten(at_hand)):
            raise _unknown("food", name, at_hand.foods)
        return name


def _eaten(at_hand: AtHand) -> Iterator[str]:
    """Give what is eaten as it is on the days of a trip."""
    for day in at_hand.days:
        meals = day.entries.get("meals")
        for meal in meals.node.entries.values() if meals else ():
            for item in meal.node.items or (meal.node,):
                entry = item.entries.get("eat")
                if entry is not None and entry.node.is_text:
                    yield on_one_line(entry.node.text)


class WrittenWaterUsed(Record, title="water used"):
    """The water of a day."""

    day: DayNumber = key("The number of the day.", required=True, example="2")
    used: Annotated[float, Quantity("volume_ml")] = key(
        "All of that day's.", required=True, example="9 l"
    )


class WrittenLeft(Record, title="what was left"):
    """What was not eaten."""

    recipe: Annotated[str | None, RecipeName()] = key("A dish.", example="smoky-bean-pot")
    food: Annotated[str | None, EatenName()] = key(
        "Or a food, as the trip names it.", example="oat-biscuits"
    )
    day: Annotated[int | None, *_DAY] = key("On which day; left out, over the trip.", example="2")
    meal: Annotated[MealName | None, Choice(MEALS)] = key("At which meal.", example="dinner")
    share: Annotated[float | None, Quantity("share")] = key(
        "How much of it was left.", example="20 %"
    )
    mass: Annotated[float | None, Quantity("mass_g")] = key(
        "Or the mass that was left; of a dish, with its water.", example="120 g"
    )

    @classmethod
    def amiss_among(cls, told: Mapping[str, Node], place: Place, notes: Notes) -> Iterable[Problem]:
        """Ask what was left, and how much of it."""
        for kind, keys, mend in (
            ("left-what", ("recipe", "food"), "write `recipe: smoky-bean-pot`, or `food:`"),
            ("left-how-much", ("share", "mass"), "write `share: 20 %`, or `mass: 120 g`"),
        ):
            found = [each for each in keys if each in told]
            if len(found) != 1:
                one, other = keys
                says = f"what was left tells {'both' if found else 'neither'} `{one}` "
                says += f"{'and' if found else 'nor'} `{other}`"
                yield Amiss(kind, says, mend).at(place)

    def left_over(self) -> LeftOver:
        """Give what later trips learn from."""
        return LeftOver(
            self.recipe, self.food, self.day, self.meal, self.share, self.mass, self.places()
        )


class WrittenTook(Record, title="what a dish took"):
    """How long a dish took."""

    recipe: Annotated[str, RecipeName()] = key("The dish.", required=True, example="smoky-bean-pot")
    minutes: Annotated[float, Number(more_than=0, at_most=1440)] = key(
        "From the first flame to the first bite.", required=True, example="34"
    )


class WrittenReview(Record, title="review"):
    """What was, after the trip; every key may be left out."""

    fuel_used: Annotated[float | None, Quantity("mass_g")] = key(
        "All the fuel of the stove.", example="310 g"
    )
    wood_used: Annotated[float | None, Quantity("mass_g")] = key(
        "All the wood of the fire.", example="6 kg"
    )
    water: Annotated[tuple[WrittenWaterUsed, ...], Items()] = key(
        "Water by day.", default=(), example="[{day: 1, used: 9 l}]"
    )
    left: Annotated[tuple[WrittenLeft, ...] | None, Items()] = key(
        "What was not eaten; `[]` says that nothing was left.",
        example="[{day: 1, meal: dinner, recipe: smoky-bean-pot, share: 20 %}]",
    )
    back: Annotated[dict[str, Annotated[int, count()]] | None, Pairs("back")] = key(
        "Packs of each batch that came home whole: they return to the stock.",
        example="{black-beans-spring: 1}",
    )
    took: Annotated[tuple[WrittenTook, ...], Items()] = key(
        "How long dishes took.",
        default=(),
        example="[{recipe: smoky-bean-pot, minutes: 34}]",
    )
    marks: Annotated[
        dict[str, Annotated[int, Number(WORST_MARK, BEST_MARK, whole=True)]] | None, Pairs("marks")
    ] = key("How good each dish was, 1 to 5.", example="{smoky-bean-pot: 4}")
    notes: Annotated[str, Text()] = key(
        "What else to know next time.",
        default="",
        example="Too salty; the wind was worse than told.",
    )

    @classmethod
    def note_left_out(cls, node: Node, notes: Notes) -> None:
        """Note names of batches and recipes that are not there."""
        at_hand = notes.at_hand
        for name, kind, known in (
            ("back", "batch", at_hand.batches),
            ("marks", "recipe", at_hand.recipes),
        ):
            entry = node.entries.get(name)
            for each, inner in entry.node.entries.items() if entry else ():
                if each not in known:
                    notes.append(_unknown(kind, each, known).at(inner.place))

    def review(self) -> Review:
        """Give what later trips learn from."""
        return Review(
            fuel_used_g=self.fuel_used,
            wood_used_g=self.wood_used,
            water=tuple(WaterUsed(each.day, each.used, each.places()) for each in self.water),
            left=None if self.left is None else tuple(each.left_over() for each in self.left),
            back=tuple((self.back or {}).items()),
            took=tuple(Took(each.recipe, each.minutes, each.places()) for each in self.took),
            marks=tuple((self.marks or {}).items()),
            notes=self.notes,
            places=self.places("back"),
        )


# What of a line of the sheet is to be filled in; the rest of it says of what.
_ASKED = frozenset({"used", "share", "mass", "minutes"})


def without_blanks(review: Node) -> Node:
    """Leave out the lines of a sheet that nobody filled in."""
    entries = {}
    for name, entry in review.entries.items():
        node = _filled(entry.node)
        if node is not None:
            entries[name] = replace(entry, node=node)
    return replace(review, value=entries) if review.is_map else review


def _filled(node: Node) -> Node | None:
    """Give what is filled in of a list or of pairs; None where nothing of them is."""
    if node.items:
        items = tuple(each for each in node.items if not _is_open(each))
        return replace(node, value=items) if items else None
    if node.entries:
        entries = {name: each for name, each in node.entries.items() if not is_blank(each.node)}
        return replace(node, value=entries) if entries else None
    return node


def _is_open(line: Node) -> bool:
    """Tell whether a line asks for something, and nothing stands there."""
    asked = [entry.node for name, entry in line.entries.items() if name in _ASKED]
    return bool(asked) and all(map(is_blank, asked))
