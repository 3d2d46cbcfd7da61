"""Foods: the keys of a food, and what hangs on several of them."""

from __future__ import annotations

import math
import re
from typing import Annotated

from builder.model.food import (
    ALLERGENS,
    CUTS,
    DRY_AS,
    HAZARDS,
    KINDS,
    SORPTION_GROUPS,
    STATES,
    Composition,
    Cut,
    DryAs,
    Food,
    FoodKind,
    FoodState,
    Hazard,
    Perishable,
    SorptionGroup,
)
from builder.reading.checks.eaten import check_energy
from builder.reading.declared.declaring import Check, Here, Record, key, read_as
from builder.reading.declared.measures import Number, Price, Quantity
from builder.reading.declared.vocabulary import Choice, Flag, Id, Line, Text, Words
from builder.reading.dishes.compositions import WrittenComposition, odd_sum
from builder.reading.notes import Amiss, Notes
from builder.reading.text.yaml_door import Node
from builder.record import replace

# What these kinds hold, one of it at least.
ALLERGENS_OF_KIND: dict[str, tuple[str, ...]] = {
    "egg": ("eggs",),
    "fish": ("fish", "crustaceans", "molluscs"),
    "dairy": ("milk",),
    "nut": ("nuts", "peanuts", "sesame"),
}
# Seeds, coconut, chestnuts and pine nuts are listed as nuts and are none of the fourteen.
_NO_NUT = re.compile(
    r"seed|coconut|kokos|kern|samen|saat|frø|chia|hanf|hemp|solsikke"
    r"|chestnut|marone|kastan|pine nut|pinje"
)

# A year: what keeps longer does not perish on a trip.
MOST_HOURS_FRESH = 8784.0


class WrittenPerishable(Record, title="perishable"):
    """How long a fresh food keeps out of the cold."""

    hours: Annotated[float, Number(more_than=0, at_most=MOST_HOURS_FRESH)] = key(
        "So many hours.", required=True, example="48"
    )
    below: Annotated[float | None, Quantity("temperature_c")] = key(
        "In air below this; left out, in any air.", example="20 degC"
    )

    def perishable(self) -> Perishable:
        """Give what planning reckons with."""
        return Perishable(self.hours, math.inf if self.below is None else self.below)


def _parts_add_up_and_give_its_energy(here: Here) -> None:
    of: Composition = here.value.composition()
    odd = odd_sum(of)
    if odd is not None:
        here.tell(*odd)
        return
    # Leaves are steeped and thrown away: they may give the cup less than they hold.
    check_energy(here.judging(of.energy_kcal), of, all_eaten=here.above.get("kind") != "drink")


def _allergens_name_what_its_kind_is_made_of(here: Here) -> None:
    name, kind = here.above.get("name", ""), here.above.get("kind", "")
    if kind == "nut" and _NO_NUT.search(name.lower()):
        return
    for each in (kind, *(here.above.get("contains") or ())):
        usual = ALLERGENS_OF_KIND.get(each, ())
        if usual and not set(usual) & set(here.value):
            amiss = Amiss(
                "allergens-of-kind",
                f"{name} is or holds {each}, and its allergens name no {' or '.join(usual)}",
                f"write `allergens: [{', '.join((*here.value, usual[0]))}]`, or another kind",
            )
            here.tell(amiss, "warning")


class WrittenFood(Record, title="food"):
    """Something edible with a known composition per 100 g."""

    id: Annotated[str, Id()] = key(
        "By which recipes, batches and trips name it.", required=True, example="black-beans-cooked"
    )
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Black beans, cooked"
    )
    kind: Annotated[FoodKind, Choice(KINDS)] = key("What it is.", required=True, example="legume")
    state: Annotated[FoodState, Choice(STATES)] = key(
        "What was done to it; `ready` is eaten as it is.", required=True, example="cooked"
    )
    per_100g: Annotated[WrittenComposition, Check(_parts_add_up_and_give_its_energy)] = key(
        "What 100 g hold, from a table or a label.",
        required=True,
        example="{water: 65.7 g, energy: 132 kcal, protein: 8.9 g, carbohydrate: 23.7 g}",
        stub="{water: 66 g, protein: 9 g, …}",
    )
    density: Annotated[float | None, Quantity("density_g_ml", positive=True)] = key(
        "What it weighs, loosely filled; lets recipes say `2 cups` and pages say mugs.",
        example="0.72 g/ml",
    )
    piece: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "What one piece weighs; lets recipes say `2 pieces`.", example="120 g"
    )
    contains: Annotated[tuple[FoodKind, ...] | None, Words(KINDS)] = key(
        "Kinds of food inside what is a `meal`, `fat`, `sugar`, `drink` or `other`; `[]` says "
        "none, left out means *not told*, and who avoids a kind or keeps a diet is asked to read "
        "the packet.",
        example="[meat, dairy]",
    )
    allergens: Annotated[
        tuple[str, ...] | None, Words(ALLERGENS), Check(_allergens_name_what_its_kind_is_made_of)
    ] = key(
        "Those of the EU's fourteen that it holds; `[]` says none, left out means *not told*, and "
        "the pages say so.",
        example="[milk]",
    )
    may_contain: Annotated[tuple[str, ...], Words(ALLERGENS)] = key(
        "Traces; avoided like the rest, and said apart.", default=(), example="[nuts]"
    )
    allergen_source: Annotated[tuple[str, ...], Words()] = key(
        "Which sources tell its allergens.", default=(), example="[own-packet]"
    )
    beware: Annotated[tuple[Hazard, ...] | None, Words(HAZARDS)] = key(
        "What it is watched for; `[]` says nothing of it, left out lets name and id decide.",
        example="[liver]",
    )
    caffeine: Annotated[float | None, Quantity("caffeine_mg")] = key(
        "Caffeine in 100 g.", example="12 mg"
    )
    perishable: WrittenPerishable | None = key(
        "How long it keeps fresh out of the cold, where its kind's own limit is not right.",
        example="{hours: 48, below: 20 degC}",
    )
    cut: Annotated[Cut | None, Choice(CUTS)] = key("How meat is cut.", example="minced")
    game: Annotated[bool, Flag()] = key(
        "Whether it is of wild animals.", default=False, example="true"
    )
    sorption: Annotated[SorptionGroup | None, Choice(SORPTION_GROUPS)] = key(
        "Whose water activity it has once dry.", example="starchy"
    )
    dry_as: Annotated[DryAs | None, Choice(DRY_AS)] = key(
        "As what it is blanched, and how many hours it takes in warm air.", example="carrot"
    )
    keeps: Annotated[float | None, Quantity("kept_months", positive=True)] = key(
        "How long it keeps dried, at 15.6 °C, where its kind's months are not right.",
        example="3 months",
    )
    spread: Annotated[float | None, Quantity("spread_share", positive=True)] = key(
        "One standard deviation of its listed water, in points of 100 g; left out, 1.5 %.",
        example="1.5 %",
    )
    takes_up: Annotated[float | None, Quantity("share", positive=True)] = key(
        "How much of the water that warm air took out it takes up again; left out, by kind: grain "
        "100 %, legume 70, vegetable 60, meat, poultry and fish 50, fruit 40, all else 100; "
        "freeze-dried always 90.",
        example="20 %",
    )
    hours: Annotated[float | None, Number(more_than=0, at_most=500)] = key(
        "How many hours it takes in the dryer.", example="8"
    )
    refuse: Annotated[float | None, Quantity("share")] = key(
        "The share that is peeled, stoned or cored away.", example="22 %"
    )
    price: Annotated[float | None, Price("mass_g", 1000, "kg")] = key(
        "What it costs fresh.", example="3.20 per 1 kg"
    )
    dried_price: Annotated[float | None, Price("mass_g", 1000, "kg")] = key(
        "What the shop takes for it dried.", example="14 per 1 kg"
    )
    pack: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "The size in which the shop sells it.", example="500 g"
    )
    shelf: Annotated[str, Line()] = key(
        "Where in the shop it stands.", default="", example="dry goods"
    )
    source: Annotated[str, Text()] = key(
        "The source of its figures.", default="", example="usda-sr28"
    )
    ndb: Annotated[str, Text()] = key(
        "Its number in the nutrient database.", default="", example='"16015"'
    )

    def made(self) -> Food:
        """Give what planning reckons with."""
        return Food(
            id=self.id,
            name=self.name,
            kind=self.kind,
            state=self.state,
            per_100g=replace(self.per_100g.composition(), caffeine_mg=self.caffeine),
            density_g_ml=self.density,
            piece_g=self.piece,
            allergens=self.allergens,
            may_contain=self.may_contain,
            allergen_source=self.allergen_source,
            contains=self.contains,
            beware=self.beware,
            perishable=self.perishable.perishable() if self.perishable else None,
            cut=self.cut,
            game=self.game,
            sorption=self.sorption,
            dry_as=self.dry_as,
            keeps_months=self.keeps,
            spread_share=self.spread,
            takes_up_share=self.takes_up,
            dryer_hours=self.hours,
            refuse_share=self.refuse,
            price_per_kg=self.price,
            dried_price_per_kg=self.dried_price,
            sold_in_g=self.pack,
            shelf=self.shelf,
            source=self.source or None,
            ndb=self.ndb or None,
            places=self.places("allergen_source"),
        )


def read_food(node: Node, notes: Notes) -> Food | None:
    """Read one food; None where it has errors."""
    found = read_as(WrittenFood, node, notes)
    return found.made() if found else None
