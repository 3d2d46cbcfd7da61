"""Under which words the records of a folder are known, in every language of the tool."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.called import called_by_others
from builder.model.batch import Batch
from builder.model.content import Content
from builder.model.recipe import Recipe
from builder.model.trip import ENGLISH, LANGUAGES
from builder.planning.finding.food_facts import FoodFacts, Inside, all_facts, inside_of
from builder.planning.foods import substance_named, substance_of_ingredient
from builder.planning.menu import avoided_said
from builder.planning.naming import meal_inside
from builder.planning.stock import batch_names
from builder.record import dataclass
from builder.speech import Speech, speech_of

_LANGUAGE_NAMES = {"de": "German", "nb": "Norwegian"}

# How much it tells that a word was found here: a name more than what is inside.
_NAME, _OTHER_NAME, _KIND, _ALLERGEN, _TRACE, _DIET, _HAZARD, _INSIDE = (
    100, 90, 70, 65, 55, 45, 45, 40,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Mark:
    """Words under which a record is known, how much they tell, and how that is said."""

    words: str
    weight: int
    says: str

    @property
    def is_name(self) -> bool:
        """Whether a part of a word will do, as `bohne` of `Kidneybohnen`."""
        return self.weight in (_NAME, _OTHER_NAME, _INSIDE)

    @property
    def is_other_name(self) -> bool:
        """Whether it is what others call the record, in this language or another."""
        return self.weight == _OTHER_NAME


@dataclass(frozen=True, slots=True)
class Known:
    """A record, with every mark it is known by."""

    what: str  # food, recipe, batch, trip, stove, fuel …
    id: str
    name: str
    marks: tuple[Mark, ...]


def known_as(content: Content, kept: str = "") -> list[Known]:
    """Give all records of a folder with their marks, in the order of their rooms.

    `kept` is the text of `food_facts.FILE`; without it, each food is read.
    """
    told = _Words(content)
    return [
        *map(told.food, all_facts(content, kept)),
        *(told.recipe(each) for each in content.recipes.values()),
        *(told.batch(each) for each in content.batches.values()),
        *told.gear(),
        *(
            Known("trip", each.id, each.title, (_name(each.id, each.title),))
            for each in content.trips.values()
        ),
    ]


class _Words:
    """Says what is known of a folder's records in each language."""

    def __init__(self, content: Content) -> None:
        self.content = content
        self.others: dict[str, Speech] = {
            language: speech_of(language) for language in LANGUAGES if language != ENGLISH
        }
        self.every = (speech_of(ENGLISH), *self.others.values())
        self.avoided: dict[str, str] = {}
        names = batch_names(content, self.every)
        self.batch_names: Mapping[str, Mapping[str, str]] = dict(
            zip((ENGLISH, *self.others), names, strict=True)
        )

    def food(self, food: FoodFacts) -> Known:
        marks = [_name(food.id, food.name), *self._in_other_languages(food.name)]
        marks += _called(food.id)
        marks += self._of_kinds(food.kinds)
        marks += self._inside(food.inside)
        marks.append(Mark(food.state, _HAZARD, food.state))
        return Known("food", food.id, food.name, tuple(marks))

    def recipe(self, recipe: Recipe) -> Known:
        marks = [_name(recipe.id, recipe.name)]
        substances = [substance_of_ingredient(each, self.content) for each in recipe.uses]
        for meal in recipe.meals:
            said = " ".join(meal_inside(say, meal) for say in self.every)
            marks.append(Mark(f"{meal} {said}", _KIND, meal))
        for each in substances:
            names = " ".join(say.name(each.name) for say in self.every)
            words = " ".join((each.id, names, *called_by_others(each.id)))
            marks.append(Mark(words, _INSIDE, f"uses {each.name}"))
        marks += self._inside(inside_of(substances))
        return Known("recipe", recipe.id, recipe.name, tuple(marks))

    def batch(self, batch: Batch) -> Known:
        held = substance_named(batch.holds, self.content)
        name = self.batch_names[ENGLISH].get(batch.id) or f"{held.name}, {batch.method}"
        marks = [_name(batch.id, name), Mark(f"{held.id} {held.name}", _OTHER_NAME, "what went in")]
        marks += [
            Mark(told, _OTHER_NAME, f"{_LANGUAGE_NAMES[language]}: {told}")
            for language in self.others
            if (told := self.batch_names[language].get(batch.id, name)) != name
        ]
        marks += self._in_other_languages(held.name)
        marks += _called(held.id)
        marks.append(Mark(batch.method, _KIND, f"method {batch.method}"))
        marks += self._of_kinds(sorted(held.kinds))
        marks += self._inside(inside_of([held]))
        return Known("batch", batch.id, name, tuple(marks))

    def gear(self) -> Iterator[Known]:
        gear = self.content.gear
        for stove in gear.stoves.values():
            yield self._thing("stove", stove.id, stove.name, (f"burns {stove.burns}",))
        for fuel in gear.fuels.values():
            yield self._thing("fuel", fuel.id, fuel.name, (f"kind {fuel.kind}",))
        for pot in gear.pots.values():
            yield self._thing("pot", pot.id, pot.name, (pot.material,))
        for iron in gear.irons.values():
            yield self._thing("iron", iron.id, iron.name, (iron.material,))
        for pack in gear.packaging.values():
            yield self._thing("packaging", pack.id, pack.name, (f"barrier {pack.barrier}",))
        for dryer in gear.dryers.values():
            yield self._thing("dryer", dryer.id, dryer.name, (f"method {dryer.method}",))
        for sheet in gear.sheets.values():
            yield self._thing("sheet", sheet.id, sheet.id, ())

    def _thing(self, what: str, name_id: str, name: str, told: Iterable[str]) -> Known:
        marks = [_name(name_id, name), *self._in_other_languages(name)]
        marks.append(Mark(what, _KIND, f"a {what}"))
        marks += [Mark(each, _KIND, each) for each in told]
        return Known(what, name_id, name, tuple(marks))

    def _in_other_languages(self, name: str) -> Iterator[Mark]:
        for language, say in self.others.items():
            if (told := say.name(name)) != name:
                yield Mark(told, _OTHER_NAME, f"{_LANGUAGE_NAMES[language]}: {told}")

    def _of_kinds(self, kinds: Iterable[str]) -> Iterator[Mark]:
        for kind in kinds:
            yield Mark(self._avoided(kind), _KIND, f"kind {kind}")

    def _inside(self, inside: Inside) -> Iterator[Mark]:
        """Give allergens, hazards and diets of what is eaten together."""
        for name in inside.allergens:
            yield Mark(self._avoided(name), _ALLERGEN, f"allergen {name}")
        for name in inside.may_contain:
            yield Mark(self._avoided(name), _TRACE, f"may contain {name}")
        for hazard in inside.hazards:
            yield Mark(hazard, _HAZARD, f"watched for {hazard}")
        for diet in inside.diets:
            yield Mark(diet, _DIET, f"fits {diet}")

    def _avoided(self, word: str) -> str:
        """Give an allergen or kind in every language."""
        if word not in self.avoided:
            said = " ".join((word, *(avoided_said(say, word) for say in self.every)))
            self.avoided[word] = said
        return self.avoided[word]


def _called(food: str) -> Iterator[Mark]:
    """Give what others call a food."""
    for other in called_by_others(food):
        yield Mark(other, _OTHER_NAME, f"also called {other}")


def _name(record_id: str, name: str) -> Mark:
    return Mark(f"{name} {record_id}", _NAME, "name" if name else "id")
