"""What was typed beside a dryer, on the page that follows its runs, and saved as a file."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from typing import Annotated, Literal

from builder.model.batch import DRY_TESTS, METHODS, DryTest, Method, Weighing
from builder.model.place import Place
from builder.problems import Problem
from builder.reading.declared.declaring import Check, Record, key, read_as
from builder.reading.declared.measures import Quantity, count
from builder.reading.declared.vocabulary import Choice, Date, Id, Items, Moment, Words
from builder.reading.drying.batch_parts import WrittenWeighing, weighings_follow_in_time
from builder.reading.notes import Amiss, Notes
from builder.reading.text.yaml_door import Node, read_yaml
from builder.record import dataclass

FORMAT = "trip-kit-runs"


class WrittenRun(Record, title="run of the file"):
    """A run that stands in the log, or a new one, with what was typed of it."""

    batch: Annotated[str | None, Id()] = key("A batch of the log.", example="apple-raw-2031-03-13")
    food: Annotated[str | None, Id()] = key("Of a new one its food.", example="apple-raw")
    recipe: Annotated[str | None, Id()] = key("Or its whole meal.", example="smoky-bean-pot")
    method: Annotated[Method | None, Choice(METHODS)] = key("How.", example="dehydrator")
    dryer: Annotated[str | None, Id()] = key("Or in what.", example="shelf-dryer")
    fresh: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "What went in.", example="3 kg"
    )
    started: Annotated[datetime.datetime | None, Moment()] = key(
        "When it went in.", example="2031-03-13T18:00"
    )
    weighings: Annotated[tuple[WrittenWeighing, ...], Items(), Check(weighings_follow_in_time)] = (
        key("What it weighed, and when.", default=(), example="[{at: 3 h, mass: 812 g}]")
    )
    tests: Annotated[tuple[DryTest, ...], Words(DRY_TESTS)] = key(
        "What was done to prove it dry.", default=(), example="[snap]"
    )
    done: Annotated[datetime.date | None, Date()] = key("The day it was dry.", example="2031-03-14")
    dried: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "What it weighed then.", example="480 g"
    )
    packs: Annotated[int | None, count(at_least=1)] = key("How many packs.", example="4")

    @classmethod
    def amiss_among(cls, told: Mapping[str, Node], place: Place, notes: Notes) -> Iterable[Problem]:
        """Ask which run it is, and for both of what ends one."""
        is_new = told.keys() & {"food", "recipe"} and {"fresh", "started"} <= told.keys()
        if "batch" not in told and not (is_new and told.keys() & {"method", "dryer"}):
            mend = (
                "name the `batch`, or food, fresh weight, start, and dryer or method of a new one"
            )
            yield Amiss("run-which", "nobody knows which run this is", mend).at(place)
        if ("done" in told) != ("dried" in told):
            says = "a run that has ended tells the day and the weight"
            yield Amiss("run-end", says, "write `done` and `dried`, or neither").at(place)


class WrittenRuns(Record, title="file of runs"):
    """All that was typed."""

    format: Annotated[Literal["trip-kit-runs"], Choice((FORMAT,))] = key(
        "What this file is.", required=True, example=FORMAT
    )
    runs: Annotated[tuple[WrittenRun, ...], Items()] = key(
        "The runs.", required=True, example="[{batch: apple-raw-2031-03-13, tests: [snap]}]"
    )


@dataclass(frozen=True, slots=True)
class TypedWeighing:
    """A weighing, and the words in which it was typed."""

    weighing: Weighing
    at: str
    mass: str


@dataclass(frozen=True, slots=True)
class TypedRun:
    """What was typed of one run; weights also in the words of the file."""

    place: Place
    batch: str | None
    holds: str  # the id of a food or recipe, of a new one
    method: Method | None
    dryer: str | None
    fresh_g: float | None
    fresh: str
    started: datetime.datetime | None
    weighings: tuple[TypedWeighing, ...]
    tests: frozenset[DryTest]
    done: datetime.date | None
    dried_g: float | None
    dried: str
    packs: int | None


def read_typed_runs(text: str, shown: str) -> tuple[tuple[TypedRun, ...], tuple[Problem, ...]]:
    """Read a file that the page saved; it is JSON, and may be YAML."""
    root, problems = read_yaml(text, shown)
    if root is None or problems:
        return (), tuple(problems)
    notes = Notes()
    found = read_as(WrittenRuns, root, notes)
    return tuple(_typed(each) for each in found.runs) if found else (), tuple(notes)


def _typed(run: WrittenRun) -> TypedRun:
    return TypedRun(
        place=run.place_of("batch"),
        batch=run.batch,
        holds=run.food or run.recipe or "",
        method=run.method,
        dryer=run.dryer,
        fresh_g=run.fresh,
        fresh=run.text_of("fresh"),
        started=run.started,
        weighings=tuple(
            TypedWeighing(each.weighing(), each.text_of("at"), each.text_of("mass"))
            for each in run.weighings
        ),
        tests=frozenset(run.tests),
        done=run.done,
        dried_g=run.dried,
        dried=run.text_of("dried"),
        packs=run.packs,
    )
