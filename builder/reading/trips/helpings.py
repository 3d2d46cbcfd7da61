"""What one thing of a meal must fit: its keys one another, its names what is there."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.recipe import Recipe
from builder.problems import did_you_mean, food_meant, or_else, record_meant
from builder.reading.declared.amounts import amount_of
from builder.reading.declared.declaring import keys_of
from builder.reading.declared.patterns import amount_schema
from builder.reading.declared.values import (
    echoed,
    is_blank,
    missing,
    on_one_line,
    text_of,
    unknown_key,
)
from builder.reading.declared.vocabulary import Value
from builder.reading.dishes.compositions import WrittenComposition
from builder.reading.notes import Amiss, Notes
from builder.reading.text.yaml_door import Node, quoted
from builder.record import dataclass

# Whatever has one of these tells what a label says.
OF_LABELS = frozenset(
    [*keys_of(WrittenComposition), "caffeine", "allergens", "may_contain", "contains", "beware"]
)
_TELL_ENERGY = ("energy", "protein", "fat", "carbohydrate")
_OF_COOKED = frozenset(["cook", "eat", "for", "from", "swap", "heat", "in", "carried_by"])
AUTO = "auto"  # instead of a batch: the tool chooses the packs
_OF_EATEN = OF_LABELS | {"each", "dried_by"}
_EATEN = frozenset({"eat", "for", "from"}) | _OF_EATEN
_COOK_OR_EAT = "write `cook: <recipe>`, or `eat: <food>` and `each: 60 g`"


@dataclass(frozen=True)
class Helping(Value):
    """An amount of food, which `helping_g` reads once it is known of what food."""

    _stub = "60 g"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> Node:
        """Keep what was written."""
        return node

    def takes(self) -> str:
        """Say what may be written."""
        return "a mass, a volume or pieces, as `70 g`, `1/2 cup` or `2 pieces`"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return amount_schema()


def helping_g(each: Node, eat: str, is_label: bool, notes: Notes) -> float:
    """Give what each eater gets; only a food with an entry of its own is told in volumes."""
    known = (each.place, eat, is_label)
    if known not in notes.helpings_g:
        at_hand = notes.at_hand
        has_entry = not is_label and eat not in at_hand.recipes
        food = eat if has_entry else ""
        notes.helpings_g[known] = amount_of(each, "each", food, at_hand.foods)
    return notes.helpings_g[known]


def from_batches(
    written: str | Mapping[str, str] | None, recipe: Recipe | None
) -> tuple[tuple[str, str], ...]:
    """Give the batch of each ingredient; "" stands for what is eaten as it is."""
    if not written:
        return ()
    if not isinstance(written, str):
        return tuple(written.items())
    if written == AUTO or recipe is None:
        return (("", written),)
    return ((_dried(recipe)[0], written),)


def _dried(recipe: Recipe) -> list[str]:
    return [each.id for each in recipe.uses if each.dried_by or each.recipe]


# -- what does not fit ----------------------------------------------------------------------------


def note_unfit(item: Node, notes: Notes) -> None:
    """Note keys that do not go together, and names of what is not there."""
    cook, eat = _line(item, "cook"), _line(item, "eat")
    if bool(cook) == bool(eat):
        says = "a meal is cooked, or eaten as it is; this one says "
        says += "both" if cook else "neither"
        notes.append(Amiss("cook-or-eat", says, _COOK_OR_EAT).at(item.place))
    elif cook:
        _note_unfit_to_cook(item, cook, notes)
    else:
        _note_unfit_to_eat(item, eat, notes)


def _line(item: Node, key: str) -> str:
    """Give a text where one stands; what is none is told when the key is read."""
    node = _told(item, key)
    return on_one_line(node.text) if node is not None and node.is_text else ""


def _told(item: Node, key: str) -> Node | None:
    entry = item.entries.get(key)
    return None if entry is None or is_blank(entry.node) else entry.node


def _note_unfit_to_cook(item: Node, cook: str, notes: Notes) -> None:
    for key, entry in item.entries.items():
        if key in _OF_EATEN:
            notes.append(unknown_key("meal", key, _OF_COOKED).at(entry.place))
    recipes = notes.at_hand.recipes
    recipe, batches = recipes.get(cook), _told(item, "from")
    if recipe is not None:
        _note_unfit_swap(recipe, _told(item, "swap"), notes)
    if recipe is None:
        mend = record_meant(cook, {each.id: each.name for each in recipes.values()})
        amiss = Amiss("recipe-unknown", f"there is no recipe {quoted(cook)}", mend)
        notes.append(amiss.at(item.entries["cook"].node.place))
    elif batches is not None and batches.is_map:
        ids = [each.id for each in recipe.uses]
        for name, entry in batches.entries.items():
            if name not in ids:
                says = f"recipe {recipe.id} uses no {quoted(name)}"
                amiss = Amiss("ingredient-unknown", says, did_you_mean(name, ids))
                notes.append(amiss.at(entry.place))
    elif batches is not None and batches.value != AUTO and len(dried := _dried(recipe)) != 1:
        count = f"{len(dried)} of its ingredients are" if dried else "no ingredient of it is"
        first = [*dried, *(each.id for each in recipe.uses), "…"][0]
        amiss = Amiss(
            "from",
            f"which ingredient of {recipe.id} comes from this batch is not told: {count} dried",
            f"write `from: {{{first}: {echoed(batches)}}}`",
        )
        notes.append(amiss.at(batches.place))


def _note_unfit_swap(recipe: Recipe, swap: Node | None, notes: Notes) -> None:
    ids, foods = [each.id for each in recipe.uses], notes.at_hand.foods
    for name, entry in swap.entries.items() if swap is not None else ():
        food = on_one_line(entry.node.text) if entry.node.is_text else ""
        if name not in ids:
            says = f"recipe {recipe.id} uses no {quoted(name)}"
            notes.append(Amiss("ingredient-unknown", says, did_you_mean(name, ids)).at(entry.place))
        elif food and food not in foods:
            amiss = Amiss(
                "food-unknown", f"there is no food {quoted(food)}", food_meant(food, foods)
            )
            notes.append(amiss.at(entry.node.place))


def _note_unfit_to_eat(item: Node, eat: str, notes: Notes) -> None:
    at_hand, place = notes.at_hand, item.place
    if "swap" in item.entries:
        notes.append(unknown_key("meal", "swap", _EATEN).at(item.entries["swap"].place))
    is_label = bool(item.entries.keys() & OF_LABELS)
    if is_label and not any(_told(item, key) for key in _TELL_ENERGY):
        says = f"this label tells no energy, so {quoted(eat)} counts as 0 kcal"
        mend = "write the energy of 100 g, such as `energy: 450 kcal`"
        notes.append(Amiss("label-energy", says, mend).at(place, "warning"))
    if not is_label and eat not in at_hand.foods and eat not in at_hand.recipes:
        hint = did_you_mean(eat, at_hand.foods)
        mend = or_else(hint, "copy its label: `energy: 450 kcal`")
        amiss = Amiss("food-unknown", f"there is no food {quoted(eat)}", mend)
        notes.append(amiss.at(item.entries["eat"].node.place))
    each, batch = _told(item, "each"), _told(item, "from")
    if each is None:
        notes.append(missing("meal", "each", "60 g").at(place))
    else:
        _note_amiss(each, lambda: helping_g(each, eat, is_label, notes), notes)
    if batch is not None and batch.is_map:  # one thing has one batch
        _note_amiss(batch, lambda: text_of(batch, "from"), notes)


def _note_amiss(node: Node, read: Callable[[], object], notes: Notes) -> None:
    try:
        read()
    except Amiss as amiss:
        notes.append(amiss.at(node.place))
