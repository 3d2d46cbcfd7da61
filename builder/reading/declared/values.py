"""From one node to one value, whatever key it stands behind; raises `Amiss` where it is wrong."""

from __future__ import annotations

import datetime
import math
import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from builder.model.figure import Figure, Told, named, nothing
from builder.problems import as_id, did_you_mean, nearest
from builder.reading.notes import NO_ARTICLE, Amiss, refuse, with_article
from builder.reading.text.yaml_door import Node, quoted
from builder.units import DIMENSIONS, QuantityError, bare_number, read_number, read_quantity

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_ID = 60
# Windows takes these for devices, whatever ending follows: nobody there could unpack con.html.
DEVICES = frozenset(
    {"aux", "con", "nul", "prn", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
)
# Its files cannot have these in their names either, nor a space or a full stop at the end.
_NOT_IN_NAMES = re.compile(r'[<>:"|?*\\]|[ .]$')
LONGEST_TEXT = 4000
LONGEST_LINE = 200
DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[T ][0-9]{2}:[0-9]{2}")
_YEARS = (1900, 2200)
# Signs that turn the direction of what follows; they would turn the line around them.
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")


# To Unicode they are letters and signs: fillers of Korean, and Braille without a dot.
_UNSEEN_LETTERS = frozenset("\u115f\u1160\u3164\uffa0\u2800")


def can_be_id(text: str) -> bool:
    """Tell whether a text is of the form of an id; see `DEVICES` for those that are and cannot."""
    return bool(ID.fullmatch(text)) and len(text) <= LONGEST_ID


_OF_AN_ID = "lower-case letters, digits, single hyphens"


def write_id(text: str) -> str:
    """Say which id would do instead of a text that is none."""
    return f"write {as_id(text, LONGEST_ID)} ({_OF_AN_ID})"


def cannot_be_file(stem: str) -> str:
    """Give what keeps the name of a file, without its ending, from going into every kit's zip."""
    if not stem.isprintable():
        return "this file's name holds signs that nobody sees"
    if stem.lower().split(".")[0] in DEVICES or _NOT_IN_NAMES.search(stem):
        return "Windows can have no file of this name"
    return ""


def is_blank(node: Node) -> bool:
    """Tell whether nothing stands in a node, as if its key had been left out."""
    value = node.value
    return value is None or (isinstance(value, str) and not _shows(value))


def _shows(text: str) -> bool:
    """Tell whether any sign of a text can be seen: zero-width signs and fillers cannot."""
    if text.isascii():
        return bool(text.strip())
    return any(
        unicodedata.category(sign)[0] in "LNPS" and sign not in _UNSEEN_LETTERS for sign in text
    )


def has(node: Node, key: str) -> bool:
    """Tell whether a key stands in a mapping with something in it."""
    return key in node.entries and not is_blank(node.entries[key].node)


def text_of(node: Node, key: str) -> str:
    """Read a text; numbers are taken as they were written."""
    if not node.is_text:
        says = f"{key} must be a text, found {node.described()}"
        mend = "write one text" if node.is_map or node.is_list else "put it in quotes"
        refuse("not-text", says, mend)
    text = node.text.strip()
    if len(text) > LONGEST_TEXT:
        refuse(
            "text-too-long", f"{key} has {len(text)} characters", f"keep it under {LONGEST_TEXT}"
        )
    return text


def without_turns(text: str) -> str:
    """Give a text without the signs that would show it in another order than it is written."""
    return _TURNS.sub("", text)


def on_one_line(text: str) -> str:
    """Give a text as `line_of` reads it, so that a name is the same wherever it is looked up."""
    return without_turns(" ".join(text.split()))


def line_of(node: Node, key: str) -> str:
    """Read a text that must stay on one line, such as a name: breaks become spaces."""
    text = on_one_line(text_of(node, key))
    if len(text) > LONGEST_LINE:
        refuse(
            "text-too-long", f"{key} has {len(text)} characters", f"keep it under {LONGEST_LINE}"
        )
    return text


def id_of(node: Node, key: str) -> str:
    """Read an id: lower-case letters, digits and hyphens."""
    text = text_of(node, key)
    if text in DEVICES:
        says = f"{quoted(text)} is no id: Windows can have no file of that name"
        refuse("id", says, f"write {text}-1, or another word")
    if text and not can_be_id(text):
        refuse("id", f"{quoted(text)} is no id", write_id(text))
    return text


def choice_of(node: Node, key: str, options: Sequence[str]) -> str:
    """Read one of a few known words."""
    text = text_of(node, key)
    if text and text not in options:
        refuse("word-unknown", f"{key} cannot be {quoted(text)}", did_you_mean(text, options))
    return text


def flag_of(node: Node, key: str) -> bool:
    """Read true or false."""
    if not isinstance(node.value, bool):
        says = f"{key} must be true or false, found {node.described()}"
        refuse("not-a-flag", says, f"write `{key}: true` or `{key}: false`")
    return node.value


# What a key of bare numbers counts in, where people write it behind the number.
_COUNTS_IN: Mapping[str, tuple[str, ...]] = {
    "age": ("years", "year"),
    "hours": ("h",),
    "minutes": ("min",),
}


def number_of(
    node: Node,
    key: str,
    at_least: float = 0.0,
    at_most: float = 1e6,
    more_than: float | None = None,
    *,
    whole: bool = False,
) -> float:
    """Read a bare number, for keys that count or name their unit."""
    value = node.value
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        says = f"{key} takes a bare number, found {node.described()}"
        meant = bare_number(node.text, _COUNTS_IN.get(key, ())) if node.is_text else None
        told = f"such as `{key}: 2`" if meant is None else f"`{key}: {meant}`"
        refuse("not-a-number", says, f"write the number alone, {told}")
    number = float(value)
    low = more_than is not None and number <= more_than
    if not math.isfinite(number) or number < at_least or number > at_most or low:
        bound = f"above {more_than:g}, up" if more_than is not None else f"from {at_least:g}"
        says = f"{key} cannot be {node.described()}"
        refuse("out-of-range", says, f"write a number {bound} to {at_most:g}")
    if whole and number != int(number):
        says = f"{key} counts, so it cannot be {node.described()}"
        refuse("not-whole", says, f"write a whole number such as {round(number)}")
    return number


def quantity_of(node: Node, key: str, quantity: str, positive: bool = False) -> float:
    """Read a text with a unit as a float of the named quantity."""
    dimension = DIMENSIONS[quantity]
    if not node.is_text:
        says = f"{key} must be {with_article(dimension.name)}, found {node.described()}"
        refuse("quantity", says, f"write {dimension.examples}")
    try:
        value = read_quantity(node.text, quantity)
    except QuantityError as error:
        raise Amiss(error.kind, f"{key}: {error.says}", error.mend) from error
    if positive and value <= 0:
        says = f"{key} must be more than nothing, found {node.described()}"
        refuse("out-of-range", says, f"write {dimension.examples}")
    return value


_PRICE = re.compile(r"(?P<money>.+?)\s+per\s+(?P<amount>.+)")


def price_of(node: Node, key: str, quantity: str, example: str) -> float:
    """Read money for an amount, such as `3.20 per 1 kg`, as money for one of what it is read as."""
    match = _PRICE.fullmatch(text_of(node, key))
    if match is None:
        says = f"{key}: {node.described()} is no price for an amount"
        refuse("price", says, f"write it as `{key}: {example}`")
    amount = match["amount"]
    if not any(sign.isdigit() for sign in amount):
        amount = f"1 {amount}"  # per kg
    try:
        money, per = read_number(match["money"]), read_quantity(amount, quantity)
    except QuantityError as error:
        raise Amiss(error.kind, f"{key}: {error.says}", error.mend) from error
    if money < 0 or per <= 0:
        says = f"{key} cannot be {node.described()}"
        refuse("out-of-range", says, f"write it as `{key}: {example}`")
    return money / per


def time_of(node: Node, key: str, what: Literal["date", "time"]) -> datetime.datetime | None:
    """Read a calendar date, or a local date and time; None where nothing stands there."""
    form, write = _TIMES[what]
    text = text_of(node, key)
    if not text:
        return None
    try:
        if not form.fullmatch(text):
            raise ValueError
        found = datetime.datetime.fromisoformat(text)
        if not _YEARS[0] <= found.year <= _YEARS[1]:
            raise ValueError
    except ValueError:
        raise Amiss("date", f"{key}: {quoted(text)} is no {what}", f"write {write}") from None
    return found


_TIMES = {
    "date": (DATE, "year-month-day, such as 2031-09-04"),
    "time": (MOMENT, "date and time, as 2031-03-13T18:00"),
}


def items_of(node: Node, key: str, lone_item: bool = False) -> tuple[Node, ...]:
    """Read a list; with `lone_item`, one thing alone needs no list."""
    if node.is_list:
        return node.items
    if not lone_item:
        says = f"{key} must be a list, found {node.described()}"
        refuse("not-a-list", says, f"write `{key}: [{echoed(node)}]`")
    return (node,)


def check_is_record(node: Node, what: str) -> None:
    """Refuse what is no mapping where a record must stand."""
    if not node.is_map:
        says = f"{with_article(what)} is written as `key: value` lines, found {node.described()}"
        mend = "write it as {key: value, …}, or as lines indented below"
        if what == "meal" and node.is_text and (name := echoed(node)):
            mend = f"write {{cook: {name}}}, or {{eat: {name}, each: 60 g}}"
        refuse("not-a-mapping", says, mend)


def told_name(key: str, quantity: str) -> str:
    """Give the name of a told number, the unit that it is computed in at its end."""
    unit = "share" if quantity.endswith("share") else quantity.partition("_")[2]
    return f"{key}_{unit}"


def told(value: float, node: Node, name: str) -> Figure:
    """Give a number that was read as a figure that knows where it stands."""
    return Figure(value, Told(node.place, name))


def taken(default: float, name: str) -> Figure:
    """Give what is taken where a file tells nothing: a figure of its own, or nothing at all."""
    if isinstance(default, Figure):
        return default
    return named(default, name, "common-practice") if default else nothing(name, "not told")


def echoed(node: Node) -> str:
    """Give what was written, for an example of what would do, where it is short and plain."""
    plain = node.is_text and len(node.text) <= 60 and node.text.isprintable()
    return node.text if plain else "…"


def missing(what: str, key: str, example: str) -> Amiss:
    """Say that a key is required and left out."""
    this = what if what in NO_ARTICLE else f"this {what}"
    mend = f"write `{key}: {example}`" if example else f"write `{key}:`"
    return Amiss("missing", f"{this} has no `{key}`", mend)


def unknown_key(what: str, key: str, known: Iterable[str]) -> Amiss:
    """Say that a record has no such key, and which it may mean."""
    near = nearest(key, known)
    mend = f"did you mean {near}?" if near else "known are: " + ", ".join(sorted(known))
    return Amiss("key-unknown", f"{with_article(what)} has no field {quoted(key)}", mend)
