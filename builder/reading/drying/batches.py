"""The drying log: the keys of a batch, and what hangs on several of them."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from typing import Annotated, Literal

from builder.model.batch import (
    DRY_TESTS,
    METHODS,
    Batch,
    DryTest,
    Method,
    Stay,
)
from builder.model.place import Place, Places
from builder.problems import Problem, did_you_mean
from builder.reading.declared.declaring import Check, Here, Record, key, read_as
from builder.reading.declared.measures import Quantity, count
from builder.reading.declared.shapes import ByShape
from builder.reading.declared.values import has, missing
from builder.reading.declared.vocabulary import Choice, Date, Flag, Id, Items, Moment, Text, Words
from builder.reading.declared.which_keys import (
    at_least_one,
    just_one,
    left_out,
    told,
    told_as,
    where,
)
from builder.reading.drying.batch_parts import (
    WrittenHeated,
    WrittenPacks,
    WrittenStay,
    WrittenWeighing,
    places_follow_in_time,
    weighings_follow_in_time,
)
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.pictures.written import PICTURE, APicture, picture_of
from builder.reading.text.yaml_door import Node, quoted

STYLES = ("jerky",)
_BOUGHT_PACKS = "{count: 3, of: 120 g}"


def _it_is_there_to_tell_the_method(here: Here) -> None:
    is_asked = here.above.get("method", "wrong") is None
    if is_asked and here.value not in here.notes.dryers:
        says = f"there is no dryer {quoted(here.value)}"
        refuse("dryer-unknown", says, did_you_mean(here.value, here.notes.dryers))


def _method_of(method: str | None, dryer: str | None, notes: Notes) -> str:
    """Give how a batch was dried; left out, the dryer tells it; "" where that is not known."""
    if method is not None:
        return method if method in METHODS else ""
    known = notes.dryers.get(dryer or "")
    return known.method if known else ""


def _method_above(here: Here) -> str:
    return _method_of(here.above.get("method", ""), here.above.get("dryer"), here.notes)


def _it_started_before_its_end(here: Here) -> None:
    done = here.above.get("done")
    if done and here.value.date() > done:
        refuse("started-late", "this run started after the day it was done", "check both dates")


def _it_came_as_ice(here: Here) -> None:
    if _method_above(here) not in ("", "freeze-dryer"):
        refuse("ice", "only a freeze dryer draws the water out as ice", "leave `ice` out")


def _it_went_into_a_freeze_dryer(here: Here) -> None:
    if _method_above(here) not in ("", "freeze-dryer"):
        says = "only a load for the freeze dryer tells how cold it went in"
        refuse("loaded-at", says, "leave `loaded_at` out")


def _only_bought_packs_tell_what_they_hold(here: Here) -> None:
    packs: WrittenPacks = here.value
    if packs.of is not None and _method_above(here) not in ("", "bought"):
        says = "only a bought batch tells what a pack holds"
        mend = "leave `of` out: dried weight over count gives it"
        here.refuse_at(packs.place_of("of"), Amiss("packs-of", says, mend))


_OF_A_RUN_TO_COME = ("planned", "started")
_BOUGHT = {
    **told("packs"),
    "properties": {"packs": told("of"), **left_out(*_OF_A_RUN_TO_COME)["properties"]},
}
_OWN = {
    **told("fresh"),
    **at_least_one("done", "planned", "started"),
    "properties": {"packs": left_out("of")},
    **where(told("done"), {**told("dried"), **left_out("planned")}),
}
_BY_HEAT = told_as("method", *(each for each in METHODS if each != "freeze-dryer"))
_WHICH_KEYS = {
    "allOf": [
        just_one("food", "recipe"),
        at_least_one("method", "dryer"),
        where(told_as("method", "bought"), _BOUGHT, _OWN),
        where(_BY_HEAT, left_out("ice", "loaded_at")),
    ]
}


class WrittenBatch(Record, title="batch", json_schema_extra=_WHICH_KEYS):
    """A drying run that was done or is planned, or something bought dried."""

    id: Annotated[str, Id()] = key(
        "By which trips name it; left out, the food and the day, `black-beans-cooked-2031-03-14`.",
        default="",
        example="black-beans-spring",
    )
    food: Annotated[str, Text()] = key(
        "The food that was dried.", default="", example="black-beans-cooked"
    )
    recipe: Annotated[str, Text()] = key(
        "Instead of a food: the whole cooked meal that was dried.",
        default="",
        example="smoky-bean-pot",
    )
    method: Annotated[Method | None, Choice(METHODS)] = key(
        "How it was dried; left out, its dryer tells.", example="freeze-dryer"
    )
    dryer: Annotated[str, Text(), Check(_it_is_there_to_tell_the_method)] = key(
        "What it was dried in; tells the method, and whether the load was too much.",
        default="",
        example="shelf-dryer",
    )
    done: Annotated[datetime.date | None, Date()] = key(
        "The day it was dry; a trip that names it begins on that day or later.",
        example="2031-03-14",
    )
    planned: Annotated[datetime.date | None, Date()] = key(
        "Instead of `done`: the day it is going to be dry.", example="2031-03-14"
    )
    started: Annotated[datetime.datetime | None, Moment(), Check(_it_started_before_its_end)] = key(
        "When the run began; alone, without `done`, it is still in the dryer.",
        example="2031-03-13T18:00",
    )
    run: Annotated[str, Id()] = key(
        "What shared the dryer bears the same; dried in the same way, on days that overlap.",
        default="",
        example="march-14",
    )
    fresh: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "What it weighed before drying; needed unless it was bought.", example="1850 g"
    )
    dried: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "What it weighed dry; needed once it is done.", example="655 g"
    )
    ice: Annotated[float | None, Quantity("mass_g", positive=True), Check(_it_came_as_ice)] = key(
        "What a freeze dryer drew out, weighed.", example="1190 g"
    )
    packs: Annotated[WrittenPacks | None, Check(_only_bought_packs_tell_what_they_hold)] = key(
        "How it was packed.",
        example="{count: 4, in: foil-pouch, absorber: true}",
    )
    kept_at: Annotated[
        float | tuple[WrittenStay, ...],
        ByShape(
            text=Annotated[float, Quantity("kept_c")],
            items=Annotated[tuple[WrittenStay, ...], Items()],
        ),
        Check(places_follow_in_time),
    ] = key(
        "How warm packs are kept: one temperature, or the places in turn, as "
        "`[{at: 22 degC, until: 2031-06-01}, {at: -18 degC}]`. Left out, it counts as kept in a "
        "room, and each date says so.",
        default="20 degC",
        example="15 degC",
    )
    used: Annotated[int, count()] = key(
        "How many packs were eaten outside trips; trips count their own.", default=0, example="1"
    )
    best_before: Annotated[datetime.date | None, Date()] = key(
        "What a bought pack tells.", example="2032-05-01"
    )
    tests: Annotated[tuple[DryTest, ...], Words(DRY_TESTS)] = key(
        "What was done to prove it dry: two weighings two hours apart in the dryer agreed within "
        "0.5 %, a cold piece snapped, fruit left no drops in a closed jar for a week.",
        default=(),
        example="[constant, snap, jar]",
    )
    constant: Annotated[bool, Flag()] = key(
        "The first of these tests, in a key of its own.", default=False, example="true"
    )
    heated: WrittenHeated | None = key(
        "The heat step that drying itself does not give.", example="{to: 74 degC, when: before}"
    )
    style: Annotated[Literal["jerky"] | None, Choice(STYLES)] = key(
        "Meat dried in strips, to be eaten as it is.", example="jerky"
    )
    weighings: Annotated[tuple[WrittenWeighing, ...], Items(), Check(weighings_follow_in_time)] = (
        key(
            "What it weighed during the run, in the order of time.",
            default=(),
            example="[{at: 3 h, mass: 812 g}]",
        )
    )
    loaded_at: Annotated[float | None, Quantity("air_c"), Check(_it_went_into_a_freeze_dryer)] = (
        key("How cold a load went into the freeze dryer.", example="-18 degC")
    )
    picture: APicture = key("What it looked like, dry or packed.", example=PICTURE)
    notes: Annotated[str, Text()] = key(
        "What you want to remember.", default="", example="Slices of 6 mm."
    )

    @classmethod
    def amiss_among(cls, told: Mapping[str, Node], place: Place, notes: Notes) -> Iterator[Problem]:
        """Ask for what a batch of its sort must tell, and for one thing that it holds."""
        if ("food" in told) == ("recipe" in told):
            found = "not both" if "food" in told else "found neither"
            wrong = f"a batch holds one food or one recipe, {found}"
            mend = "write `food: <id>` or `recipe: <id>`"
            yield Problem(place, "food-or-recipe", wrong, mend)
        if "method" not in told and "dryer" not in told:
            yield missing("batch", "method", METHODS[0]).at(place)
        says = {each: told[each].text.strip() for each in ("method", "dryer") if each in told}
        way = _method_of(says.get("method"), says.get("dryer"), notes)
        if way == "bought":
            yield from _untold_of_bought(told, place)
        elif way:
            yield from _untold_of_own(told, place)
        for each in told["kept_at"].items[:-1] if "kept_at" in told else ():
            if each.is_map and not has(each, "until"):
                yield missing("place", "until", Date().stub).at(each.place)

    def batch(self, notes: Notes) -> Batch:
        """Give what planning reckons with."""
        method = self.method or notes.dryers[self.dryer].method
        day = self.done or self.planned or (self.started.date() if self.started else None)
        kept_at_c, stays = self._kept_at()
        return Batch(
            id=self.id or f"{self.food or self.recipe}-{day}",
            method=method,
            food=self.food or None,
            recipe=self.recipe or None,
            done=self.done,
            planned=self.planned,
            fresh_g=self.fresh,
            dried_g=self.dried,
            packs=self.packs.packs() if self.packs else None,
            kept_at_c=kept_at_c,
            kept_at_told="kept_at" in self.model_fields_set,
            stays=stays,
            used=self.used,
            heated=self.heated.heated() if self.heated else None,
            jerky=self.style == "jerky",
            tests=frozenset(self.tests) | ({"constant"} if self.constant else frozenset()),
            started=self.started,
            run=self.run,
            ice_g=self.ice,
            best_before=self.best_before,
            weighings=tuple(each.weighing() for each in self.weighings),
            loaded_at_c=self.loaded_at,
            dryer=self.dryer or None,
            picture=picture_of(self.picture),
            notes=self.notes,
            places=self._places(),
        )

    def _kept_at(self) -> tuple[float, tuple[Stay, ...]]:
        if not isinstance(self.kept_at, tuple):
            return self.kept_at, ()
        *before, last = self.kept_at
        return last.at, tuple(Stay(each.at, each.until) for each in before if each.until)

    def _places(self) -> Places:
        places = self.places()
        if self.packs is None:
            return places
        return Places(places.record, {**places.fields, "packs/in": self.packs.place_of("in")})


def _untold_of_bought(told: Mapping[str, Node], place: Place) -> Iterator[Problem]:
    if "packs" not in told:
        yield missing("batch", "packs", _BOUGHT_PACKS).at(place)
    elif told["packs"].is_map and not has(told["packs"], "of"):
        says = "a bought batch must tell what a pack holds"
        yield Problem(told["packs"].place, "missing", says, f"write `packs: {_BOUGHT_PACKS}`")
    for name in _OF_A_RUN_TO_COME:
        if name in told:
            says = f"a bought batch is not dried here, and tells no `{name}`"
            mend = f"leave `{name}` out; what is still to be bought needs no batch"
            yield Problem(told[name].place, "bought", says, mend)
    if "id" not in told and not ({"food", "recipe"} & told.keys() and "done" in told):
        yield missing("batch", "id", Id().stub).at(place)


def _untold_of_own(told: Mapping[str, Node], place: Place) -> Iterator[Problem]:
    is_done = "done" in told
    is_planned = "planned" in told or ("started" in told and not is_done)
    if is_done == is_planned:
        says = "a batch is done or planned" + (", not both" if is_done else ", found neither")
        mend = "write `done: 2031-03-14` or `planned: 2031-03-14`; while it is in the dryer "
        mend += "`started: 2031-03-13T18:00`"
        yield Problem(place, "missing", says, mend)
    if "fresh" not in told:
        says = "this batch does not tell its weight before drying"
        yield Problem(place, "missing", says, "write `fresh: 1850 g`")
    if is_done and "dried" not in told:
        says = "this batch is done but does not tell its dry weight"
        yield Problem(place, "missing", says, "write `dried: 655 g`")


def read_batch(node: Node, notes: Notes) -> Batch | None:
    """Read one batch; None where it has errors."""
    found = read_as(WrittenBatch, node, notes)
    return found.batch(notes) if found else None
