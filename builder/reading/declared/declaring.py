"""What a record is: its keys declared once, so that reading, schemas and tables say the same.

A kind of record is a class with a title and one attribute for each key: its type from
`vocabulary.py`, and `key(...)` with one sentence, an example, and what is taken where it is left
out. A key that is a word of Python ends in `_`. What hangs on several keys is a `Check` on the
last of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any, NoReturn, Self, TypeVar, get_args

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    ModelWrapValidatorHandler,
    ValidationError,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    model_validator,
)
from pydantic.fields import FieldInfo
from pydantic_core import CoreSchema, ErrorDetails, core_schema

from builder.model.figure import Figure, Told
from builder.model.place import NOWHERE, Place, Places
from builder.problems import Problem, Severity
from builder.reading.checks.usual import Range
from builder.reading.declared.values import (
    check_is_record,
    is_blank,
    items_of,
    missing,
    unknown_key,
)
from builder.reading.notes import Amiss, Judge, Notes, judge
from builder.reading.text.yaml_door import Node, as_json, read_yaml
from builder.record import dataclass

Step = str | int
# Stands before a step that is no key: which of several shapes was read. No file can hold it.
SHAPE = "\x00"


@dataclass(frozen=True, slots=True)
class KeyNotes:
    """What a key has besides what pydantic keeps of it."""

    example: str  # as one would write it in YAML
    stub: str  # what a message shows where the key is missing; "" for what its type shows
    not_used_yet: bool
    default: Any  # as one would write it

    def __call__(self, schema: dict[str, Any]) -> None:
        """Say in the JSON Schema what editors show."""
        if self.default not in (None, "", ()):
            schema["default"] = self.default
        if self.not_used_yet:
            schema["description"] += " This version does not use it yet."
        example, _ = read_yaml(self.example, "")
        if example is not None:
            schema["examples"] = [as_json(example)]


def key(
    says: str,
    *,
    required: bool = False,
    default: Any = None,
    example: str = "",
    stub: str = "",
    not_used_yet: bool = False,
) -> Any:
    """Declare a key: one sentence, and what is taken where it is left out, as one would write it.

    `not_used_yet` warns people that the key is checked and kept, and that nothing is made of it.
    """
    return Field(
        default=... if required else default,
        description=says,
        json_schema_extra=KeyNotes(example, stub, not_used_yet, default),
        # Text and numbers become figures that say they are a default, most of them once for all.
        validate_default=not isinstance(default, bool) and default not in (None, "", ()),
    )


def written(name: str) -> str:
    """Give the key as people write it: `from`, which as a name in Python must be `from_`."""
    return name.rstrip("_")


class Record(BaseModel):
    """A mapping of declared keys, made from a node of YAML; its title is what messages call it."""

    # Of most records only what holds them is asked to read, which builds them in.
    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        alias_generator=written,
        arbitrary_types_allowed=True,
        defer_build=True,
    )
    # A slot that pydantic knows nothing of: it takes its time with what is private to it.
    __slots__ = ("_node",)
    if TYPE_CHECKING:
        _node: Node

    @classmethod
    def __pydantic_init_subclass__(cls, **kwargs: Any) -> None:
        """Read each default that is a value, so that no record reads it again."""
        for name, field in cls.model_fields.items():
            for each in field.metadata if field.validate_default else ():
                if hasattr(each, "taken"):
                    field.default = each.taken(field.default, written(name))
                    field.validate_default = False

    @model_validator(mode="wrap")
    @classmethod
    def _of_node(
        cls, node: Any, validate: ModelWrapValidatorHandler[Self], info: ValidationInfo
    ) -> Self:
        check_is_record(node, title_of(cls))
        keys = keys_of(cls)
        notes: Any = info.context
        told = {
            name: entry.node
            for name, entry in node.entries.items()
            if name not in keys or not is_blank(entry.node)
        }
        for name in unused_of(cls):
            if name in told:
                notes.not_used_yet(title_of(cls), name, node.entries[name].place)
        amiss = list(cls.amiss_among(told, node.place, notes))
        notes += amiss
        cls.note_left_out(node, notes)
        record = validate(told)
        if amiss:
            raise AlreadyNoted
        object.__setattr__(record, "_node", node)  # it is frozen but for this
        return record

    @classmethod
    def amiss_among(cls, told: Mapping[str, Node], place: Place, notes: Notes) -> Iterable[Problem]:
        """Find what is wrong with which keys are told, for a kind of which that can be."""
        return ()

    @classmethod
    def note_left_out(cls, node: Node, notes: Notes) -> None:
        """Note what is odd about keys that were left out: no check of theirs is asked."""

    def place_of(self, name: str) -> Place:
        """Give the place of what stands behind a key, or of the record where it was left out."""
        node = self._node
        entry = node.entries.get(name)
        return entry.node.place if entry else node.place

    def text_of(self, name: str) -> str:
        """Give what stands behind a key as it was written; "" where it was left out."""
        entry = self._node.entries.get(name)
        return entry.node.text.strip() if entry else ""

    def places(self, *lists: str) -> Places:
        """Give the places of all fields, and of words or names in some, for the model to keep."""
        own = self._node
        entries = own.entries
        fields = {name: entry.node.place for name, entry in entries.items()}
        for name in lists:
            if name in entries:
                node = entries[name].node
                fields |= {f"{name}/{each}": inner.place for each, inner in node.entries.items()}
                for each in node.items if node.is_list else (node,):
                    if each.is_text:
                        fields[f"{name}/{each.text.strip()}"] = each.place
        return Places(own.place, fields)


Kept = TypeVar("Kept", bound=Record)


def title_of(record: type[Record]) -> str:
    """Give what messages call a record."""
    return record.model_config["title"] or ""


@cache
def keys_of(record: type[Record]) -> Mapping[str, FieldInfo]:
    """Give the keys of a record in the order they are declared, as people write them."""
    return {written(name): field for name, field in record.model_fields.items()}


@cache
def unused_of(record: type[Record]) -> tuple[str, ...]:
    """Give the keys of which nothing is made yet."""
    return tuple(name for name, field in keys_of(record).items() if notes_of(field).not_used_yet)


def notes_of(field: FieldInfo) -> KeyNotes:
    """Give what was declared of a key besides its type."""
    assert isinstance(field.json_schema_extra, KeyNotes)
    return field.json_schema_extra


def records_in(annotation: object) -> Iterator[type[Record]]:
    """Give the records that a key may hold, alone or in a list."""
    if isinstance(annotation, type) and issubclass(annotation, Record):
        yield annotation
    for each in get_args(annotation):
        yield from records_in(each)


def record_in(annotation: object) -> type[Record] | None:
    """Give the record that a key holds, the first of several; None where it holds none."""
    return next(records_in(annotation), None)


# -- checks ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Here:
    """A value that was just read, and what is known beside it."""

    value: Any
    place: Place
    above: Mapping[str, Any]  # the keys declared before it that are right
    notes: Notes

    def tell(self, amiss: Amiss, severity: Severity) -> None:
        """Say what is wrong with the value, or odd about it."""
        if severity == "error":
            raise amiss
        self.notes.append(amiss.at(self.place, severity))

    def refuse_at(self, place: Place, amiss: Amiss) -> NoReturn:
        """Refuse the value for what stands at a place inside it."""
        self.notes.append(amiss.at(place))
        raise AlreadyNoted

    def judging(self, figure: float | None) -> Judge:
        """Give what judges at the place where a figure was written, or at the value's own."""
        return judging_at(self.notes, figure, self.place)


def judging_at(notes: Notes, figure: float | None, place: Place = NOWHERE) -> Judge:
    """Give what judges at the place where a figure was written, or else at another place."""
    origin = figure.origin if isinstance(figure, Figure) else None
    there = origin.place if isinstance(origin, Told) else place
    return lambda among, value, found, usual: hold(notes, among, value, there, (found, usual))


class AlreadyNoted(ValueError):
    """Ends the reading of a value of which an error was noted."""


def hold(notes: Notes, among: Range, value: float, place: Place, said: tuple[str, str]) -> bool:
    """Hold a number against a range; raise where it cannot be."""
    odd = judge(notes, among, value, place, said)
    if odd and among.judge(value) == "impossible":
        raise AlreadyNoted
    return odd


@dataclass(frozen=True, slots=True)
class Check:
    """Looks at a value once it is read, and at the keys declared before it; raises `Amiss`."""

    look: Callable[[Here], None]

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Come after what reads the value."""
        return core_schema.with_info_wrap_validator_function(self._looked_at, handler(source))

    def _looked_at(
        self, node: object, read: ValidatorFunctionWrapHandler, info: ValidationInfo[Notes]
    ) -> Any:
        value = read(node)
        if isinstance(node, Node):
            self.look(Here(value, node.place, info.data, info.context))
        return value


# -- reading --------------------------------------------------------------------------------------


def read_as(record: type[Kept], node: Node, notes: Notes) -> Kept | None:
    """Read a node as a record; None where it has errors, which are noted all at once."""
    try:
        return record.model_validate(node, context=notes)
    except ValidationError as error:
        for each in error.errors(include_url=False, include_input=False):
            problem = _problem(each, record, node)
            if problem is not None:
                notes.append(problem)
        return None


def items_of_lists(
    record: type[Record], node: Node, notes: Notes
) -> Iterator[tuple[str, type[Record], Node]]:
    """Go through a mapping of lists: each key, the record that it holds, and each item's node.

    For a file of which the other records stand where one of them is wrong.
    """
    if not node.is_map:
        read_as(record, node, notes)  # says so
    keys = keys_of(record)
    for name, entry in node.entries.items():
        inside = record_in(keys[name].annotation) if name in keys else None
        if inside is None:
            notes.append(unknown_key(title_of(record), name, keys).at(entry.place))
        elif not is_blank(entry.node):
            if name in unused_of(record):
                notes.not_used_yet(title_of(record), name, entry.place)
            try:
                yield from ((name, inside, each) for each in items_of(entry.node, name))
            except Amiss as amiss:
                notes.append(amiss.at(entry.node.place))


def _problem(error: ErrorDetails, record: type[Record], node: Node) -> Problem | None:
    """Give an error of pydantic as people are told it."""
    amiss = error.get("ctx", {}).get("error")
    if isinstance(amiss, AlreadyNoted):
        return None
    *above, last = error["loc"] or ("",)
    if isinstance(amiss, Amiss):
        return amiss.at(_at(node, error["loc"]).place)
    owner, holder = _owner(record, above), _at(node, above)
    if error["type"] == "missing":
        field = keys_of(owner)[str(last)]
        return missing(title_of(owner), str(last), stub_of(field)).at(holder.place)
    if error["type"] == "extra_forbidden":
        place = holder.entries[str(last)].place
        return unknown_key(title_of(owner), str(last), keys_of(owner)).at(place)
    raise AssertionError(f"no vocabulary raises {error['type']}")


def stub_of(field: FieldInfo) -> str:
    """Give what a message shows behind a key that is missing."""
    shown = (each.stub for each in field.metadata if hasattr(each, "stub"))
    return notes_of(field).stub or next(shown, "{…}")


def _at(node: Node, steps: Iterable[Step]) -> Node:
    """Give the node to which keys and numbers lead; one thing alone may stand for a list."""
    for step in steps:
        if isinstance(step, str):
            node = node if step.startswith(SHAPE) else node.entries[step].node
        elif node.is_list:
            node = node.items[step]
    return node


def _owner(record: type[Record], steps: Iterable[Step]) -> type[Record]:
    among: tuple[type[Record], ...] = ()
    for step in steps:
        field = keys_of(record).get(step) if isinstance(step, str) else None
        if field is not None:
            among = tuple(records_in(field.annotation))
            record = among[0] if among else record
        else:  # a number, a free name of pairs that hold the record, or which of several it is
            named = (each for each in among if f"{SHAPE}{each.__name__}" == step)
            record = next(named, record)
    return record


def walk(record: type[Record], depth: int = 0) -> Iterator[tuple[int, str, FieldInfo]]:
    """Go through the keys of a record and of those inside it, each with how deep it lies."""
    for name, field in keys_of(record).items():
        yield depth, name, field
        for inside in records_in(field.annotation):
            yield from walk(inside, depth + 1)
