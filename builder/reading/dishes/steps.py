"""The steps of a recipe: which keys go with what is done."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.figure import nothing
from builder.model.recipe import Do, Step
from builder.problems import did_you_mean
from builder.reading.checks.plausible import check_step_minutes
from builder.reading.declared.declaring import AlreadyNoted, Check, Here, Record, key
from builder.reading.declared.measures import Number, Quantity
from builder.reading.declared.patterns import quantity_schema
from builder.reading.declared.shapes import ByWord
from builder.reading.declared.values import taken, text_of
from builder.reading.declared.vocabulary import Choice, Flag, Text, Words
from builder.reading.notes import Amiss, Notes, refuse, refuse_quantities
from builder.reading.pictures.written import PICTURE, APicture, picture_of
from builder.reading.text.yaml_door import Node
from builder.record import dataclass
from builder.units import uneven

AUTO = "auto"
NAMED_IN_TEXT = re.compile(r"<([a-z0-9-]+)>")
_TWO_DAYS_MIN = 2880


@dataclass(frozen=True)
class OfThisRecipe(Words):
    """Names that the recipe uses."""

    def _word(self, node: object, info: ValidationInfo[Notes]) -> str:
        assert isinstance(node, Node)
        name = text_of(node, "with")
        known = info.context.ingredients
        if known is not None and name not in known:
            says = f"this recipe uses no {node.described()}"
            refuse("ingredient-unknown", says, did_you_mean(node.text, known))
        return name


@dataclass(frozen=True)
class Water(Quantity):
    """A volume, or `auto`: what the dried food takes up again."""

    quantity: str = "volume_ml"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> Any:
        """Read a volume; `auto` stays the word."""
        return AUTO if node.value == AUTO else super().read(node, key, info)

    def range_said(self, bounds: tuple[float, float], example: str) -> str:
        """Say a range in the unit of an example."""
        return super().range_said(bounds, self.stub if example == AUTO else example)

    def takes(self) -> str:
        """Say what may be written."""
        return f"{AUTO} | {super().takes()}"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return quantity_schema(self.quantity, self.positive, AUTO)


def _something_dried_takes_it_up(here: Here) -> None:
    known = here.notes.ingredients
    if here.value != AUTO or known is None or "with_" not in here.above:
        return
    if not any(known.get(name) for name in here.above["with_"]):
        refuse(
            "auto-water",
            "auto gives back what drying took out, and nothing here is dried",
            "write the water, or name what is dried in `with`",
        )


def _such_a_step_takes_so_long(here: Here) -> None:
    if "do" in here.above:
        check_step_minutes(here.judging(here.value), here.above["do"], here.value)


def _it_names_what_the_recipe_uses(here: Here) -> None:
    known = here.notes.ingredients
    unknown = [name for name in names_in(here.value) if known is not None and name not in known]
    for name in unknown:
        says = f"this recipe uses no <{name}>"
        amiss = Amiss("ingredient-unknown", says, did_you_mean(name, known or ()))
        here.notes.append(amiss.at(here.place))
    if unknown:
        raise AlreadyNoted


def _quantities_are_told_twice(here: Here) -> None:
    refuse_quantities(uneven(here.value))


def names_in(text: str) -> Iterator[str]:
    """Give the ingredients that a text names, such as `<beans>`."""
    return (found[1] for found in NAMED_IN_TEXT.finditer(text))


_With = Annotated[tuple[str, ...], OfThisRecipe()]
_Water = Annotated[Any, Water(), Check(_something_dried_takes_it_up)]
_Minutes = Annotated[float, Number(at_most=_TWO_DAYS_MIN), Check(_such_a_step_takes_so_long)]
_Say = Annotated[
    str, Text(), Check(_it_names_what_the_recipe_uses), Check(_quantities_are_told_twice)
]
_Flag = Annotated[bool, Flag()]

_WITH = "The ingredients that go in here."
_WATER = "The water that goes in; `auto` is what the dried food takes up again, and a quarter more."
_MINUTES = "How many minutes it takes."
_STIR = "Whether it is stirred."
_LID = "Whether the lid is on."
_PICTURE = "What it looks like at this step."
_SAY = (
    "A sentence for who cooks; `<beans>` in it becomes the scaled amount, and a quantity told in "
    "both systems, `{74 degC|165 degF}`, stands in the trip's `units` first."
)


class WrittenStep(Record):
    """One thing to do."""

    if TYPE_CHECKING:  # each kind of step declares these, with its own words
        do: Do
        with_: tuple[str, ...]
        say: str

    @property
    def is_auto(self) -> bool:
        """Whether as much water goes in as is taken up again."""
        return vars(self).get("water") == AUTO

    @property
    def water_told_ml(self) -> float:
        """The water that goes in, where it is told as a volume."""
        water = vars(self).get("water")
        return nothing("water_ml") if water in (None, AUTO) else water

    def step(self) -> Step:
        """Give what planning reckons with."""
        told = dict(self)
        return Step(
            do=self.do,
            uses=self.with_,
            water_ml=self.water_told_ml,
            water_auto=self.is_auto,
            minutes=told.get("minutes", nothing("minutes")),
            stir=told.get("stir", False),
            lid=told.get("lid", False),
            hot=told.get("hot", False),
            say=self.say,
            each_side_min=told.get("each_side", nothing("each_side_min")),
            pieces=told.get("pieces", taken(1.0, "pieces")),
            baking_c=told.get("at", nothing("baking_c")),
            picture=picture_of(told.get("picture")),
            places=self.places(),
        )


class SoakStep(WrittenStep, title="step"):
    """Dried food stands in water."""

    do: Annotated[Literal["soak"], Choice(("soak",))] = key(
        "What is done.", required=True, example="soak"
    )
    with_: _With = key(_WITH, default=(), example="[beans]")
    water: _Water = key(_WATER, example="auto")
    minutes: _Minutes = key(_MINUTES, required=True, example="10")
    hot: _Flag = key("Whether the water is boiled first.", default=False, example="true")
    stir: _Flag = key(_STIR, default=False, example="true")
    lid: _Flag = key(_LID, default=False, example="true")
    say: _Say = key(_SAY, default="", example="Stir <beans> once.")
    picture: APicture = key(_PICTURE, example=PICTURE)


class BoilStep(WrittenStep, title="step"):
    """The pot is brought to the boil."""

    do: Annotated[Literal["boil"], Choice(("boil",))] = key(
        "What is done.", required=True, example="boil"
    )
    with_: _With = key(_WITH, default=(), example="[beans]")
    water: _Water = key(_WATER, example="260 ml")
    minutes: _Minutes = key(
        "Of a boil: how many minutes it keeps boiling hard; a simmer is none.",
        default=0,
        example="1",
    )
    stir: _Flag = key(_STIR, default=False, example="true")
    lid: _Flag = key(_LID, default=False, example="true")
    say: _Say = key(_SAY, default="", example="Stir <beans> once.")
    picture: APicture = key(_PICTURE, example=PICTURE)


class HeldStep(WrittenStep, title="step"):
    """It simmers, fries or rests for some minutes."""

    do: Annotated[Literal["simmer", "fry", "rest"], Choice(("simmer", "fry", "rest"))] = key(
        "What is done.", required=True, example="simmer"
    )
    with_: _With = key(_WITH, default=(), example="[beans]")
    minutes: _Minutes = key(_MINUTES, required=True, example="8")
    stir: _Flag = key(_STIR, default=False, example="true")
    lid: _Flag = key(_LID, default=False, example="true")
    say: _Say = key(_SAY, default="", example="Stir <beans> once.")
    picture: APicture = key(_PICTURE, example=PICTURE)


class MixStep(WrittenStep, title="step"):
    """It is stirred together, cold or as it is."""

    do: Annotated[Literal["mix"], Choice(("mix",))] = key(
        "What is done.", required=True, example="mix"
    )
    with_: _With = key(_WITH, default=(), example="[beans]")
    water: _Water = key(_WATER, example="100 ml")
    stir: _Flag = key(_STIR, default=False, example="true")
    lid: _Flag = key(_LID, default=False, example="true")
    say: _Say = key(_SAY, default="", example="Stir <beans> once.")
    picture: APicture = key(_PICTURE, example=PICTURE)


class PressStep(WrittenStep, title="step"):
    """It is pressed in the iron, first one side, then the other."""

    do: Annotated[Literal["press"], Choice(("press",))] = key(
        "What is done.", required=True, example="press"
    )
    with_: _With = key(_WITH, default=(), example="[beans]")
    each_side: Annotated[float, Quantity("duration_min", positive=True)] = key(
        "How long each side lies in the embers.", required=True, example="4 min", stub="4 min"
    )
    pieces: Annotated[float, Number(more_than=0, at_most=100)] = key(
        "How many are pressed for each serving.", default=1, example="2"
    )
    say: _Say = key(_SAY, default="", example="Turn <beans> once.")
    picture: APicture = key(_PICTURE, example=PICTURE)


class BakeStep(WrittenStep, title="step"):
    """It is baked in a cast-iron pot, its lid on, embers below and on top."""

    do: Annotated[Literal["bake"], Choice(("bake",))] = key(
        "What is done.", required=True, example="bake"
    )
    with_: _With = key(_WITH, default=(), example="[beans]")
    minutes: _Minutes = key(_MINUTES, required=True, example="30")
    at: Annotated[float, Quantity("temperature_c")] = key(
        "How hot it is inside the pot.", required=True, example="180 degC"
    )
    say: _Say = key(_SAY, default="", example="Turn <beans> once.")
    picture: APicture = key(_PICTURE, example=PICTURE)


class ServeStep(WrittenStep, title="step"):
    """It is eaten."""

    do: Annotated[Literal["serve"], Choice(("serve",))] = key(
        "What is done.", required=True, example="serve"
    )
    with_: _With = key(_WITH, default=(), example="[beans]")
    say: _Say = key(_SAY, default="", example="Split <beans> by eye.")
    picture: APicture = key(_PICTURE, example=PICTURE)


class PartStep(Record, title="step"):
    """The portions of who avoids what comes next are taken out, and cooked on beside."""

    do: Annotated[Literal["part"], Choice(("part",))] = key(
        "What is done.", required=True, example="part"
    )
    say: _Say = key(_SAY, default="", example="Use the small pot.")


STEPS = (
    SoakStep, BoilStep, HeldStep, MixStep, PressStep, BakeStep, ServeStep, PartStep,
)  # fmt: skip
AnyStep = Annotated[
    SoakStep | BoilStep | HeldStep | MixStep | PressStep | BakeStep | ServeStep | PartStep,
    ByWord("do", STEPS),
]


def steps_done(steps: Iterable[Record]) -> tuple[Step, ...]:
    """Give what planning reckons with; where it is parted, the recipe itself tells."""
    return tuple(each.step() for each in steps if isinstance(each, WrittenStep))
