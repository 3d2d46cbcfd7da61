"""Keys that hold numbers: bare ones, numbers with a unit, and money for an amount."""

from __future__ import annotations

from functools import cache

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.figure import Figure, whole
from builder.reading.checks import usual
from builder.reading.checks.usual import Range
from builder.reading.declared.declaring import hold
from builder.reading.declared.patterns import number_schema, price_schema, quantity_schema
from builder.reading.declared.values import number_of, price_of, quantity_of, taken, told, told_name
from builder.reading.declared.vocabulary import Value
from builder.reading.notes import Notes
from builder.reading.text.yaml_door import Node
from builder.record import dataclass
from builder.units import DIMENSIONS, plain, range_like, read_quantity


class Measure(Value):
    """A value that is a number, of which a range may be usual."""

    def possible(self, among: Range | None) -> tuple[float, float]:
        """Give the least and the most that it can be."""
        raise NotImplementedError

    def range_said(self, bounds: tuple[float, float], example: str) -> str:
        """Say a range in the unit of an example."""
        raise NotImplementedError


@dataclass(frozen=True)
class Number(Measure):
    """A bare number, of a key that counts or names its unit."""

    at_least: float = 0.0
    at_most: float = 1e6
    more_than: float | None = None
    whole: bool = False
    _stub = "2"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> float:
        """Read a number and hold it against what is usual."""
        value = number_of(node, key, self.at_least, self.at_most, self.more_than, whole=self.whole)
        among = usual_here(info, key)
        if among is not None and among.judge(value):
            said = f"{key}: {node.described()}", among.usual_in("")
            hold(info.context, among, value, node.place, said)
        number = told(value, node, key)
        return whole(number) if self.whole else number

    def taken(self, default: object, key: str) -> float:
        """Give the default as a figure."""
        assert isinstance(default, (int, float))
        number = taken(default, key)
        return whole(number) if self.whole else number

    def possible(self, among: Range | None) -> tuple[float, float]:
        """Give the bounds that are refused, or those of what can be."""
        least = self.at_least if self.more_than is None else self.more_than
        return _within((least, self.at_most), among)

    def range_said(self, bounds: tuple[float, float], example: str) -> str:
        """Say a range."""
        return " to ".join(map(plain, bounds))

    def takes(self) -> str:
        """Say what may be written."""
        return "a whole number" if self.whole else "a number"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return number_schema(self.at_least, self.at_most, self.more_than, self.whole)


def count(at_least: int = 0) -> Number:
    """Give what reads how many there are of something."""
    return Number(at_least, 10_000, whole=True)


@dataclass(frozen=True)
class Quantity(Measure):
    """A number with a unit, of one dimension."""

    quantity: str
    positive: bool = False

    @property
    def stub(self) -> str:
        """Show one."""
        return DIMENSIONS[self.quantity].example

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> Figure:
        """Read a quantity and hold it against what is usual."""
        value = quantity_of(node, key, self.quantity, self.positive)
        among = usual_here(info, key)
        if among is not None and among.judge(value):
            shown = range_like(node.text, self.quantity, *among.usual)
            hold(info.context, among, value, node.place, (f"{key}: {node.described()}", shown))
        return told(value, node, told_name(key, self.quantity))

    def taken(self, default: object, key: str) -> Figure:
        """Give the default as a figure."""
        return _default(self.quantity, str(default), key)

    def possible(self, among: Range | None) -> tuple[float, float]:
        """Give the bounds of the quantity, or those of what can be."""
        dimension = DIMENSIONS[self.quantity]
        return _within((dimension.lowest, dimension.highest), among)

    def range_said(self, bounds: tuple[float, float], example: str) -> str:
        """Say a range in the unit of an example."""
        return range_like(example, self.quantity, *bounds)

    def takes(self) -> str:
        """Say what may be written."""
        dimension = DIMENSIONS[self.quantity]
        return f"{dimension.name} in {', '.join(dimension.units)}"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return quantity_schema(self.quantity, self.positive)


@cache
def _default(quantity: str, written: str, key: str) -> Figure:
    return taken(read_quantity(written, quantity), told_name(key, quantity))


@dataclass(frozen=True)
class Price(Measure):
    """Money for an amount, such as `3.20 per 1 kg`, read as money for one `unit`."""

    quantity: str  # of the amount
    of: float  # so many of what it is computed in make one unit
    unit: str

    @property
    def stub(self) -> str:
        """Show one."""
        return f"3.20 per 1 {self.unit}"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> Figure:
        """Read a price and hold it against what is usual."""
        value = price_of(node, key, self.quantity, self.stub) * self.of
        among = usual_here(info, key)
        if among is not None and among.judge(value):
            said = f"{key}: {node.described()}", among.usual_in(f"per {self.unit}")
            hold(info.context, among, value, node.place, said)
        return told(value, node, f"{key}_per_{self.unit.lower()}")

    def possible(self, among: Range | None) -> tuple[float, float]:
        """Give what can be."""
        return _within((0.0, float("inf")), among)

    def range_said(self, bounds: tuple[float, float], example: str) -> str:
        """Say a range of money for one unit."""
        return f"{' to '.join(map(plain, bounds))} per {self.unit}"

    def takes(self) -> str:
        """Say what may be written."""
        return f"money for an amount, as `{self.stub}`"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return price_schema(self.quantity, self.stub)


def _within(bounds: tuple[float, float], among: Range | None) -> tuple[float, float]:
    """Give the narrower of what is refused as wrong and of what cannot be."""
    if among is None:
        return bounds
    return max(bounds[0], among.possible[0]), min(bounds[1], among.possible[1])


def usual_here(info: ValidationInfo[Notes], key: str) -> Range | None:
    """Give what is usual for the key that is read; the title of its record is what it is called."""
    assert info.config is not None
    return usual.usual_of(info.config["title"], key)
