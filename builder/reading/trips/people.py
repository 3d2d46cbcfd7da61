"""People: the keys of a person, the same in a trip's party and at home."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Annotated, Self, TypeGuard

from pydantic import ValidationInfo, model_validator
from pydantic.json_schema import JsonSchemaValue

from builder.model.figure import Figure, Told
from builder.model.food import ALLERGENS, KINDS
from builder.model.place import Place
from builder.model.trip import DIETS, GROWN_UP_YEARS, SEXES, DefaultUsed, Person, Sex
from builder.problems import Problem, did_you_mean
from builder.reading.checks.plausible import (
    check_carried,
    check_expecting,
    check_height,
    check_index,
    check_mass,
)
from builder.reading.declared.declaring import Check, Here, Record, judging_at, key
from builder.reading.declared.measures import Number, Quantity
from builder.reading.declared.vocabulary import Choice, Flag, Line, Value, Words
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.text.yaml_door import Node, quoted
from builder.record import dataclass
from builder.speech import later

YOUNGEST_YEARS = 1
OLDEST_YEARS = 120
# Taken where nobody told: a mean of grown-ups, which the pages say.
UNTOLD_YEARS, UNTOLD_MASS, UNTOLD_HEIGHT = 35, "70 kg", "170 cm"

_CHILD = ("name", "age")  # what is told of a child whose mass is not
_UNTOLD_KEYS = {
    "sex": (later("sex of {name}"), later("mean of both")),
    "age": (later("age of {name}"), later("35 years")),
    "mass": (later("mass of {name}"), UNTOLD_MASS),
    "height": (later("height of {name}"), UNTOLD_HEIGHT),
    "avoids": (later("what {name} must not eat"), later("nothing")),
}


@dataclass(frozen=True)
class Third(Value):
    """The third of a pregnancy; `true` where it is not known, which counts as the second."""

    _stub = "2"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> int:
        """Read the third; 0 for none."""
        if isinstance(node.value, bool):
            return 2 if node.value else 0
        if node.value in (1, 2, 3):
            return int(node.text)
        says = f"{key} must be its third (1, 2 or 3), true or false, found {node.described()}"
        mend = "write `pregnant: 2`, or `pregnant: true` where the third is not known"
        refuse("not-a-third", says, mend)

    def takes(self) -> str:
        """Say what may be written."""
        return "1 | 2 | 3 | true | false"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {"enum": [1, 2, 3, True, False]}


def _is_told(value: object) -> TypeGuard[Figure]:
    return isinstance(value, Figure) and isinstance(value.origin, Told)


def _body_fits_the_age(here: Here) -> None:
    age = here.value
    mass_kg, height_cm = here.above.get("mass"), here.above.get("height")
    if age < YOUNGEST_YEARS:
        raise Amiss(
            "too-young",
            f"the tool plans for people from {YOUNGEST_YEARS} year on, found {quoted(f'{age:g}')}",
            "leave a baby out: milk and its amounts are for a doctor or midwife to say",
        )
    if _is_told(mass_kg):
        check_mass(here.judging(mass_kg), age, mass_kg)
    if _is_told(height_cm):
        check_height(here.judging(height_cm), age, height_cm)


def _carries_to_fits_the_mass(here: Here) -> None:
    _fits_the_mass(here, "carries_to")


def _fits_the_mass(here: Here, carried: str) -> None:
    if _is_told(mass_kg := here.above.get("mass")):
        check_carried(here.judging(here.value), carried, mass_kg, here.value)


def _own_gear_is_carried(here: Here) -> None:
    if here.value and here.above.get("carries_to") == 0:
        name = here.above.get("name", "")
        raise Amiss(
            "own-gear",
            f"{quoted(name)} carries nothing, and yet has gear of {here.value:.0f} g",
            "write what they carry to, or give the gear to somebody else",
        )
    _fits_the_mass(here, "own_gear")


class WrittenPerson(Record, title="person"):
    """Somebody who eats, drinks, walks and carries."""

    name: Annotated[str, Line()] = key(
        "What everybody calls them.", required=True, example="Ash", stub="Ash"
    )
    sex: Annotated[Sex | None, Choice(SEXES)] = key(
        "Decides the need; left out, the mean of both.", example="female"
    )
    mass: Annotated[float, Quantity("body_kg", positive=True)] = key(
        "Without clothes and pack.", default=UNTOLD_MASS, example="64 kg"
    )
    height: Annotated[float, Quantity("height_cm", positive=True)] = key(
        "How tall.", default=UNTOLD_HEIGHT, example="168 cm"
    )
    age: Annotated[float, Number(at_most=OLDEST_YEARS), Check(_body_fits_the_age)] = key(
        "In years.", default=UNTOLD_YEARS, example="34"
    )
    carries_to: Annotated[float | None, Quantity("mass_g"), Check(_carries_to_fits_the_mass)] = key(
        "The most they carry; `0 kg` for who carries nothing; left out, a fifth of their mass.",
        example="14 kg",
    )
    own_gear: Annotated[float | None, Quantity("mass_g"), Check(_own_gear_is_carried)] = key(
        "Their own clothes, bed and the like; counts in load and walking.", example="7 kg"
    )
    avoids: Annotated[tuple[str, ...], Words()] = key(
        "Allergens, kinds of food or foods that they must not eat, or `vegetarian`, `vegan`.",
        default=(),
        example="[nuts]",
    )
    pregnant: Annotated[int, Third()] = key(
        "The third of the pregnancy, or `true` where it is not known.", default=0, example="2"
    )
    nursing: Annotated[bool, Flag()] = key("Whether she nurses.", default=False, example="true")

    @classmethod
    def note_left_out(cls, node: Node, notes: Notes) -> None:
        """Note a child whose mass was left out."""
        name, age = (node.entries[each].node if each in node.entries else None for each in _CHILD)
        if age is None or not isinstance(age.value, (int, float)) or "mass" in node.entries:
            return
        if age.value < GROWN_UP_YEARS:
            says = f"{quoted(name.text if name else '')} is {age.text} and no mass is told, "
            amiss = Amiss("child-mass", f"{says}so {UNTOLD_MASS} is taken", "write `mass: 30 kg`")
            notes.append(amiss.at(node.place, "warning"))

    @model_validator(mode="after")
    def _mass_fits_the_height(self, info: ValidationInfo[Notes]) -> Self:
        if _is_told(self.mass) and _is_told(self.height):
            judge = judging_at(info.context, self.mass)
            check_index(judge, self.age, self.mass, self.height)
        return self

    @model_validator(mode="after")
    def _can_expect(self, info: ValidationInfo[Notes]) -> Self:
        if not (self.pregnant or self.nursing):
            return self
        place = self.places().of("pregnant" if self.pregnant else "nursing")
        state = "pregnant" if self.pregnant else "nursing"
        if self.sex == "male":
            says = f"{quoted(self.name)} is told as male and as {state}"
            mend = "check both; `sex` decides the need, and left out it is the mean of both"
            info.context.append(Amiss("male-expecting", says, mend).at(place, "warning"))
        check_expecting(judging_at(info.context, None, place), state, self.age)
        return self

    def person(self) -> Person:
        """Give what planning reckons with."""
        return Person(
            name=self.name,
            sex=self.sex,
            age_years=self.age,
            mass_kg=self.mass,
            height_cm=self.height,
            carries_to_g=self.carries_to,
            own_gear_g=self.own_gear,
            avoids=self.avoids,
            pregnant=self.pregnant,
            nursing=self.nursing,
            places=self.places("avoids"),
        )


def named_twice(name: str, place: Place) -> Problem:
    """Tell that somebody of this name was there before."""
    says = f"two people are called {quoted(name)}"
    return Problem(place, "name-twice", says, "tell them apart, such as Ash B")


def untold(person: Person) -> Iterator[DefaultUsed]:
    """Give what was taken for somebody because nobody told it."""
    why = later("the trip does not tell it")
    blanks = (("name", person.name),)
    for each, (what, value) in _UNTOLD_KEYS.items():
        if each not in person.places.fields:
            yield DefaultUsed(what, value, why, (*blanks, ("of", each)))
    if person.own_gear_g is None and person.carries_to_g != 0:
        counts = later("write own_gear: it counts in load and walking")
        yield DefaultUsed(later("own gear of {name}"), "0 g", counts, blanks)


def avoids_nothing_known(person: Person, foods: Iterable[str]) -> Iterator[Problem]:
    """Find words that somebody avoids and that are no allergen, kind, diet or food."""
    known = (*DIETS, *ALLERGENS, *KINDS, *foods)
    for word in person.avoids:
        if word in known:
            continue
        hint = did_you_mean(word, known)
        if not hint.endswith("?"):
            hint = f"write one of {', '.join(known[:20])} …"
        says = f"{quoted(word)} is no allergen, kind of food or food"
        yield Problem(person.places.of(f"avoids/{word}"), "avoids-unknown", says, hint)
