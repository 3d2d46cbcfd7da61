"""Meals: what is cooked, or eaten as it is, and by whom."""

from __future__ import annotations

from typing import Annotated, cast

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.batch import METHODS, Method
from builder.model.food import ALLERGENS, HAZARDS, KINDS, FoodKind, Hazard
from builder.model.place import Places
from builder.model.recipe import MealName, Swap
from builder.model.trip import HEATS, Heat, Label, Meal, MealItem
from builder.reading.checks.eaten import check_eaten, check_energy
from builder.reading.declared.declaring import Check, Here, Record, judging_at, key
from builder.reading.declared.measures import Quantity
from builder.reading.declared.shapes import ByShape, NamedOr, Pairs
from builder.reading.declared.values import check_is_record
from builder.reading.declared.vocabulary import Choice, Items, Line, Text, Value, Words
from builder.reading.declared.which_keys import just_one, told, where
from builder.reading.dishes.compositions import WrittenComposition, odd_sum
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.text.yaml_door import Node
from builder.reading.trips.helpings import (
    AUTO,
    OF_LABELS,
    Helping,
    from_batches,
    helping_g,
    note_unfit,
)
from builder.reading.trips.parties import Eaters, NameOf, eaters_of
from builder.record import dataclass, replace

OPEN = "open"
FRESH = ("raw", "cooked")  # states of food that may still be dried


def _somebody_eats(here: Here) -> None:
    at_hand = here.notes.at_hand
    if not here.value or (at_hand.party and not eaters_of(here.value, at_hand)):
        mend = "name somebody, or leave `for` out: then all eat"
        refuse("empty", "nobody eats this", mend)


Batches = Annotated[dict[str, Annotated[str, Text()]], Pairs("from")]


class WrittenHelping(Record):
    """What is cooked or eaten, from which batch, and by whom."""

    cook: Annotated[str, Line()] = key("A recipe.", default="", example="smoky-bean-pot")
    eat: Annotated[str, Line()] = key(
        "A food, a dried meal, or a name of your own with what its packet tells of 100 g: "
        "`energy`, `protein` and so on.",
        default="",
        example="oat-biscuits",
    )
    for_: Annotated[tuple[str, ...] | None, Eaters(), Check(_somebody_eats)] = key(
        "Who has of it, by name or by what they do not avoid: `[not vegetarian]` leaves out vegans "
        "too; left out, all.",
        example="[Ash]",
    )
    from_: Annotated[
        str | dict[str, str] | None, ByShape(text=Annotated[str, Text()], keys=Batches)
    ] = key(
        "The batch it comes from; a batch for each ingredient where several are dried. `auto` lets "
        "the tool choose free packs, those that expire first; `tripkit fill` writes them here.",
        example="{beans: black-beans-spring}",
    )
    dried_by: Annotated[Method | None, Choice(METHODS)] = key(
        "How it will be dried, of what is eaten and has no batch yet.", example="dehydrator"
    )
    swap: Annotated[dict[str, Annotated[str, Line()]], Pairs("swap")] = key(
        "Another food instead of an ingredient, as much of it, for all who have of this: write the "
        "dish once more for the others, and `for` in both.",
        default={},
        example="{pasta: pasta-gluten-free}",
    )
    heat: Annotated[Heat | None, Choice(HEATS)] = key(
        "On what its pot stands; left out, as its day, else the stove where there is one.",
        example="fire",
    )
    in_: Annotated[str | None, Line()] = key(
        "In which pot it is cooked; left out, the one with the fewest potfuls, then the lightest.",
        example="pot-2l",
    )
    carried_by: Annotated[str | None, NameOf()] = key("Who carries it.", example="Ash")


_COOK_OR_EAT = {"allOf": [just_one("eat", "cook"), where(told("eat"), told("each"))]}


class WrittenItem(WrittenComposition, WrittenHelping, title="meal", json_schema_extra=_COOK_OR_EAT):
    """One thing to cook, or to eat as it is."""

    caffeine: Annotated[float | None, Quantity("caffeine_mg")] = key(
        "Caffeine in 100 g.", example="12 mg"
    )
    allergens: Annotated[tuple[str, ...] | None, Words(ALLERGENS)] = key(
        "Those that the packet tells; `[]` says none, left out means *not told*.", example="[milk]"
    )
    may_contain: Annotated[tuple[str, ...], Words(ALLERGENS)] = key(
        "Traces that the packet tells.", default=(), example="[nuts]"
    )
    contains: Annotated[tuple[FoodKind, ...] | None, Words(KINDS)] = key(
        "Kinds of food in the packet; `[]` says none, left out means *not told*.",
        example="[meat, grain]",
    )
    beware: Annotated[tuple[Hazard, ...] | None, Words(HAZARDS)] = key(
        "What it is watched for; left out, its name decides.", example="[liver]"
    )
    each: Annotated[Node | None, Helping()] = key(
        "What each eater gets of what is eaten as it is.", example="70 g"
    )

    @classmethod
    def note_left_out(cls, node: Node, notes: Notes) -> None:
        """Note what does not fit: keys to one another, and names to what is there."""
        note_unfit(node, notes)

    def item(self, notes: Notes) -> MealItem:
        """Give what planning reckons with."""
        at_hand = notes.at_hand
        recipe = at_hand.recipes.get(self.cook) if self.cook else None
        label, batches = self.label(), from_batches(self.from_, recipe)
        return MealItem(
            recipe=self.cook or None,
            food=self.eat if self.eat and label is None else None,
            label=label,
            batches=tuple(each for each in batches if each[1] != AUTO),
            chosen=tuple(ingredient for ingredient, batch in batches if batch == AUTO),
            dried_by=self.dried_by,
            each_g=self.each_g(notes),
            eaters=eaters_of(self.for_, at_hand),
            swaps=tuple(
                Swap(ingredient, food, at_hand.foods[food].state in FRESH)
                for ingredient, food in self.swap.items()
                if food in at_hand.foods
            ),
            heat=self.heat,
            pot=self.in_,
            carried_by=self.carried_by,
            places=self._places(),
        )

    def label(self) -> Label | None:
        """Give what a packet tells, where it is told here."""
        if not self.eat or not self._node.entries.keys() & OF_LABELS:
            return None
        composition = replace(self.composition(), caffeine_mg=self.caffeine)
        return Label(
            self.eat,
            composition,
            allergens=self.allergens,
            may_contain=self.may_contain,
            contains=self.contains,
            beware=self.beware,
        )

    def each_g(self, notes: Notes) -> float:
        """Give what each eater gets of what is eaten as it is; an error of it is told before."""
        if self.each is None:
            return 0.0
        try:
            return helping_g(self.each, self.eat, self.label() is not None, notes)
        except Amiss:
            return 0.0

    def _places(self) -> Places:
        places = self.places()
        entry = self._node.entries.get("from")
        batches = entry.node.entries if entry else {}
        inner = {f"from/{name}": each.node.place for name, each in batches.items()}
        return Places(places.record, {**places.fields, **inner})


def _is_eaten_in_such_amounts(here: Here) -> None:
    item: WrittenItem = here.value
    label, each_g = item.label(), item.each_g(here.notes)
    if label is not None:
        _parts_give_the_energy(item, label, here.notes)
    if item.each is not None and each_g:
        food = here.notes.at_hand.foods.get(item.eat)
        of = label.per_100g if label else food.per_100g if food else None
        check_eaten(judging_at(here.notes, None, item.each.place), "each", each_g, of)


def _parts_give_the_energy(item: WrittenItem, label: Label, notes: Notes) -> None:
    told_all = {"protein", "fat", "carbohydrate"} <= item.model_fields_set
    place = item.places().record
    odd = odd_sum(label.per_100g, all_told=False)
    if odd is not None:
        amiss, severity = odd
        notes.append(amiss.at(place, severity))
    else:
        judge = judging_at(notes, label.per_100g.energy_kcal, place)
        check_energy(judge, label.per_100g, all_told=told_all)


@dataclass(frozen=True)
class Open(Value):
    """A meal that is left to be filled; `tripkit fill` proposes what."""

    _stub = OPEN

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> None:
        """Read the word."""
        if node.text.strip() != OPEN:
            check_is_record(node, "meal")  # says so

    def takes(self) -> str:
        """Say what may be written."""
        return OPEN

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {"const": OPEN}


def _is_open_once(here: Here) -> None:
    if here.value.count(None) > 1:
        refuse("open-twice", "one meal is left open twice", f"write `{OPEN}` once: it is one dish")


_Item = Annotated[WrittenItem, Check(_is_eaten_in_such_amounts)]
Dishes = Annotated[
    tuple[Annotated[WrittenItem | None, NamedOr(text=Annotated[None, Open()], keys=_Item)], ...],
    Items(lone_item=True),
    Check(_is_open_once),
]


class WrittenMeals(Record, title="meals"):
    """What is eaten on a day; one thing needs no list, and `open` leaves it to be filled."""

    breakfast: Dishes = key(
        "Cooked at the last night's camp.", default=(), example="[{cook: apple-oats}]"
    )
    lunch: Dishes = key("On the way.", default=(), example="[{eat: oat-biscuits, each: 70 g}]")
    dinner: Dishes = key(
        "At camp. Any meal may be left `open`: `tripkit fill` proposes what is cooked.",
        default=(),
        example="[{cook: smoky-bean-pot, from: {beans: black-beans-spring}}]",
    )
    snacks: Dishes = key("Over the day.", default=(), example="[{eat: nut-mix, each: 60 g}]")
    drinks: Dishes = key(
        "Hot drinks, which are no meal.", default=(), example="[{cook: black-tea}]"
    )

    def meals(self, notes: Notes) -> tuple[Meal, ...]:
        """Give what planning reckons with, in the order of the file."""
        dishes = ((name, getattr(self, name)) for name in self._node.entries)
        return tuple(
            Meal(
                cast(MealName, name),
                tuple(each.item(notes) for each in found if each is not None),
                is_open=None in found,
            )
            for name, found in dishes
            if found
        )
